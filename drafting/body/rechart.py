"""Rebuild the size charts from the surveys.

`python -m drafting.body.rechart women tests/data/women_1988_by_bust.csv tests/data/women_1988.csv` prints
`tables/women_chart.csv`. The first file has the mean, the standard deviation and the number of women of every size for
what the survey published; the second the women of the open half (mm), from whom the rest is taken, parted half way
between the sizes. `... rechart girls tests/data/children_1977_by_height.csv drafting/body/tables/babies_chart.csv`
prints `tables/girls_chart.csv`, and boys likewise: the first has the children of every 6 cm of height.

How it is smoothed. The means of the sizes jump: 17 women stand behind size 76 and 22 behind size 110, and by chance
alone their mean statures are off by more than a step of the chart. So every length is one function of the size, fitted
to the means by least squares, each weighted by n / sd^2 (the inverse of the variance of a mean): a straight line, so
that it rises by the same amount from size to size; or a parabola, whose steps grow or shrink evenly, where its bend is
more than 3 standard errors from zero and it still rises all the way over the sizes that were measured. For women that
is so for the waist and the under-bust, which grow faster in the larger sizes, and for the girths of the leg, which
grow more slowly. Children's girths grow fastest at 130 to 150 cm, which takes a cubic, held to the same two
conditions. All lengths rise but the shoulder drop, which falls by a millimetre a size. A height that is another and a
difference is taken from those two, so that the three agree.

Beyond what was measured. Above size 110 a woman's length goes straight on as it rises there; but waist and hip rise as
EN 13402-3 steps them, by 6 and 5 cm to 6 of the bust: on their own lines, of which the waist's is bent, the waist would
outgrow the hip.
Below 86 cm a child's length falls evenly from the survey's to that of size 56 of the babies' chart (at second hand);
what that chart has not is taken in proportion, a girth to the chest, a length to the height. By how much a taller
woman of one size is longer (`by_height`) is the factor of the stature where the length is fitted to size and stature,
in the open half.

What comes out, against the girths of EN 13402-3 as they are commonly quoted (cm; the standard itself was not read, see
`tests/data/SOURCES.md`). A test holds this table to the chart:

    size     76     80     84     88     92     96    100    104
    waist  62.0   64.4   67.1   70.0   73.3   76.8   80.7   84.9
    EN     60.0   64.0   68.0   72.0   76.0   80.0   84.0   88.0
    hip    86.7   89.4   92.1   94.9   97.6  100.3  103.0  105.7
    EN     84.0   88.0   92.0   96.0  100.0  104.0  108.0  112.0
    size    110    116    122    128    134    140    146    152
    waist  91.7   97.7  103.7  109.7  115.7  121.7  127.7  133.7
    EN     94.0  100.0  106.0  112.0  118.0  124.0  130.0  136.0
    hip   109.8  114.8  119.8  124.8  129.8  134.8  139.8  144.8
    EN    117.0  122.0  127.0  132.0  137.0  142.0  147.0  152.0

The bust is the same by definition. The waist steps by 2.4 to 4.2 cm (6.8 from 104 to 110) where EN steps by 4 (and 6):
never more than 3.3 cm apart, and 2.3 from size 110 on. The hip steps by 2.7 where EN steps by 4 (and 5), so that it is
2.7 cm larger than EN's in the smallest size and 7.2 cm smaller from size 110 on. Two reasons, both of the data: women
with a large bust have on the mean not quite so large a hip, while a chart that adds the same to every girth spreads
them further; and the women are soldiers of 1988, 18 to 50 years old.

For children EN 13402-3 gives these, as a textbook's excerpt has them; the chart is under them by up to 3.3 cm:

    height       104   110   116
    chest, EN   56.0  58.0  60.0
    girls       52.9  55.0  57.5
    boys        53.9  55.9  58.0
    waist, EN   53.0  54.0  55.0
    girls       49.7  51.2  53.0
    boys        49.8  51.2  52.9

They are children of 1977, measured on the skin; EN's are what clothes are made for.
"""

from __future__ import annotations

import csv
import math
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from drafting.body.charts import HEADER, Chart, ChartLine, chart_named
from drafting.body.refit import CHILD_COLUMNS
from drafting.body.terms import KEYS, measurement
from drafting.dataclass import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = [
    "COLUMNS",
    "Band",
    "bands_of",
    "chart_of",
    "child_bands",
    "child_chart",
    "main",
    "published_bands",
    "smoothed",
]

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
"""What the file of bands calls a woman's measurements."""

_STANDS_OUT = 3.0
"""Standard errors by which the last term of a curve must differ from zero for it to be taken instead of a simpler."""

_FEWEST = 2

_BONES = ("acromion_radiale_length", "radiale_stylion_length")
"""What a child's arm is the sum of."""

_WOMEN = chart_named("women")


@dataclass(frozen=True, slots=True)
class Band:
    """The people of one size: where they lie in the mean, how many, and mean and standard deviation of a length, cm."""

    at: float
    n: int
    mean: float
    sd: float


