"""What README and DEVELOPERS say: every command runs, every path is there, everything registered is named."""

from __future__ import annotations

import contextlib
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from blocks.block_table import BLOCKS
from drafting.alterations import ALTERATIONS
from drafting.checks import CHECKS
from output.command import main
from output.sheets.papers import PAPERS
from tests.sampling import some

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
(JOB,) = re.findall(r"trueseam draft examples/garments/\S+", README)  # drafted by a test of its own
SET_UP = "python3 -m venv .venv && .venv/bin/pip install -q -r constraints.txt && "


def fenced(kind: str, text: str = README) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```$", text, re.M | re.S)


def written(folder: Path) -> None:
    """The files of the README's TOML blocks, each where its first line says, beside the examples."""
    shutil.copytree(ROOT / "examples", folder / "examples")
    for block in fenced("toml"):
        path = folder / block.splitlines()[0].removeprefix("# ")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(block, encoding="utf-8")


def ran(words: list[str], folder: Path) -> subprocess.CompletedProcess[str]:
    """A command of ours, run as the README's reader would run it."""
    code = f"import sys; sys.path.insert(0, {str(ROOT)!r}); from output.command import main; sys.exit(main())"
    return subprocess.run([sys.executable, "-c", code, *words], check=False, cwd=folder, capture_output=True, text=True)


def all_run(commands: list[list[str]], folder: Path) -> None:
    """Commands of ours, one after another in this process, where what each needs is loaded already."""
    with contextlib.chdir(folder):
        assert [words for words in commands if main(words) != 0] == []


def test_two_lines_set_up_by_themselves_and_run_the_job_and_the_tests() -> None:
    job, tests = (line for block in fenced("sh") for line in block.splitlines() if line.startswith(SET_UP[:7]))
    assert job.startswith(SET_UP)
    assert " .venv/bin/trueseam draft examples/garments/ferry-dress.toml --to " in job
    assert tests.startswith(f"{SET_UP}.venv/bin/python -m pytest")


def test_the_job_line_writes_the_example_and_says_where_its_report_is(tmp_path: Path) -> None:
    written(tmp_path)
    (job,) = (line for block in fenced("sh") for line in block.splitlines() if "trueseam draft examples" in line)
    done = ran(on_large_paper(*shlex.split(job.partition("trueseam ")[2])), tmp_path)  # on its own paper: .ci/run
    assert done.returncode == 0, done.stdout + done.stderr
    report = next(iter(re.findall(r"\S+/report\.html", done.stdout)))
    assert (tmp_path / report).is_file()


def test_every_command_of_the_readme_runs(tmp_path: Path) -> None:
    written(tmp_path)
    commands = [line for block in fenced("sh") for line in block.splitlines() if line.startswith("trueseam ")]
    commands = [line for line in commands if not line.startswith("trueseam open")]  # never ends; tests/output/page
    assert len(commands) >= 8
    all_run([on_large_paper(*shlex.split(command)[1:]) for command in commands], tmp_path)


def on_large_paper(*words: str) -> list[str]:
    """A command as it stands; a draft whose paper it does not say on A0, which is sooner drawn than many sheets."""
    return [*words, "--paper", "A0"] if words[0] == "draft" and "--paper" not in words else list(words)


def test_every_file_of_the_readme_is_read(tmp_path: Path) -> None:
    for block in fenced("toml"):
        tomllib.loads(block)
    written(tmp_path)
    assert (tmp_path / "people" / "marit.toml").is_file()
    assert (tmp_path / "garments" / "harbour-skirt.toml").is_file()


ODA = str(ROOT / "examples" / "people" / "oda.toml")


@pytest.mark.parametrize(
    ("folder", "command"),
    [("people", ["measure"]), ("charts", ["size", ODA]), ("garments", ["check"])],
    ids=lambda each: each if isinstance(each, str) else "",
)
def test_every_example_runs(folder: str, command: list[str], tmp_path: Path) -> None:
    files = sorted((ROOT / "examples" / folder).glob("*.toml"))
    assert files
    all_run([[*command[:1], str(path), *command[1:]] for path in files], tmp_path)


@pytest.mark.parametrize("turn", some(range(6), every=6))
def test_every_garment_is_put_on_paper(turn: int, tmp_path: Path) -> None:
    files = [path for path in sorted((ROOT / "examples" / "garments").glob("*.toml")) if path.name not in JOB]
    all_run([["draft", str(path), "--to", path.stem, "--paper", "A0"] for path in files[turn::6]], tmp_path)


def test_no_folder_of_examples_is_left_out() -> None:
    assert {path.parent.name for path in ROOT.glob("examples/*/*.toml")} == {"people", "charts", "garments"}


def test_everything_registered_is_named_in_the_readme() -> None:
    named = [*(block.name for block in BLOCKS), *(entry.name for entry in ALTERATIONS)]
    assert [name for name in named if f"`{name}`" not in README] == []
    table = README[README.index("What there is today") :]
    assert [check.name for check in CHECKS if check.name not in table] == []
    assert [paper for paper in PAPERS if paper not in table] == []


def test_every_command_there_is_stands_in_the_readme(tmp_path: Path) -> None:
    told = ran(["--help"], tmp_path).stdout.partition("commands:\n")[2].partition("\n\n")[0]
    commands = re.findall(r"^  (\w+) ", told, re.M)
    assert {"draft", "check", "measure", "list"} <= set(commands)
    assert [name for name in commands if f"\ntrueseam {name} " not in README] == []


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README.md", "DEVELOPERS.md"])
def test_every_path_that_is_named_is_there(text: str) -> None:
    paths = re.findall(r"`((?:drafting|blocks|output|tests|examples|\.ci)/[\w./-]*)`", text)
    assert paths
    assert [path for path in paths if not (ROOT / path).exists()] == []


NAMED = r"`[A-Za-z_]\w*(?:\.[a-z_]\w*)?`"  # one of a module, or of a class of it
FILE = r"`([\w./-]+\.py)`"


def _names_in_files(text: str) -> set[tuple[str, str]]:
    """Every name that stands after its file ("`a.py`, `b`"), before it in brackets, or "in" it, with that file."""
    after = re.findall(rf"{FILE}((?:(?:, | and ){NAMED}(?! in `))+)", text)
    before = re.findall(rf"((?:{NAMED}(?:, | and ))*{NAMED}) (?:\(|in ){FILE}", text)
    told = [(file, names) for file, names in after] + [(file, names) for names, file in before]
    words = {(file, name) for file, names in told for name in re.findall(r"`([^`]+)`", names)}
    return {(file, name) for file, name in words if not re.search(r"\.(py|js|csv|css)$", name)}


