"""Which alterations make sense on which garment: each works on a real body, or is refused in a sentence that teaches.

The same stands as a table in DEVELOPERS.md.
"""

from __future__ import annotations

import pytest

from drafting.alterations import apply_step
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.parts.part_table import find_part
from drafting.pattern import Pattern
from tests.alteration_samples import TROUSER_SAMPLES, Options, sample
from tests.bodies import women
from tests.quick_checks import run_checks
from tests.wardrobe import a_garment, garment_of

LEGS = ("trousers", "jumpsuit")
UPPER = ("dress", "jumpsuit", "knit top", "child's tunic")

WORKS: tuple[tuple[str, Options, tuple[str, ...]], ...] = (
    ("lengthen", {"piece": "trousers front", "by": 20.0, "line": "lengthen or shorten above the crotch"}, LEGS),
    ("lengthen", {"piece": "trousers front", "by": 30.0, "line": "lengthen or shorten above the knee"}, LEGS),
    ("lengthen", {"piece": "trousers front", "by": -40.0}, LEGS),
    ("lengthen", {"piece": "romper front", "by": 15.0}, ("romper",)),
    ("lengthen", {"piece": "skirt front, tier 3", "by": 20.0}, ("tiered skirt",)),
    ("lengthen", {"piece": "skirt front, centre", "by": 30.0}, ("gored skirt",)),
    ("take in", {"waist": 10.0, "hip": 10.0}, (*LEGS, "circle skirt")),
    ("full bust", {"by": 15.0}, ("dress", "jumpsuit", "circle dress")),
    ("sway back", {"depth": 8.0}, (*LEGS, "dress", "circle dress")),
    ("sway back", {"depth": 8.0, "centre_back": "seam"}, ("circle skirt",)),
    ("hem", {"piece": "trousers front", "depth": 30.0}, LEGS),
    ("hem", {"piece": "dungarees front", "depth": 20.0}, ("dungarees",)),
    ("opening", {"at": "centre front", "fasten": "buttons", "button": 15.0}, ("tiered skirt", "circle skirt")),
    ("opening", {"at": "side", "length": 180.0}, LEGS),
    ("side pocket", {}, (*LEGS, "circle skirt", "tiered skirt", "romper", "dungarees")),
    ("patch pocket", {"piece": "trousers back"}, LEGS),
    ("crotch length", {"front": 8.0, "back": 10.0}, LEGS),
    ("seat", {"by": 10.0}, LEGS),
    ("seat", {"by": -10.0}, LEGS),
    ("full thigh", {"by": 10.0}, LEGS),
    ("crotch curve", {"by": 5.0}, (*LEGS, "shorts", "dungarees")),
    ("leg line", {"by": 10.0}, LEGS),
    ("leg line", {"by": -10.0}, LEGS),
)
"""An alteration, its options, and the garments it works on, every check passed."""

REFUSED: tuple[tuple[str, Options, str, str], ...] = (
    ("take in", {"waist": 10.0}, "romper", "give its block another ease instead"),
    ("take in", {"waist": 10.0}, "dungarees", "give its block another ease instead"),
    ("take in", {"waist": 10.0}, "gored skirt", "give its block another ease instead"),
    ("take in", {"waist": 10.0}, "tiered skirt", "draft it flat, or with another ease"),
    ("take in", {"waist": 10.0}, "knit top", "draft it with another ease"),
    ("take in", {"waist": 10.0}, "shorts", 'has a zip in it; this helps: fastening = "back" in the block'),
    ("blend", {"waist": 96}, "trousers", "take its side seams in or let them out instead"),
    ("full bust", {"by": 15.0}, "romper", "no bust point|no piece has a bust point"),
    ("sway back", {"depth": 8.0}, "circle skirt", 'centre_back = "seam"'),
    ("sway back", {"depth": 8.0}, "romper", "no back of this garment has a waist line"),
    ("hem", {"piece": "trousers front", "level": True, "grow": 30.0}, "trousers", "leave level out"),
    ("side pocket", {}, "shorts", 'fastening = "back"'),
    ("crotch length", {"front": 8.0}, "dress", "there are no trousers"),
    ("full thigh", {"by": 10.0}, "dress", "there are no trousers"),
    ("full thigh", {"by": 10.0}, "romper", "there are no trousers"),
    ("seat", {"by": 10.0}, "dungarees", "its centre goes on above the waist, as below a bib"),
    ("opening", {"at": "side", "length": 350.0}, "romper", 'at = "centre back"'),
    ("leg line", {"by": 10.0}, "shorts", "the leg ends above it"),
    ("leg line", {"by": 10.0}, "dungarees", "the leg ends above it"),
)
"""An alteration, its options, a garment it makes no sense on, and what the refusal teaches."""


