"""The stand collar: a strip that stands up from the neck and leans to it.

Raised by 1 to 1.5 cm at the front the strip follows the neck; straight it stands off the neck; raised by more than 3 cm
it leans hard to it (common practice). Its base is the neck up to where the garment closes: to the edge of a button
stand, or to the centre.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Line, Point
from drafting.parts.collars.collar_neck import neck_allowance, neck_edges, neck_seams
from drafting.parts.collars.leaning import Ring, ring_of_rise
from drafting.parts.collars.neck_line import COLLAR_TO, NeckLine, NeckPart, neck_line
from drafting.parts.collars.round_corner import round_corner
from drafting.parts.collars.two_layers import COLLAR, TURN, centre_edge, collar_piece, edge_allowance, layers_seam
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.neck_facing import centre_marks
from drafting.parts.what_helps import opened_at
from drafting.pattern import (
    Derived,
    Edge,
    Landmark,
    MarkPoint,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    free_piece_name,
)

__all__ = [
    "INNER_COLLAR",
    "OPEN_IN_FRONT",
    "ROUNDED",
    "SQUARE",
    "STAND_COLLAR",
    "STAND_COLLAR_TO",
    "Standing",
    "button_on_stand",
    "draw_stand_collar",
    "standing",
]

STAND_COLLAR: Final = "stand collar"
INNER_COLLAR: Final = "inner collar"
STAND_COLLAR_TO: Final = COLLAR_TO
SQUARE, ROUNDED = "square", "rounded"

OPEN_IN_FRONT: Final = opened_at("centre front", "buttons")
"""What is written to have the front buttoned."""

_ROUND: Final = 0.6  # how much of its height a rounded end is rounded over (ours)


@dataclass(frozen=True, slots=True)
class Standing:
    """What a collar that stands on the neck is sewn to, from its fold to where it is closed.

    fold:   the centre at which it is whole, "centre back"
    halves: whether it is open there too
    base:   how long the neck is from the fold on, mm; beyond: what of that a button stand has beyond the centre front
    """

    parts: tuple[NeckPart, ...]
    fold: str
    halves: bool
    base: float
    beyond: float

    @property
    def backward(self) -> bool:
        """Whether it runs from the back to the front."""
        return self.fold == "centre back"


def standing(line: NeckLine, name: str) -> Standing:
    """How a collar stands on this neck. Raises NotAPattern where the garment opens at no centre line."""
    front, back = line.front.role is Role.OPENING, line.back.role is Role.OPENING
    if not front and not back:
        raise NotAPattern(
            name,
            reason="the garment opens at no centre line, and a standing collar goes over no head",
            remedies=(OPEN_IN_FRONT,),
        )
    parts = tuple(reversed(line.parts)) if front else line.to_centre
    return Standing(
        parts,
        "centre back" if front else "centre front",
        front and back,
        sum(part.length for part in parts),
        line.length_beyond() if front else 0.0,
    )


def draw_stand_collar(pattern: Pattern, derived: Derived) -> Drawn:
    """The collar and the inner one. Raises NotAPattern where the garment opens at no centre line."""
    line = neck_line(pattern, STAND_COLLAR)
    stood = standing(line, STAND_COLLAR)
    ease, height = derived.length("ease"), derived.length("height")
    ring = ring_of_rise(STAND_COLLAR, stood.base - ease, derived.length("rise"))
    ends, turned = str(dict(derived.options)["ends"]), derived.length_or("turn", TURN)
    layers = []
    for name, of, less in ((COLLAR, None, 0.0), (INNER_COLLAR, PieceKind.LINING, turned)):
        neck = neck_edges(ring.at_height(0.0), stood.parts, neck_allowance(line))
        rest = _rest(line, stood, ring, height, ends, less)
        piece = collar_piece(free_piece_name(pattern, name), neck, rest, stood.parts, of=of, interfaced=True)
        layers.append(piece if of else button_on_stand(piece, stood, ring, height))
    seams = [layers_seam(*layers)]
    for piece in layers:
        seams += neck_seams(piece, stood.parts, ease, backward=stood.backward)
    return Drawn(tuple(layers), tuple(seams), tuple(centre_marks(pattern, derived)))


def _rest(line: NeckLine, stood: Standing, ring: Ring, height: float, ends: str, less: float) -> list[Edge]:
    """The end, the upper edge and the fold; less: by how much it is smaller at its free edges, mm."""
    allowance = edge_allowance(line)
    upper = ring.back_at(height - less, ring.base - less)
    end = (Line(ring.at_height(0.0)[-1].end, upper[0].start),)
    if ends == ROUNDED:
        lower, bend, rest = round_corner(end, upper, _ROUND * height)
        end, upper = lower, (bend, *rest)  # type: ignore[assignment]
    return [
        Edge("end", end, Role.SEAM, allowance, Place.COLLAR_END),
        Edge("upper edge", upper, Role.SEAM, allowance, Place.COLLAR_EDGE),
        centre_edge(Point(0.0, height - less), Point(0.0, 0.0), allowance, ends=stood.halves, name=stood.fold),
    ]


def button_on_stand(piece: Piece, stood: Standing, ring: Ring, height: float) -> Piece:
    """The collar with a button marked half way up its centre front; as it was where it closes edge to edge."""
    if not stood.beyond:
        return piece
    at = ring.at_height(0.5 * height, ring.base - stood.beyond)[-1].end
    return replace(piece, points=(*piece.points, MarkPoint("collar button", at, Landmark.BUTTON)))
