"""What is said of the cloth a garment is cut from: what it is like, the room it takes, how far a knit is stretched."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.checks.giving import worn_stretched
from drafting.checks.wearing import needs_no_opening
from drafting.fit.cloth import Cloth
from drafting.fit.cloth_table import CLOTH_SOURCE
from drafting.fit.ease import PLACES
from drafting.fit.thickness import room_at, room_sentence
from drafting.pattern import Pattern
from drafting.pattern.stretch_used import USED_WORN
from drafting.reading.units import fine_text, percent, sentence_in
from output.report.tables import Passage

__all__ = ["WHAT_OF", "cloth_data", "cloth_passages"]

WHAT_OF: Final = "The cloth"

_SHORTENS_FROM: Final = 0.05
_SHORTENS: Final = (0.02, 0.03)
"""Pulled wider by more than the first, a knit gets shorter by a share between the others (common practice, from
memory)."""

_WOOL: Final = ("wool suiting", "tweed", "wool coating")
_WASH: Final = "Wash it before it is cut"

_TOLD: Final = 0.005  # a share of the girth: less is no more than the thickness of a cloth

_TORSO: Final = ("bust", "waist", "hip")


def cloth_passages(cloth: Cloth, pattern: Pattern, unit: str) -> tuple[Passage, ...]:
    """What is to be known of the cloth, as a passage; nothing for a plain woven of which nothing was said."""
    sentences = tuple(_sentences(cloth, pattern, unit))
    return (Passage(WHAT_OF, sentences),) if sentences else ()


def cloth_data(cloth: Cloth, pattern: Pattern) -> dict[str, object]:
    """What is to be known of the cloth, for a program: lengths in millimetres, shares as fractions."""
    return {
        "kind": cloth.kind,
        "structure": cloth.usual.structure,
        "weight": cloth.weight,
        "thickness": cloth.thickness,
        "stretch": cloth.stretch,
        "stretch_along": cloth.stretch_along,
        "shrinkage": cloth.shrinkage,
        "one_way": cloth.one_way,
        "over": list(cloth.over),
        "beneath": cloth.beneath,
        "room": {place: round(room_at(place, cloth), 4) for place in _places(pattern)},
        "worn_stretched": {name: round(share, 6) for name, share in worn_stretched(pattern).items()},
        "may_be_stretched": round(USED_WORN * pattern.stretch, 6),
        "needs_no_opening": needs_no_opening(pattern),
    }


def _sentences(cloth: Cloth, pattern: Pattern, unit: str) -> Iterator[str]:
    named = cloth.kind not in ("woven", "knit")
    if named or cloth.thickness != cloth.usual.thickness:
        yield _like(cloth, unit)
    if room := room_sentence(cloth, unit, _places(pattern)):
        yield room
    if cloth.knit:
        yield from (sentence_in(unit, sentence) for sentence in _of_a_knit(cloth, pattern))
    if cloth.shrinkage:
        first = "Steam it, do not wash it, before it is cut, as washed wool felts" if cloth.kind in _WOOL else _WASH
        yield f"{first}: {percent(cloth.shrinkage)} of its length may go, and that is bought as well."


def _places(pattern: Pattern) -> tuple[str, ...]:
    """Where the garment is compared with the body, as places of the ease table."""
    measured = {measure.key for measure in pattern.measures}
    return tuple(place for place, key in PLACES.items() if key in measured)


def _like(cloth: Cloth, unit: str) -> str:
    row = cloth.usual
    figures = {"thickness": row.thickness, "stretch": row.stretch or 0.0, "stretch_along": row.stretch_along}
    usual = all(getattr(cloth, name) == figure for name, figure in figures.items())
    source = f" ({CLOTH_SOURCE}: what you have measured goes before it)" if usual else ""
    stretch = f", stretches by {percent(cloth.stretch)} across" if cloth.stretch else ""
    along = f" and {percent(cloth.stretch_along)} along the grain" if cloth.stretch and cloth.stretch_along else ""
    return (
        f"{cloth.kind.capitalize()}: {cloth.weight}, {fine_text(cloth.thickness, unit)} thick{stretch}{along}{source}."
    )


def _of_a_knit(cloth: Cloth, pattern: Pattern) -> Iterator[str]:
    """How far it is stretched, what that does to its length, and whether it opens without an opening."""
    strained = {name: share for name, share in worn_stretched(pattern).items() if share >= _TOLD}
    most = max(strained.values(), default=0.0)
    if strained:
        told = ", ".join(f"{percent(share)} at the {name}" for name, share in strained.items())
        yield (
            f"Worn, it is stretched by {told}. It gives {percent(cloth.stretch)}, and a third of that, "
            f"{percent(USED_WORN * cloth.stretch)}, may be used ({CLOTH_SOURCE}); the rest is for moving."
        )
    torso = max((share for name, share in strained.items() if name in _TORSO), default=0.0)
    if torso > _SHORTENS_FROM:
        long = sum(m.body or 0.0 for m in pattern.measures if m.key == "back_waist_length")
        low, high = (share * long for share in _SHORTENS)
        by = f", {low:.1f} to {high:.1f} mm from the nape to the waist" if long else ""
        yield (
            f"Pulled wider by more than {percent(_SHORTENS_FROM)}, it gets 2 to 3 % shorter{by}: lengthen it by that "
            f"where the length matters ({CLOTH_SOURCE})."
        )
    if most > 0.5 * USED_WORN * cloth.stretch_along:
        yield (
            f"Along the grain it gives {percent(cloth.stretch_along)}: smaller than the body it needs to stretch both "
            "ways and to come back, or it is tight at the bust, rides up and digs into the armpit."
        )
    yield (
        "Sew it with a ballpoint needle and a stitch that gives, a narrow zigzag or a stretch stitch: a straight one "
        "breaks when the seam is stretched (common practice)."
    )
    if needs_no_opening(pattern):
        yield (
            "It gives enough to be put on without any opening, over the body and over the head: "
            'alter = "close opening" closes it.'
        )
