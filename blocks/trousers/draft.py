"""Trousers for a body: what is asked for, fitted, and handed over as two pieces with their seams and measurements."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from blocks.handover import PASSES, Drafted, WaistHalf, WaistSeam
from blocks.shared.waist_darts import DARTS
from blocks.trousers.frame import RAISED, Rise
from blocks.trousers.leg import CUT_OFF_KNEE, Leg, round_at
from blocks.trousers.measured import found_ease, measures
from blocks.trousers.pieces import Opens, piece, seams
from blocks.trousers.shape import MOST_CHANGED, MOST_FORK_BEHIND, Shape, Wanted, fitted_shape
from blocks.trousers.waist import Half, fitted, level_raise, taken_in
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.fit.ease import TOLD_FROM
from drafting.geometry import Vec, length
from drafting.geometry.solve import solve
from drafting.parts.finishes.fly_facing import FLY
from drafting.pattern import Piece, Place, edges_at
from drafting.pattern.notches import LEAST_APART

__all__ = ["ENDS", "FASTENINGS", "LEGS", "Asked", "draft_trousers"]

LEGS: Final = ("straight", "wide", "tapered")
ENDS: Final = ("full length", "cropped", "shorts")
FASTENINGS: Final = ("back", "side", "fly", "none")

_TRIES: Final = 3  # after which the outside leg is as long as asked for to a hundredth of a millimetre
_OFF_FLOOR: Final = 20.0  # mm above the floor that full length ends (common practice)
_KNEE_EASE: Final = {"straight": 125.0, "tapered": 65.0}  # mm round the knee where none was asked for (the book: 125)
_WIDE: Final = 24.0  # mm by which a wide leg is wider round than four times from the crease to the front's side seam
_NARROWER: Final = 52.0  # mm by which the hem of a straight leg is narrower round than its knee (the book)
_TAPERED_HEM: Final = 120.0  # mm of ease at the ankle: so that a heel goes through (common practice)
_SHORTS_HEM: Final = 120.0  # mm of ease round the thigh at the hem of shorts (common practice)
_SHORTS_INSIDE: Final = 80.0  # mm below the crotch that shorts end (common practice: 5 to 10 cm)
_CROPPED: Final = (
    0.45  # where cropped legs end, as a share of the way from knee to floor (ours: above the ankle's calf)
)
_LEAST_INSIDE: Final = 45.0  # mm of inside leg at the least
_CROTCH_BELOW_HIP: Final = 15.0  # mm that the crotch lies below the hip at the least (ours)
_ABOVE_CURVE: Final = 20.0  # mm above the curve of the crotch that a fly ends (common practice)
_OFF_STRAIGHT: Final = 3.0  # mm that the curve may lie off the straight where a fly has to go on into it (ours)
_BACK_ZIP_BELOW_HIP: Final = 15.0  # mm below the hip line that a zip in the back may end (common practice: 1 to 2 cm)
_SIDE_BELOW_HIP: Final = 60.0  # mm below the hip line that a side seam may be open (ours)
_ZIP: Final = 180.0  # mm: the zip of trousers (common practice, from memory: 15 to 20 cm)
_MOST_RAISED: Final = 30.0  # mm that the waist rises to the side, so that the halves come square to it (ours)
_LEAST_BALANCE: Final = 0.3  # of what a waist line turns, done on its chord: with less it bends at the side only (ours)
_LEAN_PULLED_ON: Final = 10.0  # mm that the centre back leans in where the waist is as wide as the hip (ours)
_MOST_BALANCE: Final = 0.85  # the same in front: with more it bends at the centre only (ours)
_OVER_HIP: Final = 20.0  # mm round that the open waist is wider than the hip it goes over (ours)
_GETS_IN: Final = 10.0  # mm by which the opening is longer than just enough (ours)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of the block, lengths in mm; None for what the leg gives.

    long: the outside leg, from the waist to the hem; hem: round the hem; short: how much shorter the back's inseam is
    at_waist: how much longer the rise is than the body where a bodice is sewn to it
    pulled_on: whether elastic is drawn into the waist, so that it goes straight up from the hip
    """

    leg: str = LEGS[0]
    ends: str = ENDS[0]
    long: float | None = None
    hem: float | None = None
    fastening: str = FASTENINGS[0]
    short: float = 0.0
    at_waist: float = 0.0
    front_darts: str = DARTS[0]
    back_darts: str = DARTS[0]
    pulled_on: bool = False


