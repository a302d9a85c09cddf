"""How pleats are folded, in words."""

from __future__ import annotations

from drafting.pattern.pleats import pleats_of
from output.report.step_text import StepText, StepWords, listed

__all__ = ["pleat_words"]


def pleat_words(text: StepText) -> StepWords:
    """Pleats folded from their marks, pressed, and held along the waist."""
    pieces = [text.pattern.piece(name) for name in text.step.pieces]
    count = sum(len(pleats_of(piece)) * (2 if piece.cut.fold or piece.cut.mirror else 1) for piece in pieces)
    return StepWords(
        "Fold the pleats",
        (
            f"Fold {listed(f'the {piece.name}' for piece in pieces)} at every line marked “fold” and bring the fold to "
            f"the line marked “place” beside it, the way the bow at the top points: {count} folds in all. Where a seam "
            "lies in a fold it is hidden there.",
            "Pin from the waist to the hem, press each fold on a cloth, and let it cool before you move it.",
            "Tack across the folds just above the waist line, so that none slips; take the stitches out when the waist "
            "is sewn.",
        ),
    )
