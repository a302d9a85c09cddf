"""The order of steps: one for all the ways they can be written, layer by layer, what is named after what makes it."""

from __future__ import annotations

from dataclasses import replace
from functools import reduce
from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.alterations import (
    ALTERATIONS,
    Alteration,
    DartIntoGathers,
    DartIntoSeam,
    FlareSkirt,
    FullSleeve,
    Godet,
    Hem,
    Kimono,
    Layer,
    Lengthen,
    MoveDart,
    NeckGape,
    Neckline,
    Opening,
    PutSleeveIn,
    Raglan,
    SmallBust,
    TakeIn,
    UpperArm,
    Wrap,
    Yoke,
    apply_step,
    order_of_steps,
    waits_for,
)
from drafting.alterations.earlier_steps import put_before
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.pivoting.dart_target import planned
from drafting.errors import Remedy, StepRefused
from drafting.geometry import Line
from drafting.pattern import Pattern, Place
from tests.chains import LEAST_SHARE, LINKS, scaled
from tests.drafting.dress import dress
from tests.drafting.dresses import failed
from tests.pairs import End, main, pairs
from tests.step_orders import asks_for_order, in_the_engines_order, senseless

PANELS = DartIntoSeam("skirt front", "waist dart", "hem")
links = st.tuples(st.sampled_from(LINKS), st.floats(LEAST_SHARE, 1.0)).map(lambda each: scaled(*each[0], each[1]))
one_of_each = st.lists(links, max_size=8, unique_by=lambda step: step.name)


def layers(steps: list[Alteration]) -> list[Layer]:
    return [ALTERATIONS.named(step.name).layer for step in steps]


@settings(max_examples=60, deadline=None)
@given(one_of_each, st.randoms(use_true_random=False))
def test_different_alterations_are_taken_in_one_order_however_they_are_written(steps: list[Alteration], chance) -> None:  # type: ignore[no-untyped-def]
    written = list(steps)
    chance.shuffle(written)
    assert in_the_engines_order(written) == in_the_engines_order(steps)


@settings(max_examples=60, deadline=None)
@given(st.lists(links, max_size=8))
def test_every_step_is_taken_once_and_those_of_one_alteration_as_they_are_written(steps: list[Alteration]) -> None:
    order = order_of_steps(steps, ALTERATIONS)
    assert sorted(order) == list(range(len(steps)))
    for name in {step.name for step in steps}:
        alike = [place for place in order if steps[place].name == name]
        assert alike == sorted(alike)


@settings(max_examples=60, deadline=None)
@given(one_of_each)
def test_steps_are_taken_layer_by_layer_but_for_those_that_say_otherwise(steps: list[Alteration]) -> None:
    plain = [step for step in steps if not isinstance(step, Hem | PutSleeveIn)]
    plain = [step for step in plain if not any(step.comes_after(other) for other in plain)]
    numbers = [list(Layer).index(layer) for layer in layers(in_the_engines_order(plain))]
    assert numbers == sorted(numbers)


def test_lengths_come_first_and_what_is_drawn_at_an_edge_after_what_moves_it() -> None:
    steps = [
        Opening("centre front", "buttons"),
        FullSleeve(cap=40.0),
        NeckGape(5.0),
        Neckline(depth=20.0),
        Lengthen("sleeve", 20.0),
    ]
    names = ["lengthen", "neckline", "neck gape", "full sleeve", "opening"]
    assert [step.name for step in in_the_engines_order(steps)] == names


def test_a_step_that_names_a_piece_waits_for_the_one_that_makes_it_and_for_no_other() -> None:
    steps: list[Alteration] = [Lengthen("skirt front, side", 20.0), TakeIn(waist=10.0), PANELS]
    assert in_the_engines_order(steps) == [steps[1], steps[2], steps[0]]
    assert [waits_for(steps, place) for place in range(3)] == [(2,), (), ()]
    assert [PANELS.makes(name) for name in ("skirt front, hem side", "skirt front side", "skirt frontier")] == [
        True,
        True,
        False,
    ]
    whole = [Lengthen("skirt front", 20.0), PANELS]
    assert in_the_engines_order(whole[::-1]) == whole


