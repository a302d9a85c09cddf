"""The patterns of the examples as they were when last looked at; `python -m tests.golden` writes them anew."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from blocks.garment import finish
from blocks.garment_file import read_garment
from output.sheets.papers import PAPERS
from tests.golden.digest import digest

GOLDEN = Path(__file__).parent
_GARMENTS = GOLDEN.parents[1] / "examples" / "garments"


@cache
def digests() -> dict[str, str]:
    """The digest of each example garment by the name of its golden file."""
    return {
        f"{path.stem}.txt": digest(finish(read_garment(path, papers=tuple(PAPERS))))
        for path in sorted(_GARMENTS.glob("*.toml"))
    }


def test_every_example_comes_out_as_it_did() -> None:
    kept = {path.name: path.read_text(encoding="utf-8") for path in sorted(GOLDEN.glob("*.txt"))}
    assert digests() == kept
