"""Laws of the primitives an alteration is made of: redraw fair, cut and join, pivot.

Each at random shapes and amounts; what is exact is held to the tolerance of a promise. Those of cloth that is let in
stand in `test_techniques_spread.py`.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.alterations.techniques.cutting.split_edges import cut, joined, whole_edge
from drafting.alterations.techniques.pivoting.close_dart import closed_smoothly, opened_again
from drafting.alterations.techniques.pivoting.pivot import Turning, drawn_dart, inside
from drafting.alterations.techniques.redrawing.redraw_run import (
    bent_at_ends,
    bent_at_start,
    cut_near_joint,
    ends_moved,
    exact_length,
    fitted_between,
    move_between,
    shortened_at_start,
    with_handles_scaled,
    with_length_kept,
)
from drafting.errors import NotAPattern
from drafting.geometry import (
    STAY,
    Cubic,
    Curve,
    Line,
    Move,
    Point,
    Vec,
    distance,
    end_tangents,
    moved_all,
    point_at,
    run_ends,
    shift,
    split,
    turn,
)
from drafting.geometry.outline import corner_turn
from drafting.geometry.tolerance import PROMISE
from drafting.pattern import Dart, Edge, Role

laws = settings(deadline=None, max_examples=12)
few = settings(deadline=None, max_examples=6)

Curves = tuple[Curve, ...]


@st.composite
def runs(draw: st.DrawFn) -> Curves:
    """A smooth run in two curves, as the seams of a garment bend: 10 to 40 cm, up to 40 degrees off its chord."""
    long, leaves, arrives = draw(st.floats(100.0, 400.0)), draw(st.floats(-0.7, 0.7)), draw(st.floats(-0.7, 0.7))
    first, last = draw(st.floats(0.2, 0.45)), draw(st.floats(0.2, 0.45))
    along = Vec(1.0, 0.0).turned(draw(st.floats(-3.0, 3.0)))
    start = Point(draw(st.floats(-200.0, 200.0)), draw(st.floats(-200.0, 200.0)))
    end = start + along * long
    c1, c2 = start + along.turned(leaves) * (first * long), end - along.turned(arrives) * (last * long)
    return split(Cubic(start, c1, c2, end), draw(st.floats(0.2, 0.8)))


angles = st.floats(-0.3, 0.3)
shares = st.floats(0.05, 0.95)
steps = st.floats(-40.0, 40.0)
moves = st.builds(lambda angle, x, y: turn(Point(x, y), angle).then(shift(Vec(y, x))), angles, steps, steps)


def turned_by(one: Vec, other: Vec) -> float:
    return one.angle_to(other)


def strays(one: Curves, other: Curves) -> float:
    """The furthest that two runs of as many curves lie apart, at the same places of each curve, mm."""
    pairs = zip(one, other, strict=True)
    return max(distance(point_at(a, t / 8), point_at(b, t / 8)) for a, b in pairs for t in range(9))


def edge_of(curves: Curves, name: str = "seam") -> Edge:
    return Edge(name, curves, Role.SEAM, 15.0)


# redraw fair


@laws
@given(runs(), shares)
def test_what_is_parted_lies_where_it_lay_and_its_lengths_add_up(run: Curves, share: float) -> None:
    long = exact_length(run)
    before, after = cut_near_joint(run, share * long)
    assert exact_length(before) == pytest.approx(share * long, abs=2e-5)
    assert exact_length(before) + exact_length(after) == pytest.approx(long, abs=PROMISE)
    assert (before[0].start, after[-1].end, before[-1].end) == (run[0].start, run[-1].end, after[0].start)
    assert abs(corner_turn(before, after)) < 1e-6


@laws
@given(runs(), angles, st.floats(-30.0, 30.0), st.floats(-30.0, 30.0))
def test_a_run_that_is_led_leaves_and_arrives_as_its_ends_are_moved(run: Curves, by: float, x: float, y: float) -> None:
    to = move_between(run[-1].end, run[-1].end + Vec(x, y), by)
    new = ends_moved(run, STAY, to)
    assert strays(ends_moved(run, STAY, STAY), run) == 0.0
    assert new[0].start == run[0].start
    assert new[-1].end.near(run[-1].end + Vec(x, y), 1e-9)
    (leaves, arrives), (left, arrived) = run_ends(new), run_ends(run)
    assert turned_by(left, leaves) == pytest.approx(0.0, abs=1e-9)
    assert turned_by(arrived, arrives) == pytest.approx(by, abs=1e-9)
    assert abs(corner_turn(new[:1], new[1:])) < 1e-6


@laws
@given(runs(), moves)
def test_a_run_whose_ends_go_together_goes_as_it_is(run: Curves, move: Move) -> None:
    new = ends_moved(run, move, move)
    assert strays(new, moved_all(run, move)) < 1e-9
    assert exact_length(new) == pytest.approx(exact_length(run), abs=PROMISE)


@laws
@given(runs(), moves, st.floats(0.5, 2.0))
def test_a_run_that_is_refitted_keeps_its_shape_and_comes_back(run: Curves, move: Move, grown: float) -> None:
    start, end = move.point(run[0].start), move.point(run[-1].end)
    there = fitted_between(run, start, start + (end - start) * grown)
    assert exact_length(there) == pytest.approx(grown * exact_length(run), rel=1e-9)
    chord, was = there[-1].end - there[0].start, run[-1].end - run[0].start
    for new, old in zip(run_ends(there), run_ends(run), strict=True):
        assert turned_by(chord, new) == pytest.approx(turned_by(was, old), abs=1e-9)
    assert strays(fitted_between(there, run[0].start, run[-1].end), run) < PROMISE


@laws
@given(runs(), st.floats(-0.03, 0.06))
def test_a_run_made_longer_keeps_its_ends_and_comes_back(run: Curves, more: float) -> None:
    long = exact_length(run)
    try:
        there = with_length_kept(run, long * (1.0 + more))
    except NotAPattern:
        assume(False)
    assert exact_length(there) == pytest.approx(long * (1.0 + more), abs=PROMISE)
    for new, old in zip(run_ends(there), run_ends(run), strict=True):
        assert turned_by(old, new) == pytest.approx(0.0, abs=1e-9)
    assert strays(with_length_kept(there, long), run) < 1e-4
    assert strays(with_handles_scaled(run, 1.0), run) < 1e-9


@laws
@given(runs(), angles, angles)
def test_a_bowed_run_turns_at_its_ends_by_what_is_asked_and_keeps_them(run: Curves, one: float, other: float) -> None:
    new = bent_at_ends(run, one, other)
    assert (new[0].start, new[-1].end) == (run[0].start, run[-1].end)
    for turned, was, now in zip((one, other), run_ends(run), run_ends(new), strict=True):
        assert turned_by(was, now) == pytest.approx(turned, abs=1e-9)
    assert strays(bent_at_ends(run, 0.0, 0.0), run) < 1e-9
    assert abs(corner_turn(new[:1], new[1:])) < 1e-6


@laws
@given(runs(), angles)
def test_a_run_bent_where_it_leaves_is_the_same_where_it_arrives(run: Curves, by: float) -> None:
    new = bent_at_start(run, by)
    assert turned_by(run_ends(run)[0], run_ends(new)[0]) == pytest.approx(by if abs(by) > 1e-6 else 0.0, abs=1e-6)
    assert new[1:] == run[1:]
    assert strays(bent_at_start(new, -by), run) < 1e-6


@laws
@given(runs(), st.floats(-0.2, 0.2), st.floats(0.5, 0.9))
def test_a_run_begun_further_on_is_so_much_shorter_and_the_same_beyond(run: Curves, by: float, kept: float) -> None:
    long = exact_length(run)
    new = shortened_at_start(run, by * kept * long, kept * long)
    assert exact_length(new) == pytest.approx(long - by * kept * long, abs=5e-5)
    assert turned_by(run_ends(run)[0], run_ends(new)[0]) == pytest.approx(0.0, abs=1e-9)
    beyond = cut_near_joint(run, kept * long)[1]
    assert new[-len(beyond) :] == beyond


# cut and join


@laws
@given(runs(), shares)
def test_an_edge_cut_in_two_and_joined_is_the_edge(run: Curves, share: float) -> None:
    edge = edge_of(run)
    one, other = cut(edge, share * edge.length)
    assert one is not None
    assert other is not None
    assert one.edge.length + other.edge.length == pytest.approx(edge.length, abs=1e-4)
    (first,), (last,) = one.of, other.of
    assert (first.edge, first.low, last.high) == ("seam", 0.0, pytest.approx(edge.length, abs=1e-4))
    assert first.high == last.low == pytest.approx(share * edge.length, abs=2e-5)
    again = joined(one, other, "seam")
    assert (again.edge.start, again.edge.end) == (edge.start, edge.end)
    assert again.edge.length == pytest.approx(edge.length, abs=1e-4)
    assert sum(part.long for part in again.of) == pytest.approx(edge.length, abs=1e-4)
    assert (again.edge.role, again.edge.allowance) == (edge.role, edge.allowance)


@laws
@given(runs(), moves)
def test_a_part_that_is_moved_stays_rigid_and_is_made_of_the_same_cloth(run: Curves, move: Move) -> None:
    part = whole_edge(edge_of(run))
    assert part.moved(move).edge.length == pytest.approx(part.edge.length, abs=PROMISE)
    assert part.moved(move).of == part.of
    assert part.named("hem").edge.curves == part.edge.curves


def test_an_edge_cut_at_an_end_is_whole_on_the_other_side() -> None:
    edge = edge_of((Line(Point(0.0, 0.0), Point(100.0, 0.0)),))
    assert cut(edge, 0.0) == (None, whole_edge(edge))
    assert cut(edge, 100.0) == (whole_edge(edge), None)


# pivot


def mouth(width: float, long: float, lean: float) -> tuple[Edge, Edge, Point]:
    """Two edges with the mouth of a dart between them, as a straight seam lies when it is opened about the point.

    lean: how much further each edge is turned, radians
    """
    half = 0.5 * width
    opened = math.atan2(half, long) + lean
    pivot = Point(0.0, long)
    one, other = Point(-half, 0.0), Point(half, 0.0)
    before = edge_of((Line(one + Vec(-80.0, 0.0).turned(-opened), one),), "before")
    after = edge_of((Line(other, other + Vec(80.0, 0.0).turned(opened)),), "after")
    return before, after, pivot


@laws
@given(st.floats(8.0, 70.0), st.floats(90.0, 220.0), st.floats(0.0, 30.0), st.floats(-0.05, 0.05))
def test_a_dart_that_is_drawn_has_equal_legs_and_its_point_on_the_fold(
    width: float, long: float, short: float, lean: float
) -> None:
    before, after, pivot = mouth(width, long, lean)
    into, out, dart = drawn_dart(before, after, Dart("dart", ("dart 1", "dart 2"), pivot, ""), Turning(pivot, short))
    assert into.length == pytest.approx(out.length, abs=PROMISE)
    assert dart.apex.near(Point(0.0, long - short), 1e-9)
    assert (into.start, into.end, out.start, out.end) == (before.end, dart.apex, dart.apex, after.start)
    # the legs are mirror images, and bent ones leave the mouth as the seam runs on when the dart is folded
    assert corner_turn(before.curves, into.curves) == pytest.approx(corner_turn(out.curves, after.curves), abs=1e-9)
    if not isinstance(into.curves[0], Line):
        left = end_tangents(into.curves[0])[0].angle_to(Vec(0.0, 1.0))
        assert left == pytest.approx(0.5 * corner_turn(before.curves, after.curves), abs=1e-9)


@laws
@given(st.floats(20.0, 90.0), st.floats(-40.0, 40.0), st.floats(-40.0, 40.0))
def test_what_lies_in_a_part_of_a_piece_is_judged_alike_wherever_the_part_lies(size: float, x: float, y: float) -> None:
    corners = (Point(0.0, 0.0), Point(size, 0.0), Point(size, size), Point(0.0, size))
    place = Point(x, y)
    assume(min(abs(v) for v in (x, y, x - size, y - size)) > 3.0)
    assert inside(corners, place) == (0.0 < x < size and 0.0 < y < size)
    move = turn(Point(7.0, -3.0), 0.4)
    assert inside([move.point(p) for p in corners], move.point(place)) == inside(corners, place)


@laws
@given(st.floats(0.01, 0.12), st.floats(0.1, 0.5), st.floats(5.0, 25.0))
def test_a_peak_made_smooth_keeps_both_lengths_and_is_found_again(peak: float, angle: float, short: float) -> None:
    """Closing a dart leaves a peak; made smooth both edges are as long as they were; let in again, the peak is back."""
    at, pivot = Point(0.0, 0.0), Point(0.0, 150.0)
    one = whole_edge(edge_of((Line(at + Vec(-90.0, 0.0).turned(0.5 * peak), at),), "one"))
    other = whole_edge(edge_of((Line(at, at + Vec(90.0, 0.0).turned(-0.5 * peak + peak)),), "other"))
    bent = corner_turn(one.edge.curves, other.edge.curves)
    smooth, also, marks = closed_smoothly(one, other, "dart", pivot, angle, short, ())
    if abs(bent) <= math.radians(0.1):
        assert (smooth, also, marks) == (one, other, ())
        return
    assert abs(corner_turn(smooth.edge.curves, also.edge.curves)) < 1e-7
    assert smooth.edge.length == pytest.approx(one.edge.length, abs=PROMISE)
    assert also.edge.length == pytest.approx(other.edge.length, abs=PROMISE)
    assert smooth.edge.end == also.edge.start
    back, again, told = opened_again(smooth, also, marks, pivot, angle, short)
    assert told == marks
    assert strays(back.edge.curves, one.edge.curves) < 1e-6
    assert strays(again.edge.curves, other.edge.curves) < 1e-6
    # a dart of another angle is not let in there: nothing is told, and the edges stay as they are
    if len(marks) == 1:
        assert opened_again(smooth, also, marks, pivot, angle + 0.2, short) == (smooth, also, ())
