"""Elastic at its defaults: it lets the hand and the head through, and is named by where it lies."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.garment import draft, finish, prepare
from drafting.alterations import FullSleeve, Lengthen
from drafting.alterations.bodice.neckline import Neckline
from drafting.checks import Verdict
from drafting.errors import CannotDraft
from drafting.parts.cuffs.cuff_lengths import cuff_room
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Place, edges_at
from drafting.pattern.casings import casings, least_wrist
from tests.quick_checks import run_checks
from tests.sweep_parts import Case, garment_of


def test_the_hand_passes_a_sleeve_on_elastic() -> None:
    """A fist of 21 cm by a wrist of 16 (common practice), and 2 cm of room in the cloth."""
    assert least_wrist(160.0) == pytest.approx(229.6)
    order = garment_of(Case("wrist elastic", "dress", 0))
    prepared = prepare(order)
    sleeve = draft(order, prepared).piece("sleeve")
    (end,) = edges_at(sleeve, Place.WRIST)
    assert end.length == pytest.approx(least_wrist(prepared.body.mm("wrist_girth")))


def test_ease_that_was_asked_for_or_given_by_a_step_stays() -> None:
    order = garment_of(Case("wrist elastic", "dress", 0))
    plain = {each.place: each.mm for each in prepare(replace(order, parts=())).ease.values}
    assert {e.place: e.mm for e in prepare(replace(order, ease={"wrist": 30.0})).ease.values}["wrist"] == 30.0
    full = prepare(replace(order, steps=(FullSleeve(hem=80.0),)))
    assert {each.place: each.mm for each in full.ease.values} == plain


def test_a_sleeve_is_as_wide_as_its_cuff_asks_for() -> None:
    """Wrist 16, ease 4, overlap 2.5 cm, two pleats of 3, a binding of 1: a sleeve edge of 27.5 (worked by hand)."""
    assert cuff_room(part_of(find_part("cuff"), {}), {"wrist_girth": 160.0}) == {"wrist": 275.0 - 160.0}


ENDS = [(0.0, "wrist"), (-120.0, "forearm"), (-240.0, "elbow"), (-340.0, "arm")]


@pytest.mark.parametrize(("shorter", "where"), ENDS)
def test_it_is_named_by_where_it_ends(shorter: float, where: str) -> None:
    order = garment_of(Case("wrist elastic", "dress", 1))
    steps = (Lengthen("sleeve", shorter, hem="as tapered"),) if shorter else ()
    (casing,) = casings(finish(replace(order, steps=steps)))
    assert where in casing.name


@pytest.mark.parametrize("body", [0, 1, 2])
def test_a_neck_too_narrow_for_the_head_is_refused_with_what_mends_it(body: int) -> None:
    order = garment_of(Case("neck elastic", "dress", body))
    with pytest.raises(CannotDraft, match='alter = "neckline", width = "') as refused:
        finish(order)
    by = float(str(refused.value).partition('width = "')[2].partition(" mm")[0])
    mended = replace(order, steps=(Neckline(width=by, depth=by, back=by),))
    failed = [each.where for each in run_checks(finish(mended)) if each.verdict is Verdict.FAIL]
    assert not [each for each in failed if "elastic" in each]
