"""What the DXF writer and the DXF reader agree on: the layers, the words of the texts, the marks on entities.

The layer numbers are those of ASTM D6673, pattern data exchange. The standard itself was not read: the numbers and
the words of the texts (STYLE NAME, PIECE NAME, SIZE, QUANTITY, UNITS: METRIC for millimetres, ENGLISH for inches)
are from memory, and stand here alone so that they are mended in one place.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Final, TypeVar

__all__ = [
    "APP",
    "CHORD",
    "CUT_CHORD",
    "INCH",
    "METRIC",
    "SIZE_LAYER",
    "Layer",
    "Mark",
    "Word",
    "word_at",
]

W = TypeVar("W", bound=StrEnum)

APP: Final = "TRUESEAM"
"""The application name under which names and roles are kept on entities, as extended data."""

CHORD, CUT_CHORD = 0.05, 0.1
"""How far the polyline of what is sewn, and of what is cut, may stray from its curve, mm.

A cutter's blade is true to 0.1 or 0.2 (common practice).
"""

METRIC, INCH = "METRIC", "ENGLISH"

SIZE_LAYER: Final = "SIZE-"
"""What the layer begins with on which the pieces of one size of a nest are inserted: a scheme of our own."""


class Layer(StrEnum):
    """The layers that are used, by their names in the file."""

    BOUNDARY = "1"  # the cutting line
    TURN_POINTS = "2"
    CURVE_POINTS = "3"
    NOTCHES = "4"
    MIRROR_LINE = "6"  # the fold
    GRAIN = "7"
    INTERNAL_LINES = "8"
    DRILL_POINTS = "13"
    SEW_LINES = "14"
    TEXT = "15"


class Word(StrEnum):
    """What a text begins with, before a colon."""

    STYLE = "STYLE NAME"
    UNITS = "UNITS"
    PIECE = "PIECE NAME"
    SIZE = "SIZE"
    QUANTITY = "QUANTITY"
    NOTE = "ANNOTATION"


class Mark(StrEnum):
    """What an entity is, the first word of its extended data; the rest stands beside each.

    EDGE (name, role, allowance, place, half, drawn up, its curves), LINE (name, level, onward), POINT (name, landmark),
    NOTCH (name, edge, style, what it marks), DART (name, leg, leg, marked point), DRILL (what it is for),
    PIECE (name, count, fold, mirror, kind, part, of, side, how many of lining and of interfacing, the two edges of each
    corner that is meant), GATHERS (seam, notch, notch, length when sewn), SEAMS (which share of them this is, its text
    on as many lines as it needs). A word that is not known is "".
    """

    EDGE = "edge"
    LINE = "line"
    POINT = "point"
    NOTCH = "notch"
    DART = "dart"
    DRILL = "drill"
    PIECE = "piece"
    GATHERS = "gathers"
    SEAMS = "seams"


def word_at(data: tuple[object, ...], at: int, words: type[W]) -> W | None:
    """A word of the vocabulary from what is kept on an entity; None where it is not known or is none of them."""
    written = data[at] if at < len(data) else ""
    return next((word for word in words if word == written), None)
