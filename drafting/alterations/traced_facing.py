"""Facings: a strip with the shape of the edge it is sewn to, cut on the same grain (common practice).

A facing is drawn by tracing the piece: its outer edge is the piece's own, its free edge runs parallel to that, and its
ends are what lies between of the piece's other edges, so that it is sewn together at its ends as the pieces are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, Vec, end_tangents, lerp, run_at, run_length, run_reversed
from drafting.geometry.meet import run_meetings
from drafting.geometry.offset import parallel_run
from drafting.geometry.outline import starting_at, stretch
from drafting.pattern import Edge, EdgeRef, Grain, Pattern, Piece, Role, Seam, closed

__all__ = ["FACING", "FREE_EDGE", "facing", "facing_seams", "seam_allowance"]

FACING: Final = 60.0
"""mm. How deep a facing is unless told otherwise: 5 to 6 cm (common practice, from memory)."""

FREE_EDGE: Final = "free edge"
"""The name of a facing's edge that is sewn to nothing; it is neatened, and has no allowance."""

_LEAST: Final = 10.0
"""mm. A strip less deep cannot be sewn and turned (our figure)."""

_GRAIN_SHARE: Final = 0.3  # of the strip's length and depth, to either side of the middle
_LEVEL: Final = 1e-3  # a grain line turned less than this from the strip never leaves it


def facing(piece: Piece, edge: str, depth: float, *, name: str, allowance: float | None = None) -> Piece:
    """The facing of one edge of a piece, `depth` mm deep.

    Its other edges keep the piece's names; the faced edge is a seam with this allowance, else the piece's own.
    Raises NotAPattern where the piece is too small for it, a dart lies in the way, or it is too shallow to be sewn.
    """
    if depth < _LEAST:
        raise NotAPattern(name, f"a facing is {_LEAST:.0f} mm deep at least, and this one would be {depth:.1f} mm")
    at = next(k for k, each in enumerate(piece.edges) if each.name == edge)
    faced = piece.edges[at]
    rest = (*piece.edges[at + 1 :], *piece.edges[:at])
    free = _lead(_chained(parallel_run(faced.curves, -depth)), depth)
    after, high = _until(name, rest, free, last=False)
    before, low = _until(name, tuple(_reversed(each) for each in reversed(rest)), free, last=True)
    if high <= low or {each.name for each in after} & {each.name for each in before}:
        raise NotAPattern(name, f"the piece is too small for a facing {depth:.0f} mm deep")
    # from where the free edge meets what follows the faced one back to where it meets what comes before
    inner = run_reversed(stretch(free, low, high))
    inner = (starting_at(inner[0], after[-1].end), *inner[1:])
    edges = (
        replace(faced, role=Role.SEAM, allowance=faced.allowance if allowance is None else allowance),
        *after,
        Edge(FREE_EDGE, inner),
        *(_reversed(each) for each in reversed(before)),
    )
    # no seam carries the free edge on, so that its ends need not make a line with anything
    ends = ((after[-1].name, FREE_EDGE), (FREE_EDGE, before[-1].name))
    names = {each.name for each in edges}
    meant = tuple(pair for pair in piece.points_meant if set(pair) <= names)
    return Piece(name, closed(name, edges), piece.cut, _grain(piece, faced, depth), points_meant=(*meant, *ends))


def facing_seams(pattern: Pattern, faced: Sequence[tuple[str, str]], facings: Sequence[Piece]) -> tuple[Seam, ...]:
    """The seams of facings, in the order of sewing: the facings to each other, then each to its piece's edge.

    faced: the pieces and edges that the facings were drawn for, in the order of the facings
    """
    by_piece = {name: made for (name, _), made in zip(faced, facings, strict=True)}
    joined = []
    for seam in pattern.seams:
        a, b = (_of_facings(run, by_piece) for run in (seam.a, seam.b))
        if a and b:
            joined.append(Seam(f"{seam.name} of the facings", a, b))
    sewn = [
        Seam(f"{made.name} to {edge}", (EdgeRef(made.name, edge),), (EdgeRef(name, edge),))
        for (name, edge), made in zip(faced, facings, strict=True)
    ]
    return (*joined, *sewn)


def seam_allowance(piece: Piece) -> float:
    """The widest seam allowance of a piece, mm; 15 where none of its edges is a seam."""
    return max((edge.allowance for edge in piece.edges if edge.role is Role.SEAM), default=15.0)


def _of_facings(run: Sequence[EdgeRef], by_piece: dict[str, Piece]) -> tuple[EdgeRef, ...]:
    """What is left of a run of edges on the facings; empty where some of its pieces have none."""
    out = []
    for ref in run:
        if ref.piece not in by_piece:
            return ()
        made = by_piece[ref.piece]
        if any(edge.name == ref.edge for edge in made.edges):
            out.append(EdgeRef(made.name, ref.edge, ref.backward))
    return tuple(out)


def _chained(run: Sequence[Curve]) -> tuple[Curve, ...]:
    """A run with the gaps of rounding closed, where the faced edge turns a hair at a joint."""
    out = list(run[:1])
    for curve in run[1:]:
        out.append(starting_at(curve, out[-1].end))
    return tuple(out)


def _lead(run: Sequence[Curve], depth: float) -> tuple[Curve, ...]:
    """A run with straight leads at both ends, so that it reaches what lies beside it."""
    if not run:
        raise NotAPattern("facing", "its edge is too hollow to be faced so deeply")
    out, on = end_tangents(run[0])[0], end_tangents(run[-1])[1]
    far = 3.0 * depth
    return Line(run[0].start - out * far, run[0].start), *run, Line(run[-1].end, run[-1].end + on * far)


def _until(name: str, edges: Sequence[Edge], free: Sequence[Curve], *, last: bool) -> tuple[tuple[Edge, ...], float]:
    """The edges from a corner of the faced one to where the free edge meets them, and where on the free edge that is.

    The meeting nearest to the middle of the free edge is taken on the first edge that has one.
    """
    kept: list[Edge] = []
    for edge in edges:
        if edge.role is Role.DART_LEG:
            raise NotAPattern(name, "a dart lies in its way; make it less deep")
        meets = run_meetings(edge.curves, free)
        if meets:
            i, j, meeting = min(meets, key=lambda found: found[0] + found[2].at_a)
            curves = stretch(edge.curves, 0.0, i + meeting.at_a)
            if curves:
                kept.append(replace(edge, curves=curves))
            return tuple(kept), j + meeting.at_b
        kept.append(edge)
    side = "before" if last else "after"
    raise NotAPattern(name, f"its free edge meets nothing {side} the faced one")


def _reversed(edge: Edge) -> Edge:
    return replace(edge, curves=run_reversed(edge.curves))


def _grain(piece: Piece, faced: Edge, depth: float) -> Grain:
    """A grain line like the piece's own in the middle of the strip, as long as stays well inside it."""
    up = Vec(0.0, 1.0) if piece.grain is None else (piece.grain.end - piece.grain.start).unit()
    whole = run_length(faced.curves)
    edge = (faced.end - faced.start).unit()
    along, across = abs(edge.dot(up)), abs(edge.cross(up))
    half = min(_GRAIN_SHARE * size / max(share, _LEVEL) for size, share in ((whole, along), (depth, across)))
    middle = _middle(faced, whole, depth)
    return Grain(middle - up * half, middle + up * half)


def _middle(faced: Edge, whole: float, depth: float) -> Point:
    inner = parallel_run(faced.curves, -depth)
    return lerp(run_at(faced.curves, 0.5 * whole), run_at(inner, 0.5 * run_length(inner)), 0.5)
