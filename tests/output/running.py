"""The command run in this process, and files for it to work on."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from output.command import main

EXAMPLES = Path(__file__).parents[2] / "examples"
FERRY = EXAMPLES / "garments" / "ferry-dress.toml"
ODA = EXAMPLES / "people" / "oda.toml"

PERSON = """\
name = "Inga"
body = "woman"
unit = "cm"
[measurements]
stature = 168
bust_girth = 96
waist_girth = 78
hip_girth = 104
"""
SKIRT = """\
title = "Quay skirt"
wearer = "inga.toml"
[[block]]
name = "skirt"
length = "55 cm"
"""


@dataclass(frozen=True)
class Ran:
    """How a command ended: its exit status and what it wrote."""

    status: int
    out: str
    err: str

    @property
    def data(self) -> Any:
        """Standard output as JSON: fails where anything else stands there."""
        return json.loads(self.out)


def ran(capsys: pytest.CaptureFixture[str], *words: str | Path) -> Ran:
    """The command run on these words."""
    capsys.readouterr()
    status = main([str(word) for word in words])
    out, err = capsys.readouterr()
    return Ran(status, out, err)


def written(folder: Path, garment: str = SKIRT, person: str = PERSON) -> Path:
    """A garment file and its wearer's, in a folder; the path of the garment file."""
    (folder / "inga.toml").write_text(person, encoding="utf-8")
    path = folder / "skirt.toml"
    path.write_text(garment, encoding="utf-8")
    return path


def everything_in(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, hidden ones too, by its name."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
