"""`trueseam grow`, and `[grow]` in a garment file: what is told and written, and every wrong input as a sentence."""

from __future__ import annotations

import json
import re
from datetime import date
from pathlib import Path
from xml.etree import ElementTree

import pytest

from drafting.body.person import read_person
from drafting.growth.measured_growth import growth_of
from drafting.growth.own_centile import expected_height, when_reached
from tests.output.running import Ran, ran

WREN = """
name = "Wren"
body = "girl"
unit = "cm"
born = 2019-05-01
measured = 2026-03-01
[measurements]
height = 120
chest = 60
waist = 55
hip = 63
[[earlier]]
measured = 2025-06-01
height = 115.5
"""

DRESS = """
title = "Slope dress"
wearer = "wren.toml"
[[block]]
name = "child's bodice"
[[block]]
name = "child's sleeve"
[[block]]
name = "child's skirt"
"""

GROW = "[grow]\nuntil = 2027-08-01\n"


@pytest.fixture
def wren(tmp_path: Path) -> Path:
    path = tmp_path / "wren.toml"
    path.write_text(WREN, encoding="utf-8")
    return path


def garment(wren: Path, more: str = GROW, name: str = "dress.toml") -> Path:
    path = wren.parent / name
    path.write_text(DRESS + more, encoding="utf-8")
    return path


