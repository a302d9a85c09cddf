"""Laws of reading: what is written can be read back, and nothing a person can write is met with a traceback."""

from __future__ import annotations

import datetime
import math
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.body.complete import complete
from drafting.body.person import read_person
from drafting.body.plausible import contradictions, doubts
from drafting.body.terms import KEYS, measurement
from drafting.errors import InputProblems, Problem
from drafting.fit.cloth import Cloth, read_cloth
from drafting.fit.ease import choose_ease, read_ease
from drafting.fit.least_ease import least_ease
from drafting.reading.files import load_toml
from drafting.reading.read_table import Reader
from drafting.reading.units import NotRead, cm, inches, parse_length
from tests.sampling import LETTERS

T = TypeVar("T")

ORDINARY = st.floats(min_value=0.0, max_value=5000.0)

# Anything TOML can hold, and the texts people put for lengths.
SCALARS = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(LETTERS, max_size=20)
    | st.dates()
    | st.datetimes()
    | st.times()
    | st.from_regex(r"-?[0-9]{0,4}[ ,.½/]?[0-9]{0,3} ?(cm|mm|in|\"|%|deg|)", fullmatch=True, alphabet=LETTERS)
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(LETTERS, max_size=8), inner, max_size=3),
    max_leaves=5,
)
GOOD: dict[str, object] = {
    "name": "Oda",
    "body": "woman",
    "unit": "cm",
    "measured": datetime.date(2026, 9, 12),
    "measurements": {"stature": 171, "bust_girth": 98.5, "waist_girth": "31 in", "hip_girth": 107, "arm_length": 57},
}
MEASUREMENTS = st.dictionaries(st.sampled_from(KEYS) | st.text(LETTERS, max_size=12), VALUES, max_size=6)


def outcome(read: Callable[[], T]) -> tuple[T | None, str]:
    """What was read, or what the person is told; any other error is the failure of the test."""
    try:
        return read(), ""
    except (NotRead, InputProblems) as error:
        return None, str(error)


@given(ORDINARY)
def test_a_length_written_in_centimetres_reads_back_to_half_a_tenth(mm: float) -> None:
    assert math.isclose(parse_length(cm(mm), unit=None), mm, abs_tol=0.5 + 1e-9)


@given(ORDINARY)
def test_a_length_written_in_inches_reads_back_to_a_sixteenth(mm: float) -> None:
    assert math.isclose(parse_length(inches(mm), unit=None), mm, abs_tol=25.4 / 16 + 1e-9)


@given(st.integers(0, 99), st.integers(0, 7))
def test_every_eighth_of_an_inch_is_read_exactly_and_written_back_alike(whole: int, eighths: int) -> None:
    text = inches((whole + eighths / 8) * 25.4)
    assert parse_length(text, unit=None) == (whole + eighths / 8) * 25.4
    assert inches(parse_length(text, unit=None)) == text


@given(VALUES, st.sampled_from([None, "cm", "mm", "in"]))
@settings(deadline=None)
def test_any_value_is_a_finite_length_or_not_read(value: object, unit: str | None) -> None:
    mm, said = outcome(lambda: parse_length(value, unit=unit))
    assert said.isprintable()
    assert said or (mm is not None and math.isfinite(mm))


@given(
    st.dictionaries(st.sampled_from([*GOOD, "born"]) | st.text(LETTERS, max_size=8), VALUES, max_size=4), MEASUREMENTS
)
@settings(deadline=None, max_examples=60)
def test_any_person_file_is_a_person_or_a_list_of_sentences(
    spoilt: dict[str, object], taken: dict[str, object]
) -> None:
    inner = GOOD["measurements"]
    assert isinstance(inner, dict)
    table = {**GOOD, "measurements": {**inner, **taken}, **spoilt}
    who, said = outcome(lambda: read_person(table, place="oda.toml"))
    assert all(line.startswith("oda.toml") and line.isprintable() for line in said.splitlines())
    if who is None:
        return
    body = complete(who)
    for key, mm in who.measurements:
        low, high = measurement(key).limits(who.body)
        assert low <= mm <= high
        assert body.mm(key) == mm
    assert all(doubt.sentence for doubt in doubts(body))
    assert all(contradiction.by_mm > 0 for contradiction in contradictions(body))
    for cloth in (Cloth(), Cloth("knit", stretch=0.6)):
        assert all(math.isfinite(ease.mm) for ease in choose_ease(cloth, body).values)
        assert all(least.fails_below <= least.warns_below for least in least_ease(cloth, body))


@given(st.dictionaries(st.sampled_from(["kind", "stretch", "width", "shrinkage", "one_way"]), VALUES), VALUES)
@settings(deadline=None)
def test_any_cloth_and_ease_is_read_or_noted(cloth: dict[str, object], bust: object) -> None:
    problems: list[Problem] = []
    reader = Reader({"cloth": cloth, "ease": {"bust": bust}}, place="x.toml", problems=problems)
    assert read_cloth(reader.table("cloth")).kind in ("woven", "knit")
    assert set(read_ease(reader.table("ease"))) <= {"bust"}


@given(st.binary(max_size=60) | st.text(alphabet='ab=[]{}"\n.1,# ', max_size=60).map(str.encode))
@settings(deadline=None, max_examples=50)
def test_any_bytes_in_a_file_are_tables_or_one_sentence(raw: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "x.toml"
        path.write_bytes(raw)
        table, said = outcome(lambda: load_toml(path))
    assert isinstance(table, dict) or said.isprintable()
