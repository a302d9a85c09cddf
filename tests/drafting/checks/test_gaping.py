"""How far an opening gapes where it never ends: what no garment of ours has, and a drawing from elsewhere may."""

from __future__ import annotations

import math

from drafting.checks.gaping import gape
from drafting.geometry import Line, Point
from drafting.pattern import Across, Along, Edge, MarkLine, Piece, Place, Role

_CORNERS = [Point(0.0, 0.0), Point(300.0, 0.0), Point(300.0, 400.0), Point(0.0, 400.0)]


def panel(*edges: tuple[Role, Place]) -> Piece:
    """A square panel, its edges of these roles and places, a level across it."""
    drawn = tuple(
        Edge(f"edge {k}", (Line(_CORNERS[k], _CORNERS[(k + 1) % 4]),), role, place=place)
        for k, (role, place) in enumerate(edges)
    )
    return Piece("panel", drawn, lines=(MarkLine("level", Point(0.0, 100.0), Point(300.0, 100.0)),))


def test_an_opening_all_round_is_free() -> None:
    piece = panel(*[(Role.OPENING, Place.CENTRE_FRONT)] * 4)
    assert gape((piece,), (), (Across("panel", "level"),)) == math.inf


def test_edges_that_are_all_ends_of_laps_are_looked_through_once() -> None:
    stands = [(Role.SEAM, Place.STAND)] * 3
    piece = panel((Role.OPENING, Place.CENTRE_FRONT), *stands)
    assert gape((piece,), (), (Along("panel", "edge 0"),)) == math.inf
    # the next one is sewn, so that it closes the opening
    assert gape((panel((Role.OPENING, Place.STAND), *stands),), (), (Along("panel", "edge 0"),)) == 0.0
