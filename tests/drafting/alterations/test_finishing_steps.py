"""A step that comes after an opening, a hem or gathers gives what it gives before them, from a script as well."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations import (
    ALTERATIONS,
    Alteration,
    DartIntoGathers,
    DartIntoSeam,
    FullBust,
    GatherSkirt,
    Hem,
    Lengthen,
    Neckline,
    Opening,
    TakeIn,
    Wrap,
    apply_step,
    order_of_steps,
    replay,
    undo,
)
from drafting.errors import StepRefused
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern
from drafting.pattern.compare import strayed
from drafting.pattern.text import from_json, to_json
from tests.alteration_samples import SAMPLES, sample
from tests.drafting.dress import dress
from tests.drafting.parts.with_part import with_part
from tests.sampling import some
from tests.step_orders import senseless

FINISHING = [
    Opening("side", length=350.0),
    Opening("centre front", "buttons"),
    GatherSkirt(2.0),
    DartIntoGathers("bodice front", "bust dart"),
    Hem("skirt front", depth=80.0, finish="facing"),
    DartIntoSeam("bodice front", "bust dart", "waist dart"),
    Wrap(140.0),
]
EARLIER = [
    TakeIn(waist=20.0),
    Neckline(depth=30.0),
    FullBust(by=20.0),
    Lengthen("bodice front", 20.0),
    Lengthen("skirt front", 40.0),
]
ZIP, BUTTONS, SEAM = FINISHING[0], FINISHING[1], FINISHING[5]


def furthest(one: Pattern, other: Pattern) -> float:
    assert [piece.name for piece in one.pieces] == [piece.name for piece in other.pieces]
    return max(strayed(piece, other.piece(piece.name)) for piece in one.pieces)


def after(pattern: Pattern, *steps: Alteration) -> Pattern:
    for step in steps:
        pattern = apply_step(pattern, step)
    return pattern


@pytest.mark.parametrize("early", EARLIER, ids=lambda step: step.name)
@pytest.mark.parametrize("finish", FINISHING, ids=lambda step: step.name)
def test_a_step_after_a_finishing_one_gives_what_it_gives_before_it(finish: Alteration, early: Alteration) -> None:
    assert after(dress(), finish, early) == after(dress(), early, finish)


def sampled() -> list[tuple[Alteration, Alteration]]:
    """Every finishing alteration with every one before it in the table, each at its first amount."""
    names = ALTERATIONS.names
    return [
        (sample(late, SAMPLES[late][0]), sample(early, SAMPLES[early][0]))
        for late in filter(ALTERATIONS.is_finishing, names)
        for early in names[: names.index(late)]
        if late in SAMPLES and early in SAMPLES and not senseless((late, SAMPLES[late][0]), (early, SAMPLES[early][0]))
    ]


@pytest.mark.parametrize(("late", "early"), some(sampled(), every=16), ids=lambda step: step.name)
def test_every_pair_of_the_table_from_a_script_is_taken_as_the_engine_takes_it(
    late: Alteration, early: Alteration
) -> None:
    try:
        engine = after(dress(), *([late, early][place] for place in order_of_steps([late, early], ALTERATIONS)))
    except StepRefused:
        with pytest.raises(StepRefused):
            after(dress(), late, early)
        return
    assert after(dress(), late, early) == engine


def test_several_steps_in_any_order_give_one_pattern() -> None:
    orders = (
        (ZIP, TakeIn(waist=20.0), SEAM, Neckline(depth=30.0)),
        (SEAM, Neckline(depth=30.0), ZIP, TakeIn(waist=20.0)),
    )
    one, other = (after(dress(), *steps) for steps in orders)
    assert [step.alter for step in one.history] == ["take in", "neckline", "opening", "dart into seam"]
    assert furthest(one, other) < 1e-6
    assert replay(dress(), one.history) == one
    assert undo(dress(), one) == after(dress(), TakeIn(waist=20.0), Neckline(depth=30.0), ZIP)


def test_a_step_on_a_panel_comes_after_the_seam_that_makes_it() -> None:
    lower = Lengthen("bodice front, side", 10.0)
    assert [step.alter for step in after(dress(), SEAM, lower, TakeIn(waist=20.0)).history] == [
        "take in",
        "dart into seam",
        "lengthen",
    ]


def test_taken_as_written_it_is_taken_on_what_is_there() -> None:
    zipped = apply_step(dress(), ZIP)
    with pytest.raises(StepRefused, match='put this step before "opening"'):
        apply_step(zipped, TakeIn(waist=20.0), as_written=True)
    held = apply_step(zipped, Neckline(depth=30.0), as_written=True)
    assert [step.alter for step in held.history] == ["opening", "neckline"]
    with pytest.raises(StepRefused, match='put this step before "opening"'):
        apply_step(held, TakeIn(waist=20.0))  # what it was before the zip is not known any more


def test_a_part_stays_when_a_finishing_step_is_taken_again() -> None:
    faced = with_part(dress(), part_of(find_part("neck facing"), {}))
    assert after(faced, ZIP, Neckline(depth=30.0)) == after(faced, Neckline(depth=30.0), ZIP)


def test_a_pattern_read_from_its_file_still_knows_what_it_was_before_its_finishing_steps() -> None:
    facing = part_of(find_part("neck facing"), {})
    written = after(with_part(dress(), facing), TakeIn(hip=10.0), BUTTONS)
    text = to_json(written)
    read = from_json(text)
    assert to_json(read) == text
    assert read.unfinished is not None
    assert len(read.unfinished.history) == 1
    for early in (TakeIn(waist=20.0), Neckline(depth=30.0)):
        assert furthest(apply_step(read, early), apply_step(written, early)) < 1e-6


def test_a_file_that_does_not_hold_it_is_read_and_refuses_in_a_sentence() -> None:
    read = from_json(to_json(replace(apply_step(dress(), ZIP), unfinished=None)))
    assert read.unfinished is None
    with pytest.raises(StepRefused, match='put this step before "opening"'):
        apply_step(read, TakeIn(waist=20.0))


def test_what_cannot_be_drawn_again_is_said_with_how_much_can_be_had() -> None:
    zipped = apply_step(dress(), Opening("side", length=350.0, below=200.0))
    with pytest.raises(StepRefused) as refused:
        apply_step(zipped, Lengthen("bodice front", -60.0))
    assert refused.value.alteration == "lengthen"
    assert '"opening", which was asked for before, cannot be taken after it' in refused.value.reason
    (remedy,) = refused.value.remedies
    less = {setting.option: setting.value for setting in remedy.settings}
    with pytest.raises(StepRefused):
        apply_step(zipped, Lengthen("bodice front", less["by"] - 1.0))
    assert apply_step(zipped, Lengthen("bodice front", less["by"])).history[-1].alter == "opening"
