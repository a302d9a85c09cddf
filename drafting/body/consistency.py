"""How the lengths of a body go together: which of those that were measured does not go with the rest.

Each length in turn is left out and foretold from all the others, by the means, deviations and correlations of real
people (`tables/SOURCES.md`): the conditional mean and deviation of one normal variable among many. A slip of the tape
shows in every length that goes with it; the odd one out is the one whose absence makes the rest agree best, which is
the one that is furthest from what the others foretell (deletion residuals; D. A. Belsley, E. Kuh and R. E. Welsch,
Regression Diagnostics, 1980).
"""

from __future__ import annotations

import csv
import math
from collections.abc import Iterator, Mapping, Sequence
from functools import cache, lru_cache
from pathlib import Path

from drafting.body.terms import BASICS, BodyKind
from drafting.dataclass import dataclass

__all__ = ["Odd", "any_inconsistent", "judges", "odd_ones"]

_Matrix = Sequence[Sequence[float]]

_TABLES: Mapping[BodyKind, str] = {"woman": "women_1988_joint.csv"}

_DOUBTFUL = 3.3
"""Deviations from what the others foretell (ours): of real bodies measured in all 39 lengths 2 in 100 have one further
out."""

_SLACK_MM = 5.0
"""How much less surely one measures at home than in a survey, one standard deviation (our figure)."""

_FAR = 3.0
"""Deviations from the mean. Of bodies further out than those that were measured, as much more is forgiven."""

_FURTHEST = 4.4
"""Deviations, all four basics together (Mahalanobis distance): nobody of the open half of the survey is further out."""

_FEWEST = len(BASICS)


@dataclass(frozen=True, slots=True)
class Odd:
    """A measured length that does not go with the rest.

    expected_mm, sd_mm: what the others foretell, and how far off that may be (one standard deviation)
    off:                measured - expected, in standard deviations
    swapped_with:       the length it was probably written in place of, "" where it is off by itself
    """

    key: str
    mm: float
    expected_mm: float
    sd_mm: float
    off: float
    swapped_with: str = ""


@dataclass(frozen=True, slots=True)
class _Joint:
    """Means, deviations and covariances of the lengths of one kind of body, mm."""

    keys: tuple[str, ...]
    mean: tuple[float, ...]
    sd: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]

    def among(self, keys: Sequence[str]) -> list[list[float]]:
        """The covariances of some of the lengths, in that order."""
        at = [self.keys.index(key) for key in keys]
        return [[self.covariance[i][j] for j in at] for i in at]

    def off(self, measured: Mapping[str, float]) -> list[float]:
        """How much longer than the mean each of these lengths is, mm."""
        return [mm - self.mean[self.keys.index(key)] for key, mm in measured.items()]


def judges(body: BodyKind) -> bool:
    """Whether it is known how the lengths of such a body go together."""
    return body in _TABLES


def odd_ones(measured: Mapping[str, float], body: BodyKind) -> tuple[Odd, ...]:
    """The lengths (mm, by key) that do not go with the rest, the furthest off first; none where it cannot be judged.

    One is found, left out, and the rest judged again. Two that would go with the rest the other way round are named
    together: of a swap each would be found odd for itself.
    """
    return tuple(_odd_ones(dict(measured), body)) if judges(body) else ()


def any_inconsistent(measured: Mapping[str, float], body: BodyKind) -> bool:
    """Whether the four basics (mm, by key) are together unlike those of anybody who was measured, each alone or not."""
    if not judges(body):
        return False
    joint = _joint(body)
    off = joint.off({key: measured[key] for key in BASICS})
    pull = _times(_precision(body, BASICS), off)
    return _dot(off, pull) > _FURTHEST**2


