"""What a piece and a pattern have is found by what it is, in order; what is lacking is None, empty, or refused."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.alterations import Neckline, apply_step
from drafting.errors import Lacking
from drafting.pattern import find, with_pieces
from drafting.pattern.derived import DrawnTo
from drafting.pattern.old_names import necks_by_steps
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


def test_what_has_to_be_there_is_given() -> None:
    assert find.require_edge(FRONT, Place.NECK) == FRONT.edge("neck")
    assert find.require_line(FRONT, Level.BUST) == FRONT.line("bust line")
    assert find.require_point(FRONT, Landmark.BUST_POINT).at == FRONT.point("bust point")
    assert find.require_piece(dress(), PieceKind.SLEEVE) == SLEEVE


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


def test_the_nape_of_the_body_is_known_wherever_the_neckline_is_cut() -> None:
    lower = apply_step(dress(), Neckline(depth=30.0, back=20.0))
    for pattern, front, back in ((dress(), 0.0, 0.0), (lower, 30.0, 20.0)):
        assert find.nape_level(pattern.piece(BACK.name)) == find.nape_level(BACK) == 405.0
        assert find.neck_lowered(pattern.piece(BACK.name)) == back
        assert find.neck_lowered(pattern.piece(FRONT.name)) == front
    assert find.nape_level(FRONT) is None
    assert find.neck_lowered(SLEEVE) == 0.0


def test_a_file_that_does_not_keep_how_low_a_neck_lies_is_told_by_its_steps() -> None:
    lower = apply_step(apply_step(dress(), Neckline(depth=30.0, back=20.0)), Neckline(depth=5.0, only=FRONT.name))
    bare = [replace(p, points=tuple(replace(mark, lowered=0.0) for mark in p.points)) for p in lower.pieces]
    kept = replace(with_pieces(lower, *bare), derived=())
    assert necks_by_steps(kept).pieces == lower.pieces
    assert necks_by_steps(lower) is lower
    assert necks_by_steps(replace(kept, history=())).pieces == kept.pieces


def test_a_piece_that_is_cut_apart_is_named_after_the_whole() -> None:
    assert find.part_name("skirt front", "side") == "skirt front, side"
    assert find.part_name("skirt front", "side", ["skirt front, side"]) == "skirt front, side 2"
    for name, part in (("skirt front, side", True), ("skirt front side 2", True), ("skirt front", False)):
        assert find.is_part_name(name, "skirt front") is part
    assert not find.is_part_name("skirt back, side", "skirt front")


def test_what_is_drawn_to_a_skirt_is_drawn_to_trousers_where_there_is_no_skirt() -> None:
    skirt = find.pieces_of(dress(), kind=PieceKind.FRONT, part=BodyPart.SKIRT)[0]
    asked = DrawnTo(Place.WAIST, skirt.identity)
    assert list(find.pieces_drawn_to(dress(), asked)) == [skirt]
    legs = replace(skirt, name="legs", identity=replace(skirt.identity, part=BodyPart.TROUSERS))
    alone = replace(dress(), pieces=(FRONT, legs), seams=(), measures=())
    assert list(find.pieces_drawn_to(alone, asked)) == [legs]
    assert list(find.pieces_drawn_to(replace(alone, pieces=(*alone.pieces, skirt)), asked)) == [skirt]


def test_what_is_lacking_is_told_with_what_there_is() -> None:
    asked: list[tuple[Callable[[], object], str]] = [
        (lambda: find.require_edge(FRONT, Place.HEM), '"bodice front" has no hem. It has: centre front'),
        (lambda: find.require_line(FRONT, Level.HIP), '"bodice front" has no hip line. It has: underarm line'),
        (lambda: find.require_point(FRONT, Landmark.NAPE), '"bodice front" has no nape. It has: bust point'),
        (lambda: find.require_piece(dress(), PieceKind.COLLAR), "The pattern has no collar. There is: bodice front"),
        (
            lambda: find.require_piece(dress(), PieceKind.FRONT, BodyPart.TROUSERS),
            "The pattern has no trousers front. There is: bodice front",
        ),
    ]
    for ask, said in asked:
        with pytest.raises(Lacking) as refused:
            ask()
        assert str(refused.value).startswith(said)
