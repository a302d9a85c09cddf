"""A garment that is like another: its blocks are joined by name, and what is not wanted is left out by name."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path

import pytest

from blocks.from_file.garment_file import read_garment
from blocks.garment import Garment
from drafting.errors import InputProblems

PERSON = 'name = "Inga"\nbody = "woman"\nunit = "cm"\n[measurements]\nheight = 168\nbust = 96\nwaist = 78\nhip = 104\n'
FIRST = """\
title = "Quay dress"
wearer = "inga.toml"
[[block]]
name = "bodice"
bust_dart = "14 deg"
ease = { bust = "7 cm", waist = "5 cm" }
[[block]]
name = "sleeve"
[[block]]
name = "skirt"
length = "60 cm"
[[step]]
alter = "shorten"
piece = "sleeve"
by = "3 cm"
[[step]]
alter = "let out"
waist = "1 cm"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "inga.toml").write_text(PERSON, encoding="utf-8")
    (tmp_path / "first.toml").write_text(FIRST, encoding="utf-8")
    return tmp_path


def read(folder: Path, text: str) -> Garment:
    (folder / "second.toml").write_text(text, encoding="utf-8")
    return read_garment(folder / "second.toml")


def refused(folder: Path, text: str) -> str:
    with pytest.raises(InputProblems) as caught:
        read(folder, text)
    (sentence,) = caught.value.sentences()
    return sentence


def blocks(garment: Garment) -> dict[str, dict[str, object]]:
    return {order.block.name: dict(order.options) for order in garment.blocks}


def test_a_block_of_the_same_name_changes_only_what_it_says(folder: Path) -> None:
    garment = read(folder, 'like = "first.toml"\n[[block]]\nname = "bodice"\nease = { bust = "9 cm" }\n')
    assert list(blocks(garment)) == ["bodice", "sleeve", "skirt"]
    assert blocks(garment)["bodice"]["bust_dart"] == 14.0
    assert blocks(garment)["skirt"]["length"] == 600.0
    assert garment.ease["bust"] == 90.0
    assert garment.ease["waist"] == 50.0
    assert len(garment.steps) == 2
    longer = read(folder, 'like = "first.toml"\n[[block]]\nname = "skirt"\nlength = "80 cm"\n')
    assert blocks(longer)["skirt"]["length"] == 800.0
    assert blocks(longer)["bodice"]["bust_dart"] == 14.0


def test_a_block_that_was_not_there_is_added(folder: Path) -> None:
    (folder / "first.toml").write_text(FIRST.partition('[[block]]\nname = "skirt"')[0], encoding="utf-8")
    garment = read(folder, 'like = "first.toml"\n[[block]]\nname = "skirt"\n')
    assert list(blocks(garment)) == ["bodice", "sleeve", "skirt"]


def test_blocks_and_steps_are_left_out_by_name(folder: Path) -> None:
    garment = read(folder, 'like = "first.toml"\nwithout = ["sleeve", "lengthen"]\n')
    assert list(blocks(garment)) == ["bodice", "skirt"]
    assert [step.name for step in garment.steps] == ["take in"]
    assert len(garment.sources) == 1
    assert list(blocks(read(folder, 'like = "first.toml"\nwithout = "skirt"\n'))) == ["bodice", "sleeve"]


def test_a_step_that_alters_what_is_left_out_is_told_with_the_line_to_write(folder: Path) -> None:
    sentence = refused(folder, 'like = "first.toml"\nwithout = ["sleeve"]\n')
    assert 'without = ["sleeve", "lengthen"]' in sentence
    assert str(folder / "first.toml") in sentence


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('like = "first.toml"\nwithout = ["collar"]\n', '"bodice", "sleeve", "skirt", "lengthen", "take in"'),
        ('like = "first.toml"\nwithout = 3\n', '"bodice"'),
        ('like = "first.toml"\nwithout = ["bodice", "sleeve", "skirt", "lengthen"]\n', "at least one block"),
        (FIRST.replace("title", 'without = ["sleeve"]\ntitle'), "together with like"),
    ],
)
def test_what_cannot_be_left_out_is_said(text: str, told: str, folder: Path) -> None:
    assert told in refused(folder, text)


def test_a_garment_like_an_inch_garment_is_in_inches_too(folder: Path) -> None:
    (folder / "first.toml").write_text('unit = "in"\n' + FIRST, encoding="utf-8")
    read_on = read(folder, 'like = "first.toml"\n[[step]]\nalter = "shorten"\npiece = "sleeve"\nby = 2\n')
    assert read_on.wearer.unit == "in"
    assert abs(asdict(read_on.steps[-1])["by"]) == pytest.approx(50.8)
    other = read(folder, 'like = "first.toml"\nunit = "cm"\n[[step]]\nalter = "shorten"\npiece = "sleeve"\nby = 2\n')
    assert other.wearer.unit == "cm"


def test_sizes_at_the_top_of_a_file_are_told_their_place(folder: Path) -> None:
    with pytest.raises(InputProblems) as caught:
        read(folder, 'title = "Nest"\nnest = [96, 100]\n[[block]]\nname = "skirt"\n')
    (sentence,) = caught.value.sentences()
    assert sentence.endswith("Put it under [sizes]: a line [sizes], and below it nest = [92, 96].")
