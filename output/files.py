"""The one module that opens files for writing.

Everything is rendered before anything is written. New contents go to temporary files beside their targets; only
when all of them are on the disk are they renamed into place, and if a rename fails every earlier one is taken back.
A small list in the folder, `trueseam-files.json`, holds what was written and its SHA-256, so that a later run knows
its own files from a person's, and removes the sheets it no longer needs.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from drafting.errors import CannotWrite

__all__ = ["LISTED_IN", "write_all"]

LISTED_IN = "trueseam-files.json"
"""The name of the list of what was written to a folder."""

_FORMAT = "trueseam files"
_NAMED_AT_MOST = 5


def write_all(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write all files to a folder, or none of them; the paths written, in the given order.

    files: contents by name; a name may lead into a folder below ("sheets/1.svg")

    The folder is made where it is missing. Files of an earlier run that are not in `files` are removed, unless
    someone has changed them since. Raises CannotWrite, with everything as it was, when the folder cannot be made or
    written, the disk is full, or a file stands in the way that was not written here or was changed since.
    Raises ValueError for a name that leads out of the folder, or names that one folder cannot hold together.
    """
    _accept_names(files)
    listed = _listed(folder)
    _refuse_strangers(folder, files, listed)
    stale = [folder / name for name, digest in listed.items() if name not in files and _is_ours(folder / name, digest)]
    contents = {**files, LISTED_IN: _list_of(files)}
    try:
        with _all_or_nothing() as work:
            for name, content in contents.items():
                work.prepare(folder / name, content)
            work.put_in_place(stale)
    except OSError as error:
        raise CannotWrite(str(folder), _why(error)) from error
    _drop_empty(folder, stale)
    return tuple(folder / name for name in files)


@dataclass(slots=True)
class _Work:
    """What has been done so far, so that it can be taken back."""

    ready: list[tuple[Path, Path]] = field(default_factory=list)  # (target, its new content)
    kept: list[tuple[Path, Path]] = field(default_factory=list)  # (target, its old content)
    changed: list[Path] = field(default_factory=list)
    made: list[Path] = field(default_factory=list)

    def prepare(self, target: Path, content: bytes) -> None:
        """Put the new content on the disk beside its target."""
        self._make_folder(target.parent)
        handle, name = tempfile.mkstemp(prefix=".trueseam-", suffix=".new", dir=target.parent)
        self.ready.append((target, Path(name)))
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(name).chmod(0o644)

    def put_in_place(self, stale: Iterable[Path]) -> None:
        """Keep what stands there, rename the new contents over it, remove what is no longer wanted."""
        gone = list(stale)
        for target in [*(target for target, _ in self.ready), *gone]:
            if target.exists():
                self._keep(target)
        for target, new in self.ready:
            os.replace(new, target)
            self.changed.append(target)
        for target in gone:
            target.unlink()
            self.changed.append(target)

    def take_back(self) -> None:
        """Everything as it was before. What cannot be put back stays beside its target, under its temporary name."""
        old = dict(self.kept)
        for target in self.changed:
            try:
                if target in old:
                    os.replace(old[target], target)
                else:
                    target.unlink(missing_ok=True)
            except OSError:
                self.kept = [pair for pair in self.kept if pair[0] != target]

    def tidy(self) -> None:
        """Remove what was only there for the work."""
        for _, path in (*self.ready, *self.kept):
            with suppress(OSError):
                path.unlink(missing_ok=True)

    def _keep(self, target: Path) -> None:
        handle, name = tempfile.mkstemp(prefix=".trueseam-", suffix=".old", dir=target.parent)
        os.close(handle)
        spare = Path(name)
        try:
            shutil.copy2(target, spare)
        except BaseException:
            spare.unlink(missing_ok=True)
            raise
        self.kept.append((target, spare))

    def _make_folder(self, folder: Path) -> None:
        missing = [folder] if not folder.exists() else []
        while missing and not missing[-1].parent.exists():
            missing.append(missing[-1].parent)
        for path in reversed(missing):
            path.mkdir()
            self.made.append(path)
        if not folder.is_dir():
            raise NotADirectoryError(20, "it is not a folder", str(folder))


@contextmanager
def _all_or_nothing() -> Iterator[_Work]:
    work = _Work()
    try:
        yield work
    except BaseException:
        work.take_back()
        work.tidy()
        for path in reversed(work.made):
            with suppress(OSError):
                path.rmdir()
        raise
    work.tidy()


def _accept_names(files: Mapping[str, bytes]) -> None:
    for name in files:
        path = PurePosixPath(name)
        plain = str(path) == name and not path.is_absolute() and ".." not in path.parts and "\\" not in name
        if not plain or name in (".", LISTED_IN):
            raise ValueError(f"{name!r} is not a name for a file to write")
    # two names that differ in capitals only are one file on many disks
    if len({name.casefold() for name in files}) != len(files):
        raise ValueError("two files have one name")


def _listed(folder: Path) -> dict[str, str]:
    """What an earlier run wrote here: the digest by name."""
    path = folder / LISTED_IN
    try:
        read = json.loads(path.read_bytes())
        listed = read["files"]
        if read["format"] != _FORMAT or not all(isinstance(digest, str) for digest in listed.values()):
            raise ValueError(path)
        return {name: digest for name, digest in listed.items() if ".." not in PurePosixPath(name).parts}
    except (FileNotFoundError, NotADirectoryError):
        return {}
    except OSError as error:
        raise CannotWrite(str(folder), _why(error)) from error
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        reason = f"its {LISTED_IN} does not read as the list of what trueseam wrote there; choose another folder"
        raise CannotWrite(str(folder), reason) from error


def _list_of(files: Mapping[str, bytes]) -> bytes:
    digests = {name: hashlib.sha256(content).hexdigest() for name, content in sorted(files.items())}
    return (json.dumps({"format": _FORMAT, "version": 1, "files": digests}, indent=1) + "\n").encode()


def _refuse_strangers(folder: Path, files: Mapping[str, bytes], listed: Mapping[str, str]) -> None:
    """Raise CannotWrite naming the files that stand in the way and are not ours."""
    strangers = []
    for name, content in files.items():
        target = folder / name
        ours = (listed.get(name), hashlib.sha256(content).hexdigest())
        if os.path.lexists(target) and not any(digest and _is_ours(target, digest) for digest in ours):
            strangers.append(name)
    if strangers:
        named = ", ".join(f'"{name}"' for name in strangers[:_NAMED_AT_MOST])
        more = f" and {len(strangers) - _NAMED_AT_MOST} more" if len(strangers) > _NAMED_AT_MOST else ""
        raise CannotWrite(
            str(folder),
            f"{named}{more} in it were not written by trueseam, or were changed since; "
            "move them away or choose another folder",
        )


def _is_ours(path: Path, digest: str) -> bool:
    try:
        return path.is_file() and hashlib.sha256(path.read_bytes()).hexdigest() == digest
    except OSError:
        return False


def _drop_empty(folder: Path, stale: Iterable[Path]) -> None:
    """Remove the folders that held nothing but what was removed."""
    for parent in {path.parent for path in stale} - {folder}:
        with suppress(OSError):
            parent.rmdir()


def _why(error: OSError) -> str:
    reason = error.strerror or str(error) or type(error).__name__
    return reason[0].lower() + reason[1:]
