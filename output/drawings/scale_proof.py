"""What proves the scale of a print: squares to measure, and lengths to measure across a join of sheets."""

from __future__ import annotations

from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Line, Point, Vec
from drafting.reading.units import MM_PER_INCH
from output.drawings.drawing import KIND_LAYERS, Box, Item, LineKind, Stroke, on_layer, rectangle
from output.drawings.lettering import block, block_size

__all__ = ["CHECK_LENGTH", "TEST_SQUARES", "TestSquare", "check_length", "square_with_room", "test_square"]

CHECK_LENGTH: Final = 200.0
"""The length drawn across joins, mm."""

_TICK = 4.0
_INSIDE = 3.5  # between a square and what stands in it, mm


@dataclass(frozen=True, slots=True)
class TestSquare:
    """A square of a known side, mm, and how it is labelled. Each carries one unit only, since the two look alike."""

    side: float
    words: tuple[str, ...]

    __test__ = False  # a square of the trade, not a test of pytest


TEST_SQUARES: Final = (
    TestSquare(100.0, ("10 cm", "100 mm each side", "measure me")),
    TestSquare(4.0 * MM_PER_INCH, ("4 inches", "each side", "measure me")),
)
"""The squares on the first sheet and on the last."""


def test_square(square: TestSquare, corner: Point) -> tuple[Item, ...]:
    """The square with its label in the middle; `corner` is its lower left one."""
    box = _box(square, corner)
    sizes = (9.0, 4.5, 4.5)
    lines = [(words, size, size > 5.0) for words, size in zip(square.words, sizes, strict=True)]
    return (Stroke(LineKind.SQUARE, rectangle(box)), *block(lines, box.centre))


def square_with_room(square: TestSquare, corner: Point) -> tuple[tuple[Item, ...], Box]:
    """The square with its label at the top, and the room it leaves within for something else."""
    box = _box(square, corner)
    large, *small = square.words
    lines = [(large, 7.0, True), (", ".join(small), 3.6, False)]
    high = block_size(lines)[1]
    items = block(lines, Point(box.centre.x, box.top - _INSIDE - 0.5 * high))
    room = Box(box.left + _INSIDE, box.bottom + _INSIDE, box.right - _INSIDE, box.top - _INSIDE - high - _INSIDE)
    return (Stroke(LineKind.SQUARE, rectangle(box)), *items), room


def _box(square: TestSquare, corner: Point) -> Box:
    return Box(corner.x, corner.y, corner.x + square.side, corner.y + square.side)


test_square.__test__ = False  # type: ignore[attr-defined]


def check_length(middle: Point, *, upright: bool, length: float = CHECK_LENGTH, unit: str = "cm") -> tuple[Item, ...]:
    """A straight line about a place, a tick square to it at each end, its length beside it.

    length: mm; for whoever works in inches (unit "in") it is drawn as the nearest whole inches
    """
    words = f"{length:g} mm from tick to tick"
    if unit == "in":
        inches = round(length / MM_PER_INCH)
        length, words = inches * MM_PER_INCH, f"{inches} in from tick to tick"
    way = Vec(0.0, 1.0) if upright else Vec(1.0, 0.0)
    start, end = middle - way * (0.5 * length), middle + way * (0.5 * length)
    tick = way.left() * (0.5 * _TICK)
    curves = (Line(start, end), Line(start - tick, start + tick), Line(end - tick, end + tick))
    label = block(
        [(words, 3.2, False)], middle - way * (0.25 * length) + way.left() * 3.2, angle=90.0 if upright else 0.0
    )
    return on_layer((Stroke(LineKind.CHECK, curves), *label), KIND_LAYERS[LineKind.CHECK])
