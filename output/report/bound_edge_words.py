"""How an edge is finished that no piece of the pattern finishes, in words.

A binding reaches as far as the edge it wraps, so the allowance comes off first: bound on the cut edge, a neck would end
as much too high, and be as much tighter as the circle is smaller (plane geometry). A knit is bound with a strip of
knit, as bias tape does not give (common practice).
"""

from __future__ import annotations

from typing import Final

from drafting.errors import listed
from drafting.pattern import BodyPart, Place
from drafting.pattern.let_down import usual_allowance
from drafting.pattern.neck_band import neck_band
from drafting.reading.units import percent
from drafting.sewing import KNIT_BINDING, times_cut
from output.report.bias_strip_words import bias_strip_words
from output.report.step_text import StepText, StepWords

__all__ = ["bound_edge_words"]

_FACED: Final = "or face it with a strip cut to its shape"
_ORDERED: Final = {
    Place.NECK: "or draft it with a facing",
    Place.WAIST: "or draft it with a waistband",
}


def bound_edge_words(text: StepText) -> StepWords:
    """A bare edge: how it is bound, and what it could be finished with instead."""
    if text.step.seams:
        return bias_strip_words(text)
    if banded := _band(text):
        return StepWords(f"Bind the {text.place}", banded)
    edges = [(text.pattern.piece(ref.piece), text.pattern.piece(ref.piece).edge(ref.edge)) for ref in text.step.edges]
    long = sum(edge.length * times_cut(piece) for piece, edge in edges)
    bodice = text.step.place is Place.WAIST and text.step.part not in (BodyPart.SKIRT, BodyPart.TROUSERS)
    other = _FACED if bodice else _ORDERED.get(text.step.place or Place.ARMHOLE, _FACED)
    tape = "a strip of the knit" if text.pattern.stretch else "bias tape"
    off = sorted({usual_allowance(piece, edge) for piece, edge in edges} - {0.0})
    cut_off = (
        (
            f"To bind: first cut off the allowance of {listed(text.long(mm) for mm in off)}, along the sewing line, as "
            "the binding ends where the cloth ends. For a facing leave it on.",
        )
        if off
        else ()
    )
    return StepWords(
        f"Finish the {text.place}",
        (
            f"No piece of this pattern finishes the {text.place}, {text.long(long)} in all: bind it with {tape}, "
            f"{other}.",
            *cut_off,
            *(_knit_binding(text) if text.pattern.stretch else (_TAPE,)),
        ),
    )


_TAPE: Final = (
    "Unfold one edge of the tape, lay it on the edge of the cloth, right sides together, sew in the crease, wrap the "
    "tape over the edge and sew it down."
)


def _knit_binding(text: StepText) -> tuple[str, ...]:
    """In words: how an edge of a knit is bound with strips of the same."""
    strips = text.step.strips
    one = sum(strip.count for strip in strips) == 1
    many, along = ("a strip", "it") if one else ("two strips", "them")
    long = [f"{text.long(strip.length)} long" for strip in strips]
    if len(strips) > 1:
        long = [f"{each} for the {name}" for each, name in zip(long, text.step.pieces, strict=True)]
    elif not one:
        long = [f"each {each}" for each in long]
    return (
        f"Cut {many} of the same knit or a thinner one, its stretch along {along}: {text.long(strips[0].width)} wide "
        f"and {listed(long)}, both ends counted in. Bias tape does not give, and would not let it be stretched.",
        f"Lay it on the edge, right sides together, and sew {text.long(KNIT_BINDING)} from the edge, pulling neither; "
        "wrap it over the edge, turn it in and sew it down, with a stitch that gives.",
    )


def _band(text: StepText) -> tuple[str, ...]:
    """How the neck of a knit is bound with the band it was drawn for; nothing where there is none."""
    band = neck_band(text.pattern) if text.step.place is Place.NECK else None
    if band is None:
        return ()
    (strip,) = text.step.strips
    return (
        f"Cut a strip of a knit that stretches by {percent(band.stretch)} or more, the stretch along it: "
        f"{text.long(strip.length)} long and {text.long(strip.width)} wide, "
        f"{text.long(strip.allowance)} of allowance all round in it.",
        "Sew its ends together, fold it lengthwise, and mark its quarters: centre back, centre front and half way "
        "between.",
        f"Mark the quarters of the neck edge, {text.long(band.edge)} round, in the same way: not at the shoulder "
        "seams. "
        f"Lay right sides together, mark on mark, and sew, stretching the band to the neck as you go: it is "
        f"{percent(band.share)} of the edge, so that it lies flat.",
    )
