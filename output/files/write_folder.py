"""The one module that opens files for writing: a whole folder, or nothing.

Everything is rendered before anything is written. The new contents go to a folder of their own beside the old one;
when all of it is on the disk the two change places at once (`swap_folders.py`), and then the old one is removed. So
a kill at any moment leaves the old result or the new one, whole, and at most a hidden folder beside it, which the next
run clears. Where two folders cannot change places at once, the old one is moved aside and the new one in: a kill
between those two leaves the old result aside, and the next run puts it back first.

A small list in the folder, `trueseam-files.json`, says what was written (`file_list.py`), so that a later run
knows its own files from a person's. A folder with anything else in it is left alone. What a loss of power leaves is
for the disk to say: contents are not forced out of its cache.
"""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import CannotWrite
from drafting.reading.units import printable
from output.files.file_list import LISTED_IN, PARTLY, NotOurs, accept_names, clear, has_list, list_of, strangers
from output.files.mounted_disks import mounts_at
from output.files.open_folder import OpenFolder, open_folder
from output.files.swap_folders import alone_beside, exchanged

__all__ = ["LISTED_IN", "stage", "write_all", "write_new"]

_WORKED_IN: Final = re.compile(r"\.trueseam-.*\.(new|old)", re.DOTALL | re.IGNORECASE)
"""The names of the folders that are worked in beside another."""


def _no_sentence(_sentence: str) -> None:
    """Nobody is told."""


def write_all(folder: Path, files: Mapping[str, bytes], tell: Callable[[str], None] = _no_sentence) -> tuple[Path, ...]:
    """Write all files to a folder, or none of them; the paths written, in the given order.

    files: contents by name; a name may lead into a folder below ("sheets/1.svg")
    tell:  is called with a sentence, and where, if the old contents cannot be removed once the new ones stand there

    The folder is made where it is missing. Files of an earlier run that are not in `files` are removed with it. Raises
    CannotWrite, with everything as it was, when the folder cannot be made or replaced, the disk is full, or it holds
    anything that was not written here or was changed since. Raises ValueError for a name that leads out of the folder,
    or names that one folder cannot hold together.
    """
    accept_names(files)
    place = _Place(Path(os.path.realpath(folder)))
    try:
        with _parents_made(place.target), alone_beside(place.target):
            place.accept()  # alone: another run may have the folder aside for a moment
            place.settle()
            try:
                place.refuse_strangers()
                place.stage(files)
                place.change_over(tell)
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


def stage(path: Path, content: bytes) -> Callable[[], None]:
    """Put what is to stand in a file beside it, on the disk; gives what moves it there, in one step, over the old one.

    Raises CannotWrite, with everything as it was; so does what it gives.
    """
    path = Path(os.path.realpath(path))  # where a link leads: the link stays
    new = path.with_name(f".{path.name}.new")
    try:
        # what has the name is what a killed run left, or was put there: it is taken away, never written through
        new.unlink(missing_ok=True)
        with new.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            shutil.copymode(path, new)
    except BaseException as error:
        with suppress(OSError):
            new.unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise CannotWrite(str(path), _why(error)) from error
        raise

    def move() -> None:
        try:
            new.replace(path)
        except OSError as error:
            raise CannotWrite(str(path), _why(error)) from error
        _name_on_disk(path.parent)

    return move


def _name_on_disk(folder: Path) -> None:
    """Put the names of a folder on the disk, where the system can: else a loss of power may bring the old file back."""
    with suppress(OSError):
        at = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(at)
        finally:
            os.close(at)


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
        """Raise NotOurs for what can never be replaced as a whole, or has a name that is kept for what is."""
        if any(_WORKED_IN.fullmatch(part) for part in self.target.parts):
            raise NotOurs("folders called .trueseam-... are worked in and cleared; choose another name")
        if not os.path.lexists(self.target):
            return
        if not self.target.is_dir():
            raise NotOurs("it is not a folder")
        inside = "it is replaced as a whole; name a folder in it"
        for mounted in mounts_at(self.target):
            if not mounted:
                raise NotOurs(f"it is a disk of its own, and {inside}")
            raise NotOurs(f'"{printable(mounted)}" in it is a disk of its own; choose another folder')
        with suppress(FileNotFoundError):
            if Path.cwd().is_relative_to(self.target):
                raise NotOurs(f"you are in it just now, and {inside}, or go up to the folder it lies in")
        if not os.access(self.target, os.W_OK | os.X_OK):
            raise NotOurs("permission denied")

    def settle(self) -> None:
        """Put right what a run left that was killed: what was moved aside goes back, what was gathered is cleared."""
        if not os.path.lexists(self.target) and has_list(self.old):
            os.rename(self.old, self.target)
        for left in (self.new, self.old):
            if os.path.lexists(left):
                try:
                    clear(left)
                except OSError as error:
                    reason = f'"{left}", left by an earlier run, stands in the way and cannot be removed'
                    raise NotOurs(f"{reason} ({_why(error)}); remove it and try again") from error

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
        with ExitStack() as kept:
            top = kept.enter_context(open_folder(self.new))
            if self.target.is_dir():
                top.open_as(self.target)
            below: dict[str, OpenFolder] = {"": top}
            for name, content in {LISTED_IN: list_of(files), **files}.items():
                above, _, last = name.rpartition("/")
                top.write(PARTLY, content)
                top.move(PARTLY, _made(above, below, kept), last)

    def change_over(self, tell: Callable[[str], None]) -> None:
        """The new folder in the place of the old one, and the old one removed; `tell` hears if it cannot be.

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
        except OSError as error:
            # the new one is in its place: what is left of the old one is for the next run to clear
            tell(
                f'The new files stand in "{self.target}". Some of the old ones cannot be removed ({_why(error)}); they '
                f'are in "{left}": remove it, or the next run, which tries again, may not be able to write there.'
            )

    def _in_two(self) -> None:
        """The old folder aside, then the new one in."""
        try:
            os.rename(self.target, self.old)
            os.rename(self.new, self.target)
        except BaseException:
            if not os.path.lexists(self.target):
                os.rename(self.old, self.target)
            raise


def _made(name: str, below: dict[str, OpenFolder], kept: ExitStack) -> OpenFolder:
    """A folder below the one that is called "" in `below`, made and held open where it is not yet."""
    if name not in below:
        above, _, last = name.rpartition("/")
        into = _made(above, below, kept)
        into.make_folder(last)
        below[name] = kept.enter_context(into.below(last))
    return below[name]


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
