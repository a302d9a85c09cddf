"""How pleats are folded, in words."""

from __future__ import annotations

from drafting.pattern import Level, Piece, Place, Role, edges_at
from drafting.pattern.pleats import Pleat, pleats_of
from output.report.step_text import StepText, StepWords, listed

__all__ = ["pleat_words"]


def pleat_words(text: StepText) -> StepWords:
    """Pleats folded from their marks, pressed, and held along the waist."""
    pieces = [text.pattern.piece(name) for name in text.step.pieces]
    count = sum((2 if piece.cut.fold or piece.cut.mirror else 1) * len(_folds(piece)) for piece in pieces)
    held = any(edges_at(piece, Place.YOKE) for piece in pieces)
    hemmed = any(edge.role is Role.HEM for piece in pieces for edge in piece.edges)
    return StepWords(
        "Fold the pleats",
        (
            *((_HEM_FIRST,) if held and hemmed else ()),
            f"Fold {listed(f'the {piece.name}' for piece in pieces)} at every line marked “fold” and bring the fold to "
            f"the line marked “place” beside it, the way the bow at the top points: {count} folds in all. A seam "
            "“inside the pleat” is sewn first: the bow goes on over it, from the fold on one piece to the place on the "
            "next. The folds and places are notched above and below.",
            "Pin from the waist to the hem, press each fold on a cloth, and let it cool before you move it.",
            f"Tack across the folds just above the {'yoke seam' if held else 'waist line'}, so that none slips; take "
            f"the stitches out when the {'yoke is sewn on' if held else 'waist is sewn'}.",
        ),
    )


_HEM_FIRST = (
    "First turn the hem of each piece up on the line “finished hem” while it lies flat, and sew it but for a hand’s "
    "breadth at either side edge, which is done when the seams are sewn: a hem is hard to turn over folds."
)


def _folds(piece: Piece) -> list[Pleat]:
    """The pleats that are folded on a piece itself, not on the next one over a seam."""
    return [pleat for pleat in pleats_of(piece) if pleat.fold.level is Level.PLEAT_FOLD]
