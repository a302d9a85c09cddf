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
    assert f'{path}, line 2, column 8: read "bust = = 3"' in the_problem(path)
    path.write_text('name = "Oda')
    assert "TOML" in the_problem(path)
    path.write_text("a = 1\na = 2\n")
    assert "line 2" in the_problem(path)
    path.write_bytes(b"a = 1\nb = '\xff'\n")
    assert "line 2: read letters that are not UTF-8" in the_problem(path)


def test_files_meant_to_hurt_are_refused_too(tmp_path: Path) -> None:
    path = tmp_path / "oda.toml"
    path.write_text("a = " + "[" * 100_000)
    assert "TOML" in the_problem(path)
    path.write_text("a = " + "9" * 10_000)
    assert "TOML" in the_problem(path)
    path.write_text("#" * 1_000_001)
    assert "1 MB" in the_problem(path)
