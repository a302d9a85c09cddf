"""How facings are made and sewn on, in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.errors import listed
from drafting.geometry import Line
from drafting.pattern import Edge, PieceKind, Place, Role
from drafting.sewing import ends_under_facing
from output.report.join_words import notch_words
from output.report.step_text import StepText, StepWords

__all__ = ["face_words", "join_facings_words"]

_STRAIGHT: Final = 0.999
"""How long the chord of an edge is at least, as a share of the edge, where it needs no snips (ours)."""


def join_facings_words(text: StepText) -> StepWords:
    """Facings sewn to each other and neatened, before they are sewn on."""
    joined = bool(text.step.seams) or any(edge.place is not Place.FACING_EDGE for edge in _edges_alone(text))
    ring = joined and len(text.step.pieces) == 1
    what = (
        "Sew the two ends of the facing together to a ring"
        if ring
        else ("Sew the facings to each other where the garment has its seams")
    )
    seams = f"{what}, and press open. " if joined else ""
    return StepWords(
        f"Make the facing for {_places(text)}",
        (f"{seams}{_free_edges(text)}",),
    )


def _free_edges(text: StepText) -> str:
    if any(edge.place is Place.FACING_EDGE for edge in _edges_alone(text)):
        if text.pattern.stretch:
            return f"The free edge of {text.pieces} may stay as it is cut: a knit does not fray."
        return f"Neaten the free edge of {text.pieces} with a zigzag or a narrow turned edge."
    return f"Leave the free edge of {text.pieces} raw: it is sewn to the lining."


def face_words(text: StepText) -> StepWords:
    """Facings sewn to the edges they finish, and turned in."""
    facings = [name for name in text.step.pieces if text.kind(name) is PieceKind.FACING]
    ring = any(text.kind(name) is PieceKind.SLEEVE for name in text.step.pieces)
    meet = "seam on seam" if len(facings) > 1 or ring else "edge on edge"
    return StepWords(
        f"Face {_places(text)}",
        (
            f"Lay {listed(f'the {name}' for name in facings)} on the garment, right sides together, {meet}"
            f"{notch_words(text)}{', the marked points of the V on each other' if _pointed(text) else ''}, and sew "
            f"{text.allowance()}{_in_one_pass(text)}.",
            " ".join(_trimmed(text)),
            "Press the facing over its edges and sew them to the facing, close to the seam, so that it cannot roll "
            f"out{'; stop a finger’s width before the point on either side' if _pointed(text) else ''}.",
            _turned(text, seams=len(facings) > 1 or ring),
            *_loose_ends(text),
        ),
    )


def _places(text: StepText) -> str:
    """What is finished: "the neck and the edge of the button stand"."""
    places = dict.fromkeys((text.step.place, *(edge.place for edge in _faced(text) if edge.place is not Place.STAND)))
    return listed(f"the {place}" for place in places)


def _faced(text: StepText) -> Iterator[Edge]:
    """The edges of the facings that are sewn to what they finish, of a step that makes them or sews them on."""
    facings = {name for name in text.step.pieces if text.kind(name) is PieceKind.FACING}
    for seam in text.pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if facings.issuperset(ref.piece for ref in run) and facings.isdisjoint(ref.piece for ref in other):
                edges = (text.pattern.piece(ref.piece).edge(ref.edge) for ref in run)
                yield from (edge for edge in edges if edge.place is not Place.FACING_EDGE)  # that is sewn to a lining


def _over_collar(text: StepText) -> bool:
    """Whether the facing of a button stand is laid over the end of a collar, and its upper edge sewn with the neck."""
    return text.step.place is Place.STAND_EDGE and ends_under_facing(text.pattern)


def _loose_ends(text: StepText) -> Iterator[str]:
    """The upper edge of the facing of a button stand, where nothing of this step sews it."""
    refs = [ref for ref in text.step.edges if text.kind(ref.piece) is PieceKind.FACING]
    edges = [text.pattern.piece(ref.piece).edge(ref.edge) for ref in refs]
    upper = next((edge.place for edge in edges if edge.place in (Place.NECK, Place.WAIST, Place.YOKE)), None)
    if _over_collar(text):
        yield (
            "Trim the edges under the bias strip, fold it over them to the inside, turn its edge under and sew it down "
            "from facing to facing."
        )
    elif upper is not None:
        yield (
            "Tack its upper edge to that of the garment: what is sewn on at the "
            f"{'yoke seam' if upper is Place.YOKE else upper} takes in both."
        )


def _edges_alone(text: StepText) -> Iterator[Edge]:
    return (text.pattern.piece(ref.piece).edge(ref.edge) for ref in text.step.edges)


def _corners(text: StepText) -> bool:
    """Whether what is faced goes round a corner at an end of a button stand."""
    places = {edge.place for edge in _faced(text)}
    return Place.STAND_EDGE in places and bool({Place.NECK, Place.HEM} & places)


def _in_one_pass(text: StepText) -> str:
    """In words: along which edges a facing is sewn in one pass; "" where it turns no corner."""
    if _over_collar(text):
        snip = "3/4 in" if text.unit == "in" else "2 cm"
        return (
            ", in one pass: up one front edge, along the upper edge of the button stand, round the neck and down the "
            "other front edge. Lay its neck over the end of the collar and the bias strip over the rest, edge on edge, "
            f"its ends on those of the facing. Turn at each corner; snip the neck every {snip}"
        )
    if not _corners(text):
        return ""
    places = {edge.place for edge in _faced(text)}
    way = "up one front edge, round the neck and down the other"
    if Place.HEM in places:
        way = "down one front edge, along the hem and up the other"
        way = f"round the neck, {way}" if Place.NECK in places else way
    return f", in one pass: {way}. Turn at each corner with the needle in the cloth"


def _trimmed(text: StepText) -> Iterator[str]:
    inches = text.unit == "in"
    yield f"Trim the two edges to {'1/4 in and 1/8 in' if inches else '6 mm and 3 mm'}."
    if any(not _straight(edge) for edge in _faced(text)):
        yield f"Snip the curve every {'3/4 in' if inches else '2 cm'}, not into the stitching."
    if _pointed(text):
        yield "Snip straight into the point at the centre, to the last stitch."
    if _corners(text):
        yield "Cut the corners off, close to the stitching."


def _straight(edge: Edge) -> bool:
    chord = (edge.end - edge.start).norm()
    return all(isinstance(curve, Line) for curve in edge.curves) or chord >= _STRAIGHT * edge.length


def _pointed(text: StepText) -> bool:
    """Whether the faced edge comes to the fold in a point, as a V neck does."""
    for name in text.step.pieces:
        piece = text.pattern.piece(name)
        folds = {edge.name for edge in piece.edges if edge.role is Role.FOLD}
        necks = {edge.name for edge in piece.edges if edge.place is Place.NECK}
        if text.kind(name) is PieceKind.FACING and any(
            {*pair} & folds and {*pair} & necks for pair in piece.points_meant
        ):
            return True
    return False


def _turned(text: StepText, *, seams: bool) -> str:
    turned = (
        "Turn the facing in and press; tack it to the allowances of the seams it meets."
        if seams
        else ("Turn the facing in and press.")
    )
    loose = next((end.place for end in _at_zip(text)), None)
    if loose is None:
        return turned
    return f"{turned} Leave its ends loose at the {loose} and lifted up: they are sewn down when the zip is in."


def _at_zip(text: StepText) -> Iterator[Edge]:
    """The ends of the facings at an opening, which wait for the zip."""
    here = {(ref.piece, ref.edge) for ref in text.step.edges}
    for name in text.step.pieces:
        if text.kind(name) is PieceKind.FACING:
            edges = text.pattern.piece(name).edges
            yield from (edge for edge in edges if edge.role is Role.OPENING and (name, edge.name) not in here)
