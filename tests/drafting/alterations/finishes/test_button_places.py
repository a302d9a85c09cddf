"""Where buttons lie on centre lines of plain rectangles: a button of 20 mm, the first 26.35 below the neck."""

from __future__ import annotations

import pytest

from drafting.alterations.finishes.button_places import button_places
from drafting.alterations.techniques.cutting.centre_line import CentreLine
from drafting.errors import NotAPattern
from drafting.geometry import Line, Point
from drafting.pattern import Edge, Level, MarkLine, Piece, Place, Role

FIRST = 20.0 + 6.35
CLEAR = 20.0
"""mm from the middle of such a button to a seam: its half and 1 cm."""


def centre(high: float, *, lower: Role = Role.HEM, bust: float | None = None, neck: float = 0.0) -> CentreLine:
    """The left edge of a rectangle, run downward; bust: so far below its top; neck: how far its top edge slants up."""
    corners = [Point(0.0, 0.0), Point(100.0, 0.0), Point(100.0, high + neck), Point(0.0, high)]
    names = (("hem", lower), ("side", Role.SEAM), ("top", Role.SEAM), ("centre", Role.SEAM))
    edges = tuple(
        Edge(name, (Line(one, other),), role, 10.0, Place.CENTRE_FRONT if name == "centre" else Place.SIDE)
        for (name, role), one, other in zip(names, corners, corners[1:] + corners[:1], strict=True)
    )
    level = () if bust is None else (high - bust,)
    lines = tuple(MarkLine("bust", Point(0.0, y), Point(100.0, y), level=Level.BUST) for y in level)
    piece = Piece("front", edges, lines=lines)
    return CentreLine(piece, (edges[3],), edges[2], edges[0], downward=True)


def places(*row: CentreLine, count: int | None = None) -> list[float]:
    return [round(at, 6) for at in button_places(row, 20.0, count)]


def each(space: float, count: int, first: float = FIRST) -> list[float]:
    return [round(first + space * k, 6) for k in range(count)]


@pytest.mark.parametrize(("beyond", "count"), [(0.0, 5), (-0.1, 4), (79.9, 5), (80.0, 6)])
def test_the_last_lies_a_space_and_a_half_above_the_hem_at_least(beyond: float, count: int) -> None:
    assert places(centre(FIRST + 5.5 * 80.0 + beyond)) == each(80.0, count)


def test_above_a_seam_the_last_lies_half_a_space_to_a_whole_one() -> None:
    assert places(centre(FIRST + 380.0, lower=Role.SEAM)) == each(80.0, 5)
    # of 330 mm are 4 spaces and a half of 73.33, or 3 and a half to 4 of 82.5 to 94.3: nearest to 80 is 82.5
    assert places(centre(FIRST + 330.0, lower=Role.SEAM)) == each(82.5, 4)
    # too short for any space: one button
    assert places(centre(FIRST + 45.0, lower=Role.SEAM)) == each(80.0, 1)


@pytest.mark.parametrize(("below", "space"), [(150.0, 75.0), (170.0, 85.0), (65.0, 65.0), (320.0, 80.0), (50.0, 80.0)])
def test_one_lies_at_the_bust_level_where_spaces_of_six_to_nine_centimetres_reach_it(
    below: float, space: float
) -> None:
    made = places(centre(600.0, bust=FIRST + below))
    assert made[:4] == each(space, 4)


@pytest.mark.parametrize(
    ("left", "space"),
    [
        (164.0, 72.0),  # 2 spaces end clear above it at 144 at most; clear below it, at 184, they would be too wide
        (150.0, 85.0),  # 2 spaces end clear below it at 170 at least, which is nearer than 130
        (75.0, 75.0 - CLEAR),  # no space of 60 to 90 ends close to it: just above it
        (5.0, 5.0 + CLEAR),  # too near to the first: just below it
    ],
)
def test_over_a_seam_at_the_waist_one_lies_close_to_it(left: float, space: float) -> None:
    made = places(centre(FIRST + left, lower=Role.SEAM), centre(400.0))
    assert made[:3] == each(space, 3)
    nearest = min(abs(at - (FIRST + left)) for at in made[1:])
    assert CLEAR - 1e-6 <= nearest <= CLEAR + 15.0 + 1e-6


def test_a_band_has_one_in_its_middle() -> None:
    assert places(centre(60.0, lower=Role.SEAM), centre(400.0)) == each(80.0, 4, first=30.0)
    assert places(centre(80.0, lower=Role.SEAM), centre(400.0))[0] == FIRST


def test_below_a_neck_that_slants_the_first_lies_lower() -> None:
    """Clear of the edge above: where that lies at 60 degrees, 23.1 mm are enough, below 26.35; at 30 degrees 40."""
    for neck, first in ((100.0 / 3**0.5, FIRST), (100.0 * 3**0.5, 2.0 * CLEAR)):
        assert places(centre(600.0, neck=neck))[0] == pytest.approx(first, abs=1e-6)


def test_so_many_as_asked_for_lie_evenly() -> None:
    # the rest of 600 is 5.5 spaces
    assert places(centre(FIRST + 550.0), count=5) == each(100.0, 5)
    assert places(centre(FIRST + 550.0, lower=Role.SEAM), count=6) == each(100.0, 6)
    with pytest.raises(NotAPattern, match="30 of them would lie only 18 mm apart"):
        places(centre(FIRST + 550.0), count=30)


def test_of_three_asked_for_the_middle_one_gives_way_to_a_seam_on_the_side_that_is_more_even() -> None:
    # the last lies a space and a half above the hem: spaces of 100 mm at the most, and of 85 at the least
    made = places(centre(FIRST + 97.0, lower=Role.SEAM), centre(350.0 - 97.0), count=3)
    assert made == pytest.approx([FIRST, FIRST + 97.0 + CLEAR, FIRST + 200.0])
