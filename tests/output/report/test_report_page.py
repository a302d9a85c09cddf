from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser

import pytest

from blocks.garment import BlockOrder, Garment
from blocks.rows.fitted import FITTED
from drafting.alterations import Lengthen
from drafting.body.complete import complete
from drafting.body.person import person
from drafting.body.plausible import Doubt, doubts
from drafting.body.terms import measurement
from drafting.checks import Result, Verdict, run_checks
from drafting.fit.ease import Ease
from drafting.pattern import Origin, Pattern, Step, finished
from drafting.reading.units import cm, inches, sentence_in
from output.command.draft import MadeGarment, make_garment
from output.report.report_page import report_html
from output.report.tables import check_tables

HANNE = person(
    {"stature": 1650.0, "bust_girth": 1020.0, "waist_girth": 840.0, "hip_girth": 1100.0, "wrist_girth": 230.0},
    name="Hanne",
)


@cache
def dress() -> MadeGarment:
    orders = tuple(BlockOrder(block) for block in FITTED)
    return make_garment(Garment("Tide dress", HANNE, orders, steps=(Lengthen("sleeve", 30.0),)))


def report(whole: MadeGarment | None = None, *, pattern: Pattern | None = None, **told: object) -> str:
    whole = whole or dress()
    given = {"ease": whole.draft.ease, "doubts": whole.doubts, "dated": "2026-10-03", "paper": "A4, 26 sheets"} | told
    results = given.pop("results", whole.results)
    return report_html(pattern or whole.pattern, results, **given)  # type: ignore[arg-type]


class Page(HTMLParser):
    """A stranger's reading of a page: its tags, whether each is closed, its words."""

    EMPTY = frozenset(("meta", "br", "path", "rect"))

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.mismatched: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in self.EMPTY:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.mismatched.append(tag)

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def test_the_report_is_one_page_that_needs_nothing_but_itself() -> None:
    text = report()
    page = Page(text)
    assert page.open == page.mismatched == []
    assert not {tag for tag, _ in page.tags} & {"script", "link", "img", "iframe", "object", "embed", "base", "a"}
    fetched = {"src", "href", "xlink:href", "srcset", "data", "action"}
    assert not [name for _, attrs in page.tags for name in attrs if name in fetched]
    assert "url(" not in text
    assert "@import" not in text
    addresses = set(re.findall(r"https?://[^\s\"'<)]+", text))
    assert addresses <= {
        "http://www.w3.org/2000/svg",
        "http://www.w3.org/1999/xlink",
        "http://www.w3.org/2001/xml-events",
    }


def test_the_same_pattern_gives_the_same_report() -> None:
    assert report() == report()


def test_what_a_person_wrote_is_never_taken_for_html() -> None:
    nasty = '<script>alert(1)</script> & "Oda\'s" <b>'
    whole = dress()
    pattern = replace(
        whole.pattern,
        title=nasty,
        wearer=replace(whole.pattern.wearer, name=nasty),
        origin=(Origin("bodice", (), (nasty,)),),
        pieces=(replace(whole.pattern.pieces[0], name=nasty),),
        seams=(),
        measures=(),
        history=(),
    )
    doubt = Doubt("wrist_girth", 1.0, 1.0, 1.0, 4.0, nasty)
    result = Result("code", nasty, nasty, Verdict.FAIL, remedy=nasty)
    text = report(pattern=pattern, results=[result], doubts=[doubt], ease=[Ease("hip", 1.0, nasty)], dated=nasty)
    page = Page(text)
    assert page.open == page.mismatched == []
    assert {"script", "b"} & {tag for tag, _ in page.tags} == {"b"}  # the b of a piece's name is ours
    assert page.text.count(nasty) >= 9


def test_every_piece_is_drawn_and_said_not_to_be_to_scale() -> None:
    page = Page(report())
    names = {piece.name for piece in dress().pattern.pieces}
    drawn = [attrs for tag, attrs in page.tags if tag == "svg" and attrs.get("aria-label") in names]
    assert len(drawn) == len(dress().pattern.pieces) == 5
    assert "Not to scale" in page.text
    assert "arrow: grain line" in page.text
    assert "two rows of stitches: gather there" not in page.text  # nothing is gathered
    # one rule of the style sheet gives every drawing its width: all are shrunk by the same share
    wide = [attrs["style"] for tag, attrs in page.tags if tag == "figure" and "style" in attrs]
    assert [style.split(":")[1] for style in wide if style] == [(attrs["viewbox"] or "").split()[2] for attrs in drawn]


@pytest.mark.parametrize(("unit", "shown", "other"), [("cm", cm, " in<"), ("in", inches, " cm<")])
def test_every_finished_measurement_stands_there_in_her_unit_and_no_other(
    unit: str, shown: Callable[[float], str], other: str
) -> None:
    text = report(unit=unit).partition("Finished measurements")[2].partition("</table>")[0]
    told = Page(text).text
    for made_ in finished(dress().pattern):
        assert f"{made_.name} " in told
        assert shown(made_.finished) in told
    assert other not in text


