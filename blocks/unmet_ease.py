"""What was asked for and is not what came out: a sentence for every ease that the finished pieces do not have."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping

from blocks.handover import Drafted
from drafting.fit.ease import TOLD_FROM, ease_where

__all__ = ["unmet_ease"]


def unmet_ease(
    drafted: Drafted, wanted: Mapping[str, float], asked: Container[str], *, child: bool = False
) -> Iterator[str]:
    """A sentence for every place where the pieces of a block have another ease than was wanted, mm by place.

    asked: where she asked for it herself; elsewhere it is what is usual
    """
    for place, has in drafted.given.items():
        off = has - wanted[place]
        than = "than asked for" if place in asked else "than is usual"
        if abs(off) > TOLD_FROM:
            why = drafted.because.get(place, "")
            by = f"{abs(off):.0f}" if abs(off) >= 9.5 else f"{abs(off):.1f}"
            if place == "scye_depth":
                sentence = f"The armhole is {by} mm {'deeper' if off > 0.0 else 'less deep'} {than}"
            else:
                where = ease_where(place, child=child)
                sentence = f"The ease {where} is {by} mm {'more' if off > 0.0 else 'less'} {than}"
            yield f"{sentence}{', ' if why else ''}{why}."
