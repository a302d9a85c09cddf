"""What a block is, as a row of the table of blocks: what it drafts, what it needs to know, what options it takes."""

from __future__ import annotations

from collections.abc import Callable

from blocks.handover import Drafted, Order, Planned
from drafting.body.terms import BodyKind
from drafting.dataclass import dataclass
from drafting.pattern import Site
from drafting.reading.options import Option

__all__ = ["Block"]


@dataclass(frozen=True, slots=True)
class Block:
    """One block.

    pieces: the names of the pieces it makes
    needs:  the measurements it is drawn from
    places: where it adds ease
    sites:  where something can be sewn to it: a collar to its neck, a band to its waist
    bodies: the kinds of body that it is drawn for
    source: whose construction it follows
    instead: the block that takes its place for the other kinds of body
    after:  the block that it cannot be drafted without; "" for none
    cloth:  a kind of cloth that it can be drafted for
    explained: words that are no options of it, each with what to tell whoever writes it
    plan:   what tells its waist darts before its pieces are made; None where only these show them
    """

    name: str
    about: str
    pieces: tuple[str, ...]
    needs: tuple[str, ...]
    places: tuple[str, ...]
    options: tuple[Option, ...]
    source: str
    draft: Callable[[Order], Drafted]
    bodies: tuple[BodyKind, ...] = ("woman",)
    instead: str = ""
    after: str = ""
    sites: tuple[Site, ...] = ()
    cloth: str = "woven"
    explained: tuple[tuple[str, str], ...] = ()
    plan: Callable[[Order], Planned] | None = None

    def planned(self, order: Order) -> Planned:
        """What it gives for an order, so far as its waist darts are known. Raises CannotDraft or NotAPattern."""
        return self.draft(order).planned if self.plan is None else self.plan(order)
