"""The seams of a lining: those of the garment once more, and those that join it to its neck, facings and armholes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from drafting.dataclass import dataclass
from drafting.geometry.tolerance import SAME_PLACE
from drafting.parts.finishes.facing_in_one import LINING
from drafting.parts.finishes.strip_seams import Strip
from drafting.pattern import PLAIN, Edge, EdgeRef, NotchRef, Pattern, Piece, Place, Seam, SeamEase, edges_at

__all__ = ["LinedPiece", "copied_seams", "seams_to_shell"]


@dataclass(frozen=True, slots=True)
class LinedPiece:
    """A piece of the garment, its lining, and the facing sewn to that in the place of its neck."""

    shell: Piece
    lining: Piece
    faced: Strip | None = None


def copied_seams(pattern: Pattern, lined: Mapping[str, LinedPiece]) -> Iterator[Seam]:
    """The seams of the garment between pieces that are lined, once more between their linings."""
    for seam in _without_pockets(pattern):
        refs = (*seam.a, *seam.b)
        if all(ref.piece in lined and _there(lined[ref.piece], ref) for ref in refs):
            a, b = (tuple(replace(ref, piece=lined[ref.piece].lining.name) for ref in run) for run in (seam.a, seam.b))
            pairs = tuple(
                (replace(one, piece=lined[one.piece].lining.name), replace(other, piece=lined[other.piece].lining.name))
                for one, other in seam.notches
                if _marked(lined[one.piece], one) and _marked(lined[other.piece], other)
            )
            yield replace(seam, name=f"{seam.name} of the {LINING}", a=a, b=b, notches=pairs)


def _without_pockets(pattern: Pattern) -> Iterator[Seam]:
    """The seams of the garment without the mouths of pockets: a lining has none, so the seam runs on."""
    mouths = {
        run[0].piece: other
        for seam in pattern.seams
        for run, other in ((seam.a, seam.b), (seam.b, seam.a))
        if pattern.piece(run[0].piece).edge(run[0].edge).place is Place.POCKET_MOUTH
    }
    seams = list(pattern.seams)
    for k, seam in enumerate(pattern.seams):
        a, b = (mouths.get(run[0].piece) for run in (seam.a, seam.b))
        if a is not None and b is not None:  # the bags round their edge, between the parts above and below the mouth
            above, below = pattern.seams[k - 1], pattern.seams[k + 1]
            whole = replace(
                above,
                a=(*above.a, *a, *below.a),
                b=(*above.b, *b, *below.b),
                notches=(*above.notches, *below.notches),
            )
            seams = [whole if each is above else each for each in seams if each is not below]
    return iter(seams)


def _there(lined: LinedPiece, ref: EdgeRef) -> bool:
    return any(edge.name == ref.edge for edge in lined.lining.edges)


def _marked(lined: LinedPiece, mark: NotchRef) -> bool:
    return any(notch.name == mark.notch for notch in lined.lining.notches)


def _runs_along(piece: Piece, edge: Edge, place: Place) -> bool:
    """Whether an edge lies at a place, or goes on from it along a button stand."""
    beside = (each.place for each in piece.beside(edge.name)) if edge.place is Place.STAND else ()
    return edge.place is place or place in beside


def seams_to_shell(pattern: Pattern, lined: Sequence[LinedPiece]) -> Iterator[Seam]:
    """The seams of the lining to the free edge of the facings, else to the neck; and to an armhole without a sleeve."""
    sleeved = any(edges_at(piece, Place.CAP) for piece in pattern.pieces)
    for each in lined:
        if each.faced is not None:
            free = next(edge for edge in each.faced.piece.edges if edge.place is Place.FACING_EDGE)
            mine = next(edge for edge in each.lining.edges if edge.place is Place.FACING_EDGE)
            facing = (EdgeRef(each.faced.piece.name, free.name),)
            # the lining runs along it the other way
            yield Seam(
                f"{each.lining.name} to the facing", (EdgeRef(each.lining.name, mine.name, backward=True),), facing
            )
        for place in (Place.NECK,) if sleeved else (Place.NECK, Place.ARMHOLE):
            edges = (edge for edge in each.shell.edges if _runs_along(each.shell, edge, place))
            run = tuple(EdgeRef(each.shell.name, edge.name) for edge in edges)
            if run and all(_there(each, ref) for ref in run):
                own = tuple(replace(ref, piece=each.lining.name) for ref in run)
                marks = tuple(
                    (NotchRef(each.lining.name, notch.name), NotchRef(each.shell.name, notch.name))
                    for notch in each.shell.notches
                    if any(notch.station.edge == ref.edge for ref in run)
                )
                more = _long(each.lining, own) - _long(each.shell, run)  # the lining is a hair smaller inside it
                ease = SeamEase(more, min(0.0, more), max(0.0, more)) if abs(more) > SAME_PLACE else PLAIN
                yield Seam(f"{each.lining.name} to the {place}", own, run, ease, marks)


def _long(piece: Piece, run: Sequence[EdgeRef]) -> float:
    return sum(piece.edge(ref.edge).length for ref in run)
