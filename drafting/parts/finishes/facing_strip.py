"""Facings: a strip with the shape of the edge it is sewn to, cut on the same grain (common practice).

A facing is traced from its piece with the darts folded and the panels laid together: its outer edge is the piece's own,
its free edge runs parallel to that, and its ends are what lies between of the piece's other edges, so that it is sewn
together at its ends as the pieces are. Where it goes round a corner, as from a neck down a button stand, its free edge
goes round inside it, rounded; one that would run out to a point at a fold, below a V neck, is cut square to the fold
(both common practice).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    distance,
    lerp,
    run_at,
    run_hits,
    run_length,
    run_reversed,
)
from drafting.geometry.offset import parallel_run
from drafting.geometry.outline import starting_at, stretch
from drafting.parts.finishes.free_edge import blunted, chained, edge_ended_at, parallel_extended, rounded, until
from drafting.parts.folded_outline import LaidEdge, laid_from
from drafting.pattern import (
    CENTRES,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    MarkPoint,
    Notch,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Station,
    closed,
    free_name,
)
from drafting.pattern.unfinished import has_inner_layer

__all__ = [
    "FACING",
    "FREE_EDGE",
    "LAPPING",
    "V_POINT",
    "Strip",
    "draw_strip",
    "end_length",
    "laid_round",
    "strip_of",
    "strip_seams",
]

FACING: Final = 60.0
"""mm. How deep a facing is unless another depth is asked for: 5 to 6 cm (common practice, from memory)."""

FREE_EDGE: Final = "free edge"
"""What the edge is called that is sewn to nothing; it is neatened, and has no allowance."""

V_POINT: Final = "point of the V"
"""What the lowest point of a V neck is called, on the piece and on its facing."""

LAPPING: Final = (Place.STAND_EDGE, Place.WRAP_EDGE)
"""Edges that lap over: a corner lies between one of them and what it meets."""

_LEAST: Final = 10.0
"""mm. A strip less deep cannot be sewn and turned (our figure)."""

_GRAIN_SHARE: Final = 0.3  # of the strip's length and depth, to either side of the middle
_TRIED: Final = (0.1, 0.3, 0.5, 0.7, 0.9)  # shares of the free edge at which a grain line is tried in a small facing
_OFF_FREE_EDGE: Final = 2.0  # mm off the free edge at which it is tried there
_GRAIN_ENDS: Final = 0.2  # of what lies inside, which it leaves free at both its ends
_LEANS: Final = 0.005  # the sine of an angle between two directions that count as one
_LEVEL: Final = 1e-3  # a grain line turned less than this from the strip never leaves it


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


def draw_strip(
    pattern: Pattern,
    piece: Piece,
    depths: Mapping[Place, float],
    *,
    name: str,
    ends: tuple[float | None, float | None] = (None, None),
    free: float = 0.0,
) -> Strip:
    """The facing of a piece along its edges at the first of these places, and at the others where they run on from it.

    depths: how deep it is at each place, mm
    ends: how long its end is to be along the garment's own edges, before the faced edge and after it, mm; None for what
          the parallel gives. The free edge is then led there, more the nearer it comes to that end
    free: the allowance at its free edge, where that is sewn to a lining, mm
    Raises NotAPattern where the piece is too small for it or it is too shallow to be sewn.
    """
    depth = min(depths.values())
    if depth < _LEAST:
        raise NotAPattern(name, f"a facing is {_LEAST:.0f} mm deep at least, and this one would be {depth:.1f} mm")
    faced, onward, back = laid_round(pattern, piece, depths)
    sides = [tuple(side) for _, side in groupby(faced, _laps)]
    runs = [chained([curve for each in side for curve in each.edge.curves]) for side in sides]
    deep = [depths[side[0].edge.place or next(iter(depths))] for side in sides]
    frees = [parallel_extended(name, run, by) for run, by in zip(runs, deep, strict=True)]
    inside = frees[0]
    for each in frees[1:]:
        inside = rounded(name, inside, each)
    inside = blunted(name, inside, onward, deep[-1], last=True)
    inside = blunted(name, inside, back, deep[0], last=False)
    after, high = until(name, onward, inside, last=False)
    before, low = until(name, back, inside, last=True)
    gone = {(each.ref.piece, each.ref.edge) for each in after}
    if high <= low or gone & {(each.ref.piece, each.ref.edge) for each in before}:
        raise NotAPattern(name, f"the piece is too small for a facing {depth:.0f} mm deep")
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
    laid = [*(replace(each, edge=_sewn(each.edge)) for each in faced), *after, *map(_turned, reversed(before))]
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
        _within(outline, _grain(first, *grain, _centre_way(edges)), inner),
        notches=_notches(pattern, (*faced, *also), own),
        points=tuple(_v_points(edges, _points(pattern, own))),
        points_meant=(*_points(pattern, own), *free_ends),
        identity=Identity(PieceKind.FACING, piece.identity.part, of=piece.identity.kind, side=piece.identity.side),
    )
    refs = tuple((each.ref, edge) for each, edge in zip(laid, named, strict=True))
    return Strip(made, refs, tuple(each.ref for each in (*faced, *also)))


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
                _on_edge(pattern.piece(ref.piece), ref.edge), _on_edge(made, strip.edge_for(ref)), strict=True
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


def _laps(each: LaidEdge) -> bool:
    return each.edge.place in LAPPING


def laid_round(
    pattern: Pattern, piece: Piece, depths: Mapping[Place, float]
) -> tuple[tuple[LaidEdge, ...], tuple[LaidEdge, ...], tuple[LaidEdge, ...]]:
    """The edges that are faced, those that follow them, and those that come before, walked away from them."""

    def along(walk: Iterable[LaidEdge]) -> Iterator[LaidEdge]:
        """What is faced of a walk: an edge that laps over ends it, what lies at the other end of that does not."""
        for count, each in enumerate(walk):
            if each.edge.place not in depths:
                return
            yield each
            if count and _laps(each):
                return

    some = next(edge for edge in piece.edges if edge.place is next(iter(depths)) and edge.role is not Role.DART_LEG)
    *_, first = along(laid_from(pattern, piece, some.name, onward=False))
    start = pattern.piece(first.ref.piece)
    onward = tuple(laid_from(pattern, start, first.ref.edge, onward=True))
    faced = tuple(along(onward))
    back = tuple(laid_from(pattern, start, first.ref.edge, onward=False))
    return faced, onward[len(faced) :], back[1:]


def _sewn(edge: Edge) -> Edge:
    return replace(edge, role=Role.SEAM)


def _turned(each: LaidEdge) -> LaidEdge:
    return replace(each, edge=replace(each.edge, curves=run_reversed(each.edge.curves)))


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
        for notch in _on_edge(pattern.piece(each.ref.piece), each.ref.edge):
            station = Station(own[each.ref.piece, each.ref.edge], notch.station.at, notch.station.end)
            out.append(replace(notch, name=free_name(notch.name, [other.name for other in out]), station=station))
    return tuple(out)


def _on_edge(piece: Piece, edge: str | None) -> tuple[Notch, ...]:
    """The notches of a piece on one of its edges, in its order."""
    return tuple(notch for notch in piece.notches if notch.station.edge == edge)


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


def _centre_way(edges: Sequence[Edge]) -> Vec | None:
    """The direction of a straight centre line of a strip; None where it has none."""
    found = (edge for edge in edges if edge.place in CENTRES and len(edge.curves) == 1)
    return next(((edge.end - edge.start).unit() for edge in found if isinstance(edge.curves[0], Line)), None)


def _grain(piece: Piece, faced: Sequence[Curve], depth: float, centre: Vec | None) -> Grain:
    """A grain line like the piece's own, or along the centre line of the strip: in its middle, well inside it."""
    up = Vec(0.0, 1.0) if piece.grain is None else (piece.grain.end - piece.grain.start).unit()
    if centre is not None and abs(up.cross(centre)) > _LEANS:
        up = centre if centre.dot(up) > 0.0 else -centre  # a dart closed between has turned it
    whole = run_length(faced)
    edge = (faced[-1].end - faced[0].start).unit()
    along, across = abs(edge.dot(up)), abs(edge.cross(up))
    half = min(_GRAIN_SHARE * size / max(share, _LEVEL) for size, share in ((whole, along), (depth, across)))
    inner = parallel_run(faced, -depth)
    middle = lerp(run_at(faced, 0.5 * whole), run_at(inner, 0.5 * run_length(inner)), 0.5)
    return Grain(middle - up * half, middle + up * half)


