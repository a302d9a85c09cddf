"""The lines of drafted dresses as a cutter would want them, on real bodies spread over the survey (tests/data)."""

from __future__ import annotations

import math
from functools import cache

import pytest

from blocks.block_table import plain_blocks
from blocks.garment import BlockOrder, Garment, finish
from drafting.geometry import Cubic, Curve, Line, curvature, end_tangents, tangent
from drafting.pattern import Pattern
from tests.bodies import women

ROWS = range(7, 1104, 73)
WITH_A_WOBBLE = {"cap front", "cap back"}
"""The cap alone is an S: hollow at the underarm, round at the crown."""


@cache
def dress(row: int) -> Pattern:
    return finish(Garment("dress", women()[row], tuple(BlockOrder(block) for block in plain_blocks("woman"))))


def signs(curves: tuple[Curve, ...]) -> list[int]:
    """Which way a run bends, place by place, each way once in a row; straight stretches are left out."""
    found: list[int] = []
    for curve in curves:
        if isinstance(curve, Line):
            continue
        for i in range(61):
            bend = curvature(curve, i / 60)
            # a radius above 50 m is straight at the table
            if abs(bend) > 2e-5 and (not found or found[-1] != (1 if bend > 0.0 else -1)):
                found.append(1 if bend > 0.0 else -1)
    return found


@pytest.mark.parametrize("row", ROWS)
def test_no_line_wobbles(row: int) -> None:
    for piece in dress(row).pieces:
        for edge in piece.edges:
            bends = signs(edge.curves)
            if edge.name in WITH_A_WOBBLE:
                assert len(bends) == 2, (piece.name, edge.name)
            elif not edge.name.startswith("underarm seam"):  # which gives the elbow room where it must
                assert len(bends) <= 1, (piece.name, edge.name, bends)


@pytest.mark.parametrize("row", ROWS)
def test_no_line_has_a_corner_in_it(row: int) -> None:
    for piece in dress(row).pieces:
        for edge in piece.edges:
            for one, other in zip(edge.curves, edge.curves[1:], strict=False):
                arriving, leaving = tangent(one, 1.0), tangent(other, 0.0)
                assert abs(math.atan2(arriving.cross(leaving), arriving.dot(leaving))) < 1e-6, (piece.name, edge.name)


@pytest.mark.parametrize("row", ROWS)
def test_necks_leave_the_centre_lines_square(row: int) -> None:
    for name, end in (("bodice front", 0), ("bodice back", 1)):
        at_centre = end_tangents(dress(row).piece(name).edge("neck").curves[-end])[end]
        assert abs(at_centre.y) < 1e-9, name


@pytest.mark.parametrize("row", ROWS)
def test_the_armhole_is_hollow_and_runs_on_level_with_the_side_seam_square(row: int) -> None:
    for name in ("bodice front", "bodice back"):
        piece = dress(row).piece(name)
        armhole, side = piece.edge("armhole").curves, piece.edge("side seam").curves
        # travelled anticlockwise, a hollow edge turns right
        assert signs(armhole) == [-1], name
    front, back = dress(row).piece("bodice front"), dress(row).piece("bodice back")
    turned = []
    for piece in (front, back):
        edges = [edge.name for edge in piece.edges]
        armhole, side = piece.edge("armhole"), piece.edge("side seam")
        if edges.index("armhole") > edges.index("side seam"):
            one, other = tangent(side.curves[-1], 1.0), tangent(armhole.curves[0], 0.0)
        else:
            one, other = tangent(armhole.curves[-1], 1.0), tangent(side.curves[0], 0.0)
        turned.append(math.degrees(math.atan2(one.cross(other), one.dot(other))))
    assert sum(turned) == pytest.approx(180.0, abs=1e-6)


def test_most_front_armholes_are_cut_deeper_than_the_back_ones() -> None:
    # from memory: the arm moves forward, so the front edge is hollowed further. A back measured narrow has it the other
    # way about
    deeper = 0
    for row in ROWS:
        front, back = (dress(row).piece(name).edge("armhole").curves for name in ("bodice front", "bodice back"))
        deeper += _hollow(front) > _hollow(back)
    assert deeper >= 0.75 * len(ROWS)


def _hollow(curves: tuple[Curve, ...]) -> float:
    """How far a run of cubics strays from its chord, as a share of it, by its control points."""
    start, end = curves[0].start, curves[-1].end
    along = (end - start).unit()
    controls = [point for curve in curves if isinstance(curve, Cubic) for point in (curve.c1, curve.c2, curve.end)]
    return max(abs(along.cross(point - start)) for point in controls) / (end - start).norm()
