"""A small pattern of our own making with everything a drawing has to show: dart, fold, hem, curve, notches."""

from __future__ import annotations

import math

from drafting.geometry import Cubic, Curve, Line, Point
from drafting.pattern import (
    Cut,
    Dart,
    Edge,
    Grain,
    MarkLine,
    MarkPoint,
    Notch,
    Pattern,
    Piece,
    Place,
    Role,
    Station,
    Wearer,
)


def line(*xy: float) -> tuple[Curve, ...]:
    return (Line(Point(xy[0], xy[1]), Point(xy[2], xy[3])),)


def curve(*xy: float) -> tuple[Curve, ...]:
    return (Cubic(*(Point(x, y) for x, y in zip(xy[::2], xy[1::2], strict=True))),)


def skirt_front() -> Piece:
    """A straight front on the fold: one dart in the waist, a curved side, a hem of 40 mm."""
    return Piece(
        "skirt front",
        (
            Edge("hem", line(0, 0, 250, 0), Role.HEM, 40.0),
            Edge("side seam", line(250, 0, 250, 420) + curve(250, 420, 250, 500, 232, 560, 215, 612), Role.SEAM, 15.0),
            Edge("waist, side", curve(215, 612, 180, 603, 150, 600, 116, 600), Role.SEAM, 15.0),
            Edge("dart leg, side", line(116, 600, 105, 505), Role.DART_LEG),
            Edge("dart leg, centre", line(105, 505, 94, 600), Role.DART_LEG),
            Edge("waist, centre", line(94, 600, 0, 600), Role.SEAM, 15.0),
            Edge("centre front", line(0, 600, 0, 0), Role.FOLD, place=Place.CENTRE_FRONT),
        ),
        cut=Cut(1, fold=True),
        grain=Grain(Point(60, 80), Point(60, 400)),
        darts=(Dart("waist dart", ("dart leg, side", "dart leg, centre"), Point(105, 505)),),
        notches=(Notch("hip notch", Station("side seam", 420.0)), Notch("knee", Station("side seam", 100.0), "double")),
        lines=(
            MarkLine("hip line", Point(0, 420), Point(250, 420)),
            MarkLine("lengthen or shorten here", Point(0, 200), Point(250, 200)),
        ),
    )


def cuff() -> Piece:
    """A curved band, cut twice in mirror image."""
    return Piece(
        "cuff",
        (
            Edge("wrist", curve(0, 0, 60, 18, 160, 18, 220, 0), Role.SEAM, 10.0),
            Edge("opening", line(220, 0, 232, 70), Role.OPENING, 20.0),
            Edge("top", curve(232, 70, 160, 92, 60, 92, -12, 70), Role.SEAM, 10.0),
            Edge("underarm", line(-12, 70, 0, 0), Role.SEAM, 10.0),
        ),
        cut=Cut(2, mirror=True),
        grain=Grain(Point(110, 20), Point(110, 80)),
        notches=(Notch("back", Station("top", 80.0), "double"),),
    )


def bodice() -> Piece:
    """A back with a neck, an armhole and a marked point."""
    return Piece(
        "bodice back",
        (
            Edge("waist", line(0, 0, 190, 0), Role.SEAM, 15.0),
            Edge("side seam", line(190, 0, 235, 205), Role.SEAM, 15.0),
            Edge("armhole", curve(235, 205, 175, 215, 180, 290, 185, 360), Role.SEAM, 10.0),
            Edge("shoulder", line(185, 360, 72, 405), Role.SEAM, 15.0),
            Edge("neck", curve(72, 405, 55, 385, 30, 382, 0, 382), Role.SEAM, 10.0),
            Edge("centre back", line(0, 382, 0, 0), Role.OPENING, 20.0),
        ),
        cut=Cut(2, mirror=True),
        grain=Grain(Point(40, 60), Point(40, 330)),
        notches=(Notch("armhole notch", Station("armhole", 90.0), "double"), Notch("waist", Station("waist", 95.0))),
        lines=(MarkLine("bust line", Point(0, 205), Point(235, 205)),),
        points=(MarkPoint("shoulder blade", Point(95, 260)),),
    )


def tiny() -> Piece:
    """A piece smaller than its own label."""
    corners = [Point(30 * math.cos(k * math.pi / 2), 30 * math.sin(k * math.pi / 2)) for k in range(4)]
    edges = tuple(Edge(f"side {k + 1}", (Line(corners[k], corners[(k + 1) % 4]),), Role.SEAM, 5.0) for k in range(4))
    return Piece("loop", edges, cut=Cut(1), grain=Grain(Point(0, -15), Point(0, 15)))


def sample_pattern(*, title: str = "Harbour skirt", wearer: str = "Oda") -> Pattern:
    return Pattern(title, Wearer(wearer), (bodice(), skirt_front(), cuff(), tiny()))
