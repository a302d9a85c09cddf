"""Ease: how much larger than the body a garment is cut, by cloth and fit, with a source to every figure."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final, Literal, get_args

from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.fit.cloth import Cloth, stretch_class
from drafting.fit.thickness import room_at
from drafting.reading.key_words import Words
from drafting.reading.read_table import Reader

__all__ = [
    "EASE_LIMITS",
    "EASE_WHERE",
    "EASE_WORDS",
    "FITS",
    "PLACES",
    "TOLD_FROM",
    "Ease",
    "EaseRow",
    "EaseSet",
    "Fit",
    "choose_ease",
    "ease_table",
    "ease_where",
    "read_ease",
    "usual_ease",
    "with_least",
    "with_more",
]

Fit = Literal["close", "regular", "loose"]
FITS: tuple[Fit, ...] = get_args(Fit)

PLACES: Mapping[str, str | None] = MappingProxyType(
    {
        "bust": "bust_girth",
        "upper_chest": "upper_chest_girth",
        "waist": "waist_girth",
        "hip": "hip_girth",
        "thigh": "thigh_girth",
        "knee": "knee_girth",
        "crotch_depth": None,
        "crotch_length": "crotch_length",
        "upper_arm": "upper_arm_girth",
        "elbow": "elbow_girth",
        "wrist": "wrist_girth",
        "across_back": "interscye_mid_distance",
        "scye_depth": "scye_depth",
        "neck": "neck_base_girth",
        "cap_ease": None,
    }
)
"""Where ease is given, and the body measurement it is added to; None for none.

