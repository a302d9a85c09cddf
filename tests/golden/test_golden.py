"""The patterns of the examples, and all options, as when last looked at; `python -m tests.golden` writes them anew."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from blocks.block_table import BLOCKS
from drafting.alterations import ALTERATIONS
from tests.examples import NAMES, example_pattern
from tests.golden.digest import digest, options_digest

GOLDEN = Path(__file__).parent


@cache
def digests() -> dict[str, str]:
    """The digest of each example garment by the name of its golden file, and that of all options."""
    garments = {f"{name}.txt": digest(example_pattern(name)) for name in NAMES}
    return garments | {"options.txt": options_digest((each.name, each.options) for each in (*BLOCKS, *ALTERATIONS))}


@pytest.mark.parametrize(
    "name", sorted({"options.txt", *(f"{name}.txt" for name in NAMES), *(path.name for path in GOLDEN.glob("*.txt"))})
)
def test_it_comes_out_as_it_did(name: str) -> None:
    kept = (GOLDEN / name).read_text(encoding="utf-8").splitlines()
    assert digests()[name].splitlines() == kept
