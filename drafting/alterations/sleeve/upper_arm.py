"""A large or a slim upper arm: more or less width at the biceps line of a set-in sleeve.

The trade's way: slash the sleeve down its middle from the crown and across at the biceps line, and spread it there by
what is wanted, half to either side. With the cap seam kept, the cap falls as it is spread; with the height kept, both
sides of the cap grow, which is more ease to be sewn in. Both follow from the sleeve triangle (plane geometry): on
diagonals of 20.5 and 22.5 cm a cap 15 cm high is 30.74 cm wide; 2 cm wider with the diagonals kept it is 13.91 high,
with the height kept the diagonals grow by 1.45 cm. The lower end of the sleeve and its length stay as they are.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import edge_length, lengths_kept, run_surplus
from drafting.alterations.refusing import instead
from drafting.alterations.sleeve.recut_cap import with_cap
from drafting.alterations.sleeve.set_in_sleeve import (
    SLEEVE,
    SetIn,
    below_kept,
    biceps_width,
    cap_height,
    find_set_in,
    set_in,
)
from drafting.alterations.techniques.marks.seam_ease import ease_that_sews, with_ease
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry.cap import Cap, cap_of_width, redrawn_cap
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import BodyPart, Pattern

__all__ = ["UpperArm"]

_SEAM, _HEIGHT = "cap seam", "cap height"
_LEAST, _MOST = -120.0, 200.0


@alteration_class
class UpperArm(Alteration):
    """Make a sleeve wider (`by` above zero) or slimmer at the biceps line."""

    name = "upper arm"
    layer = Layer.FIT
    needs = ((BodyPart.SLEEVE,),)
    about = "Make room for a large upper arm, or take it out for a slim one, at the biceps line of a set-in sleeve."
    leaves = "the cap seam or the height of the cap, as asked; the length of the sleeve and its lower end"
    carries = "the notches of the cap; with the height kept, the ease declared for the armhole"

    by: float = option("length", "how much wider in all; below zero for slimmer", _LEAST, _MOST, or_less=True)
    keep: str = option(
        "choice",
        "what stays: with its seam the cap gets lower, with its height longer",
        choices=(_SEAM, _HEIGHT),
        default=_SEAM,
    )
    piece: str = option("text", "the sleeve", default=SLEEVE)

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve = _sleeve(self, pattern)
        redraw = _of_same_seam if self.keep == _SEAM else _of_same_height
        try:
            altered = set_in(pattern, with_cap(sleeve.piece, partial(redraw, self, sleeve)))
        except NotAPattern as error:
            raise StepRefused(self.name, reason=f"{_amount(self)} cannot be had: {error}") from error
        return altered if self.keep == _SEAM else _with_new_ease(self, altered, sleeve)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve = _sleeve(self, pattern)
        name = sleeve.piece.name
        if self.keep == _SEAM:
            yield from lengths_kept(sleeve.piece, (sleeve.edges.cap_front.name, sleeve.edges.cap_back.name))
        else:
            yield Promise(f"the height of the cap of {name}", partial(cap_height, name))
        yield Promise(f"the width of {name} at the biceps line", partial(biceps_width, name), self.by)
        yield from below_kept(pattern, sleeve.piece)


def _sleeve(step: UpperArm, pattern: Pattern) -> SetIn:
    if abs(step.by) < SAME_PLACE:
        raise StepRefused(step.name, reason=f"{step.by:g} mm changes nothing; say by how much")
    return find_set_in(step.name, pattern, step.piece)


def _of_same_seam(step: UpperArm, sleeve: SetIn, cap: Cap, turned: float) -> Cap:
    caps = (sleeve.edges.cap_back, sleeve.edges.cap_front)
    back, front = (edge_length(sleeve.piece, edge.name) for edge in caps)
    return cap_of_width(cap, back=back, front=front, width=sleeve.cap.width + step.by, turned=turned)


def _of_same_height(step: UpperArm, sleeve: SetIn, cap: Cap, turned: float) -> Cap:
    was = sleeve.cap
    width, back_width = was.width + step.by, was.back_width + 0.5 * step.by
    if not 0.25 * width < back_width < 0.75 * width:
        raise NotAPattern("cap", reason="its crown would lie too far to one side")
    return redrawn_cap(cap, back_width=back_width, width=width, height=was.height, turned=turned)


def _with_new_ease(step: UpperArm, altered: Pattern, sleeve: SetIn) -> Pattern:
    """The pattern with the ease that the cap now has declared. Raises StepRefused where it could not be sewn in."""
    for seam in (sleeve.front, sleeve.back):
        now = run_surplus(altered, seam)
        ease = ease_that_sews(seam.ease, now)
        if ease is None:
            raise StepRefused(
                step.name,
                reason=f"{_amount(step)} with the height kept makes the cap {now:.1f} mm longer than the "
                f"{seam.name}, and {seam.ease.low:.1f} to {seam.ease.high:.1f} mm will sew",
                remedies=instead(step.name, "keep", _SEAM),
            )
        altered = with_ease(altered, seam.name, ease)
    return altered


def _amount(step: UpperArm) -> str:
    return f"{abs(step.by):.1f} mm {'more' if step.by > 0.0 else 'less'} at the biceps line"
