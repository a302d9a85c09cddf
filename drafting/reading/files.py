"""Opening what a person wrote: a TOML file becomes plain tables, or one plain sentence that says why not."""

from __future__ import annotations

import re
import stat
import tomllib
from pathlib import Path

from drafting.errors import InputProblems, Problem
from drafting.reading.units import printable, shown

__all__ = ["load_bytes", "load_text", "load_toml"]

_LARGEST_FILE = 1_000_000
"""Bytes. The files people write by hand are a thousandth of this."""


def load_toml(path: str | Path) -> dict[str, object]:
    """The tables in a TOML file (UTF-8, up to 1 MB).

    Raises InputProblems, with one plain sentence, for whatever keeps the file from being read.
    """
    place = printable(str(path), most=200)
    text = load_text(path, kind="a TOML file", largest=_LARGEST_FILE)
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise InputProblems([Problem(place, "tables inside tables without end", "a plain TOML file")]) from None
    except ValueError as error:
        raise InputProblems([_broken_toml(place, text, str(error))]) from None


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
        mend = "Save the file as UTF-8."
        raise InputProblems([Problem(where, "letters that are not UTF-8", "a text file in UTF-8", mend)]) from None


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
        mend = "Check the name and the folder it is looked for in."
        raise InputProblems([Problem(place, "no such file", kind, mend)]) from None
    except (OSError, ValueError) as error:  # ValueError: a name no file system can hold
        reason = getattr(error, "strerror", None) or "a name that no file can have"
        raise InputProblems([Problem(place, f"a file that cannot be read ({reason})", kind)]) from None


def _broken_toml(place: str, text: str, message: str) -> Problem:
    found = re.search(r"at line ([0-9]+), column ([0-9]+)", message)
    said = re.sub(r"\s*\(at .*\)$", "", message)
    where, read = place, "the end of the file"
    if found:
        where = f"{place}, line {found[1]}, column {found[2]}"
        lines = text.splitlines()
        number = int(found[1]) - 1
        read = shown(lines[number]) if number < len(lines) else read
    elif "end of document" not in message:
        read = "a text that is not TOML"
    return Problem(where, read, "a line of TOML", f"The reader says: {said}.")
