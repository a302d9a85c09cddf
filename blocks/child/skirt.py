"""A child's skirt without darts, front and back: gathered into the waist it is sewn to, or flat there and flared.

Gathered, it is straight: one and a half to three times the waist, twice being usual (a sewing teacher on ruffles).
Flat, its sides run straight out from the waist past the hip to the hem, square to both (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from blocks.handover import Drafted, WaistHalf, WaistSeam
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, bend, length, mirror, run_reversed
from drafting.geometry.solve import solve
from drafting.pattern import (
    Across,
    Along,
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    across,
    closed,
    move_piece,
    require_line,
)
from drafting.pattern.notches import ZIP_NOTCH
from drafting.pattern.piece_parts import NotchStyle

__all__ = ["BACK", "FLAT", "FRONT", "GATHERED", "WAISTS", "draft_childs_skirt"]

FRONT, BACK = "skirt front", "skirt back"
GATHERED, FLAT = "gathered", "flat"
WAISTS: Final = (GATHERED, FLAT)
_GIVE: Final = 0.1  # of what is gathered in: the thread is drawn up to what the other side is (ours)
_STEEPEST: Final = math.radians(24.0)  # that a flat skirt's side leans out (ours)
_OPEN_MORE: Final = 30.0  # mm that the opening of a skirt of its own is longer than the hip asks for (ours)
_BELOW_HIP: Final = 10.0  # mm that a hem lies below the hip line where that is drawn
_LEAST_BELOW: Final = 30.0  # mm of seam below an opening


@dataclass(frozen=True, slots=True)
class _Quarter:
    """One quarter, centre at the left: x outward, y up from the waist at the centre.

    waist: what it is sewn to; lean: how far its side leans out, radians; top, hem: the ends of its side
    """

    name: str
    waist: WaistHalf
    ratio: float
    lean: float
    top: Point
    hem: Point

    @property
    def along(self) -> Vec:
        """The direction that is square to the side seam, outward."""
        return Vec(math.cos(self.lean), math.sin(self.lean))

    def line(self, level: float, end: Point) -> Curve:
        """The waist or the hem: from the centre line to the side, square to both."""
        start = Point(0.0, level)
        if not self.lean:
            return Line(start, end)
        return bend(start, Vec(1.0, 0.0), end, self.along)


def draft_childs_skirt(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    waist: WaistSeam | None,
    *,
    long: float,
    gathered: bool = True,
    fullness: float = 2.0,
) -> Drafted:
    """A child's skirt.

    ease, least: mm by place ("waist", "hip")
    waist:       the waist it is sewn to, or None for a skirt of its own
    long:        from the waist to the hem at the centre, mm
    fullness:    how many times the waist a gathered one is wide; more where the hip asks for it
    Raises CannotDraft, naming the measurements at odds.
    """
    depth, hip = body.mm("waist_to_hip"), 0.25 * (body.mm("hip_girth") + ease["hip"])
    on_its_own = waist is None  # else the bodice says how wide the waist is
    if waist is None:
        quarter = 0.25 * (body.mm("waist_girth") + ease["waist"])
        half = WaistHalf(quarter, (), 0.7 * quarter, ())
        opened = 0.5 * (body.mm("hip_girth") - 4.0 * quarter) + _OPEN_MORE
        waist = WaistSeam(half, half, max(opened, 0.0) if not gathered or opened > _OPEN_MORE else None)
    opened_by = waist.open_back or 0.0
    if long < max(60.0, opened_by + _LEAST_BELOW):
        raise CannotDraft(
            ("waist_girth", "bust_girth"),
            f"A skirt {long:.0f} mm long is too short for the opening at its back, {opened_by:.0f} mm: make it "
            f"{math.ceil(opened_by + _LEAST_BELOW)} mm or longer, or give the waist more ease.",
        )
    wide = max(fullness, 2.0 * hip / (waist.front.length + waist.back.length)) if gathered else 1.0
    more = hip - 0.5 * (waist.front.length + waist.back.length)
    try:
        quarters = [
            _straight(name, half, wide, long) if gathered else _flared(name, half, half.length + more, depth, long)
            for name, half in ((FRONT, waist.front), (BACK, waist.back))
        ]
        lean = max(quarter.lean for quarter in quarters)
        if lean > _STEEPEST:
            raise NotAPattern("skirt", reason=f"its sides would lean out by {math.degrees(lean):.0f} degrees")
        pieces = (
            _piece(quarters[0], long, depth, opened=None),
            _piece(quarters[1], long, depth, opened=waist.open_back or None),
        )
    except NotAPattern as none:
        raise CannotDraft(
            ("waist_girth", "hip_girth", "waist_to_hip"),
            f"From waist to hip ({depth:.0f} mm) a flat skirt cannot go out to {4.0 * hip:.0f} mm ({none.reason}): "
            'gather it, waist = "gathered".',
        ) from none
    given = {"waist": 2.0 * (waist.front.length + waist.back.length) - body.mm("waist_girth")} if on_its_own else {}
    if not gathered and long > depth + _BELOW_HIP:
        hips = sum(across(piece, require_line(piece, Level.HIP).name) for piece in pieces)
        given["hip"] = 2.0 * hips - body.mm("hip_girth")
    return Drafted(
        pieces=pieces,
        seams=_seams(quarters, pieces),
        measures=_measures(body, ease, least, pieces, wide, own_waist=on_its_own, hip_line=long > depth + _BELOW_HIP),
        options=(("length", long), ("waist", GATHERED if gathered else FLAT), ("fullness", wide if gathered else None)),
        given=given,
        because={
            "waist": "because the bodice is taken in no further",
            "hip": "because the waist is the larger, and the skirt hangs straight down from it",
        },
    )


def _straight(name: str, half: WaistHalf, ratio: float, long: float) -> _Quarter:
    wide = ratio * half.length
    return _Quarter(name, half, ratio, 0.0, Point(wide, 0.0), Point(wide, -long))


def _flared(name: str, half: WaistHalf, hip: float, depth: float, long: float) -> _Quarter:
    """A quarter whose waist is as long as it is to be, and as wide at the hip line as is asked, or straight."""
    if hip <= half.length:
        return _straight(name, half, 1.0, long)

    def drawn(lean: float) -> _Quarter:
        rise = math.tan(0.5 * lean)

        def at(x: float) -> _Quarter:
            top = Point(x, rise * x)
            wide = (x + (long + top.y) * math.tan(lean)) / (1.0 + rise * math.tan(lean))
            return _Quarter(name, half, 1.0, lean, top, Point(wide, -long + rise * wide))

        return at(solve(lambda x: length(at(x).line(0.0, at(x).top)) - half.length, half.length, 1.0))

    def surplus(lean: float) -> float:
        quarter = drawn(lean)
        return quarter.top.x + (depth + quarter.top.y) * math.tan(lean) - hip

    return drawn(solve(surplus, max(0.002, math.atan2(hip - half.length, depth)), 0.01))


def _piece(quarter: _Quarter, long: float, depth: float, *, opened: float | None) -> Piece:
    """A quarter of the skirt; the front is mirrored so that its centre line lies at the right."""
    front = quarter.name == FRONT
    where, kind = ("front", PieceKind.FRONT) if front else ("back", PieceKind.BACK)
    centre, at = (f"centre {where}", Place.CENTRE_FRONT if front else Place.CENTRE_BACK)
    top, bottom = Point(0.0, 0.0), Point(0.0, -long)
    edges: list[Edge] = [
        Edge("hem", (quarter.line(-long, quarter.hem),), Role.HEM, place=Place.HEM),
        Edge("side seam", (Line(quarter.hem, quarter.top),), place=Place.SIDE),
        Edge("waist", run_reversed((quarter.line(0.0, quarter.top),)), place=Place.WAIST),
    ]
    notches: list[Notch] = []
    if opened:
        end = Point(0.0, -opened)
        edges.append(Edge(f"{centre} opening", (Line(top, end),), Role.OPENING, place=at))
        edges.append(Edge(f"{centre} seam", (Line(end, bottom),), place=at))
        notches.append(Notch(ZIP_NOTCH, Station(f"{centre} opening", 0.0, "end"), marks=NotchMark.OPENING_END))
    else:
        edges.append(Edge(centre, (Line(top, bottom),), Role.FOLD, place=at))
    style: NotchStyle = "single" if front else "double"
    from_side = quarter.ratio * (quarter.waist.length - quarter.waist.notch)
    notches.append(Notch(f"{where} skirt waist notch", Station("waist", from_side), style, NotchMark.WAIST))
    lines = []
    if long > depth + _BELOW_HIP:
        lines.append(MarkLine("hip line", Point(0.0, -depth), _on_side(quarter, -depth), level=Level.HIP))
        down = (quarter.top - _on_side(quarter, -depth)).norm()
        notches.append(Notch(f"{where} hip notch", Station("side seam", down, "end"), marks=NotchMark.HIP))
    middle = -0.5 * (depth + long) if long > depth + _BELOW_HIP else -0.5 * long
    lines.append(
        MarkLine("lengthen or shorten line", Point(0.0, middle), _on_side(quarter, middle), level=Level.LENGTHEN)
    )
    piece = Piece(
        quarter.name,
        closed(quarter.name, tuple(edges)),
        Cut(2, mirror=True) if opened else Cut(1, fold=True),
        Grain(Point(25.0, -0.85 * long), Point(25.0, -0.45 * long)),
        (),
        tuple(notches),
        tuple(lines),
        identity=Identity(kind, BodyPart.SKIRT),
    )
    return move_piece(piece, mirror(Point(0.0, 0.0), Vec(0.0, 1.0))) if front else piece


def _on_side(quarter: _Quarter, level: float) -> Point:
    return Point(quarter.top.x + (quarter.top.y - level) * math.tan(quarter.lean), level)


def _seams(quarters: list[_Quarter], pieces: tuple[Piece, Piece]) -> tuple[Seam, ...]:
    """The side seam, and the waist seams to a bodice with what is gathered into them, mm."""
    at_hip = all(any(notch.marks is NotchMark.HIP for notch in piece.notches) for piece in pieces)
    hips = ((NotchRef(BACK, "back hip notch"), NotchRef(FRONT, "front hip notch")),) if at_hip else ()
    seams = [
        Seam("skirt side seam", (EdgeRef(BACK, "side seam", True),), (EdgeRef(FRONT, "side seam"),), notches=hips),
    ]
    for quarter in quarters:
        if not quarter.waist.run:
            continue
        where = "front" if quarter.name == FRONT else "back"
        more = (quarter.ratio - 1.0) * quarter.waist.length
        ease = SeamEase(more, (1.0 - _GIVE) * more, (1.0 + _GIVE) * more) if quarter.ratio > 1.0 else SeamEase()
        seams.append(
            Seam(
                f"{where} waist",
                (EdgeRef(quarter.name, "waist", backward=quarter.name == BACK),),
                quarter.waist.run,
                ease,
                (
                    (
                        NotchRef(quarter.name, f"{where} skirt waist notch"),
                        NotchRef(quarter.waist.run[0].piece, f"{where} waist notch"),
                    ),
                ),
            )
        )
    return tuple(seams)


def _measures(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    pieces: tuple[Piece, Piece],
    ratio: float,
    *,
    own_waist: bool,
    hip_line: bool,
) -> tuple[Measure, ...]:
    """The measures of the skirt; one that is sewn to a bodice is as wide at the waist as the bodice says."""
    waist = tuple(Along(piece.name, "waist", 2.0 / ratio) for piece in pieces)
    hip = tuple(Across(piece.name, "hip line", 2.0) for piece in pieces)
    girth = Measure(
        "waist", waist, "waist_girth", body.mm("waist_girth"), ease["waist"], least.get("waist"), round=True
    )
    hips = Measure("hip", hip, "hip_girth", body.mm("hip_girth"), ease["hip"], least.get("hip"), round=True)
    long = Measure("skirt length", (Along(FRONT, "centre front"),))
    return (*([girth] if own_waist else []), *([hips] if hip_line else []), long)
