"""How a bias strip is cut and sewn on, in words. The ways are common practice."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.pattern import Piece, Place, Role, edges_at, walk
from drafting.pattern.bias import BOUND, DOUBLE, bias_cloth
from drafting.sewing import times_cut
from output.report.step_text import StepText, StepWords

__all__ = ["bias_strip_words"]


def bias_strip_words(text: StepText) -> StepWords:
    """A strip of the pattern: cut on the bias, joined, sewn to its edge and folded over it or turned inside."""
    name = text.step.pieces[0]
    strip = text.pattern.piece(name)
    part = next(each for each in text.pattern.derived if name in each.pieces)
    style, width = str(dict(part.options)["style"]), part.length("width")
    return StepWords(
        f"{'Bind' if style in (BOUND, DOUBLE) else 'Face'} the {text.place} with the {name}",
        (
            " ".join(_cut(text, strip)),
            _ends(text, strip),
            *((_FOLDED,) if style == DOUBLE else ()),
            f"Lay it on the {text.place}, right sides together, the raw edges level, mark on mark, and sew "
            f"{text.allowance()}.{_pulled(text)}",
            _FINISH[style].format(width=text.long(width)),
        ),
    )


_LAPS = (Place.STAND_EDGE, Place.WRAP_EDGE)
_FOLDED = "Fold it lengthwise, wrong side in, and press: both its raw edges are sewn on."
_FINISH = {
    BOUND: (
        "Turn in its other raw edge as far, wrap the strip over the raw edge, which stays as wide as it is and fills "
        "it, and sew the fold down inside on the line of stitches: {width} are seen. Steam the curve flat."
    ),
    DOUBLE: (
        "Wrap the fold over the raw edge of the garment and sew it down inside on the line of stitches: {width} are "
        "seen. Steam the curve flat."
    ),
    "facing": (
        "Snip the curve, press the strip over its edges, turn all of it inside, turn its other edge in, and sew it "
        "down: {width} lie inside, and nothing is seen."
    ),
}


def _cut(text: StepText, strip: Piece) -> Iterator[str]:
    """How it is cut, and what cloth it takes."""
    sewn = {ref.edge for name in text.step.seams for ref in text.pattern.seam(name).b if ref.piece == strip.name}
    xs = [edge.length for edge in strip.edges if edge.name in sewn]
    ends = edges_at(strip, Place.BAND_END)
    long = sum(xs) + sum(edge.allowance for edge in ends)
    wide = ends[0].length + 2.0 * strip.edges[0].allowance
    one, square = bias_cloth(long, wide)[0], bias_cloth(times_cut(strip) * long, wide)[1]
    count = "a strip" if times_cut(strip) == 1 else f"{times_cut(strip)} strips"
    yield (
        f"Cut {count} {text.long(long)} long and {text.long(wide)} wide on the bias, at 45 degrees to the selvedge, "
        "where cloth gives most."
    )
    yield (
        f"In one length that takes a square of {text.long(one)}; cut round and round from a square sewn to a tube, or "
        f"joined of shorter strips, one of about {text.long(square)}. Strips are joined along the straight grain."
    )


def _ends(text: StepText, strip: Piece) -> str:
    refs = [ref for name in text.step.seams for ref in text.pattern.seam(name).a]
    beside = [each for ref in refs for each in text.pattern.piece(ref.piece).beside(ref.edge)]
    if any(each.role is Role.OPENING or each.place in _LAPS for each in beside):
        return "At the opening turn both its ends in."
    each = "each strip" if times_cut(strip) > 1 else "it"
    return f"Sew the ends of {each} together to a ring, along the straight grain, and press open."


def _pulled(text: StepText) -> str:
    """How the strip is held where the line it is sewn on, inside the edge, is longer than the strip."""
    runs = [walk(text.pattern, text.pattern.seam(name)) for name in text.step.seams]
    edge, strip = sum(each.a for each in runs), sum(each.b for each in runs)
    if strip - edge < 0.5:
        return " Pull neither."
    return " The line you sew on is longer than the edge: pull the strip a little, evenly from mark to mark."
