"""Something done to a program at a moment of its writing: before any one of its calls of the system.

Python tells an audit hook of every file it opens, renames, makes or removes before it does so. The hook is set in a
child of this process (fork), which it can kill for good (SIGKILL), or let fail as a full disk or Ctrl-C would.
"""

from __future__ import annotations

import errno
import os
import signal
import sys
from collections.abc import Callable
from typing import Literal

Deed = Literal["kill", "full disk", "Ctrl-C"]

DONE, REFUSED, UNMET, STOPPED, ODD = 0, 2, 3, 130, 99

_OF_THE_DISK = ("open", "os.", "shutil.", "fcntl.", "ctypes.dl")


def done_to(work: Callable[[], object], deed: Deed, moment: int) -> int:
    """How a child ends that does the work and meets the deed before its n-th call, counted from one.

    -9 for a kill; REFUSED for a CannotWrite, STOPPED for a KeyboardInterrupt; DONE where the work was done all the
    same; UNMET where it needs fewer calls
    """
    child = os.fork()
    if child == 0:
        os._exit(_worked(work, deed, moment))
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _worked(work: Callable[[], object], deed: Deed, moment: int) -> int:
    from drafting.errors import CannotWrite

    calls = 0

    def hook(event: str, _given: object) -> None:
        nonlocal calls
        if not event.startswith(_OF_THE_DISK):
            return
        calls += 1
        if calls == moment:
            if deed == "kill":
                os.kill(os.getpid(), signal.SIGKILL)
            raise KeyboardInterrupt if deed == "Ctrl-C" else OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    sys.addaudithook(hook)
    try:
        work()
    except CannotWrite:
        return REFUSED
    except KeyboardInterrupt:
        return STOPPED
    except BaseException:
        return ODD
    return DONE if calls >= moment else UNMET
