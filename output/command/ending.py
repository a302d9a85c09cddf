"""How a command ends: with its answer, or with sentences that say what is wrong and what to do; never a traceback."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterable, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, Final

from drafting.errors import CannotDraft, InputProblems, TrueseamError
from output.version import VERSION

if TYPE_CHECKING:
    from typer import TyperException

__all__ = ["CANNOT_USE", "OUR_FAULT", "STOPPED", "ended_well"]

CANNOT_USE: Final = 2
OUR_FAULT: Final = 3
STOPPED: Final = 130

_TRACEBACK: Final = "TRUESEAM_TRACEBACK"
"""The environment variable with which a developer sees where our own fault arose."""


def ended_well(words: Sequence[str]) -> int:
    """Run the command on these words and turn however it ends into an exit status and, on stderr, sentences."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without a letter shows a mark in its place
    as_json = "--json" in words
    from typer import Abort, TyperException

    try:
        from output.command.app import run

        status = run(words)
    except TrueseamError as error:
        _refuse(_problems_of(error), as_json=as_json)
        return CANNOT_USE
    except TyperException as error:
        _refuse([_usage(error)], as_json=as_json)
        return CANNOT_USE
    except (KeyboardInterrupt, Abort):
        status = STOPPED
    except Exception as error:
        if os.environ.get(_TRACEBACK):
            raise
        _refuse([{"sentence": _our_fault(error)}], as_json=as_json)
        return OUR_FAULT
    if status == STOPPED:
        _refuse([{"sentence": "Stopped. Nothing is left half written."}], as_json=as_json)
    return status


def _problems_of(error: TrueseamError) -> list[dict[str, object]]:
    if isinstance(error, InputProblems):
        return [
            {
                "where": problem.where,
                "read": problem.read,
                "expected": problem.expected,
                "mend": problem.mend,
                "sentence": problem.sentence(),
            }
            for problem in dict.fromkeys(error.problems)
        ]
    if isinstance(error, CannotDraft):
        return [
            {"measurements": list(error.measurements), "sentence": sentence} for sentence in str(error).splitlines()
        ]
    return [{"sentence": sentence} for sentence in error.sentences()]


def _usage(error: TyperException) -> dict[str, object]:
    said = " ".join(error.format_message().split())
    command = getattr(getattr(error, "ctx", None), "command_path", "trueseam")
    return {"where": "the command line", "sentence": f"{said.rstrip('.')}. `{command} --help` says what it takes."}


def _our_fault(error: Exception) -> str:
    said = " ".join(str(error).split())[:200]
    what = f"{type(error).__name__}: {said}" if said else type(error).__name__
    return (
        f"This is a fault of trueseam {VERSION}, not of what you wrote ({what}); nothing was written: please send us "
        f"this line and the files you gave, or set {_TRACEBACK}=1 to see where it arose."
    )


def _refuse(problems: Iterable[dict[str, object]], *, as_json: bool) -> None:
    told = list(problems)
    with suppress(BrokenPipeError):
        if as_json:
            print(json.dumps({"problems": told}, ensure_ascii=False, indent=1), flush=True)
            return
        for problem in told:
            print(problem["sentence"], file=sys.stderr, flush=True)
