"""Parts taken off and drawn again: nothing else changes, and what they are drawn under is free."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drafting.alterations import apply_step
from drafting.parts.part_table import find_part, part_of
from drafting.parts.undraw import without_derived
from drafting.pattern import Pattern, walk
from drafting.pattern.text import from_json, to_json
from tests.alteration_samples import sample
from tests.drafting.dresses import failed
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.renaming import names_for, renamed

PARTS = ["neck facing", "waistband"]


def bare(part: str) -> Pattern:
    return sized(92) if part == "neck facing" else sized(92, "skirt")


def with_one(pattern: Pattern, part: str) -> Pattern:
    return with_part(pattern, part_of(find_part(part), {}))


def called(pattern: Pattern, old: str, new: str) -> Pattern:
    """The pattern with one piece, or one seam, under another name."""
    return renamed(pattern, names_for(pattern, lambda _, names: [new if name == old else name for name in names]))


@pytest.mark.parametrize("part", PARTS)
def test_a_part_taken_off_leaves_the_garment_as_it_was(part: str) -> None:
    off = without_derived(with_one(bare(part), part))
    assert replace(off, derived=()) == bare(part)
    assert [each.part for each in off.derived] == [part]


@pytest.mark.parametrize(
    ("part", "piece", "drawn"),
    [
        ("neck facing", "bodice front", ("front neck facing", "back neck facing")),
        ("waistband", "skirt front", ("waistband",)),
    ],
)
def test_a_part_is_drawn_under_names_that_no_piece_and_no_seam_has(
    part: str, piece: str, drawn: tuple[str, ...]
) -> None:
    free = with_one(bare(part), part)
    assert free.derived[0].pieces == drawn
    seam = bare(part).seams[0].name
    taken = called(called(bare(part), piece, drawn[0]), seam, free.derived[0].seams[0])
    pattern = with_one(taken, part)
    assert pattern.derived[0].pieces == (f"{drawn[0]} 2", *drawn[1:])
    assert len({each.name for each in pattern.seams}) == len(pattern.seams) == len(free.seams)
    assert failed(pattern) == []
    assert replace(without_derived(pattern), derived=()) == taken
    assert to_json(from_json(to_json(pattern))) == to_json(pattern)
    for name in pattern.derived[0].seams:
        seam_drawn = pattern.seam(name)
        walked = walk(pattern, seam_drawn)
        assert walked.a - walked.b == pytest.approx(seam_drawn.ease.wanted, abs=1e-3)


def test_a_part_is_kept_where_its_own_pieces_stay_as_they_are() -> None:
    before = with_one(sized(92), "neck facing")
    after = apply_step(before, sample("hem", {"piece": "skirt front", "depth": 30.0}))
    for name in before.derived[0].pieces:
        assert after.piece(name) is before.piece(name)
