"""How wide a piece is at a marked line: what a tape laid over it finds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations import FullBust, Kimono, Opening, TakeIn, apply_step
from drafting.geometry import Cubic, Line, Point
from drafting.pattern import Edge, Level, MarkLine, Piece, Role, across, finished
from drafting.pattern.piece_parts import Dart
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.dresses import dresses
from tests.wardrobe import a_garment


def strip(*top: Edge, darts: tuple[Dart, ...] = (), level: float = 100.0) -> Piece:
    """A strip 200 mm wide and 100 high under the edges given, from its upper right corner to the left one."""
    a, b, c, d = Point(0.0, 0.0), Point(200.0, 0.0), Point(200.0, 100.0), Point(0.0, 100.0)
    edges = (Edge("hem", (Line(a, b),)), Edge("right", (Line(b, c),)), *top, Edge("left", (Line(d, a),)))
    return Piece("strip", edges, darts=darts, lines=(MarkLine("line", Point(0.0, level), Point(200.0, level)),))


def cap(dip: float) -> Edge:
    """From corner to corner, 60 mm high in the middle, and `dip` mm below the corners on its way out."""
    c, top, d = Point(200.0, 100.0), Point(100.0, 160.0), Point(0.0, 100.0)
    down = 100.0 - 4.0 * dip
    return Edge(
        "cap",
        (Cubic(c, Point(175.0, down), Point(150.0, 160.0), top), Cubic(top, Point(50.0, 160.0), Point(25.0, down), d)),
    )


@pytest.mark.parametrize("dip", [-5.0, 0.0, 0.5, 5.0, 15.0])
def test_a_cap_that_dips_under_the_line_of_its_corners_is_measured_from_corner_to_corner(dip: float) -> None:
    assert across(strip(cap(dip)), "line") == pytest.approx(200.0, abs=1e-6)


def test_open_darts_are_left_out_and_nothing_else() -> None:
    right, apex, left = Point(110.0, 100.0), Point(100.0, 20.0), Point(90.0, 100.0)
    top = (
        Edge("side part", (Line(Point(200.0, 100.0), right),)),
        Edge("leg in", (Line(right, apex),), Role.DART_LEG),
        Edge("leg out", (Line(apex, left),), Role.DART_LEG),
        Edge("centre part", (Line(left, Point(0.0, 100.0)),)),
    )
    dart = Dart("dart", ("leg in", "leg out"), apex)
    for level, mouth in ((60.0, 10.0), (90.0, 17.5), (20.0, 0.0), (10.0, 0.0)):
        assert across(strip(*top, darts=(dart,), level=level), "line") == pytest.approx(200.0 - mouth, abs=1e-6)


def test_along_an_edge_the_ends_of_the_mark_decide() -> None:
    piece = strip(Edge("top", (Line(Point(200.0, 100.0), Point(0.0, 100.0)),)))
    level = replace(piece, lines=(MarkLine("line", Point(0.0, 0.0), Point(200.0, 0.0)),))
    assert across(level, "line") == pytest.approx(200.0, abs=1e-6)


def test_the_upper_arm_keeps_its_room_when_the_bust_is_taken_in() -> None:
    """Where a low cap comes to dip under its line, the tape was laid over the dip only: 2 mm for 308."""
    for dress in dresses():
        (before,) = (each.finished for each in finished(dress) if each.name == "upper arm")
        taken_in = apply_step(dress, TakeIn(bust=18.0))
        (after,) = (each.finished for each in finished(taken_in) if each.name == "upper arm")
        assert after == pytest.approx(before, abs=10.0)


def test_a_line_that_a_side_dart_has_bent_is_measured_over_the_waist_dart_of_a_blouse() -> None:
    """A bust dart moved to the side bends the waist line; the dart of the full bust in the hem lies in it too."""
    full = apply_step(a_garment("shirt"), FullBust(25.0))
    moved = apply_step(full, sample("move a dart", SAMPLES["move a dart"][0]))
    buttoned = apply_step(moved, Opening("centre front", "buttons"))
    waists = [
        next(each.finished for each in finished(each) if each.name == "waist") for each in (full, moved, buttoned)
    ]
    assert waists[1] == pytest.approx(waists[0], abs=1.0)
    assert waists[2] == pytest.approx(waists[1], abs=1e-6)


def test_with_a_sleeve_cut_in_one_a_line_that_ends_beside_the_side_seam_is_measured_to_that() -> None:
    """An armhole drawn lower redraws the side seam, and what is marked there may end a hair beside it."""
    front = apply_step(a_garment("knit top"), Kimono()).piece("top front")
    mark = next(line for line in front.lines if line.level is Level.WAIST)
    wide = across(front, mark.name)
    for off in (-0.5, 0.5):
        ended = mark.straight(mark.start, mark.end + (mark.end - mark.start).unit() * off)
        lines = tuple(ended if line is mark else line for line in front.lines)
        assert across(replace(front, lines=lines), mark.name) == pytest.approx(wide, abs=1e-6)
