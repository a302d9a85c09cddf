"""The shape of a line over a dart's mouth, so that it lies on its neighbour when the dart is folded and pressed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry.crossing import run_hits
from drafting.geometry.curve import Curve, Line, tangent
from drafting.geometry.outline import run_reversed, starting_at, straight_run, stretch
from drafting.geometry.point import Point, distance
from drafting.geometry.transform import mirror, moved_all

__all__ = ["Mouth", "mouth_folds", "mouth_roof"]

_NO_FOLD: Final = 1e-6  # the legs lie in one line, and nothing says on which side the fold is
_WIDEST_PEAK: Final = 4.0  # a peak further out than this many mouths is not a shape one could fold


@dataclass(frozen=True, slots=True)
class Mouth:
    """A dart in the place of its two legs: its apex, and whether it is pressed over the margin before or after it.

    straight: whether the line over it runs straight from leg to leg, as the edge beside it rises steeply
    """

    apex: Point
    toward_before: bool
    straight: bool = False


def mouth_roof(before: Sequence[Curve], mouth: Mouth, after: Sequence[Curve]) -> tuple[Curve, ...]:
    """The line over a dart's mouth from the line before it to the line after it, both arriving at the dart's legs.

    When the dart is folded along its legs and pressed, this line lies on the line it is pressed over: it is that
    line's mirror image in the near leg up to the fold, and the mirror image of that in the fold from there on.
    """
    start, end = before[-1].end, after[0].start
    if mouth.straight:
        return straight_run(start, end)
    if mouth.toward_before:
        return _roof(tuple(before), mouth.apex, start, end) or straight_run(start, end)
    return run_reversed(_roof(run_reversed(after), mouth.apex, end, start) or straight_run(end, start))


def mouth_folds(before: Sequence[Curve], mouth: Mouth, after: Sequence[Curve]) -> bool:
    """Whether there is such a line: else nothing that could be cut would lie there when the dart is folded."""
    start, end = before[-1].end, after[0].start
    if mouth.toward_before:
        return _roof(tuple(before), mouth.apex, start, end) is not None
    return _roof(run_reversed(after), mouth.apex, end, start) is not None


def _roof(line: tuple[Curve, ...], apex: Point, start: Point, end: Point) -> tuple[Curve, ...] | None:
    """The roof of a dart pressed over the line that arrives at `start`; None where no fold could have a peak."""
    near, far = start - apex, end - apex
    if near.norm() == 0.0 or far.norm() == 0.0:
        return None
    fold = near.unit() + far.unit()
    if fold.norm() <= _NO_FOLD:
        return None
    width = distance(start, end)
    first = line[0]
    tail = Line(first.start - tangent(first, 0.0) * (_WIDEST_PEAK * width), first.start)
    image = moved_all(run_reversed((tail, *line)), mirror(apex, near))
    meets = [(i, hit) for i, hit in run_hits(image, apex, fold) if hit.along > 0.0]
    if not meets:
        return None
    i, hit = meets[0]
    if distance(hit.point, start) > _WIDEST_PEAK * width:
        return None
    half = stretch(image, 0.0, i + hit.t)
    other = run_reversed(moved_all(half, mirror(apex, fold)))
    roof = _pinned((*half, *other), start) if half else ()
    landing = roof[-1].end if roof else start
    if landing.near(end):
        return run_reversed(_pinned(run_reversed(roof), end))
    return (*roof, *straight_run(landing, end))


def _pinned(run: tuple[Curve, ...], start: Point) -> tuple[Curve, ...]:
    """The run with its start put right by the rounding of a mirror image."""
    return (starting_at(run[0], start), *run[1:]) if run else ()
