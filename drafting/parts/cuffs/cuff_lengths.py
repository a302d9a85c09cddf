"""How long a cuff is, the edge of the sleeve that goes into it, and its slit; what it asks of the sleeve."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from drafting.parts.part import Ends
from drafting.pattern import Derived
from drafting.pattern.casings import HAND

__all__ = ["BINDING", "BLOUSE", "DROP", "cuff_ends", "cuff_length", "cuff_room", "sleeve_edge", "slit_needed"]

BINDING: Final = 10.0
"""mm of the cuff that the bound slit takes where it is lapped (common practice)."""

BLOUSE: Final = 15.0
"""mm that a sleeve is longer than to its cuff, so that the arm can bend: 1 to 1.5 cm (common practice)."""

DROP: Final = 10.0
"""mm that the edge of a sleeve lies lower at the quarter behind, over the bent elbow: 1 to 2 cm (common practice)."""
_PLEAT, _PLEAT_OF_WRIST = 30.0, 0.1875  # mm of a pleat in a sleeve for a wrist of 16 cm, less for a smaller (ours)


def cuff_length(wrist: float, ease: float, overlap: float) -> float:
    """How long the seam of a cuff is, mm."""
    return wrist + ease + overlap


def sleeve_edge(cuff: float, pleats: float, binding: float = BINDING) -> float:
    """How wide a sleeve is at its lower edge that goes into a cuff with so much in pleats, mm."""
    return cuff - binding + pleats


def cuff_room(derived: Derived, mm: Mapping[str, float]) -> Mapping[str, float]:
    """The ease at the wrist that a cuff asks of its sleeve: what goes into it, and its pleats, mm."""
    wrist = mm.get("wrist_girth", 0.0)
    whole = cuff_length(wrist, derived.length("ease"), derived.length("overlap"))
    pleats = derived.length("pleats") * min(_PLEAT, _PLEAT_OF_WRIST * wrist)
    return {"wrist": sleeve_edge(whole, pleats) - wrist} if wrist else {}


def cuff_ends(derived: Derived) -> Ends:
    """How a sleeve ends above its cuff: shorter by the depth of that, less what falls over it; lower behind."""
    less = derived.length("depth") - derived.length("blouse") if derived.is_on("shorter") else 0.0
    return Ends(max(0.0, less), derived.length("drop"))


def slit_needed(wrist: float, open_girth: float) -> float:
    """How long a slit has to be for the hand to pass an open cuff, mm."""
    return max(0.0, 0.5 * (HAND * wrist - open_girth))
