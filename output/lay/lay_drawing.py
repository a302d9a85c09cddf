"""A lay drawn to follow while cutting: cloth, fold, selvedges, a ruler along the edge, and every piece by name.

The drawing is a picture, smaller than the cloth. The arrow in each piece lies along the grain and points to its top.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.geometry import Line, Point
from drafting.reading.units import MM_PER_INCH, length_text
from output.drawings.drawing import Box, Item, LineKind, Stroke, Text, path, rectangle
from output.drawings.lettering import LEADING, fitted, text_width, wrapped
from output.drawings.svg import drawing_svg
from output.lay.lay_values import Lay, Placement, Stretch
from output.lay.lay_words import width_text

__all__ = ["lay_svg"]

_WIDE: Final = 262.0  # mm, of the cloth on the picture: A4 across, with room for what stands around it
_HIGH: Final = 150.0
_AROUND: Final = 7.0
_SIZES: Final = (3.6, 3.0, 2.5, 2.1, 1.8, 1.5)  # of names, mm
_SMALL: Final = 2.6
_TITLE: Final = 5.0
_TICK: Final = 2.0
_BARB: Final = 2.0
_AS_GOOD: Final = 0.85
_BETWEEN: Final = 22.0  # between two stretches
_FOLD_WORDS: Final = {
    "lengthwise": "folded lengthwise",
    "single": "opened out, single",
    "across": "folded across",
    "double": "folded double",
}


def lay_svg(lay: Lay, title: str, unit: str) -> str:
    """The picture of a lay as SVG: one stretch below the other, all to one scale."""
    longest = max(each.length for each in lay.stretches)
    high = sum(each.cloth.depth for each in lay.stretches)
    scale = min(_WIDE / longest, _HIGH / high)
    items: list[Item] = []
    base = 0.0
    for number, stretch in enumerate(lay.stretches, start=1):
        base -= stretch.cloth.depth * scale
        counted = f"Part {number}: " if len(lay.stretches) > 1 else ""
        items += _stretch(stretch, counted, base, scale, unit)
        base -= _BETWEEN
    wide = max(longest * scale, _WIDE)  # a short lay takes a part of the width only, or its letters would be huge
    heading, size = fitted(title, _TITLE, wide, least=_SMALL, bold=True)
    items.append(Text(heading, Point(0.0, 8.5), size, bold=True))
    page = Box(0.0, base + _BETWEEN - 10.0, wide, 10.0 + _TITLE)
    return drawing_svg(items, page.grown(_AROUND), title)


def _stretch(stretch: Stretch, counted: str, base: float, scale: float, unit: str) -> Iterator[Item]:
    """One stretch of the cloth as it is spread, with its pieces, its folds and its length written on.

    base: how high on the page it begins; scale: mm on the page for a mm of cloth
    """
    cloth, length, depth = stretch.cloth, stretch.length, stretch.cloth.depth
    right, top = length * scale, base + depth * scale
    yield Stroke(LineKind.MAP, rectangle(Box(0.0, base, right, top)))
    below = "fold" if cloth.on_fold else "selvedge"
    if cloth.on_fold:
        yield Stroke(LineKind.FOLD, (Line(Point(0.0, base), Point(right, base)),))
    if cloth.fold == "double":
        yield Stroke(LineKind.FOLD, (Line(Point(0.0, top), Point(right, top)),))
        middle = 0.5 * (base + top)
        yield Stroke(LineKind.MAP, (Line(Point(0.0, middle), Point(right, middle)),))
        yield Text("both selvedges", Point(right + 1.2 + _SMALL, middle), _SMALL, "middle", 90.0)
    if cloth.fold == "across":
        yield Stroke(LineKind.FOLD, (Line(Point(0.0, base), Point(0.0, top)),))
        yield Text("fold", Point(-1.5, 0.5 * (base + top)), _SMALL, "middle", 90.0)
    above = "fold" if cloth.fold == "double" else "selvedges" if cloth.layers > 1 else "selvedge"
    head = f"{counted}cloth {width_text(cloth.width, unit)} wide, {_FOLD_WORDS[cloth.fold]}"
    yield Text(head, Point(0.0, top + 1.6), _SMALL + 0.6, bold=True)
    way = (
        "all tops to the right (nap or print)"
        if len(cloth.turns) == 1
        else "arrows along the grain, to the top of the piece"
    )
    yield Text(way, Point(0.0, base - 7.6), _SMALL)
    for words, beside, size, y in (
        (f"{below}, {length_text(length, unit)} in all", way, _SMALL, base - 7.6),
        (above, head, _SMALL + 1.0, top + 1.2),
    ):
        clear = text_width(beside, size) + _SMALL + text_width(words, _SMALL)
        yield Text(words, Point(max(right, clear), y), _SMALL, "end")
    yield from _ruler(length, base, scale, unit)
    for placed in stretch.placements:
        yield from _piece(placed, base, top, scale, upper=cloth.layers == 2 and placed.piece.layers == 1)


def _ruler(length: float, base: float, scale: float, unit: str) -> Iterator[Item]:
    """Measures along the edge: a tick every 10 cm or 3 in, a number at every fifth or third."""
    step, every = (3.0 * MM_PER_INCH, 3) if unit == "in" else (100.0, 2)
    shown = MM_PER_INCH if unit == "in" else 1.0 if unit == "mm" else 10.0
    ticks = []
    for n in range(math.floor(length / step) + 1):
        x, long = n * step * scale, n % every == 0
        ticks.append(Line(Point(x, base), Point(x, base - (_TICK if long else 0.5 * _TICK))))
        if long:
            yield Text(f"{n * step / shown:g} {unit}", Point(x, base - _TICK - 2.2), 2.1, "middle")
    yield Stroke(LineKind.CHECK, tuple(ticks))


def _piece(placed: Placement, base: float, top: float, scale: float, *, upper: bool) -> Iterator[Item]:
    """One piece where it lies on the cloth: its cutting line, open at a fold, and its name."""
    from shapely import Polygon
    from shapely.ops import polylabel

    points = [Point(p.x * scale, p.y * scale + base) for p in placed.outline]
    ends = zip(points, (*points[1:], points[0]), strict=True)
    lines = [Line(a, b) for a, b in ends if a != b]
    folds = (base, top) if placed.piece.on_fold else ()
    on_fold = [any(_level(line, fold) for fold in folds) for line in lines]
    yield Stroke(LineKind.CUTTING, tuple(line for line, fold in zip(lines, on_fold, strict=True) if not fold))
    shape = Polygon([(p.x, p.y) for p in points])
    centre = polylabel(shape, 0.5)
    room = centre.distance(shape.exterior)
    middle = shape.centroid
    if shape.contains(middle) and middle.distance(shape.exterior) >= _AS_GOOD * room:
        centre = middle  # of a long strip every place is as good; its middle is where one looks
    yield from _label(placed, Point(centre.x, centre.y), room, upper=upper)


def _level(line: Line, y: float) -> bool:
    """Whether a line lies at that height."""
    return abs(line.start.y - y) + abs(line.end.y - y) < 1e-6


def _label(placed: Placement, centre: Point, room: float, *, upper: bool) -> Iterator[Item]:
    """The name, how it lies, and the arrow below, as large as the widest circle in the piece lets them be."""
    notes = [
        note
        for note, said in (
            ("on the fold", placed.piece.on_fold),
            ("upper layer only", upper),
            ("face down", placed.flipped and not placed.piece.on_fold and placed.piece.layers == 1),
        )
        if said
    ]
    for size in _SIZES:
        lines = [*wrapped(placed.piece.name, size, 1.8 * room), *notes]
        wide = max(text_width(line, size) for line in lines)
        high = (len(lines) + 1) * size * LEADING
        if math.hypot(wide, high) <= 2.0 * room:
            break
    y = centre.y + 0.5 * high - size
    for n, line in enumerate(lines):
        yield Text(line, Point(centre.x, y - n * size * LEADING), size, "middle", bold=n < len(lines) - len(notes))
    at = y - (len(lines) - 0.2) * size * LEADING
    half = min(12.0, 0.75 * room)
    way = -1.0 if placed.turned else 1.0
    tail, tip = Point(centre.x - way * half, at), Point(centre.x + way * half, at)
    barb = min(_BARB, 0.5 * half)
    heads = path(Point(tip.x - way * barb, at + 0.4 * barb), tip, Point(tip.x - way * barb, at - 0.4 * barb))
    yield Stroke(LineKind.GRAIN, (Line(tail, tip), *heads))
