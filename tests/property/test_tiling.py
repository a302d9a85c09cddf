"""Laws of cutting: the parts of a drawing lie where they should, and put together they are the whole."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drafting.geometry import Cubic, Curve, Line, Point, bounds, length, run_length
from drafting.pattern import Edge, Pattern, Piece, Role, Wearer
from output.drawings.clip_to_box import curve_within
from output.drawings.drawing import Box, Stroke
from output.sheets.large_sheet import lay_out
from output.sheets.papers import PAPERS
from output.sheets.tiling import BLEED, tiles
from tests.output.whole_sheet import PATTERN_KINDS

coordinates = st.floats(-150.0, 150.0)
points = st.builds(Point, coordinates, coordinates)
curves = st.one_of(st.builds(Line, points, points), st.builds(Cubic, points, points, points, points))

# Sides at places that no generated line runs along: such a line belongs to the cells on both sides of it.
CELLS = [
    Box(x + 0.3183, y + 0.2718, x + 50.3183, y + 60.2718)
    for x, y in product(range(-200, 200, 50), range(-240, 240, 60))
]


@settings(deadline=None, max_examples=40)
@given(curves)
def test_cut_to_the_cells_of_a_grid_a_curve_keeps_its_length(curve: Curve) -> None:
    parts = [part for cell in CELLS for part in curve_within(curve, cell)]
    assert sum(length(part) for part in parts) == pytest.approx(length(curve), abs=1e-2)


@settings(deadline=None, max_examples=40)
@given(curves, st.sampled_from(CELLS))
def test_no_part_leaves_its_box(curve: Curve, box: Box) -> None:
    for part in curve_within(curve, box):
        left, bottom, right, top = bounds(part)
        assert box.grown(1e-6).holds(Point(left, bottom))
        assert box.grown(1e-6).holds(Point(right, top))


@st.composite
def pieces(draw: st.DrawFn, name: str) -> Piece:
    """A four-sided piece with a bent side, of any size that is cut for a garment."""
    width, height = draw(st.floats(20.0, 500.0)), draw(st.floats(20.0, 900.0))
    bulge, allowance = draw(st.floats(-0.2, 0.3)) * width, draw(st.sampled_from([0.0, 10.0, 15.0]))
    a, b, c, d = Point(0, 0), Point(width, 0), Point(width, height), Point(0, height)
    side = Cubic(b, Point(width + bulge, 0.3 * height), Point(width + bulge, 0.7 * height), c)
    shapes: tuple[tuple[str, Curve], ...] = (
        ("hem", Line(a, b)),
        ("side", side),
        ("top", Line(c, d)),
        ("centre", Line(d, a)),
    )
    edges = tuple(Edge(key, (curve,), Role.SEAM, allowance) for key, curve in shapes)
    return Piece(name, edges)


@settings(deadline=None, max_examples=8, suppress_health_check=[HealthCheck.too_slow])
@given(st.data(), st.sampled_from(list(PAPERS)), st.integers(1, 4))
def test_tiles_put_back_together_give_the_sheet(data: st.DataObject, name: str, count: int) -> None:
    pattern = Pattern("Rags", Wearer("Oda"), tuple(data.draw(pieces(f"piece {n}")) for n in range(count)))
    sheet = lay_out(pattern, paper=PAPERS[name])
    found = tiles(sheet)
    for kind in PATTERN_KINDS:
        whole = sum(run_length(item.curves) for item in sheet.items if isinstance(item, Stroke) and item.kind is kind)
        parts = 0.0
        for tile in found:
            # each sheet's own part reaches half an overlap less far than what it shows
            own = Box(
                tile.area.left + 0.5 * tile.paper.overlap_x,
                tile.area.bottom + 0.5 * tile.paper.overlap_y,
                tile.area.right - 0.5 * tile.paper.overlap_x,
                tile.area.top - 0.5 * tile.paper.overlap_y,
            )
            for item in tile.items:
                if isinstance(item, Stroke) and item.kind is kind:
                    parts += sum(run_length(cut) for curve in item.curves if (cut := curve_within(curve, own)))
        assert parts == pytest.approx(whole, abs=0.05)
    for tile in found:
        assert tile.shown.width == pytest.approx(tile.area.width)
        assert tile.area.grown(-BLEED).width < tile.paper.area_width
