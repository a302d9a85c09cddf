"""What a person can get wrong: each is met with plain sentences and exit status 2, and nothing is written."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from tests.output.running import PERSON, SKIRT, everything_in, ran, written
from tests.sampling import some

Capsys = pytest.CaptureFixture[str]


def refused(capsys: Capsys, path: Path, *more: str | Path) -> list[str]:
    """The sentences with which a draft is refused. Nothing is found written, neither in the folder nor beside it."""
    before = everything_in(path.parent)
    to = path.parent / "out"
    plain = ran(capsys, "draft", path, "--to", to, *more)
    assert plain.status == 2
    assert plain.out == ""
    asked_by_a_program = ran(capsys, "draft", path, "--to", to, "--json", *more)
    assert asked_by_a_program.status == 2
    assert asked_by_a_program.err == ""
    sentences = plain.err.splitlines()
    assert [problem["sentence"] for problem in asked_by_a_program.data["problems"]] == sentences
    assert not to.exists()
    assert everything_in(path.parent) == before
    assert "Traceback" not in plain.err
    return sentences


def one(sentences: list[str]) -> str:
    assert len(sentences) == 1, sentences
    return sentences[0]


def test_a_garment_file_that_is_not_there(tmp_path: Path, capsys: Capsys) -> None:
    said = one(refused(capsys, tmp_path / "nowhere.toml"))
    assert said.startswith(str(tmp_path / "nowhere.toml"))
    assert "no such file" in said


def test_a_wearer_whose_file_is_not_there(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, SKIRT.replace("inga.toml", "ingo.toml"))
    said = one(refused(capsys, path))
    assert f"{path}, wearer: read " in said
    assert "ingo.toml, no such file, expected" in said


def test_a_line_that_cannot_be_read_is_named_and_shown_mended(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, SKIRT.replace('"Quay skirt"', '"Quay skirt'))
    said = one(refused(capsys, path))
    assert f"{path}, line 1: read" in said
    assert said.endswith('Put it in quotes: title = "Quay skirt"')


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ('"55 furlongs"', ("55 furlongs", "mm, cm, m, in, ft and yd")),
        ('"55"', ('"55"', "with its unit")),
        ('"long"', ('"long"', "a length with its unit")),
        ("nan", ("nan", "no number that could be measured")),
        ("inf", ("inf", "no number that could be measured")),
        ('"-55 cm"', ("-55 cm", "from 15.0 cm to 140.0 cm")),
        ('"0 cm"', ("0 cm", "from 15.0 cm to 140.0 cm")),
        ('"1000000000 cm"', ("1000000000 cm",)),
        ("1e9", ("1000000000.0",)),
        ("true", ("true", "a length")),
        ("[55]", ("a list", "a length")),
    ],
)
def test_a_length_that_is_none(typed: str, told: tuple[str, ...], tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, SKIRT.replace('"55 cm"', typed))
    said = one(refused(capsys, path))
    assert said.startswith(f"{path}, [[block]] 1 length: read")
    for words in told:
        assert words in said


@pytest.mark.parametrize("typed", ["nan", "-96", "0", "1e9", '"wide"', '"96 kg"', "960"])
def test_a_measurement_that_no_body_has(typed: str, tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, person=PERSON.replace("bust_girth = 96", f"bust_girth = {typed}"))
    said = one(refused(capsys, path))
    assert said.startswith(f"{tmp_path / 'inga.toml'}, [measurements] bust_girth: read")
    assert "expected a length" in said


@pytest.mark.parametrize(
    ("spoilt", "told"),
    [
        (SKIRT + "lenght = 5\n", ("lenght", 'Did you mean "length"?')),
        (SKIRT.replace("title", "titel"), ('Did you mean "title"?',)),
        (SKIRT.replace('name = "skirt"', 'name = "skrit"'), ('"skrit"', 'Did you mean "skirt"?')),
        (
            SKIRT + '[[step]]\nalter = "lengthen"\npiece = "skirt frond"\nby = "3 cm"\n',
            ("skirt frond", 'Did you mean "skirt front"?'),
        ),
        (SKIRT + '[[step]]\nalter = "lengthn"\npiece = "skirt front"\nby = "3 cm"\n', ('Did you mean "lengthen"?',)),
        (SKIRT + '[paper]\nsize = "A44"\n', ('"A44"', 'Did you mean "A4"?')),
    ],
)
def test_a_name_that_is_not_known_gets_the_nearest(
    spoilt: str, told: tuple[str, ...], tmp_path: Path, capsys: Capsys
) -> None:
    sentences = refused(capsys, written(tmp_path, spoilt))
    for words in told:
        assert any(words in sentence for sentence in sentences), sentences


def test_files_that_follow_each_other_in_a_loop(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, 'like = "other.toml"\n' + SKIRT)
    (tmp_path / "other.toml").write_text('like = "skirt.toml"\n' + SKIRT, encoding="utf-8")
    sentences = refused(capsys, path)
    assert any("skirt.toml -> other.toml -> skirt.toml" in sentence for sentence in sentences), sentences


def test_a_file_that_follows_itself(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path, 'like = "skirt.toml"\n' + SKIRT)
    assert any("skirt.toml -> skirt.toml" in sentence for sentence in refused(capsys, path))


def test_everything_wrong_in_all_files_and_on_the_command_line_is_told_at_once(tmp_path: Path, capsys: Capsys) -> None:
    garment = SKIRT.replace('"55 cm"', '"-1 cm"').replace("title", "titel") + '[cloth]\nkind = "knitt"\n'
    person = PERSON.replace("168", "nan").replace("hip_girth", "hop_girth").replace('"woman"', '"lady"')
    sentences = refused(capsys, written(tmp_path, garment, person), "--paper", "A5")
    wrong = ["--paper", "title: read nothing", "titel", "length", "kind", "stature", "hop_girth", "hip:", "body"]
    for words in wrong:
        assert any(words in sentence for sentence in sentences), (words, sentences)
    assert len(sentences) == len(wrong)


def test_measurements_at_odds_are_named_with_the_file_they_stand_in(tmp_path: Path, capsys: Capsys) -> None:
    person = PERSON + "scye_depth = 30\nback_waist_length = 33\nshoulder_length = 8\nshoulder_drop = 9\n"
    sentences = refused(capsys, written(tmp_path, SKIRT.split("[[")[0] + '[[block]]\nname = "bodice"\n', person))
    assert len(sentences) == 2
    assert all(sentence.startswith(f"{tmp_path / 'inga.toml'}: ") for sentence in sentences)
    assert all("cannot all be right" in sentence for sentence in sentences)


def test_a_step_that_makes_no_sense_is_named_by_its_number(tmp_path: Path, capsys: Capsys) -> None:
    step = '[[step]]\nalter = "lengthen"\npiece = "skirt front"\n'
    path = written(tmp_path, SKIRT + step + 'by = "2 cm"\n' + step + 'by = "-60 cm"\n')
    assert one(refused(capsys, path)).startswith(f"{path}, [[step]] 2, lengthen: ")


def test_a_folder_that_cannot_be_written(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path)
    (tmp_path / "file").write_text("not a folder", encoding="utf-8")
    before = everything_in(tmp_path)
    result = ran(capsys, "draft", path, "--to", tmp_path / "file" / "out", "--paper", "A0")
    assert result.status == 2
    assert "cannot be written" in result.err
    assert everything_in(tmp_path) == before


def test_a_folder_with_a_strangers_file_in_the_way(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path)
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "report.html").write_text("my own notes", encoding="utf-8")
    before = everything_in(tmp_path)
    result = ran(capsys, "draft", path, "--to", tmp_path / "out", "--paper", "A0", "--json")
    assert result.status == 2
    assert "report.html" in result.data["problems"][0]["sentence"]
    assert everything_in(tmp_path) == before


@pytest.mark.parametrize("named", ["", "  "])
def test_a_folder_without_a_name(named: str, tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path)
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    before = everything_in(tmp_path)
    result = ran(capsys, "draft", path, "--to", named)
    assert (result.status, result.out) == (2, "")
    assert one(result.err.splitlines()).startswith("the command line, --to: read no name, expected the folder")
    assert everything_in(tmp_path) == before


def test_the_folder_of_her_measurement_files(tmp_path: Path, capsys: Capsys) -> None:
    path = written(tmp_path)
    people = tmp_path / "people"
    people.mkdir()
    (tmp_path / "inga.toml").rename(people / "inga.toml")
    path.write_text(SKIRT.replace("inga.toml", "people/inga.toml"), encoding="utf-8")
    before = everything_in(tmp_path)
    result = ran(capsys, "draft", path, "--to", people, "--paper", "A0")
    assert (result.status, result.out) == (2, "")
    assert '"inga.toml" in it were not written by trueseam' in one(result.err.splitlines())
    assert everything_in(tmp_path) == before


@pytest.mark.parametrize("fails_at", some([4, 1, 9], every=3))
def test_a_disk_that_is_full_half_way_leaves_all_as_it_was(
    fails_at: int, tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written(tmp_path)
    assert ran(capsys, "draft", path, "--to", tmp_path / "out", "--paper", "A0").status == 0
    path.write_text(SKIRT.replace("55 cm", "60 cm"), encoding="utf-8")
    before = everything_in(tmp_path)
    rename, count = os.rename, 0

    def full(*given: object, **named: object) -> object:
        nonlocal count
        count += 1
        if count == fails_at:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return rename(*given, **named)  # type: ignore[arg-type]

    monkeypatch.setattr("output.files.write_folder.os.rename", full)
    result = ran(capsys, "draft", path, "--to", tmp_path / "out", "--paper", "A0")
    assert count == fails_at
    assert result.status == 2
    assert "no space left" in result.err
    assert "Nothing was changed" in result.err
    assert everything_in(tmp_path) == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("draft",), "GARMENT.toml"),
        (("draft", "a.toml", "--too", "x"), "--to"),
        (("drafft", "a.toml"), "drafft"),
        (("list", "curtains"), "measurements"),
        (("list",), "WHAT"),
        (("check", "a.toml", "--unit", "ell"), "ell"),
        (("measure", "a.toml", "b.toml"), "b.toml"),
    ],
)
def test_words_the_command_line_does_not_know(words: tuple[str, ...], told: str, capsys: Capsys) -> None:
    result = ran(capsys, *words)
    assert result.status == 2
    assert told in one(result.err.splitlines())
    in_json = ran(capsys, *words, "--json")
    assert (in_json.status, in_json.err) == (2, "")
    assert told in in_json.data["problems"][0]["sentence"]


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("pattern.json", b"{", "pattern.json, line 1"),
        ("pattern.json", b"[]", "pattern.json"),
        ("pattern.json", b"\xff\xfe{}", "UTF-8"),
        ("pieces.dxf", b"", "pieces.dxf"),
        ("pieces.dxf", b"0\nSECTION\n", "pieces.dxf"),
        ("pattern.txt", b"", ".toml"),
        ("pattern", b"", ".dxf"),
    ],
)
def test_a_file_to_check_that_holds_no_pattern(
    name: str, content: bytes, told: str, tmp_path: Path, capsys: Capsys
) -> None:
    (tmp_path / name).write_bytes(content)
    result = ran(capsys, "check", tmp_path / name)
    assert (result.status, result.out) == (2, "")
    assert told in result.err
    assert "Traceback" not in result.err


@pytest.mark.parametrize("name", ["nowhere.toml", "nowhere.json", "nowhere.dxf"])
def test_a_file_to_check_that_is_not_there(name: str, tmp_path: Path, capsys: Capsys) -> None:
    result = ran(capsys, "check", tmp_path / name)
    assert result.status == 2
    assert "no such file" in one(result.err.splitlines())


def test_a_person_to_measure_whose_file_is_wrong(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "inga.toml"
    path.write_text(PERSON.replace("168", '"tall"').replace("hip_girth = 104", ""), encoding="utf-8")
    result = ran(capsys, "measure", path)
    assert result.status == 2
    assert len(result.err.splitlines()) == 2


@pytest.mark.parametrize("kind", ["girl", "boy"])
def test_a_child_is_not_given_a_block_that_is_drawn_for_women(tmp_path: Path, capsys: Capsys, kind: str) -> None:
    path = written(tmp_path, SKIRT, PERSON.replace('"woman"', f'"{kind}"'))
    said = one(refused(capsys, path))
    assert said.startswith(f'{tmp_path / "inga.toml"}: read body = "{kind}", expected a body that "skirt" can be')
    assert f'For a {kind} name "child\'s skirt" instead.' in said
