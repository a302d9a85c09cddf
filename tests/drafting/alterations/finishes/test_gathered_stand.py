"""A button front over a gathered skirt, in whichever order it is asked for: the stands lie flat beside the gathers."""

from __future__ import annotations

from functools import reduce
from itertools import permutations

import pytest

from drafting.alterations import Alteration, DartIntoGathers, GatherSkirt, Hem, Lengthen, Opening, apply_step
from drafting.pattern import finished, walk
from drafting.pattern.compare import strayed
from drafting.pattern.gathered import held_in
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed

STAND = Opening("centre front", "buttons", button=18.0)
GATHERED = GatherSkirt(2.0)
WAIST = DartIntoGathers("bodice front", "waist dart")


ORDERS = list(permutations([STAND, GATHERED, WAIST]))


@pytest.mark.parametrize("steps", ORDERS, ids=lambda s: ", ".join(e.name for e in s))
def test_stand_gathered_skirt_and_gathered_dart_go_together_in_every_order(steps: tuple[Alteration, ...]) -> None:
    for base in (dress(), *dresses()[::2]):
        after = reduce(apply_step, steps, base)
        assert not failed(after)
        walked = walk(after, after.seam("front waist"))
        assert walked.flat[0] == pytest.approx(60.0, abs=0.5)  # the facing, from the finished edge
        assert walked.sewn[0] - 18.0 == pytest.approx(2.0 * (walked.sewn[1] - 18.0), rel=0.03)
        for was, now in zip(finished(base), finished(after), strict=True):
            if was.name != "hip":
                assert now.finished == pytest.approx(was.finished, abs=1e-6)


@pytest.mark.parametrize("steps", [(STAND, GATHERED), (GATHERED, STAND)])
def test_the_gathers_begin_beyond_the_facing_of_the_stand_with_a_notch_on_both_pieces(
    steps: tuple[Alteration, ...],
) -> None:
    """A buttonhole through gathers cannot be sewn, and a facing does not lie flat on them (common practice)."""
    for base in (dress(), *dresses()[::2]):
        after = reduce(apply_step, steps, base)
        held = [each for each in held_in(after) if each.seam == "front waist"]
        assert {each.piece for each in held} == {"skirt front", "bodice front"}
        for each in held:
            piece = after.piece(each.piece)
            centre = piece.point("centre front, upper end").x
            end = min((each.curves[0].start, each.curves[-1].end), key=lambda at: abs(at.x - centre))
            assert "front gathers notch" in (each.begin, each.end)
            assert abs(end.x - centre) == pytest.approx(60.0 - 18.0, abs=1.0)
            # the free edge of the facing comes to the waist seam where the gathers begin, at the latest
            free = after.piece(f"{each.piece} facing").edge("free edge")
            reach = min(abs(at.x - centre) for at in (free.start, free.end))
            assert reach <= abs(end.x - centre) + 1.0


def test_the_order_makes_no_difference_to_the_skirt() -> None:
    one, other = (reduce(apply_step, steps, dress()) for steps in ((STAND, GATHERED), (GATHERED, STAND)))
    for name in ("skirt front", "skirt back", "bodice front"):
        assert strayed(one.piece(name), other.piece(name)) < 1e-6


@pytest.mark.parametrize("then", [Hem("skirt front", grow=20.0), Lengthen("skirt front", 100.0)])
def test_what_comes_after_it_goes_together_too(then: Alteration) -> None:
    assert not failed(reduce(apply_step, (STAND, GATHERED, then), dress()))


def test_a_stand_on_one_side_of_a_gathered_seam_only_is_refused() -> None:
    from drafting.errors import StepRefused

    with pytest.raises(StepRefused, match="a button stand cannot cross that"):
        apply_step(apply_step(dress(), GATHERED), Opening("centre front", "buttons", only="skirt front"))
