"""Edits of a file: what is meant is changed, and every other line stays as it is, to the byte."""

from __future__ import annotations

import tomllib
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from output.page.editing import edited_text
from output.page.edits import CannotEdit, Edit, edited, read_edits
from output.page.toml_statements import statements

EXAMPLES = sorted((Path(__file__).parents[3] / "examples").glob("*/*.toml"))
FERRY = next(path for path in EXAMPLES if path.stem == "ferry-dress").read_text(encoding="utf-8")

NAMES = ("by", "depth", "width", "fit", "a b", "größe", "q.x")
WORDS = st.text(st.characters(exclude_categories=["C", "Z"]), max_size=12)
VALUES = st.one_of(
    st.integers(-10_000, 10_000),
    st.floats(-1e4, 1e4, allow_nan=False).map(lambda number: round(number, 3)),
    st.booleans(),
    WORDS,
    st.sampled_from(["1 1/2 in", '36"', "it's", "a # b", "\\", '"""', "[[step]]", "x = 1"]),
)


def key(name: str) -> str:
    return name if name.isascii() and name.isalpha() else f'"{name}"'


def literal(value: Any) -> str:
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return str(value).lower() if isinstance(value, bool) else repr(value)


@dataclass(frozen=True)
class Written:
    """A file as it was written: each line with the place of what stands on it, None for what is between."""

    lines: tuple[tuple[str, tuple[str | int, ...] | None], ...]
    end: str

    @property
    def text(self) -> str:
        return "".join(f"{line}{self.end}" for line, _ in self.lines)


@st.composite
def files(draw: st.DrawFn) -> Written:
    """A file with comments and empty lines wherever they may stand, one value to a line."""
    lines: list[tuple[str, tuple[str | int, ...] | None]] = []

    def between() -> None:
        for _ in range(draw(st.integers(0, 2))):
            lines.append((draw(st.sampled_from(["", "# x = 1", "  # [[step]]", "#"])), None))

    def values(place: tuple[str | int, ...]) -> None:
        for name in draw(st.lists(st.sampled_from(NAMES), unique=True, max_size=4)):
            behind = draw(st.sampled_from(["", "  # why", "\t#"]))
            space = draw(st.sampled_from(["", " ", "   "]))
            lines.append((f"{key(name)}{space}={space}{literal(draw(VALUES))}{behind}", (*place, name)))
            between()

    between()
    values(())
    for name in draw(st.lists(st.sampled_from(["cloth", "paper"]), unique=True)):
        lines.append((f"[{name}]", (name,)))
        between()
        values((name,))
    for name in draw(st.lists(st.sampled_from(["block", "step"]), unique=True)):
        for count in range(draw(st.integers(1, 3))):
            lines.append((f"[[{name}]]", (name, count)))
            values((name, count))
    return Written(tuple(lines), draw(st.sampled_from(["\n", "\r\n"])))


def plain(tables: Any) -> Any:
    """Tables without lists and tables that hold nothing."""
    if isinstance(tables, dict):
        return {name: plain(each) for name, each in tables.items() if plain(each) not in ({}, [])}
    return [plain(each) for each in tables] if isinstance(tables, list) else tables


def lines_of(text: str) -> list[str]:
    return text.splitlines(keepends=True)


@settings(deadline=None, max_examples=20)
@given(files(), st.data())
def test_a_value_is_set_on_its_own_line(written: Written, data: st.DataObject) -> None:
    places = [
        (number, place) for number, (line, place) in enumerate(written.lines) if place and "=" in line.split("#")[0]
    ]
    if not places:
        return
    number, place = data.draw(st.sampled_from(places))
    value = data.draw(VALUES)
    new = edited_text(written.text, [Edit("garment", "set", place, value)])
    before, after = lines_of(written.text), lines_of(new)
    assert before[:number] + before[number + 1 :] == after[:number] + after[number + 1 :]
    behind = next((each for each in ("  # why", "\t#") if written.lines[number][0].endswith(each)), "")
    assert after[number].rstrip("\r\n").endswith(behind)
    stands: Any = tomllib.loads(new)
    for step in place:
        stands = stands[step]
    assert stands == value
    assert type(stands) is type(value)


