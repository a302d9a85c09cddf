"""Skirts by flare, gore, tier and pleat, measured by a stranger who reads pattern.json on women of the open survey."""

from __future__ import annotations

import pytest

from drafting.pattern.text import to_json
from tests.bodies import women
from tests.outside import stranger
from tests.outside.skirt_table import table
from tests.sweep_skirts import SKIRTS, alone


@pytest.mark.parametrize("name", SKIRTS)
def test_every_line_of_the_table_holds(name: str) -> None:
    for who in women()[7::400]:
        pattern, body, ease, cloth = alone(who, name)
        lines = table(stranger.read(to_json(pattern)), body, ease, cloth)
        assert [f"{x.what}: {x.found:.3f} for {x.wanted:.3f}" for x in lines if not x.holds] == [], who.name


def test_the_stranger_misses_what_is_wrong() -> None:
    """The same skirt held to a body 3 mm wider, and to narrow cloth, is found out."""
    pattern, body, ease, cloth = alone(women()[7], "gored 6")
    draft = stranger.read(to_json(pattern))
    wrong = {key: mm + (3.0 if key in ("waist_girth", "hip_girth") else 0.0) for key, mm in body.items()}
    missed = {line.what for line in table(draft, wrong, ease, cloth) if not line.holds}
    assert {"round the waist", "round the hip"} <= missed
    assert any("wider than the cloth" in line.what for line in table(draft, body, ease, 300.0) if not line.holds)
