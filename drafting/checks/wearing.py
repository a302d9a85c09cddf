"""Can it be worn: enough ease to move, and a way to get in."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from drafting.checks.base import Check, Result, Verdict
from drafting.geometry.tolerance import LENGTH
from drafting.pattern import Pattern, Role, finished

__all__ = ["TORSO", "look_at_ease", "look_at_getting_in"]

TORSO = ("head_girth", "neck_base_girth", "bust_girth", "waist_girth", "hip_girth")
"""The girths that a garment for the body passes on its way, from above to below."""

_ROUNDING = 10 * LENGTH
"""mm. A measurement is a sum of a few lengths, each within LENGTH."""


def look_at_ease(check: Check, pattern: Pattern) -> Iterator[Result]:
    """Every finished measurement for which a least ease is known; measured is the ease it has, mm."""
    for made in finished(pattern):
        if made.least is None or made.ease is None:
            continue
        short = made.least - made.ease
        yield check.result(
            made.name,
            Verdict.FAIL if short > _ROUNDING else Verdict.PASS,
            measured=made.ease,
            wanted=made.least,
            allowed=(made.least, None),
            remedy=f"It is {short:.1f} mm too small to move in: add {short:.1f} mm in all.{_to_type(made.name, short)}",
        )


def _to_type(where: str, short: float) -> str:
    """The alteration that gives a place so much room, mm, as it is typed; a little more rather than less."""
    cm = math.ceil(short) / 10.0
    if where == "upper arm":
        return f' To let the sleeve out there: alter = "upper arm", by = "{cm:.1f} cm".'
    if where in ("bust", "waist", "hip"):
        return f' To let it out there: alter = "take in", {where} = "-{cm:.1f} cm".'
    return ""


def look_at_getting_in(check: Check, pattern: Pattern) -> Iterator[Result]:
    """Whether the wearer gets in: through an opening, or else over the head or over the feet.

    Without an opening, what goes round the body at one level has to pass over every girth on its way there, from
    above or from below. measured is the room there is at the narrowest place on the better way, mm (less than nought:
    it will not pass); girths of the wearer that are not known cannot stand in the way.
    """
    rounds = tuple(measure for measure in pattern.measures if measure.round and measure.key in TORSO)
    if not rounds:
        return
    openings = [
        f"{piece.name} {edge.name}" for piece in pattern.pieces for edge in piece.edges if edge.role is Role.OPENING
    ]
    if openings:
        yield check.result(f"through {', '.join(openings)}", Verdict.PASS)
        return
    sizes = [made.finished for made in finished(replace(pattern, measures=rounds))]
    levels = [(TORSO.index(m.key), m.name, size) for m, size in zip(rounds, sizes, strict=True)]
    body = {length.key: length.mm for length in pattern.wearer.lengths}
    ways = []
    for way in ("over the head", "over the feet"):
        rooms = [
            (size - body[key], name, key)
            for level, name, size in levels
            for key in (TORSO[: level + 1] if way == "over the head" else TORSO[level:])
            if key in body
        ]
        if rooms:
            ways.append((*min(rooms), way))
    if not ways:
        return
    room, name, key, way = max(ways)
    over = key.replace("_", " ")
    yield check.result(
        f"{way}, without an opening",
        Verdict.FAIL if room < -_ROUNDING else Verdict.PASS,
        measured=room,
        wanted=0.0,
        allowed=(0.0, None),
        remedy=(
            f"The {name} would have to pass over the {over}, which is {-room:.1f} mm larger: "
            f"give it an opening, or add {-room:.1f} mm there."
        ),
    )
