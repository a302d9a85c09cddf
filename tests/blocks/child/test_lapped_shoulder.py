"""The lapped shoulder of babies' clothes: it lies on the other half's armhole, and the head passes."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.body.person import person
from drafting.checks import Verdict
from drafting.fit.cloth import Cloth
from drafting.geometry import distance, run_at, run_reversed, run_tangent
from drafting.pattern import Pattern, Place, across, require_edge
from drafting.sewing import Act, sewing_order
from tests.outside.sew_it import handled, not_sewable
from tests.quick_checks import run_checks

WOVEN, KNIT = Cloth("woven"), Cloth("knit", stretch=0.5)
BABIES = ((560, 410, 410), (740, 476, 455), (1000, 530, 490))


def lapped(height: float, chest: float, waist: float, cloth: Cloth, block: str = "child's bodice") -> Pattern:
    sizes = {"stature": height, "bust_girth": chest, "waist_girth": waist, "hip_girth": chest}
    options = {"opening": "lapped shoulder", **({"below_waist": 110.0} if block == "child's bodice" else {})}
    orders = BlockOrder(find_block(block), options), BlockOrder(find_block("child's sleeve"))
    garment = Garment("lapped", person(sizes, body="girl"), orders, cloth)
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("cloth", [WOVEN, KNIT])
@pytest.mark.parametrize("sizes", BABIES)
def test_the_head_passes_and_it_can_be_sewn(sizes: tuple[float, float, float], cloth: Cloth) -> None:
    for block in ("child's bodice", "romper"):
        pattern = lapped(*sizes, cloth, block)
        results = run_checks(pattern)
        assert [each for each in results if each.verdict is Verdict.FAIL] == []
        assert [each.verdict for each in results if "over the head" in each.where] == [Verdict.PASS]
        steps = sewing_order(pattern, knit=cloth.knit)
        assert not_sewable(pattern, steps) == []
        assert [each.act for each in steps].count(Act.LAP_SHOULDERS) == 1
        assert max(handled(steps)[1].values()) == 1


def test_a_lap_ends_along_the_other_halfs_armhole_and_flows_out_of_the_neck() -> None:
    pattern = lapped(*BABIES[1], KNIT)
    front, back = (pattern.piece(f"bodice {half}") for half in ("front", "back"))
    for one, other in ((front, back), (back, front)):
        end, free, neck = (require_edge(one, place) for place in (Place.LAP_END, Place.SHOULDER, Place.NECK))
        assert 49.9 <= end.length <= 70.1  # 5 to 7 cm (common practice)
        # laid back over the shoulder it is the same stretch of the other armhole: as far from the shoulder's end
        tip = next(p for p in (end.start, end.end) if p not in (free.start, free.end))
        armhole = require_edge(other, Place.ARMHOLE)
        its = require_edge(other, Place.LAP_END)
        starts = next(p for p in (armhole.start, armhole.end) if p in (its.start, its.end))
        run = armhole.curves if armhole.start == starts else run_reversed(armhole.curves)
        mine = end.curves if end.start == tip else run_reversed(end.curves)
        for at in (10.0, 30.0, 49.0):
            assert distance(run_at(run, at), starts) == pytest.approx(distance(run_at(mine, at), tip), abs=0.01)
        joint = free.end if free.end in (neck.start, neck.end) else free.start
        into = run_tangent(free.curves, free.length if joint == free.end else 0.0)
        out = run_tangent(neck.curves, 0.0 if joint == neck.start else neck.length)
        assert abs(into.cross(out)) < 1e-6  # no corner where the neck runs on into the lap


def test_the_front_of_a_small_child_is_about_as_wide_at_the_waist_as_its_back_and_the_sides_meet() -> None:
    """Over a belly the front is no narrower (common practice for children under four)."""
    for cloth in (WOVEN, KNIT):
        pattern = lapped(*BABIES[1], cloth)
        front, back = (pattern.piece(f"bodice {half}") for half in ("front", "back"))
        assert across(front, "waist line") > across(back, "waist line") - 2.0
        one, other = (require_edge(piece, Place.SIDE).length for piece in (front, back))
        assert one == pytest.approx(other, abs=1e-4)
