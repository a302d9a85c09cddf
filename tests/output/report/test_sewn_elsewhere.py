"""Where a piece lies on its sheet means nothing to whoever sews: laid elsewhere, the same is said and bought."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.geometry import Vec, shift
from drafting.pattern import Pattern, move_piece, with_pieces
from drafting.sewing.sewing_order import sewing_order
from drafting.sewing.supplies import Supply, supplies
from output.report.sewing_words import StepWords, step_words
from tests.examples import NAMES, example_pattern


def elsewhere(pattern: Pattern) -> Pattern:
    """The pattern with its pieces above their sheet or below it, no two moved alike."""
    moved = (
        move_piece(piece, shift(Vec(-310.0 - 40.0 * k, 170.0 * (-1.0) ** k + 30.0 * k)))
        for k, piece in enumerate(pattern.pieces)
    )
    return with_pieces(pattern, *moved)


def told(pattern: Pattern) -> list[StepWords]:
    return [step_words(pattern, step, "cm") for step in sewing_order(pattern)]


def bought(pattern: Pattern) -> list[Supply]:
    """What is bought, to a thousandth of a millimetre."""
    found = supplies(pattern, sewing_order(pattern))
    return [replace(each, length=round(each.length, 3), size=round(each.size, 3)) for each in found]


@pytest.mark.parametrize("name", NAMES)
def test_a_pattern_that_lies_elsewhere_is_sewn_alike(name: str) -> None:
    here = example_pattern(name)
    there = elsewhere(here)
    assert told(there) == told(here)
    assert bought(there) == bought(here)
