"""Pieces made flat for a picture of the garment: darts closed, panels laid together.

A dart takes its cloth out of a plane, so no flat drawing has all lengths. An upright dart at the waist draws in
what lies beyond it, at every height by its width there; a level one draws up what lies below it. Beyond any other dart
the piece is turned about the dart's point until the legs meet, less and less the further round one goes. A panel is
bent onto the seam it is sewn to. All are maps of places to places.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Point, Vec, distance, lerp, polyline
from drafting.pattern import CENTRES, Dart, Edge, Level, Piece, Place, Role, dart_mouth, dart_places, edges_at, lines_at
from drafting.pattern.cutting import is_upright

__all__ = ["FlatShape", "bent_onto", "centre_line", "closed_darts", "flat_shape", "mapped_shape", "without_laps"]

_AROUND: Final = math.radians(100.0)
"""How far round its point the closing of a dart is felt."""

_FADES: Final = 150.0
"""mm from a seam within which a panel is bent to meet it."""

_STEP: Final = 12.0
"""mm between the places of a line, about."""

Map = Callable[[Point], Point]


@dataclass(frozen=True, slots=True)
class FlatShape:
    """A piece made flat: its edges by name as lines of places in the order of its outline, its sewn darts and the
    mouths of its pockets.

    points:   its marked points, by name
    stitched: what is stitched on the right half only, as a fly
    """

    piece: Piece
    edges: tuple[tuple[Edge, tuple[Point, ...]], ...]
    darts: tuple[tuple[Point, ...], ...]
    points: tuple[tuple[str, Point], ...]
    stitched: tuple[tuple[Point, ...], ...] = ()

    @property
    def outline(self) -> tuple[Point, ...]:
        """Round it once, without the legs of its darts."""
        return tuple(p for _, line in self.edges for p in line)

    def line(self, *places: Place) -> tuple[Point, ...]:
        """Its edges at these places, one behind the other anticlockwise; empty where it has none."""
        names = [edge.name for edge in edges_at(self.piece, *places)]
        lines = {edge.name: line for edge, line in self.edges}
        return tuple(p for name in names if name in lines for p in lines[name])


def flat_shape(piece: Piece) -> FlatShape:
    """The piece with its darts closed."""
    close = closed_darts(piece)
    edges = tuple((edge, _line(edge.curves, close)) for edge in piece.edges if edge.role is not Role.DART_LEG)
    darts = [_line(piece.edge(_kept_leg(piece, dart)).curves, close) for dart in piece.darts]
    mouths, stitched = (
        [_line(line.drawn, close) for line in lines_at(piece, level)] for level in (Level.POCKET, Level.STITCHING)
    )
    points = tuple((mark.name, close(mark.at)) for mark in piece.points)
    return FlatShape(piece, edges, (*darts, *mouths), points, tuple(stitched))


def mapped_shape(shape: FlatShape, place: Map) -> FlatShape:
    """The same shape, every place of it moved."""
    return FlatShape(
        shape.piece,
        tuple((edge, tuple(map(place, line))) for edge, line in shape.edges),
        tuple(tuple(map(place, line)) for line in shape.darts),
        tuple((name, place(at)) for name, at in shape.points),
        tuple(tuple(map(place, line)) for line in shape.stitched),
    )


def closed_darts(piece: Piece) -> Map:
    """Where each place of a piece lies when its darts are closed, one after the other."""
    place: Map = _stay
    for dart in piece.darts:
        place = _after(place, _closing(piece, dart, place))
    return place


def _stay(p: Point) -> Point:
    return p


def _after(first: Map, then: Map) -> Map:
    return lambda p: then(first(p))


def _closing(piece: Piece, dart: Dart, before: Map) -> Map:
    """The map that closes one dart, on the piece with those before it closed."""
    one, other = dart_mouth(piece, dart)
    near, far = (one, other) if _is_nearer(piece, one, other) else (other, one)
    near, far, apex = before(near), before(far), before(dart.apex)
    if Place.WAIST in dart_places(piece, dart):
        return _drawn_in(apex, near, far)
    if not is_upright(piece, dart):
        high, low = (near, far) if near.y > far.y else (far, near)
        close = _drawn_in(_swapped(apex), _swapped(high), _swapped(low))
        return lambda p: _swapped(close(_swapped(p)))
    return _turned_in(apex, near, far)


def _swapped(p: Point) -> Point:
    return Point(p.y, p.x)


def _drawn_in(apex: Point, near: Point, far: Point) -> Map:
    """Rows are drawn together: what lies beyond the far leg moves by the width of the dart at its height."""

    def place(p: Point) -> Point:
        depth = 0.5 * (near.y + far.y) - apex.y
        share = min(1.0, max(0.0, (p.y - apex.y) / depth)) if depth else 0.0
        inner, outer = (apex.x + share * (end.x - apex.x) for end in (near, far))
        beyond = (p.x - inner) / (outer - inner) if outer != inner else 0.0
        beyond = min(1.0, max(0.0, beyond))
        return Point(p.x - beyond * (outer - inner), p.y - beyond * share * (far.y - near.y))

    return place


def _turned_in(apex: Point, near: Point, far: Point) -> Map:
    """What lies beyond the far leg is turned about the point of the dart until that leg lies on the near one."""
    leg = far - apex
    angle = (near - apex).angle_to(leg)

    def place(p: Point) -> Point:
        arm = p - apex
        beyond = math.copysign(1.0, angle) * leg.angle_to(arm) + 1e-9 if arm.norm() > 0.0 else -1.0
        return apex + _turned(arm, -angle * (1.0 - beyond / _AROUND)) if 0.0 <= beyond < _AROUND else p

    return place


def _turned(arm: Vec, angle: float) -> Vec:
    c, s = math.cos(angle), math.sin(angle)
    return Vec(c * arm.x - s * arm.y, s * arm.x + c * arm.y)


def _kept_leg(piece: Piece, dart: Dart) -> str:
    one, other = dart_mouth(piece, dart)
    return dart.legs[0 if _is_nearer(piece, one, other) else 1]


def _is_nearer(piece: Piece, one: Point, other: Point) -> bool:
    """Whether the one end of a mouth lies nearer the centre of the body than the other; the upper one where neither."""
    x = centre_line(piece)
    near, far = abs(one.x - x), abs(other.x - x)
    return near < far if abs(near - far) > 0.5 * distance(one, other) else one.y > other.y


def centre_line(piece: Piece) -> float:
    """Where the centre of the body is on a piece, mm across; where nothing marks it, the edge far from the side."""
    marked = [line.start.x for line in piece.lines if line.level in ("centre front line", "centre back line")]
    edges = [edge.start.x for edge in piece.edges if edge.place in CENTRES]
    if marked or edges:
        return (marked or edges)[0]
    sides = edges_at(piece, Place.SIDE, Place.ARMHOLE)
    xs = [p.x for edge in piece.edges for p in (edge.start, edge.end)]
    side = sides[0].start.x if sides else max(xs)
    return min(xs) if side - min(xs) > max(xs) - side else max(xs)


def bent_onto(own: Sequence[Point], goal: Sequence[Point]) -> Map:
    """The map that lays a line onto another, end on end; what is far from it is moved as one, without being bent."""
    begin, angle = own[0], (own[-1] - own[0]).angle_to(goal[-1] - goal[0])
    middle = lerp(goal[0], goal[-1], 0.5)
    centre = begin + _turned(lerp(own[0], own[-1], 0.5) - begin, angle)

    def rigid(p: Point) -> Point:
        return begin + _turned(p - begin, angle) + (middle - centre)

    laid = tuple(map(rigid, own))
    gaps = [at_share(goal, share) - at_share(laid, share) for share in _shares(laid)]

    def place(p: Point) -> Point:
        moved = rigid(p)
        nearest = min(range(len(laid)), key=lambda k: distance(laid[k], moved))
        return moved + gaps[nearest] * max(0.0, 1.0 - distance(laid[nearest], moved) / _FADES)

    return place


def at_share(line: Sequence[Point], share: float) -> Point:
    """The place at a share of the length of a line."""
    lengths = [distance(a, b) for a, b in pairwise(line)]
    left = share * sum(lengths)
    for k, length in enumerate(lengths):
        if left <= length:
            return lerp(line[k], line[k + 1], left / length if length else 0.0)
        left -= length
    return line[-1]


def _shares(line: Sequence[Point]) -> list[float]:
    gone, at = 0.0, [0.0]
    for a, b in pairwise(line):
        gone += distance(a, b)
        at.append(gone)
    return [each / gone if gone else 0.0 for each in at]


def _line(curves: Iterable[Curve], place: Map) -> tuple[Point, ...]:
    """Places along curves, as near each other as a picture needs, where the map puts them."""
    corners = polyline(tuple(curves), 0.3)
    dense = [corners[0]]
    for a, b in pairwise(corners):
        count = max(1, round(distance(a, b) / _STEP))
        dense += [lerp(a, b, (k + 1) / count) for k in range(count)]
    return tuple(map(place, dense))


def without_laps(shape: FlatShape) -> FlatShape:
    """A piece whose lapped shoulders are drawn to the shoulder only: the rest lies behind, or over the other half."""
    lap = shape.line(Place.LAP_END)
    if not lap:
        return shape
    free = shape.line(Place.SHOULDER)
    neck = min((free[0], free[-1]), key=lambda p: min(distance(p, q) for q in shape.line(Place.NECK)))
    armhole = max((lap[0], lap[-1]), key=lambda p: min(distance(p, q) for q in free))
    line = (armhole, neck) if free[-1] == neck else (neck, armhole)
    edges = tuple(
        (edge, line if edge.place is Place.SHOULDER else (armhole, armhole) if edge.place is Place.LAP_END else drawn)
        for edge, drawn in shape.edges
    )
    return replace(shape, edges=edges)
