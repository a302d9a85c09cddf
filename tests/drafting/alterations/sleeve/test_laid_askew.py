"""A sleeve that lies askew on its sheet, as one read from another drawing may, is altered as if it lay upright."""

from __future__ import annotations

import math

import pytest

from drafting.alterations import apply_step
from drafting.geometry import Point, distance, turn
from drafting.pattern import Pattern, Piece, move_piece, run_total, with_pieces
from tests.alteration_samples import Options, sample
from tests.drafting.sizes import sized

_ABOUT = Point(40.0, -70.0)


def askew(pattern: Pattern, by: float) -> Pattern:
    return with_pieces(pattern, move_piece(pattern.piece("sleeve"), turn(_ABOUT, by)))


def places(piece: Piece) -> list[Point]:
    """Every place that says how a piece lies."""
    grain = [] if piece.grain is None else [piece.grain.start, piece.grain.end]
    lines = [at for line in piece.lines for at in (line.start, line.end)]
    return [*(edge.start for edge in piece.edges), *(mark.at for mark in piece.points), *lines, *grain]


@pytest.mark.parametrize(
    ("name", "options", "degrees"),
    [
        ("upper arm", {"by": 20.0}, 7.0),
        ("upper arm", {"by": 10.0, "keep": "cap height"}, 7.0),
        ("fit sleeve", {"cap_ease": 25.0}, -4.0),
        ("armhole", {"lower": 15.0}, 7.0),
        ("shoulder width", {"amount": 5.0}, -4.0),
        ("full sleeve", {"cap": 60.0, "hem": 100.0}, 7.0),
        ("raglan", {}, -4.0),
        ("saddle shoulder", {}, 7.0),
    ],
)
def test_it_comes_out_as_the_upright_one_turned(name: str, options: Options, degrees: float) -> None:
    by, upright = math.radians(degrees), sized(92)
    step = sample(name, options)
    expected, made = apply_step(upright, step), apply_step(askew(upright, by), step)
    back = move_piece(made.piece("sleeve"), turn(_ABOUT, -by))
    pairs = zip(places(back), places(expected.piece("sleeve")), strict=True)
    assert max(distance(one, other) for one, other in pairs) < 1e-5
    for seam in expected.seams:
        assert run_total(made, seam.a) == pytest.approx(run_total(expected, seam.a), abs=1e-5)
