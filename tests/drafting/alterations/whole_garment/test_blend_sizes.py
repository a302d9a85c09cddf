"""Blending between sizes: what stays, what follows, what is refused."""

from __future__ import annotations

import math
from dataclasses import fields
from itertools import product

import pytest

from drafting.alterations import ALTERATIONS, Alteration, Blend, apply_step, replay, undo
from drafting.body.charts import SIZES, chart_mm
from drafting.checks import Result, Verdict
from drafting.errors import StepRefused
from drafting.geometry import distance, end_tangents, run_length
from drafting.pattern import Pattern, dart_width, finished
from tests.alteration_samples import SAMPLES
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.quick_checks import run_checks
from tests.sampling import some

GRAVE = (Verdict.WARN, Verdict.FAIL, Verdict.ERROR)


def faults(pattern: Pattern) -> list[str]:
    return [f"{each.where}: {each.remedy}" for each in grave(pattern)]


def grave(pattern: Pattern) -> list[Result]:
    return [each for each in run_checks(pattern) if each.verdict in GRAVE]


def new_faults(base: Pattern, blended: Pattern) -> list[str]:
    """What the checks find that they did not find before, but for a side seam that has no other way.

    Under the arm a side is upright, and at the bust line as far in as it was. Where the waist is let out beyond the
    line through both, it has to turn back below the bust line (plane geometry: without that a line only steepens), and
    then by no more than the arc of a circle from the one to the other has turned: twice the lean of its chord.
    """
    before = {each.where for each in grave(base)}
    return [
        f"{each.where}: {each.remedy}"
        for each in grave(blended)
        if each.where not in before and not (each.check == "curves" and bound_to_turn_back(blended, each))
    ]


def bound_to_turn_back(pattern: Pattern, result: Result) -> bool:
    name = next((each for each in ("bodice front", "bodice back") if result.where == f"{each} side seam"), None)
    if name is None:
        return False
    piece = pattern.piece(name)
    seam, level = piece.edge("side seam"), piece.line("bust line").end
    under, waist = sorted((seam.start, seam.end), key=lambda end: -end.y)
    upper, lower = (
        math.degrees(math.atan2(abs(a.x) - abs(b.x), a.y - b.y)) for a, b in ((under, level), (level, waist))
    )
    return lower < upper and result.measured is not None and result.measured <= 2.0 * upper


def measured(pattern: Pattern, name: str) -> float:
    return next(each.finished for each in finished(pattern) if each.name == name)


def near(size: int, most: int = 3) -> list[int]:
    at = SIZES.index(size)
    return list(SIZES[max(0, at - most) : at + most + 1])


@pytest.mark.parametrize("size", some(SIZES, every=3))
def test_sizes_up_to_three_apart_go_together_after_blending(size: int) -> None:
    for waist, hip in list(product(near(size), near(size)))[::7]:
        if (waist, hip) != (size, size):
            blended = apply_step(sized(size), Blend(waist=waist, hip=hip, bust=size))
            assert new_faults(sized(size), blended) == [], (waist, hip)


def test_a_side_that_is_taken_in_far_bends_one_way() -> None:
    # held at the bust line, a thin spline would bulge under the arm
    for size, waist in ((100, 92), (110, 96), (122, 104)):
        shapes = [each for each in run_checks(apply_step(sized(size), Blend(waist=waist))) if each.check == "curves"]
        sides = [each.measured for each in shapes if each.where.endswith("side seam")]
        assert len(sides) >= 4
        assert max(sides) < 0.1, (size, waist)


@pytest.mark.parametrize("blocks", [("bodice",), ("bodice", "sleeve"), ("bodice", "skirt"), ("skirt",)])
def test_a_garment_of_some_blocks_only_can_be_blended(blocks: tuple[str, ...]) -> None:
    hip = 100 if "skirt" in blocks else None
    blended = apply_step(sized(92, *blocks), Blend(waist=96, hip=hip))
    assert faults(blended) == []


def test_the_garment_has_the_girths_of_the_other_sizes_with_the_same_ease() -> None:
    # common practice: the waist of the size at the waist, the hip of the size at the hip
    base, blended = sized(92), apply_step(sized(92), Blend(waist=96, hip=104))
    for name, size in (("waist", 96), ("hip", 104)):
        assert measured(blended, name) == pytest.approx(measured(sized(size), name), abs=0.01)
    for name in ("bust", "neck", "upper arm", "across the back"):
        assert measured(blended, name) == pytest.approx(measured(base, name), abs=1e-9)


def test_a_quarter_of_the_change_falls_on_each_side_of_each_piece() -> None:
    # plane geometry: d round the garment over two side seams, a front and a back each, is d / 4 a piece
    base, blended = sized(92), apply_step(sized(92), Blend(waist=100, hip=84))
    waist = chart_mm(100, "waist_girth") - chart_mm(92, "waist_girth")
    hip = chart_mm(84, "hip_girth") - chart_mm(92, "hip_girth")
    for piece in ("bodice front", "bodice back", "skirt front", "skirt back"):
        was, now = base.piece(piece).edge("waist at side"), blended.piece(piece).edge("waist at side")
        assert run_length(now.curves, 1e-8) - run_length(was.curves, 1e-8) == pytest.approx(waist / 4, abs=1e-6)
    for piece in ("skirt front", "skirt back"):
        was, now = (pattern.piece(piece).line("hip line") for pattern in (base, blended))
        assert distance(now.start, now.end) - distance(was.start, was.end) == pytest.approx(hip / 4, abs=1e-6)


