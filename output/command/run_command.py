"""How a command ends: with its answer, or with sentences that say what is wrong and what to do; never a traceback."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from typing import Final

from drafting.errors import CannotDraft, InputProblems, StepRefused, TrueseamError
from output import __version__
from output.command.streams import ignore_lost_reader, output_failed, print_error
from output.command.told_data import OutputFailed, as_text

__all__ = ["CANNOT_USE", "OUR_FAULT", "run_command"]

CANNOT_USE: Final = 2
OUR_FAULT: Final = 3

_TRACEBACK: Final = "TRUESEAM_TRACEBACK"
"""The environment variable with which a developer sees where our own fault arose."""


def run_command(words: Sequence[str], *, has_stdout: bool = True) -> int:
    """Run the command on these words and turn however it ends into an exit status and, on stderr, sentences.

    has_stdout: whether there is a standard output

    Raises KeyboardInterrupt where the person stops it.
    """
    as_json = "--json" in words
    try:
        from output.command.app import run

        status = run(words)
        sys.stdout.flush()
    except TrueseamError as error:
        _refuse(_problems_of(error), as_json=as_json)
        return CANNOT_USE
    except OutputFailed as error:
        return _output_failed(error.status, error.reason)
    except (Exception, SystemExit) as error:  # a library that ends the program ends it for no reason of hers
        if isinstance(error, OSError) and error.filename is None:
            # what fails while files are read or written is told by then: this was the help, on its way out
            return _output_failed(0, error)
        if os.environ.get(_TRACEBACK):
            raise
        _refuse([{"sentence": _our_fault(error)}], as_json=as_json)
        return OUR_FAULT
    return status if has_stdout else output_failed(None)


def _output_failed(status: int, error: OSError) -> int:
    return ignore_lost_reader(status) if isinstance(error, BrokenPipeError) else output_failed(error)


def _problems_of(error: TrueseamError) -> list[dict[str, object]]:
    """What went wrong as data for --json, a table for each problem."""
    if isinstance(error, InputProblems):
        return [
            {
                "where": problem.where,
                "read": problem.read,
                "expected": problem.expected,
                "mend": problem.mend,
                **({"nearest": asdict(problem.nearest)} if problem.nearest else {}),
                "sentence": problem.sentence(),
            }
            for problem in dict.fromkeys(error.problems)
        ]
    if isinstance(error, CannotDraft):
        return [
            {"measurements": list(error.measurements), "sentence": sentence} for sentence in str(error).splitlines()
        ]
    if isinstance(error, StepRefused):
        remedies = [remedy.data() for remedy in error.remedies]
        return [{"step": error.step, "alter": error.alteration, "remedies": remedies, "sentence": str(error)}]
    return [{"sentence": sentence} for sentence in error.sentences()]


def _our_fault(error: BaseException) -> str:
    said = " ".join(str(error).split())[:200]
    what = f"{type(error).__name__}: {said}" if said else type(error).__name__
    return (
        f"This is a fault of trueseam {__version__}, not of what you wrote ({what}); no file is left half written: "
        f"please send us this line and the files you gave, or set {_TRACEBACK}=1 to see where it arose."
    )


def _refuse(problems: Iterable[dict[str, object]], *, as_json: bool) -> None:
    told = list(problems)
    if as_json:
        try:
            print(as_text({"problems": told}), flush=True)
        except OSError:
            ignore_lost_reader(CANNOT_USE)  # then it is said as to a person
        else:
            return
    for problem in told:
        print_error(str(problem["sentence"]))
