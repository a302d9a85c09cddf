"""A stranger lays a tape on knit tops of the open survey and sews them on paper; they can be altered."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from blocks.garment import draft, finish, prepare
from drafting.alterations import ALTERATIONS, Alteration, apply_step
from drafting.checks import Verdict, run_checks
from drafting.errors import StepRefused
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern
from drafting.pattern.text import to_json
from drafting.reading.options import Value
from drafting.sewing import sewing_order
from tests.bodies import women
from tests.outside import knit_table, stranger
from tests.outside.sew_it import not_sewable
from tests.sweep_knits import top_for


@pytest.mark.parametrize("stretch", [0.2, 0.5, 1.0])
def test_a_stranger_finds_on_a_top_what_body_and_cloth_ask_for(stretch: float) -> None:
    for who in women()[7::400]:
        garment = top_for(who, stretch, "close")
        pattern = draft(garment, prepare(garment))
        lines = knit_table.table(stranger.read(to_json(pattern)), dict(who.measurements), stretch)
        assert len(lines) >= 16
        assert [line for line in lines if not line.holds] == [], who.name


@cache
def top(*, cardigan: bool) -> Pattern:
    garment = top_for(women()[30], 0.5, cardigan=cardigan)
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("cardigan", [False, True])
def test_every_band_is_sewn_once_and_can_be(cardigan: bool) -> None:
    garment = top_for(women()[30], 0.5, cardigan=cardigan)
    parts = (
        *garment.parts,
        *(part_of(find_part(name), {}) for name in ("wrist band", *(() if cardigan else ("hem band",)))),
    )
    pattern = finish(replace(garment, parts=parts))
    steps = sewing_order(pattern, knit=True)
    sewn = [name for step in steps for name in step.seams]
    assert sorted(sewn) == sorted(seam.name for seam in pattern.seams)
    assert not_sewable(pattern, steps) == []


def step(alter: str, options: dict[str, Value]) -> Alteration:
    return ALTERATIONS.named(alter)(**options)


WORKS = (
    ("lengthen", {"piece": "sleeve", "by": -360.0, "hem": "as tapered"}),
    ("lengthen", {"piece": "top front", "by": 40.0}),
    ("full bust", {"by": 30.0}),
    ("neckline", {"depth": 40.0, "width": 15.0, "back": 10.0}),
    ("neckline", {"depth": 80.0, "shape": "V"}),
    ("armhole", {"lower": 15.0}),
    ("upper arm", {"by": 20.0}),
    ("hem", {"piece": "top front", "depth": 30.0}),
    ("full sleeve", {"hem": 60.0}),
    ("fit sleeve", {"cap_ease": 10.0}),
    ("opening", {"at": "centre back"}),
)
REFUSED = (
    ("blend", {"waist": 100, "hip": 104}, "draft it with another ease"),
    ("take in", {"waist": 30.0}, "draft it with another ease"),
    ("opening", {"at": "centre front", "fasten": "buttons", "button": 15.0}, "take a collar or a neck facing there"),
    ("small bust", {"by": 10.0}, "there is no bust dart that could be made smaller"),
)


@pytest.mark.parametrize(("alter", "options"), WORKS)
def test_an_alteration_works_on_the_top_and_the_band_follows(alter: str, options: dict[str, Value]) -> None:
    pattern = apply_step(top(cardigan=False), step(alter, options))
    assert [r for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)] == []


@pytest.mark.parametrize(("alter", "options", "said"), REFUSED)
def test_what_makes_no_sense_on_the_top_is_refused_with_what_would(
    alter: str, options: dict[str, Value], said: str
) -> None:
    with pytest.raises(StepRefused, match=said):
        apply_step(top(cardigan=False), step(alter, options))


def test_a_corner_at_the_neck_is_refused_for_the_band_of_a_cardigan() -> None:
    with pytest.raises(StepRefused, match="one band goes round no such corner"):
        apply_step(top(cardigan=True), step("neckline", {"depth": 30.0}))
