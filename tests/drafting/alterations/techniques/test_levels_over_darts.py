"""A level line that a dart bends: where it is bent, how it lies beyond, and when it is one line again."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations.techniques.marks.levels_over_darts import (
    Swing,
    bent_line,
    fold_place,
    measured_lines,
    onward_of,
    straightened,
    with_tape_over_bends,
)
from drafting.geometry import Point, distance, turn
from drafting.pattern import Across, Bent, Level, MarkLine, Pattern, with_pieces
from tests.wardrobe import a_garment

# a dart from its point at (100, 0) up to a mouth 20 mm wide about (100, 80): what lies right of it is turned
APEX = Point(100.0, 0.0)
NEAR, FAR = Point(90.0, 80.0), Point(110.0, 80.0)
OPENS = -(FAR - APEX).angle_to(NEAR - APEX)
LINE = MarkLine("level", Point(0.0, 40.0), Point(300.0, 40.0), level=Level.BUST)


def swing(by: float = OPENS) -> Swing:
    # before the turn both legs lie on the left one
    return Swing(APEX, NEAR, NEAR, lambda at: at.x > 100.0, turn(APEX, by))


@pytest.mark.parametrize("backward", [False, True])
def test_a_line_across_the_dart_ends_on_one_leg_and_goes_on_from_the_other_as_the_cloth_is_turned(
    backward: bool,
) -> None:
    line = LINE.straight(LINE.end, LINE.start) if backward else LINE
    found = bent_line(line, None, swing(), ["level", "level beyond the dart"])
    assert found is not None
    near, far = found
    assert far is not None
    assert near.start.near(Point(0.0, 40.0), 1e-9)
    assert near.end.near(Point(95.0, 40.0), 1e-9)  # half way up the left leg
    moved = swing().move
    assert far.start.near(moved.point(Point(95.0, 40.0)), 1e-9)
    assert far.end.near(moved.point(Point(300.0, 40.0)), 1e-9)
    assert far.start.near(Point(105.0, 40.0), 1e-9)  # half way up the right leg
    assert (near.onward, far.onward) == (False, True)
    assert far.name not in ("level", "level beyond the dart")
    assert near.name == "level"
    assert onward_of(near, (near, far)) == far
    assert onward_of(far, (near, far)) is None
    assert onward_of(replace(near, level=None), (near, replace(far, level=None))) is None


def test_closed_again_it_is_one_straight_line() -> None:
    near, far = bent_line(LINE, None, swing(), ["level"]) or (LINE, None)
    assert far is not None
    back = bent_line(near, far, swing(-OPENS), ["level"])
    assert back is not None
    line, beyond = back
    assert beyond is None
    assert line.start == near.start
    assert line.end.near(LINE.end, 1e-9)
    half = bent_line(near, far, swing(-0.5 * OPENS), ["level"])
    assert half is not None
    assert half[1] is not None
    assert half[0] == near
    assert half[1].end.near(turn(APEX, 0.5 * OPENS).point(LINE.end), 1e-6)


def test_a_line_whose_far_part_stays_is_left_as_it_is() -> None:
    near, far = bent_line(LINE, None, swing(), ["level"]) or (LINE, None)
    assert far is not None
    stays = replace(swing(), moves=lambda _: False)
    assert bent_line(near, far, stays, ["level"]) == (near, far)


def test_two_parts_are_one_only_where_they_lie_in_one_line() -> None:
    ahead = LINE.straight(Point(300.0, 40.0), Point(400.0, 40.0))
    made = straightened(LINE, ahead)
    assert made is not None
    assert (made.start, made.end) == (LINE.start, ahead.end)
    assert straightened(LINE, LINE.straight(Point(300.0, 40.0), Point(400.0, 40.01))) is None
    assert straightened(LINE, LINE.straight(Point(300.0, 40.01), Point(400.0, 40.01))) is None
    assert straightened(LINE, LINE.straight(Point(310.0, 40.0), Point(400.0, 40.0))) is not None


@pytest.mark.parametrize(
    ("pivot", "mouth", "place"),
    [
        (Point(100.0, 0.0), Point(90.0, 80.0), Point(95.0, 40.0)),  # on the fold
        (Point(100.0, 30.0), Point(90.0, 80.0), Point(100.0, 40.0)),  # past the point by 10 mm: just beside that
        (Point(100.0, 54.9), Point(90.0, 80.0), Point(100.0, 40.0)),
        (Point(100.0, 55.1), Point(90.0, 80.0), None),  # past it by more, and below it
        (Point(100.0, 70.0), Point(90.0, 120.0), None),
        (Point(-100.0, 0.0), Point(-90.0, 80.0), None),  # behind where the line begins
    ],
)
def test_a_line_comes_to_the_fold_or_passes_just_by_its_point(pivot: Point, mouth: Point, place: Point | None) -> None:
    found = fold_place(LINE.start, LINE.end, pivot, mouth)
    assert (found is None) == (place is None)
    if found is not None and place is not None:
        assert distance(found, place) < 1e-9


def test_the_tape_follows_a_line_that_is_bent_and_lies_straight_where_it_no_longer_is() -> None:
    pattern = a_garment("dress")
    piece = next(each for each in pattern.pieces if measured_lines(pattern, each.name))
    name = next(iter(sorted(measured_lines(pattern, piece.name))))
    line = piece.line(name)
    cut = line.start + (line.end - line.start) * 0.5
    parts = (line.straight(line.start, cut), replace(line.straight(cut, line.end), name="beyond", onward=True))
    others = tuple(each for each in piece.lines if each != line)

    def with_lines(lines: tuple[MarkLine, ...]) -> Pattern:
        return with_tape_over_bends(with_pieces(pattern, replace(piece, lines=(*others, *lines))), piece.name)

    def tape(laid: Pattern) -> list[object]:
        on_piece = (part for measure in laid.measures for part in measure.tape if isinstance(part, Across | Bent))
        return [part for part in on_piece if part.line == name and part.piece == piece.name]

    bent = with_lines(parts)
    assert tape(bent)
    assert all(isinstance(part, Bent) and part.onward == "beyond" for part in tape(bent))
    straight = with_tape_over_bends(with_pieces(bent, piece), piece.name)
    assert straight.measures == pattern.measures
    assert all(isinstance(part, Across) for part in tape(straight))
