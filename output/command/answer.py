"""What a command answers: an exit status, what is told to a person, and the same as data for a program."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Final

from drafting.checks import Verdict
from drafting.dataclass import dataclass
from output.command.told_data import OutputFailed, as_text
from output.report.tables import Said

if TYPE_CHECKING:
    from output.report.table_text import Line

__all__ = ["MOST_LINES", "Answer", "write_answer"]

MOST_LINES: Final = 40
"""Lines that are told where not all was asked for: what goes on one screen."""


@dataclass(frozen=True, slots=True)
class Answer:
    """An exit status, what is told, and what `--json` writes.

    said:  everything there is to tell, in tables and passages
    data:  the same for a program; or what makes it, where that takes a while and mostly is not asked for
    brief: the same told shortly, the fullest way first; the first that goes on one screen is told. Empty where
           everything is told always
    """

    status: int
    said: tuple[Said, ...]
    data: Mapping[str, object] | Callable[[], Mapping[str, object]]
    brief: Sequence[tuple[Said, ...]] = ()


_STYLES: Final[Mapping[str | Verdict | None, str]] = {
    "title": "bold",
    "soft": "dim",
    Verdict.WARN: "yellow",
    Verdict.FAIL: "bold red",
    Verdict.ERROR: "bold red",
    Verdict.NOTHING: "yellow",
}


def write_answer(answer: Answer, *, as_json: bool, everything: bool = True) -> int:
    """Write the answer to standard output; its exit status. Raises Untold where it cannot be written.

    everything: whether all is told, however long
    """
    try:
        sys.stdout.write(
            _data_text(answer) + "\n" if as_json else _lines_text(_lines_to_write(answer, everything=everything))
        )
        sys.stdout.flush()
    except OSError as reason:
        raise OutputFailed(answer.status, reason) from reason
    return answer.status


def _data_text(answer: Answer) -> str:
    return as_text(answer.data() if callable(answer.data) else answer.data)


def _lines_to_write(answer: Answer, *, everything: bool) -> tuple[Line, ...]:
    """All of it, or the fullest of the short ways that goes on one screen; the shortest where none does."""
    from output.report.table_text import lines_of

    width = shutil.get_terminal_size().columns
    if everything or not answer.brief:
        return lines_of(answer.said, width)
    told: tuple[Line, ...] = ()
    for said in answer.brief:
        told = lines_of(said, width)
        if len(told) <= MOST_LINES:
            break
    return told


def _lines_text(lines: Iterable[Line]) -> str:
    if not sys.stdout.isatty():
        return "".join(f"{line.text}\n" for line in lines)
    from rich.console import Console

    # what is told holds names that people chose: nothing in them may be taken for markup
    console = Console(markup=False, emoji=False, highlight=False)
    with console.capture() as told:
        for line in lines:
            console.print(line.text, style=_STYLES.get(line.style, ""), soft_wrap=True)
    return told.get()
