"""However the command is cut off or left without a hearer, it ends with a sentence and the status that says so."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from output.command.streams import OUTPUT_FAILED, STOPPED
from tests.output.running import PERSON, SKIRT, written
from tests.sampling import some

ROOT = Path(__file__).parents[3]
OURS = (sys.executable, "-m", "output.command")
FULL = Path("/dev/full")
UNTOLD_WORDS = "What there is to tell could not be written to standard output"

TIGHT = SKIRT + 'ease = { hip = "1 cm" }\n'


def environment(**more: str) -> dict[str, str]:
    plain = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "LC_", "LANG"))}
    return {**plain, "PYTHONPATH": str(ROOT), **more}


def words_for(what: str, folder: Path) -> list[str]:
    path = written(folder, TIGHT)
    return {
        "draft": ["draft", str(path), "--to", str(folder / "out"), "--paper", "A0"],
        "check in JSON": ["check", str(path), "--json"],
        "help": ["draft", "--help"],
        "version": ["--version"],
    }[what]


@pytest.mark.skipif(not FULL.exists(), reason="the device that is always full is one of Linux")
@pytest.mark.parametrize(
    ("what", "unbuffered"),
    [("draft", {}), ("check in JSON", {"PYTHONUNBUFFERED": "1"}), ("help", {}), ("version", {"PYTHONUNBUFFERED": "1"})],
    ids=lambda each: each if isinstance(each, str) else " ".join(each),
)
def test_standard_output_that_is_full(what: str, unbuffered: dict[str, str], tmp_path: Path) -> None:
    with FULL.open("w") as full:
        done = subprocess.run(
            [*OURS, *words_for(what, tmp_path)],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
            cwd=tmp_path,
            env=environment(**unbuffered),
        )
    assert done.returncode == OUTPUT_FAILED
    (said,) = done.stderr.splitlines()
    assert said.startswith(f"{UNTOLD_WORDS} (no space left on device)")
    assert (tmp_path / "out" / "report.html").exists() == (what == "draft")


@pytest.mark.parametrize("what", [pytest.param("draft", marks=pytest.mark.whole), "check in JSON", "version"])
def test_standard_output_that_is_closed(what: str, tmp_path: Path) -> None:
    shell = 'exec "$@" >&-'
    done = subprocess.run(
        ["/bin/sh", "-c", shell, "sh", *OURS, *words_for(what, tmp_path)],
        stderr=subprocess.PIPE,
        text=True,
        check=False,
        cwd=tmp_path,
        env=environment(),
    )
    assert done.returncode == OUTPUT_FAILED
    (said,) = done.stderr.splitlines()
    assert said.startswith(f"{UNTOLD_WORDS} (it is closed)")
    assert (tmp_path / "out" / "report.html").exists() == (what == "draft")


@pytest.mark.parametrize("ends", [">&- 2>&-", "2>&-", "2>/dev/full", "--json >/dev/full 2>/dev/full"])
def test_a_refusal_that_nobody_can_be_told_has_its_status_all_the_same(ends: str, tmp_path: Path) -> None:
    words = ["/bin/sh", "-c", f'exec "$@" {ends}', "sh", *OURS, "check", "nowhere.toml"]
    done = subprocess.run(words, capture_output=True, text=True, check=False, cwd=tmp_path, env=environment())
    assert (done.returncode, done.stdout, done.stderr) == (2, "", "")


def test_a_refusal_for_a_program_is_told_to_the_person_where_standard_output_is_full(tmp_path: Path) -> None:
    words = ["/bin/sh", "-c", 'exec "$@" >/dev/full', "sh", *OURS, "check", "nowhere.toml", "--json"]
    done = subprocess.run(words, capture_output=True, text=True, check=False, cwd=tmp_path, env=environment())
    assert done.returncode == 2
    assert done.stderr.startswith("nowhere.toml: read no such file")


STOPPED_AT = """
import os, signal, sys
def hook(event, given):
    if (event == "import" and given[0] == AT) or (event == "os.rename" and AT in str(given[1])):
        os.kill(os.getpid(), signal.SIGINT)
