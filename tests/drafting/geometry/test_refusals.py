"""Every refusal of geometry, in its words."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Line, Point, Vec, bend, fair, fair_touching, smooth_through, tangent
from drafting.geometry.allowance import Margin, cutting_outline
from drafting.geometry.cap import Cap, cap_of_height, cap_of_width, triangle_height
from drafting.geometry.dart_mouth import Mouth
from drafting.geometry.solve import solve
from tests.drafting.geometry.shapes import polygon

HERE, RIGHT, UP = Point(0.0, 0.0), Vec(1.0, 0.0), Vec(0.0, 1.0)
CROWN = Point(180.0, 120.0)
CAP = Cap((Line(HERE, CROWN),), (Line(Point(360.0, 0.0), CROWN),))
ASIDE = Point(60.0, 120.0)
LEANING = Cap((Line(HERE, ASIDE),), (Line(Point(360.0, 0.0), ASIDE),))
SQUARE = polygon((0, 0), (100, 0), (100, 60), (0, 60))
DART = Mouth(Point(50.0, 30.0), toward_before=True)

REFUSALS: list[tuple[Callable[[], object], str]] = [
    (
        lambda: cutting_outline([Margin(SQUARE[:3], 10.0), DART, DART, Margin(SQUARE[3:], 10.0)]),
        "cutting line: two darts meet with no edge between them",
    ),
    (lambda: cutting_outline([Margin((), 3.0)]), "cutting line: the allowances leave nothing of the outline"),
    (
        lambda: cutting_outline([Margin((line,), -80.0) for line in SQUARE]),
        "cutting line: the allowances leave nothing of the outline",
    ),
    (
        lambda: triangle_height(100.0, 100.0, 250.0),
        "cap: so short an armhole does not reach over a sleeve 250 mm wide",
    ),
    (
        lambda: cap_of_height(CAP, back=121.0, front=240.0, height=120.0),
        "cap: its back of 121 mm is too short for a height of 120 mm",
    ),
    (
        lambda: cap_of_height(CAP, back=240.0, front=121.0, height=120.0),
        "cap: its front of 121 mm is too short for a height of 120 mm",
    ),
    (
        lambda: cap_of_height(LEANING, back=134.2, front=323.1, height=120.0),
        "cap: its crown would lie too far to one side",
    ),
    (
        lambda: cap_of_width(CAP, back=150.0, front=150.0, width=360.0),
        "cap: none so long, or so short, can be drawn over a sleeve so wide",
    ),
    (lambda: tangent(Line(HERE, HERE), 0.5), "curve: a line of no length has no direction"),
    (lambda: tangent(Cubic(HERE, HERE, HERE, HERE), 0.0), "curve: all four points of a curve are one place"),
    (lambda: fair(HERE, RIGHT, HERE, UP), "the line: both its ends are one place"),
    (
        lambda: fair_touching(HERE, -RIGHT, HERE, UP, Point(50.0, -90.0), UP),
        "the line: no smooth line can be drawn there between its two ends",
    ),
    (
        lambda: bend(HERE, RIGHT, Point(60.0, 90.0), Vec(0.2, -1.0)),
        "the line: no smooth line can be drawn between its two ends",
    ),
    (lambda: bend(HERE, RIGHT, Point(60.0, 1.0), RIGHT), "the line: no smooth line can be drawn between its two ends"),
    (lambda: smooth_through([HERE], RIGHT, RIGHT), "the line: a curve needs two points or more"),
    (lambda: smooth_through([HERE, HERE], RIGHT, RIGHT), "the line: two neighbouring points are one place"),
    (
        lambda: solve(lambda x: x * x + 1.0, 3.0, 0.5),
        "its outline: no line can be drawn that is as long as it has to be",
    ),
]


@pytest.mark.parametrize(("asked", "words"), REFUSALS, ids=[words for _, words in REFUSALS])
def test_what_cannot_be_drawn_is_refused_in_these_words(asked: Callable[[], object], words: str) -> None:
    with pytest.raises(NotAPattern) as refused:
        asked()
    assert str(refused.value) == words
