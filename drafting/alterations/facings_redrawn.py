"""Facings that follow: whatever a step does to a piece, what faces an edge of it is traced anew from the piece.

A facing has the shape of the edge that it is sewn to (common practice), so it is never altered by itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from drafting.alterations.traced_facing import FREE_EDGE, facing
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import distance, run_at, run_hits, run_length, run_tangent
from drafting.geometry.tolerance import OFFSET
from drafting.pattern import Pattern, Piece, closed, with_pieces

__all__ = ["facings_followed"]

_SAME: Final = 2.5 * OFFSET
"""mm. A facing traced anew that strays no further from the old one is the old one: parallel curves are no nearer."""

_PLACES: Final = 8
_DEPTH_DIGITS: Final = 1  # a facing is asked for in millimetres or parts of an inch


@dataclass(frozen=True, slots=True)
class _Facing:
    """A facing, and the piece and the edge that it faces. own: what that edge is called on the facing."""

    strip: Piece
    own: str
    piece: Piece
    edge: str


def facings_followed(step: str, before: Pattern, after: Pattern) -> Pattern:
    """The altered pattern with every facing of a piece that was altered traced anew from it.

    A facing that was not there before was drawn by this very step, from the piece as it is now.
    Raises StepRefused where that cannot be: the step has to be taken before the edge is faced.
    """
    anew, was = [], {piece.name: piece for piece in before.pieces}
    for each in _facings(after):
        if each.strip.name not in was or each.piece is was.get(each.piece.name):
            continue
        try:
            strip = _traced(each)
        except NotAPattern as error:
            raise StepRefused(
                step,
                f'"{each.strip.name}" cannot follow "{each.piece.name}": {error.reason}; put this step before the one '
                "that made the facing",
            ) from error
        if _strayed(each.strip, strip) > _SAME:
            anew.append(strip)
    return with_pieces(after, *anew) if anew else after


def _facings(pattern: Pattern) -> Iterator[_Facing]:
    """Every facing of one edge of one piece."""
    strips = {piece.name for piece in pattern.pieces if any(edge.name == FREE_EDGE for edge in piece.edges)}
    if not strips:
        return
    for seam in pattern.seams:
        if len(seam.a) == len(seam.b) == 1 and seam.a[0].piece in strips and seam.b[0].piece not in strips:
            (own,), (faced,) = seam.a, seam.b
            yield _Facing(pattern.piece(own.piece), own.edge, pattern.piece(faced.piece), faced.edge)


def _traced(old: _Facing) -> Piece:
    """The facing as it is when it is drawn for the piece as it now is, its edges called as they were."""
    allowance = old.strip.edge(old.own).allowance
    new = facing(old.piece, old.edge, _depth(old), name=old.strip.name, allowance=allowance)
    if len(new.edges) != len(old.strip.edges):
        raise NotAPattern(old.strip.name, "other edges come to it than before")
    # the old one may begin with another edge
    first = next(k for k, edge in enumerate(old.strip.edges) if edge.name == old.own)
    were = (*old.strip.edges[first:], *old.strip.edges[:first])
    names = {edge.name: was.name for edge, was in zip(new.edges, were, strict=True)}
    edges = tuple(replace(edge, name=names[edge.name]) for edge in new.edges)
    meant = tuple((names[one], names[other]) for one, other in new.points_meant)
    return replace(new, edges=closed(new.name, edges), points_meant=meant, notches=old.strip.notches)


def _depth(old: _Facing) -> float:
    """How deep it is, mm: square across from the middle of the faced edge to the free one."""
    run = old.strip.edge(old.own).curves
    middle = 0.5 * run_length(run)
    inward = run_tangent(run, middle).left()
    hits = run_hits(old.strip.edge(FREE_EDGE).curves, run_at(run, middle), inward)
    depths = [hit.along for _, hit in hits if hit.along > 0.0]
    if not depths:
        raise NotAPattern(old.strip.name, "it cannot be told how deep it is")
    deep = min(depths)
    plain = round(deep, _DEPTH_DIGITS)
    return plain if abs(plain - deep) <= OFFSET else deep


def _strayed(one: Piece, other: Piece) -> float:
    """How far any place on an edge lies from the place at the same share of the edge of the same name, mm."""
    return max(
        distance(run_at(edge.curves, share * edge.length), run_at(twin.curves, share * twin.length))
        for edge, twin in ((edge, other.edge(edge.name)) for edge in one.edges)
        for share in (k / _PLACES for k in range(_PLACES + 1))
    )
