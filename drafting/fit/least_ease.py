"""The least ease a garment can have and still be got into and moved in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.fit.cloth import Cloth
from drafting.fit.ease import PLACES
from drafting.fit.thickness import room_at
from drafting.pattern.stretch_used import USED_WORN

__all__ = ["LeastEase", "least_ease"]

_ROBINSON = "the least of Robinson, costume-construction text ch. 16, Central Washington University"
_NMSU = "the least of NMSU extension guide C-209"
_PRACTICE = "common practice"


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
    LeastEase("upper_chest", 15.0, 25.4, f"room to breathe; {_PRACTICE}"),
    LeastEase("waist", 0.0, 12.7, f"room to sit; 1/2 in is {_ROBINSON}; below zero: {_PRACTICE}"),
    LeastEase("hip", 25.0, 50.8, f"room to sit; 2 in is {_ROBINSON}; below 2.5 cm: {_PRACTICE}"),
    LeastEase("thigh", 12.7, 25.4, f"room to sit; 1 in is {_NMSU}; below half of it: {_PRACTICE}"),
    LeastEase("knee", 12.7, 25.4, f"room to bend the knee; 1 in is {_NMSU}; below half of it: {_PRACTICE}"),
    LeastEase("crotch_depth", 0.0, 12.7, f"room to sit; 1/2 in is {_PRACTICE}"),
    LeastEase("crotch_length", 0.0, 12.7, f"room to sit; 1/2 in is {_PRACTICE}"),
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

_CHILD: Final[Mapping[str, tuple[float, float, str]]] = {
    "bust": (20.0, 50.0, f"room to breathe and to play; 5 cm is {_PRACTICE}"),
    "waist": (10.0, 30.0, f"a child's belly rounds when it sits; {_PRACTICE}"),
    "across_back": (0.0, 5.0, f"room to reach forward; {_PRACTICE}"),
    "scye_depth": (0.0, 5.0, f"the armhole must not cut into the armpit; {_PRACTICE}"),
}
"""What is otherwise for a child: where it fails, where it warns, and why."""

_STRETCHED = frozenset(
    ("bust", "upper_chest", "waist", "hip", "thigh", "knee", "upper_arm", "elbow", "wrist", "across_back"),
)


def least_ease(cloth: Cloth, body: Body) -> tuple[LeastEase, ...]:
    """How little ease is too little on this body in this cloth, for every place that can be judged.

    A knit of stretch s that is cut to g / (1 + s / 3) is held at a third of its stretch round a girth g, and the rest
    is in reserve: it fails below that, and warns half way there. What lies beneath has to go in as well.
    """
    child = body.person.body != "woman"
    limits = [_for_child(each) for each in _WOVEN] if child else list(_WOVEN)
    if cloth.knit:
        limits = [stretched for each in limits if (stretched := _in_knit(each, cloth, body)) is not None]
    return tuple(_with_room(each, room_at(each.place, cloth)) for each in limits)


def _for_child(limit: LeastEase) -> LeastEase:
    return LeastEase(limit.place, *_CHILD[limit.place]) if limit.place in _CHILD else limit


def _in_knit(limit: LeastEase, cloth: Cloth, body: Body) -> LeastEase | None:
    """The limit in a knit; None for a girth that nobody knows."""
    if limit.place not in _STRETCHED:
        # Nothing stretches these before the garment is on; a knit may lie close, not short.
        return replace(limit, warns_below=limit.fails_below)
    key = PLACES[limit.place]
    if key is None or key not in body:
        return None
    fails = body.mm(key) * (1.0 / (1.0 + USED_WORN * cloth.stretch) - 1.0)
    why = f"the knit gives {cloth.stretch:.0%}, and a third of that is counted on; {_PRACTICE}"
    return LeastEase(limit.place, fails, fails / 2, why)


def _with_room(limit: LeastEase, room: float) -> LeastEase:
    return replace(limit, fails_below=limit.fails_below + room, warns_below=limit.warns_below + room) if room else limit