sys.addaudithook(hook)
from output.command import main
sys.exit(main())
"""


@pytest.mark.parametrize(
    "moment",
    some(
        (
            "output.command.run_command",
            "argparse",
            "numpy",
            "output.dxf.dxf_file",
            "trueseam-files.json",
            "report.html",
            "output.report.table_text",
        ),
        every=2,
    ),
)
def test_stopped_while_modules_load_or_files_are_written(moment: str, tmp_path: Path) -> None:
    """The signal is a real one, sent before that module is loaded or that file put in its place."""
    words = words_for("draft", tmp_path)
    done = subprocess.run(
        [sys.executable, "-c", f"AT = {moment!r}\n{STOPPED_AT}", *words],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        env=environment(),
    )
    assert (done.returncode, done.stdout) == (STOPPED, "")
    assert done.stderr == "Stopped. Nothing is left half written.\n"
    left = set(os.listdir(tmp_path)) - {"skirt.toml", "inga.toml"}
    # all that is told of stands on the disk before it is put into lines
    assert left == ({"out"} if moment == "output.report.table_text" else set())


def test_stopped_again_while_it_stops_it_says_so_once(tmp_path: Path) -> None:
    once = "os.kill(os.getpid(), signal.SIGINT)"
    twice = STOPPED_AT.replace(once, f"\n        try:\n            {once}\n        finally:\n            {once}")
    words = [sys.executable, "-c", f"AT = 'numpy'\n{twice}", *words_for("draft", tmp_path), "--json"]
    done = subprocess.run(words, capture_output=True, text=True, check=False, cwd=tmp_path, env=environment())
    assert (done.returncode, done.stderr) == (STOPPED, "")
    assert json.loads(done.stdout) == {"problems": [{"sentence": "Stopped. Nothing is left half written."}]}


def test_a_stop_that_python_cannot_raise_is_answered_and_not_only_printed(tmp_path: Path) -> None:
    code = """
import os, signal, sys
from output.command import streams
streams.stop_once()
class Odd:
    def __del__(self):
        os.kill(os.getpid(), signal.SIGINT)
        for _ in range(1000): pass
Odd()
print("went on")
"""
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, cwd=tmp_path, env=environment()
    )
    assert (done.returncode, done.stdout) == (STOPPED, "")
    assert done.stderr == "Stopped. Nothing is left half written.\n"


@pytest.mark.parametrize(
    ("more", "command"),
    some(
        [
            ({"LC_ALL": "C", "PYTHONIOENCODING": "ascii"}, "measure"),
            ({"LC_ALL": "C", "PYTHONIOENCODING": "ascii"}, "draft"),
            ({"LC_ALL": "POSIX", "PYTHONUTF8": "0"}, "check"),
        ],
        every=2,
    ),
)
def test_a_terminal_that_has_ascii_only(more: dict[str, str], command: str, tmp_path: Path) -> None:
    person = PERSON.replace('"Inga"', '"Åse Ñandú 裁縫 ½"')
    garment = SKIRT.replace("Quay skirt", "Kjøl skjørt “blå”")
    path = written(tmp_path, garment, person)
    env = environment(PYTHONCOERCECLOCALE="0", **more)
    words = {
        "draft": ["draft", str(path), "--to", str(tmp_path / "øl"), "--paper", "A0"],
        "check": ["check", str(path)],
        "measure": ["measure", "inga.toml"],
    }[command]
    plain = subprocess.run([*OURS, *words], capture_output=True, check=False, cwd=tmp_path, env=env)
    assert (plain.returncode, plain.stderr) == (0, b"")
    told = subprocess.run([*OURS, *words, "--json"], capture_output=True, check=False, cwd=tmp_path, env=env)
    assert (told.returncode, told.stderr) == (0, b"")
    data = json.loads(told.stdout.decode("ascii" if "PYTHONIOENCODING" in more else "utf-8"))
    assert (data.get("title") or "Kjøl skjørt “blå”") == "Kjøl skjørt “blå”"
    assert "Åse Ñandú 裁縫 ½" in json.dumps(data, ensure_ascii=False)
    refused = subprocess.run([*OURS, "check", "ø.toml"], capture_output=True, check=False, cwd=tmp_path, env=env)
    assert refused.returncode == 2
    assert b"no such file" in refused.stderr
