"""The paper a garment file is printed on where it says none: the one usual where its unit is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from blocks.from_file.paper_file import NO_SIZE, read_paper
from drafting.errors import Problem
from drafting.reading.read_table import Reader
from output.api.making import read_garment

PERSON = '\n[measurements]\nheight = "168 cm"\nbust = "92 cm"\nwaist = "74 cm"\nhip = "99 cm"\n'


@pytest.mark.parametrize(
    ("unit", "paper", "size", "by_unit"),
    [
        ("cm", "", "A4", False),
        ("in", "", "Letter", True),
        ("in", '[paper]\nhem = "2 in"\n', "Letter", True),
        ("in", '[paper]\nsize = "A4"\n', "A4", False),
        ("cm", '[paper]\nsize = "Letter"\n', "Letter", False),
    ],
)
def test_who_writes_inches_prints_on_letter(tmp_path: Path, unit: str, paper: str, size: str, by_unit: bool) -> None:
    (tmp_path / "oda.toml").write_text(f'name = "Oda"\nbody = "woman"\nunit = "{unit}"\n{PERSON}', encoding="utf-8")
    garment = tmp_path / "skirt.toml"
    garment.write_text(f'title = "Skirt"\nwearer = "oda.toml"\n{paper}[[block]]\nname = "skirt"\n', encoding="utf-8")
    like = tmp_path / "like.toml"
    like.write_text('like = "skirt.toml"\n', encoding="utf-8")
    for path in (garment, like):
        found = read_garment(path).paper
        assert (found.size, found.by_unit) == (size, by_unit)


@pytest.mark.parametrize(
    ("unit", "paper", "seam", "hem"),
    [
        ("cm", "", 15.0, 40.0),
        ("in", "", 15.875, 38.1),
        ("in", '[paper]\nseam_allowance = "15 mm"\nhem = "4 cm"\n', 15.0, 40.0),
    ],
)
def test_allowances_left_out_are_whole_in_her_unit(
    tmp_path: Path, unit: str, paper: str, seam: float, hem: float
) -> None:
    (tmp_path / "oda.toml").write_text(f'name = "Oda"\nbody = "woman"\nunit = "{unit}"\n{PERSON}', encoding="utf-8")
    garment = tmp_path / "skirt.toml"
    garment.write_text(f'title = "Skirt"\nwearer = "oda.toml"\n{paper}[[block]]\nname = "skirt"\n', encoding="utf-8")
    like = tmp_path / "like.toml"
    like.write_text('like = "skirt.toml"\n', encoding="utf-8")
    for path in (garment, like):
        found = read_garment(path)
        assert (found.paper.seam_allowance, found.hem) == pytest.approx((seam, hem), abs=1e-9)


@pytest.mark.parametrize("key", ["seam_allowance", "hem"])
@pytest.mark.parametrize("written", ["1.5 mm", 0, "3 mm"])
def test_an_allowance_too_narrow_to_be_sewn_is_refused_where_it_is_written(key: str, written: str | int) -> None:
    problems: list[Problem] = []
    read_paper(Reader({key: written}, place="skirt.toml", problems=problems, unit="cm"), NO_SIZE)
    most = {"seam_allowance": "6.0", "hem": "25.0"}[key]
    told = [(each.where, each.expected) for each in problems if "size" not in each.where]
    refused = [(f"skirt.toml, {key}", f"0, or a length from 0.3 cm to {most} cm")]
    assert told == (refused if written == "1.5 mm" else [])
