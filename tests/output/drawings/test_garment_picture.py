"""The picture of the whole garment: darts closed without gaps, gathers drawn up to what they are sewn to."""

from __future__ import annotations

from itertools import pairwise

import pytest

from drafting.alterations import GatherSkirt, apply_step
from drafting.geometry import distance
from drafting.pattern import PieceKind, Place, edges_at, pieces_of
from output.drawings.flat_shape import flat_shape
from output.drawings.garment_picture import garment_views
from tests.drafting.sizes import sized


@pytest.mark.parametrize("bust", [80, 92, 104, 116])
def test_a_waist_with_its_darts_closed_is_one_line(bust: int) -> None:
    for piece in sized(bust).pieces:
        shape = flat_shape(piece)
        lines = {edge.name: line for edge, line in shape.edges}
        waist = [lines[edge.name] for edge in edges_at(piece, Place.WAIST)]
        for one, other in pairwise(waist):
            # mm: in a picture of a whole garment less than a line is wide
            assert distance(one[-1], other[0]) == pytest.approx(0.0, abs=1.0), piece.name


def test_a_gathered_skirt_is_as_wide_at_its_waist_as_it_is_sewn_and_shows_its_folds() -> None:
    plain = sized(92, "skirt")
    gathered = apply_step(plain, GatherSkirt(2.0))
    (front,) = pieces_of(plain, PieceKind.FRONT)
    as_sewn = 2.0 * sum(edge.length for edge in edges_at(front, Place.WAIST))
    view, before = garment_views(gathered)[0], garment_views(plain)[0]
    highest = max(stroke.curves[0].start.y for stroke in view.items)
    ends = [p for stroke in view.items for curve in stroke.curves for p in (curve.start, curve.end)]
    across = [p.x for p in ends if p.y > highest - 1.0]
    assert max(across) - min(across) == pytest.approx(as_sewn, rel=0.05)
    assert len(view.items) > len(before.items) + 10
