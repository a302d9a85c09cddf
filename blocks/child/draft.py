"""From a child's body and the ease to the pieces, seams and measurements of the bodice."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from blocks.child.laps import with_laps
from blocks.child.openings import Centre, Way, centre_edges
from blocks.handover import Drafted, WaistSeam
from blocks.shared.dartless_frame import SCOOPED_BEHIND, DartlessFrame, Half, dartless_frame, smooth_lines
from blocks.shared.dartless_pieces import BACK, FRONT, Side, bottom_line, piece_of, run_at_level
from blocks.shared.edges_handed import armhole_of, waist_half_of
from blocks.shared.sleeve_room import deep_enough
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.geometry import Point, length, run_length
from drafting.geometry.solve import solve
from drafting.pattern import (
    Across,
    Along,
    EdgeRef,
    Level,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    Place,
    Role,
    Seam,
    across,
    edges_at,
    line_at,
    require_edge,
    require_line,
)
from drafting.pattern.neck_band import NECK_BAND

__all__ = ["Long", "draft_childs_bodice"]

_SCYE_STEP: Final = 3.0
_MOST_SCYE_MORE: Final = 30.0
_STEEPEST: Final = 0.165  # of its length, the most that a side seam comes in at the waist (ours)
_MOST_OUT: Final = 0.35  # the same where it goes out over a belly (ours)
_STRAIGHT_BELOW: Final = 0.22  # of its length from the underarm, below which the side seam is straight (ours)
_FALL: Final = 0.36  # of its slope at the side by which the waist falls on its way there: level for a third (ours)
_SHORT_OF_HIP: Final = 25.0  # mm: a hem nearer than this to the hip line takes no line of its own (ours)
_TURNED: Final = 0.16  # of the way from the underarm to the hip, below which a slanting side is straight (ours)
_TRIES: Final = 3
_BELLY_TO, _BELLY_GONE = 1050.0, 1150.0  # mm of height over which a belly goes (ours, after the four years of practice)
_MOST_BELOW: Final = 4.0  # times what the side moves at the waist, the most that it moves below it (ours)


@dataclass(frozen=True, slots=True)
class Long:
    """How a bodice goes on below the waist, mm: how far, and how much further each side goes out towards the hem."""

    below: float = 0.0
    flare: float = 0.0


_BECAUSE: Final[Mapping[str, str]] = MappingProxyType(
    {
        "bust": "because the back is broad for it",
        "across_back": "because it was only estimated, and the arm needs room",
        "waist": "because a bodice without darts is taken in at its sides alone",
        "hip": "because it hangs straight down from the chest",
        "scye_depth": "so that the sleeve goes over the arm",
    }
)
"""Why the ease at a place is not what was asked for."""


def draft_childs_bodice(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    *,
    long: Long = Long(),
    way: Way,
    for_sleeve: bool = True,
) -> Drafted:
    """A child's bodice without darts, front and back.

    ease, least: mm by place, as for the bodice for women, "hip" too
    way:         how the head gets through
    for_sleeve:  deepen the armhole, and say so, when no sleeve for this arm could be set into it
    Raises CannotDraft naming the measurements at odds.
    """

    def drawn(more: float) -> tuple[tuple[DartlessFrame, Piece, Piece, float | None], float]:
        """The top with an armhole so much deeper, mm, and how long its armhole is, front and back together, mm."""
        frame = dartless_frame(
            body,
            ease,
            scye_more=more,
            dips=not long.below,
            least_across=least.get("across_back", 0.0),
            neckline=way.neckline,
        )
        with smooth_lines():
            frame, sides = _sides(frame, body, ease, long)
            front, back, opened = _pieces(frame, sides, body, long, way)
        hole = armhole_of(front, back)
        return (frame, front, back, opened), hole.front + hole.back

    frame, front, back, opened = deep_enough(
        drawn, body, ease, step=_SCYE_STEP, most=_MOST_SCYE_MORE, for_sleeve=for_sleeve
    )
    waist = None if long.below else WaistSeam(waist_half_of(front), waist_half_of(back), opened)
    return Drafted(
        pieces=(front, back),
        seams=_seams(way, front, back),
        measures=_measures(body, ease, least, frame, front, back),
        options=(
            ("opening", way.name),
            ("slit", way.slit or None),
            ("lap", way.lap or None),
            ("band_width", way.band.width if way.band else None),
            ("band_stretch", way.band.stretch if way.band else None),
            ("below_waist", long.below or None),
            ("flare", long.flare or None),
            ("bust_ease", frame.chest_ease),
            ("scye_ease", frame.scye_ease),
        ),
        given=_given(body, front, back, frame.neck.scooped),
        because=_BECAUSE,
        gave_way=frame.gave_way,
        armhole=armhole_of(front, back),
        waist=waist,
        parts=(NECK_BAND,) if way.band else (),
    )


@dataclass(frozen=True, slots=True)
class _Sides:
    """The side seams of front and back, equally long; alike but for a belly, which the front makes room for."""

    front: Side
    back: Side

    @property
    def uneven(self) -> bool:
        """Whether front and back lean out differently."""
        return self.front is not self.back

    def of(self, half: Half) -> Side:
        """The side seam of one half."""
        return self.front if half.front else self.back


def _sides(frame: DartlessFrame, body: Body, ease: Mapping[str, float], long: Long) -> tuple[DartlessFrame, _Sides]:
    """The side seams, and the frame a little wider at the underarm, so that the chest has its round at its own line."""
    wanted = frame.front.width, frame.back.width
    belly = _belly(body, frame)
    for _ in range(_TRIES):
        sides = _hanging(frame, body, ease, long, belly) if long.below else _taken_in(frame, body, ease, belly)
        off = [
            width - run_at_level(sides.of(half).run(Point(half.width, frame.under)), frame.chest)
            for width, half in zip(wanted, (frame.front, frame.back), strict=True)
        ]
        frame = replace(frame, front=_wider(frame.front, off[0]), back=_wider(frame.back, off[1]))
    return frame, sides


def _belly(body: Body, frame: DartlessFrame) -> float:
    """By how much each side seam moves back at the waist, mm, so that the front of a small child is no narrower there.

    A belly of under four years goes with the height (the front at least as wide as the back is common practice).
    """
    small = (_BELLY_GONE - body.mm("stature")) / (_BELLY_GONE - _BELLY_TO)
    return max(0.0, min(1.0, small)) * max(0.0, 0.5 * (frame.back.width - frame.front.width))


def _for_belly(side: Side, under: float, belly: float) -> _Sides:
    """Two side seams out of one: further out in front at the waist, as much further in behind, and as long."""
    if not belly:
        return _Sides(side, side)
    straight = under - (side.turned or 0.0)
    by = belly * min(_MOST_BELOW, (straight - side.raised) / straight)
    back = replace(side, inset=side.inset + by)
    long = run_length(back.run(Point(0.0, under)))

    def surplus(raised: float) -> float:
        return run_length(Side(side.inset - by, raised, side.turned).run(Point(0.0, under))) - long

    return _Sides(Side(side.inset - by, solve(surplus, side.raised, 0.1), side.turned), back)


def _wider(half: Half, by: float) -> Half:
    return replace(half, width=half.width + by)


def _taken_in(frame: DartlessFrame, body: Body, ease: Mapping[str, float], belly: float) -> _Sides:
    """The side as it must be for the waist to be as long as it is asked for, or nearly."""
    wanted = 0.5 * (body.mm("waist_girth") + ease["waist"])
    most = _STEEPEST * frame.under

    turned = _STRAIGHT_BELOW * frame.under

    def side(inset: float) -> _Sides:
        # the waist is drawn square to the side: level at first, then falling there
        width = 0.5 * (frame.back.width + frame.front.width) - inset
        lean = inset / (frame.under - turned)
        return _for_belly(Side(inset, -_FALL * lean * width, turned), frame.under, belly)

    def surplus(inset: float) -> float:
        drawn = side(inset)
        return sum(_bottom_length(half, drawn.of(half), frame.under) for half in (frame.back, frame.front)) - wanted

    if surplus(most) >= 0.0:
        return side(most)
    if surplus(-_MOST_OUT * frame.under) <= 0.0:
        return side(-_MOST_OUT * frame.under)
    guess = 0.5 * (frame.back.width + frame.front.width - wanted)
    return side(solve(surplus, max(-_MOST_OUT * frame.under, min(most, guess)), 1.0))


def _bottom_length(half: Half, side: Side, under: float) -> float:
    return length(bottom_line(side.run(Point(half.width, under)), -half.dip))


def _hanging(frame: DartlessFrame, body: Body, ease: Mapping[str, float], long: Long, belly: float) -> _Sides:
    """The side straight down, or slanting out so that hip and hem are as wide as they are to be."""
    quarter = 0.5 * (frame.back.width + frame.front.width)
    depth = body.mm("waist_to_hip")
    turned = _TURNED * (frame.under + depth)
    hip = 0.25 * (body.mm("hip_girth") + ease["hip"]) - quarter
    slant = max(
        0.0, hip / (frame.under - turned + depth), long.flare / (frame.under - turned + long.below)
    )  # mm outward to the mm down
    level = -long.below
    for _ in range(_TRIES):
        out = slant * (frame.under - turned - level)
        # the hem is drawn square to the side, so it rises there by what keeps it one even curve
        level = -long.below + math.tan(0.5 * math.atan(slant)) * (quarter + out)
    return _for_belly(Side(-slant * (frame.under - turned - level), level, turned), frame.under, belly)


def _pieces(frame: DartlessFrame, sides: _Sides, body: Body, long: Long, way: Way) -> tuple[Piece, Piece, float | None]:
    """(front, back, how far the opening at the centre back goes on below the waist)."""
    waist = 2.0 * sum(_bottom_length(half, sides.of(half), frame.under) for half in (frame.back, frame.front))
    over = max(body.mm("bust_girth"), body.mm("head_girth"))  # what the waist passes on its way
    tight = 0.0 if long.below else over - waist
    made, opened = [], None
    for half in (frame.front, frame.back):
        side = sides.of(half)
        bottom = _even_hem(half, side, frame.under) if long.below and sides.uneven else -half.dip - long.below
        at = Centre("centre front" if half.front else "centre back", half.centre.y, bottom)
        edges, below = centre_edges(way, at, front=half.front, tight=tight)
        opened = below if below is not None else opened
        hip = -body.mm("waist_to_hip")
        at_hip = hip if side.raised < hip - _SHORT_OF_HIP else None
        shoulder = Role.OPENING if way.open_shoulder else Role.SEAM
        piece = piece_of(
            frame, half, side, edges, fold=below is None, long=bool(long.below), hip=at_hip, shoulder=shoulder
        )
        made.append(piece)
    front, back = made
    back = _meeting_at_waist(front, back)
    if way.lap:
        front, back = with_laps(front, back, way.lap)
    return front, back, opened


def _meeting_at_waist(front: Piece, back: Piece) -> Piece:
    """The back, its notch at the level of the waist as far up the side seam as that of the front.

    Where front and back slant differently the level lies a little further up one of them.
    """
    marks = [
        [n for n in piece.notches if _is_on_side(piece, n) and n.marks is NotchMark.WAIST] for piece in (front, back)
    ]
    if not all(marks):
        return back
    (one,), (other,) = marks
    met = replace(other, station=replace(other.station, at=one.station.at))
    return replace(back, notches=tuple(met if notch is other else notch for notch in back.notches))


def _even_hem(half: Half, side: Side, under: float) -> float:
    """The level of a hem at the centre, mm above the waist, from where it rises evenly to a side it meets square.

    Over a belly it lies lower in front (5 to 10 mm is common practice).
    """
    lean = math.atan2(-side.inset, under - (side.turned or 0.0) - side.raised)
    return side.raised - math.tan(0.5 * lean) * (half.width - side.inset)


def _is_on_side(piece: Piece, notch: Notch) -> bool:
    return piece.edge(notch.station.edge).place is Place.SIDE


def _seams(way: Way, front: Piece, back: Piece) -> tuple[Seam, ...]:
    shoulder = Seam("shoulder", (EdgeRef(BACK, "shoulder", backward=True),), (EdgeRef(FRONT, "shoulder"),))
    behind, before = ([notch for notch in piece.notches if _is_on_side(piece, notch)] for piece in (back, front))
    met = tuple((NotchRef(BACK, a.name), NotchRef(FRONT, b.name)) for a, b in zip(behind, before, strict=True))
    side = Seam("side seam", (EdgeRef(BACK, "side seam", backward=True),), (EdgeRef(FRONT, "side seam"),), notches=met)
    return (*(() if way.open_shoulder else (shoulder,)), side)


def _given(body: Body, front: Piece, back: Piece, scooped: float) -> dict[str, float]:
    """The ease that the pieces have; scooped: how far the neck lies out from the foot of the neck, mm."""
    lowered = SCOOPED_BEHIND * scooped

    def round_at(level: Level) -> float:
        return 2.0 * sum(across(piece, require_line(piece, level).name) for piece in (front, back))

    neck = 2.0 * sum(require_edge(piece, Place.NECK).length for piece in (front, back))
    nape, width = require_edge(back, Place.NECK).end, require_line(back, Level.BACK_WIDTH)
    given = {
        "bust": round_at(Level.BUST) - body.mm("bust_girth"),
        **({} if scooped else {"neck": neck - body.mm("neck_base_girth")}),
        "across_back": 2.0 * across(back, width.name) - body.mm("interscye_mid_distance"),
        "scye_depth": nape.y + lowered - require_line(back, Level.SCYE).start.y - body.mm("scye_depth"),
    }
    if edges_at(front, Place.WAIST):
        waist = 2.0 * (waist_half_of(front).length + waist_half_of(back).length)
        given["waist"] = waist - body.mm("waist_girth")
    if line_at(front, Level.HIP):
        given["hip"] = round_at(Level.HIP) - body.mm("hip_girth")
    return given


def _measures(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    frame: DartlessFrame,
    front: Piece,
    back: Piece,
) -> tuple[Measure, ...]:
    """The finished measurements of a child's top, with the body's size, the ease and the least ease of each, mm."""

    def around(name: str, key: str, level: Level, added: float, place: str) -> list[Measure]:
        lines = [(piece.name, line_at(piece, level)) for piece in (front, back)]
        tape = tuple(Across(piece, line.name, 2.0) for piece, line in lines if line is not None)
        return [Measure(name, tape, key, body.mm(key), added, least.get(place), round=True)] if tape else []

    chest = around("chest", "bust_girth", Level.BUST, frame.chest_ease, "bust")
    at_waist = around("waist", "waist_girth", Level.WAIST, ease["waist"], "waist")
    if edges_at(front, Place.WAIST):
        sewn = tuple(
            Along(piece.name, edge.name, 2.0) for piece in (front, back) for edge in edges_at(piece, Place.WAIST)
        )
        at_waist = [
            Measure("waist", sewn, "waist_girth", body.mm("waist_girth"), ease["waist"], least.get("waist"), round=True)
        ]
    lengths = []
    for name, piece, at, key in (
        ("centre back", back, Place.CENTRE_BACK, "back_waist_length"),
        ("centre front", front, Place.CENTRE_FRONT, "front_waist_length_from_neck_pit"),
    ):
        tape = tuple(Along(piece.name, edge.name) for edge in edges_at(piece, at))
        at_the_waist = bool(edges_at(front, Place.WAIST))
        lower = -frame.neck.scooped * (1.0 if piece is front else SCOOPED_BEHIND)
        lengths.append(
            Measure(name, tape, key, body.mm(key), lower) if at_the_waist else Measure(f"{name}, neck to hem", tape)
        )
    return (
        *chest,
        *at_waist,
        *around("hip", "hip_girth", Level.HIP, ease["hip"], "hip"),
        *lengths,
        Measure(
            "neck",
            (Along(FRONT, "neck", 2.0), Along(BACK, "neck", 2.0)),
            "neck_base_girth",
            body.mm("neck_base_girth"),
            frame.neck.round(frame.slope) - body.mm("neck_base_girth") if frame.neck.scooped else ease["neck"],
        ),
        Measure(
            "shoulder",
            (Along(FRONT, "shoulder"),),
            "shoulder_length",
            body.mm("shoulder_length"),
            -frame.neck.scooped,
        ),
        Measure(
            "across the back",
            (Across(BACK, "back width line", 2.0),),
            "interscye_mid_distance",
            body.mm("interscye_mid_distance"),
            ease["across_back"],
            least.get("across_back"),
        ),
    )
