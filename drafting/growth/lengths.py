"""What a length of the body is in children so tall, and a child's own lengths when she will be taller.

Each is a smooth function of the height, from the girls and boys measured in 1977: that of the size chart, or where the
chart has none, what is estimated from the height and girths of the chart; the crotch height has a table here. A length
keeps its own offset: a child whose chest is 5 % above that of children as tall as she is stays 5 % above it (ours; in
that survey a girth is spread by about the same share of itself at every height).
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Final

from drafting.body.charts import chart_lines, chart_named
from drafting.body.estimate import estimate
from drafting.body.terms import BASICS
from drafting.dataclass import dataclass
from drafting.growth.height_tables import Child

__all__ = ["grown_mm", "typical_mm"]

_MIDDLE: Final = 130.0
_SURVEYED: Final = (84.0, 176.0)
"""cm. The heights between which enough children were measured; beyond them a level goes straight on."""

_BABIES: Final = 860.0
_RISE: Final = (14.9 - 10.2) / (86.0 - 56.0)
"""mm of height below which the height of the crotch follows the waist, and by how much the rise between the two grows
for each cm of height there: a chart of babies (W. Aldrich, at second hand; size 56 to 86)."""

_CHARTS: Final = {"girl": "girls", "boy": "boys"}


@dataclass(frozen=True, slots=True)
class _Line:
    at_130: float
    slope: float
    bend: float

    def cm(self, height: float) -> float:
        inside = min(max(height, _SURVEYED[0]), _SURVEYED[1])
        d = inside - _MIDDLE
        return self.at_130 + d * (self.slope + d * self.bend) + (self.slope + 2.0 * self.bend * d) * (height - inside)


def typical_mm(child: Child, key: str, stature: float) -> float:
    """What a length is in children so tall (mm), mm; one of which nothing is known goes as the height."""
    chart = chart_named(_CHARTS[child])
    if key in (lines := chart_lines(chart.name)):
        return 10.0 * lines[key].cm(stature / 10.0, chart)
    if level := _levels().get((child, key)):
        inside = max(stature, _BABIES)
        lower = typical_mm(child, "waist_height", inside) - typical_mm(child, "waist_height", stature)
        return 10.0 * level.cm(inside / 10.0) - lower + _RISE * (inside - stature)
    found = estimate(key, {each: typical_mm(child, each, stature) for each in BASICS}, child)
    return stature if found is None else found.mm


def grown_mm(child: Child, key: str, mm: float, now: float, then: float) -> float:
    """What a length of a child that is `mm` at a height of `now` will be at a height of `then`, all mm."""
    return mm * typical_mm(child, key, then) / typical_mm(child, key, now)


@cache
def _levels() -> Mapping[tuple[str, str], _Line]:
    with (Path(__file__).parent / "tables" / "levels_by_height.csv").open(encoding="utf-8", newline="") as file:
        return {
            (row["body"], row["key"]): _Line(float(row["at_130"]), float(row["slope"]), float(row["bend"]))
            for row in csv.DictReader(file)
        }
