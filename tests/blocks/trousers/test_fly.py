"""The fly: facing, shield, line of stitching, and how it is sewn (common practice); it goes as low as the hips ask."""

from __future__ import annotations

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, finish
from drafting.alterations import Alteration, ShapedBand, SkirtYoke
from drafting.body.person import Person, person
from drafting.checks import Verdict
from drafting.geometry import distance, run_length
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import BodySide, Level, Pattern, PieceKind, Place, Role, edges_at, line_at, pieces_of, walk
from drafting.sewing import Act, sewing_order
from output.report.sewing_words import step_words
from tests.bodies import women
from tests.outside.sew_it import handled, not_sewable
from tests.quick_checks import run_checks

BAD = (Verdict.FAIL, Verdict.WARN, Verdict.ERROR)
PEAR = {"stature": 1650.0, "bust_girth": 880.0, "waist_girth": 720.0, "hip_girth": 1120.0}


def fly(who: Person, *steps: Alteration, band: bool = True) -> Pattern:
    parts = (part_of(find_part("waistband"), {}),) if band else ()
    order = BlockOrder(find_block("trousers"), {"fastening": "fly"})
    return finish(Garment("fly trousers", who, (order,), steps=steps, parts=parts))


def told(pattern: Pattern) -> list[str]:
    return [r.remedy for r in run_checks(pattern) if r.verdict in BAD]


@pytest.mark.parametrize("steps", [(), (ShapedBand(depth=40.0),), (SkirtYoke(depth=70.0),)], ids=["", "band", "yoke"])
def test_facing_and_shield_are_sewn_to_the_opening_each_on_its_own_side(steps: tuple[Alteration, ...]) -> None:
    pattern = fly(women()[11], *steps, band=not steps)
    assert not told(pattern)
    opened = [e for p in pieces_of(pattern, PieceKind.FRONT) for e in edges_at(p, Place.CENTRE_FRONT)]
    long = sum(edge.length for edge in opened if edge.role is Role.OPENING)
    facing, shield = sorted(pieces_of(pattern, PieceKind.FLY), key=lambda piece: piece.identity.side is BodySide.LEFT)
    assert (facing.identity.side, shield.identity.side) == (BodySide.RIGHT, BodySide.LEFT)
    seams = {ref.piece: seam for seam in pattern.seams for ref in seam.b if ref.piece in (facing.name, shield.name)}
    above = 40.0 if isinstance(steps[0] if steps else None, ShapedBand) else 0.0
    for piece, covers in ((facing, long - above), (shield, long)):
        walked = walk(pattern, seams[piece.name])
        assert walked.a == pytest.approx(walked.b, abs=1e-3)
        assert walked.b == pytest.approx(covers, abs=0.5)
    steps_of_sewing = sewing_order(pattern)
    assert not list(not_sewable(pattern, steps_of_sewing))
    assert set(handled(steps_of_sewing)[0].values()) == {1}


def test_a_band_is_sewn_behind_in_one_with_the_crotch_seam() -> None:
    steps = sewing_order(fly(women()[11], ShapedBand(depth=40.0), band=False))
    joins = {step.place: step.pieces for step in steps if step.act is Act.JOIN and not step.seams}
    assert "trousers back band" in joins[Place.CROTCH]
    assert Place.CENTRE_BACK not in joins


def test_the_stitching_is_marked_and_ends_where_the_opening_does() -> None:
    pattern = fly(women()[11])
    front = pattern.piece("trousers front")
    line = line_at(front, Level.STITCHING)
    assert line is not None
    (opening,) = (edge for edge in edges_at(front, Place.CENTRE_FRONT) if edge.role is Role.OPENING)
    lower = min((opening.start, opening.end), key=lambda at: at.y)
    assert min(distance(line.start, lower), distance(line.end, lower)) < 1e-6
    (facing,) = (p for p in pieces_of(pattern, PieceKind.FLY) if p.identity.side is BodySide.RIGHT)
    free = next(edge for edge in facing.edges if edge.name == "free edge")
    assert run_length(free.curves) > run_length(line.drawn)
    step = next(step for step in sewing_order(pattern) if step.act is Act.FLY)
    words = " ".join(step_words(pattern, step, "cm").sentences)
    assert "fly stitching line" in words
    assert "edges meet over its teeth" not in words  # which is a zip in the middle of a seam


def test_the_band_reaches_over_the_shield() -> None:
    pattern = fly(women()[11])
    (shield,) = (p for p in pieces_of(pattern, PieceKind.FLY) if p.identity.side is BodySide.LEFT)
    folded = 0.5 * next(edge for edge in shield.edges if edge.name == "upper edge").length
    assert pattern.piece("waistband").edge("underlap").length == pytest.approx(folded)


def test_a_pear_gets_a_fly_that_ends_lower() -> None:
    plain, pear = fly(women()[11]), fly(person(PEAR, name="pear"))
    assert not told(pear)
    assert _long(pear) > _long(plain)


def _long(pattern: Pattern) -> float:
    edges = edges_at(pattern.piece("trousers front"), Place.CENTRE_FRONT)
    return sum(edge.length for edge in edges if edge.role is Role.OPENING)
