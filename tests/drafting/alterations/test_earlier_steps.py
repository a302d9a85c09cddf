"""What an earlier step has made impossible is refused in a sentence that says which step to put this one before."""

from __future__ import annotations

import re

import pytest

from drafting.alterations import (
    Alteration,
    Armhole,
    Blend,
    DartIntoGathers,
    DartIntoSeam,
    FlareSkirt,
    FullBust,
    Hem,
    Kimono,
    Lengthen,
    MoveDart,
    NeckGape,
    Neckline,
    Opening,
    PleatSkirt,
    Raglan,
    RoundedBack,
    ShapedBand,
    ShoulderSlope,
    SkirtYoke,
    SlantedPocket,
    SmallBust,
    Smock,
    SwayBack,
    TakeIn,
    Wrap,
    apply_step,
)
from drafting.checks import Verdict
from drafting.errors import StepRefused
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks

FRONT, BACK, SKIRT = "bodice front", "bodice back", "skirt front"

STAND = Opening("centre front", "buttons")
BACK_STAND = Opening("centre back", "buttons")
SIDE_DART = MoveDart(FRONT, "bust dart", "side seam", measured_from="armhole", share=0.4)
SIDE_ZIP = Opening("side", length=350.0)
PANELS = DartIntoSeam(FRONT, "bust dart", "waist dart")
SKIRT_PANELS = DartIntoSeam(SKIRT, "waist dart", "hem")
GATHERS = DartIntoGathers(FRONT, "bust dart")
FACED = Hem(SKIRT, depth=80.0, finish="facing")

PART = '"{}, centre" is a half of a piece that was cut in two; put this step before "dart into seam"'

ROWS: list[tuple[Alteration, Alteration, str]] = [
    (SIDE_ZIP, TakeIn(waist=20.0), f'the side seam of "{FRONT}" has a zip in it; put this step before "opening"'),
    (SIDE_ZIP, FlareSkirt(), f'the side seam of "{SKIRT}" has a zip in it; put this step before "opening"'),
    (PANELS, TakeIn(waist=20.0), PART.format(FRONT)),
    (PANELS, Neckline(depth=30.0), PART.format(FRONT)),
    (PANELS, FullBust(by=20.0), PART.format(FRONT)),
    (
        PANELS,
        Lengthen(FRONT, 20.0),
        f'"{FRONT}" was cut in two, and there is now "{FRONT}, centre" and "{FRONT}, side"',
    ),
    (DartIntoSeam(BACK, "waist dart", "armhole"), Armhole(lower=10.0), 'put this step before "dart into seam"'),
    (STAND, Neckline(depth=30.0), f'"{FRONT}" has a button stand; put this step before "opening"'),
    (STAND, FullBust(by=20.0), f'"{FRONT}" has a button stand; put this step before "opening"'),
    (STAND, SmallBust(by=5.0), f'"{FRONT}" has a button stand; put this step before "opening"'),
    (STAND, Wrap(), f'"{SKIRT}" has a button stand; put this step before "opening"'),
    (BACK_STAND, SwayBack(10.0), f'"{BACK}" has a button stand; put this step before "opening"'),
    (BACK_STAND, RoundedBack(10.0), f'"{BACK}" has a button stand; put this step before "opening"'),
    (ShapedBand(), TakeIn(waist=20.0), 'its top was cut off; put this step before "shaped band"'),
    (SkirtYoke(), TakeIn(waist=20.0), 'its top was cut off; put this step before "skirt yoke"'),
    (SlantedPocket(), PleatSkirt(), f'"{SKIRT}" has a slanted pocket, which does not go with pleats'),
    (SlantedPocket(), FlareSkirt(), f'"{SKIRT}" has a slanted pocket; put this step before "slanted pocket"'),
    (Wrap(), Wrap(), f'"{SKIRT}" wraps over already'),
    (STAND, Opening("centre front"), f'"{FRONT}" has a button stand there already'),
]


@pytest.mark.parametrize(("first", "then", "said"), ROWS)
def test_the_sentence_says_which_step_it_is_to_be_put_before(first: Alteration, then: Alteration, said: str) -> None:
    before = apply_step(dress(), first)
    with pytest.raises(StepRefused, match=re.escape(said)) as refusal:
        apply_step(before, then, as_written=True)
    # short enough to be read: no list of every edge
    assert len(str(refusal.value)) < 200


@pytest.mark.parametrize(("first", "then", "said"), ROWS)
def test_put_before_it_the_step_is_taken(first: Alteration, then: Alteration, said: str) -> None:
    if "put this step before" in said:
        assert len(apply_step(apply_step(dress(), then), first).history) == 2


def test_sizes_cannot_be_blended_along_a_side_that_was_cut_off() -> None:
    before = apply_step(sized(92), SKIRT_PANELS)
    with pytest.raises(StepRefused, match="is a half of a piece that was cut in two"):
        apply_step(before, Blend(hip=96), as_written=True)


def test_a_garment_that_has_no_such_piece_is_told_so_without_a_step_to_put_it_before() -> None:
    with pytest.raises(StepRefused, match="one front that has a shoulder; here no piece has one"):
        apply_step(sized(92, "skirt"), ShoulderSlope(10.0))
    with pytest.raises(StepRefused, match="there is no skirt"):
        apply_step(sized(92, "bodice"), FlareSkirt())


@pytest.mark.parametrize("then", [ShoulderSlope(10.0), NeckGape(5.0), Neckline(depth=30.0, width=10.0)])
def test_a_shoulder_with_gathers_in_it_is_altered_as_one_line(then: Alteration) -> None:
    gathered = apply_step(dress(), GATHERS)
    assert not [
        result for result in run_checks(apply_step(gathered, then)) if result.verdict in (Verdict.FAIL, Verdict.ERROR)
    ]


@pytest.mark.parametrize(
    ("style", "step", "said"),
    [
        (Smock(), DartIntoSeam("bodice front", "bust dart", "waist dart"), '"smock" lets the darts out'),
        (Smock(), DartIntoSeam("skirt front", "waist dart", "hem"), 'no "skirt front" any more: "smock"'),
        (PleatSkirt(), DartIntoSeam("skirt front", "waist dart", "hem"), '"pleat skirt" takes the darts'),
        (Raglan(), DartIntoGathers("bodice back", "shoulder dart", "ease"), '"raglan" closes a dart'),
        (Kimono(), DartIntoSeam("bodice back", "waist dart", "armhole"), 'no "armhole" any more: "kimono"'),
        (
            DartIntoGathers("bodice back", "waist dart"),
            DartIntoSeam("bodice back", "waist dart", "armhole"),
            '"dart into gathers" leaves it unsewn',
        ),
    ],
)
def test_what_a_style_took_up_is_said_with_its_name_and_a_way_out(
    style: Alteration, step: Alteration, said: str
) -> None:
    styled = apply_step(dress(), style)
    with pytest.raises(StepRefused, match=re.escape(said)) as refused:
        apply_step(styled, step)
    assert "leave out one of the two" in str(refused.value)


def test_a_dart_misspelt_is_answered_with_the_nearest_name_whatever_was_taken_up() -> None:
    with pytest.raises(StepRefused, match='Did you mean "waist dart"'):
        apply_step(apply_step(dress(), Raglan()), DartIntoGathers("bodice back", "waist drat"))
