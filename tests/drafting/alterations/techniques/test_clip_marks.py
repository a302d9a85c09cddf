"""What of a marked line lies on a piece that is cut out of another, on pieces of straight edges."""

from __future__ import annotations

import pytest

from drafting.alterations.techniques.cutting.clip_marks import clipped, holds
from drafting.geometry import Cubic, Curve, Point
from drafting.geometry.outline import straight_run
from drafting.pattern import MarkLine

SQUARE = straight_run(Point(0.0, 0.0), Point(100.0, 0.0), Point(100.0, 100.0), Point(0.0, 100.0), Point(0.0, 0.0))
TRIANGLE = straight_run(Point(0.0, 0.0), Point(100.0, 0.0), Point(50.0, 100.0), Point(0.0, 0.0))
STEPPED = straight_run(
    *(Point(0.0, 0.0), Point(100.0, 0.0), Point(100.0, 100.0), Point(60.0, 100.0)),
    *(Point(60.0, 40.0), Point(30.0, 40.0), Point(30.0, 100.0), Point(0.0, 100.0), Point(0.0, 0.0)),
)
"""A square with a slot in its upper side, from 30 to 60."""


def line(*ends: tuple[float, float]) -> MarkLine:
    start, end = (Point(*end) for end in ends)
    return MarkLine("level", start, end)


@pytest.mark.parametrize(
    ("one", "other", "kept"),
    [
        ((20.0, 50.0), (80.0, 50.0), (20.0, 80.0)),  # it lies on the piece
        ((-40.0, 50.0), (140.0, 50.0), (0.0, 100.0)),
        ((-0.5, 50.0), (100.5, 50.0), (0.0, 100.0)),
        ((0.5, 50.0), (99.5, 50.0), (0.0, 100.0)),  # a hair off an edge it ends there
        ((2.0, 50.0), (97.0, 50.0), (2.0, 97.0)),
        ((-40.0, 50.0), (30.0, 50.0), (0.0, 30.0)),
        ((70.0, 50.0), (240.0, 50.0), (70.0, 100.0)),
        ((140.0, 50.0), (-40.0, 50.0), (100.0, 0.0)),
    ],
)
def test_a_line_ends_where_the_piece_does(
    one: tuple[float, float], other: tuple[float, float], kept: tuple[float, float]
) -> None:
    found = clipped(line(one, other), SQUARE)
    assert found is not None
    assert (found.start.x, found.end.x) == pytest.approx(kept)
    assert (found.start.y, found.end.y, found.curves) == (50.0, 50.0, ())


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ((-40.0, 150.0), (140.0, 150.0)),
        ((-40.0, 50.0), (-5.0, 50.0)),
        ((105.0, 50.0), (140.0, 50.0)),
        ((-40.0, 50.0), (0.9, 50.0)),  # less than a millimetre of it
    ],
)
def test_of_one_beside_the_piece_nothing_is_left(one: tuple[float, float], other: tuple[float, float]) -> None:
    assert clipped(line(one, other), SQUARE) is None


def test_over_a_slot_it_goes_from_its_first_place_to_its_last() -> None:
    found = clipped(line((-40.0, 70.0), (140.0, 70.0)), STEPPED)
    assert found is not None
    assert (found.start.x, found.end.x) == pytest.approx((0.0, 100.0))
    within = clipped(line((35.0, 70.0), (55.0, 70.0)), STEPPED)
    assert within is None


def test_through_a_corner_it_keeps_what_lies_between_its_own_ends() -> None:
    down = clipped(line((50.0, 100.0), (50.0, 0.0)), TRIANGLE)
    assert down is not None
    assert down.start.near(Point(50.0, 100.0), 1e-6)
    assert down.end.near(Point(50.0, 0.0), 1e-6)


def bowed(one: float, other: float) -> tuple[Curve, ...]:
    """A line from one place across to the other at y = 50 that bows up by 15."""
    third = (other - one) / 3.0
    start, end = Point(one, 50.0), Point(other, 50.0)
    return (Cubic(start, Point(one + third, 70.0), Point(other - third, 70.0), end),)


def curved(one: float, other: float) -> MarkLine:
    run = bowed(one, other)
    return MarkLine("level", run[0].start, run[-1].end, curves=run)


def test_of_a_curved_line_the_same_is_kept() -> None:
    inside = clipped(curved(20.0, 80.0), SQUARE)
    assert inside is not None
    assert (inside.start, inside.end) == (Point(20.0, 50.0), Point(80.0, 50.0))
    across = clipped(curved(-40.0, 140.0), SQUARE)
    assert across is not None
    assert (across.start.x, across.end.x) == pytest.approx((0.0, 100.0), abs=1e-6)
    assert across.curves[0].start == across.start
    assert across.curves[-1].end == across.end
    slotted = clipped(curved(-40.0, 140.0), STEPPED)
    assert slotted is not None
    assert (slotted.start.x, slotted.end.x) == pytest.approx((0.0, 100.0), abs=1e-6)
    assert clipped(curved(120.0, 180.0), SQUARE) is None


def test_a_piece_holds_what_lies_on_it_or_as_good_as_on_its_outline() -> None:
    border = [each.start for each in SQUARE]
    assert holds(border, Point(50.0, 50.0))
    assert holds(border, Point(-0.9, 50.0))
    assert holds(border, Point(100.6, 100.6))
    assert not holds(border, Point(-1.1, 50.0))
    assert not holds(border, Point(100.8, 100.8))
    assert not holds(border, Point(50.0, 102.0))
