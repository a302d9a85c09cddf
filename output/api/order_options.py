"""What a garment file says beside its steps, as options with ranges: its blocks and parts, cloth, fit, ease, paper."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from blocks.block_table import blocks_for, plain_blocks, rival_blocks
from blocks.from_file.part_file import sites_of
from blocks.paper import MOST_ALLOWANCE, MOST_HEM, ROLL_WIDTHS
from drafting.body.charts import chart_named
from drafting.body.sizes import SIZE_WORDS
from drafting.dataclass import dataclass
from drafting.fit.cloth import (
    CLOTH_KINDS,
    CLOTH_REPEATS,
    CLOTH_WIDTHS,
    MOST_BENEATH,
    MOST_SHRINKAGE,
    MOST_STRETCH,
    MOST_THICKNESS,
)
from drafting.fit.cloth_table import WEIGHTS
from drafting.fit.ease import EASE_LIMITS, EASE_WHERE, EASE_WORDS, FITS, PLACES, usual_ease
from drafting.other_names import other_names
from drafting.parts.part_table import PARTS, Part, rivals_of, sites_text
from drafting.pattern import finished
from drafting.reading.options import Option, Value
from output.api.making import Draft
from output.sheets.papers import PAPERS

__all__ = [
    "CLOTH",
    "FIT",
    "PAPER",
    "PARTS",
    "EaseHad",
    "Part",
    "blocks_for",
    "cloth_values",
    "ease_had",
    "other_names",
    "paper_values",
    "plain_blocks",
    "rival_blocks",
    "rivals_of",
    "sites_of",
    "sites_text",
    "sizes_had",
    "sizes_to_choose",
]

CLOTH: Final = (
    Option("kind", "choice", "what it is: woven, knit, or a cloth by its name", default="woven", choices=CLOTH_KINDS),
    Option(
        "stretch", "percent", "how much longer it gets across when it is stretched", 0.0, MOST_STRETCH, default=None
    ),
    Option("stretch_along", "percent", "how much longer it gets along the grain", 0.0, MOST_STRETCH, default=None),
    Option("weight", "choice", "how heavy it is; left out, as usual", default=None, choices=WEIGHTS),
    Option("thickness", "length", "how thick it is; left out, as usual", 0.0, MOST_THICKNESS, default=None),
    Option("over", "text", 'what is worn beneath: "shirt, pullover"', default=""),
    Option("beneath", "length", "how thick that lies; left out, as usual", 0.0, MOST_BENEATH, default=None),
    Option("width", "length", "from selvedge to selvedge", *CLOTH_WIDTHS, default=None),
    Option("shrinkage", "percent", "what the wash takes of its length", 0.0, MOST_SHRINKAGE, default=None),
    Option("one_way", "flag", "all pieces lie with their tops one way; left out, as usual", default=None),
    Option("lining_width", "length", "how wide the lining lies; left out, as usual", *CLOTH_WIDTHS, default=None),
    Option(
        "interfacing_width", "length", "how wide the interfacing lies; left out, as usual", *CLOTH_WIDTHS, default=None
    ),
    Option("repeat", "length", "after how much its pattern comes again; left out, none", *CLOTH_REPEATS, default=None),
)
"""What `[cloth]` says."""

FIT: Final = Option("fit", "choice", "how close it is worn", default="regular", choices=FITS)

PAPER: Final = (
    Option("size", "choice", "what it is printed on", default="A4", choices=tuple(PAPERS)),
    Option("seam_allowance", "length", "what is added for seams", 0.0, MOST_ALLOWANCE, default=15.0),
    Option(
        "hem",
        "length",
        "what is turned up for hems; left out, as is usual",
        0.0,
        MOST_HEM,
        default=None,
    ),
    Option("roll", "length", "how wide the copy shop's roll is; left out, sheets of A0", *ROLL_WIDTHS, default=None),
)
"""What `[paper]` says."""


@dataclass(frozen=True, slots=True)
class EaseHad:
    """The ease at one place.

    block:    the block it is written with; option: what can be written there, its key in the file as its name
    within:   the table of the block that it stands in: "ease", or "" for the block itself
    where:    "round the bust"
    mm:       how much was chosen; asked: whether she asked for it
    usual:    the least and the most that is usual for this cloth and fit, mm; None where no source says so
    note:     a sentence where what was asked for is not usual; "" elsewhere
    finished: what the garment measures there, mm; None where that is not measured
    """

    block: str
    option: Option
    within: str
    where: str
    mm: float
    asked: bool
    usual: tuple[float, float] | None
    note: str
    finished: float | None


def ease_had(drafted: Draft) -> tuple[EaseHad, ...]:
    """The ease of the garment, place by place."""
    garment, pattern = drafted.garment, drafted.pattern
    made = {m.key: each.finished for m, each in zip(pattern.measures, finished(pattern), strict=True) if m.key}
    ordered = [order.block for order in garment.blocks]
    rows = []
    for ease in drafted.ease:
        place = ease.place
        row = usual_ease(garment.cloth, garment.fit, place, child=garment.wearer.body != "woman")
        usual = None if row.low_mm is None or row.high_mm is None else (row.low_mm, row.high_mm)
        block = next(block.name for block in ordered if place in block.places)
        about = f"how much larger than the body {EASE_WHERE[place]}"
        option = Option(EASE_WORDS.called(place), "length", about, *EASE_LIMITS[place], default=None)
        is_cap = place == "cap_ease"
        asked = place in garment.ease
        there = made.get(PLACES[place] or "")
        within, where = "" if is_cap else "ease", EASE_WHERE[place]
        rows.append(EaseHad(block, option, within, where, ease.mm, asked, usual, ease.note, there))
    return tuple(rows)


def sizes_had(drafted: Draft) -> tuple[tuple[str, str, int | None], ...]:
    """The sizes of a chart it is made in: where, its word in the file, which one; nothing where she was measured.

    None for a place that is as the block is drafted.
    """
    sizes = drafted.garment.sizes
    if sizes is None:
        return ()
    words = {place: SIZE_WORDS.called(place) for place in ("bust", "waist", "hip", "upper_chest")}
    if chart_named(sizes.chart).body != "woman":
        words = {"upper_chest": "height"} | words | {"upper_chest": "height"}
    return tuple((word.replace("_", " "), word, getattr(sizes, place)) for place, word in words.items())


def sizes_to_choose(drafted: Draft) -> tuple[int, ...]:
    """Every size of the chart it is made in, smallest first; nothing where she was measured."""
    sizes = drafted.garment.sizes
    return () if sizes is None else chart_named(sizes.chart).sizes


def cloth_values(drafted: Draft) -> Mapping[str, Value]:
    """What the options of `CLOTH` and `FIT` came to: mm, shares, words."""
    cloth = drafted.garment.cloth
    values = {each.name: getattr(cloth, each.name) for each in CLOTH}
    return MappingProxyType(values | {"over": ", ".join(cloth.over), "fit": drafted.garment.fit})


def paper_values(drafted: Draft) -> Mapping[str, Value]:
    """What the options of `PAPER` came to: mm, words."""
    came_to = {each.name: getattr(drafted.garment.paper, each.name) for each in PAPER}
    return MappingProxyType({**came_to, "hem": drafted.garment.hem})