def test_it_says_how_tall_she_will_be_which_size_fits_until_when_and_what_to_leave(
    wren: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    found = ran(capsys, "grow", wren, "--until", "2027-08-01")
    growth = growth_of(read_person(wren))
    expected = expected_height(growth, date(2027, 8, 1))
    text = " ".join(found.out.split())
    assert found.status == 0
    assert f"{expected.mm / 10:.1f} cm is to be expected" in text
    assert f"{expected.low / 10:.1f} cm to {expected.high / 10:.1f} cm for 8 of 10" in text
    outgrown = when_reached(growth, 1250.0).middle
    assert outgrown is not None
    assert f"size 122 119 to 125 cm until {outgrown:%B %Y}" in text
    assert "hem of a skirt" in text


def test_the_same_for_a_program(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data = ran(capsys, "grow", wren, "--garment", garment(wren), "--until", "2027-08-01", "--json").data
    assert data["until"]["low_mm"] < data["until"]["mm"] < data["until"]["high_mm"]
    assert [each["size"] for each in data["sizes"]] == [122, 128]
    lasts = {each["name"]: each for each in data["lasts"]}
    assert lasts["skirt length"]["let_down_mm"] > lasts["skirt length"]["finished_mm"]
    assert lasts["waist"]["until"]["middle"] > "2027-08-01"
    for each in (each["until"] for each in data["lasts"]):
        days = [each[name] or "9999" for name in ("early", "middle", "late")]
        assert days == sorted(days)
    assert len(data["lasts"]) == len(lasts)  # the waist of bodice and skirt is told once


def test_what_was_left_to_grow_lasts_until_the_day_that_was_asked_for(
    wren: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = ran(capsys, "grow", wren, "--garment", garment(wren), "--json").data
    for each in data["lasts"]:
        last = each["until_let_down"]["middle"]
        assert last is None or last >= "2027-08-01", each["name"]


def test_without_a_date_it_tells_of_a_year(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert ran(capsys, "grow", wren, "--json").data["until"]["day"] == "2027-03-01"


def test_whoever_writes_inches_is_answered_in_inches(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = ran(capsys, "grow", wren, "--unit", "in").out
    assert "47 1/4 in" in text
    assert not re.search(r"\d cm\b", re.sub(r"\d+ to \d+ cm", "", text))


def test_how_short_a_length_may_come_out_is_told_in_her_unit(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for unit, words in (("in", "3/4 in short"), ("cm", "2.0 cm short")):
        assert words in " ".join(ran(capsys, "grow", wren, "--garment", garment(wren), "--unit", unit).out.split())


def test_the_page_and_the_chart_are_written_and_the_chart_is_true_to_her_heights(
    wren: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    to = tmp_path / "grows"
    assert ran(capsys, "grow", wren, "--to", to, "--until", "2027-08-01").status == 0
    assert {each.name for each in to.iterdir()} >= {"growth.html", "growth.svg"}
    chart = ElementTree.fromstring((to / "growth.svg").read_text(encoding="utf-8"))
    texts = [
        (float(each.get("x", 0)), float(each.get("y", 0)), "".join(each.itertext()))
        for each in chart.iter()
        if each.tag.endswith("text")
    ]
    # a stranger reads the scale off the written heights: y falls by so many units for 10 cm
    scale = {int(text): y - 4.0 for x, y, text in texts if text.isdigit() and x < 34 and y < 262}
    (low, at_low), (high, at_high) = sorted(scale.items())[0], sorted(scale.items())[-1]
    dots = [each for each in chart.iter() if each.tag.endswith("circle") and each.get("r") == "3.6"]
    heights = [low + (float(each.get("cy", 0)) - at_low) * (high - low) / (at_high - at_low) for each in dots]
    assert heights == pytest.approx([115.5, 120.0], abs=0.1)
    assert any("128." in text and "2027-08-01" in text for _, _, text in texts)
    width = float(chart.get("viewBox", "").split()[2])
    assert all(x + 5.6 * len(text) < width + 10 for x, y, text in texts if y > 262)  # nothing runs off a phone


def wrong(capsys: pytest.CaptureFixture[str], *words: str | Path) -> list[str]:
    found: Ran = ran(capsys, *words)
    assert found.status == 2
    assert "Traceback" not in found.err
    return " ".join(found.err.split()).split("- ")


def test_all_that_is_wrong_is_said_at_once(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wren.write_text(WREN.replace("born = 2019-05-01\n", ""), encoding="utf-8")
    told = " ".join(wrong(capsys, "grow", wren, "--until", "next summer", "--garment", wren.parent / "none.toml"))
    assert "--until" in told
    assert "such as 2027-08-01" in told
    assert "the day of birth" in told
    assert "none.toml" in told


@pytest.mark.parametrize(
    ("was", "becomes", "says"),
    [
        ("measured = 2026-03-01\n", "", "measured"),
        ("height = 115.5", "height = 123", "a height that does not fall"),
        ("born = 2019-05-01", "born = 2027-05-01", "born"),
        ("measured = 2025-06-01", "measured = 2018-06-01", "after birth"),
    ],
)
def test_a_file_that_cannot_be_is_refused_in_a_sentence(
    wren: Path, capsys: pytest.CaptureFixture[str], was: str, becomes: str, says: str
) -> None:
    wren.write_text(WREN.replace(was, becomes, 1), encoding="utf-8")
    assert says in " ".join(wrong(capsys, "grow", wren))


def test_a_day_before_birth_and_a_day_that_is_past_are_refused(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "day of birth" in " ".join(wrong(capsys, "grow", wren, "--until", "2011-01-01"))
    assert "last height" in " ".join(wrong(capsys, "grow", wren, "--until", "2026-02-01"))


def test_a_garment_for_somebody_else_is_refused(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = wren.parent / "pim.toml"
    other.write_text(WREN.replace("Wren", "Pim"), encoding="utf-8")
    assert "Pim" in " ".join(wrong(capsys, "grow", other, "--garment", garment(wren)))


def test_a_garment_file_takes_the_day_and_leaves_the_cloth_everywhere(
    wren: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    to = tmp_path / "dress"
    found = ran(capsys, "draft", garment(wren), "--to", to, "--paper", "A0", "--json")
    assert found.status == 0
    data = found.data
    steps = [(each["piece"], each["at"]) for each in data["history"] if each["alter"] == "room to grow"]
    assert steps == [("bodice front", "waist"), ("sleeve", "tuck"), ("sleeve", "hem"), ("skirt front", "hem")]
    titles = [each["title"] for each in data["sewing"]]
    assert titles.index("Growing tuck in the sleeves") > titles.index("Join bodice and skirt at the waist")
    waist = next(each for each in data["sewing"] if each["title"] == "Join bodice and skirt at the waist")
    assert any("1.5 cm from the cut edge" in each for each in waist["sentences"])
    assert any("do not trim it" in each for each in waist["sentences"])
    report = (to / "report.html").read_text(encoding="utf-8")
    assert "Room to grow" in report
    assert "let down the hem" in report
    pattern = json.loads((to / "pattern.json").read_text(encoding="utf-8"))
    lines = [line["name"] for piece in pattern["pieces"] for line in piece["lines"]]
    assert lines.count("let down to here, to last until 2027-08-01") == 5
    assert {"tuck: sew this line", "tuck: onto this line"} <= set(lines)


def test_her_own_amounts_stand_in_place_of_what_is_worked_out(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = GROW + 'hem = "6 cm"\nsleeve = "0 cm"\nwaist = "0 cm"\nwidth = "0 cm"\n'
    data = ran(capsys, "check", garment(wren, asked), "--json").data
    steps = [(each["piece"], each["by"]) for each in data["history"] if each["alter"] == "room to grow"]
    assert steps == [("skirt front", 60.0)]


def test_it_is_left_after_the_steps_of_the_file_and_what_lies_flat_of_a_flared_hem(
    wren: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    flare = '[[step]]\nalter = "lengthen"\npiece = "skirt front"\nby = "5 cm"\n'
    data = ran(capsys, "check", garment(wren, flare + GROW), "--json").data
    assert data["history"][0]["alter"] == "lengthen"
    assert data["verdict"] in ("pass", "warn")


@pytest.mark.parametrize(
    ("grow", "says"),
    [
        ("[grow]\n", "until"),
        ('[grow]\nuntil = "soon"\n', "2026-09-12"),
        ("[grow]\nuntil = 2019-01-01\n", "day of birth"),
        ('[grow]\nuntil = 2027-08-01\nhem = "40 cm"\n', "hem"),
        ('[grow]\nuntil = 2027-08-01\nhems = "4 cm"\n', "hems"),
    ],
)
def test_a_wrong_grow_is_refused_in_a_sentence(
    wren: Path, capsys: pytest.CaptureFixture[str], grow: str, says: str
) -> None:
    assert says in " ".join(wrong(capsys, "check", garment(wren, grow)))


def test_a_woman_does_not_grow(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    woman = tmp_path / "wren.toml"
    woman.write_text(
        WREN.replace('body = "girl"', 'body = "woman"')
        .replace("120", "168")
        .replace("chest = 60", "bust = 90")
        .replace("55", "70")
        .replace("63", "98")
        .partition("[[earlier]]")[0],
        encoding="utf-8",
    )
    assert "growth is told of children" in " ".join(wrong(capsys, "grow", woman))
    path = tmp_path / "skirt.toml"
    path.write_text('title = "S"\nwearer = "wren.toml"\n[[block]]\nname = "skirt"\n' + GROW, encoding="utf-8")
    assert "growth is told of children" in " ".join(wrong(capsys, "check", path))


def test_a_size_of_a_chart_does_not_grow(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "dress.toml"
    sizes = '[sizes]\nchart = "girls"\nheight = 116\n'
    path.write_text(DRESS.replace('wearer = "wren.toml"\n', "") + sizes + GROW, encoding="utf-8")
    assert "a size does not grow" in " ".join(wrong(capsys, "check", path))


def test_of_a_baby_it_is_said_that_it_was_measured_lying(wren: Path, capsys: pytest.CaptureFixture[str]) -> None:
    baby = WREN.partition("[[earlier]]")[0].replace("2019-05-01", "2025-01-01")
    for was, becomes in (("120", "78"), ("60", "47"), ("55", "46"), ("63", "47")):
        baby = baby.replace(f"= {was}", f"= {becomes}")
    wren.write_text(baby, encoding="utf-8")
    found = ran(capsys, "grow", wren, "--until", "2027-03-01")
    assert found.status == 0, found.err
    assert "0.8 cm shorter" in " ".join(found.out.split())
