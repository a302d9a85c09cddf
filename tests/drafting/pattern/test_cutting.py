from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.geometry import (
    Curve,
    Point,
    Vec,
    area,
    distance,
    mirror,
    moved_all,
    point_at,
    run_bounds,
    run_hits,
    shift,
    turn,
)
from drafting.geometry.meet import meetings, outline_crossings
from drafting.geometry.tolerance import OFFSET
from drafting.pattern import Piece, Role, Station, dart_mouth, move_piece, place
from drafting.pattern.cutting import cutting_line, dart_roof
from drafting.pattern.notches import DOUBLE_NOTCH, INWARD_NOTCH, notch_ends
from drafting.pattern.seam_ends import sewn, sewn_piece
from tests.drafting.dress import dress
from tests.drafting.geometry.shapes import bodice, skirt

PIECES = [skirt(), bodice()]


@pytest.mark.parametrize("piece", PIECES, ids=lambda p: p.name)
def test_the_cutting_line_closes_runs_anticlockwise_and_is_simple(piece: Piece) -> None:
    cut = cutting_line(piece)
    assert all(cut[k - 1].end == curve.start for k, curve in enumerate(cut))
    assert area(cut) > area(piece.outline)
    assert outline_crossings(cut) == []


@pytest.mark.parametrize("piece", PIECES, ids=lambda p: p.name)
def test_in_the_middle_of_every_seam_the_cutting_line_is_its_allowance_away(piece: Piece) -> None:
    cut = cutting_line(piece)
    for edge in piece.edges:
        if edge.role in (Role.FOLD, Role.DART_LEG):
            continue
        at, along = place(piece, Station(edge.name, 0.5 * edge.length))
        ahead = [hit.along for _, hit in run_hits(cut, at, along.right()) if hit.along > 0.0]
        assert min(ahead) == pytest.approx(edge.allowance, abs=OFFSET)


@pytest.mark.parametrize("piece", PIECES, ids=lambda p: p.name)
def test_a_fold_is_cut_on_itself(piece: Piece) -> None:
    left = run_bounds(cutting_line(piece))[0]
    assert left == pytest.approx(0.0, abs=1e-9)


def test_a_fold_has_no_allowance_even_when_one_is_written_on_it() -> None:
    piece = skirt()
    fold = replace(piece.edge("centre front"), allowance=12.0)
    written = replace(piece, edges=tuple(fold if edge.name == fold.name else edge for edge in piece.edges))
    assert cutting_line(written) == cutting_line(piece)


def test_the_hem_turned_up_lies_on_the_cloth_edge_on_edge() -> None:
    cut = cutting_line(skirt())
    up = mirror(Point(0.0, 0.0), Vec(1.0, 0.0))
    for level in (-35.0, -20.0, -5.0):
        below = max(hit.along for _, hit in run_hits(cut, Point(0.0, level), Vec(1.0, 0.0)))
        above = max(hit.along for _, hit in run_hits(cut, up.point(Point(0.0, level)), Vec(1.0, 0.0)))
        assert below == pytest.approx(above, abs=1e-6)


def test_the_waist_dart_pressed_to_the_centre_lies_on_the_cutting_line_there() -> None:
    _lies_on_its_neighbour(skirt(), "dart leg, centre", folds_after=True)


def test_the_bust_dart_pressed_down_lies_on_the_cutting_line_below() -> None:
    _lies_on_its_neighbour(bodice(), "dart leg, lower", folds_after=False)


def _lies_on_its_neighbour(piece: Piece, leg: str, *, folds_after: bool) -> None:
    """Fold the half of the dart next to `leg` about it: its cut edge must come to lie on the cutting line beyond."""
    dart = piece.darts[0]
    cut = cutting_line(piece)
    fold = piece.edge(leg)
    foot = fold.end if folds_after else fold.start
    over = mirror(dart.apex, foot - dart.apex)
    one, other = dart_mouth(piece, dart)
    middle = (one - dart.apex).unit() + (other - dart.apex).unit()
    for share in (0.2, 0.5, 0.8, 1.0):
        ray = (foot - dart.apex).unit() * (1.0 - share) + middle.unit() * share
        edge = max((hit for _, hit in run_hits(cut, dart.apex, ray)), key=lambda hit: hit.along)
        assert _off(cut, over.point(edge.point)) <= 1e-6


def _off(run: tuple[Curve, ...], to: Point) -> float:
    """How far a place is from a run: on each curve by looking at 101 places, then ever closer round the nearest."""
    return min(_off_curve(curve, to) for curve in run)


def _off_curve(curve: Curve, to: Point) -> float:
    low, high, nearest = 0.0, 1.0, float("inf")
    for _ in range(7):
        looks = [low + (high - low) * k / 100 for k in range(101)]
        best = min(looks, key=lambda t: distance(point_at(curve, t), to))
        nearest = distance(point_at(curve, best), to)
        reach = (high - low) / 50
        low, high = max(0.0, best - reach), min(1.0, best + reach)
    return nearest


@pytest.mark.parametrize("piece", PIECES, ids=lambda p: p.name)
def test_the_roof_of_a_dart_joins_its_legs(piece: Piece) -> None:
    roof = dart_roof(piece, piece.darts[0])
    assert (roof[0].start, roof[-1].end) == dart_mouth(piece, piece.darts[0])


def test_the_roof_of_a_waist_dart_peaks_outside_the_straight_mouth() -> None:
    piece = skirt()
    one, other = dart_mouth(piece, piece.darts[0])
    out = (other - one).right().unit()
    assert max(out.dot(curve.end - one) for curve in dart_roof(piece, piece.darts[0])) > 0.5


