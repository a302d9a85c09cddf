"""Notches kept apart: where two pairs on one seam lie so close that they look like one, the less important is left out.

Two notches nearer than 8 mm look like a double notch, and up to 20 mm a hurried eye takes two of the same kind for one
(our figures). Both mark nearly the same place of the same seam, so one is enough to match it by. A waist notch within
the allowance at the end of its edge is lost in the seam there, and the end itself is matched. Notches that say where an
opening or gathers end stay, and so do the notches of an armhole.
"""

from __future__ import annotations

from collections import Counter
from functools import partial
from itertools import combinations
from typing import Final

from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    Role,
    from_start,
    notches_marking,
    without_notches,
)
from drafting.pattern.let_down import usual_allowance
from drafting.pattern.notches import DOUBLE_NOTCH

__all__ = ["met_notches", "notches_spaced"]

_PAIRS_APART: Final = 20.0
"""mm between the notches of two pairs of which one may go (our figure)."""

_MAY_GO: Final = (NotchMark.HIP, NotchMark.BUST, NotchMark.ELBOW, NotchMark.WAIST)
"""What notches mark that only help to match two edges."""


def notches_spaced(pattern: Pattern) -> Pattern:
    """The pattern without the pairs of notches that stand too near to another of their piece; the very same where
    none does.
    """
    pairs = Counter(mark for seam in pattern.seams for pair in seam.notches for mark in pair)
    gone: set[NotchRef] = set()
    for piece in pattern.pieces:
        for lost in piece.remembered("notches in corners", partial(_in_corners, piece)):
            if lost not in gone and pairs[lost] == 1:
                gone |= _with_partner(pattern, lost)
        may_go = [NotchRef(piece.name, notch.name) for notch in piece.notches if notch.marks in _MAY_GO]
        for pair in piece.remembered("notches too near", partial(_too_near, piece)):
            if gone.isdisjoint(pair):
                spare = next((mark for mark in pair if mark in may_go and pairs[mark] <= 1), None)
                gone |= _with_partner(pattern, spare) if spare else set()
    return without_notches(pattern, gone)


def met_notches(pattern: Pattern) -> Pattern:
    """The pattern without waist notches that meet nothing, as on a bodice by itself; the very same where all do."""
    met = {mark for seam in pattern.seams for pair in seam.notches for mark in pair}
    waists = ((piece.name, notch) for piece in pattern.pieces for notch in notches_marking(piece, NotchMark.WAIST))
    return without_notches(pattern, {mark for name, notch in waists if (mark := NotchRef(name, notch.name)) not in met})


def _in_corners(piece: Piece) -> list[NotchRef]:
    """The waist notches that stand in an allowance, their own or the crossing one, at an end of their edge."""
    found = []
    for notch in notches_marking(piece, NotchMark.WAIST):
        own = piece.edge(notch.station.edge)
        at, usual = from_start(own, notch.station), usual_allowance(piece, own)
        for off, crossing in zip((at, own.length - at), piece.beside(own.name), strict=True):
            # beside a dart no seam crosses it, and one that lies off its edge is for the check of notches to tell
            crossed = crossing.role is not Role.DART_LEG and off >= 0.0
            if crossed and off - _half_width(notch) < max(usual, crossing.allowance) - SAME_PLACE:
                found.append(NotchRef(piece.name, notch.name))
                break
    return found


def _too_near(piece: Piece) -> list[tuple[NotchRef, NotchRef]]:
    """The notches of a piece that stand too near to each other along its outline."""
    begins, around = {}, 0.0
    for edge in piece.edges:
        begins[edge.name] = around
        around += edge.length
    places = [
        (begins[notch.station.edge] + from_start(piece.edge(notch.station.edge), notch.station), notch)
        for notch in piece.notches
    ]
    near = []
    for (at, one), (further, other) in combinations(places, 2):
        way = abs(at - further)
        if min(way, around - way) - _half_width(one) - _half_width(other) < _PAIRS_APART - SAME_PLACE:
            near.append((NotchRef(piece.name, one.name), NotchRef(piece.name, other.name)))
    return near


def _half_width(notch: Notch) -> float:
    """How far the outer mark of a double notch stands from its place, mm."""
    return 0.5 * DOUBLE_NOTCH if notch.style == "double" else 0.0


def _with_partner(pattern: Pattern, mark: NotchRef) -> set[NotchRef]:
    """A notch and the one that it meets."""
    met = (pair for seam in pattern.seams for pair in seam.notches if mark in pair)
    return {mark, *(each for pair in met for each in pair)}
