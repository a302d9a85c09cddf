"""From a child's body to dungarees: front and back with a bib in one, and the straps they hang from.

The front bib is as wide as the child is across the chest less 2 cm and ends 3 cm below the hollow of the neck; a strap
is as long as the way from bib to bib over the shoulder, and 8 to 10 cm more to be let out (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from blocks.handover import Drafted
from blocks.shared.childs_leg import LAP, Legs, crotch_tape, leg_edges, side_to_hem, snap_marks, thigh_line, thigh_tape
from blocks.shared.dartless_pieces import run_at_level
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, bend, end_tangents, mirror
from drafting.pattern import (
    Across,
    Along,
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    PieceKind,
    Place,
    Seam,
    Station,
    across,
    closed,
    move_piece,
    require_line,
)

__all__ = ["BACK", "BUTTONS_APART", "FRONT", "STRAP", "STRAP_WIDE", "draft_dungarees"]

FRONT, BACK, STRAP = "dungarees front", "dungarees back", "strap"
STRAP_WIDE: Final = 25.0
"""mm that a strap is wide when it is finished (common practice)."""
BUTTONS_APART: Final = 30.0
"""mm from one buttonhole of a strap to the next: three of them, 2.5 to 3 cm apart, last two sizes (common practice)."""
_BUTTONHOLES: Final = 3
_STRAP_ENDS: Final = 20.0  # mm of a strap beyond the last buttonhole, and as much sewn behind the back (ours)
_UNDER_NECK: Final = 30.0  # mm from the hollow of the neck to the front bib (common practice)
_BIB_NARROWER: Final = 20.0  # mm that the bib is narrower than the child is across the chest (common practice)
_CHEST_ACROSS: Final = 0.93  # of the width across the back, which is measured, the chest is wide in front (ours)
_BACK_BIB: Final = 0.45  # of the back waist length, how high the back bib is (ours)
_SIDE_UP: Final = 0.1  # of the back waist length, how far the side goes up above the waist (ours)
_CROSSES: Final = 0.25  # of the shoulder length, how far inside a strap lies at the shoulder (ours)
_LEAST_HOLLOW: Final = 38.0  # mm that a bib ends inside the side seam at the least, for an even hollow (ours)
_ROUND: Final = 1.5  # how much higher than wide the hollow beside a bib is; above it the bib is straight (ours)
_GRAIN: Final = 25.0


@dataclass(frozen=True, slots=True)
class _Half:
    """The front or the back: how wide it is at the hip, its bib's half width and level, the level of its side."""

    front: bool
    width: float
    bib: float
    top: float


def draft_dungarees(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    legs: Legs,
    *,
    flare: float,
    through_ease: float,
    let_out: float,
    options: tuple[tuple[str, str | float | bool | None], ...],
    parts: tuple[str, ...],
) -> Drafted:
    """Dungarees: front and back cut twice, two straps.

    ease, least: mm by place ("hip")
    flare:       how much further each side goes out from hip to hem, mm
    let_out:     what the straps have to be let out, mm
    options, parts: what they are drawn with, to be told, and what finishes them
    Raises CannotDraft naming the measurements at odds.
    """
    depth, quarter = body.mm("waist_to_hip"), 0.25 * (body.mm("hip_girth") + ease["hip"])
    half_back = 0.5 * body.mm("interscye_mid_distance")
    front = _Half(
        True,
        quarter,
        min(_CHEST_ACROSS * half_back - 0.5 * _BIB_NARROWER, quarter - _LEAST_HOLLOW),
        body.mm("front_waist_length_from_neck_pit") - _UNDER_NECK,
    )
    back = _Half(False, quarter, 0.5 * half_back, _BACK_BIB * body.mm("back_waist_length"))
    side_up = _SIDE_UP * body.mm("back_waist_length")
    upright = [Edge("side seam", _side(quarter, depth, side_up, flare, legs.hem), place=Place.SIDE)] * 2
    try:
        sides = side_to_hem(legs, upright)
        pieces = tuple(_piece(half, side, legs, depth) for half, side in zip((front, back), sides, strict=True))
    except NotAPattern as shape:
        raise CannotDraft(
            ("hip_girth", "interscye_mid_distance", "front_waist_length_from_neck_pit"),
            f"No bib or leg runs smoothly on these measurements ({shape.reason}).",
        ) from shape
    strap = _strap(_strap_length(body, front, back), let_out)
    return Drafted(
        pieces=(*pieces, strap),
        seams=(
            Seam(
                "side seam",
                (EdgeRef(BACK, "side seam", backward=True),),
                (EdgeRef(FRONT, "side seam"),),
                notches=tuple(
                    (NotchRef(BACK, f"back {name}"), NotchRef(FRONT, f"front {name}"))
                    for name in ("waist level notch", "hip notch")
                ),
            ),
        ),
        measures=_measures(body, ease, least, pieces, through_ease),
        options=options,
        given={},
        parts=parts,
    )


