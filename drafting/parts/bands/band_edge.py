"""A stretch of the edge of the garment that a straight band is sewn to, and what such a band is drawn from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from drafting.dataclass import dataclass
from drafting.geometry import end_tangents
from drafting.parts.folded_outline import LaidEdge
from drafting.pattern import BodyPart, EdgeRef, MarkPoint, NotchMark, Pattern

__all__ = ["Stretch", "StripBand", "edges_long", "on_side", "turning"]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the edge of the garment: how long it is, and how long what of the band is sewn to it, mm.

    name: "front neck"
    refs: () for one that goes on beyond the garment, over the end of another band
    joint: what seam of the garment the band meets where this one ends, before it is turned round; None for none
    """

    name: str
    refs: tuple[EdgeRef, ...]
    length: float
    rest: float
    joint: NotchMark | None = None
    turned: bool = False
    side: str = ""

    def turned_round(self) -> Stretch:
        refs = tuple(replace(ref, backward=not ref.backward) for ref in reversed(self.refs))
        return replace(self, refs=refs, turned=not self.turned)


@dataclass(frozen=True, slots=True)
class StripBand:
    """What a band is drawn from, mm: its stretches from one end to the other, its width, how far its ends slant."""

    name: str
    stretches: tuple[Stretch, ...]
    width: float
    part: BodyPart
    count: int = 1
    slant: float = 0.0
    points: tuple[MarkPoint, ...] = ()


def on_side(side: str, part: Stretch) -> Stretch:
    """The stretch of one side of the body, under a name that says so."""
    return replace(part, name=f"{side} {part.name}", side=side)


def edges_long(pattern: Pattern, refs: Sequence[EdgeRef]) -> float:
    """How long these edges are together, mm."""
    return sum(pattern.piece(ref.piece).edge(ref.edge).length for ref in refs)


def turning(edges: Sequence[LaidEdge]) -> float:
    """By how much a stretch turns in all, radians."""
    curves = [curve for each in edges for curve in each.edge.curves]
    ends = [end_tangents(curve) for curve in curves]
    within = sum(abs(first.angle_to(last)) for first, last in ends)
    return within + sum(abs(one[1].angle_to(other[0])) for one, other in pairwise(ends))
