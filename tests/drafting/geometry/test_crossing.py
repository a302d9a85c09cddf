"""Where an endless line meets a curve, against the roots that another library finds of its polynomial."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator

import numpy as np
import pytest

from drafting.geometry import Cubic, Line, Point, Vec, line_hits, point_at, polar, run_hits
from drafting.geometry.crossing import _bernstein_roots, _quadratic_roots
from tests.drafting.geometry.shapes import polygon, random_cubics

ORIGIN = Point(0.0, 0.0)


def _roots(curve: Cubic, through: Point, along: Vec) -> list[float]:
    """The parameters from 0 to 1 at which the curve lies in the line, by the eigenvalues of a matrix."""
    p, q, r, s = (along.cross(place - through) for place in (curve.start, curve.c1, curve.c2, curve.end))
    found = np.roots([s - 3 * r + 3 * q - p, 3 * (r - 2 * q + p), 3 * (q - p), p])
    return sorted(float(each.real) for each in found if abs(each.imag) < 1e-9 and 0.0 <= each.real <= 1.0)


def _lines() -> Iterator[tuple[Cubic, Point, Vec]]:
    wayward = random.Random(9)
    for curve in random_cubics(60, seed=21, size=80.0):
        for _ in range(2):
            yield curve, Point(wayward.uniform(-60, 60), wayward.uniform(-60, 60)), polar(wayward.uniform(-3, 3))


def test_a_line_meets_a_cubic_where_its_polynomial_is_zero() -> None:
    many = set()
    for curve, through, along in _lines():
        expected = _roots(curve, through, along)
        for scale in (1.0, 7.0, -3.0):
            hits = line_hits(curve, through, along * scale)
            assert [hit.t for hit in hits] == pytest.approx(expected, abs=1e-7)
            for hit in hits:
                assert hit.point == point_at(curve, hit.t)
                assert (through + along * (hit.along * math.copysign(1.0, scale))).near(hit.point, 1e-5)
        many.add(len(expected))
    assert many == {0, 1, 2, 3}


def test_a_line_through_the_end_of_a_curve_meets_it_there() -> None:
    for curve in random_cubics(20, seed=22, size=80.0):
        for end, t in ((curve.start, 0.0), (curve.end, 1.0)):
            for angle in (0.3, 1.9):
                assert min(abs(hit.t - t) for hit in line_hits(curve, end, polar(angle))) < 1e-4


def test_a_touch_counts_once_and_a_hair_beside_it_not_at_all_or_twice() -> None:
    hill = Cubic(ORIGIN, Point(30.0, 60.0), Point(70.0, 60.0), Point(100.0, 0.0))  # 45 mm high, at its middle
    for off, many in ((-1e-9, 2), (0.0, 1), (1e-9, 0)):
        hits = line_hits(hill, Point(0.0, 45.0 + off), Vec(1.0, 0.0))
        assert len(hits) == many
        assert all(abs(hit.t - 0.5) < 1e-4 for hit in hits)
    slope = Cubic(ORIGIN, Point(10.0, 30.0), Point(20.0, 30.0), Point(30.0, 60.0))
    (through,) = line_hits(slope, Point(0.0, 30.0), Vec(1.0, 0.0))  # where it lies level it still crosses, once
    assert through.t == pytest.approx(0.5, abs=1e-4)


@pytest.mark.parametrize(
    ("a", "b", "c", "roots"),
    [
        (2.0, -2.0, 0.375, [0.25, 0.75]),
        (-2.0, 2.0, -0.375, [0.25, 0.75]),
        (0.0, 4.0, -1.0, [0.25]),
        (0.0, 0.0, -1.0, []),
        (1.0, -1.0, 0.25, []),  # a touch is no turning point
        (1.0, 0.0, 0.25, []),
        (1.0, 0.0, -0.25, [0.5]),
        (1.0, -0.5, 0.0, [0.5]),  # the other lies at the end
        (4.0, -5.0, 1.0, [0.25]),
        (1e-20, 4.0, -1.0, [0.25]),
    ],
)
def test_turning_points_lie_strictly_within(a: float, b: float, c: float, roots: list[float]) -> None:
    assert sorted(_quadratic_roots(a, b, c)) == pytest.approx(roots)


@pytest.mark.parametrize("scale", [1e-3, 0.2, 1.0, 1e4])
def test_the_roots_of_a_cubic_are_the_same_however_large_it_is(scale: float) -> None:
    wayward = random.Random(17)
    for _ in range(60):
        p, q, r, s = heights = [wayward.uniform(-1.0, 1.0) for _ in range(4)]
        found = np.roots([s - 3 * r + 3 * q - p, 3 * (r - 2 * q + p), 3 * (q - p), p])
        expected = sorted(float(each.real) for each in found if abs(each.imag) < 1e-9 and 0.0 <= each.real <= 1.0)
        assert _bernstein_roots([scale * each for each in heights]) == pytest.approx(expected, abs=1e-7)


def test_a_cubic_that_lies_in_the_line_has_no_roots_and_one_that_touches_at_an_end_has() -> None:
    assert _bernstein_roots([0.0, 0.0, 0.0, 0.0]) == []
    assert _bernstein_roots([0.0, 0.0, 0.0, 1.0]) == [0.0]
    assert _bernstein_roots([1.0, 0.0, 0.0, 0.0]) == [1.0]
    assert _bernstein_roots([0.0, 1.0, 1.0, 0.0]) == [0.0, 1.0]
    assert _bernstein_roots([0.0, 1.0, -1.0, 0.0]) == pytest.approx([0.0, 0.5, 1.0])
    assert _bernstein_roots([1.0, 1.0, 1.0, 1.0]) == []


def test_a_line_of_its_own_is_met_at_its_ends_and_between_and_nowhere_beyond() -> None:
    line = Line(ORIGIN, Point(40.0, 30.0))
    for t in (0.0, 0.25, 1.0):
        (hit,) = line_hits(line, point_at(line, t) - Vec(0.0, 5.0), Vec(0.0, 2.0))
        assert (hit.t, hit.along) == (pytest.approx(t), pytest.approx(5.0))
        assert hit.point.near(point_at(line, t), 1e-9)
    for x in (-1e-6, 40.0 + 1e-6):
        assert line_hits(line, Point(x, 0.0), Vec(0.0, 1.0)) == []
    assert line_hits(Line(Point(0.0, 7.0), Point(9.0, 7.0)), Point(0.0, 7.0), Vec(-1.0, 0.0)) == []


def test_where_a_line_goes_through_a_joint_it_is_told_once_also_where_the_outline_closes() -> None:
    square = polygon((0, 0), (10, 0), (10, 10), (0, 10))
    for k in range(4):
        begun = (*square[k:], *square[:k])
        found = run_hits(begun, Point(-5.0, -5.0), Vec(1.0, 1.0))
        assert sorted(round(hit.point.x, 9) for _, hit in found) == [0.0, 10.0]
        assert all(begun[i].start.near(hit.point) or begun[i].end.near(hit.point) for i, hit in found)
    assert run_hits((), ORIGIN, Vec(1.0, 0.0)) == []
    (once,) = run_hits(square[:1], Point(5.0, 5.0), Vec(0.0, 1.0))
    assert (once[0], once[1].t, once[1].along) == (0, 0.5, -5.0)
