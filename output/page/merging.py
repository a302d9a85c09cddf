"""Edits made on a file as it was, brought to the file as it is now, which another hand has changed meanwhile.

An edit goes with the new file where nobody else touched what it touches. Where both touched it, she is asked.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from output.page.edits import At, Edit, Tables, place_gone

__all__ = ["Both", "asked_which", "edits_for_now", "value_at", "without_places"]

_NAMED_BY: Final = ("name", "alter")
"""What tells a block or a part from others, and a step."""

_NOTHING: Final = object()


class Both(Exception):
    """Two people changed the same value. here: what she asks for; there: what the file says now, None for nothing."""

    def __init__(self, edit: Edit, here: Any, there: Any) -> None:
        self.edit, self.here, self.there = edit, here, there
        super().__init__(edit, here, there)


def asked_which(both: Both) -> dict[str, Any]:
    """What she is asked: which of two values is to stand."""
    here, there = ("nothing" if each is None else f"“{each}”" for each in (both.here, both.there))
    sentence = f"Your file says {there} here by now: it was changed elsewhere. You asked for {here}. Which shall stand?"
    at = {"in": both.edit.where, "at": list(both.edit.at)}
    return {"sentence": sentence, **at, "here": both.here, "there": both.there}


@dataclass(frozen=True, slots=True)
class _Lists:
    """A list of tables as it was and as it is."""

    was: Sequence[Any]
    now: Sequence[Any]

    def place(self, old: int) -> int | None:
        """Where the table that stood at a place stands now; None where that cannot be told, or it is gone."""
        if old >= len(self.was):
            return len(self.now) + old - len(self.was)
        if old < len(self.now) and self.now[old] == self.was[old]:
            return old
        same = [place for place, each in enumerate(self.now) if each == self.was[old]]
        if len(same) == 1:
            return same[0]
        if len(self.now) == len(self.was) and _named(self.now[old]) == _named(self.was[old]):
            return old
        named = [place for place, each in enumerate(self.now) if _named(each) == _named(self.was[old])]
        return named[0] if len(named) == 1 else None


def _named(table: Any) -> Any:
    return [table.get(key) for key in _NAMED_BY] if isinstance(table, Mapping) else table


def value_at(tables: Tables, at: At) -> Any:
    """What stands at a place; None where nothing does."""
    found = _value(tables, at)
    return None if found is _NOTHING else found


def _value(tables: Any, at: At) -> Any:
    for step in at:
        if isinstance(tables, dict) and isinstance(step, str):
            tables = tables.get(step, _NOTHING)
        elif isinstance(tables, list) and isinstance(step, int) and step < len(tables):
            tables = tables[step]
        else:
            return _NOTHING
    return tables


def without_places(asked: Sequence[Edit], edits: Sequence[Edit]) -> tuple[Edit, ...]:
    """Edits that were asked for before, without those that set a value which others set now."""
    told = {(each.where, each.at) for each in edits if each.do == "set"}
    return tuple(each for each in asked if each.do != "set" or (each.where, each.at) not in told)


def edits_for_now(edits: Sequence[Edit], was: Mapping[str, Tables], now: Mapping[str, Tables]) -> tuple[Edit, ...]:
    """The edits, made on the files as they were, for the files as they are now: each finds its place there.

    was, now: the tables of "garment" and "person" as they were when the edits were made, and as they are
    Raises Both where the same value was changed by both, CannotEdit where what is edited is gone.
    """
    return tuple(_edit_for_now(edit, was[edit.where], now[edit.where]) for edit in edits)


def _edit_for_now(edit: Edit, was: Tables, now: Tables) -> Edit:
    """The change at the place that it has in the file as it is now; Both where the file was changed there as well."""
    if was == now:
        return edit
    at: At = ()
    for count, step in enumerate(edit.at):
        lists = _Lists(_list(was, edit.at[:count]), _list(now, at))
        place = lists.place(step) if isinstance(step, int) else step
        if place is None:
            raise place_gone(edit.at)
        at = (*at, place)
    before, there = _value(was, edit.at), _value(now, at)
    if edit.do in ("set", "remove") and before != there:
        here = edit.value if edit.do == "set" else None
        told = None if there is _NOTHING else there
        if here != told:
            raise Both(replace(edit, at=at), here, told)
    if edit.do == "move":
        to = _Lists(_list(was, edit.at[:-1]), _list(now, at[:-1])).place(edit.to)
        return replace(edit, at=at, to=edit.to if to is None else min(to, len(_list(now, at[:-1])) - 1))
    return replace(edit, at=at)


def _list(tables: Tables, at: At) -> Sequence[Any]:
    found = _value(tables, at)
    return found if isinstance(found, list) else ()
