"""The paper a garment file is printed on where it says none: the one usual where its unit is written."""

from __future__ import annotations

from pathlib import Path

import pytest

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
