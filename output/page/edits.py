"""An edit: one value set or taken away, one table of a list brought in or moved. On plain tables here; `editing.py`
does the same to the text of a file.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import Any, Final, Literal, get_args

__all__ = ["MOST_EDITS", "At", "CannotEdit", "Edit", "Tables", "edited", "place_gone", "read_edits"]

At = tuple[str | int, ...]
"""A place in a file as its tables are nested, lists counted from 0: ("step", 2, "by")."""

Tables = dict[str, Any]
"""What stands in a TOML file, as tomllib gives it."""

Act = Literal["set", "remove", "insert", "move"]
Which = Literal["garment", "person"]

_DEEPEST: Final = 8  # names in a place (ours)
_LONGEST: Final = 400  # letters in a value or a name (ours)
MOST_EDITS: Final = 50  # edits at once (ours)
_MOST_IN_ONE: Final = 60  # values in a list or a table (ours)


class CannotEdit(Exception):
    """An edit that does not go with the file as it is; `sentence` says why, fit to be shown."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


@dataclass(frozen=True, slots=True)
class Edit:
    """One change to a file.

    where: which of the two files; do: what is done there
    at:    the place; for "insert" that of the table before which it is brought in
    value: for "set" and "insert"; to: the place in the list that "move" moves to
    """

    where: Which
    do: Act
    at: At
    value: Any = None
    to: int = 0

    def data(self) -> dict[str, object]:
        """As it came from the page, and goes to it."""
        data: dict[str, object] = {"in": self.where, "do": self.do, "at": list(self.at)}
        if self.do in ("set", "insert"):
            data["value"] = self.value
        return {**data, "to": self.to} if self.do == "move" else data


def read_edits(given: object) -> tuple[Edit, ...]:
    """The edits that a page sent. Raises CannotEdit for what is none."""
    if not isinstance(given, list) or len(given) > MOST_EDITS:
        raise CannotEdit("What was sent is no list of changes.")
    return tuple(map(_read_edit, given))


def _read_edit(given: object) -> Edit:
    """The change that was sent; CannotEdit where it is none."""
    if not isinstance(given, Mapping):
        raise CannotEdit("What was sent is no change.")
    where, do, to = given.get("in", "garment"), given.get("do"), given.get("to", 0)
    at: Any = given.get("at")
    known = where in get_args(Which) and do in get_args(Act)
    placed = isinstance(at, list) and 0 < len(at) <= _DEEPEST and all(map(_is_step, at)) and isinstance(at[0], str)
    if not known or not placed or not _is_count(to):
        raise CannotEdit("What was sent is no change to a place in a file.")
    value = given.get("value")
    if do in ("set", "insert"):
        _accept_value(value, _DEEPEST)
    if do in ("insert", "move") and not isinstance(at[-1], int):
        raise CannotEdit("Only what stands in a list can be brought in or moved.")
    if do == "insert" and not isinstance(value, dict):
        raise CannotEdit("Only a step, a block or a part can be brought in.")
    return Edit(where, do, tuple(at), value, to)  # type: ignore[arg-type]


def _is_count(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and 0 <= value < _LONGEST


def _is_step(value: object) -> bool:
    return _is_count(value) or (isinstance(value, str) and _is_name(value))


def _is_name(value: object) -> bool:
    return isinstance(value, str) and 0 < len(value) <= _LONGEST and value.isprintable()


def _accept_value(value: object, depth: int) -> None:
    """Raise CannotEdit for a value that no file of hers holds."""
    match value:
        case bool():
            return
        case int() | float():
            fits = abs(value) < 1e15  # false for nan
        case str():
            fits = len(value) <= _LONGEST and (not value or value.isprintable())
        case list() if depth > 0:
            fits = len(value) <= _MOST_IN_ONE
            for each in value:
                _accept_value(each, depth - 1)
        case dict() if depth > 0:
            fits = len(value) <= _MOST_IN_ONE and all(map(_is_name, value))
            for each in value.values():
                _accept_value(each, depth - 1)
        case _:
            fits = False
    if not fits:
        raise CannotEdit("What was sent cannot stand in a file: it is too long, or no number or line of text.")


def edited(tables: Tables, edits: Sequence[Edit]) -> Tables:
    """The tables with the edits done to them, one after another; those given stay as they are.

    Raises CannotEdit for one that does not go with them.
    """
    new = deepcopy(tables)
    for edit in edits:
        _do(new, edit)
    return new


def _do(tables: Tables, edit: Edit) -> None:
    """Make a change in the tables of a file, which are changed in place."""
    *way, last = edit.at
    inner: Any = tables
    for count, step in enumerate(way):
        if isinstance(inner, dict) and isinstance(step, str):
            if step not in inner and edit.do in ("set", "insert"):
                inner[step] = [] if isinstance(edit.at[count + 1], int) else {}
            if step not in inner:
                raise place_gone(edit.at)
            inner = inner[step]
        elif isinstance(inner, list) and isinstance(step, int) and step < len(inner):
            inner = inner[step]
        else:
            raise place_gone(edit.at)
    _do_last(inner, last, edit)


def _do_last(inner: Any, last: str | int, edit: Edit) -> None:
    """Make a change in the innermost table or list, at its last step."""
    listed = isinstance(inner, list) and isinstance(last, int)
    if not listed and not (isinstance(inner, dict) and isinstance(last, str)):
        raise place_gone(edit.at)
    try:
        match edit.do:
            case "set":
                inner[last] = deepcopy(edit.value)
            case "remove":
                del inner[last]
            case "insert":
                if last > len(inner):  # type: ignore[operator]
                    raise place_gone(edit.at)
                inner.insert(last, deepcopy(edit.value))
            case "move":
                if edit.to >= len(inner):
                    raise place_gone(edit.at)
                inner.insert(edit.to, inner.pop(last))
    except (LookupError, TypeError):
        raise place_gone(edit.at) from None


def place_gone(at: At) -> CannotEdit:
    """That the place of an edit is not in the file."""
    words = " ".join(f"{step + 1}" if isinstance(step, int) else step for step in at)
    return CannotEdit(f"The file has no place for this any more: {words}. It was changed in another way meanwhile.")
