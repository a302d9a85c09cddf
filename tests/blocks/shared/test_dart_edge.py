"""Edges with darts in them: legs equal, the folded edge one smooth line of the length that was asked for."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blocks.shared.dart_edge import DartPlan, angle_for, darted_edge, open_dart, sewn_length
from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, Vec, curvature, distance, end_tangents, length, moved, tangent, turn

many = settings(deadline=None, max_examples=60)
START, END = Point(0.0, 0.0), Point(220.0, 12.0)
LEAVING, ARRIVING = Vec(1.0, 0.0), Vec(math.cos(0.15), math.sin(0.15))


def plans(widths: list[float]) -> tuple[DartPlan, ...]:
    places = [220.0 * (i + 1) / (len(widths) + 1) for i in range(len(widths))]
    return tuple(
        DartPlan(f"dart {i}", Point(x, -110.0), Vec(0.0, 1.0), -angle_for(width, 110.0))
        for i, (x, width) in enumerate(zip(places, widths, strict=True))
    )


widths = st.lists(st.floats(8.0, 32.0), min_size=1, max_size=3)


@many
@given(widths)
def test_the_legs_of_every_dart_are_equal(wide: list[float]) -> None:
    opened = darted_edge(START, LEAVING, END, ARRIVING, plans(wide))
    assert len(opened.legs) == len(wide)
    for leg_in, leg_out in opened.legs:
        assert distance(leg_in.start, leg_in.end) == pytest.approx(distance(leg_out.start, leg_out.end), abs=1e-9)


@many
@given(widths)
def test_folding_a_dart_brings_the_edge_together_without_a_corner(wide: list[float]) -> None:
    darts = plans(wide)
    opened = darted_edge(START, LEAVING, END, ARRIVING, darts)
    for dart, before, beyond in zip(darts, opened.parts, opened.parts[1:], strict=False):
        folded = moved(beyond, turn(dart.apex, -dart.angle))
        assert distance(before.end, folded.start) < 1e-9
        assert tangent(before, 1.0).cross(tangent(folded, 0.0)) == pytest.approx(0.0, abs=1e-9)
        # not a corner, and not a sudden change of bend either
        assert curvature(before, 1.0) == pytest.approx(curvature(folded, 0.0), abs=1e-7)


@many
@given(widths)
def test_the_parts_are_together_as_long_as_the_folded_edge(wide: list[float]) -> None:
    darts = plans(wide)
    parts = darted_edge(START, LEAVING, END, ARRIVING, darts).parts
    assert sum(map(length, parts)) == pytest.approx(sewn_length(START, LEAVING, END, ARRIVING, darts), abs=3e-4)


@many
@given(widths)
def test_the_edge_keeps_its_ends_and_its_directions(wide: list[float]) -> None:
    parts = darted_edge(START, LEAVING, END, ARRIVING, plans(wide)).parts
    assert (parts[0].start, parts[-1].end) == (START, END)
    assert end_tangents(parts[0])[0].cross(LEAVING) == pytest.approx(0.0, abs=1e-9)
    assert end_tangents(parts[-1])[1].cross(ARRIVING) == pytest.approx(0.0, abs=1e-6)


@many
@given(st.floats(2.0, 80.0), st.floats(60.0, 260.0))
def test_a_dart_is_as_wide_as_its_angle_says(width: float, leg: float) -> None:
    apex = Point(0.0, -leg)
    before, leg_in, leg_out, beyond = open_dart(
        Line(Point(-50.0, 0.0), Point(50.0, 0.0)), 0.5, apex, angle_for(width, leg)
    )
    assert distance(before.end, beyond.start) == pytest.approx(width, abs=1e-9)
    assert leg_in.end == leg_out.start == apex


def test_darts_that_take_up_the_whole_edge_are_refused() -> None:
    with pytest.raises(NotAPattern):
        darted_edge(START, LEAVING, END, ARRIVING, plans([75.0, 75.0, 75.0]))


def test_a_dart_beside_the_edge_is_refused() -> None:
    beside = DartPlan("stray", Point(900.0, -110.0), Vec(0.0, 1.0), -0.1)
    with pytest.raises(NotAPattern):
        darted_edge(START, LEAVING, END, ARRIVING, (beside,))


def test_a_dart_that_would_add_more_than_it_can_be_opened_by_is_refused() -> None:
    assert angle_for(-30.0, 110.0) == -angle_for(30.0, 110.0)
    with pytest.raises(NotAPattern, match="opened by"):
        angle_for(-221.0, 110.0)
