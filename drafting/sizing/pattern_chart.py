"""The chart of a pattern as values: the body each size is meant for, and what the garment measures in it."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.body.charts import chart_body, chart_named
from drafting.body.complete import Body
from drafting.body.terms import BodyKind, measurement
from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.fit.cloth import Cloth
from drafting.fit.ease import PLACES, Fit, choose_ease

__all__ = ["BODY_OF", "FINISHED_WORDS", "ChartRow", "PatternChart", "built_in_chart", "chart_rows", "row_name"]

FINISHED_WORDS = {
    "bust": ("chest", "bust line", "finished bust"),
    "upper_chest": ("high bust",),
    "waist": ("waist line", "finished waist"),
    "hip": ("hips", "seat", "finished hip"),
    "upper_arm": ("bicep", "biceps", "sleeve width"),
    "thigh": (),
    "knee": (),
    "hem": ("sweep", "hem width", "width at hem", "width at lower edge"),
    "sleeve_length": ("sleeve", "arm length"),
    "back_waist_length": ("back waist", "nape to waist", "back bodice length"),
    "back_length": ("length", "finished back length", "nape to hem", "centre back length", "dress length"),
    "skirt_length": (),
    "inside_leg": ("inseam", "inside leg length"),
    "outside_leg": ("outseam", "side length"),
    "shoulder_length": ("shoulder",),
    "across_back": ("back width",),
}
"""What may be given of the finished garment, and other words for it."""

BODY_OF = {
    "bust": "bust_girth",
    "upper_chest": "upper_chest_girth",
    "waist": "waist_girth",
    "hip": "hip_girth",
    "upper_arm": "upper_arm_girth",
    "thigh": "thigh_girth",
    "knee": "knee_girth",
    "sleeve_length": "arm_length",
    "back_waist_length": "back_waist_length",
    "inside_leg": "crotch_height",
    "shoulder_length": "shoulder_length",
    "across_back": "interscye_mid_distance",
}
"""The body measurement that each belongs to; none for what only the style decides."""


_GIRTHS = ("bust", "waist", "hip", "upper_arm")


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One row of a chart: a measurement (its key, or the word of a finished one) and its length in each size, mm."""

    word: str
    values: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class PatternChart:
    """The chart of a pattern.

    sizes:       what they are called, smallest first
    body:        the body that each size is meant for, by measurement key
    finished:    what the garment measures in each size, by the words of `FINISHED_WORDS`
    cloth:       the word of the cloth that it is drawn for: "woven", "knit", "denim"
    garment:     the kind of garment, "" where the chart does not say
    cups:        the cups there are pieces for, such as ("B", "C", "D"); empty where there is but one front
    body_kind:   whose chart it is
    unit:        what it is written in
    title:       what it is called
    place:       the file it was read from
    """

    title: str
    sizes: tuple[str, ...]
    body: tuple[ChartRow, ...] = ()
    finished: tuple[ChartRow, ...] = ()
    cloth: str = "woven"
    garment: str = ""
    cups: tuple[str, ...] = ()
    body_kind: BodyKind = "woman"
    unit: str = "cm"
    place: str = ""

    def body_mm(self, size: str, key: str) -> float | None:
        """The body's length in a size, mm; None where the chart has no such row."""
        return _at(self.body, self.sizes.index(size), key)

    def finished_mm(self, size: str, word: str) -> float | None:
        """The garment's length in a size, mm; None where the chart has no such row."""
        return _at(self.finished, self.sizes.index(size), word)

    def body_row(self, key: str) -> tuple[float, ...]:
        """The body's length in every size, mm; empty where the chart has no such row."""
        return next((row.values for row in self.body if row.word == key), ())

    def finished_row(self, word: str) -> tuple[float, ...]:
        """The garment's length in every size, mm; empty where the chart has no such row."""
        return next((row.values for row in self.finished if row.word == word), ())

    def neighbours(self, size: str) -> tuple[str, ...]:
        """The size and the ones next to it, smallest first."""
        at = self.sizes.index(size)
        return self.sizes[max(0, at - 1) : at + 2]


def built_in_chart(name: str, cloth: Cloth, fit: Fit) -> PatternChart:
    """A built-in chart as that of a pattern that is drafted here in this cloth and fit. Raises UnknownName."""
    of = chart_named(name)
    bodies = [chart_body(size, chart=name) for size in of.sizes]
    rows = chart_rows(bodies)
    eases = [choose_ease(cloth, body, fit=fit) for body in bodies]
    finished = []
    for word, key in BODY_OF.items():
        if (
            word in ("bust", "waist", "hip", "upper_arm")
            and PLACES.get(word) == key
            and any(row.word == key for row in rows)
        ):
            values = (body.mm(key) + ease.mm(word) for body, ease in zip(bodies, eases, strict=True))
            finished.append(ChartRow(word, tuple(values)))
    sizes = tuple(map(str, of.sizes))
    return PatternChart(of.title, sizes, rows, tuple(finished), cloth.kind, body_kind=of.body, place=f"the {of.title}")


def chart_rows(bodies: Sequence[Body]) -> tuple[ChartRow, ...]:
    """The rows of these bodies of a chart, smallest first: every length that the chart has of all of them."""
    keys = [each.key for each in bodies[0].known() if all(_has(body, each.key) for body in bodies)]
    return tuple(ChartRow(key, tuple(body.mm(key) for body in bodies)) for key in keys)


def _has(body: Body, key: str) -> bool:
    """Whether a chart has this length of a body; what it has not is estimated."""
    return key in body and body[key].source == "chart"


def _at(rows: tuple[ChartRow, ...], at: int, word: str) -> float | None:
    return next((row.values[at] for row in rows if row.word == word), None)


def row_name(name: str) -> str:
    """What a row is called in a sentence: "back waist length"."""
    try:
        return measurement(name).name
    except UnknownName:
        return name.replace("_", " ")
