"""What a command loads before it begins: no more than it needs."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.output.running import written


def test_the_version_is_told_before_anything_heavy_is_imported() -> None:
    code = "import sys; from output.command import main; main(['--version']); print(*sorted(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.splitlines()[1].split())
    assert not loaded & {"argparse", "numpy", "scipy", "rich", "ezdxf", "drafting.geometry", "typing", "re"}


def test_a_check_loads_nothing_that_only_a_draft_needs(tmp_path: Path) -> None:
    words = ["check", str(written(tmp_path))]
    code = f"import sys; from output.command import main; main({words}); print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.splitlines()[-1].split())
    assert "output.command.check" in loaded
    too_much = {"numpy", "shapely", "pikepdf", "output.lay", "output.sheets.large_sheet", "drafting.sewing"}
    assert not loaded & too_much
