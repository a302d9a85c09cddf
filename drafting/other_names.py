"""Other words for blocks, parts and what a file may choose: "pants" for trousers, as it is said in one country or shop.

They are common practice. A file is answered with the name to write; `trueseam list` takes either.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

__all__ = ["named_otherwise", "other_names"]

_OTHERS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "trousers": ("pants", "slacks", "shorts", "culottes", "capris"),
        "knit top": ("tee", "t-shirt", "tshirt", "tee shirt", "jersey top", "sweater", "sweatshirt", "cardigan"),
        "knit sleeve": ("tee sleeve", "t-shirt sleeve"),
        "dungarees": ("overalls", "bib overalls"),
        "romper": ("onesie", "sleepsuit", "playsuit"),
        "gored skirt": ("panelled skirt", "paneled skirt", "A-line skirt"),
        "blouse": ("shirt", "woven top", "tunic"),
        "flat collar": ("peter pan collar", "peter pan"),
        "shirt collar": ("button-down collar", "button down collar", "collar with stand"),
        "stand collar": ("mandarin collar", "band collar", "stand-up collar"),
        "turn-over collar": ("convertible collar", "camp collar"),
        "sailor collar": ("middy collar", "middy"),
        "neck binding": ("bias binding", "bias neck", "bias facing", "bias tape"),
        "armhole binding": ("bias armhole", "armhole bias"),
        "hem binding": ("bias hem",),
        "ties": ("waist tie", "tie belt", "string"),
        "sash": ("belt", "cloth belt"),
        "belt loops": ("belt carrier",),
        "button loops": ("rouleau loop", "loop fastening", "fabric loop"),
        "sleeve tabs": ("roll-up tab", "roll tab"),
        "neck band": ("neckband", "ribbing", "neck ribbing"),
        "wrist elastic": ("sleeve elastic", "elastic sleeve", "elastic cuff"),
        "waist elastic": (
            "elastic waist",
            "elastic waistband",
            "pull-on",
            "pull-on trousers",
            "pull-on pants",
            "pull-on skirt",
        ),
        "fly": ("fly front", "fly zip", "zip fly", "front fly"),
        "combined facing": ("all in one facing", "all-in-one facing"),
        "waistband": ("waist band",),
        "shaped band": ("shaped waistband", "contour waistband", "curved waistband"),
        "smock": ("square yoke", "smock dress"),
        "nappy": ("diaper",),
        "button shoulder": ("snap shoulder",),
    }
)
"""For each name, what else it is called."""


def other_names(name: str) -> tuple[str, ...]:
    """What else something of that name is called; none for most."""
    return _OTHERS.get(name, ())


def named_otherwise(written: str, known: Iterable[str]) -> str:
    """That of the known names which is called by this word as well; "" where none is."""
    plain = _letters(written)
    return next((name for name in known if plain in map(_letters, other_names(name))), "")


def _letters(text: str) -> str:
    """Its letters alone, of one and not of several: "T-Shirts" is "tshirt"."""
    return re.sub(r"[^\w]|_", "", text.casefold()).removesuffix("s")
