"""Three numbers that tell how a length is spread among children of one age, and how to read them both ways.

The LMS method (T. J. Cole, P. J. Green, *Statistics in Medicine* 11, 1992): with L the power that makes the spread
even, M the middle and S the spread as a share of M, a child z standard deviations from the middle measures
M * (1 + L * S * z) ** (1 / L), or M * exp(S * z) where L is zero.
"""

from __future__ import annotations

import math

from drafting.dataclass import dataclass

__all__ = ["Lms", "centile_of", "deviations_of"]

_NO_POWER = 1e-9


@dataclass(frozen=True, slots=True)
class Lms:
    """How a length is spread at one age: the power L, the middle M in mm, the spread S as a share of M."""

    power: float
    middle: float
    spread: float

    def value(self, deviations: float) -> float:
        """The length, mm, of a child so many standard deviations above the middle.

        Beyond where the method ends it is 0 for a power above zero and infinite for one below.
        """
        if abs(self.power) < _NO_POWER:
            return self.middle * math.exp(self.spread * deviations)
        share = max(0.0, 1.0 + self.power * self.spread * deviations)
        if share == 0.0 and self.power < 0.0:
            return math.inf
        return float(self.middle * share ** (1.0 / self.power))

    def deviations(self, mm: float) -> float:
        """How many standard deviations above the middle a length lies."""
        if abs(self.power) < _NO_POWER:
            return math.log(mm / self.middle) / self.spread
        return float((mm / self.middle) ** self.power - 1.0) / (self.power * self.spread)

    def between(self, other: Lms, share: float) -> Lms:
        """What holds at an age between two: this one at a share of 0, the other one at 1."""
        return Lms(
            self.power + (other.power - self.power) * share,
            self.middle + (other.middle - self.middle) * share,
            self.spread + (other.spread - self.spread) * share,
        )


def centile_of(deviations: float) -> float:
    """How many of 100 children lie below so many standard deviations."""
    return 50.0 * math.erfc(-deviations / math.sqrt(2.0))


def deviations_of(centile: float) -> float:
    """How many standard deviations above the middle a centile lies; between 0 and 100, both left out."""
    from statistics import NormalDist

    return NormalDist().inv_cdf(centile / 100.0)
