"""Wrapping over: each front 3 in beyond the centre, so 6 in of overlap (N. Smith, "Sew the wrap skirt"); a half circle
as a wrap: (W + 12 in)/3 stands in for /pi, 13.67 against the true 13.05 in for W 29 in (plane geometry)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import reduce
from itertools import pairwise

import pytest
from shapely.geometry import LineString, Polygon

from drafting.alterations import (
    FlareSkirt,
    GatherSkirt,
    Hem,
    Lengthen,
    Opening,
    ShapedBand,
    SkirtYoke,
    TakeIn,
    Wrap,
    apply_step,
)
from drafting.errors import StepRefused
from drafting.geometry import Curve, Line, Vec, mirror, moved_all, polyline, run_length
from drafting.pattern import (
    BodyLength,
    Landmark,
    NotchMark,
    Pattern,
    Piece,
    Place,
    Role,
    edges_at,
    finished,
    require_edge,
    walk,
)
from drafting.pattern.text import to_json
from tests.alteration_samples import SAMPLES
from tests.drafting.alterations.finishes.test_hem import flared
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed
from tests.drafting.sizes import sized
from tests.outside import stranger, walk_seams

INCH = 25.4


def measured(pattern: Pattern) -> dict[str, float]:
    return {made.name: made.finished for made in finished(pattern)}


def beyond_centre(piece: Piece, level: float) -> float:
    """How far a front reaches beyond its centre, x = 0, at a level, as shapely sees it."""
    cloth = Polygon([(p.x, p.y) for p in polyline(piece.outline, 1e-6)])
    return float(cloth.intersection(LineString([(0.0, level), (900.0, level)])).length)


def test_three_inches_each_are_six_of_overlap_and_the_fit_stays() -> None:
    after = apply_step(dress(), Wrap(3 * INCH))
    now = measured(after)
    assert now["overlap at the waist"] == pytest.approx(6 * INCH, abs=1e-4)
    assert now["overlap at the hem"] == pytest.approx(6 * INCH, abs=1e-4)
    assert {name: now[name] for name in measured(dress())} == pytest.approx(measured(dress()), abs=1e-6)
    piece = after.piece("skirt front")
    assert (piece.cut.count, piece.cut.fold, piece.cut.mirror) == (2, False, True)
    assert piece.edge("wrap edge").role is Role.OPENING
    assert not failed(after)


def test_half_a_circle_wraps_over_a_waist_with_the_radius_that_pi_gives_and_not_with_a_third() -> None:
    """W 29 in and 6 in on each front: 41 in lie on half a circle of 13.05 in; with 41 / 3 = 13.67 it is 1.9 too big."""
    waist, overlap, long = 29.0 * INCH, 6.0 * INCH, 600.0
    radius = (waist + 2.0 * overlap) / math.pi
    assert radius / INCH == pytest.approx(13.05, abs=0.005)
    quarter = flared(0.25 * waist / radius, radius + long, radius)
    after = apply_step(quarter, Wrap(overlap)).piece("skirt front")
    on_front = sum(run_length(edge.curves, 1e-7) for edge in after.edges if "waist" in edge.name)
    whole = 2.0 * on_front + 2.0 * 0.25 * waist  # two fronts that wrap, and the two halves of the back
    assert whole == pytest.approx(math.pi * radius, abs=0.05)
    assert whole == pytest.approx(41.0 * INCH, abs=0.05)
    # both fronts' waists lie on the one circle, so the skirt is half of it
    places = [p for edge in after.edges if "waist" in edge.name for p in polyline(edge.curves, 1e-3)]
    assert [math.hypot(p.x, p.y) for p in places] == pytest.approx([radius] * len(places), abs=0.2)
    too_big = math.pi * (waist + 2.0 * overlap) / 3.0 - (waist + 2.0 * overlap)
    assert too_big / INCH == pytest.approx(math.pi * (13.67 - 13.05), abs=0.02)


@pytest.mark.parametrize(("overlap", "slant"), [(76.2, 0.0), (120.0, 80.0), (180.0, -90.0)])
def test_the_report_gives_the_overlap_that_a_stranger_measures(overlap: float, slant: float) -> None:
    after = apply_step(dress(), Wrap(overlap, slant, knee=430.0))
    piece, now = after.piece("skirt front"), measured(after)
    hip = piece.line("hip line").start.y
    for name, level in (("hip", hip), ("knee", -430.0), ("hem", -620.0 + 1e-6)):
        assert now[f"overlap at the {name}"] == pytest.approx(2.0 * beyond_centre(piece, level), abs=1e-3)
    assert now["overlap at the hem"] == pytest.approx(2.0 * (overlap + slant), abs=1e-4)
    assert now["overlap at the waist"] == pytest.approx(2.0 * overlap, abs=1e-4)


def test_what_lies_underneath_has_the_waist_of_what_lies_on_top() -> None:
    """Beyond the centre the waist is the other half's, mirrored; over its dart it runs on as the folded waist does."""
    piece = apply_step(dress(), Wrap(150.0)).piece("skirt front")
    under = piece.edge("wrap at waist")
    before = dress().piece("skirt front")
    over = before.edge("waist at centre").curves
    image = moved_all(over, mirror(over[0].start, before.edge("centre front").end - before.edge("centre front").start))
    outline = LineString([(p.x, p.y) for p in polyline(under.curves, 1e-5)])
    assert all(outline.distance(LineString([(p.x, p.y), (p.x, p.y + 1e-9)])) < 1e-3 for p in polyline(image, 1e-3))
    assert run_length(under.curves, 1e-7) == pytest.approx(150.0, abs=1e-4)
    # one smooth line through the centre and over the folded dart
    bends = [abs(math.atan2(a.cross(b), a.dot(b))) for a, b in pairwise(_directions(under.curves))]
    assert max(bends) < math.radians(3.0)