def failed(pattern: Pattern) -> list[str]:
    return [f"{each.check}: {each.where}" for each in run_checks(pattern) if each.verdict is Verdict.FAIL]


@pytest.mark.parametrize(
    ("name", "options", "kind"), [(name, options, kind) for name, options, kinds in WORKS for kind in kinds], ids=str
)
def test_what_makes_sense_works_and_passes_every_check(name: str, options: Options, kind: str) -> None:
    assert failed(apply_step(a_garment(kind), sample(name, options))) == []


@pytest.mark.parametrize(("name", "options", "kind", "taught"), REFUSED, ids=str)
def test_what_makes_none_is_refused_in_a_sentence_that_teaches(
    name: str, options: Options, kind: str, taught: str
) -> None:
    with pytest.raises(StepRefused, match=taught):
        apply_step(a_garment(kind), sample(name, options))


@pytest.mark.parametrize("on", ["front", "both", "back"])
def test_a_full_bust_works_on_a_bodice_that_has_a_yoke(on: str) -> None:
    yoked = apply_step(a_garment("dress"), sample("yoke", {"on": on, "depth": 100.0}))
    assert failed(apply_step(yoked, sample("full bust", {"by": 15.0}))) == []


@pytest.mark.parametrize("name", ["crotch length", "seat", "leg line", "crotch curve"])
def test_trousers_cut_in_two_from_the_dart_down_say_which_step_came_too_early(name: str) -> None:
    panels = sample("dart into seam", {"piece": "trousers front", "dart": "waist dart", "to": "hem"})
    cut = apply_step(a_garment("jumpsuit"), panels)
    with pytest.raises(StepRefused, match='put this step before "dart into seam"'):
        apply_step(cut, sample(name, TROUSER_SAMPLES[name][0]), as_written=True)


def test_a_smock_is_not_hung_from_a_front_that_ends_below_the_bust() -> None:
    high = apply_step(a_garment("dress"), sample("empire seam", {}))
    with pytest.raises(StepRefused, match=r"ends at an empire seam.*leave one out"):
        apply_step(high, sample("smock", {}), as_written=True)


def test_a_tuck_to_grow_beside_a_dart_in_the_side_seam_leaves_the_seam_within_a_hundredth() -> None:
    dart = {"piece": "bodice front", "dart": "bust dart", "to": "side seam", "measured_from": "armhole", "part": 0.3}
    moved = apply_step(a_garment("dress"), sample("move a dart", {**dart, "share": 0.5}))
    assert failed(apply_step(moved, sample("room to grow", {"piece": "bodice front", "by": 6.0, "at": "tuck"}))) == []


def test_a_smock_takes_the_cloth_of_a_dart_that_parts_the_side_seam() -> None:
    dart = {"piece": "bodice front", "dart": "bust dart", "to": "side seam", "measured_from": "armhole"}
    moved = apply_step(a_garment("dress"), sample("move a dart", {**dart, "share": 0.4}))
    assert failed(apply_step(moved, sample("smock", {}), as_written=True)) == []


def test_a_second_deeper_yoke_on_trousers_with_a_fly_says_how_deep_it_can_be() -> None:
    fly = garment_of("fly trousers", women()[40], [find_part("fly")])
    yoked = apply_step(fly, sample("skirt yoke", {"depth": 28.0}))
    with pytest.raises(StepRefused, match="too small for a line 102 mm below its waist"):
        apply_step(yoked, sample("skirt yoke", {"depth": 102.0}), as_written=True)
