"""Pieces laid on cloth: nothing overlaps, nothing lies off the cloth, the grain is kept, folds and pairs are right."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, MutableMapping
from dataclasses import replace

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, union_all

from drafting.errors import InputProblems
from drafting.geometry import Point
from drafting.pattern import Pattern, with_pieces
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import sewn_piece
from output.lay.find_lay import find_lay
from output.lay.how_much import before_washing, length_to_buy, shop_length
from output.lay.lay_drawing import lay_svg
from output.lay.lay_pieces import pieces_to_lay
from output.lay.lay_values import FOLDS, Lay, LayPiece, Placement, Spread, Stretch
from output.lay.lay_widths import known_lay, opened_out, usual_widths, width_table
from output.lay.lay_words import lies_words, placed_words, width_text
from output.lay.search_lay import search_lay
from output.lay.solve_stretch import pack_closer, solve_strip
from output.lay.verify_lay import faults_in_lay
from tests.examples import NAMES, example_pattern
from tests.sampling import some


def shape(placed: Placement) -> Polygon:
    return Polygon([(p.x, p.y) for p in placed.outline])


def cut_as(placements: Iterable[Placement], name: str) -> list[Placement]:
    """What is laid of a piece: the piece itself as often as it is cut, or the strips that a band too long is cut in."""
    return [each for each in placements if each.piece.name.partition(", strip ")[0] == name]


TOO_WIDE = {"half-tide-skirt": 1120.0, "spillway-skirt": 1120.0}
"""Half a circle and a pleated skirt: the front, 125 cm and more across, is refused on cloth so wide and narrower."""


def whole_area(pattern: Pattern) -> float:
    """What all that is cut measures, by shapely, from the pieces themselves and not from what was laid."""
    total = 0.0
    for piece in pattern.pieces:
        curves = cutting_line(piece, sewn_piece(pattern, piece.name))
        points = [p for curve in curves for p in _along(curve)]
        total += Polygon(points).area * piece.cut.count * (2 if piece.cut.fold else 1)
    return total


def _along(curve: object) -> list[tuple[float, float]]:
    from drafting.geometry import point_at

    places = [point_at(curve, t / 32) for t in range(32)]  # type: ignore[arg-type]
    return [(p.x, p.y) for p in places]


@settings(max_examples=20, deadline=None)
@given(
    st.sampled_from(NAMES),
    st.floats(850.0, 1700.0),
    st.sampled_from(FOLDS),
    st.booleans(),
    st.sampled_from([0.0, 0.0, 80.0, 310.0]),
)
def test_every_lay_is_whole_and_right(name: str, width: float, fold: str, one_way: bool, repeat: float) -> None:
    pattern = example_pattern(name)
    cloth = Spread(width, fold, one_way=one_way, repeat=repeat)  # type: ignore[arg-type]
    try:
        lay = find_lay(pattern, cloth, tries=4)
    except InputProblems:
        reject()  # told to her; the test below reads it
    assert faults_in_lay(lay) == ()
    cut = 0.0
    for stretch in lay.stretches:
        shapes = [shape(placed) for placed in stretch.placements]
        # nothing overlaps: the union has the area of all of them
        assert union_all(shapes).area == pytest.approx(sum(each.area for each in shapes), rel=1e-9)
        for placed, laid in zip(stretch.placements, shapes, strict=True):
            left, low, right, high = laid.bounds
            assert left >= -1e-6
            assert right <= stretch.length + 1e-6
            room = width * {"lengthwise": 0.5, "double": 0.25}.get(stretch.cloth.fold, 1.0)
            if stretch.cloth.fold == "double" and high > room:
                low, high = 0.5 * width - high, 0.5 * width - low  # from the other fold
            folded = stretch.cloth.fold in ("lengthwise", "double")
            assert low >= (10.0 if not folded else 0.0 if placed.piece.on_fold else 4.0) - 1e-6
            assert high <= room - 10.0 + 1e-6
            grain = placed.piece.grain
            if grain is not None:
                start, end = (placed.move.point(p) for p in grain)
                assert start.y == pytest.approx(end.y, abs=1e-6)
            assert not (placed.turned and (one_way or repeat))
            assert not placed.piece.on_fold or low == pytest.approx(0.0, abs=1e-9)
            halves = 2 if placed.piece.on_fold or placed.piece.layers == 2 else 1
            cut += laid.area * halves
    assert cut == pytest.approx(whole_area(pattern), rel=2e-3)
    assert lay.used * lay.length * width == pytest.approx(cut, rel=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_single_cloth_has_of_each_pair_one_and_its_mirror_image(name: str) -> None:
    pattern = example_pattern(name)
    (stretch,) = find_lay(pattern, Spread(1500.0, "single"), tries=3).stretches
    for piece in pattern.pieces:
        own = sorted(cut_as(stretch.placements, piece.name), key=lambda placed: placed.flipped)
        assert len(own) == piece.cut.count * (own[0].piece.strips if own else 1)
        if piece.cut.mirror and own:
            pairs = piece.cut.count // 2
            assert [placed.flipped for placed in own] == [False] * pairs + [True] * pairs
            ends = (own[0], own[-1])
            one, other = (affinity.rotate(shape(each), 180.0 * each.turned, origin=(0, 0)) for each in ends)
            image = affinity.scale(one, 1.0, -1.0, origin=(0, 0))
            along, up = other.bounds[0] - image.bounds[0], other.bounds[1] - image.bounds[1]
            moved = affinity.translate(image, along, up)
            assert moved.symmetric_difference(other).area < 1e-3 * other.area
        if piece.cut.fold:
            for opened in own:
                axis = affinity.scale(shape(opened), 1.0, -1.0)
                assert axis.symmetric_difference(shape(opened)).area < 1e-6 * axis.area


def test_a_piece_too_wide_for_folded_cloth_is_cut_from_cloth_opened_out() -> None:
    lay = find_lay(example_pattern("lantern-dress"), Spread(900.0), tries=3)
    folded, opened = lay.stretches
    assert {placed.piece.name for placed in opened.placements} == {"sleeve"}
    assert folded.cloth.fold == "lengthwise"
    assert opened.cloth.fold == "single"
    assert len(lies_words(lay, "cm")) == 2


def test_a_piece_too_wide_for_any_way_is_named_with_what_to_do() -> None:
    with pytest.raises(InputProblems) as wrong:
        find_lay(example_pattern("ferry-dress"), Spread(400.0, "single"), unit="cm")
    told = " ".join(wrong.value.sentences())
    assert "the skirt back on cloth 40.0 cm wide" not in told
    assert "the skirt front on cloth 40.0 cm wide" in told
    assert "58.0 cm across the grain" in told
    assert "Take cloth at least 60.0 cm wide, or divide the piece by a seam" in told


def test_a_grain_at_45_degrees_lies_along_the_cloth() -> None:
    from drafting.pattern import Grain

    pattern = example_pattern("bakehouse-bodice")
    sleeve = pattern.piece("sleeve")
    assert sleeve.grain is not None
    middle = sleeve.grain.start
    bias = with_pieces(pattern, replace(sleeve, grain=Grain(middle, Point(middle.x - 100.0, middle.y - 100.0))))
    straight, turned = (
        next(piece for piece in pieces_to_lay(each, Spread(1400.0)) if piece.name == "sleeve")
        for each in (pattern, bias)
    )
    back = affinity.rotate(Polygon([(p.x, p.y) for p in straight.outline]), 45.0, origin=(0, 0))
    other = affinity.rotate(Polygon([(p.x, p.y) for p in straight.outline]), -45.0, origin=(0, 0))
    there = Polygon([(p.x, p.y) for p in turned.outline])
    spans = sorted((round(s.bounds[2] - s.bounds[0]), round(s.bounds[3] - s.bounds[1])) for s in (back, other))
    assert (round(there.bounds[2] - there.bounds[0]), round(there.bounds[3] - there.bounds[1])) in spans


def square(side: float, name: str = "square", **more: object) -> LayPiece:
    corners = ((0.0, 0.0), (side, 0.0), (side, side), (0.0, side))
    return LayPiece(name, tuple(Point(*p) for p in corners), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("spoilt", "said"),
    [
        ((Placement(square(100.0), 0.0, 9.0), Placement(square(100.0, "other"), 103.0, 9.0)), "without a gap"),
        ((Placement(square(100.0), 0.0, 9.0), Placement(square(100.0, "other"), 50.0, 50.0)), "over each other"),
        ((Placement(square(100.0), -1.0, 0.0),), "off the cloth"),
        ((Placement(square(100.0), 0.0, 400.0),), "off the cloth"),
        ((Placement(square(100.0, on_fold=True), 0.0, 5.0),), "not lie at the fold"),
        ((Placement(square(100.0), 100.0, 110.0, turned=True),), "upside down"),
        ((Placement(square(100.0, flips=(False,)), 0.0, 110.0, flipped=True),), "wrong side"),
    ],
)
def test_the_verdict_finds_what_is_wrong(spoilt: tuple[Placement, ...], said: str) -> None:
    (fault, *_) = faults_in_lay(Lay((Stretch(Spread(1000.0, one_way=True), spoilt),)))
    assert said in fault


def test_a_small_lay_is_as_short_as_it_can_be() -> None:
    # four squares two by two on single cloth: 2 x 100 and the gap between them
    from output.lay.slide_pieces import slide_in

    cloth = Spread(230.0, "single")
    stretch = slide_in([square(100.0, times=4)], cloth, tries=5)
    assert stretch.length == pytest.approx(204.0, abs=1e-9)
    assert faults_in_lay(Lay((stretch,))) == ()


@pytest.mark.parametrize(
    ("lay", "shrinkage", "unit", "shop"),
    [
        # trade arithmetic: 60 in 5 % cloth is 63.2; with 2 cm for the ends 580 mm come to 63.2 cm, so 70 cm
        (580.0, 0.05, "cm", "0.7 m"),
        (580.0, 0.0, "cm", "0.6 m"),
        (580.1, 0.0, "cm", "0.7 m"),
        (36 * 25.4 - 20.0, 0.0, "in", "1 yd"),
        (36 * 25.4 - 19.0, 0.0, "in", "1 1/8 yd"),
        (10.0, 0.0, "in", "1/8 yd"),
    ],
)
def test_a_length_to_buy_is_what_a_shop_cuts(lay: float, shrinkage: float, unit: str, shop: str) -> None:
    assert shop_length(length_to_buy(lay, shrinkage, unit), unit) == shop
    assert before_washing(580.0, 0.05) == pytest.approx(600.0 / 0.95)


@pytest.mark.parametrize("unit", ["cm", "in"])
@pytest.mark.parametrize("name", some(NAMES, every=6))
def test_wider_cloth_never_takes_more_nor_does_cutting_singly(name: str, unit: str) -> None:
    for tries in (1, 12):
        table = width_table(example_pattern(name), Spread(1300.0), "shell", unit, tries=tries)
        assert [*table] == sorted({*usual_widths(unit), 1300.0})
        for kept in (table, table[1300.0]):  # the pattern keeps it: nobody who is given it changes it
            assert not isinstance(kept, MutableMapping)
        for fold in ("lengthwise", "single"):
            lengths = [math.inf if (lay := ways[fold]) is None else lay.length for ways in table.values()]
            assert lengths == sorted(lengths, reverse=True)
        for width, ways in table.items():
            folded, single = ways["lengthwise"], ways["single"]
            assert folded is None or (single is not None and single.length <= folded.length + 1e-9)
            for fold, lay in ways.items():
                assert lay is None or faults_in_lay(lay) == ()
                assert lay is None or {each.cloth.width for each in lay.stretches} == {width}
                folds = {fold} if lay is None else {each.cloth.fold for each in lay.stretches}
                assert fold == "lengthwise" or fold in folds
                assert fold != "single" or folds == {fold}
    assert (width_text(1400.0, "cm"), width_text(54 * 25.4, "in")) == ("140 cm", "54 in")


@pytest.mark.parametrize("name", some(NAMES, every=6, first=1))
def test_what_the_search_begins_from_is_no_longer_than_on_narrower_cloth_or_folded(name: str) -> None:
    for fold in FOLDS[:3]:
        lengths = [
            known_lay(example_pattern(name), Spread(width, fold), "shell", "cm").length for width in (1400.0, 1500.0)
        ]
        assert lengths[1] <= lengths[0]
    for width in (1120.0, 1400.0):
        if width <= TOO_WIDE.get(name, 0.0):
            with pytest.raises(InputProblems, match="the skirt front on cloth"):
                known_lay(example_pattern(name), Spread(width), "shell", "cm")
            continue
        folded, single = (known_lay(example_pattern(name), Spread(width, fold), "shell", "cm") for fold in FOLDS[:2])
        assert single.length <= folded.length + 1e-9


@pytest.mark.parametrize("one_way", [False, True])
@pytest.mark.parametrize("width", [900.0, 1400.0])
@pytest.mark.parametrize("name", NAMES)
def test_a_folded_lay_opened_out_is_the_same_cloth_cut_singly(name: str, width: float, one_way: bool) -> None:
    pattern, cloth = example_pattern(name), Spread(width, one_way=one_way)
    if width <= TOO_WIDE.get(name, 0.0):
        with pytest.raises(InputProblems, match="the skirt front on cloth"):
            find_lay(pattern, cloth, tries=3)
        return
    folded = find_lay(pattern, cloth, tries=3)
    opened = opened_out(pattern, folded, "shell")
    (stretch,) = opened.stretches
    assert opened.length == pytest.approx(folded.length, abs=1e-9)
    assert opened.used == pytest.approx(folded.used, rel=1e-9)
    assert faults_in_lay(opened) == ()
    own = {id(each.piece): each.piece for each in stretch.placements}
    assert sorted(map(str, own.values())) == sorted(map(str, pieces_to_lay(pattern, replace(cloth, fold="single"))))
    for piece in pattern.pieces:
        lies = cut_as(stretch.placements, piece.name)
        assert len(lies) == piece.cut.count * (lies[0].piece.strips if lies else 1)
        assert not piece.cut.mirror or sum(each.flipped for each in lies) * 2 == len(lies)
    # each half of the folded cloth shows what lay on it: its upper layer above the middle, its lower one mirrored
    shown = union_all([shape(each) for each in stretch.placements])
    # (what lay face down on the upper layer, which shows its wrong side, lies face up on the lower one's half)
    laid = [each for each in folded.stretches[0].placements if folded.stretches[0].cloth.fold == "lengthwise"]
    down = [each.flipped and each.piece.layers == 1 for each in laid]
    for faces in (False, True):
        layer = union_all([shape(each) for each, is_down in zip(laid, down, strict=True) if is_down is faces])
        half = affinity.scale(layer, 1.0, -1.0, origin=(0.0, 0.0)) if faces else layer
        expected = affinity.translate(half, 0.0, 0.5 * width)
        assert expected.difference(shown).area < 1e-6 * max(1.0, expected.area)


@pytest.mark.parametrize("fold", ["lengthwise", "double", "across"])
def test_what_is_cut_once_lies_face_down_on_folded_cloth_and_face_up_on_cloth_opened_out(fold: str) -> None:
    # folded right sides together, the upper layer shows its wrong side: a band laid print up would come out mirrored
    pattern = example_pattern("towpath-skirt")
    (band,) = (each for each in pieces_to_lay(pattern, Spread(1400.0, fold)) if each.name == "waistband")
    assert band.flips == (True,)
    (band,) = (each for each in pieces_to_lay(pattern, Spread(1400.0, "single")) if each.name == "waistband")
    assert band.flips == (False,)
    lay = find_lay(pattern, Spread(1400.0))
    if any(each.piece.name == "waistband" and each.flipped for part in lay.stretches for each in part.placements):
        assert "Lay the paper face down" in " ".join(lies_words(lay, "cm"))


@pytest.mark.parametrize("fold", some(FOLDS, every=2))
def test_the_solver_packs_no_worse_and_keeps_the_folds(fold: str) -> None:
    cloth = Spread(1400.0, fold)  # type: ignore[arg-type]
    before = find_lay(example_pattern("signal-dress"), cloth, tries=1)
    shares: list[float] = []
    for stretch in before.stretches:
        packed = pack_closer(stretch, seconds=0.25, tell=shares.append)
        assert packed.length <= stretch.length
        assert faults_in_lay(Lay((packed,))) == ()
        assert sorted(p.piece.name for p in packed.placements) == sorted(p.piece.name for p in stretch.placements)
    assert shares
    assert max(shares) <= 1.0


def test_a_solver_that_falls_over_leaves_the_lay_as_it_was() -> None:
    outlines = [tuple(Point(*p) for p in ((0.0, 0.0), (50.0, 0.0), (50.0, 300.0), (0.0, 300.0)))]
    assert list(solve_strip(outlines, [(0.0,)], height=100.0, gap=0.0, seconds=2.0, seed=1)) == []


def test_stopping_the_search_gives_the_best_so_far(monkeypatch: pytest.MonkeyPatch) -> None:
    pattern = example_pattern("towpath-skirt")
    asked = itertools.count()
    lay = search_lay(pattern, Spread(1400.0), seconds=300.0, stopped=lambda: next(asked) > 3)
    assert faults_in_lay(lay) == ()

    def interrupted(*_given: object, **_more: object) -> Lay:
        raise KeyboardInterrupt

    monkeypatch.setattr("output.lay.search_lay.pack_lay", interrupted)
    begun = known_lay(pattern, Spread(1400.0), "shell", "cm")
    assert search_lay(pattern, Spread(1400.0), seconds=300.0).length == begun.length


def test_the_drawing_names_every_piece_and_says_how_the_cloth_lies() -> None:
    lay = find_lay(example_pattern("ferry-dress"), Spread(1400.0, one_way=True), tries=3)
    drawing = lay_svg(lay, "Ferry dress", "cm")
    for said in (
        "skirt front",
        "on the fold",
        "selvedges",
        "folded lengthwise",
        "140 cm wide",
        "nap or print",
        ">100 cm<",
    ):
        assert said in drawing
    where = placed_words(lay, "cm")
    assert {each.piece for each in where} == {piece.name for piece in example_pattern("ferry-dress").pieces}
    assert {each.across for each in where if each.piece == "skirt front"} == {"on the fold"}
    assert all(math.isfinite(float(each.along.split()[0])) for each in where)


def test_a_long_band_of_interfacing_is_joined_where_that_saves_cloth() -> None:
    pattern, cloth = example_pattern("towpath-skirt"), Spread(900.0)
    (whole,) = pieces_to_lay(pattern, cloth, "interfacing")
    lay = find_lay(pattern, cloth, "interfacing")
    strips = [placed for stretch in lay.stretches for placed in stretch.placements]
    assert lay.length < 0.5 * (long := max(p.x for p in whole.outline) - min(p.x for p in whole.outline))
    # laid end over end by 1 cm they are as long as the band, and as wide
    lengths = [max(p.x for p in each.piece.outline) - min(p.x for p in each.piece.outline) for each in strips]
    assert sum(lengths) - 10.0 * (len(strips) - 1) == pytest.approx(long)
    assert all(each.piece.across == pytest.approx(whole.across) for each in strips)
    assert f"The waistband is cut in {len(strips)} strips" in " ".join(lies_words(lay, "cm"))
    assert faults_in_lay(opened_out(pattern, lay, "interfacing")) == ()


def test_folded_double_two_pieces_can_lie_on_a_fold_beside_each_other() -> None:
    (stretch,) = find_lay(example_pattern("ferry-dress"), Spread(1800.0, "double")).stretches
    on_fold = {placed.piece.name: shape(placed).bounds for placed in stretch.placements if placed.piece.on_fold}
    assert {low == pytest.approx(0.0) for _, low, _, _ in on_fold.values()} == {True, False}
    assert all(low == pytest.approx(0.0) or high == pytest.approx(900.0) for _, low, _, high in on_fold.values())
    for placed in stretch.placements:
        _, low, _, high = shape(placed).bounds
        assert high <= 440.0 + 1e-6 or low >= 460.0 - 1e-6  # none lies over the selvedges in the middle
