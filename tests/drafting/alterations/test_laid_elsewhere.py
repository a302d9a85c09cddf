"""Where a piece lies on its sheet means nothing: laid elsewhere, each by itself, the pieces are altered alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Final

import pytest

from drafting.alterations import apply_step
from drafting.geometry import Point, Vec, lerp, mirror, shift
from drafting.pattern import EdgeRef, Level, Pattern, Piece, finished, move_piece, with_pieces
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.sizes import sized

SLEEVE: Final = "sleeve"  # its front lies to the right, as everybody draws it
FACING: Final = ("smock", "raglan", "saddle shoulder")
"""They lay pieces together and ask that each body faces the way the blocks draw it."""

OVER: Final = mirror(Point(0.0, 0.0), Vec(0.0, 1.0))


@cache
def elsewhere(*, facing: bool) -> Pattern:
    """The dress with its pieces on other sides of their centre lines and above their sheet, no two moved alike, and the
    outline of each begun at another edge; mirrored, all but the sleeve, unless they face as they are.
    """
    pattern = sized(92) if facing else mirrored(sized(92))
    moved = (
        move_piece(piece, shift(Vec(-310.0 - 40.0 * k, 170.0 + 30.0 * k))) for k, piece in enumerate(pattern.pieces)
    )
    return with_pieces(pattern, *(begun_later(piece, 1 + k % 3) for k, piece in enumerate(moved)))


def mirrored(pattern: Pattern) -> Pattern:
    """The same garment with every piece but its sleeve drawn from the other side."""

    def turned(run: Sequence[EdgeRef]) -> tuple[EdgeRef, ...]:
        return tuple(ref if ref.piece == SLEEVE else replace(ref, backward=not ref.backward) for ref in run)

    pieces = (piece if piece.name == SLEEVE else move_piece(piece, OVER) for piece in pattern.pieces)
    seams = (replace(seam, a=turned(seam.a), b=turned(seam.b)) for seam in pattern.seams)
    return replace(pattern, pieces=tuple(pieces), seams=tuple(seams))


def begun_later(piece: Piece, by: int) -> Piece:
    return replace(piece, edges=(*piece.edges[by:], *piece.edges[:by]))


def places(piece: Piece) -> list[Point]:
    # one that runs along an edge has the direction of the outline
    along = [lerp(line.start, line.end, 0.5) for line in piece.lines if line.level is Level.LET_DOWN]
    lines = [at for line in piece.lines if line.level is not Level.LET_DOWN for at in (line.start, line.end)]
    grain = [] if piece.grain is None else [piece.grain.start, piece.grain.end]
    edges = sorted(piece.edges, key=lambda edge: edge.name)
    return [*(edge.start for edge in edges), *(mark.at for mark in piece.points), *lines, *along, *grain]


def strays(one: Piece, other: Piece) -> float:
    """How far the one laid on the other strays from it at the most, mm."""
    moves = [there - here for here, there in zip(places(one), places(other), strict=True)]
    return max((move - moves[0]).norm() for move in moves)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_pattern_that_lies_elsewhere_is_altered_alike(name: str) -> None:
    step = sample(name, SAMPLES[name][0])
    here, there = apply_step(sized(92), step), apply_step(elsewhere(facing=name in FACING), step)
    for piece in here.pieces:
        lies = there.piece(piece.name)
        assert min(strays(piece, lies), strays(piece, move_piece(lies, OVER))) < 1e-6, piece.name
    for one, other in zip(finished(here), finished(there), strict=True):
        assert other.finished == pytest.approx(one.finished, abs=1e-6)
