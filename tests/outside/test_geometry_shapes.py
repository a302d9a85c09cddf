"""Areas, crossings, offsets and cutting lines judged by shapely (GEOS), which knows polygons only.

Curves are handed over as polylines, so what is asked allows for their sag and no more.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from itertools import pairwise

import pytest
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Dot

from drafting.geometry import Curve, Line, Point, area, flatten, length, point_at, polyline, run_bounds
from drafting.geometry.allowance import MITRE_LIMIT, Margin, cutting_outline
from drafting.geometry.meet import meetings, outline_crossings
from drafting.geometry.offset import parallel_run
from drafting.geometry.tolerance import OFFSET
from drafting.pattern import Piece, Role
from drafting.pattern.cutting import cutting_line
from tests.drafting.geometry.shapes import bodice, garment_curve, polygon, random_cubics, rose, skirt

SAG = 1e-4


def line_of(run: Sequence[Curve], sag: float = SAG) -> LineString:
    return LineString([(p.x, p.y) for p in polyline(run, sag)])


def shape_of(outline: Sequence[Curve], sag: float = SAG) -> Polygon:
    return Polygon([(p.x, p.y) for p in polyline(outline, sag)])


def random_roses(count: int, *, seed: int, corners: int = 9) -> list[tuple[Curve, ...]]:
    source = random.Random(seed)
    return [rose([source.uniform(80.0, 300.0) for _ in range(source.randint(3, corners))]) for _ in range(count)]


@pytest.mark.parametrize("piece", [skirt(), bodice()], ids=lambda p: p.name)
def test_areas_and_bounds_agree(piece: Piece) -> None:
    shape = shape_of(piece.outline)
    assert area(piece.outline) == pytest.approx(shape.area, rel=1e-6)
    assert run_bounds(piece.outline) == pytest.approx(shape.bounds, abs=1e-3)


def test_the_area_of_a_cubic_and_its_chord_agrees_on_random_curves() -> None:
    for curve in random_cubics(300, seed=3):
        fine = [(p.x, p.y) for p in flatten(curve, 1e-3)]
        shoelace = 0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*fine, fine[0]]))
        whole = area([curve, Line(curve.end, curve.start)])
        assert whole == pytest.approx(shoelace, abs=1e-3 * length(curve) + 1e-6)


def test_as_many_crossings_as_shapely_finds_and_in_the_same_places() -> None:
    total = 0
    for a, b in zip(random_cubics(400, seed=11), random_cubics(400, seed=12), strict=True):
        if any(math.hypot(p.x - q.x, p.y - q.y) < 1e-6 for p in (a.start, a.end) for q in (b.start, b.end)):
            continue  # shared ends of the made cusps
        found = meetings(a, b)
        theirs = line_of([a], 1e-3).intersection(line_of([b], 1e-3))
        places = [] if theirs.is_empty else list(getattr(theirs, "geoms", [theirs]))
        if any(place.geom_type != "Point" for place in places):
            continue  # they run together on paper
        total += len(places)
        # a straight curve that turns back passes a place several times; on paper that is one
        mine = {(round(meeting.point.x, 4), round(meeting.point.y, 4)) for meeting in found}
        assert len(mine) == len(places)
        for meeting in found:
            assert min(place.distance(Dot(meeting.point.x, meeting.point.y)) for place in places) < 0.2
    assert total > 150


def test_outlines_are_simple_exactly_when_shapely_says_so() -> None:
    source = random.Random(21)
    verdicts = []
    for _ in range(300):
        corners = [(source.uniform(0, 100), source.uniform(0, 100)) for _ in range(source.randint(4, 7))]
        simple = not outline_crossings(polygon(*corners))
        assert simple == Polygon(corners).is_valid
        verdicts.append(simple)
    assert 30 < sum(verdicts) < 270


@pytest.mark.parametrize("distance", [6.0, 15.0, 25.0, 40.0])
@pytest.mark.parametrize("bends", [(0.4, -0.4), (0.6, 0.3), (-0.5, 0.5), (0.9, -0.2)])
def test_a_parallel_curve_keeps_its_distance(distance: float, bends: tuple[float, float]) -> None:
    curve = garment_curve(300.0, *bends)
    seam = line_of([curve])
    for side in (distance, -distance):
        for piece in parallel_run((curve,), side):
            for k in range(101):
                at = point_at(piece, k / 100)
                assert abs(seam.distance(Dot(at.x, at.y)) - distance) <= OFFSET + SAG


def test_a_parallel_curve_encloses_the_area_that_steiner_gives() -> None:
    # area of the strip = length * distance + distance^2 * turning / 2 (Steiner's formula)
    curve, distance = garment_curve(300.0, -0.5, 0.4), 20.0
    run = parallel_run((curve,), distance)
    strip = Polygon([(p.x, p.y) for p in polyline(run, SAG)] + [(p.x, p.y) for p in reversed(flatten(curve, SAG))])
    assert strip.is_valid
    assert strip.area == pytest.approx(length(curve) * distance + 0.5 * distance**2 * 0.9, abs=0.02 * length(curve))


def test_one_allowance_all_round_gives_the_mitred_buffer() -> None:
    for outline in random_roses(60, seed=31, corners=8):
        sharpest = min(_inner_angles(outline))
        if 1.0 / math.sin(0.5 * sharpest) > MITRE_LIMIT - 0.05:
            continue  # beyond the limit we cut points off in our own way
        mine = shape_of(cutting_outline([Margin((curve,), 12.0) for curve in outline]))
        theirs = shape_of(outline).buffer(12.0, join_style="mitre", mitre_limit=50.0)
        assert mine.symmetric_difference(theirs).area < 1e-3


def _inner_angles(outline: Sequence[Curve]) -> list[float]:
    angles = []
    for before, after in zip(outline, [*outline[1:], outline[0]], strict=True):
        back, on = before.start - before.end, after.end - after.start
        angles.append(math.atan2(on.cross(back), on.dot(back)) % (2.0 * math.pi))
    return angles


def test_a_different_allowance_on_every_edge_is_inside_no_cutting_line() -> None:
    source = random.Random(41)
    for outline in random_roses(80, seed=42):
        margins = [Margin((curve,), source.choice([0.0, 6.0, 10.0, 15.0, 30.0, 40.0])) for curve in outline]
        cut = shape_of(cutting_outline(margins))
        assert cut.is_valid
        for margin in margins:
            # the strip square to each edge over its length is the least there must be
            (edge,) = margin.curves
            out = (edge.end - edge.start).right().unit() * margin.allowance
            strip = Polygon([(p.x, p.y) for p in (edge.start, edge.end, edge.end + out, edge.start + out)])
            assert strip.difference(cut.buffer(1e-6)).area < 1e-6
        furthest = max(margin.allowance for margin in margins)
        assert cut.difference(shape_of(outline).buffer(MITRE_LIMIT * furthest + 1e-6)).area < 1e-6


@pytest.mark.parametrize("bend", [-2.0, -0.5, 0.0, 0.5, 2.0])
def test_ten_and_thirty_millimetres_on_edges_nearly_in_line_do_not_run_away(bend: float) -> None:
    lift = 200.0 * math.tan(math.radians(bend))
    outline = polygon((0, 0), (200, 0), (400, lift), (400, 150), (0, 150))
    cut = shape_of(cutting_outline([Margin((c,), a) for c, a in zip(outline, [10, 30, 10, 10, 10], strict=True)]))
    assert cut.is_valid
    assert cut.area == pytest.approx(_strips(outline, [10, 30, 10, 10, 10]), rel=0.01)


def _strips(outline: Sequence[Curve], allowances: Sequence[float]) -> float:
    """The area of the piece, the strips along its edges, and the square corners of those of 90 degrees."""
    strips = sum(length(curve) * allowance for curve, allowance in zip(outline, allowances, strict=True))
    return area(outline) + strips + 10 * 10 * 3 + 10 * 30


@pytest.mark.parametrize("piece", [skirt(), bodice()], ids=lambda p: p.name)
def test_a_piece_with_its_allowances_is_valid_and_holds_every_allowance(piece: Piece) -> None:
    cut = shape_of(cutting_line(piece))
    assert cut.is_valid
    assert cut.exterior.is_simple
    assert shape_of(piece.outline).difference(cut.buffer(1e-3)).area < 1e-3
    for edge in piece.edges:
        if edge.role not in (Role.FOLD, Role.DART_LEG):
            strip = line_of(edge.curves).buffer(-edge.allowance, single_sided=True, join_style="mitre")
            # single-sided buffers bulge at their ends by what shapely's own arcs stray (0.14 mm was measured)
            assert strip.difference(cut.buffer(0.2)).area < 0.5


def test_the_turned_up_hem_lies_within_the_piece_and_its_allowances() -> None:
    cut = shape_of(cutting_line(skirt()))
    left, bottom, right, _ = cut.bounds
    below = cut.intersection(Polygon([(left - 1, 0), (right + 1, 0), (right + 1, bottom - 1), (left - 1, bottom - 1)]))
    up = affinity.scale(below, 1.0, -1.0, origin=(0.0, 0.0))
    assert up.area > 10000.0
    assert up.difference(cut).area < 1e-3
    beyond = cut.intersection(Polygon([(left - 1, 0), (right + 1, 0), (right + 1, 40), (left - 1, 40)])).difference(up)
    assert beyond.area < 1e-2


def test_folding_a_dart_lays_its_allowance_on_the_cloth() -> None:
    piece = skirt()
    dart = piece.darts[0]
    cut = shape_of(cutting_line(piece))
    one, other = piece.edge("dart leg, side").start, piece.edge("dart leg, centre").end
    middle = (one - dart.apex).unit() + (other - dart.apex).unit()
    reach = 200.0
    ray = dart.apex + middle.unit() * reach
    leg = dart.apex + (other - dart.apex).unit() * reach
    half = cut.intersection(Polygon([(p.x, p.y) for p in (dart.apex, ray, leg)]))
    u = (other - dart.apex).unit()
    a, b = u.x * u.x - u.y * u.y, 2.0 * u.x * u.y
    x, y = dart.apex.x, dart.apex.y
    folded = affinity.affine_transform(half, [a, b, b, -a, x - a * x - b * y, y - b * x + a * y])
    assert half.area > 500.0
    assert folded.difference(cut).area < 1e-3


def test_nothing_of_a_point_is_lost_in_a_line_through_it() -> None:
    assert meetings(Line(Point(0, 0), Point(1, 1)), Line(Point(1, 1), Point(2, 0)))[0].point == Point(1, 1)
