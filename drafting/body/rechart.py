"""Rebuild the women's size chart from the survey.

`python -m drafting.body.rechart tests/data/women_1988_by_bust.csv tests/data/women_1988.csv` prints
`tables/women_chart.csv`. The first file has the mean, the standard deviation and the number of women of every size for
what the survey published; the second the women of the open half (mm), from whom the rest is taken, parted half way
between the sizes.

How it is smoothed. The means of the sizes jump: 17 women stand behind size 76 and 22 behind size 110, and by chance
alone their mean statures are off by more than a step of the chart. So every length is one function of the bust, fitted
to the means by least squares, each weighted by n / sd^2 (the inverse of the variance of a mean): a straight line, so
that it rises by the same amount from size to size; or a parabola, whose steps grow or shrink evenly, where its bend is
more than 3 standard errors from zero and it still rises all the way from 76 to 110. That is so for the waist and the
under-bust, which grow faster in the larger sizes, and for the girths of the leg, which grow more slowly. All lengths
rise but the shoulder drop, which falls by a millimetre a size. A height that is another and a difference is taken from
those two, so that the three agree.

What comes out, against the girths of EN 13402-3 as they are commonly quoted (cm; the standard itself was not read, see
`tests/data/SOURCES.md`). A test holds this table to the chart:

    size     76     80     84     88     92     96    100    104    110
    waist  62.0   64.4   67.1   70.0   73.3   76.8   80.7   84.9   91.7
    EN     60.0   64.0   68.0   72.0   76.0   80.0   84.0   88.0   94.0
    hip    86.7   89.4   92.1   94.9   97.6  100.3  103.0  105.7  109.8
    EN     84.0   88.0   92.0   96.0  100.0  104.0  108.0  112.0  117.0

The bust is the same by definition. The waist steps by 2.4 to 4.2 cm (6.8 from 104 to 110) where EN steps by 4 (and 6):
never more than 3.3 cm apart. The hip steps by 2.7 where EN steps by 4 (and 5), so that it is 2.7 cm larger than EN's in
the smallest size and 7.2 cm smaller in the largest. Two reasons, both of the data: women with a large bust have on the
mean not quite so large a hip, while a chart that adds the same to every girth spreads them further; and the women are
soldiers of 1988, 18 to 50 years old.
"""

from __future__ import annotations

import csv
import math
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from drafting.body.charts import HEADER, MIDDLE, SIZES, SURVEYED, ChartLine
from drafting.body.terms import KEYS

__all__ = ["COLUMNS", "Band", "bands_of", "chart_of", "main", "published_bands", "smoothed"]

COLUMNS: Mapping[str, str] = MappingProxyType(
    {
        "stature": "stature",
        "bust_girth": "chest_circ",
        "waist_girth": "waist_circ_natural",
        "hip_girth": "buttock_circ",
        "upper_chest_girth": "chest_circ_at_scye",
        "under_bust_girth": "chest_circ_below_bust",
        "neck_base_girth": "neck_circ_base",
        "shoulder_length": "shoulder_lnth",
        "interscye_mid_distance": "intrscy_mid_dist",
        "interscye_distance": "intrscy_dist",
        "biacromial_breadth": "biacromial_brth",
        "bust_point_breadth": "bustpoint_to_bustpoint_brth",
        "neck_to_bust_point": "neck_to_bustpoint_lnth",
        "back_waist_length": "waist_nat_lnth",
        "front_waist_length_from_neck_pit": "wst_nat_front",
        "scye_depth": "scye_depth",
        "scye_girth": "scye_circ_over_acromion",
        "upper_arm_girth": "arm_circ_axillary",
        "elbow_girth": "elbow_circ_extended",
        "wrist_girth": "wrist_circ_stylion",
        "arm_length": "sleeve_outseam_lnth",
        "cervicale_height": "cervic_ht",
        "waist_height": "waist_ht_natural",
        "crotch_height": "crotch_ht",
        "crotch_length": "crotch_nat_waist",
        "thigh_girth": "thigh_circ_proximal",
        "knee_girth": "knee_circ",
        "calf_girth": "calf_circ",
        "ankle_girth": "ankle_circ",
    }
)
"""What the file of bands calls our measurements."""

_STANDS_OUT = 3.0
"""Standard errors by which the bend of a parabola must differ from zero for it to be taken instead of a line."""

_FEWEST = 2


@dataclass(frozen=True, slots=True)
class Band:
    """The women of one size: their mean bust, how many, and mean and standard deviation of one length, cm."""

    bust: float
    n: int
    mean: float
    sd: float


def published_bands(table: Iterable[Mapping[str, str]]) -> dict[str, tuple[Band, ...]]:
    """The bands of every measurement in the file of bands, under our keys."""
    ours = {column: key for key, column in COLUMNS.items()}
    rows = [row for row in table if row["measurement"] in ours]
    bust = {row["bust_size_cm"]: float(row["mean_cm"]) for row in rows if ours[row["measurement"]] == "bust_girth"}
    found: dict[str, list[Band]] = {}
    for row in rows:
        band = Band(bust[row["bust_size_cm"]], int(row["n"]), float(row["mean_cm"]), float(row["sd_cm"]))
        found.setdefault(ours[row["measurement"]], []).append(band)
    return {key: tuple(bands) for key, bands in found.items()}


