"""Other words for blocks, parts and what a file may choose: "pants" for trousers, as it is said in one country or shop.

They are common practice. A file is answered with the name to write; `trueseam list` takes either.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

__all__ = ["meant", "named_otherwise", "nearest", "other_names"]

_ALIKE = 3
"""More names than this are no hint."""

_SLIPS = 2
"""Slips of the fingers in a name that is still known for what it is; one fewer in a short one."""

_LONGEST = 60  # letters; no name is longer, and a longer text is not compared letter by letter

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


def meant(name: str, known: Iterable[str]) -> str:
    """A question that names what was likely meant: 'Did you mean "waist"?'; "" where nothing of that meaning is known.

    That is the name it is a slip of the fingers of; else up to three names that hold all of its words, or whose words
    it holds. Letters alone are no hint: of two words that look alike one may be the other's opposite.
    """
    names = tuple(known)
    words = set(_words(name))
    if other := named_otherwise(str(name), names):
        return _question([other])
    if near := _nearest(name, names):
        return _question(near)
    sharing = [each for each in names if words and words < set(_words(each))]
    sharing = sharing or [each for each in names if _words(each) and set(_words(each)) < words]
    return _question(sharing)


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name that `name` is a slip of the fingers of, or None.

    The same words in another order or spelling, or a letter or two that were swapped, lost, added or changed, in a name
    that begins with the same letter or with its first two swapped. Where two names come equally near there is none.
    """
    found = _nearest(name, known)
    return found[0] if len(found) == 1 else None


def _nearest(name: str, known: Iterable[str]) -> list[str]:
    """The known names that are the fewest slips of the fingers away."""
    asked = " ".join(_words(name))
    ranked = [(_slips(asked, " ".join(_words(each))), each) for each in known if asked and each]
    fewest = min((slips for slips, _ in ranked), default=_SLIPS + 1)
    return [each for slips, each in ranked if slips == fewest <= _SLIPS]


def _question(names: Sequence[str]) -> str:
    quoted = [f'"{each}"' for each in names]
    return f"Did you mean {' or '.join(quoted)}?" if 0 < len(quoted) <= _ALIKE else ""


def _words(name: object) -> tuple[str, ...]:
    """The words of a name; of what a script gave in its place too, so that the error can be shown."""
    return tuple(re.findall(r"[^\W_]+", str(name).casefold()))


def _slips(asked: str, known: str) -> int:
    """How many slips of the fingers lie between two names; more than `_SLIPS` for names that only look alike."""
    if sorted(asked.split()) == sorted(known.split()):
        return 0
    longer = max(len(asked), len(known))
    same_start = asked[:1] == known[:1] or asked[:2] == known[1::-1]
    most = min(_SLIPS, (longer + 1) // 3)
    if not same_start or abs(len(asked) - len(known)) > most or longer > _LONGEST:
        return _SLIPS + 1
    slips = _typed_apart(asked, known)
    return slips if slips <= most else _SLIPS + 1


def _typed_apart(a: str, b: str) -> int:
    """The least number of letters lost, added, changed or swapped with their neighbour that make `b` of `a`.

    The restricted distance of Damerau (1964) and Levenshtein, row by row.
    """
    before: Sequence[int] = ()
    row = list(range(len(b) + 1))
    for i, letter in enumerate(a, start=1):
        above, row = row, [i]
        for j, other in enumerate(b, start=1):
            least = min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == b[j - 2] and a[i - 2] == other:
                least = min(least, before[j - 2] + 1)
            row.append(least)
        before = above
    return row[-1]
