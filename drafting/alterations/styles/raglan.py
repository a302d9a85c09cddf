"""A raglan sleeve from a set-in one: the shoulder of the bodice is cut off and cut in one with the sleeve.

The trade's way (common practice): the line runs from the neck, 2.5 to 4 cm below the neck point in front and 2 to 3
behind, in a flat S into the lower armhole: bowed up by half a centimetre to one, tangent to the armhole where it comes
to it, so that it turns nowhere; below that place armhole and cap stay as they are. What is cut off is laid to the cap.
How it lies there, and what becomes of the shoulder seam, stands in `raglan_sleeve.py`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_within
from drafting.alterations.refusing import instead
from drafting.alterations.sleeve.set_in_sleeve import SLEEVE, SetIn, find_set_in, with_sleeve_level
from drafting.alterations.styles.bodice_halves import (
    lengths_along_kept,
    meets_as_sewn,
    only_edge,
    seams_that_stay,
    spot_from_shoulder,
)
from drafting.alterations.styles.raglan_sleeve import laid_apart, laid_together, neck_point_of, shoulder_legs
from drafting.alterations.styles.sleeve_head import corner_notched, shoulders_cut_off, with_head
from drafting.alterations.styles.yoke import LeftOver, darts_left
from drafting.alterations.techniques.spreading.cut_across import AcrossLine, Spot
from drafting.alterations.whole_garment.lengthen import Lengthen
from drafting.errors import StepRefused
from drafting.geometry import Curve, Move, Point, Vec, fair, run_at, run_reversed, run_tangent
from drafting.geometry.solve import root_between
from drafting.pattern import Along, BodyPart, Dart, Half, Level, Pattern, Piece, Place, edges_at, line_at, with_pieces

__all__ = ["Raglan"]

_Uppers = Sequence[tuple[Piece, Piece]]
"""What is cut off and what is left, of the front and of the back."""

_TRUED: Final = 0.01
"""mm that a wrist may come out otherwise where the sleeve is lengthened at its head (ours)."""

_LEAST_DART: Final = 12.0
"""mm that a dart over the shoulder is wide at the least; without it the sleeve then lies as well (ours)."""


@alteration_class
class Raglan(Alteration):
    """Cut the shoulder of the bodice in one with its sleeve, which then reaches to the neck."""

    name = "raglan"
    layer = Layer.SEAMS
    redraws = (Place.SHOULDER,)
    needs = ((BodyPart.BODICE,), (BodyPart.SLEEVE,))
    about = "Make a raglan sleeve of a set-in one: the shoulder is cut in one with the sleeve, up to the neck."
    leaves = "the neck; the armhole and the cap below; the side and underarm seams; the width of the sleeve"
    carries = "the two raglan seams in the place of the armhole seams; the shoulder seam becomes a dart of the sleeve"

    front: float = option(
        "length", "how far below the neck point it begins in front", 10.0, 80.0, default=30.0, or_less=True
    )
    back: float = option(
        "length", "how far below the neck point it begins behind", 10.0, 60.0, default=25.0, or_less=True
    )
    dart: float = option("length", "how far down the arm the dart of the shoulder ends", 30.0, 120.0, default=65.0)
    shoulder: str = option(
        "choice",
        "what rounds the sleeve over the shoulder: a dart, or, in a knit, the cloth alone",
        choices=("by cloth", "dart", "cloth"),
        default="by cloth",
    )
    left_over: LeftOver = option(
        "choice", "what becomes of a dart that goes on below", choices=("dart", "gathers", "ease"), default="dart"
    )

    def apply(self, pattern: Pattern) -> Pattern:
        return with_sleeve_level(self.name, pattern, self._cut_in_one)

    def _cut_in_one(self, pattern: Pattern, sleeve: SetIn) -> Pattern:
        pattern, parts, bodies = shoulders_cut_off(self.name, pattern, self._line)
        uppers = [(parts[half], pattern.piece(bodies[half])) for half in (Half.FRONT, Half.BACK)]
        kept = {half: edges_at(pattern.piece(bodies[half]), Place.ARMHOLE)[0].length for half in Half}
        pattern = self._with_dart(pattern, sleeve, uppers, kept) or self._without_dart(pattern, sleeve, uppers, kept)
        for half in Half:
            pattern = corner_notched(pattern, half, Place.RAGLAN)
            pattern = darts_left(pattern, bodies[half], Place.RAGLAN, self.left_over)
        return pattern

    def _with_dart(
        self, pattern: Pattern, sleeve: SetIn, uppers: _Uppers, kept: Mapping[Half, float]
    ) -> Pattern | None:
        """The pattern with a dart over the shoulder of the sleeve; None where the cloth rounds it alone."""
        if self.shoulder == "cloth" or (self.shoulder == "by cloth" and pattern.stretch):
            return None
        front, back = (laid_apart(self.name, pattern, upper, body, sleeve) for upper, body in uppers)
        if neck_point_of(front).x - neck_point_of(back).x < _LEAST_DART:
            if self.shoulder == "dart":
                reason = "front and back shoulder lie too near each other on the sleeve for a dart between them"
                raise StepRefused(self.name, reason=reason, remedies=instead(self.name, "shoulder", "cloth"))
            return None
        legs = shoulder_legs(front, back, sleeve.cap.crown, self.dart)
        dart = Dart("shoulder dart", (legs[0].name, legs[1].name), legs[0].end)
        return with_head(pattern, sleeve, (front, back), kept, Place.RAGLAN, between=legs, dart=dart, in_one=True)

    def _without_dart(self, pattern: Pattern, sleeve: SetIn, uppers: _Uppers, kept: Mapping[Half, float]) -> Pattern:
        """The pattern with the shoulders laid together on the sleeve, which is as much longer as that is shorter."""
        front, back = laid_together(self.name, pattern, uppers, sleeve)
        pattern = with_head(pattern, sleeve, (front, back), kept, Place.RAGLAN, in_one=True)
        crown = sleeve.cap.crown
        short = edges_at(front.piece, Place.SHOULDER)[0].length - (neck_point_of(front).y - crown.y)
        made = _shoulder_lower(pattern.piece(sleeve.piece.name), crown, short)
        above = line_at(made, Level.LENGTHEN_ABOVE_ELBOW) or line_at(made, Level.LENGTHEN)
        pattern = with_pieces(pattern, made)
        return Lengthen(made.name, short, above.name).apply(pattern) if above else pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve = find_set_in(self.name, pattern, SLEEVE).piece
        ends = {(sleeve.name, edge.name) for edge in edges_at(sleeve, Place.WRIST)}
        tapes = tuple(m for m in pattern.measures if m.key != "shoulder_length")
        round_wrist = [m for m in tapes if any(isinstance(p, Along) and (p.piece, p.edge) in ends for p in m.tape)]
        # a sleeve lengthened at its head has the ends of its underarm seam trued, and its wrist follows them
        yield from (finished_within(pattern, measure, _TRUED) for measure in round_wrist)
        rest = tuple(m for m in tapes if m not in round_wrist)
        yield from lengths_along_kept(replace(pattern, seams=seams_that_stay(pattern), measures=rest))
        yield meets_as_sewn("how much the two sides of the raglan seams differ", Place.RAGLAN)

    def _line(self, piece: Piece, half: Half) -> AcrossLine:
        inner = spot_from_shoulder(self.name, piece, Place.NECK, self.front if half is Half.FRONT else self.back)
        return AcrossLine(
            partial(_touching, self.name, piece, inner), inner, raglan_line, Place.RAGLAN, f"{piece.name} shoulder"
        )


def _touching(step: str, piece: Piece, inner: Spot, move: Move) -> Spot:
    """The place of the armhole that a line from the neck runs into, bowed up a little, without a turn."""
    armhole = only_edge(step, piece, Place.ARMHOLE)
    upward = piece.beside(armhole.name)[0].place is Place.SIDE
    laid = armhole.moved(move).curves
    run = laid if upward else run_reversed(laid)
    neck = run_at(piece.edge(inner.edge).curves, inner.at)
    hollow = -1.0 if upward else 1.0

    def past(at: float) -> float:
        """By how much the armhole has turned beyond the way to the neck, less what the line is bowed."""
        return hollow * (neck - run_at(run, at)).angle_to(run_tangent(run, at)) - _BOWED

    low, high = _LOWEST, armhole.length - _LOWEST
    if past(low) >= 0.0:
        at = low
    elif past(high) <= 0.0:
        raise StepRefused(step, reason=f'no line from the neck of "{piece.name}" runs on into its armhole')
    else:
        at = root_between(past, low, high)
    return Spot(armhole.name, at if upward else armhole.length - at)


def _shoulder_lower(sleeve: Piece, crown: Point, by: float) -> Piece:
    """The sleeve with the place so much lower from which its length is measured: where the shoulder ends on it.

    Along the grain, as the sleeve is lengthened; an altered one may lean a little while its underarm is level.
    """
    grain = sleeve.grain.direction if sleeve.grain else Vec(0.0, 1.0)
    down = grain if grain.y < 0.0 else -grain
    points = (replace(mark, at=mark.at + down * by) if mark.at.near(crown) else mark for mark in sleeve.points)
    return replace(sleeve, points=tuple(points))


def raglan_line(outer: Point, armhole: Vec, inner: Point, _neck: Vec) -> tuple[Curve, ...]:
    """A line that runs on out of the armhole, bowed up a little, and straight to the neck."""
    lean = armhole.angle_to(inner - outer)
    return (fair(outer, armhole, inner, (inner - outer).turned(_ARRIVES * lean)),)


_BOWED: Final = math.radians(9.0)
_ARRIVES: Final = 0.4
"""By how much the line leans off its chord at the armhole, and what share of that at the neck: so it is bowed up by
half a centimetre to one (common practice; the angles are ours)."""

_LOWEST: Final = 25.0
"""mm of armhole that have to be left below the line, and above it (ours)."""