def test_what_is_asked_of_the_sleeve_is_done_to_the_one_that_is_put_in() -> None:
    other = PutSleeveIn("other.toml")
    steps: list[Alteration] = [UpperArm(10.0), Lengthen("sleeve", 20.0), other]
    assert in_the_engines_order(steps)[0] == other
    assert in_the_engines_order([other, other]) == [other, other]


def test_a_hem_is_levelled_before_its_centre_wraps_over_and_faced_after() -> None:
    level, faced = Hem("skirt front", level=True), Hem("skirt front", finish="facing")
    assert in_the_engines_order([FlareSkirt(), Wrap(), level]) == [FlareSkirt(), level, Wrap()]
    assert in_the_engines_order([faced, Wrap()]) == [Wrap(), faced]
    assert in_the_engines_order([level, FlareSkirt()]) == [FlareSkirt(), level]


@pytest.mark.parametrize("godet", [Godet(), Godet("centre back")])
def test_a_hem_is_levelled_before_a_godet_is_let_into_the_seam_it_is_levelled_by(godet: Godet) -> None:
    level = Hem("skirt front", grow=60.0, level=True)
    one, other = (reduce(apply_step, steps, dress()) for steps in ([godet, level], [level, godet]))
    assert (one.pieces, one.seams) == (other.pieces, other.seams)
    assert [step.alter for step in one.history] == ["hem", "godet"]
    assert not failed(one)


def test_what_is_put_into_a_seam_comes_after_the_style_that_draws_that_seam_anew() -> None:
    zipped, eased = Opening("side", length=350.0), DartIntoGathers("bodice back", "shoulder dart", "ease")
    assert in_the_engines_order([zipped, Kimono()]) == [Kimono(), zipped]
    assert in_the_engines_order([Opening("centre back"), Kimono()]) == [Opening("centre back"), Kimono()]
    assert in_the_engines_order([eased, Raglan()]) == [Raglan(), eased]
    assert in_the_engines_order([Yoke(), eased]) == [eased, Yoke()]


@pytest.mark.parametrize(
    ("sentence", "order"),
    [
        ('it has a zip in it; put this step before "opening"', True),
        ("the side seam is parted by a dart: move that dart to the waist first", True),
        ("the neck is to be wider before that one", True),
        ('"hem", which was asked for before, cannot be taken after it: 3 mm are too little', False),
        ("a dart lies in the side seam, which is drawn anew here: let it go to another edge", False),
    ],
)
def test_a_sentence_that_tells_what_to_do_first_asks_for_order(sentence: str, order: bool) -> None:
    assert asks_for_order(StepRefused("hem", reason=sentence)) is order


@pytest.mark.parametrize(
    ("remedy", "order"), [(put_before("opening"), True), (instead("hem", "level", "no")[0], False)]
)
def test_what_is_offered_asks_for_order_whatever_the_sentence_says(remedy: Remedy, order: bool) -> None:
    assert asks_for_order(StepRefused("hem", reason="it has a zip in it", remedies=[remedy])) is order


def test_a_dart_that_goes_from_the_shoulder_goes_before_a_neck_is_cut_so_wide_that_it_would_come_to_it() -> None:
    wide, narrow = Neckline(depth=30.0, width=65.0, back=20.0), Neckline(width=30.0)
    front = MoveDart("bodice front", "bust dart", "side seam", share=0.4, measured_from="armhole")
    back = MoveDart("bodice back", "shoulder dart", "armhole", beyond=38.0)
    assert in_the_engines_order([wide, front, back]) == [front, back, wide]
    with pytest.raises(StepRefused, match="before it comes to the dart there, which can go to another edge"):
        apply_step(dress(), wide)
    assert not failed(reduce(apply_step, in_the_engines_order([wide, front, back]), dress()))
    to_neck = replace(back, to=Place.NECK)
    assert in_the_engines_order([to_neck, wide]) == [wide, to_neck]
    assert in_the_engines_order([front, narrow]) == [narrow, front]


