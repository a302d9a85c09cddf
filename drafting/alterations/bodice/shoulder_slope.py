"""Fitting the shoulder's slope: sloping and square shoulders, and shoulder pads."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, step_of
from drafting.alterations.bodice.crown_at_shoulder import cap_halves_at, crown_raised
from drafting.alterations.bodice.lines_over_shoulder import even_armhole_lean, even_neck_lean
from drafting.alterations.bodice.turn_shoulder import (
    BOTH,
    LOWER_ARMHOLE,
    SIDES,
    WHICH_SHOULDER,
    downward_sign,
    front_and_back,
    shoulders_turned,
    with_notches_shifted,
)
from drafting.alterations.bodice.upper_bodice import Hinge, Turned, UpperBodice, armhole_through, hinge_of, neck_turned
from drafting.alterations.bodice.upper_promises import top_kept
from drafting.alterations.earlier_steps import put_before
from drafting.alterations.one_piece import ONLY, held_to_piece
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept
from drafting.alterations.refusing import not_to_be_had
from drafting.alterations.techniques.marks.gather_marks import marks_met
from drafting.alterations.techniques.pivoting.fold_darts import Redrawn, Stretch, drawn_between, rebuilt, stretch_of
from drafting.alterations.techniques.redrawing.fair_armhole import Run, Way, accept_bend, fairest, fairest_of
from drafting.alterations.techniques.redrawing.redraw_run import (
    cut_near_joint,
    exact_length,
    level_along,
    move_between,
    shortened_at_start,
    with_length_kept,
)
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Curve, Move, Point, Vec, distance, run_hits, shift, turn
from drafting.geometry.solve import solve
from drafting.pattern import (
    BodyPart,
    Level,
    MarkLine,
    NotchRef,
    Pattern,
    Piece,
    Place,
    edges_at,
    with_pieces,
    without_notches,
)

__all__ = ["ShoulderSlope"]

_ON_SEAM: Final = 1e-3
"""mm. A marked line that ends this near the underarm ends at it."""

_BESIDE_END: Final = 10.0
"""mm from the underarm within which a notch of the side seam cannot be told from the corner (our figure)."""

_MOST_INWARD: Final = 5.0
"""mm by which the chest may become narrower or wider for the armhole to keep its length (our figure)."""

_PAD_SHARE: Final = 0.7
"""How much of its thickness a shoulder pad takes up of the armhole (a note on shoulder slope and pads: 0.7 cm for a pad
of 1 cm)."""


@alteration_class
class ShoulderSlope(Alteration):
    """Lower the end of the shoulder by `amount` mm for sloping shoulders (raise it, below zero, for square ones).

    Front and back shoulder are turned about the neck; the armhole goes down with its shoulder end and keeps its length,
    so that the same sleeve goes in; the side seams are shorter by what it comes down. Common practice, from memory.
    For a shoulder pad its end is raised again: the armhole grows by 0.7 of the pad, half of it in front and half
    behind, and the sleeve's crown is raised to meet it with the ease it had.
    """

    name = "shoulder slope"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Make the shoulder slope more, or less, or raise it for a shoulder pad."
    leaves = "the length of armhole, neck and shoulder; the sleeve, unless there is a pad"
    carries = (
        "front and back alike: the underarm goes with the shoulder, and the side seams become shorter or longer by as "
        "much; for a pad, the sleeve's crown"
    )

    amount: float = option(
        "length", "how far its end is lowered; below zero to raise it", -25.0, 25.0, default=0.0, or_less=True
    )
    pad: float = option("length", "how thick a shoulder pad it is to take", 0.0, 25.0, default=0.0, or_less=True)
    side: str = option("choice", WHICH_SHOULDER, choices=SIDES, default=BOTH)
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        return held_to_piece(self.name, pattern, marks_met(self._together(pattern)), self.only)

    def _together(self, pattern: Pattern) -> Pattern:
        tops = front_and_back(self.name, pattern, self.side, self.amount, self.pad)
        mend = LOWER_ARMHOLE if self.amount < 0.0 else ""
        with not_to_be_had(self.name, self.amount, f"take a thinner pad, or {mend}" if mend and self.pad else mend):
            if self.amount:
                pattern = _without_lost_notches(pattern, *_both_sloped(self, tops, self._follows(pattern, tops)))
            return self._padded(pattern) if self.pad else pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        tops = front_and_back(self.name, pattern, self.side, self.amount, self.pad)
        gain = 0.5 * _PAD_SHARE * self.pad
        for top in tops:
            if self.only in ("", top.piece.name):
                side = [edge.name for edge in edges_at(top.piece, Place.SIDE)]
                yield from top_kept(pattern, top, armhole=gain, aside=side)
        caps = cap_halves_at(pattern, *tops)
        if caps is not None and self.only in ("", caps.piece.name):
            kept = (edge.name for edge in caps.piece.edges if not self.pad or edge.name not in caps.names)
            yield from lengths_kept(caps.piece, kept)

    def alters(self, name: str, tops: Sequence[UpperBodice]) -> bool:
        """Whether it redraws this piece of the two: held to the other one, it asks nothing of this one."""
        return self.only in ("", name) or self.only not in (top.piece.name for top in tops)

    def _follows(self, pattern: Pattern, tops: Sequence[UpperBodice]) -> bool:
        """Whether the same step was taken before, held to the other piece."""
        others = [top.piece.name for top in tops if not self.alters(top.piece.name, tops)]
        return any(step_of(replace(self, only=name)) in pattern.history for name in others)

    def _padded(self, pattern: Pattern) -> Pattern:
        tops = front_and_back(self.name, pattern, self.side, self.amount, self.pad)
        gain = 0.5 * _PAD_SHARE * self.pad
        own = [top for top in tops if self.alters(top.piece.name, tops)]
        pattern = with_pieces(pattern, *shoulders_turned(own, grown=gain))
        caps = cap_halves_at(pattern, *tops)
        return pattern if caps is None else with_pieces(pattern, crown_raised(caps, gain))


def _both_sloped(step: ShoulderSlope, tops: tuple[UpperBodice, UpperBodice], followed: bool) -> list[Piece]:
    """Front and back with shoulder ends and underarms lowered together; the armholes keep their lengths.

    followed: whether the piece it is held to follows the other one, which has had this step already: then its underarm
              comes down by as much as makes the side seams meet
    """
    front, back = tops
    both = all(step.alters(top.piece.name, tops) for top in tops)
    # what one does alone over the seam would make a corner there
    eased = even_neck_lean(back, _shoulder_turn(step, back)) if both else 0.0
    drawn = [_with_shoulder_lowered(step, front, -eased), _with_shoulder_lowered(step, back, eased)]
    if both:
        drawn = _evenly(drawn, step.amount)
    own = [each for each in drawn if step.alters(each.top.piece.name, tops)]
    given = own[0].down_to(next(each for each in drawn if each is not own[0]), step.amount) if followed else None
    pair = drawn if given is None else own
    before = [each.top.armhole.sewn_length for each in pair]

    downs: dict[tuple[Run, ...], float] = {}  # how far down the underarms come, by what is drawn for it

    def armholes(way: Way) -> tuple[Run, ...]:
        down = given
        if down is None:
            down = solve(
                lambda down: sum(exact_length(each.armhole(down, way)) for each in drawn) - sum(before),
                step.amount,
                0.02 * step.amount,
            )
        runs = tuple(each.of_length(down, length) for each, length in zip(pair, before, strict=True))
        downs[runs] = down
        return runs

    runs = fairest_of(armholes)
    drawn_by = zip(pair, runs, strict=True)
    return [each.piece(downs[runs], run) for each, run in drawn_by if step.alters(each.top.piece.name, tops)]


def _shoulder_turn(step: ShoulderSlope, top: UpperBodice) -> float:
    """How far the folded shoulder is turned about the neck to lower its end, radians anticlockwise."""
    reach = top.shoulder.sewn_length
    if abs(step.amount) > 0.4 * reach:
        raise StepRefused(step.name, reason=f"the shoulder is only {reach:.0f} mm long", too_much=("amount",))
    return downward_sign(top) * math.asin(step.amount / reach)


def _with_shoulder_lowered(step: ShoulderSlope, top: UpperBodice, eased: float) -> _Sloped:
    """A piece whose shoulder end is lowered; eased: how much further inward its neck leaves it, radians."""
    turned = _shoulder_turn(step, top)
    neck = neck_turned(top, turned + downward_sign(top) * eased)
    tip = move_between(top.armhole.start, top.unfold.point(neck.high + top.slope.turned(turned)), turned)
    side = _side(step, top)
    return _Sloped(top, hinge_of(top), side, neck, tip, level_along(side.open[0], top.piece, Level.BUST))


def _evenly(drawn: list[_Sloped], down: float) -> list[_Sloped]:
    """Front and back leaving the shoulder as evenly as can be, their underarms so far down."""
    front, back = drawn
    lean = even_armhole_lean(
        front.top,
        back.top,
        lambda lean, way: front.leaning(lean).armhole(down, way),
        lambda lean, way: back.leaning(lean).armhole(down, way),
    )
    return [front.leaning(-lean), back.leaning(lean)]


def _side(step: ShoulderSlope, top: UpperBodice) -> Stretch:
    if any(top.armhole.darts):
        reason = f'"{top.piece.name}" has a dart in its armhole'
        raise StepRefused(step.name, reason=reason, remedies=(put_before("move a dart"),))
    return stretch_of(step.name, top.piece, Place.SIDE, start=(Place.ARMHOLE,))


@dataclass(frozen=True, slots=True)
class _Sloped:
    """One piece whose armhole goes down with its shoulder end: its side seam, its neck, the move of the shoulder end.

    kept: how far down the side seam the bust line meets it, mm; None where it does not
    """

    top: UpperBodice
    hinge: Hinge
    side: Stretch
    neck: Turned
    tip: Move
    kept: float | None

    def leaning(self, lean: float) -> _Sloped:
        """The same, its armhole leaving the shoulder so much further inward, radians."""
        start = self.top.armhole.start
        return replace(self, tip=turn(start, downward_sign(self.top) * lean).then(self.tip))

    def armhole(self, down: float, way: Way, aside: float = 0.0) -> tuple[Curve, ...]:
        """The armhole when the underarm lies `down` mm further along the side seam, its notch so far aside, mm."""
        was, now = self.side.start, self.seam(down)[0].start
        at = self.notch(now) + Vec(aside, 0.0)
        return armhole_through(self.hinge, self.tip, at, shift(now - was), way)

    def of_length(self, down: float, length: float) -> tuple[Curve, ...]:
        """The fairest armhole of that length, mm, when the underarm lies there.

        What is still too long or too short is made good in front by letting the notch a little in or out, behind, where
        the width of the back is measured, by the handles of the curves.
        """

        def with_right_length(way: Way) -> tuple[Curve, ...]:
            run = self.armhole(down, way)
            if self.hinge.held.along is not None:
                try:
                    inward = solve(lambda off: exact_length(self.armhole(down, way, off)) - length, 0.0, 0.5)
                except NotAPattern:
                    inward = math.inf
                if abs(inward) <= _MOST_INWARD:
                    run = self.armhole(down, way, inward)
            return with_length_kept(run, length)

        return fairest(with_right_length, self.hinge.held)

    def seam(self, down: float) -> tuple[Curve, ...]:
        """The side seam with the underarm so far down, mm; the part below the bust line stays."""
        return shortened_at_start(self.side.open[0], down, self.kept)

    def notch(self, under: Point) -> Point:
        """Where the armhole's notch lies when the underarm lies there: as much lower, and no nearer the centre."""
        by = under - self.side.start
        for line in self.top.piece.lines:
            if line.end.near(self.side.start, _ON_SEAM) or line.start.near(self.side.start, _ON_SEAM):
                along = (line.end - line.start).unit()
                return self.hinge.at + (by - along * by.dot(along))
        return self.hinge.at + by

    def down_to(self, other: _Sloped, about: float) -> float:
        """How far the underarm comes down when this side seam is sewn to that of the other piece, mm."""
        longer = other.side.sewn_length - self.side.sewn_length
        whole = exact_length(self.side.open[0])
        return solve(lambda down: exact_length(self.seam(down)) - whole - longer, about, 0.02 * about)

    def piece(self, down: float, run: Run) -> Piece:
        """The whole piece, its armhole drawn so."""
        top, side = self.top, self.side
        seam = self.seam(down)
        tip = top.fold.point(self.tip.point(top.armhole.start))
        shoulder = drawn_between(top.shoulder, self.neck.high, tip)
        accept_bend(top.armhole.parts[0], run)
        armhole = top.armhole.drawn(top.armhole.parts[0], run)
        redrawn = shoulder + self.neck.redrawn + Redrawn((armhole, side.drawn(side.parts[0], seam)))
        piece = self.neck.placed(rebuilt(top.piece, redrawn))
        piece = with_notches_shifted(piece, side.parts[0].name, side.backward, -down)
        return replace(piece, lines=tuple(self.level(line, seam[0].start, down) for line in piece.lines))

    def level(self, line: MarkLine, under: Point, down: float) -> MarkLine:
        """A marked level redrawn that ended at the underarm, at the armhole's notch or on the side that is cut off.

        The bust line stays where it is as long as it meets the side seam.
        """
        side, notch = self.side.start, self.hinge.at
        near, far = sorted((line.start, line.end), key=lambda end: min(distance(end, side), distance(end, notch)))
        cut = cut_near_joint(self.side.open[0], down)[0] if down > 0.0 else ()
        at_bust = line.level is Level.BUST and not line.onward
        if not near.near(side, _ON_SEAM) and _ends_on(self.top.armhole.open[0], near, far):
            new = near + (self.notch(under) - notch)
        elif run_hits(cut, far, near - far) or (near.near(side, _ON_SEAM) and not at_bust):
            new = under
        else:
            return line
        along, by = (line.end - line.start).unit(), new - near
        moved = far + (by - along * by.dot(along))
        return line.straight(moved, new) if near is line.end else line.straight(new, moved)


def _ends_on(run: Sequence[Curve], end: Point, start: Point) -> bool:
    """Whether a line from a place ends on a run."""
    ends = (curve.start for curve in run)
    hits = (hit.point for _, hit in run_hits(run, start, end - start))
    return any(place.near(end, _ON_SEAM) for place in (*ends, *hits))


def _without_lost_notches(pattern: Pattern, *altered: Piece) -> Pattern:
    """The pattern with these pieces; a notch that lay where the side seam is cut off goes, and its partner with it.

    Both side seams are cut alike, so what marked a level near the old underarm marks nothing any more.
    """
    lost = {mark for piece in altered for mark in _past_underarm(piece)}
    lost |= {mark for seam in pattern.seams for pair in seam.notches if lost & set(pair) for mark in pair}
    return without_notches(with_pieces(pattern, *altered), lost)


def _past_underarm(piece: Piece) -> Iterator[NotchRef]:
    """The notches of a side seam, counted from the waist, that lie at its new upper end or past it."""
    for notch in piece.notches:
        edge = piece.edge(notch.station.edge)
        if edge.place is Place.SIDE and notch.station.at > edge.length - _BESIDE_END:
            yield NotchRef(piece.name, notch.name)
