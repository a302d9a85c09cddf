"""An option of a block, a part or a step as a field that she fills in: what she wrote, what may be written, a scale."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Any, Final, Protocol

from output.api.wording import sentence_in, value_text
from output.page.views.data import Data, both_units
from output.page.views.shown import Shown

__all__ = ["OptionLike", "asked_text", "field_of", "has_meaning", "scale_of", "shown_first", "typed_text"]

_INCH: Final = 25.4
_REACH: Final = 120.0
"""mm to either side of 0 that a scale reaches at least (ours)."""


class OptionLike(Protocol):
    """An option as the tables of blocks, parts and alterations list it."""

    @property
    def name(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def about(self) -> str: ...
    @property
    def low(self) -> float | None: ...
    @property
    def high(self) -> float | None: ...
    @property
    def default(self) -> Any: ...
    @property
    def choices(self) -> tuple[str, ...]: ...
    @property
    def goes_with(self) -> tuple[str, tuple[str, ...]] | tuple[()]: ...
    @property
    def seldom(self) -> bool: ...


def field_of(option: OptionLike, key: str, written: object, value: Any, unit: str) -> Data:
    """A field.

    key:     what it is called in the file; name: the same in words
    written: what stands in the file; None where nothing does
    value:   that as it was read, or what stands for it: mm, a fraction of one, degrees, a text, yes or no
    The data: `text` is what she wrote, or what stands for it, `hers` whether she wrote it, `other` a length in the
    other unit; `low` and `high` are all that may be asked for, `scale` what a slider shows of it, with its `step`, in
    the unit of `value`; None where there is nothing to slide. `goes_with` is that of the option.
    """
    default = option.default
    required = not (default is None or isinstance(default, (str, float, int, bool)))
    number = value if isinstance(value, (int, float)) and not isinstance(value, bool) else None
    is_length = option.kind == "length"
    return {
        "key": key,
        "name": key.replace("_", " "),
        "kind": option.kind,
        "about": sentence_in(unit, option.about),
        "required": required,
        "hers": written is not None,
        "text": typed_text(written) if written is not None else value_text(value, option.kind, unit),
        "value": value,
        "other": both_units(number, unit, written)[1] if is_length else "",
        "default": "" if required else value_text(default, option.kind, unit),
        "low": option.low,
        "high": option.high,
        "scale": scale_of(option, number, unit),
        "choices": list(option.choices),
        "seldom": option.seldom,
        "goes_with": list(option.goes_with),
    }


def has_meaning(option: OptionLike, values: Mapping[str, Any]) -> bool:
    """Whether an option has a meaning beside the values of the others: no zip's length where there are buttons."""
    if not option.goes_with:
        return True
    other, meant = option.goes_with
    return values.get(other) in meant


def shown_first(fields: Iterable[Data], *, most: int = 3) -> list[Data]:
    """The fields with `first`: whether they stand in front, the others being folded away.

    In front are those that she wrote or has to write, what kind a thing is, and the first numbers, at most so many.
    """
    out, numbers = [], 0
    for field in fields:
        often = not field["seldom"]
        is_kind = field["kind"] == "choice"
        numbers += often and not is_kind
        first = field["hers"] or field["required"] or (often and (is_kind or numbers <= most))
        out.append(field | {"first": first})
    return out


def asked_text(shown: Shown, *at: str | int) -> str | None:
    """What was asked for at a place and could not be had, as she typed it; None for nothing."""
    return typed_text(shown.asked[at]) if at in shown.asked else None


def typed_text(written: object) -> str:
    """What stands in a file, as she would type it: texts without their quotes, yes and no for true and false."""
    if isinstance(written, bool):
        return "yes" if written else "no"
    return str(written)


def scale_of(option: OptionLike, value: float | None, unit: str) -> Data | None:
    """What a slider shows of the range of an option, so that a hand can set it to a millimetre or an eighth.

    All of a short range; of a long one what lies around 0 and around the value.
    """
    low, high = option.low, option.high
    if low is None or high is None or option.kind not in ("length", "number", "percent", "angle"):
        return None
    if option.kind != "length":
        whole = all(float(each).is_integer() for each in (low, high))
        step = 0.05 if option.kind == "percent" else 1.0 if whole else 0.1
        return {"low": low, "high": high, "step": step, "mark": step * (2 if option.kind == "percent" else 5)}
    inches = unit == "in"
    mark = _INCH if inches else 10.0
    step = _INCH / 8.0 if inches else 1.0
    at = value if value is not None else low if low > 0.0 else 0.0
    if high - low <= 2.0 * _REACH + 60.0:
        return {"low": low, "high": high, "step": step, "mark": mark if high - low > 3.0 * mark else mark / 2.0}
    if low > 0.0 and at > low + 2.0 * _REACH:
        first, last = at - _REACH - 80.0, at + _REACH + 80.0
    else:
        first, last = (min(-_REACH, 1.5 * at), max(_REACH, 1.5 * at)) if low < 0.0 else (low, max(_REACH, 1.6 * at))
    first = max(low, math.floor(first / mark) * mark)
    last = min(high, math.ceil(last / mark) * mark)
    return {"low": first, "high": last, "step": step, "mark": mark}
