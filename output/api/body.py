"""The wearer's lengths one by one: what was measured, what was worked out and how surely, what looks like a slip."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from blocks.garment import needed
from blocks.worth_measuring import Worth
from blocks.worth_measuring import worth_measuring as worth_of
from drafting.body.complete import Source
from drafting.body.measurement_words import measurement_words
from drafting.body.plausible import Doubt, doubts
from drafting.body.terms import BASICS, MEASUREMENTS, BodyKind, Measurement
from drafting.dataclass import dataclass
from output.api.making import Draft, accept_draft
from output.figure.draw_figure import draw_figure
from output.figure.silhouette import silhouette
from output.figure.tape_lines import tape_line

__all__ = ["BodyRow", "Worth", "body_figure", "body_lengths", "length_name", "worth_measuring", "written_lengths"]


@dataclass(frozen=True, slots=True)
class BodyRow:
    """One length of a body.

    about:     what it is called and how it is taken
    mm:        the length; None where it was not measured and cannot be estimated
    source:    whether it was measured, estimated or given by a chart; "" where there is none
    sd:        mm that an estimate may be off by, one standard deviation; None for what was measured
    needed:    whether the garment is drawn from it
    basic:     whether it must be there
    doubt:     why it looks like a slip of the tape; None where it does not
    """

    about: Measurement
    mm: float | None
    source: Source | str
    sd: float | None
    needed: bool
    basic: bool
    doubt: Doubt | None = None


def body_lengths(drafted: Draft) -> tuple[BodyRow, ...]:
    """Every measurement there is, in the order of a report, with what is known of it for the wearer."""
    body, wanted = drafted.prepared.body, needed(drafted.garment)
    doubted = {each.key: each for each in doubts(body)}
    lengths = body.known()
    rows = []
    for about in MEASUREMENTS:
        key = about.key
        known = next((each for each in lengths if each.key == key), None)
        mm, source, sd = (known.mm, known.source, known.sd_mm) if known else (None, "", None)
        is_needed, is_basic = key in wanted, key in BASICS
        rows.append(BodyRow(about, mm, source, sd, is_needed, is_basic, doubted.get(key)))
    return tuple(rows)


def length_name(about: Measurement, body: BodyKind) -> str:
    """What a length is called on this kind of body: a child has a chest."""
    return "chest" if about.key == "bust_girth" and body != "woman" else about.name


def worth_measuring(drafted: Draft) -> tuple[Worth, ...]:
    """The lengths that were estimated, the one first which, if it were measured, would change this garment most.

    Found by drafting it again with each of them off by as much as its estimate may be; some ten drafts' time.
    """
    accept_draft(drafted)
    return worth_of(drafted.garment, drafted.prepared)


def written_lengths(written: Mapping[str, object], body: BodyKind = "woman") -> dict[str, str]:
    """The words of a person's `[measurements]` by the measurement each stands for: {"waist_girth": "my waist"}."""
    words = measurement_words(body)
    return {words.key(word): word for word in written}


def body_figure(lengths: Mapping[str, float], body: BodyKind = "woman") -> dict[str, Any]:
    """A body drawn from its lengths (mm, by key; stature and the three girths among them).

    `front` and `back` (as `draw_figure` gives them), and `tapes`: where the tape lies, by measurement
    """
    return _figure(tuple(lengths.items()), body)


@lru_cache(maxsize=8)
def _figure(lengths: tuple[tuple[str, float], ...], body: BodyKind) -> dict[str, Any]:
    drawn = silhouette(dict(lengths), body)
    tapes = {key: tape for key, _ in lengths if (tape := tape_line(key, drawn)) is not None}
    return {"front": draw_figure(drawn, "front"), "back": draw_figure(drawn, "back"), "tapes": tapes}
