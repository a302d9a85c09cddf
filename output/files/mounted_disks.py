"""Disks that are mounted below a folder: what the system would not let go in the middle of changing places."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Final

__all__ = ["mounts_at"]

_TABLE: Final = Path("/proc/self/mountinfo")
"""Linux: a line to each mount, its place the fifth word, blanks and the like in octal (proc_pid_mountinfo(5))."""


def mounts_at(folder: Path, *, table: Path = _TABLE) -> tuple[str, ...]:
    """The places of what is mounted at a folder or below it, "" for the folder itself; also a folder or a file of the
    same disk. Where the system has no such table only the folder itself is looked at.
    """
    try:
        lines = os.fsdecode(table.read_bytes()).splitlines()
    except OSError:
        return ("",) if os.path.ismount(folder) else ()
    places = [Path(re.sub(r"\\([0-7]{3})", _letter, words[4])) for line in lines if len(words := line.split(" ")) > 4]
    found = {str(place.relative_to(folder)) for place in places if place.is_relative_to(folder)}
    return tuple(sorted("" if name == "." else name for name in found))


def _letter(written: re.Match[str]) -> str:
    return chr(int(written[1], 8))
