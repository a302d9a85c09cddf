"""The table of parts: what each is called, to what it is drawn, its options, and how it is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from drafting.errors import UnknownName
from drafting.parts.drawn import Draw
from drafting.parts.edge_facing import FACING_NAME, HEM_FACING, WRAP_FACING, draw_edge_facing
from drafting.parts.facing_in_one import NECK_FACING, NECK_FACING_TO, STAND_FACING
from drafting.parts.facing_strip import FACING
from drafting.parts.neck_facing import draw_neck_facing
from drafting.parts.waistband import WAISTBAND, WAISTBAND_TO, draw_waistband
from drafting.pattern import Derived, DrawnTo
from drafting.reading.options import Option, Value

__all__ = ["DRAW", "PARTS", "Part", "find_part", "part_of"]


@dataclass(frozen=True, slots=True)
class Part:
    """A part as it is listed.

    about:  what it is
    to:     what it is drawn to
    needs:  the block that has it; the child's block of that name has it as well
    unless: a block to which it would be sewn in its place; "" for none
    """

    name: str
    about: str
    to: tuple[DrawnTo, ...]
    needs: str
    options: tuple[Option, ...]
    draw: Draw
    unless: str = ""

    def fits(self, blocks: Iterable[str]) -> bool:
        """Whether one of these blocks has it, by name."""
        return not {self.needs, f"child's {self.needs}"}.isdisjoint(blocks)

    def in_place_of(self, blocks: Iterable[str]) -> str:
        """That of these blocks which would be sewn in its place; "" for none."""
        found = {self.unless, f"child's {self.unless}"}.intersection(blocks) if self.unless else ()
        return min(found, default="")


PARTS: Final = (
    Part(
        NECK_FACING,
        "Facings of front and back, drawn to the neck as it is, joined at the shoulders, in one with that of a stand.",
        NECK_FACING_TO,
        "bodice",
        (Option("depth", "length", "how deep it is", 30.0, 120.0, default=FACING),),
        draw_neck_facing,
    ),
    Part(
        WAISTBAND,
        "A straight band as long as the waist as it is sewn, folded at its upper edge; it opens where the skirt does.",
        WAISTBAND_TO,
        "skirt",
        (
            Option("height", "length", "how high it is when it is finished", 15.0, 80.0, default=30.0),
            Option(
                "underlap",
                "length",
                "how far it reaches past the opening, under its other end",
                0.0,
                100.0,
                default=30.0,
            ),
        ),
        draw_waistband,
        unless="bodice",
    ),
)
"""Every part that can be ordered."""

DRAW: Final[Mapping[str, Draw]] = MappingProxyType(
    {
        **{part.name: part.draw for part in PARTS},
        HEM_FACING: draw_edge_facing("hem facing"),
        STAND_FACING: draw_edge_facing(FACING_NAME),
        WRAP_FACING: draw_edge_facing(FACING_NAME),
    }
)
"""How each part is drawn: those that can be ordered, and those that come with an alteration."""


def find_part(name: str, table: Sequence[Part] = PARTS) -> Part:
    """The part of that name. Raises UnknownName, with the nearest."""
    for part in table:
        if part.name == name:
            return part
    raise UnknownName("part", name, [part.name for part in table])


def part_of(part: Part, options: Mapping[str, Value]) -> Derived:
    """A part with these options, and its own for the others, to be drawn."""
    given = tuple((option.name, options.get(option.name, option.default)) for option in part.options)
    return Derived(part.name, part.to, given)  # type: ignore[arg-type]
