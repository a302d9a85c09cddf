"""Runs of curves that join, and closed outlines made of them."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry.curve import Cubic, Curve, at_length, bounds, flatten, length, point_at, reverse, split, tangent
from drafting.geometry.point import Point, Vec
from drafting.geometry.tolerance import FLAT, LENGTH

__all__ = [
    "area",
    "cut_run",
    "polyline",
    "run_at",
    "run_bounds",
    "run_length",
    "run_reversed",
    "run_tangent",
]


def run_length(run: Sequence[Curve], tol: float = LENGTH) -> float:
    """The length of curves end to end, mm, within `tol` in all."""
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


def cut_run(run: Sequence[Curve], distance: float) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The part of the run before `distance` mm and the part after; either may be empty at an end."""
    gone = 0.0
    for i, curve in enumerate(run):
        whole = length(curve)
        if distance < gone + whole:
            t = at_length(curve, distance - gone)
            if t <= 0.0:
                return tuple(run[:i]), tuple(run[i:])
            if t >= 1.0:
                return tuple(run[: i + 1]), tuple(run[i + 1 :])
            first, second = split(curve, t)
            return (*run[:i], first), (second, *run[i + 1 :])
        gone += whole
    return tuple(run), ()


def area(outline: Sequence[Curve]) -> float:
    """The signed area inside a closed outline, mm squared, exact for Bezier curves; positive anticlockwise.

    Green's theorem, integrated term by term for the cubic.
    """
    total = 0.0
    for curve in outline:
        a, d = curve.start, curve.end
        total += 0.5 * (a.x * d.y - d.x * a.y)
        if isinstance(curve, Cubic):
            b, c = curve.c1, curve.c2
            ub, uc, ud = b - a, c - a, d - a
            # the slice between the curve and its chord
            total += 0.15 * (ub.cross(uc) + ub.cross(ud)) + 0.3 * uc.cross(ud)
    return total


def run_bounds(run: Sequence[Curve]) -> tuple[float, float, float, float]:
    """The tight box (left, bottom, right, top) around curves, mm."""
    boxes = [bounds(curve) for curve in run]
    return min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)


def polyline(run: Sequence[Curve], tol: float = FLAT) -> list[Point]:
    """Points along a run whose polyline strays from it by at most `tol` mm; shared ends once."""
    points = [run[0].start]
    for curve in run:
        points.extend(flatten(curve, tol)[1:])
    return points


def _locate(run: Sequence[Curve], distance: float) -> tuple[Curve, float]:
    gone = 0.0
    for curve in run:
        whole = length(curve)
        if distance <= gone + whole:
            return curve, at_length(curve, distance - gone)
        gone += whole
    return run[-1], 1.0
