"""A collar as it is cut: the collar itself, and an under collar that is smaller by the turn of the cloth.

Two layers of cloth, laid over a fold together, do not end alike: the outer one goes a longer way, by pi times their
thickness for a whole turn. So that the seam at the edge rolls under, the under collar is made smaller by that and
1 mm, at its ends and its outer edge, and as long as the collar at the neck (a teaching page of production practice
has the collar larger by 1/8 in at the outer edge, by nothing at the neck).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from drafting.geometry import Curve, Line, Point, Vec, cut_run, lerp, run_length
from drafting.parts.collars.neck_line import NeckLine, NeckPart
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.neck_facing import centre_marks
from drafting.pattern import (
    BodyPart,
    Cut,
    Derived,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    closed,
    free_piece_name,
)

__all__ = ["COLLAR", "TURN", "UNDER_COLLAR", "Shape", "collar_drawn", "turn_of_cloth", "turned_for"]

COLLAR: Final = "collar"
UNDER_COLLAR: Final = "under collar"

_FAVOUR: Final = 1.0  # mm by which the seam rolls under beyond what the thickness takes (ours)
_SHIRTING: Final = 0.3  # mm: the thickness that is taken where the cloth is not known
_SEWS: Final = 2.0  # mm either way by which the ease of a neck seam may be off
_MEETS: Final = 1.0  # mm likewise at the outer edge
_GRAIN: Final = (0.2, 0.8)  # where on the depth of a collar at its centre its grain line begins and ends
_OFF_END: Final = 8.0  # mm that it lies inside of where a collar ends behind


def turn_of_cloth(thickness: float) -> float:
    """By how much an under collar is smaller, mm, of a cloth so many mm thick: pi times that, and 1 mm."""
    return math.pi * thickness + _FAVOUR


TURN: Final = turn_of_cloth(_SHIRTING)
"""mm: that of a shirting."""


def turned_for(part: Derived, thickness: float) -> Derived:
    """The part with the turn that a cloth so many mm thick asks for, where it has one and none was asked for."""
    options = dict(part.options)
    if options.get("turn", 0.0) is not None:
        return part
    return replace(part, options=tuple((options | {"turn": turn_of_cloth(thickness)}).items()))


@dataclass(frozen=True, slots=True)
class Shape:
    """One half of a collar, its centre back at x = 0, the neck above.

    neck:  from the front end to the centre back
    outer: from the centre back to the front end
    end:   from there to the neck
    """

    neck: tuple[Curve, ...]
    outer: tuple[Curve, ...]
    end: tuple[Curve, ...]


def collar_drawn(pattern: Pattern, derived: Derived, line: NeckLine, top: Shape, under: Shape, ease: float) -> Drawn:
    """The two layers, sewn to each other and to the neck; ease: mm by which the neck is longer on the half."""
    allowance = max(each.edge.allowance for part in line.to_centre for each in part.edges)
    taken = free_piece_name(pattern, COLLAR)
    pieces = (
        _piece(taken, top, line, allowance, Identity(PieceKind.COLLAR, BodyPart.BODICE), interfaced=False),
        _piece(
            free_piece_name(pattern, UNDER_COLLAR),
            under,
            line,
            allowance,
            Identity(PieceKind.COLLAR, BodyPart.BODICE, of=PieceKind.COLLAR),
            interfaced=True,
        ),
    )
    seams = [_edge_seam(*pieces)]
    for piece in reversed(pieces):
        seams += neck_seams(piece, line.to_centre, ease)
    return Drawn(pieces, tuple(seams), tuple(centre_marks(pattern, derived)))


def neck_seams(piece: Piece, parts: Sequence[NeckPart], ease: float) -> list[Seam]:
    """The seams that sew a collar to the parts of the neck, which are longer by `ease` mm in all."""
    whole = sum(part.length for part in parts)
    seams = []
    for part in parts:
        more = ease * part.length / whole
        eased = SeamEase(more, min(0.0, more), max(0.0, more) + _SEWS) if ease else SeamEase()
        refs = tuple(each.ref for each in part.edges)
        seams.append(Seam(f"{piece.name} to {part.name}", refs, (EdgeRef(piece.name, part.name),), eased))
    return seams


def _piece(name: str, shape: Shape, line: NeckLine, allowance: float, identity: Identity, *, interfaced: bool) -> Piece:
    edges = [
        Edge(part, run, Role.SEAM, allowance, Place.NECK) for part, run in split_by_parts(shape.neck, line.to_centre)
    ]
    top, bottom = shape.neck[-1].end, shape.outer[0].start
    halves = line.open_behind
    edges.append(
        Edge(
            "back end" if halves else "centre back",
            straight(top, bottom),
            Role.SEAM if halves else Role.FOLD,
            allowance if halves else 0.0,
            Place.COLLAR_END if halves else Place.CENTRE_BACK,
        )
    )
    edges.append(Edge("outer edge", shape.outer, Role.SEAM, allowance, Place.COLLAR_EDGE))
    edges.append(Edge("front end", shape.end, Role.SEAM, allowance, Place.COLLAR_END))
    names = [edge.name for edge in edges]
    meant = [("outer edge", "front end"), ("front end", names[0])]
    if halves:
        meant += [(names[-4], "back end"), ("back end", "outer edge")]
    count = 2 if halves else 1
    inside = Vec(_OFF_END, 0.0) if halves else Vec(0.0, 0.0)
    low, high = (lerp(bottom, top, share) + inside for share in _GRAIN)
    return Piece(
        name,
        closed(name, tuple(edges)),
        Cut(count, fold=not halves, mirror=halves, interfacing=count if interfaced else 0),
        Grain(low, high),
        notches=tuple(shoulder_notches(line.to_centre)),
        points_meant=tuple(meant),
        identity=identity,
    )


def straight(start: Point, end: Point) -> tuple[Curve, ...]:
    """A straight run between two places."""
    return (Line(start, end),)


def split_by_parts(neck: Sequence[Curve], parts: Sequence[NeckPart]) -> list[tuple[str, tuple[Curve, ...]]]:
    """The neck of a collar parted as the neck of the garment is, with the names of its parts."""
    whole, long = sum(part.length for part in parts), run_length(neck)
    out = []
    rest = tuple(neck)
    for part in parts[:-1]:
        run, rest = cut_run(rest, part.length / whole * long)
        out.append((part.name, run))
    return [*out, (parts[-1].name, rest)]


def shoulder_notches(parts: Sequence[NeckPart]) -> list[Notch]:
    """A notch where each part of the neck ends in the next: at the shoulder."""
    return [
        Notch(f"end of the {part.name}", Station(part.name, 0.0, "end"), marks=NotchMark.SHOULDER)
        for part in parts[:-1]
    ]


def _edge_seam(top: Piece, under: Piece) -> Seam:
    """The seam round the outer edge; the collar is longer there by the turn of the cloth."""
    run = [edge.name for edge in top.edges if edge.place in (Place.COLLAR_EDGE, Place.COLLAR_END)]
    a, b = (tuple(EdgeRef(piece.name, name) for name in run) for piece in (top, under))
    more = sum(top.edge(name).length - under.edge(name).length for name in run)
    return Seam(f"{top.name} to {under.name}", a, b, SeamEase(more, min(0.0, more - _MEETS), more + _MEETS))
