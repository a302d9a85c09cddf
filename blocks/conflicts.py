"""What a refused draft founders on: whatever, changed by itself, would let it be drafted, and by how little.

Whatever is said has been tried: with that change the whole garment was drafted.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Final

from drafting.body.complete import Body, Measured, complete
from drafting.body.person import Person, person
from drafting.body.plausible import doubts
from drafting.body.terms import measurement, measurement_for
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, Setting, Way
from drafting.fit.ease import EASE_WORDS
from drafting.reading.options import Option
from drafting.reading.possible_amounts import nearest_that, step_of
from drafting.reading.units import length_text, sentence_in

__all__ = ["Drafts", "conflict_named", "option_named"]

Drafts = Callable[[Body, Mapping[str, float]], bool]
"""Whether a garment can be drafted for a body with the ease asked for, mm by place."""

_COUNTS: Final = (1, 2, 4, 8, 16, 32, 64, 128)
"""By how many steps a measurement is changed, one after the other: so the least change is found first."""

_MOST: Final = 150.0
"""mm: nobody is asked to measure again for more than this (ours)."""

_NAMED: Final = 3
_NEARLY: Final = 3.0
"""How many are named at the most; and how many times the least change another may need to be named beside it."""


@dataclass(frozen=True, slots=True)
class _Mended:
    """A measurement which, changed by so many mm, lets the garment be drafted."""

    key: str
    by: float
    value: Measured


def conflict_named(
    refused: CannotDraft,
    body: Body,
    needed: Iterable[str],
    asked: Mapping[str, float],
    usual: Mapping[str, float],
    drafts: Drafts,
) -> CannotDraft:
    """The refusal, with what it is that stands in the way, and by how much.

    needed:       the measurements the garment is drawn from
    asked, usual: mm by place: the ease that was asked for, and what the table has where nothing is asked for
    An ease asked for that stands in the way by itself is named, and the nearest that can be had. Else every measurement
    the garment is drawn from is changed by itself, and those are named that need the least change; one that does not
    go with the rest of the body comes first.
    """
    if eased := list(_eased(body, asked, usual, drafts)):
        said = " ".join((refused.reason, *(sentence for sentence, _ in eased)))
        return CannotDraft(refused.measurements, said, [way for _, way in eased])
    doubted = doubts(body)
    suspects = [key for doubt in doubted for key in (doubt.key, doubt.swapped_with) if key]
    found = sorted(
        _mended(body, needed, suspects, asked, drafts), key=lambda each: (each.key not in suspects, abs(each.by))
    )
    least = min((abs(each.by) for each in found), default=0.0)
    named = [each for each in found if abs(each.by) <= _NEARLY * least or each.key in suspects][:_NAMED]
    if not named:
        keys = refused.measurements
        which = " and ".join(measurement_for(key, body.person.body).name for key in keys) or "all"
        reason = f"{refused.reason} No one measurement changed by itself mends it: measure {which} again."
        return CannotDraft(keys, " ".join((reason, *(doubt.sentence for doubt in doubted[:1]))))
    ways = ", or with ".join(_way(each, body.person) for each in named)
    these = "this" if len(named) == 1 else "these"
    reason = f"{refused.reason} It can be drafted with {ways}: measure {these} again first."
    said = " ".join((reason, *(doubt.sentence for doubt in doubted[:1])))
    mended = [Way("measurement", each.key, each.value.mm + each.by) for each in named]
    return CannotDraft((each.key for each in named), said, mended)


def option_named(
    refused: CannotDraft, block: str, option: Option, asked: object, tried: Callable[[float], bool], unit: str
) -> CannotDraft:
    """The refusal, with the option of a block that stands in the way, and the nearest that can be had of it.

    asked: what it was to be; tried: whether the garment can be drafted with another length there
    """
    nearest = nearest_that(tried, option, asked, step_of(unit))
    had = "" if nearest is None else f": {sentence_in(unit, Setting(option.name, nearest, 'mm').typed())} can be had"
    said = f'{refused.reason} It is the "{option.name}" of the {block} that was asked for{had}.'
    return CannotDraft(refused.measurements, said, [Way(block, option.name, nearest)])


def _eased(
    body: Body, asked: Mapping[str, float], usual: Mapping[str, float], drafts: Drafts
) -> Iterator[tuple[str, Way]]:
    """A sentence for each ease asked for which, as it usually is, lets the garment be drafted, and the nearest."""
    unit, step = body.person.unit, step_of(body.person.unit)
    for place, mm in asked.items():
        if place not in usual or not drafts(body, {**asked, place: usual[place]}):
            continue
        way = math.copysign(step, usual[place] - mm)
        none, enough = 0, math.ceil(abs(usual[place] - mm) / step)
        while enough - none > 1:
            middle = (none + enough) // 2
            if drafts(body, {**asked, place: mm + middle * way}):
                enough = middle
            else:
                none = middle
        nearest = mm + enough * way
        if not drafts(body, {**asked, place: nearest}):
            nearest = usual[place]
        name = EASE_WORDS.called(place).replace("_", " ")
        said = (
            f"It is the {name} ease of {length_text(mm, unit)} that was asked for: "
            f"{length_text(nearest, unit)} or {'more' if way > 0.0 else 'less'} can be had."
        )
        yield said, Way("ease", place, nearest)


def _mended(
    body: Body, needed: Iterable[str], suspects: Collection[str], asked: Mapping[str, float], drafts: Drafts
) -> list[_Mended]:
    """The measurements with the least changes, each by itself, that let the garment be drafted; none where none do.

    suspects: those that do not go with the rest of the body, which are changed as far as it takes
    """
    step = step_of(body.person.unit)
    found: dict[str, _Mended] = {}
    left, before = [body[key] for key in needed], 0
    for count in _COUNTS:
        if count * step > _MOST:
            break
        nearly = bool(found)
        for value in left:
            for way in (step, -step):
                if _drafts(body, asked, drafts, value.key, count * way):
                    by = _least(body, asked, drafts, value.key, way, before, count)
                    found[value.key] = _Mended(value.key, by, value)
                    break
        # once some are found, what needs more than twice as much is of interest only where it is suspected
        left = [value for value in left if value.key not in found and (not nearly or value.key in suspects)]
        before = count
    return list(found.values())


def _least(
    body: Body, asked: Mapping[str, float], drafts: Drafts, key: str, way: float, none: int, enough: int
) -> float:
    """The least change, a whole number of steps above `none` and up to `enough`, which is known to do."""
    while enough - none > 1:
        middle = (none + enough) // 2
        if _drafts(body, asked, drafts, key, middle * way):
            enough = middle
        else:
            none = middle
    return enough * way


def _drafts(body: Body, asked: Mapping[str, float], drafts: Drafts, key: str, by: float) -> bool:
    """Whether the garment can be drafted with one measurement changed."""
    mm = body.mm(key) + by
    low, high = measurement(key).limits(body.person.body)
    return low <= mm <= high and drafts(_changed(body, key, mm), asked)


def _changed(body: Body, key: str, mm: float) -> Body:
    """The body with one measurement as it might have been measured; what is estimated from it follows."""
    if any(value.source == "chart" for value in body.known()):
        values = tuple(replace(each, mm=mm) if each is not None and each.key == key else each for each in body.values)
        return replace(body, values=values)
    who = body.person
    return complete(person({**dict(who.measurements), key: mm}, name=who.name, body=who.body, unit=who.unit))


def _way(each: _Mended, who: Person) -> str:
    name, unit = measurement_for(each.key, who.body).name, who.unit
    now, then = length_text(each.value.mm, unit), length_text(each.value.mm + each.by, unit)
    guessed = "" if each.value.source == "measured" else f" ({each.value.source})"
    return f"{name}{guessed} {then} instead of {now}"
