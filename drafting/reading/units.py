"""Lengths, shares and angles as people write them, and as a report shows them.

Inside the engine a length is a float in millimetres, a share a fraction of one, an angle in degrees.
At the door every value carries its unit, or takes the one its file states: `"37 1/2 in"`, `"95,5 cm"`, `955`.
One inch is 25.4 mm exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from drafting.errors import TrueseamError, meant

__all__ = [
    "FILE_UNITS",
    "MM_PER_INCH",
    "NotRead",
    "cm",
    "difference_text",
    "fine_text",
    "inches",
    "least_text",
    "length_text",
    "length_unit",
    "most_text",
    "parse_angle",
    "parse_file_unit",
    "parse_length",
    "parse_number",
    "parse_percent",
    "percent",
    "printable",
    "sentence_in",
    "shown",
    "unit_written",
]

MM_PER_INCH = 25.4
FILE_UNITS = ("cm", "mm", "in")
"""The units a file may state for its bare numbers."""

_MM_PER_UNIT = MappingProxyType(
    {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH, "ft": 12 * MM_PER_INCH, "yd": 36 * MM_PER_INCH}
)
_UNIT_WORDS = MappingProxyType(
    {unit: unit for unit in _MM_PER_UNIT}
    | dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters", "mms"), "mm")
    | dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters", "cms"), "cm")
    | dict.fromkeys(("metre", "metres", "meter", "meters"), "m")
    | dict.fromkeys(("inch", "inches", "ins", "in.", '"'), "in")
    | dict.fromkeys(("foot", "feet"), "ft")
    | dict.fromkeys(("yard", "yards", "yds"), "yd")
)
"""What people write for a unit, and the unit."""

_EXAMPLES = MappingProxyType(
    {"cm": '"95.5 cm"', "mm": '"955 mm"', "in": '"37 1/2 in"', None: '"95.5 cm" or "37 1/2 in"'}
)

# Marks that keyboards and word processors put where plain ASCII was meant.
_PLAIN = str.maketrans(
    {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "−": "-", "–": "-", "⁄": "/", "º": "°", "\u00a0": " "}
    | {
        sign: f" {above}/{below}"
        for sign, above, below in (
            ("½", 1, 2),
            ("¼", 1, 4),
            ("¾", 3, 4),
            ("⅓", 1, 3),
            ("⅔", 2, 3),
            ("⅛", 1, 8),
            ("⅜", 3, 8),
            ("⅝", 5, 8),
            ("⅞", 7, 8),
        )
    }
)
_DIGITS = "[0-9]{1,9}"
_QUANTITY = re.compile(
    rf"""(?P<sign>[+-]?)\s*
    (?: (?: (?P<whole>{_DIGITS}) [\s-]+ )? (?P<above>{_DIGITS}) \s*/\s* (?P<below>{_DIGITS})
      | (?P<decimal>{_DIGITS} (?:[.,]{_DIGITS})? | [.,]{_DIGITS}) )
    \s* (?P<unit>[^0-9\s.,/+-][^0-9]*)?""",
    re.VERBOSE,
)
_FEET_AND_INCHES = re.compile(rf"(?P<feet>{_DIGITS})\s*(?:ft|feet|foot|')\s*(?P<rest>.*)")

_IN_WORDS = re.compile(r"(?<![\d/.])(-?\d+(?:\.\d+)?)(?:( to | and | by )(-?\d+(?:\.\d+)?))? (mm|cm)\b")
"""Lengths in a sentence: "5.0 mm", "1.5 to 3 mm", "18 cm"."""

_TO_TYPE = re.compile(r'"(-?\d+(?:\.\d+)?) (mm|cm)"')
"""A length in a sentence that is to be typed as it stands, quotation marks and all."""


class NotRead(TrueseamError, ValueError):
    """A single value that could not be read; whoever knows its place turns it into a `Problem`.

    nearest: for a number beyond its range the end that lies nearest; None for none
    """

    def __init__(self, read: str, expected: str, mend: str = "", nearest: float | None = None) -> None:
        self.read = read
        self.expected = expected
        self.mend = mend
        self.nearest = nearest
        super().__init__(read, expected, mend, nearest)

    def __str__(self) -> str:
        return f"read {self.read}, expected {self.expected}. {self.mend}".rstrip()


def parse_length(value: object, *, unit: str | None, shows: str | None = None) -> float:
    """A length in millimetres from what a person wrote.

    Reads numbers and texts: decimals with point or comma, fractions (`37 1/2`, `37-1/2`, `37½`), the units
    mm, cm, m, in, ft and yd or words for them (`inches`, `"`), feet with inches behind them (`5 ft 6 1/2 in`).
    `unit` is what a bare number is taken in; None when the file states none, and the example in a sentence is
    then in `shows`.
    Sign and size are not judged here. Raises NotRead.
    """
    expected = f"a length with its unit, such as {_EXAMPLES.get(unit or shows, _EXAMPLES[None])}"
    if isinstance(value, str):
        text = _plain(value)
        feet = _FEET_AND_INCHES.fullmatch(text)
        if feet and feet["rest"]:
            return _feet_and_inches(value, int(feet["feet"]), feet["rest"], expected)
        number, written = _quantity(value, text, expected)
    else:
        number, written = _bare_number(value, expected), ""
    used = _UNIT_WORDS.get(written, written) or unit
    if used is None:
        top = f'unit = "{shows}"' if shows else 'unit = "cm", "mm" or "in"'
        behind = f'"{str(value).strip()} {shows}"' if shows else "the unit behind the number"
        raise NotRead(shown(value), expected, f"Write {behind}, or {top} at the top of the file.")
    if used not in _MM_PER_UNIT:
        raise NotRead(
            shown(value), expected, f"The units are mm, cm, m, in, ft and yd. {meant(used, _UNIT_WORDS)}".strip()
        )
    return number * _MM_PER_UNIT[used]


def length_unit(value: object) -> str | None:
    """The unit ("cm", "mm", "in") of a written length, feet and yards counting as inches; None where it shows none."""
    if not isinstance(value, str):
        return None
    text = _plain(value)
    found = _QUANTITY.fullmatch(text)
    if _FEET_AND_INCHES.fullmatch(text):
        return "in"
    unit = _UNIT_WORDS.get((found["unit"] or "").strip() if found else "", "")
    return {"mm": "mm", "cm": "cm", "m": "cm", "in": "in", "ft": "in", "yd": "in"}.get(unit)


def parse_file_unit(value: object) -> str:
    """The unit ("cm", "mm", "in") that plain numbers are in, by its sign or in words: "inches". Raises NotRead."""
    unit = _UNIT_WORDS.get(_plain(value), "") if isinstance(value, str) else ""
    if unit not in FILE_UNITS:
        raise NotRead(shown(value), '"cm", "mm" or "in"', "It says what plain numbers are in.")
    return unit


def unit_written(table: object) -> str | None:
    """The unit ("cm", "mm", "in") that most of the lengths written in a table carry; None where none carries one."""
    found = Counter(unit for value in _values(table) if (unit := length_unit(value)))
    return found.most_common(1)[0][0] if found else None


def _values(table: object) -> Iterator[object]:
    """Every value in tables within tables, as deep as any reader goes."""
    waiting = [table]
    while waiting:
        value = waiting.pop()
        if isinstance(value, Mapping):
            waiting.extend(value.values())
        elif isinstance(value, list):
            waiting.extend(value)
        else:
            yield value


def parse_percent(value: object) -> float:
    """A share as a fraction of one: `"40 %"` gives 0.4. A bare number is refused, since 0.4 could mean either.

    Raises NotRead.
    """
    expected = 'a share in percent, such as "40 %"'
    if not isinstance(value, str):
        hers = "40"
        if isinstance(value, int | float) and 0 < value <= 1000:
            hers = f"{100 * value if value < 1 else value:.10g}"
        mend = "" if isinstance(value, bool | dict | list) else f'Write it as text with its sign: "{hers} %".'
        raise NotRead(shown(value), expected, mend)
    number, unit = _quantity(value, _plain(value), expected)
    if unit not in ("%", "percent"):
        raise NotRead(shown(value), expected, "The number needs its % sign.")
    return number / 100


def parse_angle(value: object) -> float:
    """An angle in degrees: `12`, `"12 deg"`, `"12°"`. Raises NotRead."""
    expected = 'an angle in degrees, such as "12 deg"'
    if not isinstance(value, str):
        return _bare_number(value, expected)
    number, unit = _quantity(value, _plain(value), expected)
    if unit not in ("", "deg", "degree", "degrees", "°"):
        raise NotRead(shown(value), expected)
    return number


def parse_number(value: object) -> float:
    """A finite number without a unit, not written as a text. Raises NotRead."""
    return _bare_number(value, "a number")


def cm(mm: float, *, places: int = 1) -> str:
    """A length for reading, in centimetres: `cm(985.2)` is "98.5 cm"."""
    return f"{_without_minus_zero(round(mm / 10, places)):.{places}f} cm"


def inches(mm: float, *, parts: int = 8) -> str:
    """A length for reading, to the nearest eighth of an inch (or other part): `inches(952.5)` is "37 1/2 in"."""
    count = round(abs(mm) / MM_PER_INCH * parts)
    sign = "-" if mm < 0 and count else ""
    whole, rest = divmod(count, parts)
    if not rest:
        return f"{sign}{whole} in"
    shared = math.gcd(rest, parts)
    fraction = f"{rest // shared}/{parts // shared}"
    return f"{sign}{whole} {fraction} in" if whole else f"{sign}{fraction} in"


def length_text(mm: float, unit: str | None) -> str:
    """A length for reading in the unit a person works in: "in", "mm", else centimetres."""
    if unit == "in":
        return inches(mm)
    if unit == "mm":
        return f"{_without_minus_zero(round(mm, 1)):g} mm"
    return cm(mm)


def difference_text(more: float, less: float, unit: str | None) -> str:
    """How much the first length is more than the second, both as `length_text` shows them: what a reader works out."""
    return length_text(_as_shown(more, unit) - _as_shown(less, unit), unit)


def _as_shown(mm: float, unit: str | None) -> float:
    """A length, mm, rounded as `length_text` shows it."""
    if unit == "in":
        return round(mm * 8 / MM_PER_INCH) * MM_PER_INCH / 8
    return round(mm, 1) if unit == "mm" else 10.0 * round(mm / 10, 1)


def least_text(mm: float, unit: str | None) -> str:
    """The least length that may be asked for, so rounded that it may be."""
    return length_text(_rounded(mm, unit, math.ceil), unit)


def most_text(mm: float, unit: str | None) -> str:
    """The greatest length that may be asked for, so rounded that it may be."""
    return length_text(_rounded(mm, unit, math.floor), unit)


def _rounded(mm: float, unit: str | None, way: Callable[[float], int]) -> float:
    step = {"in": MM_PER_INCH / 8, "mm": 0.1}.get(unit or "", 1.0)
    nearly = round(mm / step)
    return step * (nearly if abs(mm / step - nearly) < 1e-6 else way(mm / step))


def sentence_in(unit: str | None, sentence: str, *, at_most: bool = False) -> str:
    """A sentence whose lengths are in millimetres or centimetres, with all of them in the unit a person works in.

    Hundredths of a centimetre, sixteenths of an inch: fine enough for a seam to pass, and to be marked with a rule.
    What stands in quotation marks is to be typed and has to be enough: it is rounded away from zero, or towards it
    where it is the most that can be had.
    """
    if unit == "mm":
        return sentence
    if unit == "in":
        sentence = _TO_TYPE.sub(lambda found: f'"{_inches_to_type(_in_mm(found[1], found[2]), at_most)}"', sentence)
    return _IN_WORDS.sub(lambda found: _length_words(found, unit), sentence)


def _in_mm(number: str, unit: str) -> float:
    return float(number) * _MM_PER_UNIT[unit]


def _length_words(found: re.Match[str], unit: str | None) -> str:
    """What was found of lengths in a sentence: one, or two with "to" between them."""
    first, between, second, written = found.groups()
    if written == "cm" and unit != "in":
        return found[0]
    texts = [_finely(_in_mm(number, written), unit) for number in (first, second) if number is not None]
    return (between or "").join([*(each.removesuffix(" cm").removesuffix(" in") for each in texts[:-1]), texts[-1]])


def _inches_to_type(mm: float, at_most: bool) -> str:
    """The next sixteenth of an inch further from zero, or nearer to it, unless it is one already."""
    parts = abs(mm) * 16 / MM_PER_INCH
    sixteenths = math.floor(parts + 1e-9) if at_most else math.ceil(parts - 1e-9)
    return inches(math.copysign(sixteenths * MM_PER_INCH / 16, mm), parts=16)


def _finely(mm: float, unit: str | None) -> str:
    if unit != "in":
        return f"{_without_minus_zero(round(mm / 10, 2)):g} cm"
    return inches(mm, parts=16 if abs(mm) >= MM_PER_INCH / 16 else 64)


def fine_text(mm: float, unit: str | None) -> str:
    """A length as fine as a seam is judged: tenths of a millimetre; of an inch sixteenths, below one sixty-fourths."""
    return _finely(mm, unit) if unit == "in" else f"{_without_minus_zero(round(mm, 1)):.1f} mm"


def percent(share: float) -> str:
    """A share for reading: `percent(0.4)` is "40 %"."""
    return f"{_without_minus_zero(round(share * 100, 1)):g} %"


def printable(text: str, *, most: int = 40) -> str:
    """A text from a person's file, fit to stand in a sentence: one line, at most so many letters."""
    plain = "".join(letter if letter.isprintable() else "?" for letter in text[: most + 1])
    return f"{plain[:most]}..." if len(plain) > most else plain


