"""A facing as it is sewn to its piece: the strip, the edges that it runs along, and its seams."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import groupby
from typing import Final

from drafting.dataclass import dataclass
from drafting.parts.finishes.laid_strip import LAPPING
from drafting.pattern import EdgeRef, Notch, NotchRef, Pattern, Piece, Place, Seam

__all__ = ["ALL_OF_IT", "LEAST_REST", "Strip", "end_length", "on_edge", "strip_seams"]

LEAST_REST: Final = 12.0
"""mm between a facing and a dart that can be sewn and turned (ours)."""

ALL_OF_IT: Final = 0.01
"""mm: an edge of which less would be left beside a facing is gone."""


@dataclass(frozen=True, slots=True)
class Strip:
    """A facing as drawn.

    edges: what each edge of the garment became on it, by piece and edge: those it faces, and those at its ends
    faced: of them the ones it faces, anticlockwise
    """

    piece: Piece
    edges: tuple[tuple[EdgeRef, str], ...]
    faced: tuple[EdgeRef, ...]

    def edge_for(self, ref: EdgeRef) -> str | None:
        """The edge of the strip that was traced from this one; None where it was not."""
        return next((name for each, name in self.edges if (each.piece, each.edge) == (ref.piece, ref.edge)), None)


def end_length(strip: Strip, place: Place) -> float:
    """How long the end of a strip is along the edges at a place, mm."""
    return sum(edge.length for edge in strip.piece.edges if edge.place is place)


def strip_seams(pattern: Pattern, strips: Sequence[Strip]) -> tuple[Seam, ...]:
    """The seams of facings, in the order of sewing: the facings to each other, then each to the edge it faces."""
    faced = {(ref.piece, ref.edge) for strip in strips for ref in strip.faced}
    joined = []
    for seam in pattern.seams:
        a, b = (tuple(_on_strips(run, strips, faced)) for run in (seam.a, seam.b))
        if a and b:
            joined.append(Seam(f"{seam.name} of the facings", a, b))
    sewn = []
    for strip, run in ((each, run) for each in strips for run in _runs(pattern, each)):
        made = strip.piece
        a = tuple(EdgeRef(made.name, strip.edge_for(ref) or "") for ref in run)
        names = " and ".join(dict.fromkeys(ref.edge for ref in run))
        pairs = tuple(
            (NotchRef(made.name, copy.name), NotchRef(ref.piece, notch.name))
            for ref in run
            for notch, copy in zip(
                on_edge(pattern.piece(ref.piece), ref.edge), on_edge(made, strip.edge_for(ref)), strict=True
            )
        )
        sewn.append(Seam(f"{made.name} to {names}", a, run, notches=pairs))
    return (*joined, *sewn)


def _runs(pattern: Pattern, strip: Strip) -> Iterator[tuple[EdgeRef, ...]]:
    """What a strip faces, from corner to corner."""
    for _, run in groupby(strip.faced, lambda ref: pattern.piece(ref.piece).edge(ref.edge).place in LAPPING):
        yield tuple(run)


def _on_strips(
    run: Iterable[EdgeRef], strips: Sequence[Strip], faced: Collection[tuple[str, str]]
) -> Iterable[EdgeRef]:
    """What of a run of edges lies at the ends of the facings."""
    for ref in run:
        for strip in strips:
            name = strip.edge_for(ref)
            if name is not None and (ref.piece, ref.edge) not in faced:
                yield EdgeRef(strip.piece.name, name, ref.backward)


def on_edge(piece: Piece, edge: str | None) -> tuple[Notch, ...]:
    """The notches of a piece on one of its edges, in its order."""
    return tuple(notch for notch in piece.notches if notch.station.edge == edge)
