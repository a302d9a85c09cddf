"""What has been measured of an edge or a piece is remembered in it, and is no part of what it is."""

from __future__ import annotations

import pickle
from collections.abc import Sequence
from dataclasses import fields, replace

import pytest

from drafting.alterations.whole_garment.lengthen import Lengthen, cuts_of
from drafting.geometry import Curve, Line, Point, Vec, corner_turn, run_hits, run_length, shift, turn
from drafting.geometry.tolerance import LENGTH, SOLVED
from drafting.pattern import Edge, Fullness, Half, Level, MarkLine, Piece, Place, Role, across, corner_at
from tests.drafting.dress import dress


@pytest.fixture
def measured(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The tolerances within which edges are measured from now on."""
    dress()  # drafted before anything is counted
    tolerances: list[float] = []

    def counted(run: Sequence[Curve], tol: float = LENGTH) -> float:
        tolerances.append(tol)
        return run_length(run, tol)

    monkeypatch.setattr("drafting.pattern.piece_parts.run_length", counted)
    return tolerances


def fresh(name: str) -> Edge:
    return replace(dress().piece("sleeve").edge(name))


def test_an_edge_is_measured_once_for_each_tolerance(measured: list[float]) -> None:
    edge = fresh("cap front")
    lengths = [edge.length, edge.length_within(SOLVED), edge.length, edge.length_within(SOLVED)]
    assert measured == [LENGTH, SOLVED]
    assert lengths[:2] == lengths[2:] == pytest.approx([run_length(edge.curves, 1e-9)] * 2, abs=LENGTH)


def test_that_there_is_nothing_is_remembered_too() -> None:
    edge, asked = fresh("cap front"), list[str]()
    assert [edge.remembered("none", lambda: asked.append("once")) for _ in range(3)] == [None, None, None]
    assert asked == ["once"]


def test_another_allowance_keeps_all_that_was_measured(measured: list[float]) -> None:
    edge = fresh("cap front")
    before = edge.length, edge.length_within(SOLVED)
    other = edge.with_allowance(3.0)
    assert (other.length, other.length_within(SOLVED)) == before
    assert measured == [LENGTH, SOLVED]


def test_after_a_move_an_edge_is_measured_anew(measured: list[float]) -> None:
    edge = fresh("cap front")
    before = edge.length, edge.length_within(SOLVED)
    moved = edge.moved(shift(Vec(10.0, 20.0)))
    assert (moved.length, moved.length_within(SOLVED)) == pytest.approx(before, abs=SOLVED)
    assert measured == [LENGTH, SOLVED, LENGTH, SOLVED]


def test_what_was_asked_of_an_edge_before_a_move_changes_nothing_after_it() -> None:
    turned = turn(Point(30.0, 40.0), 0.7)
    asked = [replace(edge) for piece in dress().pieces for edge in piece.edges]
    unasked = [replace(edge) for edge in asked]
    assert all(edge.length > 0.0 for edge in asked)
    assert [edge.moved(turned).length for edge in asked] == [edge.moved(turned).length for edge in unasked]


def test_the_width_at_a_line_is_measured_once(monkeypatch: pytest.MonkeyPatch) -> None:
    piece = replace(dress().piece("skirt front"))
    through: list[Point] = []

    def counted(run: Sequence[Curve], place: Point, direction: Vec) -> object:
        through.append(place)
        return run_hits(run, place, direction)

    monkeypatch.setattr("drafting.pattern.locate.run_hits", counted)
    first = across(piece, "hip line")
    looked_at = len(through)
    assert looked_at > 0
    assert across(piece, "hip line") == first
    assert len(through) == looked_at
    assert across(replace(piece), "hip line") == first
    assert len(through) == 2 * looked_at


def test_what_is_remembered_is_no_part_of_a_piece() -> None:
    piece = dress().piece("skirt front")
    asked: Piece = replace(piece, edges=tuple(replace(edge) for edge in piece.edges))
    across(asked, "hip line")
    assert asked.edges[0].length > 0.0
    unasked = replace(piece, edges=tuple(replace(edge) for edge in piece.edges))
    assert asked == unasked
    assert repr(asked) == repr(unasked)
    assert pickle.loads(pickle.dumps(asked)) == unasked
    assert hash(asked) == hash(unasked)


def test_a_move_and_another_allowance_keep_every_other_field() -> None:
    start, end = Point(1.0, 2.0), Point(3.0, 4.0)
    line = Line(start, end)
    edge = Edge("neck", (line,), Role.HEM, 4.0, Place.NECK, next(iter(Half)), next(iter(Fullness)))
    mark = MarkLine("bust line", start, end, (line,), Level.BUST, onward=True)
    stay = shift(Vec(0.0, 0.0))
    for whole in (edge, mark):  # what stands at its default would not be missed
        plain = {each.name for each in fields(whole) if each.init and getattr(whole, each.name) == each.default}
        assert not plain
    assert edge.moved(stay) == edge
    assert replace(edge.with_allowance(7.0), allowance=4.0) == edge
    assert mark.moved(stay) == mark


def test_every_corner_is_told_as_its_edges_turn_and_measured_once(monkeypatch: pytest.MonkeyPatch) -> None:
    piece = replace(dress().piece("bodice front"))
    turned = [corner_turn(piece.edges[k - 1].curves, edge.curves) for k, edge in enumerate(piece.edges)]
    assert [corner_at(piece, k) for k in range(len(piece.edges))] == turned
    monkeypatch.delattr("drafting.pattern.locate.corner_turn")
    assert [corner_at(piece, k) for k in range(len(piece.edges))] == turned


def test_what_a_pattern_keeps_is_changed_by_nobody_who_is_given_it() -> None:
    pattern = dress()
    cuts = cuts_of(Lengthen("sleeve", 30.0), pattern)
    with pytest.raises(TypeError, match="does not support item assignment"):
        cuts["sleeve"] = cuts["sleeve"]  # type: ignore[index]
    assert pickle.loads(pickle.dumps(pattern)) == pattern
