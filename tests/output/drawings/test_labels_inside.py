"""Whatever is written on a piece stays within its cutting line, or says with a line where it belongs: on the pieces of
every example, of a small woman, and as small as for a child of two.

A reader that shares no code with the drawing judges it: shapely, by the room that the writing may take.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest
from shapely import Point as ShapelyPoint
from shapely import Polygon

from drafting.geometry import Move
from drafting.pattern import Landmark, Pattern, Piece, move_piece
from output.drawings.drawing import Stroke, Text
from output.drawings.lettering import corners
from output.drawings.piece_drawing import Heading, piece_lines, with_notes
from output.drawings.piece_notes import piece_words
from tests.drafting.sizes import sized
from tests.examples import NAMES, example_pattern
from tests.sampling import some

CHILD = 0.45
"""The size of a dress for a child of two (86 cm) by that of a woman (168 cm), and a little smaller still."""

ENDS = (Landmark.SIDE_NECK, Landmark.NAPE, Landmark.NECK_PIT, Landmark.SHOULDER, Landmark.BUST_POINT, Landmark.CROWN)

NEAR = 9.0
"""mm from a corner of the body's to its name: the crossing lines of a corner leave no room nearer (ours)."""

FLAT = 0.3
"""mm: the outline is a polygon within half a millimetre of the cutting line, and a pencil line is as wide."""


def smaller(piece: Piece) -> Piece:
    """The piece with all its lines smaller and its allowances as they were; notches and darts' marks are left out."""
    return move_piece(replace(piece, notches=()), Move(CHILD, 0.0, 0.0, CHILD, 0.0, 0.0))


@cache
def patterns() -> dict[str, Pattern]:
    return {**{name: example_pattern(name) for name in NAMES}, "the least size": sized(76)}


def drawn_pieces(pattern: Pattern, *, as_child: bool) -> Iterator[tuple[Piece, list[Text], list[Stroke], Polygon]]:
    heading = Heading(pattern.title, pattern.wearer.name, "2026-11-28")
    for piece in pattern.pieces:
        one = smaller(piece) if as_child else piece
        drawn = with_notes(piece_lines(one), one, heading, piece_words(one, None if as_child else pattern, "cm"))
        outline = Polygon([(p.x, p.y) for p in drawn.outline]).buffer(FLAT)
        yield (
            one,
            [each for each in drawn.items if isinstance(each, Text)],
            [each for each in drawn.items if isinstance(each, Stroke)],
            outline,
        )


@pytest.mark.parametrize(
    ("name", "as_child"),
    [
        *some([(name, False) for name in ("the least size", *NAMES)], every=4),
        *some([(name, True) for name in ("the least size", *NAMES)], every=6, first=2),
    ],
)
def test_no_writing_leaves_its_piece(name: str, as_child: bool) -> None:
    seen = 0
    for piece, texts, _, outline in drawn_pieces(patterns()[name], as_child=as_child):
        for text in texts:
            room = Polygon([(p.x, p.y) for p in corners(text)])
            seen += 1
            assert outline.covers(room), f"{piece.name}: {text.words}"
            ends = [mark.at for mark in piece.points if mark.landmark in ENDS and mark.name == text.words]
            if ends and not as_child:
                assert min(room.distance(ShapelyPoint(at.x, at.y)) for at in ends) < NEAR, f"{piece.name}: {text.words}"
    assert seen > 5
