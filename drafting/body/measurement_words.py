"""What a person may call each measurement in her file, and what to say where a word stands for none or for several."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from drafting.body.terms import MEASUREMENTS, BodyKind
from drafting.reading.key_words import Words

__all__ = ["measurement_words"]

_FRONT = "down the middle of the front, from the hollow of the neck to the waist, is front_waist_length"
_BACK = "Down the back from the nape to the waist is back_waist_length"
_SHOULDERS = "From the neck to the shoulder bone is shoulder_length, from bone to bone shoulder_to_shoulder."
_ACROSS = "It is not asked for here: leave it out. The front is drawn from bust, high_bust and across_back."
_CUP = "It is not asked for here, bust and high_bust tell it: leave it out."

_UNCLEAR: Mapping[str, str] = MappingProxyType(
    {
        "chest": "Round the fullest part is bust, above it and high under the arms high_bust.",
        "shoulder width": _SHOULDERS,
        "shoulders": _SHOULDERS,
        "neck to waist": f"{_BACK}, {_FRONT}.",
        "waist length": f"{_BACK}, {_FRONT}.",
        "shoulder to waist": f"{_BACK}, {_FRONT}.",
        "front length": f"What is asked for here, {_FRONT}.",
        "side neck to waist": f"What is asked for here, {_FRONT}.",
        "arm": "Round the upper arm is upper_arm, from the shoulder bone to the wrist arm_length.",
        "across front": _ACROSS,
        "front width": _ACROSS,
        "weight": "It is not asked for here, no pattern is drawn from it: leave it out.",
        "age": "It is not asked for here: leave it out. For a child, born = 2019-05-04 stands at the top of the file.",
        "cup": _CUP,
        "cup size": _CUP,
        "bra size": _CUP,
        "dress size": "A body is told by its measurements here: leave it out.",
        "clothes size": "A body is told by its measurements here: leave it out.",
        "skirt length": 'It belongs to the garment: length = ... below its [[block]] named "skirt".',
        "dress length": 'It belongs to the garment: length = ... below its [[block]] named "skirt".',
        "waist to knee": "It is not asked for by itself: waist_to_floor and knee_to_floor give it.",
        "crotch depth": "It is not asked for by itself: waist_to_floor and inside_leg give it.",
        "body rise": "It is not asked for by itself: waist_to_floor and inside_leg give it.",
    }
)
"""Words that stand for no one measurement, each with what to tell whoever writes it."""


@cache
def measurement_words(body: BodyKind) -> Words:
    """What measurements may be called in a file: by the name shown, by its key, by any word in common use for it."""
    also = {word: each.key for each in MEASUREMENTS for word in (each.name, each.term, *each.also) if word != "own"}
    unclear = dict(_UNCLEAR)
    if body != "woman":
        also["chest"] = "bust_girth"
        del unclear["chest"]
    return Words({each.key: each.word for each in MEASUREMENTS}, also, unclear, "trueseam list measurements")
