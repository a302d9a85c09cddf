"""Notches kept apart: of two pairs on one seam that would be taken for one, the one that may go is left out.

Marks of two notches nearer than 8 mm look like a double notch, and up to 20 mm a hurried eye takes two alike for one
(our figures). Both mark nearly the same place of the same seam, so one is enough to match it by. A waist notch in the
allowance at the end of its edge is lost in that seam, and the end itself is what is matched. What tells where an
opening or gathers end, and the notches of an armhole, stay.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import combinations
from typing import Final

from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import NotchRef, Pattern, Piece, Role, from_start
from drafting.pattern.notches import DOUBLE_NOTCH

__all__ = ["WAIST_NOTCH", "met_notches", "notches_spaced"]

WAIST_NOTCH: Final = "waist notch"
"""How the names of the notches end by which two waists are matched."""

_PAIRS_APART: Final = 20.0
"""mm between the notches of two pairs of which one may go (our figure)."""

_MAY_GO: Final = ("hip notch", "bust level notch", "elbow notch", WAIST_NOTCH)
"""How the names of notches end that only help to match two edges."""


def notches_spaced(pattern: Pattern) -> Pattern:
    """The pattern without the pairs of notches that stand too near to another of their piece; the very same where
    none does.
    """
    pairs = Counter(mark for seam in pattern.seams for pair in seam.notches for mark in pair)
    gone: set[NotchRef] = set()
    for piece in pattern.pieces:
        for lost in _in_corners(piece):
            if lost not in gone and pairs[lost]:
                gone |= _with_partner(pattern, lost if _may_go(lost, pairs) else None)
        for one, other in _too_near(piece):
            if one not in gone and other not in gone:
                gone |= _with_partner(pattern, next((m for m in (one, other) if _may_go(m, pairs)), None))
    if not gone:
        return pattern
    return _left_out(pattern, gone)


def met_notches(pattern: Pattern) -> Pattern:
    """The pattern without waist notches that meet nothing, as on a bodice by itself; the very same where all do."""
    met = {mark for seam in pattern.seams for pair in seam.notches for mark in pair}
    every = (NotchRef(piece.name, notch.name) for piece in pattern.pieces for notch in piece.notches)
    gone = {mark for mark in every if mark.notch.endswith(WAIST_NOTCH) and mark not in met}
    return _left_out(pattern, gone) if gone else pattern


def _left_out(pattern: Pattern, gone: set[NotchRef]) -> Pattern:
    return replace(
        pattern,
        pieces=tuple(_without(piece, gone) for piece in pattern.pieces),
        seams=tuple(
            replace(seam, notches=tuple(pair for pair in seam.notches if not gone & set(pair)))
            if any(gone & set(pair) for pair in seam.notches)
            else seam
            for seam in pattern.seams
        ),
    )


def _in_corners(piece: Piece) -> Iterator[NotchRef]:
    """The waist notches that stand in an allowance, their own or the crossing one, at an end of their edge."""
    n = len(piece.edges)
    for notch in piece.notches:
        if notch.name.endswith(WAIST_NOTCH):
            k = next(k for k, edge in enumerate(piece.edges) if edge.name == notch.station.edge)
            own, half = piece.edges[k], 0.5 * DOUBLE_NOTCH if notch.style == "double" else 0.0
            at = from_start(own, notch.station)
            for off, crossing in ((at, piece.edges[k - 1]), (own.length - at, piece.edges[(k + 1) % n])):
                # beside a dart no seam crosses it, and one that lies off its edge is for the check of notches to tell
                crossed = crossing.role is not Role.DART_LEG
                if crossed and off >= 0.0 and off - half < max(own.allowance, crossing.allowance) - SAME_PLACE:
                    yield NotchRef(piece.name, notch.name)
                    break


def _too_near(piece: Piece) -> Iterator[tuple[NotchRef, NotchRef]]:
    """The notches of a piece that stand too near to each other along its outline."""
    begins, around = {}, 0.0
    for edge in piece.edges:
        begins[edge.name] = around
        around += edge.length
    places = [
        (
            begins[notch.station.edge] + from_start(piece.edge(notch.station.edge), notch.station),
            0.5 * DOUBLE_NOTCH if notch.style == "double" else 0.0,
            NotchRef(piece.name, notch.name),
        )
        for notch in piece.notches
    ]
    for (at, half, one), (further, wide, other) in combinations(places, 2):
        way = abs(at - further)
        if min(way, around - way) - half - wide < _PAIRS_APART - SAME_PLACE:
            yield one, other


def _may_go(mark: NotchRef, pairs: Counter[NotchRef]) -> bool:
    return pairs[mark] <= 1 and mark.notch.endswith(_MAY_GO)


def _with_partner(pattern: Pattern, mark: NotchRef | None) -> set[NotchRef]:
    """A notch and the one that it meets."""
    if mark is None:
        return set()
    met = (pair for seam in pattern.seams for pair in seam.notches if mark in pair)
    return {mark, *(each for pair in met for each in pair)}


def _without(piece: Piece, gone: Iterable[NotchRef]) -> Piece:
    names = {mark.notch for mark in gone if mark.piece == piece.name}
    if not names:
        return piece
    return replace(piece, notches=tuple(notch for notch in piece.notches if notch.name not in names))