def test_neck_shoulder_armhole_darts_and_sleeve_stay_to_the_last_digit() -> None:
    base, blended = sized(92), apply_step(sized(92), Blend(waist=104, hip=84))
    for piece in base.pieces:
        now = blended.piece(piece.name)
        redrawn = {"side seam", "waist at side", "hem"}
        for edge in piece.edges:
            if edge.name not in redrawn:
                assert now.edge(edge.name).curves == edge.curves, (piece.name, edge.name)
        assert [dart_width(now, dart) for dart in now.darts] == [dart_width(piece, dart) for dart in piece.darts]
    assert blended.piece("sleeve") == base.piece("sleeve")


def test_side_seams_of_front_and_back_are_mirror_images_still() -> None:
    blended = apply_step(sized(92), Blend(waist=104, hip=84))
    for upper, lower in (("bodice front", "bodice back"), ("skirt front", "skirt back")):
        lengths = [run_length(blended.piece(piece).edge("side seam").curves, 1e-8) for piece in (upper, lower)]
        assert lengths[0] == pytest.approx(lengths[1], abs=1e-6)


@pytest.mark.parametrize("waist", [84, 104])
def test_the_new_seam_has_no_corner(waist: int) -> None:
    blended = apply_step(sized(92), Blend(waist=waist, hip=100))
    for piece in ("bodice front", "bodice back", "skirt front", "skirt back"):
        curves = blended.piece(piece).edge("side seam").curves
        assert len(curves) == 2
        arriving, leaving = end_tangents(curves[0])[1], end_tangents(curves[1])[0]
        assert abs(math.atan2(arriving.cross(leaving), arriving.dot(leaving))) < 1e-7


def test_the_change_begins_at_the_bust_line() -> None:
    base, blended = sized(92), apply_step(sized(92), Blend(waist=104))
    for piece in ("bodice front", "bodice back"):
        was, now = base.piece(piece), blended.piece(piece)
        assert now.line("bust line").end.near(was.line("bust line").end)
        assert now.line("underarm line") == was.line("underarm line")


def test_the_notch_of_a_waist_that_gets_too_short_goes_half_way_to_the_dart_on_both_pieces() -> None:
    base = sized(110)
    blended = apply_step(base, Blend(waist=96))
    assert base.piece("bodice front").notch("front waist notch").station.at == pytest.approx(40.0)
    assert faults(blended) == []


def test_only_the_waist_or_only_the_hip_can_be_blended() -> None:
    waist, hip = apply_step(sized(92), Blend(waist=96)), apply_step(sized(92), Blend(hip=96))
    assert measured(waist, "hip") == pytest.approx(measured(sized(92), "hip"), abs=1e-9)
    assert measured(hip, "waist") == pytest.approx(measured(sized(92), "waist"), abs=1e-6)
    assert faults(waist) == faults(hip) == []


def test_the_wearer_and_the_tapes_are_of_the_sizes_blended_in() -> None:
    blended = apply_step(sized(92), Blend(waist=96))
    length = blended.wearer.length("waist_girth")
    assert (length.mm, length.how) == (chart_mm(96, "waist_girth"), "women's chart, size 96")
    waist = next(each for each in finished(blended) if each.name == "waist")
    assert waist.ease == pytest.approx(40.0, abs=1e-5)


def test_a_blended_pattern_is_replayed_and_undone_exactly() -> None:
    base = sized(92)
    once = apply_step(base, Blend(waist=96, hip=100))
    twice = apply_step(once, Blend(waist=88))
    assert replay(base, twice.history) == twice
    assert undo(base, twice) == once


def test_blending_back_gives_the_girths_back() -> None:
    back = apply_step(apply_step(sized(92), Blend(waist=100)), Blend(waist=92))
    assert measured(back, "waist") == pytest.approx(measured(sized(92), "waist"), abs=1e-6)
    assert faults(back) == []


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (Blend(), "say which size"),
        (Blend(waist=92, hip=92), "has these sizes already"),
        (Blend(waist=94), 'no size "94"'),
        (Blend(waist=96, bust=88), "drafted for 92.0 cm at the bust, and size 88 has 88.0 cm there"),
        (Blend(waist=96, upper_chest=88), "at the high bust"),
    ],
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: Alteration, says: str) -> None:
    with pytest.raises(StepRefused, match=says) as refused:
        apply_step(sized(92), step)
    assert refused.value.alteration == step.name


def test_a_waist_is_not_taken_in_past_its_dart() -> None:
    with pytest.raises(StepRefused, match=r"would have to be taken in by \d+ mm at its side seam"):
        apply_step(sized(110), Blend(waist=84))


def test_a_dress_drafted_to_measure_is_not_blended() -> None:
    with pytest.raises(StepRefused, match="drafted to somebody's own measurements"):
        apply_step(dress(), Blend(waist=96))


def test_a_bodice_has_no_size_at_the_hip() -> None:
    with pytest.raises(StepRefused, match='no piece has a "hip line"'):
        apply_step(sized(92, "bodice"), Blend(hip=96))


@pytest.mark.parametrize("options", SAMPLES["blend"])
def test_the_samples_for_sweeps_can_be_taken(options: dict[str, float]) -> None:
    assert new_faults(sized(92), apply_step(sized(92), Blend(**options))) == []


def test_blend_is_listed_with_all_its_options() -> None:
    entry = next(entry for entry in ALTERATIONS if entry.name == "blend")
    assert {option.name for option in entry.options} == {field.name for field in fields(Blend)}


def test_a_side_seam_that_would_lie_on_the_cross_is_refused() -> None:
    with pytest.raises(StepRefused, match="degrees from upright, and 50 is the most"):
        apply_step(sized(128), Blend(waist=92))
