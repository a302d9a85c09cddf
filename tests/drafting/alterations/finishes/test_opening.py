"""Openings, against the trade: a fold that is opened is cut twice; the stand from the centre to the finished edge is as
wide as a button, the first button lies its diameter and a quarter of an inch below the neck, one at the bust level, the
last one and a half spaces above the hem (R. Carr, Couture: The Art of Fine Sewing)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

import pytest
from shapely.geometry import LineString, Polygon

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import (
    Hem,
    Lengthen,
    Neckline,
    Opening,
    ShapedBand,
    SkirtYoke,
    TakeIn,
    Wrap,
    apply_step,
)
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import polyline
from drafting.parts.finishes.facing_strip import FREE_EDGE
from drafting.pattern import Landmark, Pattern, Piece, Place, Role, dart_mouth, edge_at, finished, points_at, walk
from tests.alteration_samples import SAMPLES
from tests.bodies import women
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.wardrobe import a_garment


def measured(pattern: Pattern) -> dict[str, float]:
    return {made.name: made.finished for made in finished(pattern)}


def roles(piece: Piece) -> dict[str, Role]:
    return {edge.name: edge.role for edge in piece.edges}


def opened(piece: Piece) -> float:
    return sum(edge.length for edge in piece.edges if edge.role is Role.OPENING)


def buttons(piece: Piece) -> list[float]:
    """How far below the upper end of the centre line each button lies, mm."""
    top = piece.point("centre front, upper end")
    return [top.y - mark.at.y for mark in piece.points if mark.name.startswith("button ")]


@pytest.mark.parametrize(("long", "in_bodice", "in_skirt"), [(300.0, 300.0, 0.0), (550.0, 405.0, 145.0)])
def test_a_zip_runs_down_the_centre_back_as_far_as_it_is_long(long: float, in_bodice: float, in_skirt: float) -> None:
    after = apply_step(dress(), Opening("centre back", length=long))
    for name, part in (("bodice back", in_bodice), ("skirt back", in_skirt)):
        piece = after.piece(name)
        assert opened(piece) == pytest.approx(part, abs=1e-6)
        assert Role.SEAM in {edge.role for edge in piece.edges if edge.name.startswith("centre back")} or part == 405.0
    # one that ends above the waist does not let her in
    assert {result.code for result in failed(after)} == ({"room-to-get-in"} if long < 405.0 else set())
    assert measured(after) == pytest.approx(measured(dress()), abs=1e-6)


def test_without_a_length_it_ends_a_little_below_the_hip() -> None:
    """1 to 2 cm below the hip line (common practice, from memory)."""
    piece = apply_step(dress(), Opening("centre front")).piece("skirt front")
    zip_end = piece.edge("centre front opening").start
    assert 10.0 <= piece.line("hip line").start.y - zip_end.y <= 20.0
    assert "zip notch" in {notch.name for notch in piece.notches}


def test_a_fold_that_is_opened_is_cut_twice_with_an_allowance_and_its_length_is_measured_on() -> None:
    after = apply_step(dress(), Opening("centre front", length=500.0))
    front, skirt = after.piece("bodice front"), after.piece("skirt front")
    for piece in (front, skirt):
        assert (piece.cut.count, piece.cut.fold, piece.cut.mirror) == (2, False, True)
    assert roles(front)["centre front"] is Role.OPENING
    assert (roles(skirt)["centre front opening"], roles(skirt)["centre front seam"]) == (Role.OPENING, Role.SEAM)
    assert skirt.edge("centre front opening").allowance == skirt.edge("centre front seam").allowance == 15.0
    assert measured(after) == pytest.approx(measured(dress()), abs=1e-6)


def test_closed_the_centre_back_goes_on_the_fold_and_the_way_in_is_missed() -> None:
    after = apply_step(dress(), Opening("centre back", "closed"))
    for name in ("bodice back", "skirt back"):
        piece = after.piece(name)
        assert roles(piece)["centre back"] is Role.FOLD
        assert piece.edge("centre back").allowance == 0.0
        assert (piece.cut.count, piece.cut.fold) == (1, True)
    assert {result.code for result in failed(after)} == {"room-to-get-in"}
    assert not failed(apply_step(after, Opening("side")))


def test_a_centre_back_that_is_shaped_is_closed_as_a_seam() -> None:
    shaped = apply_step(dress(), TakeIn(waist=20.0, centre_back=1.0))
    piece = apply_step(shaped, Opening("centre back", "closed")).piece("bodice back")
    assert roles(piece)["centre back"] is Role.SEAM
    assert piece.cut.count == 2


def test_opening_and_closing_leave_the_piece_as_it_was() -> None:
    before = dress().piece("skirt front")
    there = apply_step(dress(), Opening("centre front", length=500.0))
    assert apply_step(there, Opening("centre front", "closed")).piece("skirt front") == before


def test_what_is_on_the_fold_already_is_passed_over_when_the_rest_is_closed() -> None:
    """As a child's bodice with a slit, over a skirt whose back is on the fold."""
    there = apply_step(dress(), Opening("centre back", "closed", only="skirt back"))
    after = apply_step(there, Opening("centre back", "closed"))
    assert after.piece("skirt back") == there.piece("skirt back")
    assert roles(after.piece("bodice back"))["centre back"] is Role.FOLD


