"""The lines by which a length that was not measured is estimated from bust, waist, hip and stature.

Each line comes from a survey of real people (`tables/SOURCES.md`) and carries how far off it may be: the residual
standard deviation of the people it was fitted to.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from types import MappingProxyType

from drafting.body.terms import BodyKind, measurement

__all__ = ["HEADER", "SURVEYED", "Line", "beyond_survey", "estimate_mm", "how_estimated", "lines"]


@dataclass(frozen=True, slots=True)
class Line:
    """One length as a linear function of the four basics. Centimetres, as in the surveys.

    n:      how many people it was fitted to
    r2:     how much of the variation between people it explains, 0 to 1
    sd:     residual standard deviation, cm
    source: "full survey", or "open half" for a line that `refit` rebuilds from the open data
    """

    key: str
    n: int
    intercept: float
    bust: float
    waist: float
    hip: float
    stature: float
    r2: float
    sd: float
    source: str

    def cells(self) -> tuple[object, ...]:
        """The line as a row of its table."""
        return tuple(getattr(self, name) for name in HEADER)


HEADER = tuple(field.name for field in fields(Line))

SURVEYED: Mapping[BodyKind, Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        "woman": {
            "stature": (1428.0, 1836.0),
            "bust_girth": (711.0, 1159.0),
            "waist_girth": (580.0, 973.0),
            "hip_girth": (812.0, 1189.0),
        },
        "girl": {
            "stature": (842.0, 1816.0),
            "bust_girth": (459.0, 1074.0),
            "waist_girth": (388.0, 1054.0),
            "hip_girth": (438.0, 1159.0),
        },
        "boy": {
            "stature": (813.0, 1944.0),
            "bust_girth": (464.0, 1111.0),
            "waist_girth": (420.0, 1053.0),
            "hip_girth": (454.0, 1160.0),
        },
    }
)
"""Least and greatest of the four basics among the people surveyed, mm: beyond them a line is drawn out."""

_SURVEYS: Mapping[BodyKind, str] = MappingProxyType(
    {
        "woman": "women measured in 1988",
        "girl": "girls of 2 to 19 measured in 1977",
        "boy": "boys of 2 to 19 measured in 1977",
    }
)
_TABLES: Mapping[BodyKind, str] = MappingProxyType(
    {"woman": "women_1988.csv", "girl": "girls_1977.csv", "boy": "boys_1977.csv"}
)


@cache
def lines(body: BodyKind) -> Mapping[str, Line]:
    """The estimate lines for this kind of body, by measurement."""
    path = Path(__file__).parent / "tables" / _TABLES[body]
    with path.open(encoding="utf-8", newline="") as file:
        return MappingProxyType({row["key"]: _line(row) for row in csv.DictReader(file)})


def estimate_mm(line: Line, basics: Mapping[str, float]) -> float:
    """The estimated length in mm for a body with these four basics (mm, by key)."""
    return (
        line.intercept * 10
        + line.bust * basics["bust_girth"]
        + line.waist * basics["waist_girth"]
        + line.hip * basics["hip_girth"]
        + line.stature * basics["stature"]
    )


def how_estimated(line: Line, body: BodyKind, beyond: Sequence[str] = ()) -> str:
    """A phrase that says what an estimate rests on, how well it holds, and which basics are `beyond` the survey."""
    text = (
        f"estimated from height, bust, waist and hip ({line.n:,} {_SURVEYS[body]}; "
        f"explains {line.r2:.0%} of the differences between them)"
    )
    if not beyond:
        return text
    names = " and ".join(measurement(key).name for key in beyond)
    return f"{text}; less sure here, as nobody measured had such a {names}"


def beyond_survey(body: BodyKind, basics: Mapping[str, float]) -> tuple[str, ...]:
    """Those of the four basics (mm, by key) that lie outside what was surveyed."""
    return tuple(key for key, (low, high) in SURVEYED[body].items() if not low <= basics[key] <= high)


def _line(row: Mapping[str, str]) -> Line:
    return Line(
        key=row["key"],
        n=int(row["n"]),
        intercept=float(row["intercept"]),
        bust=float(row["bust"]),
        waist=float(row["waist"]),
        hip=float(row["hip"]),
        stature=float(row["stature"]),
        r2=float(row["r2"]),
        sd=float(row["sd"]),
        source=row["source"],
    )
