"""How a pocket is sewn, in words."""

from __future__ import annotations

from drafting.errors import listed
from drafting.pattern import Pattern, Piece, PieceKind, Place, edges_at
from drafting.pattern.pockets import marked_for_pockets, one_sided
from output.report.step_text import StepText, StepWords

__all__ = ["mouth_words", "patch_words", "round_pocket", "slanted_words"]


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


def slanted_words(text: StepText) -> StepWords:
    """A pocket with a slanted mouth: the bag sewn to the mouth and turned in; then the hip piece laid behind it."""
    bag = next(name for name in text.step.pieces if text.kind(name) is PieceKind.POCKET)
    hip = next((name for name in text.step.pieces if text.kind(name) is PieceKind.PANEL), None)
    if hip is None:
        return StepWords(
            "Slanted pockets: face the mouths",
            (
                f"Lay the {bag} on the front, right sides together, along the slanted mouth, and sew "
                f"{text.allowance()} over the tape. Trim the edges unequally, snip them at both ends, and press them "
                "into the bag.",
                "Sew the bag to them close to the seam, turn it in and press, so that the seam lies a little inside; "
                "sew along the mouth from the right side if you like.",
            ),
        )
    return StepWords(
        "Slanted pockets: close the bags",
        (
            f"Lay the {hip} under the front, right side up, the front's mouth on its line “pocket mouth”, so that "
            "waist and side run on evenly; pin.",
            "Turn the front back and sew the two halves of the bag together round their edge, right sides together, "
            f"from the side up to the waist, {text.allowance()}; neaten them.",
            "Sew to and fro across both ends of the mouth within the allowances, at the waist and at the side: from "
            "now on front and hip piece are one.",
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
    on = " and the ".join(piece.name for piece in _beneath(text.pattern, pocket))
    allowance = max(edge.allowance for edge in pocket.edges if edge.role == "seam")
    each = "each" if pocket.cut.count > 1 else "the"
    half = f" on its {pocket.identity.side} half alone" if one_sided(pocket, text.pattern) else ""
    return StepWords(
        f"Sew the {name} on",
        (
            f"Turn the mouth of {each} pocket in by {text.long(text.step.depth)}, neaten its raw edge and sew it down.",
            f"Press the other edges in, {text.long(allowance)} "
            "all round, over a card of the shape of the finished pocket.",
            f"Lay it on the right side of the {on}{half}, its corners on the marks, and sew it down close to its "
            "edge, all round but the mouth; go to and fro at both ends of the mouth, where the hand pulls.",
        ),
    )


def _beneath(pattern: Pattern, pocket: Piece) -> tuple[Piece, ...]:
    """The piece that a patch is sewn onto, or two panels that were cut out of one, over the seam between them."""
    first, *others = marked_for_pockets(pattern, pocket)
    panels = edges_at(first, Place.PRINCESS)
    return (first, *(each for each in others if panels and edges_at(each, Place.PRINCESS)))
