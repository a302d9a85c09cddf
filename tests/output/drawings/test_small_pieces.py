"""Pieces as small as for a baby or a doll: what is written on them stays on them."""

from __future__ import annotations

import pytest
from shapely import Polygon

from drafting.geometry import Line, Point
from drafting.pattern import Cut, Edge, Grain, Piece, Role
from output.drawings.drawing import TEXT_LAYER, Text
from output.drawings.lettering import corners
from output.drawings.piece_drawing import Heading, piece_lines, with_notes
from output.drawings.piece_notes import piece_words


def small(width: float, height: float) -> Piece:
    at = (Point(0, 0), Point(width, 0), Point(width, height), Point(0, height))
    names = ("low", "right", "top", "left")
    edges = [Edge(n, (Line(a, b),), Role.SEAM, 6.0) for n, a, b in zip(names, at, (*at[1:], at[0]), strict=True)]
    grain = Grain(Point(width / 2, 3), Point(width / 2, height - 3))
    return Piece("bootee sole", tuple(edges), cut=Cut(2, mirror=True, interfacing=2), grain=grain)


@pytest.mark.parametrize(("width", "height"), [(60, 30), (35, 70), (25, 40), (18, 25)])
def test_the_label_of_a_small_piece_stays_within_its_cutting_line(width: float, height: float) -> None:
    piece = small(width, height)
    drawn = with_notes(piece_lines(piece), piece, Heading("Bootees", "Pip"), piece_words(piece, None, "cm"))
    outline = Polygon([(p.x, p.y) for p in drawn.outline]).buffer(0.3)
    texts = [item for item in drawn.items if isinstance(item, Text) and item.layer == TEXT_LAYER]
    assert any("sole" in text.words for text in texts)
    for text in texts:
        assert outline.covers(Polygon([(p.x, p.y) for p in corners(text)])), text
        assert text.size >= 1.0
