"""The part of a marked line that lies on a piece cut out of another, and whether a point lies on it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting.geometry import Curve, Point, distance, encloses, lerp, polyline, run_hits
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import stretch
from drafting.pattern import MarkLine

__all__ = ["clipped", "holds"]

_ON_SEAM: Final = 1.0
"""mm. A place this near to the outline of a piece is as good as on it."""

_FLAT: Final = 0.1


def clipped(line: MarkLine, outline: Sequence[Curve]) -> MarkLine | None:
    """What of a line lies on a piece, in one stretch from its first place on it to its last."""
    if line.curves:
        return _clipped_curve(line, outline)
    direction = line.end - line.start
    long = direction.norm()
    hits = sorted(hit.along for _, hit in run_hits(outline, line.start, direction))
    if len(hits) % 2:
        # where it runs through a corner, what lies about its own ends decides
        hits = [at for at in hits if -1.0 <= at <= long + 1.0]
        hits = [hits[0], hits[-1]] if hits else []
    on_it = [(a, b) for a, b in zip(hits[::2], hits[1::2], strict=True) if min(b, long) - max(a, 0.0) > 1.0]
    if not on_it:
        return None
    along = direction.unit()
    # a line that ends a hair off an edge ends there; one that ends further in stays as it is
    low, high = (at if -1.0 <= at <= long + 1.0 else min(long, max(0.0, at)) for at in (on_it[0][0], on_it[-1][1]))
    return line.straight(line.start + along * low, line.start + along * high)


def holds(border: Sequence[Point], place: Point) -> bool:
    """Whether a place lies on a piece, or as good as on its outline."""
    sides = pairwise((border[-1], *border))
    return encloses(border, place) or any(_from_stretch(*side, place) <= _ON_SEAM for side in sides)


def _clipped_curve(line: MarkLine, outline: Sequence[Curve]) -> MarkLine | None:
    """The same of a line that is not straight: from the first to the last of its stretches that lie on the piece."""
    border = polyline(outline, _FLAT)
    met = {0.0, float(len(line.curves))} | {i + meeting.at_a for i, _, meeting in run_meetings(line.curves, outline)}
    places = sorted(met)
    parts = [(a, b) for a, b in pairwise(places) if stretch(line.curves, a, b)]
    on_it = [(a, b) for a, b in parts if holds(border, stretch(line.curves, a, 0.5 * (a + b))[-1].end)]
    if not on_it:
        return None
    kept = stretch(line.curves, on_it[0][0], on_it[-1][1])
    return line.through(kept, kept[0].start, kept[-1].end)


def _from_stretch(one: Point, other: Point, place: Point) -> float:
    step = other - one
    size = step.dot(step)
    share = min(1.0, max(0.0, (place - one).dot(step) / size)) if size else 0.0
    return distance(lerp(one, other, share), place)
