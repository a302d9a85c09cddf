"""Can it be worn: enough ease to move, and a way to get in."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from drafting.body.terms import measurement
from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.geometry.tolerance import LENGTH
from drafting.pattern import Measure, Pattern, Piece, Place, Role, Wearer
from drafting.pattern.measure import finished_of

__all__ = ["ROOMS", "TORSO", "Room", "look_at_ease", "look_at_getting_in"]

TORSO = ("head_girth", "neck_base_girth", "bust_girth", "waist_girth", "hip_girth")
"""The girths that a garment for the body passes on its way, from above to below."""


@dataclass(frozen=True, slots=True)
class Room:
    """How a place that is too tight is given room: the alteration and the option that gives it.

    share: mm to write for each mm that is short; below zero where the option counts what is taken away
    most:  mm that can be written at once; what is short of more came with a step, not with the body
    """

    what: str
    alter: str
    option: str
    most: float
    share: float = 1.0


# where a cap dips below its underarm the arm is measured lower down, and gains a fiftieth less at the most;
# slashed from the hem, a sleeve opens at the elbow by rather more than half of it: that lies below the middle
ROOMS: Final = {
    "upper arm": Room("let the sleeve out there", "upper arm", "by", 200.0, 1.02),
    "elbow": Room("spread the sleeve there", "full sleeve", "hem", 1500.0, 2.0),
    "wrist": Room("spread the sleeve there", "full sleeve", "hem", 1500.0),
    "bust": Room("let it out there", "take in", "bust", 400.0, -1.0),
    "waist": Room("let it out there", "take in", "waist", 400.0, -1.0),
    "hip": Room("let it out there", "take in", "hip", 400.0, -1.0),
    "across the back": Room("make the back broader", "back width", "amount", 40.0),
}
"""By the finished measurement that is too small. The figures that are not a millimetre for a millimetre are ours."""

_ARM: Final = ("elbow_girth", "wrist_girth", "arm_length", "shoulder_to_elbow")
"""What the arm below the elbow is told by."""

_ABOVE_WRIST: Final = 20.0
"""mm above the wrist up to which the arm is as thin as at the wrist (ours)."""

_ROUNDING = 10 * LENGTH
"""mm. A measurement is a sum of a few lengths, each within LENGTH."""


def look_at_ease(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every finished measurement for which a least ease is known; measured is the ease it has, mm.

    It fails below the least with which one can move, and warns below what is usual for a close fit. A sleeve that ends
    above the wrist is held to the arm there, see `_at_forearm`.
    """
    for measure in pattern.measures:
        if measure.least is not None and measure.body is not None:
            yield look(_ease, measure, measure.body, measure.least, *_pieces_of(pattern, [measure]))
    elbow, wrist, long, upper = (next((m for m in pattern.measures if m.key == key and m.body), None) for key in _ARM)
    if elbow and wrist and long and upper:
        arm = (elbow, wrist, long, upper)
        yield look(_at_forearm, *arm, *_pieces_of(pattern, arm))


def _ease(check: Check, measure: Measure, body: float, least: float, *pieces: Piece) -> Iterator[Result]:
    (made,) = finished_of(pieces, [measure])
    ease = made.finished - body
    short, snug = least - ease, (least if measure.snug is None else measure.snug) - ease
    if short > _ROUNDING:
        remedy = f"It is {short:.1f} mm too small to move in: add {short:.1f} mm in all."
    else:
        remedy = f"It is tighter than is usual, by {snug:.1f} mm: leave it where it is meant to lie close."
    yield check.result(
        measure.name,
        Verdict.FAIL if short > _ROUNDING else Verdict.WARN if snug > _ROUNDING else Verdict.PASS,
        measured=ease,
        wanted=least,
        allowed=(least, None),
        remedy=remedy,
        remedies=_let_out(measure.name, short if short > _ROUNDING else snug),
    )


