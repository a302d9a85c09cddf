"""How far an opening lets a line round the body gape.

The two lips of an opening that ends at a closed place are both as long as the way to that place, so that they part by
at most twice it (the sides of a triangle). A line that crosses an opening closed at both ends can run round the nearer
end; one that is open to a free edge on one side only round the other; and where neither side is closed, as down a
button stand, nothing holds the lips together.

To find where an opening ends it is followed along the outline, edge by edge, and over the seams that it crosses:

       one piece | the next
     ------------+--------.--------
       opening   |  opening  closed        2 x (from the tape to the dot), where that is the nearer end
     --tape------+-----------------
                seam
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

from drafting.dataclass import dataclass
from drafting.geometry import length, run_hits, run_length, split
from drafting.pattern import Across, Along, Bent, Curved, Piece, PieceKind, Place, Role, Seam, Tape

__all__ = ["gape", "gapes"]

_BEHIND = (PieceKind.FACING, PieceKind.LINING, PieceKind.BAND, PieceKind.COLLAR, PieceKind.CUFF, PieceKind.BINDING)

_Corner = tuple[str, str, bool]
"""An end of a seam: the piece, its edge, and whether it is the end in which the edge begins."""


@dataclass(frozen=True, slots=True)
class _Reached:
    """An edge that is reached on the way along an opening.

    edge: which of the piece's edges, from 0
    way:  in which direction it goes on from there: 1 for that of the outline, -1 against it
    """

    piece: str
    edge: int
    way: int


@dataclass(frozen=True, slots=True)
class _Garment:
    """The shell: its pieces by name, and for each end of a seam the end that it meets on the other side."""

    pieces: Mapping[str, Piece]
    across: Mapping[_Corner, _Corner]


def gape(pieces: Sequence[Piece], seams: Iterable[Seam], tape: Iterable[Tape]) -> float:
    """How much longer the openings make the line round the body on which a tape lies, mm; infinite where it is free.

    pieces, seams: all of the garment. Openings at several places count together; right and left, or the front and the
    back of a side seam, are the lips of one.
    """
    return gapes(pieces, seams, [tape])[0]


def gapes(pieces: Sequence[Piece], seams: Iterable[Seam], tapes: Sequence[Iterable[Tape]]) -> list[float]:
    """How much longer the openings make each of several tapes, mm, in their order; infinite where one is free."""
    if not any(edge.role is Role.OPENING for piece in pieces for edge in piece.edges):
        return [0.0] * len(tapes)
    garment = _garment(pieces, seams)
    return [_gape(garment, tape) for tape in tapes]


def _gape(garment: _Garment, tape: Iterable[Tape]) -> float:
    """How much longer the openings make the line on which one tape lies, mm; infinite where nothing holds it."""
    by_place: dict[Place | None, float] = {}
    for part in tape:
        piece = garment.pieces.get(part.piece)
        for k, begun in _crossings(piece, part) if piece else ():
            assert piece is not None
            edge = piece.edges[k]
            before = begun + _open_beyond(garment, _Reached(part.piece, k, -1))
            behind = edge.length - begun + _open_beyond(garment, _Reached(part.piece, k, 1))
            held = _lapped(piece) if edge.place is Place.SHOULDER else math.inf
            by_place[edge.place] = max(by_place.get(edge.place, 0.0), 2.0 * min(before, behind, held))
    # the left shoulder and the right are two, each with lips of its own
    return sum(mm * (2.0 if place is Place.SHOULDER else 1.0) for place, mm in by_place.items())


def _lapped(piece: Piece) -> float:
    """How far the shoulders of a piece lap over the other half, mm: they open until the laps meet, no further."""
    laps = [edge.length for edge in piece.edges if edge.place is Place.LAP_END]
    return min(laps) if laps else math.inf


def _garment(pieces: Iterable[Piece], seams: Iterable[Seam]) -> _Garment:
    """The shell of a garment, and how its seams are crossed."""
    shell = {piece.name: piece for piece in pieces if piece.identity.kind not in _BEHIND}
    across: dict[_Corner, _Corner] = {}
    for seam in seams:
        if all(ref.piece in shell for ref in (*seam.a, *seam.b)):
            for at in (0, -1):
                one, other = (
                    (ref.piece, ref.edge, (at == 0) != ref.backward) for ref in (seam.a[at], seam.b[at])
                )  # fmt: skip
                across[one], across[other] = other, one
    return _Garment(shell, across)


def _crossings(piece: Piece, part: Tape) -> Iterator[tuple[int, float]]:
    """The openings of a piece that a stretch of tape comes to: the number of the edge, and how far along it, mm."""
    for k, edge in enumerate(piece.edges):
        if edge.role is not Role.OPENING:
            continue
        if isinstance(part, Along):
            # not by its name: the tape ends at the centre, and what laps over lies beyond it
            round_at = piece.edge(part.edge).place
            for step, begun in ((-1, 0.0), (1, edge.length)):
                if piece.edges[_beside(piece, k, step)].place is round_at:
                    yield k, begun
        elif isinstance(part, Across | Bent | Curved):
            marks = [piece.line(part.line), *([piece.line(part.onward)] if isinstance(part, Bent) else ())]
            for mark in marks:
                for i, hit in run_hits(edge.curves, mark.start, mark.end - mark.start):
                    gone = run_length(edge.curves[:i]) if i else 0.0
                    yield k, gone + length(split(edge.curves[i], hit.t)[0])


_ENDS_OF_LAPS = (Place.STAND, Place.WRAP, Place.LAP_END)


def _beside(piece: Piece, k: int, step: int) -> int:
    """The edge before or after another, those at the end of what laps over passed over."""
    count = len(piece.edges)
    beside = [(k + step * each) % count for each in range(1, count + 1)]
    return next((n for n in beside if piece.edges[n].place not in _ENDS_OF_LAPS), beside[0])


def _open_beyond(garment: _Garment, begun: _Reached) -> float:
    """How far an opening goes on beyond an end of its edge, mm: 0 where it is closed there, infinite where free.

    One that comes back to where it began is closed nowhere, so that it is free.
    """
    gone, passed, here = 0.0, set[tuple[str, int]](), begun
    while (here.piece, here.edge) not in passed:
        passed.add((here.piece, here.edge))
        ahead = _next_reached(garment, here)
        if ahead is None:
            return math.inf
        edge = garment.pieces[ahead.piece].edges[ahead.edge]
        if edge.role is not Role.OPENING:
            return gone
        gone, here = gone + edge.length, ahead
    return math.inf


def _next_reached(garment: _Garment, here: _Reached) -> _Reached | None:
    """The next edge at the same place, on this piece or beyond a seam; None where the line ends at a free edge."""
    piece = garment.pieces[here.piece]
    beside = _beside(piece, here.edge, here.way)
    if piece.edges[beside].place is piece.edges[here.edge].place:
        return _Reached(here.piece, beside, here.way)
    # it ends at the end of an edge that a seam is sewn in, or of what laps over there
    lap = (here.edge + here.way) % len(piece.edges)
    ends = ((here.piece, piece.edges[k].name, here.way > 0) for k in (lap, beside))
    crossed = next((garment.across[end] for end in ends if end in garment.across), None)
    if crossed is None:
        return None
    name, edge, begins = crossed
    other, way = garment.pieces[name], -1 if begins else 1
    return _Reached(name, _beside(other, other.index(edge), way), way)
