"""Files from before a pattern said what its parts are: their types are taken from the names of that time."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.pattern import (
    Pattern,
)
from drafting.pattern.old_names import pattern_by_names
from drafting.pattern.text import from_json, to_json
from output.dxf.dxf_reader import read_dxf
from tests.examples import example_pattern
from tests.renaming import BASES, base_pattern

_OLD = Path(__file__).parents[2] / "data" / "version_1"
_WORDS = ("place", "half", "drawn_up", "marks", "level", "onward", "landmark")


def _types(pattern: Pattern) -> dict[tuple[str, str, str], object]:
    """What every part of a pattern is, by its piece, kind and name."""
    found: dict[tuple[str, str, str], object] = {(piece.name, "", ""): piece.identity for piece in pattern.pieces}
    for piece in pattern.pieces:
        for kind in ("edges", "notches", "lines", "points"):
            for each in getattr(piece, kind):
                found[piece.name, kind, each.name] = [getattr(each, word, None) for word in _WORDS]
    return found


@pytest.mark.parametrize("title", ["Signal dress", "Lantern dress", "Slipway skirt"])
def test_an_old_pattern_is_read_with_the_types_that_the_garment_has_today(title: str) -> None:
    old = from_json((_OLD / f"{title.lower().replace(' ', '-')}.json").read_text(encoding="utf-8"))
    today = example_pattern(title.lower().replace(" ", "-"))
    assert _types(old) == _types(today)


def test_an_old_pattern_written_again_is_of_the_new_version_and_keeps_its_types() -> None:
    old = from_json((_OLD / "lantern-dress.json").read_text(encoding="utf-8"))
    text = to_json(old)
    assert '"version": 2' in text
    assert _types(from_json(text)) == _types(old)


def test_an_old_drawing_is_read_with_its_types() -> None:
    back = read_dxf((_OLD / "slipway-skirt.dxf").read_bytes())
    assert _types(back) == _types(from_json((_OLD / "slipway-skirt.json").read_text(encoding="utf-8")))


def test_what_has_a_type_keeps_it() -> None:
    for pattern in map(base_pattern, BASES):
        assert pattern_by_names(pattern) is pattern or _types(pattern_by_names(pattern)) == _types(pattern)
