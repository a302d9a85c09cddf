"""Garments of every kind after each alteration, as when last looked at (`python -m tests.golden`)."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Final

import pytest

from tests.alteration_samples import SAMPLES, TROUSER_SAMPLES
from tests.drafting.checks.test_trousers_checks import jumpsuit
from tests.drafting.sizes import sized
from tests.golden.altered import altered_digest, choices_digest, rows_digest, wardrobe_digest
from tests.golden.one_after_another import ROWS
from tests.wardrobe import KINDS


def _file(kind: str) -> str:
    return kind.replace(" ", "-").replace("'", "")


ALTERED: Final = Path(__file__).parent / "altered"
_SHOWN_BY_OTHERS: Final = ("dress", "bodice and sleeve", "child's circle dress")
PAGES: Final[dict[str, Callable[[], str]]] = {
    "dress": lambda: altered_digest(sized(92), SAMPLES),
    "choices": lambda: choices_digest(sized(92), SAMPLES),
    "jumpsuit": lambda: altered_digest(jumpsuit(), TROUSER_SAMPLES),
    **{
        _file(kind.name): partial(wardrobe_digest, kind, turn)
        for turn, kind in enumerate(KINDS)
        if kind.name not in _SHOWN_BY_OTHERS
    },
    **{f"in-a-row-{_file(kind)}": partial(rows_digest, kind, rows) for kind, rows in ROWS.items()},
}


def pages() -> Iterator[tuple[str, str]]:
    """Every page by the name of its file."""
    return ((f"altered/{name}.txt", page()) for name, page in PAGES.items())


@pytest.mark.parametrize("name", PAGES)
def test_every_alteration_makes_of_a_garment_what_it_made(name: str) -> None:
    kept = (ALTERED / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    assert PAGES[name]().splitlines() == kept
