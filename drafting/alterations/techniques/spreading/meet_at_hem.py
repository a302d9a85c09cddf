"""The lower ends of a seam made to meet at the hem again, after both of its pieces were lengthened.

A cut straight across a flared piece adds length straight down the grain, and an edge that slants becomes longer by less
than that: the more it slants, the less. Where the two edges of a seam slant unequally, their lower ends come apart. A
cutter lays them together and trues the hem at the seam (common practice). Here the corner of one piece moves down and
that of the other moves up, by equal amounts along the grain; each hem moves with its corner, less and less towards its
other end. The marks on the seam stay, and only the part below the last mark is redrawn, as `stretch.py` redraws it: so
two amounts one after the other are the same as their sum, and the opposite amount undoes them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.promises import run_surplus
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.alterations.techniques.sides.side_view import ON_SEAM
from drafting.alterations.techniques.spreading.level_cut import CutLine, kept_lines
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    at_length,
    handles,
    length,
    line_hits,
    mapped,
    run_ends,
    split,
)
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import SOLVED
from drafting.pattern import Edge, EdgeRef, Notch, Pattern, Piece, Role, Seam, WalkedEdge, with_edges, with_pieces

__all__ = ["followed_sides", "sides_to_follow"]


_MOST_TAKEN: Final = 0.5
"""The share of what lies below the last mark that can be taken up (our figure)."""

_AT_END: Final = 1.0 - 1e-9
"""The share of a curve at which a mark is at its end, and below what is left of it at its start."""


@dataclass(frozen=True, slots=True)
class _End:
    """The lower end of a seam on one piece: its edge, the hem it comes to, and whether the edge begins there."""

    piece: str
    edge: str
    hem: str
    begins: bool


def sides_to_follow(pattern: Pattern, pieces: Collection[str]) -> Iterator[tuple[Seam, _End, _End]]:
    """The seams between pieces that are lengthened, or within one, that come down to a hem on both."""
    for seam in pattern.seams:
        if not all(ref.piece in pieces for ref in (*seam.a, *seam.b)):
            continue
        for last in (False, True):
            ends = [_at_hem(pattern, run[-1] if last else run[0], last=last) for run in (seam.a, seam.b)]
            if ends[0] is not None and ends[1] is not None:
                yield seam, ends[0], ends[1]


def followed_sides(before: Pattern, after: Pattern, cuts: Mapping[str, CutLine]) -> Pattern:
    """The altered pattern, in which every such seam meets at the hem as well as it did before the step.

    cuts: where the pieces were cut, by name
    Raises NotAPattern for a seam that would have to give more than there is of it.
    """
    lowered: dict[str, dict[str, tuple[_Tail, float]]] = {}
    for seam, one, other in sides_to_follow(before, cuts):
        tails = [_tail(before, after, each, cuts[each.piece]) for each in (one, other)]
        wanted = exact_length(tails[0].run) - exact_length(tails[1].run)
        wanted -= run_surplus(after, after.seam(seam.name)) - run_surplus(before, seam)

        def surplus(by: float, tails: list[_Tail] = tails, wanted: float = wanted) -> float:
            return exact_length(tails[0].lowered(by)) - exact_length(tails[1].lowered(-by)) - wanted

        if abs(surplus(0.0)) <= 0.01 * SOLVED:
            continue
        by = solve(surplus, -0.5 * surplus(0.0), 0.01)
        for end, tail, down in ((one, tails[0], by), (other, tails[1], -by)):
            if down < -_MOST_TAKEN * abs(tail.height):
                raise NotAPattern(
                    end.piece, reason=f'its "{end.edge}" is too short at the hem to follow what it is sewn to'
                )
            lowered.setdefault(end.piece, {})[end.edge] = (tail, down)
    return with_pieces(after, *(_trued(after.piece(name), own) for name, own in lowered.items()))


@dataclass(frozen=True, slots=True)
class _Tail:
    """What of an edge lies below its last mark, running down to the hem, and what lies above that."""

    above: tuple[Curve, ...]
    run: tuple[Curve]
    down: Vec
    begins: bool

    @property
    def height(self) -> float:
        """How far down the grain it goes, mm."""
        return (self.run[0].end - self.run[0].start).dot(self.down)

    def lowered(self, by: float) -> tuple[Curve]:
        """The tail with its end so much lower: its handles grow with its height, as `stretch` has it."""
        (curve,) = self.run
        end, growth = curve.end + self.down * by, 1.0 + by / self.height
        if isinstance(curve, Line):
            return (Line(curve.start, end),)
        first, last = handles(curve)
        return (Cubic(curve.start, curve.start + first * growth, end - last * growth, end),)


def _tail(before: Pattern, after: Pattern, end: _End, cut: CutLine) -> _Tail:
    """The lower part of a seam, from its lowest mark to the hem: only this part is stretched."""
    piece = after.piece(end.piece)
    edge = piece.edge(end.edge)
    walked = WalkedEdge(edge, end.begins)
    run = walked.run
    last = run[-1]
    gone = edge.length - length(last)
    marks = {line.name for line in kept_lines(before.piece(end.piece), cut)}
    stops = [
        hit.t
        for line in piece.lines
        if line.name in marks
        for place, along in zip((line.start, line.end), run_ends(line.drawn), strict=True)
        for hit in line_hits(last, place, along)
        if abs(hit.along) <= ON_SEAM
    ]
    for notch in piece.notches:
        if notch.station.edge == edge.name:
            along = walked.along(notch.station) - gone
            if along > 0.0:
                stops.append(at_length(last, along))
    stop = max((t for t in stops if t < _AT_END), default=0.0)
    above: tuple[Curve, ...] = run[:-1]
    if stop > 1.0 - _AT_END:
        head, last = split(last, stop)
        above = (*above, head)
    return _Tail(above, (last,), cut.down, end.begins)


def _at_hem(pattern: Pattern, ref: EdgeRef, *, last: bool) -> _End | None:
    """The end of a run where it comes to a hem; None where something else lies beyond it."""
    begins = last == ref.backward
    beyond = pattern.piece(ref.piece).beside(ref.edge)[0 if begins else 1]
    return _End(ref.piece, ref.edge, beyond.name, begins) if beyond.role is Role.HEM else None


def _trued(piece: Piece, lowered: Mapping[str, tuple[_Tail, float]]) -> Piece:
    """The piece with the tails of these edges so much lower at the hem, mm, and its hem between them."""
    new: dict[str, Edge] = {}
    for name, (tail, by) in lowered.items():
        run = (*tail.above, *tail.lowered(by))
        new[name] = WalkedEdge(piece.edge(name), tail.begins).redrawn(run)
    for edge in piece.edges:
        if edge.role is Role.HEM:
            sides = (lowered.get(side.name) for side in piece.beside(edge.name))
            first, last = (side[1] if side else 0.0 for side in sides)
            down = next(iter(lowered.values()))[0].down
            new[edge.name] = replace(edge, curves=_sheared(edge.curves, down, first, last))
    grown = {name: new[name].length - piece.edge(name).length for name in lowered}

    def at_its_place(notch: Notch) -> Notch:
        """The notch where it was: one that is counted from the hem lies further from it by what the edge grew."""
        station = notch.station
        from_hem = station.edge in lowered and lowered[station.edge][0].begins == (station.end == "start")
        return notch.moved_to(station.at + grown[station.edge]) if from_hem else notch

    return replace(with_edges(piece, *new.values()), notches=tuple(map(at_its_place, piece.notches)))


def _sheared(run: Sequence[Curve], down: Vec, first: float, last: float) -> tuple[Curve, ...]:
    """A run with its ends lowered by these amounts, mm, and every place between by its share across the grain."""
    start, across = run[0].start, down.left()
    wide = (run[-1].end - start).dot(across)

    def lowered(p: Point) -> Point:
        share = (p - start).dot(across) / wide
        return p + down * (first * (1.0 - share) + last * share)

    return mapped(run, lowered)
