from __future__ import annotations

import pytest

from drafting.geometry import Point
from output.drawings.drawing import Text
from output.drawings.lettering import block, block_size, corners, fitted, text_width, wrapped

WORDS = "Cut each sheet along its line and lay it to the same line of its neighbour."


def test_wrapped_lines_keep_every_word_and_the_width() -> None:
    lines = wrapped(WORDS, 3.5, 60.0)
    assert " ".join(lines) == WORDS
    assert all(text_width(line, 3.5) <= 60.0 for line in lines)


def test_a_word_longer_than_the_line_is_broken_and_none_of_it_lost() -> None:
    lines = wrapped("a " + "Donaudampfschiff" * 4 + " b", 3.5, 40.0)
    assert "".join(lines).replace(" ", "") == "a" + "Donaudampfschiff" * 4 + "b"
    assert all(text_width(line, 3.5) <= 40.0 for line in lines)


def test_no_words_give_no_lines() -> None:
    assert wrapped("  ", 3.5, 40.0) == ()


def test_words_that_fit_are_left_at_their_size() -> None:
    assert fitted("Ferry dress", 7.0, 180.0, least=4.0) == ("Ferry dress", 7.0)


def test_longer_words_are_set_smaller_and_only_then_cut_short() -> None:
    words, size = fitted("A" * 30, 7.0, 120.0, least=4.0)
    assert words == "A" * 30
    assert 4.0 <= size < 7.0
    words, size = fitted("A" * 300, 7.0, 120.0, least=4.0)
    assert size == 4.0
    assert words.endswith("...")
    assert text_width(words, size) <= 120.0


def test_no_room_at_all_leaves_nothing_rather_than_running_on_for_ever() -> None:
    assert fitted("Ferry dress", 7.0, 0.0, least=4.0)[0] == ""


@pytest.mark.parametrize("angle", [0.0, 90.0, 37.0])
def test_a_block_lies_about_its_centre(angle: float) -> None:
    lines = [("one", 6.0, True), ("a longer line", 3.5, False)]
    centre = Point(50.0, 20.0)
    points = [p for text in block(lines, centre, angle=angle) for p in corners(text)]
    width, height = block_size(lines)
    reach = 0.5 * (width**2 + height**2) ** 0.5
    assert all((p - centre).norm() <= reach for p in points)
    assert (points[0] - centre).norm() > 0.0


def test_anchors_say_which_end_of_the_line_is_given() -> None:
    at = Point(10.0, 0.0)
    left = {anchor: corners(Text("words", at, 4.0, anchor))[0].x for anchor in ("start", "middle", "end")}  # type: ignore[arg-type]
    width = text_width("words", 4.0)
    assert left == pytest.approx({"start": 10.0, "middle": 10.0 - width / 2, "end": 10.0 - width})
