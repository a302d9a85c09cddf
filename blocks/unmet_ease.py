"""What was asked for and is not what came out: a sentence for every ease that the finished pieces do not have."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from blocks.handover import Drafted

__all__ = ["TOLD_FROM", "unmet_ease"]

TOLD_FROM: Final = 0.5
"""mm by which an ease may miss what was asked for without a word: what is promised of a measured length (README)."""

_MORE: Final = {
    "bust": "The ease round the bust is {by} mm {more} than asked for",
    "waist": "The ease round the waist is {by} mm {more} than asked for",
    "hip": "The ease round the hip is {by} mm {more} than asked for",
    "upper_arm": "The ease round the upper arm is {by} mm {more} than asked for",
    "elbow": "The ease at the elbow is {by} mm {more} than asked for",
    "wrist": "The ease at the wrist is {by} mm {more} than asked for",
    "across_back": "The ease across the back is {by} mm {more} than asked for",
    "neck": "The ease round the neck is {by} mm {more} than asked for",
    "cap_ease": "The ease in the cap of the sleeve is {by} mm {more} than asked for",
    "scye_depth": "The armhole is {by} mm {deeper} than asked for",
}


def unmet_ease(drafted: Drafted, asked: Mapping[str, float]) -> Iterator[str]:
    """A sentence for every place where the pieces of a block have another ease than was asked for, mm by place."""
    for place, has in drafted.given.items():
        off = has - asked[place]
        if abs(off) > TOLD_FROM:
            words = {"more": "more", "deeper": "deeper"} if off > 0.0 else {"more": "less", "deeper": "less deep"}
            why = drafted.because.get(place, "")
            by = f"{abs(off):.0f}" if abs(off) >= 9.5 else f"{abs(off):.1f}"
            yield f"{_MORE[place].format(by=by, **words)}{', ' if why else ''}{why}."
