"""What every alteration is held to: promises verified, refusals that leave the pattern alone, histories that replay."""

from __future__ import annotations

import math
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from typing import ClassVar

import pytest

from drafting import alterations
from drafting.alterations import (
    ALTERATIONS,
    Alteration,
    Armhole,
    Hem,
    Lengthen,
    NeckGape,
    Neckline,
    Opening,
    Promise,
    ShoulderSlope,
    ShoulderWidth,
    TakeIn,
    UpperArm,
    apply_step,
    make_step,
    read_step,
    replay,
    step_of,
    undo,
)
from drafting.alterations.alteration_words import ASKED, WORDS, as_written, plain_word, turned_word
from drafting.errors import BrokenPromise, InputProblems, NotAPattern, Problem, StepRefused, UnknownName
from drafting.pattern import Pattern, Step, with_pieces
from drafting.reading.options import REQUIRED, Option, Value
from drafting.reading.read_table import Reader
from tests.drafting.dress import dress
from tests.drafting.sample import blouse


@dataclass(frozen=True, slots=True)
class Slipping(Alteration):
    """Says that it leaves the hem alone, and makes it longer by `slip`, mm."""

    name: ClassVar[str] = "slipping"

    slip: float = 0.0
    change: float = 0.0

    def apply(self, pattern: Pattern) -> Pattern:
        return replace(pattern, title=f"{float(pattern.title) + self.slip!r}")

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        del pattern
        yield Promise("the hem", lambda pattern: float(pattern.title), self.change)


def numbered() -> Pattern:
    return replace(blouse(), title="600.0")


@pytest.mark.parametrize(("slip", "change"), [(0.0, 0.0), (9e-7, 0.0), (5.0, 5.0), (-5.0, -5.0)])
def test_a_promise_kept_within_a_millionth_of_a_millimetre_is_a_step_taken(slip: float, change: float) -> None:
    altered = apply_step(numbered(), Slipping(slip, change))
    assert altered.history == (Step("slipping", (("slip", slip), ("change", change))),)


@pytest.mark.parametrize(("slip", "change"), [(2e-6, 0.0), (-0.1, 0.0), (5.0, -5.0), (math.nan, 0.0)])
def test_a_broken_promise_is_a_refusal_that_says_which_and_by_how_much(slip: float, change: float) -> None:
    pattern = numbered()
    with pytest.raises(BrokenPromise, match="the hem") as broken:
        apply_step(pattern, Slipping(slip, change))
    assert broken.value.before == 600.0 + change
    assert pattern == numbered()


def test_an_alteration_that_answers_for_nothing_is_no_alteration() -> None:
    @dataclass(frozen=True, slots=True)
    class Silent(Slipping):
        def promises(self, pattern: Pattern) -> Iterator[Promise]:
            del pattern
            return iter(())

    with pytest.raises(TypeError, match='"slipping" answers for nothing'):
        apply_step(numbered(), Silent())


def test_a_shape_that_no_piece_can_have_is_a_refusal() -> None:
    @dataclass(frozen=True, slots=True)
    class Torn(Slipping):
        def apply(self, pattern: Pattern) -> Pattern:
            raise NotAPattern(pattern.pieces[0].name, reason="a gap")

    with pytest.raises(StepRefused, match="slipping: front: a gap"):
        apply_step(numbered(), Torn())


def test_a_history_replays_to_the_same_pattern_and_undo_drops_the_last_step() -> None:
    drafted = blouse()
    once = apply_step(drafted, Lengthen("sleeve", 30.0))
    twice = apply_step(once, Lengthen("front", -12.0, only="front"))
    assert replay(drafted, twice.history) == twice
    assert undo(drafted, twice) == once
    assert undo(drafted, once) == drafted
    with pytest.raises(StepRefused, match="no step"):
        undo(drafted, drafted)


def test_a_step_makes_its_alteration_again() -> None:
    step = step_of(Lengthen("sleeve", 30.0, line="elbow line"))
    assert make_step(step, ALTERATIONS) == Lengthen("sleeve", 30.0, line="elbow line")


def test_a_step_of_an_unknown_name_or_option_is_refused() -> None:
    with pytest.raises(UnknownName, match="lengthen"):
        make_step(Step("lengthn"), ALTERATIONS)
    with pytest.raises(StepRefused, match="amount"):
        make_step(Step("lengthen", (("piece", "front"), ("amount", 3.0))), ALTERATIONS)


