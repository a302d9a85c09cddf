"""Can the darts be sewn: legs of one length, none too wide to be sewn as one, none wider than it is long."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look, verdict_on
from drafting.checks.seams import SEAM_PASS
from drafting.errors import Remedy, Setting
from drafting.geometry import Point, distance, lerp
from drafting.pattern import (
    CENTRES,
    STEEPEST_DART,
    WIDEST_WAIST_DART,
    Dart,
    Edge,
    Pattern,
    Piece,
    Place,
    Role,
    dart_places,
    edges_at,
)

__all__ = ["LEGS", "look_at_dart_legs", "look_at_dart_lengths", "look_at_dart_widths"]

LEGS = 0.5
"""mm by which the two legs of a dart may differ: they are short and cut from one piece, so a third of a seam's 1.5 mm
(our figure; that they must be equal is common practice). Up to a seam's own 1.5 mm is a warning."""

_APART: Final = 25.0
"""mm of seam between two darts that one is divided into (an inch, common practice)."""

_ROOM: Final = 60.0
"""mm of waist beside a dart from which another finds room in it (our figure)."""

_BEYOND: Final = 38.0
"""mm beyond its point about which a dart that is drawn towards nothing is divided (an inch and a half, common practice
for darts of the back)."""

_ROUNDED: Final = 0.05
"""mm that a dart may be wider than it is said to be at most: half of what is printed."""


def look_at_dart_legs(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The legs of every dart; measured is the first, wanted the second, mm. A leg of no dart fails."""
    for piece in pattern.pieces:
        yield look(_legs_without_dart, piece)
        for dart in piece.darts:
            yield look(_legs, piece.name, dart, piece.edge(dart.legs[0]), piece.edge(dart.legs[1]))


def _legs_without_dart(check: Check, piece: Piece) -> Iterator[Result]:
    known = {leg for dart in piece.darts for leg in dart.legs}
    for edge in piece.edges:
        if edge.role is Role.DART_LEG and edge.name not in known:
            remedy = "It is the leg of a dart, and no dart of the piece has it: draft the garment again."
            yield check.result(f"{piece.name}: {edge.name}", Verdict.FAIL, remedy=remedy)


def look_at_dart_widths(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The mouth of every dart, mm, and the most that is sewn as one dart."""
    for piece in pattern.pieces:
        for dart in piece.darts:
            at_waist = Place.WAIST in dart_places(piece, dart)
            yield look(_width_results, piece, dart, at_waist)


def look_at_dart_lengths(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The length of every dart from the middle of its mouth to its point, mm, and the width that it must exceed."""
    for piece in pattern.pieces:
        for dart in piece.darts:
            yield look(_length_results, piece.name, dart, *_legs_of(piece, dart))


def _legs_of(piece: Piece, dart: Dart) -> tuple[Edge, Edge]:
    return piece.edge(dart.legs[0]), piece.edge(dart.legs[1])


def _legs(check: Check, piece: str, dart: Dart, one: Edge, other: Edge) -> Iterator[Result]:
    off = abs(one.length - other.length)
    longer = one.name if one.length > other.length else other.name
    yield check.result(
        f"{piece}: {dart.name}",
        verdict_on(off, passing=LEGS, warning=SEAM_PASS),
        measured=one.length,
        wanted=other.length,
        allowed=LEGS,
        remedy=f'The leg "{longer}" is {off:.1f} mm longer: move the dart point until both legs are equal.',
    )


def _size(one: Edge, other: Edge, apex: Point) -> tuple[float, float]:
    """How wide a dart is across its mouth and how long from there to its point, mm."""
    return distance(one.start, other.end), distance(lerp(one.start, other.end, 0.5), apex)


def _width_results(check: Check, piece: Piece, dart: Dart, at_waist: bool) -> Iterator[Result]:
    """Measured is how wide the mouth of a dart is, mm; the most follows from how long the dart is."""
    wide, long = _size(*_legs_of(piece, dart), dart.apex)
    by_angle = 2.0 * long * math.tan(0.5 * STEEPEST_DART)
    most = min(by_angle, WIDEST_WAIST_DART) if at_waist else by_angle
    degrees = math.degrees(2.0 * math.atan2(0.5 * wide, long))
    divide = _divided_at_waist(piece, dart, wide, most) if at_waist else _taken_to_the_side(piece, dart)
    otherwise = _MORE_DARTS if at_waist else _ELSEWHERE
    yield check.result(
        f"{piece.name}: {dart.name}",
        Verdict.PASS if wide <= most + _ROUNDED else Verdict.WARN,
        measured=wide,
        allowed=(None, most),
        remedy=f"It is {wide:.0f} mm wide and {long:.0f} mm long, {degrees:.0f} degrees: it would stand out in a peak."
        + (f" {otherwise}" if not divide else ""),
        remedies=(divide,) if divide else (),
    )


_MORE_DARTS = "Ask the block for more darts there (front_darts, back_darts), or let the side seams take more of it in."
_ELSEWHERE = 'Move a part of it to another place: "move a dart", with part.'


def _divided_at_waist(piece: Piece, dart: Dart, wide: float, most: float) -> Remedy | None:
    """What makes two of a waist dart, where there is room beside it towards the side and two are enough; else None."""
    beside = next((edge for edge in piece.beside_dart(dart) if not _at_centre(piece, edge)), None)
    if beside is None or beside.length < _ROOM or wide > 1.9 * most:
        return None
    settings = (
        *(Setting("piece", piece.name), Setting("dart", dart.name), Setting("to", beside.name)),
        *(Setting("at", _APART, "mm"), Setting("measured_from", dart.name), Setting("part", 0.45, "%")),
        *(() if dart.aims_at else (Setting("beyond", _BEYOND, "mm"),)),
    )
    return Remedy("add", "move a dart", settings, lead="Divide it")


def _taken_to_the_side(piece: Piece, dart: Dart) -> Remedy | None:
    """What takes a part of another dart to the side seam, where the piece has one in a whole; else None."""
    sides, armholes = edges_at(piece, Place.SIDE), edges_at(piece, Place.ARMHOLE)
    if len(sides) != 1 or len(armholes) != 1 or not dart.aims_at:
        return None
    settings = (
        *(Setting("piece", piece.name), Setting("dart", dart.name), Setting("to", sides[0].name)),
        *(Setting("share", 0.35, "%"), Setting("measured_from", armholes[0].name), Setting("part", 0.4, "%")),
    )
    return Remedy("add", "move a dart", settings, lead="Move a part of it")


def _at_centre(piece: Piece, edge: Edge) -> bool:
    """Whether an edge reaches the centre line of its piece."""
    return any(each.place in CENTRES for each in piece.beside(edge.name))


def _length_results(check: Check, piece: str, dart: Dart, one: Edge, other: Edge) -> Iterator[Result]:
    wide, long = _size(one, other, dart.apex)
    yield check.result(
        f"{piece}: {dart.name}",
        Verdict.PASS if long > wide else Verdict.WARN,
        measured=long,
        allowed=(wide, None),
        remedy=f"It is {long:.0f} mm long and {wide:.0f} mm wide: a dart shorter than it is wide cannot be pressed "
        "flat. Gather or ease that cloth in, divide it, or let a seam take it.",
    )
