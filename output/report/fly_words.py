"""How a fly is sewn, in words (common practice)."""

from __future__ import annotations

from drafting.pattern import BodySide, Level, PieceKind, lines_at
from drafting.pattern.unfinished import has_inner_layer
from output.report.step_text import StepText, StepWords

__all__ = ["fly_words"]

_BESIDE = 5.0
"""mm beyond the centre that the left front is turned in, so that the zip lies hidden (common practice)."""


def fly_words(text: StepText) -> StepWords:
    """Facing, shield and zip of a fly, sewn in."""
    fastening = text.step.fastening
    assert fastening is not None
    pieces = [text.pattern.piece(name) for name in text.step.pieces]
    facing, shield = (
        next(p.name for p in pieces if p.identity.kind is PieceKind.FLY and p.identity.side is side)
        for side in (BodySide.RIGHT, BodySide.LEFT)
    )
    marked = next(p for p in pieces if lines_at(p, Level.STITCHING)).name
    beside = text.long(_BESIDE)
    band = any(has_inner_layer(p) for p in pieces)
    top = "from the upper edge of the band" if band else "from the waist"
    sentences = [
        f"Right front: neaten the curved edge of the {facing}. Lay it on the centre front edge, right sides together, "
        f"{'from the band' if band else 'from the waist'} to the mark “the opening ends here”, and sew "
        f"{text.allowance()}. Press it over the allowances, sew it to them close to the seam, turn it in and press: "
        "the edge is the centre front.",
        f"Fold the {shield} lengthwise, right side in, sew across its lower end"
        f"{' and its upper end' if band else ''}, turn, press, and neaten its two long edges together.",
        f"Left front: press the edge in {beside} outside the centre front, in the allowance. Lay the closed zip under "
        "it, its teeth close to the fold and its stop just above the mark; a longer zip is cut off above, once it is "
        "sewn. "
        f"Lay the shield under the zip, its long edges with the edge of the tape, {top} down, and sew all layers "
        "close to the fold, down to the mark.",
        "Close the front, centre on centre, the right over the left, and pin. Turn it over, fold the shield out of the "
        "way and sew the other tape of the zip to the facing alone, twice.",
        f"With the shield still out of the way sew from the right side along the “fly stitching line” of the {marked}, "
        f"{'from the band' if band else 'from the waist'} down and round to the mark, through front and facing.",
        "Let the shield fall back behind the zip, and sew to and fro over the lower end of the stitching, through all "
        "layers, where it is pulled.",
    ]
    return StepWords(f"Fly, {text.long(fastening.length)} long", tuple(sentences))
