from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.checks import CHECKS, Verdict, named, run_checks
from drafting.errors import InputProblems, Problem, Remedy, Setting
from drafting.geometry import Line, Vec, lerp, shift, turn
from drafting.pattern import Pattern, Wearer, finished, move_piece, with_pieces
from drafting.pattern.measure import Across, Along, Bent, Between, Curved, Measure
from drafting.pattern.text import from_json, read_document, to_json
from drafting.pattern.text_lines import laid_out
from tests.drafting.pattern.mutate import mutated
from tests.drafting.pattern.sample import front, pattern
from tests.sampling import LETTERS


@dataclass(frozen=True)
class Found:
    code: str = "seam-length"
    check: str = "seam length"
    where: str = "side seam"
    measured: object = 0.123456789
    wanted: object = 0.0
    allowed: object = (-1.5, 1.5)
    unit: str = "mm"
    verdict: str = "pass"
    remedy: str = ""
    remedies: tuple[Remedy, ...] = ()


def plain() -> dict[str, Any]:
    table: dict[str, Any] = json.loads(to_json(pattern()))
    return table


def problems_in(table: object) -> tuple[Problem, ...]:
    with pytest.raises(InputProblems) as caught:
        from_json(json.dumps(table))
    return caught.value.problems


def test_what_is_read_back_is_the_pattern_that_was_written() -> None:
    assert from_json(to_json(pattern())) == pattern()


def test_a_level_that_is_no_straight_line_is_read_back_as_it_was_drawn() -> None:
    """As the hip level of a flared skirt is: an arc, which a program that reads the file may draw."""
    whole = front()
    first, *rest = whole.lines
    middle = lerp(first.start, first.end, 0.5) + (first.end - first.start).unit().right() * 9.0
    curves = (Line(first.start, middle), Line(middle, first.end))
    bent = replace(whole, lines=(replace(first, curves=curves), *rest))
    text = to_json(with_pieces(pattern(), bent))
    (piece,) = (piece for piece in json.loads(text)["pieces"] if piece["name"] == whole.name)
    assert ["curves" in line for line in piece["lines"]] == [True, *(False for _ in rest)]
    assert from_json(text).piece(whole.name).lines == bent.lines


def test_every_way_to_lay_a_tape_is_read_back() -> None:
    """Across a piece, along an edge, between two points, round a bent level, and over the arc of a fanned one."""
    whole = pattern()
    piece = front()
    (line, *_), (one, two, *_) = piece.lines, piece.points
    tape = (
        Across(piece.name, line.name, 2.0),
        Along(piece.name, piece.edges[0].name),
        Between(piece.name, one.name, two.name, 0.5),
        Bent(piece.name, line.name, line.name, 2.0),
        Curved(piece.name, line.name, 3.25, 4.0),
    )
    measured = replace(whole, measures=(Measure("all ways", tape, "bust_girth", 900.0, 60.0, 20.0, True, 38.0),))
    assert from_json(to_json(measured)).measures == measured.measures


def test_a_dart_has_two_legs() -> None:
    table = plain()
    (dart, *_) = (dart for piece in table["pieces"] for dart in piece.get("darts", ()))
    dart["legs"] = [*dart["legs"], dart["legs"][0]]
    assert any("legs" in problem.where for problem in problems_in(table))


def test_an_edge_of_no_name_is_said_to_have_none() -> None:
    table = plain()
    table["seams"][0]["a"][0]["edge"] = ""
    (problem,) = problems_in(table)
    assert "empty" in problem.read
    assert "seams" in problem.where


@given(angle=st.floats(-3.0, 3.0), dx=st.floats(-900.0, 900.0), dy=st.floats(-900.0, 900.0))
@settings(deadline=None, max_examples=15)
def test_written_read_and_written_again_the_text_is_the_same_and_no_place_moves(
    angle: float, dx: float, dy: float
) -> None:
    move = turn(front().edge("hem").start, angle).then(shift(Vec(dx, dy)))
    before = replace(pattern(), pieces=tuple(move_piece(piece, move) for piece in pattern().pieces))
    text = to_json(before)
    after = from_json(text)
    assert to_json(after) == text
    for old, new in zip(before.pieces, after.pieces, strict=True):
        for old_curve, new_curve in zip(old.outline, new.outline, strict=True):
            assert old_curve.start.near(new_curve.start, 1e-9)


