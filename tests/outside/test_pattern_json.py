"""pattern.json before strangers: a JSON Schema validator (jsonschema), and a reader that measures with numpy."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings

from drafting.errors import InputProblems
from drafting.pattern import Pattern, finished, walk
from drafting.pattern.text import from_json, to_json
from tests.drafting.pattern.mutate import mutated
from tests.drafting.pattern.sample import pattern
from tests.drafting.pattern.test_text import Found
from tests.outside import stranger

SCHEMA = json.loads((files("drafting.pattern") / "pattern.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def plain() -> dict[str, Any]:
    table: dict[str, Any] = json.loads(to_json(pattern(), [Found()]))
    return table


def read(table: object) -> Pattern | None:
    try:
        return from_json(json.dumps(table))
    except InputProblems:
        return None


def test_the_schema_is_a_schema_of_draft_2020_12() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_what_is_written_follows_the_schema() -> None:
    VALIDATOR.validate(plain())


@pytest.mark.parametrize("key", ["format", "version", "unit", "title", "wearer", "pieces"])
def test_the_schema_misses_what_is_left_out(key: str) -> None:
    table = plain()
    del table[key]
    assert not VALIDATOR.is_valid(table)


@given(mutated({key: value for key, value in plain().items() if key not in ("finished", "checks")}))
@settings(deadline=None, max_examples=100)
def test_whatever_the_reader_accepts_the_schema_accepts(table: object) -> None:
    # the other way round does not hold: a schema cannot follow a name to the piece it means
    if read(table) is not None:
        VALIDATOR.validate(json.loads(json.dumps(table)))


def test_a_stranger_measures_the_same_edges_seams_and_widths() -> None:
    ours = pattern()
    theirs = stranger.read(to_json(ours))
    for piece in ours.pieces:
        for edge in piece.edges:
            assert theirs.edge(piece.name, edge.name) == pytest.approx(edge.length, abs=2e-4)
    for seam in ours.seams:
        walked = walk(ours, seam)
        assert theirs.seam(seam.name) == pytest.approx((walked.a, walked.b), abs=4e-4)
    by_name = {row.name: row.finished for row in finished(ours)}
    across = theirs.width("skirt front", "hip line") + theirs.width("skirt back", "hip line")
    assert 2 * across == pytest.approx(by_name["hip"], abs=1e-3)
    assert theirs.apart("skirt front", "hip point", "knee") == pytest.approx(by_name["hip to knee"], abs=1e-9)
