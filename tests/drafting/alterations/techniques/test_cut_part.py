"""A part of an outline that is made of several old edges, cut at a place along it."""

from __future__ import annotations

import pytest

from drafting.alterations.techniques.cutting.split_edges import EdgePart, Fragment, cut, cut_part, joined
from drafting.geometry import Line, Point
from drafting.pattern import Edge

WHOLE = EdgePart(
    Edge("whole", (Line(Point(0.0, 0.0), Point(70.0, 0.0)),)),
    (Fragment("one", 5.0, 25.0), Fragment("two", 0.0, 50.0)),
)


@pytest.mark.parametrize(
    ("at", "before", "after"),
    [
        (12.0, [("one", 5.0, 17.0)], [("one", 17.0, 25.0), ("two", 0.0, 50.0)]),
        (20.0, [("one", 5.0, 25.0)], [("two", 0.0, 50.0)]),
        (30.0, [("one", 5.0, 25.0), ("two", 0.0, 10.0)], [("two", 10.0, 50.0)]),
    ],
)
def test_what_lies_before_and_after_is_of_the_same_cloth(
    at: float, before: list[tuple[str, float, float]], after: list[tuple[str, float, float]]
) -> None:
    one, other = cut_part(WHOLE, at)
    assert one is not None
    assert other is not None
    assert [(each.edge, each.low, each.high) for each in one.of] == before
    assert [(each.edge, each.low, each.high) for each in other.of] == after
    assert (one.edge.length, other.edge.length) == pytest.approx((at, 70.0 - at), abs=1e-9)
    again = joined(one, other, "whole").edge
    assert (again.start, again.end) == (WHOLE.edge.start, WHOLE.edge.end)


@pytest.mark.parametrize("at", [0.0, 70.0])
def test_at_an_end_nothing_lies_beyond(at: float) -> None:
    parts = cut_part(WHOLE, at)
    assert [part is None for part in parts] == [at == 0.0, at != 0.0]
    assert cut(WHOLE.edge, at)[0 if at else 1] is not None
