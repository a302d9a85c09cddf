"""The house itself: what lies at the top, how large a file is, which way imports run, what is pinned."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from fnmatch import fnmatch
from functools import cache
from pathlib import Path

import pytest

from output import __version__
from tests.house.parsed import modules, nodes

ROOT = Path(__file__).parents[2]
TOP = {
    *("README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml", "constraints.txt"),
    *("drafting", "blocks", "output", "tests", "examples"),
}
PACKAGES = ("drafting", "blocks", "output")
TEXTS = {".py", ".md", ".toml", ".txt", ".csv", ".json", ".svg", ".cfg", ""}
LONG = 400
SCREEN = 60  # lines after the docstring, or after the first statement
SHORT = 13  # lines of a function that may do without a docstring
SAID_ONCE = ("apply", "promises")  # of every alteration, by `Alteration` for all of them
PART = 200  # lines of a file of a part


def ignored(path: Path) -> bool:
    """Whether what git leaves alone holds a path, told by the plain names in .gitignore."""
    parts = path.relative_to(ROOT).parts
    return any(part in _not_kept() or part == ".git" or part.endswith(".egg-info") for part in parts)


@cache
def kept() -> tuple[Path, ...]:
    """What git holds, told by .gitignore, so that it works where there is no git."""
    found = []
    for folder, below, files in os.walk(ROOT):
        here = Path(folder)
        below[:] = [name for name in below if not ignored(here / name)]  # what git leaves alone is not walked through
        found += [here / name for name in files if not ignored(here / name)]
    return tuple(sorted(found))


@cache
def texts() -> tuple[Path, ...]:
    return tuple(path for path in kept() if path.suffix in TEXTS)


@cache
def _not_kept() -> frozenset[str]:
    lines = (line.strip().rstrip("/") for line in (ROOT / ".gitignore").read_text().splitlines())
    return frozenset(line for line in lines if line)


@cache
def project() -> dict[str, dict[str, object]]:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def required() -> Iterator[str]:
    """The names of all that is asked for directly, as pip writes them."""
    table = project()["project"]
    extras = table["optional-dependencies"]
    assert isinstance(extras, dict)
    for requirement in (*table["dependencies"], *extras["dev"]):  # type: ignore[misc]
        yield re.split(r"[<>=! ]", requirement)[0].lower().replace("_", "-")


def pinned() -> dict[str, str]:
    """What constraints.txt says of each distribution: its version and what follows, hashes and all."""
    text = (ROOT / "constraints.txt").read_text(encoding="utf-8")
    found: dict[str, str] = {}
    for entry in re.split(r"\n(?=\S)", text.strip()):
        name, _, rest = entry.partition("==")
        found[name] = found.get(name, "") + rest
    return found


def test_the_top_holds_only_what_it_may() -> None:
    there = {path.name for path in ROOT.iterdir() if not path.name.startswith(".") and not ignored(path)}
    assert there == TOP


def test_no_module_is_long() -> None:
    modules = (path for path in texts() if path.suffix == ".py")
    long = {str(path.relative_to(ROOT)): path.read_text().count("\n") for path in modules}
    assert {name: lines for name, lines in long.items() if lines > LONG} == {}
    assert {name: lines for name, lines in long.items() if name.startswith("drafting/parts/") and lines > PART} == {}


def test_no_function_is_longer_than_a_screen() -> None:
    found = {
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}": node.end_lineno - node.body[0].end_lineno
        for path in modules()
        for node in nodes(path)
        if isinstance(node, ast.FunctionDef) and node.end_lineno and node.body[0].end_lineno
    }
    assert len(found) > 1000
    assert {name: lines for name, lines in found.items() if lines > SCREEN} == {}


def test_every_function_that_is_not_short_says_what_comes_back() -> None:
    silent = [
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"
        for path in modules()
        for node in nodes(path)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and (node.end_lineno or 0) - node.lineno >= SHORT
        and not (node.name.startswith("__") or node.name in SAID_ONCE or ast.get_docstring(node))
    ]
    assert silent == []


def test_a_docstring_says_what_comes_back_before_what_goes_in() -> None:
    of_a_parameter = re.compile(r"[a-z_]+(, [a-z_]+)*: ")
    begun_with_one = [
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"
        for path in modules()
        for node in nodes(path)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and of_a_parameter.match(ast.get_docstring(node, clean=False) or "")
    ]
    assert begun_with_one == []


def test_every_file_of_the_packages_is_one_that_a_wheel_takes() -> None:
    """By what pyproject.toml says; .ci/run builds the wheel and looks (`test_wheel.py`)."""
    setup = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]
    packages, taken = setup["packages"]["find"]["include"], ["*.py", *setup["package-data"]["*"]]
    assert packages == ["drafting*", "blocks*", "output*"]
    ours = [path for path in kept() if any(fnmatch(path.relative_to(ROOT).parts[0], each) for each in packages)]
    assert len(ours) > 700
    assert [str(path) for path in ours if not any(fnmatch(path.name, each) for each in taken)] == []


def test_no_file_names_where_packages_come_from() -> None:
    # put together here, so that this file does not name them either
    hosts = [*("pypi" + end for end in (".org", ".python.org")), "python" + "hosted.org", "conda" + ".org"]
    words = re.compile(
        "|".join(map(re.escape, [*hosts, "--index" + "-url", "--extra-index" + "-url", "--find" + "-links"]))
    )
    assert [str(path) for path in texts() if words.search(path.read_text(encoding="utf-8", errors="replace"))] == []


def test_every_import_runs_the_way_the_contracts_say() -> None:
    from importlinter.cli import lint_imports

    assert lint_imports(str(ROOT / "pyproject.toml"), no_cache=True, no_logo=True) == 0


def test_every_requirement_is_pinned_with_hashes() -> None:
    pins = pinned()
    assert set(required()) <= set(pins)
    assert [name for name, said in pins.items() if "--hash=sha256:" not in said] == []


def test_every_requirement_has_its_reason_in_developers() -> None:
    reasons = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").lower().replace("_", "-")
    table = reasons[reasons.index("| library | licence | why |") :]
    assert [name for name in required() if not re.search(rf"^\|[^|]*\b{re.escape(name)}\b[^|]*\|", table, re.M)] == []


def test_the_versions_agree() -> None:
    assert "version" in project()["project"]["dynamic"]  # type: ignore[operator]
    assert project()["tool"]["setuptools"]["dynamic"]["version"]["attr"] == "output.__version__"  # type: ignore[index]
    newest = re.search(r"^## (\d\S*)", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.M)
    assert newest is not None
    assert newest[1] == __version__
    said = subprocess.run(
        [sys.executable, "-m", "output.command", "--version"], check=True, cwd=ROOT, stdout=subprocess.PIPE
    )
    assert said.stdout.decode().split() == ["trueseam", __version__]


@pytest.mark.parametrize(
    ("module", "heavy"),
    [
        ("output.command", ("typing", "argparse", "rich", "numpy", "scipy", "ezdxf", "drafting", "blocks")),
        ("blocks.from_file.garment_file", ("scipy", "ezdxf", "argparse", "rich", "jsonschema")),
        (
            "output.report.report_page, output.dxf.dxf_writer, output.drawings.svg, output.files.write_folder",
            ("ezdxf", "argparse", "rich"),
        ),
        ("output.sheets.sheet_pdf, output.api.writing", ("pikepdf", "fontTools", "lxml", "PIL", "ezdxf")),
    ],
)
def test_importing_loads_nothing_heavy(module: str, heavy: tuple[str, ...]) -> None:
    look = f"import sys; before = set(sys.modules); import {module}; print(*(set(sys.modules) - before))"
    words = [sys.executable, "-S", "-c", _with_path(look)]
    loaded = subprocess.run(words, check=True, cwd=ROOT, stdout=subprocess.PIPE, text=True).stdout.split()
    assert set(heavy) & set(loaded) == set()
    assert loaded


def _with_path(look: str) -> str:
    """The same with the path of this Python: `-S` leaves out what start-up files of the environment would import."""
    return f"import sys; sys.path[:] = {[str(ROOT), *(path for path in sys.path if path)]!r}; {look}"


def test_every_module_says_what_it_exports() -> None:
    silent = []
    for path, tree in modules().items():
        assigned = [node.targets[0] for node in tree.body if isinstance(node, ast.Assign)]
        says = any(isinstance(each, ast.Name) and each.id == "__all__" for each in assigned)
        defines = any(isinstance(node, ast.FunctionDef | ast.ClassDef) for node in tree.body)
        if defines and not says:
            silent.append(str(path.relative_to(ROOT)))
    assert silent == []


def test_every_value_is_frozen_and_slotted() -> None:
    for path in modules():
        for node in (each for each in nodes(path) if isinstance(each, ast.ClassDef)):
            said = [ast.unparse(each) for each in node.decorator_list]
            for each in (one for one in said if one.split("(")[0] == "dataclass"):
                assert "frozen=True, slots=True" in each, (path, node)


def test_every_module_says_what_it_is_for() -> None:
    silent = [path for path, tree in modules().items() if tree.body and not ast.get_docstring(tree)]
    assert [str(path.relative_to(ROOT)) for path in silent] == []


def test_a_browser_is_opened_in_one_place_and_its_plain_page_is_shared() -> None:
    """A browser, and a window of it, cost more than most of what is tried in them."""
    found = {
        path.relative_to(ROOT).as_posix(): len(re.findall(r"chromium\.launch|[( ]chromium\(\)", text))
        for path in sorted((ROOT / "tests").rglob("*.py"))
        if path.name != "test_house.py"
        if "chromium" in (text := path.read_text(encoding="utf-8"))
    }
    opens = {path for path, times in found.items() if times and path.startswith("tests/outside/")}
    assert opens == {"tests/outside/opened_page.py", "tests/outside/conftest.py"}


def test_every_dear_test_that_the_short_run_leaves_out_is_there_and_ci_runs_it() -> None:
    told = tomllib.loads((ROOT / "tests" / "longer.toml").read_text(encoding="utf-8"))
    for room, names in told.items():
        for name, instead in names.items():
            file, _, test = name.partition("::")
            text = (ROOT / "tests" / room / file).read_text(encoding="utf-8")
            assert f"def {test.partition('[')[0]}(" in text, name
            assert instead
    assert "pytest -n auto --whole -m longer" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
