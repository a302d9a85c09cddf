"""Every seam of every sample is sewn once, and can be sewn when its step comes: sewn on paper by a stranger."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from functools import cache

import pytest

from blocks.garment import draft, finish, prepare
from drafting.alterations import FullSleeve, Opening, apply_step
from drafting.body.sizes import Sizes, sizes_body
from drafting.errors import CannotDraft, Lacking, NotAPattern, StepRefused, UnknownName
from drafting.pattern import Pattern, Place, Role, finished
from drafting.sewing import Act, SupplyKind, sewing_order, supplies
from output.api import Garment, block, part
from output.api import draft as draft_garment
from tests.alteration_samples import SAMPLES, Options, sample
from tests.bodies import women
from tests.drafting.sizes import order
from tests.examples import example_pattern
from tests.outside.sew_it import handled, not_sewable
from tests.sampling import some
from tests.sweep import dress_for

_GARMENTS = {
    "dress": (("bodice", "sleeve", "skirt"), ()),
    "dress with a facing": (("bodice", "sleeve", "skirt"), ("neck facing",)),
    "dress with a flat collar": (("bodice", "sleeve", "skirt"), ("flat collar",)),
    "blouse with a faced flat collar": (("bodice", "sleeve"), ("flat collar", "neck facing")),
    "no sleeves": (("bodice", "skirt"), ("neck facing", "armhole facing")),
    "no sleeves, faced in one": (("bodice", "skirt"), ("combined facing",)),
    "bodice": (("bodice",), ()),
    "blouse": (("bodice", "sleeve"), ("neck facing",)),
    "skirt": (("skirt",), ()),
    "skirt with a band": (("skirt",), ("waistband",)),
}
_BUTTONS: Options = {"at": "centre front", "fasten": "buttons", "button": 15.0}
_CLOSED: Options = {"at": "centre back", "fasten": "closed"}


@cache
def _garment(name: str) -> Pattern:
    blocks, parts = _GARMENTS[name]
    sizes = Sizes(bust=92)
    ordered = replace(order(*blocks), sizes=sizes, wearer=sizes_body(sizes).person, parts=tuple(map(part, parts)))
    return draft(ordered, prepare(ordered))


def _all_right(pattern: Pattern) -> None:
    steps = sewing_order(pattern)
    seams, edges, darts = handled(steps)
    assert seams == dict.fromkeys((seam.name for seam in pattern.seams), 1)
    assert darts == {(piece.name, dart.name): 1 for piece in pattern.pieces for dart in piece.darts}
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    left = {
        (piece.name, edge.name): 1
        for piece in pattern.pieces
        for edge in piece.edges
        if (piece.name, edge.name) not in sewn and edge.role not in (Role.FOLD, Role.DART_LEG)
    }
    assert edges == left
    assert not_sewable(pattern, steps) == []


@pytest.mark.parametrize(
    "parts",
    [
        ("stand collar",),
        ("shirt collar", "cuff"),
        ("shirt collar", "neck facing"),
        ("turn-over collar", "neck facing"),
        ("sailor collar",),
    ],
    ids=" and ".join,
)
def test_every_collar_and_cuff_is_sewn_once_and_can_be(parts: tuple[str, ...]) -> None:
    sizes = Sizes(bust=92)
    ordered = replace(
        order("bodice", "sleeve"),
        sizes=sizes,
        wearer=sizes_body(sizes).person,
        parts=tuple(map(part, parts)),
        steps=(FullSleeve(hem=60.0), Opening("centre back", "closed"), Opening("centre front", "buttons", button=15.0)),
    )
    _all_right(finish(ordered))


@pytest.mark.parametrize(
    ("name", "alter"),
    some(
        [
            (name, alter)
            for turn, alter in enumerate(["", *SAMPLES])
            for name in dict.fromkeys(("dress with a facing", [*_GARMENTS][turn % len(_GARMENTS)]))
        ],
        every=3,
    ),
)
def test_every_edge_of_every_sample_is_sewn_once_and_can_be(name: str, alter: str) -> None:
    plain = _garment(name)
    tried = 0
    bases = (plain,) if alter == "opening" else (plain, _buttoned(plain))
    for count, options in enumerate(SAMPLES[alter] if alter else ()):
        # the whole dress at every amount both ways; on the others the two take turns
        for base in bases if name == "dress" else (bases[count % len(bases)],):
            try:
                altered = apply_step(base, sample(alter, options))
            except (StepRefused, NotAPattern, Lacking, UnknownName):  # no such piece or dart in this garment
                continue
            _all_right(altered)
            tried += 1
    if not alter:
        _all_right(plain)
    assert tried or not alter or name != "dress"


@cache
def _buttoned(plain: Pattern) -> Pattern:
    """The same, closed behind and buttoned in front."""
    return apply_step(apply_step(plain, sample("opening", _BUTTONS)), sample("opening", _CLOSED))


@pytest.mark.parametrize("buttons", [False, True])
def test_the_inner_layer_of_a_shaped_band_finishes_the_waist_and_nothing_is_bought_to_bind_it(buttons: bool) -> None:
    plain = _buttoned(_garment("skirt")) if buttons else _garment("skirt")
    pattern = apply_step(plain, sample("shaped band", {"depth": 45.0}))
    _all_right(pattern)
    steps = sewing_order(pattern)
    assert [step.act for step in steps].count(Act.INNER_BAND) == 1
    assert Act.BIND not in {step.act for step in steps}
    bought = [each for each in supplies(pattern, steps) if Place.WAIST in each.places]
    assert [each.kind for each in bought] == ([] if buttons else [SupplyKind.HOOK])
    cut = {piece.name: piece.cut for piece in pattern.pieces}
    assert {cut[name].count for name in cut if name.endswith("facing")} <= {2}


@pytest.mark.parametrize("first", some(range(6), every=2))
def test_the_dress_of_every_body_can_be_sewn_altered_and_not(first: int) -> None:
    tried = 0
    names = list(SAMPLES)
    for count, woman in enumerate(women()[first * 10 :: 60]):
        garment = dress_for(woman)
        try:
            plain = draft(garment, prepare(garment))
        except CannotDraft:
            continue
        _all_right(plain)
        name = names[(8 * first + count) % len(names)]  # the three that always run take every alteration
        options = SAMPLES[name][first % len(SAMPLES[name])]
        with suppress(StepRefused, NotAPattern):
            _all_right(apply_step(plain, sample(name, options)))
        tried += 1
    assert tried > 15


@pytest.mark.parametrize("name", ["woman 270", "woman 330"])  # it ends at her waist, and 11 mm above it
def test_a_centre_seam_below_an_opening_that_ends_at_or_above_the_waist_is_sewn_in_time(name: str) -> None:
    woman = next(each for each in women() if each.name == name)
    garment = dress_for(woman)
    opened = apply_step(draft(garment, prepare(garment)), sample("opening", {"at": "centre back", "length": 400.0}))
    _all_right(opened)


def test_a_sleeve_with_hardly_any_ease_goes_in_flat_and_its_underarm_is_one_with_the_side() -> None:
    flat = apply_step(_garment("dress"), sample("fit sleeve", {"cap_ease": 10.0}))
    acts = [(step.act, step.in_the_round, step.seams) for step in sewing_order(flat)]
    sleeves = next(k for k, (act, _, _) in enumerate(acts) if act is Act.SET_IN)
    sides = next(k for k, (_, _, seams) in enumerate(acts) if "underarm seam" in seams)
    assert not acts[sleeves][1]
    assert sleeves < sides
    assert "side seam" in acts[sides][2]


def test_the_stranger_sees_what_cannot_be_sewn() -> None:
    plain = _garment("dress")
    steps = sewing_order(plain)
    assert any("still open" in told for told in not_sewable(plain, steps[::-1]))
    sides_last = sorted(steps, key=lambda step: step.place is Place.SIDE)
    assert not_sewable(plain, sides_last)
    sleeves_first = sorted(steps, key=lambda step: step.act is not Act.SET_IN)
    assert not_sewable(plain, sleeves_first)


def test_a_zip_is_as_long_as_the_opening_and_a_waist_tape_as_the_waist() -> None:
    plain = _garment("dress")
    steps = sewing_order(plain)
    zips = [step.fastening for step in steps if step.act is Act.ZIP]
    back = [edge for piece in plain.pieces for edge in piece.edges if edge.role is Role.OPENING]
    assert [each.length for each in zips if each] == [pytest.approx(sum(edge.length for edge in back))]
    waist = next(step for step in steps if step.place is Place.WAIST)
    whole = {each.name: each.finished for each in finished(plain)}["waist"]
    assert sum(stay.cut for stay in waist.stays) == pytest.approx(whole, abs=0.5)


def test_pleats_are_folded_before_a_yoke_holds_them_and_a_skirt_hangs_before_its_hem_is_bound() -> None:
    steps = sewing_order(example_pattern("spillway-skirt"))
    folded = next(k for k, step in enumerate(steps) if step.act is Act.PLEATS)
    assert folded < min(k for k, step in enumerate(steps) if step.place is Place.YOKE)
    first = [step for step in steps if step.act is Act.PLEATS]
    assert any("a pleat goes over" in told for told in not_sewable(example_pattern("spillway-skirt"), first))
    lined = Garment("pleats", women()[11], [block("skirt")], parts=[part("lining")])
    lined = replace(lined, steps=[sample("skirt yoke", {}), sample("pleat skirt", {})])
    pattern = draft_garment(lined).pattern
    shell = [step for step in sewing_order(pattern) if step.act is not Act.MAKE_LINING]  # which is one step in all
    assert not_sewable(pattern, shell) == []
    assert {piece.name for piece in pattern.pieces if piece.cut.fold} >= {"skirt front lining"}
    circle = Garment("circle", women()[11], [block("circle skirt")], parts=[part("hem binding"), part("waistband")])
    acts = [(step.act, step.place) for step in sewing_order(draft_garment(circle).pattern)]
    assert acts.index((Act.HANG, Place.HEM)) < acts.index((Act.BIND, Place.HEM))
