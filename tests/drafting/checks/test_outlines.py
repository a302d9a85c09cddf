from __future__ import annotations

import math
import tracemalloc
from itertools import pairwise

from drafting.checks import Verdict, run_checks
from drafting.geometry import Line, Point
from drafting.pattern import Edge, Pattern, Piece, Role, Wearer
from tests.drafting.geometry.shapes import polygon


def star(corners: int) -> Piece:
    """An outline that crosses itself tens of thousands of times."""
    places = [
        Point(200 + (200 - k / corners) * math.cos(2.5 * k), 200 + (200 - k / corners) * math.sin(2.5 * k))
        for k in range(corners)
    ]
    ring = tuple(Line(a, b) for a, b in pairwise((*places, places[0])))
    return Piece("star", (Edge("ring", ring),))


def test_crossings_are_counted_up_to_a_hundred_and_no_pair_is_kept() -> None:
    piece = star(1_001)
    tracemalloc.start()
    (found,) = (each for each in run_checks(Pattern("star", Wearer(""), (piece,))) if each.code.startswith("outline"))
    assert tracemalloc.get_traced_memory()[1] < 30_000_000  # half a million pairs would take more
    tracemalloc.stop()
    assert found.measured is not None
    assert 100 <= found.measured < 200
    assert "crosses itself in 100 places or more" in found.remedy


def test_a_cutting_line_that_lies_beyond_the_fold_is_seen() -> None:
    """The side of the neck leans over the fold: folded it never meets itself, unfolded it does."""
    for over, verdict in ((0.0, Verdict.PASS), (-2.0, Verdict.FAIL)):
        outline = polygon((0, 0), (200, 0), (200, 200), (over, 220), (0, 200))
        roles = (Role.HEM, Role.SEAM, Role.SEAM, Role.SEAM, Role.FOLD)
        edges = tuple(
            Edge(f"edge {k}", (curve,), role) for k, (curve, role) in enumerate(zip(outline, roles, strict=True))
        )
        found = run_checks(Pattern("square", Wearer(""), (Piece("square", edges),)))
        (outlined,) = (each for each in found if each.code == "outline-simple")
        assert outlined.verdict is verdict
        assert ('beyond "edge 4", which is on the fold' in outlined.remedy) is (verdict is Verdict.FAIL)
