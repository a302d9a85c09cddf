"""Pieces laid on a cloth that repeats: along it notches meet, across it middles of pieces lie on those of the cloth."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.geometry import Point
from drafting.pattern import CENTRES, Role
from output.lay.find_lay import find_lay
from output.lay.lay_values import Lay, Spread
from output.lay.verify_lay import faults_in_lay
from tests.examples import example_pattern


@pytest.mark.parametrize("name", ["ferry-dress", "towpath-skirt"])
@pytest.mark.parametrize(
    ("fold", "one_way", "repeat"),
    [("lengthwise", False, 0.0), ("single", True, 0.0), ("double", False, 0.0), ("lengthwise", False, 120.0)],
)
@pytest.mark.parametrize("across", [25.0, 140.0])
def test_across_the_cloth_the_middle_of_every_piece_lies_on_a_middle_of_the_pattern(
    name: str, fold: str, one_way: bool, repeat: float, across: float
) -> None:
    """By the edges of the pattern itself: a centre line is level on the table, as far from y = 0 as so many repeats."""
    pattern = example_pattern(name)
    cloth = Spread(1400.0, fold, one_way=one_way, repeat=repeat, repeat_across=across)  # type: ignore[arg-type]
    lay = find_lay(pattern, cloth, tries=3)
    assert faults_in_lay(lay) == ()
    looked_at = 0
    for stretch in lay.stretches:
        half = stretch.cloth.depth
        for placed in stretch.placements:
            centre = [e for e in pattern.piece(placed.piece.name).edges if e.place in CENTRES and e.role is Role.FOLD]
            if placed.piece.middle is None or not centre:
                continue
            # what was opened out at its fold is as wide on either side of it
            ys = [p.y for p in placed.outline]
            middle = 0.5 * (min(ys) + max(ys))
            looked_at += 1
            fold_to = half - middle if stretch.cloth.fold == "double" and middle > 0.5 * half else middle
            assert abs(fold_to / across - round(fold_to / across)) * across < 0.01
    if fold == "single":
        assert looked_at > 0


def test_a_lay_whose_pieces_lie_beside_the_middles_of_the_pattern_is_found_out() -> None:
    cloth = Spread(1400.0, "single", repeat_across=90.0)
    (stretch,) = find_lay(example_pattern("ferry-dress"), cloth, tries=2).stretches
    one = next(placed for placed in stretch.placements if placed.piece.middle is not None)
    others = tuple(replace(each, y=each.y - 1.0) if each is one else each for each in stretch.placements)
    assert any("middle" in fault for fault in faults_in_lay(Lay((replace(stretch, placements=others),))))


def test_a_repeat_meets_at_the_first_notch_that_pieces_share() -> None:
    repeat = 240.0
    (stretch,) = find_lay(example_pattern("ferry-dress"), Spread(1400.0, "single", repeat=repeat), tries=3).stretches
    phases: dict[str, list[float]] = {}
    met = 0
    for placed in stretch.placements:
        own = {key: placed.move.point(Point(x, 0.0)).x % repeat for key, x in placed.piece.notches}
        shared = [key for key in own if key in phases]
        if shared:
            gap = abs(own[shared[0]] - phases[shared[0]][0])
            assert min(gap, repeat - gap) < 1e-6
            met += 1
        for key, phase in own.items():
            phases.setdefault(key, []).append(phase)
    assert met >= 4
    assert stretch.length > find_lay(example_pattern("ferry-dress"), Spread(1400.0, "single"), tries=3).length
