"""Take in or let out, against the trade's rule: d round the body is d/4 on each edge at the side (plane geometry), and
dart and side together make up the difference; common practice for the rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from shapely.geometry import LineString, Polygon

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import Alteration, Blend, FlareSkirt, GatherSkirt, Lengthen, Opening, TakeIn, apply_step
from drafting.body.person import read_person
from drafting.errors import StepRefused
from drafting.geometry import distance, polyline, run_length
from drafting.pattern import Level, Pattern, Piece, Place, Role, dart_width, edges_at, finished, walk, with_pieces
from tests.alteration_samples import SAMPLES
from tests.drafting.alterations.test_shapes import BUMP, turns
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.sizes import sized

MORE = (
    {"waist": -60.0, "hip": -60.0, "bust": -60.0},
    {"bust": 15.0},
    {"waist": -20.0, "darts": 0.5},
    {"waist": 20.0, "darts": 1.0},
)
SIDES = ("bodice front", "bodice back", "skirt front", "skirt back")


def measured(pattern: Pattern) -> dict[str, float]:
    return {made.name: made.finished for made in finished(pattern)}


def waist_of(piece: Piece) -> float:
    return sum(
        run_length(edge.curves, 1e-8)
        for edge in piece.edges
        if edge.name.startswith("waist") and edge.name not in {leg for dart in piece.darts for leg in dart.legs}
    )


def widths(piece: Piece, level: float) -> float:
    """How much cloth lies at a level, as shapely sees it."""
    cloth = Polygon([(p.x, p.y) for p in polyline(piece.outline, 1e-6)])
    return float(cloth.intersection(LineString([(-900.0, level), (900.0, level)])).length)


@pytest.mark.parametrize("by", [12.0, -24.0, -60.0])
def test_a_quarter_of_it_goes_on_each_edge_at_the_waist_and_nothing_else_changes(by: float) -> None:
    before, after = dress(), apply_step(dress(), TakeIn(waist=by))
    for name in SIDES:
        assert waist_of(after.piece(name)) == pytest.approx(waist_of(before.piece(name)) - by / 4, abs=1e-6)
    was, now = measured(before), measured(after)
    assert now.pop("waist") == pytest.approx(was.pop("waist") - by, abs=1e-6)
    assert now == pytest.approx(was, abs=1e-6)
    assert failed(after) == []


@pytest.mark.parametrize("by", [12.0, 40.0, -40.0])
@pytest.mark.parametrize("cuts", [3, 8])
def test_the_waist_of_a_flared_skirt_is_led_as_a_whole_however_often_it_was_slashed(by: float, cuts: int) -> None:
    before = apply_step(dress(), FlareSkirt(hem=1200.0, how="slashes", cuts=cuts))
    after = apply_step(before, TakeIn(waist=by), as_written=True)
    for name in ("skirt front", "skirt back"):
        was, now = before.piece(name), after.piece(name)
        assert waist_of(now) == pytest.approx(waist_of(was) - by / 4, abs=1e-6)
        # the waist of a fan is hollow all along, as a cutter draws it, and stays so beside the seam
        turned = turns(now.edge("waist at side").curves)
        assert sum(abs(each) for each in turned if each * sum(turned) < 0.0) < BUMP
    was_measured, now_measured = measured(before), measured(after)
    assert now_measured.pop("waist") == pytest.approx(was_measured.pop("waist") - by, abs=1e-6)
    assert now_measured == pytest.approx(was_measured, abs=1e-6)
    assert failed(after) == []


@pytest.mark.parametrize("by", [30.0, -60.0])
def test_a_stranger_finds_a_quarter_of_it_at_the_hip_and_below(by: float) -> None:
    before, after = dress(), apply_step(dress(), TakeIn(hip=by))
    for name in ("skirt front", "skirt back"):
        for level in (-230.0, -400.0, -619.0):
            change = widths(after.piece(name), level) - widths(before.piece(name), level)
            assert change == pytest.approx(-by / 4, abs=1e-3)
        assert waist_of(after.piece(name)) == pytest.approx(waist_of(before.piece(name)), abs=1e-6)


def test_every_side_seam_keeps_its_length_to_the_hair() -> None:
    before, after = dress(), apply_step(dress(), TakeIn(waist=-40.0, hip=-60.0, bust=-40.0))
    for name in SIDES:
        was, now = (run_length(p.piece(name).edge("side seam").curves, 1e-8) for p in (before, after))
        assert now == pytest.approx(was, abs=1e-6)


def test_at_the_bust_the_sleeve_goes_with_the_armhole_and_keeps_its_cap_ease_elbow_and_wrist() -> None:
    before, after = dress(), apply_step(dress(), TakeIn(bust=-40.0))
    for name in ("front armhole", "back armhole"):
        was, now = (walk(p, p.seam(name)) for p in (before, after))
        assert now.a - now.b == pytest.approx(was.a - was.b, abs=1e-6)
        assert was.b + 6.0 < now.b < was.b + 10.0  # the underarm moved out by 10 mm, more or less along the armhole
    was_mm, now_mm = measured(before), measured(after)
    assert now_mm["bust"] == pytest.approx(was_mm["bust"] + 40.0, abs=1e-6)
    for kept in ("elbow", "wrist", "shoulder to wrist", "waist", "hip", "across the back"):
        assert now_mm[kept] == pytest.approx(was_mm[kept], abs=1e-6)
    assert 13.0 < now_mm["upper arm"] - was_mm["upper arm"] < 24.0


def test_what_the_darts_take_the_seams_need_not() -> None:
    """Dart and side together make up the difference (plane geometry)."""
    before, after = dress(), apply_step(dress(), TakeIn(waist=40.0, darts=1.0))
    for name in SIDES:
        old, new = before.piece(name), after.piece(name)
        grown = sum(dart_width(new, d) for d in new.darts) - sum(dart_width(old, d) for d in old.darts)
        assert grown == pytest.approx(10.0, abs=0.5)  # the legs end in a curve, so across the mouth not to the hair
        assert waist_of(new) == pytest.approx(waist_of(old) - 10.0, abs=1e-6)
        assert new.edge("side seam").curves == old.edge("side seam").curves
        for dart in new.darts:
            one, other = (run_length(new.edge(leg).curves, 1e-8) for leg in dart.legs)
            assert one == pytest.approx(other, abs=1e-9)
            assert one == pytest.approx(run_length(old.edge(dart.legs[0]).curves, 1e-8), abs=1e-9)
            assert dart.apex == old.dart(dart.name).apex


def test_the_centre_back_takes_half_its_share_on_each_half_and_is_straight_again_above_and_below() -> None:
    before, after = dress(), apply_step(dress(), TakeIn(waist=20.0, centre_back=1.0))
    for name in ("bodice back", "skirt back"):
        old, new = before.piece(name), after.piece(name)
        assert waist_of(new) == pytest.approx(waist_of(old) - 10.0, abs=1e-6)
        assert new.edge("side seam").curves == old.edge("side seam").curves
        assert distance(new.edge("waist at centre").start, old.edge("waist at centre").start) < 12.0
    assert after.piece("bodice front") == before.piece("bodice front")
    assert measured(after)["centre back"] == pytest.approx(measured(before)["centre back"], abs=1e-6)
    assert not failed(after)


def test_taking_in_and_letting_out_again_brings_the_widths_back() -> None:
    there = apply_step(dress(), TakeIn(waist=30.0, hip=20.0, bust=20.0))
    back = apply_step(there, TakeIn(waist=-30.0, hip=-20.0, bust=-20.0))
    assert measured(back) == pytest.approx(measured(dress()), abs=0.2)
    assert not failed(back)


@pytest.mark.parametrize("options", [*SAMPLES["take in"], *MORE], ids=str)
def test_every_woman_of_the_sample_can_have_it_and_all_goes_together(options: Mapping[str, float]) -> None:
    """But for the ease to move, which taking in may use up."""
    for pattern in dresses()[:: 1 if options == MORE[0] else 4]:
        after = apply_step(pattern, TakeIn(**options))
        assert not [result for result in failed(after) if result.code != "ease-to-move"], pattern.wearer.name


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (TakeIn(), "nothing is to be taken in"),
        (TakeIn(waist=20.0, darts=0.8, centre_back=0.4), "more than all of it"),
        (TakeIn(hip=20.0, darts=0.5), "take in the waist only"),
        (TakeIn(waist=-200.0, darts=1.0), "can give"),
        (TakeIn(waist=390.0), "could not end where its partner does"),
        (TakeIn(hip=-400.0), "could not end where its partner does"),
    ],
    ids=str,
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: TakeIn, says: str) -> None:
    with pytest.raises(StepRefused, match=says) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


@pytest.mark.parametrize("bust", [20.0, -40.0])
def test_a_short_sleeve_follows_its_armhole_at_the_underarm_down_to_its_hem(bust: float) -> None:
    short = Lengthen("sleeve", -350.0, hem="as tapered")
    once, there = (apply_step(dress(), short), apply_step(apply_step(dress(), short), TakeIn(bust=bust)))
    was, now = once.piece("sleeve"), there.piece("sleeve")
    assert not any(line.level is Level.ELBOW for line in was.lines)
    assert now.edge("wrist").curves == was.edge("wrist").curves

    def run_of(pattern: Pattern, place: Place) -> float:
        return sum(run_length(edge.curves, 1e-8) for piece in pattern.pieces for edge in edges_at(piece, place))

    grown = [run_of(there, place) - run_of(once, place) for place in (Place.CAP, Place.ARMHOLE)]
    assert grown[0] == pytest.approx(grown[1], abs=1e-6)
    assert grown[0] * bust < -100.0
    assert not failed(there)


def test_a_sleeve_without_lines_across_it_is_refused_by_the_name_of_the_step() -> None:
    sleeve = dress().piece("sleeve")
    without = replace(with_pieces(dress(), replace(sleeve, lines=())), measures=())
    with pytest.raises(StepRefused, match='"sleeve" has no "elbow line" at which to run out') as caught:
        apply_step(without, TakeIn(bust=20.0))
    assert caught.value.alteration == "take in"


def test_a_fold_at_the_centre_back_that_takes_a_share_becomes_a_seam_whichever_way_it_is_written() -> None:
    closed, taken_in = Opening("centre back", "closed"), TakeIn(waist=20.0, centre_back=0.5)
    folded = apply_step(dress(), closed)
    here, engine = (apply_step(folded, taken_in, as_written=held) for held in (True, False))
    for name in ("bodice back", "skirt back"):
        was, now, other = (each.piece(name) for each in (folded, here, engine))
        assert was.cut.fold
        assert now.cut == other.cut == was.cut.as_pair()
        roles = [[edge.role for edge in edges_at(each, Place.CENTRE_BACK)] for each in (was, now, other)]
        assert roles == [[Role.FOLD], [Role.SEAM], [Role.SEAM]]
        (seam,) = edges_at(now, Place.CENTRE_BACK)
        assert seam.allowance > 0.0
        assert waist_of(now) == pytest.approx(waist_of(was) - 7.5, abs=1e-6)


@pytest.mark.parametrize("step", [TakeIn(waist=20.0), Blend(waist=96)])
@pytest.mark.parametrize("blocks", [("skirt",), ("bodice", "skirt")])
def test_a_gathered_waist_is_left_alone_whether_it_is_sewn_to_something_or_not(
    step: Alteration, blocks: tuple[str, ...]
) -> None:
    gathered = apply_step(sized(92, *blocks), GatherSkirt(ratio=1.5))
    with pytest.raises(StepRefused, match="gathered or eased; put this step before that one"):
        apply_step(gathered, step, as_written=True)


def test_a_bodice_alone_is_taken_in_too() -> None:
    pieces = tuple(piece for piece in dress().pieces if piece.name.startswith("bodice"))
    seams = tuple(s for s in dress().seams if all(r.piece.startswith("bodice") for r in (*s.a, *s.b)))
    measures = tuple(m for m in dress().measures if all(part.piece.startswith("bodice") for part in m.tape))
    alone = replace(dress(), pieces=pieces, seams=seams, measures=measures)
    after = apply_step(alone, TakeIn(waist=20.0, bust=-20.0))
    assert waist_of(after.piece("bodice front")) == pytest.approx(waist_of(alone.piece("bodice front")) - 5.0, abs=1e-6)
    with pytest.raises(StepRefused, match="leave the hip out"):
        apply_step(alone, TakeIn(hip=20.0))


@pytest.mark.parametrize("name", ["romper", "dungarees"])
def test_what_goes_from_the_shoulder_to_the_leg_in_one_is_given_another_ease_instead(name: str) -> None:
    mika = read_person(Path(__file__).parents[4] / "examples" / "people" / "sanne.toml")
    garment = Garment("play", mika, (BlockOrder(find_block(name)),))
    with pytest.raises(StepRefused, match="ease = "):
        apply_step(draft(garment, prepare(garment)), TakeIn(waist=10.0))
