"""What is gathered is told on both pieces, from where to where, and read back by a stranger from drawing and files."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from functools import reduce
from io import StringIO

import pytest

from drafting.alterations import Alteration, DartIntoGathers, FullSleeve, GatherSkirt, Opening, apply_step
from drafting.pattern import EdgeRef, NotchRef, walk
from drafting.pattern.gathered import Held, held_in, thread_lines
from drafting.pattern.notches import notch_numbers
from drafting.pattern.seam_ends import sewn
from drafting.pattern.text import from_json, to_json
from output.drawings.drawing import LineKind, Stroke
from output.drawings.gather_notes import gather_words
from output.drawings.piece_drawing import piece_lines
from output.drawings.piece_notes import piece_words
from output.dxf.dxf_writer import dxf_bytes
from tests.drafting.dress import dress
from tests.examples import example_pattern

CASES: list[tuple[tuple[Alteration, ...], list[tuple[str, str, str, str]]]] = [
    (
        (DartIntoGathers("bodice front", "waist dart"),),
        [
            ("skirt front", "plain", "waist dart gathers from", "waist dart gathers to"),
            ("bodice front", "gathered", "waist dart gathers to", "waist dart gathers from"),
        ],
    ),
    ((GatherSkirt(2.0, only="skirt back"),), [("skirt back", "gathered", "", ""), ("bodice back", "plain", "", "")]),
    (
        (FullSleeve(cap=100.0),),
        [
            ("sleeve", "gathered", "front cap notch", ""),
            ("bodice front", "plain", "", "front armhole notch"),
            ("sleeve", "gathered", "", "back cap notch"),
            ("bodice back", "plain", "back armhole notch", ""),
        ],
    ),
]


def gathered(steps: tuple[Alteration, ...]) -> tuple[list[Held], object]:
    pattern = dress()
    for step in steps:
        pattern = apply_step(pattern, step)
    return [held for held in held_in(pattern) if held.kind == "gathered"], pattern


@pytest.mark.parametrize(("steps", "wanted"), CASES)
def test_gathers_lie_between_the_same_notches_on_both_pieces(
    steps: tuple[Alteration, ...], wanted: list[tuple[str, str, str, str]]
) -> None:
    found, _ = gathered(steps)
    told = {(h.piece, "gathered" if h.longer else "plain", *sorted((h.begin, h.end))) for h in found}
    assert told == {(piece, how, *sorted((begin, end))) for piece, how, begin, end in wanted}
    for held in found:
        other = next(each for each in found if each.seam == held.seam and each.longer != held.longer)
        # as long when it is drawn up as what it is sewn to
        assert held.to == pytest.approx(other.to, abs=1e-3)
        assert held.longer == (held.length > held.to + 5.0)


@pytest.mark.parametrize(("steps", "_wanted"), CASES)
def test_they_stand_in_the_drawing_the_words_the_dxf_and_pattern_json(
    steps: tuple[Alteration, ...], _wanted: object
) -> None:
    from ezdxf.filemanagement import read

    found, pattern = gathered(steps)
    for held in found:
        piece = pattern.piece(held.piece)
        kinds = [i.kind for i in piece_lines(piece, sewn(pattern)[piece.name]).items if isinstance(i, Stroke)]
        assert (LineKind.GATHER in kinds) == any(each.longer for each in found if each.piece == held.piece)
        words = [each.words for each in piece_words(piece, pattern, "cm").along]
        assert any(word.startswith("gather from" if held.longer else "the ") and "gather" in word for word in words)
        assert thread_lines(held)
    assert {each.held for each in gather_words(pattern, "cm")} >= set(found)
    document = read(StringIO(dxf_bytes(pattern).decode("utf-8")))
    kept = [
        entity.get_xdata("TRUESEAM") for block in document.blocks for entity in block if entity.has_xdata("TRUESEAM")
    ]
    assert sum(data[0].value == "gathers" for data in kept) >= 2 * len(found)
    table = json.loads(to_json(pattern))
    assert [each for each in table["held_in"] if each["how"] == "gathered"]
    # it follows from the seams: a file without it is the same pattern
    bare = {key: value for key, value in table.items() if key != "held_in"}
    assert from_json(json.dumps(bare)).seams == from_json(json.dumps(table)).seams


def test_where_a_stand_lies_flat_the_gathers_begin_at_the_notch_beyond_its_facing() -> None:
    found, pattern = gathered((Opening("centre front", "buttons"), GatherSkirt(2.0)))
    words = [each.words for each in gather_words(pattern, "cm") if each.held in found and each.held.longer]
    number = notch_numbers(pattern.seams)[NotchRef("skirt front", "front gathers notch")]
    assert any(f"notch {number}" in each and "the side seam" in each for each in words)


def test_gathers_end_at_the_centre_never_at_the_seam_they_lie_in() -> None:
    words = [each.words for each in gather_words(example_pattern("weir-smock"), "cm")]
    assert any("the centre front" in each for each in words)
    assert not any("yoke seam" in each for each in words)


def test_what_is_sewn_flat_is_not_told_of() -> None:
    assert {held.kind for held in held_in(dress())} == {"eased"}
    assert all("armhole" in held.seam for held in held_in(dress()))


@pytest.mark.parametrize(
    "steps", [case[0] for case in CASES] + [(Opening("centre front", "buttons"), GatherSkirt(2.0))]
)
def test_a_seam_walked_from_its_other_end_says_the_same(steps: tuple[Alteration, ...]) -> None:
    pattern = reduce(apply_step, steps, dress())
    for seam in pattern.seams:
        turned = replace(seam, a=from_other_end(seam.a), b=from_other_end(seam.b))
        here, there = walk(pattern, seam), walk(pattern, turned)
        assert (there.a, there.b) == pytest.approx((here.a, here.b), abs=1e-9)
        assert there.gathered is here.gathered
        assert there.flat == pytest.approx(here.flat[::-1], abs=1e-6)
        for one, other in zip(here.notches, there.notches, strict=True):
            for along, back, whole in ((one.along_a, other.along_a, here.a), (one.along_b, other.along_b, here.b)):
                assert back == (None if along is None else pytest.approx(whole - along, abs=1e-6))


def from_other_end(run: Sequence[EdgeRef]) -> tuple[EdgeRef, ...]:
    return tuple(replace(ref, backward=not ref.backward) for ref in reversed(run))
