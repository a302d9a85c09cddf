"""The ease that a sleeve of another garment brings along."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations.sleeve.other_sleeve import _ease
from drafting.alterations.sleeve.set_in_sleeve import find_set_in
from drafting.errors import StepRefused
from drafting.pattern import EdgeRef, Place, Seam, SeamEase, edges_at
from tests.drafting.sizes import sized

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


def test_a_sleeve_of_which_one_half_is_sewn_to_nothing_is_not_set_in() -> None:
    pattern = sized(92, "bodice", "sleeve")
    caps_of = {edge.name for edge in edges_at(pattern.piece("sleeve"), Place.CAP)}
    caps = [seam for seam in pattern.seams if len(seam.a) == 1 and seam.a[0].edge in caps_of]
    assert len(caps) == 2
    for gone in caps:
        left = replace(pattern, seams=tuple(seam for seam in pattern.seams if seam is not gone))
        with pytest.raises(StepRefused, match="sewn into no armhole"):
            find_set_in("upper arm", left, "sleeve")
