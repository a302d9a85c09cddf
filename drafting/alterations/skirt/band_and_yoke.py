"""A shaped band or a hip yoke: the upper part of a skirt or of trousers, cut off with its darts closed into it.

The trade's way (common practice): trace the upper part with the darts closed, as deep as the band is to be; so the
waist is as long as it was. The grain runs along the centres. Where a waist of 69 cm goes out to
76.13 at 4 cm, the band is a part of a ring with radii 42.71 and 38.71 cm (plane geometry).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.earlier_steps import refused_after, stand_in_the_way
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, seams_kept, whole_pieces_kept
from drafting.alterations.skirt.cut_top import Cutting, top_cut_off
from drafting.alterations.skirt.quarters_to_change import accept_unpleated
from drafting.alterations.skirt.skirt_top import Top, darts_ending_on, top_of
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import distance, polyline, run_length
from drafting.pattern import (
    Between,
    BodyPart,
    Cut,
    Half,
    Level,
    Pattern,
    Piece,
    PieceKind,
    Place,
    edge_at,
    edges_at,
    line_at,
)
from drafting.pattern.unfinished import has_inner_layer

__all__ = ["ShapedBand", "SkirtYoke"]

_LOWER: Final = (BodyPart.SKIRT, BodyPart.TROUSERS)
_ABOVE_HIP: Final = 15.0  # mm that the line lies above the hip line at the least (ours)
_LEAST_OVER_HIP: Final = 1.0  # mm, where the waist runs to a point and the line with it (ours)


def _waists(step: str, pattern: Pattern) -> Iterator[tuple[BodyPart, Half]]:
    """Which waists there are. Raises StepRefused where there is none."""
    found = [(part, half) for part in _LOWER for half in Half if top_of(pattern, half, part) is not None]
    if not found:
        raise StepRefused(step, reason="there is neither a skirt nor trousers with a waist to cut it from")
    yield from found


def _cut_off(step: str, pattern: Pattern, cutting: Cutting) -> Pattern:
    """The pattern with a band or a yoke cut off the top of each half; StepRefused where one cannot be drawn."""
    for part, half in _waists(step, pattern):
        name = f"{half} {cutting.word}"
        try:
            top = top_of(pattern, half, part)
            assert top is not None
            accept_unpleated(step, (pattern.piece(each) for each in top.pieces))
            _accept_depth(step, pattern, top, cutting)
            pattern = darts_ending_on(name, pattern, top, cutting.depth)
            top = top_of(pattern, half, part)
            assert top is not None
            before, pattern = pattern, top_cut_off(pattern, top, cutting)
            for each in top.pieces:
                _accept_above_hip(step, before.piece(each), pattern.piece(each), cutting)
        except NotAPattern as error:
            raise StepRefused(
                step, reason=f'the "{name}" cannot be drawn: {error.reason}', too_much=("depth",)
            ) from error
    return pattern


def _accept_depth(step: str, pattern: Pattern, top: Top, cutting: Cutting) -> None:
    for name in top.pieces:
        piece = pattern.piece(name)
        line = line_at(piece, Level.HIP)
        if line is not None:
            ends = [at for edge in edges_at(piece, Place.WAIST) for at in (edge.start, edge.end)]
            down = min(distance(at, end) for at in ends for end in (line.start, line.end))
            if cutting.depth > down - _ABOVE_HIP:
                reason = f"the hip line lies {down:.0f} mm below the waist, and the {cutting.word} ends above it"
                raise StepRefused(step, reason=reason, too_much=("depth",))
        if piece.edges and edge_at(piece, Place.STAND):
            raise refused_after(step, stand_in_the_way(piece), "")


def _accept_above_hip(step: str, before: Piece, left: Piece, cutting: Cutting) -> None:
    """Refuse a line that comes to the hip line: it runs as the waist does, lower at the centre below a pointed one."""
    hip = line_at(before, Level.HIP)
    if hip is None:
        return
    along = (hip.end - hip.start).unit()
    up = along.left() if along.left().y > 0.0 else along.right()
    curves = [curve for edge in edges_at(left, Place.YOKE) for curve in edge.curves]
    over = min(((at - hip.start).dot(up) for at in polyline(curves, 0.1)), default=_ABOVE_HIP)
    if over < _LEAST_OVER_HIP:
        below = (
            f'would come {-over:.0f} mm below the hip line of "{before.name}"' if over < 0.0 else "would meet the hip"
        )
        reason = f"the lower edge of the {cutting.word} {below}, as the waist comes down there"
        raise StepRefused(step, reason=f"{reason}; it ends above that", too_much=("depth",))


def _promises(step: str, pattern: Pattern) -> Iterator[Promise]:
    altered: list[str] = []
    for part, half in _waists(step, pattern):
        top = top_of(pattern, half, part)
        assert top is not None
        altered += top.pieces
        yield Promise(f"the {half} of the waist of the {part}", partial(_waist_length, part, half))
    yield from seams_kept(pattern)
    yield from finished_kept(
        pattern, lambda each: not any(isinstance(part, Between) and part.piece in altered for part in each.tape)
    )
    yield from whole_pieces_kept(pattern, altered)


def _waist_length(part: BodyPart, half: Half, pattern: Pattern) -> float:
    top = top_of(pattern, half, part)
    return sum(run_length(each.edge.curves) for each in top.run) if top else 0.0


def _pair_of(cut: Cut) -> Cut:
    """A band is cut twice, for outside and inside, the outer one interfaced."""
    return replace(cut, count=2 * cut.count, interfacing=cut.count)


@alteration_class
class ShapedBand(Alteration):
    """Cut the upper part off as a shaped waistband, its darts closed into it."""

    name = "shaped band"
    new_piece = PieceKind.BAND
    layer = Layer.STYLE
    needs = ((BodyPart.SKIRT, BodyPart.TROUSERS),)
    about = "Cut a shaped waistband off the top of a skirt or of trousers, its darts closed into it."
    leaves = "the waist and every other seam; the finished widths and lengths; every other piece"
    carries = (
        "the seam to a bodice, the sides and the opening, which now run over band and skirt; two layers, interfaced"
    )

    depth: float = option("length", "how deep the band is", 10.0, 90.0, default=40.0, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        for part, half in _waists(self.name, pattern):
            top = top_of(pattern, half, part)
            if top and any(has_inner_layer(pattern.piece(each)) for each in top.pieces):
                reason = f"the {half} of the {part} has a shaped band already: leave one of the two out"
                raise StepRefused(self.name, reason=reason)
        return _cut_off(self.name, pattern, Cutting(self.new_piece, self.depth, _pair_of))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        yield from _promises(self.name, pattern)


@alteration_class
class SkirtYoke(Alteration):
    """Cut the upper part off as a hip yoke, its darts closed into it."""

    name = "skirt yoke"
    new_piece = PieceKind.YOKE
    layer = Layer.STYLE
    needs = ((BodyPart.SKIRT, BodyPart.TROUSERS),)
    about = "Cut a hip yoke off the top of a skirt or of trousers, its darts closed into it."
    leaves = "the waist and every other seam; the finished widths and lengths; every other piece"
    carries = "the seam to a bodice, the sides and the opening, which now run over yoke and skirt"

    depth: float = option("length", "how deep the yoke is", 20.0, 260.0, default=90.0, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        return _cut_off(self.name, pattern, Cutting(self.new_piece, self.depth, _as_it_was))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        yield from _promises(self.name, pattern)


def _as_it_was(cut: Cut) -> Cut:
    return cut