def published_bands(table: Iterable[Mapping[str, str]]) -> dict[str, tuple[Band, ...]]:
    """The bands of every measurement in the women's file of bands, under our keys."""
    ours = {column: key for key, column in COLUMNS.items()}
    rows = [row for row in table if row["measurement"] in ours]
    bust = {row["bust_size_cm"]: float(row["mean_cm"]) for row in rows if ours[row["measurement"]] == "bust_girth"}
    found: dict[str, list[Band]] = {}
    for row in rows:
        band = Band(bust[row["bust_size_cm"]], int(row["n"]), float(row["mean_cm"]), float(row["sd_cm"]))
        found.setdefault(ours[row["measurement"]], []).append(band)
    return {key: tuple(bands) for key, bands in found.items()}


def child_bands(table: Iterable[Mapping[str, str]], chart: Chart) -> dict[str, tuple[Band, ...]]:
    """The bands of the girls or of the boys in the file of bands, under our keys.

    An arm is the sum of its two bones, its deviation the sum of theirs (which is the most that it can be).
    """
    sex = "female" if chart.body == "girl" else "male"
    by_name: dict[str, dict[int, Band]] = {}
    for row in table:
        size = int(row["height_size_cm"])
        if row["sex"] == sex and chart.surveyed[0] <= size <= chart.surveyed[1] and int(row["n"]) >= _FEWEST:
            band = Band(size, int(row["n"]), float(row["mean"]), float(row["sd"]))
            by_name.setdefault(row["measurement"], {})[size] = band
    found = {key: tuple(by_name[column].values()) for key, column in CHILD_COLUMNS.items() if column in by_name}
    upper, lower = (by_name[bone] for bone in _BONES)
    found["arm_length"] = tuple(
        Band(size, band.n, band.mean + lower[size].mean, band.sd + lower[size].sd)
        for size, band in upper.items()
        if size in lower
    )
    return found


def bands_of(people: Sequence[Mapping[str, float]]) -> dict[str, tuple[Band, ...]]:
    """The bands of every key of the open survey (mm), in the same sizes as the published ones."""
    found: dict[str, list[Band]] = {}
    for size in (size for size in _WOMEN.sizes if _WOMEN.surveyed[0] <= size <= _WOMEN.surveyed[1]):
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


def smoothed(key: str, bands: Sequence[Band], chart: Chart, *, most: int, source: str) -> ChartLine:
    """The smooth line through the means of a length: straight, or bent where its bend stands out.

    most: the highest degree that is tried
    """
    for degree in range(most, 0, -1):
        factors, errors = _fitted(bands, degree, chart.middle)
        stands_out = abs(factors[-1]) > _STANDS_OUT * errors[-1]
        if degree == 1 or (stands_out and _keeps_its_sign(factors, chart)):
            break
    level, slope, bend, turn = (*factors, 0.0, 0.0)[:4]
    total = sum(band.n for band in bands)
    # of children in proportion to the length itself: a tall one may be further off than a small one
    shares = [band.n * (band.sd / (band.mean if chart.by == "stature" else 1.0)) ** 2 for band in bands]
    line = ChartLine(
        key=key,
        n=total,
        at_middle=round(level, 3),
        slope=round(slope, 5),
        bend=round(bend, 6),
        turn=round(turn, 8),
        sd=round(math.sqrt(sum(shares) / total) * (level if chart.by == "stature" else 1.0), 2),
        misfit=0.0,
        by_height=0.0,
        at_baby=None,
        source=source,
    )
    return replace(line, misfit=round(max(abs(band.mean - line.cm(band.at, chart)) for band in bands), 2))


def chart_of(
    published: Mapping[str, Sequence[Band]],
    opened: Mapping[str, Sequence[Band]],
    by_height: Mapping[str, float],
) -> tuple[ChartLine, ...]:
    """The lines of the women's chart, in the order of `MEASUREMENTS`."""
    lines = {
        key: smoothed(key, bands, _WOMEN, most=2, source="open half") for key, bands in opened.items() if key in KEYS
    }
    lines |= {key: smoothed(key, bands, _WOMEN, most=2, source="full survey") for key, bands in published.items()}
    lines = {key: replace(line, by_height=round(by_height.get(key, 0.0), 4)) for key, line in lines.items()}
    lines["bust_girth"] = _the_size("bust_girth", lines["bust_girth"].n, _WOMEN)
    lines["hip_height"] = _combined(lines, "hip_height", "waist_height", -1.0, "waist_to_hip")
    lines["neck_side_height"] = _combined(lines, "neck_side_height", "shoulder_height", 1.0, "shoulder_drop")
    return tuple(lines[key] for key in KEYS if key in lines)


