"""What a step brought that fails: the step is named, and what is given to type in its place makes the check pass."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

import pytest

from blocks.remedies.step_at_fault import checked_after
from blocks.take_steps import stages
from drafting.alterations import (
    Alteration,
    DartIntoGathers,
    DartIntoSeam,
    FullSleeve,
    Lengthen,
    Neckline,
    ShoulderSlope,
    TakeIn,
)
from drafting.checks import CHECKS, Check, Look, Result, Verdict, look
from drafting.checks.base import verdict_on
from drafting.errors import StepRefused
from drafting.pattern import Pattern, Piece
from drafting.reading.units import sentence_in
from tests.drafting.checks.breaks import grain_turned, no_grain
from tests.drafting.dress import dress
from tests.quick_checks import run_checks
from tests.remedies import came_with, mends_instead, retyped


def reach(sleeve: Piece) -> float:
    up = [edge.start.y for edge in sleeve.edges]
    return max(up) - min(up)


def sleeve_within(passing: float, warning: float, _check: Check, pattern: Pattern) -> Iterator[Look]:
    yield look(sleeve_found, passing, warning, pattern.piece("sleeve"))


def sleeve_found(check: Check, passing: float, warning: float, sleeve: Piece) -> Iterator[Result]:
    longer = reach(sleeve) - reach(dress().piece("sleeve"))
    verdict = verdict_on(longer - 1e-6, passing=passing, warning=warning)
    yield check.result("sleeve", verdict, remedy=f"It is {longer - passing:.1f} mm too long.")


def with_reach(passing: float, warning: float) -> tuple[Check, ...]:
    """The checks, with one of our own of which it is plain how much longer the sleeve may be made."""
    looks = partial(sleeve_within, passing, warning)
    return (*CHECKS, Check("reach", "reach", "The sleeve is not too long.", looks))


STRICTER = with_reach(100.0, 100.0)


def failures(
    steps: Sequence[Alteration],
    drafted: Pattern | None = None,
    *,
    unit: str = "cm",
    checks: Sequence[Check] = STRICTER,
    sources: Sequence[str] = (),
) -> list[Result]:
    """What fails after the steps; whatever else is found is as it is without looking for smaller amounts."""
    whole = tuple(stages(drafted or dress(), steps))
    results = checked_after(whole, steps, unit=unit, checks=checks, sources=sources)
    plain = run_checks(whole[-1], checks=checks)
    assert [replace(each, remedy="", remedies=()) for each in results] == [
        replace(each, remedy="", remedies=()) for each in plain
    ]
    assert all(new.remedy.startswith(old.remedy) for new, old in zip(results, plain, strict=True))
    return [each for each in results if each.verdict is Verdict.FAIL]


def sleeve(by: float) -> Lengthen:
    return Lengthen("sleeve", by=by)


def test_the_most_that_passes_is_told_and_passes_when_it_is_typed() -> None:
    steps = (sleeve(250.0),)
    (failed,) = failures(steps)
    assert failed.remedy == 'It is 150.0 mm too long. It came with step 1, lengthen; by = "100 mm" passes.'
    assert retyped(steps, failed.remedy) == (sleeve(100.0),)
    assert mends_instead(dress(), steps, failed, checks=STRICTER)
    assert failures((sleeve(101.0),))


@pytest.mark.parametrize(
    ("within", "told", "verdict"),
    [
        (60.0, 'by = "60 mm" passes.', "pass"),
        (0.0, 'by = "100 mm" passes here, though another check fails then.', "fail"),
    ],
)
def test_the_most_is_such_that_the_whole_passes_where_it_can(within: float, told: str, verdict: str) -> None:
    nearer = Check("near", "near", "The sleeve is near to what it was.", partial(sleeve_within, within, within))
    reached, _ = failures((sleeve(250.0),), checks=(*STRICTER, nearer))
    assert reached.remedy.endswith(told)
    assert [each.verdict for each in reached.remedies] == [verdict]


@pytest.mark.parametrize(
    ("unit", "told"),
    [("cm", 'by = "10 cm" passes.'), ("mm", 'by = "100 mm" passes.'), ("in", 'by = "3 7/8 in" passes.')],
)
def test_what_is_told_can_be_typed_in_the_unit_she_works_in(unit: str, told: str) -> None:
    steps = (sleeve(250.0),)
    (failed,) = failures(steps, unit=unit)
    assert sentence_in(unit, failed.remedy).endswith(told)
    assert mends_instead(dress(), steps, failed, unit=unit, checks=STRICTER)


@pytest.mark.parametrize("at", [0, 1, 2])
def test_the_step_it_came_with_is_the_one_of_three_that_brought_it(at: int) -> None:
    others = [Neckline(depth=15.0), ShoulderSlope(amount=5.0)]
    steps = (*others[:at], sleeve(130.0), *others[at:])
    (failed,) = failures(steps)
    assert came_with(failed.remedy) == at + 1
    assert retyped(steps, failed.remedy) == (*others[:at], sleeve(100.0), *others[at:])
    assert mends_instead(dress(), steps, failed, checks=STRICTER)


def test_of_several_alike_the_one_that_went_too_far_is_made_less() -> None:
    steps = (sleeve(40.0), sleeve(40.0), sleeve(40.0))
    (failed,) = failures(steps)
    assert retyped(steps, failed.remedy) == (sleeve(40.0), sleeve(40.0), sleeve(20.0))


def test_where_later_steps_bring_it_as_well_they_are_to_be_left_out_too() -> None:
    steps = (sleeve(90.0), sleeve(120.0), sleeve(120.0))
    (failed,) = failures(steps)
    assert failed.remedy.endswith("It came with step 2, lengthen; leave it and the steps taken after it out.")
    assert retyped(steps, failed.remedy) == steps[:1]
    assert mends_instead(dress(), steps, failed, checks=STRICTER)


def gathered(pattern: Pattern) -> bool:
    return any(step.alter == "dart into gathers" for step in pattern.history)


def either_way(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Gathers fail; a shorter sleeve fails without them."""
    short = reach(pattern.piece("sleeve")) < reach(dress().piece("sleeve")) - 1e-6
    yield look(is_so, "gathers", gathered(pattern))
    yield look(is_so, "sleeve", short and not gathered(pattern))


