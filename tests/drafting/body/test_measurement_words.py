"""What measurements may be called: the names shown, terms of the standard, words in common use; each for one only."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from drafting.body.measurement_words import measurement_words
from drafting.body.person import read_person
from drafting.body.terms import BASICS, MEASUREMENTS
from drafting.errors import InputProblems, meant, nearest
from drafting.reading.key_words import file_word

WORDS = measurement_words("woman")


def read(**lengths: object) -> tuple[tuple[str, float], ...]:
    basics = {"height": 168, "bust": 94, "waist": 76, "hip": 101}
    table = {"name": "Wren", "body": "woman", "unit": "cm", "measurements": {**basics, **lengths}}
    return read_person(table, place="wren.toml").measurements


def test_every_measurement_is_known_by_the_name_shown_by_its_term_and_by_every_other_word() -> None:
    for each in MEASUREMENTS:
        for word in (each.key, each.name, each.word, each.name.upper(), *each.also):
            assert WORDS.key(word) == each.key, word
        assert each.term == "own" or WORDS.key(each.term) == each.key


def test_no_word_stands_for_two_measurements_nor_for_one_that_is_to_be_asked() -> None:
    told = [{file_word(word) for word in (each.key, each.name, each.word, *each.also)} for each in MEASUREMENTS]
    counted = Counter(word for words in told for word in words)
    assert [word for word, times in counted.items() if times > 1] == []
    assert set(counted) & set(WORDS.unclear) == set()


@pytest.mark.parametrize(
    ("word", "key"),
    [
        ("nape_to_waist", "back_waist_length"), ("sleeve length", "arm_length"), ("hips", "hip_girth"),
        ("high bust", "upper_chest_girth"), ("bust circumference", "bust_girth"), ("Full bust", "bust_girth"),
        ("center front length", "front_waist_length_from_neck_pit"), ("bicep", "upper_arm_girth"),
    ],
)  # fmt: skip
def test_a_word_in_common_use_is_taken(word: str, key: str) -> None:
    assert WORDS.key(word) == key


@pytest.mark.parametrize("word", ["weight", "chest", "shoulder width", "cup", "waist to knee", "front width"])
def test_a_word_for_none_or_for_several_is_answered_by_meaning(word: str) -> None:
    with pytest.raises(InputProblems) as caught:
        read(**{word: 40})
    (sentence,) = caught.value.sentences()
    assert sentence.endswith(WORDS.explanation(word))
    assert "Did you mean" not in sentence


def test_files_of_earlier_versions_are_read() -> None:
    table = {each.key: sum(each.woman) / 2 / 10 for each in MEASUREMENTS if each.key not in BASICS}
    assert len(read(**table)) == len(MEASUREMENTS)


def test_the_same_length_twice_is_noted_by_both_words() -> None:
    with pytest.raises(InputProblems, match="hip_girth: read 99, expected it once: hip says the same"):
        read(hip_girth=99)


@pytest.mark.parametrize(
    ("written", "known"),
    [("weight", ["height"]), ("high_bust", ["thigh_girth"]), ("cuff", ["full sleeve"]), ("let down", ["take in"])],
)
def test_letters_alone_are_no_hint(written: str, known: list[str]) -> None:
    assert nearest(written, known) is None
    assert meant(written, known) == ""


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_a_line_told_mended_is_read_without_another_word(unit: str, tmp_path: Path) -> None:
    """Every word for a measurement with spaces in it, and lengths without quotes: the advice, typed, does it."""
    path = tmp_path / "wren.toml"
    words = {file_word(word).replace("_", " "): each for each in MEASUREMENTS for word in (each.name, *each.also)}
    for word, each in words.items():
        low, high = each.woman
        inches = f"{round((low + high) / 2 / 25.4)} 1/2 in"
        lines = [f"{other.word} = {'65' if unit == 'in' else '168'}" for other in MEASUREMENTS[:1] if other != each]
        basics = (("bust", 37, 94), ("waist", 30, 76), ("hip", 40, 101))
        lines += [f"{name} = {a if unit == 'in' else b}" for name, a, b in basics if name != each.word]
        lines += [f"{word} = {inches}"]
        top = f'name = "W"\nbody = "woman"\nunit = "{unit}"\n[measurements]\n'
        path.write_text(top + "\n".join(lines), encoding="utf-8")
        with pytest.raises(InputProblems) as caught:
            read_person(path)
        (problem,) = caught.value.problems
        advised = problem.mend.partition(": ")[2]
        path.write_text(top + "\n".join([*lines[:-1], advised]), encoding="utf-8")
        assert each.key in dict(read_person(path).measurements), advised


@pytest.mark.parametrize("line", ["cup = D", "shoe = 9 B", "dress size = 12 tall"])
def test_a_line_that_is_of_no_use_is_not_mended_first(line: str, tmp_path: Path) -> None:
    path = tmp_path / "wren.toml"
    path.write_text(f'name = "W"\nbody = "woman"\nunit = "in"\n[measurements]\nheight = 5\' 11\n{line}\n', "utf-8")
    with pytest.raises(InputProblems) as caught:
        read_person(path)
    height, other = caught.value.sentences()
    assert height.endswith('Put it in quotes: height = "5 ft 11"')
    assert other.endswith("leave it out.")
    assert "Write" not in other
