"""The parts a piece is made of: edges, stations on them, notches, darts, grain, marks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from enum import StrEnum
from typing import Final, Literal, cast

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Cubic, Curve, Line, Move, Point, Vec, distance, moved_all, run_length, run_reversed
from drafting.geometry.tolerance import LENGTH
from drafting.pattern.places import Fullness, Half, Landmark, Level, NotchMark, Place
from drafting.pattern.remembering import Remembering

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
class Edge(Remembering):
    """A named stretch of a piece's sewing line: curves end to end, what is done with it, its allowance in mm.

    place:    what it is on the body; None where that is not known, and for the leg of a dart
    half:     the half of the body it belongs to, on a piece that lies on both
    drawn_up: how it is drawn up to what it is sewn to, where it is the line over the mouth of a dart left unsewn

    Raises NotAPattern for no curves, a gap between two of them, a number that is not finite, a negative allowance.
    """

    name: str
    curves: tuple[Curve, ...]
    role: Role = Role.SEAM
    allowance: float = 0.0
    place: Place | None = None
    half: Half | None = None
    drawn_up: Fullness | None = None

    def __post_init__(self) -> None:
        if not self.curves:
            raise NotAPattern(f'edge "{self.name}"', reason="it has no curves")
        if not 0.0 <= self.allowance < math.inf:
            raise NotAPattern(f'edge "{self.name}"', reason=f"its allowance is {self.allowance} mm")
        at = self.curves[0].start
        for curve in self.curves:
            if curve.start is not at and curve.start != at:
                raise NotAPattern(f'edge "{self.name}"', reason=f"a gap of {distance(at, curve.start):.3f} mm")
            inner = curve.c1.x + curve.c1.y + curve.c2.x + curve.c2.y if isinstance(curve, Cubic) else 0.0
            if not math.isfinite(curve.start.x + curve.start.y + curve.end.x + curve.end.y + inner):
                raise NotAPattern(f'edge "{self.name}"', reason="a coordinate is not a finite number")
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
        found = self._remembered.get(tol)  # not by `remembered`: this is asked more often than anything else
        if found is None:
            found = self._remembered[tol] = run_length(self.curves, tol)
        return cast(float, found)

    def moved(self, move: Move) -> Edge:
        """The same edge after a rigid move, which keeps its length; a mirror image runs the other way.

        It is measured again: rounding may change the last digit, and what an edge measures is to follow from its curves
        alone, not from what was asked before.
        """
        curves = moved_all(self.curves, move)
        return self._with(run_reversed(curves) if move.mirrors else curves, self.allowance)

    def with_allowance(self, allowance: float) -> Edge:
        """The same edge with another allowance, mm; what was measured of it is kept."""
        if allowance == self.allowance:
            return self
        edge = self._with(self.curves, allowance)
        object.__setattr__(edge, "_remembered", self._remembered)  # it follows from the curves, which are the same
        return edge

    def _with(self, curves: tuple[Curve, ...], allowance: float) -> Edge:
        """The same edge with other curves and allowance, field by field: drafting does this a hundred times."""
        return Edge(self.name, curves, self.role, allowance, self.place, self.half, self.drawn_up)


@dataclass(frozen=True, slots=True)
class Station:
    """A place on an edge: `at` mm of arc from the named end. It keeps its meaning when the edge is reshaped."""

    edge: str
    at: float
    end: End = "start"


@dataclass(frozen=True, slots=True)
class Notch:
    """A mark cut into the allowance where two pieces are to meet; by common practice single in front, double behind.

    marks: what it is there for; None where that is not known
    """

    name: str
    station: Station
    style: NotchStyle = "single"
    marks: NotchMark | None = None

    def moved_to(self, at: float) -> Notch:
        """The notch so many mm from the end of the edge that it is counted from."""
        return replace(self, station=replace(self.station, at=at))


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

    @property
    def direction(self) -> Vec:
        """The unit direction from its start to its end."""
        return (self.end - self.start).unit()


@dataclass(frozen=True, slots=True)
class MarkLine:
    """A named line drawn on a piece: a balance line, or a place to lengthen or shorten.

    curves: the line from start to end where it is not straight, as a level is on a flared skirt; empty for a straight
            one
    level:  what line it is; None where that is not known
    onward: whether it is the part of that line beyond a dart that breaks it

    Raises NotAPattern for curves that do not run from the start to the end.
    """

    name: str
    start: Point
    end: Point
    curves: tuple[Curve, ...] = ()
    level: Level | None = None
    onward: bool = False

    def __post_init__(self) -> None:
        ends = [self.start, *(curve.end for curve in self.curves)]
        if self.curves and (
            ends[-1] != self.end or any(c.start != at for c, at in zip(self.curves, ends, strict=False))
        ):
            raise NotAPattern(f'the line "{self.name}"', reason="its curves do not run from its start to its end")

    @property
    def drawn(self) -> tuple[Curve, ...]:
        """The line as curves from its start to its end."""
        return self.curves or (Line(self.start, self.end),)

    def moved(self, move: Move) -> MarkLine:
        """The line after a rigid move."""
        start, end = move.point(self.start), move.point(self.end)
        return MarkLine(self.name, start, end, moved_all(self.curves, move), self.level, self.onward)

    def straight(self, start: Point, end: Point) -> MarkLine:
        """The same line drawn straight between two other places."""
        return replace(self, start=start, end=end, curves=())

    def between(self, start: Point, end: Point) -> MarkLine:
        """The line between two other places in the shape it has: turned, and made larger or smaller as a whole."""
        if not self.curves or start == end:
            return self.straight(start, end)
        was, now = self.end - self.start, end - start
        grown, turned = now.norm() / was.norm(), was.angle_to(now)
        cos, sin = grown * math.cos(turned), grown * math.sin(turned)
        place = Vec(self.start.x, self.start.y)
        to = start - Vec(cos * place.x - sin * place.y, sin * place.x + cos * place.y)
        return self.through(moved_all(self.curves, Move(cos, -sin, sin, cos, to.x, to.y)), start, end)

    def through(self, curves: Sequence[Curve], start: Point, end: Point) -> MarkLine:
        """The line from one place to another along these curves, whose gaps of rounding are closed."""
        out: list[Curve] = []
        for curve in curves:
            out.append(replace(curve, start=out[-1].end if out else start))
        out[-1] = replace(out[-1], end=end)
        plain = len(out) == 1 and isinstance(out[0], Line)
        return replace(self, start=start, end=end, curves=() if plain else tuple(out))


_NOT_PRINTED: Final = frozenset(
    {Landmark.CLOSED_DART, Landmark.CLOSED_TOWARDS, Landmark.TAPE_CROSSES, Landmark.SHOULDER_END}
)


@dataclass(frozen=True, slots=True)
class MarkPoint:
    """A named point drawn on a piece.

    landmark: what point it is; None where that is not known
    lowered:  mm by which a lower neckline took it down from the place of the body that it is named after: the nape,
              the neck pit. Below zero where the neckline was raised.
    """

    name: str
    at: Point
    landmark: Landmark | None = None
    lowered: float = 0.0

    @property
    def printed(self) -> bool:
        """Whether it is for paper and cloth, and not kept for the way back of a dart or for the tape only."""
        return self.landmark not in _NOT_PRINTED

    def placed(self, at: Point) -> MarkPoint:
        """The same point at another place."""
        return replace(self, at=at)


@dataclass(frozen=True, slots=True)
class Cut:
    """How a piece is cut: how many, on the fold or not, and whether the second is the mirror image of the first.

    lining, interfacing: how many more are cut of lining and of interfacing, the same way
    """

    count: int = 1
    fold: bool = False
    mirror: bool = False
    lining: int = 0
    interfacing: int = 0

    @property
    def layers(self) -> int:
        """How many times the whole piece is cut of shell: once on the fold or as a pair, twice for a doubled band."""
        return max(1, self.count if self.fold else self.count // 2 if self.mirror else self.count)

    @property
    def drawn_times(self) -> int:
        """How often an edge that is drawn once is there in all that is cut of shell: on the fold twice in each."""
        return 2 * self.count if self.fold else self.count

    def as_pair(self) -> Cut:
        """The same layers as left and right pieces."""
        share = self.interfacing / max(1, self.count), self.lining / max(1, self.count)
        count = 2 * self.layers
        return Cut(count, mirror=True, interfacing=round(share[0] * count), lining=round(share[1] * count))

    def on_fold(self) -> Cut:
        """The same layers, each in one on the fold."""
        share = self.interfacing / max(1, self.count), self.lining / max(1, self.count)
        return Cut(
            self.layers, fold=True, interfacing=round(share[0] * self.layers), lining=round(share[1] * self.layers)
        )
