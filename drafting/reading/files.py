"""Opening what a person wrote: a TOML file becomes plain tables, or one plain sentence that says why not."""

from __future__ import annotations

import re
import stat
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path

from drafting.errors import InputProblems, Problem
from drafting.reading.mend_line import mended
from drafting.reading.units import printable

__all__ = ["LoadTables", "load_bytes", "load_text", "load_toml", "refuse_too_many"]

LoadTables = Callable[[Path], dict[str, object]]
"""Gives the tables of a file, as `load_toml` does."""

_LARGEST_FILE = 1_000_000
"""Bytes. The files people write by hand are a thousandth of this."""

_MOST_NAMES = 2_000
"""Names that a file may give, and names in a row with dots between: the longest written by hand has a twentieth of it.

Reading takes longer than in proportion to them (our figures).
"""

_MOST_DOTS = 20
_DOTTED = re.compile(rf"""(?<![\w"'-])(?:[\w"'-]+[ \t]*\.[ \t]*){{{_MOST_DOTS + 1}}}""")

_DIGITS = re.compile(r"[0-9][0-9_]{99,}")
"""More digits in a row than any number has that was measured."""

_MOST_LINES = 40
"""Lines that cannot be read and are named at once: nobody reads more."""


def load_toml(path: str | Path, *, of_no_use: Callable[[str], str] = lambda _word: "") -> dict[str, object]:
    """The tables in a TOML file (UTF-8, up to 1 MB).

    of_no_use: what to tell of a line, mended, that would be refused for the word it begins with; "" for every other: no
    line is mended only to be refused

    Raises InputProblems, with one plain sentence, for whatever keeps the file from being read.
    """
    place = printable(str(path), most=200)
    text = load_text(path, kind='a file of lines such as name = "Oda"', largest=_LARGEST_FILE)
    refuse_too_many(place, text)
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise InputProblems([Problem(place, "brackets inside brackets without end", "fewer of them")]) from None
    except ValueError as error:
        raise InputProblems(_unread_lines(place, text, error, of_no_use)) from None


def refuse_too_many(place: str, text: str) -> None:
    """Raise InputProblems for more names in a TOML text than a person gives, before they are read. place: its file"""
    problems = []
    given = text.count("=") + text.count("\n[")
    if given > _MOST_NAMES:
        expected = f"a file of up to {_MOST_NAMES:,}"
        problems.append(Problem(place, f"{given:,} names and headings", expected, "Divide it into several files."))
    if dotted := _DOTTED.search(text):
        line = text.count("\n", 0, dotted.start()) + 1
        expected = f"up to {_MOST_DOTS} dots in one name"
        problems.append(Problem(f"{place}, line {line}", "a name with more dots than any has", expected))
    if long := _DIGITS.search(text):
        line = text.count("\n", 0, long.start()) + 1
        read = f"a number of {len(long[0]):,} digits"
        problems.append(Problem(f"{place}, line {line}", read, "a number that can be measured"))
    if problems:
        raise InputProblems(problems)


def load_text(path: str | Path, *, kind: str, largest: int) -> str:
    """The text in a file (UTF-8, up to `largest` bytes); `kind` is what a problem says was expected.

    Raises InputProblems as `load_toml` does.
    """
    raw = load_bytes(path, kind=kind, largest=largest)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        where = f"{printable(str(path), most=200)}, line {line}"
        mend = "Save it as plain text in UTF-8."
        raise InputProblems(
            [Problem(where, "letters that cannot be read (not UTF-8)", "a text file in UTF-8", mend)]
        ) from None


def load_bytes(path: str | Path, *, kind: str, largest: int) -> bytes:
    """What is in a file of up to `largest` bytes. Raises InputProblems as `load_toml` does."""
    place, path = printable(str(path), most=200), Path(path)
    try:
        about = path.stat()
        if stat.S_ISDIR(about.st_mode):
            raise InputProblems([Problem(place, "a folder", kind)])
        if not stat.S_ISREG(about.st_mode):
            raise InputProblems([Problem(place, "something that is not a file", kind)])
        if about.st_size > largest:
            expected = f"{kind} of up to {largest // 1_000_000} MB"
            raise InputProblems([Problem(place, f"a file of {about.st_size:,} bytes", expected)])
        return path.read_bytes()
    except FileNotFoundError:
        near = [path.parent / folder / f"{path.name}.toml" for folder in ("", "people", "garments")]
        found = next((each for each in near if path.suffix != ".toml" and each.is_file()), None)
        mend = (
            f"Is it {printable(str(found), most=200)}?"
            if found
            else "Check the name and the folder it is looked for in."
        )
        raise InputProblems([Problem(place, "no such file", kind, mend)]) from None
    except (OSError, ValueError) as error:  # ValueError: a name no file system can hold
        reason = getattr(error, "strerror", None) or "a name that no file can have"
        raise InputProblems([Problem(place, f"a file that cannot be read ({reason})", kind)]) from None


def _unread_lines(place: str, text: str, error: ValueError, of_no_use: Callable[[str], str]) -> list[Problem]:
    """Every line that cannot be read, up to the first that nothing mends."""
    lines = text.splitlines()
    stated = re.search(r"""^\s*unit\s*=\s*["'“”]?\s*(c|m|i)[a-z]+""", text, re.MULTILINE)
    problems: list[Problem] = []
    while len(problems) < _MOST_LINES:
        number = _line_of(str(error), lines)
        written = lines[number - 1] if number is not None and number <= len(lines) else ""
        better = mended(written, unit={"c": "cm", "m": "mm", "i": "in"}[stated[1]] if stated else "")
        if number is None or better is None or better.line == written.strip():
            problems.append(_unread(place, number, written, str(error)))
            break
        what = "Put it in quotes" if "quot" in better.expected else "Write"
        useless = of_no_use(better.line) if "=" in better.line else ""
        mend = useless or f"{what}: {printable(better.line, most=120)}"
        read = f'"{printable(written.strip(), most=80)}"'
        problems.append(
            Problem(f"{place}, line {number}", read, "a word that is known here" if useless else better.expected, mend)
        )
        lines[number - 1] = better.line
        try:
            tomllib.loads("\n".join(lines))
        except ValueError as more:
            error = more
        except RecursionError:
            break
        else:
            break
    return problems


def _line_of(message: str, lines: Sequence[str]) -> int | None:
    """The line that a message speaks of, counted from one; at the end of the document the last that is not empty."""
    found = re.search(r"at line ([0-9]+), column [0-9]+", message)
    if found:
        return int(found[1])
    full = [number for number, line in enumerate(lines, start=1) if line.strip()]
    return full[-1] if full and "end of document" in message else None


def _unread(place: str, number: int | None, written: str, message: str) -> Problem:
    """A line that cannot be read and that nothing mends."""
    where = place if number is None else f"{place}, line {number}"
    read = f'"{printable(written.strip(), most=80)}"' if written.strip() else "the end of the file"
    if re.search("overwrite|twice|mutate|redefine|already", message, re.IGNORECASE):
        return Problem(where, read, "each name once", "It stands further up already: leave one of the two out.")
    like = 'a line such as bust = 92, title = "Harbour skirt" or [cloth]'
    return Problem(where, read, like, 'What is not a plain number stands in straight quotation marks: "36 1/2 in".')
