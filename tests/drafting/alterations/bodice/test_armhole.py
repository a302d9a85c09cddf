"""The armhole lowered, raised and cut in: the bodice beside it untouched, the sleeve following."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.alterations import Armhole, FitSleeve, Lengthen, RoundedBack, apply_step
from drafting.alterations.sleeve.set_in_sleeve import cap_on
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import Curve, curvature, distance, run_length, tangent
from drafting.pattern import Pattern, across, place, walk, with_pieces
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed, failed_after
from tests.quick_checks import run_checks

BODICE = ("bodice front", "bodice back")


def hole(pattern: Pattern, piece: str) -> float:
    return run_length(pattern.piece(piece).edge("armhole").curves, 1e-9)


def side(run: tuple[Curve, ...]) -> float:
    return 1.0 if curvature(run[0], 0.5) > 0.0 else -1.0


@pytest.mark.parametrize("lower", [5.0, 15.0, 30.0, -15.0])
def test_the_side_seams_of_front_and_back_change_by_the_amount_and_all_else_of_the_bodice_stays(lower: float) -> None:
    after = apply_step(dress(), Armhole(lower=lower))
    for name in BODICE:
        was, now = dress().piece(name), after.piece(name)
        change = run_length(now.edge("side seam").curves, 1e-9) - run_length(was.edge("side seam").curves, 1e-9)
        assert change == pytest.approx(-lower, abs=1e-6)
        apart = [edge.name for edge in was.edges if was.edge(edge.name).curves != now.edge(edge.name).curves]
        assert set(apart) == {"side seam", "armhole"}


@pytest.mark.parametrize("lower", [10.0, 20.0, 30.0])
def test_a_lowered_armhole_grows_by_no_more_than_twice_the_amount(lower: float) -> None:
    after = apply_step(dress(), Armhole(lower=lower))
    grown = sum(hole(after, name) - hole(dress(), name) for name in BODICE)
    assert 0.0 < grown <= 2.0 * lower


@pytest.mark.parametrize("step", [Armhole(lower=25.0), Armhole(lower=-15.0), Armhole(cut_in=8.0)])
def test_it_stays_square_to_the_side_seam_and_to_the_shoulder_and_runs_smoothly_through_its_notch(
    step: Armhole,
) -> None:
    after = apply_step(dress(), step)
    for name in BODICE:
        was, now = dress().piece(name).edge("armhole").curves, after.piece(name).edge("armhole").curves
        inner = [tangent(one, 1.0).cross(tangent(other, 0.0)) for one, other in pairwise(now)]
        assert inner == pytest.approx([0.0] * len(inner), abs=1e-9)
        if step.lower:  # an armhole has no wobble: it turns one way, or runs straight (a bend of 2 m cannot be seen)
            assert all(curvature(curve, t) * side(was) > -0.0005 for curve in now for t in (0.0, 0.3, 0.6, 1.0))
    corners = [result for result in run_checks(after) if "armhole" in result.where and result.unit == "degrees"]
    assert corners
    assert all(result.verdict is Verdict.PASS for result in corners)


def test_cut_in_the_back_is_narrower_by_the_amount_on_each_side_and_nothing_but_the_armhole_is_redrawn() -> None:
    after = apply_step(dress(), Armhole(cut_in=8.0))
    for name in BODICE:
        was, now = dress().piece(name), after.piece(name)
        assert [edge.name for edge in was.edges if edge.curves != now.edge(edge.name).curves] == ["armhole"]
    back = "bodice back"
    line = "back width line"
    assert across(after.piece(back), line) == pytest.approx(across(dress().piece(back), line) - 8.0, abs=1e-6)
    front = after.piece("bodice front")
    at, _ = place(front, front.notch("front armhole notch").station)
    before = place(dress().piece("bodice front"), dress().piece("bodice front").notch("front armhole notch").station)[0]
    assert at.x - before.x == pytest.approx(8.0, abs=1e-4)


@pytest.mark.parametrize(
    ("step", "tight"),
    [
        (Armhole(lower=20.0), set()),
        # raised to 10 mm below the armpit, less than the half inch that a raised arm wants
        (Armhole(lower=-10.0), {("armhole, for raising an arm", Verdict.WARN)}),
        # cut in by 5 mm on both sides the back has 10 mm less, and says so
        (Armhole(lower=10.0, cut_in=5.0), {("across the back", Verdict.WARN)}),
    ],
)
def test_the_sleeve_follows_with_its_width_and_its_ease(step: Armhole, tight: set[tuple[str, Verdict]]) -> None:
    after = apply_step(dress(), step)
    assert cap_on(after.piece("sleeve")).width == pytest.approx(cap_on(dress().piece("sleeve")).width, abs=1e-9)
    for name in ("front armhole", "back armhole"):
        walked = walk(after, after.seam(name))
        assert walked.a - walked.b == pytest.approx(dress().seam(name).ease.wanted, abs=1e-3)
    results = run_checks(after)
    assert {(each.where, each.verdict) for each in results if each.verdict is not Verdict.PASS} == tight


def test_held_to_the_bodice_the_check_names_seams_and_the_alteration_that_puts_them_right() -> None:
    after = apply_step(dress(), Armhole(lower=30.0, only="bodice"))
    assert after.piece("sleeve") == dress().piece("sleeve")
    lengths = {result.where: result for result in failed(after) if result.code == "seam-length"}
    assert set(lengths) == {"front armhole", "back armhole"}
    assert all('alter = "fit sleeve"' in result.remedy for result in lengths.values())
    assert failed(apply_step(after, FitSleeve())) == []


def test_lowered_past_the_bust_line_that_line_and_its_notches_lie_just_below_the_underarm() -> None:
    after = apply_step(dress(), Armhole(lower=40.0))
    assert (
        dress().piece("bodice front").line("bust line").start.y > after.piece("bodice front").line("bust line").start.y
    )
    for name in BODICE:
        piece = after.piece(name)
        under, line = piece.line("underarm line"), piece.line("bust line")
        notch, _ = place(piece, piece.notch("bust level notch").station)
        assert line.end.near(notch, 1e-3)
        assert line.start.y == pytest.approx(line.end.y)
        assert distance(under.end, line.end) == pytest.approx(10.0, abs=0.01)
    assert {result.verdict for result in run_checks(after)} == {Verdict.PASS}


@pytest.mark.parametrize("step", [Armhole(5.0), Armhole(15.0), Armhole(30.0), Armhole(-10.0), Armhole(cut_in=3.0)])
def test_the_dress_goes_together_on_every_body_of_the_sample(step: Armhole) -> None:
    for pattern in dresses():
        assert failed_after(pattern, step) == []


def test_a_bodice_without_a_sleeve_is_altered_by_itself() -> None:
    whole = dress()
    pieces = tuple(piece for piece in whole.pieces if piece.name in BODICE)
    seams = tuple(seam for seam in whole.seams if {ref.piece for ref in (*seam.a, *seam.b)} <= set(BODICE))
    measures = tuple(m for m in whole.measures if {part.piece for part in m.tape} <= set(BODICE))
    alone = Pattern("top", whole.wearer, pieces, seams, measures)
    assert failed(apply_step(alone, Armhole(lower=15.0))) == []


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (Armhole(), 'lower = "2 cm"'),
        (Armhole(lower=120.0), 'side seam above that; this can be had: lower = "92 mm"'),
        (Armhole(lower=10.0, only="bodice frnt"), 'Did you mean "bodice front"'),
    ],
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: Armhole, says: str) -> None:
    with pytest.raises(StepRefused) as refusal:
        apply_step(dress(), step)
    assert says in str(refusal.value)


@pytest.mark.parametrize("amount", [-5.0, 10.0])
def test_the_notch_of_a_back_that_was_rounded_or_made_erect_before_stays_in_the_middle(amount: float) -> None:
    # its armhole then has a joint just before or just after the notch
    back = apply_step(dress(), RoundedBack(amount))
    after = apply_step(back, Armhole(lower=10.0))
    shares = []
    for pattern in (back, after):
        piece = pattern.piece("bodice back")
        notch = next(notch for notch in piece.notches if notch.station.edge == "armhole")
        shares.append(notch.station.at / piece.edge("armhole").length)
    assert shares[1] == pytest.approx(shares[0], abs=0.02)


def test_it_is_lowered_no_nearer_than_to_the_waist_where_no_line_is_marked_above_that() -> None:
    short = apply_step(apply_step(dress(), Lengthen("bodice front", by=-60.0)), Armhole(lower=30.0))
    bare = with_pieces(short, *(replace(piece, lines=()) for piece in map(short.piece, BODICE)))
    with pytest.raises(StepRefused, match="the waist comes to its side seam above that"):
        apply_step(bare, Armhole(lower=100.0, only="bodice"))
