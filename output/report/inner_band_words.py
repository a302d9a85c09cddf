"""How the inner layer of a shaped band is sewn in, in words."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.errors import listed
from drafting.pattern import PieceKind, Place, Role, edges_at
from drafting.pattern.let_down import usual_allowance
from output.report.step_text import StepText, StepWords

__all__ = ["inner_band_words"]


def inner_band_words(text: StepText) -> StepWords:
    """The layer that is not sewn yet: joined at the sides, sewn on along the waist, turned in and sewn down."""
    return StepWords("Sew the inner band in", (*_sentences(text),))


def _sentences(text: StepText) -> Iterator[str]:
    """In words: how the inner layer of a band is sewn in."""
    yield (
        f"Take the inner layer of {text.pieces}: those without interfacing. Join them at the sides and seams as you "
        "joined the outer ones, leave open what is open there, and press the seams open."
    )
    if text.step.edges:
        pieces = [text.pattern.piece(ref.piece) for ref in text.step.edges]
        edges = zip(pieces, text.step.edges, strict=True)
        taken = sorted({usual_allowance(piece, piece.edge(ref.edge)) for piece, ref in edges} - {0.0})
        stands = any(edges_at(piece, Place.STAND_EDGE) for piece in pieces)
        along = "the front edges and the waist" if stands else "the waist"
        where = f"{listed(map(text.long, taken))} from the cut edge" if taken else "along the sewing line"
        yield (
            f"Lay it on the outer band, right sides together, seam on seam, and sew along {along}, {where}. Trim the "
            "two edges unequally and snip them, press them into the inner band and sew them to it close to the seam."
        )
        yield "Turn the inner band to the inside and press."
    else:
        yield (
            "Turn its upper edge under on the sewing line, lay it inside the outer band, wrong sides together, upper "
            "edge on the seam to the bodice, and sew it down by hand."
        )
    if any(piece.identity.kind is PieceKind.FLY for piece in text.pattern.pieces):
        yield (
            "In front turn its ends under, the right one on the centre front, the left one over the edges of the "
            "shield, and sew them down by hand. Sew a hook to the inside of the right end and its bar to the shield, "
            "or a buttonhole and a button, so that the ends meet at the centre front."
        )
    elif _opens_with_zip(text):
        yield "Turn its ends under beside the zip, clear of the teeth, and slip-stitch them to the zip tape."
        if text.step.edges:
            yield "Sew a hook and eye inside, above the zip."
    if any(edges_at(text.pattern.piece(name), Place.STAND_EDGE) for name in text.step.pieces):
        if not text.step.edges:
            yield "Before that sew its ends to the outer band at the front edges, right sides together, and turn."
        yield "The facings of the button stand end at its seams: it covers their ends."
    yield (
        "Turn its lower edge under on the sewing line, over the seam below, and sew it down by hand, or from the right "
        "side in the groove of that seam."
    )


def _opens_with_zip(text: StepText) -> bool:
    """Whether the band opens and no button stand closes it there."""
    edges = (edge for name in text.step.pieces for edge in text.pattern.piece(name).edges)
    return any(edge.role is Role.OPENING and edge.place is not Place.STAND_EDGE for edge in edges)
