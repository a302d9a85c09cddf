"""Pleats that lap over, tiers that are hardly gathered and gores that lean apart are told; sound ones pass."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.checks import CHECKS, Result, Verdict, named, run_checks
from drafting.geometry import Vec, shift, turn
from drafting.pattern import Grain, Level, Pattern, with_pieces
from drafting.reading.options import Value
from tests.bodies import women

FULLNESS = named(CHECKS, ["fullness-lies"])


def made(name: str, **options: Value) -> Pattern:
    garment = Garment("skirt", women()[0], (BlockOrder(find_block(name), options),))
    return draft(garment, prepare(garment))


def told(pattern: Pattern) -> list[Result]:
    return [result for result in run_checks(pattern, checks=FULLNESS) if result.verdict is not Verdict.PASS]


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("pleated skirt", {"pleats": "knife"}),
        ("pleated skirt", {"pleats": "box"}),
        ("pleated skirt", {"pleats": "inverted"}),
        ("tiered skirt", {}),
        ("gored skirt", {"gores": "8"}),
        ("circle skirt", {}),
    ],
)
def test_sound_skirts_pass_and_what_was_looked_at_keeps_its_numbers(name: str, options: dict[str, Value]) -> None:
    pattern = made(name, **options)
    assert not told(pattern)
    if name != "circle skirt":
        assert all(result.measured is not None for result in run_checks(pattern, checks=FULLNESS))


def test_a_fold_moved_so_that_its_pleat_lies_deeper_laps_over() -> None:
    pattern = made("pleated skirt", pleats="knife")
    piece = pattern.piece("skirt back")
    fold = [line for line in piece.lines if line.level is Level.PLEAT_FOLD][1]
    lines = tuple(line.moved(shift(Vec(4.0, 0.0))) if line is fold else line for line in piece.lines)
    found = told(with_pieces(pattern, replace(piece, lines=lines)))
    assert found
    assert {result.verdict for result in found} == {Verdict.FAIL}
    assert all("lap over" in result.remedy for result in found)


def test_a_tier_as_wide_as_the_one_above_is_warned_of() -> None:
    pattern = made("tiered skirt")
    seam = next(seam for seam in pattern.seams if "tier above" in seam.name)
    flat = replace(pattern, seams=tuple(replace(each, b=each.a) if each is seam else each for each in pattern.seams))
    (result,) = told(flat)
    assert (result.verdict, result.measured) == (Verdict.WARN, pytest.approx(1.0))


def test_a_gore_whose_grain_was_turned_hangs_apart_from_its_neighbour() -> None:
    pattern = made("gored skirt")
    piece = pattern.piece("skirt front, side")
    assert piece.grain is not None
    move = turn(piece.grain.start, 0.02)
    grain = Grain(move.point(piece.grain.start), move.point(piece.grain.end))
    (result,) = told(with_pieces(pattern, replace(piece, grain=grain)))
    assert result.verdict is Verdict.WARN
    assert result.measured == pytest.approx(8.0, abs=0.6)
