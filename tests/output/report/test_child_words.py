"""Cautions stand where a child may wear it, and nowhere else; each sends her to the rules where she lives."""

from __future__ import annotations

import re
from dataclasses import replace

from drafting.alterations import Opening, Wrap, apply_step
from drafting.pattern import BodyLength, ChildWearer, NotchMark, Pattern, Place, Wearer, notches_marking, require_edge
from drafting.pattern.text import to_json
from drafting.pattern.text_read import from_json
from drafting.sewing import Act, SewingStep, SupplyKind, cautions, possible_cautions, sewing_order, supplies
from output.lay.shopping_list import supply_to_buy
from output.report.child_words import caution_passage, cautions_before_sewing
from output.report.sewing_words import step_words
from tests.blocks.child.test_child_block import drafted, mean
from tests.drafting.parts.test_attached import made
from tests.drafting.sizes import sized
from tests.examples import example_pattern


def _said(pattern: Pattern, act: Act) -> str:
    step = next(step for step in sewing_order(pattern) if step.act is act)
    return " ".join(step_words(pattern, step, "cm").sentences)


def test_a_grown_woman_is_told_nothing_of_children_and_of_an_unknown_wearer_it_is_said() -> None:
    buttoned = apply_step(sized(92, "skirt"), Opening("centre front", "buttons"))
    wrapped = apply_step(sized(92, "skirt"), Wrap(overlap=120.0))
    for pattern, act, what in ((buttoned, Act.BUTTONS, "under three"), (wrapped, Act.LAP, "cords")):
        unknown = replace(pattern, wearer=Wearer(""))
        assert "child" not in _said(pattern, act)
        assert possible_cautions(pattern) == ()
        assert what in _said(unknown, act)
        assert "rules in force where you live" not in _said(unknown, act)
        assert cautions_before_sewing(unknown).count("rules in force where you live") == 1
        assert any("burn" in each.short for each in possible_cautions(unknown))


def test_the_rules_in_force_are_named_once_and_the_steps_say_a_short_word() -> None:
    child = _child(52, "")
    (told,) = caution_passage(child)
    said = " ".join((*told.sentences, cautions_before_sewing(child)))
    assert said.count("rules in force where you live") == 1
    assert told.title in cautions_before_sewing(child)


def _child(months: int | None, lives: str, height: float = 1040.0) -> Pattern:
    lengths = (BodyLength("stature", height, "measured"),)
    return replace(sized(92, "skirt"), wearer=Wearer("Mira", lengths, ChildWearer("girl", months, lives)))


def _told(pattern: Pattern) -> dict[str, str]:
    return {each.kind: " ".join(each.sentences) for each in cautions(pattern)}


def test_all_four_are_told_of_a_child_each_with_the_rules_in_force() -> None:
    for months, lives in ((None, ""), (20, "EU"), (60, "US"), (150, "UK"), (60, "elsewhere")):
        told = _told(_child(months, lives))
        assert list(told) == ["cords", "elastic", "small parts", "nightwear"]
        assert all("rules in force where you live" in said for said in told.values())
    assert cautions(_child(14 * 12, "EU")) == ()


def test_figures_stand_for_where_the_child_lives_and_for_everywhere_where_that_is_not_known() -> None:
    # EN 14682 in summaries of its text of 2007; 16 CFR 1120 with ASTM F1816; 16 CFR 1501, 1615; SI 1985/2043 by name
    here = {lives: _told(_child(20, lives)) for lives in ("", "EU", "US", "elsewhere")}
    assert "140 mm" in here["EU"]["cords"]
    assert "75 mm" not in here["EU"]["cords"]
    assert "75 mm" in here["US"]["cords"]
    assert "1 1/4 in" in here["US"]["small parts"]
    assert "EN 14682" not in here["US"]["cords"]
    for told in (here[""]["cords"], here["EU"]["cords"], here[""]["nightwear"]):
        figures = re.findall(r"\d [cm]m\b.{5}", told)  # of every length in both units, as the report may be in inches
        assert figures
        assert all(" (" in each or ")" in each for each in figures)
    for what in ("140 mm", "75 mm"):
        assert what in here[""]["cords"]
        assert what not in here["elsewhere"]["cords"]


def test_what_is_told_goes_by_age_and_height() -> None:
    young, old, tall = _child(60, "EU"), _child(140, "EU", 1500.0), _child(None, "EU", 1500.0)
    assert "up to 134 cm" in _told(young)["cords"]
    assert "150 mm (5 7/8 in) round" in _told(old)["cords"]
    assert "up to 134 cm" in _told(tall)["cords"]  # the age is not known
    assert _told(_child(35, "EU"))["small parts"].startswith("Under three")
    assert _told(_child(36, "EU"))["small parts"].startswith("Sew every button")


def test_a_childs_pattern_reads_back_with_the_child_and_a_womans_has_none() -> None:
    for pattern in (_child(52, "EU"), _child(None, "")):
        assert from_json(to_json(pattern)).wearer.child == pattern.wearer.child
    assert '"child"' not in to_json(sized(92, "skirt"))


def test_no_step_names_an_end_of_the_opening_that_no_piece_is_marked_with() -> None:
    for order in ({"opening": "back slit"}, {"opening": "front slit"}):
        pattern = drafted(mean(92), "child's bodice", **order)
        named = [step for step in sewing_order(pattern) if "the opening ends here" in _words(pattern, step)]
        assert named
        for step in named:
            assert all(notches_marking(pattern.piece(name), NotchMark.OPENING_END) for name in step.pieces)


def _words(pattern: Pattern, step: SewingStep) -> str:
    return " ".join(step_words(pattern, step, "cm").sentences)


def test_the_strips_of_a_buttoned_shoulder_are_on_the_shopping_list() -> None:
    pattern = drafted(mean(92), "child's bodice", opening="button shoulder")
    (strips,) = (each for each in supplies(pattern, sewing_order(pattern)) if each.kind is SupplyKind.STRIPS)
    assert strips.count == 4
    assert strips.length == max(require_edge(piece, Place.SHOULDER).length for piece in pattern.pieces) + 30.0
    assert "4" in supply_to_buy(strips, "cm").line
    assert "6.0 cm wide" in supply_to_buy(strips, "cm").line


def test_small_parts_are_warned_of_in_one_step_where_the_snaps_are_set() -> None:
    baby = example_pattern("mooring-romper")
    told = [step.act for step in sewing_order(baby) if "Under three" in _words(baby, step).replace("under", "Under")]
    assert told == [Act.SNAPS]
    bought = [supply_to_buy(each, "cm").line for each in supplies(baby, sewing_order(baby))]
    assert not any("swallow" in line for line in bought)


def test_ties_of_a_child_that_are_too_short_to_meet_are_sewn_nearer_to_each_other() -> None:
    said = _said(made("ties", "child's dress"), Act.ATTACH)
    assert "no more than 12.0 cm between them" in said
    assert "between them" not in _said(made("ties", "dress"), Act.ATTACH)
