"""Where an armhole is held when its ends are moved, and how far its lean may be shared out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations.bodice.upper_bodice import Hinge, UpperBodice, hinge_of, upper_bodice_of
from drafting.alterations.techniques.redrawing.fair_armhole import WAYS
from drafting.geometry import distance, run_at, run_length
from drafting.pattern import Half
from tests.drafting.sizes import sized


def notched_at(share: float | None, half: Half) -> UpperBodice:
    """Half of a dress whose armhole has one notch, at this share of it from where its edge starts; or none."""
    top = upper_bodice_of("test", sized(92), half)
    hole = top.armhole.parts[0]
    others = [notch for notch in top.piece.notches if notch.station.edge != hole.name]
    one = next(notch for notch in top.piece.notches if notch.station.edge == hole.name)
    there = [] if share is None else [replace(one, station=replace(one.station, at=share * hole.length, end="start"))]
    return replace(top, piece=replace(top.piece, notches=(*others, *there)))


def hinge(share: float | None, half: Half) -> tuple[Hinge, float]:
    """The hinge, and how far it lies along the armhole from where its edge starts, as a share."""
    top = notched_at(share, half)
    found = hinge_of(top)
    upper = run_length(found.upper) / top.armhole.parts[0].length
    return found, 1.0 - upper if top.armhole.backward else upper


@pytest.mark.parametrize("half", list(Half))
@pytest.mark.parametrize("share", [0.22, 0.4, 0.78])
def test_it_is_the_notch_of_the_armhole(half: Half, share: float) -> None:
    found, along = hinge(share, half)
    assert along == pytest.approx(share, abs=0.02)  # a joint of two curves that lies close to it is taken
    assert distance(found.at, found.upper[-1].end) == distance(found.at, found.lower[0].start) == 0.0


@pytest.mark.parametrize("half", list(Half))
@pytest.mark.parametrize("share", [None, 0.1, 0.19, 0.81, 0.87, 0.95])
def test_a_notch_in_the_outer_fifths_is_none_and_the_middle_is_taken(half: Half, share: float | None) -> None:
    found, along = hinge(share, half)
    assert along == pytest.approx(0.5, abs=0.02)
    hole = notched_at(share, half).armhole.parts[0]
    assert distance(found.at, run_at(hole.curves, 0.5 * hole.length)) < 0.02 * hole.length


def test_a_spline_has_to_bend_a_quarter_less_than_the_other_ways_to_draw_an_armhole() -> None:
    assert [times for _, times in WAYS] == [1.0, 1.0, 1.25]
