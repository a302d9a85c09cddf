"""What trueseam wrote to a folder: the list it keeps there, and what else stands in it.

Nothing is ever removed but a plain file whose name is in the list and whose content is what the list says.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import stat
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from drafting.errors import TrueseamError
from drafting.reading.units import printable

__all__ = ["LISTED_IN", "PARTLY", "Listed", "NotOurs", "accept_names", "clear", "list_of", "read_list", "strangers"]

LISTED_IN: Final = "trueseam-files.json"
"""The name of the list of what was written to a folder."""

PARTLY: Final = ".partly-written"
"""The name a file has until all of it is on the disk."""

Listed = Mapping[str, str]
"""SHA-256 by the name of a file, `/` between the folders in it."""

_FORMAT: Final = "trueseam files"
_VERSION: Final = 1
_LARGEST: Final = 4_000_000  # bytes: a list of a hundred sheets is a four-hundredth of it
_NAMED_AT_MOST: Final = 5

# Every name that is written here: letters, digits, - and _, with an ending. So none is absolute, leads up, is hidden,
# names a drive or a device, or looks like another.
_PART: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9]+)*")
_LONGEST: Final = 200
_DEEPEST: Final = 4

_JUNCTION: Final = 0xA0000003

_OF_THE_DESK: Final = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})
"""What a file browser leaves in a folder that was looked into: nobody's work."""


