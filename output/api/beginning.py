"""A file to start from, every line of it with what it is for: a person's, or a garment's."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap
from types import MappingProxyType
from typing import Final

from blocks.block_table import BLOCKS
from drafting.body.terms import BASICS, MEASUREMENTS, BodyKind, limits, measurement, measurement_for
from drafting.dataclass import dataclass
from drafting.reading.key_words import file_word
from drafting.reading.units import (
    FILE_UNITS,
    NotRead,
    least_text,
    length_text,
    length_unit,
    most_text,
    parse_length,
    printable,
)

__all__ = ["Measured", "chart_text", "file_named", "garment_text", "length_as_written", "one_line", "person_text"]

_EXAMPLES: Final = {
    "stature": ("168", "1680", '"66 1/4"'),
    "bust_girth": ("94", "940", "37"),
    "waist_girth": ("76.5", "765", '"30 1/8"'),
    "hip_girth": ("101", "1010", '"39 3/4"'),
}
"""What a line looks like, in each of `FILE_UNITS`; her own number is left to be written."""

_LENGTHS: Final = {
    "cm": ("5 cm", "60 cm", "2.5 cm", "1.5 cm", "4 cm"),
    "in": ("2 in", "24 in", "1 in", "5/8 in", "1 1/2 in"),
    "mm": ("50 mm", "600 mm", "25 mm", "15 mm", "40 mm"),
}
"""An ease, a skirt, an alteration, a seam allowance and a hem to begin with."""

_OFTEN: Final = (
    "upper_chest_girth",
    "back_waist_length",
    "front_waist_length_from_neck_pit",
    "shoulder_length",
    "interscye_mid_distance",
    "neck_base_girth",
    "neck_to_bust_point",
    "bust_point_breadth",
    "upper_arm_girth",
    "wrist_girth",
    "arm_length",
    "waist_to_hip",
)
"""The measurements that change a pattern most, after the four that must be there."""


_DEVICES: Final = frozenset(
    {"aux", "con", "nul", "prn", *(f"{each}{number}" for each in ("com", "lpt") for number in range(1, 10))}
)
"""What on some machines is no file but a printer or a screen, whatever its ending."""

_LONGEST: Final = 60
"""Letters of a file's name: with four bytes each and an ending it is one that any disk can keep."""


@dataclass(frozen=True, slots=True)
class Measured:
    """What is known of a person whose file is begun.

    taken: lengths as `length_as_written` gives them, by their keys
    measured, born: days as they are written, "" for none
    """

    name: str
    body: BodyKind
    unit: str
    taken: Mapping[str, str]
    measured: str = ""
    born: str = ""


def person_text(who: Measured) -> str:
    """The file of a person, with a line for every length that changes a pattern much."""
    return "\n".join(_person_lines(who)) + "\n"


def garment_text(
    title: str,
    wearer: str,
    unit: str,
    blocks: Sequence[str] = ("bodice", "sleeve", "skirt"),
    *,
    sizes: Mapping[str, object] = MappingProxyType({}),
) -> str:
    """The file of a garment.

    wearer: the file of the person, as it is named from there; "" for a garment in the sizes of a chart
    sizes:  what stands under `[sizes]` then: {"chart": "women", "bust": 92}
    """
    return "\n".join(_garment_lines(title, wearer, unit, blocks, sizes)) + "\n"


def chart_text(title: str, unit: str, body: BodyKind, sizes: str) -> str:
    """The file of a bought pattern's chart. sizes: as they were typed, "8 10 12"; "" to be written by her"""
    return "\n".join(_chart_lines(title, unit, body, sizes)) + "\n"


def file_named(title: str) -> str:
    """What the file of a garment or a person is called: "tea-dress.toml" for a tea dress."""
    word = file_word(title).replace("_", "-")[:_LONGEST].rstrip("-") or "new"
    return f"{word}-file.toml" if word in _DEVICES else f"{word}.toml"


