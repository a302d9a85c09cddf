"""The table of all parts, put together from the tables of the rooms."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from drafting.errors import UnknownName
from drafting.parts.attached.rows import ATTACHED
from drafting.parts.bands.elastic import ELASTICS
from drafting.parts.bands.rows import BANDS
from drafting.parts.bindings.rows import BINDINGS
from drafting.parts.collars.rows import COLLARS
from drafting.parts.cuffs.rows import CUFFS
from drafting.parts.drawn import Draw
from drafting.parts.finishes.fly import FLY_PART
from drafting.parts.finishes.rows import FACINGS, FACINGS_OF_STEPS
from drafting.parts.linings.rows import LININGS
from drafting.parts.part import Part, part_of, rivals_of, sites_text

__all__ = ["DRAW", "IN_ONE_WITH", "PARTS", "Part", "find_part", "part_of", "rivals_of", "sites_text"]

PARTS: Final = (*FACINGS, *BINDINGS, FLY_PART, *COLLARS, *CUFFS, *BANDS, *ELASTICS, *LININGS, *ATTACHED)
"""Every part that can be ordered, in the order in which the parts of a garment are drawn."""

DRAW: Final[Mapping[str, Draw]] = MappingProxyType({part.name: part.draw for part in (*PARTS, *FACINGS_OF_STEPS)})
"""How each part is drawn: those that can be ordered, and those that come with an alteration."""

_IN_ONE: Final = tuple((part.name, other) for part in (*PARTS, *FACINGS_OF_STEPS) for other in part.in_one_with)

IN_ONE_WITH: Final[Mapping[str, frozenset[str]]] = MappingProxyType(
    {name: frozenset(b if name == a else a for a, b in _IN_ONE if name in (a, b)) for name in DRAW}
)
"""The parts that each is drawn in one with, whichever row says so."""


def find_part(name: str, table: Sequence[Part] = PARTS) -> Part:
    """The part of that name. Raises UnknownName, with the nearest."""
    for part in table:
        if part.name == name:
            return part
    raise UnknownName("part", name, [part.name for part in table])