def test_the_side_a_dart_is_pressed_to_does_not_depend_on_how_the_piece_lies() -> None:
    piece = skirt()
    turned = move_piece(piece, turn(Point(0, 0), 0.4))
    assert area(cutting_line(turned)) == pytest.approx(area(cutting_line(piece)), rel=1e-9)
    mirrored = move_piece(piece, mirror(Point(0, 0), Vec(0, 1)))
    assert area(cutting_line(mirrored)) == pytest.approx(area(cutting_line(piece)), rel=1e-9)
    shifted = move_piece(piece, shift(Vec(500, -200)))
    assert len(cutting_line(shifted)) == len(cutting_line(piece))


def test_a_single_notch_runs_square_from_the_seam_to_the_cutting_line() -> None:
    piece = skirt()
    cut = cutting_line(piece)
    ((sewn, edge),) = notch_ends(piece, piece.notch("waist"), cut)
    at, along = place(piece, piece.notch("waist").station)
    assert sewn == at
    assert (edge - sewn).dot(along) == pytest.approx(0.0, abs=1e-9)
    assert distance(sewn, edge) == pytest.approx(10.0, abs=OFFSET)
    assert notch_ends(piece, piece.notch("waist"), cutting_line(piece)) == ((sewn, edge),)


def test_a_double_notch_is_two_marks_six_millimetres_apart_round_its_station() -> None:
    piece = skirt()
    (first, _), (second, _) = notch_ends(piece, piece.notch("hip"), cutting_line(piece))
    at, _ = place(piece, piece.notch("hip").station)
    assert distance(first, second) == pytest.approx(DOUBLE_NOTCH, abs=1e-3)
    assert distance(first, at) == pytest.approx(distance(second, at), abs=1e-3)


def test_a_notch_where_there_is_no_allowance_runs_into_the_piece() -> None:
    piece = skirt()
    ((sewn, inside),) = notch_ends(piece, piece.notch("fold"), cutting_line(piece))
    assert inside.near(sewn + Vec(INWARD_NOTCH, 0.0), 1e-9)


def test_a_notch_is_no_longer_than_its_allowance_where_the_cutting_line_lies_far_off() -> None:
    piece = skirt()
    allowance = piece.edge(piece.notch("waist").station.edge).allowance
    far = tuple(moved_all(cutting_line(piece), shift(Vec(0.0, 500.0))))
    ((sewn, edge),) = notch_ends(piece, piece.notch("waist"), far)
    assert distance(sewn, edge) == pytest.approx(allowance, abs=1e-9)


def test_every_notch_ends_on_the_cutting_line() -> None:
    piece = skirt()
    cut = cutting_line(piece)
    for notch in piece.notches[:2]:
        for _, end in notch_ends(piece, notch, cut):
            assert _off(cut, end) <= 1e-6


def test_the_cutting_line_never_crosses_the_sewing_line_but_at_the_fold() -> None:
    piece = bodice()
    sewn = [curve for edge in piece.edges if edge.role is not Role.FOLD for curve in edge.curves]
    fold = piece.edge("centre front")
    for curve in cutting_line(piece):
        for seam in sewn:
            assert all(m.point.near(fold.start) or m.point.near(fold.end) for m in meetings(curve, seam))


def test_a_notch_runs_into_the_same_line_whether_near_lines_or_all_of_them_are_looked_at() -> None:
    for piece in dress().pieces:
        cut = cutting_line(piece, sewn_piece(dress(), piece.name))
        for notch in piece.notches:
            edge = piece.edge(notch.station.edge)
            for foot, end in notch_ends(piece, notch, cut) if edge.allowance else ():
                out = (end - foot).unit()
                hits = (hit.along for _, hit in run_hits((*cut, *piece.outline), foot, out))
                reach = min((along for along in hits if along > 1e-3), default=edge.allowance)
                assert distance(foot, end) == pytest.approx(min(reach, edge.allowance), abs=1e-9)


def test_a_cutting_line_is_the_same_where_the_offsets_of_its_edges_are_known_and_where_they_are_not() -> None:
    for piece in dress().pieces:
        cut = cutting_line(piece)
        known = replace(piece, cut=piece.cut)
        fresh = replace(piece, edges=tuple(replace(edge) for edge in piece.edges))
        assert cutting_line(known) == cutting_line(fresh) == cut
        wider = replace(piece, edges=tuple(edge.with_allowance(edge.allowance * 1.5) for edge in piece.edges))
        again = replace(wider, edges=tuple(replace(edge) for edge in wider.edges))
        assert cutting_line(wider) == cutting_line(again)


def test_what_one_piece_is_drawn_by_is_what_all_of_them_together_say() -> None:
    together = sewn(dress())
    assert {piece.name: sewn_piece(dress(), piece.name) for piece in dress().pieces} == together


def test_a_copy_of_a_piece_does_not_take_another_cutting_line_for_the_one_it_knew() -> None:
    piece = skirt()
    notch = piece.notch("waist")
    near = notch_ends(piece, notch, cutting_line(piece))
    far = tuple(moved_all(cutting_line(piece), shift(Vec(0.0, 500.0))))
    # what a copy in another process may come to: the id of one line, known there for another
    boxes = piece._remembered[("boxes", id(cutting_line(piece)))]
    piece._remembered[("boxes", id(far))] = boxes
    assert notch_ends(piece, notch, far) == notch_ends(skirt(), notch, far)
    assert notch_ends(piece, notch, cutting_line(piece)) == near
