"""Hems, against the depths the trade gives (American Sewing Guild, "How deep is that hem?"; 4-H, "It's Fun to Sew a
Cotton School Dress"), against plane geometry, and against shapely as a stranger."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

import pytest
from shapely.affinity import scale
from shapely.geometry import Polygon

from drafting.alterations import Hem, Lengthen, Wrap, apply_step
from drafting.errors import StepRefused
from drafting.geometry import Curve, Line, Point, arc, polyline, run_length, run_reversed
from drafting.parts.finishes.facing_strip import FREE_EDGE
from drafting.pattern import Cut, Edge, Grain, MarkLine, Pattern, Piece, Role, Wearer, finished, with_edges, with_pieces
from drafting.pattern.cutting import cutting_line
from drafting.pattern.old_names import piece_by_names
from tests.alteration_samples import SAMPLES
from tests.drafting.dress import dress
from tests.drafting.dresses import dresses, failed


def flared(angle: float, radius: float = 900.0, waist: float = 200.0) -> Pattern:
    """A quarter of a skirt cut from a circle: its hem bends through `angle`, radians; the sides run to the middle."""
    end = Point(radius * math.sin(angle), -radius * math.cos(angle))
    top = Point(waist * math.sin(angle), -waist * math.cos(angle))
    hem = arc(Point(0.0, 0.0), radius, -0.5 * math.pi, angle)
    waist_line = arc(Point(0.0, 0.0), waist, -0.5 * math.pi, angle)
    edges = (
        Edge("hem", _ends(hem, Point(0.0, -radius), end), Role.HEM, 20.0),
        Edge("side seam", (Line(end, top),), Role.SEAM, 15.0),
        Edge("waist", run_reversed(_ends(waist_line, Point(0.0, -waist), top)), Role.SEAM, 15.0),
        Edge("centre front", (Line(Point(0.0, -waist), Point(0.0, -radius)),), Role.FOLD),
    )
    level = -waist - 200.0
    hip = MarkLine("hip line", Point(0.0, level), Point(-level * math.tan(angle), level))
    grain = Grain(Point(30.0, -0.8 * radius), Point(30.0, -0.5 * radius))
    piece = piece_by_names(Piece("skirt front", edges, Cut(1, fold=True), grain, lines=(hip,)))
    return Pattern("circle", Wearer("nobody"), (piece,))


def _ends(run: Sequence[Curve], start: Point, end: Point) -> tuple[Curve, ...]:
    curves = list(run)
    curves[0] = replace(curves[0], start=start)
    curves[-1] = replace(curves[-1], end=end)
    return tuple(curves)


def below_the_fold(piece: Piece) -> Polygon:
    """What lies below the hem line, as shapely sees it; of a piece whose hem is straight and level."""
    level = piece.edge("hem").start.y
    paper = Polygon([(p.x, p.y) for p in polyline(cutting_line(piece), 1e-6)])
    far = 2000.0
    return paper.intersection(Polygon([(-far, level), (far, level), (far, level - far), (-far, level - far)]))


@pytest.mark.parametrize("depth", [50.0, 76.2, 101.6])
def test_a_hem_of_two_to_four_inches_on_a_straight_skirt_changes_nothing_but_itself(depth: float) -> None:
    after = apply_step(dress(), Hem("skirt front", depth=depth))
    for name in ("skirt front", "skirt back"):
        assert after.piece(name).edge("hem").allowance == depth
        assert below_the_fold(after.piece(name)).bounds[1] == pytest.approx(-620.0 - depth, abs=1e-6)
    assert finished(after) == finished(dress())
    assert after.piece("sleeve") == dress().piece("sleeve")


def test_one_years_growth_is_added_to_the_hem_there_is() -> None:
    after = apply_step(dress(), Hem("skirt back", grow=40.0))
    assert after.piece("skirt front").edge("hem").allowance == 80.0
    assert not failed(after)


def test_turned_up_it_lies_on_the_cloth_of_a_flared_skirt_exactly() -> None:
    """Below the fold line the paper is the mirror image of what lies above it (common practice), seen by shapely."""
    skirt = dress().piece("skirt front")
    corner = skirt.edge("hem").start
    side = skirt.edge("side seam")
    hip = side.curves[0].start if side.curves[0].start != corner else side.curves[0].end
    leaning = Point(corner.x - 60.0, corner.y)
    edges = {
        "hem": replace(skirt.edge("hem"), curves=(Line(leaning, skirt.edge("hem").end),)),
        "side seam": replace(side, curves=(*side.curves[:-1], Line(side.curves[-1].start, leaning))),
    }
    assert hip != leaning
    flaring = with_edges(skirt, *edges.values())
    after = apply_step(with_pieces(dress(), flaring), Hem("skirt front", depth=80.0, only="skirt front"))
    piece = after.piece("skirt front")
    turned = below_the_fold(piece)
    level = piece.edge("hem").start.y
    up = scale(turned, 1.0, -1.0, origin=(0.0, level))
    paper = Polygon([(p.x, p.y) for p in polyline(cutting_line(piece), 1e-6)])
    assert up.difference(paper.buffer(1e-3)).area == pytest.approx(0.0, abs=1e-3)
    assert up.area == pytest.approx(paper.intersection(up.envelope).area, abs=1.0)


CIRCLES = [(1.0, 111.4), (0.75, 148.5), (0.5, 222.8), (1 / 3, 334.2), (0.25, 445.6)]
"""W 70 cm: the radius of the waist of a whole circle, of three quarters, a half, a third, a quarter of one, mm (circle
formulas of a home-sewing page, r = W / angle; the figures follow by plane geometry)."""


@pytest.mark.parametrize(("part", "radius"), CIRCLES)
def test_a_skirt_cut_from_part_of_a_circle_of_the_trades_radius_has_the_waist_it_is_for(
    part: float, radius: float
) -> None:
    quarter = flared(0.5 * math.pi * part, radius + 600.0, radius).pieces[0]
    assert 4.0 * run_length(quarter.edge("waist").curves) == pytest.approx(700.0, abs=0.4)
    assert run_length(quarter.edge("hem").curves) - run_length(quarter.edge("waist").curves) == pytest.approx(
        600.0 * 0.5 * math.pi * part, rel=3e-4
    )
    # cut along the sewing line less the allowance (plane geometry)
    cut = cutting_line(quarter)
    assert min(math.hypot(p.x, p.y) for p in polyline(cut, 1e-3)) == pytest.approx(radius - 15.0, abs=0.1)


@pytest.mark.parametrize(
    ("part", "radius", "depth", "lies"),
    [
        (1.0, 111.4, 6.35, True),  # a circle: 1/4 in, says the Guild
        (1.0, 111.4, 76.2, False),  # and not the 3 in of a straight one
        (0.5, 222.8, 38.1, True),  # a flared one, 1 1/2 in (4-H)
        (0.5, 222.8, 101.6, False),
    ],
)
def test_a_curved_hem_takes_as_much_as_can_be_eased(part: float, radius: float, depth: float, lies: bool) -> None:
    """A circle and half a circle for a waist of 70 cm, 60 cm long."""
    pattern = flared(0.5 * math.pi * part, radius + 600.0, radius)
    hem = radius + 600.0
    if lies:
        after = apply_step(pattern, Hem("skirt front", depth=depth))
        # turned up by t its edge is longer than the hem by t times the angle (plane geometry)
        cut = cutting_line(after.piece("skirt front"))
        lowest = min(p.y for p in polyline(cut, 1e-4))
        assert lowest == pytest.approx(-hem - depth, abs=0.05)
        return
    with pytest.raises(StepRefused, match=r"too full .* this can be had: finish = \"facing\"; or depth = "):
        apply_step(pattern, Hem("skirt front", depth=depth))


def test_the_depth_that_a_refusal_names_is_taken() -> None:
    pattern = flared(0.5 * math.pi, 900.0)
    with pytest.raises(StepRefused, match='or depth = "54 mm"'):
        apply_step(pattern, Hem("skirt front", depth=80.0))
    assert apply_step(pattern, Hem("skirt front", depth=54.0)).piece("skirt front").edge("hem").allowance == 54.0


def test_levelling_makes_the_side_as_long_below_the_hip_as_the_centre() -> None:
    """An uneven hem: the centre was let down by 3 cm, the side not."""
    pattern = flared(0.4, 900.0)
    piece = pattern.piece("skirt front")
    low = Point(0.0, -930.0)
    hem = piece.edge("hem")
    uneven = with_edges(
        piece,
        replace(hem, curves=(Line(low, hem.end),)),
        replace(piece.edge("centre front"), curves=(Line(piece.edge("centre front").start, low),)),
    )
    after = apply_step(with_pieces(pattern, uneven), Hem("skirt front", level=True)).piece("skirt front")
    side, centre = after.edge("side seam"), after.edge("centre front")
    hip = after.line("hip line")
    assert (hip.end - side.start).norm() == pytest.approx((hip.start - centre.end).norm(), abs=1e-6)
    assert centre == uneven.edge("centre front")
    # square to both, so one line with its own mirror image and with the next piece
    new = after.edge("hem")
    assert abs((polyline(new.curves, 1e-3)[1] - new.start).unit().y) < 0.02


def test_a_level_hem_stays_where_it_is() -> None:
    after = apply_step(dress(), Hem("skirt front", level=True))
    for name in ("skirt front", "skirt back"):
        assert after.piece(name).edge("hem") == dress().piece(name).edge("hem")
        assert after.piece(name).edge("side seam").length == pytest.approx(dress().piece(name).edge("side seam").length)


@pytest.mark.parametrize("piece", ["skirt front", "sleeve"])
def test_a_facing_has_the_shape_of_the_edge_and_is_sewn_together_as_the_pieces_are(piece: str) -> None:
    after = apply_step(dress(), Hem(piece, finish="facing", depth=60.0))
    own = after.piece(piece)
    made = after.piece(f"{piece} hem facing")
    hem = next(e.name for e in dress().piece(piece).edges if e.role is Role.HEM)
    assert made.edge(hem).curves == own.edge(hem).curves
    assert own.edge(hem).role is Role.SEAM
    assert own.edge(hem).allowance == 15.0
    assert made.cut == replace(own.cut, interfacing=own.cut.count)
    assert made.edge(FREE_EDGE).allowance == 0.0
    hem_line, free = (Polygon([(p.x, p.y) for p in polyline(made.edge(e).curves, 1e-5)] + [(0.0, 0.0)])
                      for e in (hem, FREE_EDGE))  # fmt: skip
    assert hem_line.exterior.distance(free.exterior) <= 60.0
    middle = made.edge(FREE_EDGE)
    assert min(abs(p.y - q.y) for p in polyline(middle.curves) for q in polyline(made.edge(hem).curves)) > 40.0
    assert not failed(after)
    assert {s.name for s in after.seams} - {s.name for s in dress().seams} >= {f"{piece} hem facing to {hem}"}


def test_a_faced_skirt_can_still_be_lengthened() -> None:
    after = apply_step(apply_step(dress(), Hem("skirt front", finish="facing")), Lengthen("skirt front", 30.0))
    assert not failed(after)


@pytest.mark.parametrize("options", SAMPLES["hem"], ids=str)
def test_every_woman_of_the_sample_can_have_it_and_all_goes_together(options: Mapping[str, object]) -> None:
    for pattern in dresses()[:: 1 if "finish" in options else 4]:
        after = apply_step(pattern, Hem(**options))  # type: ignore[arg-type]
        assert not failed(after), pattern.wearer.name


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (Hem("skirt front"), "nothing is to be done"),
        (Hem("skirt frnt", depth=50.0), 'Did you mean "skirt front"'),
        (Hem("bodice front", depth=50.0), "has no hem"),
        (Hem("sleeve", level=True), "leave level out"),
        (Hem("skirt front", depth=50.0, only="sleeve"), "runs on from"),
        (Hem("skirt front", finish="facing", only="skirt front"), "leave only out"),
    ],
    ids=str,
)
def test_what_makes_no_sense_is_refused_in_a_sentence(step: Hem, says: str) -> None:
    with pytest.raises(StepRefused, match=says) as refused:
        apply_step(dress(), step)
    assert refused.value.alteration == step.name


def test_only_holds_it_to_one_piece() -> None:
    after = apply_step(dress(), Hem("skirt front", depth=60.0, only="skirt front"))
    assert after.piece("skirt back") == dress().piece("skirt back")
    assert run_length(after.piece("skirt front").outline) == run_length(dress().piece("skirt front").outline)


@pytest.mark.parametrize("facing", [0.0, 60.0])
def test_a_skirt_that_wraps_over_is_levelled_before(facing: float) -> None:
    level = Hem("skirt front", level=True)
    assert failed(apply_step(apply_step(dress(), level), Wrap(140.0, slant=-60.0, facing=facing))) == []
    with pytest.raises(StepRefused, match=r'wraps over; put this step before "wrap over"'):
        apply_step(apply_step(dress(), Wrap(140.0, slant=-60.0, facing=facing)), level, as_written=True)
