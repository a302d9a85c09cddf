"""The parts a piece is made of: edges, stations on them, notches, darts, grain, marks."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Move, Point, moved_all, run_length, run_reversed
from drafting.geometry.curve import Cubic
from drafting.geometry.tolerance import LENGTH

__all__ = ["Cut", "Dart", "Edge", "End", "Grain", "MarkLine", "MarkPoint", "Notch", "NotchStyle", "Role", "Station"]

End = Literal["start", "end"]
NotchStyle = Literal["single", "double"]


class Role(StrEnum):
    """What is done with an edge."""

    SEAM = "seam"
    FOLD = "fold"
    HEM = "hem"
    OPENING = "opening"
    DART_LEG = "dart leg"


@dataclass(frozen=True, slots=True)
class Edge:
    """A named stretch of a piece's sewing line: curves end to end, what is done with it, its allowance in mm.

    Raises NotAPattern for no curves, a gap between two of them, a number that is not finite, a negative allowance.
    """

    name: str
    curves: tuple[Curve, ...]
    role: Role = Role.SEAM
    allowance: float = 0.0
    _lengths: dict[float, float] = field(default_factory=dict, init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not self.curves:
            raise NotAPattern(f'edge "{self.name}"', "it has no curves")
        if not 0.0 <= self.allowance < math.inf:
            raise NotAPattern(f'edge "{self.name}"', f"its allowance is {self.allowance} mm")
        at = self.curves[0].start
        for curve in self.curves:
            if curve.start is not at and curve.start != at:
                raise NotAPattern(f'edge "{self.name}"', f"a gap between {at} and {curve.start}")
            inner = curve.c1.x + curve.c1.y + curve.c2.x + curve.c2.y if isinstance(curve, Cubic) else 0.0
            if not math.isfinite(curve.start.x + curve.start.y + curve.end.x + curve.end.y + inner):
                raise NotAPattern(f'edge "{self.name}"', "a coordinate is not a finite number")
            at = curve.end

    @property
    def start(self) -> Point:
        """Where the edge begins, going anticlockwise round the piece."""
        return self.curves[0].start

    @property
    def end(self) -> Point:
        """Where the edge ends, going anticlockwise round the piece."""
        return self.curves[-1].end

    @property
    def length(self) -> float:
        """Its length in mm, within 1e-4; measured once and remembered, since an edge never changes."""
        return self.length_within(LENGTH)

    def length_within(self, tol: float) -> float:
        """Its length in mm, within `tol` of the truth; remembered too."""
        found = self._lengths.get(tol)
        if found is None:
            found = self._lengths[tol] = run_length(self.curves, tol)
        return found

    def moved(self, move: Move) -> Edge:
        """The same edge after a rigid move, which keeps its length; a mirror image runs the other way.

        It is measured anew: rounding may change the last digit, and what an edge measures is to follow from its curves
        alone, not from what was asked before.
        """
        curves = moved_all(self.curves, move)
        return Edge(self.name, run_reversed(curves) if move.mirrors else curves, self.role, self.allowance)

    def with_allowance(self, allowance: float) -> Edge:
        """The same edge with another allowance, mm; what was measured of it is kept."""
        edge = Edge(self.name, self.curves, self.role, allowance)
        edge._lengths.update(self._lengths)
        return edge


@dataclass(frozen=True, slots=True)
class Station:
    """A place on an edge: `at` mm of arc from the named end. It keeps its meaning when the edge is reshaped."""

    edge: str
    at: float
    end: End = "start"


@dataclass(frozen=True, slots=True)
class Notch:
    """A mark cut into the allowance where two pieces are to meet; by common practice single in front, double behind."""

    name: str
    station: Station
    style: NotchStyle = "single"


@dataclass(frozen=True, slots=True)
class Dart:
    """Cloth folded away between two legs, which are edges of the outline that meet in the apex.

    aims_at: the name of a marked point the dart is drawn towards ("bust point"), or "" for none
    """

    name: str
    legs: tuple[str, str]
    apex: Point
    aims_at: str = ""


@dataclass(frozen=True, slots=True)
class Grain:
    """The line laid along the lengthwise grain of the cloth."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class MarkLine:
    """A named line drawn on a piece: a balance line, or a place to lengthen or shorten."""

    name: str
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class MarkPoint:
    """A named point drawn on a piece."""

    name: str
    at: Point


@dataclass(frozen=True, slots=True)
class Cut:
    """How a piece is cut: how many, on the fold or not, and whether the second is the mirror image of the first."""

    count: int = 1
    fold: bool = False
    mirror: bool = False
