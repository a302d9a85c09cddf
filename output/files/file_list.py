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
from contextlib import ExitStack
from pathlib import Path
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import TrueseamError
from drafting.reading.units import printable
from output.files.browser_leftovers import left_by_a_browser
from output.files.mounted_disks import mounts_at
from output.files.open_folder import OpenFolder, open_folder

__all__ = [
    "LISTED_IN",
    "PARTLY",
    "Listed",
    "NotOurs",
    "accept_names",
    "clear",
    "has_list",
    "list_of",
    "read_list",
    "strangers",
]

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

_WRITTEN_AT_MOST: Final = 500_000_000
"""Bytes. A sheet is a ten-thousandth of it; a larger file is not read to see whose it is."""


class NotOurs(TrueseamError):
    """A folder cannot be taken for one that trueseam wrote; `reason` says why, for a sentence about it."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(reason)


@dataclass(frozen=True, slots=True)
class _Held:
    """What stands in a folder beside its list: our files and the folders that hold them, each by the folder it lies in
    and its name, an outer folder before those in it; and what is not ours, in words.
    """

    files: tuple[tuple[OpenFolder, str], ...]
    folders: tuple[tuple[OpenFolder, str], ...]
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


def read_list(folder: OpenFolder) -> dict[str, str]:
    """What the list in a folder says was written there; nothing where there is no list.

    Raises NotOurs for a list that trueseam did not write, a list that is a link, and one that names a file outside the
    folder or any other that trueseam would not write. Raises OSError where it cannot be read.
    """
    try:
        about = folder.about(LISTED_IN)
    except FileNotFoundError:
        return {}
    unread = f"its {LISTED_IN} does not read as the list of what trueseam wrote there; choose another folder"
    if not stat.S_ISREG(about.st_mode) or about.st_size > _LARGEST:
        raise NotOurs(unread)
    try:
        read = json.loads(folder.content(LISTED_IN, most=_LARGEST))
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


def has_list(folder: Path) -> bool:
    """Whether a folder has a list that trueseam wrote."""
    try:
        with open_folder(folder) as held:
            return bool(read_list(held))
    except (NotOurs, OSError):
        return False


def strangers(folder: Path) -> str:
    """What stands in a folder and is not ours, as words for a sentence: '"notes.txt", "sheets" (a link)'; "" for none.

    No link is followed, and no folder opened but those that listed files lie in. Raises as `read_list` does.
    """
    with ExitStack() as kept:
        held = kept.enter_context(open_folder(folder))
        strange = _held(held, read_list(held), kept).strange
    more = f" and {len(strange) - _NAMED_AT_MOST} more" if len(strange) > _NAMED_AT_MOST else ""
    return f"{', '.join(strange[:_NAMED_AT_MOST])}{more}" if strange else ""


def clear(folder: Path) -> None:
    """Remove a folder that holds nothing but what its own list names, or a file that was being written.

    A kill at any moment leaves a folder that this can clear. Raises NotOurs, with nothing removed, for any other
    folder, and OSError where something cannot be removed. Every folder is held open from when it was looked at until
    what is in it is removed: what takes its place meanwhile is not touched.
    """
    if not stat.S_ISDIR(folder.lstat().st_mode):
        raise NotOurs(f'"{folder.name}" beside it is no folder of trueseam; move it away')
    with ExitStack() as kept:
        top = kept.enter_context(open_folder(folder))
        try:
            held = _held(top, read_list(top), kept, partly=True)
        except NotOurs as refused:
            raise NotOurs(f'"{folder.name}" beside it is not as trueseam left it ({refused.reason})') from None
        strange = held.strange or tuple(f'"{name}" (a disk of its own)' for name in mounts_at(folder))
        if strange:
            said = ", ".join(strange[:_NAMED_AT_MOST])
            raise NotOurs(f'"{folder.name}" beside it holds {said}, which trueseam did not write; move it away')
        for below, name in held.files:
            below.remove(name)
        for below, name in reversed(held.folders):
            below.remove_folder(name)
        # the list goes last: as long as there is anything else, it says whose
        top.remove(LISTED_IN)
    folder.rmdir()


def _held(top: OpenFolder, listed: Listed, kept: ExitStack, *, partly: bool = False) -> _Held:
    """What stands in a folder, and what of it is as its list says. Folders below are held open as long as `kept` is.

    partly: whether a file that was being written may stand there
    """
    holding = {above for name in listed for above in _above(name)}
    files: list[tuple[OpenFolder, str]] = []
    folders: list[tuple[OpenFolder, str]] = []
    strange: list[str] = []

    def look(folder: OpenFolder, before: str) -> None:
        """Note what lies in a folder: files of ours, folders that hold such, and what is strange to us."""
        for entry in folder.entries():
            name = before + entry.name
            if entry.is_symlink() or _is_junction(entry):
                strange.append(f'"{printable(name)}" (a link)')
            elif entry.is_dir(follow_symlinks=False) and name in holding:
                folders.append((folder, entry.name))
                look(kept.enter_context(folder.below(entry.name)), f"{name}/")
            elif name == LISTED_IN and entry.is_file(follow_symlinks=False):
                continue
            elif entry.is_file(follow_symlinks=False) and (
                left_by_a_browser(folder, entry.name)
                or (partly and name == PARTLY and (listed or _begun_list(folder)))
                or (name in listed and _digest(folder.content(entry.name, most=_WRITTEN_AT_MOST)) == listed[name])
            ):
                files.append((folder, entry.name))
            else:
                strange.append(f'"{printable(name)}"')

    look(top, "")
    return _Held(tuple(files), tuple(folders), tuple(strange))


def _begun_list(folder: OpenFolder) -> bool:
    """Whether the file that was being written, in a folder without a list, is a list, or the beginning of one."""
    begins = list_of({})[: -len(b"}\n}\n")]
    there = folder.content(PARTLY, most=_LARGEST)
    return begins.startswith(there) or there.startswith(begins)


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
