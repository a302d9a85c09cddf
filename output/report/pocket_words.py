"""How a pocket is sewn, in words."""

from __future__ import annotations

from drafting.pattern import PieceKind
from drafting.pattern.pockets import marked_for_pockets
from output.report.step_text import StepText, StepWords, listed

__all__ = ["mouth_words", "patch_words", "round_pocket"]


def mouth_words(text: StepText) -> StepWords:
    """The halves of the bag sewn to the mouth of a pocket in a seam."""
    seams = [text.pattern.seam(name) for name in text.step.seams]
    pairs = listed(f"the {seam.a[0].piece} on the {seam.b[0].piece}" for seam in seams)
    return StepWords(
        "Pockets: sew the bags to the mouths",
        (
            f"Lay each half of a bag on its own piece, right sides together, its straight mouth on the side edge "
            f"between the two marks of the pocket: {pairs}, on the left and on the right.",
            f"Sew {text.allowance()}, from mark to mark and not a stitch further; secure both ends.",
            "Press the bags outward, away from the garment, and neaten their edges.",
        ),
    )


def round_pocket(text: StepText) -> str:
    """What is to be watched in a side seam that goes round a pocket; "" where none lies in it."""
    if not any(text.kind(name) is PieceKind.POCKET for name in text.step.pieces):
        return ""
    return (
        " At the pocket turn at the upper mark, sew the two bags together round their edge, turn again at the lower "
        "mark and go on down the side."
    )


def patch_words(text: StepText) -> StepWords:
    """A pocket sewn onto its marks."""
    (name,) = text.step.pieces
    pocket = text.pattern.piece(name)
    on = marked_for_pockets(text.pattern, pocket)[0].name
    allowance = max(edge.allowance for edge in pocket.edges if edge.role == "seam")
    each = "each" if pocket.cut.count > 1 else "the"
    return StepWords(
        f"Sew the {name} on",
        (
            f"Turn the mouth of {each} pocket in by {text.long(text.step.depth)}, neaten its raw edge and sew it down.",
            f"Press the other edges in, {text.long(allowance)} "
            "all round, over a card of the shape of the finished pocket.",
            f"Lay it on the right side of the {on}, its corners on the marks, and sew it down close to its edge, all "
            "round but the mouth; go to and fro at both ends of the mouth, where the hand pulls.",
        ),
    )
