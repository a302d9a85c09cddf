"""What alterations of the shoulder share: both sides alike, turning it about the neck, notches counted anew."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from drafting.alterations.redrawing.darted import drawn_between, rebuilt
from drafting.alterations.redrawing.redraw import carried
from drafting.alterations.redrawing.upper import Top, armhole_led, hinge_of, neck_turned, top_of
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Move, Point, end_tangents
from drafting.pattern import Notch, Pattern, Piece
from drafting.reading.options import Option

__all__ = ["BOTH", "SIDE_OPTION", "downward", "front_and_back", "recounted", "swung"]

BOTH: Final = "both"
_SIDES: Final = (BOTH, "left", "right")
SIDE_OPTION: Final = Option("side", "choice", "which shoulder; both are cut alike", default=BOTH, choices=_SIDES)


def front_and_back(step: str, pattern: Pattern, side: str, *amounts: float) -> tuple[Top, Top]:
    """The two pieces that meet at the shoulder. Raises StepRefused for one side only, and where no amount is one."""
    if side not in _SIDES:
        raise StepRefused(step, f'side = "{side}" is not known; say "both"')
    if side != BOTH:
        raise StepRefused(
            step,
            "left and right are cut from the same pieces, so only both can be altered; for one side write a second "
            f"garment file with this step in it and cut the {side} half from that",
        )
    if not all(math.isfinite(each) for each in amounts) or all(abs(each) < 0.1 for each in amounts):
        raise StepRefused(step, f"{amounts[0]:g} mm changes nothing; say by how much")
    return top_of(step, pattern, "front"), top_of(step, pattern, "back")


def swung(top: Top, *, broader: float = 0.0, grown: float = 0.0) -> Piece:
    """The piece with its shoulder `broader` mm longer, turned about the neck so that the armhole grows by `grown` mm.

    The armhole is redrawn past its hinge.
    """
    sewn, unfold = top.shoulder.sewn_length, top.unfold
    length = sewn + broader
    down = downward(top)

    def tip(slide: float) -> Point:
        return top.neck_point + top.slope.turned(down * slide / length) * (length / sewn)

    def at_tip(slide: float) -> Move:
        return carried(top.armhole.start, unfold.point(tip(slide)), down * slide / length)

    slide, armhole = armhole_led(top, hinge_of(top), at_tip, grown=grown)
    shoulder = drawn_between(top.shoulder, top.neck_point, tip(slide))
    return rebuilt(top.piece, shoulder + armhole + neck_turned(top, down * slide / length))


def downward(top: Top) -> float:
    """The sense in which the shoulder turns about the neck when its end goes down: 1 anticlockwise, else -1."""
    along = top.fold.vec(end_tangents(top.armhole.open[0][0])[0])
    return math.copysign(1.0, top.slope.cross(along))


def recounted(piece: Piece, edge: str, backward: bool, grown: float) -> Piece:
    """The piece with the notches of an edge that are counted from where its walk begins, counted from the new place."""
    near = "end" if backward else "start"

    def counted(notch: Notch) -> Notch:
        if notch.station.edge != edge or notch.station.end != near:
            return notch
        at = notch.station.at + grown
        if at < 0.0:
            raise NotAPattern(piece.name, f'the notch "{notch.name}" lies on what is to be cut off')
        return replace(notch, station=replace(notch.station, at=at))

    return replace(piece, notches=tuple(counted(notch) for notch in piece.notches))
