"""A bar that shows how far long work has come, to a person who is watching; to nobody else."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

    from output.api.garment_files import Tell

__all__ = ["progress"]

_PATIENCE: Final = 1.0
"""Seconds before the bar appears: shorter work is over before one has looked."""


@contextmanager
def progress(*, watched: bool) -> Iterator[Tell]:
    """A function to be told how far the work is. The bar stands on stderr and is gone when the work is done."""
    if not (watched and sys.stdout.isatty() and sys.stderr.isatty()):
        yield lambda _what, _share: None
        return
    bar = _Bar(time.monotonic())
    try:
        yield bar.tell
    finally:
        bar.stop()


class _Bar:
    def __init__(self, began: float) -> None:
        self._began = began
        self._shown: tuple[Progress, TaskID] | None = None

    def tell(self, what: str, share: float) -> None:
        if self._shown is None:
            if time.monotonic() - self._began < _PATIENCE:
                return
            self._shown = _show()
        bar, task = self._shown
        bar.update(task, description=what, completed=share)

    def stop(self) -> None:
        if self._shown is not None:
            self._shown[0].stop()


def _show() -> tuple[Progress, TaskID]:
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    bar = Progress(
        TextColumn("{task.description}", markup=False),
        BarColumn(),
        console=Console(stderr=True),
        transient=True,
    )
    task = bar.add_task("", total=1.0)
    bar.start()
    return bar, task
