"""Places and displacements: two kinds, so that adding a place to a place is a type error."""

from __future__ import annotations

import math
from typing import overload

from drafting.dataclass import dataclass
from drafting.geometry.tolerance import SAME_PLACE

__all__ = ["Point", "Vec", "distance", "lerp", "polar"]


@dataclass(frozen=True, slots=True)
class Vec:
    """A displacement in mm; x to the right, y up."""

    x: float
    y: float

    def __add__(self, other: Vec) -> Vec:
        return Vec(self.x + other.x, self.y + other.y)

    def __sub__(self, other: Vec) -> Vec:
        return Vec(self.x - other.x, self.y - other.y)

    def __neg__(self) -> Vec:
        return Vec(-self.x, -self.y)

    def __mul__(self, k: float) -> Vec:
        return Vec(self.x * k, self.y * k)

    __rmul__ = __mul__

    def dot(self, other: Vec) -> float:
        """The dot product, mm squared."""
        return self.x * other.x + self.y * other.y

    def cross(self, other: Vec) -> float:
        """The z of the cross product, mm squared; positive when `other` lies to the left."""
        return self.x * other.y - self.y * other.x

    def norm(self) -> float:
        """The length, mm."""
        return math.hypot(self.x, self.y)

    def unit(self) -> Vec:
        """The same direction, 1 mm long. ZeroDivisionError for a displacement of zero."""
        n = math.hypot(self.x, self.y)
        return Vec(self.x / n, self.y / n)

    def left(self) -> Vec:
        """Turned a quarter anticlockwise."""
        return Vec(-self.y, self.x)

    def right(self) -> Vec:
        """Turned a quarter clockwise."""
        return Vec(self.y, -self.x)

    def turned(self, angle: float) -> Vec:
        """Turned anticlockwise by `angle` radians."""
        c, s = math.cos(angle), math.sin(angle)
        return Vec(c * self.x - s * self.y, s * self.x + c * self.y)

    def angle(self) -> float:
        """The direction in radians, anticlockwise from the x axis, -pi to pi."""
        return math.atan2(self.y, self.x)

    def angle_to(self, other: Vec) -> float:
        """How far this direction has to turn to be the other's, radians anticlockwise, -pi to pi."""
        return math.atan2(self.x * other.y - self.y * other.x, self.x * other.x + self.y * other.y)


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the paper in mm; x to the right, y up. `==` is exact; use `near` for geometry."""

    x: float
    y: float

    def __add__(self, step: Vec) -> Point:
        return Point(self.x + step.x, self.y + step.y)

    @overload
    def __sub__(self, other: Point) -> Vec: ...
    @overload
    def __sub__(self, other: Vec) -> Point: ...
    def __sub__(self, other: Point | Vec) -> Vec | Point:
        if isinstance(other, Point):
            return Vec(self.x - other.x, self.y - other.y)
        return Point(self.x - other.x, self.y - other.y)

    def near(self, other: Point, tol: float = SAME_PLACE) -> bool:
        """Whether the two places are no further apart than `tol` mm."""
        return math.hypot(self.x - other.x, self.y - other.y) <= tol


def distance(a: Point, b: Point) -> float:
    """The straight distance from a to b, mm."""
    return math.hypot(b.x - a.x, b.y - a.y)


def lerp(a: Point, b: Point, share: float) -> Point:
    """The place `share` of the way from a to b: 0 is a, 1 is b, beyond is beyond."""
    return Point(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)


def polar(angle: float, radius: float = 1.0) -> Vec:
    """The displacement `radius` mm long at `angle` radians from the x axis."""
    return Vec(radius * math.cos(angle), radius * math.sin(angle))
