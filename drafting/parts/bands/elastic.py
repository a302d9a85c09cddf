"""Elastic in a casing that is turned from the edge itself: at a wrist, a waist, a leg opening or a neck.

It has no piece of its own: the edge becomes a hem, as deep as the casing (`drafting/pattern/casings.py`), with a frill
beyond it where a heading is asked for.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from drafting.errors import NotAPattern, Remedy, Setting
from drafting.parts.collars.neck_line import COLLAR_TO
from drafting.parts.drawn import Draw, Drawn
from drafting.parts.part import Part, Room
from drafting.parts.what_helps import other_part, set_here, step_first
from drafting.pattern import (
    BodyPart,
    Derived,
    DrawnTo,
    EdgeAs,
    Identity,
    Pattern,
    PieceKind,
    Place,
    Role,
    Site,
    edges_at,
    pieces_drawn_to,
)
from drafting.pattern.casings import CASINGS, ROOM, body_at, casing_depth, least_wrist, usual_elastic
from drafting.pattern.stretch_used import USED_PUTTING_ON
from drafting.pattern.unfinished import is_facing
from drafting.reading.options import Option

__all__ = ["ELASTICS"]

_WIDENS: Final = 4.2
"""mm by which a neck gets longer for each that it is cut wider at each shoulder and lower before and behind: the 4.9
that it turns, less what the shoulder seam cuts off (ours; the check measures it)."""

_BODIES: Final = (PieceKind.FRONT, PieceKind.BACK)


def _draw(name: str) -> Draw:
    """How the casing of this name is drawn."""

    def draw(pattern: Pattern, derived: Derived) -> Drawn:
        return _casing(name, pattern, derived)

    return draw


def _casing(name: str, pattern: Pattern, derived: Derived) -> Drawn:
    """The edges as the casing has them. Raises NotAPattern where none is free, or nobody knows how long it is to be."""
    place = CASINGS[name]
    if place is Place.NECK and pattern.wearer.child:
        raise NotAPattern(name, reason="no elastic goes round a child's neck", remedies=(other_part("neck facing"),))
    sewn_to = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    found = [
        (piece, edge)
        for piece in {each.name: each for to in derived.to for each in pieces_drawn_to(pattern, to)}.values()
        for edge in (() if is_facing(piece) else edges_at(piece, place))
    ]
    if not found:
        raise NotAPattern(name, reason=f"there is no {place} to turn in")
    taken = next((piece.name for piece, edge in found if (piece.name, edge.name) in sewn_to), None)
    if taken is not None:
        raise NotAPattern(name, reason=f'the {place} of "{taken}" is sewn to something else')
    body = body_at(pattern, place, found[0][0])
    round_it = sum(piece.cut.drawn_times * edge.length for piece, edge in found)
    opens = round_it * (1.0 + USED_PUTTING_ON * pattern.stretch)
    if place is Place.NECK and opens < body.through + ROOM:
        more = math.ceil((body.through + ROOM - opens) / _WIDENS)
        wider = (Setting(option, float(more), "mm") for option in ("width", "depth", "back"))
        raise NotAPattern(
            name,
            reason=f"the neck is {opens:.0f} mm round and the head has to pass it, {body.through + ROOM:.0f} mm with "
            "its room",
            remedies=(step_first("neckline", *wider),),
        )
    if not derived.length_or("length", usual_elastic(pattern, place, body) if body.girth else 0.0):
        raise NotAPattern(
            name,
            reason="nobody measured the body there: say the length of the elastic",
            remedies=(set_here("length", 300.0, "mm"),),
        )
    deep = casing_depth(derived.length("width"), derived.length("heading"))
    return Drawn((), (), (), tuple(EdgeAs(piece.name, edge.name, Role.HEM, deep) for piece, edge in found))


def _to(place: Place, *parts: BodyPart) -> tuple[DrawnTo, ...]:
    kinds = (PieceKind.SLEEVE,) if parts == (BodyPart.SLEEVE,) else _BODIES
    if place is Place.NECK:
        return COLLAR_TO
    return tuple(DrawnTo(place, Identity(kind, part)) for part in parts for kind in kinds)


def _at_wrist(_derived: Derived, mm: Mapping[str, float]) -> Mapping[str, float]:
    """The ease at the wrist that an elastic there asks for, mm."""
    wrist = mm.get("wrist_girth", 0.0)
    return {"wrist": least_wrist(wrist) - wrist} if wrist else {}


_BY: Final = tuple(Setting(option, 60.0, "mm") for option in ("width", "depth", "back"))
_WIDER_NECK: Final = (Remedy("add", "neckline", _BY, lead="Make the neck wide enough for the head"),)


def _part(name: str, about: str, width: float, parts: tuple[BodyPart, ...], fills: str) -> Part:
    """The row of the table of parts for elastic at one place.

    width: how wide it is when nothing is said, mm; fills: what it takes up, which one part only can
    """
    place = CASINGS[name]
    return Part(
        name,
        about,
        _to(place, *parts),
        tuple(Site(place, part) for part in parts),
        (
            Option("width", "length", "how wide the elastic is", 3.0, 80.0, default=width),
            Option(
                "length",
                "length",
                "how long the elastic is cut, its join left out; left out, by the body where it lies",
                60.0,
                2000.0,
                default=None,
            ),
            Option("heading", "length", "the frill that stands beyond the casing", 0.0, 60.0, default=0.0),
        ),
        _draw(name),
        unless=(Site(Place.WAIST, BodyPart.BODICE),) if place is Place.WAIST else (),
        fills=(fills,),
        helped_by=_WIDER_NECK if place is Place.NECK else (),
        room=Room(_at_wrist, ("full sleeve",)) if place is Place.WRIST else None,
    )


ELASTICS: Final = (
    _part("wrist elastic", "Elastic in a casing at the end of each sleeve.", 6.0, (BodyPart.SLEEVE,), "wrist"),
    _part(
        "waist elastic",
        "Elastic in a casing at the waist; what has it goes straight up from the hip, without darts or an opening.",
        25.0,
        (BodyPart.SKIRT, BodyPart.TROUSERS),
        "waist",
    ),
    _part(
        "leg elastic",
        "Elastic in a casing round each leg.",
        6.0,
        (BodyPart.BODICE, BodyPart.TROUSERS),
        "leg",
    ),
    _part("neck elastic", "Elastic in a casing at a gathered neck.", 6.0, (BodyPart.BODICE,), "collar"),
)
"""The casings for elastic, as rows of the table of parts."""
