"""How ties, loops and tabs are made and set on, in words. The ways are common practice."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.errors import listed
from drafting.pattern import Piece, PieceKind, Place, edges_at
from drafting.sewing import times_cut
from output.report.step_text import StepText, StepWords

__all__ = ["attached_words"]


def attached_words(text: StepText) -> StepWords:
    """A tie, a sash, loops or tabs: made, and where they go."""
    piece = text.pattern.piece(text.step.pieces[0])
    part = next(each for each in text.pattern.derived if piece.name in each.pieces)
    made = _tab(text) if piece.identity.kind is PieceKind.TAB else _strip(text, piece)
    return StepWords(
        {PieceKind.TIE: "Ties", PieceKind.LOOP: "Loops"}.get(piece.identity.kind or PieceKind.TAB, "Tabs")
        if text.step.pieces[1:]
        else "The sash",
        (*made, *_set_on(text, piece, part.called or part.part), *_child(text, piece)),
    )


def _strip(text: StepText, piece: Piece) -> Iterator[str]:
    """In words: how a tie, a loop or a tab is sewn up."""
    wide = text.long(0.5 * edges_at(piece, Place.BAND_END)[-1].length)
    each = "each" if times_cut(piece) > 1 else "it"
    ends = "the free end" if text.step.pieces[1:] else "both ends"
    if piece.identity.kind is PieceKind.LOOP:
        yield (
            f"Fold the strip lengthwise on the fold line, right side in, sew the long edge {text.allowance()}, trim it "
            f"and turn: it is {wide} wide."
        )
        return
    yield (
        f"Fold {each} lengthwise on the fold line, right side in; sew the long edge and {ends} "
        f"{text.allowance()}{'' if text.step.pieces[1:] else ', but for a gap of a hand in the middle'}, trim the "
        f"corners, turn and press: {wide} wide."
    )


def _tab(text: StepText) -> Iterator[str]:
    yield (
        f"Lay two and two right sides together, one of each with interfacing; sew round {text.allowance()} but for the "
        "straight end, trim, turn, press and stitch round."
    )
    yield "Sew a buttonhole along each at its mark."


def _set_on(text: StepText, piece: Piece, part: str) -> Iterator[str]:
    """In words: how ties, tabs or loops are set on at their marks."""
    on = listed(f"the {name}" for name in text.step.pieces[1:])
    fastening = text.step.fastening
    if piece.identity.kind is PieceKind.TIE:
        if on:
            yield (
                f"Lay each on the right side of {on} at its mark, the raw end level with the edge, the tie toward the "
                "middle, and tack it: the seam there catches it."
            )
        return
    if piece.identity.kind is PieceKind.TAB and fastening:
        yield (
            f"Turn the straight end under and sew it to the wrong side of {on} on its mark, the point downward. Sew a "
            "button to the right side at the same place: the rolled sleeve is held between them."
        )
        return
    options = dict(next(each for each in text.pattern.derived if (each.called or each.part) == part).options)
    count = round(float(options["count"] or 1))
    long = text.long(edges_at(piece, Place.BAND_EDGE)[0].length / count)
    if fastening:
        yield (
            f"Cut {count} of {long}. Lay each in a loop on the right side at its mark, the ends level with the edge "
            f"and {text.long(fastening.size)} apart, and tack it; the binding or facing is sewn over it. Sew "
            f"{_buttons(fastening.buttons)} to the other edge, opposite."
        )
        return
    yield (
        f"Cut {count} of {long}. Turn both ends of each under, and sew them over the finished waist: at the marks in "
        "front" + (" and behind" if count > _FIVE else "") + ", over the side seams and at the centre back."
    )


def _buttons(count: int) -> str:
    return "one button" if count == 1 else f"{count} buttons"


_KNOT = 80.0  # mm of each end that a knot takes and what hangs from it (common practice)
_FIVE = 5  # loops that lie in front, at the sides and at the centre back


def _child(text: StepText, piece: Piece) -> Iterator[str]:
    if text.pattern.wearer.child and piece.identity.kind is PieceKind.TIE:
        yield (
            "For a child: tie it in front, never at the back, with no knot or bead at its ends. No end hangs below the "
            "hem. How long an end may be is in the rules of the place where the child lives; what was read of them "
            "stands under “For a child”."
        )
        apart = 2.0 * (edges_at(piece, Place.BAND_EDGE)[0].length - _KNOT)
        if any(edges_at(text.pattern.piece(name), Place.SIDE) for name in text.step.pieces[1:]) and apart > 0.0:
            yield (
                "Try whether the two reach each other over the front, which so short they seldom do. If not, sew each "
                f"onto the front itself, its raw end turned under, with no more than {text.long(apart)} between them."
            )
