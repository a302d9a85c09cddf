"""The picture of the whole garment: darts closed without gaps, gathers drawn up to what they are sewn to."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, draft, prepare
from drafting.alterations import FullSleeve, GatherSkirt, Godet, PatchPocket, apply_step
from drafting.geometry import Line, Point, distance
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import (
    BodyPart,
    Cut,
    Edge,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    pieces_of,
    require_edge,
)
from output.drawings.details_picture import puffed
from output.drawings.drawing import Stroke
from output.drawings.flat_shape import flat_shape
from output.drawings.garment_picture import garment_views
from output.drawings.hanging_skirt import as_it_hangs
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import order, sized
from tests.examples import example_pattern


@pytest.mark.parametrize("bust", [80, 92, 104, 116])
def test_a_waist_with_its_darts_closed_is_one_line(bust: int) -> None:
    for piece in sized(bust).pieces:
        shape = flat_shape(piece)
        lines = {edge.name: line for edge, line in shape.edges}
        waist = [lines[edge.name] for edge in edges_at(piece, Place.WAIST)]
        for one, other in pairwise(waist):
            # mm: in a picture of a whole garment less than a line is wide
            assert distance(one[-1], other[0]) == pytest.approx(0.0, abs=1.0), piece.name


def test_a_gathered_skirt_is_as_wide_at_its_waist_as_it_is_sewn_and_shows_its_folds() -> None:
    plain = sized(92, "skirt")
    gathered = apply_step(plain, GatherSkirt(2.0))
    (front,) = pieces_of(plain, PieceKind.FRONT)
    as_sewn = 2.0 * sum(edge.length for edge in edges_at(front, Place.WAIST))
    view, before = garment_views(gathered)[0], garment_views(plain)[0]
    highest = max(stroke.curves[0].start.y for stroke in view.items)
    ends = [p for stroke in view.items for curve in stroke.curves for p in (curve.start, curve.end)]
    across = [p.x for p in ends if p.y > highest - 1.0]
    assert max(across) - min(across) == pytest.approx(as_sewn, rel=0.05)
    assert len(view.items) > len(before.items) + 10


def test_a_circle_skirt_hangs_as_long_as_it_is_cut_and_stands_off_by_no_more_than_cloth_does() -> None:
    """Cut, half of it is a quarter of a ring that reaches out level; its hem rises and falls along the folds."""
    ring = sorted(k * math.pi / 64 for k in range(33))
    waist, hem = 110.0, 700.0
    line = [[Point(r * math.cos(a), r * math.sin(a)) for a in ring] for r in (waist, hem)]
    upper, lower = (tuple(Point(-p.x, -p.y) for p in each) for each in line)
    piece = ring_piece(upper, lower)
    (hung,), folds = as_it_hangs([flat_shape(piece)])
    assert len(folds) >= 3
    deep = max(p.y for p in hung.outline) - min(p.y for p in hung.outline)
    assert deep == pytest.approx(hem - waist, abs=10.0)
    half = max(abs(p.x) for p in hung.outline)
    assert half == pytest.approx(waist * math.pi / 2 + math.tan(math.radians(24.0)) * (hem - waist), rel=0.02)


def ring_piece(upper: Sequence[Point], lower: Sequence[Point]) -> Piece:
    """A quarter of a ring, from its side round the hem to its centre and back along the waist."""
    sides = Line(upper[0], lower[0]), Line(lower[-1], upper[-1])
    return Piece(
        "skirt front",
        (
            Edge("side", (sides[0],), place=Place.SIDE),
            Edge("hem", polyline_of(lower), Role.HEM, place=Place.HEM),
            Edge("centre", (sides[1],), Role.FOLD, place=Place.CENTRE_FRONT),
            Edge("waist", polyline_of(upper[::-1]), place=Place.WAIST),
        ),
        Cut(1, True),
        identity=Identity(PieceKind.FRONT, BodyPart.SKIRT),
    )


def polyline_of(places: Sequence[Point]) -> tuple[Line, ...]:
    return tuple(Line(a, b) for a, b in pairwise(places))


def test_a_patch_pocket_is_drawn_where_it_is_sewn_on() -> None:
    plain = sized(92, "skirt")
    sewn = apply_step(plain, PatchPocket("skirt front", width=140.0))
    (pocket,) = pieces_of(sewn, PieceKind.POCKET)
    before, after = garment_views(plain)[0], garment_views(sewn)[0]
    assert len(after.items) == len(before.items) + 2 * len(pocket.edges)


@pytest.mark.parametrize(("share", "drawn"), [(1.0, 100.0), (0.5, 75.0)])
def test_the_end_of_a_sleeve_is_drawn_in_to_its_cuff_and_nothing_above_it_is(share: float, drawn: float) -> None:
    assert puffed(Point(100.0, 0.0), 50.0, 0.0, share).x == pytest.approx(drawn)
    assert puffed(Point(100.0, 200.0), 50.0, 0.0, share).x == pytest.approx(100.0)


def lines_of(pattern: Pattern, side: str) -> list[list[Point]]:
    """Every line of the picture from one side, as places."""
    view = next(each for each in garment_views(pattern) if each.side == side)
    return [stroke_places(item) for item in view.items if isinstance(item, Stroke)]


def stroke_places(stroke: Stroke) -> list[Point]:
    return [stroke.curves[0].start, *(curve.end for curve in stroke.curves)]


def test_a_sash_is_tied_in_front() -> None:
    base = sized(92)
    sashed = with_part(base, part_of(find_part("sash"), {}))
    front, back = (len(lines_of(sashed, side)) - len(lines_of(base, side)) for side in ("front", "back"))
    assert front >= 8  # a band, a knot, a loop and an end on each half
    assert back == 2
    low = min(p.y for line in lines_of(sashed, "front") for p in line)
    assert low == pytest.approx(min(p.y for line in lines_of(base, "front") for p in line))


def test_a_cuff_is_as_wide_as_the_sleeve_drawn_in_to_it() -> None:
    base = apply_step(sized(92), FullSleeve(hem=60.0))
    cuffed = with_part(base, part_of(find_part("cuff"), {}))
    whole = sum(edge.length for edge in cuffed.piece("cuff").edges if edge.place is Place.WRIST)
    drawn = {round(distance(line[0], line[-1]), 1): line for line in lines_of(cuffed, "front") if len(line) > 3}
    found = [wide for wide, line in drawn.items() if min(p.x for p in line) > 200.0 and 80.0 < wide < 200.0]
    assert any(wide == pytest.approx(0.5 * whole, rel=0.06) for wide in found)
    assert not any(wide > 0.53 * whole for wide in found)


def test_the_two_halves_of_a_skirt_of_four_gores_meet_down_the_centre() -> None:
    garment = replace(order(), blocks=(BlockOrder(find_block("gored skirt"), {"gores": "4"}),))
    pattern = draft(garment, prepare(garment))
    centre = [line for line in lines_of(pattern, "front") if max(abs(p.x) for p in line) < 5.0]
    long = sum(abs(line[0].y - line[-1].y) for line in centre)
    edge = require_edge(pieces_of(pattern, PieceKind.FRONT, BodyPart.SKIRT)[0], Place.CENTRE_FRONT)
    assert long == pytest.approx(2.0 * edge.length, rel=0.02)


@pytest.mark.parametrize(("at", "wider"), [("side seam", True), ("slits", False)])
def test_a_godet_is_seen_at_the_side_and_closes_the_hem_over_a_slit(at: str, wider: bool) -> None:
    plain = sized(92, "skirt")
    views = garment_views(plain)[0], garment_views(apply_step(plain, Godet(at=at)))[0]
    before, after = (
        [p for stroke in view.items for curve in stroke.curves for p in (curve.start, curve.end)] for view in views
    )
    assert (max(p.x for p in after) > max(p.x for p in before) + 20.0) is wider
    assert (min(p.y for p in after) < min(p.y for p in before) - 5.0) is not wider


def test_the_band_of_a_cardigan_comes_down_to_the_lower_edge() -> None:
    """Its front band goes over the end of the band at the hem, which else has a gap there."""
    items = garment_views(example_pattern("quayside-cardigan"))[0].items
    ends = [p for stroke in items for curve in stroke.curves for p in (curve.start, curve.end)]
    lowest = min(p.y for p in ends)
    assert min(p.y for p in ends if abs(p.x) < 20.0) == pytest.approx(lowest, abs=3.0)
