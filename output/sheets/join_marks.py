"""What helps to lay sheets of paper together: joining lines, rounds that become whole, corner marks, words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product
from typing import TYPE_CHECKING

from drafting.geometry import Line, Point, arc
from output.drawings.drawing import KIND_LAYERS, Box, Item, LineKind, Stroke, on_layer
from output.drawings.free_space import first_clear, inside, least_crowded, obstacles, rows
from output.drawings.lettering import block, text_width
from output.drawings.scale_proof import CHECK_LENGTH, check_length
from output.sheets.paper_grid import Join

if TYPE_CHECKING:
    from output.drawings.free_space import Obstacles

__all__ = ["check_lengths", "corner_marks", "joining_line", "joining_words", "rounds"]

_ROUND = 5.0  # radius, mm: both halves lie within the overlap
_NUMBER = 3.0
_WORDS = (2.7, 2.2, 1.8)  # sizes: as large as they find room clear of lines
_CORNER = 4.0
_CHECK_ROOM = 11.0
_SPACING = 5.0


def joining_line(join: Join) -> Stroke:
    """The line along which the second sheet is cut and to which it is laid on the first."""
    return Stroke(LineKind.FRAME, (Line(join.start, join.end),))


def rounds(join: Join, segments: Obstacles) -> tuple[Item, ...]:
    """Two rounds astride a join, its number in each half: a quarter from either end, or where they are clear."""
    places = join.along(_SPACING, 2.0 * _ROUND)
    room = (2.0 * _ROUND + 2.0, 2.0 * _ROUND + 2.0)
    items: list[Item] = []
    for wanted in (places[len(places) // 4], places[-1 - len(places) // 4]):
        nearest_first = sorted(places, key=lambda p: (p - wanted).norm())
        taken = obstacles(items, besides=segments)
        at = first_clear(taken, nearest_first, room) or least_crowded(taken, nearest_first, room)
        items.append(Stroke(LineKind.JOIN, arc(at, _ROUND, 0.0, 2.0 * math.pi)))
        for side in (-1.0, 1.0):
            centre = at + join.across * (side * 0.5 * _ROUND)
            size = min(_NUMBER, _NUMBER * 0.8 * _ROUND / text_width(str(join.number), _NUMBER))
            items.extend(block([(str(join.number), size, False)], centre))
    return on_layer(items, KIND_LAYERS[LineKind.JOIN])


def corner_marks(own: Box) -> Stroke:
    """A small cross at each corner of a sheet's own part; they are one step of the paper apart."""
    curves: list[Line] = []
    for x in (own.left, own.right):
        for y in (own.bottom, own.top):
            curves.append(Line(Point(x - _CORNER, y), Point(x + _CORNER, y)))
            curves.append(Line(Point(x, y - _CORNER), Point(x, y + _CORNER)))
    return Stroke(LineKind.JOIN, tuple(curves))


def joining_words(join: Join, segments: Obstacles, *, lay: int | None) -> tuple[Item, ...]:
    """What to do at a join, written beside its line on the strip that is covered or cut away.

    lay: the number of the sheet that is laid to this line; None on the sheet that is cut along it
    Where lines run along that strip they stand on the other side.
    """
    words = "cut along here" if lay is None else f"lay sheet {lay} to here"
    angle = 90.0 if join.upright else 0.0
    outward = -1.0 if lay is None else 1.0
    for size, side in product(_WORDS, (outward, -outward)):
        length = text_width(words, size)
        off = (0.5 * size + 1.2) * side
        places = [at + join.across * off for at in join.along(_SPACING, 0.5 * length + 6.0)]
        at = first_clear(segments, places, (length + 2.0, size), angle=angle)
        if at:
            break
    else:
        at = least_crowded(segments, places, (length, size), angle=angle)
    return on_layer(block([(words, size, False)], at, angle=angle), KIND_LAYERS[LineKind.JOIN])


def check_lengths(
    found: Sequence[Join], segments: Obstacles, outlines: Sequence[Sequence[Point]], *, unit: str = "cm"
) -> tuple[tuple[Item, ...], ...]:
    """A length to measure across a join: one in each row and each column of sheets where there is room for it.

    There is at least one across a join of either direction, even if it has to cross lines of the drawing.
    """
    lengths: list[tuple[Item, ...]] = []
    for upright in (True, False):
        group = [join for join in found if join.upright is upright]
        # measured across an upright join, the length itself lies level
        angle = 0.0 if upright else 90.0
        room = (CHECK_LENGTH + 4.0, _CHECK_ROOM)
        lane = 0 if upright else 1
        placed = []
        for number in sorted({join.first[lane] for join in group}):
            places = [
                p for join in group if join.first[lane] == number for p in join.along(_SPACING, 2.0 * _CHECK_ROOM)
            ]
            clear = first_clear(segments, _outside_first(places, outlines), room, angle=angle)
            if clear:
                placed.append(check_length(clear, upright=not upright, unit=unit))
        if group and not placed:
            places = _outside_first([p for join in group for p in join.along(_SPACING, 2.0 * _CHECK_ROOM)], outlines)
            crowded = least_crowded(segments, places, room, angle=angle)
            placed.append(check_length(crowded, upright=not upright, unit=unit))
        lengths.extend(placed)
    return tuple(lengths)


def _outside_first(places: Sequence[Point], outlines: Sequence[Sequence[Point]]) -> list[Point]:
    at = rows(places)
    within = [any(held) for held in zip(*(inside(outline, at) for outline in outlines), strict=True)]
    return [p for _, p in sorted(zip(within, places, strict=True), key=lambda pair: pair[0])]