def _side(wide: float, depth: float, top: float, flare: float, hem: float) -> tuple[Curve, ...]:
    """The side seam from the hem up: straight out to the hip, one even curve there, upright above it."""
    low, corner, end = Point(wide + flare, hem), Point(wide, -depth), Point(wide, top)
    up, turned = (corner - low).unit(), min(0.5 * depth, 0.5 * (corner - low).norm())
    passed, above = corner - up * turned, Point(wide, turned - depth)
    if not flare:
        return (Line(low, end),)
    return Line(low, passed), bend(passed, up, above, Vec(0.0, 1.0)), Line(above, end)


def _piece(half: _Half, side: Edge, legs: Legs, depth: float) -> Piece:
    """The front or the back, its centre at the left behind and at the right in front."""
    where, centre = ("front", Place.CENTRE_FRONT) if half.front else ("back", Place.CENTRE_BACK)
    leg = leg_edges(legs, side, front=half.front)
    top, corner = Point(0.0, half.top), Point(half.bib, half.top)
    along = end_tangents(side.curves[-1])[1]
    high = min(half.top - side.end.y, _ROUND * (side.end.x - half.bib))
    straight_from = Point(half.bib, side.end.y + high)
    bib_side: tuple[Curve, ...] = (bend(side.end, Vec(-along.y, along.x), straight_from, Vec(0.0, 1.0)),)
    if not straight_from.near(corner):
        bib_side = (*bib_side, Line(straight_from, corner))
    name = FRONT if half.front else BACK
    edges = closed(
        name,
        (
            leg.hem,
            side,
            Edge("bib side", bib_side, place=Place.BIB),
            Edge("bib top", (Line(corner, top),), place=Place.BIB),
            Edge(f"centre {where}", (Line(top, Point(0.0, 0.0)),), place=centre),
            *leg.middle,
        ),
    )

    def across_at(line: str, level: float, word: Level) -> MarkLine:
        return MarkLine(line, Point(0.0, level), _on(side, level), level=word)

    point = leg.closed[0].start
    lines = [
        across_at("waist line", 0.0, Level.WAIST),
        across_at("hip line", -depth, Level.HIP),
        thigh_line(leg, lambda level: _on(side, level)),
        MarkLine("inseam", point, leg.closed[-1].end).through(leg.closed, point, leg.closed[-1].end),
        across_at("lengthen or shorten line", -0.5 * depth, Level.LENGTHEN),
    ]
    notches = [
        Notch(f"{where} {mark} notch", Station("side seam", side.end.y - level, "end"), marks=word)
        for mark, level, word in (("waist level", 0.0, NotchMark.WAIST), ("hip", -depth, NotchMark.HIP))
    ]
    strap_at = Point(half.bib - 0.5 * STRAP_WIDE - 5.0, half.top - 15.0)
    holds = MarkPoint("button for the strap" if half.front else "strap", strap_at, Landmark.STRAP)
    piece = Piece(
        name,
        edges,
        Cut(2, mirror=True),
        Grain(Point(_GRAIN, -0.9 * depth), Point(_GRAIN, 0.6 * half.top)),
        (),
        tuple(notches),
        tuple(lines),
        (holds, *snap_marks(leg.closed)),
        identity=Identity(PieceKind.FRONT if half.front else PieceKind.BACK, BodyPart.TROUSERS),
    )
    return move_piece(piece, mirror(Point(0.0, 0.0), Vec(0.0, 1.0))) if half.front else piece


