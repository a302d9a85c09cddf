"""What stands on a printed piece, on every example: the words that are needed, where they belong, over no line."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
import shapely

from drafting.alterations import GatherSkirt, MoveDart, Opening, PatchPocket, Wrap, apply_step
from drafting.geometry import polyline
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Landmark, Pattern, Place, edges_at, points_at
from drafting.pattern.buttons import buttonhole
from output.drawings.drawing import LineKind, Stroke, Text, runs
from output.drawings.lettering import corners
from output.drawings.piece_drawing import Heading, piece_lines, with_notes
from output.drawings.piece_notes import piece_words, still_to_finish
from tests.drafting.dress import dress
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.examples import NAMES, example_pattern
from tests.wardrobe import a_garment


@pytest.fixture(scope="module")
def examples() -> tuple[Pattern, ...]:
    return tuple(map(example_pattern, NAMES))


def written(pattern: Pattern, name: str) -> list[str]:
    piece = pattern.piece(name)
    drawn = with_notes(piece_lines(piece), piece, Heading("Ferry dress"), piece_words(piece, pattern, "cm"))
    return [item.words for item in drawn.items if isinstance(item, Text)]


def test_the_back_of_a_skirt_tells_its_number_its_centre_and_where_the_opening_ends() -> None:
    words = written(dress(), "skirt back")
    assert "piece 5 of 5" in words
    assert "centre back: left open, to be fastened" in words
    assert "centre back: seam" in words
    assert "the opening ends here" in words


def test_a_sleeve_tells_its_front_from_its_back() -> None:
    words = written(dress(), "sleeve")
    assert "front of the sleeve" in words
    assert "back of the sleeve" in words
    assert sum(each.startswith("ease in 1.0 cm from ") for each in words) == 2


def test_half_a_collar_tells_which_end_goes_where_and_one_on_the_fold_needs_not_to() -> None:
    half = written(with_part(sized(92, "bodice"), part_of(find_part("flat collar"), {})), "collar")
    assert {"back end", "front end"} <= set(half)
    whole = apply_step(sized(92, "bodice"), Opening("centre back", "closed"))
    whole = apply_step(whole, Opening("centre front", length=150.0))
    assert "front end" not in written(with_part(whole, part_of(find_part("flat collar"), {})), "collar")


def test_a_dart_tells_its_name_and_which_way_it_is_pressed() -> None:
    assert "bust dart: press toward the centre" in written(dress(), "bodice front")
    step = MoveDart("bodice front", "bust dart", "side seam", measured_from="armhole", at=60.0)
    assert "bust dart: press down" in written(apply_step(dress(), step), "bodice front")


def test_what_nothing_finishes_yet_is_said_on_the_piece_and_in_sentences() -> None:
    assert "neck: to be bound or faced" in written(dress(), "bodice front")
    assert still_to_finish(dress()) == (
        "The neck of bodice front and bodice back is bare: no neck facing is drawn yet. Face it, by a "
        '[[part]] with name = "neck facing", or bind it.',
    )
    skirt = replace(dress(), pieces=dress().pieces[3:], seams=dress().seams[5:6])
    assert still_to_finish(skirt)[0].startswith("The waist of skirt front and skirt back is bare: no waistband")


def test_a_facing_says_where_it_is_sewn_and_that_it_is_stiffened(examples: tuple[Pattern, ...]) -> None:
    wrap = next(each for each in examples if any(piece.name == "skirt front facing" for piece in each.pieces))
    assert "faced: sew the skirt front facing here" in written(wrap, "skirt front")
    assert "free edge: neaten it" in written(wrap, "skirt front facing")
    assert "and 2 of interfacing" in written(wrap, "skirt front facing")
    lined = next(each for each in examples if each.title == "Boathouse dress")
    for facing, lining in (("front", "bodice front"), ("back", "bodice back")):
        assert f"sew the {lining} lining here" in written(lined, f"{facing} neck facing")
        assert f"faced: sew the {facing} neck facing here" in written(lined, f"{lining} lining")
        assert "free edge: neaten it" not in written(lined, f"{facing} neck facing")


def test_a_waistband_says_where_its_underlap_begins_and_whose_it_is(examples: tuple[Pattern, ...]) -> None:
    skirt = next(each for each in examples if each.title == "Towpath skirt")
    words = written(skirt, "waistband")
    assert {"centre back: underlap beyond", "piece 3 of 3, Ferry dress"} <= set(words)
    assert "the opening ends here" not in words


def test_no_words_run_over_other_words_or_over_a_line_to_cut_or_sew_on_any_example(
    examples: tuple[Pattern, ...],
) -> None:
    for pattern in examples:
        for piece in pattern.pieces:
            drawn = with_notes(piece_lines(piece), piece, Heading(pattern.title), piece_words(piece, pattern, "cm"))
            texts = [item for item in drawn.items if isinstance(item, Text)]
            boxes = [shapely.Polygon([(p.x, p.y) for p in corners(text)]) for text in texts]
            for (one, a), (other, b) in combinations(zip(texts, boxes, strict=True), 2):
                assert a.intersection(b).area < 0.1, (pattern.title, piece.name, one.words, other.words)
            lines = shapely.MultiLineString(
                [
                    [(p.x, p.y) for p in polyline(run, 0.1)]
                    for item in drawn.items
                    if isinstance(item, Stroke)
                    and item.kind in (LineKind.CUTTING, LineKind.SEWING, LineKind.FOLD, LineKind.DART)
                    for run in runs(item.curves)
                ]
            )
            for text, box in zip(texts, boxes, strict=True):
                assert box.buffer(-0.1).disjoint(lines), (pattern.title, piece.name, text.words)


def test_what_is_made_on_one_side_only_says_so_on_the_piece() -> None:
    zipped = apply_step(dress(), Opening("side", length=300.0, below=180.0))
    for name in ("bodice front", "bodice back", "skirt front", "skirt back"):
        words = written(zipped, name)
        assert "on the left side only; sew the right side up" in words
        assert "the opening ends here, left side only" in words
    buttoned = apply_step(dress(), Opening("centre front", "buttons"))
    assert "in the right piece," in written(buttoned, "bodice front")
    assert "the right piece laps over the left" in written(apply_step(dress(), Wrap(overlap=100.0)), "skirt front")


@pytest.mark.parametrize("size", [12.0, 16.0])
def test_a_buttonhole_begins_just_beyond_the_centre_and_is_as_long_as_the_button_is_wide_and_thick(size: float) -> None:
    front = apply_step(dress(), Opening("centre front", "buttons", button=size)).piece("bodice front")
    (edge,) = edges_at(front, Place.STAND_EDGE)
    marks = points_at(front, Landmark.BUTTON)
    assert marks
    for mark in marks:
        hole, *ticks = buttonhole(front, mark)
        assert (hole.end - hole.start).norm() == pytest.approx(size + 3.0, abs=1e-6)
        assert abs(hole.start.x - edge.start.x) == pytest.approx(size - 3.0, abs=1e-6)
        assert hole.start.y == pytest.approx(mark.at.y, abs=1e-6)
        assert len(ticks) == 2
    assert not buttonhole(front, points_at(front, Landmark.NECK_PIT)[0])


def test_gathers_are_told_once_on_a_piece_and_from_a_mark_that_is_called_shortly() -> None:
    waisted = with_part(apply_step(sized(92, "skirt"), GatherSkirt(1.8)), part_of(find_part("waistband"), {}))
    for piece in waisted.pieces:
        said = [each.words for each in piece_words(piece, waisted, "cm").along if "gather" in each.words]
        assert said
        assert len(said) == len(set(said))
        assert not any(":" in words for words in said)


def test_the_names_of_a_pockets_corners_stand_nearest_to_their_own_marks() -> None:
    """By the word of a stranger (shapely): on a narrow bib, where two marks stand 5 cm apart at the centre seam."""
    bib = apply_step(a_garment("dungarees"), PatchPocket("dungarees front")).piece("dungarees front")
    drawn = with_notes(piece_lines(bib), bib, Heading("Bib"), piece_words(bib, None, "cm"))
    marks = {mark.name: shapely.Point(mark.at.x, mark.at.y) for mark in bib.points if mark.landmark is Landmark.POCKET}
    names = [item for item in drawn.items if isinstance(item, Text) and item.words.startswith("pocket")]
    assert len(names) == len(marks) == 4
    for text in names:
        block = shapely.Polygon([(at.x, at.y) for at in corners(text)])
        nearest = min(marks, key=lambda name: block.distance(marks[name]))
        assert nearest.startswith(text.words)
        del marks[nearest]
