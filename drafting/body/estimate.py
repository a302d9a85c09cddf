"""The lines by which a length that was not measured is estimated from bust, waist, hip and stature.

Each line comes from a survey of real people (`tables/SOURCES.md`) and carries how far off it may be: the residual
standard deviation of the people it was fitted to. Lengths that go together (the arm and its upper part, the front and
the back of the trunk) miss their lines together: where one of such a pair was measured, the other follows it.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping
from dataclasses import fields
from functools import cache, lru_cache
from pathlib import Path
from types import MappingProxyType

from drafting.body.terms import BASICS, BodyKind, measurement, measurement_for
from drafting.body.worked_out import OLDER_FROM, TOGETHER, WORKED_OUT, YOUNGER_TO
from drafting.dataclass import dataclass

__all__ = [
    "HEADER",
    "SURVEYED",
    "Estimate",
    "Line",
    "Pair",
    "babies",
    "beyond_survey",
    "companions",
    "estimate",
    "how_estimated",
    "line_mm",
    "lines",
    "younger_share",
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
def babies() -> Mapping[str, Line]:
    """The lines for children smaller than the survey has them, girls and boys alike: a chart, at second hand."""
    return MappingProxyType({row["key"]: _line(row) for row in _rows("babies_lengths.csv")})


@cache
def companions(body: BodyKind) -> Mapping[str, tuple[Pair, ...]]:
    """For each measurement the pairs it is the `key` of, the closest first."""
    found: dict[str, list[Pair]] = {}
    rows = [(row["key"], row["other"], float(row["r"])) for row in _rows(f"{_TABLES[body]}_pairs.csv")]
    for one, other, r in (*rows, *(() if body == "woman" else TOGETHER)):
        found.setdefault(one, []).append(Pair(one, other, r))
        found.setdefault(other, []).append(Pair(other, one, r))
    return MappingProxyType({key: tuple(sorted(pairs, key=lambda pair: -abs(pair.r))) for key, pairs in found.items()})


def estimate(key: str, measured: Mapping[str, float], body: BodyKind) -> Estimate | None:
    """The length of that name for a body with these measured lengths (mm), the four basics among them.

    On the line of the four basics, or as it is worked out for a child, and, where a length was measured that goes with
    it, moved by what that one misses its own line by: the conditional mean and deviation of two normal variables of
    correlation r. None when this kind of body has no line for it.
    """
    found = _by_itself(key, measured, body)
    if found is None:
        return None
    mm, sd = found
    pair = next((each for each in companions(body).get(key, ()) if each.other in measured), None)
    other = _by_itself(pair.other, {basic: measured[basic] for basic in BASICS}, body) if pair else None
    if pair is None or other is None:
        return Estimate(mm, sd, None)
    off = (measured[pair.other] - other[0]) / other[1]
    off = max(-_FOLLOWED, min(_FOLLOWED, off))
    return Estimate(mm + pair.r * sd * off, sd * math.sqrt(1.0 - pair.r**2), pair.other)


def _by_itself(key: str, measured: Mapping[str, float], body: BodyKind) -> tuple[float, float] | None:
    """The length and how far off it may be, mm, whatever goes with it left aside."""
    younger = younger_share(body, measured["stature"])
    older = _older(key, measured, body) if younger < 1.0 else (0.0, 0.0)
    if older is None or not younger:
        return older
    if key not in babies():
        return older if younger < 1.0 else None
    line = babies()[key]
    mm, sd = line_mm(line, measured), line.sd * 10.0
    return younger * mm + (1.0 - younger) * older[0], younger * sd + (1.0 - younger) * older[1]


def _older(key: str, measured: Mapping[str, float], body: BodyKind) -> tuple[float, float] | None:
    """The length and how far off it may be, mm, for a body as the survey has them."""
    line = lines(body).get(key)
    worked = WORKED_OUT.get(key) if body != "woman" else None
    if worked is None:
        return None if line is None else (line_mm(line, measured), line.sd * 10.0)
    mm = 10.0 * worked.constant + worked.stature * measured["stature"] + worked.bust * measured["bust_girth"]
    off = (10.0 * worked.sd) ** 2
    if line is not None:
        mm, off = line_mm(line, measured), (line.sd * 10.0) ** 2
    for part, weight in worked.parts:
        if part in measured:
            mm += weight * measured[part]
        elif (found := _older(part, measured, body)) is not None:
            mm += weight * found[0]
            off += (weight * found[1]) ** 2
        else:
            return None
    return mm, math.sqrt(off + (worked.share * mm) ** 2)


def younger_share(body: BodyKind, stature: float) -> float:
    """How much of an estimate is the chart of babies, 0 to 1, for a body of this height, mm."""
    if body == "woman":
        return 0.0
    return max(0.0, min(1.0, (OLDER_FROM - stature / 10.0) / (OLDER_FROM - YOUNGER_TO)))


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
def how_estimated(
    key: str, body: BodyKind, *, follows: str | None = None, beyond: tuple[str, ...] = (), younger: float = 0.0
) -> str:
    """A phrase that says what an estimate rests on, how well it holds, and which basics are `beyond` the survey.

    younger: as `younger_share` gives it
    """
    if younger == 1.0:
        text = _BABIES[babies()[key].source]
        beyond = ()
    else:
        text = _rests_on(key, body) + (f", and {_BABIES[babies()[key].source]}" if younger else "")
    if follows:
        text += f", and moved with the {measurement(follows).name} that was measured"
    if beyond:
        names = " and ".join(measurement_for(each, body).name for each in beyond)
        text += f"; less sure here, as nobody measured had such a {names}"
    return text


def _rests_on(key: str, body: BodyKind) -> str:
    worked = WORKED_OUT.get(key) if body != "woman" else None
    if worked is not None and worked.why:
        return f"worked out from {worked.why}; nobody measured it on children"
    line = lines(body)[key]
    chest = "bust" if body == "woman" else "chest"
    text = (
        f"estimated from height, {chest}, waist and hip ({line.n:,} {_SURVEYS[body]}; "
        f"explains {line.r2:.0%} of the differences between them)"
    )
    return text + "; their necks were measured half way up" if worked is not None else text


_BABIES: Mapping[str, str] = MappingProxyType(
    {
        "chart": "read off a chart of babies by height, at second hand",
        "ours": "in proportion to a baby's height (our figure)",
    }
)


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
