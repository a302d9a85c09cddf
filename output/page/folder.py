"""The people and garments of one folder; no path leads out of it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

__all__ = ["HIDDEN", "Folder", "NotInFolder"]

HIDDEN: Final = ".trueseam"
"""The folder in it in which what was done is kept."""

_DEEPEST: Final = 3
_MOST_FILES: Final = 500
"""How far down files are looked for, and how many are shown (our figures)."""


class NotInFolder(Exception):
    """A name that leads out of the folder, or to what is no file of hers there."""


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder on her machine. path: without detours and links"""

    path: Path

    @classmethod
    def at(cls, path: Path) -> Folder:
        """The folder at a path. Raises OSError where there is none."""
        return cls(path.resolve(strict=True))

    def file(self, name: object) -> Path:
        """The path of a TOML file by its name in the folder ("garments/dress.toml"), be it there or not.

        Raises NotInFolder for a name that leads out of it, by dots, by a link, or as a whole path.
        """
        if not isinstance(name, str) or not name.endswith(".toml") or not name.isprintable() or "\\" in name:
            raise NotInFolder
        path = self.path.joinpath(*name.split("/"))
        if not self.holds(path) or any(part.startswith(".") for part in name.split("/")):
            raise NotInFolder
        return path

    def holds(self, path: Path) -> bool:
        """Whether a path leads to a place in the folder, whatever links there are on the way."""
        try:
            return path.resolve().is_relative_to(self.path)
        except (OSError, ValueError, RuntimeError):  # a name no file can have; links in a circle
            return False

    def name_of(self, path: Path) -> str:
        """What a file in the folder is called here: its path from the folder, with "/" between."""
        return Path(os.path.normpath(path)).relative_to(self.path).as_posix()

    def files(self) -> tuple[str, ...]:
        """The names of the TOML files in the folder and a little further down, in order."""
        return tuple(sorted(self._names(self.path, _DEEPEST)))[:_MOST_FILES]

    def _names(self, place: Path, depth: int) -> Iterator[str]:
        try:
            entries = sorted(os.scandir(place), key=lambda entry: entry.name)[: 4 * _MOST_FILES]
        except OSError:
            return
        for entry in entries:
            if entry.name.startswith(".") or not entry.name.isprintable():
                continue
            if entry.is_dir(follow_symlinks=False):
                if depth > 1:
                    yield from self._names(Path(entry.path), depth - 1)
            elif entry.name.endswith(".toml") and self.holds(Path(entry.path)):
                yield self.name_of(Path(entry.path))
