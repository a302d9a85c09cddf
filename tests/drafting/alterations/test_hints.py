"""What is told to whoever writes a step in other words, or leaves out what cannot be left out."""

from __future__ import annotations

import pytest

from drafting.alterations import ALTERATIONS, read_step
from drafting.alterations.alteration_table import words_for
from drafting.alterations.alteration_words import WORDS, name_to_write
from drafting.errors import InputProblems, Problem, UnknownName
from drafting.reading.options import Required
from drafting.reading.read_table import Reader
from tests.drafting.dress import dress
from tests.drafting.sizes import sized
from tests.wardrobe import a_garment


def told(unit: str = "cm", **step: object) -> str:
    """Every problem of a step as it is written, in one text."""
    problems: list[Problem] = []
    reader = Reader(step, place="a step", problems=problems, unit=unit)
    read_step(reader, ALTERATIONS)
    reader.finish()
    return "\n".join(InputProblems(problems).sentences()) if problems else ""


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("large bust", 'Write "full bust".'),
        ("Shorten", 'Write "lengthen", with by below zero.'),
        ("V necks", 'Write "neckline", with shape="V".'),
        ("let out", 'Write "take in", with waist or hip or bust below zero.'),
        ("short sleeve", 'Write "lengthen", with piece="sleeve" and hem="as tapered" and by below zero.'),
        ("level hem", 'Write "hem", with level=True.'),
        ("neckline", ""),
    ],
)
def test_a_word_of_garment_files_is_told_as_a_script_writes_it(written: str, told: str) -> None:
    assert name_to_write(written) == told


def test_a_script_that_writes_another_word_is_told_the_name() -> None:
    with pytest.raises(UnknownName, match='Write "lengthen", with by below zero'):
        ALTERATIONS.named("shorten")


def test_the_words_for_an_alteration_are_all_those_that_stand_for_it() -> None:
    assert [word.word for word in words_for("smock")] == ["square yoke", "smock dress"]
    assert sum(len(words_for(each.name)) for each in ALTERATIONS) == len(WORDS)


def test_every_word_says_and_turns_options_that_its_alteration_has() -> None:
    for word in WORDS:
        options = {option.name: option for option in ALTERATIONS.named(word.name).options}
        assert {*word.turned, *word.sets, *([word.by] if word.by else [])} <= set(options), word.word
        for name in word.turned:
            low = options[name].low
            assert low is None or low < 0.0, f"{word.word}: nothing of {name} lies below zero"
        for name, value in word.sets.items():
            assert options[name].kind in ("text", "flag") or value in options[name].choices, word.word


def test_a_sleeve_cut_off_is_told_how_much_is_cut_in_the_unit_of_the_file() -> None:
    lengths = 'of a woman\'s about "14 cm" for three-quarter, "27 cm" to the elbow, "40 cm" for short'
    assert lengths in told(alter="short sleeve")
    assert 'about "5 1/2 in" for three-quarter, "10 1/2 in" to the elbow, "16 in" for short' in told(
        "in", alter="short sleeve"
    )
    assert "three-quarter" not in told(alter="shorten", piece="sleeve")


def test_what_a_word_says_already_and_which_length_is_meant_is_told() -> None:
    assert '"V neck" says it already: leave it out.' in told(alter="V neck", depth="5 cm", shape="round")
    assert "Say which length it is: waist = ... or hip = ... or bust = ..." in told(alter="take in", by="3 cm")
    assert 'Write in place of both: waist = "3 cm"' in told(alter="take in", by="3 cm", at="waist")
    assert "Write in place of both: waist = 3" in told(alter="take in", by=3, at="waist")
    for much, where in (("by", "where"), ("amount", "at"), ("amount", "where")):
        assert 'Write in place of both: hip = "3 cm"' in told(**{"alter": "take in", much: "3 cm", where: "hip"})
    minus = told(alter="shorten", piece="sleeve", by="-3 cm")
    assert '"shorten" says already which way: write it without the minus.' in minus
    assert "by: read" in minus
    assert "expected a length above zero" in minus


def test_a_word_that_says_what_an_option_is_about_is_told_the_option_and_a_little_word_is_not() -> None:
    assert "is written hem = ..." in told(alter="full sleeve", hem="5 cm", wider="3 cm")
    assert "is written" not in told(alter="full sleeve", hem="5 cm", how="3 cm")


def test_a_step_without_a_name_cannot_be_read() -> None:
    assert "It cannot be left out: `trueseam list alterations` shows them all." in told(by="3 cm")
    assert 'such as "lengthen"' in told(alter=3)
    assert "`trueseam list alterations` shows them all." in told(alter="frobnicate")
    assert 'alter = "raise armhole"' in told(alter="raise")


def test_an_alteration_says_what_a_garment_lacks_for_it() -> None:
    skirt, whole = a_garment("skirt"), dress()
    assert ALTERATIONS.named("armhole").not_here(skirt) == "it has no bodice"
    assert ALTERATIONS.named("pointed waist").not_here(skirt) == "it has no bodice"
    assert ALTERATIONS.named("seat").not_here(whole) == "it has no trousers"
    assert ALTERATIONS.named("upper arm").not_here(skirt) == "it has no sleeve"
    assert ALTERATIONS.named("pointed waist").not_here(a_garment("bodice and sleeve")) == "it has no skirt or trousers"
    assert ALTERATIONS.named("move a dart").not_here(a_garment("circle skirt")) == "no piece has a dart"
    assert ALTERATIONS.named("move a dart").not_here(skirt) == ""
    assert ALTERATIONS.named("hem").not_here(a_garment("circle skirt")) == ""
    assert ALTERATIONS.named("blend").not_here(whole).startswith("the pattern is drafted to somebody's own")
    assert ALTERATIONS.named("blend").not_here(sized(92)) == ""
    assert not [each.name for each in ALTERATIONS if each.name in ("armhole", "hem") and each.not_here(whole)]


def test_what_has_to_be_given_is_asked_for_where_it_is_left_out() -> None:
    for alteration in ALTERATIONS:
        needed = [option.name for option in alteration.options if isinstance(option.default, Required)]
        said = told(alter=alteration.name)
        assert all(name in said for name in needed), alteration.name