def draft_trousers(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    waist: WaistSeam | None,
    asked: Asked,
    *,
    solved: frozenset[str] = frozenset(),
) -> Drafted:
    """Trousers, front and back.

    ease, least: mm by place ("waist", "hip", "thigh", "knee", "crotch_depth", "crotch_length")
    waist:       the waist of the bodice that is sewn to them, or None for trousers of their own
    solved:      the places of the leg ("thigh", "knee") whose ease was asked for; else the leg has what its shape gives
    Raises CannotDraft, naming the measurements at odds.
    """
    rise = _rise(body, ease, asked, joined=waist is not None)
    measured = body["crotch_length"].source == "measured"
    strip = asked.at_waist if waist is not None else 0.0
    crotch = body.mm("crotch_length") + ease["crotch_length"] + 2.0 * strip if measured else None
    thigh = body.mm("thigh_girth") + ease["thigh"]
    hip = body.mm("hip_girth") + ease["hip"]

    def drawn(level: float | None) -> tuple[Wanted, Shape, tuple[Half, Half]]:
        """What is wanted, the shape and both waists, with the hem at a level below the waist."""
        leg = _leg(body, ease, rise, replace(asked, long=level), solved)
        wanted = Wanted(rise, hip, leg, crotch, thigh if "thigh" in solved else None, thigh, asked.short)
        shape = fitted_shape(wanted)
        return wanted, shape, _waists(body, ease, shape, waist, asked)

    try:
        wanted, shape, (front, back) = drawn(asked.long)
        if asked.long is not None:
            level = asked.long
            for _ in range(_TRIES):  # the side is longer than the level lies deep, and hardly changes with it
                level += asked.long - _outside(front, shape, front=True)
                wanted, shape, (front, back) = drawn(level)
        opens = _opens(body, ease, shape, waist, asked, length(front.side(), 1e-3))
        pieces = (
            piece(front, shape.front, shape, wanted.leg, opens),
            piece(back, shape.back, shape, wanted.leg, opens),
        )
    except NotAPattern as none:
        raise CannotDraft(
            ("waist_girth", "hip_girth", "waist_to_hip", "crotch_height", "crotch_length", "thigh_girth"),
            f"No trousers can be drawn from these girths and a crotch {rise.depth:.0f} mm below the waist ({none}).",
        ) from none
    if crotch is not None and shape.crotch < body.mm("crotch_length") + least.get("crotch_length", 0.0):
        raise CannotDraft(
            ("crotch_length", "waist_height", "crotch_height"),
            f"The crotch lies {rise.depth:.0f} mm below the waist, and the seam through it can be made "
            f"{shape.crotch:.0f} mm long there; the tape through the crotch says {body.mm('crotch_length'):.0f} mm. "
            "Measure these again.",
        )
    return _handed(body, ease, least, wanted, shape, pieces, opens, asked, waist, strip, solved)


def _rise(body: Body, ease: Mapping[str, float], asked: Asked, *, joined: bool) -> Rise:
    """How deep trousers are from the waist to hip and crotch, mm, and how their centre leans back.

    Raises CannotDraft where the crotch would not lie below the hip.
    """
    strip = asked.at_waist if joined else 0.0
    depth = body.mm("waist_height") - body.mm("crotch_height") + ease["crotch_depth"] + strip
    hip_depth = body.mm("waist_to_hip") + strip
    if depth < hip_depth + _CROTCH_BELOW_HIP:
        raise CannotDraft(
            ("waist_to_hip", "waist_height", "crotch_height"),
            f"The crotch would lie {depth:.0f} mm below the waist and the hip {hip_depth:.0f} mm: the crotch has to "
            f"lie at least {_CROTCH_BELOW_HIP:.0f} mm below the hip.",
        )
    rise = Rise(body.mm("hip_girth"), depth, hip_depth)
    if not asked.pulled_on:
        return rise
    spare = 0.5 * (ease["hip"] - PASSES) * 0.5 * (depth + RAISED) / (hip_depth + RAISED)
    return replace(rise, centre_in=0.0, lean=max(0.0, min(_LEAN_PULLED_ON, spare)))