def test_the_finished_measurements_are_written_beside_the_body() -> None:
    hip = plain()["finished"][0]
    assert hip == {"name": "hip", "finished": 1000.0, "body": 950.0, "ease": 50.0, "least": 25.0}
    assert [row["finished"] for row in plain()["finished"]] == pytest.approx(
        [found.finished for found in finished(pattern())], abs=1e-4
    )


def test_what_follows_from_a_piece_is_written_and_not_read_back() -> None:
    table = plain()
    piece = table["pieces"][0]
    assert piece["cutting_line"][0][0] == piece["cutting_line"][-1][-1]
    assert all("drawn" in notch for notch in piece["notches"])
    piece["cutting_line"] = [[[0.0, 0.0], [1.0, 0.0]]]
    for notch in piece["notches"]:
        notch["drawn"], notch["number"] = [[0.0, 0.0], [1.0, 0.0]], 7
    assert from_json(json.dumps(table)) == pattern()


def test_a_file_written_before_there_were_cutting_lines_is_read() -> None:
    table = plain()
    for piece in table["pieces"]:
        del piece["cutting_line"]
        for notch in piece["notches"]:
            del notch["drawn"]
            notch.pop("number", None)
    assert from_json(json.dumps(table)) == pattern()


def test_notches_that_meet_are_written_with_one_number() -> None:
    numbers: dict[str, list[int | None]] = {}
    table = plain()
    written = {f"{p['name']}/{n['name']}": n.get("number") for p in table["pieces"] for n in p["notches"]}
    for seam in table["seams"]:
        for pair in seam["notches"]:
            numbers[seam["name"]] = [written[mark] for mark in pair]
    assert numbers
    assert all(one is not None and one == other for one, other in numbers.values())


def test_outcomes_of_checks_are_written_and_handed_back_as_they_stand() -> None:
    document = read_document(to_json(pattern(), [Found(), Found(measured=float("nan"), verdict="error")]))
    assert document.pattern == pattern()
    assert document.checks[0]["measured"] == 0.1235
    assert document.checks[0]["allowed"] == [-1.5, 1.5]
    assert document.checks[1]["measured"] is None
    (worded,) = read_document(to_json(pattern(), [Found(measured="down", wanted=["up", 2])])).checks
    assert (worded["measured"], worded["wanted"]) == ("down", ["up", 2])


def test_what_fits_on_a_line_stands_on_one_and_what_does_not_has_a_line_to_each_part() -> None:
    words = ["x" * 20] * 4
    whole = {"a": 1, "few": words, "many": [*words, "x" * 16], "more": [*words, "x" * 17, {}], "none": []}
    text = laid_out(whole)
    assert json.loads(text) == whole
    begin, *lines, end = text.splitlines()
    assert (begin, end) == ("{", "}")
    assert lines[0] == ' "a": 1,'
    assert lines[1] == ' "few": ["' + '", "'.join(words) + '"],'
    assert lines[2].startswith(' "many": ["xx')
    assert lines[3] == ' "more": ['
    assert lines[4:9] == [f'  "{word}",' for word in (*words, "x" * 17)]
    assert lines[9:] == ["  {}", " ],", ' "none": []']
    assert laid_out(words[:2]) == json.dumps(words[:2])


def test_what_would_mend_a_failed_check_is_written_for_a_program() -> None:
    let_out = Remedy("add", "take in", (Setting("waist", -15.0, "mm"),), lead="To let it out there")
    (check,) = read_document(to_json(pattern(), [Found(verdict="fail", remedies=(let_out,))])).checks
    assert check["remedies"] == [let_out.data()]
    assert let_out.sentence() == 'To let it out there: alter = "take in", waist = "-15 mm".'
    assert "remedies" not in read_document(to_json(pattern(), [Found()])).checks[0]


def test_a_number_that_is_none_is_in_no_file() -> None:
    with pytest.raises(ValueError, match="JSON compliant"):
        to_json(replace(pattern(), stretch=float("nan")))
    huge = [Found(measured=1e15), Found(measured=-9.9e14), Found(measured=float("-inf"), allowed=[2.5, None])]
    checks = read_document(to_json(pattern(), huge)).checks
    assert [each["measured"] for each in checks] == [None, -9.9e14, None]
    assert checks[2]["allowed"] == [2.5, None]


