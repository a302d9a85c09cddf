"""A yoke: front or back cut across above, the darts above the seam closed into it.

The trade's way (common practice): the seam lies 8 to 12 cm below the neck point, level or a centimetre lower at the
centre back, and ends square at the armhole. The shoulder dart is closed in the yoke; where the seam lies at or below
the point of the dart, the dart is gone. Else the rest of it goes on below the yoke, or is gathered or eased into the
seam. A yoke that ends below the widest part of the back pulls when the arms reach forward.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from typing import Final, Literal

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.darts.dart_to_gathers import DartIntoGathers
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.styles.bodice_halves import (
    bodice_half,
    centre_spot,
    lengths_along_kept,
    meets_as_sewn,
    neck_point,
    spot_at_level,
)
from drafting.alterations.techniques.spreading.cut_across import AcrossLine, cut_across
from drafting.errors import StepRefused
from drafting.geometry import Curve, Line, Point, Vec, fair
from drafting.pattern import BodyPart, Half, Pattern, Piece, PieceKind, Place, darts_at, with_pieces

__all__ = ["Yoke", "square_line", "straight_line", "with_yoke"]

Seamline = Callable[[Point, Vec, Point, Vec], tuple[Curve, ...]]
"""A line from one place to another, with the direction of the edge it leaves and of that it comes to."""

LeftOver = Literal["dart", "gathers", "ease"]

_HALVES: Final = {"front": (Half.FRONT,), "back": (Half.BACK,), "both": (Half.BACK, Half.FRONT)}


@alteration_class
class Yoke(Alteration):
    """Cut the front, the back, or both across into a yoke and what hangs from it."""

    name = "yoke"
    new_piece = PieceKind.YOKE
    layer = Layer.SEAMS
    needs = ((BodyPart.BODICE,),)
    about = "Cut a yoke: front or back, or both, across above, the darts there closed into it."
    leaves = "neck, shoulder, armhole and centre; every other seam"
    carries = "every seam of the piece is told of the two pieces; a new seam joins them"

    on: str = option("choice", "which half of the body", choices=tuple(_HALVES), default="back")
    depth: float = option(
        "length", "how far below the neck point the seam lies", 30.0, 250.0, default=100.0, or_less=True
    )
    dip: float = option("length", "how much lower it lies at the centre than at the armhole", -30.0, 60.0, default=0.0)
    left_over: LeftOver = option(
        "choice", "what becomes of a dart that goes on below", choices=("dart", "gathers", "ease"), default="dart"
    )
    twice: bool = option("flag", "whether it is cut twice, the second as its inside, as on a shirt", default=False)

    def apply(self, pattern: Pattern) -> Pattern:
        for half in _HALVES[self.on]:
            piece = bodice_half(self.name, pattern, half)
            there = {each.name for each in pattern.pieces}
            pattern = with_yoke(self.name, pattern, piece, self.depth, self.dip)
            if self.twice:
                (yoke,) = (each for each in pattern.pieces if each.name not in there)
                pattern = with_pieces(pattern, replace(yoke, cut=replace(yoke.cut, count=2 * yoke.cut.count)))
            pattern = darts_left(pattern, piece.name, Place.YOKE, self.left_over)
        return pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for half in _HALVES[self.on]:
            bodice_half(self.name, pattern, half)
        yield from lengths_along_kept(pattern)
        yield meets_as_sewn("how much the two sides of the yoke seams differ", Place.YOKE)


def with_yoke(
    step: str, pattern: Pattern, piece: Piece, depth: float, dip: float, line: Seamline | None = None
) -> Pattern:
    """The pattern with this half of the bodice cut into a yoke and a lower piece, which keeps its name.

    line: how the seam runs between the armhole and the centre; square to both where nothing is said
    """
    level = neck_point(step, piece).y - depth
    across = AcrossLine(
        partial(spot_at_level, step, piece, Place.ARMHOLE, level),
        centre_spot(step, piece, level - dip, too_much=("depth",)),
        line or square_line,
        Place.YOKE,
        f"{piece.name} {Yoke.new_piece}",
    )
    cut = cut_across(pattern, piece.name, across)
    if any(each.grain is None for each in cut.pieces):
        said = f'the yoke of "{piece.name}" would be too narrow to be cut out; choose another depth'
        raise StepRefused(step, reason=said, too_much=("depth",))
    return cut


def square_line(outer: Point, armhole: Vec, inner: Point, centre: Vec) -> tuple[Curve, ...]:
    """A line that leaves the armhole square and comes to the centre square, in one sweep."""
    return (fair(outer, _toward(armhole, inner - outer), inner, _toward(centre, inner - outer)),)


def straight_line(outer: Point, _armhole: Vec, inner: Point, _centre: Vec) -> tuple[Curve, ...]:
    """A straight line."""
    return (Line(outer, inner),)


def _toward(along: Vec, goal: Vec) -> Vec:
    """The direction square to a line that points the way of another."""
    square = along.unit().left()
    return square if square.dot(goal) > 0.0 else -square


def darts_left(pattern: Pattern, piece: str, place: Place, how: LeftOver) -> Pattern:
    """The pattern with what a cut left of darts in its seam gathered or eased into it, or left as darts."""
    for dart in darts_at(pattern.piece(piece), place):
        if how == "ease":
            pattern = DartIntoGathers(piece, dart.name, "ease").apply(pattern)
        elif how == "gathers":
            pattern = DartIntoGathers(piece, dart.name, "gathers").apply(pattern)
    return pattern