@pytest.mark.parametrize("button", [10.2, 15.0, 20.3])
def test_the_stand_is_as_wide_as_a_button_and_the_finished_widths_stay(button: float) -> None:
    """Shirt and suit buttons of 16 and 32 lignes are 10.2 and 20.3 mm."""
    after = apply_step(dress(), Opening("centre front", "buttons", button=button))
    for name in ("bodice front", "skirt front"):
        piece = after.piece(name)
        centre = piece.line("centre front")
        # the front lies with its centre at x = 0
        for edge_end in (piece.edge("front edge").start, piece.edge("front edge").end):
            assert edge_end.x - centre.start.x == pytest.approx(button, abs=1e-9)
        assert piece.cut.count == 2
        assert piece.edge("front edge").length == pytest.approx(dress().piece(name).edge("centre front").length)
    assert measured(after) == pytest.approx(measured(dress()), abs=1e-6)
    assert not failed(after)
    paper = Polygon([(p.x, p.y) for p in polyline(after.piece("bodice front").outline, 1e-6)])
    was = Polygon([(p.x, p.y) for p in polyline(dress().piece("bodice front").outline, 1e-6)])
    assert paper.area - was.area == pytest.approx(345.0 * button, rel=1e-6)


def test_the_buttons_lie_where_carr_says() -> None:
    after = apply_step(dress(), Opening("centre front", "buttons", button=15.0))
    bodice, skirt = buttons(after.piece("bodice front")), buttons(after.piece("skirt front"))
    assert bodice[0] == pytest.approx(15.0 + 6.35)
    space = bodice[1] - bodice[0]
    assert all(b - a == pytest.approx(space) for a, b in (*pairwise(bodice), *pairwise(skirt)))
    bust = 345.0 - after.piece("bodice front").line("bust line").start.y
    assert min(abs(at - bust) for at in bodice) <= 3.0 + 1e-9
    assert 620.0 - skirt[-1] >= 1.5 * space
    assert 620.0 - skirt[-1] < 2.5 * space


@pytest.mark.parametrize("deep", [None, 20.0, 40.0, 60.0, 80.0, 100.0])
def test_the_buttons_have_one_space_over_the_waist_and_one_of_them_close_to_its_seam(deep: float | None) -> None:
    """However short a V leaves the edge of the bodice; common practice, the figures ours."""
    for base in dresses():
        cut = base if deep is None else apply_step(base, Neckline(deep, 10.0, shape="V"))
        after = apply_step(cut, Opening("centre front", "buttons", button=18.0))
        bodice, skirt = after.piece("bodice front"), after.piece("skirt front")
        long = bodice.point("centre front, upper end").y - bodice.point("centre front, lower end").y
        every = [*buttons(bodice), *(long + at for at in buttons(skirt))]
        spaces = [b - a for a, b in pairwise(every)]
        assert max(spaces) == pytest.approx(min(spaces), abs=1e-6)
        assert max(spaces) <= 90.0 + 1e-6
        # half a button of 18 mm and 10 mm from the seam, and not much more
        assert 19.0 - 1e-6 <= min(abs(at - long) for at in every) <= 34.0 + 1e-6
        names = [mark.name for piece in (bodice, skirt) for mark in piece.points if mark.name.startswith("button ")]
        assert names == [f"button {k + 1}" for k in range(len(every))]


