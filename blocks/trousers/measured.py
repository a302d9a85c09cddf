"""What finished trousers measure, and the ease that they have."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from blocks.trousers.pieces import BACK, FRONT
from drafting.body.complete import Body
from drafting.pattern import (
    Across,
    Along,
    Between,
    Edge,
    Landmark,
    Level,
    Measure,
    Piece,
    Place,
    Tape,
    across,
    edges_at,
    line_at,
    require_line,
    require_point,
)

__all__ = ["found_ease", "measures"]


def found_ease(body: Body, pieces: tuple[Piece, Piece]) -> dict[str, float]:
    """The ease of the pieces by place, mm; the knee's only where they have one."""
    front = pieces[0]
    waist = 2.0 * sum(edge.length for piece in pieces for edge in edges_at(piece, Place.WAIST))
    depth = require_point(front, Landmark.CENTRE_TOP).at.y - require_point(front, Landmark.CROTCH).at.y
    found = {
        "waist": waist - body.mm("waist_girth"),
        "hip": 2.0 * _round(pieces, Level.HIP) - body.mm("hip_girth"),
        "thigh": _round(pieces, Level.THIGH) - body.mm("thigh_girth"),
        "crotch_depth": depth - (body.mm("waist_height") - body.mm("crotch_height")),
        "crotch_length": sum(edge.length for piece in pieces for edge in _through(piece)) - body.mm("crotch_length"),
    }
    if line_at(front, Level.KNEE) is not None:
        found["knee"] = _round(pieces, Level.KNEE) - body.mm("knee_girth")
    return found


def measures(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    pieces: tuple[Piece, Piece],
    has: Mapping[str, float],
    *,
    measured: bool,
    strip: float,
) -> tuple[Measure, ...]:
    """Where the tape lies, and what it is compared with.

    has:      the ease of the pieces by place, mm; that of the leg is what its shape gives
    measured: whether the length of the crotch was measured; else it is compared with nothing
    strip:    mm by which the rise is longer for a bodice
    """

    def round_leg(place: str, key: str) -> Measure:
        tape: tuple[Tape, ...] = (Across(FRONT, f"{place} line"), Across(BACK, f"{place} line"))
        return Measure(place, tape, key, body.mm(key), has[place], least.get(place))

    front, back = pieces
    waist = tuple(Along(piece.name, edge.name, 2.0) for piece in pieces for edge in edges_at(piece, Place.WAIST))
    hip = (Across(FRONT, "hip line", 2.0), Across(BACK, "hip line", 2.0))
    halves = {piece: tuple(Along(piece.name, edge.name) for edge in _through(piece)) for piece in pieces}
    depth = body.mm("waist_height") - body.mm("crotch_height")
    whole = Measure("crotch length", (*halves[front], *halves[back]))
    if measured:
        asked = ease["crotch_length"] + 2.0 * strip
        whole = replace(
            whole, key="crotch_length", body=body.mm("crotch_length"), ease=asked, least=least.get("crotch_length")
        )
    found = [
        Measure("waist", waist, "waist_girth", body.mm("waist_girth"), ease["waist"], least.get("waist"), round=True),
        Measure("hip", hip, "hip_girth", body.mm("hip_girth"), ease["hip"], least.get("hip"), round=True),
        Measure(
            "crotch depth",
            (Between(FRONT, "front waist", "crotch level"),),
            "",
            depth,
            ease["crotch_depth"] + strip,
            least.get("crotch_depth"),
        ),
        whole,
        Measure("crotch, front part", halves[front]),
        Measure("crotch, back part", halves[back]),
        round_leg("thigh", "thigh_girth"),
    ]
    if "knee" in has:
        found.append(round_leg("knee", "knee_girth"))
    found += [
        Measure("hem, round one leg", (Along(FRONT, "hem"), Along(BACK, "hem"))),
        Measure("inside leg", (Along(FRONT, "inseam"),)),
        Measure("outside leg", tuple(Along(FRONT, edge.name) for edge in edges_at(front, Place.SIDE))),
    ]
    return tuple(found)


def _round(pieces: tuple[Piece, Piece], level: Level) -> float:
    return sum(across(piece, require_line(piece, level).name) for piece in pieces)


def _through(piece: Piece) -> tuple[Edge, ...]:
    """The edges of a piece from the waist through the crotch to the inside leg."""
    return tuple(edge for edge in piece.edges if edge.place in (Place.CENTRE_FRONT, Place.CENTRE_BACK, Place.CROTCH))
