"""The sleeve triangle against the trade's worked figures (a teaching page, "Understanding the sleeve", whose model it
is; the figures follow by plane geometry), and caps against the measures they are drawn to."""

from __future__ import annotations

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Line, Point, end_tangents, lerp, run_length
from drafting.geometry.cap import Cap, cap_of_height, cap_of_width, redrawn_cap, triangle_height

CAP = Cap(
    (Cubic(Point(0.0, 0.0), Point(60.0, 10.0), Point(70.0, 120.0), Point(180.0, 120.0)),),
    (Cubic(Point(360.0, 0.0), Point(285.0, 12.0), Point(270.0, 120.0), Point(180.0, 120.0)),),
)


def triangle_width(front: float, back: float, height: float) -> float:
    """The width of a cap of this height over straight diagonals of these lengths, mm: Pythagoras, twice."""
    return float((front**2 - height**2) ** 0.5 + (back**2 - height**2) ** 0.5)


@pytest.mark.parametrize(
    ("height", "width"), [(120.0, 356.5), (130.0, 342.2), (140.0, 325.9), (150.0, 307.4), (160.0, 286.4)]
)
def test_diagonals_and_width_give_the_height(height: float, width: float) -> None:
    assert triangle_width(205.0, 225.0, height) == pytest.approx(width, abs=0.05)
    assert triangle_height(205.0, 225.0, width) == pytest.approx(height, abs=0.05)


def test_two_centimetres_wider_on_the_same_diagonals_is_lower() -> None:
    width = triangle_width(205.0, 225.0, 150.0) + 20.0
    assert triangle_height(205.0, 225.0, width) == pytest.approx(139.1, abs=0.05)


def test_two_centimetres_wider_at_the_same_height_lengthens_the_diagonals_by_what_the_trade_says() -> None:
    front, back = ((side**2 - 150.0**2) ** 0.5 + 10.0 for side in (205.0, 225.0))
    grown = [(half**2 + 150.0**2) ** 0.5 for half in (front, back)]
    assert [grown[0] - 205.0, grown[1] - 225.0] == pytest.approx([6.9, 7.6], abs=0.06)
    assert sum(grown) - 430.0 == pytest.approx(14.5, abs=0.05)
    assert triangle_width(grown[0], grown[1], 150.0) == pytest.approx(front + back)


@pytest.mark.parametrize("height", [40.0, 100.0, 199.0])
def test_height_and_width_of_the_triangle_undo_each_other(height: float) -> None:
    assert triangle_height(205.0, 225.0, triangle_width(205.0, 225.0, height)) == pytest.approx(height)


def test_a_triangle_that_does_not_close_is_refused() -> None:
    with pytest.raises(NotAPattern, match="does not reach over"):
        triangle_height(100.0, 100.0, 250.0)


@pytest.mark.parametrize(
    ("back", "front", "width"), [(226.0, 225.0, 360.0), (260.0, 240.0, 340.0), (200.0, 205.0, 370.0)]
)
def test_a_cap_has_the_lengths_and_the_width_it_was_asked_for(back: float, front: float, width: float) -> None:
    cap = cap_of_width(CAP, back=back, front=front, width=width, turned=0.05)
    assert run_length(cap.back, 1e-9) == pytest.approx(back, abs=1e-7)
    assert run_length(cap.front, 1e-9) == pytest.approx(front, abs=1e-7)
    assert cap.width == pytest.approx(width)


def test_a_cap_keeps_its_height_when_it_is_asked_to() -> None:
    cap = cap_of_height(CAP, back=240.0, front=245.0, height=120.0)
    assert (cap.height, run_length(cap.back, 1e-9), run_length(cap.front, 1e-9)) == pytest.approx((120.0, 240.0, 245.0))


def test_a_longer_cap_on_the_same_line_is_higher() -> None:
    heights = [cap_of_width(CAP, back=215.0 + e, front=215.0 + e, width=360.0).height for e in (0.0, 10.0, 20.0, 30.0)]
    assert heights == sorted(heights)


def test_a_redrawn_cap_stays_smooth_at_the_crown_and_leaves_the_underarm_as_it_is_told() -> None:
    cap = redrawn_cap(CAP, back_width=170.0, width=400.0, height=90.0, turned=0.1)
    assert end_tangents(cap.back[0])[1].y == pytest.approx(0.0, abs=1e-12)
    assert end_tangents(cap.front[0])[1].y == pytest.approx(0.0, abs=1e-12)
    assert end_tangents(cap.back[0])[0].angle() == pytest.approx(end_tangents(CAP.back[0])[0].angle() + 0.1)
    assert end_tangents(cap.front[0])[0].angle() == pytest.approx(end_tangents(CAP.front[0])[0].angle() - 0.1)


def test_redrawn_in_its_own_measures_a_cap_is_what_it_was() -> None:
    assert redrawn_cap(CAP, back_width=CAP.back_width, width=CAP.width, height=CAP.height) == CAP


@pytest.mark.parametrize(("back", "front", "width"), [(150.0, 150.0, 360.0), (400.0, 190.0, 360.0)])
def test_a_cap_that_no_sleeve_has_is_refused(back: float, front: float, width: float) -> None:
    with pytest.raises(NotAPattern, match="over a sleeve so wide"):
        cap_of_width(CAP, back=back, front=front, width=width)


def test_a_cap_of_straight_sides_is_redrawn_with_the_handles_of_straight_lines() -> None:
    origin, crown, far = Point(0.0, 0.0), Point(180.0, 120.0), Point(360.0, 0.0)
    cap = redrawn_cap(Cap((Line(origin, crown),), (Line(far, crown),)), back_width=150.0, width=330.0, height=90.0)
    # the first handle goes on leaving as the side did, a third of its way; the last is that of a straight line
    for (curve,), first in ((cap.back, Point(50.0, 100.0 / 3.0)), (cap.front, Point(270.0, 40.0))):
        assert isinstance(curve, Cubic)
        assert curve.c1.near(first, 1e-9)
        assert curve.c2.near(lerp(curve.start, curve.end, 2.0 / 3.0), 1e-9)
    assert (cap.back[0].end, cap.front[0].end) == (Point(150.0, 90.0), Point(150.0, 90.0))
    middle = Point(90.0, 70.0)
    bent = Cap((Line(origin, middle), Line(middle, crown)), (Line(far, crown),))
    again = redrawn_cap(bent, back_width=180.0, width=360.0, height=60.0).back
    assert again[1] == Line(Point(90.0, 35.0), Point(180.0, 60.0))


@pytest.mark.parametrize(("back_width", "drawn"), [(0.24, False), (0.26, True), (0.74, True), (0.76, False)])
def test_the_crown_of_a_cap_lies_in_the_middle_half_of_its_width(back_width: float, drawn: bool) -> None:
    crown = Point(360.0 * back_width, 120.0)
    cap = Cap((Line(Point(0.0, 0.0), crown),), (Line(Point(360.0, 0.0), crown),))
    lengths = {"back": run_length(cap.back), "front": run_length(cap.front)}
    if drawn:
        assert cap_of_height(cap, **lengths, height=120.0).back_width == pytest.approx(360.0 * back_width)
    else:
        with pytest.raises(NotAPattern, match="too far to one side"):
            cap_of_height(cap, **lengths, height=120.0)
