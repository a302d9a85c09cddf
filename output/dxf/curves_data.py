"""The curves of an edge as they are drawn, and as numbers kept beside that, so that our own file gives them back."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting.geometry import Cubic, Curve, Line, Point, length
from drafting.geometry.few_chords import few_chords
from output.dxf.dxf_layers import CHORD

__all__ = ["chords", "curves_data", "curves_kept", "joined", "rounded", "sewn_stray"]

_LOST: Final = 0.05
"""mm of its length that a line may lose where it is drawn as chords."""

_PLACES: Final = 4
"""Decimals of what is kept, mm."""

_UNTOUCHED: Final = 0.01
"""mm: what is drawn is written with two decimals."""

_LINE, _CUBIC = 2, 6  # numbers of a curve beyond where it begins


def chords(run: Sequence[Curve], stray: float) -> list[list[Point]]:
    """The places between which each curve of a run is drawn straight, both ends too; curves of no length left out.

    stray: how far that may lie from the curve, mm
    """
    return [few_chords(curve, stray) for curve in run if length(curve) > 0.0]


def sewn_stray(run: Sequence[Curve]) -> float:
    """How far chords may stray from what is sewn, mm: for each radian that it turns they lose a third of that."""
    turned = sum(_most_turned(curve) for curve in run if not isinstance(curve, Line))
    return CHORD if turned * CHORD <= 3.0 * _LOST else 3.0 * _LOST / turned


def joined(drawn: Sequence[Sequence[Point]]) -> list[Point]:
    """The places of chords that follow each other, each once."""
    return [*(places[0] for places in drawn[:1]), *(place for places in drawn for place in places[1:])]


def rounded(run: Sequence[Curve]) -> tuple[Curve, ...]:
    """The curves as they are kept."""
    return tuple(
        type(curve)(*(Point(round(at.x, _PLACES) + 0.0, round(at.y, _PLACES) + 0.0) for at in _places(curve)))
        for curve in run
    )


def curves_data(run: Sequence[Curve]) -> tuple[str, ...]:
    """Where a rounded run begins, then for each curve the places that give it: x and y in mm, with spaces between."""
    begin = [curve.start for curve in run[:1]]
    return tuple(_numbers(places) for places in (begin, *(_places(curve)[1:] for curve in run)) if places)


def curves_kept(data: Sequence[object], drawn: Sequence[Point]) -> tuple[Curve, ...] | None:
    """The curves that such numbers give; None where they are none, or where the polyline is no longer drawn to them."""
    run: list[Curve] = []
    at: Point | None = None
    for line in data:
        try:
            numbers = [float(number) for number in str(line).split()]
        except ValueError:
            return None
        places = [Point(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=False)]
        if len(numbers) != (_LINE if at is None else len(numbers)) or len(numbers) not in (_LINE, _CUBIC):
            return None
        if at is not None:
            run.append(Line(at, *places) if len(numbers) == _LINE else Cubic(at, *places))
        at = places[-1]
    again = joined(chords(run, sewn_stray(run)))
    untouched = len(again) == len(drawn) and all(a.near(b, _UNTOUCHED) for a, b in zip(again, drawn, strict=True))
    return tuple(run) if run and untouched else None


def _most_turned(curve: Cubic) -> float:
    """No less than a cubic turns in all, radians: what the lines between the places that give it turn."""
    legs = [leg for leg in (b - a for a, b in pairwise(_places(curve))) if leg.norm() > 0.0]
    return sum(abs(a.angle_to(b)) for a, b in pairwise(legs))


def _places(curve: Curve) -> tuple[Point, ...]:
    return (curve.start, curve.end) if isinstance(curve, Line) else (curve.start, curve.c1, curve.c2, curve.end)


def _numbers(places: Sequence[Point]) -> str:
    return " ".join(str(number) for place in places for number in (place.x, place.y))
