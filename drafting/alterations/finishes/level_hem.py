"""A hem levelled: at every seam it lies as far below the hip line as at the centre.

A skirt hangs from the hip, so a hem that is level on the body is equally far below the hip line all round (common
practice). The centre of a front or a back says how far. A panel that does not reach the centre follows the panel that
does, so that their seam still meets.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    blend,
    cut_run,
    end_tangents,
    run_hits,
    run_length,
    run_reversed,
    split,
)
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import (
    Edge,
    EdgeRef,
    Level,
    Notch,
    Pattern,
    Piece,
    Place,
    closed,
    line_at,
    require_line,
    sewn_runs,
)

__all__ = ["beside", "levelled", "lowered_edges"]

_LEVEL: Final = 0.5
"""mm by which two sides of a seam may hang differently below the hip and be levelled alike."""

_ON_JOINT: Final = 1e-3
"""mm. The hip line meets a seam in a joint of it that lies no further off."""

_Place = tuple[str, str]
"""A piece, and an edge of it that comes down to its hem."""


@dataclass(frozen=True, slots=True)
class _Panel:
    """A piece and its hem: which of the edges beside it are lowered; the others stay as they are."""

    piece: Piece
    hem: Edge
    moving: tuple[Edge, ...]

    @property
    def at_centre(self) -> Edge | None:
        """The edge at the centre of the body, by which the piece is levelled."""
        return next((edge for edge in beside(self.piece, self.hem.name) if edge not in self.moving), None)


def beside(piece: Piece, hem: str) -> tuple[Edge, Edge]:
    """The edges before and after a hem."""
    edges = piece.edges
    at = next(k for k, edge in enumerate(edges) if edge.name == hem)
    return edges[at - 1], edges[(at + 1) % len(edges)]


def lowered_edges(pattern: Pattern, piece: Piece, hems: Mapping[str, str]) -> tuple[str, ...]:
    """The edges that come down to the hem of a piece and are made longer or shorter with it, by name.

    hems: the hems that are levelled, by piece
    """
    return tuple(edge.name for edge in _panel(pattern, piece, hems).moving)


def levelled(step: str, pattern: Pattern, hems: Mapping[str, str]) -> list[Piece]:
    """The pieces with their hems level. Where both sides of a seam hang nearly alike they change by the same.

    Raises StepRefused for a piece without a hip line, or whose hip line does not meet what runs to its hem.
    """
    panels = {name: _panel(pattern, pattern.piece(name), hems) for name in hems}
    depths = _depths(step, pattern, panels)
    lower = {
        (name, edge.name): depths[name] - _below_hip(step, panel.piece, _down(panel, edge))
        for name, panel in panels.items()
        for edge in panel.moving
    }
    for one, other in _edges_sewn_at_hems(pattern, panels):
        if abs(lower[one] - lower[other]) <= _LEVEL:
            lower[one] = lower[other] = 0.5 * (lower[one] + lower[other])
    return [
        _lowered(step, panel, {edge.name: lower[name, edge.name] for edge in panel.moving})
        for name, panel in panels.items()
    ]


def _panel(pattern: Pattern, piece: Piece, hems: Mapping[str, str]) -> _Panel:
    hem = piece.edge(hems[piece.name])
    own = beside(piece, hem.name)
    sewn = {
        ref.edge
        for _, run, other in sewn_runs(pattern, piece.name, [edge.name for edge in own])
        for ref in run
        if ref.piece == piece.name and any(each.piece in hems and each.piece != piece.name for each in other)
    }
    moving = tuple(edge for edge in own if edge.place is Place.SIDE or edge.name in sewn)
    return _Panel(piece, hem, moving)


def _depths(step: str, pattern: Pattern, panels: Mapping[str, _Panel]) -> dict[str, float]:
    """How far below the hip line the hem of each piece is to lie, mm: as at its centre, or at that of its neighbour.

    The neighbour over a seam within the front or the back is asked before that over a side seam.
    """
    depths = {
        name: _below_hip(step, panel.piece, (Line(_hip_start(step, panel.piece), _end_at_hem(panel, panel.at_centre)),))
        for name, panel in panels.items()
        if panel.at_centre is not None
    }
    met = sorted(
        _edges_sewn_at_hems(pattern, panels),
        key=lambda pair: pattern.piece(pair[0][0]).edge(pair[0][1]).place is Place.SIDE,
    )
    while len(depths) < len(panels):
        found = next(
            (
                (b[0], depths[a[0]])
                for pair in met
                for a, b in (pair, pair[::-1])
                if a[0] in depths and b[0] not in depths
            ),
            None,
        )
        if found is None:
            name = next(name for name in panels if name not in depths)
            reason = f'nothing says how far below the hip the hem of "{name}" is to lie; leave level out'
            raise StepRefused(step, reason=reason)
        depths[found[0]] = found[1]
    return depths


def _edges_sewn_at_hems(pattern: Pattern, panels: Mapping[str, _Panel]) -> Iterator[tuple[_Place, _Place]]:
    """The edges that come down to two hems and are sewn to each other there."""
    moving = {(name, edge.name) for name, panel in panels.items() for edge in panel.moving}
    for seam in pattern.seams:
        ends: tuple[tuple[EdgeRef, EdgeRef], ...] = ((seam.a[0], seam.b[0]), (seam.a[-1], seam.b[-1]))
        for one, other in dict.fromkeys(ends):
            pair = (one.piece, one.edge), (other.piece, other.edge)
            if pair[0] in moving and pair[1] in moving:
                yield pair


def _end_at_hem(panel: _Panel, edge: Edge) -> Point:
    return edge.end if edge.end in (panel.hem.start, panel.hem.end) else edge.start


def _down(panel: _Panel, edge: Edge) -> tuple[Curve, ...]:
    """An edge as it runs down to the hem."""
    return run_reversed(edge.curves) if edge.start in (panel.hem.start, panel.hem.end) else edge.curves


def _lowered(step: str, panel: _Panel, by: Mapping[str, float]) -> Piece:
    """The piece with its hem so much lower at the ends of these edges, mm, and square to both edges beside it."""
    piece, hem = panel.piece, panel.hem
    first, last = beside(piece, hem.name)
    down = {name: _lengthened(_down(panel, piece.edge(name)), more) for name, more in by.items()}
    ends: list[tuple[Point, Vec]] = []
    for edge in (first, last):
        run = down.get(edge.name)
        if run is not None:
            ends.append((run[-1].end, end_tangents(run[-1])[1]))
        else:
            end = _end_at_hem(panel, edge)
            ends.append((end, (end - _hip_start(step, piece)).unit()))
    (start, before), (end, after) = ends
    # anticlockwise the piece lies on the left, and both edges are seen running down to the hem
    leaving, arriving = before.left(), after.left()
    straight = all(
        abs(way.unit().cross((end - start).unit())) * (end - start).norm() <= SAME_PLACE for way in (leaving, arriving)
    )
    drawn: Curve = Line(start, end) if straight else blend(start, leaving, end, arriving)
    changed = [replace(hem, curves=(drawn,))]
    notches = piece.notches
    for name, run in down.items():
        side = piece.edge(name)
        upward = side.start in (hem.start, hem.end)
        new = replace(side, curves=run_reversed(run) if upward else run)
        notches = tuple(_kept(notch, name, "start" if upward else "end", side.length - new.length) for notch in notches)
        changed.append(new)
    by_name = {edge.name: edge for edge in changed}
    edges = closed(piece.name, tuple(by_name.get(edge.name, edge) for edge in piece.edges))
    return replace(piece, edges=edges, notches=notches)


def _lengthened(down: Sequence[Curve], by: float) -> tuple[Curve, ...]:
    """A run that goes down to the hem, made so much longer at its end, mm; shorter, below zero."""
    if by < -SAME_PLACE:
        return cut_run(down, run_length(down, MEASURED) + by)[0]
    last = down[-1]
    if by <= SAME_PLACE:
        return tuple(down)
    further = last.end + end_tangents(last)[1] * by
    if isinstance(last, Line):
        return (*down[:-1], Line(last.start, further))
    return (*down, Line(last.end, further))


def _kept(notch: Notch, side: str, from_hem: str, shorter: float) -> Notch:
    if notch.station.edge != side or notch.station.end != from_hem:
        return notch
    return replace(notch, station=replace(notch.station, at=notch.station.at - shorter))


def _hip_start(step: str, piece: Piece) -> Point:
    mark = line_at(piece, Level.HIP)
    if mark is None:
        raise StepRefused(step, reason=f'"{piece.name}" has no {Level.HIP} to level its hem by; leave level out')
    return mark.start


def _below_hip(step: str, piece: Piece, down: Sequence[Curve]) -> float:
    """How much of an edge that runs down to the hem lies below the hip line, mm."""
    _hip_start(step, piece)
    mark = require_line(piece, Level.HIP)
    for place, along in ((mark.start, end_tangents(mark.drawn[0])[0]), (mark.end, end_tangents(mark.drawn[-1])[1])):
        joints = [k for k, curve in enumerate(down) if abs(along.cross(curve.start - place)) <= _ON_JOINT]
        if joints:
            return run_length(down[joints[0] :], MEASURED)
        hits = run_hits(down, place, along)
        near = min(hits, key=lambda found: abs(found[1].along), default=None)
        if near is not None and (abs(near[1].along) <= _ON_JOINT or not mark.curves):
            k, hit = near
            return run_length((split(down[k], hit.t)[1], *down[k + 1 :]), MEASURED)
    raise StepRefused(step, reason=f'on "{piece.name}" the {Level.HIP} does not meet the edge that runs to the hem')
