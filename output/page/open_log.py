"""The log of a folder opened: what was done in it, kept in a hidden folder beside her files."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from output.api.showing import CannotWrite, stage
from output.page.folder import HIDDEN, Folder
from output.page.texts import read_text
from output.page.undo_log import UndoLog

__all__ = ["OpenedLog", "open_log"]

_NAME: Final = "undo.sqlite"
_BESIDE: Final = ("-wal", "-shm")
"""How the files end that the log keeps beside it while it is open."""
_DAMAGED: Final = "undo.damaged"
_SET_ASIDE: Final = (
    f"What was done here before could not be read: the log is damaged. It was set aside as {HIDDEN}/{_DAMAGED}, and a "
    "new one begun. Your people and garments are as they were; only what was done earlier cannot be undone any more."
)


@dataclass(frozen=True, slots=True)
class OpenedLog:
    """The log of a folder. told: what she has to be told of it, a sentence or two; "" for nothing"""

    log: UndoLog
    told: str = ""


def open_log(folder: Folder) -> OpenedLog:
    """The log of a folder; a new one where it is damaged, which is then kept beside it.

    Raises CannotWrite for a folder in which nothing can be written down.
    """
    hidden = folder.path / HIDDEN
    for each in (hidden, *(hidden / f"{_NAME}{end}" for end in ("", *_BESIDE))):
        if not folder.holds(each):
            raise CannotWrite(str(each), "it leads out of the folder")
    try:
        hidden.mkdir(exist_ok=True)
        return _opened(folder)
    except (OSError, sqlite3.OperationalError) as wrong:
        raise CannotWrite(str(folder.path), getattr(wrong, "strerror", None) or str(wrong)) from wrong


def _opened(folder: Folder) -> OpenedLog:
    file = folder.path / HIDDEN / _NAME
    try:
        return OpenedLog(_log(folder))
    except sqlite3.OperationalError:
        raise
    except sqlite3.DatabaseError:
        file.replace(file.with_name(_DAMAGED))
        for beside in _BESIDE:  # what waited for the old one is not for the new one
            file.with_name(file.name + beside).unlink(missing_ok=True)
        return OpenedLog(_log(folder), _SET_ASIDE)


def _log(folder: Folder) -> UndoLog:
    def read(name: str) -> str:
        try:
            return read_text(folder.file(name))
        except FileNotFoundError:
            return ""

    def put_beside(name: str, text: str) -> Callable[[], None]:
        return stage(folder.file(name), text.encode())

    return UndoLog(folder.path / HIDDEN / _NAME, read, put_beside)
