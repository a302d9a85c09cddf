"""Drawings in a page: as wide as their column, with a name for whoever hears the page read."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape
from typing import Final

from output.drawings.drawing import Box, Item
from output.drawings.svg import drawing_svg

__all__ = ["named_picture", "picture_html", "without_size"]

_SIZE: Final = re.compile(r' (width|height)="[0-9.]+mm"')


def picture_html(items: Iterable[Item], page: Box, title: str) -> str:
    """A drawing as SVG inside a page, without a size of its own."""
    return without_size(named_picture(drawing_svg(items, page, title), title))


def without_size(svg: str) -> str:
    """The drawing without a width and a height of its own: as wide as its column."""
    return _SIZE.sub("", svg, count=2)


def named_picture(svg: str, title: str) -> str:
    """The drawing as an image with that name."""
    return svg.strip().replace("<svg ", f'<svg role="img" aria-label="{escape(title)}" ', 1)
