"""Gathers and ease in words: from where to where on a piece, and to what length."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from drafting.geometry import Point, distance
from drafting.pattern import NotchRef, Pattern, Piece, place
from drafting.pattern.gathered import Held, held_in
from drafting.pattern.notches import notch_numbers
from drafting.reading.units import length_text

__all__ = ["GatherWords", "gather_words"]

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
            ends.append(f"notch {number}" if number is not None else _there(pattern, piece, at, inside))
        between = f"from {ends[0]} to {ends[1]}"
        if held.longer and held.kind == "gathered":
            words = f"gather {between}, to {length_text(held.to, unit)}"
        elif held.longer:
            words = f"ease in {length_text(held.length - held.to, unit)} {between}"
        else:
            whose = " and ".join(dict.fromkeys(each.piece for each in every if each.seam == held.seam and each.longer))
            words = f"the {whose} is {held.kind} onto this {between}"
        yield GatherWords(held, ends[0], ends[1], words)


def _there(pattern: Pattern, piece: Piece, at: Point, inside: Point) -> str:
    """What lies at the end of a stretch: a notch, a line marked there, or the edge that comes to it."""
    numbers = notch_numbers(pattern.seams)
    for notch in piece.notches:
        if distance(place(piece, notch.station)[0], at) <= _HERE:
            number = numbers.get(NotchRef(piece.name, notch.name))
            return f"the {notch.name}" if number is None else f"notch {number}"
    for line in piece.lines:
        if min(distance(line.start, at), distance(line.end, at)) <= _HERE and line.name.startswith("centre "):
            return f"the {line.name}"
    for edge in piece.edges:
        ends = (edge.start, edge.end)
        if min(distance(end, at) for end in ends) <= _HERE and min(distance(end, inside) for end in ends) > _HERE:
            plain = edge.name.removesuffix(" opening").removesuffix(", front").removesuffix(", back")
            if edge.name.partition(" ")[0] not in ("waist", "cap", "neck", "armhole", "stand"):
                return f"the {plain}"
    return "the end of the seam"
