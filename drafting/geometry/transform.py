"""Rigid moves of the paper: shift, turn, mirror. Lengths and angles survive every one of them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from drafting.dataclass import dataclass
from drafting.geometry.curve import Cubic, Curve, Line
from drafting.geometry.point import Point, Vec

__all__ = ["STAY", "Move", "mapped", "mirror", "moved", "moved_all", "shift", "turn"]


@dataclass(frozen=True, slots=True)
class Move:
    """x' = a x + b y + e, y' = c x + d y + f, with (a b / c d) a rotation or a mirror image."""

    a: float
    b: float
    c: float
    d: float
    e: float
    f: float

    def point(self, p: Point) -> Point:
        """Where a place comes to lie."""
        return Point(self.a * p.x + self.b * p.y + self.e, self.c * p.x + self.d * p.y + self.f)

    def vec(self, v: Vec) -> Vec:
        """What becomes of a displacement."""
        return Vec(self.a * v.x + self.b * v.y, self.c * v.x + self.d * v.y)

    def then(self, other: Move) -> Move:
        """This move, and the other after it."""
        return Move(
            other.a * self.a + other.b * self.c,
            other.a * self.b + other.b * self.d,
            other.c * self.a + other.d * self.c,
            other.c * self.b + other.d * self.d,
            other.a * self.e + other.b * self.f + other.e,
            other.c * self.e + other.d * self.f + other.f,
        )

    def undone(self) -> Move:
        """The move that takes everything back to where it was."""
        back = Move(self.a, self.c, self.b, self.d, 0.0, 0.0)
        by = back.vec(Vec(self.e, self.f))
        return Move(self.a, self.c, self.b, self.d, -by.x, -by.y)

    @property
    def mirrors(self) -> bool:
        """Whether left and right are exchanged, so that an outline runs the other way round."""
        return self.a * self.d - self.b * self.c < 0.0


STAY = Move(1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def shift(by: Vec) -> Move:
    """The move by a displacement."""
    return Move(1.0, 0.0, 0.0, 1.0, by.x, by.y)


def turn(about: Point, angle: float) -> Move:
    """The anticlockwise turn by `angle` radians about a place."""
    c, s = math.cos(angle), math.sin(angle)
    return Move(c, -s, s, c, about.x - c * about.x + s * about.y, about.y - s * about.x - c * about.y)


def mirror(through: Point, along: Vec) -> Move:
    """The mirror image in the line through a place along a direction (not zero)."""
    u = along.unit()
    xx, xy, yy = u.x * u.x - u.y * u.y, 2.0 * u.x * u.y, u.y * u.y - u.x * u.x
    return Move(
        xx, xy, xy, yy, through.x - xx * through.x - xy * through.y, through.y - xy * through.x - yy * through.y
    )


def moved(curve: Curve, move: Move) -> Curve:
    """The curve after the move."""
    if isinstance(curve, Line):
        return Line(move.point(curve.start), move.point(curve.end))
    return Cubic(move.point(curve.start), move.point(curve.c1), move.point(curve.c2), move.point(curve.end))


def moved_all(curves: Iterable[Curve], move: Move) -> tuple[Curve, ...]:
    """The curves after the move, in the same order."""
    return tuple(moved(curve, move) for curve in curves)


def mapped(curves: Iterable[Curve], place: Callable[[Point], Point]) -> tuple[Curve, ...]:
    """The curves drawn by where their ends and handles go; exact for every move that keeps lines straight."""

    def drawn(curve: Curve) -> Curve:
        if isinstance(curve, Line):
            return Line(place(curve.start), place(curve.end))
        return Cubic(place(curve.start), place(curve.c1), place(curve.c2), place(curve.end))

    return tuple(drawn(curve) for curve in curves)