def _leg(body: Body, ease: Mapping[str, float], rise: Rise, asked: Asked, solved: frozenset[str]) -> Leg:
    """The leg by its shape, with what was asked for in place of what the shape gives."""
    strip = rise.hip_depth - body.mm("waist_to_hip")
    floor = body.mm("waist_height") + strip
    knee = floor - body.mm("knee_height")
    if asked.leg == "wide":
        round_knee = 4.0 * (0.25 * (rise.hip + ease["hip"]) - rise.from_crease) + _WIDE
    else:
        round_knee = body.mm("knee_girth") + _KNEE_EASE[asked.leg]
        if asked.leg == "straight" and asked.hem is not None and asked.ends == ENDS[0] and asked.long is None:
            round_knee = asked.hem + _NARROWER
    if "knee" in solved:
        round_knee = body.mm("knee_girth") + ease["knee"]
    full = floor - _OFF_FLOOR
    hem = _hem_level(rise, asked, knee, floor)
    if hem < rise.depth + _LEAST_INSIDE:
        raise CannotDraft(
            ("waist_height", "crotch_height"),
            f"The hem of the trousers would lie {hem:.0f} mm below the waist, and the crotch {rise.depth:.0f} mm: "
            "make them longer.",
        )
    if hem < knee + CUT_OFF_KNEE:
        return Leg(None, round_knee, hem, asked.hem or _short_hem(body, rise, hem, knee, round_knee))
    narrow = {
        "straight": round_knee - _NARROWER,
        "wide": round_knee,
        "tapered": min(round_knee, body.mm("ankle_girth") + _TAPERED_HEM),
    }[asked.leg]
    return Leg(knee, round_knee, hem, asked.hem or round_at(hem, knee, round_knee, full, narrow))


def _short_hem(body: Body, rise: Rise, hem: float, knee: float, round_knee: float) -> float:
    """Round the hem of a leg that ends above the knee, mm: from thigh to knee evenly narrower."""
    thigh = body.mm("thigh_girth") + _SHORTS_HEM
    down = max(0.0, min(1.0, (hem - rise.depth - _SHORTS_INSIDE) / (knee - rise.depth - _SHORTS_INSIDE)))
    return thigh + down * (min(round_knee, thigh) - thigh)


def _hem_level(rise: Rise, asked: Asked, knee: float, floor: float) -> float:
    if asked.long is not None:
        return asked.long
    if asked.ends == "shorts":
        return rise.depth + _SHORTS_INSIDE
    if asked.ends == "cropped":
        return knee + _CROPPED * (floor - knee)
    return floor - _OFF_FLOOR


def _waists(
    body: Body, ease: Mapping[str, float], shape: Shape, waist: WaistSeam | None, asked: Asked
) -> tuple[Half, Half]:
    """Both waists, as long as they are to be, and the sides raised so that the outside legs are equally long."""
    if asked.pulled_on:
        return _straight_up(0.5 * (body.mm("hip_girth") + PASSES), shape)
    if waist is None:
        quarter = 0.25 * (body.mm("waist_girth") + ease["waist"])
        alone = WaistHalf(quarter, (), 0.5 * quarter, ())
        waist = WaistSeam(alone, alone)
    behind = shape.back.centre
    front = taken_in(
        Half(
            True, shape.front.centre.waist, _square(shape, front=True), shape.front.hip, waist.front, asked.front_darts
        )
    )
    back = taken_in(
        Half(False, behind.waist, _square(shape, front=False), shape.back.hip, waist.back, asked.back_darts)
    )
    raised = max(0.0, min(_MOST_RAISED, 0.5 * (level_raise(front) + level_raise(back))))
    raised = max(raised, level_raise(back, _LEAST_BALANCE))
    raised = min(raised, max(0.0, level_raise(front, _MOST_BALANCE)))
    front = fitted(replace(front, raised=raised))
    return front, _as_long(back, front, shape)


def _as_long(back: Half, front: Half, shape: Shape) -> Half:
    """The back with its side raised so that its outside leg is as long as the front's."""
    long = _outside(front, shape, front=True)

    def surplus(level: float) -> float:
        return _outside(fitted(replace(back, raised=level)), shape, front=False) - long

    return fitted(replace(back, raised=solve(surplus, front.raised, 1.0)))


def _straight_up(wanted: float, shape: Shape) -> tuple[Half, Half]:
    """Both waists without darts, straight up from the hip; wider at the sides where both together would be less than
    wanted, mm. The line runs on over the side seam.
    """
    widths = [each.hip.x - each.centre.waist.x for each in (shape.front, shape.back)]
    wider = max(0.0, 0.5 * (wanted - sum(widths)))

    def half(raised: float, *, front: bool) -> Half:
        own = shape.front if front else shape.back
        long = widths[0 if front else 1] + wider
        square = _square(shape, front=front)
        made = Half(front, own.centre.waist, square, own.hip, WaistHalf(long, (), 0.5 * long, ()), free=True)
        return fitted(replace(made, inset=-wider, raised=raised))

    def both(raised: float) -> tuple[Half, Half]:
        front = half(raised, front=True)
        return front, _as_long(half(raised, front=False), front, shape)

    return both(solve(lambda raised: sum(each.off_square for each in both(raised)), 0.0, 2.0))


def _square(shape: Shape, *, front: bool) -> Vec:
    """Square to the centre at the waist, outward."""
    centre = (shape.front if front else shape.back).centre
    return (centre.waist - centre.turn).unit().right()


