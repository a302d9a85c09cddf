"""A saddle (strap) shoulder: a strip off the front and the back along the shoulder, cut in one with the sleeve.

The trade's way (common practice): strips 2.5 to 4 cm wide along neck and armhole, straight, are cut off front and
back, the darts of the shoulder closed in them, joined along the shoulder and added to the crown of the sleeve. The
armholes become shorter by the ends of the strips, and the cap by the same length at the crown. So the ease of the cap
stays, but for a millimetre or two by which an arc is longer than its chord.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.sleeve.set_in_sleeve import SLEEVE, SetIn, find_set_in, with_sleeve_level
from drafting.alterations.styles.bodice_halves import (
    lengths_along_kept,
    meets_as_sewn,
    only_edge,
    seams_that_stay,
    spot_from_shoulder,
)
from drafting.alterations.styles.sleeve_head import LaidOn, shoulders_cut_off, with_corners_meant, with_head
from drafting.alterations.styles.yoke import LeftOver, darts_left, straight_line
from drafting.alterations.techniques.spreading.cut_across import AcrossLine
from drafting.geometry import Point, cut_run, distance, run_at, run_length, run_reversed, shift, turn
from drafting.geometry.solve import solve
from drafting.pattern import BodyPart, Half, Pattern, Piece, Place

__all__ = ["Saddle"]


@alteration_class
class Saddle(Alteration):
    """Cut a strip of the shoulder in one with the sleeve, which then reaches to the neck over the shoulder."""

    name = "saddle shoulder"
    layer = Layer.SEAMS
    redraws = (Place.SHOULDER,)
    needs = ((BodyPart.BODICE,), (BodyPart.SLEEVE,))
    about = "Make a saddle shoulder: a strip along the shoulder is cut in one with the sleeve, up to the neck."
    leaves = "the neck; what is left of armhole and cap; the side and underarm seams; the width of the sleeve"
    carries = "the ends of the armhole seams; two saddle seams come in the place of the shoulder seam"

    front: float = option(
        "length", "how wide the strip is in front of the shoulder", 10.0, 60.0, default=30.0, or_less=True
    )
    back: float = option("length", "how wide it is behind it", 10.0, 60.0, default=30.0, or_less=True)
    left_over: LeftOver = option(
        "choice", "what becomes of a dart that goes on below", choices=("dart", "gathers", "ease"), default="dart"
    )

    def apply(self, pattern: Pattern) -> Pattern:
        return with_sleeve_level(self.name, pattern, self._cut_in_one)

    def _cut_in_one(self, pattern: Pattern, sleeve: SetIn) -> Pattern:
        pattern, strips, bodies = shoulders_cut_off(self.name, pattern, self._line)
        front, back = _strips_on_crown(self.name, pattern, strips[Half.FRONT], strips[Half.BACK], sleeve)
        kept = {part.half: run_length(part.below) for part in (front, back)}
        pattern = with_head(pattern, sleeve, (front, back), kept, Place.SADDLE, in_one=False)
        pattern = with_corners_meant(pattern, Place.SADDLE)
        for name in bodies.values():
            pattern = darts_left(pattern, name, Place.SADDLE, self.left_over)
        return pattern

    def _line(self, piece: Piece, half: Half) -> AcrossLine:
        """The straight line beside the shoulder, as far from it along the armhole as along the neck."""
        wide = self.front if half is Half.FRONT else self.back
        outer, inner = (spot_from_shoulder(self.name, piece, place, wide) for place in (Place.ARMHOLE, Place.NECK))
        return AcrossLine(lambda _: outer, inner, straight_line, Place.SADDLE, f"{piece.name} strip")

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        find_set_in(self.name, pattern, SLEEVE)
        tapes = tuple(measure for measure in pattern.measures if measure.key != "shoulder_length")
        yield from lengths_along_kept(replace(pattern, seams=seams_that_stay(pattern), measures=tapes))
        yield meets_as_sewn("how much the two sides of the saddle seams differ", Place.SADDLE)


def _strips_on_crown(step: str, pattern: Pattern, front: Piece, back: Piece, sleeve: SetIn) -> tuple[LaidOn, LaidOn]:
    """The two strips, joined along the shoulder, on the crown of the sleeve."""
    one, other = (only_edge(step, strip, Place.SHOULDER) for strip in (front, back))
    # the front strip laid against the back one: neck point to neck point, shoulder along shoulder
    joined = turn(one.start, (one.end - one.start).angle_to(other.start - other.end)).then(shift(other.end - one.start))
    lines = [only_edge(step, strip, Place.SADDLE) for strip in (front, back)]
    corner, far = joined.point(lines[0].start), lines[1].end
    wide = distance(corner, far)
    lost = [only_edge(step, strip, Place.ARMHOLE).length for strip in (front, back)]
    caps = [run_reversed(cap) for cap in (sleeve.cap.front, sleeve.cap.back)]

    def ends(more: float) -> tuple[Point, Point]:
        places = [run_at(cap, gone + more) for cap, gone in zip(caps, lost, strict=True)]
        return places[0], places[1]

    more = solve(lambda by: distance(*ends(by)) - wide, 1.0, 0.5)
    goal, far_goal = ends(more)
    placed = turn(far, (corner - far).angle_to(goal - far_goal)).then(shift(far_goal - far))
    moves = (joined.then(placed), placed)
    laid = []
    for k, (strip, half) in enumerate(((front, Half.FRONT), (back, Half.BACK))):
        line = lines[k]
        (seam,) = (each for each in pattern.seams if (each.b[0].piece, each.b[0].edge) == (strip.name, line.name))
        names = {only_edge(step, strip, Place.NECK).name: f"neck, {half}", line.name: f"{Place.SADDLE}, {half}"}
        below = run_reversed(cut_run(caps[k], lost[k] + more)[1])
        laid.append(LaidOn(strip, half, moves[k], seam, names, line.moved(moves[k]).curves, below))
    return laid[0], laid[1]
