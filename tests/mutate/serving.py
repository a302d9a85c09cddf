"""A process that has collected every test once and waits; for each change it forks, and the child runs a few tests.

How: a child swaps the code of the changed function within its own memory, so nothing is imported or collected again.
What is settled when a module is imported (a constant, a default, a table) cannot be swapped: those run afresh
(`run_tests` in `running.py`).
"""

from __future__ import annotations

import gc
import json
import os
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from types import CodeType, FrameType, FunctionType
from typing import Any, Final, Literal

import pytest

from tests.mutate.running import NoteFailure, alone_in, ended, import_heavy, limited

__all__ = ["Answer", "Server", "swap"]

Answer = Literal["passed", "failed", "too slow", "afresh", "followed"]
_ANSWERS: Final[tuple[Answer, ...]] = ("passed", "failed", "too slow", "afresh", "followed")
_BROKEN: Final = len(_ANSWERS)
"""What a child answers that could not even run its tests: nothing is known of the change then."""

_CALLS: Final = 4
"""So many calls of a function in one test are followed line by line; of the later ones nothing more is learnt."""


class Server:
    """The waiting process, asked over two pipes."""

    def __init__(self, tree: Path, files: Sequence[str], log: Path) -> None:
        import_heavy()
        asked, self._ask = os.pipe()
        self._answer, answered = os.pipe()
        self.child = os.fork()
        if self.child == 0:
            code = 70
            try:
                os.close(self._ask)  # else it would never see that no more is asked
                os.close(self._answer)
                alone_in(tree, log)
                serving = _Serving(tree, asked, answered)
                options = ["-q", "-p", "no:cacheprovider", "-p", "no:xdist", f"--basetemp={tree}/../made"]
                code = int(pytest.main([*options, *files], plugins=[serving]))
            finally:
                os._exit(code)
        os.close(asked)
        os.close(answered)
        self._lines = os.fdopen(self._answer, "r")

    def ask(self, **question: object) -> Answer:
        """Send one question and wait for its answer."""
        os.write(self._ask, json.dumps(question).encode() + b"\n")
        line = self._lines.readline()
        if not line or int(line) == _BROKEN:
            raise RuntimeError("the process that holds the tests has ended, or could not ask them")
        return _ANSWERS[int(line)]

    def collected(self, write: Path) -> frozenset[str]:
        """The names of the tests that it holds; `write` is a file for them."""
        self.ask(list=str(write), cpu=60.0)
        return frozenset(write.read_text("utf-8").split("\n"))

    def close(self) -> None:
        """End the waiting process."""
        os.close(self._ask)
        os.waitpid(self.child, 0)


class _Serving(NoteFailure):
    """The plugin within the waiting process: in place of running all tests, it answers questions."""

    def __init__(self, tree: Path, asked: int, answered: int) -> None:
        super().__init__(tree)
        self.asked, self.answered = asked, answered

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        functions = _functions(self.tree)
        for line in os.fdopen(self.asked, "r"):
            question = json.loads(line)
            answer = self._forked(question, items, functions)
            os.write(self.answered, b"%d\n" % answer)
        return True

    def _forked(
        self, question: dict[str, Any], items: dict[str, pytest.Item], functions: dict[str, list[FunctionType]]
    ) -> int:
        """The number of its answer."""
        child = os.fork()
        if child == 0:
            code = _BROKEN
            try:
                limited(question["cpu"])
                if "list" in question:
                    Path(question["list"]).write_text("\n".join(items), "utf-8")
                    code = _ANSWERS.index("followed")
                elif "follow" in question:
                    code = self._follow(question, items)
                elif not swap(question["file"], question["was"].encode(), question["now"].encode(), functions):
                    code = _ANSWERS.index("afresh")
                else:
                    code = self._run(items[each] for each in question["tests"])
            finally:
                os._exit(code)
        status = ended(child)
        return os.WEXITSTATUS(status) if os.WIFEXITED(status) else _ANSWERS.index("too slow")

    def _run(self, items: Iterator[pytest.Item]) -> int:
        """The answer of these tests, the first failure ending it."""
        waiting = list(items)
        for item, following in zip(waiting, [*waiting[1:], None], strict=True):
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if self.failed:
                return _ANSWERS.index("failed")
        return _ANSWERS.index("passed")

    def _follow(self, question: dict[str, Any], items: dict[str, pytest.Item]) -> int:
        """Run a file's tests one by one and write down what each enters, its seconds, and which do not pass."""
        mine = [item for name, item in items.items() if name.partition("::")[0] == question["follow"]]
        found = []
        for item, following in zip(mine, [*mine[1:], None], strict=True):
            self.failed = False
            followed = _Followed(f"{self.tree}/")
            sys.settrace(followed.enter)
            threading.settrace(followed.enter)
            start = time.process_time()
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            seconds = time.process_time() - start
            sys.settrace(None)
            if not self.failed:
                found.append({"test": item.nodeid, "seconds": round(seconds, 4), "lines": followed.found()})
        Path(question["write"]).write_text(json.dumps(found), "utf-8")
        return _ANSWERS.index("followed")


