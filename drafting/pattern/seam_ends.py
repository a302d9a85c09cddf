"""What the drawing of a piece takes from the seams of its pattern: where allowances end, what number a notch has.

Two pieces are laid together cut edge on cut edge, so the allowances of a seam must end alike on both. Where the lines
beside the seam meet it at an angle, mitred corners would not: of two corners of 80 and 100 degrees one end would lie
5.3 mm beyond the other under 15 mm (2 a cot 80). The trade squares them: the sewing line is run on to the cutting line
of its neighbour, and the allowance ends there, square to it (common practice for princess seams and two-piece sleeves).
Corners that make one line then end alike, for t / sin is the same of both.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import field
from typing import Final, Literal

from drafting.dataclass import dataclass
from drafting.geometry.allowance import MITRE_LIMIT
from drafting.pattern.gathered import Held, held_in
from drafting.pattern.let_down import usual_allowance
from drafting.pattern.locate import corner_at
from drafting.pattern.notches import notch_numbers
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Edge, Role
from drafting.pattern.places import Place
from drafting.pattern.seam import EdgeRef, Seam

__all__ = ["ALONE", "SeamEnd", "Sewn", "Squares", "seam_ends", "sewn", "sewn_piece"]

Squares = tuple[float | None, float | None]
"""How far past the start and the end of an edge its allowance is to end square, mm; None where it need not."""

_LEAST_SINE: Final = math.sin(math.radians(10.0))
"""Of the angle in a corner: flatter, two edges are one line, and there is no end to be squared (our figure)."""

_NEARLY_ON: Final = math.radians(135.0)
"""An angle in a corner from which on an edge runs nearly on into the next: an allowance squared there would reach far
along the neighbour, so where both pieces run so their allowances are mitred, alike on both (our figure)."""

_BLUNT: Final = math.radians(95.0)
_ALIKE: Final = math.radians(3.0)
"""Angles in a corner from the first on that differ by no more than the second, as of a collar and its inner layer, are
mitred: that ends alike by itself, and the allowance does not jut out beside the other (ours)."""

_End = Literal["start", "end"]
_ENDS: Final[tuple[_End, ...]] = ("start", "end")
_OPEN: Final = (Role.SEAM, Role.OPENING)


@dataclass(frozen=True, slots=True)
class Sewn:
    """What a piece is drawn by beside itself.

    squares: by the name of an edge, where its allowance ends square
    joined:  the names of the edges that are sewn to something
    numbers: by the name of a notch
    held:    what of it is gathered or eased in, and onto what of it another piece is
    """

    squares: Mapping[str, Squares] = field(default_factory=dict)
    joined: frozenset[str] = frozenset()
    numbers: Mapping[str, int] = field(default_factory=dict)
    held: tuple[Held, ...] = ()

    @property
    def key(self) -> Hashable:
        """The same, to remember by what is found with it."""
        return tuple(sorted(self.squares.items())), self.joined, tuple(sorted(self.numbers.items())), self.held


ALONE: Final = Sewn()
"""A piece by itself, sewn to nothing."""


@dataclass(frozen=True, slots=True)
class _Corner:
    """A corner of a piece at the end of an edge that is sewn, and the edge beside it; angle of the cloth, radians."""

    piece: str
    edge: Edge
    at: _End
    beside: Edge
    angle: float

    @property
    def key(self) -> tuple[str, frozenset[str]]:
        return self.piece, frozenset((self.edge.name, self.beside.name))

    @property
    def sharp(self) -> bool:
        """Whether the allowance has an end here, and may be squared: a fold has none, and a hem is turned up.

        Round a gusset and a godet, and at the point of the slit these are sewn into, it is mitred.
        """
        if self.edge.place is self.beside.place and self.edge.place in (Place.GUSSET, Place.GODET):
            return False
        return self.beside.role in _OPEN and math.sin(self.angle) >= _LEAST_SINE

    @property
    def past(self) -> float:
        """How far past the corner the sewing line, run on, meets the cutting line of the edge beside it, mm."""
        far = self.beside.allowance / math.sin(self.angle)
        return min(far, MITRE_LIMIT * max(self.edge.allowance, self.beside.allowance))


@dataclass(frozen=True, slots=True)
class SeamEnd:
    """An end of a seam at which the allowances of both pieces end free.

    past: how far past the end of the seam they do on the one piece and on the other, mm, along their cut edges
    wide: how wide the allowance is there on each, mm, without what is left in it to be let down
    """

    seam: str
    at: Literal["start", "end"]
    edges: tuple[tuple[str, str], tuple[str, str]]
    past: tuple[float, float]
    wide: tuple[float, float]


def sewn(pattern: Pattern) -> Mapping[str, Sewn]:
    """What each piece of a pattern is drawn by, by its name; found once, since drawings and checks all ask for it."""
    return pattern.remembered("sewn", lambda: _found_sewn(pattern))


def _found_sewn(pattern: Pattern) -> dict[str, Sewn]:
    """What each piece has to know of the seams it is in, by its name."""
    squares, _ = _squared(pattern)
    joined: dict[str, set[str]] = {}
    for seam in pattern.seams:
        for ref in (*seam.a, *seam.b):
            joined.setdefault(ref.piece, set()).add(ref.edge)
    numbers: dict[str, dict[str, int]] = {}
    for mark, number in notch_numbers(pattern.seams).items():
        numbers.setdefault(mark.piece, {})[mark.notch] = number
    held: dict[str, list[Held]] = {}
    for each in held_in(pattern):
        held.setdefault(each.piece, []).append(each)
    return {
        piece.name: _the_same(
            piece,
            Sewn(
                squares.get(piece.name, {}),
                frozenset(joined.get(piece.name, ())),
                numbers.get(piece.name, {}),
                tuple(held.get(piece.name, ())),
            ),
        )
        for piece in pattern.pieces
    }


def _the_same(piece: Piece, made: Sewn) -> Sewn:
    """The very value that an equal one of the piece was before, so that the checks do not look at it again."""
    return piece.remembered(("sewn", made.key), lambda: made)


def sewn_piece(pattern: Pattern, piece: str) -> Sewn:
    """What one piece of a pattern is drawn by."""
    return sewn(pattern).get(piece, ALONE)


def seam_ends(pattern: Pattern) -> tuple[SeamEnd, ...]:
    """Every end of a seam at which both allowances end free, in the order of sewing.

    Left out are ends on a fold or in a hem, ends in the middle of a line, and those that lie on another seam which is
    sewn before: there the allowances end in that seam.
    """
    return _squared(pattern)[1]


def _squared(pattern: Pattern) -> tuple[Mapping[str, Mapping[str, Squares]], tuple[SeamEnd, ...]]:
    """Where allowances end square, by piece and edge, and the ends of seams at which they do.

    Of two seams that meet in a corner the one sewn first has its ends squared; the other runs over it when it is open.
    """
    return pattern.remembered("squared ends", lambda: _found_squared(pattern))


def _found_squared(pattern: Pattern) -> tuple[dict[str, dict[str, Squares]], tuple[SeamEnd, ...]]:
    """How far allowances cut square at ends of seams reach, mm, by piece and edge; and those ends of seams."""
    pieces = {piece.name: piece for piece in pattern.pieces}
    taken: set[tuple[str, frozenset[str]]] = set()
    squares: dict[str, dict[str, Squares]] = {}
    found: list[SeamEnd] = []
    for seam in _in_order(pattern.seams):
        for at, (one, other) in zip(_ENDS, _ends(pieces, seam), strict=True):
            if one.key in taken or other.key in taken or not (one.sharp and other.sharp):
                continue
            if min(one.angle, other.angle) > _NEARLY_ON:
                continue
            taken |= {one.key, other.key}
            if min(one.angle, other.angle) > _BLUNT and abs(one.angle - other.angle) < _ALIKE:
                continue
            past = max(one.past, other.past)
            found.append(
                SeamEnd(
                    seam.name,
                    at,
                    ((one.piece, one.edge.name), (other.piece, other.edge.name)),
                    (past, past),
                    (usual_allowance(pieces[one.piece], one.edge), usual_allowance(pieces[other.piece], other.edge)),
                )
            )
            for each in (one, other):
                of_piece = squares.setdefault(each.piece, {})
                start, end = of_piece.get(each.edge.name, (None, None))
                of_piece[each.edge.name] = (past, end) if each.at == "start" else (start, past)
    return squares, tuple(found)


def _in_order(seams: tuple[Seam, ...]) -> list[Seam]:
    """Seams as they are sewn: those that make a tube of one piece first, then in the order of the pattern."""
    return sorted(seams, key=lambda seam: len({ref.piece for ref in (*seam.a, *seam.b)}) > 1)


def _ends(pieces: Mapping[str, Piece], seam: Seam) -> Iterator[tuple[_Corner, _Corner]]:
    for end in _ENDS:
        one, other = (_corner(pieces, run[0] if end == "start" else run[-1], end) for run in (seam.a, seam.b))
        yield one, other


def _corner(pieces: Mapping[str, Piece], ref: EdgeRef, end: _End) -> _Corner:
    piece = pieces[ref.piece]
    edges = piece.edges
    k = piece.index(ref.edge)
    if (end == "start") != ref.backward:
        return _Corner(ref.piece, edges[k], "start", edges[k - 1], math.pi - corner_at(piece, k))
    following = (k + 1) % len(edges)
    return _Corner(ref.piece, edges[k], "end", edges[following], math.pi - corner_at(piece, following))
