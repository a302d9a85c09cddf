"""`trueseam lay` as it is typed."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from shapely import Polygon, union_all

from tests.output.running import ran

EXAMPLES = Path(__file__).parents[3] / "examples" / "garments"
SKIRT = EXAMPLES / "towpath-skirt.toml"
WRAP = EXAMPLES / "slipway-skirt.toml"

Capsys = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_it_says_what_to_buy_and_draws_each_cloth(capsys: Capsys, tmp_path: Path) -> None:
    result = ran(capsys, "lay", WRAP, "--time", "0")
    assert result.status == 0
    told = " ".join(result.out.split())
    assert re.search(r"Slipway skirt: shell, 140 cm wide: buy 1\.[345] m", told)
    assert "Slipway skirt: interfacing, 90 cm wide: buy" in told
    for width in ("90 cm", "112 cm", "150 cm"):
        assert width in told
    assert "What would save cloth" in told
    for name in ("shell", "interfacing"):
        assert (tmp_path / "slipway-skirt-lay" / f"{name}.svg").read_text().startswith("<svg")


def test_the_same_for_a_program_holds_a_lay_that_a_stranger_can_verify(capsys: Capsys) -> None:
    result = ran(capsys, "lay", SKIRT, "--time", "0.3", "--width", "54 in", "--fold", "single", "--json")
    shell, interfacing = json.loads(result.out)["cloths"]
    assert (shell["material"], interfacing["material"]) == ("shell", "interfacing")
    (stretch,) = shell["stretches"]
    shapes = [Polygon(piece["outline"]) for piece in stretch["pieces"]]
    assert union_all(shapes).area == pytest.approx(sum(each.area for each in shapes), rel=1e-6)
    left, bottom, right, top = union_all(shapes).bounds
    assert (left >= -1e-3, right <= shell["length"] + 1e-3, bottom >= 10 - 1e-3, top <= 54 * 25.4 - 10 + 1e-3) == (
        True,
    ) * 4
    assert sorted(piece["piece"] for piece in stretch["pieces"]) == [
        "skirt back",
        "skirt back",
        "skirt front",
        "waistband",
    ]


@pytest.mark.parametrize(
    ("have", "status", "said"),
    [
        ("3 m", 0, "It is enough, with"),
        ("2 yd", 0, "It is enough, with"),
        ("1.4 m", 1, "It fits with"),
        ("50 cm", 1, "Nothing that was tried makes it fit"),
    ],
)
def test_what_she_has_is_enough_or_what_makes_it_so(
    have: str, status: int, said: str, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("output.lay.savings._PACKING", 0.15)  # seconds for each change that nearly fits
    result = ran(capsys, "lay", SKIRT, "--time", "0", "--width", "112 cm", "--have", have)
    assert said in " ".join(result.out.split())
    assert result.status == status


def test_the_cloth_of_the_file_does_what_it_says(capsys: Capsys, tmp_path: Path) -> None:
    text = SKIRT.read_text().replace("../people", str(EXAMPLES.parent / "people"))
    path = tmp_path / "skirt.toml"
    path.write_text(
        text + '\n[cloth]\nwidth = "113 cm"\nshrinkage = "10 %"\none_way = true\ninterfacing_width = "112 cm"\n'
    )
    result = ran(capsys, "lay", path, "--time", "0", "--json")
    shell, interfacing = json.loads(result.out)["cloths"]
    assert interfacing["width"] == 1120.0
    assert shell["width"] == 1130.0
    assert shell["to_buy"] >= (shell["length"] + 20.0) / 0.9 > shell["to_buy"] - 100.0
    assert not any(piece["turned"] for stretch in shell["stretches"] for piece in stretch["pieces"])


def test_a_plain_width_is_in_the_unit_the_file_states(tmp_path: Path, capsys: Capsys) -> None:
    people = EXAMPLES.parent / "people"
    text = SKIRT.read_text().replace("../people", people.as_posix())
    garment = tmp_path / "inches.toml"
    garment.write_text(f'unit = "in"\n{text}')
    result = ran(capsys, "lay", garment, "--width", "45", "--json")
    assert json.loads(result.out)["cloths"][0]["width"] == pytest.approx(45 * 25.4)
    drawn = (tmp_path / "inches-lay" / "shell.svg").read_text()
    assert ">9 in<" in drawn  # the ruler names its unit


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--width", "wide"), 'lay --width: read "wide", expected a length with its unit'),
        (("--width", "140"), 'lay --width: read "140", expected a length with its unit'),
        (("--width", "9 m"), 'lay --width: read "9 m"'),
        (
            ("--fold", "lengthwize"),
            'lay --fold: read "lengthwize", expected lengthwise, double, single or across. Did you mean',
        ),
        (("--time", "soon"), 'lay --time: read "soon", expected seconds, from 0 to 3600'),
        (("--width", "30 cm"), "Take cloth at least"),
        (("--width", "45"), 'Write its unit as well: --width "45 cm" or --width "45 in".'),
        (("--width", "-140cm"), 'lay --width: read "-140cm", expected a width that does not begin with a dash'),
        (("--have", "0 m"), 'lay --have: read "0 m", expected a length from 1.0 cm to'),
        (("--have", "one yard"), 'Write the number in figures: --have "1 yd".'),
    ],
)
def test_what_cannot_be_is_said_kindly(words: tuple[str, ...], said: str, capsys: Capsys) -> None:
    result = ran(capsys, "lay", SKIRT, "--time", "0", *words)
    assert result.status == 2
    assert said in " ".join(result.err.split())


STOPPED_WHILE_IT_SEARCHES = """
import os, signal, sys, threading
def hook(event, given):
    if event == "subprocess.Popen" and "solver_process" in str(given[1]):
        threading.Timer(0.2, os.kill, (os.getpid(), signal.SIGINT)).start()
