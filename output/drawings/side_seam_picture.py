"""A small picture of a side seam that goes over from one size into another: the lines of the sizes, and hers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from drafting.geometry import Cubic, Curve, Point
from drafting.reading.units import inches
from drafting.sizing.choose_size import SizeChoice
from drafting.sizing.pattern_chart import BODY_OF
from output.drawings.drawing import Box, Item, LineKind, Stroke, Text, path
from output.drawings.svg import drawing_svg

__all__ = ["side_seam_picture"]

_HEIGHTS: Final[Mapping[str, float]] = {"bust": 410.0, "waist": 240.0, "hip": 40.0}
"""How high each level is drawn, mm; how far apart they lie on her does not matter here (ours)."""

_ACROSS: Final = 1.5
_TYPE: Final = 17.0
_WIDE: Final = 460.0
_SEAM: Final = 60.0
"""mm from the left to where the side seam is drawn."""


def side_seam_picture(choice: SizeChoice) -> str:
    """The side seam of the front as SVG: the size that is taken dashed, the others dotted, the blend in one firm line.

    What runs across is drawn half as large again as what runs down.
    """
    levels = [place for place in _HEIGHTS if any(level.place == place for level in choice.levels)]
    by = {blend.place: blend.by for blend in choice.blends}
    taken = {place: _quarter(choice, choice.size, place) for place in levels}
    left = min(value + min(0.0, by.get(place, 0.0)) for place, value in taken.items())
    at = {place: _SEAM + _ACROSS * (value - left) for place, value in taken.items()}
    items: list[Item] = [Stroke(LineKind.BEFORE, tuple(_seam([(at[each], _HEIGHTS[each]) for each in levels])))]
    moved = [(at[each] + _ACROSS * by.get(each, 0.0), _HEIGHTS[each]) for each in levels]
    items.append(Stroke(LineKind.CUTTING, tuple(_seam(moved))))
    for place, (x, y) in zip(levels, moved, strict=True):
        items.append(Stroke(LineKind.BALANCE, path(Point(10.0, y), Point(_WIDE - 10.0, y))))
        items.append(Stroke(LineKind.FRAME, path(Point(at[place], y - 5.0), Point(at[place], y + 5.0))))
        items.extend(_size_labels(choice, place, Point(max(x, at[place]) + 12.0, y + 6.0)))
    page = Box(0.0, 0.0, _WIDE, 440.0)
    return drawing_svg(items, page, "The side seam, from size to size", enlarged=2.5)


def _size_labels(choice: SizeChoice, place: str, at: Point) -> Iterator[Text]:
    blend = next((each for each in choice.blends if each.place == place), None)
    name = "chest" if place == "bust" and choice.person.body != "woman" else place
    size = blend.size if blend else choice.size
    yield Text(f"{name}: size {size}", at, _TYPE, bold=blend is not None)
    if blend is not None:
        far = inches(abs(blend.by), parts=16) if choice.person.unit == "in" else f"{round(abs(blend.by))} mm"
        way = "out" if blend.by > 0.0 else "in"
        yield Text(f"each edge {far} {way}", Point(at.x, at.y - 26.0), _TYPE)


def _quarter(choice: SizeChoice, size: str, place: str) -> float:
    """A quarter of what the garment measures in a size, or of its body where the chart tells no more, mm."""
    chart = choice.chart
    mm = chart.finished_mm(size, place)
    if mm is None:
        mm = chart.body_mm(size, BODY_OF[place])
    return (mm or 0.0) / 4.0


def _seam(points: Sequence[tuple[float, float]]) -> Iterator[Curve]:
    """One even line through the points, upright at each: so a cutter draws it, without a corner."""
    for (x0, y0), (x1, y1) in pairwise(points):
        third = (y1 - y0) / 2.5
        yield Cubic(Point(x0, y0), Point(x0, y0 + third), Point(x1, y1 - third), Point(x1, y1))
