"""Two states of a pattern compared: every length that differs is told, and nothing else."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.alterations import Lengthen, apply_step
from drafting.geometry import Cubic, Vec, shift
from drafting.pattern import SeamEase, move_piece, with_edges, with_pieces
from drafting.pattern.compare import SHOWS, Moved, moved, strayed
from tests.drafting.dress import dress


def told(found: tuple[Moved, ...]) -> dict[tuple[str, str, str], float]:
    return {(each.kind, each.name, each.where): each.by for each in found}


def test_a_pattern_does_not_differ_from_itself() -> None:
    assert moved(dress(), dress()) == ()
    assert [strayed(piece, piece) for piece in dress().pieces] == [0.0] * len(dress().pieces)


def test_a_piece_strays_by_as_much_as_an_edge_bulges_between_ends_that_stay() -> None:
    """A cubic with both handles 8 mm off its chord stands 6 mm off it half way along: three quarters."""
    skirt = dress().piece("skirt front")
    fold = skirt.edge("centre front")
    along, out = fold.end - fold.start, (fold.end - fold.start).unit().right()
    handles = (fold.start + along * (k / 3.0) + out * 8.0 for k in (1, 2))
    bulged = with_edges(skirt, replace(fold, curves=(Cubic(fold.start, *handles, fold.end),)))
    for one, other in ((skirt, bulged), (bulged, skirt)):
        assert strayed(one, other) == pytest.approx(6.0, abs=0.05)


def test_lengthening_the_sleeve_moves_its_length_and_its_seam_only() -> None:
    found = told(moved(dress(), apply_step(dress(), Lengthen("sleeve", 30.0))))
    assert found.keys() == {("finished", "shoulder to wrist", ""), ("seam", "underarm seam", "sleeve")}
    assert found["finished", "shoulder to wrist", ""] == pytest.approx(30.0, abs=1e-3)


def test_a_seam_whose_sides_part_is_told_by_each_of_them() -> None:
    held = apply_step(dress(), Lengthen("bodice front", 20.0, only="bodice front"))
    found = {each.where: each for each in moved(dress(), held) if each.name == "side seam"}
    assert set(found) == {"bodice front"}
    assert found["bodice front"].by == pytest.approx(20.0, abs=0.5)


def test_both_ways_round_the_changes_are_the_same_with_the_other_sign() -> None:
    longer = apply_step(dress(), Lengthen("skirt front", 20.0))
    there, back = told(moved(dress(), longer)), told(moved(longer, dress()))
    assert there
    assert back == {key: -by for key, by in there.items()}


def test_what_is_only_in_one_of_the_two_is_told_as_new_or_gone() -> None:
    whole = dress()
    front = whole.piece("bodice front")
    without = replace(whole, seams=whole.seams[:-1], measures=whole.measures[1:])
    gone = moved(whole, without)
    assert [each.name for each in gone if each.after is None and each.kind == "seam"] == [whole.seams[-1].name]
    assert [each.name for each in gone if each.kind == "finished"] == [whole.measures[0].name]
    assert all(each.before is None for each in moved(without, whole) if each.kind in ("seam", "finished"))
    assert {each.kind for each in moved(whole, with_pieces(whole, replace(front, darts=front.darts[1:])))} == {"dart"}


def test_the_ease_declared_of_a_seam_is_told() -> None:
    whole = dress()
    first = replace(whole.seams[0], ease=SeamEase(12.0, 5.0, 20.0))
    found = moved(whole, replace(whole, seams=(first, *whole.seams[1:])))
    assert [(each.kind, each.name, each.after) for each in found] == [("ease", whole.seams[0].name, 12.0)]


def test_a_new_seam_without_ease_is_told_by_its_length_only() -> None:
    whole = dress()
    plain = next(seam for seam in whole.seams if seam.plain)
    without = replace(whole, seams=tuple(seam for seam in whole.seams if seam is not plain))
    assert {each.kind for each in moved(without, whole) if each.name == plain.name} == {"seam"}


def test_an_edge_that_is_a_finished_measurement_by_itself_is_told_once() -> None:
    found = moved(dress(), apply_step(dress(), Lengthen("bodice front", 20.0)))
    centre = [(each.kind, each.name) for each in found if each.name.startswith("centre")]
    assert sorted(centre) == [("finished", "centre back"), ("finished", "centre front")]


def test_changes_that_do_not_show_in_a_tenth_of_a_millimetre_are_left_out() -> None:
    hair = apply_step(dress(), Lengthen("sleeve", SHOWS / 2))
    assert moved(dress(), hair) == ()
    assert moved(dress(), hair, least=SHOWS / 4) != ()


def test_a_piece_strays_as_far_as_it_is_moved_and_endlessly_far_where_its_edges_are_others() -> None:
    sleeve = dress().piece("sleeve")
    assert strayed(sleeve, move_piece(sleeve, shift(Vec(3.0, 4.0)))) == pytest.approx(5.0, abs=1e-6)
    renamed = replace(sleeve.edges[0], name="elsewhere")
    bare = replace(sleeve, notches=(), edges=(renamed, *sleeve.edges[1:]))
    assert math.isinf(strayed(sleeve, bare))
