"""What stands in a pattern.json again and again, read: points, curves, names, words of the vocabulary."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum
from typing import Final, Protocol, TypeVar

from drafting.errors import NotAPattern, meant
from drafting.geometry import Cubic, Curve, Line, Point
from drafting.reading.read_json import Node

__all__ = [
    "FAR",
    "MOST_CURVES",
    "MOST_EDGES",
    "MOST_PIECES",
    "NOWHERE",
    "known_name",
    "known_or_read",
    "made",
    "one_of",
    "read_curve",
    "read_named",
    "read_point",
]

T = TypeVar("T")
W = TypeVar("W", bound=StrEnum)


class _Named(Protocol):
    @property
    def name(self) -> str: ...


N = TypeVar("N", bound=_Named)

FAR: Final = 100_000.0
"""No coordinate or length of a garment is larger, mm: a hundred metres of cloth."""

MOST_PIECES: Final = 200
MOST_EDGES: Final = 400
MOST_CURVES: Final = 5_000
"""Pieces of a pattern that is read, edges of one of them, lines and curves round it: ten times what clothing needs, and
few enough to be looked at in seconds (our figures)."""

NOWHERE: Final = Point(0.0, 0.0)
"""Stands in for a point that could not be read."""


def read_curve(node: Node) -> Curve:
    """A line of two points or a cubic of four."""
    points = [read_point(point) for point in node.items()]
    if len(points) == 2:
        return Line(points[0], points[1])
    if len(points) == 4:
        return Cubic(points[0], points[1], points[2], points[3])
    if isinstance(node.value, list):
        node.problem("two points (a line) or four (a curve)", read=f"a list of {len(points)}")
    return Line(NOWHERE, NOWHERE)


def read_point(node: Node) -> Point:
    """A point of two numbers, mm."""
    x_y = [part.number(-FAR, FAR) for part in node.items(low=2, high=2)]
    return Point(x_y[0], x_y[1]) if x_y else NOWHERE


def one_of(node: Node, words: type[W]) -> W | None:
    """One word of the vocabulary; None where the file says nothing."""
    word = node.choice([str(word) for word in words], "") if node.there else ""
    return words(word) if word else None


def known_name(node: Node, names: Sequence[str] | Mapping[str, object] | None, what: str) -> str:
    """A text that is one of the names; any text when the names themselves could not be read."""
    name = node.text(empty=False)
    if name and names is not None and name not in names:
        node.problem(what, meant(name, names))
    return name


def known_or_read(node: Node, known: Sequence[N], read: Callable[[Node], N | None]) -> tuple[N, ...]:
    """The items of a list, each the name of a known one or written out."""
    by_name = {each.name: each for each in known}
    found = []
    for item in node.items():
        if isinstance(item.value, str):
            one = by_name.get(item.value)
            if one is None:
                item.problem("a name of this pattern, or all of it")
        else:
            one = read(item)
        if one is not None:
            found.append(one)
    return tuple(found)


def read_named(nodes: Sequence[Node], read: Callable[[Node], T | None], *, key: str = "name") -> list[T | None]:
    """Every node read, the second of two with one name noted."""
    taken: set[str] = set()
    found = []
    for node in nodes:
        found.append(read(node))
        name = node.value.get(key) if isinstance(node.value, dict) else None
        if isinstance(name, str) and name in taken:
            node.problem("a name of its own", read=f'a second "{name}"')
        elif isinstance(name, str):
            taken.add(name)
    return found


def made(node: Node, make: Callable[[], T]) -> T | None:
    """What `make` makes; None, and a problem, where no pattern could have it."""
    try:
        return make()
    except NotAPattern as error:
        node.problem("what a pattern could have", read=f"something else ({error.where}: {error.reason})")
        return None
