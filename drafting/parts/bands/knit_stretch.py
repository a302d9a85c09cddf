"""How far a band of knit is stretched to its edge: as its knit gives."""

from __future__ import annotations

from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.collars.neck_line import COLLAR_TO
from drafting.parts.what_helps import other_part
from drafting.pattern import Derived, Pattern
from drafting.pattern.neck_band import NECK_BAND, BlockBand
from drafting.pattern.stretch_used import USED_PUTTING_ON

__all__ = ["HEM_BAND", "NECK_BAND_TO", "WRIST_BAND", "accept_knit", "share_it_gives"]

WRIST_BAND, HEM_BAND = "wrist band", "hem band"
NECK_BAND_TO: Final = COLLAR_TO

_IN_A_WOVEN: Final = {
    NECK_BAND: ("a bias strip", (other_part("neck binding"),)),
    WRIST_BAND: ("a cuff", (other_part("cuff"),)),
    HEM_BAND: ("a hem", ()),
}


def accept_knit(pattern: Pattern, part: str) -> None:
    """Raise NotAPattern where the cloth is no knit, with what to take in place of the band."""
    if not pattern.stretch:
        other, helps = _IN_A_WOVEN[part]
        raise NotAPattern(
            part,
            reason=f'it is stretched onto its edge, so it is for a knit: take one, kind = "jersey", or {other}',
            remedies=helps,
        )


def share_it_gives(pattern: Pattern, derived: Derived, block: BlockBand | None = None) -> float:
    """The share of an edge below which a band cannot be stretched to it: half of its stretch is used, that of its own
    knit where that is said.
    """
    own = derived.length_or("stretch", block.stretch if block else pattern.stretch)
    return 1.0 / (1.0 + USED_PUTTING_ON * max(own, pattern.stretch))