def test_the_estimated_lengths_come_least_certain_first_with_how_to_measure_them() -> None:
    text = report()
    told = text.partition("Estimated lengths")[2].partition("</table>")[0]
    guessed = [length for length in dress().pattern.wearer.lengths if length.source == "estimated"]
    guessed.sort(key=lambda length: -(length.sd or 0.0) / length.mm)
    places = [told.index(f"<td>{measurement(length.key).name}<") for length in guessed]
    assert places == sorted(places)
    assert len(guessed) > 10
    assert "Round the elbow of the straight arm." in told
    assert "wrist_girth" not in told


def test_doubts_what_gave_way_and_the_steps_are_told() -> None:
    whole = dress()
    text = Page(report()).text
    assert doubts(complete(HANNE), among=["wrist_girth"])[0].sentence in text
    for origin in whole.pattern.origin:
        for sentence in origin.gave_way:
            assert sentence_in("cm", sentence) in text
    assert "1. lengthen: sleeve, by 3.0 cm" in text
    assert "Nothing had to give way" in Page(report(pattern=replace(whole.pattern, origin=()))).text


def test_the_ease_is_told_with_the_source_of_each_figure() -> None:
    text = Page(report()).text
    for ease in dress().draft.ease:
        assert sentence_in("cm", ease.source) in text
    assert "(Wikipedia, Ease (sewing); 5.08 to 6.35 cm there" in text


def test_an_ease_that_is_not_usual_is_told_in_her_unit_and_no_other_is() -> None:
    note = "The ease round the waist that was asked for, 40.0 mm, is more than is usual: 19.1 to 25.4 mm (Robinson)."
    eases = [Ease("waist", 40.0, "as asked for", note), Ease("hip", 60.0, "as asked for")]
    told = Page(report(ease=eases).partition("Ease that is not usual")[2].partition("<h2>")[0]).text
    assert told.endswith("4 cm, is more than is usual: 1.91 to 2.54 cm (Robinson).")
    assert "Ease that is not usual" not in report(ease=eases[1:])


def test_every_check_stands_there_with_its_numbers_and_what_failed_stands_first() -> None:
    whole = dress()
    failed = Result("x", "grain line", "sleeve", Verdict.FAIL, 4.0, 0.0, 0.5, "degrees", "Turn it by 4.0 degrees.")
    text = report(results=[*whole.results, failed])
    told = Page(text.partition("Every check")[2]).text
    assert told.index("sleeve Turn it by 4.0 degrees. 4.0 0.0 0.5 either way FAILED") < told.index("pass")
    assert len(re.findall("pass|warning|FAILED", told)) == len(whole.results) + 1
    for result in run_checks(whole.pattern):
        assert sentence_in("cm", result.where) in told
    first = Page(text.partition("The pieces")[0]).text
    passed = sum(result.verdict is Verdict.PASS for result in whole.results)
    assert passed == len(whole.results) - 1  # a narrow sleeve end is warned of
    assert f"{passed} checks passed, 1 warning, 1 failed. Do not cut before this is mended." in first
    assert "grain line, sleeve: Turn it by 4.0 degrees." in first


@pytest.mark.parametrize("unit", ["cm", "mm", "in"])
def test_a_line_of_straight_stretches_is_called_straight_in_every_unit(unit: str) -> None:
    result = Result(
        "bends", "bends", "front shoulder", Verdict.PASS, measured=math.inf, wanted=15.0, allowed=(15.0, None)
    )
    assert "straight" in [row.cells[1] for table in check_tables([result], unit) for row in table.rows]


def test_every_seam_is_told_by_its_two_sides() -> None:
    told = Page(report().partition("The seams walked")[2].partition("Every check")[0]).text
    for seam in dress().pattern.seams:
        assert seam.name in told
    assert "mm eased in" in told


def test_a_pattern_about_which_nothing_is_proved_does_not_pass() -> None:
    nothing = Result("x", "seam length", "nothing to check", Verdict.NOTHING)
    assert "Nothing is proved about this pattern." in report(results=[nothing])
    assert "Nothing is proved about this pattern." in report(results=[])


def test_a_step_of_another_time_is_told_as_far_as_it_is_known() -> None:
    pattern = replace(dress().pattern, history=(Step("unheard of", (("by", 3.0), ("where", "top"))),))
    assert "1. unheard of: by 3.0, where top" in report(pattern=pattern)


def test_the_darts_are_told_with_their_size_and_the_rule_that_divides_them() -> None:
    told, words = report(), Page(report()).words
    assert "A waist dart is sewn as one up to 4.0 cm and 30 degrees" in told
    for piece in dress().pattern.pieces:
        for dart in piece.darts:
            assert f"<td>{piece.name}</td><td>{dart.name}</td>" in told
    assert words.count("waist dart") >= 2
    assert "up to 1 5/8 in and 30 degrees" in report(unit="in")
