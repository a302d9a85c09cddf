"""Earlier days of measuring in a person's file: read, put in order, judged."""

from __future__ import annotations

import datetime
import pickle
from typing import Any

import pytest

from drafting.body.earlier import Earlier, height_slips
from drafting.body.person import Person, person, read_person
from drafting.errors import InputProblems, TrueseamError

LENGTHS = {"height": 112, "chest": 58, "waist": 54, "hips": 60}
BASICS_MM = {"stature": 1120.0, "bust_girth": 580.0, "waist_girth": 540.0, "hip_girth": 600.0}


def day(year: int, month: int = 3) -> datetime.date:
    return datetime.date(year, month, 1)


def table(*earlier: dict[str, Any], **more: Any) -> dict[str, object]:
    top = {"name": "Pim", "body": "girl", "unit": "cm", "born": day(2020), "measured": day(2026, 9)}
    return {**top, "measurements": LENGTHS, "earlier": list(earlier), **more}


def told(table: dict[str, object]) -> str:
    with pytest.raises(InputProblems) as caught:
        read_person(table, place="pim.toml")
    return "\n".join(caught.value.sentences())


def test_earlier_days_come_back_oldest_first_whatever_order_they_are_written_in() -> None:
    pim = read_person(
        table({"measured": day(2026), "height": 108, "chest": "22 in"}, {"measured": day(2025), "height": 102})
    )
    assert pim.earlier == (
        Earlier(day(2025), (("stature", 1020.0),)),
        Earlier(day(2026), (("stature", 1080.0), ("bust_girth", 558.8))),
    )
    assert pim.over_time("stature") == ((day(2025), 1020.0), (day(2026), 1080.0), (day(2026, 9), 1120.0))
    assert [mm for _, mm in pim.over_time("bust_girth")] == [pytest.approx(558.8), 580.0]
    assert pim.over_time("arm_length") == ()
    assert pickle.loads(pickle.dumps(pim)) == pim


def test_every_fault_of_an_earlier_day_is_told_at_its_place_in_one_go() -> None:
    sentences = told(
        table(
            {"measured": day(2025), "height": 102},
            {"measured": day(2025), "heigt": 103},
            {"measured": day(2019), "height": 60},
            {"height": 108},
            {"measured": day(2026, 9), "height": 112},
            {"measured": "spring", "height": 104},
            {"measured": day(2024)},
        )
    )
    for expected in (
        "[[earlier]] 2 measured: read 2025-03-01 again, expected each day once",
        "[[earlier]] 2 heigt: read a word that is not known here",
        "[[earlier]] 3 measured: read 2019-03-01, expected a day after birth (2020-03-01)",
        "[[earlier]] 4 measured: read nothing, expected a day",
        "[[earlier]] 5 measured: read 2026-09-01, expected a day before the last of measuring (2026-09-01)",
        '[[earlier]] 6 measured: read "spring", expected a day',
        "[[earlier]] 7 height: read nothing, expected at least one length",
    ):
        assert expected in sentences
    assert len(told(table({"measured": day(2025), "height": 20})).splitlines()) == 1


def test_earlier_days_need_the_day_of_the_last_measuring() -> None:
    sentence = told(
        {key: value for key, value in table({"measured": day(2025), "height": 102}).items() if key != "measured"}
    )
    assert sentence.startswith("pim.toml, measured: read nothing, expected the day")


def test_a_height_that_fell_is_told_and_one_that_is_off_by_a_tape_is_not() -> None:
    heights = [(day(2024), 1020.0), (day(2025), 1012.0), (day(2026), 1001.0), (day(2026, 9), 1120.0)]
    (slip,) = height_slips(heights, "girl")
    assert (slip.before, slip.after, slip.from_mm, slip.to_mm) == (day(2025), day(2026), 1012.0, 1001.0)
    assert slip.sentence.startswith("height: 101.2 cm on 2025-03-01, then 100.1 cm on 2026-03-01: a child does not")
    assert "39 3/8 in" in height_slips(heights, "girl", "in")[0].sentence
    grown = [(day(2024), 1680.0), (day(2025), 1661.0), (day(2026), 1690.0)]
    assert [each.to_mm for each in height_slips(grown, "woman")] == [1690.0]
    assert len(height_slips(grown, "boy")) == 1


def test_a_program_gives_earlier_days_by_their_dates() -> None:
    pim = person(
        BASICS_MM,
        name="Pim",
        body="girl",
        measured=day(2026, 9),
        earlier={day(2026): {"height": 1080}, day(2025): {"chest": 570}},
    )
    assert pim.earlier == (Earlier(day(2025), (("bust_girth", 570.0),)), Earlier(day(2026), (("stature", 1080.0),)))
    wrong: Any
    for wrong in ({day(2026): {"height": 10}}, {day(2027): {"height": 1080}}, {"x": {"height": 1080}}, {day(2026): 3}):
        with pytest.raises(TrueseamError, match="earlier"):
            person(BASICS_MM, body="girl", measured=day(2026, 9), earlier=wrong)
    for wrong in ((), (("stature",),), (("statur", 1.0),), (("stature", "x"),), 3):
        with pytest.raises(InputProblems, match="earlier"):
            Earlier(day(2025), wrong)
    once = Earlier(day(2025), (("stature", 1020.0),))
    with pytest.raises(InputProblems, match="each day once"):
        Person("Pim", "girl", tuple(BASICS_MM.items()), day(2026), earlier=(once, once))
