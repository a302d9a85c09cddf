"""Cutting another neckline: lower, wider, round or to a V."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.bodice.lines_over_shoulder import downward_sign, even_neck_lean
from drafting.alterations.bodice.upper_bodice import (
    UpperBodice,
    centre_edge,
    centre_lengthened,
    comes_to_point,
    upper_bodice_of,
    with_points_at,
)
from drafting.alterations.bodice.upper_promises import others_kept, sewn_kept
from drafting.alterations.one_piece import ONLY, taking_part
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import length_changes
from drafting.alterations.refusing import instead, refusing
from drafting.alterations.techniques.marks.gather_marks import marks_met
from drafting.alterations.techniques.marks.grain_line import with_grain_inside
from drafting.alterations.techniques.pivoting.fold_darts import Redrawn, drawn_between, folds, rebuilt, unfolded
from drafting.alterations.techniques.redrawing.fair_neck import LEAST_BEND, accept_neck, neck_drawn
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Curve, Line, Point, Vec, distance, end_tangents, fair, run_hits, split
from drafting.pattern import BodyPart, Edge, Half, Level, Pattern, Piece, is_front, lines_at, with_pieces

__all__ = ["Neckline"]

_V_STRAIGHT: Final = 0.15
"""How much further than its chord a V leaves its point turned in, as a share of what it turns at the shoulder."""

_V_STEEPER: Final = math.radians(12.0)
"""How much nearer to square than a round neck a V meets the shoulder at the most: there it has the least to bend."""

_LEAST_SHOULDER: Final = 25.0
"""mm of shoulder that must be left beside a neckline: less will not hold a garment up (our figure)."""

_LEAST_BESIDE_DART: Final = 8.0
"""mm of shoulder that must be left between the neck and a dart: less cannot be sewn (our figure)."""

_ABOVE_BUST: Final = 15.0
"""mm that a neckline stays above the bust line (our figure)."""


@alteration_class
class Neckline(Alteration):
    """Lower the neckline by `depth` mm in front and `back` mm behind, widen it by `width` at each shoulder.

    Front and back give up as much of the shoulder, so they still meet; both necklines are drawn at the angle to the
    shoulder that they had, so they run on over it without a corner. Round, or to a V: from the point straight up, and
    into the old direction at the shoulder in one curve. What the neck measures then is shown in the report. Marked
    points at the neck go with it. Common practice, from memory; that the marks of the block show where it lies is from
    a patternmaking site's page on low necklines.
    """

    name = "neckline"
    layer = Layer.STYLE
    needs = ((BodyPart.BODICE,),)
    about = "Lower or widen the neckline, round or to a V."
    leaves = "armhole, side and waist; every dart's angle; what front and back lose of the shoulder is equal"
    carries = "the back, by as much at the shoulder"

    depth: float = option("length", "how much lower in front, at the centre", -20.0, 300.0, default=0.0, or_less=True)
    width: float = option("length", "how much wider at each shoulder", -15.0, 100.0, default=0.0, or_less=True)
    back: float = option("length", "how much lower behind, at the centre", -20.0, 300.0, default=0.0, or_less=True)
    shape: str = option("choice", "the shape in front", choices=("round", "V"), default="round")
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        cuts = _necks_to_cut(self, pattern)
        for top, _, lower, _ in cuts:
            _accept_width(self, top)
            _accept_depth(self, top, lower)
        eased = _neck_lean(self, cuts)
        pieces = (_with_neck_cut(self, top, half, lower, shape, eased) for top, half, lower, shape in cuts)
        return marks_met(with_pieces(pattern, *pieces), only=self.only)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for top, _, lower, _ in _necks_to_cut(self, pattern):
            name, centre = top.piece.name, centre_edge(self.name, top.neck).name
            yield sewn_kept(f"the shoulder of {name} as it is sewn", top.shoulder, change=-self.width)
            yield length_changes(top.piece, centre, -lower)
            yield from others_kept(pattern, [name], top.neck, top.shoulder, aside=[centre])


def _necks_to_cut(step: Neckline, pattern: Pattern) -> list[tuple[UpperBodice, Half, float, str]]:
    """Each neckline that is cut: its piece, which half it is, how much lower at the centre, mm, and the shape."""
    if step.shape == "round" and max(map(abs, (step.depth, step.width, step.back))) < 0.1:
        raise StepRefused(step.name, reason='nothing is to change; give a depth, a width, or shape = "V"')
    halves: list[tuple[Half, float, str]] = []
    if step.depth or step.width or step.shape == "V":
        halves.append((Half.FRONT, step.depth, step.shape))
    if step.back or step.width or step.shape == "V":
        halves.append((Half.BACK, step.back, "round"))
    cuts = [(upper_bodice_of(step.name, pattern, half), half, lower, shape) for half, lower, shape in halves]
    names = taking_part(step.name, step.only, [top.piece.name for top, *_ in cuts])
    return [cut for cut in cuts if cut[0].piece.name in names]


def _neck_lean(step: Neckline, cuts: Sequence[tuple[UpperBodice, Half, float, str]]) -> float:
    """How much further inward the back neck leaves the shoulder, and the front one outward, radians (`even_neck_lean`).

    Zero where only one of them is cut: the other would no longer run on into it.
    """
    if len(cuts) < len(Half):
        return 0.0
    top, _, lower, _ = next(cut for cut in cuts if cut[1] is Half.BACK)
    with refusing(step.name, _not_drawn):
        _, low = centre_lengthened(top.piece, centre_edge(step.name, top.neck), -lower)
        high, _ = _shortened_shoulder(step, top)
    eased = even_neck_lean(top, across=high - low)
    if step.shape != "V" or eased > 0.0 or any(top.neck.darts):
        # a dart in the back neck: how upright the neck can stand is not known there, so it stays as it was
        return eased
    # straighter up to the shoulder in front, and so more upright there behind, as far as the back neck bears it
    return even_neck_lean(top, -downward_sign(top) * _V_STEEPER, across=high - low) - _V_STEEPER


def _with_neck_cut(step: Neckline, top: UpperBodice, half: Half, lower: float, shape: str, eased: float) -> Piece:
    """The piece with its neckline cut again; eased: see `_neck_lean`."""
    with refusing(step.name, _not_drawn):
        centre, low = centre_lengthened(top.piece, centre_edge(step.name, top.neck), -lower)
        high, shoulder = _shortened_shoulder(step, top)
        inward = downward_sign(top) * (eased if half is Half.BACK else -eased)
        run = _neck_run(step, top, low, folds(top.neck)[-1].point(high), shape, inward)
        if half is Half.BACK:
            _accept_rise(step, top, run)
        accept_neck(top.piece.name, run, pointed=shape == "V")
        neck = unfolded(top.neck, _shared_out(top, run))
        piece = rebuilt(top.piece, shoulder + neck + Redrawn((centre,)))
    piece = _with_points_lowered(with_points_at(piece, [(top.neck.start, low), (top.neck.end, high)]), low, lower)
    return _with_point(with_grain_inside(piece), top, centre, meant=shape == "V")


def _with_points_lowered(piece: Piece, low: Point, lower: float) -> Piece:
    """The piece with it kept on the point at the centre of its neck that this lies so much lower now, mm."""
    points = [replace(mark, lowered=mark.lowered + lower) if mark.at == low else mark for mark in piece.points]
    return replace(piece, points=tuple(points))


def _not_drawn(error: NotAPattern) -> str:
    return f"no such neckline can be drawn: {error}"


def _shortened_shoulder(step: Neckline, top: UpperBodice) -> tuple[Point, Redrawn]:
    """Where the shoulder begins when it is shorter by the width, exactly as it is sewn, and the shoulder so drawn."""
    if step.width == 0.0:
        return top.neck_point, Redrawn()
    high = top.tip - top.slope * (1.0 - step.width / top.shoulder.sewn_length)
    return high, drawn_between(top.shoulder, high, top.tip, held="end")


def _accept_width(step: Neckline, top: UpperBodice) -> None:
    """Raise StepRefused where too little of the shoulder would be left."""
    room = top.shoulder.sewn_length - _LEAST_SHOULDER
    if any(top.shoulder.darts):
        to_dart = exact_length(top.shoulder.parts[0].curves)
        room = min(room, to_dart - _LEAST_BESIDE_DART)
    if step.width > room:
        beside = " before it comes to the dart there, which can go to another edge" if any(top.shoulder.darts) else ""
        reason = f'the shoulder of "{top.piece.name}" cannot give {step.width:.0f} mm{beside}'
        raise StepRefused(step.name, reason=reason, too_much=("width",))


def _accept_depth(step: Neckline, top: UpperBodice, lower: float) -> None:
    """Raise StepRefused for a neckline that would come down to the bust line, where the garment is measured."""
    for line in lines_at(top.piece, Level.BUST):
        room = distance(top.neck.start, line.start) - _ABOVE_BUST
        if not line.onward and lower > room:
            reason = f'"{top.piece.name}" would be cut down to its bust line'
            raise StepRefused(step.name, reason=reason, too_much=(_lowered_by(top),))


def _neck_run(
    step: Neckline, top: UpperBodice, low: Point, high: Point, shape: str, turned: float
) -> tuple[Curve, ...]:
    """The neckline from the centre to the shoulder, any dart in it folded, turned there by so many radians."""
    old = [curve for part in top.neck.folded for curve in part]
    square, into = end_tangents(old[0])[0], end_tangents(old[-1])[1].turned(turned)
    if shape == "V":
        return _v_line(low, high, into)
    if comes_to_point(top):
        # a V made round again: square to the centre line, which runs up to the neck
        centre = centre_edge(step.name, top.neck)
        up = end_tangents(centre.edge.curves[0])[0]
        square = up.right() if up.right().dot(high - low) > 0.0 else up.left()
    return neck_drawn(low, square, high, into)


def _lowered_by(top: UpperBodice) -> str:
    """The option by which the neck of a piece is lowered."""
    return "depth" if is_front(top.piece) else "back"


def _accept_rise(step: Neckline, top: UpperBodice, run: tuple[Curve, ...]) -> None:
    """Raise StepRefused where so wide a back neck rises too little to turn into the shoulder, with what mends it.

    An arc that turns by an angle rises by its radius times 1 - cos of it.
    """
    u, v = end_tangents(run[0])[0], end_tangents(run[-1])[1]
    rise = u.cross(run[-1].end - run[0].start) * math.copysign(1.0, u.cross(v))
    lower = LEAST_BEND * (1.0 - u.dot(v)) - rise
    if lower > 0.0:
        back = float(math.ceil(step.back + lower))
        raise StepRefused(
            step.name,
            reason=f'"{top.piece.name}" rises {rise:.0f} mm from its centre to the shoulder, too little for a neck '
            "to turn in",
            # raised less, the most is found by trying: an arc only bounds it
            remedies=[] if back < 0.0 else instead(step.name, "back", back, "mm"),
            too_much=("back",) if step.back < 0.0 else ("width",),
        )


def _v_line(low: Point, high: Point, into: Vec) -> tuple[Curve, ...]:
    """From the point of the V nearly straight up, then into the direction it has at the shoulder."""
    chord = (high - low).unit()
    turn = chord.angle_to(into)
    if abs(turn) < math.radians(0.5):
        return (Line(low, high),)
    leaving = chord.turned(-_V_STRAIGHT * turn)
    return (fair(low, leaving, high, into, steady=True),)


def _shared_out(top: UpperBodice, run: tuple[Curve, ...]) -> list[tuple[Curve, ...]]:
    """The folded neckline cut where the darts in it open, along the lines of their folded legs."""
    parts: list[tuple[Curve, ...]] = []
    old, moves = top.neck.folded, folds(top.neck)
    for i, dart in enumerate(top.neck.darts):
        mouth = old[i][-1].end
        apex = mouth if dart is None else moves[i].point(dart.apex)
        away = Vec(0.0, 1.0) if dart is None else mouth - apex
        hits = run_hits(run, apex, away)
        if not hits:
            raise NotAPattern(top.piece.name, reason="a dart in the neck would not open into it")
        k, hit = hits[-1]
        before, after = split(run[k], hit.t)
        parts.append((*run[:k], before))
        run = (after, *run[k + 1 :])
    return [*parts, run]


def _with_point(piece: Piece, top: UpperBodice, centre: Edge, *, meant: bool) -> Piece:
    pair = (top.neck.parts[0].name, centre.name)
    others = tuple(each for each in piece.points_meant if set(each) != set(pair))
    return replace(piece, points_meant=(*others, pair) if meant else others)
