"""Steps in a garment file: written in any order they give one pattern, the report says so, and a word holds them."""

from __future__ import annotations

import json
from itertools import permutations
from pathlib import Path

import pytest

from drafting.alterations import replay
from drafting.pattern import Pattern
from drafting.pattern.compare import strayed
from drafting.pattern.text import from_json
from tests.output.running import ran, written

Capsys = pytest.CaptureFixture[str]

_ROUNDED = 1e-3  # mm: pattern.json has four decimals

DRESS = 'title = "Quay dress"\nwearer = "inga.toml"\n{top}[[block]]\nname = "bodice"\n[[block]]\nname = "skirt"\n'
STAND = '[[step]]\nalter = "opening"\nat = "centre front"\nfasten = "buttons"\n'
NECK = '[[step]]\nalter = "neckline"\ndepth = "3 cm"\n'
SHORTER = '[[step]]\nalter = "shorten"\npiece = "skirt front"\nby = "4 cm"\n'
PANELS = '[[step]]\nalter = "dart into seam"\npiece = "skirt front"\ndart = "waist dart"\nto = "hem"\n'
SIDE_HEM = '[[step]]\nalter = "hem"\npiece = "skirt front, side"\ndepth = "5 cm"\n'


def dress(*steps: str, top: str = "") -> str:
    return DRESS.format(top=top) + "".join(steps)


def drafted(capsys: Capsys, folder: Path, garment: str, *words: str) -> tuple[Pattern, str, str]:
    """The pattern, the report, and what the terminal says."""
    result = ran(capsys, "draft", written(folder, garment), "--to", folder / "out", "--paper", "A0", *words)
    assert result.status == 0, result.err
    pattern = from_json((folder / "out" / "pattern.json").read_text(encoding="utf-8"))
    return pattern, (folder / "out" / "report.html").read_text(encoding="utf-8"), " ".join(result.out.split())


def test_three_steps_written_in_six_ways_give_one_pattern(tmp_path: Path, capsys: Capsys) -> None:
    found = []
    for steps in permutations((STAND, NECK, SHORTER)):
        result = ran(capsys, "check", written(tmp_path, dress(*steps)), "--json")
        assert result.status == 0
        found.append({key: result.data[key] for key in ("history", "finished", "checks")})
    assert all(each == found[0] for each in found)
    assert [step["alter"] for step in found[0]["history"]] == ["lengthen", "neckline", "opening"]


def test_the_report_says_in_which_order_they_were_taken_and_why(tmp_path: Path, capsys: Capsys) -> None:
    pattern, report, said = drafted(capsys, tmp_path, dress(STAND, NECK, SHORTER), "--explain")
    assert [step.alter for step in pattern.history] == ["lengthen", "neckline", "opening"]
    for sentence in (
        "First lengths and girths: shorten ([[step]] 3).",
        "Then neckline and darts: neckline ([[step]] 2).",
        "Then openings: opening ([[step]] 1).",
    ):
        assert sentence in report
        assert sentence in said
    assert "The order of the steps" in report
    assert "as written" in report


def test_where_they_are_taken_as_they_are_written_nothing_is_said_of_it(tmp_path: Path, capsys: Capsys) -> None:
    _, report, said = drafted(capsys, tmp_path, dress(SHORTER, NECK, STAND), "--explain")
    assert "The order of the steps" not in report + said
    assert "The steps in another order" in said


def test_a_step_that_names_a_piece_waits_for_the_step_that_makes_it_and_the_report_says_so(
    tmp_path: Path, capsys: Capsys
) -> None:
    pattern, report, _ = drafted(capsys, tmp_path, dress(SIDE_HEM, PANELS))
    assert [step.alter for step in pattern.history] == ["dart into seam", "hem"]
    words = "&quot;skirt front, side&quot; is made by dart into seam ([[step]] 2), and hem ([[step]] 1) waits for it."
    assert words in report


@pytest.mark.whole
def test_a_history_in_another_order_than_the_file_is_taken_again_to_the_same_pattern(
    tmp_path: Path, capsys: Capsys
) -> None:
    pattern, _, _ = drafted(capsys, tmp_path, dress(STAND, NECK, SHORTER))
    plain, _, _ = drafted(capsys, tmp_path, dress())
    again = replay(plain, pattern.history)
    assert [piece.name for piece in again.pieces] == [piece.name for piece in pattern.pieces]
    assert all(strayed(piece, pattern.piece(piece.name)) < _ROUNDED for piece in again.pieces)


def test_as_written_holds_the_steps_to_the_file(tmp_path: Path, capsys: Capsys) -> None:
    held = dress(STAND, NECK, SHORTER, top='order = "as written"\n')
    result = ran(capsys, "check", written(tmp_path, held))
    assert result.status == 2
    assert "[[step]] 2, neckline: " in result.err
    assert 'put this step before "opening"' in result.err
    free = ran(capsys, "check", written(tmp_path, dress(NECK, SHORTER, top='order = "as written"\n')), "--json")
    assert [step["alter"] for step in free.data["history"]] == ["neckline", "lengthen"]


def test_a_refusal_names_the_line_of_the_file_whatever_the_order(tmp_path: Path, capsys: Capsys) -> None:
    far = '[[step]]\nalter = "lengthen"\npiece = "skirt front"\nby = "-59 cm"\n'
    result = ran(capsys, "check", written(tmp_path, dress(STAND, NECK, far)))
    assert result.status == 2
    assert "[[step]] 3, lengthen: " in result.err


def test_another_word_for_the_order_is_answered_with_those_there_are(tmp_path: Path, capsys: Capsys) -> None:
    result = ran(capsys, "check", written(tmp_path, dress(NECK, top='order = "as writen"\n')))
    assert result.status == 2
    (line,) = result.err.splitlines()
    assert "order: read " in line
    assert '"by layer"' in line
    assert "as written" in line


def test_a_garment_that_is_like_another_keeps_its_order_and_may_change_it(tmp_path: Path, capsys: Capsys) -> None:
    written(tmp_path, dress(NECK, top='order = "as written"\n')).rename(tmp_path / "first.toml")
    like = 'title = "Second"\nlike = "first.toml"\n{top}' + SHORTER

    def history(top: str) -> list[str]:
        result = ran(capsys, "check", written(tmp_path, like.format(top=top)), "--json")
        return [step["alter"] for step in json.loads(result.out)["history"]]

    assert history("") == ["neckline", "lengthen"]
    assert history('order = "by layer"\n') == ["lengthen", "neckline"]


def test_the_list_of_alterations_says_in_which_order_they_are_taken(capsys: Capsys) -> None:
    listed = " ".join(ran(capsys, "list", "alterations").out.split())
    assert (
        "sizes; lengths and girths; bust, back, armhole, shoulder and sleeve; neckline and darts; fullness and wrap; "
        "openings; hems; seams in place of darts."
    ) in listed
    assert "Its turn among the steps: openings." in ran(capsys, "list", "opening").out


def test_the_size_chart_that_a_blend_goes_by_is_asked_for_in_words(capsys: Capsys) -> None:
    assert "the chart the sizes are of" in ran(capsys, "list", "blend").out
