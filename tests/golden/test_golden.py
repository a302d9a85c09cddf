"""The patterns of the examples, and all options, as when last looked at; `python -m tests.golden` writes them anew."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from blocks.block_table import BLOCKS
from blocks.garment import finish
from blocks.garment_file import read_garment
from drafting.alterations import ALTERATIONS
from output.sheets.papers import PAPERS
from tests.golden.digest import digest, options_digest

GOLDEN = Path(__file__).parent
_GARMENTS = GOLDEN.parents[1] / "examples" / "garments"


@cache
def digests() -> dict[str, str]:
    """The digest of each example garment by the name of its golden file, and that of all options."""
    garments = {
        f"{path.stem}.txt": digest(finish(read_garment(path, papers=tuple(PAPERS))))
        for path in sorted(_GARMENTS.glob("*.toml"))
    }
    return garments | {"options.txt": options_digest((each.name, each.options) for each in (*BLOCKS, *ALTERATIONS))}


@pytest.mark.parametrize("name", sorted({*digests(), *(path.name for path in GOLDEN.glob("*.txt"))}))
def test_it_comes_out_as_it_did(name: str) -> None:
    kept = (GOLDEN / name).read_text(encoding="utf-8").splitlines()
    assert digests()[name].splitlines() == kept
