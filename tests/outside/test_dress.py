"""Real bodies, all measurements given: a stranger who reads only pattern.json finds each of them in the pattern.

The bodies are women of the 1988 survey (tests/data/SOURCES.md). What the lines of the table are held to are the figures
of the survey and the ease given here, not what the engine made of them.
"""

from __future__ import annotations

import pytest

from blocks.block_table import plain_blocks
from blocks.garment import BlockOrder, Garment, finish
from drafting.pattern.text import to_json
from tests.bodies import survey_rows, women
from tests.outside import stranger
from tests.outside.dress_table import stated, table

EASE = {
    "bust": 60.0,
    "waist": 40.0,
    "hip": 55.0,
    "upper_arm": 50.0,
    "elbow": 40.0,
    "wrist": 60.0,
    "across_back": 15.0,
    "scye_depth": 15.0,
    "neck": 8.0,
    "cap_ease": 20.0,
}
ROWS = range(0, 1104, 61)


def drafted(row: int) -> stranger.Draft:
    blocks = tuple(BlockOrder(block) for block in plain_blocks("woman") if block.name in ("bodice", "sleeve", "skirt"))
    return stranger.read(to_json(finish(Garment("Measured dress", women()[row], blocks, ease=EASE))))


def measured(row: int) -> dict[str, float]:
    body = {key: float(value) for key, value in survey_rows()[row].items()}
    # the survey's own waist-to-hip is another length: see tests/data/SOURCES.md
    return body | {"waist_to_hip": body["waist_height"] - body["hip_height"]}


@pytest.mark.parametrize("row", ROWS)
def test_a_stranger_finds_every_measurement_in_the_dress(row: int) -> None:
    lines = table(drafted(row), measured(row), EASE)
    assert len(lines) > 25
    assert [line for line in lines if not line.holds] == []


def test_most_bodies_get_what_was_asked_for_and_not_what_gave_way() -> None:
    assert sum(not stated(drafted(row)) for row in ROWS) > len(ROWS) / 2


def test_the_table_misses_a_dress_drafted_for_another_body() -> None:
    wrong = [line.what for line in table(drafted(0), measured(61), EASE) if not line.holds]
    assert {"round the bust", "centre back", "sleeve at the wrist", "round the hip"} <= set(wrong)
