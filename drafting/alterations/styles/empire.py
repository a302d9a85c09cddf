"""An empire seam: the bodice cut across under the bust, the waist darts below the seam closed.

The trade's way (common practice): the seam lies where the bust ends, 7 to 9 cm below the bust point, level or a
centimetre or two higher at the centre front. Below the seam the waist darts are closed, so that the part down to the
waist is smooth. Above it the rest of each dart stays as a dart, or is gathered or eased into the seam. At the seam a
dart takes up 2 q sin(a / 2), with q the distance from the place it is turned about and a its angle (plane geometry).
Where no bust is marked, on a child's bodice, the seam lies 7 to 9 cm below the armhole.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.darts.side_darts import sides_closed
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.refusing import instead
from drafting.alterations.styles.bodice_halves import (
    centre_spot,
    lengths_along_kept,
    lower_half,
    meets_as_sewn,
)
from drafting.alterations.styles.yoke import LeftOver, darts_left, square_line
from drafting.alterations.techniques.spreading.cut_across import AcrossLine, Spot, cut_across
from drafting.errors import StepRefused
from drafting.geometry import Curve, Point, Vec, run_at, run_hits, run_length, run_reversed, split
from drafting.pattern import Edge, Half, Level, Pattern, Piece, Place, edges_at, is_front, line_at

__all__ = ["Empire"]

_BELOW_BUST: Final = 80.0
_BELOW_ARMHOLE: Final = 30.0
"""mm, where nothing is said (common practice: 7 to 9 cm for a bust; ours for a child)."""

_LEAST: Final = 55.0
_LEAST_ABOVE: Final = 20.0
"""mm of height that have to be left at the side, below the seam and above it (ours: less is a strip, without grain)."""


@alteration_class
class Empire(Alteration):
    """Cut the bodice across under the bust, its waist darts closed below that."""

    name = "empire seam"
    new_piece = "midriff"
    layer = Layer.SEAMS
    about = "Cut the bodice across under the bust: below the seam the waist darts are closed, above it they go into it."
    leaves = "neck, shoulder, armhole, sleeve, waist and side seam; every other seam"
    carries = "front and back alike, so that the side seam meets; every seam is told of the new pieces"

    below: float | None = option(
        "length",
        "how far below the bust it lies; left out 8 cm or less, on a child 3 cm below the armhole",
        10.0,
        250.0,
        default=None,
        or_less=True,
    )
    rise: float = option(
        "length", "how much higher it lies at the centre front than at the side", 0.0, 40.0, default=10.0
    )
    left_over: LeftOver = option(
        "choice", "what becomes of a dart above the seam", choices=("dart", "gathers", "ease"), default="dart"
    )

    def apply(self, pattern: Pattern) -> Pattern:
        front = lower_half(self.name, pattern, Half.FRONT)
        if edges_at(front, Place.EMPIRE):
            raise StepRefused(self.name, reason="there is an empire seam already: leave out one of the two")
        if _comes_to_point(front):
            reason = "the waist runs to a point at the centre front, and its dart cannot be closed in a midriff"
            raise StepRefused(self.name, reason=f'{reason}: leave out the "pointed waist", or this step')
        # darts in the side seam stay there above the line: it is found with them closed
        flat = sides_closed(pattern)
        down = self._along_side(lower_half(self.name, flat, Half.FRONT))
        levels = {half: self._centre_level(lower_half(self.name, flat, half), down) for half in Half}
        for half in Half:
            piece = lower_half(self.name, pattern, half)
            pattern = cut_across(pattern, piece.name, self._line(piece, down, levels[half]))
            pattern = darts_left(pattern, piece.name, Place.EMPIRE, self.left_over)
        return pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for half in Half:
            lower_half(self.name, pattern, half)
        yield from lengths_along_kept(pattern)
        yield meets_as_sewn("how much the two sides of the empire seams differ", Place.EMPIRE)

    def _along_side(self, front: Piece) -> float:
        """How far down the side seam it lies, mm from the armhole: front and back alike."""
        run = _run_down(front)
        line = line_at(front, Level.BUST)
        marked = line_at(front, Level.SCYE) or line_at(front, Level.CHEST)
        adult = line is not None and bool(front.darts)
        from_line = line if adult else (marked or line)
        if from_line is None:
            raise StepRefused(self.name, reason=f'"{front.name}" has no bust line and no chest line to measure from')
        top, bottom = run[0].start, run[-1].end
        end = min((from_line.start, from_line.end), key=lambda at: abs(at.x - top.x))
        most = end.y - bottom.y - _LEAST
        usual = _BELOW_BUST if adult else _BELOW_ARMHOLE
        least = float(math.ceil(_LEAST_ABOVE + end.y - top.y))
        # below a sleeve cut in one, and wherever else the armhole is deep, it lies lower by itself
        below = self.below if self.below is not None else max(min(usual, most), least)
        if least > most:
            short = f'between armhole and waist the side seam of "{front.name}" is {least - most:.0f} mm too short'
            raise StepRefused(self.name, reason=f"{short} for a seam under the bust")
        if below > most:
            raise self._too_low(front, most)
        if below < least:
            reason = f"it would come into the armhole: {least:.0f} mm is the least it can lie below"
            raise StepRefused(self.name, reason=reason, remedies=instead(self.name, "below", least, "mm"))
        k, hit = next(iter(run_hits(run, Point(0.0, end.y - below), Vec(1.0, 0.0))), (0, None))
        if hit is None:
            raise self._too_low(front, most)
        return run_length((*run[:k], split(run[k], hit.t)[0]))

    def _too_low(self, front: Piece, most: float) -> StepRefused:
        reason = f'the side seam of "{front.name}" ends there'
        if most < 10.0:
            return StepRefused(self.name, reason=f"{reason}: it is too short for a seam under the bust")
        reason = f"{reason}: {most:.0f} mm is the most it can lie below"
        return StepRefused(self.name, reason=reason, remedies=instead(self.name, "below", float(int(most)), "mm"))

    def _centre_level(self, piece: Piece, down: float) -> float:
        """How high it lies at the centre of a piece whose side seam has no dart."""
        return run_at(_run_down(piece), down).y + (self.rise if is_front(piece) else 0.0)

    def _line(self, piece: Piece, down: float, level: float) -> AcrossLine:
        outer = _spot_down(piece, down)
        return AcrossLine(
            lambda _: outer,
            centre_spot(self.name, piece, level),
            square_line,
            Place.EMPIRE,
            f"{piece.name} {self.new_piece}",
            on=Place.SIDE,
        )


def _side_down(piece: Piece) -> list[tuple[Edge, tuple[Curve, ...]]]:
    """The edges of the side seam from the armhole down, each with its curves that way; what is drawn up left out."""
    edges = [edge for edge in edges_at(piece, Place.SIDE) if not edge.drawn_up]
    if not edges:
        raise StepRefused(Empire.name, reason=f'"{piece.name}" has no {Place.SIDE} to lie across')
    if edges[0].start.y > edges[-1].end.y:
        return [(edge, edge.curves) for edge in edges]
    return [(edge, run_reversed(edge.curves)) for edge in edges[::-1]]


def _run_down(piece: Piece) -> list[Curve]:
    return [curve for _, run in _side_down(piece) for curve in run]


def _spot_down(piece: Piece, down: float) -> Spot:
    """The place so far down the side seam, the darts in it closed, mm from the armhole."""
    *upper, (edge, run) = _side_down(piece)
    for above, above_run in upper:
        if down < above.length:
            edge, run = above, above_run
            break
        down -= above.length
    return Spot(edge.name, down if run[0] is edge.curves[0] else edge.length - down)


def _comes_to_point(front: Piece) -> bool:
    """Whether the waist comes to a point that is meant, as that of a pointed waist."""
    return any(front.edge(name).place is Place.WAIST for pair in front.points_meant for name in pair)
