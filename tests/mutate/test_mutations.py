"""The changes that are made to a module, and what is found out about each."""

from __future__ import annotations

import sys
import textwrap
from pathlib import Path
from types import ModuleType

import pytest

from tests.mutate import running
from tests.mutate.__main__ import _by_rule
from tests.mutate.mutations import Mutation, changed, mutations
from tests.mutate.running import run_tests
from tests.mutate.serving import swap


def after(source: str) -> list[str]:
    text = source.encode()
    return [changed(text, each).decode() for each in mutations(text)]


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ("a = x < y", ["a = x <= y"]),
        ("a = x >= y", ["a = x > y"]),
        ("a = x is not y", ["a = x is y"]),
        ("a = x in y", ["a = x not in y"]),
        ("a = x < y <= z", ["a = x <= y <= z", "a = x < y < z"]),
        ("a = x and y", ["a = x or y"]),
        ("a = x + y", ["a = x - y"]),
        ("a = x / y", ["a = x * y"]),
        ("a = not x", ["a = (x)"]),
        ("a = 2.0", ["a = 2.2"]),
        ("a = 0.0", ["a = 1.0"]),
        ("a = 7", ["a = 8"]),
        ("a = True", ["a = False"]),
        ('a = "hip"', ["a = 'hipx'"]),
        ("a = f(x, y)", ["a = f(y, x)"]),
        ("a = x if y else z", ["a = z if y else x"]),
        ("def f():\n    return x", ["def f():\n    return None"]),
        ("def f():\n    return False", ["def f():\n    return True"]),  # nobody tells None from False
    ],
)
def test_each_token_is_changed_into_its_opposite_or_nudged(source: str, expected: list[str]) -> None:
    assert after(source) == expected


@pytest.mark.parametrize(
    "source",
    [
        '"""A docstring."""',
        '__all__ = ["a"]',
        "from x import y",
        'a = "a sentence as long as this one is words, not a name"',
        'a = f"{x} is too long"',
        "def f() -> None:\n    return None",
        "near = 1e-9",
        'def f(a: "x") -> "y": ...',
        "if TYPE_CHECKING:\n    a = 1",
        'Side = Literal["left", "right"]',
        "a = zip(strict=True)",
        'a = Remedy(lead="To widen it")',
        "a = max(x, y)",
        'a = edge.remembered("chords")',
    ],
)
def test_what_is_only_said_to_a_reader_is_left_alone(source: str) -> None:
    assert mutations(source.encode()) == ()


def test_a_change_knows_its_line_and_the_function_it_stands_in() -> None:
    source = textwrap.dedent("""\
        A = 1
        class C:
            def f(self):
                def g():
                    return 2
                return g
        """)
    found = {(each.kind, each.line, each.within) for each in mutations(source.encode())}
    assert found == {
        ("constant", 1, ""),
        ("constant", 5, "C.f.<locals>.g"),
        ("return", 5, "C.f.<locals>.g"),
        ("return", 6, "C.f"),
    }


def test_letters_outside_ascii_do_not_shift_what_is_changed() -> None:
    assert after('a = ("½", x < y)') == ['a = ("½x", x < y)'.replace('"½x"', "'½x'"), 'a = ("½", x <= y)']


@pytest.fixture
def tree(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(running, "_HEAVY", ())
    monkeypatch.setenv("PYTEST_DISABLE_PLUGIN_AUTOLOAD", "1")
    (tmp_path / "pyproject.toml").write_text("[tool.pytest.ini_options]\n", encoding="utf-8")
    (tmp_path / "halved.py").write_text("def half(x):\n    return x / 2\n", encoding="utf-8")
    (tmp_path / "test_halved.py").write_text("from halved import half\ndef test(): assert half(8) == 4\n", "utf-8")
    return tmp_path


@pytest.mark.whole
def test_a_run_sees_the_change_and_a_change_that_never_ends_is_stopped(tree: Path) -> None:
    def ended(source: str, seconds: float = 60.0) -> str:
        (tree / "halved.py").write_text(source, encoding="utf-8")
        return run_tests(tree, ["test_halved.py"], seconds=seconds)

    assert ended("def half(x):\n    return x / 2\n") == "passed"
    assert ended("def half(x):\n    return x * 2\n") == "failed"
    assert [running.failed_test(tree) for _ in range(2)] == ["test_halved.py::test", ""]
    assert ended("def half(x):\n    while True: pass\n", seconds=1.0) == "too slow"


def test_the_copy_is_the_project_without_what_is_made_from_it(tmp_path: Path) -> None:
    tree = running.copied(tmp_path / "tree")
    assert (tree / "drafting/errors.py").read_bytes() == (running.ROOT / "drafting/errors.py").read_bytes()
    assert not [each for each in (".git", ".venv") if (tree / each).exists()]


def test_a_change_is_told_from_others_by_all_that_it_is() -> None:
    (one,) = mutations(b"a = 1")
    assert one == Mutation("constant", 1, "", 4, 5, "1", "2", ("a = ",))


def test_kinds_of_changes_that_change_nothing_are_told_from_others() -> None:
    source = b"a = 0.5 * width > FLAT\nb = x <= 1e-12 * y\nc = x < 1.0\nd = x == FLAT\ne = FLATTER < x\n"
    compared = [each for each in mutations(source) if each.kind == "comparison"]
    assert [_by_rule(each, {"tolerances": ["FLAT"]}) for each in compared] == [True, True, False, False, False]
    swapped = [each for each in mutations(b"a = apart(x, y) and beside(x, y)") if each.kind == "arguments"]
    assert [_by_rule(each, {"alike": ["apart"]}) for each in swapped] == [True, False]
    parts = [
        each for each in mutations(b"a = length(x, SOLVED / 4)\nb = x / 4\nc = SOLVED * 4") if each.kind == "constant"
    ]
    assert [_by_rule(each, {"parted": ["SOLVED"]}) for each in parts] == [True, False, False]
    loops = b"for _ in range(9): pass\nfor _ in range(3): pass\nfor k in range(9): pass"
    assert [_by_rule(each, {"repeated": [8]}) for each in mutations(loops)] == [True, False, False]


def test_a_change_is_put_into_the_functions_that_are_there_and_one_of_a_constant_is_not(tmp_path: Path) -> None:
    path = tmp_path / "halved.py"
    was = "BY = 2\ndef half(x):\n    return x / BY\n"
    module = ModuleType("halved")
    module.__file__ = str(path)
    exec(compile(was, str(path), "exec", dont_inherit=True), module.__dict__)
    half = module.__dict__["half"]
    functions = {f"{path}:2:half": [half]}
    sys.modules["halved"] = module
    try:
        assert not swap(str(path), was.encode(), was.replace("BY = 2", "BY = 3").encode(), functions)
        assert half(8) == 4
        assert swap(str(path), was.encode(), was.replace("x / BY", "x * BY").encode(), functions)
        assert half(8) == 16
        # what is written within what is left out, is gone with it
        summed = was.replace("x / BY", "sum(x / BY for _ in 'a')")
        half.__code__ = next(
            each for each in compile(summed, str(path), "exec", dont_inherit=True).co_consts if hasattr(each, "co_name")
        )
        assert swap(str(path), summed.encode(), was.replace("x / BY", "None").encode(), functions)
        assert half(8) is None
    finally:
        del sys.modules["halved"]
