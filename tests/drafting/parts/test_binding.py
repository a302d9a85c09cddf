"""Bias strips: their length from the edge, how they are cut, the cloth they take; source of the numbers beside them."""

from __future__ import annotations

import math

import pytest

from blocks.block_table import find_block
from blocks.garment import BlockOrder, Garment, draft, finish, prepare
from drafting.alterations import Godet, Hem, Opening, apply_step
from drafting.checks import Verdict
from drafting.errors import StepRefused
from drafting.parts.part_table import find_part, part_of
from drafting.pattern import Pattern, PieceKind, Place, Role, edges_at, pieces_of, run_total, walk
from drafting.pattern.bias import BOUND, DOUBLE, FACED, bias_cloth, bound_shorter, cut_share, strip_share, strip_width
from drafting.pattern.neck_band import TURNING
from drafting.reading.options import Value
from drafting.sewing import Act, sewing_order
from output.drawings.drawing import Text
from output.report.sewing_words import step_words
from output.sheets.large_sheet import lay_out
from output.sheets.papers import PAPERS
from tests.bodies import women
from tests.drafting.parts.with_part import with_part
from tests.drafting.sizes import sized
from tests.outside.sew_it import not_sewable
from tests.quick_checks import run_checks
from tests.sweep_parts import Case, garment_of


def bound(name: str, *blocks: str, **options: Value) -> Pattern:
    """A dress in size 92 with a bias strip."""
    return with_part(sized(92, *blocks), part_of(find_part(name), options))


def test_worked_numbers_of_bias_strips() -> None:
    # a strip of 46 in one length: the diagonal of a square of 32.5 (a drawing office's sheet on piping); 250 by 2 cut
    # round and round: a square of 22.4 (a furnisher's rule, the root of length times width)
    assert bias_cloth(460.0, 20.0)[0] == pytest.approx(325.3, abs=0.1)
    assert bias_cloth(2500.0, 20.0)[1] == pytest.approx(223.6, abs=0.1)
    # a binding 0.8 wide on a neck of 44 round ends on a line 3.91 shorter (plane geometry)
    assert bound_shorter(8.0, TURNING) == pytest.approx(39.1, abs=0.05)


def test_how_wide_a_strip_is_cut() -> None:
    # four times its width and 2 to 4 mm; six times for one of two layers; its width and two seams for a facing
    # (common practice)
    assert strip_width(BOUND, 8.0, 6.0, 3.0) == 35.0
    assert strip_width(DOUBLE, 8.0, 6.0, 3.0) == 51.0
    assert strip_width(FACED, 12.0, 6.0, 3.0) == 24.0


def test_a_strip_is_cut_no_more_than_a_twentieth_shorter_and_never_longer() -> None:
    assert cut_share(440.0, 8.0, TURNING) == pytest.approx(1.0 - 0.5 * 39.1 / 440.0, abs=1e-4)
    assert cut_share(300.0, 12.0, TURNING) == 0.95
    assert cut_share(1000.0, 8.0, -0.5) == 1.0


@pytest.mark.parametrize(
    ("name", "place", "blocks", "times"),
    [
        ("neck binding", Place.NECK, ("bodice",), 2),
        ("armhole binding", Place.ARMHOLE, ("bodice",), 1),
        ("hem binding", Place.HEM, ("skirt",), 2),
    ],
)
def test_a_strip_is_as_long_as_the_line_it_is_sewn_on_or_a_little_shorter(
    name: str, place: Place, blocks: tuple[str, ...], times: int
) -> None:
    pattern = bound(name, *blocks)
    strip = pattern.piece(name)
    edge = times * sum(each.length for piece in pattern.pieces if piece.name != name for each in edges_at(piece, place))
    long = edges_at(strip, Place.BAND_EDGE)[-1].length
    # 8 mm inside a neck or an armhole the line is longer than the edge, inside the hem of a skirt it is shorter
    assert 0.98 * edge <= long <= 1.08 * edge
    if place is not Place.HEM:
        assert long > edge
    assert long == pytest.approx(sum(each.length for each in edges_at(strip, Place.BAND_EDGE)[:-1]), abs=1e-6)


def test_the_hem_of_a_blouse_is_bound_as_that_of_a_skirt_is() -> None:
    base = finish(Garment("blouse", women()[3], (BlockOrder(find_block("blouse")),)))
    pattern = with_part(base, part_of(find_part("hem binding"), {}))
    assert pattern.piece("hem binding")
    assert not [each for each in run_checks(pattern) if each.verdict is Verdict.FAIL]
    assert not_sewable(pattern, sewing_order(pattern)) == []


def test_a_strip_lies_at_45_degrees_to_the_grain() -> None:
    strip = bound("neck binding", "bodice").piece("neck binding")
    assert strip.grain is not None
    along = strip.grain.end - strip.grain.start
    assert math.atan2(along.y, along.x) == pytest.approx(math.pi / 4.0)
    assert strip.identity.kind is PieceKind.BINDING
    assert strip.cut.interfacing == 0


def test_a_bound_edge_is_cut_where_the_garment_ends_and_the_strip_sewn_its_own_width_inside() -> None:
    for style, allowance, sewn in ((BOUND, 0.0, 10.0), (FACED, 6.0, 6.0)):
        pattern = bound("neck binding", "bodice", width=10.0, style=style)
        edges = [edge for piece in pattern.pieces for edge in edges_at(piece, Place.NECK)]
        assert {(edge.role, edge.allowance) for edge in edges} == {(Role.SEAM, allowance)}
        assert edges_at(pattern.piece("neck binding"), Place.BAND_EDGE)[0].allowance == sewn
        (step,) = (step for step in sewing_order(pattern) if "neck binding" in step.pieces)
        words = " ".join(step_words(pattern, step, "mm").sentences)
        assert f"sew {sewn:.0f} mm from the cut edge" in words
        assert not [each for each in run_checks(pattern) if each.verdict is Verdict.FAIL]