class _Followed:
    """What is entered while it is asked: the lines by function, each counted from the function's first."""

    def __init__(self, here: str) -> None:
        self.here, self.calls, self.lines = here, dict[CodeType, int](), set[tuple[CodeType, int]]()

    def enter(self, frame: FrameType, _event: str, _of: object) -> Any:
        code = frame.f_code
        calls = self.calls.get(code, 0)
        if calls >= _CALLS:
            return None
        if not calls and not code.co_filename.startswith(self.here):
            calls = _CALLS
        self.calls[code] = calls + 1
        return None if calls >= _CALLS else self.line

    def line(self, frame: FrameType, _event: str, _of: object) -> Any:
        self.lines.add((frame.f_code, frame.f_lineno))
        return self.line

    def found(self) -> dict[str, list[int]]:
        out: dict[str, set[int]] = {}
        for code, line in self.lines:
            file = code.co_filename.removeprefix(self.here)
            if not file.startswith("tests/"):
                out.setdefault(f"{file}:{code.co_qualname}", set()).add(line - code.co_firstlineno)
        return {name: sorted(lines) for name, lines in sorted(out.items())}


def _functions(tree: Path) -> dict[str, list[FunctionType]]:
    """Every function of the project that is there now, by "file:line:qualified name"."""
    gc.unfreeze()
    here, out = f"{tree}/", dict[str, list[FunctionType]]()
    for each in gc.get_objects():
        if type(each) is FunctionType and each.__code__.co_filename.startswith(here):
            out.setdefault(_key(each.__code__), []).append(each)
    gc.freeze()
    return out


def _key(code: CodeType) -> str:
    return f"{code.co_filename}:{code.co_firstlineno}:{code.co_qualname}"


def swap(file: str, was: bytes, now: bytes, functions: dict[str, list[FunctionType]]) -> bool:
    """Put the changed code into the functions that are there. False where the change stands in none of them.

    A module that is not imported yet needs no swap: its file is the changed one when it is imported.
    """
    if not any(getattr(module, "__file__", None) == file for module in list(sys.modules.values())):
        return True
    before, after = (_by_key(compile(text, file, "exec", dont_inherit=True)) for text in (was, now))
    found = False
    for key, olds in before.items():
        news = after.get(key, [])
        if len(news) != len(olds) and functions.get(key):
            return False
        # what is written within an expression goes with its function, and may be gone with it
        for old, new in zip(olds, news, strict=False):
            for function in functions.get(key, []) if old != new else []:
                if function.__code__ != old:
                    continue
                if len(function.__code__.co_freevars) != len(new.co_freevars):
                    return False
                function.__code__ = new
                found = True
    return found


def _by_key(code: CodeType) -> dict[str, list[CodeType]]:
    out: dict[str, list[CodeType]] = {}
    for each in _codes(code):
        out.setdefault(_key(each), []).append(each)
    return out


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield from _codes(each)
