"""What a length of the body is in children so tall, and a child's own lengths when she will be taller.

Each is a smooth function of the height, from the girls and boys measured in 1977 (`tables/SOURCES.md`). A length keeps
its own offset: a child whose chest is 5 % above that of children as tall as she is stays 5 % above it (ours; in that
survey a girth is spread by about the same share of itself at every height).
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Final

from drafting.growth.height_tables import Child

__all__ = ["grown_mm", "known_by_height", "typical_mm"]

_MIDDLE: Final = 130.0
_SURVEYED: Final = (84.0, 176.0)
"""cm. The heights between which enough children were measured; beyond them a length goes straight on."""


@dataclass(frozen=True, slots=True)
class _Line:
    at_130: float
    slope: float
    bend: float
    twist: float

    def cm(self, height: float) -> float:
        inside = min(max(height, _SURVEYED[0]), _SURVEYED[1])
        d = inside - _MIDDLE
        there = self.slope + 2.0 * self.bend * d + 3.0 * self.twist * d * d
        return self.at_130 + d * (self.slope + d * (self.bend + d * self.twist)) + there * (height - inside)


def known_by_height(child: Child) -> tuple[str, ...]:
    """The measurements of which it is known how they go with the height, by key."""
    return tuple(key for whose, key in _lines() if whose == child)


def typical_mm(child: Child, key: str, stature: float) -> float:
    """What a length is in children so tall (mm), mm; one of which nothing is known goes as the height."""
    line = _lines().get((child, key))
    return stature if line is None else 10.0 * line.cm(stature / 10.0)


def grown_mm(child: Child, key: str, mm: float, now: float, then: float) -> float:
    """What a length of a child that is `mm` at a height of `now` will be at a height of `then`, all mm."""
    return mm * typical_mm(child, key, then) / typical_mm(child, key, now)


@cache
def _lines() -> Mapping[tuple[str, str], _Line]:
    with (Path(__file__).parent / "tables" / "lengths_by_height.csv").open(encoding="utf-8", newline="") as file:
        return {(row["body"], row["key"]): _line(row) for row in csv.DictReader(file)}


def _line(row: Mapping[str, str]) -> _Line:
    return _Line(float(row["at_130"]), float(row["slope"]), float(row["bend"]), float(row["twist"]))
