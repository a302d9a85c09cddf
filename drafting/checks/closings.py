"""Do the openings of a garment go together: edges that close one on the other, and one way in for the whole of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.geometry import distance
from drafting.pattern import BodyPart, Landmark, Pattern, Piece, Place, Role, edges_at, is_front, points_at
from drafting.pattern.unfinished import is_facing

__all__ = ["look_at_closings"]

_PLACES: Final = (Place.SHOULDER, Place.INSEAM)
_EVEN: Final = 0.5
"""mm by which two edges that close on each other, or two halves of a snap, may lie apart: what a pin takes (ours)."""

_WAYS_IN: Final = {
    Place.CENTRE_BACK: "centre back",
    Place.SIDE: "side",
    Place.CENTRE_FRONT: "centre front",
    Place.STAND_EDGE: "centre front",
}
"""Where one gets in through a zip or buttons, as it is written in a step."""

_LOWER: Final = (BodyPart.SKIRT, BodyPart.TROUSERS)


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
    if len({way for way, _ in _ways_in(shells)}) > 1:
        found = True
        yield look(_one_way_in, *shells)
    if not found:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("nothing closes front on back", Verdict.PASS)


def _meet(check: Check, place: Place, front: Piece, back: Piece) -> Iterator[Result]:
    """Measured is by how much front and back differ where they close on each other, mm: the edges, then the snaps."""
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
    if place is Place.INSEAM and (one or other):  # no shoulder is snapped
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


def _one_way_in(check: Check, *shells: Piece) -> Iterator[Result]:
    """Measured is at how many places one gets in."""
    ways: dict[str, list[BodyPart]] = {}
    for way, part in _ways_in(shells):
        ways.setdefault(way, []).append(part)
    first, second, *_ = ways
    remedies: tuple[Remedy, ...] = ()
    if set(ways[first]).isdisjoint(ways[second]):
        where = " and ".join(f"the {part} at the {way}" for way in (first, second) for part in ways[way])
        remedy = f"It opens in two places that do not meet, {where}: the waist seam stays closed. Open both at one."
        lower = ways[second][0]
        behind = first == "centre back" and lower in _LOWER
        if behind and second == "centre front":
            remedy += (
                f' For the fly, button the {ways[first][0]} down to it: in two steps "opening", at = "centre front" '
                'with fasten = "buttons", and at = "centre back" with fasten = "closed".'
            )
        if behind:
            settings = (Setting("fastening", "back"),)
            remedies = (Remedy("set in block", str(lower), settings, lead=f"To open the {lower} behind"),)
    else:
        remedy = f"It opens at the {first} and at the {second} as well: one of them is enough."
        if "side" in ways:  # behind or in front the neck is opened as well; no step closes a side
            remedy += ' Leave out the step that opens the side; if the block does, set fastening = "back" in it.'
        else:
            close = (Setting("at", first), Setting("fasten", "closed"))
            remedies = (Remedy("add", "opening", close, lead=f"To close the {first}"),)
    yield check.result(
        "one way in", Verdict.WARN, measured=len(ways), wanted=1, allowed=1, remedy=remedy, remedies=remedies
    )


def _ways_in(shells: Sequence[Piece]) -> Iterator[tuple[str, BodyPart]]:
    """Where a garment opens as far as its waist, and which part of it; a slit that ends below the neck is none."""
    found = (
        (place, piece.identity.part)
        for place in _WAYS_IN
        for piece in shells
        if piece.identity.part is not None
        and any(edge.role is Role.OPENING or place is Place.STAND_EDGE for edge in edges_at(piece, place))
        and not (piece.identity.part is BodyPart.BODICE and _is_slit(piece, place))
    )
    yield from dict.fromkeys((_WAYS_IN[place], part) for place, part in found)


def _is_slit(piece: Piece, place: Place) -> bool:
    return place is not Place.SIDE and any(edge.role is Role.SEAM for edge in edges_at(piece, place))


def _spacing(piece: Piece) -> tuple[float, ...]:
    """How far from the first snap each of the others lies, mm."""
    marks = points_at(piece, Landmark.SNAP)
    return tuple(distance(marks[0].at, mark.at) for mark in marks[1:])
