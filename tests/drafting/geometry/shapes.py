"""Small shapes and pieces drawn by hand for the tests of geometry: polygons, a skirt front and a bodice front."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence

from drafting.geometry import Cubic, Curve, Line, Point, Vec, blend, polar, turn
from drafting.pattern import Dart, Edge, Grain, Notch, Piece, Role, Station


def polygon(*places: tuple[float, float]) -> tuple[Curve, ...]:
    """The closed outline through these places, straight from each to the next."""
    points = [Point(float(x), float(y)) for x, y in places]
    return tuple(Line(p, q) for p, q in zip(points, points[1:] + points[:1], strict=True))


def random_cubics(count: int, *, seed: int, size: float = 300.0) -> list[Cubic]:
    """Cubics of every kind: any four points, and among them loops, cusps, straight ones and ones with no handle."""
    source = random.Random(seed)

    def place() -> Point:
        return Point(source.uniform(-size, size), source.uniform(-size, size))

    cubics = []
    for k in range(count):
        a, b, c, d = place(), place(), place(), place()
        match k % 10:
            case 0:  # a cusp: the inner two cross over symmetrically
                a, b, c, d = Point(-size, 0.0), Point(size, size), Point(-size, size), Point(size, 0.0)
                shear, flat = source.uniform(-1.0, 1.0), source.uniform(0.1, 1.0)
                a, b, c, d = (Point(p.x + shear * p.y, flat * p.y) for p in (a, b, c, d))
            case 1:  # a loop
                b, c = d + (d - a), a - (d - a)
            case 2:  # a handle of no length
                b = a
            case 3:  # straight, and turning back on itself
                along = d - a
                b, c = a + along * source.uniform(-0.5, 1.5), a + along * source.uniform(-0.5, 1.5)
            case 4:  # nearly a cusp
                b, c = Point(d.x + 1e-3, d.y), Point(a.x, a.y + 1e-3)
        cubics.append(Cubic(a, b, c, d))
    return cubics


def garment_curve(length: float, leaving: float, arriving: float) -> Cubic:
    """A curve such as a seam has, from the origin to (length, 0), leaving and arriving at these angles in radians."""
    return blend(Point(0.0, 0.0), polar(leaving), Point(length, 0.0), polar(arriving))


def skirt() -> Piece:
    """A skirt front: fold at the left, level hem, flared side, waist with one dart trued to close."""
    hem_side, hip, waist_side, centre = Point(260.0, 0.0), Point(240.0, 420.0), Point(205.0, 612.0), Point(0.0, 600.0)
    mouth, apex = Point(120.0, 603.5), Point(107.0, 500.0)
    other = turn(apex, math.radians(13.8)).point(mouth)
    return Piece(
        "skirt front",
        (
            Edge("hem", (Line(Point(0.0, 0.0), hem_side),), Role.HEM, 40.0),
            Edge(
                "side seam",
                (
                    blend(hem_side, _degrees(93.0), hip, _degrees(92.0)),
                    blend(hip, _degrees(92.0), waist_side, _degrees(108.0)),
                ),
                Role.SEAM,
                20.0,
            ),
            Edge("waist at side", (blend(waist_side, _degrees(198.0), mouth, _degrees(173.0)),), Role.SEAM, 10.0),
            Edge("dart leg, side", (Line(mouth, apex),), Role.DART_LEG),
            Edge("dart leg, centre", (Line(apex, other),), Role.DART_LEG),
            Edge("waist at centre", (blend(other, _degrees(186.8), centre, Vec(-1.0, 0.0)),), Role.SEAM, 10.0),
            Edge("centre front", (Line(centre, Point(0.0, 0.0)),), Role.FOLD),
        ),
        grain=Grain(Point(30.0, 100.0), Point(30.0, 500.0)),
        darts=(Dart("waist dart", ("dart leg, side", "dart leg, centre"), apex),),
        notches=(
            Notch("hip", Station("side seam", 420.0), "double"),
            Notch("waist", Station("waist at side", 30.0)),
            Notch("fold", Station("centre front", 30.0)),
        ),
    )


def bodice() -> Piece:
    """A bodice front: fold at the left, hollow neck and armhole, a level dart in the side seam."""
    neck, tip, end, underarm, waist = (
        Point(0.0, 330.0),
        Point(72.0, 420.0),
        Point(200.0, 375.0),
        Point(250.0, 170.0),
        Point(225.0, 0.0),
    )
    low, apex, middle = Point(245.0, 110.0), Point(130.0, 118.0), Point(186.0, 250.0)
    high = turn(apex, math.radians(10.0)).point(low)
    return Piece(
        "bodice front",
        (
            Edge("waist", (blend(Point(0.0, -8.0), Vec(1.0, 0.0), waist, _degrees(8.0)),), Role.SEAM, 15.0),
            Edge("side below", (Line(waist, low),), Role.SEAM, 15.0),
            Edge("dart leg, lower", (Line(low, apex),), Role.DART_LEG),
            Edge("dart leg, upper", (Line(apex, high),), Role.DART_LEG),
            Edge("side above", (Line(high, underarm),), Role.SEAM, 15.0),
            Edge(
                "armhole",
                (
                    blend(underarm, Vec(-1.0, 0.0), middle, _degrees(95.0)),
                    blend(middle, _degrees(95.0), end, _degrees(70.0)),
                ),
                Role.SEAM,
                10.0,
            ),
            Edge("shoulder", (Line(end, tip),), Role.SEAM, 15.0),
            Edge("neck", (blend(tip, _degrees(255.0), neck, Vec(-1.0, 0.0)),), Role.SEAM, 6.0),
            Edge("centre front", (Line(neck, Point(0.0, -8.0)),), Role.FOLD),
        ),
        darts=(Dart("bust dart", ("dart leg, lower", "dart leg, upper"), apex),),
    )


def rose(radii: Sequence[float]) -> tuple[Curve, ...]:
    """A closed polygon round the origin with these distances to its corners, anticlockwise; never crosses itself."""
    n = len(radii)
    return polygon(
        *((r * math.cos(2 * math.pi * k / n), r * math.sin(2 * math.pi * k / n)) for k, r in enumerate(radii))
    )


def _degrees(angle: float) -> Vec:
    return polar(math.radians(angle))
