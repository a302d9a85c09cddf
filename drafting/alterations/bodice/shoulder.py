"""Fitting the shoulder: the seam moved forward, the shoulder made broader or narrower.

Front and back are altered alike, so that they still meet. Pieces are drawn for one half of the body and cut twice, or
cut on the fold, so left and right are altered alike too. Where one shoulder is lower than the other, each half of the
garment needs its own garment file.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.bodice.crown_at_shoulder import cap_halves_at, split_moved
from drafting.alterations.bodice.turn_shoulder import (
    BOTH,
    LOWER_ARMHOLE,
    SIDES,
    WHICH_SHOULDER,
    front_and_back,
    shoulders_turned,
    with_notches_shifted,
)
from drafting.alterations.bodice.upper_bodice import MOST_EASE, UpperBodice, shoulder_seam
from drafting.alterations.bodice.upper_promises import others_kept, sewn_kept, top_kept
from drafting.alterations.one_piece import ONLY, held_to_piece, taking_part
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept, run_surplus
from drafting.alterations.refusing import not_to_be_had
from drafting.alterations.techniques.marks.gather_marks import marks_met
from drafting.alterations.techniques.marks.seam_ease import with_ease
from drafting.alterations.techniques.pivoting.fold_darts import Redrawn, drawn_between, rebuilt
from drafting.alterations.techniques.redrawing.redraw_run import (
    cut_near_joint,
    exact_length,
    move_between,
    with_gaps_closed,
)
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Curve, moved_all, run_reversed
from drafting.pattern import BodyPart, Pattern, Piece, SeamEase, with_pieces

__all__ = ["ForwardShoulder", "ShoulderWidth"]


@alteration_class
class ForwardShoulder(Alteration):
    """Move the shoulder seam forward at its end by `amount` mm, zero at the neck (backward, below zero).

    The wedge between the old seam and the new is cut off the front and put on the back as it is, so the armhole as a
    whole is what it was: shorter in front by just what it gains behind. The sleeve keeps its shape; the place where it
    meets the seam, its crown notch, moves forward by as much. From memory of the trade's practice, without a source.
    """

    name = "forward shoulder"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Move the shoulder seam forward at its end: for shoulders that come forward."
    leaves = "the armhole as a whole, the neck, every other edge; the shape of the sleeve"
    carries = "the back; the sleeve's crown notch and where its cap is divided"

    amount: float = option(
        "length", "how far the seam's end moves forward; below zero for backward", -30.0, 30.0, or_less=True
    )
    side: str = option("choice", WHICH_SHOULDER, choices=SIDES, default=BOTH)
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        giver, taker = _giver_and_taker(self, pattern)
        by = abs(self.amount)
        with not_to_be_had(self.name, self.amount):
            wedge = _wedge_off(giver, by)
            altered = with_pieces(pattern, wedge.piece, _wedge_on(taker, wedge))
            caps = cap_halves_at(pattern, giver, taker)
            if caps is not None:
                altered = with_pieces(altered, split_moved(caps, by))
        return held_to_piece(
            self.name, pattern, marks_met(_with_ease_followed(self, pattern, altered, taker)), self.only
        )

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        giver, taker = _giver_and_taker(self, pattern)
        by = abs(self.amount)
        caps = cap_halves_at(pattern, giver, taker)
        if not self.only:
            yield sewn_kept("the whole armhole", giver.armhole, taker.armhole)
        for top, change in ((giver, -by), (taker, by)):
            name = top.piece.name
            if self.only in ("", name):
                yield sewn_kept(f"the armhole of {name}", top.armhole, change=change)
                yield from others_kept(pattern, [name], top.armhole, top.shoulder)
        if caps is not None and self.only in ("", caps.piece.name):
            yield from lengths_kept(caps.piece, [e.name for e in caps.piece.edges if e.name not in caps.names])


@alteration_class
class ShoulderWidth(Alteration):
    """Make the shoulder broader by `amount` mm (narrower, below zero), front and back alike.

    The trade cuts from the middle of the shoulder to the armhole, where the outer part hinges, spreads or laps it, and
    redraws the shoulder straight: so the armhole keeps its length. Its kink at the hinge is drawn out over the whole
    of it; it is as narrow at its notch as it was, and the underarm stays where it is. Its corner at the shoulder stays
    true, and the neck is turned with the shoulder by the degree or so that this takes. From memory of the trade's
    practice, without a source.
    """

    name = "shoulder width"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Make the shoulder broader or narrower at the armhole."
    leaves = (
        "the length of armhole and neck; how narrow front and back are at the armhole; the underarm; side seam; sleeve"
    )
    carries = "front and back alike"

    amount: float = option("length", "how much broader; below zero for narrower", -30.0, 30.0, or_less=True)
    side: str = option("choice", WHICH_SHOULDER, choices=SIDES, default=BOTH)
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        with not_to_be_had(self.name, self.amount, LOWER_ARMHOLE if self.amount > 0.0 else ""):
            altered = with_pieces(pattern, *shoulders_turned(self._tops(pattern), broader=self.amount))
        return marks_met(altered, only=self.only)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for top in self._tops(pattern):
            yield from top_kept(pattern, top, shoulder=self.amount)

    def _tops(self, pattern: Pattern) -> tuple[UpperBodice, ...]:
        tops = front_and_back(self.name, pattern, self.side, self.amount)
        names = taking_part(self.name, self.only, [top.piece.name for top in tops])
        return tuple(top for top in tops if top.piece.name in names)


def _with_ease_followed(step: ForwardShoulder, before: Pattern, after: Pattern, top: UpperBodice) -> Pattern:
    """The altered pattern, what a shoulder is eased by declared as it comes out: a bent one grows a little more."""
    seam = shoulder_seam(after, top)
    if seam is None or seam.plain:
        return after
    more = run_surplus(after, seam) - run_surplus(before, before.seam(seam.name))
    ease = seam.ease
    if abs(ease.wanted + more) > MOST_EASE >= abs(ease.wanted):
        reason = f"the shoulder would have {abs(ease.wanted + more):.1f} mm to be eased in"
        raise StepRefused(step.name, reason=f"{reason}, and {MOST_EASE:.0f} mm is the most that will go")
    return with_ease(after, seam.name, SeamEase(ease.wanted + more, ease.low + more, ease.high + more))


def _giver_and_taker(step: ForwardShoulder, pattern: Pattern) -> tuple[UpperBodice, UpperBodice]:
    front, back = front_and_back(step.name, pattern, step.side, step.amount)
    return (front, back) if step.amount > 0.0 else (back, front)


@dataclass(frozen=True, slots=True)
class _Wedge:
    """What is cut off one shoulder: the piece without it, the wedge's stretch of armhole from the old end to the new,
    where the old end lay and the step from the neck to it, all on the folded shoulder.
    """

    piece: Piece
    armhole: tuple[Curve, ...]
    top: UpperBodice


def _wedge_off(top: UpperBodice, by: float) -> _Wedge:
    """The piece with the wedge cut off, its shoulder drawn from the neck to the place `by` mm down the armhole."""
    first = top.armhole.parts[0]
    run = top.armhole.open[0]
    if exact_length(run) < by + 20.0:
        raise NotAPattern(top.piece.name, reason=f'its "{first.name}" is only {exact_length(run):.0f} mm long')
    cut, rest = cut_near_joint(run, by)
    bit = moved_all(cut, top.fold)
    shoulder = drawn_between(top.shoulder, top.neck_point, bit[-1].end)
    piece = rebuilt(top.piece, shoulder + Redrawn((top.armhole.drawn(first, rest),)))
    return _Wedge(with_notches_shifted(piece, first.name, top.armhole.backward, -by), bit, top)


def _wedge_on(top: UpperBodice, wedge: _Wedge) -> Piece:
    """The piece with the wedge put on, shoulder to shoulder: the armhole runs on in what the other has given."""
    giver = wedge.top
    lay = move_between(giver.tip, top.tip, giver.arriving.angle_to(top.arriving))
    bit = moved_all(wedge.armhole, lay)
    first = top.armhole.parts[0]
    shoulder = drawn_between(top.shoulder, top.neck_point, bit[-1].end)
    grown = (*run_reversed(moved_all(bit, top.unfold)), *top.armhole.open[0])
    piece = rebuilt(top.piece, shoulder + Redrawn((top.armhole.drawn(first, with_gaps_closed(grown)),)))
    return with_notches_shifted(piece, first.name, top.armhole.backward, exact_length(bit))
