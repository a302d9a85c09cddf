from __future__ import annotations

from itertools import combinations

from drafting.geometry import Cubic, Line, Point, Vec, shift
from output.drawings.drawing import (
    LINE_STYLES,
    Box,
    LineKind,
    Moved,
    Stroke,
    Text,
    item_moved,
    path,
    rectangle,
    runs,
    trace,
    upside_down,
)


class Noted:
    """A pen that writes down what it is told."""

    def __init__(self) -> None:
        self.calls: list[tuple[object, ...]] = []

    def move(self, x: float, y: float) -> None:
        self.calls.append(("move", x, y))

    def line(self, x: float, y: float) -> None:
        self.calls.append(("line", x, y))

    def cubic(self, *xy: float) -> None:
        self.calls.append(("cubic", *xy))

    def close(self) -> None:
        self.calls.append(("close",))


A, B, C, D = Point(0, 0), Point(10, 0), Point(10, 5), Point(30, 40)


def test_the_pen_is_lifted_only_where_curves_do_not_join() -> None:
    pen = Noted()
    trace((Line(A, B), Line(B, C), Line(D, A)), pen)
    assert [call[0] for call in pen.calls] == ["move", "line", "line", "move", "line"]


def test_the_pen_goes_on_where_ends_are_one_place_but_for_their_last_digits() -> None:
    begun = (Line(A, B), Line(Point(10 + 1e-12, 0), C))
    assert len(list(runs(begun))) == 1
    assert len(list(runs((Line(A, B), Line(Point(10 + 1e-3, 0), C))))) == 2


def test_a_run_that_ends_where_it_began_is_closed() -> None:
    pen = Noted()
    trace(rectangle(Box(0, 0, 2, 1)), pen)
    assert pen.calls[0] == ("move", 0, 0)
    assert pen.calls[-1] == ("close",)


def test_a_cubic_reaches_the_pen_with_both_handles() -> None:
    pen = Noted()
    trace((Cubic(A, B, C, D),), pen)
    assert pen.calls == [("move", 0, 0), ("cubic", 10, 0, 10, 5, 30, 40)]


def test_a_moved_pen_flips_and_shifts_every_coordinate() -> None:
    pen = Noted()
    trace((Cubic(A, B, C, D),), Moved(pen, shift(Vec(1, 2)).then(upside_down(100))))
    assert pen.calls == [("move", 1, 98), ("cubic", 11, 98, 11, 93, 31, 58)]


def test_runs_give_back_every_curve_in_order() -> None:
    curves = (Line(A, B), Line(B, C), Line(D, A))
    assert [curve for run in runs(curves) for curve in run] == list(curves)


def test_items_move_with_everything_on_them() -> None:
    move = shift(Vec(5, 7))
    assert item_moved(Stroke(LineKind.FOLD, path(A, B)), move) == Stroke(LineKind.FOLD, path(Point(5, 7), Point(15, 7)))
    assert item_moved(Text("a", A, 3.0, "end", 90.0, True), move) == Text("a", Point(5, 7), 3.0, "end", 90.0, True)


def test_every_kind_of_line_has_a_look() -> None:
    assert set(LINE_STYLES) == set(LineKind)


def test_the_lines_of_the_legend_differ_in_weight_or_dash_without_colour() -> None:
    told_apart = (LineKind.CUTTING, LineKind.SEWING, LineKind.FOLD, LineKind.DART, LineKind.BALANCE, LineKind.GRAIN)
    for one, other in combinations(told_apart, 2):
        a, b = LINE_STYLES[one], LINE_STYLES[other]
        assert a.dash != b.dash or abs(a.weight - b.weight) >= 0.25, (one, other)


def test_boxes_that_touch_are_not_apart() -> None:
    box = Box(0, 0, 2, 2)
    assert not box.apart(Box(2, 2, 3, 3))
    assert box.apart(Box(2.001, 0, 3, 3))
    assert box.holds(Point(2, 0))
    assert not box.holds(Point(2.001, 0))