def test_the_strip_is_shorter_than_its_line_by_half_of_what_that_is_longer_than_the_edge() -> None:
    assert strip_share(440.0, 8.0, TURNING) * 440.0 == pytest.approx(440.0 + 39.1 - 0.5 * 39.1, abs=0.1)
    assert strip_share(1000.0, 8.0, -0.5) * 1000.0 == pytest.approx(996.0)


def test_a_hem_that_is_bound_ends_at_its_line() -> None:
    pattern = bound("hem binding", "skirt")
    hems = [edge for piece in pattern.pieces for edge in edges_at(piece, Place.HEM)]
    assert {(edge.role, edge.allowance) for edge in hems} == {(Role.SEAM, 0.0)}


def test_the_armhole_notches_meet_on_the_strip() -> None:
    pattern = bound("armhole binding", "bodice")
    for name in ("front", "back"):
        seam = pattern.seam(f"armhole binding to {name} armhole")
        (pair,) = walk(pattern, seam).notches
        assert pair.along_a is not None
        share = walk(pattern, seam).b / walk(pattern, seam).a
        assert pair.along_b == pytest.approx(share * pair.along_a, abs=1e-6)


def test_a_raglan_in_woven_cloth_can_be_bound() -> None:
    from drafting.alterations import ALTERATIONS, apply_step

    raglan = apply_step(sized(92, "bodice", "sleeve"), ALTERATIONS.named("raglan")())
    pattern = with_part(raglan, part_of(find_part("neck binding"), {}))
    assert {ref.piece for seam in pattern.seams for ref in seam.a if seam.b[0].piece == "neck binding"} >= {"sleeve"}


def test_a_neck_with_buttons_in_front_is_bound_over_its_stands() -> None:
    buttoned = apply_step(bound("neck binding", "bodice"), Opening("centre front", "buttons"))
    assert [found.where for found in run_checks(buttoned) if found.verdict is Verdict.FAIL] == []


def test_a_hem_with_godets_is_bound_all_round() -> None:
    plain = bound("hem binding", "skirt")
    pattern = apply_step(plain, Godet(hem=200.0))
    assert {found.verdict for found in run_checks(pattern)} <= {Verdict.PASS, Verdict.NOTHING}
    without, with_two = (
        sum(run_total(one, seam.a) for seam in one.seams if seam.name.startswith("hem binding to"))
        for one in (plain, pattern)
    )
    assert with_two - without == pytest.approx(2 * 200.0, abs=1e-3)


def test_a_bound_hem_is_not_faced_as_well() -> None:
    with pytest.raises(StepRefused, match='by the "hem binding" already'):
        apply_step(bound("hem binding", "skirt"), Hem("skirt front", finish="facing"))


def test_a_bib_is_bound_from_the_front_to_the_back() -> None:
    garment = garment_of(Case("bib binding", "dungarees", 0))
    pattern = draft(garment, prepare(garment))
    assert not [each for each in run_checks(pattern) if each.verdict is Verdict.FAIL]
    sewn = [seam.b[0].edge for seam in pattern.seams if seam.b[0].piece == "bib binding"]
    assert sewn == ["right back bib edge", "right front bib edge", "left front bib edge", "left back bib edge"]


@pytest.mark.parametrize(
    ("part", "garment"),
    [
        ("neck binding", "dress"),
        ("armhole binding", "dress without sleeves"),
        ("hem binding", "gored skirt"),
        ("bib binding", "dungarees"),
        ("hem band", "cardigan"),
        ("hem band", "knit top"),
    ],
)
def test_it_can_be_sewn_in_that_order(part: str, garment: str) -> None:
    order = garment_of(Case(part, garment, 0))
    pattern = draft(order, prepare(order))
    assert not_sewable(pattern, sewing_order(pattern)) == []


def test_the_strip_is_sewn_in_one_step_and_no_tape_is_bought() -> None:
    pattern = bound("neck binding", "bodice")
    steps = [step for step in sewing_order(pattern) if "neck binding" in step.pieces]
    assert len(steps) == 1
    assert len(steps[0].seams) == 4


def test_a_lining_lies_in_before_the_neck_is_bound_over_it() -> None:
    pattern = with_part(bound("neck binding", "bodice"), part_of(find_part("lining"), {}))
    steps = sewing_order(pattern)
    assert not_sewable(pattern, steps) == []
    lined = next(step for step in steps if step.act is Act.LINE)
    assert steps.index(lined) < next(k for k, step in enumerate(steps) if "neck binding" in step.pieces)
    words = " ".join(step_words(pattern, lined, "cm").sentences)
    assert "the binding takes in both" in words
    assert "Sew it to the neck" not in words


def test_a_long_strip_is_told_in_words_and_not_printed() -> None:
    """Nobody prints a strip of metres: it is cut by its measures and joined; a short one is printed."""
    pattern = bound("hem binding", "skirt")
    (strip,) = pieces_of(pattern, PieceKind.BINDING)
    sheet = lay_out(pattern, paper=PAPERS["A4"])
    assert strip.name not in sheet.names
    assert set(sheet.names) == {piece.name for piece in pattern.pieces} - {strip.name}
    assert any("hem binding: not printed" in item.words for item in sheet.front if isinstance(item, Text))
    assert strip.name in lay_out(pattern, paper=PAPERS["A4"], only=[strip.name]).names
    assert "neck binding" in lay_out(bound("neck binding"), paper=PAPERS["A4"]).names