def child_chart(bands: Mapping[str, Sequence[Band]], baby: Mapping[str, float], chart: Chart) -> tuple[ChartLine, ...]:
    """The lines of the girls' or the boys' chart. baby: the lengths of a baby of size 56, cm by key."""
    lines = {key: smoothed(key, each, chart, most=3, source="full survey") for key, each in bands.items()}
    lines["stature"] = _the_size("stature", lines["bust_girth"].n, chart)
    least = {key: line.cm(chart.surveyed[0], chart) for key, line in lines.items()}
    for key, line in lines.items():
        like = "bust_girth" if measurement(key).kind == "girth" else "stature"
        in_proportion = least[key] * baby[like] / least[like]
        lines[key] = replace(line, at_baby=round(baby.get(key, in_proportion), 2))
    return tuple(lines[key] for key in KEYS if key in lines)


def lengthened_by_height(people: Sequence[Mapping[str, float]]) -> dict[str, float]:
    """By how much each length and height grows with each cm of stature, among women of one bust, cm."""
    import numpy as np

    bust, stature = (np.array([row[key] for row in people]) / 10.0 for key in ("bust_girth", "stature"))
    design = np.column_stack([np.ones(len(people)), bust, bust * bust, stature])
    found = {}
    for key in people[0]:
        if measurement(key).kind in ("length", "height"):
            values = np.array([row[key] for row in people]) / 10.0
            found[key] = float(np.linalg.lstsq(design, values, rcond=None)[0][3])
    return found


def main(arguments: Sequence[str], *, write: Callable[[str], object] = sys.stdout.write) -> int:
    """Print a chart; 2 when the arguments make no sense."""
    if len(arguments) != 3 or arguments[0] not in ("women", "girls", "boys"):
        write("usage: python -m drafting.body.rechart women BANDS.csv SURVEY.csv\n")
        write("       python -m drafting.body.rechart girls|boys BANDS.csv BABIES.csv\n")
        return 2
    which, first, second = arguments
    make = _women_from if which == "women" else _children_from
    for cells in (HEADER, *(line.cells() for line in make(chart_named(which), _table(first), _table(second)))):
        write(",".join(str(cell) for cell in cells) + "\n")
    return 0


def _women_from(_chart: Chart, bands: list[dict[str, str]], survey: list[dict[str, str]]) -> tuple[ChartLine, ...]:
    people = [{key: float(value) for key, value in row.items() if key in KEYS} for row in survey]
    for row in people:
        row["waist_to_hip"] = row["waist_height"] - row["hip_height"]
        row["shoulder_drop"] = row["neck_side_height"] - row["shoulder_height"]
    return chart_of(published_bands(bands), bands_of(people), lengthened_by_height(people))


def _children_from(chart: Chart, bands: list[dict[str, str]], babies: list[dict[str, str]]) -> tuple[ChartLine, ...]:
    smallest = {row["key"]: float(row["56"]) for row in babies}
    return child_chart(child_bands(bands, chart), smallest, chart)


def _table(path: str) -> list[dict[str, str]]:
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _the_size(key: str, n: int, chart: Chart) -> ChartLine:
    """The length that the size is: no scatter of the people within a band belongs to it."""
    return ChartLine(key, n, float(chart.middle), 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, None, "the size")


def _edges(size: int) -> tuple[float, float]:
    """From which bust (mm) up to which a woman is of a size: half way to its neighbours."""
    sizes = _WOMEN.sizes
    at = sizes.index(size)
    below = sizes[at - 1] if at > 0 else 2 * sizes[0] - sizes[1]
    return 5.0 * (below + size), 5.0 * (size + sizes[at + 1])


def _fitted(bands: Sequence[Band], degree: int, middle: int) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The factors of the polynomial in (size - middle) and their standard errors, the means weighted by n / sd^2."""
    import numpy as np

    weights: NDArray[np.float64] = np.array([math.sqrt(band.n) / band.sd for band in bands])
    design = np.vander(np.array([band.at - middle for band in bands]), degree + 1, increasing=True) * weights[:, None]
    means = np.array([band.mean for band in bands]) * weights
    factors = np.linalg.lstsq(design, means, rcond=None)[0]
    errors = np.sqrt(np.diag(np.linalg.inv(design.T @ design)))
    return tuple(map(float, factors)), tuple(map(float, errors))


def _keeps_its_sign(factors: Sequence[float], chart: Chart) -> bool:
    """Whether a curve rises, or falls, all the way over the sizes that were measured."""
    low, high = chart.surveyed
    slopes = [
        sum(power * factor * (size - chart.middle) ** (power - 1) for power, factor in enumerate(factors) if power)
        for size in range(low, high + 1)
    ]
    return bool(min(slopes) * max(slopes) > 0.0)


def _combined(lines: Mapping[str, ChartLine], key: str, one: str, sign: float, other: str) -> ChartLine:
    """A height that is another and a difference: so the three agree."""
    a, b = lines[one], lines[other]
    word = "and" if sign > 0.0 else "less"
    return replace(
        lines[key],
        at_middle=round(a.at_middle + sign * b.at_middle, 3),
        slope=round(a.slope + sign * b.slope, 5),
        bend=round(a.bend + sign * b.bend, 6),
        by_height=round(a.by_height + sign * b.by_height, 4),
        source=f"{one} {word} {other}",
    )


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
