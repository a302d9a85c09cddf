"""What a piece and a pattern have is found by what it is, in order; what is lacking is None, empty, or refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.errors import Lacking
from drafting.pattern import find, with_pieces
from drafting.pattern.places import BodyPart, BodySide, Half, Landmark, Level, NotchMark, PieceKind, Place
from tests.drafting.dress import dress

FRONT, BACK = dress().piece("bodice front"), dress().piece("bodice back")
SLEEVE = dress().piece("sleeve")


def names(found: object) -> list[str]:
    return [each.name for each in found]  # type: ignore[attr-defined]


def test_edges_come_anticlockwise_from_where_their_run_begins() -> None:
    assert names(find.edges_at(FRONT, Place.SHOULDER)) == ["shoulder at neck", "shoulder at armhole"]
    assert names(find.edges_at(BACK, Place.SHOULDER)) == ["shoulder at armhole", "shoulder at neck"]
    turned = replace(FRONT, edges=(*FRONT.edges[4:], *FRONT.edges[:4]))  # begins within the shoulder
    assert names(find.edges_at(turned, Place.SHOULDER)) == ["shoulder at neck", "shoulder at armhole"]
    assert find.edges_at(FRONT, Place.HEM) == ()


def test_only_the_edges_of_the_half_that_is_asked_for_are_found() -> None:
    assert names(find.edges_at(SLEEVE, Place.CAP, half=Half.FRONT)) == ["cap front"]
    assert names(find.edges_at(SLEEVE, Place.CAP, half=Half.BACK)) == ["cap back"]
    assert {find.half_of(FRONT, edge) for edge in FRONT.edges} == {Half.FRONT}
    assert find.half_of(SLEEVE, SLEEVE.edge("cap back")) is Half.BACK


def test_the_first_that_is_found_is_given_and_none_where_there_is_none() -> None:
    (neck, hem) = find.edge_at(FRONT, Place.NECK), find.edge_at(FRONT, Place.HEM)
    assert (neck, hem) == (FRONT.edge("neck"), None)
    line, no_line = find.line_at(FRONT, Level.BUST), find.line_at(FRONT, Level.HIP)
    assert (line, no_line) == (FRONT.line("bust line"), None)
    point, no_point = find.point_at(FRONT, Landmark.BUST_POINT), find.point_at(SLEEVE, Landmark.BUST_POINT)
    assert point is not None
    assert (point.at, no_point) == (FRONT.point("bust point"), None)


def test_what_has_to_be_there_is_given_or_refused_with_what_is_there() -> None:
    assert find.require_edge(FRONT, Place.NECK) == FRONT.edge("neck")
    assert find.require_line(FRONT, Level.BUST) == FRONT.line("bust line")
    assert find.require_point(FRONT, Landmark.BUST_POINT).at == FRONT.point("bust point")
    assert find.require_piece(dress(), PieceKind.SLEEVE) == SLEEVE
    for lacking in (
        lambda: find.require_edge(FRONT, Place.HEM),
        lambda: find.require_line(FRONT, Level.HIP),
        lambda: find.require_point(SLEEVE, Landmark.BUST_POINT),
        lambda: find.require_piece(dress(), PieceKind.COLLAR),
    ):
        with pytest.raises(Lacking):
            lacking()


def test_a_dart_is_found_by_where_it_opens_and_what_it_aims_at() -> None:
    assert names(find.darts_at(FRONT, Place.SHOULDER)) == ["bust dart"]
    assert names(find.darts_at(FRONT, Place.WAIST)) == ["waist dart"]
    assert find.dart_places(BACK, BACK.dart("shoulder dart")) == {Place.SHOULDER}


def test_pieces_seams_and_notches_are_found_by_what_they_are() -> None:
    assert names(find.pieces_of(dress(), PieceKind.BACK, BodyPart.SKIRT)) == ["skirt back"]
    assert names(find.pieces_of(dress(), part=BodyPart.BODICE)) == ["bodice front", "bodice back"]
    assert find.is_front(FRONT)
    assert not find.is_front(BACK)
    assert names(find.notches_marking(SLEEVE, NotchMark.CROWN)) == ["crown notch"]


def test_a_piece_for_one_side_only_is_left_out_where_the_other_is_asked_for() -> None:
    left = replace(FRONT, identity=replace(FRONT.identity, side=BodySide.LEFT))
    whole = with_pieces(dress(), left)
    assert names(find.pieces_of(whole, part=BodyPart.BODICE, side=BodySide.LEFT)) == ["bodice front", "bodice back"]
    assert names(find.pieces_of(whole, part=BodyPart.BODICE, side=BodySide.RIGHT)) == ["bodice back"]


def test_a_free_name_is_the_one_that_is_asked_for_or_the_next_that_is_not_taken() -> None:
    assert find.free_name("dart", ()) == "dart"
    assert find.free_name("dart", {"dart"}) == "dart 2"
    assert find.free_name("dart", {"dart", "dart 2", "hem"}) == "dart 3"


def test_a_seam_lies_at_the_places_of_its_two_runs() -> None:
    assert find.seam_places(dress(), dress().seam("shoulder")) == ({Place.SHOULDER}, {Place.SHOULDER})
    assert find.seam_places(dress(), dress().seam("front armhole")) == ({Place.CAP}, {Place.ARMHOLE})
