"""What a drawing is made of: strokes of a line kind and texts, in millimetres, y up.

Shapes speak to formats through one protocol, `Pen` (move, line, cubic, close). Shifts and flips are wrappers of it.
Kinds of line are told apart in black and white by weight and dash, one table for every format.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from enum import StrEnum
from itertools import pairwise
from types import MappingProxyType
from typing import Final, Literal, Protocol

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Move, Point, moved_all

__all__ = [
    "KIND_LAYERS",
    "LINE_STYLES",
    "SIZE_LINES",
    "TEXT_LAYER",
    "Anchor",
    "Box",
    "Item",
    "LineKind",
    "LineStyle",
    "Moved",
    "Pen",
    "Stroke",
    "Text",
    "item_moved",
    "layer_of",
    "number_text",
    "on_layer",
    "path",
    "printable",
    "rectangle",
    "runs",
    "stroke_moved",
    "trace",
    "upside_down",
]

Anchor = Literal["start", "middle", "end"]


class LineKind(StrEnum):
    """What a line means to the person who cuts and sews."""

    BEFORE = "as it was"
    CUTTING = "cutting line"
    SIZE_1 = "first size"
    SIZE_2 = "second size"
    SIZE_3 = "third size"
    SIZE_4 = "fourth size"
    SIZE_5 = "fifth size"
    SIZE_6 = "sixth size"
    SEWING = "sewing line"
    FOLD = "fold of cloth"
    DART = "dart leg"
    NOTCH = "notch"
    GRAIN = "grain line"
    BALANCE = "balance line"
    GATHER = "gathering threads"
    POINT = "marked point"
    SQUARE = "test square"
    CHECK = "check length"
    FRAME = "frame"
    JOIN = "join mark"
    MAP = "map of the sheets"
    AFTER = "as it is"
    IN_HAND = "piece in hand"
    TO_SEW = "edge to sew"


SIZE_LINES: Final = (
    LineKind.SIZE_1,
    LineKind.SIZE_2,
    LineKind.SIZE_3,
    LineKind.SIZE_4,
    LineKind.SIZE_5,
    LineKind.SIZE_6,
)
"""The cutting lines of a nest, smallest size first: each has one dot more between its dashes than the one before."""

KIND_LAYERS: Final[Mapping[LineKind, str]] = MappingProxyType(
    {
        LineKind.CUTTING: "cutting lines",
        LineKind.FOLD: "folds",
        LineKind.SEWING: "sewing lines",
        LineKind.DART: "darts",
        LineKind.NOTCH: "notches",
        LineKind.POINT: "marked points",
        LineKind.GRAIN: "grain lines",
        LineKind.BALANCE: "balance lines",
        LineKind.GATHER: "gathering threads",
        LineKind.FRAME: "marks for joining",
        LineKind.JOIN: "marks for joining",
        LineKind.CHECK: "marks for joining",
    }
)
"""The layer that each kind of line is shown and hidden with. The squares to measure are on none: always shown."""

TEXT_LAYER: Final = "texts"
"""The layer of what is written on the pieces."""


@dataclass(frozen=True, slots=True)
class LineStyle:
    """How a kind of line looks: its weight in mm, and its dashes and gaps in mm, none for an unbroken line."""

    weight: float
    dash: tuple[float, ...] = ()


def _dotted(dots: int) -> tuple[float, ...]:
    """Dashes with so many dots between them; none for an unbroken line."""
    return (9.0, 1.6, *((0.8, 1.6) * dots)) if dots else ()


LINE_STYLES: Final[Mapping[LineKind, LineStyle]] = MappingProxyType(
    {
        LineKind.BEFORE: LineStyle(0.25, (2.0, 1.2)),
        LineKind.CUTTING: LineStyle(0.7),
        **{kind: LineStyle(0.5, _dotted(place)) for place, kind in enumerate(SIZE_LINES)},
        LineKind.SEWING: LineStyle(0.3, (3.0, 1.5)),
        LineKind.FOLD: LineStyle(0.7, (8.0, 2.0, 2.0, 2.0)),
        LineKind.DART: LineStyle(0.3, (8.0, 1.5)),
        LineKind.NOTCH: LineStyle(0.6),
        LineKind.GRAIN: LineStyle(0.4),
        LineKind.BALANCE: LineStyle(0.3, (0.8, 1.7)),
        LineKind.GATHER: LineStyle(0.25, (4.0, 1.0)),
        LineKind.POINT: LineStyle(0.3),
        LineKind.SQUARE: LineStyle(0.25),
        LineKind.CHECK: LineStyle(0.25),
        LineKind.FRAME: LineStyle(0.15),
        LineKind.JOIN: LineStyle(0.25),
        LineKind.MAP: LineStyle(0.15),
        LineKind.AFTER: LineStyle(0.5),
        LineKind.IN_HAND: LineStyle(0.25),
        LineKind.TO_SEW: LineStyle(1.2),
    }
)


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle, mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right, mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top, mm."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle."""
        return Point(0.5 * (self.left + self.right), 0.5 * (self.bottom + self.top))

    def grown(self, by: float) -> Box:
        """The box with `by` mm added on every side; less for a negative number."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def holds(self, p: Point) -> bool:
        """Whether a place lies in the box or on its border."""
        return self.left <= p.x <= self.right and self.bottom <= p.y <= self.top

    def apart(self, other: Box) -> bool:
        """Whether the two boxes have no place in common; touching is not apart."""
        return self.right < other.left or other.right < self.left or self.top < other.bottom or other.top < self.bottom


@dataclass(frozen=True, slots=True)
class Stroke:
    """Curves drawn as one kind of line. Where one does not begin at the end of the last, the pen is lifted.

    layer: what it is shown and hidden with; None for the layer of its kind, "" for what is always shown
    """

    kind: LineKind
    curves: tuple[Curve, ...]
    layer: str | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """One line of writing: `at` on its base line, `size` of the type in mm, `angle` in degrees anticlockwise.

    layer: what it is shown and hidden with; None or "" for what is always shown
    """

    words: str
    at: Point
    size: float
    anchor: Anchor = "start"
    angle: float = 0.0
    bold: bool = False
    layer: str | None = None


Item = Stroke | Text


def layer_of(item: Item) -> str:
    """The layer an item is shown and hidden with; "" for what is always shown."""
    if item.layer is None and isinstance(item, Stroke):
        return KIND_LAYERS.get(item.kind, "")
    return item.layer or ""


def on_layer(items: Iterable[Item], layer: str) -> tuple[Item, ...]:
    """The same items, shown and hidden with that layer; "" for always shown."""
    return tuple(replace(item, layer=layer) for item in items)


class Pen(Protocol):
    """What a format has to understand: coordinates in mm."""

    def move(self, x: float, y: float) -> None:
        """Lift the pen and set it down there."""

    def line(self, x: float, y: float) -> None:
        """Draw straight to there."""

    def cubic(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """Draw a cubic Bezier with two handles to there."""

    def close(self) -> None:
        """Join the end to where the pen was last set down."""


@dataclass(frozen=True, slots=True)
class Moved:
    """A pen that draws everything moved on another pen."""

    pen: Pen
    by: Move

    def move(self, x: float, y: float) -> None:
        self.pen.move(*self._to(x, y))

    def line(self, x: float, y: float) -> None:
        self.pen.line(*self._to(x, y))

    def cubic(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self.pen.cubic(*self._to(x1, y1), *self._to(x2, y2), *self._to(x, y))

    def close(self) -> None:
        self.pen.close()

    def _to(self, x: float, y: float) -> tuple[float, float]:
        m = self.by
        return m.a * x + m.b * y + m.e, m.c * x + m.d * y + m.f


def upside_down(height: float) -> Move:
    """The move from y up to y down on a page `height` mm high: the one place where y is flipped."""
    return Move(1.0, 0.0, 0.0, -1.0, 0.0, height)


def runs(curves: Iterable[Curve]) -> Iterator[list[Curve]]:
    """The curves in stretches that are drawn without lifting the pen: each begins in the place where the last ends."""
    run: list[Curve] = []
    for curve in curves:
        if run and run[-1].end != curve.start and not run[-1].end.near(curve.start):
            yield run
            run = []
        run.append(curve)
    if run:
        yield run


def trace(curves: Iterable[Curve], pen: Pen) -> None:
    """Draw curves with a pen; a run that ends where it began is closed."""
    for run in runs(curves):
        start = run[0].start
        pen.move(start.x, start.y)
        for curve in run:
            if isinstance(curve, Line):
                pen.line(curve.end.x, curve.end.y)
            else:
                pen.cubic(curve.c1.x, curve.c1.y, curve.c2.x, curve.c2.y, curve.end.x, curve.end.y)
        if run[-1].end == start:
            pen.close()


def number_text(value: float) -> str:
    """Thousandths of a millimetre, without idle zeros and without a minus before zero."""
    written = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def printable(words: str) -> str:
    """The words with a space for each control character, which no file format can hold."""
    return words if words.isprintable() else "".join(letter if letter.isprintable() else " " for letter in words)


def item_moved(item: Item, move: Move) -> Item:
    """The item shifted; writing stays upright, so turning moves are for strokes only."""
    if isinstance(item, Stroke):
        return stroke_moved(item, move)
    return replace(item, at=move.point(item.at))


def stroke_moved(stroke: Stroke, move: Move) -> Stroke:
    """The stroke after the move."""
    return Stroke(stroke.kind, moved_all(stroke.curves, move), stroke.layer)


def path(*points: Point) -> tuple[Curve, ...]:
    """Straight lines through points in order."""
    return tuple(Line(a, b) for a, b in pairwise(points))


def rectangle(box: Box) -> tuple[Curve, ...]:
    """The four sides of a box, anticlockwise, closed."""
    corners: Sequence[Point] = (
        Point(box.left, box.bottom),
        Point(box.right, box.bottom),
        Point(box.right, box.top),
        Point(box.left, box.top),
    )
    return path(*corners, corners[0])