def is_so(check: Check, where: str, fails: bool) -> Iterator[Result]:
    yield check.result(where, Verdict.FAIL if fails else Verdict.PASS, remedy="It is wrong.")


def test_where_another_check_fails_before_the_step_all_is_to_be_left_out_from_there_on() -> None:
    gathers = DartIntoGathers("bodice back", "shoulder dart")
    steps, checks = (sleeve(10.0), sleeve(-20.0), gathers), (Check("either", "either", "Either way.", either_way),)
    (failed,) = failures(steps, checks=checks)
    said = "It came with step 3, dart into gathers; leave step 2 and the steps taken after it out."
    assert failed.remedy.endswith(said)
    assert retyped(steps, failed.remedy) == steps[:1]
    assert mends_instead(dress(), steps, failed, checks=checks)


def test_what_failed_and_was_put_right_is_not_held_against_the_step_that_did_it_first() -> None:
    steps = (sleeve(150.0), sleeve(-100.0), sleeve(70.0))
    (failed,) = failures(steps)
    assert came_with(failed.remedy) == 3
    assert retyped(steps, failed.remedy) == (*steps[:2], sleeve(50.0))


def test_less_is_found_as_well_where_later_steps_refuse_half_of_it() -> None:
    steps, checks = (sleeve(300.0), sleeve(-270.0)), with_reach(0.0, 0.0)
    with pytest.raises(StepRefused):
        tuple(stages(dress(), (sleeve(150.0), *steps[1:])))
    (failed,) = failures(steps, checks=checks)
    assert retyped(steps, failed.remedy) == (sleeve(270.0), *steps[1:])
    assert mends_instead(dress(), steps, failed, checks=checks)


def test_much_less_is_found_as_well() -> None:
    steps, checks = (sleeve(250.0),), with_reach(3.0, 3.0)
    (failed,) = failures(steps, checks=checks)
    assert retyped(steps, failed.remedy) == (sleeve(3.0),)


def test_where_no_less_passes_without_a_warning_that_is_told() -> None:
    steps, checks = (sleeve(250.0),), with_reach(-1.0, 30.0)
    (failed,) = failures(steps, checks=checks)
    assert failed.remedy.endswith('It came with step 1, lengthen; by = "30 mm" passes with a warning.')
    assert mends_instead(dress(), steps, failed, checks=checks)


def test_a_step_of_which_no_less_passes_is_to_be_left_out() -> None:
    steps = (sleeve(100.0), sleeve(0.8))
    (failed,) = failures(steps)
    assert failed.remedy.endswith("It came with step 2, lengthen; leave it out.")
    assert retyped(steps, failed.remedy) == steps[:1]
    assert mends_instead(dress(), steps, failed, checks=STRICTER)


def test_what_fails_as_drafted_is_left_alone() -> None:
    (failed,) = failures((Neckline(depth=15.0), ShoulderSlope(amount=5.0)), no_grain(dress()))
    assert failed.remedy == "It has no grain line: draw one along the lengthwise grain."
    assert came_with(failed.remedy) is None


def test_what_fails_as_drafted_is_left_alone_under_the_names_of_its_parts_as_well() -> None:
    found = failures(
        (DartIntoSeam("bodice front", "bust dart", "waist dart"),), grain_turned(dress(), "bodice front", 5.0)
    )
    assert {each.where for each in found} & {"bodice front, centre", "bodice front, side"}
    assert [came_with(each.remedy) for each in found if each.code == "grain-line"] == [None] * len(found)


def test_a_remedy_that_gives_something_to_type_is_left_alone() -> None:
    (failed,) = failures((TakeIn(waist=55.0),))
    assert 'alter = "take in"' in failed.remedy
    assert came_with(failed.remedy) is None


def test_all_lengths_of_a_step_are_made_less_by_the_same_share() -> None:
    steps = (TakeIn(waist=240.0, hip=120.0, darts=0.5, centre_back=0.2),)
    (failed,) = [each for each in failures(steps) if each.code == "notches-meet"]
    instead = retyped(steps, failed.remedy)
    assert instead is not None
    (less,) = instead
    assert isinstance(less, TakeIn)
    assert 0.0 < less.waist < 240.0
    assert less.hip == less.waist // 2.0
    assert less == replace(steps[0], waist=less.waist, hip=less.hip)
    assert mends_instead(dress(), steps, failed)


def test_the_place_in_the_file_is_told_and_the_file_where_there_are_several() -> None:
    steps = (FullSleeve(hem=60.0), sleeve(250.0))
    one = ("a/dress.toml, [[step]] 1", "a/dress.toml, [[step]] 2")
    assert "It came with [[step]] 2, lengthen;" in failures(steps, sources=one)[0].remedy
    assert "It came with step 2, lengthen;" in failures(steps, sources=("step 1", "step 2"))[0].remedy
    two = ("a/dress.toml, [[step]] 1", "a/longer.toml, [[step]] 1")
    assert "It came with [[step]] 1 of longer.toml, lengthen;" in failures(steps, sources=two)[0].remedy
