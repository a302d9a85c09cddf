"""One pattern piece: a closed outline of named edges, the sewing line, and what is marked on it.

The cutting line is computed from the allowances when it is drawn, and never stored.
"""

from __future__ import annotations

from dataclasses import field, replace

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, UnknownName
from drafting.geometry import Curve, Move, Point, Vec, area, distance
from drafting.pattern.piece_parts import Cut, Dart, Edge, Grain, MarkLine, MarkPoint, Notch, Role, Station
from drafting.pattern.places import Identity
from drafting.pattern.remembering import Remembering

__all__ = ["Piece", "closed", "move_piece", "with_edges"]


@dataclass(frozen=True, slots=True)
class Piece(Remembering):
    """A piece of a pattern. Edges run anticlockwise from a named corner and close exactly.

    points_meant: pairs of neighbouring edges between which a corner is meant, such as the point of a V neck at the fold
    identity:     what piece it is, of which part of the body

    Raises NotAPattern for a gap, an outline that runs clockwise, two edges or marks of one name, a dart or a notch on
    an edge that is not there, or dart legs that do not meet in the apex.
    """

    name: str
    edges: tuple[Edge, ...]
    cut: Cut = Cut()
    grain: Grain | None = None
    darts: tuple[Dart, ...] = ()
    notches: tuple[Notch, ...] = ()
    lines: tuple[MarkLine, ...] = ()
    points: tuple[MarkPoint, ...] = ()
    points_meant: tuple[tuple[str, str], ...] = ()
    identity: Identity = Identity()
    _outline: tuple[Curve, ...] = field(default=(), init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not self.edges:
            raise NotAPattern(self.name, reason="it has no edges")
        at = self.edges[-1].end
        for edge in self.edges:
            start = edge.start
            if start is not at and start != at:  # mostly they are one and the same, which is quicker seen
                off = distance(at, start)
                raise NotAPattern(self.name, reason=f'a gap of {off:.3f} mm before the edge "{edge.name}"')
            at = edge.end
        names = {edge.name for edge in self.edges}
        if len(names) != len(self.edges):
            raise NotAPattern(self.name, reason="two edges have one name")
        for kind, group in (
            ("notches", self.notches),
            ("darts", self.darts),
            ("lines", self.lines),
            ("points", self.points),
        ):
            if len({mark.name for mark in group}) != len(group):
                raise NotAPattern(self.name, reason=f"two {kind} have one name")
        for notch in self.notches:
            if notch.station.edge not in names:
                raise NotAPattern(
                    self.name, reason=f'the notch "{notch.name}" is on "{notch.station.edge}", which is no edge'
                )
        for dart in self.darts:
            self._accept_dart(dart, names)
        for pair in self.points_meant:
            if not set(pair) <= names:
                raise NotAPattern(
                    self.name, reason=f"a point is meant between {' and '.join(pair)}, which are no edges"
                )
        object.__setattr__(self, "_outline", tuple(curve for edge in self.edges for curve in edge.curves))
        if area(self._outline) <= 0.0:
            raise NotAPattern(self.name, reason="its outline runs clockwise or encloses nothing")

    def _accept_dart(self, dart: Dart, names: set[str]) -> None:
        if not set(dart.legs) <= names:
            raise NotAPattern(self.name, reason=f'the dart "{dart.name}" has legs {dart.legs}, which are no edges')
        into, out = self.edge(dart.legs[0]), self.edge(dart.legs[1])
        if into.role is not Role.DART_LEG or out.role is not Role.DART_LEG:
            raise NotAPattern(self.name, reason=f'the legs of the dart "{dart.name}" are not marked as dart legs')
        if into.end != dart.apex or out.start != dart.apex:
            raise NotAPattern(self.name, reason=f'the legs of the dart "{dart.name}" do not meet in its apex')

    @property
    def grain_direction(self) -> Vec:
        """The unit direction of its grain line; straight up where it has none."""
        return Vec(0.0, 1.0) if self.grain is None else self.grain.direction

    @property
    def outline(self) -> tuple[Curve, ...]:
        """The whole sewing line as one closed run, anticlockwise."""
        return self._outline

    def edge(self, name: str) -> Edge:
        """The edge of that name; UnknownName if there is none."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise UnknownName("edge", name, [edge.name for edge in self.edges], self.name)

    def index(self, edge: str) -> int:
        """Which of its edges the one of that name is, from 0; UnknownName if there is none."""
        for place, each in enumerate(self.edges):
            if each.name == edge:
                return place
        raise UnknownName("edge", edge, [each.name for each in self.edges], self.name)

    def beside(self, edge: str, *, last: str = "") -> tuple[Edge, Edge]:
        """The edges before and after the one of that name; after another, where the last of several is named."""
        before, after = self.index(edge) - 1, self.index(last or edge) + 1
        return self.edges[before], self.edges[after % len(self.edges)]

    def beside_dart(self, dart: Dart) -> tuple[Edge, Edge]:
        """The edges on either side of the mouth of a dart, in outline order."""
        return self.beside(dart.legs[0], last=dart.legs[1])

    def dart(self, name: str) -> Dart:
        """The dart of that name; UnknownName if there is none."""
        for dart in self.darts:
            if dart.name == name:
                return dart
        raise UnknownName("dart", name, [dart.name for dart in self.darts], self.name)

    def notch(self, name: str) -> Notch:
        """The notch of that name; UnknownName if there is none."""
        for notch in self.notches:
            if notch.name == name:
                return notch
        raise UnknownName("notch", name, [notch.name for notch in self.notches], self.name)

    def line(self, name: str) -> MarkLine:
        """The marked line of that name; UnknownName if there is none."""
        for line in self.lines:
            if line.name == name:
                return line
        raise UnknownName("line", name, [line.name for line in self.lines], self.name)

    def point(self, name: str) -> Point:
        """The place of the marked point of that name; UnknownName if there is none."""
        for mark in self.points:
            if mark.name == name:
                return mark.at
        raise UnknownName("point", name, [mark.name for mark in self.points], self.name)


def closed(name: str, edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
    """The same edges with each end made exactly the next one's start, where they are within 1e-6 mm of it.

    Raises NotAPattern for a wider gap: rounding is mended, mistakes are not.
    """
    return tuple(_joined(name, edge, edges[(i + 1) % len(edges)].start) for i, edge in enumerate(edges))


def _joined(name: str, edge: Edge, goal: Point) -> Edge:
    if edge.end is goal or edge.end == goal:
        return edge
    if not edge.end.near(goal):
        off = distance(edge.end, goal)
        raise NotAPattern(name, reason=f'its "{edge.name}" ends {off:.2f} mm from where the next edge begins')
    return replace(edge, curves=(*edge.curves[:-1], replace(edge.curves[-1], end=goal)))


def with_edges(piece: Piece, *changed: Edge) -> Piece:
    """The piece with edges of the same names replaced, the gaps of rounding closed."""
    by_name = {edge.name: edge for edge in changed}
    return replace(piece, edges=closed(piece.name, tuple(by_name.get(edge.name, edge) for edge in piece.edges)))


def move_piece(piece: Piece, move: Move) -> Piece:
    """The whole piece with everything on it, moved. A mirror image keeps running anticlockwise, and keeps its names."""
    if not move.mirrors:
        edges = tuple(edge.moved(move) for edge in piece.edges)
        darts = tuple(replace(dart, apex=move.point(dart.apex)) for dart in piece.darts)
        notches = piece.notches
    else:
        edges = tuple(edge.moved(move) for edge in reversed(piece.edges))
        darts = tuple(replace(d, apex=move.point(d.apex), legs=(d.legs[1], d.legs[0])) for d in piece.darts)
        notches = tuple(replace(notch, station=_other_end(notch.station)) for notch in piece.notches)
    return replace(
        piece,
        edges=edges,
        darts=darts,
        notches=notches,
        grain=piece.grain and Grain(move.point(piece.grain.start), move.point(piece.grain.end)),
        lines=tuple(mark.moved(move) for mark in piece.lines),
        points=tuple(mark.placed(move.point(mark.at)) for mark in piece.points),
    )


def _other_end(station: Station) -> Station:
    return replace(station, end="end" if station.end == "start" else "start")
