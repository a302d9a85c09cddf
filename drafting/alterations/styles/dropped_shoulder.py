"""A dropped shoulder: the shoulder runs on over the arm, the armhole lies lower, the cap of the sleeve is flatter.

The trade's way (common practice, worked out in the plane): the shoulder is drawn longer along its own line, and the
underarm is lowered by half of that amount, so that the armhole keeps nearly its length. The cap becomes lower by the
whole amount, and is drawn without ease to the new armhole, which makes the sleeve wider. The sleeve becomes shorter by
the whole amount too. Where the ease that goes takes more width than
the arm can spare, the cap is flatter still.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import chain
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.bodice.armhole_moved import Hole, hole_of, with_underarm
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finer_length, length_changes, surplus_becomes
from drafting.alterations.refusing import refusing
from drafting.alterations.sleeve.recut_cap import with_cap
from drafting.alterations.sleeve.set_in_sleeve import SLEEVE, SetIn, cap_height, find_set_in, set_in
from drafting.alterations.styles.bodice_halves import only_edge, sewn_half
from drafting.alterations.techniques.marks.seam_ease import with_ease
from drafting.alterations.techniques.redrawing.fair_armhole import (
    MOST_WAVER,
    Ends,
    accept_bend,
    drawn_past,
    ends_of,
    held_at,
    turned_against,
)
from drafting.alterations.techniques.redrawing.redraw_run import cut_near_joint
from drafting.alterations.whole_garment.lengthen import AS_TAPERED, AS_WIDE, LENGTHEN_LINE, Lengthen
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Curve, Line, Point, Vec, distance, end_tangents, fair, run_hits, run_length
from drafting.geometry.bending import tightest_radius
from drafting.geometry.cap import Cap, cap_of_height, cap_of_width
from drafting.pattern import (
    PLAIN,
    Across,
    BodyPart,
    Edge,
    Half,
    Level,
    MarkLine,
    Notch,
    Pattern,
    Piece,
    Place,
    line_at,
    with_edges,
    with_pieces,
)

__all__ = ["DroppedShoulder"]

_LEAST_CAP: Final = 20.0
"""mm of cap that has to be left (our figure)."""

_TRIED: Final = (0.1, 0.25, 0.4, 0.55, 0.7, 0.85, 1.0)
"""Shares of the drop by which the armhole is let out at its notch: the one that bends most gently is taken (ours)."""

_ONE_WAY: Final = math.radians(1.0)
"""By how much an armhole that turns one way only may turn back: no eye sees it (ours)."""

_CUT_IN: Final = 1.0
"""mm that the armhole may come further in than it was held, at the level of that (ours)."""

_ROUNDED: Final = 0.5
"""mm wider than needed, so that it is enough where the underarm seams are trued to the hem (ours)."""

_ON_EDGE: Final = 1e-3
"""mm. A marked line that ends this near the armhole ends on it."""


@alteration_class
class DroppedShoulder(Alteration):
    """Let the shoulder run on over the arm by `by` mm; armhole and sleeve follow."""

    name = "dropped shoulder"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,), (BodyPart.SLEEVE,))
    about = (
        "Drop the shoulder over the arm: it is longer, the armhole lower, the sleeve wider, flatter above and shorter."
    )
    leaves = "the neck; the bodice below the armhole; how far the sleeve reaches"
    carries = "front and back alike; the cap of the sleeve, which becomes wider, and its length"

    by: float = option("length", "how far the shoulder runs on over the arm", 5.0, 100.0, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve = find_set_in(self.name, pattern, SLEEVE)
        _accept(self, sleeve)
        with refusing(self.name):
            halves = [_dropped(_half(self.name, pattern, half), self.by) for half in Half]
            pattern = with_pieces(pattern, *halves)
            pattern = _flatter(pattern, sleeve, self.by)
        # so that the elbow stays where it is on the arm
        above_elbow = line_at(sleeve.piece, Level.LENGTHEN_ABOVE_ELBOW)
        line = above_elbow.name if above_elbow else LENGTHEN_LINE
        # a short sleeve has no room above its hem to be taken in to the old width
        hem = AS_WIDE if line_at(sleeve.piece, Level.ELBOW) else AS_TAPERED
        return Lengthen(sleeve.piece.name, -self.by, line=line, hem=hem).apply(pattern)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve = find_set_in(self.name, pattern, SLEEVE)
        _accept(self, sleeve)
        for half in Half:
            piece = _half(self.name, pattern, half)
            yield length_changes(piece, _shoulder_end(piece).name, self.by)
            yield length_changes(piece, hole_of(piece).side.name, -0.5 * self.by)
        name = sleeve.piece.name
        high = cap_height(name, pattern) - self.by
        yield Promise(f"how much the cap of the {name} is too high", partial(_too_high, name, high), -self.by)
        for seam in (sleeve.front, sleeve.back):
            yield surplus_becomes(pattern, seam, 0.0)


def _too_high(sleeve: str, most: float, pattern: Pattern) -> float:
    """By how much a cap is higher than it is to be at the most, mm."""
    return max(0.0, cap_height(sleeve, pattern) - most)


def _accept(step: DroppedShoulder, sleeve: SetIn) -> None:
    most = sleeve.cap.height - _LEAST_CAP
    if step.by > most:
        reason = f"the cap of the {sleeve.piece.name} is {sleeve.cap.height:.1f} mm high"
        raise StepRefused(
            step.name, reason=f"{reason}, and {_LEAST_CAP:.0f} mm of it have to be left", too_much=("by",)
        )


def _half(step: str, pattern: Pattern, half: Half) -> Piece:
    """The front or the back, its shoulder sewn and its armhole in one. Raises StepRefused where it has not both."""
    piece = sewn_half(step, pattern, half)
    only_edge(step, piece, Place.ARMHOLE)
    return piece


def _shoulder_end(piece: Piece) -> Edge:
    """The part of the shoulder that ends at the armhole."""
    armhole = hole_of(piece).armhole.name
    return next(edge for edge in piece.beside(armhole) if edge.place is Place.SHOULDER)


def _dropped(piece: Piece, by: float) -> Piece:
    """The piece with its shoulder drawn on, and its armhole from there to a lower underarm."""
    shoulder, was = _shoulder_end(piece), hole_of(piece)
    outward = shoulder.end.near(was.whole[-1].end)
    first, last = shoulder.curves[0], shoulder.curves[-1]
    along = (end_tangents(last)[1] if outward else -end_tangents(first)[0]).unit()
    tip = was.whole[-1].end + along * by
    drawn_on = (*shoulder.curves[:-1], Line(last.start, tip)), (Line(tip, first.end), *shoulder.curves[1:])
    ends = ends_of(was.whole)
    share = run_length(was.below) / run_length(was.whole)

    def lower(under: Point) -> tuple[Curve, ...]:
        run = _one_bend(replace(ends, start=under))
        return tuple(chain(*cut_near_joint(run, share * run_length(run))))

    low = with_underarm(was, 0.5 * by, lower)
    hole = hole_of(low)
    run = _fairest(replace(ends, start=hole.whole[0].start, end=tip), was.below[-1], along * by)
    accept_bend(was.armhole.edge, run)
    return _redrawn(low, hole, run, replace(shoulder, curves=drawn_on[0] if outward else drawn_on[1]))


def _fairest(ends: Ends, held: Curve, moved: Vec) -> tuple[Curve, ...]:
    """The armhole between these ends, let out where it was held, or in one bend past that: the fairest of them.

    held: the curve that ran to where it was held; moved: by how much its shoulder end has moved
    """
    runs: list[tuple[Curve, ...]] = [_one_bend(ends)]
    for share in _TRIED:
        with suppress(NotAPattern):
            runs.append(drawn_past(ends, held_at(held.end + moved * share, held)))

    def fairness(run: tuple[Curve, ...]) -> tuple[bool, bool, bool, float]:
        """What the best has most of: it wavers no more than it may, cuts into no chest or back, has one bend, and that
        is gentle.
        """
        hits = (hit.point.x for _, hit in run_hits(run, held.end, Vec(1.0, 0.0)))
        inward = max(((held.end.x - x) * math.copysign(1.0, moved.x) for x in hits), default=0.0)
        back = turned_against(run)
        return back <= MOST_WAVER, inward < _CUT_IN, back < _ONE_WAY, tightest_radius(run)

    return max(runs, key=fairness)


def _one_bend(ends: Ends) -> tuple[Curve, ...]:
    return (fair(ends.start, ends.leaving, ends.end, ends.arriving, steady=True),)


def _redrawn(piece: Piece, hole: Hole, run: Sequence[Curve], shoulder: Edge) -> Piece:
    """The piece with this armhole and shoulder, its notches at the same share of it."""
    armhole = hole.armhole
    altered = with_edges(piece, armhole.redrawn(run), shoulder)
    old, whole = run_length(hole.whole), run_length(run)

    def placed(notch: Notch) -> Notch:
        if notch.station.edge != armhole.name:
            return notch
        return armhole.notch_at(notch, armhole.along(notch.station) * whole / old, whole)

    lines = (_to_armhole(line, hole.whole, run) for line in piece.lines)
    return replace(altered, notches=tuple(map(placed, piece.notches)), lines=tuple(lines))


def _to_armhole(line: MarkLine, was: Sequence[Curve], now: Sequence[Curve]) -> MarkLine:
    """A level that ended on the armhole as it was, to where it meets the new one."""
    way, under = (line.end - line.start).unit(), was[0].start
    ends = [line.start, line.end]
    for k, end in enumerate(ends):
        on_it = any(hit.point.near(end, _ON_EDGE) for _, hit in run_hits(was, end, way))
        if on_it and not end.near(under, _ON_EDGE):
            hits = (hit.point for _, hit in run_hits(now, end, way))
            ends[k] = min(hits, key=partial(distance, end), default=end)
    return line.straight(*ends) if ends != [line.start, line.end] else line


def _flatter(pattern: Pattern, sleeve: SetIn, by: float) -> Pattern:
    """The pattern with the cap drawn lower, to the new armhole and without ease, over a sleeve that leaves room."""
    front, back = (finer_length(pattern, seam.b) for seam in (sleeve.front, sleeve.back))
    least = _least_width(pattern, sleeve)

    def redraw(cap: Cap, turned: float) -> Cap:
        lower = cap_of_height(cap, back=back, front=front, height=sleeve.cap.height - by, turned=turned)
        if lower.width < least:
            with suppress(NotAPattern):  # no cap so flat: the check of ease says by how much it is too narrow
                return cap_of_width(cap, back=back, front=front, width=least, turned=turned)
        return lower

    for seam in (sleeve.front, sleeve.back):
        pattern = with_ease(pattern, seam.name, PLAIN)
    return set_in(pattern, with_cap(sleeve.piece, redraw))


def _least_width(pattern: Pattern, sleeve: SetIn) -> float:
    """How wide the sleeve is at the upper arm at the least, mm: as wide as the arm needs to move, or as it was."""
    wide = distance(sleeve.cap.origin, sleeve.cap.front[0].start)
    line = line_at(sleeve.piece, Level.BICEPS)
    own = (sleeve.piece.name, line.name if line else "")
    asked = 0.0
    for measure in pattern.measures:
        round_arm = any(isinstance(each, Across) and (each.piece, each.line) == own for each in measure.tape)
        if round_arm and measure.body is not None and measure.least is not None:
            asked = max(asked, measure.body + measure.least + _ROUNDED)
    return min(wide, asked)
