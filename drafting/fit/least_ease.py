"""The least ease a garment can have and still be got into and moved in."""

from __future__ import annotations

from dataclasses import dataclass

from drafting.body.complete import Body
from drafting.fit.cloth import Cloth
from drafting.fit.ease import PLACES

__all__ = ["LeastEase", "least_ease"]

_ROBINSON = "the least of Robinson, costume-construction text ch. 16, Central Washington University"
_PRACTICE = "common practice"

_USED_STRETCH = 0.5
"""The part of a knit's stretch a garment may use up in being worn. Common practice, from memory."""


@dataclass(frozen=True, slots=True)
class LeastEase:
    """How little ease is too little at one place.

    fails_below: mm; with less it cannot be worn
    warns_below: mm; with less it is tighter than the sources would have it
    why:         what needs the room, and who says so
    """

    place: str
    fails_below: float
    warns_below: float
    why: str


_WOVEN: tuple[LeastEase, ...] = (
    LeastEase("bust", 20.0, 38.1, f"room to breathe; 1 1/2 in is {_ROBINSON}; below 2 cm: {_PRACTICE}"),
    LeastEase("waist", 0.0, 12.7, f"room to sit; 1/2 in is {_ROBINSON}; below zero: {_PRACTICE}"),
    LeastEase("hip", 25.0, 50.8, f"room to sit; 2 in is {_ROBINSON}; below 2.5 cm: {_PRACTICE}"),
    LeastEase("upper_arm", 20.0, 40.0, "room to bend the arm; 2 to 4 cm in a sleeve primer"),
    LeastEase("elbow", 10.0, 25.0, f"room to bend the arm; {_PRACTICE}"),
    LeastEase("wrist", 0.0, 20.0, f"a hand must pass, or the sleeve needs an opening; {_PRACTICE}"),
    LeastEase("across_back", 0.0, 12.7, f"room to reach forward; 1/2 in is {_PRACTICE}"),
    LeastEase("scye_depth", 0.0, 12.7, f"the armhole must not cut into the armpit; 1/2 in is {_PRACTICE}"),
    LeastEase("neck", 0.0, 0.0, f"the neck edge must go round the neck; {_PRACTICE}"),
    LeastEase(
        "cap_ease", 0.0, 0.0, "the armhole is never longer than the cap (a fashion college's answer on sleeve caps)"
    ),
)


def least_ease(cloth: Cloth, body: Body) -> tuple[LeastEase, ...]:
    """How little ease is too little on this body in this cloth, for every place that can be judged.

    A knit of stretch s goes on a girth g when it is cut no smaller than g / (1 + s), plane arithmetic; half of the
    stretch is counted on. It warns half way there.
    """
    if cloth.kind == "woven":
        return _WOVEN
    least = []
    for limit in _WOVEN:
        key = PLACES[limit.place]
        if limit.place in _STRETCHED and key is not None and key in body:
            fails = body.mm(key) * (1.0 / (1.0 + _USED_STRETCH * cloth.stretch) - 1.0)
            why = f"the knit gives {cloth.stretch:.0%}, and half of that is counted on; {_PRACTICE}"
            least.append(LeastEase(limit.place, fails, fails / 2, why))
        elif limit.place not in _STRETCHED:
            # Nothing stretches these before the garment is on; a knit may lie close, not short.
            least.append(LeastEase(limit.place, limit.fails_below, limit.fails_below, limit.why))
    return tuple(least)


_STRETCHED = frozenset(("bust", "waist", "hip", "upper_arm", "elbow", "wrist"))
