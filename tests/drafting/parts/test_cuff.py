"""The cuff: its numbers against a worked example, its seam against the sleeve, its pleats and its slit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, prepare
from drafting.alterations import FullSleeve, apply_step
from drafting.errors import NotAPattern
from drafting.geometry import polyline
from drafting.parts.cuffs.cuff_lengths import cuff_length, sleeve_edge, slit_needed
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Level, NotchMark, Pattern, Place, Role, edges_at, line_at, walk
from drafting.pattern.pattern import finished
from drafting.pattern.text import from_json, to_json
from drafting.sewing import sewing_order, supplies
from drafting.sewing.supplies import SupplyKind
from tests.bodies import women
from tests.drafting.dresses import dresses, failed
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized


def full(pattern: Pattern) -> Pattern:
    return apply_step(pattern, FullSleeve(hem=60.0))


def cuffed(pattern: Pattern, **options: float | str) -> Pattern:
    return with_part(pattern, part_of(find_part("cuff"), options))


def test_a_worked_example() -> None:
    """Wrist 16, ease 4, overlap 2.5 cm: a cuff of 22.5; two pleats of 3 and a binding of 1: a sleeve edge of 27.5
    (worked by hand). The hand is 21 cm and passes the open cuff without a slit.
    """
    assert cuff_length(160.0, 40.0, 25.0) == 225.0
    assert sleeve_edge(225.0, 60.0, 10.0) == 275.0
    assert slit_needed(160.0, 225.0) == 0.0
    assert slit_needed(160.0, 190.0) == pytest.approx(0.5 * (1.31 * 160.0 - 190.0))


@pytest.mark.parametrize(("into", "pleats"), [("pleats", 2.0), ("pleats", 1.0), ("gathers", 2.0)])
def test_the_sleeve_goes_into_the_cuff(into: str, pleats: float) -> None:
    pattern = cuffed(full(sized(92)), into=into, pleats=pleats)
    cuff, sleeve = pattern.piece("cuff"), pattern.piece("sleeve")
    wrist = next(length.mm for length in pattern.wearer.lengths if length.key == "wrist_girth")
    whole = sum(edge.length for edge in cuff.edges if edge.start.y == edge.end.y == 120.0)
    assert whole == pytest.approx(wrist + 40.0 + 25.0)
    (seam,) = (pattern.seam(name) for name in pattern.derived[-1].seams)
    walked = walk(pattern, seam)
    assert walked.b == pytest.approx(whole - 10.0)
    if into == "pleats":
        assert walked.sewn[0] == pytest.approx(walked.sewn[1], abs=1e-6)
        folds = [notch for notch in sleeve.notches if notch.marks is NotchMark.PLEAT_FOLD]
        assert len(folds) == pleats
    (lower,) = edges_at(sleeve, Place.WRIST)
    assert (lower.role, lower.allowance) == (Role.SEAM, 15.0)  # no longer a hem
    line = line_at(sleeve, Level.SLIT)
    assert line is not None
    assert (line.end - line.start).norm() == pytest.approx(100.0)
    assert from_json(to_json(pattern)).derived == pattern.derived
    (buttons,) = (each for each in supplies(pattern, sewing_order(pattern)) if each.kind is SupplyKind.BUTTONS)
    assert buttons.count == 2


def test_a_sleeve_that_is_too_narrow_says_what_to_do() -> None:
    with pytest.raises(NotAPattern, match="lower edge of the sleeve only"):
        cuffed(sized(92), ease=100.0)
    with pytest.raises(NotAPattern, match="too much for 1 pleats"):
        cuffed(apply_step(sized(92), FullSleeve(hem=300.0)), pleats=1.0)


def test_every_woman_gets_a_cuff_that_passes_its_checks() -> None:
    for pattern in dresses():
        base = full(pattern)
        for into in ("pleats", "gathers"):
            assert failed(cuffed(base, into=into), base) == []


def test_an_arrow_shows_that_each_pleat_faces_the_slit() -> None:
    pattern = cuffed(full(sized(92)))
    sleeve = pattern.piece("sleeve")
    slit = line_at(sleeve, Level.SLIT)
    assert slit is not None
    arrows = [line for line in sleeve.lines if "toward the slit" in line.name]
    assert len(arrows) == 2
    for arrow in arrows:
        tip = arrow.curves[0].end
        assert abs(tip.x - slit.start.x) < abs(arrow.start.x - slit.start.x)
    (front,) = (each for each in sleeve.notches if each.name == "pleat 1 fold")
    assert front.marks is NotchMark.PLEAT_FOLD


def test_a_sleeve_with_a_cuff_is_as_long_as_the_arm_and_lower_behind() -> None:
    """The depth of the cuff, less what falls over it, comes off the sleeve; its edge is 1 cm lower at the slit, and as
    long as it was asked to be (common practice).
    """
    blocks = tuple(BlockOrder(find_block(name)) for name in ("bodice", "sleeve"))
    garment = Garment("Top", women()[30], blocks)
    with_cuff = replace(garment, parts=(part_of(find_part("cuff"), {"depth": 60.0, "blouse": 15.0}),))
    plain, pattern = (draft(each, prepare(each)) for each in (garment, with_cuff))
    long = [p.point("crown").y - p.point("wrist").y for p in (plain.piece("sleeve"), pattern.piece("sleeve"))]
    assert long[0] - long[1] == pytest.approx(45.0, abs=1e-6)
    sleeve = pattern.piece("sleeve")
    (edge,) = edges_at(sleeve, Place.WRIST)
    slit = line_at(sleeve, Level.SLIT)
    assert slit is not None
    low = min(place.y for curve in edge.curves for place in polyline((curve,), 0.01))
    assert edge.start.y - low == pytest.approx(10.0, abs=0.01)
    assert slit.start.y == pytest.approx(low, abs=0.1)
    assert {each.name: each.finished for each in finished(pattern)}["shoulder to wrist"] == pytest.approx(
        {each.name: each.finished for each in finished(plain)}["shoulder to wrist"], abs=1.0
    )
    assert failed(pattern, plain) == []