def bands_of(people: Sequence[Mapping[str, float]]) -> dict[str, tuple[Band, ...]]:
    """The bands of every key of the open survey (mm), in the same sizes as the published ones."""
    found: dict[str, list[Band]] = {}
    for size in (size for size in SIZES if SURVEYED[0] <= size <= SURVEYED[1]):
        low, high = _edges(size)
        women = [row for row in people if low <= row["bust_girth"] < high]
        if len(women) < _FEWEST:
            continue
        bust = _mean([row["bust_girth"] for row in women]) / 10
        for key in women[0]:
            values = [row[key] / 10 for row in women]
            mean = _mean(values)
            sd = math.sqrt(sum((value - mean) ** 2 for value in values) / (len(values) - 1))
            found.setdefault(key, []).append(Band(bust, len(women), mean, sd))
    return {key: tuple(bands) for key, bands in found.items()}


def smoothed(key: str, bands: Sequence[Band], *, source: str) -> ChartLine:
    """The smooth line through the means of a length: straight, or a parabola where its bend stands out."""
    straight, _ = _fitted(bands, 1)
    bent, errors = _fitted(bands, 2)
    rising = _keeps_its_sign(bent)
    at, slope, bend = bent if abs(bent[2]) > _STANDS_OUT * errors[2] and rising else (*straight, 0.0)
    total = sum(band.n for band in bands)
    line = ChartLine(
        key=key,
        n=total,
        at_92=round(at, 3),
        slope=round(slope, 5),
        bend=round(bend, 6),
        sd=round(math.sqrt(sum(band.n * band.sd**2 for band in bands) / total), 2),
        misfit=0.0,
        source=source,
    )
    return replace(line, misfit=round(max(abs(band.mean - line.cm(band.bust)) for band in bands), 2))


def chart_of(published: Mapping[str, Sequence[Band]], opened: Mapping[str, Sequence[Band]]) -> tuple[ChartLine, ...]:
    """The lines of the chart, in the order of `MEASUREMENTS`."""
    lines = {key: smoothed(key, bands, source="open half") for key, bands in opened.items() if key in KEYS}
    lines |= {key: smoothed(key, bands, source="full survey") for key, bands in published.items()}
    # the size is the bust: no scatter of the women within a band belongs to it
    lines["bust_girth"] = ChartLine("bust_girth", lines["bust_girth"].n, float(MIDDLE), 1.0, 0.0, 0.0, 0.0, "the size")
    lines["hip_height"] = _combined(lines, "hip_height", "waist_height", -1.0, "waist_to_hip")
    lines["neck_side_height"] = _combined(lines, "neck_side_height", "shoulder_height", 1.0, "shoulder_drop")
    return tuple(lines[key] for key in KEYS)


def main(arguments: Sequence[str], *, write: Callable[[str], object] = sys.stdout.write) -> int:
    """Print the chart; 2 when the arguments make no sense."""
    if len(arguments) != 2:
        write("usage: python -m drafting.body.rechart BANDS.csv SURVEY.csv\n")
        return 2
    with open(arguments[0], encoding="utf-8", newline="") as file:
        published = published_bands(csv.DictReader(file))
    with open(arguments[1], encoding="utf-8", newline="") as file:
        people = [{key: float(value) for key, value in row.items() if key in KEYS} for row in csv.DictReader(file)]
    for row in people:
        row["waist_to_hip"] = row["waist_height"] - row["hip_height"]
        row["shoulder_drop"] = row["neck_side_height"] - row["shoulder_height"]
    for cells in (HEADER, *(line.cells() for line in chart_of(published, bands_of(people)))):
        write(",".join(str(cell) for cell in cells) + "\n")
    return 0


def _edges(size: int) -> tuple[float, float]:
    """From which bust (mm) up to which a woman is of a size: half way to its neighbours."""
    at = SIZES.index(size)
    below = SIZES[at - 1] if at > 0 else 2 * SIZES[0] - SIZES[1]
    return 5.0 * (below + size), 5.0 * (size + SIZES[at + 1])


def _fitted(bands: Sequence[Band], degree: int) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The factors of the polynomial in (bust - 92) and their standard errors, the means weighted by n / sd^2."""
    import numpy as np

    weights = np.array([math.sqrt(band.n) / band.sd for band in bands])
    design = np.vander(np.array([band.bust - MIDDLE for band in bands]), degree + 1, increasing=True) * weights[:, None]
    means = np.array([band.mean for band in bands]) * weights
    factors = np.linalg.lstsq(design, means, rcond=None)[0]
    errors = np.sqrt(np.diag(np.linalg.inv(design.T @ design)))
    return tuple(map(float, factors)), tuple(map(float, errors))


def _keeps_its_sign(factors: Sequence[float]) -> bool:
    """Whether a parabola rises, or falls, all the way over the sizes that were measured."""
    ends = [factors[1] + 2.0 * factors[2] * (size - MIDDLE) for size in SURVEYED]
    return ends[0] * ends[1] > 0.0


def _combined(lines: Mapping[str, ChartLine], key: str, one: str, sign: float, other: str) -> ChartLine:
    """A height that is another and a difference: so the three agree."""
    a, b = lines[one], lines[other]
    word = "and" if sign > 0.0 else "less"
    return replace(
        lines[key],
        at_92=round(a.at_92 + sign * b.at_92, 3),
        slope=round(a.slope + sign * b.slope, 5),
        bend=round(a.bend + sign * b.bend, 6),
        source=f"{one} {word} {other}",
    )


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
