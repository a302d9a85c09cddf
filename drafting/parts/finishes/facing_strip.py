"""Facings: a strip with the shape of the edge it is sewn to, cut on the same grain (common practice).

A facing is traced from its piece with the darts folded and the panels laid together: its outer edge is the piece's own,
its free edge runs parallel to that, and its ends are what lies between of the piece's other edges, so that it is sewn
together at its ends as the pieces are. Where it goes round a corner, as from a neck down a button stand, its free edge
goes round inside it, rounded; one that would run out to a point at a fold, below a V neck, is cut square to the fold
(both common practice).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby, pairwise
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    run_length,
    run_reversed,
)
from drafting.geometry.outline import starting_at, stretch
from drafting.parts.finishes.free_edge import blunted, chained, edge_ended_at, parallel_extended, rounded, until_met
from drafting.parts.finishes.laid_strip import LaidRound, laid_round, laps_over, turned_about
from drafting.parts.finishes.strip_grain import centre_way, grain_within, strip_grain
from drafting.parts.finishes.strip_seams import Strip, on_edge
from drafting.parts.folded_outline import LaidEdge
from drafting.pattern import (
    Edge,
    Identity,
    MarkPoint,
    Notch,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Station,
    closed,
    free_name,
)
from drafting.pattern.unfinished import has_inner_layer

__all__ = ["FACING", "FREE_EDGE", "V_POINT", "draw_strip", "strip_of"]

FACING: Final = 60.0
"""mm. How deep a facing is unless another depth is asked for: 5 to 6 cm (common practice, from memory)."""

FREE_EDGE: Final = "free edge"
"""What the edge is called that is sewn to nothing; it is neatened, and has no allowance."""

V_POINT: Final = "point of the V"
"""What the lowest point of a V neck is called, on the piece and on its facing."""


_LEAST: Final = 10.0
"""mm. A strip less deep cannot be sewn and turned (our figure)."""


def draw_strip(
    pattern: Pattern,
    piece: Piece,
    depths: Mapping[Place, float],
    *,
    name: str,
    ends: tuple[float | None, float | None] = (None, None),
    free: float = 0.0,
    laid: LaidRound | None = None,
    least: float = _LEAST,
    pointed: bool = False,
) -> Strip:
    """The facing of a piece along its edges at the first of these places, and at the others where they run on from it.

    depths: how deep it is at each place, mm
    ends: how long its end is to be along the garment's own edges, before the faced edge and after it, mm; None for what
          the parallel gives. The free edge is then led there, more the nearer it comes to that end
    free: the allowance at its free edge, where that is sewn to a lining; least: how deep it has to be; mm
    laid: what it is drawn round where that is more than the piece has, as over a sleeve cut up to the neck
    pointed: whether it may run out to a point at a centre line, so that what is left of the piece keeps its own point
    Raises NotAPattern where the piece is too small for it or it is too shallow to be sewn.
    """
    depth = min(depths.values())
    if depth < least:
        reason = f"a facing is {least:.0f} mm deep at least, and this one would be {depth:.1f} mm"
        raise NotAPattern(name, reason=reason)
    faced, onward, back = laid or laid_round(pattern, piece, depths)
    sides = [tuple(side) for _, side in groupby(faced, laps_over)]
    runs = [chained([curve for each in side for curve in each.edge.curves]) for side in sides]
    deep = [depths[side[0].edge.place or next(iter(depths))] for side in sides]
    frees = [parallel_extended(name, run, by) for run, by in zip(runs, deep, strict=True)]
    inside = frees[0]
    for each in frees[1:]:
        inside = rounded(name, inside, each)
    if not pointed:
        inside = blunted(name, inside, onward, deep[-1], last=True)
        inside = blunted(name, inside, back, deep[0], last=False)
    after, high = until_met(name, onward, inside, last=False)
    before, low = until_met(name, back, inside, last=True)
    gone = {(each.ref.piece, each.ref.edge) for each in after}
    if high <= low or gone & {(each.ref.piece, each.ref.edge) for each in before}:
        raise NotAPattern(name, reason=f"the piece is too small for a facing {depth:.0f} mm deep")
    inner = stretch(inside, low, high)
    inner, before = edge_ended_at(inner, before, ends[0], back, at_start=True, bends=len(frees) == 1)
    inner, after = edge_ended_at(inner, after, ends[1], onward, at_start=False, bends=len(frees) == 1)
    # from where the free edge meets what follows the faced one back to where it meets what comes before
    inner = run_reversed(inner)
    grain = max(zip(runs, deep, strict=True), key=lambda side: run_length(side[0]))
    return strip_of(pattern, piece, name, (faced, after, before), inner, grain, free=free)


def strip_of(
    pattern: Pattern,
    piece: Piece,
    name: str,
    round_it: tuple[Sequence[LaidEdge], Sequence[LaidEdge], Sequence[LaidEdge]],
    inner: Sequence[Curve],
    grain: tuple[Sequence[Curve], float],
    *,
    also: Sequence[LaidEdge] = (),
    free: float = 0.0,
) -> Strip:
    """The facing as a piece.

    round_it: the faced edges, those after them to where the free edge begins, those before them, walked away from them
    inner: the free edge, from there to the last of those
    grain: the run along which its grain is placed, and how deep it is there, mm
    also: what of the edges after or before is faced too; free: the allowance of the free edge, mm
    """
    faced, after, before = round_it
    inner = (starting_at(inner[0], after[-1].edge.end), *inner[1:])
    laid = [*(replace(each, edge=_sewn(each.edge)) for each in faced), *after, *map(turned_about, reversed(before))]
    named = _named(laid)
    edges = [replace(each.edge, name=name) for each, name in zip(laid, named, strict=True)]
    middle = len(faced) + len(after)
    free_edge = free_name(FREE_EDGE, named)
    edges.insert(middle, Edge(free_edge, inner, allowance=free, place=Place.FACING_EDGE))
    own = {(each.ref.piece, each.ref.edge): edge for each, edge in zip(laid, named, strict=True)}
    # no seam carries the free edge on, so that its ends need not make a line with anything
    free_ends = ((edges[middle - 1].name, free_edge), (free_edge, edges[(middle + 1) % len(edges)].name))
    first = pattern.piece(faced[0].ref.piece)
    cuts = [pattern.piece(each.ref.piece).cut for each in faced]
    cut = next((each for each in cuts if each.fold), first.cut)
    if cut.fold and all(edge.role is not Role.FOLD for edge in edges):
        cut = replace(cut, count=2 * cut.count, fold=False, mirror=True)  # away from the fold: a left and a right one
    if has_inner_layer(first):  # the outer layer of a band is faced, the inner one is not
        cut = replace(cut, count=cut.count // 2)
    outline = closed(name, tuple(edges))
    made = Piece(
        name,
        outline,
        replace(cut, interfacing=cut.count),
        grain_within(outline, strip_grain(first, *grain, centre_way(edges)), inner),
        notches=_notches(pattern, (*faced, *also), own),
        points=tuple(_v_points(edges, _points(pattern, own))),
        points_meant=(*_points(pattern, own), *free_ends),
        identity=Identity(PieceKind.FACING, piece.identity.part, of=piece.identity.kind, side=piece.identity.side),
    )
    refs = tuple((each.ref, edge) for each, edge in zip(laid, named, strict=True))
    return Strip(made, refs, tuple(each.ref for each in (*faced, *also)))


def _sewn(edge: Edge) -> Edge:
    return replace(edge, role=Role.SEAM)


def _named(laid: Sequence[LaidEdge]) -> list[str]:
    """A name for each edge, its own where no panel has another of that name."""
    names: list[str] = []
    for each in laid:
        names.append(free_name(each.edge.name, names))
    return names


def _notches(pattern: Pattern, faced: Sequence[LaidEdge], own: dict[tuple[str, str], str]) -> tuple[Notch, ...]:
    """The notches of the faced edges, which the facing has as well, each under a name of its own."""
    out: list[Notch] = []
    for each in faced:
        for notch in on_edge(pattern.piece(each.ref.piece), each.ref.edge):
            station = Station(own[each.ref.piece, each.ref.edge], notch.station.at, notch.station.end)
            out.append(replace(notch, name=free_name(notch.name, [other.name for other in out]), station=station))
    return tuple(out)


def _points(pattern: Pattern, own: dict[tuple[str, str], str]) -> tuple[tuple[str, str], ...]:
    """The corners that are meant on the garment and lie on the facing too."""
    return tuple(
        (own[name, one], own[name, other])
        for name in dict.fromkeys(piece for piece, _ in own)
        for one, other in pattern.piece(name).points_meant
        if (name, one) in own and (name, other) in own
    )


def _v_points(edges: Sequence[Edge], meant: Collection[tuple[str, str]]) -> Iterator[MarkPoint]:
    """The point of a V on a fold: no notch can be cut there, so that it is marked."""
    for one, other in pairwise([*edges, edges[0]]):
        pointed = (one.name, other.name) in meant or (other.name, one.name) in meant
        if pointed and {one.place, other.place} & {Place.NECK} and Role.FOLD in (one.role, other.role):
            yield MarkPoint(V_POINT, one.end)
