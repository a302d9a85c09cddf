"""A folder that is held open: what is named in it is found through it, whatever stands at its path by then.

A path is looked up again each time it is used, so a folder on the way may have been moved aside and a link put in its
place. Through a descriptor the system finds the folder that was opened (openat(2) and its kin), and no link is ever
followed. Where there is none (Windows), names are found by their paths.
"""

from __future__ import annotations

import os
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from drafting.dataclass import dataclass

__all__ = ["OpenFolder", "open_folder"]

_TO_BE_HAD: Final = (
    hasattr(os, "O_DIRECTORY")
    and hasattr(os, "O_NOFOLLOW")
    and {os.open, os.mkdir, os.rename, os.unlink, os.rmdir, os.stat} <= os.supports_dir_fd
    and os.scandir in os.supports_fd
)

_AS_IT_STANDS: Final = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""No link followed, no waiting for a pipe, no letter turned."""


@dataclass(frozen=True, slots=True)
class OpenFolder:
    """A folder; every method raises OSError where the system refuses.

    path: where it was when it was opened, for the eye; the way to what is in it where `at` is None
    at:   its descriptor
    """

    path: Path
    at: int | None

    @contextmanager
    def below(self, name: str) -> Iterator[OpenFolder]:
        """A folder in it, held open; a link is refused."""
        with _opened(self._named(name), self.path / name, self.at) as folder:
            yield folder

    def about(self, name: str) -> os.stat_result:
        """What the system says about what has this name, a link itself."""
        return os.stat(self._named(name), dir_fd=self.at, follow_symlinks=False)

    def entries(self) -> list[os.DirEntry[str]]:
        """What is in it, by name."""
        with os.scandir(self.path if self.at is None else self.at) as there:
            return sorted(there, key=lambda entry: entry.name)

    def content(self, name: str, *, most: int) -> bytes:
        """The first bytes of a plain file, up to `most`. Raises OSError for anything else, a link too."""
        number = os.open(self._named(name), os.O_RDONLY | _AS_IT_STANDS, dir_fd=self.at)
        with os.fdopen(number, "rb") as file:
            if not stat.S_ISREG(os.fstat(number).st_mode):
                raise OSError(f"{name} is no plain file")
            return file.read(most)

    def make_folder(self, name: str) -> None:
        """Make a folder in it, unless there is one."""
        try:
            os.mkdir(self._named(name), dir_fd=self.at)
        except FileExistsError:
            if not stat.S_ISDIR(self.about(name).st_mode):
                raise

    def write(self, name: str, content: bytes) -> None:
        """A new file. Raises FileExistsError where anything has its name."""
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _AS_IT_STANDS
        with os.fdopen(os.open(self._named(name), flags, 0o666, dir_fd=self.at), "wb") as file:
            file.write(content)

    def move(self, name: str, into: OpenFolder, new: str) -> None:
        """Move a file of it to a folder in which nothing has its new name."""
        try:
            into.about(new)
        except FileNotFoundError:
            os.rename(self._named(name), into._named(new), src_dir_fd=self.at, dst_dir_fd=into.at)
        else:
            raise FileExistsError(f"there is a {new} by now")

    def remove(self, name: str) -> None:
        """Remove a file of it, if there is one; of a link, the link."""
        with suppress(FileNotFoundError):
            os.unlink(self._named(name), dir_fd=self.at)

    def remove_folder(self, name: str) -> None:
        """Remove an empty folder of it."""
        os.rmdir(self._named(name), dir_fd=self.at)

    def open_as(self, other: Path) -> None:
        """Let those look into it who may look into another folder."""
        if self.at is None:
            shutil.copymode(other, self.path)
        else:
            os.chmod(self.at, stat.S_IMODE(other.stat().st_mode))

    def _named(self, name: str) -> str:
        return str(self.path / name) if self.at is None else name


@contextmanager
def open_folder(folder: Path) -> Iterator[OpenFolder]:
    """A folder, held open. Raises OSError where it is none, or a link."""
    with _opened(str(folder), folder, None) as opened:
        yield opened


@contextmanager
def _opened(name: str, path: Path, at: int | None) -> Iterator[OpenFolder]:
    if not _TO_BE_HAD:
        if path.is_symlink() or not path.is_dir():
            raise NotADirectoryError(f"{path.name} is no folder")
        yield OpenFolder(path, None)
        return
    number = os.open(name, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW, dir_fd=at)
    try:
        yield OpenFolder(path, number)
    finally:
        os.close(number)
