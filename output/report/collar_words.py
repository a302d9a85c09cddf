"""How a collar is made and sewn on, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from drafting.errors import listed
from drafting.parts.collars.flat_collar import beyond_shoulder
from drafting.pattern import EdgeRef, PieceKind, Place, edges_at, walk
from drafting.sewing import ends_under_facing
from output.report.join_words import notch_words
from output.report.step_text import StepText, StepWords

__all__ = ["collar_words", "make_collar_words"]

_TOLD_BEYOND: Final = 10.0  # mm beyond the shoulder from which a collar is told to lie over the arm (ours)


def make_collar_words(text: StepText) -> StepWords:
    """The layers of a collar sewn to each other and turned."""
    falls = [seam for seam in text.step.seams if _falls(text, seam)]
    first = next(seam for seam in text.step.seams if seam not in falls)
    only = replace(text, step=replace(text.step, seams=(first,)))
    names = [f"the {ref.piece}" for run in (text.pattern.seam(first).a, text.pattern.seam(first).b) for ref in run[:1]]
    return StepWords(
        "Make the collar",
        (
            f"Lay {listed(names)} right sides together, edge on edge{notch_words(text)}. {_longer(text, first)}",
            f"Sew the outer edge and the ends {only.allowance()}; leave the neck open.",
            f"Trim the two edges to {'1/4 in and 1/8 in' if text.unit == 'in' else '6 mm and 3 mm'}, cut the corners "
            "off close to the stitching, and snip the round parts.",
            "Turn it right side out. Roll the seam a little to the under side, so that it does not show, and press. "
            "Tack the neck edges together.",
            *(
                (
                    "Lay the collar between the two stands, which have their right sides in, its edge on their upper "
                    "edges from centre front to centre front, and the collar itself toward the outer stand. Sew the "
                    "ends and the upper edge in one go, trim, turn and press.",
                )
                if falls
                else ()
            ),
        ),
    )


def _falls(text: StepText, name: str) -> bool:
    """Whether a seam joins a collar and its stand."""
    ref = text.pattern.seam(name).a[0]
    return text.pattern.piece(ref.piece).edge(ref.edge).place is Place.COLLAR_SEAM


def collar_words(text: StepText) -> StepWords:
    """A collar sewn to the neck."""
    collars = [text.pattern.piece(name) for name in text.step.pieces if text.kind(name) is PieceKind.COLLAR]
    inner = next((piece.name for piece in collars if piece.identity.of is PieceKind.LINING), None)
    on_stand = any(edges_at(text.pattern.piece(name), Place.STAND) for name in text.step.pieces)
    halves = any(piece.cut.mirror for piece in collars)
    ends = (
        "its ends at the edges of the button stand, its marks on the centre front"
        if inner and on_stand
        else ("one half to each side, its ends at the centre lines" if halves else "its ends where the neck ends")
    )
    if inner is None and not halves:
        ends = "its ends at the centre front"
    notch = f"{ends}, its notches on {_neck_seams(text)}{notch_words(text, ' and ')}"
    snip = f"snip the curve every {'3/4 in' if text.unit == 'in' else '2 cm'}, not into the stitching"
    if inner is not None:
        return StepWords(
            "Sew the collar on",
            (
                f"Lay the outer layer of the collar on the outside of the neck, right sides together: {notch}.",
                *_eased(text),
                f"Sew {text.allowance()}, {snip}, and press the edges up into the collar.",
                f"Turn the lower edge of the {inner} under on its sewing line, lay it over the seam inside, and sew it "
                "down by hand or from outside in the groove of the seam.",
            ),
        )
    return StepWords(
        "Sew the collar on",
        (
            f"Lay the collar on the right side of the garment, the under collar down, neck edge on neck edge: {notch}.",
            *_eased(text),
            *(_under_facing(text) if ends_under_facing(text.pattern) else (f"Sew {text.allowance()}, and {snip}.",)),
            *_finished(text),
            *_like_a_cape(text),
        ),
    )


def _like_a_cape(text: StepText) -> Iterator[str]:
    """What is to be known of a flat collar that is wider than the shoulder is long."""
    beyond = beyond_shoulder(text.pattern)
    if beyond >= _TOLD_BEYOND:
        yield (
            f"It reaches {text.long(beyond)} beyond the end of the shoulder and hangs over the arm like a small cape, "
            "which lifts it. Try it in paper first."
        )


def _neck_seams(text: StepText) -> str:
    """The seams of the garment that run into the neck, on which the notches of a collar lie."""
    places = {edge.place for name in text.step.pieces for edge in text.pattern.piece(name).edges}
    found = next((place for place in (Place.RAGLAN, Place.SADDLE) if place in places), None)
    return f"the {found}s" if found else "the seams of the shoulders"


def _under_facing(text: StepText) -> Iterator[str]:
    """A collar that ends at the centre front is tacked: the facing of the stand is laid over its ends first."""
    yield f"Tack it {text.allowance()}: the facing of the front edge goes on over its ends, in the same seam."
    for strip in text.step.strips:
        yield f"Cut a bias strip {text.long(strip.width)} wide and {text.long(strip.length)} long, for that seam."


def _longer(text: StepText, seam: str) -> str:
    walked = walk(text.pattern, text.pattern.seam(seam))
    more = walked.a - walked.b
    if more < 0.5:
        return "Pin."
    return (
        f"The collar is {text.long(more)} longer there, for the turn of the cloth: ease that in with many pins, most "
        "of it at curves and corners."
    )


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
    for strip in () if ends_under_facing(text.pattern) else text.step.strips:
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
