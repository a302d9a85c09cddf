from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from drafting.alterations import MoveDart, apply_step
from drafting.geometry import Point, run_bounds, run_length
from drafting.pattern import Cut, Edge, Piece, Role
from drafting.pattern.cutting import cutting_line
from drafting.pattern.places import Place
from output.drawings.drawing import Box, LineKind, Stroke, Text
from output.drawings.free_space import crowding, obstacles
from output.drawings.lettering import corners
from output.drawings.piece_drawing import Heading, piece_lines, with_notes
from output.drawings.piece_notes import allowance_note, cut_note, piece_words
from output.sheets.large_sheet import Sheet, lay_out
from output.sheets.papers import PAPERS
from tests.drafting.dress import dress
from tests.output.sample import bodice, cuff, line, sample_pattern, skirt_front, tiny

INCLUDED = "the cutting line includes"
HEADING = Heading("Harbour skirt", "Oda", "3 October")


def total(sheet_or_items: object, kind: LineKind) -> float:
    items = sheet_or_items.items if hasattr(sheet_or_items, "items") else sheet_or_items
    return sum(run_length(item.curves) for item in items if isinstance(item, Stroke) and item.kind is kind)  # type: ignore[attr-defined]


def words(items: object) -> list[str]:
    return [item.words for item in items if isinstance(item, Text)]  # type: ignore[attr-defined]


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    return lay_out(sample_pattern(), paper=PAPERS["A4"], dated="3 October")


@pytest.mark.parametrize(
    ("cut", "note"),
    [
        (Cut(1), "cut 1"),
        (Cut(2), "cut 2"),
        (Cut(2, mirror=True), "cut 2: a pair, one left and one right"),
        (Cut(4, mirror=True), "cut 4: 2 pairs, one left and one right"),
        (Cut(1, fold=True), "cut 1 on the fold"),
        (Cut(2, fold=True), "cut 2, each on the fold"),
    ],
)
def test_how_many_to_cut_is_said_in_words(cut: Cut, note: str) -> None:
    assert cut_words(cut) == (note,)


def cut_words(cut: Cut) -> tuple[str, ...]:
    return cut_note(replace(skirt_front(), cut=cut))


def test_the_allowances_are_said_in_the_persons_unit() -> None:
    assert allowance_note(skirt_front(), "cm") == (INCLUDED, "1.5 cm for seams,", "4.0 cm for the hem")
    assert allowance_note(bodice(), "mm") == (INCLUDED, "10 mm and 15 mm for seams,", "20 mm at the opening")


def test_the_allowance_of_a_wrap_edge_is_not_called_the_opening() -> None:
    piece = bodice()
    edges = [replace(edge, place=Place.WRAP_EDGE) if edge.role is Role.OPENING else edge for edge in piece.edges]
    assert allowance_note(replace(piece, edges=tuple(edges)), "mm")[-1] == "20 mm at the wrap edge"


def test_a_piece_without_allowances_says_so() -> None:
    bare = Piece("strap", (Edge("round", line(0, 0, 40, 0) + line(40, 0, 0, 40) + line(0, 40, 0, 0)),))
    assert "add them when you cut" in allowance_note(bare, "cm")


def test_the_fold_is_not_drawn_as_a_line_to_cut() -> None:
    drawn = piece_lines(skirt_front())
    border = run_length(cutting_line(skirt_front()))
    assert total(drawn, LineKind.CUTTING) + total(drawn, LineKind.FOLD) == pytest.approx(border, abs=1e-3)
    # the fold with its run through the allowance of the waist and of the hem
    assert total(drawn, LineKind.FOLD) == pytest.approx(600 + 15 + 40, abs=0.01)


def test_every_part_of_a_piece_is_drawn() -> None:
    drawn = piece_lines(skirt_front())
    legs = sum(edge.length for edge in skirt_front().edges if edge.role is Role.DART_LEG)
    assert total(drawn, LineKind.DART) == pytest.approx(legs)
    assert total(drawn, LineKind.BALANCE) == pytest.approx(500.0)
    assert total(drawn, LineKind.GRAIN) == pytest.approx(320 + 4 * 6.0)  # with the barbs of its arrows
    # one single and one double notch, each from the sewing to the cutting line
    assert total(drawn, LineKind.NOTCH) == pytest.approx(3 * 15.0, abs=0.05)


