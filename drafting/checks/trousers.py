"""Trousers as a cutter looks at them: crotch, inside legs, crease, the foot at the hem, the length of a body.

Figures that no source gives are common practice, from memory, and say "ours" where they are our own.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look, verdict_on
from drafting.errors import Remedy, Setting
from drafting.geometry import Point, polyline, run_ends
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    CENTRES,
    BodyPart,
    Edge,
    Level,
    Measure,
    NotchMark,
    Pattern,
    Piece,
    Place,
    Role,
    edge_at,
    edges_at,
    from_start,
    is_front,
    line_at,
    neck_lowered,
    notches_marking,
    pieces_of,
)
from drafting.pattern.measure import finished_of

__all__ = ["FOOT", "look_at_body_length", "look_at_crease", "look_at_crotch", "look_at_inseams", "look_at_leg_room"]

_RUNS_IN: Final = (5.0, 10.0)
"""degrees by which the straight of a centre may turn where the curve of the crotch begins: passed, warned (ours)."""

_HOOK: Final = 1.0  # mm by which a crotch may dip below the end of its fork (ours)
_SEAT: Final = (0.0, 12.0, 15.0)
"""degrees that the seat leans: the least, the most for sitting, the most (0 to 15, common practice)."""

_SHORT: Final = (-0.5, 5.0, 10.0)
"""mm by which the back's inside leg is shorter: the least, the usual most, the most, in a woollen (common practice)."""

_KNEE: Final = 0.5  # mm by which the legs may differ below the knee (ours)
_HEM_MIDDLE: Final = 2.0  # mm that a crease may lie off the middle of the hem (ours)
_LEG_MIDDLE: Final = 25.0  # mm that it may lie off the middle of the leg at the crotch (ours; the book has 13)

FOOT: Final = 1.45
"""How far it is round heel and instep, by the girth of the ankle (from memory: 31 cm by 21 on women)."""

_CALF_AT: Final = 0.7  # of the height of the knee: where the calf is thickest (from memory)
_VERTICAL: Final = (10.0, 40.0)
"""mm of ease in the length of a body from shoulder to shoulder through the legs: the least, and the usual least of a
woven (common practice: 4 to 6 cm where it is fitted)."""


