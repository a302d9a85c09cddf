"""How a collar is made and sewn on, in words."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.pattern import EdgeRef, PieceKind, Place, walk
from output.report.join_words import notch_words
from output.report.step_text import StepText, StepWords, listed

__all__ = ["collar_words", "make_collar_words"]


def make_collar_words(text: StepText) -> StepWords:
    """The layers of a collar sewn to each other and turned."""
    names = [f"the {name}" for name in text.step.pieces]
    return StepWords(
        "Make the collar",
        (
            f"Lay {listed(names)} right sides together, edge on edge{notch_words(text)}. {_longer(text)}",
            f"Sew the outer edge and the ends {text.allowance()}; leave the neck open.",
            f"Trim the two edges to {'1/4 in and 1/8 in' if text.unit == 'in' else '6 mm and 3 mm'}, cut the corners "
            "off close to the stitching, and snip the round parts.",
            "Turn it right side out. Roll the seam a little to the under side, so that it does not show, and press. "
            "Tack the neck edges together.",
        ),
    )


def collar_words(text: StepText) -> StepWords:
    """A collar sewn to the neck."""
    collars = [name for name in text.step.pieces if text.kind(name) is PieceKind.COLLAR]
    halves = any(text.pattern.piece(name).cut.mirror for name in collars)
    ends = "its ends at the centre front" if not halves else "one half to each side, its ends at the centre lines"
    return StepWords(
        "Sew the collar on",
        (
            "Lay the collar on the right side of the garment, the under collar down, neck edge on neck edge: "
            f"{ends}, its notches on the seams of the shoulders{notch_words(text, ' and ')}.",
            *_eased(text),
            f"Sew {text.allowance()}, and snip the curve every {'3/4 in' if text.unit == 'in' else '2 cm'}, not into "
            "the stitching.",
            *_finished(text),
        ),
    )


def _longer(text: StepText) -> str:
    more = max(walked.a - walked.b for walked in (walk(text.pattern, text.pattern.seam(s)) for s in text.step.seams))
    if more < 0.5:
        return "Pin."
    return f"The collar is {text.long(more)} longer there, for the turn of the cloth: stretch the under collar to it."


def _eased(text: StepText) -> Iterator[str]:
    found = [walk(text.pattern, text.pattern.seam(name)) for name in text.step.seams]
    layers = len({ref.piece for name in text.step.seams for ref in text.pattern.seam(name).b})
    more = sum(walked.a - walked.b for walked in found) / max(1, layers)
    if more > 0.5:
        yield f"The neck is {text.long(more)} longer than the collar on each half: ease it in evenly."


def _finished(text: StepText) -> Iterator[str]:
    """How the seam is covered inside."""
    if any(text.kind(ref.piece) is PieceKind.FACING for ref in _sewn_at_neck(text)):
        yield "The facing is sewn over it afterwards, and covers the seam."
    for strip in text.step.strips:
        yield (
            f"Cut a bias strip {text.long(strip.width)} wide and {text.long(strip.length)} long. Lay it on the collar, "
            "edge on edge, sew it in the same seam, fold it over the trimmed edges to the inside, turn its edge under "
            "and sew it down."
        )


def _sewn_at_neck(text: StepText) -> Iterator[EdgeRef]:
    for seam in text.pattern.seams:
        for ref in (*seam.a, *seam.b):
            if text.pattern.piece(ref.piece).edge(ref.edge).place is Place.NECK:
                yield ref