@settings(deadline=None, max_examples=20)
@given(files(), st.sampled_from([(), ("cloth",), ("paper",), ("block", 0), ("step", 0), ("step", 1)]), VALUES)
def test_a_value_that_was_not_there_takes_a_line_of_its_own(
    written: Written, table: tuple[str | int, ...], value: Any
) -> None:
    tables = tomllib.loads(written.text)
    if len(table) > 1 and len(tables.get(str(table[0]), ())) <= int(table[1]):
        with pytest.raises(CannotEdit):
            edited_text(written.text, [Edit("garment", "set", (*table, "new one"), value)])
        return
    new = edited_text(written.text, [Edit("garment", "set", (*table, "new one"), value)])
    before, after = lines_of(written.text), lines_of(new)
    assert len(after) - len(before) <= 3  # a heading and an empty line at most come with it
    rest = iter(after)
    assert all(line in rest for line in before)  # every line is there still, in the same order
    inner: Any = tables
    for step in table:
        inner = inner.setdefault(step, {}) if isinstance(inner, dict) else inner[step]
    inner["new one"] = value
    assert tomllib.loads(new) == tables


@settings(deadline=None, max_examples=20)
@given(files(), st.data())
def test_what_is_taken_away_takes_its_own_lines_with_it(written: Written, data: st.DataObject) -> None:
    places = [place for _, place in written.lines if place]
    if not places:
        return
    place = data.draw(st.sampled_from(places))
    new = edited_text(written.text, [Edit("garment", "remove", place)])
    ours = [number for number, (_, each) in enumerate(written.lines) if each and each[: len(place)] == place]
    kept = [line for number, line in enumerate(lines_of(written.text)) if not ours[0] <= number <= ours[-1]]
    blank = [line for line in kept if line.strip()]
    assert [line for line in lines_of(new) if line.strip()] == blank
    assert len(kept) - len(lines_of(new)) in (0, 1)
    tables = tomllib.loads(written.text)
    inner: Any = tables
    for step in place[:-1]:
        inner = inner[step]
    del inner[place[-1]]
    assert plain(tomllib.loads(new)) == plain(tables)


@settings(deadline=None, max_examples=20)
@given(files(), st.integers(0, 2), st.integers(0, 2))
def test_steps_change_places_with_their_comments(written: Written, one: int, other: int) -> None:
    tables = tomllib.loads(written.text)
    steps = tables.get("step", [])
    if max(one, other) >= len(steps):
        return
    new = edited_text(written.text, [Edit("garment", "move", ("step", one), to=other)])
    assert Counter(lines_of(new)) == Counter(lines_of(written.text))
    steps.insert(other, steps.pop(one))
    assert tomllib.loads(new) == tables


@settings(deadline=None, max_examples=20)
@given(files(), st.integers(0, 3))
def test_a_step_comes_in_and_goes_again_and_nothing_has_changed(written: Written, place: int) -> None:
    steps = tomllib.loads(written.text).get("step", [])
    if place > len(steps):
        return
    new = edited_text(written.text, [Edit("garment", "insert", ("step", place), {"alter": "hem", "a b": 2})])
    before, after = lines_of(written.text), iter(lines_of(new))
    assert all(line in after for line in before)  # every line is there still, in the same order
    there = tomllib.loads(new)["step"]
    assert there[place] == {"alter": "hem", "a b": 2}
    assert there[:place] + there[place + 1 :] == steps
    back = edited_text(new, [Edit("garment", "remove", ("step", place))])
    assert plain(tomllib.loads(back)) == plain(tomllib.loads(written.text))
    if place == len(steps):
        assert back == written.text


@settings(deadline=None, max_examples=20)
@given(st.sampled_from(EXAMPLES), st.data())
def test_the_examples_are_changed_value_by_value(path: Path, data: st.DataObject) -> None:
    text = path.read_text(encoding="utf-8")
    stands = statements(text)
    assert "".join(each.text for each in stands) == text
    places = [each.at for each in stands if each.kind == "value"]
    edits = [
        Edit("garment", data.draw(st.sampled_from(["set", "remove"])), place, data.draw(VALUES))  # type: ignore[arg-type]
        for place in data.draw(st.lists(st.sampled_from(places), unique=True, max_size=4))
    ]
    new = edited_text(text, edits)
    assert plain(tomllib.loads(new)) == plain(edited(tomllib.loads(text), edits))
    comments = [line for line in text.splitlines() if line.startswith("#")]
    assert [line for line in new.splitlines() if line.startswith("#")] == comments


