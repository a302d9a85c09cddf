r"""The shirt collar: a stand that is buttoned in front, and the fall that turns down over it.

The stand is a stand collar, cut twice; the fall is sewn to its upper edge from centre front to centre front. The fall
turns down over the stand and the neck seam, so its outer edge has to go round the garment below the seam. This edge is
longer than the base of the stand, by the distance it reaches beyond the seam times the angle that the back neck turns
through (a model of ours). So the fall bends the other way from the stand.

    fall   ________________             CB on the left, the stand below the fall as it is sewn
          |________        \ point
           ________|--------
    stand |________--------_)  base: the neck, to the edge of the button stand
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, cut_run, end_tangents, run_length, run_reversed
from drafting.parts.collars.collar_neck import neck_allowance, neck_edges, neck_seams
from drafting.parts.collars.leaning import Ring, ring_of_rise, ring_of_top
from drafting.parts.collars.neck_line import COLLAR_TO, NeckLine, neck_line
from drafting.parts.collars.round_corner import round_corner
from drafting.parts.collars.stand_collar import OPEN_IN_FRONT, Standing, button_on_stand, standing
from drafting.parts.collars.turning import direction_along
from drafting.parts.collars.two_layers import (
    COLLAR,
    TURN,
    UNDER_COLLAR,
    centre_edge,
    collar_piece,
    edge_allowance,
    layers_seam,
)
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.free_edge import end_moved
from drafting.parts.finishes.neck_facing import centre_marks
from drafting.pattern import (
    Derived,
    Edge,
    EdgeRef,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Station,
    free_piece_name,
    require_edge,
)

__all__ = ["SHIRT_COLLAR", "SHIRT_COLLAR_TO", "back_turning", "draw_shirt_collar", "fall_edges", "ring_over"]

SHIRT_COLLAR: Final = "shirt collar"
SHIRT_COLLAR_TO: Final = COLLAR_TO
STAND: Final = "collar stand"
FALL: Final = "fall seam"
INNER_STAND: Final = "inner collar stand"

_AT_SHOULDER: Final = "over the shoulder"
_ENDS: Final = "the collar ends here"

_ROUND: Final = 0.7  # how much of its height the end of the stand is rounded over (ours)
_ALL: Final = 0.98  # of what the stand has beyond the centre, that may go into its round end (ours)
_NARROW: Final = 11.5  # mm beyond the centre, below which its end is square (ours: a bend of 1 cm is the least)
_COVERS: Final = 12.0  # mm by which a fall is wider than its stand: 1 to 1.5 cm, so that it hides the seam (common)
_OUTWARD: Final = 0.35  # how far the point of a fall lies beyond its seam, as a share of its front edge (ours)


def draw_shirt_collar(pattern: Pattern, derived: Derived) -> Drawn:
    """The fall and its under collar, the stand and the inner one.

    Raises NotAPattern where the garment does not open at the centre front.
    """
    line = neck_line(pattern, SHIRT_COLLAR)
    if line.front.role is not Role.OPENING:
        raise NotAPattern(SHIRT_COLLAR, reason="a shirt collar is buttoned in front", remedies=(OPEN_IN_FRONT,))
    stood, allowance = standing(line, SHIRT_COLLAR), neck_allowance(line)
    height, turned = derived.length("stand"), derived.length_or("turn", TURN)
    ring = ring_of_rise(SHIRT_COLLAR, stood.base, derived.length("rise"))
    stands = [
        collar_piece(
            free_piece_name(pattern, name),
            neck_edges(ring.at_height(0.0), stood.parts, allowance),
            _above(stood, ring, height, allowance, edge_allowance(line)),
            stood.parts,
            of=of,
            interfaced=True,
        )
        for name, of in ((STAND, PieceKind.BAND), (INNER_STAND, PieceKind.LINING))
    ]
    width = derived.length_or("fall", height + _COVERS)
    seam = require_edge(stands[0], Place.COLLAR_SEAM).length
    fall = ring_over(stood.base - stood.beyond, seam, width, width - height + turned, back_turning(line))
    point = derived.length("point")
    falls = [
        collar_piece(
            free_piece_name(pattern, name),
            [Edge(FALL, fall.at_height(0.0), Role.SEAM, edge_allowance(line), Place.COLLAR_SEAM)],
            fall_edges(fall, width, point, less, edge_allowance(line), halves=stood.halves),
            (),
            of=of,
            interfaced=of is None,
        )
        for name, of, less in ((COLLAR, None, 0.0), (UNDER_COLLAR, PieceKind.COLLAR, turned))
    ]
    shoulder = seam * line.to_centre[-1].length / line.length_to_centre()
    falls = [_marked(piece, shoulder, from_start=True) for piece in falls]
    stands = [_marked(piece, shoulder, from_start=False) for piece in stands]
    stands[0] = button_on_stand(stands[0], stood, ring, height)
    seams = [layers_seam(*falls)]
    seams += [
        Seam(
            f"{one.name} to {other.name}",
            (EdgeRef(one.name, FALL),),
            (EdgeRef(other.name, FALL, backward=True),),
            notches=((NotchRef(one.name, _AT_SHOULDER), NotchRef(other.name, _AT_SHOULDER)),),
        )
        for one, other in zip(falls, stands, strict=True)
    ]
    seams.append(layers_seam(*stands))
    for piece in stands:
        seams += neck_seams(piece, stood.parts, backward=True)
    return Drawn((*falls, *stands), tuple(seams), tuple(centre_marks(pattern, derived)))


def _marked(piece: Piece, shoulder: float, *, from_start: bool) -> Piece:
    """The piece with a notch on its fall seam where the shoulder lies below, so far from the centre back, mm; a stand,
    whose seam runs to the centre back, with another where the fall ends.
    """
    notches = [Notch(_AT_SHOULDER, Station(FALL, shoulder, "start" if from_start else "end"), marks=NotchMark.BALANCE)]
    if not from_start and piece.beside(FALL)[0].place is Place.COLLAR_EDGE:
        notches.append(Notch(_ENDS, Station(FALL, 0.0, "start"), marks=NotchMark.CENTRE))
    return replace(piece, notches=(*piece.notches, *notches))


def back_turning(line: NeckLine) -> float:
    """How much the neck turns behind the shoulder, radians on the half."""
    direction, whole = direction_along(line.runs())
    back = line.to_centre[-1].length
    return abs(direction(whole) - direction(whole - back))


def ring_over(base: float, seam: float, width: float, beyond: float, back: float) -> Ring:
    """The part of a collar that turns down over the neck seam, mm: its outer edge is as long as the neck, `base`, and
    what that turns by behind, `back` radians, times how far it reaches beyond the seam with the turn of the cloth.

    seam: how long it is where it is sewn on, `width` above which its outer edge lies
    """
    return ring_of_top(seam, width, max(seam, base + max(0.0, beyond) * back))


def _above(stood: Standing, ring: Ring, height: float, allowance: float, free: float) -> list[Edge]:
    """The end of the stand, its upper edge beyond the fall and below it, and its fold; free: the allowance of ends."""
    upper = ring.back_at(height)
    end: tuple[Curve, ...] = (Line(ring.at_height(0.0)[-1].end, upper[0].start),)
    to_centre = ring.length_at(height) * stood.beyond / ring.base
    beyond, sewn = cut_run(upper, to_centre) if stood.beyond else ((), upper)
    edges = []
    if beyond:
        rounded = round_corner(end, beyond, min(_ROUND * height, to_centre), _ALL)
        if to_centre >= _NARROW:  # a narrower one is left square: it could not be turned round so tight a bend
            end, beyond = rounded[0], (rounded[1], *rounded[2])
        edges = [Edge("upper end", beyond, Role.SEAM, free, Place.COLLAR_EDGE)]
    top = ring.at_height(height)[0].start
    return [
        Edge("end", end, Role.SEAM, free, Place.COLLAR_END),
        *edges,
        Edge(FALL, sewn, Role.SEAM, free, Place.COLLAR_SEAM),
        centre_edge(top, Point(0.0, 0.0), allowance, ends=stood.halves),
    ]


def fall_edges(fall: Ring, width: float, point: float, less: float, allowance: float, *, halves: bool) -> list[Edge]:
    """The front end of the fall, its outer edge and its fold; less: by how much it is smaller there, mm."""
    seam = fall.at_height(0.0)
    out = end_tangents(seam[-1])[1]
    goal = seam[-1].end + (out * _OUTWARD + out.left() * (1.0 - _OUTWARD**2) ** 0.5) * point
    outer = fall.at_height(width - less)
    outer = end_moved(outer, goal, run_length(outer))
    if less:
        outer = cut_run(outer, run_length(outer) - less)[0]
    return [
        Edge("front end", (Line(seam[-1].end, outer[-1].end),), Role.SEAM, allowance, Place.COLLAR_END),
        Edge("outer edge", run_reversed(outer), Role.SEAM, allowance, Place.COLLAR_EDGE),
        centre_edge(outer[0].start, Point(0.0, 0.0), allowance, ends=halves),
    ]
