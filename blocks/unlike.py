"""What was asked for and is not what came out: a sentence for every ease that the finished pieces do not have."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from blocks.handover import Drafted

__all__ = ["TOLD_FROM", "unlike_asked"]

TOLD_FROM: Final = 0.5
"""mm by which an ease may miss what was asked for without a word: what is promised of a measured length (README)."""

_MORE: Final = {
    "bust": "There are {by} mm {more} ease round the bust than asked for",
    "waist": "There are {by} mm {more} ease round the waist than asked for",
    "hip": "There are {by} mm {more} ease round the hip than asked for",
    "upper_arm": "There are {by} mm {more} ease round the upper arm than asked for",
    "elbow": "There are {by} mm {more} ease at the elbow than asked for",
    "wrist": "There are {by} mm {more} ease at the wrist than asked for",
    "across_back": "There are {by} mm {more} ease across the back than asked for",
    "neck": "There are {by} mm {more} ease round the neck than asked for",
    "cap_ease": "There are {by} mm {more} ease in the cap of the sleeve than asked for",
    "scye_depth": "The armhole is {by} mm {deeper} than asked for",
}


def unlike_asked(drafted: Drafted, asked: Mapping[str, float]) -> Iterator[str]:
    """A sentence for every place where the pieces of a block have another ease than was asked for, mm by place."""
    for place, has in drafted.given.items():
        off = has - asked[place]
        if abs(off) > TOLD_FROM:
            words = {"more": "more", "deeper": "deeper"} if off > 0.0 else {"more": "less", "deeper": "less deep"}
            why = drafted.because.get(place, "")
            by = f"{abs(off):.0f}" if abs(off) >= 9.5 else f"{abs(off):.1f}"
            yield f"{_MORE[place].format(by=by, **words)}{', ' if why else ''}{why}."
