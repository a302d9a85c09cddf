"""How the pleats of a quarter of a skirt are laid: where each is folded, and to where the fold is brought.

Knife pleats all turn one way, from the centre front round to the centre back; in a box pleat two folds turn away from
each other, in an inverted pleat towards each other. A seam lies where it is hidden: at the sides under the last fold,
at the centre back where two folds meet. Between hip and waist more cloth is folded away: a knife pleat folds it away at
its under edge, so that the fold you see stays on the grain; the others do half of it at each fold (common practice).
The cloth needed all round is the width that is seen and twice the depth of every fold (a sewing teacher: 50 cm in
pleats of 2.5 takes 150).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Point
from drafting.pattern import Half, Level, MarkLine, NotchMark
from drafting.pattern.notches import DOUBLE_NOTCH, LEAST_APART

__all__ = [
    "BOX",
    "INVERTED",
    "KNIFE",
    "PLEATS",
    "PleatPlan",
    "deepest",
    "folds_for",
    "pleat_lines",
    "pleat_notches",
    "pleat_plan",
    "width_of",
]

KNIFE, BOX, INVERTED = "knife", "box", "inverted"
PLEATS: Final = (KNIFE, BOX, INVERTED)
_TOUCH: Final = 1e-6  # mm
_WORDS: Final = {
    Level.PLEAT_FOLD: "pleat fold",
    Level.PLEAT_PLACE: "pleat place",
    Level.PLEAT_SEAM: "seam inside the pleat",
}
_ROOM: Final = LEAST_APART + DOUBLE_NOTCH  # mm between two notches, though one be a double one
_NOTCHED: Final[Mapping[Level | None, NotchMark]] = {
    Level.PLEAT_FOLD: NotchMark.PLEAT_FOLD,
    Level.PLEAT_PLACE: NotchMark.PLEAT_PLACE,
}


PleatNotch = tuple[str, float, NotchMark]
"""What a notch is called, how far from the inner edge of its part it lies, mm, and what it marks."""


@dataclass(frozen=True, slots=True)
class _Mark:
    """One line: what it is, and how far from the centre it lies at the hip and at the waist, mm."""

    level: Level
    hip: float
    waist: float


@dataclass(frozen=True, slots=True)
class PleatPlan:
    """The pleats of a quarter, from the centre to the side.

    wide:   how much cloth they take across, mm
    shown:  the share of that which is seen at the hip; at_waist: at the waist
    hidden: where a seam would be hidden, mm from the centre
    over_side: whether the last pleat goes on over the side seam, inside it
    """

    marks: tuple[_Mark, ...]
    wide: float
    shown: float
    at_waist: float
    hidden: tuple[float, ...]
    over_side: bool = False


def folds_for(kind: str, half: Half, hip: float, wide: float) -> int:
    """How many pleats of about this width a quarter has."""
    return max(1, round(hip / wide + _short(kind, half)))


def _short(kind: str, half: Half) -> float:
    """By how much fewer widths than pleats are seen on a quarter: at the centre front half of one lies on each side."""
    if half is Half.BACK or kind == INVERTED:
        return 0.0
    return 0.5 if kind == KNIFE else -0.5


def width_of(kind: str, half: Half, long: float, count: int) -> float:
    """How much is seen of each of so many pleats on a quarter, mm."""
    return long / (count - _short(kind, half))


def deepest(kind: str, wide: float) -> float:
    """How deep the folds of a pleat so wide may be at the most, mm: deeper ones would lap over each other beneath."""
    return wide if kind == KNIFE else 0.5 * wide


def pleat_plan(kind: str, half: Half, count: int, depth: float, *, hip: float, waist: float) -> PleatPlan:
    """So many pleats of this depth on a quarter so wide at the hip and at the waist once they are folded, mm."""
    seen, at_waist = (width_of(kind, half, long, count) for long in (hip, waist))
    marks: list[_Mark] = []
    hidden: list[float] = []
    x = 0.0
    take = seen - at_waist  # of a whole pleat
    fold, place = Level.PLEAT_FOLD, Level.PLEAT_PLACE

    def mark(level: Level, by: float = 0.0) -> None:
        marks.append(_Mark(level, x, x + by))

    if kind == KNIFE and half is Half.FRONT:
        for k in range(count):
            if k:
                hidden.append(x - depth)
                mark(place, take)
            x += seen if k else 0.5 * seen
            mark(fold, 0.0 if k else -0.5 * take)
            x += 2.0 * depth if k < count - 1 else depth
        mark(place)
    elif kind == KNIFE:
        mark(place)
        for k in range(count):
            x += 2.0 * depth
            if k:
                hidden.append(x - depth)
            mark(fold)
            x += seen
            mark(place, -take)
        x += depth
        mark(fold)
    else:
        half_first = kind == BOX and half is Half.FRONT
        if half_first:
            x += 0.5 * seen
            mark(fold, -0.5 * take)
            x += 2.0 * depth
            mark(place)
        elif not half_first:
            mark(place)
        for k in range(count):
            if k or half_first:
                hidden.append(x)
                mark(place)
            x += 2.0 * depth
            mark(fold, 0.5 * take)
            x += seen
            mark(fold, -0.5 * take)
            x += 2.0 * depth
            mark(place)
    return PleatPlan(tuple(marks), x, hip / x, waist / x, tuple(hidden), kind == KNIFE)


def pleat_lines(plan: PleatPlan, low: float, high: float, *, hip: float, long: float) -> tuple[MarkLine, ...]:
    """The lines of the pleats on the part of a quarter between two places, from its left edge at x = 0, its top at
    y = 0; hip, long: how far down the hip line and the hem lie, mm. A part that begins or ends in a hidden place has a
    line along that edge.
    """
    inside = _between(plan, low, high)
    lines = []
    counts = dict.fromkeys(_WORDS, 0)
    for each in inside:
        counts[each.level] += 1
        word = _WORDS[each.level]
        top, at_hip, hem = Point(each.waist - low, 0.0), Point(each.hip - low, -hip), Point(each.hip - low, -long)
        curves: tuple[Curve, ...] = () if top.x == hem.x or hip <= 0.0 else (Line(top, at_hip), Line(at_hip, hem))
        lines.append(MarkLine(f"{word} {counts[each.level]}", top, hem, curves, each.level))
    return tuple(lines)


def pleat_notches(
    lines: Iterable[MarkLine], wide: float, taken: Iterable[float] = ()
) -> tuple[tuple[PleatNotch, ...], tuple[PleatNotch, ...]]:
    """What the pleat lines of a part so wide, mm, are notched by at its upper and at its lower cut edge: one notch
    where two lines meet, none at its ends, and none above where another notch, `taken`, stands already.
    """
    marked = [(line, _NOTCHED[line.level]) for line in lines if line.level in _NOTCHED]
    above = [(f"{line.name}, above", line.start.x, mark) for line, mark in marked]
    below = [(f"{line.name}, below", line.end.x, mark) for line, mark in marked]
    return _apart(above, (0.0, wide, *taken)), _apart(below, (0.0, wide))


def _apart(marks: Sequence[PleatNotch], taken: Sequence[float]) -> tuple[PleatNotch, ...]:
    out: list[PleatNotch] = []
    for mark in marks:
        if all(abs(mark[1] - other) >= _ROOM for other in (*taken, *(each[1] for each in out))):
            out.append(mark)
    return tuple(out)


def _between(plan: PleatPlan, low: float, high: float) -> list[_Mark]:
    """The marks of a part, with one along an edge that parts a pleat."""
    out: list[_Mark] = []
    for one, other in zip(plan.marks[::2], plan.marks[1::2], strict=True):
        if min(other.hip, high) - max(one.hip, low) <= _TOUCH:
            continue
        out.append(one if one.hip >= low - _TOUCH else _Mark(Level.PLEAT_SEAM, low, low))
        at_side = plan.over_side and other.hip >= plan.wide - _TOUCH
        parted = other.hip > high + _TOUCH or at_side
        end = min(high, plan.wide)
        out.append(_Mark(Level.PLEAT_SEAM, end, end) if parted else other)
    return out