The crotch's depth is added to the difference of two heights; the cap's is what the cap has over the armhole.
"""

EASE_WHERE: Mapping[str, str] = MappingProxyType(
    {
        "bust": "round the bust",
        "upper_chest": "round the upper chest",
        "waist": "round the waist",
        "hip": "round the hip",
        "thigh": "round the thigh",
        "knee": "at the knee",
        "crotch_depth": "in the depth of the crotch",
        "crotch_length": "through the crotch",
        "upper_arm": "round the upper arm",
        "elbow": "at the elbow",
        "wrist": "at the wrist",
        "across_back": "across the back",
        "scye_depth": "in the depth of the armhole",
        "neck": "round the neck",
        "cap_ease": "in the cap of the sleeve",
    }
)
"""How a sentence says where the ease is."""

TOLD_FROM: Final = 0.5
"""mm by which an ease may miss what was asked for without a word: what README promises of a measured length."""

_HARDLY: Final = 1.0
"""mm by which an ease may lie outside what is usual without a word: 2 in are written 5 cm (our figure)."""

EASE_LIMITS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "bust": (-400.0, 800.0),
        "upper_chest": (-400.0, 800.0),
        "waist": (-400.0, 1500.0),
        "hip": (-400.0, 1500.0),
        "thigh": (-200.0, 800.0),
        "knee": (-150.0, 800.0),
        "crotch_depth": (-50.0, 200.0),
        "crotch_length": (-100.0, 300.0),
        "upper_arm": (-150.0, 400.0),
        "elbow": (-120.0, 400.0),
        "wrist": (-80.0, 400.0),
        "across_back": (-80.0, 150.0),
        "scye_depth": (-40.0, 200.0),
        "neck": (-60.0, 200.0),
        "cap_ease": (0.0, 120.0),
    }
)
"""The least and the most ease (mm) that may be asked for: slips of the unit are refused, not tastes."""


EASE_WORDS: Words = Words(
    {place: "armhole_depth" if place == "scye_depth" else place for place in PLACES},
    {
        "hips": "hip",
        "chest": "bust",
        "high bust": "upper_chest",
        "bicep": "upper_arm",
        "biceps": "upper_arm",
        "back width": "across_back",
        "rise": "crotch_depth",
        "cap": "cap_ease",
    },
)
"""What the places may be called."""


@dataclass(frozen=True, slots=True)
class EaseRow:
    """One row of the table. The ease is `mm`, plus `share` of the body's girth (negative in a close knit).

    low_mm, high_mm: what the source gives; None where it has no such limit, both where the figure is ours
    reliability:     A government, B textbook or trade body, C secondary, D one practitioner, E common practice
    """

    cloth: str
    fit: str
    place: str
    mm: float
    share: float
    low_mm: float | None
    high_mm: float | None
    source: str
    reliability: str
    note: str


@dataclass(frozen=True, slots=True)
class Ease:
    """The ease at one place, in millimetres, and where the figure comes from.

    note: a sentence where it was asked for and lies outside what the source gives for this cloth and fit; "" elsewhere
    """

    place: str
    mm: float
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class EaseSet:
    """The ease of one garment, place by place in the order of `PLACES`."""

    fit: Fit
    values: tuple[Ease, ...]

    def __getitem__(self, place: str) -> Ease:
        """The ease at a place. Raises UnknownName."""
        for ease in self.values:
            if ease.place == place:
                return ease
        raise UnknownName("ease", place, [ease.place for ease in self.values])

    def mm(self, place: str) -> float:
        """The ease at a place in millimetres. Raises UnknownName."""
        return self[place].mm

    def by_place(self) -> dict[str, float]:
        """The ease in millimetres by place, as a block takes it."""
        return {ease.place: ease.mm for ease in self.values}


def choose_ease(
    cloth: Cloth, body: Body, *, fit: Fit = "regular", given: Mapping[str, float] = MappingProxyType({})
) -> EaseSet:
    """The ease for this cloth and fit on this body: what is `given` (mm, by place), else the table's.

    A place whose ease is a share of a girth nobody knows (some of a child's) is left out. Raises UnknownName for a
    fit or a place that is not there.
    """
    if fit not in FITS:
        raise UnknownName("fit", fit, FITS)
    for place in given:
        if place not in PLACES:
            raise UnknownName("ease", place, PLACES)
    values = []
    child = body.person.body != "woman"
    for place, key in PLACES.items():
        row = usual_ease(cloth, fit, place, child=child)
        room = room_at(place, cloth)
        if place in given:
            values.append(Ease(place, given[place], "as asked for", _note(row, given[place], child=child)))
        elif row.share == 0.0:
            values.append(Ease(place, row.mm + room, _ease_sentence(row, room)))
        elif key is not None and key in body:
            values.append(Ease(place, row.mm + row.share * body.mm(key) + room, _ease_sentence(row, room)))
    return EaseSet(fit, tuple(values))


def with_more(ease: EaseSet, more: Mapping[str, float]) -> EaseSet:
    """The ease with so much more at some places, mm, for a child to grow into; said behind its source."""
    values = (
        replace(
            each, mm=each.mm + more[each.place], source=f"{each.source}; {more[each.place]:.1f} mm more to grow into"
        )
        if each.place in more
        else each
        for each in ease.values
    )
    return EaseSet(ease.fit, tuple(values))


def with_least(ease: EaseSet, least: Mapping[str, float], whose: str) -> EaseSet:
    """The ease with no less than this at some places, mm, which a part asks for; said behind its source."""
    values = (
        replace(each, mm=least[each.place], source=f"{each.source}; more for the {whose}")
        if least.get(each.place, each.mm) > each.mm
        else each
        for each in ease.values
    )
    return EaseSet(ease.fit, tuple(values))


def read_ease(reader: Reader, *, places: Sequence[str] = tuple(PLACES)) -> dict[str, float]:
    """The ease a person asks for in a table like `ease = { bust = "6 cm" }`, mm by place; problems are noted."""
    return reader.lengths({place: EASE_LIMITS[place] for place in places})


@cache
def ease_table() -> tuple[EaseRow, ...]:
    """Every row of the shipped table."""
    path = Path(__file__).parent / "tables" / "ease.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return tuple(
            EaseRow(
                cloth=row["cloth"],
                fit=row["fit"],
                place=row["place"],
                mm=float(row["mm"] or 0.0),
                share=float(row["percent"] or 0.0) / 100,
                low_mm=float(row["low_mm"]) if row["low_mm"] else None,
                high_mm=float(row["high_mm"]) if row["high_mm"] else None,
                source=row["source"],
                reliability=row["reliability"],
                note=row["note"],
            )
            for row in csv.DictReader(file)
        )


def usual_ease(cloth: Cloth, fit: Fit, place: str, *, child: bool = False) -> EaseRow:
    """The row of the table for this cloth, fit and place: what is usual there, and who says so.

    The nearest row: for a cloth of this name, for its weight, for how far it stretches, for its kind; for a child its
    own before all others.
    """
    structure = "knit" if cloth.knit else "woven"
    names = (cloth.kind, f"{cloth.weight} {structure}", stretch_class(cloth), structure)
    ordered = (*(f"child's {name}" for name in names), *names) if child else names
    rows = _rows()
    # the plain kinds are words for a cloth too, and come last
    return next(row for name in sorted(ordered, key=_PLAIN.__contains__) if (row := rows.get((name, fit, place))))


_PLAIN: Final = ("woven", "knit")


@cache
def _rows() -> Mapping[tuple[str, str, str], EaseRow]:
    return MappingProxyType({(row.cloth, row.fit, row.place): row for row in ease_table()})


_TRUST: Mapping[str, str] = MappingProxyType(
    {"A": ", a government", "B": ", a textbook or trade body", "C": ", at second hand", "D": ", one maker", "E": ""}
)
"""How far a figure can be relied on, in words behind its source; common practice says it itself."""


def _ease_sentence(row: EaseRow, room: float) -> str:
    given = f"; {_range(row)} there" if row.low_mm is not None and row.low_mm != row.high_mm else ""
    more = f"; {abs(room):.1f} mm {'more' if room > 0.0 else 'less'} for what lies under it" if room else ""
    return f"{row.cloth}, {row.fit} fit: {row.note} ({row.source}{given}{_TRUST[row.reliability]}){more}"


def _range(row: EaseRow) -> str:
    """What the source gives, in words."""
    if row.low_mm is None or row.high_mm is None:
        return f"{row.low_mm:.1f} mm or more" if row.low_mm is not None else f"{row.high_mm:.1f} mm or less"
    return f"{row.low_mm:.1f} to {row.high_mm:.1f} mm" if row.low_mm < row.high_mm else f"{row.low_mm:.1f} mm"


def ease_where(place: str, *, child: bool) -> str:
    """Where an ease is, in words: "round the waist"; a child has a chest."""
    return "round the chest" if child and place == "bust" else EASE_WHERE[place]


def _note(row: EaseRow, mm: float, *, child: bool) -> str:
    """A sentence on an ease outside what the source gives; "" for one within it, or where no source gives anything."""
    less = row.low_mm is not None and mm < row.low_mm - _HARDLY
    if not less and (row.high_mm is None or mm <= row.high_mm + _HARDLY):
        return ""
    return (
        f"The ease {ease_where(row.place, child=child)} that was asked for, {mm:.1f} mm, is "
        f"{'less' if less else 'more'} than is usual for a {row.fit} fit in a {row.cloth}: "
        f"{_range(row)} ({row.source})."
    )