def test_an_outline_of_more_curves_than_clothing_needs_is_not_read() -> None:
    table = plain()
    hem = table["pieces"][0]["outline"][0]
    hem["curves"] = [[[k * 0.048, 0.0], [(k + 1) * 0.048, 0.0]] for k in range(4999)]
    hem["curves"][-1][-1] = [240.0, 0.0]
    (problem,) = problems_in(table)
    assert "pieces[0].outline: read an outline of 5,006 lines and curves, expected up to 5,000" in problem.sentence()
    hem["curves"][3990:] = [[hem["curves"][3990][0], [240.0, 0.0]]]
    assert len(from_json(json.dumps(table)).pieces[0].edges[0].curves) == 3991


def test_letters_outside_ascii_survive() -> None:
    assert "Ylva Ström" in to_json(pattern())


def test_a_name_that_no_file_could_hold_is_refused_before_anything_is_written() -> None:
    with pytest.raises(InputProblems, match="expected a text on one line"):
        to_json(replace(pattern(), wearer=Wearer("two\nlines")))


def test_a_stroke_in_a_name_does_not_confuse_the_notch_pairs() -> None:
    table = plain()
    text = json.dumps(table).replace('"skirt front', '"skirt/front').replace('"hip"', '"hip/side"')
    text = text.replace('/hip"', '/hip/side"')
    read = from_json(text)
    assert read.seam("side seam").notches[0][0].piece == "skirt/front"
    assert read.seam("side seam").notches[0][0].notch == "hip/side"


# ---- what can be wrong in a file ------------------------------------------------------------------------------


def at(table: Any, *steps: str | int) -> Any:
    for step in steps:
        table = table[step]
    return table


def put(value: object, *steps: str | int) -> Callable[[dict[str, Any]], None]:
    def change(table: dict[str, Any]) -> None:
        at(table, *steps[:-1])[steps[-1]] = value

    return change


@pytest.mark.parametrize(
    ("change", "where", "expected"),
    [
        (put("another pattern", "format"), "format", '"trueseam pattern"'),
        (put(3, "version"), "version", "read 3, expected a whole number from 1 to 2"),
        (put("in", "unit"), "unit", '"mm"'),
        (put([], "pieces"), "pieces", "a list of 1 or more"),
        (put("12", "pieces", 0, "outline", 0, "allowance"), "pieces[0].outline[0].allowance", "a number from 0"),
        (put(-1, "pieces", 0, "outline", 0, "allowance"), "pieces[0].outline[0].allowance", "a number from 0"),
        (put("edge", "pieces", 0, "outline", 0, "role"), "pieces[0].outline[0].role", '"hem"'),
        (put([[0, 0]], "pieces", 0, "outline", 0, "curves", 0), "pieces[0].outline[0].curves[0]", "two points"),
        (put([1e9, 0], "pieces", 1, "grain", 0), "pieces[1].grain[0][0]", "a number from -100000 to 100000"),
        (put(float("nan"), "pieces", 0, "points", "knee", 0), 'pieces[0].points["knee"][0]', "a number"),
        (put([-5.0, 0.0], "pieces", 0, "outline", 0, "curves", 0, 0), "pieces[0].outline[0]", "An outline closes"),
        (put("side", "pieces", 0, "notches", 0, "edge"), "pieces[0].notches[0].edge", "an edge of this piece"),
        (put("hem", "pieces", 0, "outline", 1, "edge"), "pieces[0].outline[1]", "a name of its own"),
        (put("skirt fronnt", "seams", 0, "a", 0, "piece"), "seams[0].a[0].piece", 'Did you mean "skirt front"?'),
        (put("skirt back/hop", "seams", 0, "notches", 0, 1), "seams[0].notches[0][1]", 'mean "skirt back/hip"?'),
        (put(5, "seams", 0, "ease", "low"), "seams[0].ease", "what a pattern could have"),
        (put("waist line", "measures", 0, "tape", 0, "line"), "measures[0].tape[0].line", 'a line of "skirt front"'),
        (put("along it", "measures", 0, "tape", 0, "lay"), "measures[0].tape[0]", '"across"'),
        (put({"by": 1.0}, "history", 0), "history[0]", 'a table with "alter"'),
        (put([1], "history", 0, "by"), 'history[0]["by"]', "a text, a number"),
        (put("regular", "origin", 0, "options", ""), "origin[0].options", "keys that are texts on one line"),
        (put([0.0, 0.0], "pieces", 0, "points", "a\nb"), "pieces[0].points", 'read the key "a?b"'),
        (put("guessed", "wearer", "measurements", "waist_girth", "from"), "waist_girth", '"estimated"'),
        (put(1, "pieces", 0, "notchs"), "pieces[0]", 'Did you mean "notches"?'),
    ],
)
def test_each_wrong_thing_is_one_sentence_with_its_place(
    change: Callable[[dict[str, Any]], None], where: str, expected: str
) -> None:
    table = plain()
    change(table)
    (problem,) = problems_in(table)
    assert where in problem.where
    assert expected in problem.sentence()