def look_at_crotch(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every crotch: the degrees it turns at its beginning, the mm it dips, the degrees the seat leans; then both.

    The seam through the crotch must be longer behind than in front, and the back's fork must not end higher.
    """
    halves = _halves(pattern)
    for piece in halves:
        yield look(_crotch, piece)
    if len(halves) == 2:
        yield look(_front_to_back, *sorted(halves, key=is_front, reverse=True))
    if not halves:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("there are no trousers", Verdict.PASS)


def _halves(pattern: Pattern) -> tuple[Piece, ...]:
    """Front and back of the trousers, whole: those that have waist or centre, crotch and inside leg."""
    found = pieces_of(pattern, part=BodyPart.TROUSERS)
    return tuple(p for p in found if edges_at(p, Place.CROTCH) and edges_at(p, Place.INSEAM) and _centre(p))


def _centre(piece: Piece) -> tuple[Edge, ...]:
    return edges_at(piece, *CENTRES)


def _crotch(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured are the turn where the curve of a crotch begins, degrees, and how far it dips below its fork, mm."""
    crotch, line = edges_at(piece, Place.CROTCH)[0], _centre(piece)
    beside = min(line, key=lambda edge: min((edge.end - crotch.start).norm(), (edge.start - crotch.end).norm()))
    onward = beside.end.near(crotch.start)
    into, out = (beside, crotch) if onward else (crotch, beside)
    turn = abs(math.degrees(run_ends(into.curves)[1].angle_to(run_ends(out.curves)[0])))
    yield check.result(
        f"{piece.name}: where the curve begins",
        verdict_on(turn, passing=_RUNS_IN[0], warning=_RUNS_IN[1]),
        measured=turn,
        wanted=0.0,
        allowed=_RUNS_IN[0],
        unit="degrees",
        remedy=f"The centre turns by {turn:.1f} degrees there: draw the curve on out of the straight.",
    )
    fork = crotch.end if onward else crotch.start
    dip = fork.y - min(p.y for p in polyline(crotch.curves, 0.1))
    yield check.result(
        f"{piece.name}: hook",
        verdict_on(dip, passing=_HOOK, warning=10.0 * _HOOK),
        measured=dip,
        wanted=0.0,
        allowed=_HOOK,
        remedy=f"The crotch dips {dip:.1f} mm below the end of its fork, which makes a hook: draw it level there.",
    )
    if not is_front(piece):
        yield _seat(check, piece, beside, fork)


def _seat(check: Check, piece: Piece, centre: Edge, fork: Point) -> Result:
    """Measured is how far the centre back leans from upright, degrees."""
    one, other = centre.curves[0].start, centre.curves[-1].end
    up = other - one if other.y > one.y else one - other
    inward = fork.x < min(one, other, key=lambda end: end.y).x  # and not by its side: a leg may be cut in two
    lean = math.degrees(math.atan2(up.x if inward else -up.x, up.y))
    least, usual, most = _SEAT
    past = lean > most or lean < least - 0.5
    return check.result(
        f"{piece.name}: lean of the seat",
        Verdict.FAIL if past else Verdict.WARN if lean > usual else Verdict.PASS,
        measured=lean,
        wanted=usual,
        allowed=(least, usual),
        unit="degrees",
        remedy=f"The centre back leans {lean:.1f} degrees; {usual:.0f} is the most to sit well in: "
        "lean it less and raise the waist behind instead.",
    )


def _front_to_back(check: Check, *halves: Piece) -> Iterator[Result]:
    """Measured is how much longer the back's crotch is than the front's, and how much lower its fork lies, mm."""
    # a bib goes on above the waist, from where the seam through the crotch begins
    above = [() if edges_at(p, Place.BIB) else _centre(p) for p in halves]
    lengths = [
        sum(e.length for e in (*centre, *edges_at(p, Place.CROTCH))) for p, centre in zip(halves, above, strict=True)
    ]
    more = lengths[1] - lengths[0]
    yield check.result(
        "crotch, back and front",
        Verdict.PASS if more > 0.0 else Verdict.FAIL,
        measured=more,
        wanted=0.0,
        allowed=(0.0, None),
        remedy=f"The back's crotch is {-more:.1f} mm shorter than the front's: raise the waist behind.",
    )
    drops = [_below_crotch_line(piece) for piece in halves]
    if None not in drops:
        lower = (drops[1] or 0.0) - (drops[0] or 0.0)
        yield check.result(
            "fork, back and front",
            Verdict.PASS if lower > -_HOOK else Verdict.WARN,
            measured=lower,
            wanted=0.0,
            allowed=(-_HOOK, None),
            remedy=f"The back's fork ends {-lower:.1f} mm higher than the front's: drop it.",
        )


def _below_crotch_line(piece: Piece) -> float | None:
    """How far below the line of the crotch the fork ends, mm; None where no such line is marked."""
    line = line_at(piece, Level.CROTCH)
    lowest = min(p.y for edge in edges_at(piece, Place.CROTCH) for p in (edge.start, edge.end))
    return None if line is None else line.start.y - lowest


def look_at_inseams(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """By how much the back's inside leg is shorter than the front's, mm; how alike both seams are below the knee."""
    halves = _halves(pattern)
    if len(halves) == 2 and not any(e.role is Role.OPENING for p in halves for e in edges_at(p, Place.INSEAM)):
        yield look(_inseams, *sorted(halves, key=is_front, reverse=True))
    else:
        yield look(_none)


def _inseams(check: Check, *halves: Piece) -> Iterator[Result]:
    """Measured is how much shorter the back's inside leg is than the front's, mm, then only below the knee."""
    lengths = [sum(edge.length for edge in edges_at(piece, Place.INSEAM)) for piece in halves]
    short = lengths[0] - lengths[1]
    least, usual, most = _SHORT
    past = short < least or short > most
    yield check.result(
        "inside legs",
        Verdict.FAIL if past else Verdict.WARN if short > usual else Verdict.PASS,
        measured=short,
        wanted=0.0,
        allowed=(least, usual),
        remedy=f"The back's inside leg is {abs(short):.1f} mm {'shorter' if short > 0.0 else 'longer'} than the "
        f"front's; it may be {usual:.0f} mm shorter and stretched to it, {most:.0f} mm in a woollen: drop the back's "
        "fork less or more.",
    )
    for place in (Place.INSEAM, Place.SIDE):
        below = [_below_knee(piece, place) for piece in halves]
        if None not in below:
            off = abs((below[0] or 0.0) - (below[1] or 0.0))
            yield check.result(
                f"below the knee, {place}",
                Verdict.PASS if off <= _KNEE else Verdict.FAIL,
                measured=off,
                wanted=0.0,
                allowed=_KNEE,
                remedy=f"Front and back differ by {off:.1f} mm below the knee; the leg will twist: make them equal.",
            )


def _below_knee(piece: Piece, place: Place) -> float | None:
    """How long a seam of the leg is from the knee down, mm; None where no knee is marked on it."""
    edges = edges_at(piece, place)
    for notch in notches_marking(piece, NotchMark.KNEE):
        edge = piece.edge(notch.station.edge)
        if edge in edges:
            at = from_start(edge, notch.station)
            hem = piece.edges[piece.index(edge.name) - 1].place is Place.HEM
            return at if hem else edge.length - at
    return None


def look_at_crease(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every crease: how far it lies off the middle of the hem, and of the leg at the crotch, mm."""
    # a half that was cut in two from waist to hem has no middle
    creased = [piece for piece in _halves(pattern) if line_at(piece, Level.CREASE) and edges_at(piece, Place.SIDE)]
    for piece in creased:
        yield look(_crease, piece)
    if not creased:
        yield look(_none)


def _crease(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is how far the crease lies from the middle of the leg, mm: at the hem, then at the crotch."""
    crease, knee, level = (line_at(piece, each) for each in (Level.CREASE, Level.KNEE, Level.CROTCH))
    assert crease is not None
    crotch = edges_at(piece, Place.CROTCH)[0]
    fork = min(crotch.start, crotch.end, key=lambda p: p.y)
    hem = edge_at(piece, Place.HEM) if knee is not None else None
    ends = {
        "hem": None if hem is None else (hem.start.x, hem.end.x, _HEM_MIDDLE),
        "crotch": None if level is None else (fork.x, level.end.x, _LEG_MIDDLE),
    }
    for what, found in ends.items():
        if found is not None:
            inner, outer, most = found
            off = abs(crease.end.x - 0.5 * (inner + outer))
            yield check.result(
                f"{piece.name}: crease at the {what}",
                Verdict.PASS if off <= most else Verdict.WARN,
                measured=off,
                wanted=0.0,
                allowed=most,
                remedy=f"The crease lies {off:.1f} mm off the middle of the leg there, and it will turn: move width "
                "from the one seam of the leg to the other.",
            )


def look_at_leg_room(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Whether the foot, and the calf where the leg ends above it, goes through the hem; measured is the room, mm."""
    halves = tuple(piece for piece in _halves(pattern) if edges_at(piece, Place.HEM))
    body = {length.key: length.mm for length in pattern.wearer.lengths}
    if len(halves) == 2 and "ankle_girth" in body and not _opens_below(halves):
        need, what = FOOT * body["ankle_girth"], "heel and instep"
        if _hem_height(halves[0], body) > _CALF_AT * body.get("knee_height", math.inf) and "calf_girth" in body:
            need, what = max((need, what), (body["calf_girth"], "calf"))
        yield look(_leg_room, need, what, pattern.stretch, *halves)
    else:
        yield look(_none)


def _opens_below(halves: tuple[Piece, ...]) -> bool:
    return any(edge.role is Role.OPENING for piece in halves for edge in edges_at(piece, Place.INSEAM))


def _hem_height(piece: Piece, body: dict[str, float]) -> float:
    """How high above the floor the hem hangs, mm; as high as the knee where the leg has none."""
    knee = line_at(piece, Level.KNEE)
    hem = edges_at(piece, Place.HEM)[0]
    high = body.get("knee_height", 0.0)
    return high if knee is None else high - (knee.start.y - hem.start.y)


def _leg_room(check: Check, need: float, what: str, stretch: float, *halves: Piece) -> Iterator[Result]:
    round_it = sum(edge.length for piece in halves for edge in edges_at(piece, Place.HEM))
    room = round_it * (1.0 + stretch / 3.0) - need
    yield check.result(
        f"hem over the {what}",
        Verdict.PASS if room >= 0.0 else Verdict.FAIL,
        measured=room,
        wanted=0.0,
        allowed=(0.0, None),
        remedy=f"One leg is {round_it:.0f} mm round its hem, and about {need:.0f} mm have to go through: make it "
        f"{math.ceil(-room)} mm wider.",
    )


def look_at_body_length(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Of a bodice sewn to trousers the ease from the shoulders through the crotch and back, mm."""
    parts = {piece.identity.part for piece in pattern.pieces}
    keys = ("front_waist_length_from_neck_pit", "back_waist_length", "crotch_length")
    laid = tuple(measure for measure in pattern.measures if measure.key in keys and measure.body is not None)
    if {BodyPart.BODICE, BodyPart.TROUSERS} <= parts and len(laid) == len(keys):
        names = {tape.piece for measure in laid for tape in measure.tape}
        yield look(_body_length, laid, pattern.stretch, *(p for p in pattern.pieces if p.name in names))
    else:
        yield look(_none)


def _body_length(check: Check, laid: tuple[Measure, ...], stretch: float, *pieces: Piece) -> Iterator[Result]:
    """Measured is the ease from shoulder to shoulder, mm: a neckline cut lower takes no length from the body."""
    ease = sum(map(neck_lowered, pieces)) + sum(
        made.finished - (made.body or 0.0) for made in finished_of(pieces, laid)
    )
    least, usual = (0.0, 0.0) if stretch else _VERTICAL
    yield check.result(
        "from shoulder to shoulder through the legs",
        Verdict.FAIL if ease < least else Verdict.WARN if ease < usual else Verdict.PASS,
        measured=ease,
        wanted=usual,
        allowed=(usual, None),
        remedy=f"There are {ease:.0f} mm of ease from the shoulders through the crotch and back; {usual:.0f} mm "
        "are wanted to sit and to reach: ask for more ease_at_waist.",
        remedies=_longer_body(pieces, usual - ease),
    )


def _longer_body(pieces: Sequence[Piece], short: float) -> tuple[Remedy, ...]:
    """The step that gives the body of a bodice so much length, mm: half of it in front, half behind."""
    fronts = (each for each in pieces if each.identity.part is BodyPart.BODICE and is_front(each))
    front = next((each for each in fronts if line_at(each, Level.LENGTHEN)), None)
    if front is None or short <= 0.0:
        return ()
    by = (Setting("piece", front.name), Setting("by", float(math.ceil(0.5 * short - SAME_PLACE)), "mm"))
    return (Remedy("add", "lengthen", by, lead="To lengthen the bodice, front and back"),)
