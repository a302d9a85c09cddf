"""The command: `trueseam draft`, `check`, `measure` and `list`. The one place that joins blocks and writers.

Exit status: 0 all checks pass (warnings allowed), 1 some check failed (the files are written, and the failure stands
on the first sheet), 2 the input cannot be used (nothing is written), 3 a fault of ours, 130 stopped by the person.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from output.version import VERSION

__all__ = ["main"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what the words of a command line ask for; the exit status. Never raises."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    if words == ["--version"]:
        print(f"trueseam {VERSION}")  # before anything heavy is imported
        return 0
    from output.command.ending import ended_well

    return ended_well(words)
