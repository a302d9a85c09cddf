"""What is met in a first file: other words, feet in an inch file, a table misspelt, a step that throws a block away."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.output.running import PERSON, SKIRT, ran, written

Capsys = pytest.CaptureFixture[str]


def refused(capsys: Capsys, path: Path) -> list[str]:
    result = ran(capsys, "check", path)
    assert result.status == 2, result.out
    return result.err.splitlines()


@pytest.mark.parametrize(
    ("kind", "written_as", "meant"),
    [("block", "pants", "trousers"), ("block", "T-shirt", "knit top"), ("part", "peter pan collar", "flat collar")],
)
def test_another_word_is_answered_with_ours(
    kind: str, written_as: str, meant: str, tmp_path: Path, capsys: Capsys
) -> None:
    garment = f'{SKIRT}[[{kind}]]\nname = "{written_as}"\n'
    (said,) = [line for line in refused(capsys, written(tmp_path, garment)) if written_as in line]
    assert f'Did you mean "{meant}"?' in said


def test_a_misspelt_table_of_measurements_is_the_one_thing_told(tmp_path: Path, capsys: Capsys) -> None:
    (said,) = refused(capsys, written(tmp_path, person=PERSON.replace("[measurements]", "[measurments]")))
    assert 'Did you mean "measurements"?' in said


def test_a_baby_is_told_to_be_a_girl_or_a_boy_and_nothing_of_a_woman(tmp_path: Path, capsys: Capsys) -> None:
    (said,) = refused(capsys, written(tmp_path, person=PERSON.replace('"woman"', '"baby"')))
    assert '"girl" or "boy"' in said


def test_an_age_is_answered_with_the_day_of_birth(tmp_path: Path, capsys: Capsys) -> None:
    (said,) = refused(capsys, written(tmp_path, person="age = 4\n" + PERSON))
    assert "born = " in said


def test_feet_in_a_file_of_inches_are_shown_with_their_inches(tmp_path: Path, capsys: Capsys) -> None:
    person = PERSON.replace('"cm"', '"in"').replace("168", "5.5").replace("96", "38").replace("78", "31")
    said = refused(capsys, written(tmp_path, person=person.replace("104", "41")))
    assert any('"5 ft 5 in"' in line and '"5 ft 6 in"' in line for line in said), said


def test_her_own_number_stands_in_the_mended_line(tmp_path: Path, capsys: Capsys) -> None:
    (said,) = refused(capsys, written(tmp_path, SKIRT + '[cloth]\nkind = "jersey"\nstretch = 50\n'))
    assert '"50 %"' in said


def test_a_number_of_gores_is_taken_without_quotation_marks(tmp_path: Path, capsys: Capsys) -> None:
    garment = SKIRT.replace('"skirt"', '"gored skirt"') + "gores = 6\n"
    assert ran(capsys, "check", written(tmp_path, garment)).status != 2


def test_ease_that_cannot_be_had_is_no_fault_of_her_body(tmp_path: Path, capsys: Capsys) -> None:
    garment = SKIRT.replace('"skirt"', '"trousers"').replace('"55 cm"', '"95 cm"') + 'ease = { waist = "60 cm" }\n'
    path = written(tmp_path, garment)
    said = refused(capsys, path)
    assert said[0].startswith(f"{path}, [[block]]: "), said


def test_a_smock_says_that_the_skirt_is_left_away(tmp_path: Path, capsys: Capsys) -> None:
    garment = SKIRT + '[[block]]\nname = "bodice"\n[[step]]\nalter = "square yoke"\n'
    assert "The skirt is left away" in " ".join(ran(capsys, "check", written(tmp_path, garment)).out.split())


def test_a_list_speaks_in_the_unit_of_the_folder(
    tmp_path: Path, capsys: Capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "inga.toml").write_text('unit = "in"\n', encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    out = ran(capsys, "list", "lengthen").out
    assert "47 1/8 in" in out
    assert " cm" not in out


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("pants", 'name = "trousers"'),
        ("T-shirt", 'name = "knit top"'),
        ("peter pan collar", "Sewn to the neck of the bodice;"),
        ("square yoke", 'alter = "smock"'),
        ("steps", "lengthen"),
    ],
)
def test_a_list_knows_other_words(asked: str, told: str, capsys: Capsys) -> None:
    assert told in ran(capsys, "list", *asked.split()).out


def test_a_skirt_without_darts_lists_none_of_another_skirt(capsys: Capsys) -> None:
    assert "dart" not in ran(capsys, "list", "circle", "skirt").out.partition("piece = ")[2]