def test_the_ease_in_braces_keeps_its_spaces() -> None:
    more = edited_text(FERRY, [Edit("garment", "set", ("block", 0, "ease", "hip"), "5 cm")])
    assert 'ease = { bust = "6 cm", waist = "4 cm", hip = "5 cm" }\n' in more
    less = edited_text(more, [Edit("garment", "remove", ("block", 0, "ease", "bust"))])
    assert 'ease = { waist = "4 cm", hip = "5 cm" }\n' in less
    own = edited_text(FERRY, [Edit("garment", "set", ("block", 2, "ease", "hip"), "5 cm")])
    assert 'length = "62 cm"\nease = { hip = "5 cm" }\n' in own


@pytest.mark.parametrize(
    ("text", "edit", "new"),
    [
        (
            'step = [{ alter = "hem" }, { alter = "lengthen" }]  # mine\n',
            Edit("garment", "set", ("step", 0, "by"), 3),
            3,
        ),
        ('cloth.kind = "woven"  # dotted\n', Edit("garment", "set", ("cloth", "width"), "140 cm"), "140 cm"),
        ('cloth.kind = "woven"  # dotted\n', Edit("garment", "set", ("cloth", "kind"), "knit"), "knit"),
        ("nest = [\n  92,  # small\n  96,\n]\n", Edit("garment", "set", ("nest", 1), 100), 100),
        ('title = """\nA\nB"""  # two lines\n', Edit("garment", "set", ("title",), "C"), "C"),
        ("[a.b]\nc = 1\n# end", Edit("garment", "set", ("a", "d"), 2), 2),
        ("\ufeff"[1:] + "# only this\n", Edit("garment", "set", ("title",), "C"), "C"),
        ("", Edit("garment", "set", ("cloth", "kind"), "knit"), "knit"),
    ],
)
def test_files_written_in_other_ways_are_changed_too(text: str, edit: Edit, new: Any) -> None:
    changed = edited_text(text, [edit])
    stands: Any = tomllib.loads(changed)
    for step in edit.at:
        stands = stands[step]
    assert stands == new
    for comment in (part.strip() for part in text.split("#")[1:]):
        assert f"# {comment.splitlines()[0]}" in changed


@pytest.mark.parametrize(
    "given_edit",
    [
        None,
        {},
        {"do": "set", "at": []},
        {"do": "set", "at": [0], "value": 1},
        {"do": "burn", "at": ["a"]},
        {"do": "set", "at": ["a"], "value": "two\nlines"},
        {"do": "set", "at": ["a"], "value": "\ud800"},
        {"do": "set", "at": ["a"], "value": float("nan")},
        {"do": "set", "at": ["a"], "value": float("inf")},
        {"do": "set", "at": ["a"], "value": 10**400},
        {"do": "set", "at": ["a"], "value": "x" * 1000},
        {"do": "set", "at": ["a\x00"], "value": 1},
        {"do": "set", "at": ["a"] * 20, "value": 1},
        {"do": "set", "at": ["a", -1], "value": 1},
        {"do": "set", "at": ["a", True], "value": 1},
        {"do": "set", "at": ["a"], "value": None},
        {"do": "set", "at": ["a"], "value": [[[[[[[[[[1]]]]]]]]]]},
        {"do": "insert", "at": ["step", 0], "value": 3},
        {"do": "insert", "at": ["step"], "value": {}},
        {"do": "move", "at": ["step", 0], "to": -1},
        {"in": "neighbour", "do": "set", "at": ["a"], "value": 1},
    ],
)
def test_what_is_no_edit_is_refused(given_edit: object) -> None:
    with pytest.raises(CannotEdit):
        read_edits([given_edit])


def test_a_place_that_is_gone_is_said_in_a_sentence() -> None:
    with pytest.raises(CannotEdit, match="step 8 by"):
        edited_text(FERRY, [Edit("garment", "set", ("step", 7, "by"), 1)])
    for place in (("b",), ("cloth", "fit"), ("step", 0), ("a", "b")):
        with pytest.raises(CannotEdit):
            edited_text("a = 1\n", [Edit("garment", "remove", place)])


def test_a_value_over_too_many_lines_is_left_to_her() -> None:
    text = "nest = [\n" + "1,\n" * 5000 + "]\n"
    with pytest.raises(CannotEdit, match="by hand"):
        edited_text(text, [Edit("garment", "set", ("title",), "C")])
