"""The band of a knit neck is told by the part that was ordered, or by what its block was drawn for."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.geometry import end_tangents
from drafting.pattern import Derived, DrawnTo, Origin, Pattern, Place, edges_at, require_edge
from drafting.pattern.neck_band import BAND_WIDTH, NECK_BAND, NeckBand, band_rest, neck_band
from tests.drafting.dress import dress

BLOCK = Origin("knit top", (("opening", "knit band"), ("band_width", 25.0), ("band_stretch", 0.4)))
NECK = DrawnTo(Place.NECK, dress().piece("bodice front").identity)


def ordered(origin: tuple[Origin, ...] = (), part: dict[str, float] | None = None) -> Pattern:
    derived = () if part is None else (Derived(NECK_BAND, (NECK,), tuple(part.items())),)
    return replace(dress(), origin=origin, derived=derived, stretch=0.3)


@pytest.mark.parametrize(
    ("pattern", "width", "stretch"),
    [
        (ordered((BLOCK,)), 25.0, 0.4),
        (ordered(part={}), BAND_WIDTH, 0.3),
        (ordered(part={"width": 18.0, "stretch": 0.5}), 18.0, 0.5),
        (ordered((BLOCK,), {}), 25.0, 0.4),
        (ordered((BLOCK,), {"width": 18.0}), 18.0, 0.4),
    ],
)
def test_what_a_part_says_goes_before_what_its_block_was_drawn_for(
    pattern: Pattern, width: float, stretch: float
) -> None:
    necks = [require_edge(pattern.piece(f"bodice {half}"), Place.NECK) for half in ("front", "back")]
    edge = 2.0 * sum(neck.length for neck in necks)
    turns = (end_tangents(neck.curves[0])[0].angle_to(end_tangents(neck.curves[-1])[1]) for neck in necks)
    rest = band_rest(edge, width, 2.0 * sum(map(abs, turns)))
    assert neck_band(pattern) == NeckBand(width, pytest.approx(edge), pytest.approx(rest / edge), stretch)


def test_without_either_or_without_a_neck_there_is_none() -> None:
    assert neck_band(ordered()) is None
    sleeve = replace(ordered((BLOCK,)), pieces=(dress().piece("sleeve"),), seams=(), measures=())
    assert not edges_at(sleeve.pieces[0], Place.NECK)
    assert neck_band(sleeve) is None
