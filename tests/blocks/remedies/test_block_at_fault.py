"""A failed check names the option of a block it came with, and the amount that passes when it is typed back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from blocks.remedies.block_at_fault import Ordered
from blocks.remedies.step_at_fault import checked_after
from drafting.checks import CHECKS, Check, Result, Verdict
from drafting.checks.base import Look, look
from drafting.errors import Remedy, Setting
from drafting.pattern import Pattern, Piece, Place, Role, edges_at
from drafting.reading.options import Value
from tests.bodies import women


def failed(*, checks: tuple[Check, ...] = CHECKS, **options: Value) -> list[Result]:
    garment = Garment("made", women()[3], (BlockOrder(find_block("trousers"), options),))
    prepared = prepare(garment)
    results = checked_after([draft(garment, prepared)], [], checks=checks, ordered=Ordered(garment, prepared))
    return [each for each in results if each.verdict is Verdict.FAIL]


def test_the_width_of_a_hem_that_passes_is_found() -> None:
    room = tuple(each for each in CHECKS if each.name == "leg room")
    (found,) = failed(checks=room, hem_width=230.0)
    (remedy,) = found.remedies
    (setting,) = remedy.settings
    assert (remedy.act, remedy.alteration) == ("set in block", "trousers")
    assert found.remedy.endswith(f'It came with the "hem_width" of the trousers; this passes: {remedy.typed()}.')
    assert failed(checks=room, hem_width=float(setting.value)) == []
    assert failed(checks=room, hem_width=float(setting.value) - 1.0)


@pytest.mark.parametrize(("fastening", "kept"), [("back", True), ("side", False)])
def test_what_a_check_gives_to_set_in_a_block_is_tried(fastening: str, kept: bool) -> None:
    remedy = Remedy("set in block", "trousers", (Setting("fastening", fastening),), lead="To open them there")

    def opens_behind(check: Check, *pieces: Piece) -> Iterator[Result]:
        opens = any(edge.role is Role.OPENING for piece in pieces for edge in edges_at(piece, Place.CENTRE_BACK))
        yield check.result("there", Verdict.PASS if opens else Verdict.FAIL, remedy="Shut.", remedies=(remedy,))

    def looks(_check: Check, pattern: Pattern) -> Iterator[Look]:
        yield look(opens_behind, *pattern.pieces)

    (found,) = failed(checks=(replace(CHECKS[0], looks=looks),), fastening="none")
    assert (f'fastening = "{fastening}"' in found.remedy) is kept
    assert (remedy in found.remedies) is kept
