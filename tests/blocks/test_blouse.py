"""A blouse: measured as the bodice is, and to the hip; loose at the waist; its seams and hem as a cutter has them."""

from __future__ import annotations

from functools import cache

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.checks import Verdict
from drafting.errors import InputProblems
from drafting.geometry.bending import kinks
from drafting.pattern import Pattern, PieceKind, Place, edges_at, finished, pieces_of, require_edge
from drafting.reading.options import Value
from tests.bodies import women
from tests.quick_checks import run_checks


@cache
def drafted(block: str, woman: int, **options: Value) -> Pattern:
    blocks = (BlockOrder(find_block(block), options), BlockOrder(find_block("sleeve")))
    garment = Garment(block, women()[woman], blocks)
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("woman", [3, 400, 777, 1103])
@pytest.mark.parametrize("below", [None, 100.0])
def test_it_measures_as_ordered_and_passes_every_check(woman: int, below: float | None) -> None:
    pattern = drafted("blouse", woman, **({} if below is None else {"below_waist": below}))
    assert [r.where for r in run_checks(pattern) if r.verdict is Verdict.FAIL] == []
    found = {measure.name: measure for measure in finished(pattern)}
    for name in ("bust", "neck", "across the back", *(() if below else ("hip",))):
        measure = found[name]
        assert measure.finished == pytest.approx(measure.body + measure.ease, abs=1e-3)
    assert found["waist"].finished >= found["waist"].body + 10.0
    front, back = (pieces_of(pattern, kind)[0] for kind in (PieceKind.FRONT, PieceKind.BACK))
    sides = [require_edge(piece, Place.SIDE) for piece in (front, back)]
    assert sides[0].length == pytest.approx(sides[1].length, abs=1e-6)
    for piece, side in zip((front, back), sides, strict=True):
        assert max((abs(angle) for angle, _ in kinks(side.curves)), default=0.0) < 1e-3
        hem = require_edge(piece, Place.HEM)
        assert hem.start.y == pytest.approx(hem.end.y, abs=1e-9)  # level, and so square to the centre and to the side
        assert not edges_at(piece, Place.WAIST)


def test_one_whose_bust_lies_at_the_underarm_is_drawn() -> None:
    (woman,) = (k for k, who in enumerate(women()) if who.name == "woman 198")
    assert [r.where for r in run_checks(drafted("blouse", woman)) if r.verdict is not Verdict.PASS] == []


def test_above_the_bust_it_is_the_bodice() -> None:
    plain, long = (drafted(block, 400) for block in ("bodice", "blouse"))
    for kind in (PieceKind.FRONT, PieceKind.BACK):
        one, other = (pieces_of(pattern, kind)[0] for pattern in (plain, long))
        for place in (Place.NECK, Place.SHOULDER, Place.ARMHOLE):
            assert [e.length for e in edges_at(one, place)] == [e.length for e in edges_at(other, place)]


def test_it_takes_the_place_of_a_skirt() -> None:
    blocks = tuple(BlockOrder(find_block(name)) for name in ("blouse", "skirt"))
    with pytest.raises(InputProblems, match='"blouse" and "skirt"'):
        Garment("blouse", women()[0], blocks)
