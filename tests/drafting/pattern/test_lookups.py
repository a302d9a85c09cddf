"""What is asked for by name and is not there is refused, with what there is; the words people use find their place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.alterations import Alteration, Godet, Kimono, PatchPocket, SlantedPocket, apply_step
from drafting.errors import NotAPattern, UnknownName
from drafting.geometry import Line, Point, Vec
from drafting.pattern import (
    Across,
    Bent,
    Between,
    Cut,
    Grain,
    Level,
    MarkLine,
    MarkPoint,
    Measure,
    Nest,
    Origin,
    Place,
    Sized,
    edges_at,
    hangs_from,
    laid_together,
    with_edges,
)
from drafting.pattern.derived import Site
from drafting.pattern.let_down import let_down_by
from drafting.pattern.neck_band import BlockBand, band_of_block
from drafting.pattern.place_words import place_called
from drafting.pattern.places import BodyPart, BodySide
from drafting.pattern.pockets import edge_past_pocket, one_sided, pockets
from drafting.pattern.seam_ends import seam_ends
from drafting.pattern.text import seams_json, with_seams
from tests.drafting.dress import dress
from tests.drafting.pattern.full import full
from tests.drafting.pattern.sample import front, pattern


@pytest.mark.parametrize(
    ("ask", "said"),
    [
        (front().edge, '"skirt front" has no edge "knee". It has: hem, side seam,'),
        (front().index, '"skirt front" has no edge "knee". It has: hem, side seam,'),
        (front().dart, '"skirt front" has no dart "knee". It has: waist dart.'),
        (front().notch, '"skirt front" has no notch "knee". It has: hip, low hip.'),
        (front().line, '"skirt front" has no line "knee". It has: hip line.'),
        (replace(front(), points=front().points[:1]).point, '"skirt front" has no point "knee". It has: hip point.'),
        (pattern().piece, 'There is no piece "knee". There is: skirt front, skirt back.'),
        (pattern().seam, 'There is no seam "knee". There is: side seam, waist to waist.'),
        (pattern().wearer.length, 'There is no measurement "knee". There is: waist_girth, hip_height.'),
    ],
)
def test_a_name_that_is_not_there_is_refused_with_what_there_is(ask: Callable[[str], object], said: str) -> None:
    with pytest.raises(UnknownName) as refused:
        ask("knee")
    assert str(refused.value).startswith(said)


def test_an_edge_that_ends_elsewhere_is_refused_with_how_far_off() -> None:
    hem = front().edge("hem")
    with pytest.raises(NotAPattern, match=r'its "hem" ends 30\.00 mm from where the next edge begins'):
        with_edges(front(), replace(hem, curves=(Line(hem.start, hem.end + Vec(0.0, -30.0)),)))


def test_a_nest_has_the_pieces_of_its_pattern_laid_on_the_grain_of_the_first() -> None:
    sizes = Nest("Skirt", (Sized("92", pattern()), Sized("96", pattern())))
    assert sizes.piece_names == ("skirt front", "skirt back")
    bare = replace(front(), grain=None)
    assert laid_together((bare, front())) == (bare, front())
    moved = replace(front(), grain=replace(front().grain, start=Point(20.0, 100.0)))  # type: ignore[type-var]
    one, other, third = laid_together((front(), moved, bare))
    assert (one, third) == (front(), bare)
    assert other.edge("hem").start == Point(40.0, 0.0)
    assert other.grain is not None
    assert other.grain.start == Point(60.0, 100.0)


@pytest.mark.parametrize(
    ("options", "band"),
    [
        ({"opening": "knit band", "band_width": 25, "band_stretch": 0.4}, BlockBand(25.0, 0.4)),
        ({"opening": "knit band", "band_width": 25.0}, None),
        ({"opening": "knit band", "band_stretch": 0.4}, None),
        ({"opening": "snaps", "band_width": 25.0, "band_stretch": 0.4}, None),
        ({}, None),
    ],
)
def test_the_band_of_a_block_is_known_by_its_width_and_its_stretch(
    options: dict[str, str | float], band: BlockBand | None
) -> None:
    plain, knit = Origin("skirt", (("ease", 20.0),)), Origin("child's top", tuple(options.items()))
    assert band_of_block(replace(pattern(), origin=(plain, knit))) == band


def test_a_place_that_can_be_sewn_on_is_told_by_its_line_and_part() -> None:
    assert str(Site(Place.WAIST, BodyPart.SKIRT)) == "waist of the skirt"


WORDS = {
    Place.NECK: "neckline, neck edge, Neck",
    Place.SHOULDER: "shoulder seam",
    Place.ARMHOLE: "scye, armscye, arm hole",
    Place.SIDE: "side, side_seam",
    Place.UNDERARM: "underarm, sleeve seam",
    Place.CAP: "cap, sleeve head, crown",
    Place.WAIST: "waistline, waist seam",
    Place.HIP: "hipline",
    Place.HEM: "hemline, hem edge",
    Place.WRIST: "sleeve hem, wrist edge",
    Place.LEG_OPENING: "leg hem, ankle",
    Place.CENTRE_FRONT: "front centre, CF, center front",
    Place.CENTRE_BACK: "back centre, cb, Centre Back",
    Place.INSEAM: "inside leg, inside leg seam",
    Place.OUTSEAM: "outside leg, outside leg seam",
    Place.CROTCH: "crotch seam, crotch curve",
    Place.YOKE: "yoke",
    Place.EMPIRE: "under-bust seam, underbust seam",
    Place.PRINCESS: "princess line",
    Place.RAGLAN: "raglan",
}


def test_the_words_people_use_for_a_place_find_it() -> None:
    assert {word: place_called(word) for words in WORDS.values() for word in words.split(", ")} == {
        word: place for place, words in WORDS.items() for word in words.split(", ")
    }
    assert place_called("knee hole") is None


def test_the_seams_and_parts_of_a_pattern_go_into_a_line_of_text_and_back() -> None:
    text = seams_json(full())
    assert "\n" not in text
    assert '": ' not in text  # as short as it can be
    bare = replace(full(), seams=(), derived=(), unfinished=None)
    assert with_seams(bare, text) == replace(full(), unfinished=None)


def test_a_tape_is_let_down_where_its_end_lies_on_an_edge_that_is_and_not_beyond_it() -> None:
    """By one millimetre it may lie beside the edge, as the end of a centre line may."""
    hem = front().edge("hem")
    first, last = sorted((hem.start, hem.end), key=lambda end: end.x)
    left = MarkLine("let down", hem.start + Vec(0.0, -30.0), hem.end + Vec(0.0, -30.0), level=Level.LET_DOWN)
    for off, more in ((0.0, 30.0), (0.9, 30.0), (1.1, 0.0), (0.05 * (last.x - first.x), 0.0)):
        for end in (first + Vec(-off, 0.0), last + Vec(off, 0.0), first + Vec(50.0, off)):
            piece = replace(front(), lines=(left,), points=(*front().points, MarkPoint("end", end)))
            tape = Measure("length", (Between(piece.name, "hip point", "end", 2.0),))
            assert let_down_by(replace(pattern(), pieces=(piece,), seams=(), measures=()), tape) == more


def test_the_grain_of_a_piece_without_a_grain_line_runs_straight_up() -> None:
    bare = replace(front(), grain=None)
    assert bare.grain_direction == Vec(0.0, 1.0)
    assert replace(front(), grain=Grain(Point(60.0, 100.0), Point(160.0, 100.0))).grain_direction == Vec(1.0, 0.0)


@pytest.mark.parametrize(
    ("cut", "side", "one"),
    [
        (Cut(1, fold=True), BodySide.LEFT, True),
        (Cut(2, mirror=True), BodySide.LEFT, True),
        (Cut(1), BodySide.LEFT, False),
        (Cut(1, fold=True), None, False),
    ],
)
def test_a_patch_for_one_side_is_told_where_its_piece_is_there_for_both(
    cut: Cut, side: BodySide | None, one: bool
) -> None:
    after = apply_step(dress(), PatchPocket("skirt back", left_only=True, width=90.0, height=100.0))
    (patch,) = pockets(after)
    lies_on = replace(after.piece("skirt back"), cut=cut)
    asked = replace(patch, identity=replace(patch.identity, side=side))
    assert one_sided(asked, replace(after, pieces=(lies_on, asked), seams=(), measures=())) is one


def test_the_outline_goes_on_past_a_slanted_pocket_on_the_other_of_front_and_hip_piece() -> None:
    pattern = apply_step(dress(), SlantedPocket())
    found = {
        (piece.name, str(edge.place), onward): (other[0].name, str(other[0].edges[other[1]].place))
        for piece in pattern.pieces
        for edge in piece.edges
        for onward in (True, False)
        if (other := edge_past_pocket(pattern, piece, edge, onward=onward))
    }
    front, hip = "skirt front", "skirt front hip piece"
    assert found == {
        (front, "pocket mouth", True): (hip, "waist"),
        (front, "pocket mouth", False): (hip, "side seam"),
        (hip, "upper edge of a pocket", False): (front, "waist"),
        (hip, "pocket edge", True): (front, "side seam"),
    }


@pytest.mark.parametrize("tape", [Across("skirt front", "hip line"), Bent("skirt front", "hip line", "hip line")])
def test_what_is_measured_across_hangs_from_nothing(tape: Across | Bent) -> None:
    pieces = {piece.name: piece for piece in pattern().pieces}
    assert hangs_from(pieces, Measure("width", (tape,))) is None


@pytest.mark.parametrize("step", [Kimono(), Godet(at="slits"), Godet()])
def test_round_a_gusset_and_a_godet_no_allowance_is_cut_square(step: Alteration) -> None:
    after = apply_step(dress(), step)
    set_in = {(piece.name, edge.name) for piece in after.pieces for edge in edges_at(piece, Place.GUSSET, Place.GODET)}
    assert set_in
    ends = seam_ends(after)
    assert "skirt side seam" in {end.seam for end in ends}
    assert not [end.seam for end in ends if not set_in.isdisjoint(end.edges)]