@pytest.mark.parametrize("count", [8, 9, 10, 12, 15])
def test_as_many_buttons_as_are_asked_for_lie_evenly_and_clear_of_the_waist_seam(count: int) -> None:
    for base in dresses():
        after = apply_step(base, Opening("centre front", "buttons", button=18.0, how_many=float(count)))
        bodice, skirt = after.piece("bodice front"), after.piece("skirt front")
        long = bodice.point("centre front, upper end").y - bodice.point("centre front, lower end").y
        every = [*buttons(bodice), *(long + at for at in buttons(skirt))]
        assert len(every) == count
        spaces = [b - a for a, b in pairwise(every)]
        assert max(spaces) == pytest.approx(min(spaces), abs=1e-6)
        assert min(abs(at - long) for at in every) >= 19.0 - 1e-6
        assert failed(after, base) == []


@pytest.mark.parametrize("deep", [100.0, 104.0, 112.0, 120.0])
def test_a_v_that_ends_a_little_above_the_chest_line_leaves_the_chest_as_wide_with_its_stand(deep: float) -> None:
    """There the stand begins below that line, or cuts it off with its slanted end."""
    cut = apply_step(a_garment("child's tunic"), Neckline(deep, shape="V"))
    after = apply_step(cut, Opening("centre front", "buttons"))
    assert measured(after)["chest"] == pytest.approx(measured(cut)["chest"], abs=1e-6)


@pytest.mark.parametrize("tops", [(SkirtYoke(60.0),), (ShapedBand(30.0),), (SkirtYoke(90.0), ShapedBand(30.0))])
@pytest.mark.parametrize("count", [7, 12])
def test_where_no_one_space_clears_a_yoke_seam_one_button_lies_close_to_it(
    tops: tuple[SkirtYoke | ShapedBand, ...], count: int
) -> None:
    """Common practice: the button beside a seam is moved, and those on both sides of it share out what is left."""
    base = sized(92, "skirt")
    for top in tops:
        base = apply_step(base, top)
    after = apply_step(base, Opening("centre front", "buttons", how_many=float(count)))
    assert sum(len(points_at(piece, Landmark.BUTTON)) for piece in after.pieces) == count
    assert {r.verdict for r in run_checks(after) if r.check == "buttons"} == {Verdict.PASS}


@pytest.mark.parametrize(
    ("step", "reason"),
    [
        (Opening("centre front", "buttons", how_many=40.0), "mm apart"),
        (Opening("centre front", "buttons", how_many=7.5), "no whole number"),
        (Opening("centre back", how_many=7.0), "that of buttons"),
    ],
)
def test_a_number_of_buttons_that_cannot_be_is_refused_in_a_sentence(step: Opening, reason: str) -> None:
    with pytest.raises(StepRefused, match=reason) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


def test_too_many_buttons_are_refused_with_the_most_that_find_room() -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(dress(), Opening("centre front", "buttons", how_many=40.0))
    (remedy,) = refused.value.remedies
    (setting,) = remedy.settings
    assert (remedy.act, remedy.alteration, setting.option, setting.unit) == ("change", "opening", "how_many", "")
    most = float(setting.value)
    assert apply_step(dress(), Opening("centre front", "buttons", how_many=most)).history[-1].alter == "opening"
    with pytest.raises(StepRefused):
        apply_step(dress(), Opening("centre front", "buttons", how_many=most + 1.0))


