"""How far a back neck is eased for its allowance, and the grain line that is put in the middle of a piece."""

from __future__ import annotations

import math

import pytest

from drafting.alterations.techniques.marks.grain_line import grain_in_middle
from drafting.alterations.techniques.redrawing.fair_neck import MORE_BEHIND, eased_rise
from drafting.geometry import Line, Point, Vec, distance, lerp


def rise_and_turn(radius: float, angle: float) -> tuple[Vec, Vec]:
    """Where an arc that begins level comes to, and the direction it comes in."""
    return (
        Vec(radius * math.sin(angle), radius * (1.0 - math.cos(angle))),
        Vec(math.cos(angle), math.sin(angle)),
    )


@pytest.mark.parametrize("angle", [0.4, 0.9, 1.4])
@pytest.mark.parametrize("allowance", [6.0, 10.0, 15.0])
def test_a_back_neck_is_eased_only_where_its_arc_is_tighter_than_its_allowance_and_3_mm(
    angle: float, allowance: float
) -> None:
    """Plane geometry: an arc that turns by an angle rises by radius * (1 - cos). 1 % more is for its cubic (ours)."""
    assert MORE_BEHIND == 3.0
    least = 1.01 * (allowance + 3.0)
    across, into = rise_and_turn(least + 0.1, angle)
    assert eased_rise(Vec(1.0, 0.0), into, across, allowance) == 0.0
    across, into = rise_and_turn(0.9 * least, angle)
    eased = eased_rise(Vec(1.0, 0.0), into, across, allowance)
    assert least * (1.0 - math.cos(angle - eased)) == pytest.approx(across.y)


@pytest.mark.parametrize("angle", [0.0, 0.3, math.pi / 4, math.pi / 2])
def test_a_grain_line_in_the_middle_of_a_rectangle_has_the_middle_of_it_in_its_own(angle: float) -> None:
    corners = [Point(20.0, 50.0), Point(320.0, 50.0), Point(320.0, 550.0), Point(20.0, 550.0)]
    sides = [Line(one, other) for one, other in zip(corners, [*corners[1:], corners[0]], strict=True)]
    grain = grain_in_middle(sides, Vec(math.cos(angle), math.sin(angle)))
    assert grain is not None
    assert (grain.end - grain.start).angle_to(Vec(math.cos(angle), math.sin(angle))) == pytest.approx(0.0)
    assert lerp(grain.start, grain.end, 0.5).near(Point(170.0, 300.0))
    across = min(300.0 / max(math.cos(angle), 1e-9), 500.0 / max(math.sin(angle), 1e-9))
    assert distance(grain.start, grain.end) == pytest.approx(0.6 * across)
