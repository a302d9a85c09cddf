"""What people call the places of an outline, and which place each word means."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from drafting.pattern.places import Place
from drafting.reading.key_words import file_word

__all__ = ["place_called"]

_ALSO: Final[Mapping[Place, tuple[str, ...]]] = {
    Place.NECK: ("neckline", "neck edge"),
    Place.SHOULDER: ("shoulder seam",),
    Place.ARMHOLE: ("scye", "armscye", "arm hole"),
    Place.SIDE: ("side",),
    Place.UNDERARM: ("underarm", "sleeve seam"),
    Place.CAP: ("cap", "sleeve head", "crown"),
    Place.WAIST: ("waistline", "waist seam"),
    Place.HIP: ("hipline",),
    Place.HEM: ("hemline", "hem edge"),
    Place.WRIST: ("sleeve hem", "wrist edge"),
    Place.LEG_OPENING: ("leg hem", "ankle"),
    Place.CENTRE_FRONT: ("front centre", "cf"),
    Place.CENTRE_BACK: ("back centre", "cb"),
    Place.INSEAM: ("inside leg", "inside leg seam"),
    Place.OUTSEAM: ("outside leg", "outside leg seam"),
    Place.CROTCH: ("crotch seam", "crotch curve"),
    Place.YOKE: ("yoke",),
    Place.EMPIRE: ("under-bust seam", "underbust seam"),
    Place.PRINCESS: ("princess line",),
    Place.RAGLAN: ("raglan",),
}
"""Other words of the trade for a place (common practice)."""

_BY_WORD: Final = {file_word(word): place for place, words in _ALSO.items() for word in words} | {
    file_word(place): place for place in Place
}


def place_called(word: str) -> Place | None:
    """The place that a word means, in capitals or not, "center" or "centre"; None for a word that means none."""
    return _BY_WORD.get(file_word(word))
