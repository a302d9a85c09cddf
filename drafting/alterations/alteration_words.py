"""Other words for alterations, as people write them.

Some mean one alteration: "large bust" is "full bust". Some turn its number round: "shorten" is "lengthen" with the
sign changed. Some give an option as well: "V neck" is "neckline" with its shape. Some may mean several alterations, as
"raise" does: then the answer asks which.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import field
from types import MappingProxyType
from typing import Final

from drafting.dataclass import dataclass
from drafting.other_names import other_names

__all__ = [
    "ASKED",
    "WORDS",
    "Word",
    "as_written",
    "name_to_write",
    "piece_meant",
    "plain_word",
    "turned_word",
    "which_turned",
]


@dataclass(frozen=True, slots=True)
class Word:
    """A word that may stand behind `alter =`.

    name:   the alteration it stands for
    turned: the options whose number it turns round: above zero in the file, below zero in the alteration
    by:     the option that a plain `by` gives with this word; "" for the one the alteration has
    sets:   options that the word says already
    """

    word: str
    name: str
    turned: tuple[str, ...] = ()
    by: str = ""
    sets: Mapping[str, str | bool] = field(default_factory=dict)


def plain_word(text: str) -> str:
    """A word or two in small letters, of one and not of several, without the little words: "Raise the armholes"."""
    words = (word for word in re.findall(r"[^\W_]+", text.casefold()) if word not in ("a", "an", "the", "of"))
    return " ".join(word.removesuffix("s") if len(word) > 3 else word for word in words)


def piece_meant(written: str, pieces: Sequence[str], *, alter: str) -> str:
    """The piece that is meant by "sleeves", or by "skirt" where either half takes the other along; else as written."""
    plain = plain_word(written)
    whole = next((piece for piece in pieces if plain_word(piece) == plain), None)
    half = next((piece for piece in pieces if piece.startswith(f"{plain} ") and alter in _FOLLOWED), None)
    return whole or half or written


def name_to_write(written: str) -> str:
    """What to write for a word that only garment files take: 'Write "lengthen", with by below zero.'; "" for others."""
    plain = plain_word(written)
    word = next((each for each in WORDS if plain_word(each.word) == plain), None)
    if word is None:
        return ""
    options = [f"{option}={value!r}".replace("'", '"') for option, value in word.sets.items()]
    options += [f"{' or '.join(word.turned)} below zero"] if word.turned else []
    return f'Write "{word.name}"{", with " if options else ""}{" and ".join(options)}.'


def which_turned(written: object) -> Word | None:
    """The word for which a number is turned round, where one is written behind `alter`; None for every other."""
    plain = plain_word(written) if isinstance(written, str) else ""
    return next((word for word in WORDS if word.turned and plain_word(word.word) == plain), None)


def as_written(sentence: str, source: str) -> str:
    """A sentence with every length to type as it is typed behind the word that was written.

    source: where the step is written; a word that turns its number round stands there in brackets: "[[step]] 1 (crop)"
    """
    found = re.search(r"\(([^()]+)\)", source)
    word = which_turned(found[1]) if found else None
    if word is None:
        return sentence
    lengths = re.compile(rf'\b({"|".join(word.turned)}) = "(-?)([^"]+)"')
    return lengths.sub(lambda each: f'{each[1]} = "{"" if each[2] else "-"}{each[3]}"', sentence)


def turned_word(name: str, numbers: Mapping[str, float], words: Sequence[Word]) -> Word | None:
    """The word for an alteration whose numbers all lie below zero ("shorten"); None where there is none."""
    below = {option for option, number in numbers.items() if number < 0}
    above = {option for option, number in numbers.items() if number > 0}
    for word in words:
        if word.name == name and below and below <= set(word.turned) and not above & set(word.turned):
            return word
    return None


_FOLLOWED: Final = ("lengthen", "hem")
"""The alterations in which the other half of a bodice or a skirt follows the one that is named."""

_GIRTHS: Final = ("waist", "hip", "bust")

WORDS: Final = (
    *(Word(word, "blend") for word in ("blend sizes", "blend between sizes")),
    *(Word(word, "full bust") for word in ("large bust", "full bust adjustment")),
    *(Word(word, "small bust") for word in ("flat bust", "small bust adjustment")),
    *(Word(word, "sway back") for word in ("hollow back", "swayback")),
    Word("round back", "rounded back"),
    *(Word(word, "back width") for word in ("broad back", "widen back")),
    Word("rounded shoulder", "forward shoulder"),
    *(Word(word, "shoulder width") for word in ("broad shoulder", "widen shoulder")),
    *(Word(word, "put sleeve in") for word in ("another sleeve", "other sleeve")),
    *(Word(word, "upper arm") for word in ("large upper arm", "wider sleeve", "widen sleeve")),
    *(Word(word, "fit sleeve") for word in ("cap ease", "ease sleeve")),
    *(Word(word, "neck gape") for word in ("gape", "gaping neckline")),
    *(Word(word, "move a dart") for word in ("move dart", "rotate dart", "pivot dart")),
    *(Word(word, "wrap over") for word in ("wrap", "wrap skirt")),
    *(Word(word, "flare skirt") for word in ("flare", "flared skirt", "A line")),
    *(Word(word, "gather skirt") for word in ("gathers", "gathered skirt")),
    *(Word(word, "dart into gathers") for word in ("gather dart", "ease dart")),
    *(Word(word, "dart into seam") for word in ("princess seam", "panel seam", "style line")),
    *(Word(word, "lengthen", ("by",)) for word in ("shorten", "crop", "take up", "make shorter", "shorten hem")),
    *(Word(word, "lengthen", ("by",)) for word in ("raise hem", "take up hem", "cut shorter")),
    *(
        Word(word, "lengthen")
        for word in ("let down", "let down hem", "lower hem", "drop hem", "make longer", "extend")
    ),
    *(
        Word(word, "lengthen", ("by",), sets={"piece": piece})
        for name, piece in (("sleeve", "sleeve"), ("skirt", "skirt front"), ("bodice", "bodice front"))
        for word in (f"shorten {name}", f"shorter {name}", f"crop {name}", f"make {name} shorter")
    ),
    *(
        Word(word, "lengthen", sets={"piece": piece})
        for name, piece in (("sleeve", "sleeve"), ("skirt", "skirt front"), ("bodice", "bodice front"))
        for word in (f"lengthen {name}", f"longer {name}", f"make {name} longer")
    ),
    *(
        Word(word, "lengthen", ("by",), sets={"piece": "sleeve", "hem": "as tapered"})
        for word in ("three-quarter sleeve", "three quarter sleeve", "short sleeve", "elbow sleeve", "cut off sleeve")
    ),
    *(Word(word, "lengthen") for word in ("hem it longer", "hem longer", "longer hem", "longer")),
    *(Word(word, "lengthen", ("by",)) for word in ("hem it shorter", "hem shorter", "shorter hem", "shorter")),
    *(Word(word, "take in", _GIRTHS) for word in ("let out", "loosen", "make larger", "make bigger", "enlarge")),
    *(Word(word, "take in") for word in ("tighten", "nip in", "make smaller", "make narrower")),
    *(Word(f"let out {girth}", "take in", _GIRTHS, by=girth) for girth in _GIRTHS),
    *(Word(f"take in {girth}", "take in", by=girth) for girth in _GIRTHS),
    *(Word(f"let out at {girth}", "take in", _GIRTHS, by=girth) for girth in _GIRTHS),
    *(Word(f"take in at {girth}", "take in", by=girth) for girth in _GIRTHS),
    *(Word(word, "upper arm", ("by",)) for word in ("slim upper arm", "narrow sleeve", "narrower sleeve")),
    *(Word(word, "smock") for word in ("square yoke", "smock dress")),
    *(Word(word, "shaped band") for word in ("shaped waistband", "contour waistband")),
    *(Word(word, "side pocket") for word in ("in seam pocket", "inseam pocket")),
    *(Word(word, "slanted pocket") for word in ("slant pocket", "slash pocket", "front hip pocket", "hip pocket")),
    Word("fba", "full bust"),
    Word("sba", "small bust"),
    Word("raise armhole", "armhole", ("lower",), by="lower"),
    *(Word(word, "armhole", by="lower") for word in ("lower armhole", "deepen armhole")),
    Word("cut in armhole", "armhole", by="cut_in"),
    *(Word(word, "full sleeve", by="hem") for word in ("flared sleeve", "bell sleeve")),
    *(Word(word, "full sleeve", by="cap") for word in ("gathered sleeve", "puff", "puff sleeve")),
    Word("growth hem", "hem", by="grow"),
    Word("level hem", "hem", sets={"level": True}),
    *(Word(word, "hem", by="depth", sets={"finish": "facing"}) for word in ("facing", "faced hem", "face hem")),
    *(Word(word, "hem", by="depth") for word in ("deeper hem", "wider hem")),
    *(Word(word, "opening", sets={"fasten": "zip"}) for word in ("zip", "zipper")),
    *(Word(word, "opening", sets={"fasten": "buttons"}) for word in ("buttons", "button stand", "button")),
    *(
        Word(word, "opening", sets={"fasten": "buttons", "at": "centre front"})
        for word in ("button front", "button down", "button through")
    ),
    *(Word(word, "opening", sets={"fasten": "closed"}) for word in ("close", "close opening")),
    *(Word(word, "rounded back", ("amount",)) for word in ("erect back", "straight back")),
    Word("narrow back", "back width", ("amount",)),
    *(Word(word, "shoulder slope", ("amount",), by="amount") for word in ("square shoulder", "raise shoulder")),
    *(Word(word, "shoulder slope", by="amount") for word in ("sloping shoulder", "lower shoulder")),
    Word("shoulder pad", "shoulder slope", by="pad"),
    *(Word(word, "shoulder width", ("amount",)) for word in ("narrow shoulder", "narrower shoulder")),
    *(Word(word, "neckline", by="depth", sets={"shape": "V"}) for word in ("V neck", "V neckline")),
    *(Word(word, "neckline", by="depth") for word in ("lower neckline", "deepen neckline", "lower neck", "scoop neck")),
    *(Word(word, "neckline", ("depth", "back"), by="depth") for word in ("raise neckline", "raise neck")),
    *(Word(word, "neckline", by="width") for word in ("wider neckline", "widen neckline")),
    *(Word(word, "neckline", ("width",), by="width") for word in ("narrow neckline", "narrower neckline")),
)
"""Every other word for an alteration, those that mean just it first."""

_RAISE: Final = (
    'For the armhole write alter = "raise armhole", for the neckline alter = "raise neckline", for the shoulder '
    'alter = "raise shoulder", for the hem alter = "shorten" with the piece.'
)
_LOWER: Final = (
    'For the armhole write alter = "lower armhole", for the neckline alter = "lower neckline", for the shoulder '
    'alter = "lower shoulder", for the hem alter = "lengthen" with the piece.'
)
_WIDEN: Final = (
    'For the girth write alter = "let out waist", "let out hip" or "let out bust"; for a skirt that widens towards its '
    'hem alter = "flare skirt"; for the sleeve alter = "wider sleeve"; for the back alter = "broad back"; for the '
    'shoulder alter = "broad shoulder"; for the neckline alter = "wider neckline".'
)
_NARROW: Final = (
    'For the girth write alter = "take in waist", "take in hip" or "take in bust"; for the sleeve '
    'alter = "narrow sleeve"; for the back alter = "narrow back"; for the shoulder alter = "narrow shoulder"; for the '
    'neckline alter = "narrow neckline".'
)
_GATHER: Final = (
    'For a skirt write alter = "gather skirt", for a sleeve alter = "gathered sleeve", for what a dart takes up '
    'alter = "dart into gathers".'
)

_LENGTH: Final = 'Write alter = "lengthen" or alter = "shorten", each with the piece and by how much.'

_PARTS: Final = (
    "flat collar",
    "stand collar",
    "shirt collar",
    "turn-over collar",
    "sailor collar",
    "waistband",
    "neck band",
    "wrist elastic",
    "waist elastic",
    "neck facing",
    "combined facing",
    "lining",
)
"""Parts that people write as a step."""


def _a_part(name: str) -> str:
    return f'It is a part, not a step: write a line [[part]] and below it name = "{name}".'


_ANSWERS: Final[Mapping[str, str]] = MappingProxyType(
    {
        **dict.fromkeys(("raise", "lift", "higher", "move up"), _RAISE),
        **dict.fromkeys(("lower", "drop", "deepen", "move down"), _LOWER),
        **dict.fromkeys(("widen", "wider", "broaden", "add width", "add ease"), _WIDEN),
        **dict.fromkeys(("narrow", "narrower", "slim", "taper", "remove ease"), _NARROW),
        **dict.fromkeys(("gather", "ruffle", "shirr"), _GATHER),
        **dict.fromkeys(("length", "sleeve length", "skirt length", "bodice length", "hem length"), _LENGTH),
        **dict.fromkeys(
            ("cuff", "cuffs"),
            'A cuff is a part: write a [[part]] with name = "cuff", and for a sleeve that is gathered into it first '
            'alter = "full sleeve" with hem = how much wider. For a wrist turned up deeper write alter = "hem" with '
            'piece = "sleeve" and depth = how deep.',
        ),
        **{word: _a_part(part) for part in _PARTS for word in (part, *other_names(part))},
        **dict.fromkeys(
            ("snap", "snaps"), "A romper and dungarees have snaps along their inseams: nothing is written for them."
        ),
        **dict.fromkeys(
            ("grade", "resize", "size"),
            'For another size write it under [sizes]; for another size at the waist or the hip alter = "blend".',
        ),
        **dict.fromkeys(
            ("dart", "close dart", "rotate"),
            'To move a dart write alter = "move a dart", to gather it alter = "dart into gathers", to make a seam of '
            'it alter = "dart into seam".',
        ),
        "cap sleeve": "A sleeve that ends in its cap is not drawn here; the shortest is 3 cm below the cap: "
        'alter = "short sleeve" and by = how much.',
        **dict.fromkeys(
            ("sleeve", "sleeveless"),
            'A garment has a sleeve where it has a [[block]] named "sleeve", and none where it has not. For another '
            'sleeve write alter = "put sleeve in".',
        ),
        **dict.fromkeys(
            ("pocket", "pockets"),
            'In the side seams: alter = "side pocket"; slanting: alter = "slanted pocket"; sewn on: '
            'alter = "patch pocket", with the piece.',
        ),
        **dict.fromkeys(
            ("collar", "collars"),
            'A collar is a part, drawn to the neck: write a [[part]] with name = "flat collar", "stand collar", '
            '"shirt collar", "turn-over collar" or "sailor collar".',
        ),
        **{
            part: f'It is a part, drawn to the pieces as they are: write a [[part]] with name = "{part}".'
            for part in ("lining", "waistband")
        },
        **dict.fromkeys(
            ("pleat", "pleats"),
            'For pleats in a skirt write alter = "pleat skirt"; one that is pleated all round is a block of its own: '
            '[[block]] with name = "pleated skirt".',
        ),
        **dict.fromkeys(
            ("vent", "slit", "belt"),
            "It is not made here yet: leave this step out, and draw it yourself on the printed pieces.",
        ),
    }
)
ASKED: Final[Mapping[str, str]] = MappingProxyType({plain_word(word): told for word, told in _ANSWERS.items()})
"""Words that may mean one alteration or another, or what cannot be had yet, with what to tell whoever writes one."""