def _outside(half: Half, shape: Shape, *, front: bool) -> float:
    """The outside leg from the waist to the hem, mm."""
    leg = shape.front if front else shape.back
    return length(half.side(), 1e-7) + sum(length(curve, 1e-7) for curve in leg.outer)


def _opens(
    body: Body, ease: Mapping[str, float], shape: Shape, waist: WaistSeam | None, asked: Asked, to_hip: float
) -> Opens:
    """Where they open and how far down, so that the waist goes over the hips.

    to_hip: from the waist to the notch at the hip, along the side
    """
    where = asked.fastening
    if where == "none":
        return Opens(where, 0.0)
    round_waist = (
        body.mm("waist_girth") + ease["waist"] if waist is None else 2.0 * (waist.front.length + waist.back.length)
    )
    needed = 0.5 * (body.mm("hip_girth") + _OVER_HIP - round_waist) + _GETS_IN
    half = shape.front if where == "fly" else shape.back
    at_side = shape.rise.hip_depth + _SIDE_BELOW_HIP
    room = {
        "side": at_side,
        "fly": half.centre.straight + half.centre.nearly_straight(_OFF_STRAIGHT),
        "back": half.centre.straight + shape.rise.hip_depth + _BACK_ZIP_BELOW_HIP - 0.5 * shape.rise.depth,
    }[where]
    if needed > room:
        # trousers below a bodice open where it does, at the back
        other = waist is None and where != "side" and needed <= at_side
        instead = ': fasten at the "side" instead' if other else ""
        raise CannotDraft(
            ("waist_girth", "hip_girth", "waist_to_hip"),
            f"To let the hip through, the opening would have to be {needed:.0f} mm long, and there is room for "
            f"{room:.0f} mm{instead}.",
        )
    usual = min(_ZIP, room if where != "fly" else half.centre.straight - _ABOVE_CURVE)
    long = max(usual, needed)
    if where == "side" and abs(long - to_hip) < LEAST_APART + 1.0:
        long = to_hip + LEAST_APART + 1.0
    return Opens(where, long)


def _handed(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    wanted: Wanted,
    shape: Shape,
    pieces: tuple[Piece, Piece],
    opens: Opens,
    asked: Asked,
    waist: WaistSeam | None,
    strip: float,
    solved: frozenset[str],
) -> Drafted:
    """The trousers with what was found out on the way."""
    has = found_ease(body, pieces)
    sewn = {place: mm for place, mm in has.items() if place in ("waist", "hip", "crotch_depth")}
    because = {}
    sewn["crotch_depth"] -= strip
    gave_way: list[str] = []
    if wanted.crotch is not None:
        sewn["crotch_length"] = has["crotch_length"] - 2.0 * strip
        if abs(shape.crotch - wanted.crotch) > TOLD_FROM:
            because["crotch_length"] = (
                f"because no waist and no front fork is changed by more than {MOST_CHANGED:.0f} mm, and no back "
                f"fork by more than {MOST_FORK_BEHIND:.0f} mm: measure crotch length, waist to floor and "
                "inside leg once more"
            )
    else:
        seam, usual = shape.crotch - ease["crotch_length"] - 2.0 * strip, body["crotch_length"]
        gave_way.append(
            f"The crotch length was not measured: the seam through the crotch is drawn for a body of {seam:.0f} mm, as "
            f"the usual way of drawing gives it; women of this size measure about {usual.mm:.0f} mm. Measure it, from "
            "the waist in front between the legs to the waist behind, and write crotch_length under [measurements]; "
            "without it sew a trial pair first and sit down in it."
        )
    if wanted.thigh is not None or abs(shape.thigh - wanted.thigh_least) <= TOLD_FROM:
        sewn["thigh"] = has["thigh"]
        because["thigh"] = "because the crotch, as long as it is, needs its forks"
    if "knee" in solved and wanted.leg.knee is not None:
        sewn["knee"] = has["knee"]
    return Drafted(
        pieces=pieces,
        seams=seams(pieces, asked.short, waist),
        measures=measures(body, ease, least, pieces, has, measured=wanted.crotch is not None, strip=strip),
        options=(
            ("leg", asked.leg),
            ("ends", asked.ends),
            ("length", sum(edge.length for edge in edges_at(pieces[0], Place.SIDE))),
            ("hem_width", wanted.leg.round_hem),
            ("fastening", opens.where),
            ("inseam_ease", asked.short),
            ("ease_at_waist", strip),
            ("front_darts", asked.front_darts),
            ("back_darts", asked.back_darts),
        ),
        given=sewn,
        because=because,
        gave_way=tuple(gave_way),
        parts=(FLY,) if opens.where == "fly" else (),
    )
