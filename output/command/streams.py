"""How the command speaks when it can hardly speak: stopped by a person, or with nowhere to tell anything.

Nothing heavy is imported, so that all of this is there before the rest is loaded.
"""

from __future__ import annotations

import os
import signal
import sys
from contextlib import suppress

TYPE_CHECKING = False
if TYPE_CHECKING:  # without the module of that name, which is heavy
    from typing import TextIO

__all__ = [
    "OUTPUT_FAILED",
    "STOPPED",
    "ignore_lost_reader",
    "open_streams",
    "output_failed",
    "print_error",
    "report_stopped",
    "stop_once",
]

STOPPED = 130
OUTPUT_FAILED = 4

_STOPPED_WORDS = "Stopped. Nothing is left half written."


def open_streams() -> bool:
    """Make standard output and error fit to be written to; whether there is a standard output.

    A closed one leads nowhere from here on, and a letter that one has not is replaced by a mark.
    """
    there = sys.stdout is not None
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            # an open file in its place keeps any other from being given its number
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115
        elif hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    return there


def output_failed(error: OSError | None) -> int:
    """Say on standard error why standard output could not be written; the exit status. None: it is closed."""
    _discard_output(sys.stdout)
    reason = "it is closed" if error is None else (error.strerror or "it fails").lower()
    print_error(
        f"What there is to tell could not be written to standard output ({reason}). "
        "All else is done: what was to be written to files stands there."
    )
    return OUTPUT_FAILED


def ignore_lost_reader(status: int) -> int:
    """The status itself, where whoever was reading has gone: that is no failure."""
    _discard_output(sys.stdout)
    return status


def print_error(sentence: str) -> None:
    """Write a line to standard error; where that cannot be written, the exit status has to do."""
    try:
        print(sentence, file=sys.stderr, flush=True)
    except OSError:
        _discard_output(sys.stderr)


def _discard_output(stream: TextIO) -> None:
    """Let what is still to be written there go nowhere; closing it would complain once more."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


def stop_once() -> None:
    """From here on the first Ctrl-C stops the command, wherever it is, and further ones do nothing."""

    def first(_number: int, _frame: object) -> None:
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        raise KeyboardInterrupt

    usual = sys.unraisablehook

    def unraisable(about: sys.UnraisableHookArgs) -> None:
        # where Python cannot raise it (in a callback of its own, while modules load), it would only print it
        if isinstance(about.exc_value, KeyboardInterrupt):
            os._exit(report_stopped())
        usual(about)

    signal.signal(signal.SIGINT, first)
    sys.unraisablehook = unraisable


def report_stopped(*, as_json: bool = False) -> int:
    """Say that the person stopped it; the exit status."""
    if as_json:
        try:
            print(f'{{"problems": [{{"sentence": "{_STOPPED_WORDS}"}}]}}', flush=True)
        except OSError:
            _discard_output(sys.stdout)
    else:
        print_error(_STOPPED_WORDS)
    return STOPPED
