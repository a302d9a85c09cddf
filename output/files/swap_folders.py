"""Two folders change places, and one program at a time does so beside another folder."""

from __future__ import annotations

import errno
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

__all__ = ["AnotherAtWork", "alone_beside", "exchanged"]

_HERE: Final = -100  # AT_FDCWD: names are looked for from the current folder
_EXCHANGE: Final = 2  # RENAME_EXCHANGE of Linux, RENAME_SWAP of macOS
_NOT_TO_BE_HAD: Final = frozenset({errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EPERM})

_PATIENCE: Final = 30.0
"""Seconds: another run is done writing in a tenth of one."""

_PAUSE: Final = 0.02


class AnotherAtWork(OSError):
    """Another program holds the folder, and goes on holding it."""

    def __init__(self) -> None:
        super().__init__(errno.EBUSY, "another run of trueseam is writing there; try again when it is done")


def exchanged(one: Path, other: Path) -> bool:
    """Let two folders on one disk change places, at once for whoever looks; False, with nothing done, if that is not to
    be had.

    A kill finds them either as they were or changed over. Linux: `renameat2` with RENAME_EXCHANGE (rename(2): kernel
    3.15, glibc 2.28; not every file system has it). macOS: `renamex_np` with RENAME_SWAP (from memory, not tried).
    Raises OSError where it is there and fails.
    """
    from ctypes import CDLL, get_errno

    names = os.fsencode(one), os.fsencode(other)
    try:
        if sys.platform == "linux":
            failed = CDLL(None, use_errno=True).renameat2(_HERE, names[0], _HERE, names[1], _EXCHANGE)
        elif sys.platform == "darwin":
            failed = CDLL(None, use_errno=True).renamex_np(*names, _EXCHANGE)
        else:
            return False
    except AttributeError:  # a C library that does not know it
        return False
    number = get_errno()
    if failed and number not in _NOT_TO_BE_HAD:
        raise OSError(number, os.strerror(number), str(other))
    return not failed


@contextmanager
def alone_beside(folder: Path) -> Iterator[None]:
    """Keep every other run of trueseam from writing beside a folder for as long as this lasts.

    The lock is the system's on the folder around it, so a kill lifts it and nothing is left behind. Where there is
    none (Windows, some disks over a network) the work goes on without. Raises AnotherAtWork after half a minute.
    """
    held: int | None = None
    with suppress(OSError, ImportError):
        held = os.open(folder.parent, os.O_RDONLY)
    try:
        if held is not None:
            _lock(held)
        yield
    finally:
        if held is not None:
            os.close(held)


def _lock(held: int) -> None:
    """Take the lock on an open folder, and wait a moment for it; AnotherAtWork where another run keeps it."""
    try:
        from fcntl import LOCK_EX, LOCK_NB, flock
    except ImportError:
        return
    end = time.monotonic() + _PATIENCE
    while True:
        try:
            flock(held, LOCK_EX | LOCK_NB)
        except BlockingIOError:
            if time.monotonic() > end:
                raise AnotherAtWork from None
            time.sleep(_PAUSE)
        except OSError:  # a disk that has no locks
            return
        else:
            return
