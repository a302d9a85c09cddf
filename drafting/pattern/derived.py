"""A derived piece, kept as what it is made from: a facing is "drawn to this neck, 6 cm deep", and no mere outline.

`drafting/parts` draws it, and draws it again whenever what it is drawn to changes. So an alteration never meets a
derived piece, and none comes too late for one.
"""

from __future__ import annotations

from dataclasses import dataclass

from drafting.pattern.places import Identity, Place
from drafting.pattern.seam import NotchRef

__all__ = ["Derived", "DrawnTo", "Plain"]

Plain = str | float | int | bool | None
"""What an option may be."""


@dataclass(frozen=True, slots=True)
class DrawnTo:
    """What a part is drawn to: a place on the pieces of one kind.

    piece: the one piece it was asked for; "" for every piece of that kind. A piece of that name that is there no longer
           was cut into panels, which are of the same kind
    """

    place: Place
    identity: Identity
    piece: str = ""


@dataclass(frozen=True, slots=True)
class Derived:
    """A part, and what was last drawn for it.

    part:    its name in the table of parts, "neck facing"
    to:      what it is drawn to
    options: by name, lengths in mm
    pieces, seams, notches: the names of what was drawn; the notches are those on the pieces it is drawn to
    """

    part: str
    to: tuple[DrawnTo, ...]
    options: tuple[tuple[str, Plain], ...] = ()
    pieces: tuple[str, ...] = ()
    seams: tuple[str, ...] = ()
    notches: tuple[NotchRef, ...] = ()

    def length(self, name: str) -> float:
        """The option of that name, mm; KeyError where it has none."""
        value = dict(self.options)[name]
        if not isinstance(value, float | int):
            raise KeyError(name)
        return float(value)
