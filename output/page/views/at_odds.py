"""Measurements with which nothing can be drafted: why, and what would let it be, as buttons."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from output.api import Garment
from output.api.body import written_lengths
from output.api.showing import BASICS, CannotDraft, Way, measurement, measurement_for
from output.api.wording import EASE_WORDS, length_text
from output.page.views.data import Data, written_tables
from output.page.views.refused_part import made_at

__all__ = ["at_odds"]


def at_odds(
    refused: CannotDraft, garment: Garment | None, tables: Mapping[str, Any], person: Mapping[str, Any]
) -> Data:
    """The problem: in, at, sentences, offers. An offer may help or not: whoever shows it tries it first.

    It stands at what she asked for in the garment where that alone would let it be drafted, else with the lengths.

    garment: as it was ordered, None where that is not known; tables, person: what stands in its file and its wearer's
    """
    offers = [] if garment is None else [*_ways(refused, garment, tables, person), *_left_out(refused, garment, person)]
    told = {"sentences": str(refused).splitlines(), "offers": offers}
    asked = next((at for way in refused.ways if way.of != "measurement" and (at := _place(way, tables))), None)
    if asked is not None:
        return {"in": "garment", "at": list(asked), "of": made_at(asked, tables), **told}
    return {"in": "person", "at": None, **told}


def _ways(
    refused: CannotDraft, garment: Garment, tables: Mapping[str, Any], person: Mapping[str, Any]
) -> Iterator[Data]:
    """The ways out of a draft that is refused, each as a button: a measurement, an ease or an option that gives way."""
    words = _words(garment, person)
    for way in refused.ways:
        told = "" if way.mm is None else length_text(way.mm, garment.wearer.unit)
        if way.of == "measurement" and person:
            about = measurement_for(way.key, garment.wearer.body)
            word = words.get(way.key, about.word)
            yield _offer(f"{about.name[:1].upper()}{about.name[1:]} {told}", "person", ("measurements", word), told)
        elif (at := _place(way, tables)) is not None:
            named = "Ease" if way.of == "ease" else f"The {way.of} without"
            said = str(at[-1]).replace("_", " ")
            yield _offer(f"{named} {said} {told}".rstrip(), "garment", at, told)


def _left_out(refused: CannotDraft, garment: Garment, person: Mapping[str, Any]) -> Iterator[Data]:
    """Each measurement at odds that can be guessed in place of what is written."""
    words = _words(garment, person)
    for key in refused.measurements:
        if key in words and key not in BASICS:
            yield _offer(f"Have “{measurement(key).name}” guessed", "person", ("measurements", words[key]), "")


def _words(garment: Garment, person: Mapping[str, Any]) -> Mapping[str, str]:
    """The word for each measurement that stands in the file."""
    lengths = person.get("measurements")
    return written_lengths(lengths, garment.wearer.body) if isinstance(lengths, Mapping) else {}


def _place(way: Way, tables: Mapping[str, Any]) -> tuple[str | int, ...] | None:
    """Where an ease or an option of a block stands in the garment's file; None where it stands in another."""
    for place, block in enumerate(written_tables(tables, "block")):
        if way.of == "ease":
            written = block.get("ease")
            eases: Mapping[str, Any] = written if isinstance(written, Mapping) else {}
            word = next((word for word in eases if EASE_WORDS.key(word) == way.key), None)
            if word is not None:
                return "block", place, "ease", word
            if way.key in block:
                return "block", place, way.key
        elif block.get("name") == way.of and way.key in block:
            return "block", place, way.key
    return None


def _offer(words: str, where: str, at: tuple[str | int, ...], value: str) -> Data:
    done: Data = {"do": "set", "value": value} if value else {"do": "remove"}
    return {"words": words, "edits": [{"in": where, "at": list(at), **done}]}
