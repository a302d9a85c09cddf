"""Few chords: no further off than is said, no more than a plain division into equal steps."""

from __future__ import annotations

from itertools import accumulate

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely import Point as Spot

from drafting.geometry import Cubic, Line, Point, flatten, point_at, polar
from drafting.geometry.few_chords import few_chords


def of_legs(lengths: tuple[float, ...], turned: tuple[float, ...]) -> Cubic:
    """The curve between three legs of these lengths, mm, that lie at these angles to the last, radians."""
    places = [Point(0.0, 0.0)]
    for length, angle in zip(lengths, accumulate(turned), strict=True):
        places.append(places[-1] + polar(angle, length))
    return Cubic(*places)


legs, angles = st.floats(1.0, 300.0), st.floats(-1.6, 1.6)


@settings(deadline=None)
@given(
    curve=st.builds(of_legs, st.tuples(legs, legs, legs), st.tuples(angles, angles, angles)),
    stray=st.sampled_from([0.02, 0.05, 0.1]),
)
def test_no_place_of_a_curve_is_further_from_its_chords_than_is_said(curve: Cubic, stray: float) -> None:
    """Of what turns as edges of a garment do, not in a hairpin."""
    chords = few_chords(curve, stray)
    drawn = LineString([(at.x, at.y) for at in chords])
    on = (point_at(curve, k / 400) for k in range(401))
    assert max(drawn.distance(Spot(at.x, at.y)) for at in on) < 1.05 * stray
    assert (chords[0], chords[-1]) == (curve.start, curve.end)
    assert len(chords) <= len(flatten(curve, stray))


def test_the_straight_part_of_a_curve_is_left_empty() -> None:
    neck = Cubic(Point(0.0, 0.0), Point(300.0, 0.0), Point(330.0, 0.0), Point(330.0, 30.0))
    assert len(few_chords(neck, 0.05)) <= 0.6 * len(flatten(neck, 0.05))


def test_a_line_is_its_two_ends() -> None:
    assert few_chords(Line(Point(0.0, 0.0), Point(5.0, 1.0)), 0.01) == [Point(0.0, 0.0), Point(5.0, 1.0)]


@pytest.mark.parametrize("end", [Point(0.0, 0.0), Point(100.0, 0.0)])
def test_a_curve_that_closes_on_itself_or_lies_straight_is_drawn(end: Point) -> None:
    curve = Cubic(Point(0.0, 0.0), Point(60.0, 0.0), Point(80.0, 0.0), end)
    assert few_chords(curve, 0.05)[-1] == end
