"""From a child's bodice that goes straight through to a romper: its hem gives way to a crotch and two legs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from blocks.handover import Armhole, Drafted
from blocks.shared.childs_leg import LAP, Legs, crotch_tape, leg_edges, side_to_hem, snap_marks, thigh_line, thigh_tape
from drafting.body.complete import Body
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Line, Point, Vec, mirror
from drafting.pattern import (
    CENTRES,
    Along,
    Cut,
    Edge,
    EdgeRef,
    Level,
    MarkLine,
    Measure,
    Piece,
    Place,
    Role,
    Seam,
    Station,
    across,
    closed,
    edges_at,
    is_front,
    line_at,
    move_piece,
    require_edge,
    require_line,
)

__all__ = ["BACK", "ELASTIC", "FRONT", "LEG_ENDS", "PLAIN", "draft_romper"]

FRONT, BACK = "romper front", "romper back"
ELASTIC, PLAIN = "elastic", "plain"
LEG_ENDS: Final = (ELASTIC, PLAIN)
_OTHER_SIDE: Final = mirror(Point(0.0, 0.0), Vec(0.0, 1.0))


def draft_romper(
    body: Body,
    straight: Drafted,
    legs: Legs,
    *,
    through_ease: float,
    least: Mapping[str, float],
    options: tuple[tuple[str, str | float | bool | None], ...],
) -> Drafted:
    """A romper, front and back, cut twice each.

    straight:     the child's bodice, as far below the waist as the legs go
    through_ease: what the seam through the crotch has over the crotch length, mm
    least:        mm by place, with less it cannot be worn
    options:      what it is drawn with, to be told
    Raises CannotDraft naming the measurements at odds.
    """
    names = {piece.name: FRONT if is_front(piece) else BACK for piece in straight.pieces}
    try:
        halves = [move_piece(each, _OTHER_SIDE) if is_front(each) else each for each in straight.pieces]
        sides = side_to_hem(legs, [require_edge(half, Place.SIDE) for half in halves])
        pieces = tuple(_with_leg(half, side, names[half.name], legs) for half, side in zip(halves, sides, strict=True))
    except NotAPattern as shape:
        raise CannotDraft(
            ("hip_girth", "crotch_length", "waist_to_hip"),
            f"The romper cannot be drawn so: {shape.reason}.",
        ) from shape
    told = dict(straight.options)
    return replace(
        straight,
        pieces=pieces,
        seams=tuple(_renamed_seam(seam, names) for seam in straight.seams),
        measures=_measures(body, straight.measures, names, pieces, through_ease, least),
        options=(*((name, told[name]) for name in ("opening", "slit", "lap", "band_width", "band_stretch")), *options),
        armhole=_renamed_armhole(straight.armhole, names) if straight.armhole else None,
        waist=None,
    )


def _below_hip(half: Piece, line: MarkLine) -> bool:
    """Whether a line to lengthen at is the one that lies below the hip."""
    hip = line_at(half, Level.HIP)
    return hip is not None and line.level is Level.LENGTHEN and line.start.y < hip.start.y


def _with_leg(half: Piece, side: Edge, name: str, legs: Legs) -> Piece:
    """A piece of the straight bodice, its centre at the left, with a leg in place of its hem and this side seam."""
    front = is_front(half)
    leg = leg_edges(legs, side, front=front)
    kept = [
        side if edge.place is Place.SIDE else edge for edge in half.edges if edge.place not in (Place.HEM, *CENTRES)
    ]
    centre = [_to_waist(edge) for edge in half.edges if edge.place in CENTRES]
    point = leg.closed[0].start
    across_leg = thigh_line(leg, lambda level: Point(_side_at(side, level), level))
    meets = MarkLine("inseam", point, leg.closed[-1].end).through(leg.closed, point, leg.closed[-1].end)
    lines = tuple(line for line in half.lines if not _below_hip(half, line))
    old = require_edge(half, Place.SIDE).length  # what lies on the side seam is told from its upper end, which stays
    notches = tuple(
        replace(notch, station=Station(side.name, old - notch.station.at, "end"))
        if notch.station.edge == side.name and notch.station.end == "start"
        else notch
        for notch in half.notches
    )
    made = replace(
        half,
        name=name,
        notches=notches,
        edges=closed(name, (leg.hem, *kept, *centre, *leg.middle)),
        cut=Cut(2, mirror=True),
        lines=(*lines, across_leg, meets),
        points=(*half.points, *snap_marks(leg.closed)),
    )
    return move_piece(made, _OTHER_SIDE) if front else made


def _to_waist(edge: Edge) -> Edge:
    """A centre line that ends at the waist, to be sewn where it was a fold."""
    role = Role.SEAM if edge.role is Role.FOLD else edge.role
    if edge.end.y < 0.0 < edge.start.y:
        return replace(edge, curves=(Line(edge.start, Point(0.0, 0.0)),), role=role)
    if edge.end.y < 0.0:
        raise NotAPattern(edge.name, reason="the opening goes on below the waist")
    return replace(edge, role=role)


def _side_at(side: Edge, level: float) -> float:
    """How far out the straight lower part of a side seam lies at a level, mm."""
    low = side.curves[0]
    return low.start.x + (low.end.x - low.start.x) * (level - low.start.y) / (low.end.y - low.start.y)


def _renamed_ref(ref: EdgeRef, names: Mapping[str, str]) -> EdgeRef:
    return replace(ref, piece=names[ref.piece])


def _renamed_seam(seam: Seam, names: Mapping[str, str]) -> Seam:
    a, b = (tuple(_renamed_ref(ref, names) for ref in run) for run in (seam.a, seam.b))
    notches = tuple((replace(one, piece=names[one.piece]), replace(other, piece=names[other.piece]))
                    for one, other in seam.notches)  # fmt: skip
    return replace(seam, a=a, b=b, notches=notches)


def _renamed_armhole(hole: Armhole, names: Mapping[str, str]) -> Armhole:
    front, back = (tuple(_renamed_ref(ref, names) for ref in run) for run in (hole.front_run, hole.back_run))
    return replace(hole, front_run=front, back_run=back)


def _measures(
    body: Body,
    straight: tuple[Measure, ...],
    names: Mapping[str, str],
    pieces: tuple[Piece, ...],
    through_ease: float,
    least: Mapping[str, float],
) -> tuple[Measure, ...]:
    """The measures of the straight bodice, and those of the crotch and the legs."""
    kept = [
        replace(each, tape=tuple(replace(part, piece=names[part.piece]) for part in each.tape))
        for each in straight
        if each.key  # a length without one goes down to the hem, which gives way to the legs
    ]
    through = crotch_tape(((FRONT, "front crotch seam"), (BACK, "back crotch seam")))
    named = {piece.name: piece for piece in pieces}
    centres = tuple(
        Along(piece.name, edge.name) for piece in pieces for place in CENTRES for edge in edges_at(piece, place)
    )
    thigh, at_thigh = body.mm("thigh_girth"), thigh_tape((FRONT, BACK))
    halves = [named[piece] for piece in (FRONT, BACK)]
    has = sum(across(half, require_line(half, Level.CROTCH).name) - 0.5 * LAP for half in halves) - thigh
    return (
        *kept,
        Measure(
            "through the crotch",
            through,
            "crotch_length",
            body.mm("crotch_length"),
            through_ease,
            least.get("crotch_length"),
        ),
        Measure("thigh", at_thigh, "thigh_girth", thigh, has, least.get("thigh")),
        Measure("neck to neck, through the crotch", (*centres, *through)),
        Measure("leg opening, laps and all", tuple(Along(piece, "leg hem") for piece in (FRONT, BACK))),
        Measure("inside leg", (Along(FRONT, "inseam"),)),
    )