def test_every_problem_is_reported_at_once() -> None:
    table = plain()
    del table["wearer"]
    put("x", "pieces", 0, "outline", 0, "curves", 0, 0, 0)(table)
    put(True, "pieces", 1, "cut", "count")(table)
    put(None, "seams", 1, "name")(table)
    assert len(problems_in(table)) == 4


def test_a_clockwise_outline_is_refused_in_words() -> None:
    table = plain()
    outline = table["pieces"][1]["outline"]
    for edge in outline:
        edge["curves"] = [curve[::-1] for curve in edge["curves"][::-1]]
    outline.reverse()
    (problem,) = problems_in(table)
    assert "clockwise" in problem.sentence()


@pytest.mark.parametrize(
    "text", ["", "[", "{}", "[1, 2]", "null", '{"format": 1e999}', "[" * 100_000, "1" * 5000, '"\\ud800"', "\x00"]
)
def test_what_is_no_pattern_at_all_is_refused_in_words(text: str) -> None:
    with pytest.raises(InputProblems) as caught:
        from_json(text, place="x.json")
    assert all(sentence.startswith("x.json") for sentence in caught.value.sentences())


def attempt(text: str) -> Pattern | tuple[str, ...]:
    """The pattern, or the sentences of the refusal; anything else that is raised is a fault of the reader."""
    try:
        return from_json(text)
    except InputProblems as refusal:
        return refusal.sentences()


@given(mutated(plain()))
@settings(deadline=None, max_examples=50)
def test_whatever_is_changed_in_a_file_it_is_read_or_refused_in_words(table: object) -> None:
    result = attempt(json.dumps(table))
    if isinstance(result, Pattern):
        finished(result)  # what was read can be measured
        written = to_json(result)
        assert to_json(from_json(written)) == written
    else:
        assert result
        assert all(sentence.isprintable() for sentence in result)


@given(st.data())
@settings(deadline=None, max_examples=25)
def test_a_text_cut_short_or_scribbled_on_is_read_or_refused_in_words(data: st.DataObject) -> None:
    text = to_json(pattern())
    start = data.draw(st.integers(0, len(text) - 1))
    scribbled = text[:start] + data.draw(st.text(LETTERS, max_size=3)) + text[start + data.draw(st.integers(0, 400)) :]
    assert attempt(scribbled)


@pytest.mark.parametrize("at", [-50.0, 5000.0, -90_000.0])
def test_a_notch_beyond_its_edge_is_read_and_fails_the_check_of_notches(at: float) -> None:
    document = json.loads(to_json(pattern()))
    piece = next(piece for piece in document["pieces"] if piece.get("notches"))
    piece["notches"][0]["at"] = at
    found = run_checks(from_json(json.dumps(document)), checks=named(CHECKS, ["notches-meet"]))
    failed = [each for each in found if each.verdict is Verdict.FAIL]
    assert any(piece["notches"][0]["name"] in each.where for each in failed)


@pytest.mark.parametrize("mm", [0, 0.0, -12.5])
def test_a_body_has_no_length_of_zero_or_less(mm: float) -> None:
    table = plain()
    key = next(iter(table["wearer"]["measurements"]))
    table["wearer"]["measurements"][key]["mm"] = mm
    with pytest.raises(InputProblems) as refused:
        from_json(json.dumps(table))
    assert any(key in sentence for sentence in refused.value.sentences())