def length_as_written(told: str, key: str, unit: str, body: BodyKind) -> tuple[str, str]:
    """A length as it goes into a person's file, and "" beside it; or "", and beside it why that cannot be."""
    try:
        mm = parse_length(told, unit=unit)
    except NotRead as wrong:
        return "", str(wrong)
    low, high = limits(body)[key]
    if low <= mm <= high:
        return _literal(told), ""
    shows = length_unit(told) or unit
    span = f"from {least_text(low, shows)} to {most_text(high, shows)}"
    said = f"That would be {length_text(mm, shows)}, expected is a length {span}."
    others = () if length_unit(told) else (each for each in FILE_UNITS if each != unit)
    meant = next((each for each in others if low <= parse_length(told, unit=each) <= high), "")
    return "", f"{said} If {told.strip()} {meant} was meant, type that." if meant else said


_CHART_ROWS: Final = {
    "in": ('"31 1/2   32 1/2   34   36"', '"35   36   37 1/2   39 1/2"', '"23   23 1/4   23 1/2   23 3/4"'),
    "cm": ('"80   84   88   92"', '"89   93   97   101"', '"58   58.5   59   59.5"'),
    "mm": ('"800   840   880   920"', '"890   930   970   1010"', '"580   585   590   595"'),
}
"""A row of bodies, one of the garment, and one of sleeves, in each of `FILE_UNITS`."""


_CHART_WORDS: Final[Mapping[str, tuple[str, ...]]] = {
    "woman": ("bust", "high_bust", "waist", "hip", "back_waist_length"),
    "child": ("height", "chest", "waist", "hip", "shoulder_length", "arm_length"),
}
"""The rows of bodies that packets have."""


def _chart_lines(title: str, unit: str, body: BodyKind, sizes: str) -> Iterator[str]:
    """The lines of a file for the chart of a bought pattern, with what may be filled in as comments."""
    row, made, sleeve = _CHART_ROWS[unit]
    yield "# The chart of a bought pattern, as it stands on its packet: sizes, and rows of numbers under them."
    yield "# A line that begins with # changes nothing: take the # away to use it."
    yield ""
    yield f'title = "{title}"'
    yield '# What the numbers are in: "cm", "in" or "mm". Fractions as they stand: 31 1/2.'
    yield f'unit = "{unit}"'
    yield "# What the sizes are called, smallest first; they may be letters, or heights of children."
    yield f'sizes = "{sizes}"' if sizes else '#sizes = "8   10   12   14"'
    yield '# Whose chart it is: "woman", "girl" or "boy".'
    yield f'for = "{body}"'
    yield "# What it is: dress, full-skirted dress, top, fitted top, knit top, jacket, skirt, full skirt, trousers ..."
    yield '#garment = "dress"'
    yield "# The cloth it is drawn for: woven, knit, or one that `trueseam list cloths` shows."
    yield 'cloth = "woven"'
    if body == "woman":
        yield "# Only where the pattern has a front for each cup:"
        yield '#cups = "B C D"'
    yield ""
    yield "# The bodies that the sizes are for. One number under each size; a range, 82-86, is taken at its middle."
    yield "[body]"
    for number, word in enumerate(_CHART_WORDS["woman" if body == "woman" else "child"]):
        yield f"#{word} = {row}" if not number and body == "woman" else f'#{word} = ""'
    yield ""
    yield "# What the garment measures, from the packet or from the tissue, seams and darts left out."
    yield "[finished]"
    yield f"#bust = {made}"
    yield '#waist = ""'
    yield '#hip = ""'
    yield f"#sleeve_length = {sleeve}"


def _literal(told: str) -> str:
    """A length that can be read, as it stands in TOML; the marks of feet and inches stay."""
    told = " ".join(told.split())
    if told.replace(".", "", 1).isdigit() and told.isascii() and not told.startswith("0"):
        return told
    return f"'{told}'" if '"' in told and "'" not in told else '"{}"'.format(told.replace('"', '\\"'))


