"""The text of a file as it lies on the disk, and what stands in it."""

from __future__ import annotations

import os
import stat
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from output.api.showing import InputProblems, refuse_too_many
from output.page.edits import Tables

__all__ = ["NoText", "is_order", "read_text", "tables_of"]

_LARGEST: Final = 1_000_000
"""Bytes in a file that is read (the command takes as many)."""


_ORDERED: Final = frozenset({"measurements", "wearer", "block", "like"})
"""What stands in a person's file or a garment's, and never among the names of a drawing."""


class NoText(ValueError):
    """A file that holds no text that can be read; its words are a sentence that says why."""


def read_text(path: Path) -> str:
    """The text of a file, its line ends as they are. Raises OSError, NoText."""
    with open(path, "rb", opener=_without_waiting) as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise NoText(f"{path.name} is no file that text can be read from.")
        raw = file.read(_LARGEST + 1)
    if len(raw) > _LARGEST:
        raise NoText(f"{path.name} is far longer than such a file: up to {_LARGEST // 1_000_000} MB is read.")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        raise NoText(f"{path.name} holds letters that cannot be read. Save it as plain text in UTF-8.") from None


def _without_waiting(path: str, flags: int) -> int:
    """Open a file; what has its name and never ends, or waits for another program, is not waited for."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def tables_of(text: str) -> Tables | None:
    """What stands in a file; None where it cannot be read, or is more than anybody writes by hand."""
    try:
        refuse_too_many("", text)
        return tomllib.loads(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError, InputProblems):
        return None


def is_order(tables: Mapping[str, Any]) -> bool:
    """Whether what stands in a file is a person or a garment, and no list of names beside a drawing."""
    return not _ORDERED.isdisjoint(tables)
