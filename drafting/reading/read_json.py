"""Reading a parsed JSON document: every problem is noted with its path, and reading goes on.

A `Node` is one value and the path to it. Its reading methods hand out a checked value, or note what is wrong and
hand out a harmless stand-in; the path of a value that is missing stays silent, since its absence was noted already.
"""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterable, Sequence
from enum import Enum
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, meant
from drafting.reading.units import shown

__all__ = ["Node", "Plain", "load_json"]

Plain = str | float | int | bool | None


_MOST_ITEMS: Final = 5_000
"""Of one list; the largest of a dress has some hundred (our figure)."""

_LONGEST: Final = 2_000
_LONGEST_NAME: Final = 200
"""Letters of a text, as long as a few sentences; of a name, as many as a file may write."""


class _Is(Enum):
    ABSENT = 0


_ABSENT: Final = _Is.ABSENT


@dataclass(frozen=True, slots=True)
class Node:
    """One value of a document.

    value:    as the JSON parser gave it
    place:    the document, as the person named it
    path:     where in the document: "pieces[2].outline[1]"; empty at the top
    problems: where everything wrong is noted; shared by all the nodes of a document
    """

    value: object
    place: str
    path: str
    problems: list[Problem]

    @property
    def there(self) -> bool:
        """Whether there is a value at all."""
        return self.value is not _ABSENT

    def problem(self, expected: str, mend: str = "", *, read: str = "") -> None:
        """Note that what stands here will not do."""
        where = f"{self.place}, {self.path}" if self.path else self.place
        self.problems.append(Problem(where, read or shown(self.value), expected, mend))

    def fields(self, required: Sequence[str], optional: Sequence[str] = ()) -> dict[str, Node]:
        """The values under every one of these keys; missing ones and keys that are not known are noted."""
        table = self._table()
        known = (*required, *optional)
        found = {key: self._below(table.get(key, _ABSENT), f".{key}") for key in known}
        if not isinstance(self.value, dict):
            return found
        for key in required:
            if key not in table:
                found[key].problem("a value", "It cannot be left out.", read="nothing")
        for key in table:
            if key not in known:
                mend = meant(key, known) or "Leave it out."
                self.problem(f"only {', '.join(known)}", mend, read=f"the unknown key {shown(key)}")
        return found

    def entries(self) -> tuple[tuple[str, Node], ...]:
        """The keys and values of a table whose keys are free, in their order."""
        table = self._table()
        for key in table:
            if not key or not _one_line(key):
                self.problem("keys that are texts on one line and not empty", read=f"the key {shown(key)}")
        return tuple((key, self._below(value, f"[{shown(key)}]")) for key, value in table.items())

    def items(self, *, low: int = 0, high: int | None = None) -> tuple[Node, ...]:
        """The items of a list of `low` to `high` of them; where nothing is said, to 5,000."""
        if not self.there:
            return ()
        fits = isinstance(self.value, list) and low <= len(self.value) <= (_MOST_ITEMS if high is None else high)
        if not isinstance(self.value, list) or not fits:
            self.problem(_list_of(low, high, self.value), read=self._counted())
            return ()
        return tuple(self._below(value, f"[{i}]") for i, value in enumerate(self.value))

    def text(self, default: str = "", *, empty: bool = True) -> str:
        """A text on one line; with `empty=False`, a name: one that holds something, and is of 200 letters at most."""
        if not self.there:
            return default
        if not isinstance(self.value, str) or not (empty or self.value) or not _one_line(self.value):
            self.problem("a text on one line" if empty else "a text on one line that is not empty")
            return default
        if len(self.value) > (most := _LONGEST if empty else _LONGEST_NAME):
            self.problem(f"a text of up to {most:,} letters", read=f"{len(self.value):,} letters")
            return default
        return self.value

    def choice(self, known: Iterable[str], default: str) -> str:
        """One of the texts in `known`."""
        names = tuple(known)
        if not self.there:
            return default
        if not isinstance(self.value, str) or self.value not in names:
            mend = meant(self.value, names) if isinstance(self.value, str) else ""
            self.problem(" or ".join(f'"{name}"' for name in names), mend)
            return default
        return self.value

    def flag(self, default: bool = False) -> bool:
        """True or false."""
        if not self.there:
            return default
        if not isinstance(self.value, bool):
            self.problem("true or false")
            return default
        return self.value

    def number(self, low: float, high: float, default: float = 0.0) -> float:
        """A number from `low` to `high`, both included."""
        if not self.there:
            return default
        number = self.value
        # written so that NaN, of which no comparison holds, is refused as well
        if isinstance(number, bool) or not isinstance(number, int | float) or not low <= number <= high:
            self.problem(f"a number from {low:g} to {high:g}")
            return default
        return float(number)

    def number_or_none(self, low: float, high: float) -> float | None:
        """A number from `low` to `high`, or None where null or nothing stands."""
        return None if self.value is None or not self.there else self.number(low, high)

    def whole(self, low: int, high: int, default: int) -> int:
        """A whole number from `low` to `high`, both included."""
        if not self.there:
            return default
        if isinstance(self.value, bool) or not isinstance(self.value, int) or not low <= self.value <= high:
            self.problem(f"a whole number from {low} to {high}" if low < high else f"{low}")
            return default
        return self.value

    def plain(self) -> Plain:
        """A text, a finite number, true, false or null, as it stands."""
        value = self.value
        if value is None or isinstance(value, bool) or (isinstance(value, str) and _one_line(value)):
            return value
        if isinstance(value, int | float) and abs(value) <= 1e15:
            return value
        self.problem("a text, a number, true, false or null")
        return None

    def _below(self, value: object, step: str) -> Node:
        return Node(value, self.place, f"{self.path}{step}".lstrip("."), self.problems)

    def _table(self) -> dict[str, object]:
        if isinstance(self.value, dict):
            return self.value
        if self.there:
            self.problem("a table of keys and values")
        return {}

    def _counted(self) -> str:
        return f"a list of {len(self.value)}" if isinstance(self.value, list) else shown(self.value)


def load_json(text: str, *, place: str) -> Node:
    """The document in a JSON text. Raises InputProblems for what is not JSON, with line and column."""
    try:
        return Node(json.loads(text), place, "", [])
    except json.JSONDecodeError as error:
        where = f"{place}, line {error.lineno}, column {error.colno}"
        rest = text[error.pos : error.pos + 40]
        read = shown(rest.splitlines()[0].replace('"', "'")) if rest.strip() else "the end of the text"
        raise InputProblems([Problem(where, read, "JSON", f"The reader says: {error.msg}.")]) from None
    except (ValueError, RecursionError) as error:
        read = "lists inside lists without end" if isinstance(error, RecursionError) else "a number of too many digits"
        raise InputProblems([Problem(place, read, "a plain JSON document")]) from None


def _one_line(text: str) -> bool:
    """Whether a text holds no line breaks or other control characters, and no halves of a surrogate pair."""
    return text.isprintable() or not any(unicodedata.category(letter) in ("Cc", "Cs") for letter in text)


def _list_of(low: int, high: int | None, given: object) -> str:
    if low == high:
        return f"a list of {low}"
    if isinstance(given, list) and len(given) > low:
        return f"a list of {high or _MOST_ITEMS:,} or fewer"
    return f"a list of {low} or more" if low else "a list"
