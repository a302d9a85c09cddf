"""The words of a command line: where options may stand, what is said of those that cannot be, and the help."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.alterations import ALTERATIONS
from output.command.answer import MOST_LINES
from tests.output.running import everything_in, ran, written
from tests.sampling import some

Capsys = pytest.CaptureFixture[str]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("chekc", "a.toml"),
            'read "chekc", expected open, draft, check, lay, measure, grow, size, list or new. Did you mean "check"?',
        ),
        (
            ("--json",),
            'read "--json", expected open, draft, check, lay, measure, grow, size, list or new. `trueseam --help` says',
        ),
        (("draft",), "draft: read no GARMENT.toml, expected the garment file. `trueseam draft --help` says"),
        (
            ("draft", "--two", "a.toml"),
            'draft: read "--two", expected --to, --for, --paper, --sizes, --unit, --all, --explain, ',
        ),
        (("draft", "--two", "a.toml"), 'Did you mean "--to"?'),
        (("draft", "--pap", "A4"), 'read "--pap", expected'),
        (("draft", "-x"), 'read "-x", expected'),
        (("draft", "a.toml", "--to"), "draft --to: read nothing after it, expected a folder."),
        (("draft", "a.toml", "--to", "--json"), "draft --to: read nothing after it, expected a folder."),
        (("check", "a.toml", "--json=1"), 'check --json: read something after "=", expected --json by itself.'),
        (("measure", "a.toml", "b.toml"), 'measure: read "b.toml" as well, expected PERSON.toml and no more.'),
        (("new", "garment", "a.toml", "b.toml"), 'new: read "b.toml" as well, expected WHAT and FILE.toml and no more'),
        (("new", "persn"), 'new: read "persn", expected person, garment or chart. Did you mean "person"?'),
        (("list", "--to", "x"), 'list: read "--to", expected --unit, --json or --help.'),
        (("list", "--", "--unit"), 'list: read "--unit", expected blocks,'),
        (("check", "a.toml", "--unit", "ell"), '--unit: read "ell", expected cm, in or mm.'),
        (("che\x1b[31mck",), 'read "che'),
    ],
)
def test_words_that_cannot_be_are_said_with_what_could_be(
    words: tuple[str, ...], said: str, capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = ran(capsys, *words)
    assert (result.status, "" if "--json" in words else result.out) == (2, "")
    sentences = result.out if "--json" in words else result.err
    assert said in sentences.replace('\\"', '"')
    assert sentences.isprintable() or "\x1b" not in sentences
    assert everything_in(tmp_path) == {}


def test_all_that_is_too_much_is_said_at_once(capsys: Capsys) -> None:
    assert len(ran(capsys, "check", "a.toml", "b.toml", "c.toml").err.splitlines()) == 2
    assert len(ran(capsys, "check", "--fast", "--loud", "a.toml").err.splitlines()) == 2


@pytest.mark.parametrize(
    "words",
    [
        ("--unit", "in", "the", "take", "in"),
        ("the", "--unit", "in", "take", "in"),
        ("the", "take", "in", "--unit=inches"),
        ("--unit", "cm", "the", "take", "--unit", "in", "--", "in"),
    ],
)
def test_options_may_stand_anywhere_among_the_arguments(words: tuple[str, ...], capsys: Capsys) -> None:
    result = ran(capsys, "list", *words)
    assert result.status == 0
    assert result.out == ran(capsys, "list", "take in", "--unit", "in").out
    assert " in " in result.out


def test_a_file_whose_name_begins_with_a_dash_stands_behind_two(
    capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(tmp_path).rename(tmp_path / "-skirt.toml")
    monkeypatch.chdir(tmp_path)
    assert ran(capsys, "check", "--", "-skirt.toml").status == 0
    assert ran(capsys, "check", "-skirt.toml").status == 2


@pytest.mark.parametrize("name", ["draft", "check", "measure", "list", "new"])
@pytest.mark.parametrize("width", [60, 80])
def test_help_says_every_option_and_fits(
    name: str, width: int, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    overview = ran(capsys, "--help")
    assert f"\n  {name} " in overview.out
    asked = ran(capsys, name, "--no-such", "--help")
    assert (overview.status, asked.status, asked.err) == (0, 0, "")
    refusal = ran(capsys, name, "--no-such").err
    offered = {word.strip(",.") for word in refusal.split() if word.startswith("--")} - {"--help`"}
    assert {"--json", "--help"} < offered
    assert [option for option in offered if f"\n  {option} " not in asked.out] == []
    assert max(map(len, (overview.out + asked.out).splitlines())) <= width


@pytest.mark.parametrize("name", some(ALTERATIONS.names, every=3))
def test_all_about_an_alteration_goes_on_one_screen(name: str, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert len(ran(capsys, "list", name).out.splitlines()) <= MOST_LINES
