"""What lengths were before: each value once, with the day it was taken, or the day until which it stood."""

from __future__ import annotations

import datetime

from output.page.earlier_lengths import earlier_lengths

NOON = datetime.datetime(2026, 10, 1, 12, 0).timestamp()


def person(waist: str, measured: str = "") -> str:
    day = f"measured = {measured}\n" if measured else ""
    return f'name = "Oda"\n{day}[measurements]\nheight = 171\nwaist = {waist}\n'


def test_each_earlier_value_stands_once_the_latest_first_with_its_day() -> None:
    states = [(NOON, person("77", "2026-03-02")), (NOON + 86400, person("78")), (NOON + 2 * 86400, person("77"))]
    told = earlier_lengths(states, person('"79 cm"'))
    assert list(told) == ["waist"]
    assert [(each["text"], each["was"], each["day"]) for each in told["waist"]] == [
        ("77", "until", "2026-10-03"),
        ("78", "until", "2026-10-02"),
    ]


def test_the_day_she_was_measured_is_told_where_her_file_said_it() -> None:
    told = earlier_lengths([(NOON, person("77", "2026-03-02"))], person("79"))
    assert told == {"waist": [{"text": "77", "value": 77, "day": "2026-03-02", "was": "measured"}]}


def test_a_text_that_cannot_be_read_tells_nothing() -> None:
    assert earlier_lengths([(NOON, "waist = = 3")], person("79")) == {}
