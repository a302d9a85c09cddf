"""A step taken on a draft gives what drafting the garment with that step gives, whatever it asks of the blocks."""

from __future__ import annotations

import pytest

from output.api import Garment, alter, block, check, draft, part, person, to_json, undo
from output.api.making import Draft

BLOCKS = [block("bodice"), block("sleeve"), block("skirt")]


def dress(*parts: str, **girths: float) -> Draft:
    oda = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990, **girths}, name="Oda")
    return draft(Garment("Quay dress", oda, BLOCKS, parts=[part(name) for name in parts]))


@pytest.mark.parametrize(
    ("parts", "step", "options"),
    [
        (["cuff"], "full sleeve", {"hem": 50.0}),
        (["wrist elastic"], "full sleeve", {"hem": 50.0}),
        (["cuff"], "lengthen", {"piece": "sleeve", "by": 30.0}),
        ([], "pointed waist", {}),
        ([], "godet", {}),
    ],
)
def test_it_is_the_same_as_drafted_with_it(parts: list[str], step: str, options: dict[str, str | float]) -> None:
    before = dress(*parts, waist=700, hip=1100)
    after = alter(before, step, **options)
    whole = draft(after.garment)
    assert to_json(after) == to_json(whole) == to_json(draft(after.garment, after=before))
    assert to_json(undo(after)) == to_json(before)


def test_a_waist_is_pointed_on_a_draft_with_two_darts_in_front() -> None:
    assert str(check(alter(dress(waist=700, hip=1100), "pointed waist")).verdict) != "fail"