def test_the_table_lists_every_option_of_every_alteration_with_its_default() -> None:
    for alteration in ALTERATIONS:
        assert alteration.about
        assert alteration.leaves
        assert alteration.carries
        listed = {option.name: option for option in alteration.options}
        assert [*listed] == [field.name for field in fields(alteration)][: len(listed)]
        made = alteration(**{name: _some(option) for name, option in listed.items() if option.default is REQUIRED})
        for name, option in listed.items():
            assert option.about
            assert option.default is REQUIRED or getattr(made, name) == option.default


def test_each_stands_in_the_table_under_its_own_name_and_its_class_is_found_by_the_name_of_the_class() -> None:
    for name in ALTERATIONS.names:
        alteration = ALTERATIONS.named(name)
        assert alteration.name == name
        assert getattr(alterations, alteration.__name__) is alteration
    with pytest.raises(AttributeError, match="Lenghten"):
        alterations.Lenghten  # noqa: B018
    assert len(set(ALTERATIONS)) == len(ALTERATIONS) == len(set(ALTERATIONS.names)) > 26


def test_alterations_are_imported_when_they_are_used() -> None:
    look = (
        "import sys; from drafting.alterations import ALTERATIONS; ALTERATIONS.named('hem');"
        "print(*(name for name in sys.modules if name.startswith('drafting.alterations.')))"
    )
    loaded = subprocess.run([sys.executable, "-c", look], check=True, capture_output=True, text=True).stdout.split()
    assert "drafting.alterations.finishes.hem" in loaded
    assert [
        name for name in loaded if name.startswith(("drafting.alterations.bodice", "drafting.alterations.sleeve"))
    ] == []


def test_what_an_option_cannot_be_is_refused_where_the_alteration_is_made() -> None:
    """The same words for every alteration, whoever makes it: a script, a page, a history."""
    for alteration in ALTERATIONS:
        with pytest.raises(UnknownName, match=f'"{alteration.name}" has no option "lenght"'):
            alteration(lenght=3.0)
        good = {option.name: _some(option) for option in alteration.options if option.default is REQUIRED}
        assert alteration(**good).options == alteration.options
        for option in alteration.options:
            for bad in (math.nan, True, object()) if option.kind in NUMBERS else (3.0, object()):
                with pytest.raises(InputProblems, match=f"{alteration.name}, {option.name}: read"):
                    alteration(**{**good, option.name: bad})


def test_a_length_as_a_text_or_in_another_unit_is_told_in_millimetres() -> None:
    with pytest.raises(InputProblems, match="Give the number alone: 30"):
        Lengthen("sleeve", "3 cm")  # type: ignore[arg-type]
    assert Lengthen("sleeve", 30) == Lengthen("sleeve", 30.0)
    assert repr(Lengthen("sleeve", 30).by) == "30.0"


@pytest.mark.parametrize(
    ("step", "option"),
    [(Lengthen("sleeve", -520.0), "by"), (Lengthen("skirt front", -590.0), "by"), (NeckGape(40.0), "amount"),
     (Lengthen("bodice front", -300.0), "by"), (Armhole(lower=145.0), "lower")],
)  # fmt: skip
def test_the_most_that_can_be_had_is_offered_to_a_millimetre_and_can_be_had(step: Alteration, option: str) -> None:
    with pytest.raises(StepRefused) as refused:
        apply_step(dress(), step)
    (remedy,) = refused.value.remedies
    ((name, mm, unit),) = [(each.option, each.value, each.unit) for each in remedy.settings]
    assert (remedy.act, remedy.alteration, name, unit) == ("change", step.name, option, "mm")
    assert isinstance(mm, float)
    assert f"; this can be had: {remedy.typed()}" in str(refused.value)
    apply_step(dress(), replace(step, **{option: mm}))
    with pytest.raises(StepRefused):
        apply_step(dress(), replace(step, **{option: mm + math.copysign(1.0, mm)}))


NUMBERS = ("length", "number", "percent", "angle")


def _some(option: Option) -> Value:
    if option.kind in NUMBERS:
        return option.high if option.high is not None else 1.0
    return option.choices[0] if option.choices else "sleeve"


def read(table: dict[str, object]) -> tuple[Alteration | None, list[Problem]]:
    problems: list[Problem] = []
    reader = Reader(table, place="dress.toml", problems=problems, unit="cm", section="[[step]] 1")
    step = read_step(reader, ALTERATIONS)
    if step is not None:
        reader.finish()
    return step, problems


def test_a_step_is_read_with_its_units_and_its_defaults() -> None:
    step, problems = read({"alter": "lengthen", "piece": "sleeve", "by": "1 1/4 in", "only": "sleeve"})
    assert problems == []
    assert step == Lengthen("sleeve", 31.75, only="sleeve")


