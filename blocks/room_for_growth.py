"""`[grow]` in a garment file: the cloth that is left in a garment for a child to grow into, as steps like any other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace
from datetime import date
from typing import Final

from blocks.garment import Garment, finish, prepare
from drafting.alterations import Alteration, apply_step
from drafting.alterations.finishes.hem import turned_through
from drafting.alterations.whole_garment.room_to_grow import AT_HEM, AT_WAIST, TUCK, RoomToGrow
from drafting.checks.allowances import TURNED
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, StepRefused
from drafting.fit.ease import PLACES
from drafting.growth.measured_growth import growth_of, until_problems
from drafting.growth.own_centile import Growth
from drafting.growth.to_leave import to_leave, wider
from drafting.pattern import BodyPart, Edge, Level, Pattern, Piece, PieceKind, Place, Role, edges_at, line_at
from drafting.pattern.unfinished import is_facing
from drafting.reading.read_table import Reader, refuse

__all__ = ["Grow", "read_grow", "with_room_to_grow"]

_MOST: Final = 150.0
_PLACES: Final = ("hem", "waist", "sleeve", "width", "straps", "crotch")
_LET_OUT: Final = "let_out"  # the option of a block whose straps let out

_SLEEVE_HEM: Final = 50.0
"""mm. The deepest hem at a wrist; what is more goes into a tuck above the elbow (a sleeve hem of 4 to 5 cm and a tuck
are what is left in a child's sleeve: common practice)."""

_MOST_OF_SKIRT: Final = 1.0 / 3.0
"""Of a skirt or a top, the most that is left at its hem: a deeper one hangs like a board (ours)."""

_MOST_OF_SLEEVE: Final = 0.1
"""Of a sleeve, the most that a tuck takes: a deeper one cuts across its underarm (ours)."""

_LEAST: Final = 3.0
"""mm. Less than this is not worth the sewing (ours)."""

_DRESS: Final = 250.0
"""mm below the waist from where on what is cut in one with the bodice is a dress, and grows as a skirt does (ours)."""

_BESIDE_BACK: Final = 1.5
"""mm of ease round the chest for each mm across the back, so that the back armhole keeps its hollow: a quarter of the
one and half of the other lie between the centre back and the side, and the front armhole takes its part (ours)."""

_BY_STRAPS: Final = 0.75
"""Of the growth of the way from shoulder to shoulder through the crotch, what straps take; a tuck the rest: 6 of 8 cm
for two sizes (common practice)."""

_SHORT_LEG: Final = 100.0  # mm of inseam: a shorter leg is not let down (ours)
_SPARE: Final = 1.0  # mm that a width has beyond what is to be expected (ours)
_WIDTHS: Final = ("bust", "waist", "hip", "upper_arm")


@dataclass(frozen=True, slots=True)
class Grow:
    """Until when a garment is to fit a child that grows, and how much is left for it where she says so herself.

    asked: mm by place, one of `_PLACES`; what is not there is worked out from her growth
    place: where it is written, for the sentences about it
    """

    until: date
    asked: Mapping[str, float] = field(default_factory=dict)
    place: str = "grow"


def read_grow(reader: Reader) -> Grow | None:
    """What a `[grow]` table asks for; None where it cannot be used. What is wrong is noted in the reader."""
    problems_before = len(reader.problems)
    until = reader.date("until")
    asked = {name: reader.length(name, low=0.0, high=_MOST) for name in _PLACES if name in reader}
    return Grow(until, asked, reader.where()) if len(reader.problems) == problems_before else None


def with_room_to_grow(garment: Garment, grow: Grow) -> Garment:
    """The garment with what is left for growth: steps after its own, and more ease where she grows much wider.

    Raises InputProblems where the wearer is no child whose growth can be told, or the day makes no sense; and as
    `finish` does for a garment that cannot be drafted.
    """
    if garment.sizes is not None:
        mend = "Name a wearer whose file says when she was born and measured."
        raise InputProblems([Problem(grow.place, garment.sizes.name, "a child: a size does not grow", mend)])
    growth = growth_of(garment.wearer)
    refuse(until_problems(growth, grow.until, f"{grow.place}, until"))
    garment = replace(garment, grow_until=grow.until)
    garment = _longer_straps(replace(garment, grow_ease=_wider(garment, growth, grow)), growth, grow)
    pattern = finish(garment)
    steps: list[Alteration] = []
    for step in _steps(pattern, growth, grow):
        left = _left(pattern, step)
        if left is not None:
            pattern = left
            steps.append(step)
    sources = garment.sources or tuple(f"step {count}" for count in range(1, len(garment.steps) + 1))
    return replace(garment, steps=(*garment.steps, *steps), sources=(*sources, *(grow.place for _ in steps)))


def _longer_straps(garment: Garment, growth: Growth, grow: Grow) -> Garment:
    """The garment with straps that let out for her growth, where it has some; the rest is a tuck above the crotch."""
    usual = next(each.leave for each in to_leave(growth, grow.until) if each.place.name == "straps")
    more = grow.asked.get("straps", _whole_half_cm(_BY_STRAPS * usual))
    orders = []
    for order in garment.blocks:
        lets_out = next((each.default for each in order.block.options if each.name == _LET_OUT), None)
        if isinstance(lets_out, float):
            asked = order.options.get(_LET_OUT)
            long = max(lets_out, more) if asked is None else float(str(asked)) + more
            orders.append(replace(order, options={**order.options, _LET_OUT: long}))
        else:
            orders.append(order)
    return replace(garment, blocks=tuple(orders))


def _left(pattern: Pattern, step: RoomToGrow) -> Pattern | None:
    """The pattern with cloth left in one place; None where none can be left there."""
    try:
        return apply_step(pattern, step, as_written=True)
    except StepRefused:
        return None


def _wider(garment: Garment, growth: Growth, grow: Grow) -> dict[str, float]:
    """By how much more ease is left at each place for growth in width, mm; nothing where the usual ease takes it."""
    prepared = prepare(garment)
    drawn = {place for order in garment.blocks for place in order.block.places}
    found: dict[str, float] = {}
    for place in drawn & prepared.least.keys():
        key = PLACES[place]
        if key is None or key not in prepared.body:
            continue
        grows = wider(growth, key, prepared.body.mm(key), grow.until)
        # and never so little that it is not to be expected to be worn on that day
        more = max(grows.more, grows.expected + _SPARE + prepared.least[place] - prepared.ease.mm(place))
        if place in _WIDTHS:
            more = grow.asked.get("width", more)
        if more > 0.0:
            found[place] = more
    if "across_back" in found and "bust" in drawn:
        found["bust"] = found.get("bust", 0.0) + _BESIDE_BACK * found["across_back"]
    return found


def _steps(pattern: Pattern, growth: Growth, grow: Grow) -> Iterator[RoomToGrow]:
    """What is left where, by what the pieces are: at the first of the pieces that go together there."""
    leave = {each.place.name: each.leave for each in to_leave(growth, grow.until)}
    until = grow.until.isoformat()
    seen: set[tuple[BodyPart | None, str]] = set()
    for piece in (each for each in pattern.pieces if not is_facing(each)):
        part = piece.identity.part
        waist = [edge for edge in edges_at(piece, Place.WAIST) if edge.role is Role.SEAM]
        if part is BodyPart.BODICE and waist and (part, AT_WAIST) not in seen:
            seen.add((part, AT_WAIST))
            darts = any(edge.role is Role.DART_LEG for edge in piece.beside(waist[0].name, last=waist[-1].name))
            at = TUCK if darts or len(waist) > 1 else AT_WAIST
            yield from _left_at(piece, grow.asked.get("waist", leave["bodice"]), at, until)
        if edges_at(piece, Place.CROTCH) and (part, TUCK) not in seen:
            # front and back are tucked alike, so the way through the crotch gets twice as much longer
            seen.add((part, TUCK))
            hung = any(each.identity.kind is PieceKind.STRAP for each in pattern.pieces)
            share = 1.0 - _BY_STRAPS if hung else 1.0
            yield from _left_at(piece, grow.asked.get("crotch", share * leave["straps"]) / 2.0, TUCK, until)
        if (hems := _hems(piece)) and (part, AT_HEM) not in seen:
            seen.add((part, AT_HEM))
            wanted, whole, in_hem = _at_hem(piece, hems, leave, grow.asked)
            # what has no room for all of it promises no day
            lasting = until if whole >= wanted else ""
            yield from _left_at(piece, whole - in_hem, TUCK, lasting)
            yield from _left_at(piece, in_hem, AT_HEM, lasting)


def _hems(piece: Piece) -> list[Edge]:
    return [edge for edge in piece.edges if edge.role is Role.HEM]


def _left_at(piece: Piece, by: float, at: str, until: str) -> Iterator[RoomToGrow]:
    """The step that leaves so much; none for what is not worth the sewing. A tuck lies as low as it can."""
    if by < _LEAST:
        return
    lines = [line for line in piece.lines if line.level is Level.LENGTHEN]
    low = at == TUCK and piece.identity.part is not BodyPart.SLEEVE and lines
    line = min(lines, key=lambda each: each.start.y).name if low else ""
    yield RoomToGrow(piece.name, by, at, line, until)


def _at_hem(
    piece: Piece, hems: Sequence[Edge], leave: Mapping[str, float], asked: Mapping[str, float]
) -> tuple[float, float, float]:
    """How much should be left at a hem, how much is, and how much of it in the hem itself, mm; the rest in a tuck."""
    if piece.identity.part is BodyPart.SLEEVE:
        wanted = whole = asked.get("sleeve", leave["sleeve"])
        in_hem = min(whole, max(0.0, _SLEEVE_HEM - hems[0].allowance))
        if "sleeve" not in asked:
            whole = min(whole, in_hem + _whole_half_cm(_MOST_OF_SLEEVE * _long(piece)))
        return wanted, whole, in_hem
    usual = leave["skirt"]
    if inseams := edges_at(piece, Place.INSEAM):
        usual = leave["legs"] if inseams[0].length > _SHORT_LEG else 0.0
    elif piece.identity.part is BodyPart.BODICE:
        waist = line_at(piece, Level.WAIST)
        below = waist.start.y - min(edge.end.y for edge in hems) if waist is not None else 0.0
        usual = leave["skirt"] + leave["bodice"] if below > _DRESS else leave["top"]
    wanted = whole = asked.get("hem", usual)
    if "hem" not in asked:
        whole = min(whole, _whole_half_cm(_MOST_OF_SKIRT * _long(piece)))
    lies = min(_lies(edge.length, turned_through(edge.curves), edge.allowance) for edge in hems)
    return wanted, whole, min(whole, lies)


def _long(piece: Piece) -> float:
    """How long a piece is from top to hem, mm."""
    return _top(piece) - min(edge.end.y for edge in _hems(piece))


def _top(piece: Piece) -> float:
    return max(edge.start.y for edge in piece.edges)


def _whole_half_cm(mm: float) -> float:
    return 5.0 * (max(0.0, mm) // 5.0)


def _lies(length: float, bends: float, depth: float) -> float:
    """By how much a hem can be made deeper so that it still lies flat turned up, mm, to half a centimetre."""
    if abs(bends) < 1e-6:
        return _MOST
    return max(0.0, 5.0 * ((TURNED * length / abs(bends) - depth) // 5.0))