def _at_forearm(
    check: Check, elbow: Measure, wrist: Measure, long: Measure, upper: Measure, *pieces: Piece
) -> Iterator[Result]:
    """The lower end of a sleeve that ends above the wrist, against the arm there; measured is its ease, mm.

    The arm is taken to grow evenly from the wrist to the elbow and to want the elbow's room to move. It is rather
    fuller than that (common practice), so what is too narrow here is too narrow indeed; as nobody measured the arm
    there, it is only warned of.
    """
    over, small = elbow.body or 0.0, wrist.body or 0.0
    lower_arm = (long.body or 0.0) - (upper.body or 0.0)
    round_it, down_to = (made.finished for made in finished_of(pieces, (wrist, long)))
    above = (long.body or 0.0) - down_to
    if above <= _ABOVE_WRIST or lower_arm <= 0.0 or over <= small:
        return
    arm = small + (over - small) * min(above / lower_arm, 1.0)
    bends = elbow.least if elbow.snug is None else elbow.snug
    least = min(wrist.ease, bends or 0.0)
    short = arm + least - round_it
    yield check.result(
        "sleeve, where it ends on the forearm",
        Verdict.WARN if short > _ROUNDING else Verdict.PASS,
        measured=round_it - arm,
        wanted=least,
        allowed=(least, None),
        remedy=(
            f"It ends {above:.1f} mm above the wrist and is still {round_it:.1f} mm round, as a wrist wants it; your "
            f"arm is about {arm:.1f} mm round there and wants {least:.1f} mm to move. Leave the step out and cut the "
            "long sleeve off where you like, square to its seams."
        ),
        remedies=_let_out("wrist", short),
    )


def _let_out(where: str, short: float) -> tuple[Remedy, ...]:
    """The alteration that gives a place so much room, mm; a little more rather than less."""
    room = ROOMS.get(where)
    if room is None:
        return ()
    more = math.ceil(abs(room.share) * short - _ROUNDING)
    if more > room.most:
        return ()
    by = Setting(room.option, math.copysign(more, room.share), "mm")
    return (Remedy("add", room.alter, (by,), lead=f"To {room.what}"),)


def look_at_getting_in(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Whether the wearer gets in: through an opening, or else over the head or over the feet.

    Without an opening, what goes round the body at one level has to pass over every girth on its way there, from
    above or from below. measured is the room there is at the narrowest place on the better way, mm (less than zero:
    it will not pass); girths of the wearer that are not known cannot stand in the way.
    """
    rounds = _rounds(pattern.measures)
    openings = [
        f"the {edge.name} of the {piece.name}"
        for piece in pattern.pieces
        for edge in piece.edges
        if edge.role is Role.OPENING
    ]
    if rounds and openings:
        yield look(_through, *openings)
    elif rounds:
        yield look(_over_the_body, pattern.wearer, pattern.measures, *_pieces_of(pattern, rounds))


def _through(check: Check, *openings: str) -> Iterator[Result]:
    yield check.result(f"through {' and '.join(openings)}", Verdict.PASS)


def _over_the_body(check: Check, wearer: Wearer, measures: tuple[Measure, ...], *pieces: Piece) -> Iterator[Result]:
    rounds = _rounds(measures)
    sizes = [made.finished for made in finished_of(pieces, rounds)]
    levels = [(TORSO.index(m.key), m.name, size) for m, size in zip(rounds, sizes, strict=True)]
    body = {length.key: length.mm for length in wearer.lengths}
    ways = []
    for way in ("over the head", "over the feet"):
        rooms = [
            (size - body[key], name, key)
            for level, name, size in levels
            for key in (TORSO[: level + 1] if way == "over the head" else TORSO[level:])
            if key in body
        ]
        if rooms:
            ways.append((*min(rooms), way))
    if not ways:
        return
    room, name, key, way = max(ways)
    over = measurement(key).name
    yield check.result(
        f"{way}, without an opening",
        Verdict.FAIL if room < -_ROUNDING else Verdict.PASS,
        measured=room,
        wanted=0.0,
        allowed=(0.0, None),
        remedy=(
            f"The {name} would have to pass over the {over}, which is {-room:.1f} mm larger: "
            f"give it an opening, or add {-room:.1f} mm there."
        ),
        remedies=(_to_open(pieces),),
    )


def _to_open(pieces: Iterable[Piece]) -> Remedy:
    """The alteration that lets one in: at the back, where a garment is opened unless it is wanted."""
    there = {edge.place for piece in pieces for edge in piece.edges}
    at = next((place for place in (Place.CENTRE_BACK, Place.CENTRE_FRONT) if place in there), "side")
    return Remedy("add", "opening", (Setting("at", str(at)),), lead="To open it there")


def _rounds(measures: Iterable[Measure]) -> tuple[Measure, ...]:
    """The measurements that go round the body at a level of its own."""
    return tuple(measure for measure in measures if measure.round and measure.key in TORSO)


def _pieces_of(pattern: Pattern, measures: Iterable[Measure]) -> tuple[Piece, ...]:
    """The pieces on which the tape of these measurements lies."""
    laid_on = {part.piece for measure in measures for part in measure.tape}
    return tuple(piece for piece in pattern.pieces if piece.name in laid_on)
