"""The one module that opens files for writing: a whole folder, or nothing.

Everything is rendered before anything is written. The new contents go to a folder of their own beside the old one;
when all of it is on the disk the two change places at once (`output/exchange.py`), and then the old one is removed. So
a kill at any moment leaves the old result or the new one, whole, and at most a hidden folder beside it, which the next
run clears. Where two folders cannot change places at once, the old one is moved aside and the new one in: a kill
between those two leaves the old result aside, and the next run puts it back first.

A small list in the folder, `trueseam-files.json`, says what was written (`output/written.py`), so that a later run
knows its own files from a person's. A folder with anything else in it is left alone. What a loss of power leaves is
for the disk to say: contents are not forced out of its cache.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from drafting.errors import CannotWrite
from output.exchange import alone_beside, exchanged
from output.written import LISTED_IN, PARTLY, NotOurs, accept_names, clear, list_of, strangers

__all__ = ["LISTED_IN", "write_all", "write_new"]


def write_all(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write all files to a folder, or none of them; the paths written, in the given order.

    files: contents by name; a name may lead into a folder below ("sheets/1.svg")

    The folder is made where it is missing. Files of an earlier run that are not in `files` are removed with it. Raises
    CannotWrite, with everything as it was, when the folder cannot be made or replaced, the disk is full, or it holds
    anything that was not written here or was changed since. Raises ValueError for a name that leads out of the folder,
    or names that one folder cannot hold together.
    """
    accept_names(files)
    place = _Place(Path(os.path.realpath(folder)))
    try:
        place.accept()
        with _parents_made(place.target), alone_beside(place.target):
            place.settle()
            try:
                place.refuse_strangers()
                place.stage(files)
                place.change_over()
            except BaseException:
                with suppress(NotOurs, OSError):
                    place.settle()
                raise
    except NotOurs as refused:
        raise CannotWrite(str(folder), refused.reason) from refused
    except OSError as error:
        raise CannotWrite(str(folder), _why(error)) from error
    return tuple(folder / name for name in files)


def write_new(path: Path, content: bytes) -> None:
    """Write one file that is not there yet. Raises CannotWrite, leaving no file behind, where it is or cannot be."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        file = path.open("xb")
    except FileExistsError:
        raise CannotWrite(str(path), "a file of that name is there already") from None
    except OSError as error:
        raise CannotWrite(str(path), _why(error)) from error
    try:
        with file:
            file.write(content)
    except BaseException as error:
        path.unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise CannotWrite(str(path), _why(error)) from error
        raise


@dataclass(frozen=True, slots=True)
class _Place:
    """A folder that is replaced as a whole, and the two names beside it that this takes."""

    target: Path

    @property
    def new(self) -> Path:
        """Where the new contents are gathered; where the old ones are once both have changed places."""
        return self.target.with_name(f".trueseam-{self.target.name}.new")

    @property
    def old(self) -> Path:
        """Where the old contents are while the new ones are moved in, if both cannot change places at once."""
        return self.target.with_name(f".trueseam-{self.target.name}.old")

    def accept(self) -> None:
        """Raise NotOurs for what can never be replaced as a whole."""
        if not os.path.lexists(self.target):
            return
        if not self.target.is_dir():
            raise NotOurs("it is not a folder")
        inside = "it is replaced as a whole; name a folder in it"
        if os.path.ismount(self.target):
            raise NotOurs(f"it is a disk of its own, and {inside}")
        with suppress(FileNotFoundError):
            if Path.cwd().is_relative_to(self.target):
                raise NotOurs(f"you are in it just now, and {inside}, or go up to the folder it lies in")
        if not os.access(self.target, os.W_OK | os.X_OK):
            raise NotOurs("permission denied")

    def settle(self) -> None:
        """Put right what a run left that was killed: what was moved aside goes back, what was gathered is cleared."""
        if os.path.lexists(self.old) and not os.path.lexists(self.target) and not self.old.is_symlink():
            os.rename(self.old, self.target)
        for left in (self.new, self.old):
            if os.path.lexists(left):
                clear(left)

    def refuse_strangers(self) -> None:
        """Raise NotOurs naming what is in the folder and is not ours."""
        if not os.path.lexists(self.target):
            return
        found = strangers(self.target)
        if found:
            raise NotOurs(
                f"{found} in it were not written by trueseam, or were changed since; "
                "move them away or choose another folder"
            )

    def stage(self, files: Mapping[str, bytes]) -> None:
        """Write all contents to the new folder; the list first, so that what stands there is known for ours."""
        self.new.mkdir()
        if self.target.is_dir():
            shutil.copymode(self.target, self.new)
        for name, content in {LISTED_IN: list_of(files), **files}.items():
            path = self.new / name
            path.parent.mkdir(parents=True, exist_ok=True)
            part = self.new / PARTLY
            with part.open("xb") as file:
                file.write(content)
            os.rename(part, path)

    def change_over(self) -> None:
        """The new folder in the place of the old one, and the old one removed.

        Raises NotOurs, with the old one back in its place, for what someone put there while the new one was written.
        """
        if not os.path.lexists(self.target):
            os.rename(self.new, self.target)
            return
        at_once = exchanged(self.new, self.target)
        if not at_once:
            self._in_two()
        left = self.new if at_once else self.old
        try:
            clear(left)
        except NotOurs:
            if at_once:
                exchanged(self.new, self.target)
            else:
                os.rename(self.target, self.new)
                os.rename(self.old, self.target)
            raise
        except OSError:
            pass  # the new one is in its place: what is left of the old one is cleared by the next run

    def _in_two(self) -> None:
        """The old folder aside, then the new one in."""
        try:
            os.rename(self.target, self.old)
            os.rename(self.new, self.target)
        except BaseException:
            if not os.path.lexists(self.target):
                os.rename(self.old, self.target)
            raise


@contextmanager
def _parents_made(folder: Path) -> Iterator[None]:
    """The folders above a folder, made where they are missing, and removed again if what follows fails."""
    missing = [above for above in folder.parents if not os.path.lexists(above)]
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        yield
    except BaseException:
        for path in missing:
            with suppress(OSError):
                path.rmdir()
        raise


def _why(error: OSError) -> str:
    reason = error.strerror or str(error) or type(error).__name__
    return reason[0].lower() + reason[1:]
