"""A TOML text as its statements: each heading, each name with its value, and what stands between them.

Joined again they are the text, byte for byte; so whoever changes one of them leaves all others as they are.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from output.page.edits import At, CannotEdit

__all__ = ["Statement", "statements"]

_KEY: Final = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
_DOTTED: Final = re.compile(rf"[ \t]*({_KEY}(?:[ \t]*\.[ \t]*{_KEY})*)[ \t]*=")
_HEADING: Final = re.compile(rf"[ \t]*(\[\[?)[ \t]*({_KEY}(?:[ \t]*\.[ \t]*{_KEY})*)[ \t]*\]")
_ONE_KEY: Final = re.compile(_KEY)

_MOST_LINES: Final = 200
"""Lines in one value: a list written over more is changed by hand (our figure)."""


@dataclass(frozen=True, slots=True)
class Statement:
    """One statement with its line ends.

    kind:   "heading" ([cloth]), "list heading" ([[step]]), "value", or "between" for an empty line or a comment
    at:     its place in the tables; that of the table it stands in for what stands between
    inside: the place of the table whose heading it stands under
    """

    kind: Literal["heading", "list heading", "value", "between"]
    text: str
    at: At
    inside: At


def statements(text: str) -> list[Statement]:
    """The statements of a text that tomllib reads. Raises CannotEdit for one that is written in too long a way."""
    return list(_statements(text.splitlines(keepends=True)))


def _statements(lines: Sequence[str]) -> Iterator[Statement]:
    """The statements of a file in order: headings, values, and the lines between."""
    counts: dict[At, int] = {}
    inside: At = ()
    start = 0
    while start < len(lines):
        line, plain = lines[start], lines[start].strip()
        start += 1
        if not plain or plain.startswith("#"):
            yield Statement("between", line, inside, inside)
        elif heading := _HEADING.match(line) if plain.startswith("[") else None:
            listed = heading[1] == "[["
            inside = _place(_names(heading[2]), counts, listed=listed)
            yield Statement("list heading" if listed else "heading", line, inside, inside)
        else:
            end = _end_of_value(lines, start - 1)
            value = "".join(lines[start - 1 : end])
            found = _DOTTED.match(value)
            if found is None:
                raise CannotEdit("This file is written in a way that the page cannot change: change it by hand.")
            yield Statement("value", value, (*inside, *_names(found[1])), inside)
            start = end


def _end_of_value(lines: Sequence[str], start: int) -> int:
    """The line after the value that begins on a line: as many lines as tomllib takes for it."""
    for end in range(start + 1, min(start + _MOST_LINES, len(lines)) + 1):
        try:
            tomllib.loads("".join(lines[start:end]))
        except ValueError:
            continue
        return end
    raise CannotEdit("This file holds a value written over too many lines for the page: change it by hand.")


def _names(dotted: str) -> tuple[str, ...]:
    return tuple(_name(found[0]) for found in _ONE_KEY.finditer(dotted))


def _name(written: str) -> str:
    if written[0] == '"':
        (name,) = tomllib.loads(f"{written} = 0")
        return name
    return written[1:-1] if written[0] == "'" else written


def _place(names: Sequence[str], counts: dict[At, int], *, listed: bool) -> At:
    """The place that a heading stands for: below the last table of each list it leads through."""
    at: At = ()
    for count, name in enumerate(names, start=1):
        at = (*at, name)
        if listed and count == len(names):
            counts[at] = counts.get(at, 0) + 1
        if at in counts:
            at = (*at, counts[at] - 1)
    return at
