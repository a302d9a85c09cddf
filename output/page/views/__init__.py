"""What the page shows, a part to each module: functions from a garment as it stands to plain data for the browser."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from output.page.views.body_picture import figure
from output.page.views.changed import changed, more, order
from output.page.views.cloth import cloth
from output.page.views.data import Data
from output.page.views.head import head
from output.page.views.paper import paper
from output.page.views.pieces import pieces
from output.page.views.shown import Shown
from output.page.views.sizes import sizes
from output.page.views.slip import slip
from output.page.views.table import table
from output.page.views.together import together
from output.page.views.walk import walk
from output.page.views.what import what
from output.page.views.who import who

__all__ = ["RESTING", "VIEWS", "Data", "Shown", "parts"]

VIEWS: Final[Mapping[str, Callable[[Shown], Data]]] = MappingProxyType(
    {
        "head": head,
        "who": who,
        "figure": figure,
        "what": what,
        "cloth": cloth,
        "changed": changed,
        "order": order,
        "more": more,
        "together": together,
        "paper": paper,
        "slip": slip,
        "table": table,
        "walk": walk,
        "sizes": sizes,
    }
)
"""Each part of the page by its name; the parts of the pieces come to these."""

RESTING: Final = frozenset({"more", "order", "sizes", "walk", "what"})
"""The parts that are looked at when the hand rests, not while a slider is drawn: they take longer than a frame."""


def parts(shown: Shown, *, resting: bool = True) -> Iterator[tuple[str, Data]]:
    """Every part of the page with its name; those that take longer only if the hand rests."""
    yield from ((name, view(shown)) for name, view in VIEWS.items() if resting or name not in RESTING)
    yield from pieces(shown)
