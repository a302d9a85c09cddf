"""Kinds of garment, as far as they change the choice of a size: what it hangs from, and where it lies close.

Which level rules is common practice: tops by the upper chest, full skirts by the waist, other skirts and trousers by
the hip; a garment is easily taken in at the side, and cannot be saved where it is too large in the shoulder.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, Literal

from drafting.dataclass import dataclass
from drafting.errors import UnknownName
from drafting.reading.key_words import file_word

__all__ = ["GARMENT_KINDS", "GarmentKind", "Rules", "garment_kind"]

Rules = Literal["shoulder", "bust", "waist", "hip"]


@dataclass(frozen=True, slots=True)
class GarmentKind:
    """One kind of garment.

    rules: what its size goes by; "shoulder" is the upper chest, and the bust where that is not known
    close: the levels at which it lies close, so that its size matters there
    free:  the levels at which it is so wide that any body goes in
    why:   why that level rules, as a sentence
    also:  other words for it
    legs:  whether it has legs
    """

    name: str
    rules: Rules
    close: tuple[str, ...]
    free: tuple[str, ...]
    why: str
    also: tuple[str, ...] = ()
    legs: bool = False

    @property
    def lengths(self) -> tuple[str, ...]:
        """The measurements that say how long it has to be, and how wide in the shoulder."""
        if self.rules in ("shoulder", "bust"):
            return ("back_waist_length", "arm_length", "shoulder_length", "interscye_mid_distance")
        return ("waist_to_hip", "crotch_height") if self.legs else ("waist_to_hip",)

    @property
    def levels(self) -> tuple[str, ...]:
        """Every level it has, from above."""
        return tuple(place for place in ("bust", "waist", "hip") if place in (*self.close, *self.free))


_SHOULDER: Final = (
    "It hangs from the shoulder: neck, shoulder and armhole cannot be taken in afterwards, the side seams can."
)
_WAIST: Final = "It hangs from the waist and is wide below it: only the waist has to fit."
_HIP: Final = "The hip decides whether it goes on and sits; the waist is easily taken in or let out."

GARMENT_KINDS: Final[Mapping[str, GarmentKind]] = MappingProxyType(
    {
        each.name: each
        for each in (
            GarmentKind("dress", "shoulder", ("bust", "waist", "hip"), (), _SHOULDER, ("close dress", "sheath dress")),
            GarmentKind(
                "full-skirted dress",
                "shoulder",
                ("bust", "waist"),
                ("hip",),
                _SHOULDER,
                ("dress with a full skirt", "dress with a gathered skirt", "gathered-skirt dress"),
            ),
            GarmentKind(
                "gathered-waist dress",
                "bust",
                ("bust",),
                ("waist", "hip"),
                "Its waist is gathered and its skirt wide: only the bust has to fit.",
                ("gathered waist", "gathered dress"),
            ),
            GarmentKind("loose dress", "shoulder", ("bust",), ("waist", "hip"), _SHOULDER, ("smock", "tent dress")),
            GarmentKind("top", "shoulder", ("bust",), ("waist", "hip"), _SHOULDER, ("shirt", "loose top", "t-shirt")),
            GarmentKind(
                "fitted top", "shoulder", ("bust", "waist"), ("hip",), _SHOULDER, ("blouse", "bodice", "close top")
            ),
            GarmentKind("knit top", "shoulder", ("bust",), ("waist", "hip"), _SHOULDER, ("jersey top", "knit t-shirt")),
            GarmentKind("jacket", "shoulder", ("bust", "hip"), ("waist",), _SHOULDER, ("blazer", "cardigan")),
            GarmentKind("coat", "shoulder", ("bust", "hip"), ("waist",), _SHOULDER, ("overcoat",)),
            GarmentKind("skirt", "hip", ("waist", "hip"), (), _HIP, ("close skirt", "straight skirt", "pencil skirt")),
            GarmentKind("full skirt", "waist", ("waist",), ("hip",), _WAIST, ("circle skirt", "gathered skirt")),
            GarmentKind("trousers", "hip", ("waist", "hip"), (), _HIP, ("pants", "jeans", "shorts", "slacks"), True),
            GarmentKind("leggings", "hip", ("waist", "hip"), (), _HIP, ("tights",), True),
        )
    }
)
"""Every kind there is, by the name that is shown."""

_MEANT: Final = {file_word(word): each for each in GARMENT_KINDS.values() for word in (*each.also, each.name)}


def garment_kind(word: str) -> GarmentKind:
    """The kind of garment that a word means. Raises UnknownName."""
    kind = _MEANT.get(file_word(word))
    if kind is None:
        raise UnknownName("kind of garment", word, tuple(GARMENT_KINDS))
    return kind
