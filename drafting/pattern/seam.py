"""What is sewn to what: two runs of edges, the ease between them, the notches that meet."""

from __future__ import annotations

import math
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern

__all__ = ["MOST_EASED", "PLAIN", "EdgeRef", "NotchRef", "Seam", "SeamEase"]

MOST_EASED: Final = 22.5
"""mm of each half of a sleeve's cap that can be eased in without gathers, 45 in all (common practice, from memory)."""


@dataclass(frozen=True, slots=True)
class EdgeRef:
    """An edge of a piece, walked from its start (anticlockwise round the piece) or, if `backward`, from its end."""

    piece: str
    edge: str
    backward: bool = False


@dataclass(frozen=True, slots=True)
class NotchRef:
    """A notch of a piece."""

    piece: str
    notch: str


@dataclass(frozen=True, slots=True)
class SeamEase:
    """How much longer the first run is than the second, mm: what was asked for, and the least and most that will sew.

    Raises NotAPattern unless low <= wanted <= high.
    """

    wanted: float = 0.0
    low: float = 0.0
    high: float = 0.0

    def __post_init__(self) -> None:
        if not -math.inf < self.low <= self.wanted <= self.high < math.inf:
            raise NotAPattern("seam ease", reason=f"{self.wanted} mm is not between {self.low} and {self.high}")


PLAIN = SeamEase()


@dataclass(frozen=True, slots=True)
class Seam:
    """Run `a` is sewn to run `b`, both walked from the end where they start together; `a` is the one eased in."""

    name: str
    a: tuple[EdgeRef, ...]
    b: tuple[EdgeRef, ...]
    ease: SeamEase = PLAIN
    notches: tuple[tuple[NotchRef, NotchRef], ...] = ()

    def __post_init__(self) -> None:
        if not self.a or not self.b:
            raise NotAPattern(f'seam "{self.name}"', reason="one side has no edges")

    @property
    def plain(self) -> bool:
        """Whether the two runs are to be equal."""
        return self.ease.low == self.ease.high == 0.0