def shown(value: object) -> str:
    """What was read, short enough for a sentence, whatever it was."""
    if isinstance(value, str):
        text = printable(value.strip())
        return f'"{text}"' if text else "an empty text"
    if isinstance(value, dict | list):
        return "several things in { }" if isinstance(value, dict) else "a list"
    if isinstance(value, bool):
        return str(value).lower()
    # Python refuses to print integers of thousands of digits.
    return "a very large number" if isinstance(value, int) and abs(value) >= 10**15 else str(value)[:40]


def _plain(text: str) -> str:
    return text.translate(_PLAIN).strip().lower()


def _bare_number(value: object, expected: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise NotRead(shown(value), expected)
    try:
        number = float(value)
    except OverflowError:
        raise NotRead(shown(value), expected) from None
    if not math.isfinite(number):
        raise NotRead(shown(value), expected, "This is no number that could be measured.")
    return number


def _quantity(value: str, text: str, expected: str) -> tuple[float, str]:
    """The number and the unit ("" for none) in a plain text."""
    found = _QUANTITY.fullmatch(text)
    if found is None:
        raise NotRead(shown(value), expected)
    if found["decimal"] is not None:
        number = float(found["decimal"].replace(",", "."))
    else:
        above, below = int(found["above"]), int(found["below"])
        if below == 0 or (found["whole"] and above >= below):
            raise NotRead(shown(value), expected, f"{above}/{below} is not a part of one.")
        number = int(found["whole"] or 0) + above / below
    return (-number if found["sign"] == "-" else number), (found["unit"] or "").strip()


def _feet_and_inches(value: str, feet: int, rest: str, expected: str) -> float:
    number, unit = _quantity(value, rest, expected)
    if _UNIT_WORDS.get(unit, unit) not in ("", "in") or not 0 <= number < 12:
        raise NotRead(shown(value), expected, "Behind feet stand inches, fewer than twelve.")
    return (feet * 12 + number) * MM_PER_INCH


def _without_minus_zero(number: float) -> float:
    return number + 0.0 if number else 0.0