def _person_lines(who: Measured) -> Iterator[str]:
    """The lines of a person's file: what was taken is filled in, the rest stands as comments."""
    yield "# The measurements of one person. A line that begins with # changes nothing: take the # away to use it."
    yield ""
    yield f'name = "{who.name}"'
    yield '# "woman", "girl" or "boy"'
    yield f'body = "{who.body}"'
    yield '# What plain numbers are in: "cm", "in" or "mm". Another unit is written behind its number.'
    yield f'unit = "{who.unit}"'
    yield "# The day of the measurements:"
    yield f"measured = {who.measured}" if who.measured else "#measured = 2026-09-20"
    if who.born:
        yield "# The day of the child's birth, from which it is told how the child grows:"
        yield f"born = {who.born}"
    yield ""
    yield "[measurements]"
    fraction = '"92.5 cm"' if who.unit == "in" else '"36 1/2 in"'
    yield f'# A plain number stands as it is, what holds a fraction or a unit in quotes: "29 1/2", {fraction}.'
    yield ""
    yield "# These four must be there."
    example = FILE_UNITS.index(who.unit)
    for key in BASICS:
        about = measurement_for(key, who.body)
        yield f"# {about.how}"
        told = who.taken.get(key)
        yield f"{about.word} = {told}" if told else f"#{about.word} = {_EXAMPLES[key][example]}"
    yield ""
    yield "# Each of these makes the pattern more hers. What is left out is estimated, and you are told so."
    for key in _OFTEN:
        yield f"# {measurement(key).how}"
        yield f"#{measurement(key).word} ="
    yield ""
    rest = [each.word for each in MEASUREMENTS if each.key not in (*BASICS, *_OFTEN)]
    yield from _comment(f"More can be measured: {', '.join(rest)}. `trueseam list measurements` says how.")


def _garment_lines(
    title: str, wearer: str, unit: str, blocks: Sequence[str], sizes: Mapping[str, object]
) -> Iterator[str]:
    """The lines of a garment file with these blocks, for a wearer or for sizes, the options as comments."""
    ease, long, by, seam, hem = _LENGTHS[unit]
    hints = {
        "bodice": (
            "# How much larger than the body; left out, as the cloth and the fit ask:",
            f'#ease = {{ bust = "{ease}", waist = "{ease}" }}',
        ),
        "skirt": ("# From the waist to the hem; left out, to the knee:", f'#length = "{long}"'),
        "child's bodice": (
            '# How the head gets through: "back slit", "front slit", "button shoulder", "knit band" in a knit, "none":',
            '#opening = "back slit"',
        ),
        "child's skirt": ('# "gathered" or "flat" at the waist:', '#waist = "gathered"'),
    }
    yield "# A garment. A line that begins with # changes nothing: take the # away to use it."
    yield ""
    yield f'title = "{title}"'
    if sizes:
        yield '# What lengths are shown in: "cm", "in" or "mm"'
        yield f'unit = "{unit}"'
    else:
        yield "# The file of the person it is for:"
        yield f'wearer = "{wearer}"'
    yield '# "close", "regular" or "loose"'
    yield 'fit = "regular"'
    yield "#date = 2026-10-01"
    yield ""
    if sizes:
        yield "# The sizes it is made in. `trueseam list sizes` shows them all."
        yield "[sizes]"
        yield from (
            f"{key} = {value}" if isinstance(value, int) else f'{key} = "{value}"' for key, value in sizes.items()
        )
        yield ""
    yield "[cloth]"
    yield '# "woven", "knit" with how far it stretches (stretch = "40 %"), or a cloth by its name: "denim"'
    cloths = [each.cloth for each in BLOCKS if each.name in blocks]
    yield f'kind = "{next((cloth for cloth in cloths if cloth != "woven"), "woven")}"'
    yield ""
    yield "# The blocks it is made of: leave out what you do not want. `trueseam list bodice` tells all about one."
    for name in blocks:
        yield "[[block]]"
        yield f'name = "{name}"'
        yield from hints.get(name, ())
        yield ""
    yield "# What is altered, one step after the other. `trueseam list alterations` shows what there is."
    yield "#[[step]]"
    yield '#alter = "shorten"'
    yield '#piece = "sleeve"'
    yield f'#by = "{by}"'
    yield ""
    yield "[paper]"
    yield "# A4, Letter, A3 or A0:"
    yield f'size = "{"Letter" if unit == "in" else "A4"}"'
    yield f'seam_allowance = "{seam}"'
    yield "# How far a hem is turned up; left out, as each piece takes it: a full skirt's is narrow."
    yield f'#hem = "{hem}"'
    yield "# The width of the copy shop's roll of paper; left out, it prints on sheets of A0:"
    yield f'#roll = "{length_text(914.4, unit)}"'


def _comment(sentence: str) -> Iterator[str]:
    yield from wrap(sentence, 110, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False)


def one_line(text: str) -> str:
    """A text fit to stand between quotation marks."""
    return printable(text, most=80).replace('"', "'").replace("\\", "/").strip()
