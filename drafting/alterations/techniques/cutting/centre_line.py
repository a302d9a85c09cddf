"""The centre line of a garment, from piece to piece downward: the edges it is made of, and how they are redrawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from drafting.alterations.techniques.cutting.split_edges import (
    EdgePart,
    made_of,
    renamed_notches,
    whole_edge,
    with_edges_split,
)
from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Point, line_hits, run_ends, run_length, run_reversed
from drafting.geometry.outline import straight_run
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Across,
    Along,
    Bent,
    Between,
    Cut,
    Edge,
    EdgeRef,
    MarkLine,
    Measure,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Tape,
    closed,
    edges_at,
    free_name,
    relaid,
    seam_allowance,
)

__all__ = [
    "Beyond",
    "CentreLine",
    "centre_lines",
    "centre_part",
    "hangs_from",
    "laid_to_centre",
    "to_new_edge",
    "with_beyond",
    "with_centre",
    "with_seam_beyond",
]


@dataclass(frozen=True, slots=True)
class CentreLine:
    """The centre line of one piece.

    edges:    its edges in outline order, and the edges before and after them
    downward: whether the outline runs down it
    """

    piece: Piece
    edges: tuple[Edge, ...]
    before: Edge
    after: Edge
    downward: bool

    @property
    def upper(self) -> Edge:
        """The edge at its upper end."""
        return self.before if self.downward else self.after

    @property
    def lower(self) -> Edge:
        """The edge at its lower end."""
        return self.after if self.downward else self.before

    @property
    def down(self) -> tuple[Curve, ...]:
        """Its curves from top to bottom."""
        run = tuple(curve for edge in self.edges for curve in edge.curves)
        return run if self.downward else run_reversed(run)

    @property
    def top(self) -> Point:
        """Its upper end."""
        return self.down[0].start

    @property
    def bottom(self) -> Point:
        """Its lower end."""
        return self.down[-1].end

    @property
    def length(self) -> float:
        """Its length, mm."""
        return run_length(self.down)

    @property
    def straight(self) -> bool:
        """Whether it is one straight line, as a fold and a button stand have to be."""
        line = (self.bottom - self.top).unit()
        ends = [curve.end for curve in self.down]
        lines = all(isinstance(curve, Line) for curve in self.down)
        return lines and all(abs(line.cross(end - self.top)) <= SAME_PLACE for end in ends)


@dataclass(frozen=True, slots=True)
class Beyond:
    """What a piece has beyond its centre line, for a stand or a wrap.

    at_upper, at_lower: the edges that go on there from those above and below the line; None where one was made longer
    """

    line: CentreLine
    at_upper: str | None
    at_lower: str | None


def centre_lines(pattern: Pattern, at: str) -> tuple[CentreLine, ...]:
    """The pieces with edges at the "centre front" or the "centre back", from above to below; facings have none."""
    found = [line for piece in pattern.pieces if (line := _centre_line(piece, Place(at))) is not None]
    return tuple(sorted(found, key=lambda line: sum(hangs_from(pattern, line, other) for other in found)))


def with_centre(pattern: Pattern, line: CentreLine, parts: Sequence[EdgePart], cut: Cut) -> Pattern:
    """The pattern with other edges along a centre line, in outline order, which run as the old ones did."""
    piece, old = line.piece, {edge.name for edge in line.edges}
    made = made_of((*map(whole_edge, (edge for edge in piece.edges if edge.name not in old)), *parts))
    outline = with_beyond(line, [part.edge for part in parts])
    names = {edge.name for edge in outline}
    neighbours = {line.before.name: parts[0].edge.name, line.after.name: parts[-1].edge.name}
    after = replace(
        piece,
        edges=outline,
        cut=cut,
        notches=tuple(n for n in renamed_notches(piece, made) if n.station.edge in names),
        points_meant=tuple(_renamed(pair, old, neighbours) for pair in piece.points_meant),
    )
    return with_edges_split(pattern, piece, after, made)


def to_new_edge(mark: MarkLine, line: CentreLine, edge: Edge) -> MarkLine:
    """A marked line that begins or ends on the centre line, carried straight on to a straight edge beyond that."""
    down = (line.bottom - line.top).unit()
    ends = []
    for place, along in zip((mark.start, mark.end), run_ends(mark.drawn), strict=True):
        on_centre = abs(down.cross(place - line.top)) <= SAME_PLACE
        hits = line_hits(edge.curves[0], place, along) if on_centre else []
        ends.append(hits[0].point if hits else place)
    if not mark.curves:
        return mark.straight(ends[0], ends[1])
    whole = (*straight_run(ends[0], mark.start), *mark.drawn, *straight_run(mark.end, ends[1]))
    return mark.through(whole, ends[0], ends[1])


def with_beyond(line: CentreLine, beyond: Sequence[Edge], *longer: Edge) -> tuple[Edge, ...]:
    """The outline with other edges in the place of a centre line, in outline order, and some of its edges redrawn."""
    old, new = {edge.name for edge in line.edges}, {edge.name: edge for edge in longer}
    edges: list[Edge] = []
    for edge in line.piece.edges:
        if edge.name not in old:
            edges.append(new.get(edge.name, edge))
        elif edge is line.edges[0]:
            edges.extend(beyond)
    return closed(line.piece.name, tuple(edges))


def laid_to_centre(
    measures: Iterable[Measure], line: CentreLine, ends: tuple[str, str], beyond: Callable[[Across | Bent], Tape | None]
) -> tuple[Measure, ...]:
    """The measurements with what lies beyond a centre line left out: widths to that line, lengths along it.

    ends: the marked points at the upper and the lower end of the centre line
    beyond: what of a width lies beyond it, counted negative; None for nothing
    """
    centre = {edge.name for edge in line.edges}

    def lay(_: Measure, part: Tape) -> tuple[Tape, ...]:
        if isinstance(part, Along) and part.edge in centre:
            return (Between(part.piece, *ends, part.times),)
        over = beyond(part) if isinstance(part, Across | Bent) else None
        return (part,) if over is None else (part, over)

    return relaid(measures, line.piece.name, lay)


def with_seam_beyond(seam: Seam, beyond: Mapping[str, Beyond]) -> Seam:
    """A seam of two pieces that both go on beyond their centre line, carried on there; any other as it is."""
    for first in (True, False):
        refs = [run[0] if first else run[-1] for run in (seam.a, seam.b)]
        one, other = (_across(beyond.get(ref.piece), ref) for ref in refs)
        if one is not None and other is not None:
            a = (one, *seam.a) if first else (*seam.a, one)
            b = (other, *seam.b) if first else (*seam.b, other)
            return replace(seam, a=a, b=b)
    return seam


def _across(each: Beyond | None, ref: EdgeRef) -> EdgeRef | None:
    if each is None:
        return None
    for beside, name in ((each.line.upper, each.at_upper), (each.line.lower, each.at_lower)):
        if beside.name == ref.edge and name is not None:
            return EdgeRef(ref.piece, name, ref.backward)
    return None


def centre_part(line: CentreLine) -> EdgePart:
    """The whole of a centre line as one edge, a seam: called by what it is, and one line where it is straight."""
    taken = {edge.name for edge in line.piece.edges} - {edge.name for edge in line.edges}
    run = tuple(curve for edge in line.edges for curve in edge.curves)
    if line.straight:
        run = (Line(run[0].start, run[-1].end),)
    place = line.edges[0].place
    edge = Edge(free_name(str(place), taken), run, Role.SEAM, seam_allowance(line.piece), place)
    return EdgePart(edge, tuple(part for each in line.edges for part in whole_edge(each).of))


def _centre_line(piece: Piece, at: Place) -> CentreLine | None:
    edges = edges_at(piece, at)
    if not edges or piece.identity.kind is PieceKind.FACING:
        return None
    before, after = piece.beside(edges[0].name, last=edges[-1].name)
    return CentreLine(piece, edges, before, after, edges[0].start.y > edges[-1].end.y)


def hangs_from(pattern: Pattern, line: CentreLine, other: CentreLine) -> bool:
    """Whether one piece is sewn by its upper edge to the lower edge of another."""
    mine, its = (line.piece.name, line.upper.name), (other.piece.name, other.lower.name)
    for seam in pattern.seams:
        sides = [{(ref.piece, ref.edge) for ref in run} for run in (seam.a, seam.b)]
        if any(mine in one and its in two for one, two in (sides, sides[::-1])):
            return True
    return False


def _renamed(pair: tuple[str, str], old: set[str], neighbours: dict[str, str]) -> tuple[str, str]:
    for one, other in (pair, pair[::-1]):
        if one in old and other in neighbours:
            return (neighbours[other], other)
    return pair