class NotOurs(TrueseamError):
    """A folder cannot be taken for one that trueseam wrote; `reason` says why, for a sentence about it."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(reason)


@dataclass(frozen=True, slots=True)
class _Held:
    """What stands in a folder beside its list: our files, the folders below that hold them, and what is not ours."""

    files: tuple[Path, ...]
    folders: tuple[Path, ...]
    strange: tuple[str, ...]


def accept_names(names: Iterable[str]) -> None:
    """Raise ValueError for a name that trueseam does not write, or names that one folder cannot hold together."""
    seen: set[str] = set()
    for name in names:
        if not _plain(name):
            raise ValueError(f"{name!r} is not a name for a file to write")
        # two names that differ in capitals only are one file on many disks
        if name.casefold() in seen:
            raise ValueError(f"{name!r}: two files have one name")
        seen.add(name.casefold())
    for name in seen:
        if any(above in seen for above in _above(name)):
            raise ValueError(f"{name!r} is not a name for a file to write: it would lie in another")


def list_of(files: Mapping[str, bytes]) -> bytes:
    """The list of these files, as it is written."""
    digests = {name: _digest(content) for name, content in sorted(files.items())}
    return (json.dumps({"format": _FORMAT, "version": _VERSION, "files": digests}, indent=1) + "\n").encode()


def read_list(folder: Path) -> dict[str, str]:
    """What the list in a folder says was written there; nothing where there is no list.

    Raises NotOurs for a list that trueseam did not write, a list that is a link, and one that names a file outside the
    folder or any other that trueseam would not write. Raises OSError where it cannot be read.
    """
    path = folder / LISTED_IN
    try:
        about = path.lstat()
    except FileNotFoundError:
        return {}
    unread = f"its {LISTED_IN} does not read as the list of what trueseam wrote there; choose another folder"
    if not stat.S_ISREG(about.st_mode) or about.st_size > _LARGEST:
        raise NotOurs(unread)
    try:
        read = json.loads(path.read_bytes())
        listed = dict(read["files"])
        digests = all(isinstance(digest, str) and re.fullmatch(r"[0-9a-f]{64}", digest) for digest in listed.values())
        if read["format"] != _FORMAT or read["version"] != _VERSION or not digests:
            raise NotOurs(unread)
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        raise NotOurs(unread) from None
    odd = next((name for name in listed if not _plain(name)), None)
    if odd is not None:
        named = printable(odd, most=80)
        raise NotOurs(f'its {LISTED_IN} names "{named}", which trueseam would not write there; choose another folder')
    try:
        accept_names(listed)
    except ValueError:
        raise NotOurs(unread) from None
    return listed


def strangers(folder: Path) -> str:
    """What stands in a folder and is not ours, as words for a sentence: '"notes.txt", "sheets" (a link)'; "" for none.

    No link is followed, and no folder opened but those that listed files lie in. Raises as `read_list` does.
    """
    strange = _held(folder, read_list(folder)).strange
    more = f" and {len(strange) - _NAMED_AT_MOST} more" if len(strange) > _NAMED_AT_MOST else ""
    return f"{', '.join(strange[:_NAMED_AT_MOST])}{more}" if strange else ""


def clear(folder: Path) -> None:
    """Remove a folder that holds nothing but what its own list names, or a file that was being written.

    A kill at any moment leaves a folder that this can clear. Raises NotOurs, with nothing removed, for any other
    folder, and OSError where something cannot be removed.
    """
    if not stat.S_ISDIR(folder.lstat().st_mode):
        raise NotOurs(f'"{folder.name}" beside it is no folder of trueseam; move it away')
    try:
        held = _held(folder, read_list(folder), partly=True)
    except NotOurs as refused:
        raise NotOurs(f'"{folder.name}" beside it is not as trueseam left it ({refused.reason})') from None
    if held.strange:
        said = ", ".join(held.strange[:_NAMED_AT_MOST])
        raise NotOurs(f'"{folder.name}" beside it holds {said}, which trueseam did not write; move it away')
    for path in held.files:
        path.unlink(missing_ok=True)
    for path in sorted(held.folders, key=lambda path: -len(path.parts)):
        path.rmdir()
    # the list goes last: as long as there is anything else, it says whose
    (folder / LISTED_IN).unlink(missing_ok=True)
    folder.rmdir()


def _held(folder: Path, listed: Listed, *, partly: bool = False) -> _Held:
    """What stands in a folder, and what of it is as its list says.

    partly: whether a file that was being written may stand there
    """
    holding = {above for name in listed for above in _above(name)}
    files: list[Path] = []
    folders: list[Path] = []
    strange: list[str] = []
    for name, entry in _entries(folder, holding):
        path = folder / name
        if entry.is_symlink() or _is_junction(entry):
            strange.append(f'"{printable(name)}" (a link)')
        elif entry.is_dir(follow_symlinks=False):
            if name in holding:
                folders.append(path)
            else:
                strange.append(f'"{printable(name)}"')
        elif name == LISTED_IN:
            continue
        elif entry.is_file(follow_symlinks=False) and (
            entry.name in _OF_THE_DESK
            or (partly and name == PARTLY)
            or (name in listed and _digest(path.read_bytes()) == listed[name])
        ):
            files.append(path)
        else:
            strange.append(f'"{printable(name)}"')
    return _Held(tuple(files), tuple(folders), tuple(strange))


def _entries(folder: Path, holding: set[str], below: str = "") -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Everything in a folder by its name, and in those folders below it that are named."""
    with os.scandir(folder) as there:
        for entry in sorted(there, key=lambda entry: entry.name):
            name = below + entry.name
            yield name, entry
            if name in holding and entry.is_dir(follow_symlinks=False) and not _is_junction(entry):
                yield from _entries(folder / entry.name, holding, f"{name}/")


def _is_junction(entry: os.DirEntry[str]) -> bool:
    """Whether it is what Windows has for a link to a folder (its IO_REPARSE_TAG_MOUNT_POINT)."""
    return getattr(entry.stat(follow_symlinks=False), "st_reparse_tag", 0) == _JUNCTION


def _above(name: str) -> Iterator[str]:
    """The folders that a name leads through: "a" and "a/b" for "a/b/c"."""
    parts = name.split("/")
    return ("/".join(parts[:count]) for count in range(1, len(parts)))


def _plain(name: str) -> bool:
    """Whether a name is one of the kind that trueseam writes."""
    parts = name.split("/")
    short = len(name) <= _LONGEST and len(parts) <= _DEEPEST
    return short and name != LISTED_IN and all(_PART.fullmatch(part) for part in parts)


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