def _odd_ones(left: dict[str, float], body: BodyKind) -> Iterator[Odd]:
    """The measurements that do not go with the rest, the worst first; two that were exchanged come as one.

    left: all measurements that are looked at, mm by key
    """
    joint = _joint(body)
    left = {key: left[key] for key in joint.keys if key in left}
    while len(left) >= _FEWEST:
        keys = list(left)
        precision = _precision(body, tuple(keys))
        pull = _times(precision, joint.off(left))
        wide = _forgiven(left, joint)
        sd = [1.0 / math.sqrt(row[i]) for i, row in enumerate(precision)]
        odd = [share * off for share, off in zip(pull, sd, strict=True)]
        worst = max(range(len(odd)), key=lambda i: abs(odd[i]))
        if abs(odd[worst]) <= _DOUBTFUL * wide:
            return
        key = keys[worst]
        found = Odd(key, left[key], left[key] - odd[worst] * sd[worst], sd[worst] * wide, odd[worst] / wide)
        other = _swap(left, keys, precision, pull, odd[worst] ** 2)
        if other is None:
            yield found
            del left[key]
        else:
            one, two = sorted(other, key=joint.keys.index)
            place = keys.index(one)
            expected = left[one] - odd[place] * sd[place]
            yield Odd(one, left[one], expected, sd[place] * wide, odd[place] / wide, two)
            left[one], left[two] = left[two], left[one]


def _swap(
    left: Mapping[str, float], keys: Sequence[str], precision: _Matrix, pull: Sequence[float], gained: float
) -> tuple[str, str] | None:
    """The two lengths which, the other way round, bring the rest nearer together than leaving the odd one out does.

    gained: by how much that brings down the squared distance of all from what goes together
    """
    best, swapped = gained, None
    for i, one in enumerate(keys):
        for j in range(i):
            by = left[keys[j]] - left[one]
            less = -2.0 * by * (pull[i] - pull[j]) - by * by * (
                precision[i][i] + precision[j][j] - 2.0 * precision[i][j]
            )
            if less > best:
                best, swapped = less, (one, keys[j])
    return swapped


def _forgiven(left: Mapping[str, float], joint: _Joint) -> float:
    """How many times as far off a length may be because the body lies beyond those that were measured; 1 within.

    It goes by the second furthest of the basics: a single one that is far out may be the slip itself.
    """
    places = [joint.keys.index(key) for key in BASICS if key in left]
    out = sorted(abs(left[joint.keys[i]] - joint.mean[i]) / joint.sd[i] for i in places)
    return max(1.0, out[-2] / _FAR) if len(out) > 1 else 1.0


@cache
def _joint(body: BodyKind) -> _Joint:
    """How the measurements of this kind of body vary together, mm: the means and covariances of its table."""
    path = Path(__file__).parent / "tables" / _TABLES[body]
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    keys = tuple(row["key"] for row in rows)
    mean = tuple(float(row["mean"]) * 10.0 for row in rows)
    sd = tuple(float(row["sd"]) * 10.0 for row in rows)

    def covariance(i: int, j: int) -> float:
        # the table holds what stands below the diagonal
        correlation = 1.0 if i == j else float(rows[max(i, j)][keys[min(i, j)]])
        return correlation * sd[i] * sd[j] + (_SLACK_MM**2 if i == j else 0.0)

    every = range(len(keys))
    return _Joint(keys, mean, sd, tuple(tuple(covariance(i, j) for j in every) for i in every))


@lru_cache(maxsize=64)
def _precision(body: BodyKind, keys: tuple[str, ...]) -> list[list[float]]:
    """The inverse of the covariances of these lengths: the same for everybody of whom the same was measured."""
    return _inverse(_joint(body).among(keys))


def _inverse(matrix: _Matrix) -> list[list[float]]:
    """The inverse of a covariance matrix, by Gauss and Jordan; its pivots are above zero, so none is to be sought.

    Written out: loading numpy for one matrix of twenty rows takes longer than all of a check.
    """
    count = len(matrix)
    rows = [[*row, *(float(i == j) for j in range(count))] for i, row in enumerate(matrix)]
    for i in range(count):
        pivot = rows[i][i]
        rows[i] = [value / pivot for value in rows[i]]
        for j in range(count):
            if j != i:
                share = rows[j][i]
                rows[j] = [value - share * by for value, by in zip(rows[j], rows[i], strict=True)]
    return [row[count:] for row in rows]


def _times(matrix: _Matrix, vector: Sequence[float]) -> list[float]:
    return [_dot(row, vector) for row in matrix]


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))
