"""A kimono: the sleeve cut in one with the bodice, front and back, with a square gusset let in under the arm.

The trade's way: to lift the arm by an angle needs more length under the arm: the distance from shoulder to underarm
times that angle (plane geometry: 18 cm and 45 degrees are 14.1 cm). A square gusset gives its diagonal: a square of 4
inches gives 14.37 cm, 45.7 degrees. Each of its four sides is sewn to one side of a slit, all equally long; the slits
run from the underarm toward the shoulder, and end a little before it (common practice). Where the mouth of a slit is
already open, the gusset fills this gap first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.darts.darts_to_waist import with_darts_to_waist
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, seams_kept
from drafting.alterations.refusing import instead
from drafting.alterations.sleeve.set_in_sleeve import SLEEVE, find_set_in
from drafting.alterations.styles.kimono_half import MOUTH, Drawn, drawn, lowest
from drafting.alterations.styles.kimono_pieces import (
    BodyHalf,
    gusset_piece,
    half_of_body,
    joined_up,
    measures_reach,
    with_sleeve,
)
from drafting.alterations.techniques.cutting.seam_for_fold import seamed_where_too_wide
from drafting.errors import StepRefused
from drafting.geometry import distance, run_length
from drafting.geometry.solve import solve
from drafting.pattern import MOST_EASED, BodyPart, Half, Pattern, PieceKind, Place, run_total
from drafting.pattern.locate import has_sleeve

__all__ = ["Kimono", "gusset_side", "lift_of"]

_USUAL: Final = 15.0  # degrees that the arm bends down where nothing is said: with the shoulder it slopes by 35 (ours)
_MOST: Final = 40.0  # degrees that it bends down at the most (ours)
_LEAST_DROP: Final = 10.0  # mm that the underarm lies below the old armhole at the least (ours)
_LEAST_SIDE: Final = 30.0  # mm of side seam that have to be left below the gusset (ours)
_BEFORE_SHOULDER: Final = 25.0  # mm that a slit ends before the shoulder (common practice: a centimetre; the rest ours)


def gusset_side(below: float, lift: float, mouth: float = 0.0) -> float:
    """The side of a square gusset, mm, that lets an arm be lifted by an angle.

    below: how far the underarm lies below the shoulder, mm; lift in radians; mouth: how wide the slit is open, mm
    """
    return (mouth + below * lift) / math.sqrt(2.0)


def lift_of(side: float, below: float, mouth: float = 0.0) -> float:
    """By what angle, in radians, a square gusset lets an arm be lifted; the same lengths, mm."""
    return (side * math.sqrt(2.0) - mouth) / below


@alteration_class
class Kimono(Alteration):
    """Cut the sleeve in one with front and back, and let a gusset in under the arm."""

    name = "kimono"
    new_piece = PieceKind.GUSSET
    layer = Layer.SEAMS
    redraws = (Place.SIDE,)
    needs = ((BodyPart.BODICE,), (BodyPart.SLEEVE,))
    about = "Cut the sleeve in one with front and back, with a square gusset let in under the arm."
    leaves = "neck, shoulder and waist; how far the sleeve reaches; its width at the wrist"
    carries = "the sleeve is gone; the shoulder seam runs on down the arm, the side seam into that under the arm"

    bend: float | None = option(
        "angle",
        "how far the arm bends down from the shoulder; left out 15 degrees, or less where the waist is near",
        0.0,
        _MOST,
        default=None,
    )
    lift: float = option("angle", "how much further the arm is lifted by the gusset", 15.0, 75.0, default=40.0)

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve = find_set_in(self.name, pattern, SLEEVE)
        if any(seam.ease.wanted > MOST_EASED for seam in (sleeve.front, sleeve.back)):
            gathered = f'the cap of "{sleeve.piece.name}" is gathered'
            why = "and a sleeve cut in one with the bodice has no cap: leave its fullness out"
            raise StepRefused(self.name, reason=f"{gathered}, {why}")
        pattern = with_darts_to_waist(self.name, pattern, "the gusset takes up the seam where it lay")
        halves = [half_of_body(self.name, pattern, half, sleeve) for half in (Half.FRONT, Half.BACK)]
        front = halves[0]
        bend = self._bend(halves)
        meets = _meets(halves, bend)
        side = self._side(front, drawn(front.body, front.arm, bend, meets, 80.0))

        # front and back bend a little more and less, so that both undersides of the sleeve are equally long
        def both(more: float) -> tuple[Drawn, Drawn]:
            bends = (bend + more, bend - more)
            one, other = (drawn(each.body, each.arm, one, meets, side) for each, one in zip(halves, bends, strict=True))
            return one, other

        def longer(more: float) -> float:
            one, other = both(more)
            return run_length((one.underarm,), 1e-7) - run_length((other.underarm,), 1e-7)

        made = [with_sleeve(half, new) for half, new in zip(halves, both(solve(longer, 0.0, 0.02)), strict=True)]
        joined = joined_up(pattern, sleeve, made, gusset_piece(pattern, side, made))
        return seamed_where_too_wide(joined, [piece.name for piece in joined.pieces if has_sleeve(piece)])

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve = find_set_in(self.name, pattern, SLEEVE)
        name = sleeve.piece.name
        yield from seams_kept(pattern, lambda seam: all(ref.piece != name for ref in (*seam.a, *seam.b)))
        kept = ("neck_base_girth", "shoulder_length", "waist_girth")
        yield from finished_kept(pattern, lambda each: each.key in kept or measures_reach(each, sleeve))
        yield Promise("how much the sides of the gusset differ from the slits", _gusset_off)

    def _bend(self, halves: Sequence[BodyHalf]) -> float:
        """How far the arm bends down, radians. Raises StepRefused where its underarm would come too near the waist."""
        room = min(each.room for each in halves) - MOUTH - _LEAST_SIDE
        fitting = [*takewhile(lambda by: _meets(halves, math.radians(by)) <= room, range(int(_MOST) + 1))]
        if not fitting:
            reason = "the underarm of so wide a sleeve comes too near the waist (upper arm girth, back waist length)"
            mend = 'make the sleeve narrower ("fit sleeve"), or the bodice longer'
            raise StepRefused(self.name, reason=f"{reason}: {mend}")
        if self.bend is None:
            return math.radians(min(_USUAL, fitting[-1]))
        bend = math.radians(self.bend)
        if _meets(halves, bend) > room:
            reason = f"its underarm would come too near the waist: {fitting[-1]} degrees is the most the arm can bend"
            raise StepRefused(self.name, reason=reason, remedies=instead(self.name, "bend", float(fitting[-1]), "deg"))
        return bend

    def _side(self, front: BodyHalf, rough: Drawn) -> float:
        """The side of the gusset. Raises StepRefused where the slit would come too near the shoulder."""
        corner = rough.slit_at_side.start
        below, room = front.body.tip.y - corner.y, distance(front.body.tip, corner) - _BEFORE_SHOULDER
        side = gusset_side(below, math.radians(self.lift), rough.mouth)
        if side > room:
            most = math.floor(math.degrees(lift_of(room, below, rough.mouth)))
            reason = f"a gusset of {side:.0f} mm would need a slit that comes into the shoulder"
            less = instead(self.name, "lift", float(most), "deg") if most >= 15 else ()
            raise StepRefused(
                self.name, reason=f"{reason}: {most} degrees is the most the arm can be lifted", remedies=less
            )
        return side


def _meets(halves: Sequence[BodyHalf], bend: float) -> float:
    """How far down the side seam the underarm of the sleeve meets it, mm, when the arm bends down so far."""
    return max(_LEAST_DROP, *(lowest(each.body, each.arm, bend) for each in halves))


def _gusset_off(pattern: Pattern) -> float:
    """How far the two sides of any seam of a gusset differ, mm, rounded to a thousandth."""
    names = {piece.name for piece in pattern.pieces if piece.identity.kind is PieceKind.GUSSET}
    seams = [seam for seam in pattern.seams if any(ref.piece in names for ref in seam.b)]
    return round(sum(abs(run_total(pattern, seam.a) - run_total(pattern, seam.b)) for seam in seams), 3)
