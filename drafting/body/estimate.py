"""The lines by which a length that was not measured is estimated from bust, waist, hip and stature.

Each line comes from a survey of real people (`tables/SOURCES.md`) and carries how far off it may be: the residual
standard deviation of the people it was fitted to. Lengths that go together (the arm and its upper part, the front and
the back of the trunk) miss their lines together: where one of such a pair was measured, the other follows it.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache, lru_cache
from pathlib import Path
from types import MappingProxyType

from drafting.body.terms import BodyKind, measurement

__all__ = [
    "HEADER",
    "SURVEYED",
    "Estimate",
    "Line",
    "Pair",
    "beyond_survey",
    "companions",
    "estimate",
    "how_estimated",
    "line_mm",
    "lines",
]


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


@dataclass(frozen=True, slots=True)
class Pair:
    """Two lengths that miss their lines together: `r` is the correlation of their residuals."""

    key: str
    other: str
    r: float


@dataclass(frozen=True, slots=True)
class Estimate:
    """An estimated length, how far off it may be (one standard deviation), both mm, and the length it follows."""

    mm: float
    sd_mm: float
    follows: str | None


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
_TABLES: Mapping[BodyKind, str] = MappingProxyType({"woman": "women_1988", "girl": "girls_1977", "boy": "boys_1977"})

_FOLLOWED = 3.0
"""Residual standard deviations. A measured length further off may be a slip: the other follows it no further."""


@cache
def lines(body: BodyKind) -> Mapping[str, Line]:
    """The estimate lines for this kind of body, by measurement."""
    return MappingProxyType({row["key"]: _line(row) for row in _rows(f"{_TABLES[body]}.csv")})


@cache
def companions(body: BodyKind) -> Mapping[str, tuple[Pair, ...]]:
    """For each measurement the pairs it is the `key` of, the closest first."""
    found: dict[str, list[Pair]] = {}
    for row in _rows(f"{_TABLES[body]}_pairs.csv"):
        one, other, r = row["key"], row["other"], float(row["r"])
        found.setdefault(one, []).append(Pair(one, other, r))
        found.setdefault(other, []).append(Pair(other, one, r))
    return MappingProxyType({key: tuple(sorted(pairs, key=lambda pair: -abs(pair.r))) for key, pairs in found.items()})


def estimate(key: str, measured: Mapping[str, float], body: BodyKind) -> Estimate | None:
    """The length of that name for a body with these measured lengths (mm), the four basics among them.

    On the line of the four basics, and, where a length was measured that goes with it, moved by what that one misses
    its own line by: the conditional mean and deviation of two normal variables of correlation r. None when this kind
    of body has no line for it.
    """
    known = lines(body)
    if key not in known:
        return None
    line = known[key]
    mm, sd = line_mm(line, measured), line.sd * 10
    pair = next((each for each in companions(body).get(key, ()) if each.other in measured), None)
    if pair is None:
        return Estimate(mm, sd, None)
    other = known[pair.other]
    off = (measured[pair.other] - line_mm(other, measured)) / (other.sd * 10)
    off = max(-_FOLLOWED, min(_FOLLOWED, off))
    return Estimate(mm + pair.r * sd * off, sd * math.sqrt(1.0 - pair.r**2), pair.other)


def line_mm(line: Line, basics: Mapping[str, float]) -> float:
    """The length in mm that the line gives for these four basics (mm, by key)."""
    return (
        line.intercept * 10
        + line.bust * basics["bust_girth"]
        + line.waist * basics["waist_girth"]
        + line.hip * basics["hip_girth"]
        + line.stature * basics["stature"]
    )


@lru_cache(maxsize=1024)
def how_estimated(key: str, body: BodyKind, *, follows: str | None = None, beyond: tuple[str, ...] = ()) -> str:
    """A phrase that says what an estimate rests on, how well it holds, and which basics are `beyond` the survey."""
    line = lines(body)[key]
    text = (
        f"estimated from height, bust, waist and hip ({line.n:,} {_SURVEYS[body]}; "
        f"explains {line.r2:.0%} of the differences between them)"
    )
    if follows:
        text += f", and moved with the {measurement(follows).name} that was measured"
    if beyond:
        names = " and ".join(measurement(each).name for each in beyond)
        text += f"; less sure here, as nobody measured had such a {names}"
    return text


def beyond_survey(body: BodyKind, basics: Mapping[str, float]) -> tuple[str, ...]:
    """Those of the four basics (mm, by key) that lie outside what was surveyed."""
    return tuple(key for key, (low, high) in SURVEYED[body].items() if not low <= basics[key] <= high)


def _rows(name: str) -> list[dict[str, str]]:
    path = Path(__file__).parent / "tables" / name
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


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
