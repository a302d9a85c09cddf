"""Reading tables: every problem is found in one go, with its place and its remedy."""

from __future__ import annotations

import datetime

import pytest

from drafting.errors import InputProblems, Problem
from drafting.reading.read_table import Reader, refuse
from drafting.reading.units import shown


def reading(table: dict[str, object], unit: str | None = "cm") -> tuple[Reader, list[Problem]]:
    problems: list[Problem] = []
    return Reader(table, place="oda.toml", problems=problems, unit=unit), problems


def test_good_values_come_back_in_our_units_without_a_problem() -> None:
    reader, problems = reading(
        {
            "name": " Oda ",
            "kind": "woven",
            "one_way": True,
            "measured": datetime.date(2026, 9, 12),
            "born": "2019-02-28",
            "width": "140 cm",
            "by": 5,
            "count": 3,
            "ratio": 1.5,
            "stretch": "40 %",
            "lean": "12 deg",
        }
    )
    assert reader.text("name") == "Oda"
    assert reader.choice("kind", ("woven", "knit")) == "woven"
    assert reader.flag("one_way") is True
    assert reader.date("measured") == datetime.date(2026, 9, 12)
    assert reader.date("born") == datetime.date(2019, 2, 28)
    assert reader.length("width", low=200, high=5000) == 1400.0
    assert reader.length("by") == 50.0
    assert reader.whole("count", low=1, high=9) == 3
    assert reader.number("ratio", low=1, high=2) == 1.5
    assert reader.percent("stretch", low=0, high=3) == 0.4
    assert reader.angle("lean", low=0, high=90) == 12.0
    reader.finish()
    assert problems == []


def test_a_key_that_may_be_left_out_yields_its_default_and_one_that_may_not_is_a_problem() -> None:
    reader, problems = reading({})
    assert reader.text("name", default=None) is None
    assert reader.length("by", default=12.5) == 12.5
    assert problems == []
    reader.length("by", low=10.0)
    reader.choice("kind", ("woven", "knit"))
    assert [problem.sentence() for problem in problems] == [
        'oda.toml, by: read nothing, expected a length with its unit, such as "95.5 cm". It cannot be left out.',
        'oda.toml, kind: read nothing, expected "woven" or "knit". It cannot be left out.',
    ]


WRONG: tuple[object, ...] = ("", "x" * 300, True, -1, 0, 1e9, float("nan"), 10**400, [], {}, datetime.date(2026, 1, 1))


@pytest.mark.parametrize("value", WRONG, ids=shown)
def test_no_wrong_value_stops_the_reading_and_each_is_noted_once(value: object) -> None:
    reader, problems = reading(dict.fromkeys(("length", "number", "percent", "angle", "whole", "choice"), value))
    assert reader.length("length", default=7.0, low=10.0, high=100.0) == 7.0
    assert reader.number("number", default=7.0, low=10.0, high=100.0) == 7.0
    assert reader.percent("percent", default=0.7, low=0.1, high=1.0) == 0.7
    assert reader.angle("angle", default=7.0, low=10.0, high=90.0) == 7.0
    assert reader.whole("whole", default=7, low=10, high=90) == 7
    assert reader.choice("choice", ("woven", "knit"), default="woven") == "woven"
    assert [problem.where for problem in problems] == [
        f"oda.toml, {key}" for key in ("length", "number", "percent", "angle", "whole", "choice")
    ]


@pytest.mark.parametrize(
    ("value", "reads"),
    [(5, "text"), ("two\nlines", "text"), ("true", "flag"), (1, "flag"), ("2026-13-01", "date"), ("12.9.2026", "date"),
     (datetime.datetime(2026, 9, 12, 8, 30), "date"), (20260912, "date")],
)  # fmt: skip
def test_a_value_of_the_wrong_kind_is_noted(value: object, reads: str) -> None:
    reader, problems = reading({"key": value})
    getattr(reader, reads)("key")
    assert len(problems) == 1


def test_a_length_out_of_range_names_the_range_in_the_files_unit() -> None:
    reader, problems = reading({"bust": "20 in"}, unit="in")
    reader.length("bust", low=609.6, high=1905.0)
    assert problems[0].sentence() == 'oda.toml, bust: read "20 in", expected a length from 24 in to 75 in.'


def test_the_ends_of_a_range_belong_to_it() -> None:
    reader, problems = reading({"low": 1.0, "high": 2.0})
    assert (reader.length("low", low=10.0, high=20.0), reader.length("high", low=10.0, high=20.0)) == (10.0, 20.0)
    assert problems == []


def test_a_bare_number_that_would_do_in_another_unit_says_which() -> None:
    reader, problems = reading({"bust": 985, "waist": 30})
    reader.length("bust", low=600, high=1900)
    reader.length("waist", low=450, high=1900)
    assert problems[0].mend == 'If 985 mm was meant, write "985 mm".'
    assert problems[1].mend == 'If 30 in was meant, write "30 in".'


