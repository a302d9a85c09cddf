"""Edits done to the text of a TOML file. Comments, order, spaces and every line that is not meant stay as they are.

A text is taken apart into its statements (`toml_statements.py`); a value is changed inside its own statement, by
tomlkit; a step is brought in, moved or taken out as the lines it stands on. What comes out is read again and must be
what the edits make of the tables, else nothing is changed.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from typing import Any, Final

from output.page.edits import At, CannotEdit, Edit, edited, place_gone
from output.page.toml_statements import Statement, statements

__all__ = ["edited_text"]

_ORDER: Final = ("block", "part", "step")
"""The lists of a garment file, in the order in which they are usually written."""

_MARK: Final = "\ufeff"

_Span = tuple[int, int]


def edited_text(text: str, edits: Sequence[Edit]) -> str:
    """The text with the edits done to it. Raises CannotEdit where one of them does not go with it.

    text: what tomllib reads, in lines that all end alike; the mark that some editors put before all else stays
    """
    if text.startswith(_MARK):
        return _MARK + edited_text(text.removeprefix(_MARK), edits)
    end = "\r\n" if "\r\n" in text else "\n"
    wanted = edited(tomllib.loads(text), edits)
    new = text
    for edit in edits:
        whole = new if not new or new.endswith("\n") else new + end
        new = _DONE[edit.do](statements(whole), edit, end)
    if _pruned(tomllib.loads(new)) != _pruned(wanted):
        raise CannotEdit("This file is written in a way that the page cannot change there: change it by hand.")
    return new


def _pruned(value: Any) -> Any:
    """What stands in tables, without lists and tables in which nothing is: a text has no words for most of them."""
    if isinstance(value, dict):
        inner = {key: _pruned(each) for key, each in value.items()}
        return {key: each for key, each in inner.items() if each not in ({}, [])}
    return [_pruned(each) for each in value] if isinstance(value, list) else value


def _joined(lines: Sequence[Statement | str]) -> str:
    return "".join(each if isinstance(each, str) else each.text for each in lines)


def _set(stands: list[Statement], edit: Edit, end: str) -> str:
    at = edit.at
    holder = _holder(stands, at)
    if holder is not None:
        return _changed(stands, holder, at, edit.value)
    return _added(stands, at, edit.value, end)


def _holder(stands: Sequence[Statement], at: At) -> int | None:
    """The statement in which the value at a place stands, be it in braces or brackets; None where there is none."""
    inner = [i for i, each in enumerate(stands) if each.kind == "value" and at[: len(each.at)] == each.at]
    return inner[0] if inner else None


def _changed(stands: list[Statement], holder: int, at: At, value: Any) -> str:
    """The file with one value set, in the statement that holds it.

    holder: which statement holds it, from 0; at: the place of the value in the file
    """
    import tomlkit

    stand = stands[holder]
    document: Any = tomlkit.parse(stand.text)
    *way, last = at[len(stand.inside) :]
    table = document
    for step in way:
        table = table[step]
    # a table in braces is written again where a name is added, so that its spaces come out even
    if isinstance(table, tomlkit.items.InlineTable) and last not in table and way:
        outer = document
        for step in way[:-1]:
            outer = outer[step]
        pairs = [f"{key.as_string().strip()} = {item.as_string()}" for key, item in table.value.body if key is not None]
        outer[way[-1]] = _parsed("{ " + ", ".join([*pairs, f"{_key(last)} = {_literal(value)}"]) + " }")
    else:
        table[last] = _parsed(_literal(value))
    return _joined([*stands[:holder], tomlkit.dumps(document), *stands[holder + 1 :]])


def _added(stands: list[Statement], at: At, value: Any, end: str) -> str:
    """The text with a name and its value that were not there."""
    *above, last = at
    table = tuple(above)
    line = f"{_key(last)} = {_literal(value)}{end}"
    heading = _heading(stands, table)
    if heading is not None:
        after = _last_value(stands, heading)
        return _joined([*stands[:after], line, *stands[after:]])
    if not table:
        after = _top(stands)
        gap = [end] if stands and not after else []
        return _joined([*stands[:after], line, *gap, *stands[after:]])
    dotted = [
        i
        for i, each in enumerate(stands)
        if each.kind == "value" and each.at[: len(table)] == table and len(each.inside) < len(table)
    ]
    if dotted:
        names = table[len(stands[dotted[-1]].inside) :]
        line = f"{'.'.join(map(_key, names))}.{line}"
        return _joined([*stands[: dotted[-1] + 1], line, *stands[dotted[-1] + 1 :]])
    if len(table) > 1:
        return _added(stands, table, {last: value}, end)
    return _joined([*stands, *([end] if stands else []), f"[{_key(table[0])}]{end}", line])


def _heading(stands: Sequence[Statement], table: At) -> int | None:
    found = (i for i, each in enumerate(stands) if each.kind.endswith("heading") and each.at == table)
    return next(found, None)


def _last_value(stands: Sequence[Statement], heading: int) -> int:
    """The place behind the last value under a heading, or behind the heading itself."""
    last = heading
    for i in range(heading + 1, len(stands)):
        if stands[i].kind.endswith("heading"):
            break
        if stands[i].kind == "value":
            last = i
    return last + 1


def _top(stands: Sequence[Statement]) -> int:
    """The place behind the last value above all headings; 0 where there is none."""
    values = [i for i, each in enumerate(stands) if each.kind == "value" and each.inside == ()]
    return values[-1] + 1 if values else 0


def _remove(stands: list[Statement], edit: Edit, _end: str) -> str:
    """The file without the value or the table at a place."""
    import tomlkit

    at = edit.at
    holder = _holder(stands, at)
    if holder is None:
        return _without_table(stands, at)
    stand = stands[holder]
    if stand.at == at:
        return _joined([*stands[:holder], *stands[holder + 1 :]])
    document: Any = tomlkit.parse(stand.text)
    *way, last = at[len(stand.inside) :]
    table, outer = document, document
    for step in way:
        outer, table = table, table[step]
    if isinstance(table, tomlkit.items.InlineTable):
        pairs = [
            f"{key.as_string().strip()} = {item.as_string()}"
            for key, item in table.value.body
            if key is not None and key.key != last
        ]
        outer[way[-1]] = _parsed("{ " + ", ".join(pairs) + " }" if pairs else "{}")
    else:
        del table[last]
    return _joined([*stands[:holder], tomlkit.dumps(document), *stands[holder + 1 :]])


def _without_table(stands: list[Statement], at: At) -> str:
    """The text without a table that has a heading, and without the empty line above it."""
    first, last = _span(stands, at)
    gap = first > 0 and stands[first - 1].kind == "between" and not stands[first - 1].text.strip()
    return _joined([*stands[: first - 1 if gap else first], *stands[last:]])


def _span(stands: Sequence[Statement], at: At) -> _Span:
    """From the heading of a table to behind the last value in it and in the tables below it."""
    ours = [i for i, each in enumerate(stands) if each.kind != "between" and each.at[: len(at)] == at]
    if not ours or not stands[ours[0]].kind.endswith("heading"):
        raise place_gone(at)
    if any(stands[i].kind != "between" and i not in ours for i in range(ours[0], ours[-1] + 1)):
        raise CannotEdit("What belongs to it stands in several places of the file: change it by hand.")
    return ours[0], ours[-1] + 1


def _insert(stands: list[Statement], edit: Edit, end: str) -> str:
    """The file with a table put into a list, before the one that has that place now."""
    *above, place = edit.at
    table = tuple(above)
    if (holder := _holder(stands, table)) is not None:
        return _in_brackets(stands, holder, edit)
    if len(table) != 1:
        raise place_gone(edit.at)
    lines = [f"[[{_key(table[0])}]]{end}", *(f"{_key(k)} = {_literal(v)}{end}" for k, v in edit.value.items())]
    there = _places(stands, table)
    if int(place) < len(there):
        first = _with_comment(stands, there[int(place)][0])
        return _joined([*stands[:first], *lines, end, *stands[first:]])
    after = _behind_comments(stands, there[-1][1]) if there else _end_of_lists(stands, table[0])
    return _joined([*stands[:after], *([end] if after else []), *lines, *stands[after:]])


def _in_brackets(stands: list[Statement], holder: int, edit: Edit) -> str:
    """The text with a table brought into a list that is written in brackets, or moved in it."""
    import tomlkit

    stand = stands[holder]
    document: Any = tomlkit.parse(stand.text)
    listed = document
    for step in edit.at[len(stand.inside) : -1]:
        listed = listed[step]
    if edit.do == "move":
        listed.insert(edit.to, listed.pop(edit.at[-1]))
    else:
        listed.insert(edit.at[-1], _parsed(_literal(edit.value)))
    return _joined([*stands[:holder], tomlkit.dumps(document), *stands[holder + 1 :]])


def _places(stands: Sequence[Statement], table: At) -> list[_Span]:
    """Where each table of a list with headings stands."""
    count = sum(each.kind == "list heading" and each.at[:-1] == table for each in stands)
    return [_span(stands, (*table, number)) for number in range(count)]


def _end_of_lists(stands: Sequence[Statement], name: str | int) -> int:
    """Where the first table of a list is to stand: behind the lists that usually come before it, or at the end."""
    before = _ORDER[: _ORDER.index(name)] if name in _ORDER else ()
    headings = [i for i, each in enumerate(stands) if each.kind == "list heading" and each.at[0] in before]
    if not headings:
        return len(stands)
    after = _behind_comments(stands, max(_last_value(stands, i) for i in headings))
    return _before_next_heading(stands, after) if name == _ORDER[-1] else after


def _behind_comments(stands: Sequence[Statement], place: int) -> int:
    """The place behind the comments that go on right below a table; the same where they go on to another heading."""
    last = place
    while last < len(stands) and stands[last].kind == "between" and stands[last].text.strip():
        last += 1
    return place if last < len(stands) and stands[last].kind != "between" else last


def _before_next_heading(stands: Sequence[Statement], place: int) -> int:
    """The place above the next heading and the comment right above that: what is said of steps stands before them."""
    following = next((i for i in range(place, len(stands)) if stands[i].kind.endswith("heading")), len(stands))
    first = max(place, _with_comment(stands, following) if following < len(stands) else following)
    while first > place and not stands[first - 1].text.strip():
        first -= 1
    return first


def _with_comment(stands: Sequence[Statement], first: int) -> int:
    """The place of the first of the comments that stand right above a heading; of the heading itself for none."""
    while first > 0 and stands[first - 1].kind == "between" and stands[first - 1].text.strip():
        first -= 1
    return first


def _move(stands: list[Statement], edit: Edit, _end: str) -> str:
    """The text with the tables of a list in another order, each with the comment right above it."""
    *above, place = edit.at
    if (holder := _holder(stands, tuple(above))) is not None:
        return _in_brackets(stands, holder, edit)
    spans = [(_with_comment(stands, first), last) for first, last in _places(stands, tuple(above))]
    order = list(range(len(spans)))
    order.insert(edit.to, order.pop(int(place)))
    new: list[Statement | str] = []
    done = 0
    for (first, last), taken in zip(spans, order, strict=True):
        new += [*stands[done:first], *stands[slice(*spans[taken])]]
        done = last
    return _joined([*new, *stands[done:]])


_DONE: Final = {"set": _set, "remove": _remove, "insert": _insert, "move": _move}


def _key(name: str | int) -> str:
    import tomlkit

    return tomlkit.key(str(name)).as_string()


def _literal(value: Any) -> str:
    """A value as it is written in TOML, on one line."""
    import tomlkit

    if isinstance(value, dict):
        pairs = ", ".join(f"{_key(key)} = {_literal(each)}" for key, each in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(_literal, value))}]"
    literal: str = tomlkit.item(value).as_string()
    return literal


def _parsed(literal: str) -> Any:
    import tomlkit

    return tomlkit.parse(f"value = {literal}")["value"]
