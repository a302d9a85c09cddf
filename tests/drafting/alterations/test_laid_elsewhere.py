"""Where a piece lies on its sheet means nothing: laid elsewhere, each by itself, the pieces are altered alike."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from drafting.alterations import apply_step
from drafting.geometry import Point, Vec, shift
from drafting.pattern import Pattern, Piece, finished, move_piece, with_pieces
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.sizes import sized


@cache
def elsewhere() -> Pattern:
    """The dress with its pieces left of their centre lines and above their sheet, no two moved alike, and the outline
    of each begun at another edge.
    """
    pattern = sized(92)
    moved = (
        move_piece(piece, shift(Vec(-310.0 - 40.0 * k, 170.0 + 30.0 * k))) for k, piece in enumerate(pattern.pieces)
    )
    return with_pieces(pattern, *(begun_later(piece, 1 + k % 3) for k, piece in enumerate(moved)))


def begun_later(piece: Piece, by: int) -> Piece:
    return replace(piece, edges=(*piece.edges[by:], *piece.edges[:by]))


def places(piece: Piece) -> list[Point]:
    lines = [at for line in piece.lines for at in (line.start, line.end)]
    grain = [] if piece.grain is None else [piece.grain.start, piece.grain.end]
    edges = sorted(piece.edges, key=lambda edge: edge.name)
    return [*(edge.start for edge in edges), *(mark.at for mark in piece.points), *lines, *grain]


@pytest.mark.parametrize("name", SAMPLES)
def test_a_pattern_that_lies_elsewhere_is_altered_alike(name: str) -> None:
    step = sample(name, SAMPLES[name][0])
    here, there = apply_step(sized(92), step), apply_step(elsewhere(), step)
    for piece in here.pieces:
        moves = [other - one for one, other in zip(places(piece), places(there.piece(piece.name)), strict=True)]
        assert max((move - moves[0]).norm() for move in moves) < 1e-6, piece.name
    for one, other in zip(finished(here), finished(there), strict=True):
        assert other.finished == pytest.approx(one.finished, abs=1e-6)
