"""An edge divided from its upper end down, whichever way the outline runs along it."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.alterations.techniques.cutting.divide_edge import (
    divided,
    end_notch,
    notched_edge,
    without_notches_along,
)
from drafting.alterations.techniques.cutting.split_edges import Fragment
from drafting.errors import NotAPattern
from drafting.pattern import NotchMark, NotchRef
from tests.drafting.dress import dress

FRONT, BACK = "skirt front", "skirt back"
WORDS = ("above", "at", "below")


@pytest.mark.parametrize("piece", [FRONT, BACK])
@pytest.mark.parametrize("places", [(40.0, 90.0), (0.5, 300.0)])
def test_the_parts_are_called_from_the_upper_end_down_and_together_are_the_edge(
    piece: str, places: tuple[float, float]
) -> None:
    whole = dress().piece(piece)
    side = whole.edge("side seam")
    downward = side.start.y > side.end.y
    parts = divided(whole, side, places, WORDS, downward=downward)
    assert [part.edge.name for part in parts] == [f"side seam {word}" for word in WORDS]
    levels = [part.edge.start.y + part.edge.end.y for part in parts]
    assert levels == sorted(levels, reverse=True)
    in_order = parts if downward else parts[::-1]
    assert [each for part in in_order for each in part.of] == [
        Fragment("side seam", low, high) for low, high in zip((0.0, *places), (*places, side.length), strict=True)
    ]
    for one, other in pairwise(in_order):
        assert one.edge.end == other.edge.start
    assert sum(part.edge.length for part in parts) == pytest.approx(side.length, abs=1e-6)


def test_a_name_that_is_taken_is_not_given_again() -> None:
    skirt = dress().piece(FRONT)
    hem = replace(skirt.edge("hem"), name="side seam above")
    other = replace(skirt, edges=tuple(hem if edge.name == "hem" else edge for edge in skirt.edges))
    above, below = divided(other, other.edge("side seam"), (40.0,), ("above", "below"), downward=True)
    assert above.edge.name not in {"side seam above", below.edge.name}


def test_no_part_is_without_a_length() -> None:
    skirt = dress().piece(FRONT)
    with pytest.raises(NotAPattern, match="nothing of it would be left"):
        divided(skirt, skirt.edge("side seam"), (0.0,), ("above", "below"), downward=True)


@pytest.mark.parametrize(("at_start", "end"), [(True, "start"), (False, "end")])
def test_a_notch_at_the_end_of_a_part_lies_where_the_next_begins(at_start: bool, end: str) -> None:
    skirt = dress().piece(FRONT)
    side = skirt.edge("side seam")
    part, _ = divided(skirt, side, (40.0,), ("one", "other"), downward=True)
    notch = end_notch(skirt, part, "point", NotchMark.BALANCE, at_start=at_start)
    assert (notch.station.edge, notch.station.at, notch.station.end) == ("side seam one", 0.0, end)
    taken = skirt.notches[0].name
    assert end_notch(skirt, part, taken, NotchMark.BALANCE, at_start=at_start).name != taken


def test_notches_along_an_edge_go_and_no_others() -> None:
    pattern = dress()
    marks = [NotchRef(piece.name, notch.name) for piece in pattern.pieces for notch in piece.notches]
    on_side = {mark for mark in marks if notched_edge(pattern, mark) == (FRONT, "side seam")}
    bare = without_notches_along(pattern, [(FRONT, "side seam")])
    left = {NotchRef(piece.name, notch.name) for piece in bare for notch in piece.notches}
    assert on_side
    assert left == set(marks) - on_side
    assert [piece for piece in bare if piece.name != FRONT] == [p for p in pattern.pieces if p.name != FRONT]
