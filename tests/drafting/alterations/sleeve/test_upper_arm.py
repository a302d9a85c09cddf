"""Upper arm and fitted cap, against the sleeve triangle (plane geometry) and the ease a tape finds on the cap."""

from __future__ import annotations

import pytest

from drafting.alterations import Armhole, FitSleeve, UpperArm, apply_step
from drafting.alterations.sleeve.set_in_sleeve import cap_on
from drafting.errors import StepRefused
from drafting.geometry import run_length
from drafting.geometry.cap import triangle_height
from drafting.pattern import Pattern, finished, notch_distance, walk
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed_after
from tests.quick_checks import run_checks


def length(pattern: Pattern, edge: str) -> float:
    return run_length(pattern.piece("sleeve").edge(edge).curves, 1e-9)


def measured(pattern: Pattern) -> dict[str, float]:
    return {made.name: made.finished for made in finished(pattern)}


@pytest.mark.parametrize("by", [10.0, 30.0, 60.0, -30.0])
def test_with_the_seam_kept_the_cap_is_as_long_as_it_was_and_falls_as_it_is_widened(by: float) -> None:
    after = apply_step(dress(), UpperArm(by))
    for edge in ("cap front", "cap back", "wrist"):
        assert length(after, edge) == pytest.approx(length(dress(), edge), abs=1e-6)
    was, now = cap_on(dress().piece("sleeve")), cap_on(after.piece("sleeve"))
    assert now.width == pytest.approx(was.width + by, abs=1e-9)
    assert (now.height < was.height) == (by > 0.0)


def test_the_cap_falls_about_as_the_sleeve_triangle_says() -> None:
    was, now = (cap_on(pattern.piece("sleeve")) for pattern in (dress(), apply_step(dress(), UpperArm(20.0))))
    front, back = ((side**2 + was.height**2) ** 0.5 for side in (was.width - was.back_width, was.back_width))
    fall = was.height - triangle_height(front, back, was.width + 20.0)
    # a lower cap is a flatter curve, nearer to its diagonal, so it need not fall quite as far
    assert 0.7 * fall < was.height - now.height < fall


def test_with_the_height_kept_the_ease_that_is_declared_grows_with_the_cap() -> None:
    before, after = dress(), apply_step(dress(), UpperArm(15.0, keep="cap height"))
    assert cap_on(after.piece("sleeve")).height == pytest.approx(cap_on(before.piece("sleeve")).height, abs=1e-9)
    for name in ("front armhole", "back armhole"):
        seam = after.seam(name)
        walked = walk(after, seam)
        assert walked.a - walked.b > before.seam(name).ease.wanted + 2.0
        assert seam.ease.wanted == pytest.approx(walked.a - walked.b, abs=1e-3)
        assert (seam.ease.low, seam.ease.high) == (before.seam(name).ease.low, before.seam(name).ease.high)


@pytest.mark.parametrize("step", [UpperArm(40.0), UpperArm(-25.0), FitSleeve(30.0), FitSleeve(35.0, "cap height")])
def test_the_length_of_the_sleeve_and_the_elbow_level_stay_and_both_underarm_seams_stay_equal(
    step: UpperArm | FitSleeve,
) -> None:
    after = apply_step(dress(), step)
    was, now = measured(dress()), measured(after)
    for name in ("shoulder to wrist", "shoulder to elbow", "wrist"):
        assert now[name] == pytest.approx(was[name], abs=1e-6)
    assert length(after, "underarm seam, back") == pytest.approx(length(after, "underarm seam, front"), abs=1e-6)
    elbow = after.piece("sleeve").line("elbow line")
    assert elbow.start.y == pytest.approx(elbow.end.y) == pytest.approx(after.piece("sleeve").point("elbow").y)


def test_a_cap_that_would_reach_the_elbow_is_refused_with_the_lengths_of_cap_and_armhole() -> None:
    deep = apply_step(dress(), Armhole(lower=80.0, only="bodice"))
    with pytest.raises(StepRefused, match=r"come down past .* the armhole 28\.0 and 29\.8 cm") as refusal:
        apply_step(deep, FitSleeve(44.0))
    assert refusal.value.alteration == "fit sleeve"


def test_wider_and_back_is_the_same_sleeve_within_a_pencil_line() -> None:
    back = apply_step(apply_step(dress(), UpperArm(30.0)), UpperArm(-30.0))
    for one, other in zip(back.piece("sleeve").outline, dress().piece("sleeve").outline, strict=True):
        assert one.start.near(other.start, 0.4)


@pytest.mark.parametrize("ease", [0.0, 15.0, 44.0])
@pytest.mark.parametrize("keep", ["biceps", "cap height"])
def test_a_fitted_cap_is_longer_than_its_armhole_by_the_ease_half_in_front_and_half_behind(
    ease: float, keep: str
) -> None:
    after = apply_step(dress(), FitSleeve(ease, keep))
    was, now = cap_on(dress().piece("sleeve")), cap_on(after.piece("sleeve"))
    for name in ("front armhole", "back armhole"):
        walked = walk(after, after.seam(name))
        assert walked.a - walked.b == pytest.approx(0.5 * ease, abs=1e-3)
        ((sleeve, bodice),) = after.seam(name).notches
        seam = after.seam(name)
        assert notch_distance(after, seam.a, sleeve) == pytest.approx(notch_distance(after, seam.b, bodice), abs=1e-3)
    kept = (was.width, now.width) if keep == "biceps" else (was.height, now.height)
    assert kept[1] == pytest.approx(kept[0], abs=1e-9)


def test_fitted_as_it_already_is_a_sleeve_stays_what_it_was() -> None:
    after = apply_step(dress(), FitSleeve())
    for one, other in zip(after.piece("sleeve").outline, dress().piece("sleeve").outline, strict=True):
        assert one.start.near(other.start, 1e-4)


@pytest.mark.parametrize(
    "step",
    [
        UpperArm(10.0),
        UpperArm(30.0),
        UpperArm(-20.0),
        UpperArm(8.0, keep="cap height"),
        FitSleeve(0.0),
        FitSleeve(25.0),
        FitSleeve(45.0, "cap height"),
    ],
)
def test_the_dress_goes_together_on_every_body_of_the_sample(step: UpperArm | FitSleeve) -> None:
    for pattern in dresses():
        assert failed_after(pattern, step) == []


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (UpperArm(0.0), "changes nothing"),
        (UpperArm(200.0), "can be drawn over a sleeve so wide"),
        (UpperArm(60.0, keep="cap height"), 'keep = "cap seam"'),
        (UpperArm(10.0, piece="sleve"), 'Did you mean "sleeve"'),
        (UpperArm(10.0, piece="skirt front"), "no set-in sleeve"),
        (FitSleeve(100.0), 'cap_ease = "45 mm"'),
    ],
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: UpperArm | FitSleeve, says: str) -> None:
    with pytest.raises(StepRefused) as refusal:
        apply_step(dress(), step)
    assert says in str(refusal.value)


def test_every_check_passes_on_the_dress_without_a_warning_but_of_what_was_asked() -> None:
    # 2 cm out of a sleeve with 5 leaves less than an arm needs to bend
    for step, tight in ((UpperArm(20.0), []), (UpperArm(-20.0), ["upper arm"]), (FitSleeve(35.0), [])):
        results = run_checks(apply_step(dress(), step))
        assert [each.where for each in results if each.verdict.value != "pass"] == tight
