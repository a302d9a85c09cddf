"""The state document: what the page is answered whenever it looks, tries, changes, undoes or does again."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

from output.page.request import as_json
from output.page.undo_log import hash_of
from output.page.views import ALL, parts
from output.page.views.shown import Shown

__all__ = ["State", "parts_of", "state_json"]


@dataclass(frozen=True, slots=True)
class State:
    """What is answered beside the parts.

    file:     the name of the garment's file; version: of its text and its wearer's; unit: in which lengths are told
    problems: what cannot be read or had: {in, at, sentences, offers}, at None for the whole file (`refusals.py`)
    written:  whether the files were changed
    asks:     which of two values is to stand, where another hand has changed the same: {sentence, at, here, there}
    more:     whether there is more to ask for than the pieces that are told here
    """

    file: str
    version: str
    unit: str
    problems: tuple[Mapping[str, Any], ...] = ()
    written: bool = False
    asks: Mapping[str, Any] | None = None
    more: bool = False


def parts_of(shown: Shown, looked_at: Collection[str]) -> dict[str, str]:
    """The parts of these names and every piece, as JSON, by name."""
    return {name: as_json(data) for name, data in parts(shown, looked_at)}


def state_json(state: State, parts: Mapping[str, str], have: Mapping[str, str], *, trying: bool = False) -> bytes:
    """The whole document.

    have:   the hashes of the parts that the page has already; these are not sent again
    trying: whether a part that is not told stays as it is
    """
    rests = {name: have[name] for name in ALL if trying and name in have}
    hashes = rests | {name: hash_of(text) for name, text in parts.items()}
    new = ",".join(f"{as_json(name)}:{text}" for name, text in parts.items() if have.get(name) != hashes[name])
    rest = {
        "file": state.file,
        "version": state.version,
        "unit": state.unit,
        "hashes": hashes,
        "gone": [name for name in have if name not in hashes],
        "problems": list(state.problems),
        "written": state.written,
        "asks": state.asks,
        "more": state.more,
    }
    return f'{{"parts":{{{new}}},{as_json(rest)[1:]}'.encode()