def test_everything_wrong_in_a_step_is_said_at_once() -> None:
    _, problems = read({"alter": "lengthen", "by": 9000, "lin": "elbow line"})
    assert [problem.where for problem in problems] == [
        "dress.toml, [[step]] 1 piece",
        "dress.toml, [[step]] 1 by",
        "dress.toml, [[step]] 1 lin",
    ]


@pytest.mark.parametrize("table", [{}, {"alter": "shrten"}, {"alter": 3}])
def test_a_step_without_a_known_name_is_one_problem(table: dict[str, object]) -> None:
    step, problems = read(table)
    assert step is None
    assert [problem.where for problem in problems] == ["dress.toml, [[step]] 1 alter"]
    assert "the name of an alteration" in problems[0].expected


def test_pieces_that_take_no_part_are_the_very_same() -> None:
    pattern = blouse()
    altered = apply_step(pattern, Lengthen("sleeve", 20.0))
    assert altered.piece("front") is pattern.piece("front")
    assert with_pieces(altered, pattern.piece("sleeve")) == replace(pattern, history=altered.history)


@pytest.mark.parametrize(
    ("written", "name"),
    [(word.word, word.name) for word in WORDS],
)
def test_another_word_of_the_trade_is_taken_however_it_is_spelt(written: str, name: str) -> None:
    for spelt in (written, written.title(), written.upper()):
        step, _ = read({"alter": spelt})
        assert step is not None
        assert step.name == name


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ({"alter": "shorten", "piece": "sleeve", "by": "2 cm"}, Lengthen("sleeve", -20.0)),
        ({"alter": "crop", "piece": "sleeve", "amount": 2}, Lengthen("sleeve", -20.0)),
        ({"alter": "take up", "piece": "sleeve", "by": 2}, Lengthen("sleeve", -20.0)),
        ({"alter": "let down", "piece": "sleeve", "by": 2}, Lengthen("sleeve", 20.0)),
        ({"alter": "let out", "waist": "1 in", "hip": 1, "darts": "50 %"}, TakeIn(waist=-25.4, hip=-10.0, darts=0.5)),
        ({"alter": "let out the waist", "by": "1 in"}, TakeIn(waist=-25.4)),
        ({"alter": "take in at the hip", "by": "1 in"}, TakeIn(hip=25.4)),
        ({"alter": "raise the armhole", "by": 1}, Armhole(lower=-10.0)),
        ({"alter": "Lower armhole", "by": 1}, Armhole(lower=10.0)),
        ({"alter": "V neck", "by": 7}, Neckline(depth=70.0, shape="V")),
        ({"alter": "raise neckline", "by": 1}, Neckline(depth=-10.0)),
        ({"alter": "square shoulder", "by": 1}, ShoulderSlope(amount=-10.0)),
        ({"alter": "shoulder pad", "by": 1}, ShoulderSlope(pad=10.0)),
        ({"alter": "narrow shoulder", "by": 1}, ShoulderWidth(amount=-10.0)),
        ({"alter": "slim upper arm", "by": 1}, UpperArm(-10.0)),
        ({"alter": "zip", "at": "side"}, Opening("side", fasten="zip")),
        ({"alter": "level hem", "piece": "skirt front"}, Hem("skirt front", level=True)),
        ({"alter": "gape", "how_much": 1}, NeckGape(10.0)),
    ],
)
def test_a_word_is_taken_as_it_is_meant(written: dict[str, object], meant: Alteration) -> None:
    assert read(written) == (meant, [])


def test_a_number_that_is_turned_round_twice_is_asked_about() -> None:
    _, (problem,) = read({"alter": "shorten", "piece": "sleeve", "by": "-2 cm"})
    assert "without the minus" in problem.mend


@pytest.mark.parametrize(
    ("written", "told"),
    [("raise", 'alter = "raise armhole"'), ("cuff", "full sleeve"), ("Widen", 'alter = "let out waist"'),
     ("collar", 'name = "flat collar"'), ("belt", "not made here yet"),
     ("peter pan collar", 'name = "flat collar"'),
     ("lenghten", 'Did you mean "lengthen"?'), ("shrtn", "trueseam list")],
)  # fmt: skip
def test_a_word_that_may_mean_several_things_is_answered_by_meaning(written: str, told: str) -> None:
    step, (problem,) = read({"alter": written, "by": "2 cm"})
    assert step is None
    assert told in problem.mend


def test_every_word_that_is_told_is_one_that_is_taken() -> None:
    for told in ASKED.values():
        for written in re.findall(r'alter = "([^"]+)"', told):
            assert read({"alter": written})[0] is not None, written


