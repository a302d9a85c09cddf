"""Ties, a sash, loops and tabs: how they are cut, where they are set on, and what a child's may not be."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.garment import draft, prepare
from drafting.errors import CannotDraft
from drafting.parts.attached.loops import loop_length
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern, PieceKind, Place, edges_at
from drafting.reading.options import Value
from drafting.sewing import Act, SupplyKind, sewing_order, supplies
from tests.outside.sew_it import handled, not_sewable
from tests.sweep_parts import Case, garment_of


def made(part: str, garment: str, **options: Value) -> Pattern:
    order = replace(garment_of(Case(part, garment, 0)), parts=(part_of(find_part(part), options),))
    return draft(order, prepare(order))


def test_a_loop_goes_round_its_button() -> None:
    """Loop and the space between its ends: twice the button's width and thickness, 12 and 3 mm (plane geometry)."""
    assert loop_length(12.0) + 12.0 == 2.0 * (12.0 + 3.0)


@pytest.mark.parametrize(
    ("part", "garment", "long", "wide"),
    [
        ("ties", "dress", 900.0, 60.0),
        ("belt loops", "trousers", 5 * (35.0 + 12.0 + 20.0), 20.0),
        ("button loops", "dress", 38.0, 8.0),
        ("sleeve tabs", "dress", 130.0, 30.0),
    ],
)
def test_how_it_is_cut(part: str, garment: str, long: float, wide: float) -> None:
    pattern = made(part, garment)
    (name,) = pattern.derived[-1].pieces
    corners = [edge.start for edge in pattern.piece(name).edges]
    assert max(each.x for each in corners) == pytest.approx(long)
    assert max(each.y for each in corners) == pytest.approx(wide)


@pytest.mark.parametrize(
    ("part", "garment"),
    [
        ("ties", "dress"),
        ("ties", "knit top"),
        ("sash", "dress"),
        ("belt loops", "skirt"),
        ("button loops", "child's dress"),
        ("sleeve tabs", "dress"),
    ],
)
def test_it_is_marked_on_the_garment_and_handled_once(part: str, garment: str) -> None:
    pattern = made(part, garment)
    derived = pattern.derived[-1]
    steps = sewing_order(pattern)
    assert not_sewable(pattern, steps) == []
    (step,) = (each for each in steps if each.act is Act.ATTACH)
    _, edges, _ = handled(steps)
    for name in derived.pieces:
        assert all(edges[name, edge.name] == 1 for edge in pattern.piece(name).edges)
    assert {*derived.pieces, *(ref.piece for ref in derived.lines)} == set(step.pieces)
    assert bool(derived.lines) is (part != "sash")


def test_ties_are_made_before_the_side_seam_that_catches_them() -> None:
    steps = sewing_order(made("ties", "dress"))
    acts = [(step.act, step.place) for step in steps]
    assert acts.index((Act.ATTACH, Place.WAIST)) < acts.index((Act.JOIN, Place.SIDE))


def test_the_buttons_of_loops_and_tabs_are_bought() -> None:
    for part, count in (("button loops", 3), ("sleeve tabs", 2)):
        options = {"count": 3.0} if part == "button loops" else {}
        pattern = made(part, "dress", **options)
        bought = [each for each in supplies(pattern, sewing_order(pattern)) if each.kind is SupplyKind.BUTTONS]
        assert [each.count for each in bought] == [count]


def test_a_button_loop_is_cut_on_the_bias() -> None:
    (loop,) = (each for each in made("button loops", "dress").pieces if each.identity.kind is PieceKind.LOOP)
    assert loop.grain is not None
    along = loop.grain.end - loop.grain.start
    assert along.x == pytest.approx(along.y)


def test_no_tie_goes_at_a_childs_neck() -> None:
    with pytest.raises(CannotDraft, match="child's neck") as refused:
        made("ties", "child's dress", at="neck")
    assert 'name = "button loops"' in str(refused.value)


@pytest.mark.parametrize(
    ("part", "option", "most"),
    # EN 14682 in its text of 2007, as it is summed up: 140 mm at the waist; a tied sash 360 mm (from memory)
    [("ties", "length", 140.0), ("sash", "ends", 360.0)],
)
def test_the_free_ends_of_a_child_are_short(part: str, option: str, most: float) -> None:
    made(part, "child's dress")
    made(part, "child's dress", **{option: most})
    with pytest.raises(CannotDraft, match="current rules where the child lives") as refused:
        made(part, "child's dress", **{option: most + 1.0})
    assert str(refused.value).count(f'{option} = "{most:.0f} mm"') == 1
    made(part, "dress", **{option: most + 1.0})


def test_the_mark_of_a_belt_loop_lies_on_the_piece() -> None:
    pattern = made("belt loops", "skirt", count=7.0)
    assert len(pattern.derived[-1].lines) == 2
    for ref in pattern.derived[-1].lines:
        piece = pattern.piece(ref.piece)
        assert edges_at(piece, Place.WAIST)
        line = piece.line(ref.line)
        assert line.start.y <= max(edge.start.y for edge in piece.edges)
