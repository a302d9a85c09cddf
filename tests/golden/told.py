"""Many answers in one line that shows any change of them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import fields, is_dataclass

from drafting.errors import TrueseamError
from drafting.pattern import Dart, Edge, MarkPoint, Piece, Seam

__all__ = ["told"]


def told(asked: Iterable[Callable[[], object]]) -> str:
    """How many numbers the answers hold, and their sum, that weighs what stands later more; each refusal in words."""
    numbers, refusals = list[float](), dict[str, None]()
    for each in asked:
        try:
            numbers += _numbers(each())
        except TrueseamError as refused:
            refusals[str(refused)] = None
    total = sum(each * (1.0 + k % 101 / 7.0) for k, each in enumerate(numbers))
    return "; ".join([f"{len(numbers)}, {total:.9g}", *refusals])


def _numbers(value: object) -> Iterator[float]:
    """Every number in a value, in order.

    A word counts as the sum of its letters, in thousandths, so that it outweighs no length; a piece and what stands on
    it as its name; what is not there, or has no end, as 0.
    """
    if isinstance(value, str):
        yield sum(map(ord, value)) / 1000.0
    elif isinstance(value, bool | int | float):
        yield float(value) if math.isfinite(value) else 0.0
    elif isinstance(value, Mapping):
        yield from _numbers(list(value.items()))
    elif isinstance(value, Set):
        yield from _numbers(sorted(value, key=str))
    elif isinstance(value, Iterable):
        for each in value:
            yield from _numbers(each)
    elif isinstance(value, Piece | Edge | Dart | MarkPoint | Seam):
        yield from _numbers(value.name)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _numbers(getattr(value, field.name))
    else:
        yield 0.0
