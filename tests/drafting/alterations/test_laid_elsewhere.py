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
from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES, Options, sample
from tests.drafting.sizes import sized
from tests.wardrobe import a_garment

SLEEVE: Final = "sleeve"  # its front lies to the right, as everybody draws it
FACING: Final = ("smock", "raglan", "saddle shoulder")
"""They lay pieces together and ask that each body faces the way the blocks draw it."""

OTHERS: Final[tuple[tuple[str, str, Options], ...]] = (
    *(("trousers", name, samples[0]) for name, samples in TROUSER_SAMPLES.items()),
    *(("jumpsuit", name, samples[-1]) for name, samples in TROUSER_SAMPLES.items()),
    ("trousers", "lengthen", {"piece": "trousers front", "by": -40.0}),
    ("trousers", "lengthen", {"piece": "trousers front", "by": 20.0, "line": "lengthen or shorten above the crotch"}),
    ("trousers", "take in", {"waist": 20.0, "hip": 20.0, "darts": 0.5}),
    ("trousers", "patch pocket", {"piece": "trousers front"}),
    ("trousers", "patch pocket", {"piece": "trousers back", "angle": 8.0}),
    ("trousers", "shaped band", {"depth": 45.0}),
    ("fly trousers", "skirt yoke", {"depth": 60.0}),
    ("fly trousers", "side pocket", {}),
    ("fly trousers", "slanted pocket", {}),
    ("jumpsuit", "pointed waist", {"depth": 60.0}),
    ("jumpsuit", "full bust", {"by": 25.0}),
    ("circle dress", "skirt yoke", {"depth": 90.0}),
    ("circle dress", "sway back", {"depth": 12.0}),
    ("circle skirt", "slanted pocket", {}),
    ("circle skirt", "godet", {}),
    ("gored skirt", "shaped band", {"depth": 45.0}),
    ("gored skirt", "skirt yoke", {"depth": 90.0}),
    ("gored skirt", "lengthen", {"piece": "skirt front, centre", "by": 30.0}),
    ("gored skirt", "opening", {"at": "centre back", "length": 300.0}),
    ("tiered skirt", "skirt yoke", {"depth": 60.0}),
    ("pleated skirt", "hem", {"piece": "skirt front, side", "depth": 30.0}),
    ("knit top", "neckline", {"depth": 60.0, "shape": "V"}),
    ("knit top", "rounded back", {"amount": 5.0, "into": "ease"}),
    ("knit top", "kimono", {}),
    ("cardigan", "armhole", {"lower": 10.0, "cut_in": 3.0}),
    ("shirt", "yoke", {"on": "both", "depth": 100.0}),
    ("child's dress", "dropped shoulder", {"by": 9.0}),
    ("child's dress", "gather skirt", {"ratio": 3.0}),
    ("dungarees", "crotch curve", {"by": 5.0}),
    ("dungarees", "patch pocket", {"piece": "dungarees front"}),
)
"""Alterations of other garments: of legs, of seams beside a centre, of skirts in panels and tiers, of knits."""

OVER: Final = mirror(Point(0.0, 0.0), Vec(0.0, 1.0))


@cache
def elsewhere(pattern: Pattern, *, facing: bool) -> Pattern:
    """The garment with its pieces on other sides of their centre lines and above their sheet, no two moved alike, and
    the outline of each begun at another edge; mirrored, all but the sleeve, unless they face as they are.
    """
    pattern = pattern if facing else mirrored(pattern)
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
    # of two edges of a seam the one drawn first is named first
    edges = sorted(piece.edges, key=lambda edge: (str(edge.place), round(edge.length, 1), edge.name))
    return [*(edge.start for edge in edges), *(mark.at for mark in piece.points), *lines, *along, *grain]


def strays(one: Piece, other: Piece) -> float:
    """How far the one laid on the other strays from it at the most, mm."""
    moves = [there - here for here, there in zip(places(one), places(other), strict=True)]
    return max((move - moves[0]).norm() for move in moves)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_pattern_that_lies_elsewhere_is_altered_alike(name: str) -> None:
    assert_altered_alike(sized(92), name, SAMPLES[name][0], facing=name in FACING)


@pytest.mark.parametrize(("kind", "name", "options"), OTHERS, ids=str)
def test_other_garments_that_lie_elsewhere_are_altered_alike(kind: str, name: str, options: Options) -> None:
    assert_altered_alike(a_garment(kind), name, options, facing=False)


def assert_altered_alike(pattern: Pattern, name: str, options: Options, *, facing: bool) -> None:
    step = sample(name, options)
    here, there = apply_step(pattern, step), apply_step(elsewhere(pattern, facing=facing), step)
    for piece in here.pieces:
        lies = there.piece(piece.name)
        assert min(strays(piece, lies), strays(piece, move_piece(lies, OVER))) < 1e-6, piece.name
    for one, other in zip(finished(here), finished(there), strict=True):
        assert other.finished == pytest.approx(one.finished, abs=1e-6)
