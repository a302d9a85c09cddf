"""The legs of a dart are led round over a pointed waist in one even curve."""

from __future__ import annotations

import math

import pytest

from drafting.alterations import PointedWaist, apply_step
from drafting.errors import StepRefused
from drafting.geometry.bending import kinks, tightest
from tests.drafting.alterations.styles.test_raglan import drafted
from tests.drafting.dress import dress
from tests.drafting.sizes import sized


@pytest.mark.parametrize("depth", [30.0, 40.0, 60.0, 80.0])
def test_no_leg_has_a_corner_and_both_are_equally_long(depth: float) -> None:
    for before in (dress(), sized(84, "bodice", "sleeve", "skirt"), sized(100, "bodice", "sleeve", "skirt")):
        front = apply_step(before, PointedWaist(depth=depth)).piece("bodice front")
        legs = [front.edge(name) for name in front.dart("waist dart").legs]
        assert legs[0].length == pytest.approx(legs[1].length, abs=1e-3)
        for leg in legs:
            assert max((abs(math.degrees(angle)) for angle, _ in kinks(leg.curves)), default=0.0) < 0.5
            assert min(bend.radius for bend in tightest(leg.curves)) > 20.0


def test_below_a_skirt_without_darts_it_is_refused_in_words_of_that_skirt() -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(drafted("child's dress", 40), PointedWaist())
    assert "front_darts" not in str(refused.value)
