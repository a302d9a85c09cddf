"""What may be written for the keys of a table: one word that is shown, and others that people use for the same."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import field
from functools import lru_cache
from types import MappingProxyType

from drafting.dataclass import dataclass

__all__ = ["Words", "file_word"]

_FILLING = frozenset(
    (
        "girth",
        "circumference",
        "measurement",
        "measure",
        "size",
        "round",
        "around",
        "full",
        "the",
        "my",
        "body",
        "total",
    )
)
"""Words that say nothing more about a measurement: "waist circumference" is the waist."""


@lru_cache(maxsize=4096)
def file_word(name: str) -> str:
    """A name as it is written in a file: small letters, words joined by _ ("back waist length": back_waist_length)."""
    joined = "_".join(re.findall(r"[^\W_]+", name.casefold()))
    return joined.replace("center", "centre")


@dataclass(frozen=True, slots=True)
class Words:
    """The words of a table.

    names:   for each key the word that is shown, as it is written in a file
    also:    other words, each with the key it stands for
    unclear: words that may mean one thing or another, or something that is not asked for here, with what to tell
    listed:  where all of them can be looked up; "" where they are few enough to be listed
    """

    names: Mapping[str, str] = field(default_factory=dict)
    also: Mapping[str, str] = field(default_factory=dict)
    unclear: Mapping[str, str] = field(default_factory=dict)
    listed: str = ""
    _keys: Mapping[str, str] = field(init=False, repr=False, default_factory=dict)

    def __post_init__(self) -> None:
        keys = {file_word(key): key for key in self.names}
        keys |= {file_word(word): key for word, key in self.also.items()}
        keys |= {file_word(name): key for key, name in self.names.items()}
        object.__setattr__(self, "_keys", MappingProxyType(keys))
        object.__setattr__(self, "unclear", {file_word(word): answer for word, answer in self.unclear.items()})

    def key(self, written: str) -> str:
        """The key that a word stands for; the word itself, in small letters, where it stands for none."""
        word = file_word(written)
        if word in self._keys or word in self.unclear or not self._keys:
            return self._keys.get(word, word or written)
        bare = "_".join(part for part in word.split("_") if part not in _FILLING)
        return self._keys.get(bare, word or written)

    def called(self, key: str) -> str:
        """The word that is shown for a key."""
        return self.names.get(key, key)

    def explanation(self, written: str) -> str:
        """The answer for whoever wrote a word that may mean several things; "" for every other word."""
        return self.unclear.get(file_word(written), "")
