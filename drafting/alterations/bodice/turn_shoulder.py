"""What alterations of the shoulder share: front and back found, the shoulder turned about the neck, notches moved."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.bodice.lines_over_shoulder import Leaning, downward_sign, even_armhole_lean, even_neck_lean
from drafting.alterations.bodice.upper_bodice import (
    Turned,
    UpperBodice,
    armhole_redrawn,
    armhole_through,
    hinge_of,
    neck_turned,
    upper_bodice_of,
)
from drafting.alterations.techniques.pivoting.fold_darts import drawn_between, rebuilt
from drafting.alterations.techniques.redrawing.fair_armhole import Run, Way
from drafting.alterations.techniques.redrawing.redraw_run import move_between
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import STAY, Move, Point
from drafting.pattern import Half, Notch, Pattern, Piece

__all__ = [
    "BOTH",
    "LOWER_ARMHOLE",
    "SIDES",
    "WHICH_SHOULDER",
    "downward_sign",
    "front_and_back",
    "shoulder_turned",
    "shoulders_turned",
    "with_notches_shifted",
]

BOTH: Final = "both"
SIDES: Final = (BOTH, "left", "right")
WHICH_SHOULDER: Final = "which shoulder; both are cut alike"

LOWER_ARMHOLE: Final = 'a lower armhole ("armhole") leaves it more room'
"""What helps where a squarer or broader shoulder leaves its armhole no fair line."""


def front_and_back(step: str, pattern: Pattern, side: str, *amounts: float) -> tuple[UpperBodice, UpperBodice]:
    """The two pieces that meet at the shoulder. Raises StepRefused for one side only, and where no amount is one."""
    if side != BOTH:
        raise StepRefused(
            step,
            reason="left and right are cut from the same pieces, so only both can be altered; for one side write a "
            f"second garment file with this step in it and cut the {side} half from that",
        )
    if all(abs(each) < 0.1 for each in amounts):
        raise StepRefused(step, reason=f"{amounts[0]:g} mm changes nothing; say by how much")
    return upper_bodice_of(step, pattern, Half.FRONT), upper_bodice_of(step, pattern, Half.BACK)


def shoulders_turned(tops: Sequence[UpperBodice], *, broader: float = 0.0, grown: float = 0.0) -> list[Piece]:
    """Front and back, or the one of them that is given, with their shoulders `broader` mm longer (`shoulder_turned`).

    Both together leave the shoulder as evenly as can be.
    """
    if len(tops) < 2:  # what one changes alone over the seam would make a corner there
        return [shoulder_turned(top, broader=broader, grown=grown) for top in tops]
    front, back = tops

    def leaning(top: UpperBodice) -> Leaning:
        # an armhole that is to grow needs its shoulder end about as much higher
        hinge, down, sewn = hinge_of(top), downward_sign(top), top.shoulder.sewn_length
        angle = -down * grown / (sewn + broader)
        tip = top.unfold.point(top.neck_point + top.slope.turned(angle) * (1.0 + broader / sewn))

        def armhole_leaning(lean: float, way: Way) -> Run:
            at_tip = move_between(top.armhole.start, tip, angle + down * lean)
            return armhole_through(hinge, at_tip, hinge.at, STAY, way)

        return armhole_leaning

    lean = even_armhole_lean(front, back, leaning(front), leaning(back))
    eased = even_neck_lean(back, -downward_sign(back) * grown / (back.shoulder.sewn_length + broader))
    return [
        shoulder_turned(front, broader=broader, grown=grown, lean=-lean, eased=-eased),
        shoulder_turned(back, broader=broader, grown=grown, lean=lean, eased=eased),
    ]


def shoulder_turned(
    top: UpperBodice, *, broader: float = 0.0, grown: float = 0.0, lean: float = 0.0, eased: float = 0.0
) -> Piece:
    """The piece with its shoulder `broader` mm longer, turned about the neck so that the armhole grows by `grown` mm.

    lean, eased: by how much further inward armhole and neck leave the shoulder, radians
    The armhole is redrawn past its hinge.
    """
    sewn, unfold = top.shoulder.sewn_length, top.unfold
    length = sewn + broader
    down = downward_sign(top)

    def neck_and_tip(slide: float) -> tuple[Turned, Point]:
        neck = neck_turned(top, down * (slide / length + eased))
        return neck, neck.high + top.slope.turned(down * slide / length) * (length / sewn)

    def at_tip(slide: float) -> Move:
        return move_between(top.armhole.start, unfold.point(neck_and_tip(slide)[1]), down * (slide / length + lean))

    slide, armhole = armhole_redrawn(top, hinge_of(top), at_tip, grown=grown)
    neck, tip = neck_and_tip(slide)
    return neck.placed(rebuilt(top.piece, drawn_between(top.shoulder, neck.high, tip) + armhole + neck.redrawn))


def with_notches_shifted(piece: Piece, edge: str, backward: bool, grown: float) -> Piece:
    """The piece with the notches of an edge that are counted from where its walk begins, counted from the new place."""
    near = "end" if backward else "start"

    def shifted(notch: Notch) -> Notch:
        if notch.station.edge != edge or notch.station.end != near:
            return notch
        at = notch.station.at + grown
        if at < 0.0:
            raise NotAPattern(piece.name, reason=f'the notch "{notch.name}" lies on what is to be cut off')
        return notch.moved_to(at)

    return replace(piece, notches=tuple(shifted(notch) for notch in piece.notches))
