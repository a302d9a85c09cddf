"""What stands on the terminal: one screen, the verdict first, words whole however narrow it is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from output.command.answer import MOST_LINES, Answer, write_answer
from output.report.table_text import lines_of
from output.report.tables import Column, Passage, Row, Table
from tests.output.running import FERRY, ODA, PERSON, SKIRT, ran, written

Capsys = pytest.CaptureFixture[str]
WIDTHS = (60, 80, 120)

DRESS = SKIRT.replace('length = "55 cm"\n', "") + '[[block]]\nname = "bodice"\n[[block]]\nname = "sleeve"\n'
FAILING = DRESS + "".join(
    f'[[step]]\nalter = "lengthen"\npiece = "{piece}"\nby = "{by} cm"\nonly = "{piece}"\n'
    for piece, by in (("bodice front", 3), ("skirt back", 4), ("skirt front", 9))
)
"""Pieces altered each for itself, so that their seams no longer meet."""

GARMENTS = {
    "failing": FAILING,
    "tight": SKIRT + 'ease = { hip = "1 cm" }\n',
    "nest": 'title = "Quay"\n[sizes]\nnest = [84, 88, 92]\n[[block]]\nname = "bodice"\n[[block]]\nname = "skirt"\n',
    "failing nest": FAILING.replace('wearer = "inga.toml"', "[sizes]\nnest = [84, 92, 100]"),
    "cloth": DRESS + '[cloth]\nwidth = "140 cm"\nshrinkage = "3 %"\none_way = true\n',
}


@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.whole if name == "failing nest" else ()) for name in GARMENTS]
)
def test_a_draft_goes_on_one_screen_with_the_verdict_first(
    name: str, tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Drafted and checked once, and the answers told at every width."""
    answers: list[Answer] = []
    monkeypatch.setattr(
        "output.command.answer.write_answer", lambda answer, **_how: answers.append(answer) or answer.status
    )
    monkeypatch.chdir(tmp_path)
    path = written(Path(), GARMENTS[name])
    for words in (("draft", path, "--to", "out", "--paper", "A0"), ("check", path)):
        ran(capsys, *words)
    assert len(answers) == 2
    for answer in answers:
        for width in WIDTHS:
            monkeypatch.setenv("COLUMNS", str(width))
            lines = told(capsys, answer, everything=False)
            assert len(lines) <= MOST_LINES
            assert max(map(len, lines)) <= width
            assert re.search("checks? passed", " ".join(lines[:5]))
        assert len(told(capsys, answer, everything=True)) > MOST_LINES


def told(capsys: Capsys, answer: Answer, *, everything: bool) -> list[str]:
    write_answer(answer, as_json=False, everything=everything)
    return capsys.readouterr().out.splitlines()


def test_what_failed_and_what_is_least_certain_are_named(tmp_path: Path, capsys: Capsys) -> None:
    told = " ".join(ran(capsys, "check", written(tmp_path, FAILING)).out.split())
    assert "failed. Do not cut before this is mended." in told
    data = ran(capsys, "check", tmp_path / "skirt.toml", "--json").data
    for each in data["checks"]:
        if each["verdict"] == "fail":
            assert each["where"] in told
    assert "Estimated, the least certain" in told
    assert "give or take" in told
    assert f"trueseam measure {tmp_path / 'inga.toml'} --all" in told


def test_a_measured_length_that_looks_wrong_stands_right_below_the_verdict(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, DRESS, PERSON + "wrist = 22\n")
    told = ran(capsys, "check", path).out
    assert told.index("A slip of the tape?") < told.index("Estimated")


@pytest.mark.parametrize("width", WIDTHS)
def test_measuring_goes_on_one_screen(width: int, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    lines = ran(capsys, "measure", ODA).out.splitlines()
    assert len(lines) <= MOST_LINES
    assert "Nothing looks wrong" in lines[1]
    assert len(ran(capsys, "measure", ODA, "--all").out.splitlines()) > MOST_LINES


@pytest.mark.parametrize("width", [40, *WIDTHS])
@pytest.mark.parametrize(
    "what", [("list", "measurements"), ("list", "hem"), ("list", "checks"), ("check", FERRY, "--all")]
)
def test_no_word_is_broken_in_two(
    what: tuple[str, ...], width: int, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "200")
    whole = set(ran(capsys, *what).out.split())
    monkeypatch.setenv("COLUMNS", str(width))
    narrow = ran(capsys, *what).out
    words = narrow.split()
    assert [word for word in words if not {word, word.removesuffix(";")} & whole and not word.endswith(":")] == []
    assert max(map(len, narrow.splitlines())) <= max(width, 60)


def test_numbers_stand_in_columns_and_a_cell_of_words_wraps() -> None:
    columns = (Column(""), Column("found", True), Column("what to do"))
    table = Table("Seams", columns, (Row(("side", "12.5 cm", "sew it " * 20)), Row(("waist", "7.0 cm", ""))))
    lines = [line.text for line in lines_of([Passage("A", ()), table], 60)]
    assert lines[:4] == ["A", "", "Seams", "           found  what to do"]
    assert lines[4].startswith("  side   12.5 cm  sew it sew it")
    assert lines[-1] == "  waist   7.0 cm"


def test_a_table_too_narrow_to_read_is_told_row_by_row() -> None:
    columns = (Column("option"), Column("what it says"), Column("range"))
    table = Table("Options", columns, (Row(("by", "how much longer it becomes in all", "-60.0 cm to 120.0 cm or so")),))
    lines = [line.text for line in lines_of([table], 40)]
    assert lines == [
        "Options",
        "  by",
        "    what it says: how much longer it",
        "    becomes in all",
        "    range: -60.0 cm to 120.0 cm or so",
    ]
