"""What is asked about people: nothing leads out of the folder, and what cannot be used is said in sentences."""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from output.api import TrueseamError
from output.page.beginning import begin
from output.page.desk import Desk
from output.page.edits import CannotEdit
from output.page.folder import Folder, NotInFolder
from output.page.listing import listed
from output.page.people_questions import people_answers
from tests.output.page.running_page import FERRY, copy_of_examples

CHART = {
    "title": "Kelp dress",
    "unit": "cm",
    "sizes": "36 38 40 42",
    "body": {"bust": "84 88 92 96", "waist": "66 70 74 78", "hip": "90 94 98 102"},
}
Ask = Callable[[str, dict[str, Any]], Any]


@pytest.fixture
def ask(tmp_path: Path) -> Iterator[Ask]:
    (tmp_path / "inside").mkdir()
    (tmp_path / "secret.toml").write_text('name = "not hers"\n[measurements]\nheight = 170\n')
    folder = Folder.at(copy_of_examples(tmp_path / "inside"))
    desk = Desk(folder)
    answers = people_answers(folder, desk)
    yield lambda address, given: json.loads(answers[address](given))
    desk.close()


def test_every_size_of_every_chart_is_shown_with_its_lengths(tmp_path: Path) -> None:
    answers = people_answers(Folder.at(tmp_path), Desk(Folder.at(tmp_path)))
    listed = subprocess.run(
        [sys.executable, "-m", "output.command", "list", "sizes", "--unit", "in", "--json"],
        capture_output=True,
        text=True,
        check=True,
    )
    charts = json.loads(answers["charts"]({"unit": "in"}))["charts"]
    rows = [row for chart in charts for row in chart["table"]["rows"]]
    assert all(len(row) == len(chart["table"]["columns"]) for chart in charts for row in chart["table"]["rows"])
    assert len(rows) == len(json.loads(listed.stdout)["sizes"])
    assert [row[0].split(" *")[0] for row in rows] == [
        f"{chart['name']} {size}" for chart in charts for size in chart["sizes"]
    ]


def test_a_garment_for_several_people(ask: Ask) -> None:
    told = ask("wearers", {"file": FERRY, "people": ["people/oda.toml", "people/runa.toml"]})
    assert [each["name"] for each in told["people"]] == ["Oda", "Runa"]
    assert {each["state"] for each in told["people"]} <= {"calm", "warning"}
    bust = next(row for row in told["rows"] if row["name"] == "bust")
    assert bust["cells"][0] != bust["cells"][1]


@pytest.mark.parametrize("people", [[], "all", [3], ["../secret.toml"], ["/etc/passwd"], ["people/oda.toml"] * 99])
def test_nobody_from_elsewhere_is_drafted_for(ask: Ask, people: object) -> None:
    with pytest.raises((CannotEdit, NotInFolder)):
        ask("wearers", {"file": FERRY, "people": people})


def test_a_woman_is_not_told_how_she_grows(ask: Ask) -> None:
    with pytest.raises(TrueseamError):
        ask("growth", {"file": FERRY})
    with pytest.raises(CannotEdit, match="cannot be read"):
        ask("growth", {"file": FERRY, "until": "next summer"})


@pytest.mark.parametrize("chart", [None, [], {}, {"body": {f"row {n}": "1" for n in range(99)}}])
def test_what_is_no_chart_is_said(ask: Ask, chart: object) -> None:
    with pytest.raises(CannotEdit, match="chart is needed"):
        ask("size", {"person": "people/oda.toml", "chart": chart})


def test_every_slip_of_a_chart_is_told_and_no_path_of_the_disk(ask: Ask, tmp_path: Path) -> None:
    wrong = CHART | {"body": {"bust": "84 88 92", "waist": "66 70 74 seven", "ells": "1 2 3 4"}}
    told = ask("size", {"person": "people/oda.toml", "chart": wrong})["problems"]
    assert len(told) >= 3
    assert str(tmp_path) not in " ".join(told)
    right = ask("size", {"person": "people/oda.toml", "chart": CHART, "cloth": "denim"})
    assert right["problems"] == []
    assert right["cloth"] == "denim"
    with pytest.raises(CannotEdit, match="whom it is for"):
        ask("size", {"person": "../secret.toml", "chart": CHART})


def test_a_chart_is_kept_found_again_and_read_as_it_was(ask: Ask, tmp_path: Path) -> None:
    folder = Folder.at(tmp_path / "inside")
    name = begin(folder, listed(folder), {"kind": "chart", "chart": CHART | {"title": '../"Kelp"'}})
    assert name == "charts/kelp.toml"
    assert tomllib.loads((folder.path / name).read_text())["body"] == CHART["body"]
    assert listed(folder)["charts"] == [{"file": name, "title": "../'Kelp'"}]
    assert ask("chart", {"file": name})["chart"]["sizes"] == CHART["sizes"]
    with pytest.raises((CannotEdit, NotInFolder)):
        ask("chart", {"file": "../secret.toml"})


def test_one_guess_is_worth_measuring_next_the_one_that_changes_this_garment_most(ask: Ask) -> None:
    told = ask("worth", {"file": FERRY})
    assert told["key"] == "waist_to_hip"
    assert told["said"].startswith("Worth measuring next: if it is 1.9 cm more, the skirt back changes by 1.9 cm")
