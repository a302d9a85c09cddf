"""What a pattern.json is answered by when one thing in it is wrong, or left out: a line for each thing that stands in
one, as `python -m tests.golden` writes it.

It shows what each place may hold (the limits, the words, how many), what it is called where it is told of, and what it
is taken for where it is left out.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any, Final

from drafting.errors import InputProblems
from drafting.pattern.text import Document, read_document, to_json
from tests.drafting.pattern.full import full
from tests.drafting.pattern.test_text import Found

__all__ = ["full_text", "slips_digest"]

_GONE = object()
_AGAIN = object()

Path = tuple[str | int, ...]

_ALWAYS: Final = ("format", "version", "unit", "title", "wearer", "pieces")
_FREE: Final = ("measurements", "points", "landmarks", "options")
"""Their keys are free."""

_LONG: Final = 240
"""So many letters of an answer; the words of the vocabulary stand in a page of their own."""


def full_text() -> str:
    """The pattern that has everything, as it is written."""
    return to_json(full(), [Found()])


def slips_digest() -> str:
    """The page."""
    table: dict[str, Any] = json.loads(full_text())
    lines, seen = [], set[str]()
    for path in _paths(table, ()):
        kind = _kind(table, path)
        if kind in seen:
            continue
        seen.add(kind)
        base = _shortened(table, path)
        was = read_document(json.dumps(base))
        refused = False
        for word, value in _slips(_at(base, path), path):
            if word == "a number" and refused:
                continue
            answer = _answer(_with(base, path, value), was)
            refused = refused or answer.startswith("it, ")
            lines.append(f"{_written(path)}, {word}: {answer}")
    return "\n".join(lines) + "\n"


def _paths(value: object, path: Path) -> Iterator[Path]:
    """Where everything in a document stands; what is in the parts of an unfinished pattern is as in the finished,
    and into what is finished nobody looks."""
    if path:
        yield path
    if path[:1] == ("finished",) or (path[:1] == ("unfinished",) and len(path) == 3):
        return
    if isinstance(value, dict):
        for key, each in value.items():
            yield from _paths(each, (*path, key))
    elif isinstance(value, list):
        for k, each in enumerate(value):
            yield from _paths(each, (*path, k))


def _kind(table: dict[str, Any], path: Path) -> str:
    """What is alike for all places that mean the same: the keys on the way, and how a tape is laid."""
    found = ""
    for k, step in enumerate(path):
        free = isinstance(step, int) or (k > 0 and path[k - 1] in _FREE)
        value = _at(table, path[: k + 1])
        lay = value.get("lay", "") if isinstance(value, dict) else ""
        found += f"[{lay}]" if free else f".{step}"
    return found


def _shortened(table: dict[str, Any], path: Path) -> dict[str, Any]:
    """The document without what the place has nothing to do with; that is quicker to read."""
    if path[0] == "pieces":
        (first, *_) = table["pieces"]
        drawn = {key: value for key, value in first.items() if key != "cutting_line" or key in path or len(path) < 3}
        return {key: table[key] for key in _ALWAYS} | {"pieces": [drawn]}
    if path[0] in ("unfinished", "seams", "measures", "history"):
        return {key: value for key, value in table.items() if key not in ("finished", "held_in", "checks")}
    return {key: value for key, value in table.items() if key in _ALWAYS or key == path[0]}


def _slips(value: object, path: Path) -> Iterator[tuple[str, object]]:
    """What can be wrong with a value; a number in the place of a word only where no word is wrong there."""
    if isinstance(path[-1], str):
        yield "left out", _GONE
    if isinstance(value, dict):
        yield "a word", "anything"
        yield "with another key", {**value, "anything": 7}
    elif isinstance(value, list):
        yield "a word", "anything"
        yield "empty", []
        yield "the first twice", _AGAIN
    elif isinstance(value, str):
        yield "another word", "anything"
        yield "empty", ""
        yield "a number", 7
    else:
        yield "a word", "anything"


def _at(table: Any, path: Path) -> Any:
    for step in path:
        table = table[step]
    return table


def _with(table: Any, path: Path, value: object) -> Any:
    """A copy of the document with one thing changed; what is not on the way to it is shared."""
    step, *rest = path
    copy = dict(table) if isinstance(table, dict) else list(table)
    if rest:
        copy[step] = _with(table[step], tuple(rest), value)
    elif value is _GONE:
        del copy[step]
    elif value is _AGAIN:
        copy[step] = [*table[step][:1], *table[step]]
    else:
        copy[step] = value
    return copy


def _written(path: Path) -> str:
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path).lstrip(".")


def _answer(table: object, was: Document) -> str:
    """The problems that are told, or what is another in the pattern than it was."""
    try:
        document = read_document(json.dumps(table), place="it")
    except InputProblems as refused:
        told = " | ".join(refused.sentences())
        return told if len(told) <= _LONG else f"{told[:_LONG]} ..."
    return "; ".join(_differs(document, was, "")) or "taken as it was"


def _differs(now: object, was: object, where: str) -> Iterator[str]:
    """What is another in two values of one kind, and what it is now."""
    if now == was:
        return
    if isinstance(now, tuple) and isinstance(was, tuple) and len(now) == len(was):
        for k, (one, other) in enumerate(zip(now, was, strict=True)):
            yield from _differs(one, other, f"{where}[{k}]")
    elif is_dataclass(now) and type(now) is type(was):
        for field in fields(now):
            if field.compare:
                yield from _differs(getattr(now, field.name), getattr(was, field.name), f"{where}.{field.name}")
    else:
        said = f"{len(now)} of them" if isinstance(now, tuple) and now else repr(now)
        yield f"{where.removeprefix('.pattern').lstrip('.')} is {said}"
