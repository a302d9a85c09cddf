"""A dart left unsewn: the seam keeps what is sewn of it, and declares what is gathered or eased (common practice)."""

from __future__ import annotations

import pytest

from drafting.alterations import DartIntoGathers, MoveDart, apply_step, replay
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import tangent
from drafting.pattern import dart_width, finished, run_total
from tests.drafting.dress import dress
from tests.drafting.sample import blouse
from tests.quick_checks import run_checks

CASES = [
    ("bodice front", "bust dart", "gathers", "shoulder"),
    ("bodice front", "waist dart", "gathers", "front waist"),
    ("bodice back", "shoulder dart", "ease", "shoulder"),
    ("bodice back", "waist dart", "gathers", "back waist"),
    ("skirt front", "waist dart", "gathers", "front waist"),
    ("skirt back", "waist dart 2", "gathers", "back waist"),
]


@pytest.mark.parametrize(("piece", "dart", "how", "seam"), CASES)
def test_the_seam_declares_what_the_mouth_adds_and_every_check_passes(
    piece: str, dart: str, how: str, seam: str
) -> None:
    after = apply_step(dress(), DartIntoGathers(piece, dart, how))  # type: ignore[arg-type]
    assert {result.verdict for result in run_checks(after)} <= {Verdict.PASS}
    over = after.piece(piece).edge(f"{dart} {how}")
    was = dress().piece(piece)
    # the line drawn over the mouth is an arc of the dart: a little longer than it is wide
    width = dart_width(was, was.dart(dart))
    assert width < over.length < 1.02 * width
    now = after.seam(seam)
    assert abs(now.ease.wanted - dress().seam(seam).ease.wanted) == pytest.approx(over.length, abs=1e-9)
    assert run_total(after, now.a) - run_total(after, now.b) == pytest.approx(now.ease.wanted, abs=1e-6)
    assert [a.finished for a in finished(after)] == pytest.approx([a.finished for a in finished(dress())], abs=1e-9)


def test_gathers_may_come_out_a_tenth_otherwise_and_what_is_eased_in_by_a_millimetre_and_a_half() -> None:
    for step, give in (
        (DartIntoGathers("bodice front", "bust dart"), 0.1),
        (DartIntoGathers("bodice back", "shoulder dart", "ease"), None),
    ):
        was = dress().seam("shoulder").ease
        ease = apply_step(dress(), step).seam("shoulder").ease
        more = abs(ease.wanted - was.wanted)
        within = give * more if give is not None else 1.5
        assert more > 2.0
        assert was.low - ease.low == pytest.approx(was.wanted - ease.wanted + within)
        assert ease.high - was.high == pytest.approx(ease.wanted - was.wanted + within)


def test_the_line_runs_smoothly_over_the_mouth_and_its_ends_are_notched() -> None:
    front = apply_step(dress(), DartIntoGathers("bodice front", "bust dart")).piece("bodice front")
    k = [edge.name for edge in front.edges].index("bust dart gathers")
    for one, other in ((front.edges[k - 1], front.edges[k]), (front.edges[k], front.edges[k + 1])):
        assert abs(tangent(one.curves[-1], 1.0).cross(tangent(other.curves[0], 0.0))) < 1e-9
    assert [dart.name for dart in front.darts] == ["waist dart"]
    assert {n.station.end for n in front.notches if n.station.edge == "bust dart gathers"} == {"start", "end"}


def test_two_darts_of_one_seam_are_gathered_one_after_the_other() -> None:
    once = apply_step(dress(), DartIntoGathers("skirt back", "waist dart 1"))
    twice = apply_step(once, DartIntoGathers("skirt back", "waist dart 2"))
    assert {result.verdict for result in run_checks(twice)} <= {Verdict.PASS}
    assert replay(dress(), twice.history) == twice


def test_a_dart_in_the_armhole_is_gathered_against_the_ease_of_the_cap() -> None:
    there = apply_step(dress(), MoveDart("bodice front", "bust dart", "armhole"))
    after = apply_step(there, DartIntoGathers("bodice front", "bust dart"))
    over = after.piece("bodice front").edge("bust dart gathers").length
    assert after.seam("front armhole").ease.wanted == pytest.approx(10.0 - over)
    assert {result.verdict for result in run_checks(after)} <= {Verdict.PASS}


REFUSALS = [
    (
        DartIntoGathers("bodice front", "bust dart", "ease"),
        '8.0% is the most that will go; this can be had: how = "gathers"',
    ),
    (DartIntoGathers("bodice front", "bst dart"), 'Did you mean "bust dart"'),
    # type: ignore[arg-type]
]


@pytest.mark.parametrize(("step", "reason"), REFUSALS)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: DartIntoGathers, reason: str) -> None:
    with pytest.raises(StepRefused, match=reason) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


def test_gathers_that_nothing_holds_are_refused() -> None:
    with pytest.raises(StepRefused, match=r"nothing is sewn.*move the dart into a seam between two pieces"):
        apply_step(blouse(), DartIntoGathers("front", "waist dart"))


@pytest.mark.parametrize(
    ("beside", "verdict", "offered"),
    [(None, Verdict.PASS, None), (50.0, Verdict.PASS, None), (25.0, Verdict.WARN, 50), (12.0, Verdict.FAIL, 50)],
)
def test_a_dart_is_spread_to_2_to_1_and_what_is_gathered_into_less_is_told(
    beside: float | None, verdict: Verdict, offered: int | None
) -> None:
    after = apply_step(dress(), DartIntoGathers("bodice front", "bust dart", beside=beside))
    (full,) = (each for each in run_checks(after) if each.where == "shoulder, gathers of the bodice front")
    assert full.verdict is verdict
    assert full.measured is not None
    if beside:  # the mouth and what lies beside it, drawn up to that; where the shoulder has no room it is less
        mouth = after.piece("bodice front").edge("bust dart gathers").length
        assert full.measured >= 1.0 + mouth / (2.0 * beside) - 0.01
    assert [each.settings[0].value for each in full.remedies] == ([offered] if offered else [])


def test_where_the_seam_has_room_a_wide_dart_comes_to_twice_its_seam() -> None:
    step = DartIntoGathers("bodice front", "bust dart")
    after = apply_step(dress(), step)
    mouth = after.piece("bodice front").edge("bust dart gathers").length
    assert step.came_to(dress(), after) == pytest.approx({"beside": 0.5 * mouth})
    assert DartIntoGathers("bodice front", "bust dart", beside=30.0).came_to(dress(), after) == {}
