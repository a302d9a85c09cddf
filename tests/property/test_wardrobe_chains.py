"""Chains on garments of every kind; what a stranger who walks the seams of a pattern.json notices, and what not."""

from __future__ import annotations

import json
import random

import pytest

from drafting.pattern import Pattern
from drafting.pattern.text import to_json
from tests.chains import main
from tests.drafting.dress import dress
from tests.outside.stranger import Draft
from tests.outside.walk_seams import faults
from tests.wardrobe import KINDS, begun, links_of, parts_for


def drafted(pattern: Pattern) -> Draft:
    return Draft(json.loads(to_json(pattern)))


def test_a_sample_of_chains_on_every_kind_of_garment_ends_well(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--count", "5", "--seed", "5"]) == 0, capsys.readouterr().out


def test_every_kind_begins_has_parts_and_something_to_alter() -> None:
    for kind in KINDS:
        pattern, _ = begun(kind, random.Random(2))
        assert faults(drafted(pattern)) == [], kind.name
        assert len(links_of(kind)) > 20, kind.name
        assert parts_for(kind), kind.name


def test_a_stranger_finds_a_seam_that_does_not_meet() -> None:
    found = drafted(dress())
    (seam,) = [each for each in found.table["seams"] if each["name"] == "shoulder"]
    seam["ease"] = {"wanted": 30.0, "low": 29.0, "high": 31.0}
    assert [fault for fault in faults(found) if fault.startswith("shoulder: ")]


def test_a_stranger_finds_notches_that_are_past_each_other_and_off_their_edge() -> None:
    found = drafted(dress())
    (seam,) = [each for each in found.table["seams"] if each["name"] == "front armhole"]
    (piece,) = [each for each in found.table["pieces"] if each["name"] == "sleeve"]
    (notch,) = [each for each in piece["notches"] if f"sleeve/{each['name']}" == seam["notches"][0][0]]
    notch["at"] += 60.0
    assert [fault for fault in faults(found) if fault.startswith("front armhole: from ")]
    notch["at"] += 900.0
    assert [fault for fault in faults(found) if " on an edge of " in fault]


def test_a_stranger_finds_an_outline_that_crosses_itself() -> None:
    found = drafted(dress())
    edges = found.piece("skirt front")["outline"]
    (hem,) = [at for at, each in enumerate(edges) if each["edge"] == "hem"]
    before, after = edges[hem - 1]["curves"][-1], edges[(hem + 1) % len(edges)]["curves"][0]
    before[-1], after[0] = after[0], before[-1]
    edges[hem]["curves"] = [[before[-1], after[0]]]
    assert "skirt front: its sewing line crosses itself" in faults(found)
