"""Runs of curves that join, and closed outlines made of them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from drafting.geometry.curve import (
    Cubic,
    Curve,
    Line,
    at_length,
    bounds,
    flatten,
    length,
    point_at,
    reverse,
    split,
    tangent,
)
from drafting.geometry.point import Point, Vec, distance
from drafting.geometry.tolerance import FLAT, LENGTH, SAME_PLACE

__all__ = [
    "area",
    "corner_turn",
    "cut_run",
    "encloses",
    "polyline",
    "run_at",
    "run_bounds",
    "run_ends",
    "run_length",
    "run_place",
    "run_reversed",
    "run_tangent",
    "starting_at",
    "straight_run",
    "stretch",
]


def run_length(run: Sequence[Curve], tol: float = LENGTH) -> float:
    """The length of curves end to end, mm, within `tol` in all. Raises NotAPattern for a `tol` not above zero."""
    return sum(length(curve, tol / len(run)) for curve in run)


def run_reversed(run: Sequence[Curve]) -> tuple[Curve, ...]:
    """The same run travelled the other way."""
    return tuple(reverse(curve) for curve in reversed(run))


def run_at(run: Sequence[Curve], distance: float) -> Point:
    """The place `distance` mm along the run; the nearer end when it lies beyond."""
    curve, t = _locate(run, distance)
    return point_at(curve, t)


def run_tangent(run: Sequence[Curve], distance: float) -> Vec:
    """The unit direction of travel `distance` mm along the run."""
    curve, t = _locate(run, distance)
    return tangent(curve, t)


def run_place(run: Sequence[Curve], distance: float) -> tuple[Point, Vec]:
    """Both: the place `distance` mm along the run, and the unit direction of travel there."""
    curve, t = _locate(run, distance)
    return point_at(curve, t), tangent(curve, t)


def run_ends(run: Sequence[Curve]) -> tuple[Vec, Vec]:
    """The unit directions of travel at the start and at the end of the run."""
    return tangent(run[0], 0.0), tangent(run[-1], 1.0)


def corner_turn(before: Sequence[Curve], after: Sequence[Curve]) -> float:
    """How far the line turns where one run ends and the next begins, radians anticlockwise; zero where it runs on."""
    return tangent(before[-1], 1.0).angle_to(tangent(after[0], 0.0))


def cut_run(run: Sequence[Curve], distance: float, *, near: float = 0.0) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The part of the run before `distance` mm and the part after; either may be empty at an end.

    near: mm from a joint of two curves within which the joint is taken as the place
    """
    gone = 0.0
    for i, curve in enumerate(run):
        whole = length(curve)
        if distance <= gone + near:
            return tuple(run[:i]), tuple(run[i:])
        if distance < gone + whole - near:
            t = at_length(curve, distance - gone)
            if t <= 0.0 or t >= 1.0:
                at = i if t <= 0.0 else i + 1
                return tuple(run[:at]), tuple(run[at:])
            first, second = split(curve, t)
            return (*run[:i], first), (second, *run[i + 1 :])
        gone += whole
    return tuple(run), ()


def encloses(polygon: Sequence[Point], place: Point) -> bool:
    """Whether a place lies inside a polygon: a level line from it to the right then crosses an odd number of sides."""
    odd = False
    before = polygon[-1]
    for corner in polygon:
        if (corner.y > place.y) != (before.y > place.y):
            at = before.x + (place.y - before.y) / (corner.y - before.y) * (corner.x - before.x)
            odd ^= at > place.x
        before = corner
    return odd


def area(outline: Sequence[Curve]) -> float:
    """The signed area inside a closed outline, mm squared, exact for Bezier curves; positive anticlockwise.

    Green's theorem, integrated term by term for the cubic.
    """
    total = 0.0
    for curve in outline:
        a, d = curve.start, curve.end
        ax, ay, dx, dy = a.x, a.y, d.x, d.y
        total += 0.5 * (ax * dy - dx * ay)
        if isinstance(curve, Cubic):
            b, c = curve.c1, curve.c2
            bx, by, cx, cy, ux, uy = b.x - ax, b.y - ay, c.x - ax, c.y - ay, dx - ax, dy - ay
            # the slice between the curve and its chord
            total += 0.15 * ((bx * cy - by * cx) + (bx * uy - by * ux)) + 0.3 * (cx * uy - cy * ux)
    return total


def run_bounds(run: Sequence[Curve]) -> tuple[float, float, float, float]:
    """The tight box (left, bottom, right, top) around curves, mm."""
    boxes = [bounds(curve) for curve in run]
    return min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)


def polyline(run: Sequence[Curve], tol: float = FLAT) -> list[Point]:
    """Points along a run whose polyline strays from it by at most `tol` mm; shared ends once.

    Raises NotAPattern for a `tol` not above zero.
    """
    points = [run[0].start]
    for curve in run:
        points.extend(flatten(curve, tol)[1:])
    return points


def stretch(run: Sequence[Curve], start: float, end: float) -> tuple[Curve, ...]:
    """The part of a run between two positions: the number of whole curves before it, plus the parameter on the next.

    A trifle of a curve at either end, too short to have a direction, is left out beside others.
    """
    first, last = min(int(start), len(run) - 1), min(int(end), len(run) - 1)
    out = []
    for k in range(first, last + 1):
        low = start - k if k == first else 0.0
        high = end - k if k == last else 1.0
        if high - low > 1e-12:
            out.append(_between(run[k], low, high))
    if len(out) > 1 and distance(out[0].start, out[0].end) < SAME_PLACE:
        del out[0]
    if len(out) > 1 and distance(out[-1].start, out[-1].end) < SAME_PLACE:
        del out[-1]
    return tuple(out)


def starting_at(curve: Curve, start: Point) -> Curve:
    """The curve with its start moved a hair, and its handle with it, so that it still leaves in the same direction."""
    if isinstance(curve, Line):
        return Line(start, curve.end)
    return Cubic(start, curve.c1 + (start - curve.start), curve.c2, curve.end)


def straight_run(*places: Point) -> tuple[Curve, ...]:
    """The straight lines from place to place, those of no length left out."""
    return tuple(Line(one, other) for one, other in pairwise(places) if distance(one, other) > SAME_PLACE)


def _locate(run: Sequence[Curve], distance: float) -> tuple[Curve, float]:
    gone = 0.0
    for curve in run[:-1]:
        whole = length(curve)
        if distance <= gone + whole:
            return curve, at_length(curve, distance - gone)
        gone += whole
    return run[-1], at_length(run[-1], distance - gone)


def _between(curve: Curve, low: float, high: float) -> Curve:
    if high < 1.0:
        curve = split(curve, high)[0]
    if low > 0.0:
        curve = split(curve, low / high)[1]
    return curve
