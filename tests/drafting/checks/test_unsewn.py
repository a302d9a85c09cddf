"""Whatever seam is taken out of a pattern, an edge is missed; and nothing is missed where all are there."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import apply_step
from drafting.checks import CHECKS, Verdict, named, run_checks, unsewn
from drafting.checks.unsewn import JOINED_WHERE_BOTH
from drafting.errors import TrueseamError
from drafting.pattern import Identity, Pattern, PieceKind, Place, Role
from drafting.pattern.places import BodyPart
from tests.alteration_samples import SAMPLES, sample
from tests.bodies import women
from tests.drafting.checks.breaks import seam_taken_out
from tests.drafting.checks.worked import FRONT, panel, with_edge
from tests.sampling import some

GARMENTS = (("bodice",), ("bodice", "sleeve"), ("skirt",), ("bodice", "skirt"), ("bodice", "sleeve", "skirt"))


def missed(pattern: Pattern) -> list[str]:
    """What the check says of the edges that it misses a seam for."""
    results = run_checks(pattern, checks=named(CHECKS, ["edges-sewn"]))
    assert len(results) == len(pattern.pieces)
    return [result.remedy for result in results if result.verdict is not Verdict.PASS]


def made(blocks: Sequence[str]) -> Pattern:
    garment = Garment("made", women()[0], tuple(BlockOrder(find_block(name)) for name in blocks))
    return draft(garment, prepare(garment))


@pytest.mark.parametrize("blocks", some([(blocks,) for blocks in GARMENTS], every=4), ids=" ".join)
def test_every_seam_is_missed_where_it_is_taken_out_and_nothing_else_is(blocks: Sequence[str]) -> None:
    pattern = made(blocks)
    altered = [pattern]
    for name, amounts in SAMPLES.items():
        for options in amounts:
            try:
                altered.append(apply_step(pattern, sample(name, options)))
            except TrueseamError:  # a step that this garment has no piece for
                continue
    assert len(altered) > 10
    for each in altered:
        assert missed(each) == [], each.history
        for seam in each.seams:
            said = missed(seam_taken_out(each, seam.name))
            assert said, (each.history, seam.name)


def test_what_is_missed_is_named() -> None:
    said = missed(seam_taken_out(made(("bodice", "skirt")), "shoulder"))
    edges = {edge for sentence in said for edge in re.findall(r'"([^"]+)"', sentence)}
    assert edges == {"shoulder at armhole", "shoulder at neck"}
    assert len(said) == 2
    assert all(sentence.endswith(" are sewn to: draft the garment again.") for sentence in said)


@pytest.mark.parametrize("place", sorted(JOINED_WHERE_BOTH))
def test_a_facing_reaches_a_joined_line_where_one_of_its_seams_lies_there(place: Place) -> None:
    facing = Identity(PieceKind.FACING, BodyPart.BODICE, of=PieceKind.FRONT)
    reaches = with_edge(panel(identity=facing), "hem", place=place, role=Role.SEAM)
    short = with_edge(reaches, "hem", place=Place.FACING_EDGE)
    for piece, part, expected in (
        (reaches, BodyPart.BODICE, True),
        (reaches, BodyPart.SKIRT, False),
        (with_edge(reaches, "hem", role=Role.HEM), BodyPart.BODICE, False),
        (short, BodyPart.BODICE, False),
        (replace(reaches, identity=FRONT), BodyPart.BODICE, False),
    ):
        assert unsewn._faces_joined_line(piece, part) is expected
