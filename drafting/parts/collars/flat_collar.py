r"""The flat collar, drawn on front and back laid together at the shoulders.

It lies flat on the shoulders, where it is drawn. Drawn with front and back lapped at the shoulder ends, it has a
shorter outer edge, which makes the collar stand up at the neck: a rolled flat collar. At the back it stands up by its
width times the lap, divided by twice the shoulder (a model of ours; a lap of 4 in gives a stand of about 1 in, an old
pattern book).

        CB ______
          |      \ neck          front and back meet at the neck points and lie over each other
          |       \              at the shoulder ends by `lap`
          |        |
    width |       / \ end
          |_____/____\
          outer edge
"""

from __future__ import annotations

from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    cut_run,
    end_tangents,
    moved_all,
    run_length,
    run_reversed,
    turn,
)
from drafting.geometry.offset import parallel_run
from drafting.geometry.transform import shift
from drafting.parts.collars.collar_neck import neck_allowance, neck_edges
from drafting.parts.collars.neck_line import COLLAR_TO, NeckLine, lap_angle, neck_line, shoulder_length
from drafting.parts.collars.round_corner import round_corner
from drafting.parts.collars.turning import direction_along, drawn_from, grown_to
from drafting.parts.collars.two_layers import TURN, centre_edge, edge_allowance, layers_drawn
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.free_edge import chained, end_moved
from drafting.pattern import Derived, Edge, Pattern, Place, Role

__all__ = [
    "FLAT_COLLAR",
    "FLAT_COLLAR_TO",
    "POINTED",
    "ROUND",
    "beyond_shoulder",
    "draw_flat_collar",
    "neck_laid",
    "stand_of",
]

FLAT_COLLAR: Final = "flat collar"
FLAT_COLLAR_TO: Final = COLLAR_TO
ROUND, POINTED = "round", "pointed"

_WIDTH, _CHILDS = 60.0, 50.0  # mm: 5 to 7 cm for a woman, 4 to 5.5 for a child (common practice)
_ROUNDED: Final = 0.6  # how much of its width a round end is rounded over (ours)
_POINT: Final = 0.25  # how much longer than it is wide a pointed collar is at its ends, as a share (ours)
_LED: Final = 2.0  # over how many widths the outer edge is led out to a point


def draw_flat_collar(pattern: Pattern, derived: Derived) -> Drawn:
    """The collar and its under collar. Raises NotAPattern where there is no neck for it."""
    width = _width(pattern, derived)
    shoulder = shoulder_length(pattern)
    lapped = lap_angle(derived.length("lap"), shoulder)
    if shoulder and stand_of(width, derived.length("lap"), shoulder) > 0.5 * width:
        raise NotAPattern(FLAT_COLLAR, reason="lapped so far more of it would stand than lie: lap the shoulders less")
    line = neck_line(pattern, FLAT_COLLAR, lapped=lapped)
    ease = derived.length("ease")
    neck = neck_laid(line, line.length_to_centre() - ease)
    ends, turned = str(dict(derived.options)["ends"]), derived.length_or("turn", TURN)
    layers = [_layer(line, neck, *_edge_and_end(neck, width, ends, less)) for less in (0.0, turned)]
    return layers_drawn(pattern, derived, line, layers, ease)


def _width(pattern: Pattern, derived: Derived) -> float:
    return derived.length_or("width", _CHILDS if pattern.wearer.child else _WIDTH)


def beyond_shoulder(pattern: Pattern) -> float:
    """How far a flat collar reaches beyond the end of the shoulder, mm; 0 where none does, or there is no shoulder."""
    shoulder = shoulder_length(pattern)
    widths = [_width(pattern, derived) for derived in pattern.derived if derived.part == FLAT_COLLAR]
    return max([0.0, *(width - shoulder for width in widths)]) if shoulder else 0.0


def _layer(
    line: NeckLine, neck: tuple[Curve, ...], outer: tuple[Curve, ...], end: tuple[Curve, ...]
) -> tuple[list[Edge], list[Edge]]:
    allowance = edge_allowance(line)
    return neck_edges(neck, line.to_centre, neck_allowance(line)), [
        centre_edge(neck[-1].end, outer[0].start, allowance, ends=line.open_behind),
        Edge("outer edge", outer, Role.SEAM, allowance, Place.COLLAR_EDGE),
        Edge("front end", end, Role.SEAM, allowance, Place.COLLAR_END),
    ]


def stand_of(width: float, lap: float, shoulder: float) -> float:
    """How high a collar so wide stands up at the back, mm, with the shoulders lapped by so much."""
    return width * lap / (2.0 * shoulder)


def neck_laid(line: NeckLine, length: float) -> tuple[Curve, ...]:
    """The neck of a collar that lies like the garment's, so many mm long: from the front to the centre back, which lies
    at the origin with the collar below and to the right.
    """
    direction, whole = direction_along(line.runs())
    run = grown_to(drawn_from(direction, whole), length)
    end, along = run[-1].end, end_tangents(run[-1])[1]
    laid = moved_all(
        run, turn(end, along.angle_to(Point(-1.0, 0.0) - Point(0.0, 0.0))).then(shift(Point(0.0, 0.0) - end))
    )
    *before, last = laid
    return chained([*before, _ending(last, Point(0.0, 0.0))])


def _ending(curve: Curve, end: Point) -> Curve:
    if isinstance(curve, Cubic):
        return Cubic(curve.start, curve.c1, curve.c2, end)
    return Line(curve.start, end)


def _edge_and_end(
    neck: tuple[Curve, ...], width: float, ends: str, less: float
) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The outer edge from the centre back, and the front end; less: by how much it is smaller there, mm."""
    outer = run_reversed(parallel_run(neck, -(width - less)))
    if not outer:
        raise NotAPattern(FLAT_COLLAR, reason="the neck is too hollow for it")
    outer = chained([_starting(outer[0], Point(0.0, less - width)), *outer[1:]])
    begin, out = neck[0].start, -end_tangents(neck[0])[0]
    if ends == POINTED:
        down = (outer[-1].end - begin).unit()
        goal = outer[-1].end + (down + out) * (_POINT * width)
        outer = end_moved(outer, goal, min(_LED * width, run_length(outer)))
    if less:
        outer = cut_run(outer, run_length(outer) - less)[0]
    corner = outer[-1].end
    if ends == POINTED:
        return outer, (Line(corner, begin),)
    kept, bend, end = round_corner(outer, (Line(corner, begin),), _ROUNDED * width)
    return (*kept, bend), end


def _starting(curve: Curve, start: Point) -> Curve:
    if isinstance(curve, Cubic):
        return Cubic(start, curve.c1, curve.c2, curve.end)
    return Line(start, curve.end)
