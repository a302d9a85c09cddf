"""What is cut off, wrapped and buttoned on a circle, gored or tiered skirt: every check passes, or a plain sentence."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import ALTERATIONS
from drafting.alterations.alteration import Alteration
from drafting.body.person import person
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.pattern import Derived, Pattern, Place, edges_at
from drafting.pattern.text import to_json
from drafting.reading.options import Value
from output.api.making import part
from tests.outside import stranger, walk_seams
from tests.quick_checks import run_checks

WEARER = person({"height": 1680.0, "bust": 960.0, "waist": 760.0, "hip": 1090.0}, name="Ilse")
"""Wide at the hip for her waist, so that gores bend most."""


def step(name: str, **options: Value) -> Alteration:
    return ALTERATIONS.named(name)(**options)


def made(block: str, options: dict[str, Value], *steps: Alteration, parts: tuple[Derived, ...] = ()) -> Pattern:
    orders = (BlockOrder(find_block(block), options),)
    garment = Garment("skirt", WEARER, orders, steps=steps, parts=parts)
    return finish(garment)


def failed(pattern: Pattern) -> list[str]:
    return [r.where for r in run_checks(pattern) if r.verdict in (Verdict.FAIL, Verdict.ERROR)]


@pytest.mark.parametrize("cut", ["skirt yoke", "shaped band"])
@pytest.mark.parametrize("gores", ["4", "5", "7", "8"])
def test_a_yoke_or_a_band_lies_square_at_the_centre_seam_of_any_number_of_gores(gores: str, cut: str) -> None:
    assert not failed(made("gored skirt", {"gores": gores}, step(cut)))


@pytest.mark.parametrize(
    ("block", "options"), [("gored skirt", {"fastening": "back"}), ("skirt", {}), ("trousers", {})]
)
def test_a_pocket_lies_below_a_yoke_with_a_band_of_its_own(block: str, options: dict[str, Value]) -> None:
    """The yoke is cut off first, then the band from it, whatever the order in the file."""
    pattern = made(block, options, step("shaped band"), step("skirt yoke"), step("side pocket"))
    assert not [
        r.where for r in run_checks(pattern) if r.verdict is not Verdict.PASS and r.verdict is not Verdict.NOTHING
    ]
    kinds = {piece.name.split(" ", 1)[1] for piece in pattern.pieces}
    assert {"front band", "front yoke"} <= kinds


@pytest.mark.parametrize("tops", [("shaped band",), ("skirt yoke",), ("shaped band", "skirt yoke")])
def test_where_a_yoke_leaves_no_room_in_the_first_tier_the_pocket_lies_in_the_next(tops: tuple[str, ...]) -> None:
    cut = made("tiered skirt", {}, *map(step, tops))
    pocket = step("side pocket", mouth=125.0)
    pattern = made("tiered skirt", {}, *map(step, tops), pocket)
    assert {p.name for p in pattern.pieces if p.name.endswith("pocket")} == {
        "skirt front, tier 2 pocket",
        "skirt back, tier 2 pocket",
    }
    assert not failed(pattern)
    with pytest.raises(StepRefused, match="has room from"):  # lower down no arm reaches with ease
        made("tiered skirt", {}, *map(step, tops), step("side pocket", mouth=190.0))
    assert walk_seams.faults(stranger.read(to_json(pattern))) == []
    # told from below the yoke, as it is asked for: so asked for it lies there again
    came = pocket.came_to(cut, pattern)
    below = edges_at(cut.piece("skirt front, tier 1"), Place.SIDE)[0].length
    assert came["below_waist"] >= below + 20.0 - 1e-6
    assert made("tiered skirt", {}, *map(step, tops), step("side pocket", **came)).pieces == pattern.pieces


def test_what_cannot_be_had_on_gores_and_tiers_is_refused_with_what_can() -> None:
    """What a refusal offers is typed, and passes every check."""
    buttons = step("opening", at="centre front", fasten="buttons")
    for block, options, offered, steps in (
        ("gored skirt", {}, {"fastening": "back"}, (step("side pocket"),)),
        ("gored skirt", {"gores": "4"}, {"gores": "6"}, (buttons,)),
        ("tiered skirt", {}, {"tiers": "2"}, (step("side pocket", mouth=180.0, below_waist=40.0),)),
    ):
        with pytest.raises(StepRefused) as refused:
            made(block, options, *steps)
        assert f'{next(iter(offered))} = "{next(iter(offered.values()))}" in the block' in str(refused.value)
        assert not failed(made(block, {**options, **offered}, *steps))


@pytest.mark.parametrize("circle", ["full", "half", "third"])
def test_a_circle_skirt_wraps_over(circle: str) -> None:
    pattern = made("circle skirt", {"circle": circle}, step("wrap over", slant=20.0))
    assert not failed(pattern)
    assert edges_at(pattern.piece("skirt front"), Place.WRAP_EDGE)


def test_buttons_run_down_every_tier_in_front() -> None:
    pattern = made("tiered skirt", {}, step("opening", at="centre front", fasten="buttons"))
    assert not failed(pattern)
    stood = {piece.name for piece in pattern.pieces if edges_at(piece, Place.STAND_EDGE)}
    assert {f"skirt front, tier {k}" for k in (1, 2, 3)} <= stood


@pytest.mark.parametrize(("block", "more"), [("tiered skirt", ()), ("skirt", (step("gather skirt"),))])
def test_a_waistband_meets_a_gathered_skirt_that_is_buttoned(block: str, more: tuple[Alteration, ...]) -> None:
    """The stand lies flat in the band: the gathers begin at the centre, on the band as on the skirt."""
    buttons = step("opening", at="centre front", fasten="buttons")
    assert not failed(made(block, {}, *more, buttons, parts=(part("waistband"),)))


def test_a_band_of_a_pointed_gored_skirt_keeps_the_corners_that_are_meant() -> None:
    orders = (BlockOrder(find_block("bodice")), BlockOrder(find_block("gored skirt")))
    for more in ((), (step("shaped band"),)):
        pattern = finish(Garment("dress", WEARER, orders, steps=(step("pointed waist"), *more)))
        assert not failed(pattern)


@pytest.mark.parametrize("at", ["centre front", "centre back"])
def test_no_button_lies_on_a_tier_seam(at: str) -> None:
    orders = (BlockOrder(find_block("bodice")), BlockOrder(find_block("tiered skirt")))
    steps = (step("opening", at=at, fasten="buttons"),)
    results = run_checks(finish(Garment("dress", WEARER, orders, steps=steps)))
    assert {r.verdict for r in results if r.check == "buttons"} == {Verdict.PASS}


def test_legs_are_not_flared_but_made_wider_in_their_block() -> None:
    with pytest.raises(StepRefused, match="give their block a wide leg, or a wider hem_width"):
        made("trousers", {}, step("flare skirt", hem=90.0))
    with pytest.raises(StepRefused, match="give their block a wider hem_width"):
        made("trousers", {"leg": "wide"}, step("flare skirt", hem=90.0))
