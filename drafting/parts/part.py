"""What a part is, as a row of the table of parts: what it is called, where it is sewn, its options, how it is drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import Remedy
from drafting.parts.drawn import Draw
from drafting.pattern import Derived, DrawnTo, Site
from drafting.reading.options import Option, Value

__all__ = ["SHORTER", "Ends", "Part", "PartOfStep", "Room", "part_of", "rivals_of", "sites_text", "width_shorter"]


SHORTER: Final = Option(
    "shorter",
    "flag",
    "whether what it is sewn to is drafted so much shorter that the whole is as long as it was asked to be",
    default=True,
)
"""The option of a part that goes on beyond the edge that it is sewn to."""


@dataclass(frozen=True, slots=True)
class Ends:
    """How a block ends where a part goes on from there, mm.

    shorter: by how much above the place where it would end
    drop:    how much lower its edge is at the quarter behind, so that the arm can bend over a cuff
    """

    shorter: float = 0.0
    drop: float = 0.0


@dataclass(frozen=True, slots=True)
class Room:
    """What a part asks of the ease of the block that it is sewn to: an elastic, that the hand passes its casing.

    ease:   from the part as it was ordered and the lengths of the body, mm, to the least ease by place, mm
    unless: the alterations with which she gives it that room herself
    """

    ease: Callable[[Derived, Mapping[str, float]], Mapping[str, float]]
    unless: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """A part as it is listed.

    about:   what it is
    to:      what it is drawn to
    needs:   where it can be sewn; one of these must be there
    unless:  where that is sewn to something else in its place; none of these may be there
    in_one_with: parts it is drawn in one with: each is drawn to what the other is; said once, in the row of either
    fills:   what it takes up, "collar": of the parts of a garment that take up the same only one can be there
    several: whether it can be ordered more than once, each under a name of its own
    helped_by: what may let it be drawn where it cannot be
    room:    the ease that it asks of the block, where nobody asked for another
    ends:    how the block ends where it goes on from there; None where that is as it would be without it
    """

    name: str
    about: str
    to: tuple[DrawnTo, ...]
    needs: tuple[Site, ...]
    options: tuple[Option, ...]
    draw: Draw
    unless: tuple[Site, ...] = ()
    in_one_with: tuple[str, ...] = ()
    fills: tuple[str, ...] = ()
    several: bool = False
    helped_by: tuple[Remedy, ...] = ()
    room: Room | None = None
    ends: Callable[[Derived], Ends] | None = None

    def fits(self, sites: Iterable[Site]) -> bool:
        """Whether it can be sewn to one of these."""
        return not set(self.needs).isdisjoint(sites)

    def in_place_of(self, sites: Iterable[Site]) -> Site | None:
        """The place on the garment that keeps this part from being sewn where it belongs; None where there is none."""
        return next((site for site in sites if site in self.unless), None)


@dataclass(frozen=True, slots=True)
class PartOfStep:
    """A part that cannot be ordered: it comes with an alteration, which says what it is drawn to.

    in_one_with: as of a `Part`
    """

    name: str
    draw: Draw
    in_one_with: tuple[str, ...] = ()


def part_of(part: Part, options: Mapping[str, Value], called: str = "") -> Derived:
    """A part with these options, and its own for the others, to be drawn; called: its own name, where it has one."""
    given = tuple((option.name, options.get(option.name, option.default)) for option in part.options)
    return Derived(part.name, part.to, given, called=called)  # type: ignore[arg-type]


def width_shorter(derived: Derived) -> Ends:
    """How a block ends above a band: shorter by its width, unless that was to be left as it is."""
    return Ends(derived.length("width") if derived.is_on("shorter") else 0.0)


def rivals_of(part: Part, others: Sequence[Part]) -> tuple[Part, ...]:
    """Those of the others that take up what this one takes up, so that they cannot be there together."""
    return tuple(each for each in others if each.name != part.name and not set(each.fills).isdisjoint(part.fills))


def sites_text(sites: Sequence[Site]) -> str:
    """Where something can be sewn, in words: "the neck of the bodice"; each part of the garment once."""
    places = list(dict.fromkeys(str(site.place) for site in sites))
    parts = list(dict.fromkeys(str(site.part) for site in sites))
    return f"the {' or '.join(places)} of the {' or '.join(parts)}"
