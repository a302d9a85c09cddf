"""Taking the gape out of a neckline, into a dart."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import partial
from itertools import takewhile
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, find_dart
from drafting.alterations.bodice.upper_bodice import UpperBodice, comes_to_point, upper_bodice_of, with_points_at
from drafting.alterations.bodice.upper_promises import sewn_kept
from drafting.alterations.earlier_steps import put_before
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept
from drafting.alterations.refusing import refusing
from drafting.alterations.techniques.marks.levels_over_darts import Swing, with_levels_bent
from drafting.alterations.techniques.pivoting.pivot import (
    TurnedPart,
    Turning,
    angle_about,
    drawn_dart,
    is_centre,
    turned_part,
    turning_of,
    with_part_turned,
)
from drafting.alterations.techniques.redrawing.fair_neck import accept_neck, neck_drawn
from drafting.alterations.techniques.redrawing.redraw_run import ends_moved, exact_length
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import Curve, Move, Point, distance, end_tangents, run_at, turn
from drafting.geometry.solve import solve
from drafting.pattern import BodyPart, Dart, Edge, Half, Pattern, Piece, Role, closed, dart_mouth, with_pieces

__all__ = ["NeckGape"]

_MOST_TURN: Final = math.radians(15.0)
"""The largest wedge that is folded out of a neckline: more is another cut, not a gape (our figure)."""


@alteration_class
class NeckGape(Alteration):
    """Take `amount` mm of gape out of each half of a neckline: it is folded away towards a dart, which takes it up.

    A gape is a dart: a wedge is folded from the neck to the point the dart is drawn towards (the bust point), and the
    part between neck and dart turns by its angle, which opens the dart by as much; outer lengths else unchanged (a
    patternmaking site's page on contouring low necklines). The neckline is then drawn smooth again. It is each half
    that comes out exactly that much shorter, drawn smooth, and the angle follows from that: so the edge that gaped
    lies flat, however slantwise the wedge crosses it.
    """

    name = "neck gape"
    layer = Layer.STYLE
    needs = ((BodyPart.BODICE,),)
    about = "Take a gape out of the neckline, into a dart."
    leaves = "every edge but the neck and the legs of the dart"
    carries = "nothing: the dart takes it up"

    amount: float = option("length", "how much shorter each half of the neckline becomes", 1.0, 60.0, or_less=True)
    half: str = option("choice", "in front or behind", choices=("front", "back"), default="front")
    to: str = option("text", "the dart that takes it up; the bust dart, or the shoulder dart behind", default="")

    def apply(self, pattern: Pattern) -> Pattern:
        plan = _gape_plan(self, pattern)
        with refusing(self.name, lambda error: f"{self.amount:.0f} mm cannot go into that dart: {error}"):
            piece = _with_gape_folded(plan)
        altered = with_pieces(pattern, piece)
        near, far = plan.mouth
        return with_levels_bent(
            altered, plan.top.piece, Swing(plan.turning.pivot, near, far, plan.part.holds, plan.part.move)
        )

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        plan = _gape_plan(self, pattern)
        piece = plan.top.piece
        yield sewn_kept(f"the neck of {piece.name}", plan.top.neck, change=-self.amount)
        angle = partial(_dart_angle, piece.name, plan.dart.name, plan.turning.pivot)
        yield Promise(f'the angle of "{plan.dart.name}" where it is turned about, radians', angle, plan.angle)
        kept = [e.name for e in piece.edges if e.role is not Role.DART_LEG and e.name not in plan.top.neck.names]
        yield from lengths_kept(piece, kept)


@dataclass(frozen=True, slots=True)
class _Plan:
    """How the gape is taken out: the piece, the dart that takes it up, and the part that is turned.

    part:  what lies between the neck and the dart, and its turn towards the centre line
    neck:  the neckline as it is then drawn, from the centre to the shoulder
    angle: by how much the dart opens, radians
    """

    top: UpperBodice
    dart: Dart
    turning: Turning
    part: TurnedPart
    neck: tuple[Curve, ...]
    angle: float

    @property
    def mouth(self) -> tuple[Point, Point]:
        """The ends of the dart's mouth before the turn, that on the part that stays first."""
        before, after = dart_mouth(self.top.piece, self.dart)
        return (before, after) if self.top.neck.backward else (after, before)


def _gape_plan(step: NeckGape, pattern: Pattern) -> _Plan:
    """The piece with its neck, the dart that takes up the gape, and the angle by which that dart opens, radians."""
    top = upper_bodice_of(step.name, pattern, Half(step.half))
    if any(top.neck.darts):
        reason = f'"{top.piece.name}" has a dart in its neck, and that takes a gape up'
        raise StepRefused(step.name, reason=reason, remedies=[put_before("move a dart")])
    dart = _dart(step, top)
    turning = turning_of(top.piece, dart)
    between = _edges_between(step, top, dart)
    # along the outline, which runs anticlockwise, the neck comes before the dart in front and after it behind
    sign = 1.0 if top.neck.backward else -1.0
    run = top.neck.open[0]
    wanted = exact_length(run) - step.amount

    def neckline_at(angle: float) -> tuple[Curve, ...]:
        return _neckline(top, run, turn(turning.pivot, sign * angle))

    reach = distance(turning.pivot, run_at(run, 0.5 * exact_length(run)))
    guess = step.amount / max(reach, 50.0)
    less = f'the neckline of "{top.piece.name}" cannot give {step.amount:.0f} mm; take out less'
    with refusing(step.name, lambda _: less):
        angle = solve(lambda angle: exact_length(neckline_at(angle)) - wanted, guess, 0.2 * guess)
    if not 0.0 < angle <= _MOST_TURN:
        raise StepRefused(
            step.name,
            reason=f'{step.amount:.0f} mm would open "{dart.name}" by {math.degrees(angle):.0f} degrees, and '
            f"{math.degrees(_MOST_TURN):.0f} is the most; take out less, or cut the neckline anew",
        )
    neck = neckline_at(angle)
    with refusing(step.name, lambda error: f"{step.amount:.0f} mm are too much to take out: {error.reason}"):
        accept_neck(top.piece.name, neck, pointed=comes_to_point(top))
    return _Plan(top, dart, turning, turned_part(turning.pivot, between, sign * angle), neck, angle)


def _neckline(top: UpperBodice, run: Sequence[Curve], at_shoulder: Move) -> tuple[Curve, ...]:
    """The neckline with its shoulder end turned, smooth; square to the centre line as before.

    A V may turn at its point, as a springy batten does that is pinned at one end and clamped at the other, so that it
    stays as straight as it was.
    """
    if not comes_to_point(top):
        square, into = end_tangents(run[0])[0], at_shoulder.vec(end_tangents(run[-1])[1])
        return neck_drawn(run[0].start, square, at_shoulder.point(run[-1].end), into)
    low, high = run[0].start, run[-1].end
    swing = (high - low).angle_to(at_shoulder.point(high) - low)
    turned = (high - low).angle_to(at_shoulder.vec(high - low))
    return ends_moved(run, turn(low, 0.5 * (3.0 * swing - turned)), at_shoulder)


def _dart(step: NeckGape, top: UpperBodice) -> Dart:
    """The dart that takes the gape up: the one named, else the first from the neck on that is drawn towards a point."""
    piece = top.piece
    if step.to:
        return find_dart(step.name, piece, step.to, "to")
    by_leg = {leg: dart for dart in piece.darts for leg in dart.legs}
    order = [by_leg[edge.name] for edge in _away_from_neck(top) if edge.name in by_leg]
    aiming = [dart for dart in order if dart.aims_at] or order
    if not aiming:
        raise StepRefused(step.name, reason=f'"{piece.name}" has no dart that could take the gape up')
    return aiming[0]


def _away_from_neck(top: UpperBodice) -> tuple[Edge, ...]:
    """The edges of the piece from the shoulder end of the neck onward, as far as the centre line."""
    edges = top.piece.edges[::-1] if top.neck.backward else top.piece.edges
    at = edges.index(top.piece.edge(top.neck.names[-1]))
    return tuple(takewhile(lambda edge: not is_centre(edge), (*edges[at + 1 :], *edges[:at])))


def _edges_between(step: NeckGape, top: UpperBodice, dart: Dart) -> tuple[Edge, ...]:
    """The edges between the neck and the dart, in outline order."""
    order = _away_from_neck(top)
    at = next((k for k, edge in enumerate(order) if edge.name in dart.legs), None)
    if at is None or at == 0:
        raise StepRefused(step.name, reason=f'"{dart.name}" does not lie beyond the shoulder of "{top.piece.name}"')
    turned = order[:at]
    return turned[::-1] if top.neck.backward else turned


def _with_gape_folded(plan: _Plan) -> Piece:
    """The piece with the gape folded away and its dart opened by as much."""
    top, piece, part = plan.top, plan.top.piece, plan.part
    neck = top.neck.drawn(top.neck.parts[0], plan.neck)
    new = {neck.name: neck, **{name: piece.edge(name).moved(part.move) for name in part.names}}
    before, after = (new.get(edge.name, edge) for edge in piece.beside_dart(plan.dart))
    into, out, dart = drawn_dart(before, after, plan.dart, plan.turning)
    new |= {into.name: into, out.name: out}
    outline = closed(piece.name, tuple(new.get(edge.name, edge) for edge in piece.edges))
    altered = with_part_turned(piece, part, outline, [dart])
    # the corner itself lies on the edge of the part that turns
    return with_points_at(altered, [(top.neck.end, part.move.point(top.neck.end))])


def _dart_angle(piece: str, dart: str, pivot: Point, pattern: Pattern) -> float:
    made = pattern.piece(piece)
    return angle_about(*dart_mouth(made, made.dart(dart)), pivot)