sys.addaudithook(hook)
from output.command import main
sys.exit(main())
"""


def test_ctrl_c_ends_the_search_with_the_best_so_far(tmp_path: Path) -> None:
    """The signal is a real one, sent a fifth of a second after the solver has begun."""
    words = [sys.executable, "-c", STOPPED_WHILE_IT_SEARCHES, "lay", str(SKIRT), "--time", "300"]
    root = Path(__file__).parents[3]
    environment = {**os.environ, "PYTHONPATH": str(root)}
    done = subprocess.run(words, check=False, stdout=subprocess.PIPE, text=True, cwd=tmp_path, env=environment)
    assert done.returncode == 0
    assert "Towpath skirt: shell, 140 cm wide: buy" in done.stdout
    assert (tmp_path / "towpath-skirt-lay" / "shell.svg").exists()


def test_the_report_shows_the_lay_and_how_much(capsys: Capsys, tmp_path: Path) -> None:
    assert ran(capsys, "draft", WRAP, "--to", "one", "--paper", "A0").status == 0
    page = (tmp_path / "one" / "report.html").read_text(encoding="utf-8")
    section = page[page.index("<h2>How much cloth</h2>") :]
    for said in ("<h3>Shell</h3>", "<h3>Interfacing</h3>", "How much to buy, by width", "The pieces on the shell"):
        assert said in section


def test_a_nest_is_laid_in_every_size_and_told_in_one_table(capsys: Capsys, tmp_path: Path) -> None:
    nest = Path(__file__).parents[2] / "outside" / "nest.toml"
    told = json.loads(ran(capsys, "lay", nest, "--json", "--to", "laid").out)["sizes"]
    assert list(told) == ["84", "92", "100"]
    lengths = [cloths[0]["to_buy"] for cloths in told.values()]
    assert lengths == sorted(lengths)
    assert (tmp_path / "laid" / "size-92" / "shell.svg").read_text().startswith("<svg")
    assert "size 92" in ran(capsys, "lay", nest, "--to", "again").out
    refused = ran(capsys, "lay", nest, "--have", "2 m")
    assert (refused.status, "Lay the size you will sew" in " ".join(refused.err.split())) == (2, True)
