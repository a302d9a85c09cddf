"""The front of a knit top made a cardigan's: cut open, a V for a neck, its edges half a band short of the centre.

The band lies over the centre line, buttoned on it, so each front ends half of the band's width short of it (common
practice). The V runs into the front edge without a corner, so that one straight band goes on from hem to hem.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import (
    Cubic,
    Line,
    Point,
    Vec,
    bend,
    cut_run,
    end_tangents,
    fair,
    run_hits,
    run_length,
    run_reversed,
    split,
)
from drafting.pattern import Cut, Edge, Grain, Landmark, MarkLine, Piece, Place, Role, closed, require_edge

__all__ = ["cardigan_front"]

_LEAST_STRAIGHT: Final = 120.0  # mm of front edge below the V, for buttons (ours)
_ROUNDED: Final = 40.0  # mm of either leg of the corner over which the front edge turns into the V (ours)
_BOWED: Final = 0.3  # of what it turns toward the shoulder, by which the V sets out beyond its chord (ours)
_TRIES: Final = 4
_GRAIN: Final = 25.0  # mm from the front edge


def cardigan_front(front: Piece, short: float, deep: float) -> Piece:
    """The front, its centre line at x = 0 and the rest left of it, cut open.

    short: how far short of the centre line its edge lies; deep: the level at which the V ends, mm
    Raises CannotDraft where the V leaves no edge for buttons.
    """
    hem, neck = require_edge(front, Place.HEM), require_edge(front, Place.NECK)
    shoulder = max((neck.start, neck.end), key=lambda at: at.y)
    bottom = hem.start if abs(hem.start.x) < abs(hem.end.x) else hem.end
    if deep - bottom.y < _LEAST_STRAIGHT:
        raise CannotDraft((), "The V reaches too near the hem to be buttoned: make it less deep, or the top longer.")
    foot = Point(-short, deep)
    arriving = end_tangents(neck.curves[-1])[1] if neck.end == shoulder else -end_tangents(neck.curves[0])[0]
    try:
        rounded, v = _v_neck(foot, shoulder, arriving)
    except NotAPattern as none:
        raise CannotDraft((), f"No neck runs smoothly into the front edge ({none.reason}).") from none
    hem_run = _cut_short(hem, short)
    edges: list[Edge] = []
    for edge in front.edges:
        if edge is hem:
            edges.append(replace(edge, curves=hem_run))
        elif edge is neck:
            edges.append(replace(edge, curves=(v,) if neck.end == shoulder else run_reversed((v,))))
        elif edge.place is Place.CENTRE_FRONT:
            low = min((hem_run[0].start, hem_run[-1].end), key=lambda at: abs(at.x + short))
            up = (Line(low, foot), rounded)
            edges.append(replace(edge, curves=up if edge.end.y > edge.start.y else run_reversed(up), role=Role.OPENING))
        else:
            edges.append(edge)
    return replace(
        front,
        edges=closed(front.name, tuple(edges)),
        cut=Cut(2, mirror=True),
        grain=_grain(short, deep, bottom.y),
        lines=tuple(_line_short(line, short) for line in front.lines),
        points_meant=((neck.name, require_edge(front, Place.CENTRE_FRONT).name),),
        points=tuple(point for point in front.points if point.landmark is Landmark.BUST_POINT),
    )


def _grain(short: float, deep: float, bottom: float) -> Grain:
    """The grain line beside the front edge, below the V."""
    x, long = -short - _GRAIN, deep - bottom
    return Grain(Point(x, bottom + 0.25 * long), Point(x, bottom + 0.85 * long))


def _v_neck(foot: Point, shoulder: Point, arriving: Vec) -> tuple[Cubic, Cubic]:
    """The front edge rounded into the V, and the V from there to the shoulder, which it meets in that direction."""
    up = Vec(0.0, 1.0)
    leaning = (shoulder - foot).unit()
    for _ in range(_TRIES):
        begins = foot + (up + leaning) * _ROUNDED
        chord = (shoulder - begins).unit()
        leaning = chord.turned(_BOWED * arriving.angle_to(chord))
    return bend(foot, up, begins, leaning, tight=0.6), fair(begins, leaning, shoulder, arriving, steady=True)


def _cut_short(hem: Edge, short: float) -> tuple[Line | Cubic, ...]:
    """The hem as far as the edge of the front."""
    ((at, hit),) = run_hits(hem.curves, Point(-short, 0.0), Vec(0.0, 1.0))
    before = run_length((*hem.curves[:at], split(hem.curves[at], hit.t)[0]))
    one, other = cut_run(hem.curves, before)
    return one if abs(hem.start.x) > abs(hem.end.x) else other


def _line_short(line: MarkLine, short: float) -> MarkLine:
    """A level line that ends at the edge instead of at the centre."""
    start, end = (Point(min(at.x, -short), at.y) for at in (line.start, line.end))
    return replace(line, start=start, end=end)
