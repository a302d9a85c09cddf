"""Trousers for real women: what a stranger measures on them, every check, and what is said when one gives way."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, plan_block, prepare
from blocks.trousers.draft import ENDS, FASTENINGS, LEGS
from drafting.body.person import Person, person
from drafting.checks import Verdict
from drafting.errors import CannotDraft
from drafting.pattern import Pattern, finished
from drafting.pattern.text import to_json
from drafting.sewing import sewing_order
from tests.bodies import women
from tests.outside import stranger
from tests.outside.sew_it import not_sewable
from tests.outside.trousers_table import table
from tests.quick_checks import run_checks

BOOK = {
    "stature": 1680.0, "bust_girth": 880.0, "waist_girth": 680.0, "hip_girth": 940.0, "waist_to_hip": 206.0,
    "waist_height": 1040.0, "crotch_height": 760.0, "knee_height": 430.0,
}  # fmt: skip
SHAPED = {"stature": 1600.0, "bust_girth": 900.0, "waist_girth": 600.0}


def trousers(
    who: Person, *, ease: dict[str, float] | None = None, with_: tuple[str, ...] = (), **options: str | float
) -> tuple[Pattern, dict[str, float], dict[str, float]]:
    """The pattern, the body it was drafted for and the ease, mm."""
    orders = (*(BlockOrder(find_block(name)) for name in with_), BlockOrder(find_block("trousers"), options))
    garment = Garment("trousers", who, orders, ease=ease or {})
    prepared = prepare(garment)
    body = {value.key: value.mm for value in prepared.body.known()}
    return draft(garment, prepared), body, prepared.ease.by_place()


def measured(pattern: Pattern, name: str) -> float:
    return next(each.finished for each in finished(pattern) if each.name == name)


@pytest.mark.parametrize("who", women()[::184], ids=lambda who: who.name)
def test_a_stranger_measures_what_the_body_and_the_ease_ask_for(who: Person) -> None:
    pattern, body, ease = trousers(who)
    lines = table(stranger.read(to_json(pattern)), body, ease)
    assert [line for line in lines if not line.holds] == []
    assert len(lines) == 22  # a line that is not found under its name would not be held


@pytest.mark.parametrize(("leg", "ends"), list(product(LEGS, ENDS)))
def test_every_leg_passes_every_check_and_can_be_sewn(leg: str, ends: str) -> None:
    pattern, *_ = trousers(women()[11], leg=leg, ends=ends)
    assert not [r for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR, Verdict.WARN)]
    assert not list(not_sewable(pattern, sewing_order(pattern)))


@pytest.mark.parametrize("fastening", FASTENINGS[:3])
def test_they_open_where_they_are_asked_to_and_let_the_hips_through(fastening: str) -> None:
    pattern, *_ = trousers(women()[11], fastening=fastening)
    opened = {edge.place for piece in pattern.pieces for edge in piece.edges if edge.role == "opening"}
    assert opened == {{"side": "side seam", "fly": "centre front", "back": "centre back"}[fastening]}
    assert not [r for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)]
    assert not list(not_sewable(pattern, sewing_order(pattern)))


def test_the_book_comes_out_of_the_block_where_nothing_is_fitted() -> None:
    """Source: Practical Textbook of Fashion English, 3rd edition, part 3, hip 94 and waist 68; see test_textbook.py."""
    pattern, *_ = trousers(
        person(BOOK, name="book"), ease={"waist": 10.0, "hip": 40.0, "crotch_depth": 0.0}, hem_width=440.0
    )
    # the book ends both curves level; ours come up to the fork square to a hollow inside leg, as long together
    assert measured(pattern, "crotch, front part") == pytest.approx(313.31, abs=0.5)
    assert measured(pattern, "crotch length") == pytest.approx(313.31 + 375.87, abs=0.6)
    assert measured(pattern, "waist") == pytest.approx(690.0, abs=0.01)
    assert measured(pattern, "hip") == pytest.approx(980.0, abs=0.01)
    assert measured(pattern, "knee") == pytest.approx(492.0, abs=0.01)
    assert "not measured" in " ".join(pattern.origin[0].gave_way)


def test_a_thigh_and_a_knee_that_are_asked_for_come_out_exactly() -> None:
    pattern, body, _ = trousers(women()[11], ease={"thigh": 105.0, "knee": 60.0})
    assert measured(pattern, "thigh") == pytest.approx(body["thigh_girth"] + 105.0, abs=0.01)
    assert measured(pattern, "knee") == pytest.approx(body["knee_girth"] + 60.0, abs=0.01)


def test_a_thigh_that_is_too_close_for_its_crotch_gives_way_and_says_so() -> None:
    pattern, *_ = trousers(women()[11], ease={"thigh": 20.0})
    assert any("round the thigh" in said for said in pattern.origin[0].gave_way)


def test_a_crotch_that_no_fork_can_be_drawn_for_is_refused_by_its_tapes() -> None:
    with pytest.raises(CannotDraft) as refused:
        trousers(person({**BOOK, "crotch_length": 1000.0}, name="slip"))
    assert {"crotch_length", "crotch_height", "waist_height"} & set(refused.value.measurements)


def test_a_hip_that_lies_too_near_the_crotch_is_told_how_far_above_it_it_has_to_lie() -> None:
    """BOOK: the crotch 28 cm below the waist, 2 cm lower with this ease: the hip 28.5 cm at the most."""
    who = person({**BOOK, "waist_to_hip": 290.0}, name="low")
    order = BlockOrder(find_block("trousers"))
    garment = Garment("trousers", who, (order,), ease={"crotch_depth": 20.0})
    prepared = prepare(garment)
    with pytest.raises(CannotDraft, match="at least 15 mm below the hip"):
        plan_block(garment, prepared, order, ()).draft()
    prepared = prepare(replace(garment, wearer=person({**BOOK, "waist_to_hip": 285.0}, name="low")))
    plan_block(garment, prepared, order, ()).draft()


def test_a_jumpsuit_is_sewn_at_the_waist_opens_behind_and_has_room_to_sit() -> None:
    pattern, body, ease = trousers(women()[11], with_=("bodice", "sleeve"), leg="wide", ends="cropped")
    assert not [r for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)]
    assert not list(not_sewable(pattern, sewing_order(pattern)))
    assert {"front waist", "back waist"} <= {seam.name for seam in pattern.seams}
    assert measured(pattern, "crotch length") == pytest.approx(
        body["crotch_length"] + ease["crotch_length"] + 30.0, abs=0.01
    )


def test_trousers_that_end_at_the_crotch_are_refused_with_a_length() -> None:
    with pytest.raises(CannotDraft, match=r"length = .36\.3 cm. can be had"):
        trousers(person(BOOK, name="short"), length=300.0)
    trousers(person(BOOK, name="short"), length=363.0)


def test_below_a_bodice_that_opens_behind_they_do_not_open_at_the_side() -> None:
    with pytest.raises(CannotDraft, match="open where the bodice does"):
        trousers(women()[0], with_=("bodice",), fastening="side")


@pytest.mark.parametrize(
    ("fastening", "hip", "waist_to_hip", "above", "helps"),
    [
        ("back", 1100.0, 200.0, (), True),
        ("back", 1200.0, 140.0, (), False),
        ("side", 1200.0, 140.0, (), False),
        ("back", 1140.0, 200.0, ("bodice",), False),
    ],
)
def test_an_opening_at_the_side_is_offered_only_where_the_hip_comes_through_there(
    fastening: str, hip: float, waist_to_hip: float, above: tuple[str, ...], helps: bool
) -> None:
    """An opening is half as long as the hip is wider than the waist, at the side to 60 mm below the hip line at most;
    below a bodice it lies where the bodice opens.
    """
    who = person({**SHAPED, "hip_girth": hip, "waist_to_hip": waist_to_hip}, name="round")
    *before, own = (BlockOrder(find_block(name)) for name in (*above, "trousers"))
    own = replace(own, options={"fastening": fastening})
    garment = Garment("trousers", who, (*before, own))
    prepared = prepare(garment)
    made = [plan_block(garment, prepared, order, ()).draft() for order in before]
    with pytest.raises(CannotDraft, match="To let the hip through") as refused:
        plan_block(garment, prepared, own, made).draft()
    assert ('fasten at the "side" instead' in refused.value.reason) is helps
    if helps:
        plan_block(garment, prepared, replace(own, options={"fastening": "side"}), made).draft()


@pytest.mark.parametrize("long", [420.0, 620.0, 965.0])
def test_the_outside_leg_is_as_long_as_was_asked_for(long: float) -> None:
    pattern, *_ = trousers(person(BOOK, name="asked"), length=long)
    assert measured(pattern, "outside leg") == pytest.approx(long, abs=0.01)
    assert dict(pattern.origin[0].options)["length"] == pytest.approx(long, abs=0.01)


def test_a_crotch_curve_without_room_to_turn_to_the_inside_leg_ends_in_sentences() -> None:
    garment = Garment("shorts", women()[239], (BlockOrder(find_block("trousers"), {"ends": "shorts"}),))
    with pytest.raises(CannotDraft, match="Measure these again"):
        draft(garment, prepare(garment))
