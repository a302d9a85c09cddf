"""What a program gives is judged where a value is made, in the words that a person's file is answered with."""

from __future__ import annotations

import copy
import math
import pickle
from dataclasses import dataclass, replace

import pytest

from drafting.body.person import Person, person
from drafting.errors import InputProblems, Problem, UnknownName
from drafting.fit.cloth import Cloth
from drafting.reading.given import Given, number_problem, option_problems
from drafting.reading.options import Option

BASICS = {"stature": 1710.0, "bust_girth": 920.0, "waist_girth": 750.0, "hip_girth": 1000.0}


@dataclass(frozen=True, slots=True)
class Ribbon(Given):
    width: float
    colour: str = "red"


def test_a_name_that_is_not_there_is_answered_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match=r'"Ribbon" has no option "widht". Did you mean "width"'):
        Ribbon(widht=3.0)  # type: ignore[call-arg]
    with pytest.raises(UnknownName, match=r'"Cloth" has no option "strech". Did you mean "stretch"'):
        Cloth(strech=0.4)  # type: ignore[call-arg]
    with pytest.raises(UnknownName, match='Did you mean "colour"'):
        replace(Ribbon(3.0), color="blue")  # type: ignore[call-arg]


def test_a_value_is_made_copied_and_packed_as_any_dataclass() -> None:
    made = Ribbon(3.0, colour="blue")
    assert made == replace(Ribbon(3.0), colour="blue") == copy.deepcopy(made) == pickle.loads(pickle.dumps(made))


@pytest.mark.parametrize(
    ("option", "good", "bad", "expected"),
    [
        (Option("how", "choice", "", choices=("one", "other")), "other", "another", "one of one, other"),
        (Option("how", "choice", "", choices=("one", "other")), "one", 1.0, "one of one, other"),
        (Option("name", "text", ""), "", 3.0, "a text"),
        (Option("flag", "flag", ""), False, "no", "True or False"),
        (Option("flag", "flag", "", default=None), None, 0.0, "True or False"),
        (Option("share", "percent", "", 0.0, 1.0), 1.0, 1.1, "a fraction of one from 0 to 1"),
        (Option("cuts", "number", "", 1.0), 1000.0, 0.0, "a number, 1 or more"),
        (Option("bend", "angle", "", None, 30.0), -90.0, 31.0, "a number of degrees, 30 or less"),
        (Option("by", "length", ""), -3, None, "a number of millimetres"),
        (Option("by", "length", ""), 0.0, True, "a number of millimetres"),
        (Option("by", "length", ""), 1e9, math.nan, "a number of millimetres"),
        (Option("by", "length", ""), 1e9, 10**400, "a number of millimetres"),
    ],
)
def test_every_kind_of_option_tells_what_it_can_be(option: Option, good: object, bad: object, expected: str) -> None:
    assert list(option_problems("hem", [option], {option.name: good})) == []
    (problem,) = option_problems("hem", [option], {option.name: bad})
    assert (problem.where, problem.expected) == (f"hem, {option.name}", expected)


def test_a_choice_misspelt_is_answered_with_the_nearest() -> None:
    option = Option("finish", "choice", "", choices=("turned", "facing"))
    (problem,) = option_problems("hem", [option], {"finish": "faceing"})
    assert problem.mend == 'Did you mean "facing"?'
    with pytest.raises(UnknownName, match=r'"hem" has no option "finsh". Did you mean "finish"'):
        list(option_problems("hem", [option], {"finsh": "facing"}))


@pytest.mark.parametrize(
    ("kind", "value", "low", "high", "mend"),
    [
        ("length", 171.0, 1000.0, 2200.0, "If 171 cm was meant, give 1710."),
        ("length", 65, 1200.0, 2200.0, "If 65 in was meant, give 1651."),
        ("length", "5 ft 7 in", 1000.0, 2200.0, "Give the number alone: 1701.8."),
        ("length", "tall", 1000.0, 2200.0, ""),
        ("length", 9.0, 1000.0, 2200.0, ""),
        ("percent", 40.0, 0.0, 3.0, "If 40 % was meant, give 0.4."),
        ("angle", 0.25, 7.0, 30.0, "If 0.25 radians was meant, give 14.3239."),
    ],
)  # fmt: skip
def test_a_number_in_another_unit_is_answered_with_what_it_is_in_the_right_one(
    kind: str, value: object, low: float, high: float, mend: str
) -> None:
    problem = number_problem("here", kind, value, low, high)  # type: ignore[arg-type]
    assert problem is not None
    assert problem.mend == mend


def test_a_stature_in_centimetres_is_refused_where_the_person_is_made() -> None:
    with pytest.raises(InputProblems) as refused:
        person({**BASICS, "stature": 171.0, "hip_girth": math.nan}, name="Oda")
    assert [problem.where for problem in refused.value.problems] == ["Oda, stature", "Oda, hip_girth"]
    assert refused.value.problems[0].mend == "If 171 cm was meant, give 1710."


def test_a_person_is_refused_with_the_nearest_name_and_with_every_basic_that_is_missing() -> None:
    with pytest.raises(UnknownName, match='Did you mean "under_bust"'):
        person({**BASICS, "under_bsut": 820.0})
    with pytest.raises(UnknownName, match='There is no unit "inch"'):
        person(BASICS, unit="inch")
    with pytest.raises(InputProblems) as refused:
        Person("Oda", "woman", (("stature", "171"),))  # type: ignore[arg-type]
    assert [problem.read for problem in refused.value.problems] == ['"171"', "nothing", "nothing", "nothing"]


@pytest.mark.parametrize("share", [-0.1, 40.0, math.nan, True, "40 %"])
def test_no_cloth_has_such_a_stretch(share: float) -> None:
    with pytest.raises(InputProblems, match="cloth, stretch"):
        Cloth(stretch=share)


def test_no_cloth_is_of_such_a_kind() -> None:
    with pytest.raises(UnknownName, match='Did you mean "woven"'):
        Cloth("wovn")  # type: ignore[arg-type]


def test_a_problem_is_the_sentence_that_a_file_is_answered_with() -> None:
    assert number_problem("Oda, stature", "length", 171, 1000.0, 2200.0) == Problem(
        "Oda, stature", "171", "a number of millimetres from 1000 to 2200", "If 171 cm was meant, give 1710."
    )
