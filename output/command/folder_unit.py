"""The unit that the files of the folder she works in are written in."""

from __future__ import annotations

import re
from itertools import chain, islice
from pathlib import Path
from typing import Final

from drafting.reading.units import FILE_UNITS

__all__ = ["folder_unit"]

_STATED: Final = re.compile(r'^\s*unit\s*=\s*["\'](\w+)["\']', re.MULTILINE)
_MOST_FILES: Final = 100
"""No more files than this are looked into (our figure)."""


def folder_unit(folder: Path) -> str | None:
    """The one unit that the files in a folder and in its `people` state; None where there is none, or are several."""
    stated = set[str]()
    for path in islice(chain(folder.glob("*.toml"), folder.glob("people/*.toml")), _MOST_FILES):
        try:
            stated.update(_STATED.findall(path.read_text(encoding="utf-8")))
        except (OSError, UnicodeDecodeError):
            continue  # a file that cannot be read states nothing
    return next(iter(stated)) if len(stated) == 1 and stated <= set(FILE_UNITS) else None
