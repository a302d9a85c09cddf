"""The files of a garment: its own, its wearer's, and those that it follows."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from output.page.folder import Folder
from output.page.texts import read_text, tables_of
from output.page.undo_log import hash_of

__all__ = ["Files", "read_files", "version_of"]

_DEEPEST: Final = 10
"""So many files that each follow another are read (our figure)."""


@dataclass(frozen=True, slots=True)
class Files:
    """The two files that a garment is changed in, and those that it is made of besides: names in the folder, texts.

    person:   "" where its wearer has no file in the folder: a garment made in the sizes of a chart
    followed: the texts of the files that it is like, and of the chart of its sizes; they are never written
    """

    garment: str
    person: str
    texts: Mapping[str, str]
    followed: Mapping[str, str] = field(default_factory=dict)

    @property
    def garment_text(self) -> str:
        """What stands in the garment's file."""
        return self.texts[self.garment]

    @property
    def person_text(self) -> str:
        """What stands in the file of its wearer."""
        return self.texts.get(self.person, "")


def version_of(files: Files) -> str:
    """A short name for all texts: the hash of each of the two that are changed, then of what is followed."""
    followed = [hash_of("".join(files.followed.values()))] if files.followed else []
    return ".".join([*map(hash_of, files.texts.values()), *followed])


def read_files(folder: Folder, name: str) -> Files:
    """The files of a garment by its name in the folder. Raises NotInFolder, OSError, NoText."""
    texts = {name: read_text(folder.file(name))}
    followed = dict(_followed(folder, name, texts[name], _DEEPEST))
    person = ""
    for file, text in (texts | followed).items():  # the nearest file that says whose it is, or that it is a chart's
        tables = tables_of(text) or {}
        if "sizes" in tables:
            break
        if "wearer" in tables:
            person = _beside(folder, file, tables["wearer"])
            break
    if person:
        texts[person] = read_text(folder.file(person))
    return Files(name, person, texts, followed)


def _followed(folder: Folder, name: str, text: str, deep: int) -> Iterator[tuple[str, str]]:
    """Each file that a garment's file is like, the nearest first, and the chart of its sizes, with their texts."""
    tables = tables_of(text) or {}
    sizes: Any = tables.get("sizes")
    for named in (tables.get("like"), sizes.get("chart") if isinstance(sizes, Mapping) else None):
        other = _beside(folder, name, named)
        if not other or deep == 0:
            continue
        try:
            there = read_text(folder.file(other))
        except (OSError, ValueError):
            continue
        yield other, there
        yield from _followed(folder, other, there, deep - 1)


def _beside(folder: Folder, name: str, named: object) -> str:
    """The name in the folder of a file that another file names from where it lies; "" for none that is there."""
    if not isinstance(named, str) or not named.endswith(".toml"):
        return ""
    path = Path(os.path.normpath((folder.path / name).parent / named))
    return folder.name_of(path) if folder.holds(path) and path.is_file() else ""
