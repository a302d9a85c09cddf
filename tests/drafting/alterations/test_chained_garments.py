"""Chains on garments of every kind that once failed, crashed or were refused in words of the program: the shortest."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from drafting.alterations import Alteration, apply_step
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.parts.part_table import find_part
from drafting.pattern import Level, Pattern, Place, edges_at, walk
from drafting.pattern.text import to_json
from tests.alteration_samples import sample
from tests.outside import stranger
from tests.outside.walk_seams import faults
from tests.quick_checks import run_checks
from tests.wardrobe import KINDS, a_garment, garment_of, wearers

BUTTONS = sample("opening", {"at": "centre front", "fasten": "buttons"})
SIDE_ZIP = sample("opening", {"at": "side", "length": 250.0})


def failed(pattern: Pattern) -> list[str]:
    return [f"{each.check}, {each.where}" for each in run_checks(pattern) if each.verdict is Verdict.FAIL]


def taken(kind: str, *steps: Alteration) -> Pattern:
    pattern = a_garment(kind)
    for step in steps:
        pattern = apply_step(pattern, step)
    return pattern


@pytest.mark.parametrize(
    ("kind", "steps"),
    [
        # the facings of a stand follow tiers and a skirt yoke where the hem is faced
        ("tiered skirt", (BUTTONS, sample("hem", {"piece": "skirt front, tier 3", "finish": "facing"}))),
        (
            "skirt",
            (
                sample("skirt yoke", {"depth": 70.0}),
                BUTTONS,
                sample("hem", {"piece": "skirt front", "finish": "facing"}),
            ),
        ),
        # the wrist of a full sleeve follows its underarm seam where a raglan makes it longer
        ("cardigan", (sample("full sleeve", {"cap": 30.0, "hem": 200.0}), sample("raglan", {"left_over": "gathers"}))),
        ("dress", (sample("yoke", {"on": "both"}), sample("empire seam", {}))),
        ("dress", (sample("kimono", {}), sample("empire seam", {}))),
        ("dress", (sample("raglan", {}), sample("empire seam", {"rise": 0.0, "left_over": "gathers"}))),
        # gathers on both sides of one seam
        (
            "dress",
            (
                sample("gather skirt", {"ratio": 1.5}),
                sample("dart into gathers", {"piece": "bodice back", "dart": "waist dart"}),
            ),
        ),
        # a jumpsuit of which the bodice alone is buttoned: its stand ends at the waist
        ("jumpsuit", (sample("opening", {"at": "centre front", "fasten": "buttons", "only": "bodice front"}),)),
        ("dungarees", (sample("room to grow", {"piece": "dungarees front", "by": 30.0}),) * 3),
    ],
)
def test_they_pass_and_a_stranger_finds_nothing(kind: str, steps: Sequence[Alteration]) -> None:
    after = taken(kind, *steps)
    assert set(failed(after)) <= set(failed(a_garment(kind)))
    assert faults(stranger.read(to_json(after))) == []


@pytest.mark.parametrize(
    ("kind", "steps", "said"),
    [
        (
            "dress",
            (sample("empire seam", {}), sample("empire seam", {"below": 60.0})),
            "there is an empire seam already",
        ),
        ("skirt", (sample("shaped band", {}), sample("shaped band", {"depth": 20.0})), "has a shaped band already"),
        ("skirt", (SIDE_ZIP, sample("side pocket", {})), "has a zip in it; a zip and a pocket do not go into one"),
    ],
)
def test_what_makes_no_sense_twice_is_refused_in_words(kind: str, steps: Sequence[Alteration], said: str) -> None:
    with pytest.raises(StepRefused, match=said):
        taken(kind, *steps)


def test_a_pocket_and_then_a_zip_are_refused_in_the_same_words() -> None:
    with pytest.raises(StepRefused, match="has a pocket in it; a zip and a pocket do not go into one"):
        apply_step(taken("skirt", sample("side pocket", {})), SIDE_ZIP, as_written=True)


def test_a_tuck_is_marked_from_side_to_side_over_a_dart_and_follows_a_seam_there() -> None:
    tucked = taken("dress", sample("room to grow", {"piece": "bodice front", "by": 13.0, "at": "tuck"}))
    front = tucked.piece("bodice front")
    (side,) = edges_at(front, Place.SIDE)
    for line in (line for line in front.lines if line.level is Level.TUCK):
        assert abs(line.end.x - line.start.x) > 0.9 * min(abs(side.start.x), abs(side.end.x))
    parted = apply_step(
        tucked, sample("dart into seam", {"piece": "bodice front", "dart": "bust dart", "to": "waist dart"})
    )
    assert {line.level for piece in parted.pieces for line in piece.lines} >= {Level.TUCK}


def test_the_notches_at_the_waist_of_a_childs_long_bodice_meet_exactly() -> None:
    kind = next(kind for kind in KINDS if kind.name == "child's tunic")
    who = next(
        each for each in wearers(kind) if each.name == "girl 226"
    )  # her belly slants the front more than the back
    tunic = garment_of(kind.name, who)
    (notch,) = walk(tunic, tunic.seam("side seam")).notches
    assert notch.along_a == pytest.approx(notch.along_b, abs=1e-6)
    assert failed(tunic) == []


def test_a_lining_of_an_open_front_has_no_sliver_at_its_hem() -> None:
    kind = next(kind for kind in KINDS if kind.name == "cardigan")
    who = next(each for each in wearers(kind) if each.name == "woman 1516")
    assert failed(garment_of(kind.name, who, [find_part("lining")])) == []


def test_a_stranger_sees_where_gathers_of_both_sides_do_not_meet() -> None:
    after = taken(
        "dress",
        sample("gather skirt", {"ratio": 1.5}),
        sample("dart into gathers", {"piece": "bodice back", "dart": "waist dart"}),
    )
    draft = stranger.read(to_json(after))
    (back,) = [piece for piece in draft.table["pieces"] if piece["name"] == "skirt back"]
    (mark,) = [notch for notch in back["notches"] if notch["name"] == "waist dart gathers to"]
    mark["at"] += 60.0 if mark.get("from", "start") == "start" else -60.0
    assert [fault for fault in faults(draft) if fault.startswith("back waist: from ")]
