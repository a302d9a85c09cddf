"""What a failed check offers has been tried: typed as it stands it mends, or it is not offered."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

import pytest

from blocks.remedies.step_at_fault import checked_after
from drafting.alterations import (
    Alteration,
    Armhole,
    DartIntoSeam,
    FlareSkirt,
    GatherSkirt,
    Lengthen,
    Opening,
    RoomToGrow,
    TakeIn,
    apply_step,
)
from drafting.checks import Check, Result, Verdict, look
from drafting.errors import Remedy, Setting, TrueseamError
from drafting.pattern import Pattern, Role
from output.api import Garment, alter, block, check, draft
from tests.bodies import women
from tests.drafting.checks.breaks import body_grown, sewn_shut
from tests.drafting.dress import dress
from tests.quick_checks import run_checks
from tests.remedies import mends, typed

HELD: list[Alteration] = [
    TakeIn(waist=20.0, only="skirt front"),
    TakeIn(waist=20.0, hip=20.0, bust=20.0, only="bodice back"),
    Lengthen("skirt front", 100.0, only="skirt front"),
    GatherSkirt(2.0, only="skirt front"),
    Armhole(lower=20.0, only="bodice front"),
]


def failed_places(pattern: Pattern) -> set[tuple[str, str]]:
    return {(each.code, each.where) for each in run_checks(pattern) if each.verdict is Verdict.FAIL}


@pytest.mark.parametrize("step", HELD, ids=lambda step: f"{step.name}, {step.only}")
def test_once_more_with_only_is_offered_where_it_mends_and_nowhere_else(step: Alteration) -> None:
    after = apply_step(dress(), step)
    before = failed_places(after)
    for result in checked_after([dress(), after], [step]):
        found = re.search(r'once more with only = "([^"]+)"', result.remedy)
        if result.verdict is Verdict.FAIL and found:
            twin = failed_places(apply_step(after, replace(step, only=found[1])))  # type: ignore[call-arg]
            assert (result.code, result.where) not in twin
            assert twin <= before
        if result.verdict is Verdict.FAIL and "leave only out" in result.remedy:
            free = failed_places(apply_step(dress(), replace(step, only="")))  # type: ignore[call-arg]
            assert (result.code, result.where) not in free
            assert free <= before


STAGED: list[tuple[Alteration, ...]] = [
    (DartIntoSeam("skirt front", "waist dart", "hem"),),
    (GatherSkirt(2.0),),
    (FlareSkirt(hem=300.0, how="slashes"), Opening("centre front", "buttons")),
    (DartIntoSeam("bodice back", "waist dart", "armhole"),),
]


@pytest.mark.parametrize("steps", STAGED, ids=lambda steps: ", ".join(step.name for step in steps))
@pytest.mark.parametrize("tight", ["hip", "waist", "bust", "across the back", "shut"])
def test_a_whole_step_is_offered_only_where_it_can_still_be_taken_and_mends(
    steps: tuple[Alteration, ...], tight: str
) -> None:
    drafted = sewn_shut(dress()) if tight == "shut" else body_grown(dress(), tight, 70.0)
    stages = [drafted]
    for step in steps:
        stages.append(apply_step(stages[-1], step))
    for result in checked_after(stages, steps):
        if result.verdict is Verdict.FAIL and typed(result.remedy) is not None:
            assert mends(stages[-1], result), result.remedy


def test_on_a_plain_dress_the_step_is_still_offered() -> None:
    tight = body_grown(dress(), "hip", 70.0)
    (failed,) = (each for each in checked_after([tight], []) if each.verdict is Verdict.FAIL)
    assert 'alter = "take in", hip = ' in failed.remedy
    assert mends(tight, failed)
    try:
        apply_step(tight, typed(failed.remedy))  # type: ignore[arg-type]
    except TrueseamError:
        pytest.fail("what is offered cannot be typed")


def test_what_a_warning_offers_is_tried_as_well() -> None:
    """Of three hems one lies as the check wants it, one is as deep as before, and one is on no piece there is."""

    def deep(check: Check, pattern: Pattern) -> Iterator[Result]:
        (hem,) = (edge for edge in pattern.piece("skirt front").edges if edge.role is Role.HEM)
        told = [("skirt front", 20.0), ("skirt front", hem.allowance), ("cape", 20.0)]
        settings = [(Setting("piece", piece), Setting("depth", mm, "mm")) for piece, mm in told]
        remedies = [Remedy("add", "hem", each, lead="So it is") for each in settings]
        verdict = Verdict.PASS if hem.allowance <= 20.0 else Verdict.WARN
        yield check.result("the hem", verdict, remedy="It is deep.", remedies=remedies)

    check = Check("deep", "deep", "The hem is not deep.", lambda _check, pattern: iter([look(deep, pattern)]))
    (warned,) = checked_after([dress()], [], checks=(check,))
    assert warned.remedy == 'It is deep. So it is: alter = "hem", piece = "skirt front", depth = "20 mm".'
    assert [each.typed() for each in warned.remedies] == ['alter = "hem", piece = "skirt front", depth = "20 mm"']


@pytest.mark.parametrize(
    ("steps", "where", "offered"),
    [
        # the check knows that a step shortened it, and not which: the second is the one that mends
        (
            (Lengthen("skirt front", 10.0), Lengthen("sleeve", -110.0)),
            "sleeve, where it ends on the forearm",
            (("change", 'hem = "as tapered"', 2), ("add", 'alter = "full sleeve", hem = "23 mm"', 0)),
        ),
        (
            (RoomToGrow("skirt front", 40.0, only="skirt front"),),
            "skirt side seam, let down: skirt back and skirt front",
            (("add", 'alter = "room to grow", piece = "skirt back", by = "40 mm", only = "skirt back"', 0),),
        ),
    ],
)
def test_a_check_offers_what_is_to_be_changed_in_a_step_with_the_number_of_the_one_that_mends(
    steps: tuple[Alteration, ...], where: str, offered: tuple[tuple[str, str, int], ...]
) -> None:
    stages = [dress()]
    for step in steps:
        stages.append(apply_step(stages[-1], step))
    (warned,) = (each for each in checked_after(stages, steps) if each.where == where)
    assert warned.verdict is Verdict.WARN
    assert tuple((each.act, each.typed(), each.step) for each in warned.remedies) == offered
    assert all(each.sentence() in warned.remedy for each in warned.remedies)


@pytest.mark.parametrize("act", ["set in block", "set in paper", "change"])
def test_what_cannot_be_tried_is_not_offered(act: Literal["set in block", "set in paper", "change"]) -> None:
    """No garment is known that could be drafted otherwise, and no step is there to be changed."""
    remedy = Remedy(act, "lengthen", (Setting("hem", "as tapered"),), lead="So it is wide")

    def narrow(check: Check, pattern: Pattern) -> Iterator[Result]:
        del pattern
        yield check.result("it", Verdict.WARN, remedy="It is narrow.", remedies=[remedy])

    check = Check("narrow", "narrow", "It is not narrow.", lambda _check, pattern: iter([look(narrow, pattern)]))
    (warned,) = checked_after([dress()], [], checks=(check,))
    assert (warned.remedy, warned.remedies) == ("It is narrow.", ())


def test_a_step_is_tried_where_it_will_be_taken_and_not_after_the_others() -> None:
    """Let out by a step that is taken before the armhole is lowered, it is too tight all the same."""
    plain = draft(Garment("bodice", women()[3], [block("bodice"), block("sleeve")]))
    (tight,) = (each for each in check(alter(plain, "armhole", lower=80.0)) if each.where == "bust")
    (remedy,) = tight.remedies
    assert (remedy.act, remedy.alteration, remedy.step) == ("change", "armhole", 1)
    less = {each.option: each.value for each in remedy.settings}
    assert not [each.where for each in check(alter(plain, "armhole", **less)) if each.verdict is Verdict.FAIL]
