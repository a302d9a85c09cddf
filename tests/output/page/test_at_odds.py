"""Measurements with which nothing can be drafted: the buttons that mend them do."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from output.page.desk import Desk
from output.page.edits import read_edits
from output.page.folder import Folder
from tests.output.page.running_page import FERRY, copy_of_examples, set_to


@pytest.mark.parametrize(
    ("person", "garment", "words"),
    [
        ({"across_back": 60}, {}, "Have “across the back” guessed"),
        ({}, {("block", 1, "ease"): {"upper_arm": "30 cm"}}, "Ease upper arm"),
    ],
)
def test_measurements_at_odds_are_mended_by_a_button(
    tmp_path: Path, person: dict[str, Any], garment: dict[Any, Any], words: str
) -> None:
    desk = Desk(Folder.at(copy_of_examples(tmp_path)))
    edits = [set_to(["measurements", key], value, "person") for key, value in person.items()]
    edits += [set_to([*at], value) for at, value in garment.items()]
    refused = json.loads(desk.attempt(FERRY, "", read_edits(edits), {}))
    (problem,) = refused["problems"]
    offer = next(each for each in problem["offers"] if each["words"].startswith(words))
    mended = json.loads(desk.attempt(FERRY, "", read_edits([*edits, *offer["edits"]]), {}))
    assert mended["problems"] == []
    desk.close()


def test_a_step_that_is_refused_after_others_is_named_by_its_own_place(tmp_path: Path) -> None:
    desk = Desk(Folder.at(copy_of_examples(tmp_path)))
    for alter in ("full bust", "hem"):
        edit = {"in": "garment", "do": "insert", "at": ["step", 1], "value": {"alter": alter}}
        (problem,) = json.loads(desk.attempt(FERRY, "", read_edits([edit]), {}))["problems"]
        assert problem["at"][:2] == ["step", 1]
    desk.close()


def test_open_shoulders_that_are_in_the_way_are_closed_by_a_button(tmp_path: Path) -> None:
    place = copy_of_examples(tmp_path)
    (place / "people" / "mika.toml").write_text(
        'name = "Mika"\nbody = "girl"\nunit = "cm"\n[measurements]\nheight = 110\nchest = 57\nwaist = 53\nhip = 60\n',
        encoding="utf-8",
    )
    (place / "garments" / "top.toml").write_text(
        'title = "Pier top"\nwearer = "../people/mika.toml"\n'
        '[[block]]\nname = "child\'s bodice"\nopening = "button shoulder"\nbelow_waist = "12 cm"\n'
        '[[step]]\nalter = "opening"\nat = "centre front"\nfasten = "buttons"\n',
        encoding="utf-8",
    )
    desk = Desk(Folder.at(place))
    told = json.loads(desk.look("garments/top.toml", {}))
    (problem,) = told["problems"]
    (offer,) = problem["offers"]
    assert offer["words"] == "Leave the shoulders closed"
    after = json.loads(
        desk.change("garments/top.toml", told["version"], read_edits(offer["edits"]), offer["words"], "", {})
    )
    assert after["written"]
    assert after["problems"] == []
    assert 'opening = "none"' in (place / "garments" / "top.toml").read_text(encoding="utf-8")
    desk.close()
