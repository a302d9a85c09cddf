"""A front seen from its bust point: the zones into which the slashes of a full bust divide the front."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final, Literal

from drafting.alterations.earlier_steps import in_the_way, refused_after
from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut, whole_edge
from drafting.alterations.techniques.pivoting.pivot import Turning, angle_about, is_centre, region, turning_of
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import Point, Vec, run_hits, run_length, split, turn
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import Dart, Edge, Landmark, Piece, Place, Role, dart_mouth, edges_at, from_start, require_point

__all__ = ["NEW_DART", "SHORT_OF_BUST", "Front", "Zone", "seen_from_bust"]

SHORT_OF_BUST: Final = 25.0
"""How far short of the bust point a new dart ends, mm (common practice, half an inch to an inch)."""

Zone = Literal["upper", "sliver", "under", "lower", "waist line", "waist between", "waist", "bust point"]
"""From the neck down: "upper" to the bust dart or the hinge; "sliver" from a dart above the hinge to it; "under" from
the hinge to a dart below it; "lower" from there to the waist dart; "waist" from there to the centre line. Where the
waist is to be wider "waist line" is the edge beside the side seam, "waist between" what lies from there to the edge
beside the centre line. "bust point" is no part of the outline, but what darts are drawn towards."""

_PASSING: Final[Mapping[tuple[str, Zone], Zone]] = {
    ("bust", "upper"): "sliver",
    ("bust", "under"): "lower",
    ("hinge", "upper"): "under",
    ("hinge", "sliver"): "lower",
    ("waist", "lower"): "waist",
}

NEW_DART: Final = 0.35
"""Where a bust dart is let into the side seam, as a share of it from the armhole (our figure)."""

_HINGE: Final = 1.0 / 3.0
"""Where the hinge is, as a share of the armhole from the underarm, if it has no notch (common practice: the notch)."""

_NEAR_JOINT: Final = 12.0
"""mm from the notch within which a joint of the armhole is the hinge: the bit of curve between the two is too short to
be bent, and would be folded (our figure; the armhole of a bodice taken in by 40 mm has them 8 mm apart)."""


@dataclass(frozen=True, slots=True)
class Front:
    """A front before it is slashed.

    out, up: unit directions from the centre line to the side, and up along it
    bust:    what its darts are turned about
    hinge:   the place on the armhole up to which it is slashed
    centre:  the edges of the centre line, straight
    level:   how far above the bust point the centre line is cut, mm (below zero: beneath it)
    ring:    the rest of the outline, cut at the hinge and where darts lie or are to lie; `zones` of each part
    joints:  after which part of the ring the "bust" dart, the "hinge" and the "waist" dart lie
    """

    piece: Piece
    out: Vec
    up: Vec
    bust: Turning
    bust_dart: Dart | None
    waist_dart: Dart | None
    hinge: Point
    centre: tuple[Edge, ...]
    level: float
    ring: tuple[EdgePart, ...]
    zones: tuple[Zone, ...]
    joints: Mapping[str, int]
    from_neck: bool

    @property
    def outward_sign(self) -> float:
        """1 where `up` lies to the left of `out`, -1 where it lies to the right: the sense of turning outward."""
        return math.copysign(1.0, self.out.cross(self.up))

    @property
    def bust_angle(self) -> float:
        """The angle of the bust dart, radians; zero where there is none."""
        return 0.0 if self.bust_dart is None else angle_about(*dart_mouth(self.piece, self.bust_dart), self.bust.pivot)

    @property
    def hinge_from_bust(self) -> tuple[float, float]:
        """How far the hinge lies aside and above the bust point, mm, when a dart above it is closed."""
        at = self.hinge
        if "sliver" in self.zones:
            at = turn(self.bust.pivot, -self.dart_sign * self.bust_angle).point(at)
        step = at - self.bust.pivot
        return step.dot(self.out), step.dot(self.up)

    @property
    def dart_sign(self) -> float:
        """1 where the outline runs from the neck down, so that going on from the upper leg is anticlockwise."""
        return 1.0 if self.from_neck else -1.0

    @property
    def bust_mouth(self) -> tuple[Point, Point]:
        """The mouth of the bust dart, or where it is to be let in: on the part below it, and on the part above."""
        k = self.joints["bust"]
        one, other = self.ring[k].edge.end, self.ring[k + 1].edge.start
        return (other, one) if self.from_neck else (one, other)

    def zone_region(self, zone: Zone) -> tuple[Point, ...]:
        """A zone as a polygon; empty where there is none."""
        edges = [part.edge for part, its in zip(self.ring, self.zones, strict=True) if its == zone]
        return region(self.bust.pivot, edges) if edges else ()


def seen_from_bust(step: str, piece: Piece, *, widen_waist: bool) -> Front:
    """The front divided into zones for the slashes; a front without a bust dart gets one in its side seam.

    widen_waist: the waist line is to be drawn out; else where there is no waist dart one is to be let in
    Raises StepRefused for a front without a straight centre line, an armhole or a side seam.
    """
    bust = require_point(piece, Landmark.BUST_POINT).at
    centre, rest = _centre(step, piece)
    from_neck = rest[0].start.y > rest[-1].end.y
    up = (rest[0].start - rest[-1].end).unit() if from_neck else (rest[-1].end - rest[0].start).unit()
    if any(abs(up.cross(edge.end - edge.start)) > SAME_PLACE or len(edge.curves) > 1 for edge in centre):
        raise StepRefused(step, reason=f'the centre line of "{piece.name}" is not straight')
    waist_end = rest[-1].end if from_neck else rest[0].start
    out = up.right() if up.right().dot(bust - waist_end) > 0.0 else up.left()
    below = _below_side(step, piece, rest, from_neck)
    aimed = [dart for dart in piece.darts if dart.aims_at]
    low = {edge.name for edge in below}
    # of two that are drafted the inner one comes first, whose fold runs through the bust point and not beside it
    waist_dart = next((dart for dart in aimed if dart.legs[0] in low), None)
    others = [dart for dart in aimed if dart.legs[0] not in low]
    bust_dart = max(others, key=lambda dart: _angle(piece, dart), default=None)
    hinge_edge, hinge_at = _hinge(step, piece)
    cuts = {hinge_edge.name: ("hinge", hinge_at)}
    if bust_dart is None:
        side = next(edge for edge in rest if edge.place is Place.SIDE)
        cuts[side.name] = ("bust", side.length * (NEW_DART if from_neck else 1.0 - NEW_DART))
    if waist_dart is None and not widen_waist:
        name, at = _under_bust(step, below, bust, up)
        cuts[name] = ("waist", at)
    legs = {} if bust_dart is None else {bust_dart.legs[0]: "bust", bust_dart.legs[1]: ""}
    if waist_dart is not None and not widen_waist:
        legs |= {waist_dart.legs[0]: "waist", waist_dart.legs[1]: ""}
    ring, joints = _ring(step, rest, cuts, legs)
    zones = _zones(ring, joints, from_neck, below if widen_waist else ())
    turning = turning_of(piece, bust_dart) if bust_dart else Turning(bust, SHORT_OF_BUST)
    level = 0.5 * (waist_end - turning.pivot).dot(up)
    return Front(
        piece,
        out,
        up,
        turning,
        bust_dart,
        None if widen_waist else waist_dart,
        ring[joints["hinge"]].edge.end,
        centre,
        level,
        ring,
        zones,
        joints,
        from_neck,
    )


def _centre(step: str, piece: Piece) -> tuple[tuple[Edge, ...], tuple[Edge, ...]]:
    """The edges of the centre line, and the rest of the outline from there on."""
    edges = piece.edges
    marks = [is_centre(edge) for edge in edges]
    starts = [k for k in range(len(edges)) if marks[k] and not marks[k - 1]]
    if len(starts) != 1:
        plain = f'"{piece.name}" has no centre line of one straight stretch'
        raise refused_after(step, in_the_way(piece), plain)
    turned = (*edges[starts[0] :], *edges[: starts[0]])
    many = sum(marks)
    return turned[:many], turned[many:]


def _below_side(step: str, piece: Piece, rest: Sequence[Edge], from_neck: bool) -> tuple[Edge, ...]:
    """The edges from the side seam down to the centre line."""
    sides = [k for k, edge in enumerate(rest) if edge.place is Place.SIDE]
    if not sides:
        raise refused_after(step, in_the_way(piece), f'"{piece.name}" has no side seam')
    return tuple(rest[sides[-1] + 1 :]) if from_neck else tuple(reversed(rest[: sides[0]]))


def _hinge(step: str, piece: Piece) -> tuple[Edge, float]:
    """The edge of the armhole that has its notch, and where: mm from its start."""
    armhole = edges_at(piece, Place.ARMHOLE)
    for notch in piece.notches:
        for edge in armhole:
            if notch.station.edge == edge.name:
                return edge, _at_joint(edge, from_start(edge, notch.station))
    if not armhole:
        raise StepRefused(step, reason=f'"{piece.name}" has no armhole')
    edge = max(armhole, key=lambda each: each.length)
    return edge, edge.length * (_HINGE if edge.start.y < edge.end.y else 1.0 - _HINGE)


def _at_joint(edge: Edge, at: float) -> float:
    gone = 0.0
    for curve in edge.curves[:-1]:
        gone += run_length((curve,), MEASURED)
        if abs(gone - at) <= _NEAR_JOINT:
            return gone
    return at


def _under_bust(step: str, below: Sequence[Edge], bust: Point, up: Vec) -> tuple[str, float]:
    """The place on the waist line straight below the bust point: the edge, and mm from its start."""
    for edge in below:
        if edge.role is not Role.DART_LEG:
            for k, hit in run_hits(edge.curves, bust, -up):
                if hit.along > 0.0:
                    before = (*edge.curves[:k], split(edge.curves[k], hit.t)[0])
                    return edge.name, run_length(before, MEASURED)
    raise StepRefused(step, reason="the waist line does not lie below the bust point")


def _ring(
    step: str, rest: Sequence[Edge], cuts: Mapping[str, tuple[str, float]], legs: Mapping[str, str]
) -> tuple[tuple[EdgePart, ...], dict[str, int]]:
    """The outline without the legs, cut in those places; and after which part each dart and the hinge lie."""
    ring: list[EdgePart] = []
    joints: dict[str, int] = {}
    for edge in rest:
        if edge.name in legs:
            if legs[edge.name]:
                joints[legs[edge.name]] = len(ring) - 1
        elif edge.name in cuts:
            what, at = cuts[edge.name]
            before, after = cut(edge, at)
            if before is None or after is None:
                raise StepRefused(step, reason=f'"{edge.name}" ends where it would have to be cut')
            joints[what] = len(ring)
            ring += [before, after]
        else:
            ring.append(whole_edge(edge))
    return tuple(ring), joints


def _zones(
    ring: Sequence[EdgePart], joints: Mapping[str, int], from_neck: bool, widened: Sequence[Edge]
) -> tuple[Zone, ...]:
    """The zone of each part, told from the neck down."""
    by_joint = {joint: what for what, joint in joints.items()}
    order = range(len(ring)) if from_neck else range(len(ring) - 1, -1, -1)
    zone: Zone = "upper"
    zones: dict[int, Zone] = {}
    below = [edge.name for edge in widened]
    for k in order:
        if k != order[0]:
            passed = by_joint.get(k - 1 if from_neck else k, "")
            zone = _PASSING.get((passed, zone), zone)
        name = ring[k].edge.name
        zones[k] = zone if name not in below else _widened_zone(name, below)
    return tuple(zones[k] for k in range(len(ring)))


def _widened_zone(name: str, below: Sequence[str]) -> Zone:
    if name == below[0]:
        return "waist line"
    return "waist" if name == below[-1] else "waist between"


def _angle(piece: Piece, dart: Dart) -> float:
    return angle_about(*dart_mouth(piece, dart), turning_of(piece, dart).pivot)
