"""The cloth as a person writes it."""

from __future__ import annotations

import pytest

from drafting.errors import Problem
from drafting.fit.cloth import Cloth, read_cloth, stretch_class
from drafting.reading.read_table import Reader


def reading(table: dict[str, object]) -> tuple[Cloth, list[Problem]]:
    problems: list[Problem] = []
    reader = Reader({"cloth": table}, place="dress.toml", problems=problems)
    cloth = read_cloth(reader.table("cloth"))
    reader.finish()
    return cloth, problems


def test_a_cloth_is_read_with_its_units() -> None:
    assert reading({"kind": "knit", "stretch": "40 %"}) == (Cloth("knit", stretch=0.4), [])


def test_width_shrinkage_direction_and_repeat_are_read() -> None:
    cloth, problems = reading({"width": "140 cm", "shrinkage": "3 %", "one_way": True, "repeat": "8 cm"})
    assert (cloth, problems) == (Cloth(width=1400.0, shrinkage=0.03, one_way=True, repeat=80.0), [])


def test_nothing_said_is_a_plain_woven() -> None:
    assert reading({}) == (Cloth(), [])


def test_a_knit_needs_its_stretch_and_is_told_how_to_find_it() -> None:
    _, (problem,) = reading({"kind": "knit"})
    assert problem.where == "dress.toml, [cloth] stretch"
    assert "14 cm is 40 %" in problem.mend


def test_what_is_wrong_is_said_once_each() -> None:
    cloth, problems = reading({"kind": "felt", "stretch": "400 %", "colour": "red"})
    assert cloth == Cloth()
    assert len(problems) == 3
    _, problems = reading({"kind": "knit", "stretch": 40})
    assert len(problems) == 1


@pytest.mark.parametrize(
    ("cloth", "name"),
    [
        (Cloth(), "woven"),
        (Cloth(stretch=0.2), "woven"),
        (Cloth("knit", stretch=0.25), "stable knit"),
        (Cloth("knit", stretch=0.26), "moderate knit"),
        (Cloth("knit", stretch=0.6), "stretchy knit"),
        (Cloth("knit", stretch=1.0), "very stretchy knit"),
    ],
)
def test_a_knit_is_classed_by_how_far_it_stretches(cloth: Cloth, name: str) -> None:
    assert stretch_class(cloth) == name
