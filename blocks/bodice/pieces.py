"""The two pieces of the bodice, put together from its numbers, neck, armhole, waist and side seam."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from blocks.bodice.frame import Frame, Shoulder, front_turn, shoulder_line
from blocks.bodice.waist import WaistLine
from blocks.shared.armhole_curve import Tip, armhole_in_front, armhole_through, off_square
from blocks.shared.dart_edge import open_dart, waist_part_names
from blocks.shared.neck_curve import back_neck, front_neck
from drafting.dataclass import dataclass
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    length,
    line_hits,
    mirror,
    run_length,
    run_reversed,
    split,
)
from drafting.pattern import (
    BodyPart,
    Cut,
    Dart,
    Edge,
    Grain,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    NotchMark,
    Piece,
    PieceKind,
    Place,
    Role,
    Station,
    closed,
    move_piece,
)
from drafting.pattern.piece_parts import NotchStyle

__all__ = [
    "BACK",
    "FRONT",
    "Armholes",
    "BodiceSide",
    "armholes",
    "back_piece",
    "bodice_sides",
    "front_piece",
    "hole_length",
]

FRONT, BACK = "bodice front", "bodice back"
_NARROWEST = 0.33  # about how far up the front armhole is narrowest: the middle of the survey's women
_WAIST_NOTCH = 40.0  # mm from the side seam

Armholes: TypeAlias = tuple[tuple[Curve, Curve], tuple[Curve, Curve]]
"""The armhole of the front and that of the back, each from the shoulder end to the underarm."""


@dataclass(frozen=True, slots=True)
class BodiceSide:
    """What differs between front and back.

    armhole: from the shoulder end to the underarm
    """

    shoulder: Shoulder
    neck: Cubic
    waist: WaistLine
    armhole: tuple[Curve, Curve]
    shoulder_dart: str
    aims_at: str


def armholes(frame: Frame, unders: tuple[Point, Point]) -> Armholes:
    """The armholes of front and back to their underarm points: past the chest in front, through the width behind.

    Raises NotAPattern where none runs so.
    """
    turned, front, back = _tip_turn(frame), frame.front, frame.back
    return (
        armhole_in_front(front.tip, front.leaving - turned, unders[0], frame.front_pass.x),
        armhole_through(back.tip, back.leaving + turned, frame.back_pass, unders[1]),
    )


def hole_length(holes: Armholes) -> float:
    """How long these armholes are together, mm."""
    return sum(run_length(hole) for hole in holes)


def bodice_sides(frame: Frame, waists: tuple[WaistLine, WaistLine], holes: Armholes) -> tuple[BodiceSide, BodiceSide]:
    """Front and back before they are made pieces."""
    front, back = frame.front, frame.back
    necks = front_neck(frame.pit, frame.neck_width, front.slope), back_neck(frame.nape, frame.neck_width, back.slope)
    return (
        BodiceSide(front, necks[0], waists[0], holes[0], "bust dart", "bust point"),
        BodiceSide(back, necks[1], waists[1], holes[1], "shoulder dart", ""),
    )


def _tip_turn(frame: Frame) -> float:
    """By how much the armhole leaves the shoulder off square, radians: inward behind and outward in front, or reversed.

    As one fair line over the shoulder would (`off_square`), but in front never so far outward that it could not reach
    in to the chest.
    """
    up = frame.under_level + _NARROWEST * (frame.front.tip.y - frame.under_level)
    in_front = Tip(frame.front.tip, frame.front.leaving, Point(frame.front_pass.x, up))
    behind = Tip(frame.back.tip, frame.back.leaving, frame.back_pass)
    even = off_square(in_front, behind, Point(frame.back_width, frame.under_level))
    return min(even, front_turn(frame.front, frame.front_pass.x, frame.under_level))


def back_piece(frame: Frame, side: BodiceSide) -> Piece:
    """The back, centre back to the left; cut twice, open at the centre back."""
    centre = Edge("centre back", (Line(frame.nape, Point(0.0, 0.0)),), Role.OPENING, place=Place.CENTRE_BACK)
    edges, darts = _edges(side, centre)
    lines = _levels(frame, side)
    mid = Point(0.0, frame.back_pass.y)
    lines = (*lines, MarkLine("back width line", mid, frame.back_pass, level=Level.BACK_WIDTH))
    return Piece(
        BACK,
        edges,
        Cut(2, mirror=True),
        Grain(Point(30.0, 0.3 * frame.nape.y), Point(30.0, 0.75 * frame.nape.y)),
        darts,
        _notches(frame, edges, "back", double=True),
        lines,
        (MarkPoint("nape", frame.nape, Landmark.NAPE),),
        identity=Identity(PieceKind.BACK, BodyPart.BODICE),
    )


def front_piece(frame: Frame, side: BodiceSide) -> Piece:
    """The front, centre front to the right; cut once on the fold."""
    centre = Edge("centre front", (Line(frame.pit, Point(0.0, 0.0)),), Role.FOLD, place=Place.CENTRE_FRONT)
    edges, darts = _edges(side, centre)
    piece = Piece(
        FRONT,
        edges,
        Cut(1, fold=True),
        Grain(Point(25.0, 0.2 * frame.pit.y), Point(25.0, 0.7 * frame.pit.y)),
        darts,
        _notches(frame, edges, "front", double=False),
        _levels(frame, side),
        (
            MarkPoint("bust point", frame.bust_point, Landmark.BUST_POINT),
            MarkPoint("side neck", frame.front.neck, Landmark.SIDE_NECK),
            MarkPoint("neck pit", frame.pit, Landmark.NECK_PIT),
        ),
        identity=Identity(PieceKind.FRONT, BodyPart.BODICE),
    )
    return move_piece(piece, mirror(Point(0.0, 0.0), Vec(0.0, 1.0)))


def _edges(side: BodiceSide, centre: Edge) -> tuple[tuple[Edge, ...], tuple[Dart, ...]]:
    """The outline anticlockwise from the centre waist, for a piece whose centre line is at its left."""
    bottom, waist_darts = _waist_edges(side.waist, side.aims_at)
    top, shoulder_dart = _shoulder_edges(side)
    edges = (
        *bottom,
        Edge("side seam", (side.waist.side,), place=Place.SIDE),
        Edge("armhole", run_reversed(side.armhole), place=Place.ARMHOLE),
        *top,
        Edge("neck", run_reversed((side.neck,)), place=Place.NECK),
        centre,
    )
    return closed("bodice", edges), (*waist_darts, shoulder_dart)


def _waist_edges(line: WaistLine, aims_at: str) -> tuple[tuple[Edge, ...], tuple[Dart, ...]]:
    """The waist from the centre to the side, and the darts in it."""
    parts = waist_part_names(len(line.darts))
    edges = [Edge(parts[0], (line.waist.parts[0],), place=Place.WAIST)]
    darts: list[Dart] = []
    for plan, (leg_in, leg_out), name, part in zip(
        line.darts, line.waist.legs, parts[1:], line.waist.parts[1:], strict=True
    ):
        legs = (f"{plan.name} leg, centre", f"{plan.name} leg, side")
        edges += [
            Edge(legs[0], (leg_in,), Role.DART_LEG),
            Edge(legs[1], (leg_out,), Role.DART_LEG),
            Edge(name, (part,), place=Place.WAIST),
        ]
        darts.append(Dart(plan.name, legs, leg_in.end, aims_at))
    return tuple(edges), tuple(darts)


def _shoulder_edges(side: BodiceSide) -> tuple[tuple[Edge, ...], Dart]:
    start, end = shoulder_line(side.shoulder)
    before, leg_in, leg_out, beyond = open_dart(Line(start, end), 0.5, side.shoulder.apex, -side.shoulder.angle)
    legs = (f"{side.shoulder_dart} leg, armhole", f"{side.shoulder_dart} leg, neck")
    edges = (
        Edge("shoulder at armhole", run_reversed((beyond,)), place=Place.SHOULDER),
        Edge(legs[0], run_reversed((leg_out,)), Role.DART_LEG),
        Edge(legs[1], run_reversed((leg_in,)), Role.DART_LEG),
        Edge("shoulder at neck", run_reversed((before,)), place=Place.SHOULDER),
    )
    return edges, Dart(side.shoulder_dart, legs, side.shoulder.apex, side.aims_at)


def _levels(frame: Frame, side: BodiceSide) -> tuple[MarkLine, ...]:
    """Balance lines across the piece, from the centre line to the side."""
    seam = side.waist.side
    bust = line_hits(seam, Point(0.0, frame.bust_level), Vec(1.0, 0.0))
    out = bust[-1].point if bust else seam.end
    middle = 0.5 * frame.bust_level
    cross = line_hits(seam, Point(0.0, middle), Vec(1.0, 0.0))[0].point
    return (
        MarkLine("underarm line", Point(0.0, frame.under_level), seam.end, level=Level.SCYE),
        MarkLine("bust line", Point(0.0, frame.bust_level), out, level=Level.BUST),
        MarkLine("lengthen or shorten line", Point(0.0, middle), cross, level=Level.LENGTHEN),
    )


def _notches(frame: Frame, edges: Sequence[Edge], where: str, *, double: bool) -> tuple[Notch, ...]:
    """The notches of one half at armhole and waist, and on the side seam at the bust level where there is room."""
    drawn = {edge.name: edge for edge in edges}
    style: NotchStyle = "double" if double else "single"
    seam = drawn["side seam"]
    lower = run_length(drawn["armhole"].curves[:1])
    last_waist = "waist at side" if "waist at side" in drawn else "waist"
    marks = [
        Notch(f"{where} armhole notch", Station("armhole", lower), style, NotchMark.BALANCE),
        Notch(
            f"{where} waist notch",
            Station(last_waist, min(_WAIST_NOTCH, 0.5 * drawn[last_waist].length), "end"),
            style,
            NotchMark.WAIST,
        ),
    ]
    hits = line_hits(seam.curves[0], Point(0.0, frame.bust_level), Vec(1.0, 0.0))
    if hits and frame.under_level - frame.bust_level > 15.0:
        below = length(split(seam.curves[0], hits[0].t)[0])
        marks.append(Notch("bust level notch", Station("side seam", below), marks=NotchMark.BUST))
    return tuple(marks)
