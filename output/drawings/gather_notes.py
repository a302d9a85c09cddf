"""Gathers and ease in words: from where to where on a piece, and to what length."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Point, distance
from drafting.pattern import Level, NotchMark, NotchRef, Pattern, PieceKind, Place, darts_at, place
from drafting.pattern.gathered import Held, held_in
from drafting.pattern.notches import notch_numbers
from drafting.reading.units import length_text

__all__ = ["GatherWords", "gather_words"]

_CENTRES: Final = (Level.CENTRE_FRONT, Level.CENTRE_BACK)
_GATHERED: Final = (Place.WAIST, Place.CAP, Place.NECK, Place.ARMHOLE, Place.STAND)
"""What is gathered itself, and so tells nobody where the gathers end."""

_SHORTER: Final = (Place.CENTRE_FRONT, Place.CENTRE_BACK, Place.SIDE, Place.UNDERARM)
"""What is named by its place: an edge there is named for its half or its opening as well."""

_HERE: Final = 1.0
"""mm from the end of a stretch within which a notch marks it."""


@dataclass(frozen=True, slots=True)
class GatherWords:
    """A stretch of a piece that is gathered or eased, or that is gathered or eased onto, and what is said of it.

    begin, end: where it lies between: "notch 4", "the centre front"
    words:      all in one, as it is written along the stretch
    """

    held: Held
    begin: str
    end: str
    words: str


def gather_words(pattern: Pattern, unit: str) -> Iterator[GatherWords]:
    """What is said of all that is gathered or eased in a pattern, lengths in `unit`, in the order of its seams."""
    numbers = notch_numbers(pattern.seams)
    every = tuple(held_in(pattern))
    for held in every:
        piece = pattern.piece(held.piece)
        ends = []
        for notch, at, inside in (
            (held.begin, held.curves[0].start, held.curves[0].end),
            (held.end, held.curves[-1].end, held.curves[-1].start),
        ):
            number = numbers.get(NotchRef(piece.name, notch))
            ends.append(f"notch {number}" if number is not None else _there(pattern, held, at, inside))
        between = f"from {ends[0]} to {ends[1]}"
        if held.longer and held.kind == "gathered":
            words = f"gather {between}, to {length_text(held.to, unit)}"
        elif held.longer:
            words = f"ease in {length_text(held.length - held.to, unit)} {between}"
        else:
            whose = " and ".join(dict.fromkeys(each.piece for each in every if each.seam == held.seam and each.longer))
            words = f"the {whose} is {held.kind} onto this {between}"
        yield GatherWords(held, ends[0], ends[1], words)


def _there(pattern: Pattern, held: Held, at: Point, inside: Point) -> str:
    """What lies at the end of a stretch: a notch, a line marked there, or another edge that comes to it."""
    piece = pattern.piece(held.piece)
    numbers = notch_numbers(pattern.seams)
    seam = next(each for each in pattern.seams if each.name == held.seam)
    sewn = {ref.edge for ref in (*seam.a, *seam.b) if ref.piece == piece.name}
    for notch in piece.notches:
        if distance(place(piece, notch.station)[0], at) <= _HERE:
            number = numbers.get(NotchRef(piece.name, notch.name))
            if number is None and piece.identity.kind is PieceKind.BAND and notch.marks is NotchMark.OPENING_END:
                return "the underlap"
            return f"the {notch.name}" if number is None else f"notch {number}"
    for line in piece.lines:
        if min(distance(line.start, at), distance(line.end, at)) <= _HERE and line.level in _CENTRES:
            return f"the {line.name}"
    unnamed = {leg for dart in darts_at(piece, *_GATHERED) for leg in dart.legs}
    for edge in piece.edges:
        ends = (edge.start, edge.end)
        comes_there = min(distance(end, at) for end in ends) <= _HERE < min(distance(end, inside) for end in ends)
        if comes_there and edge.place not in _GATHERED and edge.name not in unnamed | sewn:
            return f"the {edge.place if edge.place in _SHORTER else edge.name}"
    return "the end of the seam"
