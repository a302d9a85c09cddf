"""A bare edge is bound where its sewing line lies, and what is cut for it stands in what to buy."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from drafting.fit.ease import ease_table
from drafting.pattern import Edge, Pattern, Place, with_pieces
from drafting.sewing import Act, SupplyKind, sewing_order, supplies
from output.api import Garment, block, draft, part, read_garment
from output.lay.shopping_list import supply_to_buy
from output.report.sewing_words import step_words
from tests.bodies import women
from tests.drafting.sizes import sized

_BOY = """
name = "Tom"
body = "boy"
unit = "in"
[measurements]
height = 28
chest = "17 3/4"
waist = "17 1/2"
hip = 18
head = "17 3/4"
"""
_TOP = """
title = "Top"
wearer = "tom.toml"
unit = "in"
[cloth]
kind = "knit"
stretch = "30 %"
[[block]]
name = "child's bodice"
below_waist = "6 in"
[[block]]
name = "child's sleeve"
"""


def _top(folder: Path) -> Pattern:
    (folder / "tom.toml").write_text(_BOY, encoding="utf-8")
    path = folder / "top.toml"
    path.write_text(_TOP, encoding="utf-8")
    return draft(read_garment(path)).pattern


def _said(pattern: Pattern, act: Act) -> str:
    return " ".join(
        " ".join(step_words(pattern, step, "in").sentences) for step in sewing_order(pattern) if step.act is act
    )


def test_the_allowance_comes_off_before_a_woven_edge_is_bound_and_its_stay_stitches_stay() -> None:
    woven = sized(92, "bodice", "sleeve")
    said = _said(woven, Act.BIND)
    allowances = {edge.allowance for piece in woven.pieces for edge in piece.edges if edge.place is Place.NECK}
    assert allowances - {0.0}
    assert said.index("cut off the allowance") < said.index("sew in the crease")
    assert "just inside the sewing line" in _said(woven, Act.STAY)


def test_an_open_shoulder_of_a_knit_asks_for_nothing_that_is_not_listed(tmp_path: Path) -> None:
    top = _top(tmp_path)
    steps = sewing_order(top, knit=True)
    bought = {each.kind: each for each in supplies(top, steps)}
    assert SupplyKind.BINDING not in bought  # bias tape does not give
    assert "bias tape, or" not in _said(top, Act.BIND)
    assert bought[SupplyKind.STRIP_INTERFACING].count == 4
    strips = [each for each in supplies(top, steps) if each.kind is SupplyKind.STRIPS]
    assert {each.places for each in strips} == {(Place.SHOULDER,), (Place.NECK,)}
    for each in strips:  # what the list asks for is what the step says
        wide = re.search(r"(\S+(?: \S+)? in) wide", supply_to_buy(each, "in").what)
        assert wide
        assert wide[1] in _said(top, Act.BIND) + _said(top, Act.BUTTONS)
    assert "shoulder seam" not in _said(top, Act.SET_IN)


def test_no_note_of_the_ease_table_writes_a_fraction_of_a_centimetre() -> None:
    # "1 1/2 cm" told in inches came out as "1 1/13/16 in"
    assert [row.note for row in ease_table() if re.search(r"\d/\d+ (cm|mm)\b", row.note)] == []


def test_a_romper_open_at_its_shoulders_is_bound_with_a_strip_to_each_edge(tmp_path: Path) -> None:
    (tmp_path / "tom.toml").write_text(_BOY)
    romper = _TOP[: _TOP.index("[[block]]")] + '[[block]]\nname = "romper"\nopening = "button shoulder"\n'
    (tmp_path / "romper.toml").write_text(romper)
    pattern = draft(read_garment(tmp_path / "romper.toml")).pattern
    bound = {step.place: step for step in sewing_order(pattern) if step.act is Act.BIND}
    assert [strip.count for strip in bound[Place.ARMHOLE].strips] == [2]
    assert [strip.count for strip in bound[Place.NECK].strips] == [1, 1]
    said = " ".join(step_words(pattern, bound[Place.NECK], "in").sentences)
    assert "for the romper front" in said
    assert "for the romper back" in said
    titles = [step_words(pattern, step, "in").title for step in sewing_order(pattern)]
    assert not any("bodice" in title for title in titles)


def test_how_long_a_strip_is_cut_does_not_depend_on_what_its_edges_are_called() -> None:
    pattern = draft(Garment("Top", women()[0], (block("bodice"),), parts=(part("neck binding"),))).pattern
    strip = pattern.piece("neck binding")
    other = replace(strip, edges=tuple(_renamed(edge, "upper edge", "Oberkante") for edge in strip.edges))
    assert other != strip
    assert _said(with_pieces(pattern, other), Act.BIND) == _said(pattern, Act.BIND)


def _renamed(edge: Edge, name: str, new: str) -> Edge:
    return replace(edge, name=new) if edge.name == name else edge
