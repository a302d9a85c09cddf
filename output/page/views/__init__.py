"""What the page shows, a part to each module: functions from a garment as it stands to plain data for the browser."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from output.page.views.body_picture import figure
from output.page.views.changed import changed, more, order
from output.page.views.cloth import cloth
from output.page.views.data import Data
from output.page.views.head import head
from output.page.views.paper import paper
from output.page.views.shown import Shown
from output.page.views.together import together
from output.page.views.what import what
from output.page.views.who import who

__all__ = ["RESTING", "VIEWS", "Data", "Shown"]

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
    }
)
"""Each part of the page by its name."""

RESTING: Final = frozenset({"order", "more"})
"""The parts that are looked at when the hand rests, not while a slider is drawn: they take longer than a frame."""
