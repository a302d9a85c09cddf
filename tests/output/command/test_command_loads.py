"""What a command loads before it begins: no more than it needs."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.output.running import written

_TOLD = "print(os.environ.get('OPENBLAS_NUM_THREADS'), *sys.modules)"


def _ran(call: str, *words: str) -> tuple[str, set[str]]:
    """What stands in the environment for the threads of numpy's matrices after a call, and what was imported by it."""
    code = f"import os, sys; from output.command import main; {call}; {_TOLD}"
    bare = {key: value for key, value in os.environ.items() if key != "OPENBLAS_NUM_THREADS"}
    command = [sys.executable, "-c", code, *words]
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=bare)
    threads, *loaded = done.stdout.splitlines()[-1].split()
    return threads, set(loaded)


def test_the_version_is_told_before_anything_heavy_is_imported() -> None:
    threads, loaded = _ran("main(['--version'])")
    assert threads == "None"  # the process is not all ours
    assert not loaded & {"argparse", "numpy", "scipy", "rich", "ezdxf", "drafting.geometry", "typing", "re"}


def test_a_check_loads_nothing_that_only_a_draft_needs(tmp_path: Path) -> None:
    threads, loaded = _ran("main()", "check", str(written(tmp_path)))
    assert "output.command.check" in loaded
    assert threads == "1"  # and numpy, which reads it once, is not among what follows
    too_much = {"numpy", "shapely", "pikepdf", "output.lay", "output.sheets.large_sheet", "drafting.sewing"}
    assert not loaded & too_much