def _directions(run: Sequence[Curve]) -> list[Vec]:
    points = polyline(run, 1e-3)
    return [(b - a).unit() for a, b in pairwise(points)]


def test_the_knee_is_where_the_wearer_has_it() -> None:
    lengths = (BodyLength("waist_height", 1050.0, "measured"), BodyLength("knee_height", 470.0, "measured"))
    known = replace(dress(), wearer=replace(dress().wearer, lengths=(*dress().wearer.lengths, *lengths)))
    piece = apply_step(known, Wrap(100.0, 100.0)).piece("skirt front")
    assert piece.point("centre front at knee").y == pytest.approx(-580.0, abs=1e-9)


def test_a_skirt_above_the_knee_has_no_overlap_there() -> None:
    assert "overlap at the knee" not in measured(apply_step(dress(), Wrap(100.0, knee=640.0)))


def test_the_wrap_edge_is_faced_in_its_own_shape_or_turned_in() -> None:
    faced, turned = apply_step(dress(), Wrap(100.0, 50.0)), apply_step(dress(), Wrap(100.0, 50.0, facing=0.0))
    made = faced.piece("skirt front facing")
    assert made.edge("wrap edge").curves == faced.piece("skirt front").edge("wrap edge").curves
    assert isinstance(made.edge("free edge").curves[0], Line)
    assert len(turned.pieces) == len(dress().pieces)
    assert not failed(faced)
    assert not failed(turned)


def test_a_wrapped_skirt_needs_no_opening_at_the_back() -> None:
    pieces = tuple(piece for piece in dress().pieces if piece.name.startswith("skirt"))
    seams = tuple(s for s in dress().seams if all(r.piece.startswith("skirt") for r in (*s.a, *s.b)))
    measures = tuple(m for m in dress().measures if all(part.piece.startswith("skirt") for part in m.tape))
    skirt = replace(dress(), pieces=pieces, seams=seams, measures=measures)
    closed = apply_step(skirt, Opening("centre back", "closed"))
    assert failed(closed)
    assert not failed(apply_step(closed, Wrap()))


@pytest.mark.parametrize(
    "steps",
    [
        (Wrap(), Lengthen("skirt front", 60.0), TakeIn(waist=20.0, hip=20.0)),
        (Wrap(100.0, 80.0), Lengthen("skirt front", -60.0), Hem("skirt front", depth=60.0)),
        (TakeIn(waist=-20.0, darts=0.5), Lengthen("skirt front", 100.0), Wrap(120.0, -40.0)),
    ],
    ids=str,
)
def test_before_and_after_other_steps_it_keeps_its_word(steps: tuple[Wrap, ...]) -> None:
    pattern = dress()
    for step in steps:
        pattern = apply_step(pattern, step)
    assert not failed(pattern)
    seam = pattern.seam("front waist")
    was = walk(dress(), dress().seam("front waist"))
    now = walk(pattern, seam)
    assert now.a - now.b == pytest.approx(was.a - was.b, abs=1e-5)


@pytest.mark.parametrize("options", SAMPLES["wrap over"], ids=str)
def test_every_woman_of_the_sample_can_have_it_and_all_goes_together(options: Mapping[str, object]) -> None:
    """But for one whose waist is narrower than that, which is refused with the most she can have."""
    refused = []
    for pattern in dresses():
        try:
            after = apply_step(pattern, Wrap(**options))  # type: ignore[arg-type]
        except StepRefused as refusal:
            refused.append(str(refusal))
            continue
        assert not failed(after), pattern.wearer.name
    assert all("this can be had: overlap = " in sentence for sentence in refused)
    assert len(refused) <= 1


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (Wrap(250.0), r'past the other side seam; this can be had: overlap = "19\d mm"'),
        (Wrap(100.0, 300.0), 'past the other side seam; this can be had: overlap = "66 mm", slant = "199 mm"'),
        (Wrap(100.0, -95.0), "slant it less"),
        (Wrap(piece="skirt back"), "has no edge at its centre front"),
        (Wrap(piece="bodice front"), "cannot wrap over: that is for a skirt front"),
        (Wrap(piece="skrit front"), 'Did you mean "skirt front"'),
        (Wrap(40.0, facing=0.001), "10 mm deep at least"),
    ],
    ids=str,
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: Wrap, says: str) -> None:
    with pytest.raises(StepRefused, match=says) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