def test_the_notes_name_the_piece_the_wearer_the_date_and_the_marks() -> None:
    drawn = with_notes(piece_lines(skirt_front()), skirt_front(), HEADING, piece_words(skirt_front(), None, "cm"))
    written = words(drawn.items)
    for expected in (
        "skirt front",
        "cut 1 on the fold",
        "Harbour skirt for Oda",
        "3 October",
        "centre front: place on fold of cloth",
        "finished hem: turn up 4.0 cm here",
        "waist dart: press toward the centre",
        "hip line",
        "lengthen or shorten here",
        "grain",
    ):
        assert expected in written


def test_no_date_is_made_up() -> None:
    drawn = with_notes(piece_lines(cuff()), cuff(), Heading("Harbour skirt", "Oda"), piece_words(cuff(), None, "cm"))
    label = ["cuff", "cut 2: a pair, one left and one right", "Harbour skirt for Oda"]
    along = "opening: left open, to be fastened"
    allowances = [INCLUDED, "1.0 cm for seams,", "2.0 cm at the opening"]
    assert words(drawn.items) == ["grain", along, *label, *allowances]


@pytest.mark.parametrize("piece", [skirt_front(), cuff(), bodice()], ids=lambda piece: piece.name)
def test_the_writing_runs_over_no_line_and_no_other_writing(piece: Piece) -> None:
    drawn = with_notes(piece_lines(piece), piece, HEADING, piece_words(piece, None, "cm"))
    texts = [item for item in drawn.items if isinstance(item, Text)]
    lines = obstacles(item for item in drawn.items if isinstance(item, Stroke))
    for text in texts:
        a, b, c, d = corners(text)
        size = ((b - a).norm() - 0.05, (d - a).norm() - 0.05)
        centre = Point(0.5 * (a.x + c.x), 0.5 * (a.y + c.y))
        assert crowding(lines, [centre], size, angle=text.angle).tolist() == [0], text
    for one, other in combinations(texts, 2):
        assert _apart(one, other), (one, other)


def test_a_piece_smaller_than_its_notes_keeps_its_name_inside() -> None:
    drawn = with_notes(piece_lines(tiny()), tiny(), HEADING, piece_words(tiny(), None, "cm"))
    assert "loop" in words(drawn.items)
    assert "cut 1" in words(drawn.items)
    name = next(item for item in drawn.items if isinstance(item, Text) and item.words == "loop")
    assert all(drawn.box.holds(p) for p in corners(name))


def test_what_only_tells_the_way_back_of_a_moved_dart_is_not_drawn() -> None:
    moved = apply_step(dress(), MoveDart("bodice front", "bust dart", "side seam", measured_from="armhole", at=60.0))
    piece = moved.piece("bodice front")
    assert any("was closed" in mark.name for mark in piece.points)
    drawn = with_notes(piece_lines(piece), piece, HEADING, piece_words(piece, None, "cm"))
    assert not any("was closed" in said for said in words(drawn.items))
    kept = replace(piece, points=tuple(mark for mark in piece.points if "was closed" not in mark.name))
    assert total(drawn, LineKind.POINT) == pytest.approx(total(piece_lines(kept), LineKind.POINT))


def test_pieces_lie_upright_on_the_sheet_as_they_were_drafted(sheet: Sheet) -> None:
    for piece, drawn in zip(sample_pattern().pieces, sheet.pieces, strict=True):
        plain = piece_lines(piece)
        assert drawn.box.width == pytest.approx(plain.box.width)
        assert drawn.box.height == pytest.approx(plain.box.height)
        by = drawn.outline[0] - plain.outline[0]
        assert all((q - p - by).norm() < 1e-9 for p, q in zip(plain.outline, drawn.outline, strict=True))


def test_no_two_pieces_share_a_place(sheet: Sheet) -> None:
    front = [item for item in sheet.front if isinstance(item, Stroke)]
    boxes = [piece.box for piece in sheet.pieces] + [Box(*run_bounds(item.curves)) for item in front[:2]]
    for one, other in combinations(boxes, 2):
        assert one.apart(other)


