"""What goes into a block and what comes out of it, and so to the next: an armhole for a sleeve, a waist for a skirt.

Lengths are millimetres on one half of the body.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import Final

from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.fit.cloth import Cloth
from drafting.parts.part import Ends
from drafting.pattern import EdgeRef, Measure, Piece, Place, Seam, darts_at
from drafting.reading.options import Value

__all__ = ["PASSES", "Armhole", "Drafted", "Order", "Planned", "WaistHalf", "WaistSeam"]


PASSES: Final = 25.0
"""mm by which a waist with elastic is wider than the hips at the least: 2 cm so that it slides over, and a little
(ours)."""


@dataclass(frozen=True, slots=True)
class Armhole:
    """The sewn lengths of an armhole from underarm to shoulder, front and back, and where its notches lie.

    worn_over: whether its sleeve goes on over that of another garment, as a cardigan's does
    """

    front: float
    back: float
    front_notch: float
    back_notch: float
    front_run: tuple[EdgeRef, ...]
    back_run: tuple[EdgeRef, ...]
    worn_over: bool = False


@dataclass(frozen=True, slots=True)
class WaistHalf:
    """The sewn length of a waist from centre to side, darts closed; how far from the centre its darts and notch lie."""

    length: float
    darts: tuple[float, ...]
    notch: float
    run: tuple[EdgeRef, ...]


@dataclass(frozen=True, slots=True)
class WaistSeam:
    """Front and back halves of the waist.

    open_back: mm by which the opening at the centre back goes on below it; None where the block has none to say
    """

    front: WaistHalf
    back: WaistHalf
    open_back: float | None = None


@dataclass(frozen=True, slots=True)
class Drafted:
    """What a block gives: its pieces and seams, what to measure, what the next block needs, what gave way.

    given:    the ease that the finished pieces have, mm, for every place where the block adds some
    because:  why the ease of a place is not what was asked for, as the end of a sentence, where the block knows
    gave_way: sentences on whatever else gave way
    hem:      the deepest hem that lies flat on its curve, mm; None where any does
    parts:    the names of parts that finish it, drawn unless another is ordered in their place
    """

    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    measures: tuple[Measure, ...]
    options: tuple[tuple[str, str | float | bool | None], ...]
    given: Mapping[str, float]
    because: Mapping[str, str] = field(default_factory=dict)
    gave_way: tuple[str, ...] = ()
    armhole: Armhole | None = None
    waist: WaistSeam | None = None
    parts: tuple[str, ...] = ()
    hem: float | None = None

    @property
    def waist_darts(self) -> tuple[int, ...]:
        """How many waist darts each of its pieces has."""
        return tuple(len(darts_at(piece, Place.WAIST)) for piece in self.pieces)

    @property
    def planned(self) -> Planned:
        """The block as a plan, where only its pieces show how many darts there are."""
        return Planned(self.waist_darts, lambda: self)


@dataclass(frozen=True, slots=True)
class Planned:
    """A block of which it is known about how many waist darts each of its first pieces has, and what makes the pieces.

    waist_darts: as they are planned; there may be more where one would come out too wide as it is drawn
    """

    waist_darts: tuple[int, ...]
    draft: Callable[[], Drafted]


@dataclass(frozen=True, slots=True)
class Order:
    """What a block is asked to draft from.

    ease, least:    mm by place: what is added to the body, and the least with which one can wear it
    armhole, waist: what an earlier block hands over, None where there is none
    ends:           by place, how it ends where a part goes on from there, a band at a wrist
    with_sleeve:    whether a sleeve is to be set in
    cloth:          what it is cut from
    asked:          mm by place: what ease was asked for, where the table's was not taken
    pulled_on:      whether elastic is drawn into its waist, so that it is pulled on over the hips and opens nowhere
    seam_allowance, hem_allowance: what is added to its edges once it is drafted, mm
    """

    body: Body
    ease: Mapping[str, float]
    least: Mapping[str, float]
    options: Mapping[str, Value]
    armhole: Armhole | None = None
    waist: WaistSeam | None = None
    with_sleeve: bool = False
    cloth: Cloth = Cloth()
    asked: Mapping[str, float] = field(default_factory=dict)
    pulled_on: bool = False
    seam_allowance: float = 15.0
    hem_allowance: float = 40.0
    ends: Mapping[Place, Ends] = field(default_factory=dict)
