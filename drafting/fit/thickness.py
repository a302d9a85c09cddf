"""The room that a thick cloth and what is worn beneath take up.

The pattern is drawn at the middle of the cloth. A tube of cloth t thick round a body needs pi t more than the body at
its middle, and layers U thick beneath 2 pi U (the length of a line a distance d outside a closed one is 2 pi d longer,
whatever its shape). The figures of the ease table are for a plain cloth, "woven" or "knit" of the table of cloths, and
hold its thickness already: a thicker cloth takes pi times the difference more, a thinner one less.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from drafting.fit.cloth import Cloth
from drafting.fit.cloth_table import cloth_meant
from drafting.reading.units import fine_text

__all__ = ["GIRTHS", "LEAST_TOLD", "room_at", "room_sentence", "taken_up"]

_SHARES: Final[Mapping[str, float]] = MappingProxyType(
    {
        "across_back": 0.25,
        "scye_depth": 0.5,
        "crotch_length": 0.5,
        "crotch_depth": 0.0,
        "cap_ease": 0.0,
    }
)
"""How much of the room that a girth is given goes to a place that is none: a quarter of the ease round the bust lies on
the back (a translated draft: 25 to 30 %); an armhole is let down by half of it (common practice: 1 to 2 cm under a coat
that is 1 to 3 cm wider), and through the crotch the tape turns half way round (the line outside it, pi d longer)."""


GIRTHS: Final = ("bust", "upper_chest", "waist", "hip", "thigh", "knee", "upper_arm", "elbow", "wrist", "neck")
"""The places that go round the body or a limb."""

LEAST_TOLD: Final = 1.0
"""mm. Less room than this is given, and not told (ours: nobody marks it)."""


def taken_up(beneath: float, thickness: float) -> float:
    """How much longer than the body a cloth is round it, mm: 2 pi times what lies beneath, and pi times its own."""
    return 2.0 * math.pi * beneath + math.pi * thickness


def room_at(place: str, cloth: Cloth) -> float:
    """What is added to the ease at a place for this cloth and what lies beneath it, mm; below zero for a thin one.

    All of what they take up round the body or a limb, a part of it elsewhere.
    """
    more = taken_up(cloth.beneath_at(place), cloth.thickness) - taken_up(0.0, _plain_thickness(cloth))
    return _SHARES.get(place, 1.0) * more


def room_sentence(cloth: Cloth, unit: str, places: Iterable[str] = GIRTHS) -> str:
    """How much room the cloth and what is beneath take at these girths, with the numbers; "" where it is hardly any."""
    at: dict[float, list[str]] = {}
    for place in places:
        room = round(room_at(place, cloth), 6)
        if place in GIRTHS and abs(room) >= LEAST_TOLD:
            at.setdefault(room, []).append(place.replace("_", " "))
    if not at:
        return ""
    told = "; ".join(
        f"{fine_text(abs(room), unit)} {_more(room)} at the {', '.join(names)}" for room, names in at.items()
    )
    own, plain = fine_text(cloth.thickness, unit), fine_text(_plain_thickness(cloth), unit)
    over = " and ".join(cloth.over) or ("what is beneath" if cloth.beneath else "")
    layers, rule = (f"Over {over}, and in", "2 pi times what lies beneath, and ") if over else ("In", "")
    return (
        f"{layers} a cloth {own} thick, there is {told} than in a plain cloth of {plain}: "
        f"{rule}pi times the difference of the cloths."
    )


def _more(room: float) -> str:
    return f"{'more' if room > 0.0 else 'less'} ease"


def _plain_thickness(cloth: Cloth) -> float:
    """How thick the cloth is that the ease table is for, mm."""
    plain = cloth_meant("knit" if cloth.knit else "woven")
    return plain.thickness if plain is not None else 0.0
