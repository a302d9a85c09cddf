"""A collar as it is cut: the collar itself, and an under collar that is smaller by the turn of the cloth.

Two layers of cloth that are folded together do not end at the same place: the outer layer goes a longer way round the
fold, by pi times the thickness for a whole turn. So the under collar is made smaller by that and 1 mm at its ends and
its outer edge, and the seam at the edge rolls under. At the neck both are equally long (a teaching page of production
practice has the collar larger by 1/8 in at the outer edge, by nothing at the neck).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.geometry import Line, Point, Vec, lerp
from drafting.geometry.tolerance import SAME_PLACE
from drafting.parts.collars.collar_neck import neck_allowance, neck_joints, neck_seams
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
    MarkLine,
    Notch,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
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
    top = collar_piece(free_piece_name(pattern, COLLAR), neck, rest, line.to_centre)
    under = collar_piece(
        free_piece_name(pattern, UNDER_COLLAR),
        under_neck,
        under_rest,
        line.to_centre,
        of=PieceKind.COLLAR,
        interfaced=True,
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
    parts: Sequence[NeckPart],
    *,
    of: PieceKind | None = None,
    interfaced: bool = False,
    notches: Sequence[Notch] = (),
    lines: Sequence[MarkLine] = (),
) -> Piece:
    """A piece of a collar with its grain along its centre; half of it where it is cut on the fold.

    neck, rest: its edges, anticlockwise, the centre at x = 0; every corner of the rest that is on no fold is meant
    parts:      of the neck, in the order of those edges; none for a fall, which is sewn to its stand
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
        notches=(*neck_joints(neck, parts), *notches),
        lines=tuple(lines),
        points_meant=tuple((one.name, other.name) for one, other in corners),
        identity=replace(OF_COLLAR, of=of),
    )


def edge_allowance(line: NeckLine) -> float:
    """The seam allowance of the free edges of a collar, mm."""
    return min(_EDGE, neck_allowance(line))


def centre_edge(start: Point, end: Point, allowance: float, *, ends: bool, name: str = "centre back") -> Edge:
    """The centre of a collar: a fold, or an end where the garment is open there."""
    run = (Line(start, end),)
    if ends:
        return Edge("back end", run, Role.SEAM, allowance, Place.COLLAR_END)
    return Edge(name, run, Role.FOLD, place=Place(name))


def layers_seam(top: Piece, under: Piece, *, places: Sequence[Place] = (Place.COLLAR_EDGE, Place.COLLAR_END)) -> Seam:
    """The seam of two layers round their free edges; the upper is longer there by the turn of the cloth."""
    run = [edge.name for edge in top.edges if edge.place in places]
    a, b = (tuple(EdgeRef(piece.name, name) for name in run) for piece in (top, under))
    more = sum(top.edge(name).length - under.edge(name).length for name in run)
    return Seam(f"{top.name} to {under.name}", a, b, SeamEase(more, min(0.0, more - _MEETS), more + _MEETS))
