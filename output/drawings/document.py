"""A document of several pages, as it is handed to a writer that knows pages: the same strokes and texts, in mm."""

from __future__ import annotations

from drafting.dataclass import dataclass
from drafting.geometry import Point
from output.drawings.drawing import Box, Item

__all__ = ["Bookmark", "Document", "Page"]


@dataclass(frozen=True, slots=True)
class Page:
    """One page in true millimetres, y up, (0, 0) its lower left corner.

    clip: where writing is cut off; lines are inside it already
    """

    width: float
    height: float
    items: tuple[Item, ...]
    clip: Box


@dataclass(frozen=True, slots=True)
class Bookmark:
    """A line of the list of contents, and the place it leads to: a page, counted from 0, and a corner to show there."""

    words: str
    page: int
    at: Point


@dataclass(frozen=True, slots=True)
class Document:
    """What is printed: pages in their order, and what leads to them."""

    title: str
    pages: tuple[Page, ...]
    bookmarks: tuple[Bookmark, ...] = ()
