"""A raglan runs into the lower armhole in a flat S, in wovens and knits, on women and children."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest

from blocks.garment import draft, prepare
from drafting.alterations import ALTERATIONS, Raglan, apply_step
from drafting.checks import Verdict
from drafting.geometry import Curve, blend, encloses, lerp, polyline, tangent
from drafting.pattern import (
    Grain,
    Half,
    Pattern,
    Place,
    dart_mouth,
    edges_at,
    finished,
    require_edge,
    with_edges,
    with_pieces,
)
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import sewn
from drafting.sewing import Act, sewing_order
from tests.bodies import women
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.sweep_alterations import dresses
from tests.sweep_children import children
from tests.sweep_styles import garment_for


@cache
def drafted(name: str, nth: int) -> Pattern:
    who = children()[nth] if name.startswith("child") else women()[nth]
    garment = garment_for(who, name)
    return draft(garment, prepare(garment))


def verdicts(pattern: Pattern) -> set[Verdict]:
    return {result.verdict for result in run_checks(pattern) if "where it leaves" in result.where}


@pytest.mark.parametrize("before", [dress, lambda: sized(84), lambda: sized(104)], ids=["dress", "84", "104"])
def test_the_seam_turns_back_by_no_more_than_its_bow_where_it_leaves_armhole_and_cap(before) -> None:  # type: ignore[no-untyped-def]
    after = apply_step(before(), Raglan())
    assert verdicts(after) == {Verdict.PASS}
    # below that place the armhole of the body and the cap are equally long, and the line above turns in all less than
    # the 45 degrees a cutter found in a straight line to the notch
    for half in Half:
        line = next(e for e in edges_at(after.piece("sleeve"), Place.RAGLAN) if e.half is half)
        turned = tangent(line.curves[0], 0.0).angle_to(tangent(line.curves[-1], 1.0))
        assert abs(math.degrees(turned)) < 30.0


def test_a_line_bent_at_its_beginning_is_seen_by_the_check() -> None:
    after = apply_step(dress(), Raglan())
    piece = after.piece("bodice back")
    line, armhole = require_edge(piece, Place.RAGLAN), require_edge(piece, Place.ARMHOLE)
    up = tangent(armhole.curves[-1], 1.0)
    far = line.end - line.start
    # it runs on upright, and turns to the neck within a few centimetres
    corner = line.start + up.turned(math.copysign(math.radians(35.0), -up.cross(far))) * 20.0
    bent = (
        blend(line.start, up, corner, line.end - corner),
        blend(corner, line.end - corner, line.end, line.end - corner),
    )
    broken = with_pieces(after, with_edges(piece, replace(line, curves=bent)))
    assert verdicts(broken) - {Verdict.PASS}


@pytest.mark.parametrize(
    ("name", "nth"), [("knit top", 10), ("knit top", 700), ("child's dress", 40), ("child's top", 900)]
)
def test_it_can_be_had_on_knit_tops_and_on_children(name: str, nth: int) -> None:
    before = drafted(name, nth)
    after = apply_step(before, Raglan())
    failed = {r.where for r in run_checks(before) if r.verdict is Verdict.FAIL}
    assert {r.where for r in run_checks(after) if r.verdict is Verdict.FAIL} <= failed
    assert bool(after.piece("sleeve").darts) is (name != "knit top")


def test_in_a_knit_the_sleeve_reaches_as_far_from_the_shoulder_as_it_did_without_a_dart() -> None:
    before, after = drafted("knit top", 10), apply_step(drafted("knit top", 10), Raglan())
    was, now = ({each.name: each.finished for each in finished(pattern)} for pattern in (before, after))
    for name in ("shoulder to wrist", "shoulder to elbow", "neck"):
        assert now[name] == pytest.approx(was[name], abs=1e-4)
    # and its neck is one line: what lay on front and back
    necks = edges_at(after.piece("sleeve"), Place.NECK)
    assert necks[0].end.near(necks[1].start) or necks[1].end.near(necks[0].start)
    assert sum(edge.length for edge in necks) == pytest.approx(55.0, abs=1e-3)


def test_a_wide_shoulder_dart_is_cut_out_and_pressed_open() -> None:
    after = apply_step(dress(), Raglan())
    folds = [fold for step in sewing_order(after) if step.act is Act.DARTS for fold in step.darts]
    assert {fold.pressed for fold in folds if fold.piece == "sleeve"} == {"open"}
    # no cloth is left in the mouth of the dart, nor stands above the neck there
    sleeve = after.piece("sleeve")
    mouth = lerp(*dart_mouth(sleeve, sleeve.dart("shoulder dart")), 0.5)
    assert not encloses(polyline(sewn_cutting_line(after, "sleeve"), 0.1), mouth)


def sewn_cutting_line(pattern: Pattern, name: str) -> tuple[Curve, ...]:
    return cutting_line(pattern.piece(name), sewn(pattern)[name])


def test_where_front_and_back_lie_too_near_for_a_dart_there_is_none() -> None:
    (who,) = [who for who in women() if who.name == "woman 2200"]
    ((_, before),) = dresses([who])
    after = apply_step(before, Raglan())
    assert not after.piece("sleeve").darts


@pytest.mark.parametrize("style", ["raglan", "saddle shoulder"])
def test_a_neck_that_goes_on_over_the_sleeve_is_no_slot(style: str) -> None:
    after = apply_step(drafted("child's dress", 40), ALTERATIONS.named(style)())
    assert [r.where for r in run_checks(after) if "half its width" in r.where and r.verdict is not Verdict.PASS] == []


def test_on_a_sleeve_that_leans_it_still_reaches_as_far() -> None:
    """Altered, a sleeve may lean a little while its underarm is level: its crown goes down along the grain."""
    plain = dress()
    sleeve = plain.piece("sleeve")
    assert sleeve.grain
    about = lerp(sleeve.grain.start, sleeve.grain.end, 0.5)
    along = (sleeve.grain.end - about).turned(math.radians(1.0))
    leaning = with_pieces(plain, replace(sleeve, grain=Grain(about - along, about + along)))
    after = apply_step(leaning, Raglan(shoulder="cloth"))
    reach = [next(m.finished for m in finished(each) if m.name == "shoulder to wrist") for each in (leaning, after)]
    assert reach[1] == pytest.approx(reach[0], abs=1e-6)