def _on(side: Edge, level: float) -> Point:
    """Where the side seam lies at a level."""
    return Point(run_at_level(side.curves, level), level)


def _strap_length(body: Body, front: _Half, back: _Half) -> float:
    """From the upper edge of the front bib over the shoulder to that of the back bib, mm."""
    neck = body.mm("neck_base_girth")
    # the shoulder lies above the hollow of the neck by the depth of a neck, N/5 + 5 mm, and slopes by a quarter
    at_shoulder = neck / 5.0 + (1.0 - _CROSSES) * 0.5 * body.mm("shoulder_length")
    over = body.mm("front_waist_length_from_neck_pit") + neck / 5.0 + 5.0 - 0.25 * at_shoulder
    behind = body.mm("back_waist_length") + 15.0 - 0.25 * at_shoulder
    return math.hypot(over - front.top, at_shoulder - front.bib) + math.hypot(behind - back.top, at_shoulder - back.bib)


def _strap(way: float, let_out: float) -> Piece:
    """A strap as it is cut, to be folded lengthwise: as long as its way, what it lets out, and both ends."""
    long, wide = way + let_out + 2.0 * _STRAP_ENDS, 2.0 * STRAP_WIDE
    corners = [Point(0.0, 0.0), Point(long, 0.0), Point(long, wide), Point(0.0, wide)]
    places = (Place.BAND_EDGE, Place.BAND_END, Place.BAND_EDGE, Place.BAND_END)
    names = ("long edge", "end at the bib", "other long edge", "end at the back")
    edges = tuple(Edge(names[k], (Line(corners[k], corners[(k + 1) % 4]),), place=places[k]) for k in range(4))
    first = long - _STRAP_ENDS - let_out
    holes = tuple(
        MarkPoint(f"buttonhole {k + 1}", Point(min(first + k * BUTTONS_APART, long - _STRAP_ENDS), 0.25 * wide),
                  Landmark.STRAP)
        for k in range(_BUTTONHOLES)
    )  # fmt: skip
    return Piece(
        STRAP,
        closed(STRAP, edges),
        Cut(2),
        Grain(Point(0.2 * long, 0.75 * wide), Point(0.8 * long, 0.75 * wide)),
        lines=(MarkLine("fold line", Point(0.0, 0.5 * wide), Point(long, 0.5 * wide), level=Level.FOLD),),
        points=holes,
        identity=Identity(PieceKind.STRAP, BodyPart.TROUSERS),
    )


def _measures(
    body: Body, ease: Mapping[str, float], least: Mapping[str, float], pieces: tuple[Piece, ...], through_ease: float
) -> tuple[Measure, ...]:
    """The finished measurements of dungarees, with the body's size, the ease and the least ease of each, mm."""

    def around(name: str, line: str, key: str, added: float | None, floor: str) -> Measure:
        tape = tuple(Across(piece.name, line, 2.0) for piece in pieces)
        has = 2.0 * sum(across(piece, line) for piece in pieces) - body.mm(key)
        return Measure(name, tape, key, body.mm(key), has if added is None else added, least.get(floor), round=True)

    at_thigh = thigh_tape(tuple(piece.name for piece in pieces))
    wide = sum(across(piece, require_line(piece, Level.CROTCH).name) - 0.5 * LAP for piece in pieces)
    has = wide - body.mm("thigh_girth")
    through = crotch_tape(((FRONT, "front crotch seam"), (BACK, "back crotch seam")))
    crotch = body.mm("crotch_length")
    return (
        around("waist", "waist line", "waist_girth", None, "waist"),
        around("hip", "hip line", "hip_girth", ease["hip"], "hip"),
        Measure("through the crotch", through, "crotch_length", crotch, through_ease, least.get("crotch_length")),
        Measure("thigh", at_thigh, "thigh_girth", body.mm("thigh_girth"), has, least.get("thigh")),
        Measure("leg opening, laps and all", tuple(Along(piece.name, "leg hem") for piece in pieces)),
        Measure("inside leg", (Along(FRONT, "inseam"),)),
        Measure("strap", (Along(STRAP, "long edge"),)),
    )
