"""The cloth as a person writes it."""

from __future__ import annotations

import pytest

from drafting.errors import Problem, UnknownName
from drafting.fit.cloth import Cloth, read_cloth, stretch_class
from drafting.fit.cloth_table import cloth_table
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


def test_a_cloth_is_read_by_its_name_with_what_is_usual_for_it() -> None:
    cloth, problems = reading({"kind": "Wool Coating"})
    assert problems == []
    assert (cloth.kind, cloth.knit, cloth.weight, cloth.thickness) == ("wool coating", False, "heavy", 2.0)
    assert (cloth.shrinkage, cloth.one_way) == (0.05, True)
    cloth, problems = reading({"kind": "jeans", "shrinkage": "0 %", "thickness": "1.2 mm"})
    assert (cloth, problems) == (Cloth("denim", shrinkage=0.0, thickness=1.2), [])
    cloth, problems = reading({"kind": "jersey"})
    assert (cloth.knit, cloth.stretch, cloth.stretch_along, problems) == (True, 0.3, 0.1, [])


@pytest.mark.parametrize(("weight", "mm"), [("light", 0.3), ("thin", 0.3), ("medium", 0.5), ("thick", 1.5)])
def test_a_weight_gives_a_thickness_where_none_is_told(weight: str, mm: float) -> None:
    assert reading({"weight": weight})[0].thickness == mm
    assert reading({"weight": weight, "thickness": "0.8 mm"})[0].thickness == 0.8


@pytest.mark.parametrize("written", [["shirt", "jumper"], "shirt, jumper", "shirt and jumper"])
def test_what_is_worn_beneath_is_a_list_or_words(written: object) -> None:
    cloth, problems = reading({"over": written})
    assert (cloth.over, problems) == (("shirt", "jumper"), [])
    assert cloth.beneath_at("bust") == pytest.approx(3.3)


@pytest.mark.parametrize(
    ("table", "where", "told"),
    [
        ({"kind": "denm"}, "kind", 'Did you mean "denim"?'),
        ({"kind": "felt"}, "kind", "say its figures"),
        ({"over": ["shirt", "blanket"]}, "over", "beneath ="),
        ({"over": 3}, "over", ""),
        ({"weight": "fat"}, "weight", ""),
        ({"thickness": "3 cm"}, "thickness", ""),
        ({"stretch_along": "500 %"}, "stretch_along", ""),
        ({"beneath": "9 cm"}, "beneath", ""),
    ],
)
def test_a_word_or_a_figure_that_no_cloth_has_is_refused_with_what_would_do(
    table: dict[str, object], where: str, told: str
) -> None:
    _, (problem,) = reading(table)
    assert problem.where == f"dress.toml, [cloth] {where}"
    assert told in problem.mend


def test_a_program_is_refused_what_no_cloth_is_called() -> None:
    with pytest.raises(UnknownName, match="denim"):
        Cloth("denm")
    with pytest.raises(UnknownName):
        Cloth(over=("blanket",))


def test_the_table_holds_each_word_once_and_figures_a_cloth_can_have() -> None:
    words = [word for row in cloth_table() for word in (row.word, *row.also)]
    assert len(words) == len(set(words))
    for row in cloth_table():
        cloth = Cloth(row.word)
        assert cloth.knit == (row.structure == "knit")
        assert 0.1 <= row.thickness <= 3.0
        assert (row.stretch is None) == (row.word == "knit")
        assert cloth.knit or cloth.stretch <= 0.3
        assert cloth.stretch >= cloth.stretch_along
        assert row.about


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
