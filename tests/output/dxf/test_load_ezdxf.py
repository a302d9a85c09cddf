"""The DXF library takes no settings of the user's, and leaves nothing in her folders."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[3]
LOADED = "from output.dxf.load_ezdxf import load_ezdxf; load_ezdxf(); import ezdxf; import os, sys; "
SAID = "print(ezdxf.options.loaded_config_files, ezdxf.options.default_dimension_text_style, sorted(os.environ) == env)"


SETTINGS = b"[core]\nDEFAULT_DIMENSION_TEXT_STYLE = hers\n"


HERS = {
    "ezdxf.ini": SETTINGS,
    ".config/ezdxf/ezdxf.ini": b"no settings",
    ".cache/ezdxf/font_manager_cache.json": b"\xff\xfe[",
    "x": b"\xff\xfe[",
}
"""Each of which, were it read, would be told of or stop the program."""


def test_no_file_of_hers_is_read_or_made(tmp_path: Path) -> None:
    for place, content in HERS.items():
        path = tmp_path / place
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    before = sorted(tmp_path.rglob("*"))
    given = {"HOME": str(tmp_path), "PYTHONPATH": str(ROOT), "EZDXF_CONFIG_FILE": str(tmp_path / "x")}
    given |= {name: os.environ[name] for name in ("PATH", "SYSTEMROOT") if name in os.environ}
    script = f"import os; env = sorted(os.environ); {LOADED}{SAID}"
    words = [sys.executable, "-c", script]
    ended = subprocess.run(words, check=False, cwd=tmp_path, env=given, capture_output=True, text=True)
    assert (ended.returncode, ended.stderr) == (0, "")
    assert "hers" not in ended.stdout
    assert ended.stdout.endswith(" OpenSansCondensed-Light True\n")
    assert sorted(tmp_path.rglob("*")) == before
