"""A waist larger than the hip, or the bust, is a real figure: it is drafted, hangs straight, and passes its checks.

No such body is among those of the survey; real ones are scaled to it.
"""

from __future__ import annotations

import pytest

from blocks.block_table import find_block, plain_blocks
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.person import Person, person
from drafting.checks import Verdict
from drafting.pattern import Pattern, across, finished
from tests.bodies import women
from tests.quick_checks import run_checks
from tests.sampling import some

NAMES = ([block.name for block in plain_blocks("woman")], ["skirt"], ["bodice"])
CURVES = ("bends-allowed", "curves-even")
"""The checks that warn of how an armhole runs, which a waist has no part in."""


def figure(woman: Person, *, over_hip: float, over_bust: float) -> Person:
    """Stature and hip of a real woman, her waist so many mm larger than her hip, and than her bust."""
    own = dict(woman.measurements)
    waist = own["hip_girth"] + over_hip
    girths = {"bust_girth": waist - over_bust, "waist_girth": waist, "hip_girth": own["hip_girth"]}
    return person({"stature": own["stature"], **girths}, name=woman.name)


def drafted(who: Person, names: list[str]) -> Pattern:
    garment = Garment("round", who, tuple(BlockOrder(find_block(name)) for name in names))
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("names", NAMES, ids=" ".join)
@pytest.mark.parametrize("over_bust", [-80.0, -20.0, 0.0, 50.0, 100.0])
@pytest.mark.parametrize("over_hip", some([-20.0, 25.0, 120.0, 0.0, 51.0], every=2))
def test_a_waist_larger_than_hip_or_bust_is_drafted_and_passes_its_checks(
    over_hip: float, over_bust: float, names: list[str]
) -> None:
    for woman in women()[::552]:
        pattern = drafted(figure(woman, over_hip=over_hip, over_bust=over_bust), names)
        results = [result for result in run_checks(pattern) if result.verdict not in (Verdict.PASS, Verdict.NOTHING)]
        assert all(result.verdict is Verdict.WARN and result.code in CURVES for result in results), results
        for each in finished(pattern):
            if each.name in ("bust", "waist"):
                (measure,) = (m for m in pattern.measures if m.name == each.name)
                assert each.ease == pytest.approx(measure.ease, abs=1e-3)


def test_where_the_waist_is_the_larger_the_sides_hang_straight_and_a_sentence_says_so() -> None:
    for woman in women()[::264]:
        pattern = drafted(figure(woman, over_hip=80.0, over_bust=0.0), ["skirt"])
        for piece in pattern.pieces:
            assert not piece.darts
            side = piece.edge("side seam")
            assert {round(curve.start.x - side.start.x, 6) for curve in side.curves} == {0.0}
            waist = piece.edge("waist").length
            assert across(piece, "hip line") == pytest.approx(waist, abs=1e-6)
        (said,) = pattern.origin[0].gave_way
        # 80 mm of waist over hip, and 25 of ease at the waist where the hip has 60
        assert said == (
            "The ease round the hip is 45 mm more than is usual, because the waist is the larger, and the skirt "
            "hangs straight down from it."
        )