def _within(outline: Sequence[Edge], grain: Grain, free: Sequence[Curve]) -> Grain:
    """The grain line, or where it runs out of a small facing the longest one that begins off its free edge."""
    curves = [curve for edge in outline for curve in edge.curves]
    middle, along = lerp(grain.start, grain.end, 0.5), grain.end - grain.start
    up, half = along.unit(), 0.5 * along.norm()
    clear = _clear(curves, middle, up)
    if clear is not None and clear[0] <= -half and half <= clear[1]:
        return grain
    found: list[tuple[Point, Point]] = []
    whole = run_length(free)
    for share in _TRIED:
        at = run_at(free, share * whole)
        for way in (up, -up):
            inside = at + way * _OFF_FREE_EDGE
            stretched = _clear(curves, inside, up)
            if stretched is not None:
                found.append((inside + up * stretched[0], inside + up * stretched[1]))
    if not found:
        return grain
    start, end = max(found, key=lambda ends: distance(*ends))
    return Grain(lerp(start, end, _GRAIN_ENDS), lerp(start, end, 1.0 - _GRAIN_ENDS))


def _clear(curves: Sequence[Curve], place: Point, up: Vec) -> tuple[float, float] | None:
    """How far a line through a place runs inside the outline, back and ahead, mm; None where the place lies outside."""
    hits = sorted(hit.along for _, hit in run_hits(curves, place, up))
    ahead = [along for along in hits if along > 0.0]
    back = [along for along in hits if along < 0.0]
    if len(ahead) % 2 == 0 or not back:
        return None
    return back[-1], ahead[0]
