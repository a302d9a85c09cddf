"""The people and garments of one folder; no path leads out of it."""

from __future__ import annotations

import os
from collections import deque
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Final

__all__ = ["HIDDEN", "Folder", "NotInFolder"]

HIDDEN: Final = ".trueseam"
"""The folder in it in which what was done is kept."""

_PATTERNS: Final = (".dxf", ".json")

_DEEPEST: Final = 3
_MOST_FOLDERS: Final = 200
_MOST_FILES: Final = 500
"""How far down files are looked for, in how many folders, and how many are shown (our figures)."""


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
        return self._named(name, (".toml",))

    def pattern(self, name: object) -> Path:
        """The path of a pattern from elsewhere, a DXF or a pattern.json, be it there or not. Raises as `file`."""
        return self._named(name, _PATTERNS)

    def _named(self, name: object, endings: tuple[str, ...]) -> Path:
        if not isinstance(name, str) or not name.lower().endswith(endings) or not name.isprintable() or "\\" in name:
            raise NotInFolder
        path = self.path.joinpath(*name.split("/"))
        if not self.holds(path) or any(not part or part[0] == "." for part in name.split("/")):
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

    def patterns(self) -> tuple[str, ...]:
        """The names of the patterns from elsewhere: what a garment was drafted to, with its report, is none."""
        found = self._ending(_PATTERNS)
        return tuple(name for name in found if not (self.path / name).with_name("report.html").exists())

    def files(self) -> tuple[str, ...]:
        """The names of the TOML files in the folder and a little further down, in order."""
        return self._ending((".toml",))

    def _ending(self, endings: tuple[str, ...]) -> tuple[str, ...]:
        """The files of the folder with these endings, by name, as many and as deep as are looked at."""
        found: list[str] = []
        waiting = deque([(self.path, 1)])
        for _ in range(_MOST_FOLDERS):
            if not waiting:
                break
            place, depth = waiting.popleft()
            for entry in _entries(place):
                if entry.is_dir(follow_symlinks=False):
                    if depth < _DEEPEST:
                        waiting.append((Path(entry.path), depth + 1))
                elif entry.name.lower().endswith(endings) and (not entry.is_symlink() or self.holds(Path(entry.path))):
                    found.append(self.name_of(Path(entry.path)))
        return tuple(sorted(found[:_MOST_FILES]))


def _entries(place: Path) -> list[os.DirEntry[str]]:
    """What lies in a folder and is not hidden, in order; nothing where it cannot be read."""
    try:
        with os.scandir(place) as entries:
            seen = islice(entries, 4 * _MOST_FILES)
            return sorted((e for e in seen if e.name[0] != "." and e.name.isprintable()), key=lambda e: e.name)
    except OSError:
        return []
