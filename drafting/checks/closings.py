"""Do the two edges of an opening meet that are closed one on the other: shoulders with buttons, inseams with snaps."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.geometry import distance
from drafting.pattern import Landmark, Pattern, Piece, Place, Role, edges_at, is_front, points_at
from drafting.pattern.unfinished import is_facing

__all__ = ["look_at_closings"]

_PLACES: Final = (Place.SHOULDER, Place.INSEAM)
_EVEN: Final = 0.5
"""mm by which two edges that close on each other, or two halves of a snap, may lie apart: what a pin takes (ours)."""


def look_at_closings(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Front against back at every opening that closes the one on the other; measured is by how much they differ, mm."""
    shells = [piece for piece in pattern.pieces if not is_facing(piece)]
    found = False
    for place in _PLACES:
        open_there = [p for p in shells if any(e.role is Role.OPENING for e in edges_at(p, place))]
        if any(edges_at(p, Place.LAP_END) for p in open_there):
            continue  # they lie over each other, and are as long as each likes
        fronts, backs = ([p for p in open_there if is_front(p) is front] for front in (True, False))
        if len(fronts) == len(backs) == 1:
            found = True
            yield look(_meet, place, fronts[0], backs[0])
    if not found:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("nothing closes front on back", Verdict.PASS)


def _meet(check: Check, place: Place, front: Piece, back: Piece) -> Iterator[Result]:
    long = [sum(e.length for e in edges_at(p, place) if e.role is Role.OPENING) for p in (front, back)]
    off = abs(long[0] - long[1])
    yield check.result(
        f"{place}, front on back",
        Verdict.PASS if off <= _EVEN else Verdict.FAIL,
        measured=off,
        wanted=0.0,
        allowed=_EVEN,
        remedy=f"The {place} is {off:.1f} mm longer {'in front' if long[0] > long[1] else 'behind'}: it cannot be "
        "closed flat; make both edges as long.",
    )
    one, other = (_spacing(piece) for piece in (front, back))
    if one or other:
        apart = max((abs(a - b) for a, b in zip(one, other, strict=False)), default=0.0)
        meets = len(one) == len(other) and apart <= _EVEN
        yield check.result(
            "snaps, front on back",
            Verdict.PASS if meets else Verdict.FAIL,
            measured=apart,
            wanted=0.0,
            allowed=_EVEN,
            remedy="The snaps of front and back do not lie on each other: mark both from the crotch in the same steps.",
        )


def _spacing(piece: Piece) -> tuple[float, ...]:
    """How far from the first snap each of the others lies, mm."""
    marks = points_at(piece, Landmark.SNAP)
    return tuple(distance(marks[0].at, mark.at) for mark in marks[1:])
