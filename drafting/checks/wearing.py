"""Can it be worn: enough ease to move, and a way to get in."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from drafting.body.terms import measurement_for
from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.checks.gaping import gapes
from drafting.checks.giving import share_stretched
from drafting.checks.neck import HEAD
from drafting.checks.reaching import looks_at_reaching
from drafting.dataclass import dataclass
from drafting.errors import Remedy, Setting
from drafting.geometry.tolerance import LENGTH
from drafting.pattern import Finished, Measure, Pattern, Piece, Place, Role, Seam, Wearer, edges_at
from drafting.pattern.measure import finished_of
from drafting.reading.units import percent

__all__ = ["ROOMS", "TORSO", "Room", "look_at_ease", "look_at_getting_in", "needs_no_opening"]

NECK: Final = "neck_base_girth"

TORSO = ("head_girth", NECK, "bust_girth", "waist_girth", "hip_girth")
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

_AS_TAPERED: Final = Remedy("change", "lengthen", (Setting("hem", "as tapered"),), lead="In the step that shortens it")
"""Of which step of that name it is, whoever has the steps finds out."""

_ARM: Final = ("elbow_girth", "wrist_girth", "arm_length", "shoulder_to_elbow")
"""What the arm below the elbow is told by."""

_ABOVE_WRIST: Final = 20.0
"""mm above the wrist up to which the arm is as thin as at the wrist (ours)."""

_ROUNDING = 10 * LENGTH
"""mm. A measurement is a sum of a few lengths, each within LENGTH."""


def look_at_ease(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every finished measurement for which a least ease is known; measured is the ease it has, mm.

    It fails below the least with which one can move, and warns below what is usual for a close fit. A sleeve that ends
    above the wrist is held to the arm there, see `_at_forearm`; hem and armhole, `looks_at_reaching`.
    """
    for measure in pattern.measures:
        if measure.least is not None and measure.body is not None:
            yield look(_ease, measure, measure.body, measure.least, *_pieces_of(pattern, [measure]))
    elbow, wrist, long, upper = (next((m for m in pattern.measures if m.key == key and m.body), None) for key in _ARM)
    if elbow and wrist and long and upper:
        arm = (elbow, wrist, long, upper)
        yield look(_at_forearm, *arm, *_pieces_of(pattern, arm))
    yield from looks_at_reaching(pattern)


def _ease(check: Check, measure: Measure, body: float, least: float, *pieces: Piece) -> Iterator[Result]:
    """Measured is how much larger the garment is than the body, mm; wanted is the least with which one can move."""
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
        remedies=_remedies_for_room(measure.name, short if short > _ROUNDING else snug),
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
            f"arm is about {arm:.1f} mm round there and wants {least:.1f} mm to move. Cut off where it is as wide as "
            "it comes to be, it is wider."
        ),
        remedies=(_AS_TAPERED, *_remedies_for_room("wrist", short)),
    )


def _remedies_for_room(where: str, short: float) -> tuple[Remedy, ...]:
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
    """Whether the wearer gets in over the head or over the feet, and through the openings there are.

    What goes round the body at one level has to pass over every girth on its way there, from above or from below; an
    opening that it crosses lets it gape (`gaping.py`). measured is the room there is at the narrowest place on the
    better way, mm (less than zero: it will not pass), None where nothing holds it together; girths of the wearer that
    are not known cannot stand in the way.
    """
    if _rounds(pattern.measures):
        yield look(_over_the_body, pattern.wearer, pattern.measures, pattern.seams, pattern.stretch, *pattern.pieces)


