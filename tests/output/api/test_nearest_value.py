"""A number beyond the range of its option is answered with the nearest that can be had, at each of the three doors."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from drafting.errors import InputProblems, Problem, Setting
from output.api import alter
from output.api.nearest_value import nearest_tried
from output.command.draft import read_order
from output.page.files import Files
from output.page.folder import Folder
from output.page.workshop import NotMade, make
from tests.examples import example

_PEOPLE = Path(__file__).parents[3] / "examples" / "people"


@pytest.mark.parametrize(
    ("by", "had", "told"),
    [
        (5000.0, 1200.0, "from -600 to 1200."),  # the end of the range can be had, and the range is told
        (-5000.0, -67.0, "from -600 to 1200. The most that can be had here: by=-67."),
    ],
)
def test_a_program_is_told_the_most_that_can_be_had(by: float, had: float, told: str) -> None:
    with pytest.raises(InputProblems) as wrong:
        alter(example("ferry-dress"), "lengthen", piece="bodice front", by=by)
    (problem,) = wrong.value.problems
    assert problem.nearest == Setting("by", had, "mm")
    assert problem.sentence().endswith(told)


_STEPS = {
    "cm": ('alter = "armhole"\nlower = "9 m"', 'lower = "10.3 cm"', 103.0, "10.3 cm"),
    "in": ('alter = "armhole"\nlower = "90 in"', 'lower = "4 in"', 101.6, "4 in"),
}


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_a_file_and_the_page_are_told_it_in_her_unit(tmp_path: Path, unit: str) -> None:
    step, typed, mm, value = _STEPS[unit]
    (tmp_path / "oda.toml").write_text((_PEOPLE / "oda.toml").read_text("utf-8"), "utf-8")
    file = tmp_path / "asked.toml"
    text = f'title = "Asked"\nunit = "{unit}"\nwearer = "oda.toml"\n[[block]]\nname = "bodice"\n[[step]]\n{step}\n'
    file.write_text(text, "utf-8")
    with pytest.raises(InputProblems) as wrong:
        read_order(file, None)
    assert wrong.value.problems[0].nearest == Setting("lower", pytest.approx(mm), "mm")
    assert str(wrong.value).endswith(f"The most that can be had here: {typed}.")
    assert _offers_on_the_page(tmp_path, text) == [
        {
            "words": f"Lower {value}",
            "edits": [{"in": "garment", "do": "set", "at": ["step", 0, "lower"], "value": value}],
        }
    ]


def _offers_on_the_page(folder: Path, text: str) -> Any:
    import tomllib

    person = tomllib.loads((folder / "oda.toml").read_text("utf-8"))
    files = Files("asked.toml", "oda.toml", {"asked.toml": text, "oda.toml": ""})
    with pytest.raises(NotMade) as refused:
        make(Folder.at(folder), files, tomllib.loads(text), person, None)
    return refused.value.problems[0]["offers"]


def _problem(nearest: Setting | None, at: tuple[str | int, ...] = ("step", 0, "by")) -> Problem:
    return Problem("a.toml, [[step]] 1 by", "9", "less", "Or not.", at, nearest)


@pytest.mark.parametrize(
    ("problems", "most", "had"),
    [
        ([_problem(Setting("by", 30.0, "mm"))], 30.0, 30.0),
        ([_problem(Setting("by", 30.5, "mm"))], 30.5, 30.0),  # in round numbers, within the range
        ([_problem(Setting("by", 30.0, "mm"))], 12.9, 12.0),
        ([_problem(Setting("by", 30.0, "mm"))], 0.5, None),  # nothing can be had
        ([_problem(Setting("share", 0.5, "%"))], 0.4, None),  # only lengths are searched
        ([_problem(Setting("share", 0.5, "%"))], 0.5, 0.5),
        ([_problem(Setting("bust", 600.0, "mm"), ("measurements", "bust"))], 0.0, 600.0),  # a body is not tried
        ([_problem(None)], 99.0, None),
        ([_problem(Setting("by", 30.0, "mm")), _problem(None)], 0.0, 30.0),  # there is more that is wrong
    ],
)
def test_the_most_is_searched_where_it_is_all_that_is_wrong(
    problems: list[Problem], most: float, had: float | None
) -> None:
    def drafts(_: Problem, setting: Setting) -> bool:
        return float(setting.value) <= most

    told = nearest_tried(InputProblems(problems), drafts, "cm").problems
    assert len(told) == len(problems)
    nearest = told[0].nearest
    assert (nearest and nearest.value) == had
