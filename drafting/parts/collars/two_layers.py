"""A collar as it is cut: the collar itself, and an under collar that is smaller by the turn of the cloth.

Two layers of cloth, laid over a fold together, do not end alike: the outer one goes a longer way, by pi times their
thickness for a whole turn. So that the seam at the edge rolls under, the under collar is made smaller by that and
1 mm, at its ends and its outer edge, and as long as the collar at the neck (a teaching page of production practice
has the collar larger by 1/8 in at the outer edge, by nothing at the neck).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.geometry import Curve, Line, Point, Vec, cut_run, end_tangents, fair, lerp, run_length
from drafting.geometry.tolerance import SAME_PLACE
from drafting.parts.collars.neck_line import STAND_NECK, NeckLine, NeckPart
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
    MarkLine,
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

__all__ = [
    "COLLAR",
    "MOST_TURN",
    "OF_COLLAR",
    "TURN",
    "UNDER_COLLAR",
    "centre_edge",
    "collar_piece",
    "edge_allowance",
    "layers_drawn",
    "layers_seam",
    "neck_allowance",
    "neck_edges",
    "neck_seams",
    "turn_of_cloth",
    "turned_for",
]

COLLAR: Final = "collar"
UNDER_COLLAR: Final = "under collar"

OF_COLLAR: Final = Identity(PieceKind.COLLAR, BodyPart.BODICE)

MOST_TURN: Final = 10.0
"""mm: of a cloth 3 mm thick. An under collar still smaller is too short round a wide collar to be sewn to it (ours)."""

_FAVOUR: Final = 1.0  # mm by which the seam rolls under beyond what the thickness takes (ours)
_SHIRTING: Final = 0.3  # mm: the thickness that is taken where the cloth is not known
_LEAST_WRAP: Final = 2.0  # mm that the folds of a bias strip take: 2 to 4, of thick cloth 2 pi times that (practice)
_EDGE: Final = 10.0  # mm: wider, the allowance of a turned edge is in its way (common practice: 6 to 10 mm)
_SEWS: Final = 2.0  # mm either way by which the ease of a neck seam may be off
_MEETS: Final = 1.0  # mm likewise at the outer edge
_GRAIN: Final = (0.2, 0.8)  # where on the depth of a collar at its centre its grain line begins and ends
_OFF_END: Final = 8.0  # mm that it lies inside of that


def turn_of_cloth(thickness: float) -> float:
    """By how much an under collar is smaller, mm, of a cloth so many mm thick: pi times that, and 1 mm."""
    return min(MOST_TURN, math.pi * thickness + _FAVOUR)


TURN: Final = turn_of_cloth(_SHIRTING)
"""mm: that of a shirting."""


def turned_for(part: Derived, thickness: float) -> Derived:
    """The part with what a cloth so many mm thick takes in its turn or its folds, where nobody asked for another."""
    usual = {"turn": turn_of_cloth(thickness), "wrap": max(_LEAST_WRAP, 2.0 * math.pi * thickness)}
    left_out = {name: usual[name] for name, value in part.options if value is None and name in usual}
    return replace(part, options=tuple((dict(part.options) | left_out).items())) if left_out else part


def layers_drawn(
    pattern: Pattern,
    derived: Derived,
    line: NeckLine,
    layers: Sequence[tuple[Sequence[Edge], Sequence[Edge]]],
    ease: float,
) -> Drawn:
    """A collar and its under collar, sewn to each other and to the neck.

    layers: of each its edges at the neck, from the front to the back, and the others
    ease:   mm by which the neck is longer on the half
    """
    (neck, rest), (under_neck, under_rest) = layers
    top = collar_piece(free_piece_name(pattern, COLLAR), neck, rest)
    under = collar_piece(
        free_piece_name(pattern, UNDER_COLLAR), under_neck, under_rest, of=PieceKind.COLLAR, interfaced=True
    )
    seams = (
        layers_seam(top, under),
        *(seam for piece in (under, top) for seam in neck_seams(piece, line.to_centre, ease)),
    )
    return Drawn((top, under), seams, tuple(centre_marks(pattern, derived)))


def collar_piece(
    name: str,
    neck: Sequence[Edge],
    rest: Sequence[Edge],
    *,
    of: PieceKind | None = None,
    interfaced: bool = False,
    notches: Sequence[Notch] = (),
    lines: Sequence[MarkLine] = (),
) -> Piece:
    """A piece of a collar, half of it where it is cut on the fold, its grain along its centre.

    neck, rest: its edges, anticlockwise, the centre at x = 0; every corner of the rest that is on no fold is meant
    """
    edges = (*neck, *rest)
    fold = next((edge for edge in rest if edge.role is Role.FOLD), None)
    centre = fold or next(edge for edge in rest if max(abs(edge.start.x), abs(edge.end.x)) <= SAME_PLACE)
    low, high = (lerp(centre.start, centre.end, share) + Vec(_OFF_END, 0.0) for share in _GRAIN)
    count = 1 if fold else 2
    corners = [(one, other) for one, other in pairwise((neck[-1], *rest, neck[0])) if fold not in (one, other)]
    return Piece(
        name,
        closed(name, edges),
        Cut(count, fold=fold is not None, mirror=fold is None, interfacing=count if interfaced else 0),
        Grain(low, high),
        notches=(*_joints(neck), *notches),
        lines=tuple(lines),
        points_meant=tuple((one.name, other.name) for one, other in corners),
        identity=replace(OF_COLLAR, of=of),
    )


def neck_allowance(line: NeckLine) -> float:
    """The seam allowance of the neck, which its collar has there, mm."""
    return max(each.edge.allowance for part in line.to_centre for each in part.edges)


def edge_allowance(line: NeckLine) -> float:
    """That of the free edges of a collar, mm."""
    return min(_EDGE, neck_allowance(line))


_SLIVER: Final = 1.0
"""mm: a curve shorter than that is the end of one that was cut (ours)."""


def neck_edges(run: Sequence[Curve], parts: Sequence[NeckPart], allowance: float) -> list[Edge]:
    """The neck of a collar parted as that of the garment is, in the order of the run."""
    whole, long = sum(part.length for part in parts), run_length(run)
    rest, edges = tuple(run), []
    for part in parts[:-1]:
        piece, rest = cut_run(rest, part.length / whole * long)
        edges.append(Edge(part.name, _without_slivers(piece), Role.SEAM, allowance, Place.NECK))
    return [*edges, Edge(parts[-1].name, _without_slivers(rest), Role.SEAM, allowance, Place.NECK)]


def _without_slivers(run: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """The run, what the cut left of a curve at either end drawn in one with the next: in a file with hundredths of a
    millimetre a curve a tenth long would bend as it happens.
    """
    if len(run) > 1 and run_length(run[:1]) < _SLIVER:
        run = (_in_one(run[0], run[1]), *run[2:])
    if len(run) > 1 and run_length(run[-1:]) < _SLIVER:
        run = (*run[:-2], _in_one(run[-2], run[-1]))
    return run


def _in_one(one: Curve, other: Curve) -> Curve:
    return fair(one.start, end_tangents(one)[0], other.end, end_tangents(other)[1])


def centre_edge(start: Point, end: Point, allowance: float, *, ends: bool, name: str = "centre back") -> Edge:
    """The centre of a collar: a fold, or an end where the garment is open there."""
    run = (Line(start, end),)
    if ends:
        return Edge("back end", run, Role.SEAM, allowance, Place.COLLAR_END)
    return Edge(name, run, Role.FOLD, place=Place(name))


def _joints(neck: Sequence[Edge]) -> list[Notch]:
    """A notch where each part of the neck ends in the next: at the shoulder, at the centre where a stand goes on."""
    return [
        Notch("centre front", Station(edge.name, 0.0, "end"), marks=NotchMark.CENTRE)
        if STAND_NECK in (edge.name, after.name)
        else Notch(f"end of the {edge.name}", Station(edge.name, 0.0, "end"), marks=NotchMark.SHOULDER)
        for edge, after in pairwise(neck)
    ]


def neck_seams(piece: Piece, parts: Sequence[NeckPart], ease: float = 0.0, *, backward: bool = False) -> list[Seam]:
    """The seams that sew a collar to the parts of the neck, which are longer by `ease` mm in all.

    backward: whether the neck of the collar runs from the back to the front
    """
    forward = tuple(reversed(parts)) if backward else tuple(parts)
    whole = sum(part.length for part in parts)
    seams = []
    for part in (each for each in forward if not each.beyond):
        # what a stand has beyond the centre is sewn in one go with the front
        run = [each for each in forward if each.beyond and part is forward[1]] + [part]
        more = ease * sum(each.length for each in run) / whole
        eased = SeamEase(more, 0.0, more + _SEWS) if ease else SeamEase()
        refs = tuple(laid.ref for each in run for laid in each.edges)
        seams.append(
            Seam(
                f"{piece.name} to {part.name}",
                refs,
                tuple(EdgeRef(piece.name, each.name, backward) for each in run),
                eased,
            )
        )
    return seams


def layers_seam(top: Piece, under: Piece, *, places: Sequence[Place] = (Place.COLLAR_EDGE, Place.COLLAR_END)) -> Seam:
    """The seam of two layers round their free edges; the upper is longer there by the turn of the cloth."""
    run = [edge.name for edge in top.edges if edge.place in places]
    a, b = (tuple(EdgeRef(piece.name, name) for name in run) for piece in (top, under))
    more = sum(top.edge(name).length - under.edge(name).length for name in run)
    return Seam(f"{top.name} to {under.name}", a, b, SeamEase(more, min(0.0, more - _MEETS), more + _MEETS))
