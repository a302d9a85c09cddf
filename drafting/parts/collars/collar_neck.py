"""The edge of a collar that is sewn to the neck, and its seams."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting.geometry import Curve, cut_run, end_tangents, fair, run_length
from drafting.parts.collars.neck_line import NeckLine, NeckPart
from drafting.pattern import Edge, EdgeRef, Notch, NotchMark, Piece, Place, Role, Seam, SeamEase, Station

__all__ = ["neck_allowance", "neck_edges", "neck_joints", "neck_seams"]

_SEWS: Final = 2.0  # mm either way by which the ease of a neck seam may be off


def neck_allowance(line: NeckLine) -> float:
    """The seam allowance of the neck, which its collar has there, mm."""
    return max(each.edge.allowance for part in line.to_centre for each in part.edges)


_SLIVER: Final = 1.0
"""mm: a curve shorter than that is the end of one that was cut (ours)."""


def neck_edges(run: Sequence[Curve], parts: Sequence[NeckPart], allowance: float) -> list[Edge]:
    """The neck of a collar parted as that of the garment is, in the order of the run."""
    whole, long = sum(part.length for part in parts), run_length(run)
    rest, edges = tuple(run), []
    for part in parts[:-1]:
        cut_off, rest = cut_run(rest, part.length / whole * long)
        edges.append(Edge(part.name, _without_slivers(cut_off), Role.SEAM, allowance, Place.NECK))
    return [*edges, Edge(parts[-1].name, _without_slivers(rest), Role.SEAM, allowance, Place.NECK)]


def _without_slivers(run: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """The run, what the cut left of a curve at either end drawn in one with the next: written to hundredths of a
    millimetre, a curve 0.1 mm long loses its direction.
    """
    if len(run) > 1 and run_length(run[:1]) < _SLIVER:
        run = (_in_one(run[0], run[1]), *run[2:])
    if len(run) > 1 and run_length(run[-1:]) < _SLIVER:
        run = (*run[:-2], _in_one(run[-2], run[-1]))
    return run


def _in_one(one: Curve, other: Curve) -> Curve:
    return fair(one.start, end_tangents(one)[0], other.end, end_tangents(other)[1])


def neck_joints(neck: Sequence[Edge], parts: Sequence[NeckPart]) -> list[Notch]:
    """A notch where each part of the neck ends in the next: at the shoulder, at the centre where a stand goes on.

    neck: the edges of the collar there; parts: of the garment, in the same order
    """
    return [
        Notch("centre front", Station(edge.name, 0.0, "end"), marks=NotchMark.CENTRE)
        if part.beyond or after.beyond
        else Notch(f"end of the {edge.name}", Station(edge.name, 0.0, "end"), marks=NotchMark.SHOULDER)
        for edge, (part, after) in zip(neck[:-1], pairwise(parts), strict=True)
    ]


def neck_seams(piece: Piece, parts: Sequence[NeckPart], ease: float = 0.0, *, backward: bool = False) -> list[Seam]:
    """The seams that sew a collar to the parts of the neck, which are longer by `ease` mm in all.

    backward: whether the neck of the collar runs from the back to the front
    """
    forward = tuple(reversed(parts)) if backward else tuple(parts)
    whole = sum(part.length for part in parts)
    seams = []
    for part in (each for each in forward if not each.beyond):
        # what a stand has beyond the centre is sewn in one go with the front
        run = [each for each in forward if each.beyond and part is forward[1]] + [part]
        more = ease * sum(each.length for each in run) / whole
        eased = SeamEase(more, 0.0, more + _SEWS) if ease else SeamEase()
        refs = tuple(laid.ref for each in run for laid in each.edges)
        seams.append(
            Seam(
                f"{piece.name} to {part.name}",
                refs,
                tuple(EdgeRef(piece.name, each.name, backward) for each in run),
                eased,
            )
        )
    return seams
