"""What a tired hand cannot do: push through a narrow sleeve, spread long gathers evenly, turn what is too narrow."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.checks import Verdict, run_checks
from drafting.errors import Setting
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern
from tests.bodies import women
from tests.drafting.checks import breaks as broken
from tests.drafting.checks import hand_breaks
from tests.drafting.sample import blouse
from tests.drafting.sizes import sized
from tests.remedies import mends
from tests.wardrobe import a_garment

TIER = "front, tier 4 to the tier above"


def tiered() -> Pattern:
    order = BlockOrder(find_block("tiered skirt"), {"tiers": "4"})
    garment = Garment("tiers", women()[40], (order,))
    return draft(garment, prepare(garment))


def banded() -> Pattern:
    order = BlockOrder(find_block("skirt"))
    garment = Garment("skirt", women()[40], (order,), parts=(part_of(find_part("waistband"), {}),))
    return draft(garment, prepare(garment))


@pytest.mark.parametrize(
    ("code", "where", "whole", "way"),
    [
        ("hand-room", "sleeve, over the hand", blouse, lambda pattern: hand_breaks.wrist_of(pattern, 230.0)),
        (
            "gathers-marked",
            f"{TIER}, between its marks",
            tiered,
            lambda pattern: hand_breaks.seam_unmarked(pattern, TIER),
        ),
        (
            "narrow-turns",
            "waistband, inside",
            banded,
            lambda made: broken.allowed(made, "waistband", "right back", 50.0),
        ),
        (
            "goes-on-cloth",
            "skirt back, tier 4, across the cloth",
            tiered,
            lambda made: broken.fold_forgotten(made, "skirt back, tier 4"),
        ),
    ],
)
def test_each_is_seen_where_it_is_and_not_before(
    code: str, where: str, whole: Callable[[], Pattern], way: Callable[[Pattern], Pattern]
) -> None:
    sound = whole()
    assert [each for each in run_checks(sound) if each.code == code and each.verdict is not Verdict.PASS] == []
    found = [each for each in run_checks(way(sound)) if each.code == code and each.verdict is not Verdict.PASS]
    assert [each.where for each in found] == [where]
    assert found[0].verdict is (Verdict.FAIL if code in ("hand-room", "goes-on-cloth") else Verdict.WARN)
    assert found[0].remedy.endswith(".")


@pytest.mark.parametrize("kind", ["trousers", "fly trousers", "knit top", "child's dress", "romper", "circle dress"])
def test_a_sound_garment_of_each_kind_is_warned_of_none_of_them(kind: str) -> None:
    codes = ("hand-room", "gathers-marked", "narrow-turns")
    told = [each for each in run_checks(a_garment(kind)) if each.code in codes]
    assert {each.code for each in told} == set(codes)
    assert [each.where for each in told if each.verdict is not Verdict.PASS] == []


def test_a_sleeve_too_narrow_for_the_hand_is_widened_by_what_the_remedy_gives_to_type() -> None:
    narrow = hand_breaks.wrist_of(sized(92), 210.0)
    (failed,) = (each for each in run_checks(narrow) if each.code == "hand-room" and each.verdict is Verdict.FAIL)
    (remedy,) = failed.remedies
    assert failed.measured is not None
    assert remedy.settings == (Setting("hem", math.ceil(-failed.measured), "mm"),)
    assert mends(narrow, failed)
