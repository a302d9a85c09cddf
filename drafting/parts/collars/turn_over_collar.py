r"""The turn-over collar in one piece: its lower part stands, its upper part turns down over it along the roll line.

Its outer edge has to go round the garment below the neck seam (`ring_over`). The longer this edge is than the neck, the
more the collar bends. Where the fall is hardly wider than the stand it is nearly a straight strip, as the collars of
old books are (I. Rosenfeld, The Practical Designer: a stand of 1 in, the front end half an inch off the level).

    outer edge ____________
              |   roll     \ \     CB on the left; it ends at the centre front, worn open or shut
              |- - - - - - -\/
              |____________-
    neck edge
"""

from __future__ import annotations

from typing import Final

from drafting.geometry import Line
from drafting.parts.collars.collar_neck import neck_allowance, neck_edges, neck_seams
from drafting.parts.collars.neck_line import COLLAR_TO, neck_line
from drafting.parts.collars.shirt_collar import back_turning, fall_edges, ring_over
from drafting.parts.collars.two_layers import COLLAR, TURN, UNDER_COLLAR, collar_piece, edge_allowance, layers_seam
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.neck_facing import centre_marks
from drafting.pattern import Derived, Level, MarkLine, Pattern, PieceKind, free_piece_name

__all__ = ["TURN_OVER_COLLAR", "TURN_OVER_COLLAR_TO", "draw_turn_over_collar"]

TURN_OVER_COLLAR: Final = "turn-over collar"
TURN_OVER_COLLAR_TO: Final = COLLAR_TO


def draw_turn_over_collar(pattern: Pattern, derived: Derived) -> Drawn:
    """The collar and its under collar. Raises NotAPattern where there is no neck for it."""
    line = neck_line(pattern, TURN_OVER_COLLAR)
    stand, fall, ease = derived.length("stand"), derived.length("fall"), derived.length("ease")
    turned, neck = derived.length_or("turn", TURN), line.length_to_centre()
    ring = ring_over(neck, neck - ease, stand + fall, fall - stand + turned, back_turning(line))
    roll = ring.at_height(stand)
    straight = len(roll) == 1 and isinstance(roll[0], Line)
    mark = MarkLine("roll line", roll[0].start, roll[-1].end, () if straight else roll, Level.ROLL)
    parts = tuple(reversed(line.to_centre))
    layers = []
    for name, of, less in ((COLLAR, None, 0.0), (UNDER_COLLAR, PieceKind.COLLAR, turned)):
        edges = fall_edges(
            ring, stand + fall, derived.length("point"), less, edge_allowance(line), halves=line.open_behind
        )
        neck_run = neck_edges(ring.at_height(0.0), parts, neck_allowance(line))
        layers.append(
            collar_piece(
                free_piece_name(pattern, name), neck_run, edges, parts, of=of, interfaced=of is not None, lines=(mark,)
            )
        )
    seams = [layers_seam(*layers)]
    for piece in reversed(layers):
        seams += neck_seams(piece, parts, ease, backward=True)
    return Drawn(tuple(layers), tuple(seams), tuple(centre_marks(pattern, derived)))
