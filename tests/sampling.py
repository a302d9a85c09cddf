"""Of many near kin, some that always run; `pytest --whole` takes all of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest
from hypothesis import strategies as st

__all__ = ["LETTERS", "some"]

LETTERS = st.characters(exclude_categories=("Cs",))
"""Every letter that a file can hold: what `st.text()` draws from too, which takes a second to ask a codec of each."""


def some(cases: Iterable[Any], *, every: int, first: int = 0) -> list[Any]:
    """The cases for `pytest.mark.parametrize`: every so many, counted from `first`, always run; the others are `whole`.

    A case of several arguments is a tuple.
    """
    return [
        pytest.param(
            *(case if isinstance(case, tuple) else (case,)), marks=() if i % every == first else pytest.mark.whole
        )
        for i, case in enumerate(cases)
    ]
