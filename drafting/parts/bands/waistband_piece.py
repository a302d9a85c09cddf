"""A straight waistband as a piece, with its notches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Line, Point
from drafting.pattern import (
    BodyPart,
    BodySide,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Half,
    Identity,
    Level,
    MarkLine,
    Notch,
    NotchMark,
    Piece,
    PieceKind,
    Place,
    Role,
    Station,
)

__all__ = ["SEWN_PLAIN", "BandStretch", "WaistQuarter", "band_piece"]

SEWN_PLAIN: Final = 1e-6  # mm


@dataclass(frozen=True, slots=True)
class WaistQuarter:
    """The waist of one half of a front or a back, from the centre to the side.

    at_centre, at_side: the edges beside it
    sewn:  how long it is when what is gathered in it is drawn up, mm
    whole: how long it is as it lies flat, mm
    lap:   how much of that lies beyond the centre, mm; 0 where nothing laps over
    """

    half: Half
    run: tuple[EdgeRef, ...]
    at_centre: Edge
    at_side: Edge
    sewn: float
    whole: float
    lap: float

    @property
    def centre_mark(self) -> NotchMark:
        """What a notch at its centre marks: where gathers lie beyond a button stand, that they begin there."""
        gathered = self.lap and self.whole - self.sewn > SEWN_PLAIN
        return NotchMark.GATHERS_END if gathered else NotchMark.CENTRE

    @property
    def to_centre(self) -> tuple[EdgeRef, ...]:
        """The same from the side to the centre."""
        return tuple(replace(ref, backward=not ref.backward) for ref in reversed(self.run))


@dataclass(frozen=True, slots=True)
class BandStretch:
    """What of the lower edge of a band is sewn to one quarter, and what its end meets."""

    side: BodySide
    quarter: WaistQuarter
    from_centre: bool

    @property
    def name(self) -> str:
        """What it is called on the band: "left front"."""
        return f"{self.side} {self.quarter.half}"


def band_piece(
    name: str,
    stretches: Sequence[BandStretch],
    height: float,
    underlap: float,
    allowance: float,
    part: BodyPart | None,
) -> Piece:
    """The band of a skirt or of trousers, its lower left corner at the origin. part: which of them it belongs to"""
    names = [stretch.name for stretch in stretches]
    longs = [stretch.quarter.sewn for stretch in stretches]
    places = [Place.WAIST] * len(stretches)
    if underlap:
        names, longs, places = ["underlap", *names], [underlap, *longs], [Place.BAND_EDGE, *places]
    xs = [0.0]
    for long in longs:
        xs.append(xs[-1] + long)
    whole, deep = xs[-1], 2.0 * height
    lower = [
        Edge(name, (Line(Point(a, 0.0), Point(b, 0.0)),), Role.SEAM, allowance, place)
        for name, place, (a, b) in zip(names, places, pairwise(xs), strict=True)
    ]
    end, upper, start = (
        Edge(name, (Line(a, b),), Role.SEAM, allowance, place=at)
        for name, a, b, at in (
            ("end", Point(whole, 0.0), Point(whole, deep), Place.BAND_END),
            ("upper edge", Point(whole, deep), Point(0.0, deep), Place.BAND_EDGE),
            ("beginning", Point(0.0, deep), Point(0.0, 0.0), Place.BAND_END),
        )
    )
    notches = [_joint_notch(each) for each in stretches[:-1] if each.from_centre or not each.quarter.lap]
    notches += [_lap_notch(each) for each in stretches if each.quarter.lap]
    if underlap:
        opens = f"centre {stretches[0].quarter.half}" if stretches[0].from_centre else f"{stretches[0].side} side"
        begins = f"{opens}: underlap beyond"
        notches.insert(0, Notch(begins, Station("underlap", 0.0, "end"), marks=NotchMark.OPENING_END))
    middle = 0.5 * whole
    grain = Grain(Point(middle - 0.2 * whole, 0.5 * height), Point(middle + 0.2 * whole, 0.5 * height))
    fold = MarkLine("fold line", Point(0.0, height), Point(whole, height), level=Level.FOLD)
    return Piece(
        name,
        (*lower, end, upper, start),
        Cut(1, interfacing=1),
        grain,
        notches=tuple(notches),
        lines=(fold,),
        identity=Identity(PieceKind.BAND, part),
    )


def _joint_notch(one: BandStretch) -> Notch:
    """The notch at the end of a quarter, at a side seam or at a centre."""
    station = Station(one.name, 0.0, "end")
    if one.from_centre:
        return Notch(f"{one.side} side seam", station, marks=NotchMark.SIDE)
    return Notch(f"centre {one.quarter.half}", station, marks=NotchMark.CENTRE)


def _lap_notch(one: BandStretch) -> Notch:
    """The notch at the centre of a quarter that reaches beyond it, so that both centres come on each other."""
    station = Station(one.name, one.quarter.lap, "start" if one.from_centre else "end")
    return Notch(f"{one.side} centre {one.quarter.half}", station, marks=one.quarter.centre_mark)
