"""The numbers of the textbook that the trousers follow, worked by hand from its formulas (hip 94, waist 68, rise 28).

Practical Textbook of Fashion English, 3rd edition, part 3: front centre hip / 12 + 1.5 from the crease, fork hip / 16 +
0.5, the back's half as long again; curves past 3 and 4.25 cm from their corners. Lengths by plane geometry.
"""

from __future__ import annotations

import math

import pytest

from blocks.trousers.frame import Rise, back_centre, fork_drop, front_centre
from blocks.trousers.leg import round_at
from drafting.geometry import distance, length

RISE = Rise(hip=940.0, depth=280.0, hip_depth=206.0)


def crotch(rise: Rise, drop: float = 5.0) -> tuple[float, float]:
    front, back = front_centre(rise), back_centre(rise, drop)
    return front.straight + length(front.curve, 1e-6), back.straight + length(back.curve, 1e-6)


def test_points_lie_where_the_textbook_has_them() -> None:
    front, back = front_centre(RISE), back_centre(RISE, 5.0)
    assert (front.turn.x, front.turn.y) == pytest.approx((-93.333, -206.0), abs=0.01)
    assert (front.fork.x, front.fork.y) == pytest.approx((-157.083, -280.0), abs=0.01)
    assert (front.waist.x, front.waist.y) == pytest.approx((-83.333, 0.0), abs=0.01)
    assert (back.turn.x, back.turn.y) == pytest.approx((-70.0, -140.0), abs=0.01)
    assert (back.waist.x, back.waist.y) == pytest.approx((-50.0, 20.0), abs=0.01)
    assert (back.fork.x, back.fork.y) == pytest.approx((-188.958, -285.0), abs=0.01)


def test_the_crotch_is_as_long_as_worked_out() -> None:
    front, back = crotch(RISE)
    assert front == pytest.approx(313.31, abs=0.1)
    assert back == pytest.approx(375.87, abs=0.1)
    assert front + back == pytest.approx(689.18, abs=0.1)
    assert front_centre(RISE).straight == pytest.approx(206.243, abs=0.01)
    assert back_centre(RISE, 5.0).straight == pytest.approx(161.245, abs=0.01)


@pytest.mark.parametrize(
    ("hip", "depth", "hip_depth", "front", "back"),
    [(1100.0, 298.0, 215.0, 338.4, 409.0), (1260.0, 310.0, 220.0, 357.5, 436.2)],
)
def test_larger_sizes_are_as_long_as_worked_out(
    hip: float, depth: float, hip_depth: float, front: float, back: float
) -> None:
    assert crotch(Rise(hip, depth, hip_depth)) == pytest.approx((front, back), abs=0.2)


def test_the_seat_leans_as_the_textbook_has_it() -> None:
    back = back_centre(RISE, 5.0)
    lean = math.degrees(math.atan2(back.waist.x - back.turn.x, back.waist.y - back.turn.y))
    assert lean == pytest.approx(7.125, abs=0.001)


@pytest.mark.parametrize(("short", "drop"), [(0.0, 3.33), (3.0, 6.38), (5.0, 8.42), (10.0, 13.51)])
def test_the_fork_drops_by_what_shortens_the_inseam(short: float, drop: float) -> None:
    assert fork_drop(330.0, 39.08, 60.96, short) == pytest.approx(drop, abs=0.01)


def test_inseams_are_as_long_as_worked_out() -> None:
    front, back = front_centre(RISE).fork, back_centre(RISE, 5.0).fork
    knee, floor = -610.0, -1040.0

    def inseam(fork_x: float, fork_y: float, at_knee: float, at_hem: float) -> float:
        return math.hypot(fork_x + at_knee, fork_y - knee) + math.hypot(at_knee - at_hem, knee - floor)

    assert inseam(front.x, front.y, 118.0, 105.0) == pytest.approx(762.503, abs=0.01)
    assert inseam(back.x, back.y, 128.0, 115.0) == pytest.approx(760.864, abs=0.01)


def test_outseams_and_the_width_at_the_crotch_are_as_worked_out() -> None:
    """Chords over hip and knee, 104.460 and 104.435; 65.79 round at the crotch, on straight legs. The block's own
    outseams are curves, led to one length: the two chords differ by 0.024.
    """
    knee, floor, hip, crotch_at = -610.0, -1040.0, -206.0, -280.0
    front, back = front_centre(RISE), back_centre(RISE, 5.0)
    side = {
        "front": (front.waist.x + 680.0 / 4.0 + 22.5, -93.3333 + 940.0 / 4.0 + 5.0, 118.0, 105.0),
        "back": (-50.0 + math.sqrt((680.0 / 4.0 + 42.5) ** 2 - 20.0**2), -70.0 + 940.0 / 4.0 + 15.0, 128.0, 115.0),
    }
    wide = {}
    for (half, (waist, at_hip, at_knee, at_hem)), fork in zip(side.items(), (front.fork, back.fork), strict=True):
        chord = math.hypot(waist - at_hip, hip) + math.hypot(at_hip - at_knee, hip - knee)
        chord += math.hypot(at_knee - at_hem, knee - floor)
        assert chord == pytest.approx({"front": 1044.598, "back": 1044.353}[half], abs=0.01)
        out = at_hip + (at_knee - at_hip) * (hip - crotch_at) / (hip - knee)
        wide[half] = out - fork.x
    assert wide["front"] == pytest.approx(298.50, abs=0.02)
    assert wide["back"] == pytest.approx(359.43, abs=0.3)  # at the crotch, 5 mm above the end of its fork


@pytest.mark.parametrize(("below_crotch", "round_it"), [(450.0, 477.5), (550.0, 465.4)])
def test_a_cropped_leg_is_as_wide_as_worked_out(below_crotch: float, round_it: float) -> None:
    assert round_at(280.0 + below_crotch, 610.0, 492.0, 1040.0, 440.0) == pytest.approx(round_it, abs=0.1)


@pytest.mark.parametrize(
    ("change", "longer"),
    [
        (Rise(940.0, 290.0, 206.0), 19.5),
        (Rise(940.0, 280.0, 206.0, front_fork=10.0), 9.5),
        (Rise(940.0, 280.0, 206.0, back_fork=10.0), 9.6),
        (Rise(940.0, 280.0, 206.0, raised=10.0), 10.0),
    ],
)
def test_a_centimetre_in_each_place_lengthens_the_crotch_by_what_was_worked_out(change: Rise, longer: float) -> None:
    assert sum(crotch(change)) - sum(crotch(RISE)) == pytest.approx(longer, abs=0.3)


def test_a_lower_fork_lengthens_the_back_by_half_of_it() -> None:
    assert crotch(RISE, 15.0)[1] - crotch(RISE, 5.0)[1] == pytest.approx(4.9, abs=0.3)


def test_a_curve_passes_its_corner_at_the_distance_given() -> None:
    front = front_centre(RISE)
    corner = type(front.turn)(front.turn.x, front.fork.y)
    out = min(
        distance(corner, type(corner)(corner.x - s, corner.y + s))
        for s in [k * 0.01 for k in range(1, 6000)]
        if abs(front.at_level(corner.y + s) - (corner.x - s)) < 0.05
    )
    assert out == pytest.approx(30.0, abs=0.1)
