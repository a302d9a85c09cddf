"""Full and small bust, against the trade's worked case and the promises of the trade.

The worked case (plane geometry of the slashes): hinge 6 cm aside and 9 above, spread 1.5 cm, gives 9.106 degrees, a
drop of 0.836 cm, and a side dart 12 cm long takes up 1.905 cm more. A letter of cup, an inch, opens each half front by
1.27 cm (plane geometry).
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Literal

import pytest

from blocks.garment import draft, prepare
from drafting.alterations import Armhole, FullBust, MoveDart, SmallBust, TakeIn, apply_step, replay
from drafting.alterations.bodice.bust_slash import opening, slashed
from drafting.alterations.techniques.pivoting.pivot import angle_about, turning_of
from drafting.checks import Verdict
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Line, Point, distance, lerp, run_length, tangent
from drafting.geometry.tolerance import MEASURED
from drafting.pattern import (
    Notch,
    Pattern,
    Place,
    Station,
    dart_mouth,
    finished,
    from_start,
    require_edge,
    with_pieces,
)
from tests.bodies import women
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.sample import blouse
from tests.drafting.sizes import sized
from tests.property.test_alterations import furthest
from tests.quick_checks import run_checks
from tests.sweep import dress_for

FRONT = "bodice front"

BASES = {
    "as drafted": (),
    "side dart": (MoveDart(FRONT, "bust dart", "side seam", at=60.0, measured_from="armhole"),),
    "low side dart": (MoveDart(FRONT, "bust dart", "side seam", at=130.0, measured_from="armhole"),),
    "armhole dart": (MoveDart(FRONT, "bust dart", "armhole", share=0.4, measured_from="shoulder"),),
    "all in the waist": (MoveDart(FRONT, "bust dart", "waist dart"),),
    "no waist dart": (MoveDart(FRONT, "waist dart", "bust dart"),),
}


LIES_OVER_ITSELF = {("armhole dart", 50.0), ("armhole dart", 60.0)}
"""A dart from the middle of the armhole is so short and wide then that the front closes over it."""


@cache
def base(name: str) -> Pattern:
    pattern = dress()
    for step in BASES[name]:
        pattern = apply_step(pattern, step)
    return pattern


def fine(pattern: Pattern, edge: str) -> float:
    front = pattern.piece(FRONT)
    return sum(run_length(e.curves, MEASURED) for e in front.edges if e.name.partition(" at ")[0] == edge)


def test_the_worked_case_of_the_trade() -> None:
    angle, drop = opening(60.0, 90.0, 15.0)
    assert math.degrees(angle) == pytest.approx(9.106, abs=5e-4)
    assert drop == pytest.approx(8.36, abs=5e-3)
    assert 2.0 * 120.0 * math.sin(0.5 * angle) == pytest.approx(19.05, abs=5e-3)


@pytest.mark.parametrize(("to", "takes_up"), [("shoulder", 45.0), ("side seam", 25.5)])
def test_one_angle_takes_up_twice_as_much_in_a_dart_twice_as_long(to: str, takes_up: float) -> None:
    """Size 88, 4 cm round the body: 4.5 cm more at the shoulder, and 2.6 at the side seam, of one angle.

    A dart of angle a is 2 r sin(a / 2) wide at r from the bust point (plane geometry); the shoulder lies 24 cm off and
    the side seam 14. So a cutter has the angle of the worked case, and sends part of it elsewhere: move a dart.
    """
    drafted = sized(88)
    before = drafted if to == "shoulder" else apply_step(drafted, BASES["side dart"][0])
    done = slashed("full bust", before.piece(FRONT), 20.0)
    x, h = done.front.hinge_from_bust
    assert (x, h) == pytest.approx((63.8, 110.2), abs=0.5)  # near the 60 and 90 of the worked case
    # the cut is made 10 mm nearer the centre than the bust point, as told in the part that the dart has turned
    dart = done.front.bust_angle
    x, h = x + 10.0 * math.cos(dart), h + 10.0 * math.sin(dart)
    spread = 10.0 + 10.0 * math.cos(dart)
    assert x * (1.0 - math.cos(done.angle)) + h * math.sin(done.angle) == pytest.approx(spread, abs=1e-9)
    was, now = before.piece(FRONT), apply_step(before, FullBust(40.0)).piece(FRONT)
    widths = []
    for piece in (was, now):
        mouth, bust = dart_mouth(piece, piece.dart("bust dart")), piece.point("bust point")
        widths.append(2.0 * distance(mouth[0], bust) * math.sin(0.5 * angle_about(*mouth, bust)))
        assert widths[-1] == pytest.approx(distance(*mouth), abs=1e-9)
    assert widths[1] - widths[0] == pytest.approx(takes_up, abs=0.5)


@pytest.mark.parametrize("spread", [-20.0, -3.0, 4.0, 30.0])
def test_the_angle_opens_by_the_spread_and_the_other_way_undoes_it(spread: float) -> None:
    x, h = 60.0, 90.0
    angle, drop = opening(x, h, spread)
    assert x * (1.0 - math.cos(angle)) + h * math.sin(angle) == pytest.approx(spread, abs=1e-9)
    back, lifted = opening(x - spread, h + drop, -spread)
    assert back == pytest.approx(-angle, abs=1e-12)
    assert lifted == pytest.approx(-drop, abs=1e-9)


def test_a_slash_that_cannot_open_so_far_says_so() -> None:
    with pytest.raises(NotAPattern, match="no room for 300 mm"):
        opening(60.0, 90.0, 300.0)
    with pytest.raises(NotAPattern):
        opening(60.0, -5.0, 10.0)


@pytest.mark.parametrize("by", [10.0, 30.0, 60.0])
@pytest.mark.parametrize("name", BASES)
def test_it_keeps_what_the_trade_says_it_keeps_and_the_dress_goes_together(name: str, by: float) -> None:
    if (name, by) in LIES_OVER_ITSELF:
        return  # refused, see below
    was, now = base(name), apply_step(base(name), FullBust(by))
    for edge in ("shoulder", "neck", "armhole", "side seam", "waist"):
        assert fine(now, edge) == pytest.approx(fine(was, edge), abs=1e-6), edge
    assert [piece for piece in now.pieces if piece.name != FRONT] == [p for p in was.pieces if p.name != FRONT]
    assert {result.verdict for result in run_checks(now)} <= {Verdict.PASS, Verdict.WARN}
    grown = {b.name: b.finished - a.finished for a, b in zip(finished(was), finished(now), strict=True)}
    assert grown.pop("bust") == pytest.approx(by, abs=1e-6)
    assert grown.pop("centre front") > 0.0
    assert grown.pop("side neck to bust point") > 0.0
    assert max(map(abs, grown.values())) < 1e-6


@pytest.mark.parametrize("by", [10.0, 30.0, 50.0])
@pytest.mark.parametrize("name", BASES)
def test_full_then_small_by_as_much_is_the_identity(name: str, by: float) -> None:
    if (name, by) in LIES_OVER_ITSELF:
        return
    there = apply_step(base(name), FullBust(by))
    back = apply_step(there, SmallBust(by))
    assert furthest(back, base(name)) < 1e-6
    assert back.seams == base(name).seams


def test_small_then_full_is_the_identity_too() -> None:
    back = apply_step(apply_step(dress(), SmallBust(20.0)), FullBust(20.0))
    assert furthest(back, dress()) < 1e-6


def test_the_drop_and_the_angle_are_those_of_the_slashes_with_the_dart_closed() -> None:
    # a side dart needs no closing first, and the shoulder dart must open by just as much
    side = slashed("full bust", base("side dart").piece(FRONT), 15.0)
    shoulder = slashed("full bust", dress().piece(FRONT), 15.0)
    assert shoulder.angle == pytest.approx(side.angle, abs=1e-9)
    assert shoulder.drop == pytest.approx(side.drop, abs=1e-6)
    # near those of a cut to the bust point itself: a degree, and 4 mm, where a dart is open already
    angle, drop = opening(*side.front.hinge_from_bust, 15.0)
    assert side.angle == pytest.approx(angle, abs=math.radians(1.0))
    assert drop < side.drop < drop + 4.0


@pytest.mark.parametrize("name", ["as drafted", "side dart", "low side dart", "armhole dart"])
def test_the_bust_dart_opens_by_the_angle_and_is_drawn_towards_the_new_bust_point(name: str) -> None:
    done = slashed("full bust", base(name).piece(FRONT), 12.7)
    was, now = base(name).piece(FRONT), done.after
    angles = []
    for piece in (was, now):
        dart = piece.dart("bust dart")
        angles.append(angle_about(*dart_mouth(piece, dart), turning_of(piece, dart).pivot))
        assert turning_of(piece, dart).pivot.near(piece.point("bust point"), 1e-6)
    assert angles[1] - angles[0] == pytest.approx(done.angle, abs=1e-9)
    # half of what is let in: the bust point lies in the middle of it
    assert now.point("bust point").x - was.point("bust point").x == pytest.approx(-6.35, abs=1e-9)


@pytest.mark.parametrize("by", [10.0, 40.0])
@pytest.mark.parametrize("name", ["as drafted", "side dart", "low side dart", "armhole dart"])
def test_every_dart_is_drawn_towards_the_one_bust_point(name: str, by: float) -> None:
    """The fold of each dart, through the middle of its mouth and its point, runs through the bust point."""
    now = apply_step(base(name), FullBust(by)).piece(FRONT)
    for dart in now.darts:
        middle = lerp(*dart_mouth(now, dart), 0.5)
        fold, aim = (dart.apex - middle).unit(), now.point("bust point") - middle
        assert abs(fold.cross(aim)) < 1e-6, dart.name


def test_the_darts_follow_the_bust_point_where_the_waist_goes_along() -> None:
    was, now = draft_bodice().piece(FRONT), apply_step(draft_bodice(), FullBust(30.0, waist="goes along")).piece(FRONT)
    for dart in now.darts:
        if "outer" not in dart.name:
            middle = lerp(*dart_mouth(now, dart), 0.5)
            assert abs((dart.apex - middle).unit().cross(now.point("bust point") - middle)) < 1e-6
    assert abs(now.point("bust point").x - was.point("bust point").x) == pytest.approx(7.5, abs=1e-9)


def test_the_armhole_stays_smooth_and_every_dart_leg_equal() -> None:
    front = apply_step(dress(), FullBust(50.0)).piece(FRONT)
    for one, other in pairwise(front.edge("armhole").curves):
        assert abs(tangent(one, 1.0).cross(tangent(other, 0.0))) < 1e-9
    for dart in front.darts:
        assert front.edge(dart.legs[0]).length == pytest.approx(front.edge(dart.legs[1]).length, abs=1e-9)


def test_the_waist_dart_takes_up_half_of_it_on_each_side() -> None:
    widths = [
        distance(*dart_mouth(p.piece(FRONT), p.piece(FRONT).dart("waist dart")))
        for p in (dress(), apply_step(dress(), FullBust(30.0)))
    ]
    assert widths[1] - widths[0] == pytest.approx(15.0, abs=1e-9)


def test_a_front_without_darts_gets_them() -> None:
    now = apply_step(blouse(), FullBust(30.0))
    assert [dart.name for dart in now.piece("front").darts] == ["waist dart", "bust dart"]
    assert {result.verdict for result in run_checks(now)} == {Verdict.PASS}
    back = apply_step(now, SmallBust(30.0))
    assert furthest(back, blouse()) < 1e-6
    assert back.seams == blouse().seams


def test_under_an_armhole_cut_below_the_bust_the_waist_dart_takes_up_a_part_of_it_there() -> None:
    low = apply_step(sized(76, "bodice"), Armhole(lower=60.0))
    full = apply_step(low, FullBust(by=20.0))
    before, after = (next(m.finished for m in finished(p) if m.name == "bust") for p in (low, full))
    assert 10.0 < after - before < 19.0
    assert not [each for each in run_checks(full) if each.verdict in (Verdict.FAIL, Verdict.ERROR)]


def test_her_own_girths_tell_how_much() -> None:
    # 1040 - 960 of her own less 985 - 927 drafted
    drafted = dress().wearer.length("bust_girth").mm - dress().wearer.length("upper_chest_girth").mm
    now = apply_step(dress(), FullBust(bust_girth=1040.0, upper_chest_girth=960.0))
    bust = [next(m.finished for m in finished(p) if m.name == "bust") for p in (dress(), now)]
    assert bust[1] - bust[0] == pytest.approx(80.0 - drafted, abs=1e-6)
    same = apply_step(dress(), FullBust(bust_girth=1040.0, upper_chest_girth=960.0, drafted_gap=50.0))
    assert same.pieces == apply_step(dress(), FullBust(30.0)).pieces


def test_the_waist_goes_along_where_nothing_is_sewn_to_it() -> None:
    bodice = draft_bodice()
    now = apply_step(bodice, FullBust(30.0, waist="goes along"))
    assert fine(now, "waist") - fine(bodice, "waist") == pytest.approx(15.0, abs=0.3)
    assert failed(now) == []
    assert furthest(apply_step(now, SmallBust(30.0, waist="goes along")), bodice) < 1e-6


@cache
def draft_bodice() -> Pattern:
    from dataclasses import replace

    garment = dress_for(women()[40])
    alone = replace(garment, blocks=garment.blocks[:1], steps=())
    return draft(alone, prepare(alone))


REFUSALS = [
    (FullBust(), "say by how much"),
    (SmallBust(100.0), 'nothing of "bust dart" that could be sewn; this can be had: by = "49 mm"'),
    (FullBust(30.0, piece="sleeve"), "no bust point marked"),
    (FullBust(30.0, waist="goes along"), 'sewn to "skirt front"'),
    (FullBust(bust_girth=1000.0, upper_chest_girth=960.0), 'alter = "small bust", by = "17.9 mm"'),
    # type: ignore[arg-type]
]


@pytest.mark.parametrize(("step", "reason"), REFUSALS)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: FullBust, reason: str) -> None:
    with pytest.raises(StepRefused, match=reason) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


def test_no_bust_dart_can_be_made_smaller_where_there_is_none() -> None:
    with pytest.raises(StepRefused, match="no bust dart"):
        apply_step(base("all in the waist"), SmallBust(10.0))
    for name, by in LIES_OVER_ITSELF:
        with pytest.raises(StepRefused, match="lie over itself"):
            apply_step(base(name), FullBust(by))


@pytest.mark.parametrize("by", [10.0, 30.0, 60.0])
def test_what_is_opened_can_go_into_a_dart_of_its_own_in_the_side_seam(by: float) -> None:
    was, now = dress(), apply_step(dress(), FullBust(by, into="side seam"))
    front = now.piece(FRONT)
    assert [dart.name for dart in front.darts] == [*(dart.name for dart in was.piece(FRONT).darts), "side dart"]
    for edge in ("shoulder", "neck", "armhole", "side seam", "waist"):
        assert fine(now, edge) == pytest.approx(fine(was, edge), abs=1e-6), edge
    # the shoulder dart keeps its angle, and every dart is drawn towards the one bust point
    angles = [
        angle_about(*dart_mouth(p, p.dart("bust dart")), turning_of(p, p.dart("bust dart")).pivot)
        for p in (was.piece(FRONT), front)
    ]
    assert angles[0] == pytest.approx(angles[1], abs=1e-9)
    for dart in front.darts:
        middle = lerp(*dart_mouth(front, dart), 0.5)
        assert abs((dart.apex - middle).unit().cross(front.point("bust point") - middle)) < 1e-6
    bust = [next(m.finished for m in finished(p) if m.name == "bust") for p in (was, now)]
    assert bust[1] - bust[0] == pytest.approx(by, abs=1e-6)
    assert failed(now) == []


def test_a_dart_that_lies_in_the_side_seam_is_not_sent_there() -> None:
    with pytest.raises(StepRefused, match='"bust dart" lies there'):
        apply_step(base("side dart"), FullBust(20.0, into="side seam"))


def test_its_history_replays() -> None:
    after = apply_step(apply_step(dress(), FullBust(25.0)), MoveDart(FRONT, "bust dart", "side seam"))
    assert replay(dress(), after.history) == after


@pytest.mark.parametrize("step", [FullBust(10.0), FullBust(25.0), FullBust(50.0), SmallBust(8.0)])
def test_the_dresses_of_real_women_pass_their_checks_after_it(step: FullBust | SmallBust) -> None:
    refused = 0
    for pattern in dresses(5):
        try:
            after = apply_step(pattern, step)
        except StepRefused:
            refused += 1
            continue
        assert failed(after) == []
    assert refused <= 1


@pytest.mark.parametrize("taken", [20.0, -40.0])
@pytest.mark.parametrize("by", [10.0, 25.0, 50.0])
def test_an_armhole_that_was_led_with_the_side_is_not_folded_beside_its_notch(taken: float, by: float) -> None:
    """Taking in moves the joint of the armhole a few mm past the notch; the bit between is too short to be bent."""
    after = apply_step(apply_step(dress(), TakeIn(waist=taken, hip=taken, bust=taken)), FullBust(by))
    assert not failed(after)


def test_a_front_whose_centre_is_drawn_in_two_lines_is_refused_in_the_name_of_the_step() -> None:
    front = dress().piece(FRONT)
    centre = front.edge("centre front")
    middle = Point(centre.start.x, 0.5 * (centre.start.y + centre.end.y))
    two = replace(centre, curves=(Line(centre.start, middle), Line(middle, centre.end)))
    piece = replace(front, edges=tuple(two if edge is centre else edge for edge in front.edges))
    with pytest.raises(StepRefused) as refused:
        apply_step(with_pieces(dress(), piece), FullBust(20.0))
    assert str(refused.value) == 'full bust: the centre line of "bodice front" is not straight'


@pytest.mark.parametrize("end", ["start", "end"])
def test_a_notch_of_the_centre_stays_on_its_side_of_the_cut_whichever_end_it_is_counted_from(
    end: Literal["start", "end"],
) -> None:
    front = dress().piece(FRONT)
    centre = require_edge(front, Place.CENTRE_FRONT)
    places = (20.0, centre.length - 20.0)
    notches = (Notch(f"{at:.0f}", Station(centre.name, at, end), "single") for at in places)
    after = apply_step(with_pieces(dress(), replace(front, notches=(*front.notches, *notches))), FullBust(30.0)).piece(
        FRONT
    )
    edge = after.edge(centre.name)
    assert edge.length > centre.length + 1.0
    from_end = sorted(
        min(at, edge.length - at) for at in (from_start(edge, after.notch(f"{p:.0f}").station) for p in places)
    )
    assert from_end == pytest.approx([20.0, 20.0], abs=1e-6)


def test_an_armhole_without_a_notch_is_hinged_a_third_of_it_above_the_arm() -> None:
    front = dress().piece(FRONT)
    hole = require_edge(front, Place.ARMHOLE)
    others = tuple(notch for notch in front.notches if notch.station.edge != hole.name)
    third = Notch("third", Station(hole.name, hole.length / 3.0, "end"), "single")  # it runs down to the arm
    bare, notched = (
        apply_step(with_pieces(replace(dress(), seams=()), replace(front, notches=notches)), FullBust(20.0))
        for notches in (others, (*others, third))
    )
    assert [edge.start for edge in bare.piece(FRONT).edges] == [edge.start for edge in notched.piece(FRONT).edges]