def test_a_bust_dart_that_went_into_another_is_told_as_what_comes_too_early() -> None:
    merged = apply_step(dress(), MoveDart("bodice front", "bust dart", "waist dart"))
    with pytest.raises(
        StepRefused, match='no bust dart that could be made smaller; put this step before "move a dart"'
    ):
        apply_step(merged, SmallBust(8.0))


def test_of_two_darts_with_no_seam_between_them_the_other_one_is_offered() -> None:
    back = dress().piece("skirt back")
    one, other = back.darts
    (between,) = (e for e in back.edges if {*one.legs, *other.legs} >= {each.name for each in back.beside(e.name)})
    before, after = back.beside(between.name)
    joined = replace(after, curves=(Line(before.end, after.end),))
    edges = tuple(joined if each is after else each for each in back.edges if each is not between)
    gone = {notch.name for notch in back.notches if notch.station.edge == between.name}
    notches = tuple(each for each in back.notches if each.name not in gone)
    piece = replace(back, edges=edges, notches=notches)
    with pytest.raises(StepRefused, match="no seam between them; move the other one") as caught:
        planned(MoveDart("skirt back", one.name, "hem"), replace(dress(), pieces=(piece,), seams=(), measures=()))
    assert caught.value.remedies == instead("move a dart", "dart", other.name)


THREE = [
    (Opening("centre front", "buttons"), Neckline(depth=30.0), Hem("skirt front", finish="facing")),
    (Opening("side", length=350.0), TakeIn(waist=20.0), PANELS),
    (Wrap(), Hem("skirt front", level=True), FlareSkirt(hem=200.0, how="slashes")),
    (MoveDart("bodice front", "bust dart", "waist dart"), Neckline(depth=30.0), NeckGape(5.0)),
]


@pytest.mark.parametrize("steps", THREE, ids=lambda steps: ", ".join(step.name for step in steps))
def test_the_pattern_is_the_same_whichever_of_six_ways_the_steps_are_written(steps: tuple[Alteration, ...]) -> None:
    made: list[Pattern] = [
        reduce(apply_step, in_the_engines_order(written), dress()) for written in permutations(steps)
    ]
    assert all(one == other for one, other in pairwise(made))
    assert len(made[0].history) == 3


def test_buttons_on_the_bodice_alone_go_before_the_dart_that_is_gathered_below_them() -> None:
    buttons = Opening("centre front", "buttons", only="bodice front")
    gathers = DartIntoGathers("bodice front", "waist dart")
    for steps in permutations((gathers, buttons)):
        taken = [steps[place] for place in order_of_steps(steps, ALTERATIONS)]
        assert taken == [buttons, gathers]
        assert reduce(apply_step, taken, dress()).history[-1].alter == "dart into gathers"
    both = Opening("centre front", "buttons")
    assert order_of_steps((both, gathers), ALTERATIONS) == (1, 0)  # laid flat at the end of what is gathered


def test_the_table_stands_layer_by_layer() -> None:
    layers = [list(Layer).index(entry.layer) for entry in ALTERATIONS]
    assert layers == sorted(layers)


def test_no_pair_is_refused_for_order_and_the_sweep_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--every", "4800"]) == 0
    said = capsys.readouterr().out
    assert f"{End.ORDER.value:40}      0" in said
    assert f"{End.SAME.value}" in said


def test_two_steps_that_use_up_one_dart_are_no_pair() -> None:
    dart = {"piece": "bodice front", "dart": "bust dart"}
    assert senseless(("dart into gathers", dart), ("dart into seam", {**dart, "to": "waist dart"}))
    assert senseless(("gather skirt", {}), ("dart into seam", {"piece": "skirt front", "dart": "waist dart"}))
    assert not senseless(("gather skirt", {}), ("dart into gathers", dart))
    assert not any(senseless(pair.one, pair.other) for pair in pairs())
