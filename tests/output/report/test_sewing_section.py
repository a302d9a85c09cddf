"""What is said and drawn of each step, and what is told of the last draft."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from shapely import LineString, Polygon, affinity, box

from drafting.alterations import apply_step
from drafting.geometry import polyline
from drafting.pattern import Pattern, Place
from drafting.pattern.seam_ends import sewn_piece
from drafting.sewing import Act, SupplyKind, sewing_order, supplies
from output.api import Garment, block, draft, part, read_garment
from output.drawings.drawing import LineKind, Stroke, Text
from output.drawings.garment_picture import garment_views
from output.drawings.piece_drawing import piece_strokes
from output.drawings.step_picture import step_pictures
from output.lay.shopping_list import supply_to_buy
from output.report.sewing_words import step_words
from output.report.since_last import since_last, since_last_briefly
from tests.alteration_samples import SAMPLES, Options, sample
from tests.bodies import women
from tests.drafting.sizes import sized
from tests.examples import example_pattern

EXAMPLES = Path(__file__).parents[3] / "examples" / "garments"
_DRESS = ("bodice", "sleeve", "skirt")
_BUTTONS: Options = {"at": "centre front", "fasten": "buttons"}
_ALTERED = ("opening", "wrap over", "gather skirt", "dart into gathers", "dart into seam", "full sleeve", "neckline")


@pytest.mark.parametrize(("name", "unit"), [(name, ("cm", "in")[turn % 2]) for turn, name in enumerate(_ALTERED)])
def test_every_step_says_something_in_her_unit_and_shows_what_it_sews(name: str, unit: str) -> None:
    for options in SAMPLES[name]:
        pattern = apply_step(sized(92, *_DRESS), sample(name, options))
        steps = sewing_order(pattern)
        for step in steps:
            words = step_words(pattern, step, unit)
            said = " ".join((words.title, *words.sentences))
            assert words.sentences
            assert not re.search(r"  |None|\{|\}| ,|\.\.", said), said
            assert unit == "cm" or not re.search(r"\d (cm|mm)\b", said), said
            assert bool(step_pictures(pattern, step)) == bool(step.pieces)
        bought = [supply_to_buy(each, unit).line for each in supplies(pattern, steps)]
        assert bought
        assert unit == "cm" or not any(re.search(r"\d (cm|mm|m)\b", line) for line in bought)
        assert [view.side for view in garment_views(pattern)] == ["front", "back"]


def test_gathers_name_the_notches_between_which_they_lie() -> None:
    pattern = apply_step(sized(92, *_DRESS), sample("full sleeve", {"cap": 120.0}))
    said = [" ".join(step_words(pattern, step, "cm").sentences) for step in sewing_order(pattern) if step.in_the_round]
    assert len(said) == 1
    assert re.search(r"Gather from notch \d+ to the crown notch, to \d+\.\d cm", said[0])


def test_what_changed_since_the_last_draft_is_told_and_nothing_where_nothing_did() -> None:
    before = sized(92, *_DRESS)
    after = apply_step(before, sample("lengthen", {"piece": "sleeve", "by": 30.0}))
    assert since_last(before, before, "cm") is None
    assert since_last(None, after, "cm") is None
    table = since_last(before, after, "cm")
    assert table is not None
    assert table.above == "Pieces that changed: sleeve."
    assert any("shoulder to wrist" in row.cells[0] for row in table.rows)
    assert since_last_briefly(before, before, "cm") == since_last_briefly(None, after, "cm") == ()
    (passage,) = since_last_briefly(before, after, "cm")
    told = "; ".join(f"{row.cells[0].splitlines()[0]} {row.cells[1]} to {row.cells[2]}" for row in table.rows)
    assert passage.sentences == (f"{told}.", table.above)
    larger = sized(100, *_DRESS)
    rows = since_last(before, larger, "cm")
    assert rows is not None
    (passage,) = since_last_briefly(before, larger, "cm")
    assert passage.sentences[0].endswith(f", and {len(rows.rows) - 3} more in the report.")


def test_what_hangs_in_pleats_from_a_yoke_is_hemmed_first() -> None:
    pleated = _step_said(example_pattern("spillway-skirt"), Act.PLEATS)
    assert "First turn the hem up by 4.0 cm" in pleated
    assert "just above the yoke seam" in pleated


def test_the_four_sides_of_a_gusset_are_one_step() -> None:
    pattern = apply_step(sized(92, "bodice", "sleeve"), sample("kimono", SAMPLES["kimono"][0]))
    steps = [step for step in sewing_order(pattern) if step.place is Place.GUSSET]
    assert [len(step.seams) for step in steps] == [4]
    said = _step_said(pattern, Act.JOIN)
    assert said.index("cut the slit open") < said.index("lay the gusset")
    titles = [step_words(pattern, step, "cm").title for step in sewing_order(pattern)]
    assert not any("in one" in title for title in titles), "no seam passes a gusset that is in already"


def test_the_upper_edge_of_the_facing_of_a_stand_is_sewn_with_the_neck_or_tacked_to_it() -> None:
    garment = Garment("collar", women()[11], [block("bodice"), block("sleeve")])
    steps = [sample("opening", {"at": "centre back", "fasten": "closed"}), sample("opening", _BUTTONS)]
    for collar, words in (
        ("turn-over collar", "Lay its neck over the end of the collar"),
        ("shirt collar", "Tack its"),
    ):
        pattern = draft(replace(garment, parts=[part(collar)], steps=steps)).pattern
        acts = [step.act for step in sewing_order(pattern)]
        assert words in _step_said(pattern, Act.FACE)
        assert (acts.index(Act.COLLAR) < acts.index(Act.FACE)) == (collar == "turn-over collar")
        stayed = next(step for step in sewing_order(pattern) if step.act is Act.STAY)
        assert not any("collar" in name for name in stayed.pieces)


def _step_said(pattern: Pattern, act: Act) -> str:
    return " ".join(
        line for step in sewing_order(pattern) if step.act is act for line in step_words(pattern, step, "cm").sentences
    )


def _said(pattern: Pattern) -> str:
    return " ".join(each for step in sewing_order(pattern) for each in step_words(pattern, step, "cm").sentences)


def test_a_wrap_has_neither_underlap_nor_hook_and_says_where_it_is_fastened() -> None:
    pattern = apply_step(sized(92, "skirt"), sample("wrap over", {"overlap": 150.0}))
    kinds = {each.kind for each in supplies(pattern, sewing_order(pattern))}
    assert SupplyKind.TIE in kinds
    assert SupplyKind.HOOK not in kinds
    assert "underlap" not in _said(pattern)


def test_gathering_threads_are_drawn_on_the_longer_piece_alone() -> None:
    pattern = apply_step(sized(92, *_DRESS), sample("full sleeve", {"cap": 120.0}))
    with_threads = {
        piece.name
        for piece in pattern.pieces
        for stroke in piece_strokes(piece, sewn_piece(pattern, piece.name))[0]
        if stroke.kind is LineKind.GATHER
    }
    assert with_threads == {"sleeve"}


def written(text: Text) -> Polygon:
    """The box of a line of writing, by a rule of thumb of its own: a letter is half as wide as it is high."""
    half, up = 0.25 * text.size * len(text.words), 0.7 * text.size
    flat = box(text.at.x - half, text.at.y, text.at.x + half, text.at.y + up)
    return affinity.rotate(flat, text.angle, origin=(text.at.x, text.at.y))


@pytest.mark.parametrize(
    ("name", "options"),
    [("opening", {"at": "centre front", "fasten": "buttons"}), ("full sleeve", {"cap": 120.0}), ("neckline", {})],
)
def test_no_name_in_a_drawing_of_a_step_lies_on_a_line_or_another_name_or_off_its_page(
    name: str, options: Options
) -> None:
    pattern = apply_step(sized(92, *_DRESS), sample(name, options or {"depth": 60.0, "width": 10.0}))
    for step in sewing_order(pattern):
        for picture in step_pictures(pattern, step):
            names = [item for item in picture.items if isinstance(item, Text) and not item.words.isdigit()]
            drawn = [
                LineString([(p.x, p.y) for p in polyline(item.curves, 1.0)])
                for item in picture.items
                if isinstance(item, Stroke) and item.kind in (LineKind.IN_HAND, LineKind.TO_SEW)
            ]
            page = picture.page
            paper = box(page.left, page.bottom, page.right, page.top)
            for one, other in combinations(names, 2):
                assert not written(one).intersects(written(other)), picture.title
            for each in names:
                assert not any(written(each).intersects(line) for line in drawn), (picture.title, each.words)
                assert paper.contains(written(each)), (picture.title, each.words)


def test_a_band_is_drawn_with_what_it_is_sewn_to() -> None:
    pattern = draft(read_garment(EXAMPLES / "towpath-skirt.toml")).pattern
    (step,) = [each for each in sewing_order(pattern) if each.act is Act.BAND]
    (picture,) = step_pictures(pattern, step)
    names = {item.words for item in picture.items if isinstance(item, Text) and not item.words.isdigit()}
    assert names == {"waistband", "skirt front", "skirt back"}