def test_the_unit_of_a_file_holds_for_its_inner_tables() -> None:
    reader, problems = reading({"unit": "in", "measurements": {"bust": 37.5}, "step": [{"by": 1}]}, unit=None)
    assert reader.file_unit() == "in"
    assert reader.table("measurements").length("bust") == 952.5
    assert reader.tables("step")[0].length("by") == 25.4
    assert problems == []


def test_places_name_the_section_as_the_person_wrote_it() -> None:
    reader, problems = reading({"cloth": {"kind": 1}, "block": [{"ease": {"bust": "x"}}, {"name": ""}]})
    reader.table("cloth").choice("kind", ("woven",))
    first, second = reader.tables("block")
    first.table("ease").lengths({"bust": (0.0, 100.0)})
    second.text("name")
    assert [problem.where for problem in problems] == [
        "oda.toml, [cloth] kind",
        "oda.toml, [[block]] 1 ease bust",
        "oda.toml, [[block]] 2 name",
    ]


def test_a_value_where_a_table_should_stand_is_one_problem() -> None:
    reader, problems = reading({"cloth": 5, "block": {"name": "x"}, "step": [1, {"by": 2}]})
    reader.table("cloth").length("width")
    assert reader.tables("block") == ()
    assert [step.length("by") for step in reader.tables("step")] == [20.0]
    assert [problem.where for problem in problems] == ["oda.toml, cloth", "oda.toml, block", "oda.toml, step"]


def test_unknown_keys_are_noted_with_the_nearest_known_name_in_every_table_opened() -> None:
    reader, problems = reading({"nmae": "Oda", "cloth": {"widht": "1 m"}, "zzz": 1})
    reader.text("name", default="")
    reader.table("cloth").length("width", default=None)
    reader.finish()
    assert {problem.where: problem.mend for problem in problems} == {
        "oda.toml, nmae": 'Did you mean "name"?',
        "oda.toml, zzz": "Leave it out.",
        "oda.toml, [cloth] widht": 'Did you mean "width"?',
    }


def test_lengths_come_in_the_order_of_their_limits_and_wrong_ones_are_left_out() -> None:
    reader, problems = reading({"hip": 99, "bust": 88, "waist": "wide"})
    found = reader.lengths(dict.fromkeys(("bust", "waist", "hip"), (500.0, 1500.0)))
    assert list(found.items()) == [("bust", 880.0), ("hip", 990.0)]
    assert [problem.where for problem in problems] == ["oda.toml, waist"]


def test_refuse_raises_only_when_there_is_something_to_say() -> None:
    refuse([])
    with pytest.raises(InputProblems):
        refuse([Problem("a", "b", "c")])


def test_a_unit_may_be_said_in_words() -> None:
    words = {"inches": "in", "Inch": "in", '"': "in", "centimetres": "cm", "centimeters": "cm", "millimetre": "mm"}
    for word, unit in words.items():
        reader, problems = reading({"unit": word}, unit=None)
        assert (reader.file_unit(), problems) == (unit, [])


def test_where_the_unit_cannot_be_read_that_is_the_one_problem() -> None:
    lengths = {"bust": "36 1/2", "waist": 30, "hip": "wide"}
    reader, problems = reading({"unit": "furlongs", "measurements": lengths}, unit=None)
    assert reader.file_unit() is None
    reader.table("measurements").lengths(dict.fromkeys(lengths, (500.0, 1500.0)))
    assert [problem.where for problem in problems] == ["oda.toml, unit", "oda.toml, [measurements] hip"]


def test_a_problem_says_where_it_stands_for_a_program() -> None:
    problems: list[Problem] = []
    table = {"step": [{"by": 1.0}, {"Depth": "9 ells", "inner": {"deep": "x"}}]}
    reader = Reader(table, place="dress.toml", problems=problems, unit="cm")
    for step in reader.tables("step"):
        step.length("by", default=None)
        step.length("depth", default=None)
        step.table("inner").length("deep", default=None)
    reader.finish()
    assert [each.at for each in problems] == [("step", 1, "Depth"), ("step", 1, "inner", "deep")]


@pytest.mark.parametrize(("bust", "unit"), [(39, "in"), (99, "cm"), (990, "mm")])
def test_a_length_without_a_unit_is_answered_in_the_one_that_it_can_be(bust: int, unit: str) -> None:
    problems: list[Problem] = []
    Reader({"bust": bust}, place="me.toml", problems=problems, unit=None).length(
        "bust", default=0.0, low=600.0, high=1800.0
    )
    assert problems[0].mend == f'Write "{bust} {unit}", or unit = "{unit}" at the top of the file.'
