"""The curves of an edge as numbers kept on its polyline, so that our own file gives them back as they were."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.geometry import Cubic, Curve, Line, Point, polyline
from output.dxf.dxf_layers import CHORD

__all__ = ["curves_data", "curves_kept"]

_PLACES: Final = 9
_UNTOUCHED: Final = 1e-5
"""mm: places are written with six decimals."""

_LINE, _CUBIC = 2, 4  # places that a curve is given by


def curves_data(run: Sequence[Curve]) -> tuple[int | float, ...]:
    """For each curve how many places give it, then the places; x and y in mm."""
    data: list[int | float] = []
    for curve in run:
        places = [curve.start, curve.end] if isinstance(curve, Line) else [curve.start, curve.c1, curve.c2, curve.end]
        data.append(len(places))
        data += (round(float(number), _PLACES) for place in places for number in (place.x, place.y))
    return tuple(data)


def curves_kept(data: Sequence[object], drawn: Sequence[Point]) -> tuple[Curve, ...] | None:
    """The curves that such numbers give; None where they are none, or where the polyline is no longer drawn to them."""
    run: list[Curve] = []
    left = list(data)
    while left:
        many = left.pop(0)
        numbers = [number for number in left[: 2 * _CUBIC] if isinstance(number, float)]
        if many not in (_LINE, _CUBIC) or len(numbers) < 2 * many:
            return None
        places = [Point(x, y) for x, y in zip(numbers[0 : 2 * many : 2], numbers[1 : 2 * many : 2], strict=True)]
        run.append(Line(*places) if many == _LINE else Cubic(*places))
        del left[: 2 * many]
    again = polyline(run, CHORD) if run else []
    untouched = len(again) == len(drawn) and all(a.near(b, _UNTOUCHED) for a, b in zip(again, drawn, strict=True))
    return tuple(run) if run and untouched else None
