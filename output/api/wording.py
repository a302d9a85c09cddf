"""How lengths, shares and sentences read in the unit a person works in, for whoever shows them."""

from __future__ import annotations

from drafting.checks import Result
from drafting.fit.ease import EASE_WHERE, EASE_WORDS
from drafting.reading.options import Value
from drafting.reading.units import (
    NotRead,
    difference_text,
    length_text,
    length_unit,
    parse_length,
    parse_percent,
    percent,
    sentence_in,
)
from output.api.making import Draft
from output.report.tables import counted

__all__ = [
    "EASE_WHERE",
    "EASE_WORDS",
    "NotRead",
    "cloth_sentences",
    "counted",
    "difference_text",
    "fault_words",
    "length_text",
    "length_unit",
    "other_unit",
    "parse_length",
    "parse_percent",
    "percent",
    "sentence_in",
    "value_text",
]


def fault_words(result: Result, unit: str) -> str:
    """What is wrong, without the remedies that can be typed: for whoever makes buttons of those."""
    said = result.remedy
    told = [each.sentence() for each in result.remedies]
    if told:
        told += [each.sentence() for each in result.one_sided]
    for sentence in told:
        said = said.replace(sentence, "")
    return sentence_in(unit, " ".join(said.split()))


def cloth_sentences(drafted: Draft) -> tuple[str, ...]:
    """What is to be known of the cloth of a draft, in sentences; nothing for a plain woven."""
    from output.report.cloth_words import cloth_passages

    said = cloth_passages(drafted.garment.cloth, drafted.pattern, drafted.unit)
    return tuple(sentence for passage in said for sentence in passage.sentences)


def other_unit(unit: str) -> str:
    """The unit that stands small beside a length: centimetres beside inches, inches beside all others."""
    return "cm" if unit == "in" else "in"


def value_text(value: Value, kind: str, unit: str) -> str:
    """A value of an option as it would be typed in a garment file, without quotes: "4.5 cm", "40 %", "12 deg", "yes".

    kind: that of the option; a length comes in as mm, a percent as a fraction of one, an angle in degrees
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if kind == "length":
        return length_text(value, unit)
    if kind == "percent":
        return percent(value)
    return f"{value:g} deg" if kind == "angle" else f"{value:g}"