def _over_the_body(
    check: Check,
    wearer: Wearer,
    measures: tuple[Measure, ...],
    seams: tuple[Seam, ...],
    stretch: float,
    *pieces: Piece,
) -> Iterator[Result]:
    """Measured is how much room is left where the garment is narrowest on its way onto the body, mm."""
    body = {length.key: length.mm for length in wearer.lengths}
    rounds = [m for m in measures if m.round or m.key == NECK]
    parts = dict(zip((m.name for m in rounds), gapes(pieces, seams, [m.tape for m in rounds]), strict=True))
    gives = {m.name: share_stretched(pieces, seams, m.tape, stretch) for m in rounds}
    sizes = {m.name: m.finished * (1.0 + gives[m.name]) + parts[m.name] for m in _passing(pieces, measures)}
    found = _easier_way_on(body, measures, sizes, over_head=not _has_legs(pieces))
    if found is None:
        return
    room, name, key, way = found
    openings = [f"the {e.name} of the {piece.name}" for piece in pieces for e in piece.edges if e.role is Role.OPENING]
    over = measurement_for(key, "girl" if wearer.child else "woman").name
    further = f"{math.ceil(-room / 2.0)} mm" if room < 0.0 else ""
    mend = (
        "give it an opening"
        if not openings
        else f"make the opening there {further} longer"
        if parts[name]
        else f"let an opening run {further} past the {name} line"
    )
    stretched = f", in a knit stretched by {percent(gives[name])}" if gives[name] else ""
    yield check.result(
        f"through {' and '.join(openings)}{stretched}" if openings else f"{way}, without an opening{stretched}",
        Verdict.FAIL if room < -_ROUNDING else Verdict.PASS,
        measured=room if math.isfinite(room) else None,
        wanted=0.0,
        allowed=(0.0, None),
        remedy=(
            f"The {name} would have to pass over the {over}, which is {-room:.1f} mm larger: "
            f"{mend}, or add {-room / (1.0 + gives[name]):.1f} mm there."
        ),
        remedies=(_to_open(pieces),),
    )


def needs_no_opening(pattern: Pattern) -> bool:
    """Whether a knit that has an opening gives enough to be put on with it sewn shut: over the body and the head."""
    if not pattern.stretch or not any(e.role is Role.OPENING for piece in pattern.pieces for e in piece.edges):
        return False
    body = {length.key: length.mm for length in pattern.wearer.lengths}
    gives = {m.name: share_stretched(pattern.pieces, pattern.seams, m.tape, pattern.stretch) for m in pattern.measures}
    passing = _passing(pattern.pieces, pattern.measures)
    sizes = {made.name: made.finished * (1.0 + gives[made.name]) for made in passing}
    found = _easier_way_on(body, pattern.measures, sizes, over_head=not _has_legs(pattern.pieces))
    necks = [sizes[m.name] for m in pattern.measures if m.key == NECK]
    return (found is None or found[0] >= -_ROUNDING) and all(neck >= body.get("head_girth", HEAD) for neck in necks)


def _passing(pieces: Iterable[Piece], measures: Iterable[Measure]) -> tuple[Finished, ...]:
    """The finished girths, and the neck, that have to pass over the body when the garment is put on."""
    return finished_of(pieces, [*_rounds(measures), *(m for m in measures if m.key == NECK)])


def _easier_way_on(
    body: Mapping[str, float], measures: Iterable[Measure], sizes: Mapping[str, float], *, over_head: bool
) -> tuple[float, str, str, str] | None:
    """The room there is at the narrowest place on the better way, mm; that place, what it passes over, and the way.

    sizes: how large each measurement becomes, mm; over_head: whether it can go on so.
    None where nothing is known that it would have to pass over.
    """
    measures = tuple(measures)
    rings = _rounds(measures)
    ways = [("over the head", rings), ("over the feet", (*rings, *(m for m in measures if m.key == NECK)))]
    found = []
    for way, passed in ways if over_head else ways[1:]:
        rooms = [
            (sizes[measure.name] - body[key], measure.name, key)
            for measure in passed
            for key in _girths_passed(measure, way)
            if key in body
        ]
        if rooms:
            found.append((*min(rooms), way))
    return max(found, default=None)


def _has_legs(pieces: Iterable[Piece]) -> bool:
    """Whether a garment has legs that are closed, so that it goes on over the feet only."""
    return any(edge.role is Role.SEAM for piece in pieces for edge in edges_at(piece, Place.INSEAM))


def _girths_passed(measure: Measure, way: str) -> tuple[str, ...]:
    """The girths that a line round the body passes over on its way; that of its own level is a matter of ease."""
    level = TORSO.index(measure.key)
    return TORSO[:level] if way == "over the head" else TORSO[level + 1 :]


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
