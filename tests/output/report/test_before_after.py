"""Before and after: each step drawn and told by what it moved, and what another order would give."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from drafting.alterations import Lengthen, UpperArm
from drafting.geometry import run_bounds
from drafting.pattern import Pattern, Step
from drafting.reading.units import parse_length
from output.command.draft import MadeGarment, make_garment, step_order_passages
from output.drawings.svg import overlay_picture
from output.report.before_after import before_after, steps_data
from output.report.report_page import report_html
from output.report.tables import finished_table, step_sentence
from tests.output.report.test_report_page import HANNE, Page
from tests.output.running import PERSON, ran

STEPS = """\
title = "Quay dress"
wearer = "inga.toml"
[[block]]
name = "bodice"
[[block]]
name = "sleeve"
[[step]]
alter = "lengthen"
piece = "sleeve"
by = "3 cm"
[[step]]
alter = "upper arm"
by = "3 cm"
"""


@cache
def altered() -> MadeGarment:
    from blocks.garment import BlockOrder, Garment
    from blocks.rows.fitted import FITTED

    steps = (Lengthen("sleeve", 30.0), Lengthen("bodice front", 20.0), UpperArm(by=20.0))
    return make_garment(Garment("Tide dress", HANNE, tuple(BlockOrder(block) for block in FITTED), steps=steps))


def report(stages: tuple[Pattern, ...] | None = None, unit: str = "cm") -> str:
    whole = altered()
    return report_html(whole.pattern, whole.results, stages=stages or whole.draft.stages, unit=unit)


def test_each_step_is_told_in_its_order_with_the_pieces_that_it_redrew() -> None:
    told = before_after(altered().draft.stages, "cm")
    assert [each.title for each in told] == [
        "1. lengthen: sleeve, by 3.0 cm",
        "2. lengthen: bodice front, by 2.0 cm",
        "3. upper arm: sleeve, by 2.0 cm",
    ]
    redrawn = [[after.name for _, after in each.pieces if after] for each in told]
    assert redrawn == [["sleeve"], ["bodice front", "bodice back"], ["sleeve"]]


def test_the_table_tells_before_after_and_by_how_much() -> None:
    rows = {
        row.cells[0].split("\n")[0]: row.cells[1:] for row in before_after(altered().draft.stages, "cm")[1].table.rows
    }
    back = next(each.mm for each in altered().pattern.wearer.lengths if each.key == "back_waist_length")
    assert rows["centre back"] == (f"{back / 10:.2f} cm", f"{back / 10 + 2:.2f} cm", "+20.0 mm")
    assert "armhole, back" not in rows


def test_what_moved_is_told_in_inches_to_one_who_works_in_them() -> None:
    rows = {
        row.cells[0].split("\n")[0]: row.cells[1:] for row in before_after(altered().draft.stages, "in")[1].table.rows
    }
    before, after, by = rows["centre back"]
    assert by in ("+3/4 in", "+13/16 in")  # 20 mm are 0.787 in, 12.6 sixteenths
    assert parse_length(by, unit=None) == pytest.approx(
        parse_length(after, unit=None) - parse_length(before, unit=None)
    )
    assert not any("." in cell for cells in rows.values() for cell in cells)


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_body_and_ease_as_shown_add_up_to_what_is_shown_as_finished(unit: str) -> None:
    shown = [row.cells[1:] for row in finished_table(altered().pattern, [unit]).rows if row.cells[1]]
    assert shown
    for body, ease, finished in ([parse_length(cell, unit=None) for cell in cells] for cells in shown):
        assert body + ease == pytest.approx(finished, abs=1e-6)


def test_what_a_step_was_told_reads_as_words() -> None:
    step = Step("move a dart", (("piece", "a"), ("dart", "b"), ("to", "c"), ("at", 80.0), ("measured_from", "d")))
    assert step_sentence(step, "cm") == "move a dart: a, dart b, to c, at 8.0 cm, measured from d"
    assert step_sentence(Step("hem", (("piece", "a"), ("level", True))), "cm") == "hem: a, level"


def test_what_a_step_leaves_alone_stands_below_its_table() -> None:
    (below,) = before_after(altered().draft.stages, "cm")[0].table.below
    assert "dart intakes" in below


def test_a_step_that_is_not_known_is_told_by_its_name_only() -> None:
    whole = altered()
    stranger = replace(whole.draft.stages[1], history=(Step("unheard of"),))
    (told,) = before_after((whole.draft.stages[0], stranger), "cm")
    assert told.title == "1. unheard of"
    assert told.table.below == ()


def test_a_step_after_which_nothing_differs_says_so() -> None:
    whole = altered()
    same = replace(whole.draft.stages[0], history=(Step("unheard of"),))
    (told,) = before_after((whole.draft.stages[0], same), "cm")
    assert told.pieces == ()
    assert "No seam" in told.table.above


def test_the_report_draws_each_redrawn_piece_before_under_after() -> None:
    page = Page(report())
    assert page.open == page.mismatched == []
    overlays = report().partition("Alterations made")[2].partition("<h2>")[0]
    assert overlays.count('class="as-it-was"') == overlays.count('class="as-it-is"') == 4
    assert overlays.index('class="as-it-was"') < overlays.index('class="as-it-is"')  # drawn first, so it lies under
    assert "<h2>Alterations made</h2>" in report(stages=altered().draft.stages[:1])
    assert "as-it-was" not in report(stages=altered().draft.stages[:1]).partition("<body>")[2]


def test_a_piece_that_is_new_or_gone_is_drawn_alone_and_told_so() -> None:
    whole = altered()
    before = whole.draft.stages[0]
    bodice = replace(
        before, pieces=tuple(each for each in before.pieces if each.name != "sleeve"), seams=(), measures=()
    )
    for stages, word in (((bodice, before), "new"), ((before, bodice), "no longer there")):
        last = replace(stages[1], history=(Step("unheard of"),))
        assert f"<b>sleeve</b>{word}<" in report(stages=(stages[0], last))


def test_both_states_are_drawn_on_one_scale_in_one_place() -> None:
    before, after = (pattern.piece("sleeve") for pattern in altered().draft.stages[:2])
    left, bottom, right, top = (run_bounds(after.outline)[k] for k in range(4))
    head = overlay_picture(before, after).partition('viewBox="0 0 ')[2].partition('"')[0].split()
    # the longer sleeve hides the shorter: its own bounds and ten millimetres round them
    assert float(head[0]) == pytest.approx(right - left + 20, abs=0.01)
    assert float(head[1]) == pytest.approx(top - bottom + 20, abs=0.01)
    assert overlay_picture(before, None) != overlay_picture(None, before)


def test_whoever_works_in_inches_reads_inches() -> None:
    assert " in</td>" in report(unit="in").partition("Alterations made")[2].partition("<h2>")[0]


def test_the_order_is_told_only_when_asked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "inga.toml").write_text(PERSON, encoding="utf-8")
    path = tmp_path / "dress.toml"
    path.write_text(STEPS, encoding="utf-8")
    plain = ran(capsys, "draft", path, "--to", tmp_path / "plain", "--paper", "A0")
    asked = ran(capsys, "draft", path, "--to", tmp_path / "asked", "--paper", "A0", "--explain")
    sentence = "Steps 1 and 2 (lengthen, upper arm) give another pattern the other way round: elbow"
    assert "another order" not in plain.out
    assert sentence in " ".join(asked.out.split())
    texts = {name: (tmp_path / name / "report.html").read_text("utf-8") for name in ("plain", "asked")}
    assert sentence not in texts["plain"]
    assert sentence in texts["asked"]
    assert sentence in " ".join(ran(capsys, "check", path, "--explain").out.split())


def test_one_step_has_no_other_order() -> None:
    whole = altered()
    first = replace(whole.garment, steps=whole.garment.steps[:1])
    alone = replace(whole, draft=replace(whole.draft, garment=first, stages=whole.draft.stages[:2]))
    (swaps,) = step_order_passages(alone, explain=True)
    assert swaps.sentences == ("There are no two steps that could change places.",)


def test_a_program_gets_what_each_step_moved() -> None:
    first, second, third = steps_data(altered().draft.stages)
    assert [each["alter"] for each in (first, second, third)] == ["lengthen", "lengthen", "upper arm"]
    assert first["redrawn"] == ["sleeve"]
    (length,) = [each for each in first["moved"] if each["kind"] == "finished"]  # type: ignore[attr-defined]
    assert length["after"] - length["before"] == pytest.approx(30.0, abs=1e-3)


def test_what_a_step_brings_is_new_and_what_it_takes_away_is_gone() -> None:
    whole = altered()
    with_sleeve, without = (
        whole.draft.stages[0],
        replace(
            whole.draft.stages[0],
            pieces=tuple(piece for piece in whole.draft.stages[0].pieces if piece.name != "sleeve"),
            seams=tuple(
                seam
                for seam in whole.draft.stages[0].seams
                if "armhole" not in seam.name and "underarm" not in seam.name
            ),
            measures=tuple(
                each for each in whole.draft.stages[0].measures if all(part.piece != "sleeve" for part in each.tape)
            ),
        ),
    )
    for (before, after), word, other in (
        ((with_sleeve, without), "gone", "new"),
        ((without, with_sleeve), "new", "gone"),
    ):
        # a step of the history stands for whatever made the one state of the other
        stages = (before, replace(after, history=whole.draft.stages[1].history))
        (step,) = before_after(stages, "cm")
        (row,) = (row for row in step.table.rows if row.cells[0].startswith("wrist"))
        assert row.cells[-1] == word
        assert other not in row.cells
        html = report_html(stages[1], whole.results, stages=stages)
        assert ("no longer there" in html) is (word == "gone")
