"""To which side a dart is pressed: told in words, and cut so that its mouth lies on the edge it is pressed over."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.geometry import Cubic, Line, Point, Vec, mirror, run_hits, turn
from drafting.pattern import Dart, Edge, Grain, Half, Piece, PieceKind, Place, Role, dart_mouth, move_piece, with_edges
from drafting.pattern.cutting import cutting_line, dart_roof, is_cut_out, is_slit, is_upright, mouth_lies, pressed
from drafting.pattern.places import Identity

APEX = Point(150.0, 260.0)
UP, LEVEL = Grain(Point(150.0, 50.0), Point(150.0, 200.0)), Grain(Point(50.0, 100.0), Point(250.0, 100.0))


def panel(grain: Grain | None = UP, *, wide: float = 20.0, centre: str = "", halves: str = "") -> Piece:
    """A panel of 300 by 400 with a dart in the middle of its upper edge, which slopes down beyond it.

    centre: "left" or "right", "fold left" or "fold right": where the centre of the body is
    halves: "front, back" or the reverse: before and after the dart
    """
    right, left = Point(150.0 + wide / 2, 400.0), Point(150.0 - wide / 2, 400.0)
    a, b, c, d = Point(0.0, 0.0), Point(300.0, 0.0), Point(300.0, 400.0), Point(0.0, 360.0)
    before, after = (Half(each) for each in halves.split(", ")) if halves else (None, None)

    def side(name: str, start: Point, end: Point) -> Edge:
        role = Role.FOLD if centre == f"fold {name}" else Role.SEAM
        place = Place.CENTRE_FRONT if centre == name else Place.SIDE
        return Edge(name, (Line(start, end),), role, 15.0, place)

    return Piece(
        "panel",
        (
            Edge("hem", (Line(a, b),), Role.HEM, 30.0),
            side("right", b, c),
            Edge("before", (Line(c, right),), Role.SEAM, 10.0, Place.SHOULDER, before),
            Edge("in", (Line(right, APEX),), Role.DART_LEG),
            Edge("out", (Line(APEX, left),), Role.DART_LEG),
            Edge("after", (Line(left, d),), Role.SEAM, 10.0, Place.SHOULDER, after),
            side("left", d, a),
        ),
        grain=grain,
        darts=(Dart("dart", ("in", "out"), APEX),),
    )


def lies_over(piece: Piece) -> str:
    """Over which edge the cloth in the mouth lies when the dart is folded: "before" it or "after" it."""
    (dart,) = piece.darts
    cut = cutting_line(piece)
    one, other = dart_mouth(piece, dart)
    found = []
    for name, foot, ray in (("before", one, other), ("after", other, one)):
        over = mirror(dart.apex, foot - dart.apex)
        axis = (foot - dart.apex).unit() * 0.7 + (ray - dart.apex).unit() * 0.3
        edge = max((hit for _, hit in run_hits(cut, dart.apex, axis)), key=lambda hit: hit.along).point
        folded = over.point(edge)
        square = (piece.edge(name).end - piece.edge(name).start).unit()
        if abs((folded - foot).cross(square)) == pytest.approx(10.0, abs=1e-3):
            found.append(name)
    (only,) = found
    return only


@pytest.mark.parametrize(
    ("piece", "over"),
    [
        (panel(centre="fold left"), "after"),
        (panel(centre="fold right"), "before"),
        (panel(centre="left"), "after"),
        (panel(centre="right"), "before"),
        # the grain line stands for the centre where nothing else does
        (panel(Grain(Point(60.0, 50.0), Point(60.0, 200.0))), "after"),
        (panel(Grain(Point(60.0, 200.0), Point(60.0, 50.0))), "after"),
        (panel(Grain(Point(240.0, 50.0), Point(240.0, 200.0))), "before"),
        (panel(None), "before"),
        (panel(None, centre="left"), "after"),
        (panel(Grain(Point(60.0, 50.0), Point(60.0, 50.0))), "after"),
        # level with the grain: down, and that is to the left where the grain points right
        (panel(LEVEL), "after"),
        (panel(LEVEL, wide=0.8), "after"),
        (panel(LEVEL, centre="right"), "after"),
    ],
)
def test_a_dart_is_pressed_toward_the_centre_or_down(piece: Piece, over: str) -> None:
    assert lies_over(piece) == over
    for move in (turn(Point(30.0, 40.0), 0.2), mirror(Point(0.0, 0.0), Vec(0.0, 1.0))):
        (dart,) = piece.darts
        moved = move_piece(piece, move)
        if piece.grain is None or piece.grain.start == piece.grain.end:
            continue  # it lies as the paper does
        assert pressed(moved, moved.darts[0]) == pressed(piece, dart)


def test_which_way_a_dart_is_pressed_is_told_in_words() -> None:
    told = {
        "toward the centre": panel(),
        "down": panel(LEVEL),
        "toward the back": panel(halves="front, back", wide=20.0),
        "open": panel(halves="front, back", wide=60.0),
    }
    assert {words: pressed(piece, piece.darts[0]) for words, piece in told.items()} == {word: word for word in told}
    assert pressed(panel(halves="front, front"), panel().darts[0]) == "toward the centre"


def test_a_dart_over_the_shoulder_is_cut_out_where_it_is_wide() -> None:
    """At more than 30 mm."""
    for wide, out in ((30.0, False), (30.1, True)):
        piece = panel(halves="front, back", wide=wide)
        assert is_cut_out(piece, piece.darts[0]) is out
        assert (dart_roof(piece, piece.darts[0]) == ()) is out
    assert not is_cut_out(panel(wide=90.0), panel().darts[0])
    assert len(dart_roof(panel(halves="back, front"), panel().darts[0])) == 1  # straight, to go either way


@pytest.mark.parametrize(("halves", "lies"), [("front, back", False), ("back, front", True)])
def test_the_mouth_of_a_dart_over_the_shoulder_lies_where_the_back_beside_it_is_no_peak(
    halves: str, lies: bool
) -> None:
    """The edge after it rises by more than a metre within its 14 cm."""
    plain, peak = panel(halves=halves), Point(0.0, 1500.0)
    after, left = plain.edge("after"), plain.edge("left")
    steep = with_edges(
        plain, replace(after, curves=(Line(after.start, peak),)), replace(left, curves=(Line(peak, left.end),))
    )
    assert mouth_lies(steep, steep.darts[0]) is lies
    assert mouth_lies(plain, plain.darts[0])


def test_a_dart_stands_upright_up_to_45_degrees_from_the_grain() -> None:
    for degrees, upright in ((0.0, True), (44.0, True), (46.0, False), (90.0, False), (134.0, False), (136.0, True)):
        along = Vec(math.sin(math.radians(degrees)), math.cos(math.radians(degrees))) * 100.0
        piece = panel(Grain(Point(150.0, 100.0), Point(150.0, 100.0) + along))
        assert is_upright(piece, piece.darts[0]) is upright
    for nowhere in (None, Grain(Point(60.0, 50.0), Point(60.0, 50.0))):  # up the paper
        for degrees, upright in ((44.0, True), (-44.0, True), (46.0, False), (-46.0, False)):
            piece = move_piece(panel(nowhere), turn(Point(0.0, 0.0), math.radians(degrees)))
            assert is_upright(piece, piece.darts[0]) is upright


def test_the_sides_of_a_slit_are_cut_later_and_those_of_what_is_set_into_it_are_not() -> None:
    for place, kind in ((Place.GODET, PieceKind.PANEL), (Place.GUSSET, PieceKind.GUSSET)):
        edge = replace(panel().edge("left"), place=place)
        assert is_slit(panel(), edge)
        assert not is_slit(replace(panel(), identity=Identity(kind)), edge)
        assert not is_slit(replace(panel(), identity=Identity(PieceKind.LINING, of=kind)), edge)
    assert not is_slit(panel(), panel().edge("left"))


@pytest.mark.parametrize(("bow", "peak"), [(-0.05, 401.00), (0.0, 400.02), (0.0009, 399.98), (0.05, 399.00)])
def test_a_dart_with_bowed_legs_folds_about_where_they_would_meet_if_they_ran_on_from_its_mouth(
    bow: float, peak: float
) -> None:
    """In a mouth of 20 mm legs that come to it `bow` to 1 off square, away from each other or towards, make a roof
    10 * 2 * bow high, or as deep; legs side by side one of next to nothing."""
    right, left = Point(160.0, 400.0), Point(140.0, 400.0)
    one, other = Point(160.0, 300.0), Point(140.0, 300.0)
    down = Vec(0.0, -30.0)
    legs = {
        "in": (Cubic(right, right + down + Vec(bow * 30.0, 0.0), one - down, one), Line(one, APEX)),
        "out": (Line(APEX, other), Cubic(other, other - down, left + down - Vec(bow * 30.0, 0.0), left)),
    }
    whole = panel(centre="right")
    piece = replace(whole, edges=tuple(replace(e, curves=legs[e.name]) if e.name in legs else e for e in whole.edges))
    first, second = dart_roof(piece, piece.darts[0])
    assert (first.start, second.end, first.end.x) == (right, left, pytest.approx(150.0))
    assert first.end.y == pytest.approx(peak, abs=0.005)
