"""A neck facing lies so deep from the neck all along, has the neck's length, and its halves meet at the shoulder."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely import LineString, Point

from drafting.alterations import Neckline, Saddle, apply_step
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Curve, polyline, run_at, run_length
from drafting.parts.finishes.facing_strip import FREE_EDGE
from drafting.parts.part_table import find_part, part_of
from drafting.parts.redraw import drawn_again
from drafting.pattern import Edge, Landmark, Pattern, Piece, PieceKind, Place, edges_at, pieces_of, points_at
from output.drawings.piece_notes import point_name
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized

NEAR = 0.5
"""mm. The free edges are led to one place of the shoulder, so that they leave the parallel by as much there."""


def faced(depth: float, size: int = 92) -> tuple[Pattern, list[tuple[Piece, Piece]]]:
    """The dress with a neck facing, and each of its pieces with the one it is of."""
    pattern = with_part(sized(size), part_of(find_part("neck facing"), {"depth": depth}))
    pairs = [
        (facing, next(iter(pieces_of(pattern, facing.identity.of)))) for facing in pieces_of(pattern, PieceKind.FACING)
    ]
    return pattern, pairs


def length(edges: tuple[Edge, ...]) -> float:
    return sum(edge.length for edge in edges)


def line(run: tuple[Curve, ...]) -> LineString:
    return LineString([(point.x, point.y) for point in polyline(run, 0.01)])


@pytest.mark.parametrize("size", [76, 92, 122])
@pytest.mark.parametrize("depth", [30.0, 60.0])
def test_it_follows_the_neck_and_its_halves_meet_at_the_shoulder(depth: float, size: int) -> None:
    _, pairs = faced(depth, size)
    assert [facing.name for facing, _ in pairs] == ["front neck facing", "back neck facing"]
    for facing, piece in pairs:
        assert length(edges_at(facing, Place.NECK)) == pytest.approx(length(edges_at(piece, Place.NECK)), abs=1e-3)
    one, other = (length(edges_at(facing, Place.SHOULDER)) for facing, _ in pairs)
    assert one == pytest.approx(other, abs=1e-3)


@pytest.mark.parametrize("depth", [30.0, 60.0, 90.0])
def test_its_free_edge_lies_as_deep_as_was_asked_for(depth: float) -> None:
    """By the word of a stranger (shapely): over the half of the free edge that lies away from the shoulder."""
    _, pairs = faced(depth)
    for facing, piece in pairs:
        neck = line(tuple(curve for edge in edges_at(piece, Place.NECK) for curve in edge.curves))
        free = facing.edge(FREE_EDGE).curves
        shoulder = line(edges_at(facing, Place.SHOULDER)[0].curves)
        first, last = free[0].start, free[-1].end
        at_end = shoulder.distance(Point(last.x, last.y)) < shoulder.distance(Point(first.x, first.y))
        for share in (0.1, 0.3, 0.5):
            at = run_at(free, run_length(free) * (share if at_end else 1.0 - share))
            assert neck.distance(Point(at.x, at.y)) == pytest.approx(depth, abs=NEAR)


def test_what_cannot_be_faced_so_deeply_is_refused() -> None:
    with pytest.raises(NotAPattern, match="10 mm deep at least"):
        faced(5.0)
    with pytest.raises(NotAPattern, match="neck facing"):
        faced(400.0)


def test_the_point_of_a_v_is_marked_on_the_neck_and_on_its_facing() -> None:
    cut = apply_step(sized(92), Neckline(depth=100.0, shape="V"))
    pattern = with_part(cut, part_of(find_part("neck facing"), {"depth": 60.0}))
    facing, front = pattern.piece("front neck facing"), pattern.piece("bodice front")
    (mark,) = facing.points
    (pit,) = points_at(front, Landmark.NECK_PIT)
    assert point_name(front, pit) == mark.name == "point of the V"
    assert any(mark.at.near(end) for edge in edges_at(facing, Place.NECK) for end in (edge.start, edge.end))
    assert any(pit.at.near(end) for edge in edges_at(front, Place.NECK) for end in (edge.start, edge.end))
    (round_pit,) = points_at(sized(92).piece("bodice front"), Landmark.NECK_PIT)
    assert point_name(sized(92).piece("bodice front"), round_pit) == "neck pit"


def test_beside_a_lining_one_that_goes_on_over_a_sleeve_says_that_one_of_the_two_is_to_be_left_out() -> None:
    both = (part_of(find_part("neck facing"), {}), part_of(find_part("lining"), {}))
    worn = drawn_again(replace(sized(92), derived=both), sized(92))
    with pytest.raises(StepRefused, match="leave the facing out"):
        apply_step(worn, Saddle())
