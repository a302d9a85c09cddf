"""A valid document with a few values in it exchanged, dropped or doubled: as by a careless hand."""

from __future__ import annotations

import copy
from typing import Any

from hypothesis import strategies as st

from tests.sampling import LETTERS

_STRANGE = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.floats(-1000.0, 1000.0),
    st.text(LETTERS, max_size=5),
    st.sampled_from([[], {}, [[]], [0.0, 0.0], {"": 1}, "hip", "side seam", "skirt back", 1e9, -1, 10**400]),
)


def _containers(value: object) -> list[Any]:
    """Every list and table in a document."""
    if not isinstance(value, dict | list):
        return []
    inner = value.values() if isinstance(value, dict) else value
    return [value, *(found for part in inner for found in _containers(part))]


@st.composite
def mutated(draw: st.DrawFn, document: dict[str, Any]) -> Any:
    """The document with one to four changes anywhere in it."""
    table = copy.deepcopy(document)
    for _ in range(draw(st.integers(1, 4))):
        holder = draw(st.sampled_from([found for found in _containers(table) if found]))
        key = draw(st.sampled_from(sorted(holder) if isinstance(holder, dict) else range(len(holder))))
        deed = draw(st.sampled_from(["exchange", "drop", "double", "rename"]))
        if deed == "exchange":
            holder[key] = copy.deepcopy(draw(_STRANGE))
        elif deed == "drop":
            del holder[key]
        elif isinstance(holder, list):
            holder.insert(key, copy.deepcopy(holder[key]))
        else:
            holder[draw(st.text(LETTERS, max_size=4))] = (
                holder.pop(key) if deed == "rename" else copy.deepcopy(holder[key])
            )
    return table
