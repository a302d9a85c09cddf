"""A garment in the sizes of a chart of hers: drafted for the body that the chart gives, each girth of its own size."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.body.charts import chart_mm
from drafting.errors import InputProblems
from output.api import draft, measurements, read_garment

INCH = 25.4
CHART = 'unit = "in"\nsizes = ["8", "C"]\n[body]\nbust = [34, 36]\nwaist = [26, 28]\nhip = "36 38"\n'
SKIRT = '[[block]]\nname = "skirt"\nlength = "24 in"\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "slip.toml").write_text(CHART, encoding="utf-8")
    return tmp_path


def garment(folder: Path, sizes: str) -> Path:
    path = folder / "skirt.toml"
    path.write_text(f'title = "Slip"\n[sizes]\nchart = "slip.toml"\n{sizes}\n{SKIRT}', encoding="utf-8")
    return path


def test_each_girth_is_of_the_size_that_is_named_for_it(folder: Path) -> None:
    read = read_garment(garment(folder, 'bust = 8\nhip = "C"'))
    lengths = dict(read.wearer.measurements)
    assert [lengths[key] / INCH for key in ("bust_girth", "waist_girth", "hip_girth")] == pytest.approx([34, 26, 38])
    # a chart without heights: that of the built-in size of her bust, 86.4 cm
    assert lengths["stature"] == chart_mm(88, "stature")
    assert read.wearer.name == "slip, size 8 with C at the hip"
    assert measurements(draft(read))["hip"].body == pytest.approx(38 * INCH)


def test_what_is_wrong_in_the_chart_and_in_the_sizes_is_said(folder: Path) -> None:
    with pytest.raises(InputProblems) as caught:
        read_garment(garment(folder, "bust = 9\nhip = true"))
    said = [problem.sentence() for problem in caught.value.problems]
    assert len(said) == 2
    assert all("expected a size of the chart, as it is called there. Sizes are 8, C." in each for each in said)
    (folder / "slip.toml").write_text(CHART.replace("[34, 36]", "[34, 33]").replace("hip", "hem"), encoding="utf-8")
    with pytest.raises(InputProblems) as caught:
        read_garment(garment(folder, "bust = 8"))
    said = [problem.sentence() for problem in caught.value.problems]
    assert len(said) == 2
    assert "slip.toml, [body] bust: read 34 in in size 8 and 33 in in size C" in said[1]
    (folder / "slip.toml").write_text('unit = "in"\nsizes = "8 C"\n[body]\nbust = "34 36"\n', encoding="utf-8")
    with pytest.raises(InputProblems, match=r"rows under .body. for waist, hip"):
        read_garment(garment(folder, "bust = 8"))
    with pytest.raises(InputProblems, match="the size at the bust"):
        read_garment(garment(folder, ""))


def test_a_child_of_a_chart_may_have_the_waist_of_another_size(tmp_path: Path) -> None:
    path = tmp_path / "kid.toml"
    blocks = '[[block]]\nname = "child\'s bodice"\n[[block]]\nname = "child\'s skirt"\n'
    path.write_text(f'title = "Kid"\n[sizes]\nchart = "girls"\nheight = 104\nwaist = 110\n{blocks}', encoding="utf-8")
    waist = measurements(draft(read_garment(path)))["waist"]
    assert waist.body == pytest.approx(chart_mm(110, "waist_girth", chart="girls"))
