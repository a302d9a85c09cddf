"""A sway back, a rounded back, a broad or narrow back: what they leave alone, what they change, what they refuse."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.alterations import Alteration, BackWidth, RoundedBack, SwayBack, apply_step
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.errors import StepRefused
from drafting.geometry import Line, distance, lerp, run_at
from drafting.pattern import Pattern, Piece, dart_angle, dart_mouth, dart_width, finished, walk
from tests.alteration_samples import SAMPLES, Options, sample
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed, failed_after

BACK = "bodice back"
ROWS = [(name, options) for name in ("sway back", "rounded back", "back width") for options in SAMPLES[name]]


def back(pattern: Pattern) -> Piece:
    return pattern.piece(BACK)


def length(pattern: Pattern, edge: str) -> float:
    return exact_length(back(pattern).edge(edge).curves)


def measured(pattern: Pattern, name: str) -> float:
    return next(each.finished for each in finished(pattern) if each.name == name)


def leg(pattern: Pattern, dart: str) -> float:
    return back(pattern).edge(back(pattern).dart(dart).legs[0]).length


@pytest.mark.parametrize(("name", "options"), ROWS)
def test_every_check_passes_on_a_sample_of_bodies(name: str, options: Options) -> None:
    step = sample(name, options)
    assert [(p.wearer.name, r.where, r.remedy) for p in dresses() for r in failed_after(p, step)] == []


@pytest.mark.parametrize(("name", "options"), ROWS)
def test_only_the_back_is_altered_and_its_side_seam_and_armhole_keep_their_length(name: str, options: Options) -> None:
    before, after = dress(), apply_step(dress(), sample(name, options))
    assert [p.name for p in after.pieces if p != before.piece(p.name)] == [BACK]
    for edge in ("side seam", "armhole", "neck"):
        assert length(after, edge) == pytest.approx(length(before, edge), abs=1e-6)


@pytest.mark.parametrize("depth", [6.0, 25.0])  # a quarter of an inch to an inch: the range sewing texts give
def test_a_sway_back_is_shorter_at_the_centre_and_tapers_to_the_side(depth: float) -> None:
    before, after = dress(), apply_step(dress(), SwayBack(depth))
    assert measured(after, "centre back") == pytest.approx(measured(before, "centre back") - depth, abs=1e-6)
    assert back(after).edge("side seam") == back(before).edge("side seam")
    seam = after.seam("back waist")
    assert walk(after, seam).b == pytest.approx(walk(before, seam).b, abs=1e-4)
    # the waist rises less and less from the centre to the side
    rises = [
        run_at(back(after).edge(edge).curves, share * back(after).edge(edge).length).y
        - run_at(back(before).edge(edge).curves, share * back(before).edge(edge).length).y
        for edge, share in (("waist at centre", 0.0), ("waist at centre", 1.0), ("waist at side", 0.6))
    ]
    assert rises[0] == pytest.approx(depth)
    assert rises[0] > rises[1] > rises[2] > 0.0


def test_the_centre_back_stays_straight_and_the_waist_square_to_it() -> None:
    after = back(apply_step(dress(), SwayBack(20.0)))
    centre = after.edge("centre back").curves
    assert len(centre) == 1
    assert isinstance(centre[0], Line)
    assert centre[0].start.x == centre[0].end.x == 0.0
    waist = after.edge("waist at centre").curves[0]
    assert not isinstance(waist, Line)
    assert waist.c1.y == pytest.approx(waist.start.y, abs=1e-9)


def test_a_skirt_without_a_bodice_has_the_wedge_taken_out_of_its_own_top() -> None:
    skirt = replace(
        dress(),
        pieces=tuple(p for p in dress().pieces if p.name.startswith("skirt")),
        seams=tuple(s for s in dress().seams if s.name == "skirt side seam"),
        measures=tuple(m for m in dress().measures if m.name in ("waist", "hip", "skirt length")),
    )
    after = apply_step(skirt, SwayBack(12.0))
    opening = after.piece("skirt back").edge("centre back opening")
    assert opening.start.y == pytest.approx(-12.0)
    assert measured(after, "waist") == pytest.approx(measured(skirt, "waist"), abs=1e-4)
    assert failed(after) == []


@pytest.mark.parametrize("amount", [5.0, 20.0, -5.0])
def test_a_rounded_back_is_longer_at_the_centre_and_its_dart_takes_up_the_wedge(amount: float) -> None:
    before, after = dress(), apply_step(dress(), RoundedBack(amount))
    assert measured(after, "centre back") == pytest.approx(measured(before, "centre back") + amount, abs=1e-6)
    # the wedge opens by the amount where it ends, straight across from its hinge at the back width line's end: the
    # chord of its angle (plane geometry). Let in, it ends where the dart points to on that line; folded out, at the
    # centre line
    dart = back(before).dart("shoulder dart")
    mouth, line = lerp(*dart_mouth(back(before), dart), 0.5), back(before).line("back width line")
    down = (mouth.y - line.end.y) / (mouth.y - dart.apex.y)
    pointed_at = mouth.x + (dart.apex.x - mouth.x) * down if amount > 0.0 else 0.0
    wedge = math.copysign(2.0 * math.asin(0.5 * abs(amount) / (line.end.x - pointed_at)), amount)
    opened = dart_angle(back(after), back(after).dart("shoulder dart"))
    assert opened - dart_angle(back(before), dart) == pytest.approx(wedge, abs=1e-6)
    assert measured(after, "across the back") == pytest.approx(measured(before, "across the back"), abs=1e-3)
    assert length(after, "shoulder at neck") == pytest.approx(length(before, "shoulder at neck"), abs=1e-9)


@pytest.mark.parametrize("amount", [5.0, 10.0, 20.0])
def test_the_dart_of_a_rounded_back_goes_on_pointing_at_the_shoulder_blade(amount: float) -> None:
    # common practice: about halfway between centre and armhole, level with the blade; and no shorter than it was
    for pattern in (dress(), *dresses()):
        before, after = back(pattern), back(apply_step(pattern, RoundedBack(amount)))
        was, now = before.dart("shoulder dart"), after.dart("shoulder dart")
        mouth, level = lerp(*dart_mouth(after, now), 0.5), after.line("back width line").end
        blade = mouth + (now.apex - mouth) * ((mouth.y - level.y) / (mouth.y - now.apex.y))
        assert 0.3 < blade.x / level.x < 0.65, pattern.wearer.name
        assert after.edge(now.legs[0]).length > before.edge(was.legs[0]).length


def test_a_rounded_back_may_be_eased_and_the_seam_says_so() -> None:
    before, after = dress(), apply_step(dress(), RoundedBack(8.0, into="ease"))
    walked = walk(after, after.seam("shoulder"))
    assert 3.0 < walked.a - walked.b < 12.0
    assert after.seam("shoulder").ease.wanted == pytest.approx(walked.a - walked.b, abs=1e-4)
    dart = back(after).dart("shoulder dart")
    assert dart_angle(back(after), dart) == pytest.approx(dart_angle(back(before), back(before).dart("shoulder dart")))


@pytest.mark.parametrize("amount", [6.0, 24.0, -5.0])
def test_a_broad_back_is_wider_by_the_amount_from_back_width_line_to_bust_and_not_at_the_waist(amount: float) -> None:
    before, after = dress(), apply_step(dress(), BackWidth(amount))
    for name in ("across the back", "bust"):
        assert measured(after, name) == pytest.approx(measured(before, name) + amount, abs=1e-6)
    assert measured(after, "waist") == pytest.approx(measured(before, "waist"), abs=1e-4)
    assert (dart_width(back(after), back(after).dart("waist dart")) > 39.5) == (amount > 0.0)
    # the armhole is moved as it is, not redrawn
    shifts = {
        (round(b.start.x - a.start.x, 9), round(b.start.y - a.start.y, 9))
        for a, b in zip(back(before).edge("armhole").curves, back(after).edge("armhole").curves, strict=True)
    }
    assert shifts == {(0.5 * amount, 0.0)}


def test_the_shoulder_dart_of_a_broad_back_keeps_its_angle_and_so_is_longer() -> None:
    before, after = dress(), apply_step(dress(), BackWidth(10.0))
    one, other = back(before).dart("shoulder dart"), back(after).dart("shoulder dart")
    assert dart_angle(back(after), other) == pytest.approx(dart_angle(back(before), one), abs=1e-9)
    # at the same angle the width at the mouth goes with the length: 2 r sin(angle / 2), Erwin 1954
    ratio = dart_width(back(after), other) / dart_width(back(before), one)
    assert leg(after, "shoulder dart") / leg(before, "shoulder dart") == pytest.approx(ratio, abs=1e-9)
    assert distance(other.apex, one.apex) > 10.0


REFUSED: list[tuple[Alteration, str]] = [
    (RoundedBack(0.0), "changes nothing"),
    (RoundedBack(-14.0), "the shoulder dart would"),
    (RoundedBack(28.0, into="ease"), "12 mm is the most that will go"),
    (RoundedBack(-8.0, into="ease"), "cannot be eased"),
    (BackWidth(-25.0), "the shoulder dart would"),
    (BackWidth(36.0, into="ease"), 'into = "dart"'),
    (BackWidth(-10.0, into="ease"), "shorter than the front one"),
]


@pytest.mark.parametrize(("step", "reason"), REFUSED)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: Alteration, reason: str) -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(dress(), step)
    assert reason in str(refused.value)


def test_a_garment_without_a_back_is_told_so() -> None:
    sleeve = replace(dress(), pieces=(dress().piece("sleeve"),), seams=(), measures=())
    with pytest.raises(StepRefused, match="one back that has a shoulder"):
        apply_step(sleeve, RoundedBack(10.0))
    with pytest.raises(StepRefused, match="no back of this garment has a waist line"):
        apply_step(sleeve, SwayBack(10.0))
