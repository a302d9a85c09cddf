"""What a tape measures where it is laid: figures that are worked out beside the pattern."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.geometry import Line, Point, Vec
from drafting.pattern import (
    Across,
    Along,
    Between,
    Dart,
    Edge,
    Grain,
    MarkLine,
    MarkPoint,
    Measure,
    Pattern,
    Piece,
    Place,
    Role,
    Station,
    Tape,
    Wearer,
    across,
    finished,
    finished_length,
)
from drafting.pattern.locate import reach
from drafting.pattern.measure import Bent, Curved
from drafting.pattern.pattern import with_measures_left
from drafting.pattern.pockets import above_hem
from drafting.pattern.walk import DrawnUp, Walked

A, B, C, D = Point(0.0, 0.0), Point(300.0, 0.0), Point(300.0, 400.0), Point(0.0, 400.0)
SQUARE = Piece(
    "panel",
    tuple(
        Edge(name, (Line(start, end),), place=place)
        for name, start, end, place in (
            ("hem", A, B, Place.HEM),
            ("side", B, C, Place.SIDE),
            ("waist", C, D, Place.WAIST),
            ("centre", D, A, Place.CENTRE_FRONT),
        )
    ),
    lines=(
        MarkLine("level", Point(20.0, 100.0), Point(150.0, 100.0)),
        MarkLine("rising", Point(150.0, 100.0), Point(250.0, 200.0)),
        MarkLine("corner", D, C),
        MarkLine("high", Point(10.0, 500.0), Point(50.0, 530.0)),
    ),
    points=(MarkPoint("low", Point(30.0, 40.0)), MarkPoint("top", Point(60.0, 80.0))),
)
ROOT_2 = math.sqrt(2.0)


def measured(*tape: Tape, piece: Piece = SQUARE) -> float:
    return finished_length(Pattern("Panel", Wearer("Inga"), (piece,)), Measure("tape", tape))


@pytest.mark.parametrize(
    ("tape", "mm"),
    [
        (Across("panel", "level"), 300.0),  # from edge to edge, though the mark is shorter
        (Across("panel", "level", 2.0), 600.0),
        (Across("panel", "high"), 50.0),  # it meets no edge: the mark itself
        (Along("panel", "side"), 400.0),
        (Along("panel", "side", 0.5), 200.0),
        (Between("panel", "low", "top"), 50.0),
        (Between("panel", "low", "top", 4.0), 200.0),
        (Curved("panel", "level", 30.0), 30.0),
        (Curved("panel", "level", 30.0, 3.0), 90.0),
        # from the seam they share to the edge behind, and on to the edge ahead
        (Bent("panel", "level", "rising"), 150.0 + 150.0 * ROOT_2),
        (Bent("panel", "level", "rising", 2.0), 300.0 + 300.0 * ROOT_2),
    ],
)
def test_a_tape_measures_what_it_lies_on(tape: Tape, mm: float) -> None:
    assert measured(tape) == pytest.approx(mm, abs=1e-6)


def test_where_a_sleeve_is_cut_in_one_with_it_a_line_ends_where_the_body_does() -> None:
    sleeved = replace(
        SQUARE, edges=tuple(replace(e, place=Place.OVERARM) if e.name == "waist" else e for e in SQUARE.edges)
    )
    assert measured(Across("panel", "level"), piece=sleeved) == pytest.approx(130.0)
    assert measured(Bent("panel", "level", "rising", 2.0), piece=sleeved) == pytest.approx(
        2.0 * (130.0 + 100.0 * ROOT_2)
    )


def test_a_measurement_is_all_its_tapes_and_what_goes_on_beyond_them() -> None:
    tape = (Along("panel", "side"), Along("panel", "hem", 2.0))
    girth = Measure("girth", tape, "hip_girth", 950.0, 60.0, 20.0, round=True, beyond=5.0)
    plain = Measure("length", tape[:1])
    (one, other) = finished(Pattern("Panel", Wearer("Inga"), (SQUARE,), measures=(girth, plain)))
    assert (one.name, one.finished, one.body, one.ease, one.least) == ("girth", 1005.0, 950.0, 55.0, 20.0)
    assert (other.name, other.finished, other.body, other.ease, other.least) == ("length", 400.0, None, None, None)


def test_how_far_it_is_to_where_the_piece_ends() -> None:
    inside = Point(100.0, 100.0)
    assert reach(SQUARE, inside, Point(1.0, 0.0) - A) == pytest.approx(200.0)
    assert reach(SQUARE, inside, Point(0.0, 1.0) - A) == pytest.approx(300.0)
    assert reach(SQUARE, Point(400.0, 100.0), Point(1.0, 0.0) - A) == 0.0
    assert across(SQUARE, "corner") == pytest.approx(300.0)


def test_only_the_darts_on_the_way_are_left_out_of_how_far_it_is() -> None:
    """Two darts of 20 and 40 mm in one hem: from between them each is met one way, from beside them both are.

    At a height of 50 mm they are half as wide.
    """
    darted = with_darts(("one", 80.0, 100.0), ("other", 180.0, 220.0))
    right, left, up = Vec(1.0, 0.0), Vec(-1.0, 0.0), Vec(0.0, 1.0)
    assert reach(darted, Point(20.0, 50.0), right) == pytest.approx(280.0 - 10.0 - 20.0)
    assert reach(darted, Point(140.0, 50.0), right) == pytest.approx(160.0 - 20.0)
    assert reach(darted, Point(140.0, 50.0), left) == pytest.approx(140.0 - 10.0)
    assert reach(darted, Point(140.0, 50.0), up) == pytest.approx(350.0)


def test_a_dart_that_lies_beyond_where_the_piece_ends_takes_nothing_away() -> None:
    darted = with_darts(("one", 80.0, 100.0), ("other", 180.0, 220.0))
    slit = [Point(*at) for at in ((100.0, 0.0), (120.0, 0.0), (120.0, 80.0), (140.0, 80.0), (140.0, 0.0), (180.0, 0.0))]
    curves = tuple(Line(start, end) for start, end in pairwise(slit))
    edges = tuple(replace(edge, curves=curves) if edge.name == "hem to other" else edge for edge in darted.edges)
    parted = replace(darted, edges=edges)
    assert reach(parted, Point(20.0, 50.0), Vec(1.0, 0.0)) == pytest.approx(100.0 - 10.0)
    assert reach(parted, Point(160.0, 50.0), Vec(-1.0, 0.0)) == pytest.approx(20.0)


def test_a_piece_ends_at_the_leg_of_a_dart_that_is_left_through_its_mouth() -> None:
    """The leg runs from (80, 0) to (90, 100): a line down from (80, 40), a fifth to the right, meets it 40/3 below."""
    darted = with_darts(("one", 80.0, 100.0))
    assert reach(darted, Point(80.0, 40.0), Vec(0.2, -1.0)) == pytest.approx(math.hypot(1.0, 0.2) * 40.0 / 3.0)


def with_darts(*darts: tuple[str, float, float]) -> Piece:
    """The square with darts 100 mm deep in its hem, each from one place of it to another, mm from its left end."""
    edges, marks, at = [], [], A
    for name, begun, ended in darts:
        start, end, apex = Point(begun, 0.0), Point(ended, 0.0), Point((begun + ended) / 2.0, 100.0)
        legs = (f"{name} left leg", f"{name} right leg")
        edges.append(Edge(f"hem to {name}", (Line(at, start),), place=Place.HEM))
        edges.append(Edge(legs[0], (Line(start, apex),), Role.DART_LEG))
        edges.append(Edge(legs[1], (Line(apex, end),), Role.DART_LEG))
        marks.append(Dart(name, legs, apex))
        at = end
    last = Edge("hem", (Line(at, B),), place=Place.HEM)
    return replace(SQUARE, edges=(*edges, last, *SQUARE.edges[1:]), darts=tuple(marks), lines=())


def test_a_measurement_between_points_goes_when_one_of_them_is_cut_off() -> None:
    tapes = (Measure("down", (Between("panel", "low", "top"),)), Measure("side", (Along("panel", "side"),)))
    whole = Pattern("Panel", Wearer("Inga"), (SQUARE,), measures=tapes)
    assert with_measures_left(whole) is whole
    cut = replace(whole, pieces=(replace(SQUARE, points=SQUARE.points[:1]),))
    assert [each.name for each in with_measures_left(cut).measures] == ["side"]
    gone = replace(whole, pieces=(replace(SQUARE, name="other"),))
    assert [each.name for each in with_measures_left(gone).measures] == ["side"]


def test_a_place_on_a_run_that_is_drawn_up_is_found_on_the_flat_one_and_back() -> None:
    """A run of 100 of which 20 to 30 and 50 to 70 are drawn up to nothing: 70 are left when it is sewn."""
    up = DrawnUp(((50.0, 70.0), (20.0, 30.0)))
    assert up.total == 30.0
    assert [up.before(along) for along in (0.0, 20.0, 25.0, 30.0, 40.0, 60.0, 100.0)] == [0, 0, 5, 10, 10, 20, 30]
    assert [up.opened(sewn) for sewn in (0.0, 20.0, 21.0, 40.0, 41.0, 70.0)] == [0, 20, 31, 50, 71, 100]


def test_what_is_gathered_is_drawn_up_evenly_between_what_lies_flat() -> None:
    """250 mm on 150, 20 mm flat at the start and 30 at the end: 200 are drawn up to 100."""
    walked = Walked(250.0, 150.0, (), gathered=True, flat=(20.0, 30.0))
    there = [0.0, 10.0, 20.0, 120.0, 220.0, 235.0, 250.0]
    met = [0.0, 10.0, 20.0, 70.0, 120.0, 135.0, 150.0]
    assert [walked.met(along, from_a=True) for along in there] == pytest.approx(met)
    assert [walked.met(along, from_a=False) for along in met] == pytest.approx(there)
    assert [replace(walked, gathered=False).met(along, from_a=True) for along in there] == there
    pinned = replace(walked, gathered=False, up_a=DrawnUp(((40.0, 60.0),)), up_b=DrawnUp(((80.0, 85.0),)))
    assert [pinned.met(along, from_a=True) for along in (30.0, 50.0, 70.0, 120.0)] == [30.0, 40.0, 50.0, 105.0]
    assert [pinned.met(along, from_a=False) for along in (30.0, 50.0, 82.0, 105.0)] == [30.0, 70.0, 100.0, 120.0]
    assert pinned.sewn == (230.0, 145.0)


def test_a_station_is_counted_from_the_end_it_names() -> None:
    from drafting.pattern.locate import from_start, place

    side = SQUARE.edge("side")
    assert (from_start(side, Station("side", 90.0)), from_start(side, Station("side", 90.0, "end"))) == (90.0, 310.0)
    at, along = place(SQUARE, Station("side", 90.0, "end"))
    assert (at.x, at.y, along.x, along.y) == pytest.approx((300.0, 310.0, 0.0, 1.0))


def test_a_line_ends_so_far_above_the_hem_along_the_grain() -> None:
    run = (Line(Point(50.0, 160.0), Point(120.0, 130.0)),)
    for grain in (None, Grain(Point(100.0, 50.0), Point(100.0, 250.0))):
        assert above_hem(run, replace(SQUARE, grain=grain)) == pytest.approx(130.0)
    leaning = replace(SQUARE, grain=Grain(Point(100.0, 50.0), Point(200.0, 150.0)))
    assert above_hem((Line(Point(290.0, 60.0), Point(280.0, 90.0)),), leaning) == pytest.approx(60.0 * ROOT_2)
    assert above_hem(run, replace(SQUARE, edges=tuple(replace(e, place=Place.SIDE) for e in SQUARE.edges))) is None
    assert above_hem((Line(Point(50.0, -20.0), Point(60.0, 30.0)),), SQUARE) == pytest.approx(-20.0)
