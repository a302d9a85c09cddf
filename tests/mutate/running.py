"""A copy of the project in which tests are run, and what each test enters there.

How: what is heavy is imported once, here; every run is a fork of this process, and imports the project and its tests
from the copy. So the tree that is worked in is never touched, and a run costs little more than its tests.
"""

from __future__ import annotations

import os
import resource
import shutil
import signal
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    import pytest

__all__ = [
    "ROOT",
    "NoteFailure",
    "Outcome",
    "alone_in",
    "copied",
    "ended",
    "failed_test",
    "import_heavy",
    "limited",
    "run_tests",
]

ROOT: Final = Path(__file__).parents[2]
_HEAVY: Final = (
    "numpy",
    "scipy.optimize",
    "pytest",
    "hypothesis",
    "shapely",
    "jsonschema",
    "ezdxf",
)
_OURS: Final = ("drafting", "blocks", "output", "tests")

Outcome = Literal["passed", "failed", "too slow"]


def import_heavy() -> None:
    """Import what every run would import."""
    for name in _HEAVY:
        __import__(name)


def copied(to: Path) -> Path:
    """The project copied into a folder, without what is made from it."""
    left_out = shutil.ignore_patterns("__pycache__", ".git", ".venv", ".*_cache", ".hypothesis", "*.egg-info")
    shutil.copytree(ROOT, to, ignore=left_out, dirs_exist_ok=True)
    return to


class NoteFailure:
    """A plugin of pytest that writes down beside a tree which test failed."""

    def __init__(self, tree: Path) -> None:
        self.tree, self.failed = tree, False

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed = True
            _failure(self.tree).write_text(report.nodeid, "utf-8")


def failed_test(tree: Path) -> str:
    """The test that failed last in a tree since it was asked for; "" where none did."""
    path = _failure(tree)
    name = path.read_text("utf-8") if path.exists() else ""
    path.unlink(missing_ok=True)
    return name


def _failure(tree: Path) -> Path:
    return tree.parent / "failed"


def run_tests(tree: Path, tests: Sequence[str], *, seconds: float) -> Outcome:
    """How these tests end in a tree, the first failure ending the run. `seconds` are of the processor."""
    import_heavy()
    child = os.fork()
    if child == 0:
        code = 70
        try:
            limited(seconds)
            code = _in_child(tree, tests)
        finally:
            os._exit(code)
    status = ended(child)
    if not os.WIFEXITED(status):
        return "too slow"
    return "passed" if os.WEXITSTATUS(status) == 0 else "failed"


def limited(seconds: float) -> None:
    """Let this process, leader of a group of its own, run so many seconds of the processor, and no more than 20 times
    as long by the clock (one that waits for ever takes none)."""
    os.setsid()
    most = max(1, round(seconds))
    resource.setrlimit(resource.RLIMIT_CPU, (most, most + 5))
    signal.alarm(20 * most)


def ended(child: int) -> int:
    """Wait for a process that `limited` itself; then what it may have left running is ended too."""
    _, status = os.waitpid(child, 0)
    with suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)
    return status


def _in_child(tree: Path, tests: Sequence[str]) -> int:
    import pytest

    alone_in(tree, Path(os.devnull))
    options = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist"]
    return int(pytest.main([*options, *tests], plugins=[NoteFailure(tree)]))


def alone_in(tree: Path, log: Path) -> None:
    """Make this process one that works in the tree: it imports the project from there, and prints into `log`."""
    silent = os.open(log, os.O_RDWR | os.O_CREAT)
    for stream in (0, 1, 2):
        os.dup2(silent, stream)
    sys.dont_write_bytecode = True  # a file may change twice within the second by which bytecode is told apart
    os.chdir(tree)
    os.environ["PYTHONPATH"] = str(tree)
    sys.path[:] = [str(tree), *(each for each in sys.path if Path(each or ".").resolve() != ROOT)]
    for name in [each for each in sys.modules if each.partition(".")[0] in _OURS]:
        del sys.modules[name]
