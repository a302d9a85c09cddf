"""Two blocks that clothe the same part of the body are not ordered together, and each says which two they are."""

from __future__ import annotations

from pathlib import Path

import pytest

from blocks.block_table import BLOCKS, find_block, rival_blocks
from drafting.errors import CannotDraft, InputProblems
from output.api import Garment, block, draft, person
from output.api.making import read_garment

OF = {
    "skirt": {"circle skirt", "gored skirt", "trousers", "romper", "dungarees"},
    "bodice": {"knit top", "child's bodice", "romper", "dungarees"},
    "sleeve": {"knit sleeve", "child's sleeve"},
    "trousers": {"skirt", "circle skirt", "dungarees"},
}


@pytest.mark.parametrize(("name", "rivals"), OF.items(), ids=OF)
def test_what_clothes_the_same_part_of_the_body_is_a_rival(name: str, rivals: set[str]) -> None:
    found = {each.name for each in rival_blocks(find_block(name), BLOCKS)}
    assert rivals <= found
    assert name not in found
    assert not found & ({"bodice", "sleeve"} - {name} if name in ("skirt", "trousers") else {"skirt"} - {name})


def test_both_together_are_refused_by_name(tmp_path: Path) -> None:
    oda = person({"height": 1680, "bust": 920, "waist": 740, "hip": 990}, name="Oda")
    with pytest.raises(InputProblems, match='"skirt" and "trousers"'):
        Garment("Quay", oda, [block("skirt"), block("trousers")])
    (tmp_path / "oda.toml").write_text(
        'name = "Oda"\nbody = "woman"\nunit = "cm"\n[measurements]\nheight = 168\nbust = 92\nwaist = 74\nhip = 99\n',
        encoding="utf-8",
    )
    both = 'title = "Quay"\nwearer = "oda.toml"\n[[block]]\nname = "skirt"\n[[block]]\nname = "circle skirt"\n'
    (tmp_path / "quay.toml").write_text(both, encoding="utf-8")
    with pytest.raises(InputProblems, match='read "skirt" and "circle skirt", expected one of them'):
        read_garment(tmp_path / "quay.toml")


def test_a_block_that_is_not_drawn_for_a_child_is_refused_with_those_that_are() -> None:
    child = person({"height": 1040.0, "chest": 560.0, "waist": 530.0, "hip": 580.0}, name="Lou", body="girl")
    with pytest.raises(InputProblems) as caught:
        draft(Garment("trousers for Lou", child, [block("trousers"), block("bodice")]))
    (said,) = caught.value.sentences()
    assert 'For a girl name "child\'s bodice" instead. There is no "trousers" for a girl yet: there is "romper"' in said
    assert '""' not in said


def test_a_woven_knit_top_asks_for_another_cloth_and_for_no_measurement() -> None:
    who = person({"height": 1680.0, "bust": 920.0, "waist": 740.0, "hip": 990.0}, name="Oda")
    with pytest.raises(CannotDraft) as caught:
        draft(Garment("top", who, [block("knit top")]))
    assert "take a knit" in caught.value.reason
    assert "measure" not in caught.value.reason
