"""What becomes of one change: which tests enter what it changes, in which order they are asked, and what they say.

What each test enters is learnt once and kept between runs, by the text of its file, so that only new tests are
followed.
"""

from __future__ import annotations

import ast
import hashlib
import json
import os
import sys
import tempfile
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path
from typing import Final, Literal

from tests.mutate.mutations import Mutation, changed
from tests.mutate.running import Outcome, failed_test, run_tests
from tests.mutate.serving import Answer, Server

__all__ = ["Fate", "Judge"]

Fate = Literal["killed", "survived", "equivalent", "not reached"]

_OF_CONSTANTS: Final = (
    "tests/test_figures.py",
    "tests/golden/test_golden.py",
    "tests/golden/test_left_out.py",
    "tests/golden/test_readings.py",
)
"""They look at constants, options and words, which nothing enters."""

_FRESH: Final = 24
"""So many test files are collected anew for a change that only a new process can see: that takes seconds for each."""


@dataclass(frozen=True, slots=True)
class _Test:
    """A test, the processor time it takes, and the lines it enters, by "file:function", from the function's first."""

    name: str
    seconds: float
    lines: dict[str, list[int]]

    @property
    def file(self) -> str:
        return self.name.partition("::")[0]


class Judge:
    """Judges changes of the files `names`, one after another, with the tests of `files`."""

    def __init__(
        self, tree: Path, server: Server, files: Sequence[str], names: Collection[str], seconds: float
    ) -> None:
        self.tree, self.server, self.names, self.seconds = tree, server, frozenset(names), seconds
        # one that was followed when there were others may be gone, or be left to `--whole` by now
        there = server.collected(tree.parent / "collected")
        self.tests = [test for file in files for test in self._followed(file) if test.name in there]
        self.sound = set[str]()

    def fate(self, name: str, mutation: Mutation) -> Fate:
        """What becomes of a change of the file `name`."""
        path, source = self.tree / name, (self.tree / name).read_bytes()
        tests, known = self._asked(name, mutation, source)
        while (answer := self._answer(path, source, changed(source, mutation), tests)) == "failed":
            noticed = failed_test(self.tree)
            if not noticed or self._passes_unchanged(noticed):  # none where a changed module cannot be imported
                break
            print(f"fails without any change, left out: {noticed}", file=sys.stderr, flush=True)
            self.tests = [each for each in self.tests if each.name != noticed]
            tests = [each for each in tests if each != noticed]
        if answer != "passed":
            return "killed"
        return "survived" if known else "not reached"

    def _passes_unchanged(self, test: str) -> bool:
        """Whether a test that noticed a change passes without it; else it would tell every change as noticed."""
        if test not in self.sound and self.server.ask(file="", was="", now="", tests=[test], cpu=60.0) == "passed":
            self.sound.add(test)
        return test in self.sound

    def _answer(self, path: Path, source: bytes, now: bytes, tests: Sequence[str]) -> Outcome | Answer:
        """What these tests say of a file when it is changed."""
        path.write_bytes(now)
        try:
            answer = self.server.ask(
                file=str(path), was=source.decode(), now=now.decode(), tests=tests, cpu=20.0 + self.seconds
            )
            return self._afresh(tests) if answer == "afresh" else answer
        finally:
            path.write_bytes(source)

    def _afresh(self, tests: Sequence[str]) -> Outcome:
        """What they answer in a new process; those that look at constants first, by themselves: that is quick."""
        files = list(dict.fromkeys(each.partition("::")[0] for each in tests))
        others = [file for file in files if file not in _OF_CONSTANTS][:_FRESH]
        for some in ([file for file in files if file in _OF_CONSTANTS], others):
            mine = [each for each in tests if each.partition("::")[0] in some]
            if mine and (answer := run_tests(self.tree, mine, seconds=40.0 + self.seconds)) != "passed":
                return answer
        return "passed"

    def _asked(self, name: str, mutation: Mutation, source: bytes) -> tuple[list[str], bool]:
        """The tests to ask, and whether any is known to enter the function. Those that enter the line are asked first,
        of a constant those that look at constants; of the files by turns, nearest first, and in each the quickest."""
        where = f"{name}:{mutation.within}"
        function = f"{where}.<locals>." if mutation.within else where
        first, settled = _first_line(source, mutation), not mutation.within or _in_signature(source, mutation)
        enter: dict[str, list[tuple[int, float, _Test]]] = {}
        for test in self.tests:
            lines = [test.lines[key] for key in test.lines if key == where or key.startswith(function)]
            of_constants = settled and test.file in _OF_CONSTANTS
            if lines or of_constants:
                turn = 0 if of_constants else 1 if mutation.line - first in test.lines.get(where, []) else 2
                enter.setdefault(test.file, []).append((turn, test.seconds, test))
        known = bool(enter)
        room, mirror = f"tests/{Path(name).parent.as_posix()}/", f"test_{Path(name).stem}.py"
        if not known:
            for test in self.tests:
                if test.file.startswith(room):
                    enter.setdefault(test.file, []).append((2, test.seconds, test))

        def nearness(file: str) -> tuple[bool, ...]:
            golden = file.startswith(("tests/golden/", "tests/test_figures"))
            return not file.endswith(mirror), not golden, not file.startswith(room)

        files = [sorted(enter[file], key=lambda each: each[:2]) for file in sorted(enter, key=nearness)]
        turns = [each for turn in zip_longest(*files) for each in turn if each is not None]
        chosen, spent = [], 0.0
        for _, seconds, test in sorted(turns, key=lambda each: each[0]):
            if spent + seconds <= self.seconds or not chosen:
                chosen.append(test.name)
                spent += seconds
        return chosen, known

    def _followed(self, file: str) -> Iterator[_Test]:
        """The tests of a file that pass as it is, followed now or before."""
        kept = Path(tempfile.gettempdir()) / f"trueseam-reach-{os.getuid()}"
        kept.mkdir(exist_ok=True)
        key = hashlib.sha256(b"tests" + file.encode() + (self.tree / file).read_bytes()).hexdigest()[:24]
        path = kept / f"{key}.json"
        if not path.exists():
            print(f"following {file}", file=sys.stderr, flush=True)
            self.server.ask(follow=file, write=str(path), cpu=900.0)
        for each in json.loads(path.read_text("utf-8")) if path.exists() else []:
            lines = {key: value for key, value in each["lines"].items() if key.partition(":")[0] in self.names}
            yield _Test(each["test"], each["seconds"], lines)


def _first_line(source: bytes, mutation: Mutation) -> int:
    """The line at which the function begins that a change stands in, its decorators counted; 1 for the module."""
    best = 1
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef) and node.lineno <= mutation.line <= (node.end_lineno or 0):
            best = max(best, min([node.lineno, *(each.lineno for each in node.decorator_list)]))
    return best


def _in_signature(source: bytes, mutation: Mutation) -> bool:
    """Whether a change stands before the body of its function: a default, which is settled when it is defined."""
    return any(
        isinstance(node, ast.FunctionDef) and node.lineno <= mutation.line < node.body[0].lineno
        for node in ast.walk(ast.parse(source))
    )
