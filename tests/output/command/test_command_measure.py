"""`trueseam measure`: growth over time, and what is worth measuring for a garment."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from output.command import main

PIM = """
name = "Pim"
body = "girl"
unit = "cm"
born = 2020-05-01
measured = 2026-09-01
[measurements]
height = 112
chest = 58
waist = 54
hip = 60
[[earlier]]
measured = 2025-03-01
height = 103
[[earlier]]
measured = 2026-08-01
chest = 57.5
"""


@pytest.fixture
def pim(tmp_path: Path) -> Path:
    path = tmp_path / "pim.toml"
    path.write_text(PIM, encoding="utf-8")
    return path


def told(capsys: pytest.CaptureFixture[str], *words: str | Path) -> tuple[int, str]:
    status = main([*map(str, words)])
    return status, capsys.readouterr().out


def test_a_childs_lengths_over_time_stand_side_by_side_with_the_growth_in_a_year(
    pim: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, text = told(capsys, "measure", pim)
    assert status == 0
    table = text[text.index("Growth:") : text.index("Estimated")]
    assert all(day in table for day in ("2025-03-01", "2026-08-01", "2026-09-01"))
    (height,) = (line for line in table.splitlines() if "height" in line)
    # 9 cm in 549 days
    assert height.split() == ["height", "103.0", "cm", "112.0", "cm", "+6.0", "cm"]
    (chest,) = (line for line in table.splitlines() if "57.5" in line)
    assert "+" not in chest  # a month is too short to tell a growth in a year by
    data = json.loads(told(capsys, "measure", pim, "--json")[1])
    assert data["over_time"][0] == {
        "measurement": "stature",
        "days": [{"measured": "2025-03-01", "mm": 1030.0}, {"measured": "2026-09-01", "mm": 1120.0}],
        "per_year": 59.9,
    }
    assert data["over_time"][1]["per_year"] is None


def test_a_height_that_fell_is_told_by_the_command(pim: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pim.write_text(PIM.replace("height = 103", "height = 118"), encoding="utf-8")
    status, text = told(capsys, "measure", pim, "--all")
    assert status == 0
    assert "height: 118.0 cm on 2025-03-01, then 112.0 cm on 2026-09-01" in " ".join(text.split())


def test_what_is_worth_measuring_for_a_garment_is_told_in_sentences_with_millimetres(
    capsys: pytest.CaptureFixture[str],
) -> None:
    words = ("measure", "examples/people/oda.toml", "--garment", "examples/garments/ferry-dress.toml")
    status, text = told(capsys, *words)
    assert status == 0
    plain = " ".join(text.split())
    assert "Worth measuring for Ferry dress 1. waist to hip: estimated at 22.7 cm, give or take 1.9 cm." in plain
    assert "That much changes the skirt back by 19 mm." in plain
    assert "Estimated as well, but it does not change this garment: knee to floor" in plain
    data = json.loads(told(capsys, *words, "--json")[1])
    assert data["garment"] == "Ferry dress"
    assert [each["key"] for each in data["worth_measuring"]][:2] == ["waist_to_hip", "scye_depth"]
    inches = " ".join(told(capsys, *words, "--unit", "in")[1].split())
    assert "changes the skirt back by 3/4 in" in inches


def test_a_garment_in_sizes_is_no_garment_to_measure_for(capsys: pytest.CaptureFixture[str]) -> None:
    words = ("measure", "examples/people/oda.toml", "--garment", "examples/garments/tollhouse-dress.toml")
    assert main([*words]) == 2
    assert "sizes: read [sizes], expected no sizes of a chart" in capsys.readouterr().err


def test_a_childs_girth_unlike_those_of_other_children_is_told(pim: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert json.loads(told(capsys, "measure", pim, "--json")[1])["unlike_others"] == []
    pim.write_text(PIM.replace("hip = 60", "hip = 41"), encoding="utf-8")
    status, text = told(capsys, "measure", pim)
    assert status == 0
    assert "hip: 41.0 cm; girls of about 110.0 cm have" in " ".join(text.split())
