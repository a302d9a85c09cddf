"""What is said of a boy: he has a chest, and nobody calls him she."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from output.command import main

BOY = """
name = "Jens"
body = "boy"
unit = "cm"
born = {born}
measured = 2026-09-25
[measurements]
height = {height}
{chest}
waist = 54
hip = 59
"""
TOP = 'title = "Jetty top"\nwearer = "jens.toml"\n[[block]]\nname = "child\'s bodice"\n[paper]\nsize = "A4"\n'

FILES = {
    "whole": BOY.format(born="2021-06-14", height=110, chest="chest = 57"),
    "without a chest": BOY.format(born="2021-06-14", height=110, chest=""),
    "thinner than the survey": BOY.format(born="2021-06-14", height=110, chest="chest = 40"),
    "a chest that is a slip": BOY.format(born="2021-06-14", height=110, chest="chest = 81"),
    "impossibly short": BOY.format(born="2021-06-14", height=45, chest="chest = 50"),
    "born too late": BOY.format(born="2027-01-01", height=110, chest="chest = 57"),
}


@pytest.mark.parametrize("file", FILES)
@pytest.mark.parametrize("command", ["grow jens.toml", "measure jens.toml", "check top.toml", "check top.toml --all"])
def test_no_sentence_about_a_boy_says_bust_or_she(
    file: str, command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("jens.toml").write_text(FILES[file], encoding="utf-8")
    Path("top.toml").write_text(TOP, encoding="utf-8")
    main(command.split())
    said = "".join(capsys.readouterr())
    assert "jens.toml" in said or "Jens" in said
    assert not re.search(r"(?<!under )(?<!high )\bbust\b(?! points?\b)|\bshe\b|\bher\b", said, re.IGNORECASE)
