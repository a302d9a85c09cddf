"""Flared and gathered skirts: flare from a dart against w (T - l) / l (plane geometry: 2 by 12 cm on a skirt of 60 cm
gives 8 cm), gathers against the ratio that was asked for (1.5 to 3 times the seam, a sewing teacher on ruffles)."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.alterations import (
    DartIntoSeam,
    FlareSkirt,
    GatherSkirt,
    Lengthen,
    Opening,
    TakeIn,
    Wrap,
    apply_step,
)
from drafting.alterations.skirt.skirt_fullness import gained_at_hem
from drafting.alterations.skirt.skirt_quarter import quarters
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.geometry import Line, Point, distance, polyline, run_length, run_reversed, tangent
from drafting.pattern import (
    Across,
    BodyPart,
    Cut,
    Dart,
    Edge,
    Grain,
    MarkLine,
    Measure,
    Pattern,
    Piece,
    Place,
    Role,
    Wearer,
    edges_at,
    finished,
    walk,
    with_pieces,
)
from drafting.pattern.text import to_json
from drafting.pattern.text_read import from_json
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed, failed_after
from tests.quick_checks import run_checks

SKIRT = ("skirt front", "skirt back")


def length(piece: Piece, edge: str) -> float:
    return run_length(piece.edge(edge).curves, 1e-9)


def measured(pattern: Pattern) -> dict[str, float]:
    return {made.name: made.finished for made in finished(pattern)}


def with_one_dart(*, width: float = 20.0, long: float = 120.0, skirt: float = 600.0, away: bool = False) -> Pattern:
    """A straight quarter with one upright dart whose legs are `long`, on a skirt `skirt` long at the dart."""
    side = -1.0 if away else 1.0
    deep = math.sqrt(long**2 - (0.5 * width) ** 2)
    # the waist lies so that the dart's point is `long` below the level the skirt's length is measured from
    at = [
        Point(side * x, y)
        for x, y in ((0, 0), (300, 0), (300, skirt), (160, skirt), (150, skirt), (140, skirt), (0, skirt))
    ]
    point = Point(side * 150.0, skirt - long)
    one, other = (
        Point(side * (150.0 - 0.5 * width), point.y + deep),
        Point(side * (150.0 + 0.5 * width), point.y + deep),
    )
    upper_side, upper_centre = Point(at[2].x, other.y), Point(at[6].x, one.y)
    legs = ("leg, centre", "leg, side")
    forward = (
        Edge("hem", (Line(at[0], at[1]),), Role.HEM, place=Place.HEM),
        Edge("side seam", (Line(at[1], upper_side),), place=Place.SIDE),
        Edge("waist at side", (Line(upper_side, other),), place=Place.WAIST),
        Edge(legs[1], (Line(other, point),), Role.DART_LEG),
        Edge(legs[0], (Line(point, one),), Role.DART_LEG),
        Edge("waist at centre", (Line(one, upper_centre),), place=Place.WAIST),
        Edge("centre front", (Line(upper_centre, at[0]),), Role.FOLD, place=Place.CENTRE_FRONT),
    )
    edges: tuple[Edge, ...] = forward
    order = (legs[1], legs[0])
    if away:
        edges = tuple(replace(e, curves=run_reversed(e.curves)) for e in reversed(forward))
        order = legs
    grain = Grain(Point(side * 40.0, 100.0), Point(side * 40.0, 400.0))
    piece = Piece("skirt", edges, Cut(1, fold=True), grain, (Dart("waist dart", order, point),))
    return Pattern("skirt", Wearer("nobody"), (piece,))


@pytest.mark.parametrize("away", [False, True])
@pytest.mark.parametrize(
    ("width", "long", "skirt", "gain"),
    [(20.0, 120.0, 600.0, 80.0), (30.0, 100.0, 700.0, 180.0), (15.0, 90.0, 450.0, 60.0)],
)
def test_closing_a_dart_opens_the_hem_by_what_the_trade_says(
    width: float, long: float, skirt: float, gain: float, away: bool
) -> None:
    pattern = with_one_dart(width=width, long=long, skirt=skirt, away=away)
    (quarter,) = quarters(pattern)
    assert gained_at_hem(quarter, 1.0) == pytest.approx(width * (skirt - long) / long, rel=0.015) == gain
    after = apply_step(pattern, FlareSkirt()).piece("skirt")
    assert after.darts == ()
    assert length(after, "hem") == pytest.approx(300.0 + gain, rel=0.015)
    assert length(after, "side seam") == pytest.approx(length(pattern.piece("skirt"), "side seam"), abs=1e-9)


def test_a_dart_can_be_closed_in_part_for_a_given_hem() -> None:
    before = dress()
    after = apply_step(before, FlareSkirt(hem=200.0))
    grown = 2.0 * sum(length(after.piece(name), "hem") - length(before.piece(name), "hem") for name in SKIRT)
    assert grown == pytest.approx(200.0, rel=0.01)
    assert [len(after.piece(name).darts) for name in SKIRT] == [1, 2]
    assert {result.verdict for result in run_checks(after)} == {Verdict.PASS}


@pytest.mark.parametrize(
    "step",
    [
        FlareSkirt(),
        FlareSkirt(hem=150.0),
        FlareSkirt(hem=400.0, how="slashes"),
        FlareSkirt(hem=1600.0, how="slashes", cuts=6),
    ],
)
def test_flare_leaves_waist_side_seams_centre_and_bodice_as_they_were(step: FlareSkirt) -> None:
    before, after = dress(), apply_step(dress(), step)
    for name in SKIRT:
        was, now = before.piece(name), after.piece(name)
        for edge in now.edges:
            if edge.role is not Role.HEM:
                assert length(now, edge.name) == pytest.approx(length(was, edge.name), abs=1e-6)
            if edge.name.startswith("centre"):
                assert edge.curves == was.edge(edge.name).curves
    assert measured(after)["waist"] == pytest.approx(measured(before)["waist"], abs=1e-6)
    assert after.seams == before.seams
    assert failed(after) == []


@pytest.mark.parametrize("hem", [100.0, 600.0, 1500.0])
def test_slashes_widen_the_hem_by_what_was_asked_round_the_whole_skirt(hem: float) -> None:
    before, after = dress(), apply_step(dress(), FlareSkirt(hem=hem, how="slashes", cuts=6))
    grown = [2.0 * (length(after.piece(name), "hem") - length(before.piece(name), "hem")) for name in SKIRT]
    assert sum(grown) == pytest.approx(hem, rel=0.01)
    assert grown[0] == pytest.approx(grown[1], rel=0.02)


@pytest.mark.parametrize(("part", "radius"), [(0.5, 222.8), (0.25, 445.6)])
def test_a_straight_skirt_slashed_to_the_hem_of_part_of_a_circle_lies_on_the_circle(part: float, radius: float) -> None:
    """W 70 cm: half a circle has a radius of 22.28 cm, a quarter 44.56 (circle formulas of a home-sewing page; plane
    geometry). A quarter of it opens through 45 or 22.5 degrees, its hem by the length times that angle.
    """
    width, long, opens = 175.0, 600.0, 0.5 * math.pi * part
    straight = straight_quarter(width, long)
    after = apply_step(straight, FlareSkirt(hem=2.0 * long * opens, how="slashes", cuts=12)).piece("skirt")
    side, centre = (after.edge(name) for name in ("side seam", "centre front"))
    down = (centre.end - centre.start).unit()
    out = (side.start - side.end).unit()
    assert math.acos(down.dot(out)) == pytest.approx(opens, rel=0.02)
    assert length(after, "hem") == pytest.approx((radius + long) * opens, rel=0.01)
    # the middle of the circle lies where side and centre meet; the waist lies on it but for its hinges
    top = centre.start
    middle = Point(top.x, top.y + width / opens)
    strays = [distance(p, middle) - radius for p in polyline(after.edge("waist").curves, 1e-2)]
    assert max(map(abs, strays)) < 3.0


@pytest.mark.parametrize(("part", "radius"), [(0.5, 222.8), (0.25, 445.6)])
def test_the_finished_hip_of_such_a_skirt_is_an_arc_and_not_its_chord(part: float, radius: float) -> None:
    # the radii of the same page; 20 cm down the radius is longer by as much
    width, down, opens = 175.0, 200.0, 0.5 * math.pi * part
    straight = straight_quarter(width, 600.0)
    level = MarkLine("hip line", Point(0.0, 600.0 - down), Point(width, 600.0 - down))
    piece = replace(straight.piece("skirt"), lines=(level,))
    measure = Measure("hip", (Across("skirt", "hip line", 4.0),), round=True)
    pattern = replace(straight, pieces=(piece,), measures=(measure,))
    once = FlareSkirt(hem=2.0 * 600.0 * opens, how="slashes", cuts=12)
    twice = [replace(once, hem=600.0 * opens)] * 2
    arc, chord = 4.0 * (radius + down) * opens, 8.0 * (radius + down) * math.sin(0.5 * opens)
    assert chord < 0.994 * arc
    for steps in ([once], twice):
        after = pattern
        for step in steps:
            after = apply_step(after, step)
        assert measured(after)["hip"] == pytest.approx(arc, rel=0.002)
        assert to_json(from_json(to_json(after))) == to_json(after)


def test_what_a_flared_skirt_measures_stays_when_it_is_cut_stands_or_is_taken_in() -> None:
    flared = apply_step(dress(), FlareSkirt(hem=400.0, how="slashes"))
    hip = measured(flared)["hip"]
    # each slash opens at the hip by its share of the way down to the hem (similar triangles)
    assert hip == pytest.approx(measured(dress())["hip"] + 400.0 * 0.37, rel=0.005)
    for step, more in (
        (DartIntoSeam("skirt front", "waist dart", "hem"), 0.0),
        (Opening("centre front", fasten="buttons", button=15.0), 0.0),
        (Wrap(overlap=100.0), 0.0),
        (TakeIn(hip=20.0), -20.0),
    ):
        assert measured(apply_step(flared, step))["hip"] == pytest.approx(hip + more, abs=1e-6), step


def straight_quarter(width: float, long: float) -> Pattern:
    at = [Point(0.0, 0.0), Point(width, 0.0), Point(width, long), Point(0.0, long)]
    edges = (
        Edge("hem", (Line(at[0], at[1]),), Role.HEM, place=Place.HEM),
        Edge("side seam", (Line(at[1], at[2]),), place=Place.SIDE),
        Edge("waist", (Line(at[2], at[3]),), place=Place.WAIST),
        Edge("centre front", (Line(at[3], at[0]),), Role.FOLD, place=Place.CENTRE_FRONT),
    )
    grain = Grain(Point(40.0, 100.0), Point(40.0, 400.0))
    return Pattern("skirt", Wearer("nobody"), (Piece("skirt", edges, Cut(1, fold=True), grain),))


@pytest.mark.parametrize("ratio", [1.5, 2.0, 3.0])
def test_a_gathered_waist_is_cut_as_many_times_as_long_and_sewn_as_long_as_it_was(ratio: float) -> None:
    before, after = dress(), apply_step(dress(), GatherSkirt(ratio))
    for name in ("front waist", "back waist"):
        walked, ease = walk(after, after.seam(name)), after.seam(name).ease
        assert walked.a == pytest.approx(ratio * walked.b, abs=1e-3)
        assert ease.wanted == pytest.approx((ratio - 1.0) * walked.b, abs=1e-3)
        assert ease.low < ease.wanted < ease.high
    assert [after.piece(name).darts for name in SKIRT] == [(), ()]
    assert measured(after)["waist"] == pytest.approx(measured(before)["waist"], abs=1e-3)
    assert {result.verdict for result in run_checks(after)} == {Verdict.PASS}


def test_a_gathered_skirt_hangs_straight() -> None:
    after = apply_step(dress(), GatherSkirt(2.5))
    for name in SKIRT:
        piece = after.piece(name)
        (hem,) = piece.edge("hem").curves
        assert isinstance(hem, Line)
        assert abs(tangent(hem, 0.0).y) < 1e-9
        line = piece.line("hip line")
        assert line.start.y == pytest.approx(line.end.y, abs=1e-9)
        side, was = piece.edge("side seam"), dress().piece(name).edge("side seam")
        assert side.start.y == pytest.approx(was.start.y, abs=1e-9)


def test_a_gathered_waist_bends_one_way_and_runs_on_where_its_darts_were() -> None:
    for base in dresses():
        for piece in (p for p in apply_step(base, GatherSkirt(2.0)).pieces if p.identity.part is BodyPart.SKIRT):
            along = polyline([curve for edge in edges_at(piece, Place.WAIST) for curve in edge.curves], 0.01)
            steps = [b - a for a, b in pairwise(along) if distance(a, b) > 0.1]
            turns = [math.degrees(one.angle_to(other)) for one, other in pairwise(steps)]
            assert min(turns) > -0.1 or max(turns) < 0.1, piece.name


def test_a_notch_moved_off_its_share_of_the_gathers_is_found() -> None:
    after = apply_step(dress(), GatherSkirt(2.0))
    front = after.piece("skirt front")
    off = tuple(
        replace(n, station=replace(n.station, at=n.station.at + 8.0)) if "waist" in n.name else n for n in front.notches
    )
    wrong = failed(with_pieces(after, replace(front, notches=off)))
    assert [result.code for result in wrong] == ["notches-meet"]


def test_only_one_piece_may_be_flared_and_the_seams_still_meet() -> None:
    after = apply_step(dress(), FlareSkirt(hem=200.0, how="slashes", only="skirt back"))
    assert after.piece("skirt front") == dress().piece("skirt front")
    grown = length(after.piece("skirt back"), "hem") - length(dress().piece("skirt back"), "hem")
    assert grown == pytest.approx(100.0, rel=0.01)
    assert failed(after) == []


@pytest.mark.parametrize(
    "step",
    [
        FlareSkirt(),
        FlareSkirt(hem=120.0, how="slashes"),
        FlareSkirt(hem=1500.0, how="slashes", cuts=6),
        GatherSkirt(1.5),
        GatherSkirt(3.0),
    ],
)
def test_the_dress_goes_together_on_every_body_of_the_sample(step: FlareSkirt | GatherSkirt) -> None:
    for pattern in dresses():
        try:
            assert failed_after(pattern, step) == []
        except StepRefused as refusal:
            assert 'no dart in its waist to close; how = "slashes"' in str(refusal)  # noqa: PT017


def test_flared_and_gathered_skirts_can_be_altered_further() -> None:
    for first in (FlareSkirt(), FlareSkirt(hem=600.0, how="slashes"), GatherSkirt(2.0)):
        full = apply_step(dress(), first)
        for step in (Lengthen("skirt front", 60.0), FlareSkirt(hem=150.0, how="slashes")):
            assert failed(apply_step(full, step)) == [], (first, step)


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (FlareSkirt(hem=2000.0), 'how = "slashes"'),
        (FlareSkirt(how="slashes"), 'hem = "30 cm"'),
        (FlareSkirt(only="skirt frnt"), 'Did you mean "skirt front"'),
        (FlareSkirt(hem=5900.0, how="slashes"), "turn its sides"),
        (GatherSkirt(1.1), "times as long already; gather more; this can be had: ratio = 1.2"),
        (GatherSkirt(2.0, cuts=1.5), "no whole number"),
    ],
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: FlareSkirt | GatherSkirt, says: str) -> None:
    with pytest.raises(StepRefused) as refusal:
        apply_step(dress(), step)
    assert says in str(refusal.value)


def test_a_skirt_can_be_gathered_by_the_ratio_that_a_refusal_names_and_no_second_time_by_the_same() -> None:
    with pytest.raises(StepRefused) as refusal:
        apply_step(dress(), GatherSkirt(1.1))
    least = float(str(refusal.value).rpartition("ratio = ")[2].split()[0])
    gathered = apply_step(dress(), GatherSkirt(least))
    assert failed(gathered) == []
    with pytest.raises(StepRefused, match="as long already"):
        apply_step(gathered, GatherSkirt(least))


def test_a_skirt_with_a_button_stand_is_gathered_and_may_be_held_to_the_other_half() -> None:
    with_stand = apply_step(dress(), Opening(at="centre front", fasten="buttons", button=15.0))
    assert failed(apply_step(with_stand, GatherSkirt())) == []
    assert failed(apply_step(with_stand, GatherSkirt(only="skirt back"))) == []


def test_a_garment_without_a_skirt_has_none_to_flare() -> None:
    whole = dress()
    alone = Pattern("sleeve", whole.wearer, (whole.piece("sleeve"),))
    for step in (FlareSkirt(), GatherSkirt()):
        with pytest.raises(StepRefused, match="no skirt") as refused:
            apply_step(alone, step)
        assert refused.value.alteration == step.name
