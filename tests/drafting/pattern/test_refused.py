"""Every refusal of the constructors of a pattern is reached, each by one thing that is wrong and nothing else."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Line, Point
from drafting.pattern import (
    Dart,
    Edge,
    EdgeRef,
    MarkLine,
    MarkPoint,
    Nest,
    Notch,
    NotchRef,
    Pattern,
    Piece,
    Role,
    Seam,
    SeamEase,
    Sized,
    Station,
    Wearer,
)

A, B, C, D, APEX = Point(0.0, 0.0), Point(100.0, 0.0), Point(100.0, 80.0), Point(0.0, 80.0), Point(55.0, 40.0)
LEFT, RIGHT = Point(50.0, 0.0), Point(60.0, 0.0)


def edge(name: str, start: Point, end: Point, role: Role = Role.SEAM) -> Edge:
    return Edge(name, (Line(start, end),), role)


EDGES = (
    edge("hem", A, LEFT),
    edge("first leg", LEFT, APEX, Role.DART_LEG),
    edge("second leg", APEX, RIGHT, Role.DART_LEG),
    edge("rest of the hem", RIGHT, B),
    edge("side", B, C),
    edge("top", C, D),
    edge("fold", D, A),
)
DART = Dart("dart", ("first leg", "second leg"), APEX)
PIECE = Piece("front", EDGES, darts=(DART,), notches=(Notch("mark", Station("side", 20.0)),))
PATTERN = Pattern("Apron", Wearer("Inga"), (PIECE, replace(PIECE, name="back")))
SIDE, OTHER = (EdgeRef("front", "side"),), (EdgeRef("back", "side", backward=True),)
SEAM = Seam("side seam", SIDE, OTHER, notches=((NotchRef("front", "mark"), NotchRef("back", "mark")),))


def with_edge(name: str, changed: Edge) -> tuple[Edge, ...]:
    return tuple(changed if each.name == name else each for each in EDGES)


def nest(*changed: Callable[[Piece], Piece]) -> Nest:
    """The apron in two sizes, of which the front of the second is changed."""
    front = PIECE
    for change in changed:
        front = change(front)
    return Nest("Apron", (Sized("76", PATTERN), Sized("80", replace(PATTERN, pieces=(front, PATTERN.pieces[1])))))


def test_what_is_refused_below_is_accepted_when_nothing_is_wrong() -> None:
    assert replace(PATTERN, seams=(SEAM,)).seams == (SEAM,)
    assert len(nest().sizes) == 2
    MarkLine("line", A, C, (Line(A, B), Line(B, C)))
    SeamEase(5.0, 5.0, 5.0)


REFUSED: tuple[tuple[str, Callable[[], object]], ...] = (
    ("it has no curves", lambda: Edge("hem", ())),
    ("its allowance is -1.0 mm", lambda: Edge("hem", (Line(A, B),), allowance=-1.0)),
    ("its allowance is inf mm", lambda: Edge("hem", (Line(A, B),), allowance=math.inf)),
    ("its allowance is nan mm", lambda: Edge("hem", (Line(A, B),), allowance=math.nan)),
    ("a gap of", lambda: Edge("hem", (Line(A, B), Line(C, D)))),
    ("a coordinate is not a finite number", lambda: Edge("hem", (Line(A, Point(math.nan, 0.0)),))),
    ("a coordinate is not a finite number", lambda: Edge("hem", (Line(Point(0.0, math.inf), B),))),
    ("a coordinate is not a finite number", lambda: Edge("hem", (Cubic(A, Point(math.nan, 0.0), C, B),))),
    ("a coordinate is not a finite number", lambda: Edge("hem", (Cubic(A, C, Point(0.0, -math.inf), B),))),
    ("its curves do not run from its start to its end", lambda: MarkLine("line", A, C, (Line(A, B),))),
    ("its curves do not run from its start to its end", lambda: MarkLine("line", A, C, (Line(B, C),))),
    ("its curves do not run from its start to its end", lambda: MarkLine("line", A, C, (Line(A, B), Line(D, C)))),
    ("it has no edges", lambda: Piece("front", ())),
    ("before the edge", lambda: Piece("front", EDGES[:3] + EDGES[4:])),
    ("before the edge", lambda: Piece("front", EDGES[:-1])),
    ("two edges have one name", lambda: Piece("front", with_edge("top", edge("side", C, D)))),
    ("two notches have one name", lambda: replace(PIECE, notches=PIECE.notches * 2)),
    ("two darts have one name", lambda: replace(PIECE, darts=(DART, DART))),
    ("two lines have one name", lambda: replace(PIECE, lines=(MarkLine("l", A, B),) * 2)),
    ("two points have one name", lambda: replace(PIECE, points=(MarkPoint("p", A),) * 2)),
    ('is on "sleeve", which is no edge', lambda: replace(PIECE, notches=(Notch("n", Station("sleeve", 1.0)),))),
    ("which are no edges", lambda: replace(PIECE, darts=(Dart("dart", ("first leg", "leg"), APEX),))),
    (
        "are not marked as dart legs",
        lambda: Piece("front", with_edge("first leg", edge("first leg", LEFT, APEX)), darts=(DART,)),
    ),
    (
        "are not marked as dart legs",
        lambda: Piece("front", with_edge("second leg", edge("second leg", APEX, RIGHT)), darts=(DART,)),
    ),
    ("do not meet in its apex", lambda: replace(PIECE, darts=(replace(DART, apex=A),))),
    ("do not meet in its apex", lambda: replace(PIECE, darts=(replace(DART, legs=("second leg", "first leg")),))),
    ("a point is meant between", lambda: replace(PIECE, points_meant=(("side", "neck"),))),
    ("runs clockwise or encloses nothing", lambda: Piece("front", (edge("a", A, C), edge("b", C, B), edge("c", B, A)))),
    ("runs clockwise or encloses nothing", lambda: Piece("front", (edge("a", A, B), edge("b", B, A)))),
    ("is not between", lambda: SeamEase(5.0, 6.0, 7.0)),
    ("is not between", lambda: SeamEase(5.0, 0.0, 4.0)),
    ("is not between", lambda: SeamEase(0.0, -math.inf, 0.0)),
    ("is not between", lambda: SeamEase(0.0, 0.0, math.inf)),
    ("is not between", lambda: SeamEase(math.nan, 0.0, 1.0)),
    ("one side has no edges", lambda: Seam("side seam", (), OTHER)),
    ("one side has no edges", lambda: Seam("side seam", SIDE, ())),
    ("two pieces have one name", lambda: replace(PATTERN, pieces=(PIECE, PIECE))),
    ("two seams have one name", lambda: replace(PATTERN, seams=(SEAM, SEAM))),
    ('there is no piece "cuff"', lambda: replace(PATTERN, seams=(replace(SEAM, b=(EdgeRef("cuff", "side"),)),))),
    (
        'the piece "front" has no edge "cuff"',
        lambda: replace(PATTERN, seams=(replace(SEAM, a=(EdgeRef("front", "cuff"),)),)),
    ),
    (
        'there is no notch "n" on "back"',
        lambda: replace(PATTERN, seams=(replace(SEAM, notches=((NotchRef("front", "mark"), NotchRef("back", "n")),)),)),
    ),
    ("a nest has two sizes or more", lambda: Nest("Apron", (Sized("76", PATTERN),))),
    ("two sizes have one name", lambda: Nest("Apron", (Sized("76", PATTERN),) * 2)),
    ("the pieces differ: size 76 has front; size 80 has bib", lambda: nest(lambda front: replace(front, name="bib"))),
    (
        'the edges of "front" differ',
        lambda: nest(lambda front: replace(front, edges=with_edge("top", edge("neck", C, D)))),
    ),
    (
        "size 80 has top (fold)",
        lambda: nest(lambda front: replace(front, edges=with_edge("top", edge("top", C, D, Role.FOLD)))),
    ),
    ("they stand in another order", lambda: nest(lambda front: replace(front, edges=EDGES[1:] + EDGES[:1]))),
    ('the darts of "front" differ: size 76 has dart', lambda: nest(lambda front: replace(front, darts=()))),
)


def test_each_refusal_says_of_what_it_is_said() -> None:
    told: dict[str, int] = {}
    for _, make in REFUSED:
        with pytest.raises(NotAPattern) as refused:
            make()
        told[refused.value.where] = told.get(refused.value.where, 0) + 1
    assert told == {
        'edge "hem"': 9,
        'the line "line"': 3,
        "front": 17,
        "seam ease": 5,
        'seam "side seam"': 5,
        "Apron": 9,
    }


def test_a_piece_may_be_as_small_as_it_will() -> None:
    small = (Point(0.0, 0.0), Point(1.0, 0.0), Point(1.0, 1.0))
    edges = tuple(edge(str(k), small[k], small[(k + 1) % 3]) for k in range(3))
    assert Piece("eyelet", edges).edges == edges


@pytest.mark.parametrize(("sentence", "make"), REFUSED)
def test_what_no_pattern_could_be_is_refused_and_said(sentence: str, make: Callable[[], object]) -> None:
    with pytest.raises(NotAPattern) as refused:
        make()
    assert sentence in str(refused.value)
    assert sentence not in refused.value.where  # that is the thing it is said of