def test_a_bodice_by_itself_has_its_last_button_near_its_lower_edge_and_none_on_it() -> None:
    for base in dresses():
        cut = apply_step(
            apply_step(base, Neckline(100.0, 10.0, shape="V")), Opening("centre front", "buttons", only="bodice front")
        )
        bodice = cut.piece("bodice front")
        long = bodice.point("centre front, upper end").y - bodice.point("centre front, lower end").y
        every = buttons(bodice)
        spaces = [b - a for a, b in pairwise(every)]
        assert all(60.0 - 1e-6 <= space <= 90.0 + 1e-6 for space in spaces)
        assert 0.5 * spaces[0] - 1e-6 <= long - every[-1] <= spaces[0] + 1e-6


def test_the_facing_has_the_shape_and_the_grain_of_the_edge() -> None:
    after = apply_step(dress(), Opening("centre front", "buttons"))
    front, made = after.piece("bodice front"), after.piece("bodice front facing")
    for edge in ("front edge", "stand at neck", "stand at waist"):
        assert made.edge(edge).curves == front.edge(edge).curves
    assert made.grain is not None
    assert (made.grain.end - made.grain.start).unit().y == pytest.approx(1.0)
    free = made.edge(FREE_EDGE)
    assert made.edge("front edge").start.x - free.start.x == pytest.approx(60.0, abs=1e-6)
    outer = Polygon([(p.x, p.y) for p in polyline(front.outline, 1e-6)])
    inner = LineString([(p.x, p.y) for p in polyline(made.outline, 1e-6)])
    assert inner.difference(outer.buffer(1e-3)).length == pytest.approx(0.0, abs=1e-6)


def test_over_the_waist_seam_stand_meets_stand() -> None:
    after = apply_step(dress(), Opening("centre front", "buttons"))
    seam = after.seam("front waist")
    assert seam.a[0].edge == seam.b[0].edge == "stand at waist"
    was, now = walk(dress(), dress().seam("front waist")), walk(after, seam)
    assert now.a - now.b == pytest.approx(was.a - was.b, abs=1e-6)


def test_held_to_the_bodice_the_skirt_stays_on_its_fold() -> None:
    after = apply_step(dress(), Opening("centre front", "buttons", only="bodice front"))
    assert after.piece("skirt front") == dress().piece("skirt front")
    assert after.seam("front waist") == dress().seam("front waist")
    assert not failed(after)


def test_at_the_side_front_and_back_are_left_open_alike_above_and_below_the_waist() -> None:
    after = apply_step(dress(), Opening("side", length=300.0, below=180.0))
    for name, part in (("bodice front", 120.0), ("bodice back", 120.0), ("skirt front", 180.0), ("skirt back", 180.0)):
        piece = after.piece(name)
        assert piece.edge("side seam opening").role is Role.OPENING
        assert piece.edge("side seam opening").length == pytest.approx(part, abs=1e-4)
    told = [result.where for result in run_checks(after) if result.verdict is not Verdict.PASS]
    assert told == ["one way in"]  # the zip behind is there as well
    pairs = [pair for seam in after.seams for pair in seam.notches if "left side" in pair[0].notch]
    assert len(pairs) == 2


@pytest.mark.parametrize("below", [120.0, 220.0])
def test_a_skirt_by_itself_takes_a_skirts_zip_at_the_side_or_one_as_deep_as_is_said(below: float) -> None:
    """A skirt's zip is 18 cm long (common practice)."""
    for step, part in ((Opening("side"), 180.0), (Opening("side", below=below), below)):
        after = apply_step(sized(92, "skirt"), step)
        for name in ("skirt front", "skirt back"):
            assert after.piece(name).edge("side seam opening").length == pytest.approx(part, abs=1e-4)


@pytest.mark.parametrize("options", SAMPLES["opening"], ids=str)
def test_every_woman_of_the_sample_can_have_it_and_all_goes_together(options: Mapping[str, object]) -> None:
    for pattern in dresses():
        after = apply_step(pattern, Opening(**options))  # type: ignore[arg-type]
        assert not failed(after), pattern.wearer.name


@pytest.mark.parametrize("long", [401.0, 405.0, 409.0])
def test_a_zip_that_ends_next_to_the_waist_seam_ends_at_it(long: float) -> None:
    after = apply_step(dress(), Opening("centre back", length=long))
    assert opened(after.piece("bodice back")) == pytest.approx(405.0)
    assert opened(after.piece("skirt back")) == 0.0
    assert {result.code for result in failed(after)} == {"room-to-get-in"}


