"""The cutting line lies as far off every edge as its allowance, also where an edge runs nearly on into the next."""

from __future__ import annotations

import math
import random
from collections.abc import Mapping
from dataclasses import replace
from functools import partial, reduce

import pytest
from shapely.geometry import LineString, Point, Polygon

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import ALTERATIONS, Neckline, Opening, apply_step
from drafting.body.person import person
from drafting.checks import CHECKS, Verdict, cut_width, named, run_checks
from drafting.geometry import Cubic, Curve, Line, Vec, corner, distance, lerp, moved_all, polyline, run_at, shift
from drafting.geometry import Point as Place
from drafting.geometry.outline import straight_run
from drafting.pattern import Edge, Pattern, Piece, Role
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import ALONE, Sewn, sewn
from tests.blocks.child.test_child_block import child, drafted
from tests.drafting.checks.worked import drawn, with_edge
from tests.drafting.dress import dress
from tests.drafting.geometry.shapes import rose

_CHECK = named(CHECKS, ["cut-width"])


@pytest.mark.parametrize("depth", [25.0, 100.0])
def test_the_allowance_of_a_v_neck_runs_evenly_down_to_the_edge_of_the_button_stand(depth: float) -> None:
    pattern = _buttoned(depth)
    assert {result.verdict for result in run_checks(pattern, checks=_CHECK)} == {Verdict.PASS}
    drawn = sewn(pattern)
    for piece in (each for each in pattern.pieces if "bodice front" in each.name):
        border = LineString([(p.x, p.y) for p in polyline(cutting_line(piece, drawn[piece.name]), 0.01)])
        (stand,) = (edge for edge in piece.edges if edge.name.startswith("stand at neck"))
        for share in (0.1, 0.5, 0.9, 1.0):
            at = run_at(stand.curves, share * stand.length)
            assert border.distance(Point(at.x, at.y)) == pytest.approx(stand.allowance, abs=0.05), piece.name


def test_an_allowance_that_runs_on_over_its_neighbour_is_warned_of_with_how_wide_it_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    pattern = _buttoned(100.0)
    monkeypatch.setattr(cut_width, "sewn", partial(_run_on, sewn(pattern), "bodice front"))
    found = [result for result in run_checks(pattern, checks=_CHECK) if result.verdict is not Verdict.PASS]
    wide, point = found
    assert (wide.where, point.where) == ("bodice front: stand at neck", "bodice front: point beyond the stand at neck")
    result = wide
    assert result.verdict is Verdict.WARN
    assert result.measured is not None
    assert result.measured > pattern.piece("bodice front").edge("stand at neck").allowance + 0.5
    assert f"{result.measured:.1f} mm off the sewing line" in result.remedy


def test_a_cutting_line_that_runs_out_to_a_point_is_warned_of(monkeypatch: pytest.MonkeyPatch) -> None:
    assert _widths(dress()) == []
    monkeypatch.setattr(cut_width, "cutting_line", _spiked)
    assert "skirt front: point beyond the hem" in _widths(dress())


def test_a_point_is_told_of_wherever_the_cutting_line_begins(monkeypatch: pytest.MonkeyPatch) -> None:
    skirt = dress().piece("skirt front")
    alone = replace(dress(), pieces=(skirt,), seams=(), measures=(), unfinished=None)
    line = _spiked(skirt, ALONE)
    for k in range(len(line)):
        begun = (*line[k:], *line[:k])
        monkeypatch.setattr(cut_width, "cutting_line", lambda *_, begun=begun: begun)
        assert "skirt front: point beyond the hem" in _widths(alone), k


@pytest.mark.parametrize("style", ["saddle shoulder", "kimono"])
def test_an_allowance_ended_square_as_that_of_its_partner_is_no_point_and_a_slit_has_its_own_width(style: str) -> None:
    assert _widths(apply_step(dress(), ALTERATIONS.named(style)())) == []