def test_everything_lies_on_the_sheet(sheet: Sheet) -> None:
    whole = Box(0, 0, sheet.width, sheet.height)
    for item in sheet.items:
        if isinstance(item, Stroke):
            left, bottom, right, top = run_bounds(item.curves)
            assert whole.holds(Point(left, bottom))
            assert whole.holds(Point(right, top))
        else:
            assert all(whole.holds(p) for p in corners(item)), item


def test_the_front_block_says_how_to_print_and_explains_the_lines(sheet: Sheet) -> None:
    written = " ".join(words(sheet.front))
    assert 'Print at 100 %, never "fit to page". Measure both squares before you cut.' in written
    assert "for Oda, 3 October" in written
    assert "10 cm" in written
    assert "4 inches" in written
    kinds = {item.kind for item in sheet.front if isinstance(item, Stroke)}
    assert {LineKind.CUTTING, LineKind.SEWING, LineKind.FOLD, LineKind.DART, LineKind.BALANCE} <= kinds
    drawn = {item.kind for piece in sheet.pieces for item in piece.items if isinstance(item, Stroke)}
    assert LineKind.GATHER not in drawn | kinds
    assert "gather here" not in written


def test_a_failed_check_stands_on_the_front_block() -> None:
    failure = "seam length: the side seams differ by 4.2 mm."
    front = lay_out(sample_pattern(), paper=PAPERS["A4"], warnings=(failure,)).front
    assert failure in " ".join(words(front))
    assert any("Do not cut before this is mended" in line for line in words(front))


def test_more_warnings_than_there_is_room_for_are_counted() -> None:
    many = tuple(
        f"The side seam number {n} is longer than its partner by {n} mm, which will not sew." for n in range(40)
    )
    sheet = lay_out(sample_pattern(), paper=PAPERS["A4"], warnings=many)
    written = words(sheet.front)
    shown = sum("side seam number" in line for line in written)
    more = next(line for line in written if line.startswith("and "))
    assert more == f"and {40 - shown} more: see the report"
    assert shown >= 3
    assert sheet.map_room.height > 30.0


def test_a_very_long_title_keeps_within_the_block() -> None:
    sheet = lay_out(sample_pattern(title="Harbour " * 60, wearer="Oda " * 60), paper=PAPERS["A4"])
    left, right = sheet.paper.overlap_x / 2, sheet.paper.overlap_x / 2 + sheet.paper.step_width
    for item in sheet.front:
        if isinstance(item, Text):
            assert all(left <= p.x <= right for p in corners(item)), item


def _apart(one: Text, other: Text) -> bool:
    a, b = (
        Box(min(p.x for p in c), min(p.y for p in c), max(p.x for p in c), max(p.y for p in c)).grown(-0.01)
        for c in (corners(one), corners(other))
    )
    return a.apart(b)


def test_what_is_cut_of_interfacing_is_never_read_as_inches() -> None:
    assert cut_words(Cut(2, mirror=True, interfacing=2)) == (
        "cut 2 of shell:",
        "a pair, one left and one right",
        "and 2 of interfacing",
    )
    assert cut_words(Cut(1, fold=True, interfacing=1)) == (
        "cut 1 of shell:",
        "on the fold",
        "and 1 of interfacing",
    )
    assert cut_words(Cut(1, interfacing=1)) == ("cut 1 of shell", "and 1 of interfacing")


@pytest.mark.parametrize(
    ("paper", "unit", "said"),
    [
        # what is left of the width inside a border of 6.35 mm: 197.3 of 210, 203.2 of 215.9, 284.3 of 297 mm
        ("A4", "cm", "Is this one 94 mm, not 100?"),
        ("Letter", "cm", "Is this one 94 mm, not 100?"),
        ("Letter", "in", "Is the one below 3 3/4 in, not 4?"),
        ("A3", "cm", "Is this one 96 mm, not 100?"),
        ("A0", "cm", "Is one of them off?"),
    ],
)
def test_the_first_sheet_says_what_a_wrong_square_means(paper: str, unit: str, said: str) -> None:
    front = lay_out(sample_pattern(), paper=PAPERS[paper], unit=unit).front
    assert said in " ".join(item.words for item in front if isinstance(item, Text))
