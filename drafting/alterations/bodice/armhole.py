"""Lower or raise an armhole, or cut it in, and let the sleeve follow.

The trade's way (common practice). To lower it: mark the new underarm point on both side seams, equally far down, and
redraw the armhole from the shoulder to there, square to the side seam as before. To cut it in: draw it further in at
the notch, and let it run into the old line at shoulder and underarm. An armhole that is lowered by an amount becomes
longer by up to about twice that amount, so the cap of the sleeve is drawn again (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.bodice.armhole_moved import Hole, hole_of, lowered, narrowed
from drafting.alterations.earlier_steps import in_the_way
from drafting.alterations.one_piece import ONLY, taking_part
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import length_changes, places_kept, surplus_becomes
from drafting.alterations.refusing import instead, refusing
from drafting.alterations.sleeve.fit_sleeve import refitted
from drafting.alterations.sleeve.set_in_sleeve import SetIn, biceps_width, find_set_in, is_set_in
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import BodyPart, Pattern, Piece, PieceKind, Place, edges_at, with_pieces

__all__ = ["Armhole"]

_BODICE: Final = "bodice"


@alteration_class
class Armhole(Alteration):
    """Lower the armhole (`lower` above zero) or raise it, and cut it in, mm, in front and behind alike.

    Unless it is held to the bodice, the cap of the sleeve is drawn to the new armhole, the width of the sleeve kept.
    """

    name = "armhole"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Lower or raise the armhole along the side seams, or cut it in at its notches."
    leaves = "the rest of the bodice; the width of the sleeve at the biceps line"
    carries = "the cap of the sleeve"

    lower: float = option(
        "length", "how far down the side seam; below zero to raise it", -40.0, 150.0, default=0.0, or_less=True
    )
    cut_in: float = option("length", "how much further in at its notches", 0.0, 40.0, default=0.0, or_less=True)
    only: str = option("text", f'{ONLY}; "{_BODICE}": to front and back, whatever sleeve is set in', default="")

    def apply(self, pattern: Pattern) -> Pattern:
        pieces = []
        for hole in _holes(self, pattern):
            piece = narrowed(hole, self.cut_in) if self.cut_in else hole.piece
            pieces.append(lowered(hole_of(piece), self.lower) if self.lower else piece)
        altered = with_pieces(pattern, *pieces)
        for sleeve in _sleeves(self, pattern):
            held = instead(self.name, "only", _BODICE)
            with refusing(self.name, partial(_left_behind, sleeve.piece.name), held):
                altered = refitted(altered, sleeve, sleeve.front.ease, sleeve.back.ease)
        return altered

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        redrawn = set()
        for hole in _holes(self, pattern):
            redrawn |= {(hole.piece.name, hole.armhole.name), (hole.piece.name, hole.side.name)}
            yield length_changes(hole.piece, hole.side.name, -self.lower)
        sleeves = {sleeve.piece.name: sleeve for sleeve in _sleeves(self, pattern)}
        for piece in pattern.pieces:
            if piece.name not in sleeves:
                names = (edge.name for edge in piece.edges if (piece.name, edge.name) not in redrawn)
                yield from places_kept(piece, names)
        for name, sleeve in sleeves.items():
            yield surplus_becomes(pattern, sleeve.front, sleeve.front.ease.wanted)
            yield surplus_becomes(pattern, sleeve.back, sleeve.back.ease.wanted)
            yield Promise(f"the width of the {name} at the biceps line", partial(biceps_width, name))


def _holes(step: Armhole, pattern: Pattern) -> tuple[Hole, ...]:
    if max(abs(step.lower), abs(step.cut_in)) < SAME_PLACE:
        raise StepRefused(step.name, reason='say how far: lower = "2 cm", or cut_in = "1 cm"')
    bodice = (piece for piece in pattern.pieces if piece.identity.kind is not PieceKind.FACING)
    pieces = [piece for piece in bodice if edges_at(piece, Place.ARMHOLE)]
    if not pieces:
        raise StepRefused(step.name, reason="no piece has an armhole")
    named = taking_part(step.name, step.only, [*(piece.name for piece in pieces), _BODICE])
    return tuple(_hole(step, piece) for piece in pieces if piece.name in named or step.only == _BODICE)


def _left_behind(sleeve: str, error: NotAPattern) -> str:
    return f"the {sleeve} cannot follow: {error}; it can be left as it is"


def _hole(step: Armhole, piece: Piece) -> Hole:
    way = in_the_way(piece)
    with refusing(step.name, lambda error: way.said if way else str(error), way.remedies if way else ()):
        return hole_of(piece)


def _sleeves(step: Armhole, pattern: Pattern) -> tuple[SetIn, ...]:
    """The sleeves that are to follow."""
    if step.only:
        return ()
    return tuple(find_set_in(step.name, pattern, piece.name) for piece in pattern.pieces if is_set_in(piece))