def test_no_open_shoulder_of_a_baby_runs_out_to_a_point() -> None:
    baby = child({"stature": 62, "bust_girth": 42.6, "waist_girth": 42.2, "hip_girth": 42.8})
    assert _widths(drafted(baby, "child's bodice", opening="button shoulder")) == []


def test_a_cutting_line_inside_the_sewing_line_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    aside = shift(Vec(40.0, 0.0))
    monkeypatch.setattr(
        cut_width, "cutting_line", lambda piece, drawn: tuple(moved_all(cutting_line(piece, drawn), aside))
    )
    found = [result for result in run_checks(dress(), checks=_CHECK) if result.verdict is Verdict.FAIL]
    assert "bodice front: side seam, inside of the cutting line" in {result.where for result in found}


def test_an_edge_too_short_to_judge_its_width_is_looked_at_in_its_middle(monkeypatch: pytest.MonkeyPatch) -> None:
    """Between a gusset's slit and the waist: the underarm's allowance swallows that of the short side seam."""
    steps = (ALTERATIONS.named("kimono")(), ALTERATIONS.named("full sleeve")(hem=300.0, cuts=12))
    pattern = reduce(apply_step, steps, _oda())
    assert _widths(pattern) == []
    drawn = sewn(pattern)
    for piece in pattern.pieces:
        outline = [(p.x, p.y) for edge in piece.edges for p in polyline(edge.curves, 0.01)]
        cloth = Polygon([(p.x, p.y) for p in polyline(cutting_line(piece, drawn[piece.name]), 0.01)])
        assert Polygon(outline).difference(cloth).area < 0.1, piece.name
    monkeypatch.setattr(corner, "_over_lost", lambda *_: None)
    assert "bodice front: side seam, inside of the cutting line" in _widths(reduce(apply_step, steps, _oda()))


@pytest.mark.parametrize("seed", range(4))
def test_ways_to_a_line_and_what_lies_within_it_are_as_another_library_has_them(seed: int) -> None:
    wayward = random.Random(seed)
    outline = rose([wayward.uniform(40.0, 120.0) for _ in range(7)])
    bowed = tuple(
        Cubic(line.start, *(lerp(line.start, line.end, k) + Vec(9.0 - 3.0 * k, 8.0) for k in (0.3, 0.6)), line.end)
        for line in outline
    )
    for run in (outline, bowed):
        chords = cut_width._chords(run)
        theirs = Polygon([(p.x, p.y) for each in chords for p in each.places[1:]])
        for _ in range(40):
            at = run[0].start + Vec(wayward.uniform(-260.0, 60.0), wayward.uniform(-130.0, 130.0))
            way = theirs.exterior.distance(Point(at.x, at.y))
            assert cut_width._within(chords, at) is theirs.contains(Point(at.x, at.y))
            for likely in (0.5 * way, way, 2.0 * way):
                assert cut_width._way_to(chords, at, likely=likely) == pytest.approx(way)
                assert cut_width._way_within(chords, at, likely) == pytest.approx(min(way, likely))


@pytest.mark.parametrize("lean", [60.0, 0.0, -60.0])
@pytest.mark.parametrize("at_start", [True, False])
def test_a_square_end_lies_over_its_neighbour_where_it_leans_towards_it(lean: float, at_start: bool) -> None:
    """The side of a panel leans out by so much over 300 mm, under 10 mm as the hem and the upper edge are."""
    piece = drawn(
        "front",
        ("hem", (0.0, 0.0), None, Role.HEM),
        ("side", (200.0, 0.0), None, Role.SEAM),
        ("top", (200.0 + lean, 300.0), None, Role.SEAM),
        ("centre", (0.0, 300.0), None, Role.SEAM),
    )
    # both neighbours are level where the side meets them, and bend further on
    corner = piece.edge("side").end
    bent = {
        "hem": Cubic(Place(0.0, 0.0), Place(40.0, -30.0), Place(150.0, 0.0), Place(200.0, 0.0)),
        "top": Cubic(corner, corner + Vec(-50.0, 0.0), Place(40.0, 330.0), Place(0.0, 300.0)),
    }
    for name, curve in bent.items():
        piece = with_edge(piece, name, curves=(curve,))
    long = math.hypot(lean, 300.0)
    past = 10.0 * long / 300.0  # as far as the hem's own line
    squares = (past, None) if at_start else (None, past)
    (end,) = cut_width._square_ends(piece, Sewn(squares={"side": squares}))
    assert (end.edge, end.beside) == ("side", "hem" if at_start else "top")
    assert end.over == pytest.approx((1.0 if at_start else -1.0) * past * lean / long)
    on = Vec(lean, 300.0) * (1.0 / long)
    out = end.tip - Place(200.0, 0.0)
    assert (on.dot(out), on.cross(out)) == (pytest.approx(-past if at_start else long + past), pytest.approx(-10.0))
    for off in (0.09, 0.11):
        further = (past + off * long / 300.0, None) if at_start else (None, past + off * long / 300.0)
        assert len([*cut_width._square_ends(piece, Sewn(squares={"side": further}))]) == (off < 0.1)


