"""The line of the leg led in or out at the knee: for knees that meet (in) or legs that bow (out).

Hip, crotch and hem stay where they are, and the knee keeps its width; between these, both seams of the leg are one
curve. The seams of front and back then differ very little, which is made up at the hem of the back (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, lengths_kept_at, run_surplus, seams_kept
from drafting.alterations.refusing import accept_change
from drafting.alterations.trousers.halves import CROTCH_LINES, end_moved, halves_of, levels_redrawn, outward, seam_at
from drafting.errors import StepRefused
from drafting.geometry import Curve, Vec, fair, fair_through, tangent
from drafting.geometry.solve import solve
from drafting.pattern import (
    CENTRES,
    Across,
    BodyPart,
    Edge,
    Level,
    Measure,
    Pattern,
    Piece,
    Place,
    WalkedEdge,
    edges_at,
    line_at,
    require_line,
    with_edges,
    with_pieces,
)

__all__ = ["LegLine"]

_MOST: Final = 40.0
ON_KNEE: Final = 0.5  # mm: how near to the line of the knee the joint of a seam lies there (ours)
UPRIGHT: Final = 1e-3


@alteration_class
class LegLine(Alteration):
    """Lead the leg out at the knee, where the legs bow, or in below zero, where the knees meet."""

    name = "leg line"
    layer = Layer.FIT
    needs = ((BodyPart.TROUSERS,),)
    about = "Lead the leg out at the knee for bowed legs, or in (below zero) where the knees meet."
    leaves = "waist, hip and crotch; how wide the leg is at knee and hem; how well every seam meets"
    carries = "both seams of the leg on front and back"

    by: float = option("length", "how far out at the knee; in below zero", -_MOST, _MOST, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        accept_change(self.name, 'by how much: by = "-1 cm"', self.by)
        halves = halves_of(self.name, pattern)
        if short := next((piece for piece in halves if line_at(piece, Level.KNEE) is None), None):
            raise StepRefused(self.name, reason=f'"{short.name}" has no knee line: the leg ends above it')
        led = with_pieces(pattern, *(_knee_moved(piece, self.by) for piece in halves))
        for place in (Place.SIDE, Place.INSEAM):
            led = _met(led, pattern, halves.back, place)
        return with_pieces(led, *(levels_redrawn(led.piece(piece.name), _BELOW) for piece in halves))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        yield from lengths_kept_at(halves_of(self.name, pattern), Place.WAIST, Place.CROTCH, *CENTRES)
        yield from seams_kept(pattern)
        yield from finished_kept(pattern, partial(_is_kept, pattern))


_BELOW: Final = (*CROTCH_LINES, Level.KNEE, Level.LENGTHEN)


def _is_kept(pattern: Pattern, measure: Measure) -> bool:
    """Whether a measurement stays: a girth, the width at the knee, the length of the crotch."""
    levels = {pattern.piece(part.piece).line(part.line).level for part in measure.tape if isinstance(part, Across)}
    return measure.round or Level.KNEE in levels or measure.key == "crotch_length"


def _knee_moved(piece: Piece, by: float) -> Piece:
    """A half with both seams of its leg led out at the knee, and the line of the knee with them."""
    step = outward(piece) * -by
    knee = require_line(piece, Level.KNEE)
    seams = edges_at(piece, Place.SIDE, Place.INSEAM)
    through = (each for each in seams if any(abs(c.start.y - knee.start.y) < ON_KNEE for c in each.curves[1:]))
    lines = (line.straight(line.start + step, line.end + step) if line is knee else line for line in piece.lines)
    return replace(with_edges(piece, *(_bent(each, knee.start.y, step) for each in through)), lines=tuple(lines))


def _bent(edge: Edge, knee: float, step: Vec) -> Edge:
    """A seam of the leg with its knee moved by a step, its ends and its directions there as they were."""
    walked = WalkedEdge(edge, edge.start.y <= edge.end.y)
    down = walked.run
    k = next(k for k, curve in enumerate(down) if abs(curve.start.y - knee) < ON_KNEE)
    upper, lower = down[:k], down[k:]
    first = next(
        i
        for i, curve in enumerate(upper)
        if tangent(curve, 0.0).y < 0.0 and curve.start.y <= _hip(upper, i) and not _plumb_above(upper, i)
    )
    kept, led = upper[:first], upper[first:]
    at = lower[0].start + step
    before, after = (at - led[-1].start).unit(), (lower[-1].end - at).unit()
    through = (before + after).unit()
    run: list[Curve] = [*kept]
    if len(led) > 1:  # the inside leg, past the thigh
        top = led[0].start
        share = (top.y - led[0].end.y) / (top.y - knee)
        run += fair_through(top, tangent(led[0], 0.0), led[0].end + step * share**2, at, through)
    else:
        run.append(fair(led[0].start, tangent(led[0], 0.0), at, through))
    run.append(fair(at, through, lower[-1].end, after))
    return walked.redrawn(run)


def _plumb_above(upper: tuple[Curve, ...], at: int) -> bool:
    """Whether a curve hangs plumb above another, as the side does where the waist is as wide as the hip."""
    return at + 1 < len(upper) and abs(upper[at].start.x - upper[at].end.x) < ON_KNEE


def _hip(upper: tuple[Curve, ...], at: int) -> float:
    """The height from which a run goes down the leg: that of its widest place, where it is upright.

    An inside leg is upright nowhere: its top.
    """
    upright = [(k, curve.start.y) for k, curve in enumerate(upper) if abs(tangent(curve, 0.0).x) < UPRIGHT]
    if not upright:
        return upper[0].start.y
    return max((y for k, y in upright if k <= at), default=-math.inf)


def _met(led: Pattern, before: Pattern, back: Piece, place: Place) -> Pattern:
    """The pattern with the seam of that place on the back longer or shorter at the hem, until it meets as it did."""
    seam = seam_at(before, back, place)
    assert seam is not None
    wanted = run_surplus(before, seam)

    def ended(lower: float) -> Pattern:
        piece = led.piece(back.name)
        hem = edges_at(piece, Place.HEM)[0]
        edge = next(e for e in edges_at(piece, place) if {e.start, e.end} & {hem.start, hem.end})
        at_end = edge.end in (hem.start, hem.end)
        step = Vec(0.0, -lower)
        corner = edge.end if at_end else edge.start
        moved = (end_moved(edge, at_end=at_end, step=step), end_moved(hem, at_end=hem.end == corner, step=step))
        return with_pieces(led, with_edges(piece, *moved))

    return ended(solve(lambda lower: run_surplus(ended(lower), seam) - wanted, 0.0, 0.2))
