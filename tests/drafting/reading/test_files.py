"""Opening files: whatever is wrong with one is said in one sentence."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from drafting.errors import InputProblems
from drafting.reading.files import load_toml


def the_problem(path: Path | str) -> str:
    with pytest.raises(InputProblems) as caught:
        load_toml(path)
    (sentence,) = caught.value.sentences()
    assert str(path)[:40].replace("\x00", "?") in sentence
    return sentence


def test_a_good_file_is_loaded_with_or_without_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "oda.toml"
    path.write_bytes(b'\xef\xbb\xbfname = "\xc3\x93da"\n')
    assert load_toml(path) == {"name": "Óda"}


def test_files_that_cannot_be_read_are_refused_in_a_sentence(tmp_path: Path) -> None:
    assert "no such file" in the_problem(tmp_path / "nobody.toml")
    assert "a folder" in the_problem(tmp_path)
    assert "cannot be read" in the_problem("a\x00b.toml")
    assert "cannot be read" in the_problem(tmp_path / ("x" * 300))
    (tmp_path / "file").write_text("a = 1")
    assert "cannot be read" in the_problem(tmp_path / "file" / "oda.toml")


def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert "not a file" in the_problem(tmp_path / "pipe")


def test_broken_files_name_the_line(tmp_path: Path) -> None:
    path = tmp_path / "oda.toml"
    path.write_text('name = "Oda"\nbust = = 3\n')
    assert f'{path}, line 2: read "bust = = 3"' in the_problem(path)
    path.write_text('name = "Oda')
    assert the_problem(path).endswith('Put it in quotes: name = "Oda"')
    path.write_text("a = 1\na = 2\n")
    assert 'line 2: read "a = 2", expected each name once' in the_problem(path)
    path.write_bytes(b"a = 1\nb = '\xff'\n")
    assert "line 2: read letters that cannot be read (not UTF-8)" in the_problem(path)


def test_files_meant_to_hurt_are_refused_too(tmp_path: Path) -> None:
    path = tmp_path / "oda.toml"
    path.write_text("a = " + "[" * 100_000)
    assert "brackets inside brackets" in the_problem(path)
    path.write_text("a = " + "9" * 10_000)
    assert "line 1: read a number of 10,000 digits, expected a number that can be measured" in the_problem(path)
    path.write_text("#" * 1_000_001)
    assert "1 MB" in the_problem(path)


@pytest.mark.parametrize(
    ("written", "mended"),
    [
        ("height = 65 1/2", 'height = "65 1/2"'),
        ("by = 1/2", 'by = "1/2"'),
        ("by = 1½", 'by = "1½"'),
        ("bust = 36 in  # over a thin vest", 'bust = "36 in"  # over a thin vest'),
        ('waist = 29 1/2"', 'waist = "29 1/2 in"'),
        ("name = “Wren”", 'name = "Wren"'),
        ("name = ‘Wren’", "name = 'Wren'"),
        ('name = "Wren', 'name = "Wren"'),
        ('name = Wren"', 'name = "Wren"'),
        ("body = woman", 'body = "woman"'),
        ("bust: 36", "bust = 36"),
        ("bust 36", "bust = 36"),
        ("arm_length = 23,5", 'arm_length = "23,5"'),
        ("back waist length = 16.25", "back_waist_length = 16.25"),
        ("ease = { bust = 2 in, waist = 1 1/2 }", 'ease = { bust = "2 in", waist = "1 1/2" }'),
        ("level = Yes", "level = true"),
        ("[cloth", "[cloth]"),
        ("[[step]", "[[step]]"),
        ("height = 5' 6\"", 'height = "5 ft 6"'),
    ],
)
def test_a_line_that_cannot_be_read_is_shown_mended(written: str, mended: str, tmp_path: Path) -> None:
    path = tmp_path / "wren.toml"
    path.write_text(f"a = 1\n{written}\n", encoding="utf-8")
    said = the_problem(path)
    assert f"{path}, line 2: read " in said
    assert said.endswith(f": {mended}")
    path.write_text(f"a = 1\n{mended}\n", encoding="utf-8")
    assert load_toml(path)


def test_every_line_that_can_be_mended_is_told_at_once(tmp_path: Path) -> None:
    path = tmp_path / "wren.toml"
    path.write_text("name = “Wren”\nbust = 36 1/2\nwaist = 29\nhip = 39 in\n", encoding="utf-8")
    with pytest.raises(InputProblems) as caught:
        load_toml(path)
    assert [problem.where for problem in caught.value.problems] == [f"{path}, line {n}" for n in (1, 2, 4)]


@pytest.mark.parametrize(("unit", "mended"), [("in", '"92 in"'), ("cm", '"92"')])
def test_an_inch_mark_is_told_from_a_lost_quotation_mark_by_the_unit(unit: str, mended: str, tmp_path: Path) -> None:
    path = tmp_path / "wren.toml"
    path.write_text(f'unit = "{unit}"\nbust = 92"\n', encoding="utf-8")
    assert the_problem(path).endswith(f"bust = {mended}")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("a" + ".a" * 100_000 + " = 1", "a name with more dots than any has"),
        ("title = 1\n[" + "a . " * 30 + "a]", "line 2"),
        ("x = {" + "a." * 30 + "a = 1}", "up to 20 dots in one name"),
        ("".join(f"k{n} = 1\n" for n in range(60_000)), "60,000 names and headings"),
        ("".join(f"[k{n}]\n" for n in range(2_002)), "2,001 names and headings"),
    ],
)
def test_more_names_or_dots_than_a_person_writes_are_refused_before_they_are_read(
    text: str, told: str, tmp_path: Path
) -> None:
    path = tmp_path / "long.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputProblems, match=told):
        load_toml(path)


def test_dots_in_what_is_said_are_no_names(tmp_path: Path) -> None:
    path = tmp_path / "said.toml"
    path.write_text(f'note = "{"Ease it in. " * 40}{"." * 40}"\n', encoding="utf-8")
    assert load_toml(path)
