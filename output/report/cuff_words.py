"""How the slit above a cuff is bound and the cuff sewn on, in words."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.pattern import Level, NotchMark, PieceKind, lines_at, walk
from drafting.sewing import is_under_three
from output.report.join_words import notch_words
from output.report.step_text import StepText, StepWords

__all__ = ["cuff_words", "slit_words"]


def slit_words(text: StepText) -> StepWords:
    """The slit of a sleeve, cut and bound with a strip."""
    (name,) = text.step.pieces
    (strip,) = text.step.strips
    (line,) = lines_at(text.pattern.piece(name), Level.SLIT)
    return StepWords(
        "Bind the slits of the sleeves",
        (
            f"Sew a row of short stitches round the line marked “slit”, {text.long((line.end - line.start).norm())} "
            "long, close to it and round its upper end; then cut along the line.",
            f"For each {name} cut a straight strip {text.long(strip.width)} wide and {text.long(strip.length)} long. "
            "Open the slit out straight, sew the strip along it, right side on wrong side, fold it over the edge, turn "
            "its other edge under and sew it down. Sew across the fold at the upper end, slanting.",
            "Press the strip in at the front of the slit; at the back it stays out as an underlap.",
        ),
    )


def cuff_words(text: StepText) -> StepWords:
    """A cuff sewn to the lower edge of a sleeve."""
    cuff = next(name for name in text.step.pieces if text.kind(name) is PieceKind.CUFF)
    return StepWords(
        "Sew the cuffs on",
        (
            *_drawn_in(text),
            f"Lay the marked edge of the {cuff} on the lower edge of the sleeve, right sides together: its underlap on "
            "the binding of the slit, its other end at the folded edge of the slit, its mark on the underarm "
            f"seam{notch_words(text, ' and ')}.",
            f"Sew {text.allowance()} and press the edges into the cuff.",
            "Fold the cuff on its fold line, right side in, close both ends, trim the corners and turn.",
            "Turn the inner edge under on its sewing line and sew it down by hand, or from the right side in the "
            "groove of the seam.",
            "Set a ring snap in at its mark and in the other end: a child so small could pull a button off."
            if is_under_three(text.pattern)
            else "Sew a buttonhole at its mark, in the end at the front of the slit, and the button on the other end.",
        ),
    )


def _drawn_in(text: StepText) -> Iterator[str]:
    """In words: how the end of a sleeve is made as long as its cuff, in pleats or gathered."""
    for name in text.step.seams:
        seam = text.pattern.seam(name)
        walked = walk(text.pattern, seam)
        folds = [
            pair
            for pair in seam.notches
            if text.pattern.piece(pair[0].piece).notch(pair[0].notch).marks is NotchMark.PLEAT_FOLD
        ]
        if folds:
            each = text.long(walked.up_a.total / len(folds))
            yield (
                f"Lay {len(folds)} pleats in the sleeve, {each} each, from mark to mark, facing the slit; tack them."
                if len(folds) > 1
                else f"Lay the pleat in the sleeve, {each}, from mark to mark so that it faces the slit, and tack it."
            )
        elif walked.a - walked.b > 10.0:
            yield f"Gather the lower edge of the sleeve by {text.long(walked.a - walked.b)} to the length of the cuff."
