"""A copy of the project in which tests are run, each run in a process of its own that ends with it.

How: what is heavy is imported once, here; every run is a fork of this process, and imports the project and its tests
from the copy. So the tree that is worked in is never touched, and a run costs little more than its tests.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import signal
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, FrameType
from typing import Final, Literal

__all__ = ["ROOT", "Outcome", "Reach", "copied", "reaches", "run_tests"]

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


@dataclass(frozen=True, slots=True)
class Reach:
    """A test file: the processor time it takes, and the functions it enters, each as "file:qualified name"."""

    tests: str
    seconds: float
    entered: frozenset[str]


def copied(to: Path) -> Path:
    """The project copied into a folder, without what is made from it."""
    left_out = shutil.ignore_patterns("__pycache__", ".git", ".venv", ".*_cache", ".hypothesis", "*.egg-info")
    shutil.copytree(ROOT, to, ignore=left_out, dirs_exist_ok=True)
    return to


def run_tests(
    tree: Path, tests: Sequence[str], *, seconds: float, around: Callable[[Callable[[], int]], int] | None = None
) -> Outcome:
    """How these test files end in a tree, the first failure ending the run; `around` is called in the run's process."""
    for name in _HEAVY:
        __import__(name)
    child = os.fork()
    if child == 0:
        os.setsid()
        code = 70
        try:
            code = _in_child(tree, tests, around)
        finally:
            os._exit(code)
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return "passed" if os.waitstatus_to_exitcode(status) == 0 else "failed"
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return "too slow"


def _in_child(tree: Path, tests: Sequence[str], around: Callable[[Callable[[], int]], int] | None) -> int:
    import pytest

    silent = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(silent, stream)
    sys.dont_write_bytecode = True  # a file may change twice within the second by which bytecode is told apart
    os.chdir(tree)
    os.environ["PYTHONPATH"] = str(tree)
    sys.path[:] = [str(tree), *(each for each in sys.path if Path(each or ".").resolve() != ROOT)]
    for name in [each for each in sys.modules if each.partition(".")[0] in _OURS]:
        del sys.modules[name]

    def run() -> int:
        return int(pytest.main(["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", *tests]))

    return around(run) if around else run()


def reaches(tree: Path, tests: Sequence[str], told: Callable[[str], None]) -> tuple[Reach, ...]:
    """What each test file enters. A file that fails as it is, is told of and left out.

    What was found is remembered by the text of the test file and of the pages beside it, so that only what is new is
    followed again.
    """
    kept = Path(tempfile.gettempdir()) / f"trueseam-reach-{os.getuid()}"
    kept.mkdir(exist_ok=True)
    out = []
    for name in tests:
        beside = sorted((tree / name).parent.glob("*.txt"))
        text = b"".join(path.read_bytes() for path in (tree / name, *beside))
        key = hashlib.sha256(name.encode() + text).hexdigest()[:24]
        path = kept / f"{key}.json"
        if not path.exists():
            told(f"following {name}")
            if run_tests(tree, [name], seconds=1200.0, around=_Followed(tree, path)) != "passed":
                told(f"{name} does not pass as it is, and is left out")
                continue
        data = json.loads(path.read_text("utf-8"))
        out.append(Reach(name, data["seconds"], frozenset(data["entered"])))
    return tuple(out)


class _Followed:
    """Runs tests, and writes down which functions of the project were entered."""

    def __init__(self, tree: Path, path: Path) -> None:
        self.tree, self.path = tree, path

    def __call__(self, run: Callable[[], int]) -> int:
        seen: set[CodeType] = set()

        def enter(frame: FrameType, _event: str, _of: object) -> None:
            seen.add(frame.f_code)

        sys.settrace(enter)
        threading.settrace(enter)
        code = run()
        sys.settrace(None)
        here = f"{self.tree}/"
        entered = {
            f"{each.co_filename.removeprefix(here)}:{each.co_qualname}"
            for each in seen
            if each.co_filename.startswith(here) and not each.co_filename.startswith(f"{here}tests/")
        }
        if code == 0:
            seconds = sum(os.times()[:4])  # of the processor: this process and those it has waited for
            self.path.write_text(json.dumps({"seconds": seconds, "entered": sorted(entered)}), "utf-8")
        return code
