"""How pleats are folded, in words; what is sewn before and after, where a yoke holds them."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.errors import listed
from drafting.pattern import Level, Piece, PieceKind, Place, Role, edges_at
from drafting.pattern.pleats import Pleat, is_pleated, pleats_of
from output.report.step_text import StepText, StepWords

__all__ = ["last_pleat_words", "pleat_words", "yoke_laid_words"]


def pleat_words(text: StepText) -> StepWords:
    """Pleats folded from their marks, pressed, and held along the waist."""
    pieces = [text.pattern.piece(name) for name in text.step.pieces]
    count = sum((2 if piece.cut.fold or piece.cut.mirror else 1) * len(_folds(piece)) for piece in pieces)
    held = any(edges_at(piece, Place.YOKE) for piece in pieces)
    opens = held and any(edge.role is Role.OPENING for piece in pieces for edge in piece.edges)
    return StepWords(
        "Fold the pleats",
        (
            *_hem_first(text, opens=opens),
            f"Fold {listed(f'the {piece.name}' for piece in pieces)} at every line marked “fold” and bring the fold to "
            f"the line marked “place” beside it, the way the bow at the top points: {count} folds in all. A seam "
            "“inside the pleat” is sewn first: the bow goes on over it, from the fold on one piece to the place on the "
            f"next. {_OVER_OPEN if opens else ''}The folds and places are notched above and below.",
            "Pin from the waist to the hem, press each fold on a cloth, and let it cool before you move it.",
            f"Tack across the folds just above the {'yoke seam' if held else 'waist line'}, so that none slips; take "
            f"the stitches out when the {'yoke is sewn on' if held else 'waist is sewn'}.",
        ),
    )


_OVER_OPEN = "The one over the seam that is still open is laid when that is sewn. "


def _hem_first(text: StepText, *, opens: bool) -> Iterator[str]:
    """The hem of what a yoke holds is in the step that folds the pleats."""
    if text.step.edges:
        free = ". Leave a hand’s breadth free on either side of the seam that is still open" if opens else ""
        yield (
            f"First turn the hem up by {text.long(text.step.depth)} on the line “finished hem” while it lies flat, and "
            f"sew it: it is hard to turn over folds{free}."
        )


def yoke_laid_words(text: StepText, notches: str) -> str | None:
    """What is laid on what where a yoke is to hold pleats: side on side, then the yokes on the folds; None elsewhere.

    notches: the words for the notches that meet
    """
    if text.step.place is Place.YOKE and _holds_pleats(text):
        return (
            "Lay the yokes on what hangs in pleats, right sides together, side seam on side seam, along the yoke seam "
            f"edges{notches}."
        )
    if not text.step.apart:
        return None
    names = [name for name in text.step.pieces if text.kind(name) is not PieceKind.POCKET]
    rest = [name for name in names if is_pleated(text.pattern.piece(name))]
    yokes = [name for name in names if name not in rest]
    return (
        f"Lay {listed(f'the {name}' for name in rest)} right sides together along the side edges{notches}; then, by "
        f"themselves, {listed(f'the {name}' for name in yokes)}. The yokes are sewn on when the pleats are folded."
    )


def last_pleat_words(text: StepText, piece: Piece) -> Iterator[str]:
    """What was left undone at the centre seam that is sewn when the yoke is on the pleats."""
    opens = any(edge.role is Role.OPENING and edge.place is text.step.place for edge in piece.edges)
    if opens and is_pleated(piece) and edges_at(piece, Place.YOKE):
        yield "Turn up and sew the rest of the hem there, lay the pleat over the seam, and press it."


def _holds_pleats(text: StepText) -> bool:
    return any(is_pleated(text.pattern.piece(name)) for name in text.step.pieces)


def _folds(piece: Piece) -> list[Pleat]:
    """The pleats that are folded on a piece itself, not on the next one over a seam."""
    return [pleat for pleat in pleats_of(piece) if pleat.fold.level is Level.PLEAT_FOLD]