@pytest.mark.parametrize("long", [398.0, 412.0])
def test_a_zip_that_ends_further_off_is_as_long_as_it_is(long: float) -> None:
    after = apply_step(dress(), Opening("centre back", length=long))
    assert opened(after.piece("bodice back")) + opened(after.piece("skirt back")) == pytest.approx(long, abs=1e-6)
    assert {result.code for result in failed(after)} == {"room-to-get-in"}


@pytest.mark.parametrize(
    ("before", "step", "says"),
    [
        ([], Opening("centre back", length=1200.0), "take a shorter one"),
        ([], Opening("side", "buttons"), "goes with a centre"),
        ([], Opening("side", length=500.0, below=100.0), "has room for"),
        ([], Opening("centre front", "closed"), "on the fold .* as it is"),
        ([], Opening("centre front", only="sleeve"), "has no edge at its centre front"),
        (
            [Opening("centre front", "buttons")],
            Opening("centre front"),
            '"bodice front" has a button stand there already',
        ),
        ([TakeIn(waist=20.0, centre_back=1.0)], Opening("centre back", "buttons"), "has to be straight"),
        ([Opening("side")], TakeIn(waist=10.0), "put this step before"),
        ([Wrap()], Opening("centre front", only="skirt front"), "has no edge at its centre front"),
    ],
    ids=str,
)
def test_what_makes_no_sense_is_refused_in_a_sentence(before: list[Opening], step: Opening, says: str) -> None:
    pattern = dress()
    for each in before:
        pattern = apply_step(pattern, each)
    with pytest.raises(StepRefused, match=says):
        apply_step(pattern, step, as_written=True)


@pytest.mark.parametrize(
    "steps",
    [
        (Opening("centre front", "buttons"), Lengthen("bodice front", 20.0), Lengthen("skirt front", -30.0)),
        (Opening("centre back", length=550.0), TakeIn(waist=20.0, darts=0.5), Hem("skirt back", grow=40.0)),
        (Opening("centre back", "closed"), Opening("side"), Lengthen("skirt front", 50.0)),
        (Opening("centre front", "buttons"), TakeIn(waist=20.0, hip=-20.0, bust=-20.0)),
    ],
    ids=str,
)
def test_what_follows_an_opening_keeps_its_word_on_it(steps: tuple[Opening, ...]) -> None:
    pattern = dress()
    for step in steps:
        pattern = apply_step(pattern, step)
    assert not failed(pattern)


def test_the_mouth_of_no_dart_is_touched() -> None:
    after = apply_step(dress(), Opening("centre front", "buttons")).piece("bodice front")
    before = dress().piece("bodice front")
    for dart in before.darts:
        assert dart_mouth(after, after.dart(dart.name)) == dart_mouth(before, dart)
    assert replace(after.dart("bust dart")) == before.dart("bust dart")


TROUSERS = find_block("trousers")


def test_a_jumpsuit_is_buttoned_as_far_as_its_waist_and_no_further() -> None:
    blocks = (BlockOrder(find_block("bodice")), BlockOrder(TROUSERS, {"fastening": "fly"}))
    jumpsuit = finish(Garment("jumpsuit", women()[24], blocks))
    buttoned = apply_step(jumpsuit, Opening("centre front", "buttons"))
    assert not failed(buttoned)
    assert edge_at(buttoned.piece("bodice front"), Place.STAND_EDGE)
    assert buttoned.piece("trousers front") == jumpsuit.piece("trousers front")
    plain = finish(Garment("jumpsuit", women()[24], (blocks[0], BlockOrder(TROUSERS))))
    with pytest.raises(StepRefused, match="ends at its crotch"):
        apply_step(plain, Opening("centre front", "buttons"))


def test_trousers_with_a_fly_do_not_open_once_more_in_front() -> None:
    blocks = (BlockOrder(TROUSERS, {"fastening": "fly"}),)
    with pytest.raises(StepRefused, match="by their fly already"):
        finish(Garment("trousers", women()[24], blocks, steps=(Opening("centre front"),)))
