"""pattern.json before strangers: a JSON Schema validator (jsonschema), and a reader that measures with numpy."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings

from drafting.alterations import Alteration, FlareSkirt, apply_step
from drafting.checks import run_checks
from drafting.errors import InputProblems
from drafting.pattern import Across, Along, Between, Pattern, finished, walk
from drafting.pattern.text import from_json, to_json
from tests.drafting.pattern.mutate import mutated
from tests.drafting.pattern.sample import pattern
from tests.drafting.pattern.test_text import Found
from tests.outside import stranger
from tests.outside.ferry import ferry_dress

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


@pytest.mark.parametrize("steps", [(), (FlareSkirt(hem=600.0, how="slashes"),)], ids=["as drafted", "flared"])
def test_the_dress_with_its_checks_follows_the_schema(steps: tuple[Alteration, ...]) -> None:
    dress = ferry_dress()
    for step in steps:
        dress = apply_step(dress, step)
    text = to_json(dress, run_checks(dress))
    VALIDATOR.validate(json.loads(text))
    assert json.loads(text)["checks"]


@pytest.mark.parametrize("ours", [pattern(), ferry_dress()], ids=["skirt", "dress"])
def test_a_stranger_measures_the_same_edges_seams_and_widths(ours: Pattern) -> None:
    theirs = stranger.read(to_json(ours))
    for piece in ours.pieces:
        for edge in piece.edges:
            assert theirs.edge(piece.name, edge.name) == pytest.approx(edge.length, abs=2e-4)
    for seam in ours.seams:
        walked = walk(ours, seam)
        assert theirs.seam(seam.name) == pytest.approx((walked.a, walked.b), abs=4e-4)
        for pair in walked.notches:
            assert theirs.notch_along(seam.name, "a", pair.a.piece, pair.a.notch) == pytest.approx(pair.along_a)
            assert theirs.notch_along(seam.name, "b", pair.b.piece, pair.b.notch) == pytest.approx(pair.along_b)
    for measure, row in zip(ours.measures, finished(ours), strict=True):
        assert sum(laid(theirs, part) for part in measure.tape) == pytest.approx(row.finished, abs=1e-3)


def laid(theirs: stranger.Draft, part: Across | Along | Between) -> float:
    if isinstance(part, Across):
        return part.times * theirs.width(part.piece, part.line)
    if isinstance(part, Along):
        return part.times * theirs.edge(part.piece, part.edge)
    return part.times * theirs.apart(part.piece, part.one, part.other)
