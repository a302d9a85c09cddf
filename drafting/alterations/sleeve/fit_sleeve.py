"""Fit a sleeve to its armhole: draw its cap so that it goes in with the ease that is wanted.

The trade's way: measure the armhole, front and back, from underarm to shoulder; add the ease; of the sleeve triangle
keep the width at the biceps line (the height follows) or the height (the width follows), draw the cap again and mark
its notches as far from the underarm as those of the armhole (plane geometry; the ease goes above the notches, common
practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finer_length, surplus_becomes
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
from drafting.alterations.techniques.marks.seam_ease import gathered_ease, with_ease
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry.cap import Cap, cap_of_height, cap_of_width
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import MOST_EASED, BodyPart, Pattern, Seam, SeamEase

__all__ = ["BICEPS", "KEEP", "FitSleeve", "refitted"]

BICEPS, HEIGHT = "biceps", "cap height"
KEEP: Final = (BICEPS, HEIGHT)
"""What of a sleeve can be kept while its cap is fitted to an armhole."""


@alteration_class
class FitSleeve(Alteration):
    """Redraw the cap of a sleeve so that it goes into its armhole."""

    name = "fit sleeve"
    layer = Layer.FIT
    needs = ((BodyPart.SLEEVE,),)
    about = "Draw the cap of a sleeve anew so that it goes into its armhole with the ease that is wanted."
    leaves = (
        "the width at the biceps line or the height of the cap, as asked; the length of the sleeve and its lower end"
    )
    carries = "the notches of the cap"

    cap_ease: float | None = option(
        "length",
        "how much longer than the armhole the cap is to be, half of it in front; left out, as its seams ask",
        0.0,
        400.0,
        default=None,
        or_less=True,
    )
    keep: str = option("choice", "what of the sleeve stays as it is", choices=KEEP, default=BICEPS)
    piece: str = option("text", "the sleeve", default=SLEEVE)

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve, (front, back) = _sleeve_and_ease(self, pattern)
        try:
            return refitted(pattern, sleeve, front, back, keep=self.keep)
        except NotAPattern as error:
            raise StepRefused(self.name, reason=f"{error}. {sleeve.described()}") from error

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve, (front, back) = _sleeve_and_ease(self, pattern)
        name = sleeve.piece.name
        yield Promise(f"the {self.keep} of {name}", partial(biceps_width if self.keep == BICEPS else cap_height, name))
        yield surplus_becomes(pattern, sleeve.front, front.wanted)
        yield surplus_becomes(pattern, sleeve.back, back.wanted)
        yield from below_kept(pattern, sleeve.piece)


def refitted(pattern: Pattern, sleeve: SetIn, front: SeamEase, back: SeamEase, *, keep: str = BICEPS) -> Pattern:
    """The pattern with the sleeve's cap drawn to its armhole, and this ease declared for the two seams.

    sleeve: as it is to be set in; its armhole is measured on the pattern that is given
    Raises NotAPattern where no such cap stands on what is kept of the sleeve.
    """
    wanted_front = finer_length(pattern, sleeve.front.b) + front.wanted
    wanted_back = finer_length(pattern, sleeve.back.b) + back.wanted
    was = sleeve.cap

    def redraw(cap: Cap, turned: float) -> Cap:
        if keep == HEIGHT:
            return cap_of_height(cap, back=wanted_back, front=wanted_front, height=was.height, turned=turned)
        return cap_of_width(cap, back=wanted_back, front=wanted_front, width=was.width, turned=turned)

    pattern = with_ease(pattern, sleeve.front.name, front)
    pattern = with_ease(pattern, sleeve.back.name, back)
    return set_in(pattern, with_cap(sleeve.piece, redraw))


def _sleeve_and_ease(step: FitSleeve, pattern: Pattern) -> tuple[SetIn, tuple[SeamEase, SeamEase]]:
    sleeve = find_set_in(step.name, pattern, step.piece)
    return sleeve, (_ease(step, sleeve.front), _ease(step, sleeve.back))


def _ease(step: FitSleeve, seam: Seam) -> SeamEase:
    """The ease that a seam is to have: a gathered cap is gathered more or less, or eased in again.

    Raises StepRefused for more or less of it than will sew.
    """
    if step.cap_ease is None:
        return seam.ease
    half, ease = 0.5 * step.cap_ease, seam.ease
    if ease.low - SAME_PLACE <= half <= ease.high + SAME_PLACE:
        return replace(ease, wanted=min(max(half, ease.low), ease.high))
    if ease.low <= MOST_EASED < half:
        high = max(MOST_EASED, ease.high)
        raise StepRefused(
            step.name,
            reason=f"half of {step.cap_ease:.1f} mm of ease goes into the {seam.name}, and {min(0.0, ease.low):.1f} to "
            f'{high:.1f} mm will sew there; have it gathered ("full sleeve")',
        )
    return gathered_ease(half) if half > MOST_EASED else SeamEase(half, 0.0, MOST_EASED)
