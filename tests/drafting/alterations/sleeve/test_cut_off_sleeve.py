"""A sleeve cut off as a cutter does it: what is left is what it was, and its hem is as wide as it is there."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from drafting.alterations import Alteration, DroppedShoulder, Lengthen, Raglan, Saddle, TakeIn, apply_step
from drafting.errors import StepRefused
from drafting.geometry import Point, Vec, end_tangents, run_hits, run_length
from drafting.pattern import Along, Between, Level, Pattern, Piece, finished, line_at
from tests.drafting.dress import dress
from tests.drafting.dresses import failed

SLEEVE = "sleeve"


def cut_off(by: float) -> Pattern:
    return apply_step(dress(), Lengthen(SLEEVE, -by, hem="as tapered"))


def width_at(piece: Piece, level: float) -> float:
    """Across a sleeve at a level, by its outline alone."""
    outline = [curve for edge in piece.edges for curve in edge.curves]
    hits = [hit.along for _, hit in run_hits(outline, Point(0.0, level), Vec(1.0, 0.0))]
    return max(hits) - min(hits)


@pytest.mark.parametrize("by", [25.0, 100.0, 140.0, 200.0, 300.0])
def test_it_is_so_much_shorter_and_as_wide_as_the_long_one_was_there(by: float) -> None:
    before, after = dress().piece(SLEEVE), cut_off(by).piece(SLEEVE)
    hem = after.edge("wrist")
    assert hem.start.y == pytest.approx(before.edge("wrist").start.y + by, abs=1e-9)
    assert hem.end.y == pytest.approx(hem.start.y, abs=1e-9)
    assert hem.length == pytest.approx(width_at(before, hem.start.y), abs=1e-6)


@pytest.mark.parametrize("by", [25.0, 100.0, 140.0, 200.0, 300.0])
def test_its_seams_are_alike_and_every_check_that_passed_passes(by: float) -> None:
    pattern = cut_off(by)
    seams = [edge for edge in pattern.piece(SLEEVE).edges if edge.name.startswith("underarm seam")]
    one, other = (run_length(edge.curves) for edge in seams)
    assert one == pytest.approx(other, abs=1e-6)
    assert failed(pattern) == []


@pytest.mark.parametrize("by", [100.0, 380.0])
def test_cut_off_after_the_sleeve_was_taken_in_its_seams_are_alike_as_well(by: float) -> None:
    """Its two seams were led out to the elbow, and are shaped a little otherwise."""
    taken_in = apply_step(dress(), TakeIn(bust=20.0))
    assert failed(apply_step(taken_in, Lengthen(SLEEVE, -by, hem="as tapered"))) == failed(taken_in)


def test_its_seams_come_to_the_hem_no_more_aslant_than_a_folded_hem_bears() -> None:
    for by in (100.0, 200.0):
        seam = cut_off(by).piece(SLEEVE).edge("underarm seam, back")
        arriving = end_tangents(seam.curves[-1])[1]
        assert abs(math.degrees(math.atan2(arriving.x, -arriving.y))) < 6.5 + 1e-6


def test_what_was_marked_on_the_part_that_falls_away_is_gone_and_nothing_else() -> None:
    three_quarter, short = cut_off(100.0), cut_off(330.0)
    assert "elbow line" in {line.name for line in three_quarter.piece(SLEEVE).lines}
    assert "elbow line" not in {line.name for line in short.piece(SLEEVE).lines}
    assert "elbow" not in {point.name for point in short.piece(SLEEVE).points}
    notches = {mark.notch for seam in short.seams for pair in seam.notches for mark in pair if mark.piece == SLEEVE}
    assert notches == {notch.name for notch in short.piece(SLEEVE).notches} - {"crown notch"}
    assert "elbow" not in {measure.name for measure in short.measures}


def test_the_finished_table_says_how_wide_and_how_far_down_it_ends() -> None:
    before, after = dress(), cut_off(100.0)
    made = {each.name: each.finished for each in finished(after)}
    was = {each.name: each.finished for each in finished(before)}
    assert made["sleeve hem"] == pytest.approx(after.piece(SLEEVE).edge("wrist").length)
    assert made["shoulder to sleeve hem"] == pytest.approx(was["shoulder to wrist"] - 100.0)
    tapes = [tape for measure in after.measures for tape in measure.tape if tape.piece == SLEEVE]
    assert any(isinstance(tape, Along) for tape in tapes)
    assert any(isinstance(tape, Between) and tape.other == "sleeve hem" for tape in tapes)


def test_the_line_to_lengthen_at_lies_halfway_from_the_elbow_to_the_new_hem() -> None:
    piece = cut_off(100.0).piece(SLEEVE)
    line, elbow = piece.line("lengthen or shorten line"), piece.line("elbow line")
    assert line.start.y == pytest.approx(0.5 * (elbow.start.y + piece.edge("wrist").start.y))
    longer = apply_step(cut_off(100.0), Lengthen(SLEEVE, 20.0))
    assert failed(longer) == []


@pytest.mark.parametrize(
    ("step", "reason"),
    [
        (Lengthen(SLEEVE, 30.0, hem="as tapered"), "for a sleeve that is shortened"),
        (Lengthen("bodice front", -30.0, hem="as tapered"), "for a sleeve that is shortened"),
        (Lengthen(SLEEVE, -450.0, hem="as tapered"), "below its widest level"),
    ],
)
def test_what_cannot_be_cut_off_is_refused_in_a_sentence(step: Lengthen, reason: str) -> None:
    with pytest.raises(StepRefused, match=reason) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


@pytest.mark.parametrize("style", [Raglan(), Saddle(), DroppedShoulder(20.0)], ids=lambda style: style.name)
@pytest.mark.parametrize("knit", [False, True], ids=["woven", "knit"])
def test_a_short_sleeve_goes_on_to_a_style_line_as_the_long_one_does(style: Alteration, knit: bool) -> None:
    short = replace(cut_off(330.0), stretch=0.4 if knit else 0.0)
    assert line_at(short.piece(SLEEVE), Level.LENGTHEN_ABOVE_ELBOW) is not None
    apply_step(apply_step(short, style), Lengthen(SLEEVE, 10.0))
