"""The strip that binds the neck of a knit: how long it is cut, so that it lies flat and the head still passes.

A band of finished width b on an edge L mm long that turns by theta in all lies flat when its free edge is
L - b * theta; a straight strip rests at its free edge, so it is cut to q = 1 - b * theta / L of the edge (plane
geometry). The widths and shares that are practice (0.80 to 0.90) come out of that; below 0.75 no straight strip lies
flat (common practice, from memory).
"""

from __future__ import annotations

from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import end_tangents
from drafting.pattern.find import edges_at
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece_parts import Role
from drafting.pattern.places import PieceKind, Place
from drafting.pattern.stretch_used import USED_PUTTING_ON

__all__ = [
    "BAND_WIDTH",
    "LEAST_SHARE",
    "NECK_BAND",
    "TURNING",
    "BlockBand",
    "NeckBand",
    "band_of_block",
    "band_rest",
    "banded_edge",
    "neck_band",
]

TURNING: Final = 4.887
"""radians that a round neck turns in all, 280 degrees: what a neck still to be drawn is reckoned by."""

LEAST_SHARE: Final = 0.75

NECK_BAND: Final = "neck band"
"""What the part is called."""

BAND_WIDTH: Final = 15.0
"""mm: how wide a band is where nothing is said (common practice)."""


@dataclass(frozen=True, slots=True)
class NeckBand:
    """A strip for a neck, mm.

    width:   when it is finished
    edge:    how long the neck edge is
    share:   what the strip is cut to of that
    stretch: the fraction that the band's own knit stretches by
    """

    width: float
    edge: float
    share: float
    stretch: float

    @property
    def rest(self) -> float:
        """How long the strip is, sewn ends left out."""
        return self.share * self.edge


def band_rest(edge: float, width: float, turning: float = TURNING) -> float:
    """How long a band rests on an edge, mm."""
    return edge - width * turning


def banded_edge(
    neckline: float, head: float, width: float, band_stretch: float, stretch: float, used: float = USED_PUTTING_ON
) -> float:
    """How long a neck edge is, mm, whose band lies at the neck and goes over the head, as the edge itself does.

    neckline: where the free edge of the band is to lie, mm
    width, band_stretch: of the band; stretch: of the cloth, fractions
    used: the share of either that the head may take
    """
    turned = width * TURNING
    return max(
        neckline + turned,
        turned + head / (1.0 + used * band_stretch),
        head / (1.0 + used * stretch),
    )


@dataclass(frozen=True, slots=True)
class BlockBand:
    """The band that a block was drawn for: how wide it is when it is finished, mm, and how far it stretches."""

    width: float
    stretch: float


def band_of_block(pattern: Pattern) -> BlockBand | None:
    """The band that a block of the pattern was drawn for; None where there is none."""
    given = next((dict(o.options) for o in pattern.origin if dict(o.options).get("opening") == "knit band"), {})
    width, stretch = given.get("band_width"), given.get("band_stretch")
    if not isinstance(width, float | int) or not isinstance(stretch, float | int):
        return None
    return BlockBand(float(width), float(stretch))


_WITH_NECK: Final = (PieceKind.FRONT, PieceKind.BACK, PieceKind.YOKE, PieceKind.SLEEVE)
"""Where a neck may lie: that of a saddle shoulder goes on over the sleeve."""


def neck_band(pattern: Pattern) -> NeckBand | None:
    """The band of the neck as it is now: the part that was ordered, or what a block was drawn for; None without one."""
    part = next((each for each in pattern.derived if each.part == NECK_BAND), None)
    block = band_of_block(pattern)
    if part is None and block is None:
        return None
    width, stretch = (block.width, block.stretch) if block else (BAND_WIDTH, pattern.stretch)
    if part is not None:
        width = part.length_or("width", width)
        stretch = part.length_or("stretch", stretch)
    edge = turning = 0.0
    for piece in pattern.pieces:
        if piece.identity.kind in _WITH_NECK:
            for each in edges_at(piece, Place.NECK):
                if each.role is Role.SEAM:
                    edge += 2.0 * each.length
                    first, last = end_tangents(each.curves[0])[0], end_tangents(each.curves[-1])[1]
                    turning += 2.0 * abs(first.angle_to(last))
    if not edge:
        return None
    drawn = [pattern.piece(name) for name in part.pieces] if part else []
    rest = sum(each.length for piece in drawn for each in edges_at(piece, Place.BAND_EDGE)[:-1])
    return NeckBand(width, edge, (rest or band_rest(edge, width, turning)) / edge, stretch)
