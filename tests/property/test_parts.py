"""A part then an alteration is the alteration then the part, for every alteration and every part."""

from __future__ import annotations

import pytest

from drafting.alterations import apply_step
from drafting.errors import NotAPattern, StepRefused
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Derived, Pattern, from_start, walk
from drafting.pattern.text import from_json, to_json
from tests.alteration_samples import SAMPLES, Options, sample
from tests.drafting.dresses import failed
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.sampling import some

NECK = part_of(find_part("neck facing"), {"depth": 65.0})
BAND = part_of(find_part("waistband"), {"height": 35.0})
ROWS = [(name, options) for name, rows in SAMPLES.items() for options in rows]


def drawn(pattern: Pattern) -> Pattern:
    """The pattern where its seams meet, its checks pass and it reads back the same."""
    for part in (each for each in pattern.derived if each.part in (NECK.part, BAND.part)):
        for name in part.seams:
            seam = pattern.seam(name)
            walked = walk(pattern, seam)
            # two facings end at a waist where each is as deep as asked, which is nowhere quite the same place
            meet = 0.1 if all("facing" in ref.piece for ref in (*seam.a, *seam.b)) else 1e-3
            assert walked.a - walked.b == pytest.approx(seam.ease.wanted, abs=meet), name
            for pair in walked.notches:
                assert pair.along_a is not None
                met = walked.met(pair.along_a, from_a=True)
                assert met == pytest.approx(pair.along_b, abs=1e-3)
        for mark in part.notches:
            piece = pattern.piece(mark.piece)
            station = piece.notch(mark.notch).station
            assert 0.0 <= from_start(piece.edge(station.edge), station) <= piece.edge(station.edge).length
    return pattern


def everything(pattern: Pattern) -> tuple[object, ...]:
    """All of a pattern, its parts in any order: they stand in the order in which they were asked for."""
    pieces = sorted(pattern.pieces, key=lambda piece: piece.name)
    seams = sorted(pattern.seams, key=lambda seam: seam.name)
    return pieces, seams, pattern.measures, pattern.history, sorted(pattern.derived, key=lambda part: part.part)


@pytest.mark.parametrize(("name", "options"), some(ROWS, every=6))
def test_a_neck_facing_then_any_alteration_is_that_alteration_then_the_facing(name: str, options: Options) -> None:
    dress = sized(92)
    step = sample(name, options)
    try:
        altered = apply_step(dress, step)
    except StepRefused:
        with pytest.raises(StepRefused):
            apply_step(with_part(dress, NECK), step)
        return
    try:
        late = with_part(altered, NECK)
    except NotAPattern:  # a neck that runs over a sleeve has no facing, whichever comes first
        with pytest.raises(StepRefused, match="neck facing"):
            apply_step(with_part(dress, NECK), step)
        return
    after = drawn(apply_step(with_part(dress, NECK), step))
    assert everything(after) == everything(late)


@pytest.mark.parametrize(("name", "options"), some(ROWS, every=6, first=1))
def test_a_waistband_then_any_alteration_is_that_alteration_then_the_band(name: str, options: Options) -> None:
    skirt = sized(92, "skirt")
    step = sample(name, options)
    try:
        altered = apply_step(skirt, step)
    except StepRefused:
        with pytest.raises(StepRefused):
            apply_step(with_part(skirt, BAND), step)
        return
    after = drawn(apply_step(with_part(skirt, BAND), step))
    late = with_part(altered, BAND)
    assert everything(after) == everything(late)


@pytest.mark.parametrize("collar", ["flat collar", "stand collar", "turn-over collar", "sailor collar"])
@pytest.mark.parametrize(("name", "options"), some(ROWS, every=15, first=2))
def test_a_collar_then_any_alteration_is_that_alteration_then_the_collar(
    collar: str, name: str, options: Options
) -> None:
    dress, part = sized(92), part_of(find_part(collar), {})
    step = sample(name, options)
    try:
        altered = apply_step(dress, step)
    except StepRefused:
        return  # for a reason of the dress, which a part does not change
    assert everything(apply_step(with_part(dress, part), step)) == everything(with_part(altered, part))


@pytest.mark.parametrize("part", [NECK, BAND], ids=lambda part: part.part)
def test_a_part_passes_its_checks_and_is_read_back_from_text(part: Derived) -> None:
    pattern = with_part(sized(92) if part is NECK else sized(92, "skirt"), part)
    assert failed(pattern) == []
    assert from_json(to_json(pattern)).derived == pattern.derived
    assert to_json(from_json(to_json(pattern))) == to_json(pattern)


@pytest.mark.parametrize("part", ["neck binding", "ties", "button loops"])
@pytest.mark.parametrize(("name", "options"), some(ROWS, every=16, first=5))
def test_a_strip_or_a_small_piece_then_any_alteration_is_that_alteration_then_the_piece(
    part: str, name: str, options: Options
) -> None:
    dress, ordered = sized(92), part_of(find_part(part), {})
    step = sample(name, options)
    try:
        late = with_part(apply_step(dress, step), ordered)
    except (StepRefused, NotAPattern):
        return  # for a reason of the dress, or where nothing is left to sew it to
    assert everything(apply_step(with_part(dress, ordered), step)) == everything(late)