def _makes(texts: list[str], name: str) -> bool:
    """Whether one of these files defines it: a function, a class, a parameter, or what something is assigned to."""
    made = re.compile(rf"^\s*(?:def|class) {name}\b|^\s*{name}(?:: .*)? = |\b{name}: \w", re.M)
    return any(made.search(text) for text in texts)


def test_every_function_that_is_named_with_its_file_stands_in_it() -> None:
    """A reader who follows "Follow one number" or the map opens that file and looks for that name."""
    named = _names_in_files(DEVELOPERS)
    assert ("drafting/alterations/__init__.py", "apply_step") in named
    assert len(named) > 60
    files = [path for room in ("drafting", "blocks", "output", "tests") for path in (ROOT / room).rglob("*.py")]
    texts = {
        file: [path.read_text(encoding="utf-8") for path in files if f"/{path}".endswith(f"/{file}")]
        for file, _ in named
    }
    wrong = [
        (file, name) for file, name in sorted(named) if not all(_makes(texts[file], part) for part in name.split("."))
    ]
    assert wrong == []


def test_every_module_that_is_to_be_run_is_there() -> None:
    modules = set(re.findall(r"python -m ((?:tests|drafting|output)[\w.]*)", DEVELOPERS))
    assert {"tests.sweep", "tests.bench", "tests.golden"} <= modules
    for module in modules:
        path = ROOT / module.replace(".", "/")
        assert path.with_suffix(".py").is_file() or (path / "__main__.py").is_file(), module


def test_every_command_of_the_tests_stands_in_the_table_of_commands() -> None:
    begins = re.compile(r"^    python -m (tests\.\w+)", re.M)
    told = [begins.findall(path.read_text(encoding="utf-8")[:1500]) for path in (ROOT / "tests").glob("*.py")]
    commands = {name for names in told for name in names}
    assert {"tests.sweep", "tests.sweep_parts", "tests.pairs"} <= commands
    assert [name for name in sorted(commands) if f"| `python -m {name}" not in DEVELOPERS] == []


@pytest.mark.parametrize("word", ["DEVELOPERS.md", "LICENSE"])
def test_the_readme_leads_on(word: str) -> None:
    assert word in README
    assert (ROOT / word).is_file()


def test_the_rule_of_direction_is_that_of_the_contracts() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    block = text[text.index("## The rule of direction") :].split("```")[1]
    told = {name: _layers(rest) for name, rest in re.findall(r"^(\w+):((?:.*\n)(?:^ .*\n)*)", block, re.M)}
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"][
        "contracts"
    ]
    kept = {
        each["containers"][0].rpartition(".")[2]: [_layer(layer) for layer in each["layers"]]
        for each in contracts
        if each["type"] == "layers" and "containers" in each
    }
    assert told.keys() == {"drafting", "alterations", "techniques", "blocks", "from_file", "remedies", "output"}
    assert told == {name: kept[name] for name in told}


def _layers(text: str) -> list[set[str]]:
    return [_layer(layer) for layer in text.split("->")]


def _layer(text: str) -> set[str]:
    return {module.strip() for module in text.split("|")}
