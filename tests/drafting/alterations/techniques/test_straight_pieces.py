"""The techniques on pieces of a few straight lines, whose figures are known by plane geometry."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.alterations.skirt.godet_slit import room_above
from drafting.alterations.techniques.cutting.split_edges import EdgePart, short_name, whole_edge
from drafting.alterations.techniques.marks.grain_line import grain_in_middle, stretched_grain, with_grain_inside
from drafting.alterations.techniques.marks.true_corners import corners_lost
from drafting.alterations.techniques.pivoting.close_dart import closed_smoothly, opened_again, smooth_where_met
from drafting.alterations.techniques.spreading.level_cut import CutLine, crossing_place, notch_place
from drafting.alterations.techniques.spreading.meet_at_hem import sides_to_follow
from drafting.alterations.techniques.spreading.stretch import stretched
from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Line,
    Point,
    Vec,
    corner_turn,
    distance,
    mirror,
    moved_all,
    run_length,
    run_reversed,
    tangent,
)
from drafting.pattern import (
    Edge,
    EdgeRef,
    Grain,
    Landmark,
    Notch,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    Station,
    Wearer,
)

UP = Grain(Point(40.0, 60.0), Point(40.0, 140.0))


def drawn(name: str, *corners: tuple[float, float]) -> Piece:
    """A piece of straight edges from corner to corner: "a" from the first to the second, "b" from there on."""
    at = [Point(*corner) for corner in corners]
    edges = (
        Edge(chr(97 + k), (Line(one, other),), Role.SEAM, 10.0, Place.SIDE)
        for k, (one, other) in enumerate(zip(at, at[1:] + at[:1], strict=True))
    )
    return Piece(name, tuple(edges), grain=UP)


# --- lines that run on over the ends of a seam ---


def beside(bend: float) -> Pattern:
    """Two rectangles sewn along their right edges; the top of the one falls away from the corner by `bend` degrees."""
    fall = 200.0 - 100.0 * math.tan(math.radians(bend))
    one = drawn("one", (0.0, 0.0), (100.0, 0.0), (100.0, 200.0), (0.0, fall))
    other = drawn("other", (0.0, 0.0), (100.0, 0.0), (100.0, 200.0), (0.0, 200.0))
    seam = Seam("seam", (EdgeRef("one", "b"),), (EdgeRef("other", "b"),))
    return Pattern("rectangles", Wearer("her"), (one, other), (seam,))


@pytest.mark.parametrize(
    ("before", "after", "lost"),
    [
        (0.0, 2.4, False),  # less than anybody sees
        (0.0, 2.6, True),
        (0.0, -2.4, False),
        (0.0, -2.6, True),
        (2.9, 2.8, False),  # no more than it did
        (2.9, 3.1, True),
        (3.1, 9.0, False),  # it was a corner before
        (-3.1, 9.0, False),
    ],
)
def test_a_line_over_a_seam_is_lost_where_it_ran_on_and_comes_to_bend(before: float, after: float, lost: bool) -> None:
    was = beside(before)
    now = replace(was, pieces=(beside(after).pieces[0], was.pieces[1]))
    assert corners_lost(was, now) is lost


def test_where_nothing_changed_nothing_is_lost() -> None:
    bent = beside(9.0)
    assert not corners_lost(beside(0.0), replace(bent, seams=()))
    assert not corners_lost(bent, bent)


# --- a seam drawn smooth where a dart was closed ---


def part(name: str, *points: tuple[float, float]) -> EdgePart:
    at = [Point(*each) for each in points]
    return whole_edge(Edge(name, tuple(map(Line, at, at[1:])), Role.SEAM, 10.0, Place.SHOULDER))


PEAK = math.radians(20.0)
LOW = math.tan(0.5 * PEAK) * 100.0
PIVOT = Point(0.0, -200.0)


def gable(left: float = LOW) -> tuple[EdgePart, EdgePart]:
    """Two edges of two lines each that meet in a peak at the origin, walked so that a peak turns left."""
    one = part("one", (180.0, -LOW * 1.8), (100.0, -LOW), (0.0, 0.0))
    return one, part("other", (0.0, 0.0), (-100.0, -left), (-180.0, -1.8 * left))


def test_a_peak_is_drawn_smooth_and_each_side_stays_as_long_and_where_it_began() -> None:
    one, other = gable()
    assert corner_turn(one.edge.curves, other.edge.curves) == pytest.approx(PEAK)
    now, then, marks = closed_smoothly(one, other, "dart", PIVOT, math.radians(10.0), 20.0, ())
    assert len(now.edge.curves) == len(then.edge.curves) == 2
    assert now.edge.curves[0] == one.edge.curves[0]
    assert then.edge.curves[1] == other.edge.curves[1]
    assert now.edge.end == then.edge.start
    assert abs(corner_turn(now.edge.curves, then.edge.curves)) < 1e-9
    for new, old in ((now, one), (then, other)):
        assert run_length(new.edge.curves) == pytest.approx(run_length(old.edge.curves), abs=1e-6)
    assert marks[0].at == Point(0.0, 0.0)
    assert [mark.landmark for mark in marks] == [Landmark.CLOSED_DART, Landmark.CLOSED_TOWARDS]


def test_a_peak_comes_back_from_its_marks() -> None:
    one, other = gable()
    about = (PIVOT, math.radians(10.0), 20.0)
    now, then, marks = closed_smoothly(one, other, "dart", *about, ())
    back, forth, told = opened_again(now, then, marks, *about)
    assert told == marks
    for new, old in ((back, one), (forth, other)):
        assert len(new.edge.curves) == 2
        for a, b in zip(new.edge.curves, old.edge.curves, strict=True):
            assert isinstance(a, Line)
            assert distance(a.start, b.start) < 1e-6
            assert distance(a.end, b.end) < 1e-6
    elsewhere = tuple(replace(mark, at=mark.at + Vec(0.0, 6.0)) for mark in marks)
    assert opened_again(now, then, elsewhere, *about) == (now, then, ())
    assert opened_again(now, then, (), *about) == (now, then, ())


@pytest.mark.parametrize(("degrees", "drawn_smooth"), [(0.09, False), (0.11, True), (-20.0, False)])
def test_a_peak_that_no_pencil_shows_and_a_hollow_are_left(degrees: float, drawn_smooth: bool) -> None:
    low = 100.0 * math.tan(math.radians(0.5 * degrees))
    one, other = part("one", (100.0, -low), (0.0, 0.0)), part("other", (0.0, 0.0), (-100.0, -low))
    now, then, marks = closed_smoothly(one, other, "dart", PIVOT, 0.1, 20.0, ())
    assert bool(marks) is drawn_smooth
    assert ((now, then) != (one, other)) is drawn_smooth


def test_two_runs_that_meet_in_a_corner_are_one_of_the_same_length() -> None:
    one, other = (each.edge.curves for each in gable())
    run = smooth_where_met(one, other)
    assert len(run) == 4
    assert run_length(run) == pytest.approx(run_length(one) + run_length(other), abs=1e-6)
    assert abs(tangent(run[1], 1.0).angle_to(tangent(run[2], 0.0))) < 1e-8
    assert smooth_where_met(one[:1], one[1:]) == one


# --- cloth let in across the grain ---


def sloped(aside: float) -> Piece:
    """300 high; its right side leans out by so much downward; a notch 50 and one 250 below the top, one in the hem."""
    piece = drawn("sloped", (0.0, 0.0), (100.0 + aside, 0.0), (100.0, 300.0), (0.0, 300.0))
    long = math.hypot(300.0, aside)
    notches = (
        Notch("high", Station("b", long * 50.0 / 300.0, "end")),
        Notch("low", Station("b", long * 250.0 / 300.0, "end")),
        Notch("low too", Station("b", long * 40.0 / 300.0, "start")),
        Notch("hem", Station("a", 30.0, "start")),
    )
    return replace(piece, notches=notches)


@pytest.mark.parametrize("by", [40.0, -20.0, 5.0])
@pytest.mark.parametrize("aside", [0.0, 3.0, 60.0])
def test_each_notch_goes_with_its_own_side_of_a_cut(aside: float, by: float) -> None:
    piece = sloped(aside)
    cut = CutLine(Point(0.0, 150.0), Vec(0.0, -1.0))
    now = stretched(piece, cut, by)
    for name, moves in (("high", False), ("low", True), ("low too", True), ("hem", True)):
        there = notch_place(piece, name)
        wanted = there + Vec(0.0, -by if moves else 0.0)
        assert distance(notch_place(now, name), wanted) < 1e-4, name
    assert now.edge("b").start.near(Point(100.0 + aside, -by))
    assert now.edge("b").end == Point(100.0, 300.0)
    back = stretched(now, cut, -by)
    for edge in piece.edges:
        assert run_length(back.edge(edge.name).curves) == pytest.approx(edge.length, abs=1e-5)


def test_a_straight_side_stays_straight_up_to_a_turn_of_one_degree() -> None:
    cut = CutLine(Point(0.0, 150.0), Vec(0.0, -1.0))
    plain = {aside: replace(sloped(aside), notches=()) for aside in (60.0, 3.0)}
    # a lean of 60 in 300 is 11.31 degrees; in 320 it is 10.62, in 345 9.87
    for aside, by, straight in ((60.0, 20.0, True), (60.0, 45.0, False), (3.0, 45.0, True)):
        curves = stretched(plain[aside], cut, by).edge("b").curves
        assert isinstance(curves[0], Line) is straight
        bowed = stretched(plain[aside], cut, by, straight=False).edge("b").curves
        assert isinstance(bowed[0], Cubic)


def test_an_edge_that_runs_too_flatly_is_not_cut_across() -> None:
    cut = CutLine(Point(0.0, 150.0), Vec(0.0, -1.0))
    for aside, taken in ((440.0, True), (460.0, False)):
        piece = drawn("flat", (0.0, 0.0), (100.0 + aside, 0.0), (100.0, 300.0), (0.0, 300.0))
        if taken:
            assert stretched(piece, cut, 60.0).edge("b").start.near(Point(100.0 + aside, -60.0))
        else:
            with pytest.raises(NotAPattern, match="too flatly"):
                stretched(piece, cut, 60.0)


@pytest.mark.parametrize(("by", "taken"), [(-49.0, True), (-51.0, False)])
def test_no_more_goes_than_lies_above_the_next_mark_below(by: float, taken: bool) -> None:
    cut = CutLine(Point(0.0, 100.0), Vec(0.0, -1.0))  # "low" lies at 50
    if taken:
        stretched(sloped(0.0), cut, by)
    else:
        with pytest.raises(NotAPattern, match=r'the notch "low" lies only 50.0 mm below'):
            stretched(sloped(0.0), cut, by)


@pytest.mark.parametrize(("at", "side"), [(-10.0, "above"), (310.0, "below")])
def test_a_cut_beside_the_piece_is_told(at: float, side: str) -> None:
    with pytest.raises(NotAPattern, match=f"all of the piece lies {side} the line"):
        stretched(sloped(0.0), CutLine(Point(0.0, at), Vec(0.0, -1.0)), 10.0)


def test_the_side_may_run_down_as_well_as_up() -> None:
    """The piece seen in a mirror: its outline runs the other way round, so its side comes down."""
    piece = sloped(60.0)
    over = mirror(Point(0.0, 0.0), Vec(0.0, 1.0))
    edges = tuple(replace(edge, curves=moved_all(run_reversed(edge.curves), over)) for edge in reversed(piece.edges))
    notches = tuple(
        replace(notch, station=replace(notch.station, end="start" if notch.station.end == "end" else "end"))
        for notch in piece.notches
    )
    mirrored = replace(piece, edges=edges, notches=notches)
    cut = CutLine(Point(0.0, 150.0), Vec(0.0, -1.0))
    one, other = stretched(piece, cut, 30.0), stretched(mirrored, cut, 30.0)
    for notch in piece.notches:
        assert distance(over.point(notch_place(one, notch.name)), notch_place(other, notch.name)) < 1e-4


# --- the grain line ---


def upright(low: float, high: float, x: float = 40.0) -> Grain:
    return Grain(Point(x, low), Point(x, high))


@pytest.mark.parametrize(
    ("ruled", "kept"),
    [
        (upright(60.0, 140.0), upright(60.0, 140.0)),  # all of it lies inside
        (upright(10.0, 290.0), upright(10.0, 290.0)),
        (upright(-20.0, 320.0), upright(10.0, 290.0)),  # 10 mm clear of both edges
        (upright(5.0, 200.0), upright(10.0, 200.0)),
        (upright(100.0, 295.0), upright(100.0, 290.0)),
        (upright(249.0, 400.0), upright(249.0, 290.0)),  # 41 mm of it are on the piece: it stays where it is
        (upright(251.0, 400.0), upright(60.0, 240.0, 100.0)),  # 39: one in the middle, a fifth free at both ends
        (upright(50.0, 200.0, -5.0), upright(60.0, 240.0, 100.0)),  # it lies beside the piece
    ],
)
def test_of_a_grain_line_stays_what_lies_on_the_piece(ruled: Grain, kept: Grain) -> None:
    piece = drawn("plain", (0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (0.0, 300.0))
    now = with_grain_inside(replace(piece, grain=ruled)).grain
    assert now is not None
    assert now.start.near(kept.start, 1e-9)
    assert now.end.near(kept.end, 1e-9)
    assert with_grain_inside(replace(piece, grain=None)).grain is None


@pytest.mark.parametrize(("high", "found"), [(79.0, False), (81.0, True)])
def test_a_piece_of_less_than_eight_centimetres_takes_no_new_grain_line(high: float, found: bool) -> None:
    low = drawn("low", (0.0, 0.0), (200.0, 0.0), (200.0, high), (0.0, high))
    assert (grain_in_middle(low.outline, Vec(0.0, 1.0)) is not None) is found
    beside = upright(0.0, 50.0, -5.0)
    assert (with_grain_inside(replace(low, grain=beside)).grain == beside) is not found


def test_a_grain_line_in_the_middle_is_the_longest_stretch_there() -> None:
    """A piece of two legs, 90 and 250 long, joined at the top between 250 and 300, its middle in the gap below."""
    legs = drawn(
        "legs",
        *((0.0, 160.0), (40.0, 160.0), (40.0, 250.0), (160.0, 250.0), (160.0, 0.0), (200.0, 0.0)),
        *((200.0, 300.0), (0.0, 300.0)),
    )
    assert grain_in_middle(legs.outline, Vec(0.0, 1.0)) is None  # 50 mm there
    across = grain_in_middle(legs.outline, Vec(1.0, 0.0), least=30.0)
    assert across is not None
    assert across.start.x == pytest.approx(168.0)
    assert across.end.x == pytest.approx(192.0)


@pytest.mark.parametrize(("was", "new", "drawn_so"), [(20.0, 21.0, True), (20.0, 19.0, False), (100.0, -100.0, False)])
def test_a_grain_line_of_which_nothing_is_left_is_kept(was: float, new: float, drawn_so: bool) -> None:
    before, after = upright(0.0, was), upright(0.0, new)
    assert stretched_grain(before, after) is (after if drawn_so else before)
    assert stretched_grain(upright(0.0, 100.0), upright(0.0, 50.0)) == upright(0.0, 50.0)


# --- where a cut goes through an edge, and what is called after an edge ---


@pytest.mark.parametrize(
    ("heights", "met"),
    [
        ((60.0, 20.0, -40.0), (60.0, True)),
        ((-40.0, -20.0, 60.0), (40.0, False)),
        ((60.0, -40.0, -90.0), (60.0, True)),
        ((40.0, 5e-7, -60.0), (40.0, True)),  # a joint that lies on the cut but for rounding
        ((-60.0, 5e-7, 40.0), (60.0, False)),
    ],
)
def test_a_cut_meets_an_edge_so_far_from_its_start_and_going_this_way(
    heights: tuple[float, ...], met: tuple[float, bool]
) -> None:
    at = [Point(7.0, height) for height in heights]
    edge = Edge("side", tuple(map(Line, at, at[1:])), Role.SEAM, 10.0)
    along, downwards = crossing_place(edge, CutLine(Point(50.0, 0.0), Vec(0.0, -1.0)))
    assert (along, downwards) == (pytest.approx(met[0], abs=1e-6), met[1])
    with pytest.raises(LookupError):
        crossing_place(edge, CutLine(Point(50.0, 100.0), Vec(0.0, -1.0)))


@pytest.mark.parametrize(
    ("place", "name"),
    [
        (Place.SIDE, "side"),
        (Place.UNDERARM, "underarm"),
        (Place.CENTRE_FRONT, "centre"),
        (Place.CENTRE_BACK, "centre"),
        (Place.WAIST, "waist"),
        (Place.PRINCESS, "long seam"),
        (None, "long seam"),
    ],
)
def test_what_lies_beside_an_edge_is_called_after_it(place: Place | None, name: str) -> None:
    edge = Edge("long seam", (Line(Point(0.0, 0.0), Point(0.0, 90.0)),), Role.SEAM, 10.0, place)
    assert short_name(edge) == name


@pytest.mark.parametrize("across", [0.3, 0.5, 0.8])
def test_a_slit_has_room_up_to_what_lies_above_the_middle_of_its_mouth(across: float) -> None:
    """The top falls by a millimetre to each."""
    piece = drawn("panel", (0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (0.0, 500.0))
    hem = piece.edge("a")
    assert room_above(piece, hem, across) == pytest.approx(500.0 - 200.0 * across, abs=1e-6)
    turned = replace(
        piece, edges=tuple(replace(e, place=Place.CENTRE_BACK) if e.name == "b" else e for e in piece.edges)
    )
    assert room_above(turned, hem, across) == pytest.approx(300.0 + 200.0 * across, abs=1e-6)
    with pytest.raises(NotAPattern, match="too short for a slit"):
        room_above(piece, hem, 0.025)


@pytest.mark.parametrize("hems", [(), ("one",), ("other",), ("one", "other")])
def test_a_seam_is_followed_to_the_hem_where_it_comes_to_one_on_both_sides(hems: tuple[str, ...]) -> None:
    plain = beside(0.0)
    pieces = (
        replace(
            piece, edges=tuple(replace(e, role=Role.HEM, place=Place.HEM) if e.name == "a" else e for e in piece.edges)
        )
        if piece.name in hems
        else piece
        for piece in plain.pieces
    )
    followed = sides_to_follow(replace(plain, pieces=tuple(pieces)), ("one", "other"))
    assert [(seam.name, one.piece, other.piece) for seam, one, other in followed] == (
        [("seam", "one", "other")] if len(hems) == 2 else []
    )
