"""The slashes by which a front is made fuller or flatter at the bust.

The trade's way (plane geometry; where the bust point then lies: common practice): the front is cut from the waist up to
the bust point and on to a hinge in the armhole, not through it; and from the side, along the bust dart, to the bust
point. With the hinge x mm to the side of the bust point and h mm above it, the part under the armhole is turned about
the hinge by the angle at which the cut up to the bust point opens by the spread s,

    x (1 - cos angle) + h sin angle = s,        the drop being    x sin angle - h (1 - cos angle),

and the part below the dart is slid to it without turning. So the dart opens by the angle, the front is wider by s from
the bust line down, and longer by the drop. Then the front below the bust is cut across and let down by the drop, so
that it is level again; here the part above is raised instead, which is the same. A flatter bust is the same with s
below zero, and undoes it exactly.

There is one bust point: it lies in the middle of what was let in, half of s further out, and every dart is drawn
towards it. So that the dart opens about that very place and its legs are equal, the cut is made half of s nearer the
centre than the old bust point. Where a dart of the angle d is open already, that half is told in the part above it,
which is turned by d:  x + s/2 cos d  and  h + s/2 sin d  in the place of x and h.

A bust dart in the shoulder, or anywhere above the hinge, is closed for this and opened again by so much more: what lies
between it and the hinge is turned back about the new bust point. The hinge is the notch of the armhole. There the
armhole has a corner of the angle; it is redrawn as a smooth curve, each side of the notch as long as it was.

The angle is that of the slashes wherever the dart lies, so a dart in the shoulder, some 24 cm from the bust point,
takes up twice what one in the side seam does, 14 cm from it: 2 r sin(angle / 2). On size 88 four centimetres round the
body are 10 degrees: 2.6 cm more at the side, 4.5 at the shoulder. So what is opened may go into the side seam instead.

What the front gains at the waist goes into the waist dart; or the waist becomes wider by it.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Final

from drafting.alterations.bodice.bust_marks import lengthened, marked
from drafting.alterations.bodice.bust_zones import SHORT_OF_BUST, Front, Zone, seen_from_bust
from drafting.alterations.earlier_steps import put_before
from drafting.alterations.refusing import instead, refusing
from drafting.alterations.techniques.cutting.split_edges import (
    EdgePart,
    Made,
    joined,
    joined_name,
    made_of,
    part_name,
    whole_edge,
    word_beside,
)
from drafting.alterations.techniques.pivoting.pivot import Turning, drawn_dart, leg_names, turning_of
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import STAY, Cubic, Curve, Line, Move, Vec, corner_turn, length, shift, turn
from drafting.geometry.meet import outline_crossings
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import MEASURED
from drafting.pattern import Dart, Landmark, Piece, dart_width, free_name, require_point

__all__ = ["Slashed", "opening", "slashed"]

_WIDEST: Final = math.radians(25.0)
"""How far the slash may be opened: beyond it the armhole cannot be made smooth again (our figure)."""

_LEAST_ANGLE: Final = math.radians(0.99)
"""What is left of a bust dart, at least: what may be left of one that is moved in part, but for rounding."""

_LEAST_WIDTH: Final = 4.0
"""mm of waist dart that are left, at least (our figure)."""

_GONE: Final = 1e-6
"""mm, or radians, up to which nothing is left of a dart."""

_SMOOTH: Final = 1e-9
"""radians. A corner of less is the rounding of turns."""


@dataclass(frozen=True, slots=True)
class Slashed:
    """A front after its slashes: what its edges are made of, the angle of the slash, and by how much it is longer."""

    front: Front
    after: Piece
    made: Made
    angle: float
    drop: float


def opening(x: float, h: float, spread: float) -> tuple[float, float]:
    """By what angle (radians) the part under the armhole is turned, and the drop, mm.

    x, h:   how far the hinge lies to the side of the bust point and above it, mm
    spread: by how much the cut up to the bust point opens, mm; below zero to overlap
    Raises NotAPattern where it cannot be opened so far.
    """
    far = math.hypot(x, h)
    if h <= 0.0 or abs(x - spread) >= far:
        raise NotAPattern(
            "bust", reason=f"between the bust point and the armhole there is no room for {abs(spread):.0f} mm"
        )
    angle = math.acos((x - spread) / far) - math.atan2(h, x)
    return angle, x * math.sin(angle) - h * (1.0 - math.cos(angle))


def slashed(
    step: str, piece: Piece, spread: float, *, widen_waist: bool = False, measured: Collection[str] = ()
) -> Slashed:
    """A front opened at the bust by `spread` mm (below zero: overlapped).

    widen_waist: the waist line is made wider by it, else the waist dart takes it up, and is made where there is none
    measured:    the level lines over which a measurement is taken
    Raises StepRefused for a front without a centre line, an armhole or a side seam, and where the darts or the armhole
    do not allow it.
    """
    front = seen_from_bust(step, piece, widen_waist=widen_waist)
    _accept(step, front, spread, widen_waist)
    with refusing(step, lambda error: f"{error.reason}; take less"):
        angle, drop = _opening(front, spread)
    moves = _moves(front, spread, angle, drop)
    parts = [part.moved(moves[zone]) for part, zone in zip(front.ring, front.zones, strict=True)]
    if widen_waist:
        parts = _widened(front, parts, front.out * spread)
    ring, darts = _with_joints(front, _with_armhole(front, parts), spread, angle)
    centre = [lengthened(front, edge, front.up * drop) for edge in front.centre]
    made = made_of([*ring, *(whole_edge(edge) for edge in front.centre)])
    edges = [*centre, *(part.edge for part in ring)]
    after = marked(front, edges, darts, made, moves, drop, measured)
    if outline_crossings(after.outline):
        raise StepRefused(step, reason=f'"{piece.name}" would lie over itself; take less')
    return Slashed(front, after, made, angle, drop)


def _accept(step: str, front: Front, spread: float, widen_waist: bool) -> None:
    """Refuse more than the armhole bears, and more than there is in the darts."""
    if spread > _spread(front, _WIDEST):
        most = 2.0 * _spread(front, _WIDEST)
        raise StepRefused(
            step, reason=f"the armhole bears {most:.0f} mm round the body; let in the rest at the side seams"
        )
    if spread < 0.0:
        dart, least = front.bust_dart, _LEAST_ANGLE - front.bust_angle
        if dart is None:
            merged = put_before("move a dart")  # into the waist dart, or gathered
            raise StepRefused(step, reason="there is no bust dart that could be made smaller", remedies=[merged])
        gone = abs(spread - _spread(front, -front.bust_angle)) <= _GONE
        if not gone and spread < _spread(front, min(0.0, least)):
            raise StepRefused(step, reason=f'so much would leave nothing of "{dart.name}" that could be sewn')
    if widen_waist or spread > 0.0:
        return
    width = dart_width(front.piece, front.waist_dart) if front.waist_dart else 0.0
    if width + spread < _LEAST_WIDTH and abs(width + spread) > _GONE:
        reason = (
            f"the waist dart takes up {width:.0f} mm on each side"
            if width
            else "there is no waist dart to take it from"
        )
        raise StepRefused(
            step,
            reason=f"{reason}; let the waist go along where it is sewn to nothing",
            remedies=instead(step, "waist", "goes along"),
        )


def _spread(front: Front, angle: float) -> float:
    """By how much the cut opens at an angle, mm."""
    x, h = front.hinge_from_bust
    return 2.0 * (x * (1.0 - math.cos(angle)) + h * math.sin(angle)) / (1.0 + math.cos(front.bust_angle + angle))


def _opening(front: Front, spread: float) -> tuple[float, float]:
    """The angle by which the dart opens about the middle of the cloth let in, radians, and the drop, mm."""
    x, h = front.hinge_from_bust
    out, up = 0.5 * spread * math.cos(front.bust_angle), 0.5 * spread * math.sin(front.bust_angle)
    angle, drop = opening(x + out, h + up, out + 0.5 * spread)
    return angle, drop + up


def _moves(front: Front, spread: float, angle: float, drop: float) -> Mapping[Zone, Move]:
    """The move of each zone. The zones at the side and below keep their level."""
    aside, raised = front.out * spread, front.up * drop
    pivot, outward_sign = front.bust.pivot, front.dart_sign
    closing = turn(pivot, -outward_sign * front.bust_angle)
    opening_again = turn(pivot + aside * 0.5 - raised, outward_sign * (front.bust_angle + angle))
    return {
        "upper": shift(raised),
        "sliver": closing.then(opening_again).then(shift(raised)),
        "under": turn(front.hinge, front.outward_sign * angle).then(shift(raised)),
        "lower": shift(aside),
        "bust point": shift(aside * 0.5),
        "waist line": STAY,
        "waist between": shift(aside * 0.5),
        "waist": STAY,
    }


def _widened(front: Front, parts: list[EdgePart], aside: Vec) -> list[EdgePart]:
    """The waist line drawn out evenly: from the centre line to the side, or half of it on either side of its darts."""
    middle = aside * (0.5 if "waist" in front.zones else 0.0)
    ends = {"waist line": (aside, middle), "waist": (middle, Vec(0.0, 0.0))}
    made = list(parts)
    for k, zone in enumerate(front.zones):
        if zone in ends:
            outer, inner = ends[zone]
            made[k] = _stretched(parts[k], (outer, inner) if front.from_neck else (inner, outer))
    return made


def _stretched(part: EdgePart, steps: tuple[Vec, Vec]) -> EdgePart:
    """An edge with its ends moved, and everything between them in proportion."""
    gone, curves, whole_length = 0.0, [], sum(length(curve) for curve in part.edge.curves)
    for curve in part.edge.curves:
        shares = [gone / whole_length, (gone + length(curve)) / whole_length]
        start, end = (steps[0] * (1.0 - share) + steps[1] * share for share in shares)
        curves.append(_drawn_out(curve, start, end))
        gone += length(curve)
    return part.redrawn(curves)


def _drawn_out(curve: Curve, start: Vec, end: Vec) -> Curve:
    """The curve with its ends moved, and what lies between them in proportion."""
    if isinstance(curve, Line):
        return Line(curve.start + start, curve.end + end)
    third = (end - start) * (1.0 / 3.0)
    return Cubic(curve.start + start, curve.c1 + start + third, curve.c2 + end - third, curve.end + end)


def _with_armhole(front: Front, parts: list[EdgePart]) -> list[EdgePart]:
    """The two sides of the hinge smooth where they were smooth."""
    k = front.joints["hinge"]
    one, other = parts[k], parts[k + 1]
    was = corner_turn(front.ring[k].edge.curves, front.ring[k + 1].edge.curves)
    if abs(was) < _SMOOTH:
        one, other = _smoothed(one, other)
    return [*parts[:k], one, other, *parts[k + 2 :]]


def _smoothed(one: EdgePart, other: EdgePart) -> tuple[EdgePart, EdgePart]:
    """Two parts that meet in a corner made smooth there: each is bent by half of the angle and keeps its length."""
    bend = 0.5 * corner_turn(one.edge.curves, other.edge.curves)
    if abs(bend) < _SMOOTH:
        return one, other
    last, head = one.edge.curves[-1], other.edge.curves[0]
    before, after = _bent(last, bend, at_end=True), _bent(head, -bend, at_end=False)
    return one.redrawn((*one.edge.curves[:-1], before)), other.redrawn((after, *other.edge.curves[1:]))


def _bent(curve: Curve, turned: float, *, at_end: bool) -> Curve:
    """The curve with its direction at one end turned, its ends where they are, and its length kept by that handle."""
    if isinstance(curve, Line):
        raise NotAPattern("armhole", reason="it is straight beside the notch and cannot be bent without growing longer")
    wanted = length(curve, MEASURED)

    def with_handle(factor: float) -> Cubic:
        if at_end:
            return replace(curve, c2=curve.end - (curve.end - curve.c2).turned(turned) * factor)
        return replace(curve, c1=curve.start + (curve.c1 - curve.start).turned(turned) * factor)

    factor = solve(lambda factor: length(with_handle(factor), MEASURED) - wanted, 1.0, 0.05)
    if not 0.2 < factor < 3.0:
        raise NotAPattern("armhole", reason="it cannot be made smooth again at the notch")
    return with_handle(factor)


def _with_joints(front: Front, parts: list[EdgePart], spread: float, angle: float) -> tuple[list[EdgePart], list[Dart]]:
    """The outline with its armhole in one and the darts redrawn in it; and these darts."""
    aside = front.out * spread
    waist = Turning(require_point(front.piece, Landmark.BUST_POINT).at, SHORT_OF_BUST)
    if front.waist_dart is not None:
        towards = front.piece.point(front.waist_dart.aims_at)
        waist = Turning(towards, turning_of(front.piece, front.waist_dart).short)
    width = dart_width(front.piece, front.waist_dart) if front.waist_dart else 0.0
    # what each is turned about, the dart there is, and what is left of it
    darts = {
        "bust": (front.bust, front.bust_dart, front.bust_angle + angle),
        "waist": (waist, front.waist_dart, width + spread),
    }
    found: list[Dart] = []
    # from the last to the first, so that the numbers of those before hold
    for what, k in sorted(front.joints.items(), key=lambda item: -item[1]):
        if what == "hinge":
            parts = [*parts[:k], joined(parts[k], parts[k + 1], parts[k].edge.name), *parts[k + 2 :]]
            continue
        turning, dart, left = darts[what]
        moved = None if abs(left) <= _GONE else replace(turning, pivot=turning.pivot + aside * 0.5)
        parts = _with_dart(front, parts, k, dart, f"{what} dart", moved, found)
    return parts, found


def _with_dart(
    front: Front,
    parts: list[EdgePart],
    k: int,
    dart: Dart | None,
    name: str,
    turning: Turning | None,
    found: list[Dart],
) -> list[EdgePart]:
    """The outline with a dart drawn after its k-th part, or its two sides joined where nothing is left of it."""
    one, other = parts[k], parts[k + 1]
    rest = [*(part.edge for part in parts[k + 2 :]), *front.centre, *(part.edge for part in parts[:k])]
    if turning is None:
        same = joined_name(one.edge, other.edge, rest)
        return parts if same is None else [*parts[:k], joined(one, other, same), *parts[k + 2 :]]
    if dart is None:
        taken = {edge.name for edge in (*rest, *front.piece.edges)} - {one.edge.name}
        words = word_beside(front.piece, rest[-1]), word_beside(front.piece, rest[0])
        one = one.named(part_name(one.edge, words[0], taken))
        other = other.named(part_name(other.edge, words[1], {one.edge.name, *taken}))
        name = free_name(name, {each.name for each in (*front.piece.darts, *found)})
        legs = leg_names(name, (one.edge.end, other.edge.start), words, {one.edge.name, other.edge.name, *taken})
        dart = Dart(name, legs, turning.pivot, require_point(front.piece, Landmark.BUST_POINT).name)
    into, out, drawn = drawn_dart(one.edge, other.edge, dart, turning)
    found.append(drawn)
    return [*parts[:k], one, EdgePart(into, ()), EdgePart(out, ()), other, *parts[k + 2 :]]
