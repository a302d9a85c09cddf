"""A derived piece, kept as what it is made from: a facing is "drawn to this neck, 6 cm deep", and no mere outline.

`drafting/parts` draws it, and draws it again whenever what it is drawn to changes. So an alteration never meets a
derived piece, and none comes too late for one.
"""

from __future__ import annotations

from drafting.dataclass import dataclass
from drafting.pattern.piece_parts import Role
from drafting.pattern.places import BodyPart, Identity, Place
from drafting.pattern.seam import NotchRef

__all__ = ["Derived", "DrawnTo", "EdgeAs", "LineRef", "Plain", "Site"]

Plain = str | float | int | bool | None
"""What an option may be."""


@dataclass(frozen=True, slots=True)
class Site:
    """A place of a garment where something can be sewn on, "the waist of the skirt"; it stands for all its pieces."""

    place: Place
    part: BodyPart

    def __str__(self) -> str:
        return f"{self.place} of the {self.part}"


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
class LineRef:
    """A marked line of a piece."""

    piece: str
    line: str


@dataclass(frozen=True, slots=True)
class EdgeAs:
    """What an edge of the garment is, with or without a part: its role, and its allowance in mm."""

    piece: str
    edge: str
    role: Role
    allowance: float


@dataclass(frozen=True, slots=True)
class Derived:
    """A part, and what was last drawn for it.

    part:    its name in the table of parts, "neck facing"
    to:      what it is drawn to
    options: by name, lengths in mm
    pieces, seams, notches: the names of what was drawn; the notches are those on the pieces it is drawn to
    called:  its own name, of a part that can be ordered more than once; "" for one that needs none
    edges:   what the edges that it changes are without it
    lines:   the names of what was drawn on the pieces it is drawn to, as the slit above a cuff
    """

    part: str
    to: tuple[DrawnTo, ...]
    options: tuple[tuple[str, Plain], ...] = ()
    pieces: tuple[str, ...] = ()
    seams: tuple[str, ...] = ()
    notches: tuple[NotchRef, ...] = ()
    called: str = ""
    edges: tuple[EdgeAs, ...] = ()
    lines: tuple[LineRef, ...] = ()

    @property
    def name(self) -> str:
        """What it is told apart by: its own name, or that of the part."""
        return self.called or self.part

    def length(self, name: str) -> float:
        """The option of that name, mm; KeyError where it has none."""
        value = dict(self.options)[name]
        if not isinstance(value, float | int):
            raise KeyError(name)
        return float(value)

    def is_on(self, name: str) -> bool:
        """Whether the option of that name is set; one that a part of an older file has not is."""
        return dict(self.options).get(name, True) is True

    def length_or(self, name: str, usual: float) -> float:
        """The option of that name, mm; what is usual where it was left out."""
        return usual if dict(self.options).get(name) is None else self.length(name)
