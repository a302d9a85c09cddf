"""The ease that a sleeve of another garment brings along."""

from __future__ import annotations

import pytest

from drafting.alterations.sleeve.other_sleeve import _ease
from drafting.pattern import EdgeRef, Seam, SeamEase

OWN = SeamEase(12.0, 5.0, 20.0)
CAP = Seam("front armhole", (EdgeRef("sleeve", "cap front"),), (EdgeRef("bodice front", "armhole"),), OWN)


@pytest.mark.parametrize("wanted", [5.0, 12.0, 20.0])
def test_what_can_be_eased_in_is(wanted: float) -> None:
    assert _ease(CAP, wanted) == SeamEase(wanted, 5.0, 20.0)


@pytest.mark.parametrize("wanted", [None, 4.9, -3.0])
def test_of_less_than_that_or_nothing_the_garments_own_stays(wanted: float | None) -> None:
    assert _ease(CAP, wanted) == OWN


def test_more_is_gathered() -> None:
    gathered = _ease(CAP, 60.0)
    assert gathered.wanted == 60.0
    assert gathered.low < 60.0 < gathered.high
    assert gathered.low > OWN.high
