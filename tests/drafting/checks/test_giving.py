"""A knit gives when it is put on, and is stretched while it is worn; what is faced or banded holds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import ALTERATIONS
from drafting.body.person import person
from drafting.checks import CHECKS, Verdict, named, run_checks, worst
from drafting.checks.giving import share_stretched, worn_stretched
from drafting.checks.wearing import needs_no_opening
from drafting.fit.cloth import Cloth
from drafting.parts.part_table import PARTS
from drafting.pattern import Across, Along, Cut, Pattern, finished, with_pieces
from drafting.pattern.text import to_json
from drafting.pattern.text_read import from_json
from tests.drafting.dress import dress

INTO = ["room-to-get-in", "neck-goes-round"]


def knit_dress(cloth: Cloth, *, closed: bool = True, low: float = 60.0, wide: float = 30.0) -> Pattern:
    """A dress of a regular fit with a wide round neck, its back opening closed."""
    steps = [ALTERATIONS.named("neckline")(depth=low, width=wide, back=low / 2.0)] if low else []
    if closed:
        steps.append(ALTERATIONS.named("opening")(at="centre back", fasten="closed"))
    blocks = tuple(BlockOrder(find_block(name)) for name in ("bodice", "sleeve", "skirt"))
    wearer = person({"stature": 1680.0, "bust_girth": 920.0, "waist_girth": 760.0, "hip_girth": 960.0}, name="Oda")
    return finish(Garment("knit dress", wearer, blocks, cloth=cloth, steps=tuple(steps)))


def test_a_knit_with_enough_stretch_is_put_on_without_an_opening_and_says_so() -> None:
    results = run_checks(knit_dress(Cloth("stretch jersey")), checks=named(CHECKS, INTO))
    assert worst(results) is Verdict.PASS
    into = next(each for each in results if each.code == "room-to-get-in")
    assert into.where == "over the head, without an opening, in a knit stretched by 25 %"
    assert needs_no_opening(knit_dress(Cloth("stretch jersey"), closed=False))


def test_a_woven_and_a_firm_knit_need_their_opening() -> None:
    for cloth in (Cloth(), Cloth("knit", stretch=0.1)):
        results = run_checks(knit_dress(cloth), checks=named(CHECKS, INTO))
        assert worst(results) is Verdict.FAIL
        assert not needs_no_opening(knit_dress(cloth, closed=False))


def test_a_neck_that_does_not_pass_the_head_keeps_its_opening() -> None:
    assert not needs_no_opening(knit_dress(Cloth("stretch jersey"), closed=False, low=0.0, wide=0.0))
    shut = run_checks(knit_dress(Cloth("stretch jersey"), low=0.0, wide=0.0), checks=named(CHECKS, INTO[1:]))
    assert worst(shut) is Verdict.WARN  # her head is not measured: a small one would not pass


def test_half_of_the_stretch_is_used_to_get_in_and_none_where_the_edge_is_held() -> None:
    pattern = dress()
    neck = [Along("bodice front", "neck"), Along("bodice back", "neck")]
    assert share_stretched(pattern.pieces, pattern.seams, neck, 0.6) == pytest.approx(0.3)
    assert share_stretched(pattern.pieces, pattern.seams, neck, 0.0) == 0.0
    waist = [Along("skirt front", edge.name) for edge in pattern.piece("skirt front").edges if "waist" in edge.name]
    stiff = with_pieces(pattern, replace(pattern.piece("bodice front"), cut=Cut(1, fold=True, interfacing=1)))
    assert share_stretched(stiff.pieces, stiff.seams, waist, 0.6) == 0.0
    assert share_stretched(stiff.pieces, stiff.seams, [Across("skirt front", "hip line")], 0.6) == pytest.approx(0.3)
    assert "neck facing" in [part.name for part in PARTS]


def test_worn_stretched_is_what_the_body_is_more_than_the_garment() -> None:
    pattern = replace(dress(), stretch=0.4)
    assert worn_stretched(dress()) == {}
    assert worn_stretched(pattern)["bust"] == 0.0
    # bust 92 cut 4 % smaller is 88.3 round, and worn stretched by 4.2 %
    made = next(each.finished for each in finished(pattern) if each.name == "bust")
    body = tuple(replace(m, body=made / 0.96) if m.name == "bust" else m for m in pattern.measures)
    assert worn_stretched(replace(pattern, measures=body))["bust"] == pytest.approx(0.042, abs=5e-4)


def test_the_stretch_is_kept_in_the_file_of_the_pattern_and_left_out_for_a_woven() -> None:
    pattern = knit_dress(Cloth("stretch jersey"))
    assert from_json(to_json(pattern)).stretch == pattern.stretch == 0.5
    assert '"stretch"' not in to_json(dress())