def test_the_places_on_an_edge_are_those_at_its_shares() -> None:
    bow = Cubic(run_at(_LEVEL, 60.0), run_at(_LEVEL, 60.0) + Vec(20.0, 0.0), run_at(_LEVEL, 60.0) + Vec(40.0, 20.0),
                run_at(_LEVEL, 60.0) + Vec(40.0, 50.0))  # fmt: skip
    for curves in (_LEVEL, (*_LEVEL, bow), (bow,)):
        edge = Edge("edge", curves, Role.SEAM, 10.0)
        for place, share in zip(cut_width._at_places(edge), (0.15, 0.5, 0.85), strict=True):
            assert distance(place, run_at(curves, share * edge.length)) < 0.1


_LEVEL = straight_run(*(Place(x, 0.0) for x in (0.0, 0.6, 30.0, 60.0)))
"""Three lines in one, the first of them short."""


def _oda() -> Pattern:
    """The bodice and sleeve of a woman whose waist lies high."""
    cm = {"stature": 171.0, "bust_girth": 98.5, "waist_girth": 79.0, "hip_girth": 107.0, "neck_base_girth": 36.5,
          "shoulder_length": 13.6, "back_waist_length": 40.5, "front_waist_length": 34.5, "neck_to_bust_point": 28.0,
          "bust_point_breadth": 19.5, "interscye_mid_distance": 37.5, "upper_arm_girth": 31.115, "wrist_girth": 16.2,
          "upper_chest_girth": 92.71, "arm_length": 58.0}  # fmt: skip
    oda = person({key: 10.0 * value for key, value in cm.items()}, body="woman", name="Oda")
    garment = Garment("Oda", oda, (BlockOrder(find_block("bodice")), BlockOrder(find_block("sleeve"))))
    return draft(garment, prepare(garment))


def _widths(pattern: Pattern) -> list[str]:
    return [result.where for result in run_checks(pattern, checks=_CHECK) if result.verdict is not Verdict.PASS]


def _spiked(piece: Piece, drawn: Sewn) -> tuple[Curve, ...]:
    """The cutting line with a point in the middle of what lies lowest, as far off as it is wide at the most."""
    line = cutting_line(piece, drawn)
    lowest = min(line, key=lambda curve: curve.start.y + curve.end.y)
    foot = lerp(lowest.start, lowest.end, 0.5)
    tip = foot + Vec(0.0, -100.0)
    k = line.index(lowest)
    return (*line[:k], Line(lowest.start, foot), Line(foot, tip), Line(tip, lowest.end), *line[k + 1 :])


def _buttoned(depth: float) -> Pattern:
    steps = (Neckline(depth=depth, shape="V"), Opening("centre front", "buttons"))
    return reduce(apply_step, steps, dress())


def _run_on(drawn: Mapping[str, Sewn], piece: str, _: Pattern) -> dict[str, Sewn]:
    """The front edge of that piece ends only so far past both its corners, mm."""
    return {**drawn, piece: Sewn(squares={"front edge": (36.0, 36.0)})}