def test_the_most_that_a_refusal_names_is_taken() -> None:
    assert not failed(apply_step(dress(), Wrap(100.0, 165.0)))


def test_a_second_wrap_is_refused() -> None:
    with pytest.raises(StepRefused, match='"skirt front" wraps over already'):
        apply_step(apply_step(dress(), Wrap()), Wrap())


def test_a_skirt_whose_darts_were_closed_into_flare_wraps_as_far_as_its_whole_waist_allows() -> None:
    """Its waist is then of two edges that meet without a dart: both of them are the other half's."""
    wide = apply_step(sized(92), FlareSkirt())
    wrapped = apply_step(wide, Wrap(overlap=120.0))
    waist = require_edge(wrapped.piece("skirt front"), Place.WRAP)
    assert waist.length == pytest.approx(120.0, abs=1e-6)
    assert not failed(wrapped)


TOPS = (
    (SkirtYoke(60.0),),
    (SkirtYoke(120.0),),  # the darts end on its seam
    (ShapedBand(45.0),),
    (SkirtYoke(90.0), ShapedBand(30.0)),
)


@pytest.mark.parametrize("top", TOPS)
def test_a_front_wraps_over_with_its_yoke_and_its_band(top: Sequence[SkirtYoke | ShapedBand]) -> None:
    """The edge runs straight over the seams between them, and every seam meets as a stranger walks it."""
    before = reduce(apply_step, top, dress())
    after = apply_step(before, Wrap(140.0, -60.0))
    now = measured(after)
    assert {name: now[name] for name in measured(before)} == pytest.approx(measured(before), abs=1e-6)
    assert now["overlap at the waist"] == pytest.approx(280.0, abs=1e-4)
    assert now["overlap at the hem"] == pytest.approx(160.0, abs=1e-4)
    edges = [edge for piece in after.pieces for edge in piece.edges if edge.place is Place.WRAP_EDGE]
    fronts = [edge for edge in edges if len(edge.curves) == 1 and edge.role is Role.OPENING]
    assert len(fronts) == len(top) + 1
    named = [piece.name for piece in before.pieces if edges_at(piece, Place.CENTRE_FRONT) and "skirt" in piece.name]
    assert len(named) == len(fronts)
    assert all(apply_step(before, Wrap(140.0, -60.0, piece=name)).pieces == after.pieces for name in named[-1:])
    directions = [(edge.end - edge.start).unit() for edge in fronts]
    assert max(abs(directions[0].cross(other)) for other in directions) < 1e-6
    assert not failed(after)
    assert walk_seams.faults(stranger.read(to_json(after))) == []


def test_what_hangs_from_a_yoke_is_gathered_but_not_where_it_wraps_over() -> None:
    wrapped = apply_step(apply_step(dress(), SkirtYoke(60.0)), Wrap(80.0))
    after = apply_step(wrapped, GatherSkirt(2.0))
    beyond, was = (require_edge(each.piece("skirt front"), Place.WRAP).length for each in (after, wrapped))
    assert beyond == pytest.approx(was, abs=1e-9)
    seam = walk(after, next(seam for seam in after.seams if any(ref.piece == "skirt front yoke" for ref in seam.b)))
    assert seam.gathered
    marks = [n for n in after.piece("skirt front").notches if n.marks is NotchMark.GATHERS_END]
    assert len(marks) == 1
    assert not failed(after)
    assert walk_seams.faults(stranger.read(to_json(after))) == []


@pytest.mark.parametrize("flare", [FlareSkirt(), FlareSkirt(hem=600.0, how="slashes")])
def test_a_flared_skirt_wraps_over_alike_from_a_script_whichever_is_taken_first(flare: FlareSkirt) -> None:
    """What lies underneath has the shape of what lies on top, so the wrap is drawn to the flared half."""
    wrap = Wrap(120.0, 60.0)
    one, other = (reduce(apply_step, steps, dress()) for steps in ((wrap, flare), (flare, wrap)))
    assert (one.pieces, one.seams, one.measures) == (other.pieces, other.seams, other.measures)
    assert not failed(one)


def test_each_level_of_the_overlap_is_marked_by_its_own_name_on_every_piece() -> None:
    after = reduce(apply_step, (SkirtYoke(60.0), Wrap(140.0, -60.0)), dress())
    for name, levels in (
        ("skirt front yoke", ["waist", "yoke seam"]),
        ("skirt front", ["yoke seam", "hip", "knee", "hem"]),
    ):
        for landmark, where in ((Landmark.CENTRE, "centre front"), (Landmark.EDGE, "wrap edge")):
            marks = [mark.name for mark in after.piece(name).points if mark.landmark is landmark]
            assert marks == [f"{where} at {level}" for level in levels]
