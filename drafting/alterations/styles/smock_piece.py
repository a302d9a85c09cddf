"""The piece of a smock that hangs from its yoke: its outline and what is marked on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.techniques.cutting.clip_marks import holds
from drafting.alterations.techniques.marks.grain_line import with_grain_inside
from drafting.alterations.techniques.redrawing.redraw_run import exact_length, with_length_kept
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, fair, polyline, run_hits, run_reversed, tangent
from drafting.geometry.meet import outline_crossings
from drafting.pattern import (
    CENTRES,
    Edge,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    NotchMark,
    Piece,
    Place,
    Role,
    Seam,
    Station,
    closed,
    free_name,
    from_start,
    require_edge,
)

__all__ = ["FLAT", "WAIST", "Wide", "armhole_turned", "hanging_piece"]

FLAT: Final = 25.0
"""mm from the armhole within which nothing is gathered (common practice)."""

WAIST: Final = "waist line"
_HEM_ALLOWANCE: Final = 30.0
"""mm turned up at the hem (common practice for a straight hem): the step "hem" makes it another."""


@dataclass(frozen=True, slots=True)
class Wide:
    """The outline of a hanging piece: its seam to the yoke from the armhole to the centre, hem and side up to the arm,
    and its armhole from there up to the yoke.
    """

    top: Curve
    hem: Curve
    side: Curve
    armhole: tuple[Curve, ...]

    @property
    def centre(self) -> Line:
        """The centre, from the yoke down."""
        return Line(self.top.end, self.hem.start)


def armhole_turned(edge: Edge, turned: float, *, onward: bool) -> tuple[Curve, ...]:
    """The armhole below the yoke, from the underarm up, of its old length; its upper end is turned with the seam there.

    So it goes on from the yoke without a corner though what was left of a dart is let out into the gathers.
    """
    run = edge.curves if onward else run_reversed(edge.curves)
    if not turned:
        return tuple(run)
    arriving = tangent(run[-1], 1.0).turned(turned)
    redrawn = fair(run[0].start, tangent(run[0], 0.0), run[-1].end, arriving, steady=True)
    return with_length_kept((redrawn,), exact_length(run))


def hanging_piece(lower: Piece, wide: Wide, seam: Seam, waist: float, *, onward: bool) -> Piece:
    """The hanging piece."""
    armhole, side = require_edge(lower, Place.ARMHOLE), require_edge(lower, Place.SIDE)
    name = seam.a[0].edge if len(seam.a) == 1 else str(Place.YOKE)
    line = replace(require_edge(lower, Place.YOKE), name=name, curves=(wide.top,))
    centre = _centre_down(lower, wide.centre, onward=onward)
    named = free_name("hem", {name, armhole.name, side.name, *(edge.name for edge in centre)})
    hem = Edge(named, (wide.hem,), Role.HEM, _HEM_ALLOWANCE, Place.HEM)
    edges = [*centre, hem, replace(side, curves=(wide.side,)), replace(armhole, curves=wide.armhole), line]
    if not onward:
        edges = [replace(edge, curves=run_reversed(edge.curves)) for edge in edges[::-1]]
    closed_edges = closed(lower.name, tuple(edges))
    outline = [curve for edge in closed_edges for curve in edge.curves]
    if outline_crossings(outline):
        raise NotAPattern(lower.name, reason="its hem would cross its armhole: make it longer")
    lines = [mark for mark in lower.lines if not mark.onward and mark.level is not Level.WAIST]
    called = next((mark.name for mark in lower.lines if mark.level is Level.WAIST and not mark.onward), WAIST)
    lines.append(MarkLine(called, Point(0.0, waist), Point(1.0, waist), level=Level.WAIST))
    levels = (_across(mark, outline) for mark in lines)
    ends = [
        MarkPoint(f"centre at the {word}", at, Landmark.TAPE_CROSSES)
        for word, at in (
            ("yoke", wide.centre.start),
            ("waist", Point(wide.centre.start.x, max(waist, wide.centre.end.y))),
        )
    ]
    border = polyline(outline, 0.1)
    made = replace(
        lower,
        edges=closed_edges,
        darts=(),
        notches=tuple(_notches(lower, closed_edges, seam, onward=onward)),
        lines=tuple(mark for mark in levels if mark is not None),
        points=(*(mark for mark in lower.points if not mark.printed or holds(border, mark.at)), *ends),
        points_meant=(),
    )
    return with_grain_inside(made)


def _centre_down(lower: Piece, whole: Line, *, onward: bool) -> list[Edge]:
    """The edges of the centre from the yoke down, as long as they are, the last of them down to the hem."""
    edges = [edge for edge in lower.edges if edge.place in CENTRES][:: 1 if onward else -1]
    down, at, drawn = (whole.end - whole.start).unit(), whole.start, list[Edge]()
    for edge in edges[:-1]:
        end = at + down * edge.length
        drawn.append(replace(edge, curves=(Line(at, end),)))
        at = end
    if (whole.end - at).dot(down) < FLAT:
        raise NotAPattern(lower.name, reason="its opening would reach to the hem: make it shorter")
    return [*drawn, replace(edges[-1], curves=(Line(at, whole.end),))]


def _across(mark: MarkLine, outline: Sequence[Curve]) -> MarkLine | None:
    """A level redrawn from side to side; None where it lies off the piece."""
    hits = [hit.point for _, hit in run_hits(outline, Point(0.0, mark.start.y), Vec(1.0, 0.0))]
    if len(hits) < 2:
        return None
    low, high = min(hits, key=lambda at: at.x), max(hits, key=lambda at: at.x)
    return mark.straight(low, high) if mark.end.x >= mark.start.x else mark.straight(high, low)


def _notches(lower: Piece, edges: Sequence[Edge], seam: Seam, *, onward: bool) -> Iterator[Notch]:
    """The notches of armhole and side seam where they were from the underarm, and where the gathers begin."""
    there = {edge.name: edge for edge in edges}
    marks = {pair[0].notch for pair in seam.notches}
    for notch in lower.notches:
        edge = there.get(notch.station.edge)
        if notch.name in marks:
            line = next(each.name for each in edges if each.place is Place.YOKE)
            yield replace(notch, station=Station(line, FLAT, "start" if onward else "end"), marks=NotchMark.GATHERS_END)
        elif edge is not None and (edge.place is Place.ARMHOLE or edge.place in CENTRES):
            yield notch
        elif edge is not None and edge.place is Place.SIDE:
            old = lower.edge(edge.name)
            at = from_start(old, notch.station)
            down = old.length - at if onward else at
            if down < edge.length - FLAT:
                yield replace(notch, station=Station(edge.name, down, "end" if onward else "start"))
