"""How a lining is sewn, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from drafting.errors import listed
from drafting.pattern import MIDDLE_SEAMS, EdgeRef, PieceKind, Place, edges_at, seam_places
from drafting.pattern.pleats import is_pleated
from drafting.pattern.unfinished import unfinished_edges
from output.report.step_text import StepText, StepWords

__all__ = ["line_words", "lining_hem_words", "make_lining_words"]


def make_lining_words(text: StepText) -> StepWords:
    """The pieces of a lining sewn to each other."""
    edges = [text.pattern.piece(ref.piece).edge(ref.edge) for ref in text.step.edges]
    centres = dict.fromkeys(str(edge.place) for edge in edges if edge.place in MIDDLE_SEAMS)
    also = f" The {listed(centres)} of the lining too is a seam, left to right." if centres else ""
    return StepWords(
        "Make the lining",
        (
            *_pleat(text),
            f"Sew its pieces together as those of the garment{_in_order(text)}, {text.allowance()}.{also}",
            "Leave open what is open in the garment. Press the edges to one side; they need no neatening inside.",
        ),
    )


_IN_ORDER: Final = (
    (Place.GUSSET, "gussets"),
    (Place.YOKE, "yokes"),
    (Place.EMPIRE, "the seams under the bust"),
    (Place.RAGLAN, "raglan seams"),
    (Place.SHOULDER, "shoulders"),
    (Place.SIDE, "sides"),
    (Place.INSEAM, "inside legs"),
    (Place.UNDERARM, "sleeves"),
    (Place.WAIST, "waist"),
)
"""Seams of a lining in the order in which they are sewn."""


def _in_order(text: StepText) -> str:
    """Which of its seams come one after the other, in words; "" where it is one only."""
    found = [seam_places(text.pattern, text.pattern.seam(name)) for name in text.step.seams]
    words = [word for place, word in _IN_ORDER if any(place in one and place in other for one, other in found)]
    return f": {words[0]}, then {listed(words[1:])}" if len(words) > 1 else ""


def _pleat(text: StepText) -> Iterator[str]:
    """Pleats as those of the garment; the pleat at the centre back, how deep and how it is held."""
    if any(map(is_pleated, text.pattern.pieces)):
        yield (
            "It has no pleats, which would be too thick: what is too wide at its upper edge is drawn in there, or laid "
            "in small tucks. Leave its side seams open for a hand’s width above the hem, so that you can stride."
        )
    for piece in text.pattern.pieces:
        ends = edges_at(piece, Place.PLEAT_END) if piece.identity.kind is PieceKind.LINING else ()
        if ends:
            four = "1 1/2 in" if text.unit == "in" else "4 cm"
            yield (
                f"Lay the pleat at the centre back of the {piece.name}, {text.long(ends[0].length)} deep, to one "
                f"side along the marked line; stitch it down {four} from the neck, and tack it at the other end."
            )


def line_words(text: StepText) -> StepWords:
    """A lining sewn into its garment."""
    seams = [text.pattern.seam(name) for name in text.step.seams]
    to_facing = any(text.kind(ref.piece) is PieceKind.FACING for seam in seams for ref in (*seam.a, *seam.b))
    bound = {(ref.piece, ref.edge) for ref in _bound_with_it(text)}
    free = {_place(text, ref.piece, ref.edge) for seam in seams for ref in seam.b if (ref.piece, ref.edge) not in bound}
    sentences = ["Put the lining into the garment wrong side to wrong side, seam on seam."]
    if to_facing:
        sentences.append(
            "Lay its edge on the free edge of the facings, right sides together, shoulder seam on shoulder seam, and "
            f"sew {text.allowance()}; press toward the lining."
        )
    if bound:
        where = listed(dict.fromkeys(str(_place(text, *each)) for each in sorted(bound)))
        sentences.append(
            f"At the {where} cut its allowance off along the sewing line, lay its edge level with that of the garment, "
            "and tack the two together: the binding takes in both."
        )
    if Place.NECK in free:
        sentences.append(
            f"Sew it to the neck, right sides together, {text.allowance()}; snip the curve, turn, and press so that "
            "the lining lies a hair inside the edge."
        )
    if Place.ARMHOLE in free:
        sentences.append(
            "Turn the armholes of the garment in on their sewing lines, snip the curves, and press. Turn the edges of "
            "those of the lining in as well, and sew them on by hand, just inside the edge."
        )
    loose = {_place(text, ref.piece, ref.edge) for ref in text.step.edges}
    if Place.WAIST in loose and any(line is Place.WAIST for *_, line in unfinished_edges(text.pattern)):
        loose -= {Place.WAIST}
        sentences.append(
            "At the waist lay its edge level with that of the garment, tucks and darts the other way, and tack the "
            "two together: what finishes the waist takes in both."
        )
    if loose & {Place.WAIST, Place.ARMHOLE}:
        caught = listed(str(place) for place in (Place.ARMHOLE, Place.WAIST) if place in loose)
        sentences.append(f"At the {caught} sew it to the allowance of the garment's seam, which it then covers.")
    if any(text.pattern.piece(ref.piece).edge(ref.edge).role == "opening" for ref in text.step.edges):
        sentences.append("Along the opening turn its edge in and sew it down by hand, clear of the teeth of the zip.")
    return StepWords("Sew the lining in", tuple(sentences))


def _bound_with_it(text: StepText) -> Iterator[EdgeRef]:
    """The edges of the garment that a strip binds together with the lining."""
    bound = [
        seam.a
        for seam in text.pattern.seams
        if any(text.kind(ref.piece) is PieceKind.BINDING for ref in seam.b) and not any(_allowance(text, seam.a))
    ]
    lined = {(ref.piece, ref.edge) for name in text.step.seams for ref in text.pattern.seam(name).b}
    yield from (ref for run in bound for ref in run if (ref.piece, ref.edge) in lined)


def _allowance(text: StepText, refs: Iterable[EdgeRef]) -> Iterator[float]:
    return (text.pattern.piece(ref.piece).edge(ref.edge).allowance for ref in refs)


def lining_hem_words(text: StepText) -> StepWords:
    """The hem of a lining, which hangs free."""
    depth = text.long(text.step.depth)
    return StepWords(
        "Hem the lining",
        (f"Turn up {depth} on the line marked “finished hem” and sew it down; it hangs free, above the hem.",),
    )


def _place(text: StepText, piece: str, edge: str) -> Place | None:
    return text.pattern.piece(piece).edge(edge).place