def test_what_a_word_says_already_is_a_choice_there_is() -> None:
    for word in WORDS:
        options = {option.name: option for option in ALTERATIONS.named(word.name).options}
        assert {*word.turned, *word.sets, *([word.by] if word.by else [])} <= set(options)
        for name, said in word.sets.items():
            # a piece is named in words, which no list of choices holds
            assert said is True or name == "piece" or said in options[name].choices, word.word


def test_a_length_to_type_is_told_by_the_sign_it_has_with_the_word() -> None:
    said = 'this can be had: by = "-93 mm"; alter = "hem", depth = "20 mm"'
    assert as_written(said, "a.toml, [[step]] 1 (crop), lengthen") == said.replace("-93", "93")
    assert as_written(said, "a.toml, [[step]] 1, lengthen") == said
    assert as_written('waist = "20 mm" passes', "[[step]] 2 (let out)") == 'waist = "-20 mm" passes'


def test_where_and_by_how_much_are_told_as_the_line_to_write() -> None:
    _, problems = read({"alter": "let out", "at": "waist", "by": "1 in"})
    assert {problem.mend for problem in problems} == {'Write in place of both: waist = "1 in"'}


@pytest.mark.parametrize("words", [("let down hem", "raise hem"), ("drop hem", "take up hem"), ("make longer", "crop")])
def test_a_hem_goes_down_and_up_in_words_of_every_day(words: tuple[str, str]) -> None:
    down, up = (read({"alter": word, "piece": "skirt front", "by": "3 cm"}) for word in words)
    assert (down, up) == ((Lengthen("skirt front", 30.0), []), (Lengthen("skirt front", -30.0), []))


def test_a_word_from_what_an_option_says_is_answered_with_that_option() -> None:
    _, (problem,) = read({"alter": "neckline", "front": 1})
    assert problem.mend == "How much lower in front, at the centre, is written depth = ..."


SPOKEN = (
    "through yoke shaped dress inseam square contour waistband pocket in down smock seam "
    "a adjustment another arm armhole at back bell between bigger blend bodice broad bust button buttons cap close "
    "crop cut dart deepen deeper down drop ease elbow enlarge erect extend face faced facing fba flare flared flat "
    "front full gape gaping gather gathered gathers growth hem hip hollow in it large larger lengthen let level line "
    "longer loosen lower make move narrow narrower neck neckline nip off opening other out pad panel pivot princess "
    "puff quarter raise rotate round rounded sba scoop seam short shorten shorter shoulder sizes skirt sleeve slim "
    "slant slash sloping small smaller square stand straight style swayback take three tighten up upper v waist widen "
    "wider wrap zip zipper"
)
"""Words of every day and of the trade: all that other words for alterations are made of."""


def test_every_other_word_is_spelt_as_it_is_spoken() -> None:
    said = {part for word in WORDS for part in re.findall(r"[^\W_]+", word.word.casefold())}
    assert said == set(SPOKEN.split())


@pytest.mark.parametrize(
    ("name", "numbers", "told"),
    [
        ("lengthen", {"by": -20.0}, "shorten"),
        ("lengthen", {"by": 20.0}, None),
        ("lengthen", {"by": -20.0, "at": 0.0}, "shorten"),  # nothing is said by a zero
        ("take in", {"waist": -10.0, "hip": -10.0, "bust": -10.0}, "let out"),
        ("take in", {"waist": -10.0}, "let out"),
        ("take in", {"waist": -10.0, "hip": 10.0}, None),
    ],
)
def test_what_is_made_less_is_told_by_its_own_word(name: str, numbers: dict[str, float], told: str | None) -> None:
    word = turned_word(name, numbers, WORDS)
    assert (word and word.word) == told


@pytest.mark.parametrize("little", ["a", "an", "the", "of"])
def test_a_little_word_and_the_plural_say_nothing(little: str) -> None:
    assert plain_word(f"Raise {little} Armholes, his!") == "raise armhole his"
    assert plain_word(f"an{little}es") == f"an{little}e"


def test_no_word_stands_for_two_alterations() -> None:
    means = {(plain_word(name), name) for name in ALTERATIONS.names}
    means |= {(plain_word(word.word), word.name) for word in WORDS}
    assert [word for word, times in Counter(word for word, _ in means).items() if times > 1] == []


def test_what_a_history_says_wrongly_is_refused_in_the_name_of_its_step() -> None:
    with pytest.raises(StepRefused) as refused:
        make_step(Step("lengthen", (("piece", "bodice front"), ("by", "much"))), ALTERATIONS)
    assert refused.value.alteration == "lengthen"
    assert refused.value.reason.startswith('lengthen, by: read "much", expected a number of millimetres')
