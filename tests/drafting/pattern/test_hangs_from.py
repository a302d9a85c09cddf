"""From where a length hangs is read off the pieces that its tape lies on, never off what it is called."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.pattern import BodyPart, hangs_from
from tests.examples import example_pattern


@pytest.mark.parametrize(
    ("example", "hanging"),
    [
        ("weir-smock", {"neck to hem": BodyPart.BODICE}),  # and not how wide it is at its hem
        ("breakwater-jumpsuit", {}),  # a way through the crotch hangs from nothing, nor does a hem round a leg
        ("slipway-skirt", {"skirt length": BodyPart.SKIRT}),  # and not how far it wraps over at the hem
    ],
)
def test_a_length_hangs_from_the_neck_or_from_the_waist(example: str, hanging: dict[str, BodyPart]) -> None:
    pattern = example_pattern(example)
    pieces = {piece.name: piece for piece in pattern.pieces}
    found = {each.name: hangs_from(pieces, each) for each in pattern.measures}
    assert {name: part for name, part in found.items() if part} == hanging
    named = (hangs_from(pieces, replace(each, name="ж")) for each in pattern.measures)
    assert [part for part in named if part] == [*hanging.values()]
