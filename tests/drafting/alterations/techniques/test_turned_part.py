"""A part of a piece turned about a point: what lies on it goes with it, what does not stays."""

from __future__ import annotations

import math

import pytest

from drafting.alterations.techniques.pivoting.pivot import turned_part
from drafting.geometry import distance, encloses, lerp, turn
from tests.drafting.dress import dress


@pytest.mark.parametrize("angle", [0.1, -0.2])
def test_the_part_holds_its_own_places_and_is_turned_about_the_point(angle: float) -> None:
    front = dress().piece("bodice front")
    pivot = front.point("bust point")
    armhole = front.edge("armhole")
    part = turned_part(pivot, [armhole], angle)
    assert part.names == {"armhole"}
    for share in (0.2, 0.5, 0.8):
        place = lerp(pivot, armhole.curves[0].end, share)
        assert part.holds(place)
        assert part.holds(lerp(pivot, turn(pivot, math.pi).point(place), 0.5)) is False
        assert distance(part.move.point(place), pivot) == pytest.approx(distance(place, pivot))
    assert part.move.point(pivot).near(pivot)
    away = armhole.start - pivot
    assert away.angle_to(part.move.vec(away)) == pytest.approx(angle)


def test_a_polygon_encloses_what_lies_between_its_sides() -> None:
    square = [front.start for front in dress().piece("skirt front").outline]
    low, high = min(p.y for p in square), max(p.y for p in square)
    inner = dress().piece("skirt front").grain
    assert inner is not None
    middle = lerp(inner.start, inner.end, 0.5)
    assert encloses(square, middle)
    assert not encloses(square, middle + (inner.end - inner.start).unit() * 2.0 * (high - low))
