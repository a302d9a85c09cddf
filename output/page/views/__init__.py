"""What the page shows, a part to each module: functions from a garment as it stands to plain data for the browser."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
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

__all__ = ["ALL", "CHANGING", "MOVING", "VIEWS", "Data", "Shown", "parts"]

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

ALL: Final = frozenset(VIEWS)
CHANGING: Final = ALL - {"more", "order", "sizes", "walk", "what"}
MOVING: Final = frozenset({"table"})
"""The parts that are looked at when her hand rests, when it pauses in a change, and while it moves. The pieces always
are, and nothing that takes longer than a frame keeps them waiting."""


def parts(shown: Shown, looked_at: Collection[str] = ALL) -> Iterator[tuple[str, Data]]:
    """The parts of the page that are looked at, each with its name, and every piece."""
    yield from ((name, view(shown)) for name, view in VIEWS.items() if name in looked_at)
    yield from pieces(shown)
