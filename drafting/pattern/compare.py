"""Two states of a pattern compared: which lengths differ and by how much, and how far its lines lie apart."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final, Literal

from drafting.dataclass import dataclass
from drafting.geometry import distance, run_at
from drafting.pattern.locate import dart_width, place
from drafting.pattern.measure import Along, Measure
from drafting.pattern.pattern import Pattern, finished
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, Role
from drafting.pattern.seam import EdgeRef, Seam
from drafting.pattern.walk import run_total

__all__ = ["SHOWS", "Kind", "Moved", "moved", "strayed"]

SHOWS: Final = 0.05
"""mm. What is shown to a tenth of a millimetre shows a change from here on."""

Kind = Literal["finished", "seam", "ease", "dart", "edge"]

_SHARES: Final = (0.0, 0.12, 0.31, 0.5, 0.69, 0.88, 1.0)
"""Where along two edges they are compared: uneven, so that no wave of a curve passes through all of them."""


@dataclass(frozen=True, slots=True)
class Moved:
    """A length that is not in the one state what it is in the other, mm; None for what is not there.

    kind:  a finished measurement, a seam line, the ease of a seam, the mouth of a dart, an edge that is in no seam
    where: the pieces it lies on; "" for a finished measurement
    """

    kind: Kind
    name: str
    where: str
    before: float | None
    after: float | None

    @property
    def by(self) -> float:
        """How much more it is after than before, mm; all of it where one of the two is not there."""
        return (self.after or 0.0) - (self.before or 0.0)


def moved(before: Pattern, after: Pattern, *, least: float = SHOWS) -> tuple[Moved, ...]:
    """Every length that differs by `least` mm or more, or is there in one of the two only.

    In order: finished measurements, seams, the ease declared of seams, darts, edges that are in no seam. A seam whose
    two sides are as long as each other in both states is listed once.
    """
    pairs = [
        *_paired(_finished(before), _finished(after)),
        *_paired_seams(before, after),
        *_paired(dict(_eases(before)), dict(_eases(after))),
        *_paired(dict(_darts(before)), dict(_darts(after))),
        *_paired(dict(_free_edges(before)), dict(_free_edges(after))),
    ]
    return tuple(each for each in pairs if each.before is None or each.after is None or abs(each.by) >= least)


def strayed(one: Piece, other: Piece) -> float:
    """How far any place on a piece lies from the place of the same name on the other, mm.

    Edges are compared at equal shares of their lengths, and notches, dart points, lines and marked points where they
    are. Infinite where the two have not the same edges or marks.
    """
    if one is other:
        return 0.0
    if _names(one) != _names(other):
        return math.inf
    gaps = [_apart(a, other.edge(a.name)) for a in one.edges if a.curves != other.edge(a.name).curves]
    gaps += [
        distance(place(one, notch.station)[0], place(other, other.notch(notch.name).station)[0])
        for notch in one.notches
    ]
    gaps += [distance(dart.apex, other.dart(dart.name).apex) for dart in one.darts]
    for line in one.lines:
        same = other.line(line.name)
        gaps += [distance(line.start, same.start), distance(line.end, same.end)]
    gaps += [distance(mark.at, other.point(mark.name)) for mark in one.points]
    return max(gaps, default=0.0)


_Key = tuple[Kind, str, str]


def _paired(was: dict[_Key, float], now: dict[_Key, float]) -> Iterator[Moved]:
    for key in dict.fromkeys((*was, *now)):
        yield Moved(*key, was.get(key), now.get(key))


def _finished(pattern: Pattern) -> dict[_Key, float]:
    return {("finished", each.name, ""): each.finished for each in finished(pattern)}


def _paired_seams(before: Pattern, after: Pattern) -> Iterator[Moved]:
    was, now = {seam.name: seam for seam in before.seams}, {seam.name: seam for seam in after.seams}
    for name in dict.fromkeys((*was, *now)):
        sides_was, sides_now = _sides(before, was.get(name)), _sides(after, now.get(name))
        seam = now.get(name) or was[name]
        if all(sides is None or abs(sides[0] - sides[1]) < SHOWS for sides in (sides_was, sides_now)):
            sides = {_pieces((*seam.a, *seam.b)): 0}
        else:
            sides = {_pieces(seam.a): 0, _pieces(seam.b): 1}
        for where, side in sides.items():
            yield Moved("seam", name, where, sides_was and sides_was[side], sides_now and sides_now[side])


def _sides(pattern: Pattern, seam: Seam | None) -> tuple[float, float] | None:
    return (run_total(pattern, seam.a), run_total(pattern, seam.b)) if seam else None


def _eases(pattern: Pattern) -> Iterator[tuple[_Key, float]]:
    """The ease wanted of the seams that are to have any."""
    for seam in pattern.seams:
        if not seam.plain:
            yield ("ease", seam.name, _pieces(seam.a)), seam.ease.wanted


def _darts(pattern: Pattern) -> Iterator[tuple[_Key, float]]:
    for piece in pattern.pieces:
        for dart in piece.darts:
            yield ("dart", dart.name, piece.name), dart_width(piece, dart)


def _free_edges(pattern: Pattern) -> Iterator[tuple[_Key, float]]:
    """The edges that are sewn to nothing: folds, hems, openings. Legs of darts are compared with their dart.

    So is an edge whose length is a finished measurement by itself: the skirt's centre front, sewn to no bodice.
    """
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    sewn |= {(each.piece, each.edge) for measure in pattern.measures for each in _whole(measure)}
    for piece in pattern.pieces:
        for edge in piece.edges:
            if edge.role is not Role.DART_LEG and (piece.name, edge.name) not in sewn:
                yield ("edge", edge.name, piece.name), edge.length


def _whole(measure: Measure) -> Iterator[Along]:
    """The edge along which the whole tape of a measurement is laid once, where it is."""
    if len(measure.tape) == 1:
        for part in measure.tape:
            if isinstance(part, Along) and part.times == 1.0:
                yield part


def _pieces(run: tuple[EdgeRef, ...]) -> str:
    return ", ".join(dict.fromkeys(ref.piece for ref in run))


def _names(piece: Piece) -> tuple[frozenset[str], ...]:
    groups = (piece.edges, piece.notches, piece.darts, piece.lines, piece.points)
    return tuple(frozenset(each.name for each in group) for group in groups)


def _apart(one: Edge, other: Edge) -> float:
    along = (
        distance(run_at(one.curves, share * one.length), run_at(other.curves, share * other.length))
        for share in _SHARES
    )
    return max(abs(one.length - other.length), *along)
