"""The grain line of a facing: on it, clear of its free edge."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.geometry import Curve, Line, Point, Vec, distance, lerp, run_at, run_hits, run_length
from drafting.geometry.offset import parallel_run
from drafting.pattern import CENTRES, Edge, Grain, Piece

__all__ = ["centre_way", "grain_within", "strip_grain"]

_GRAIN_SHARE: Final = 0.3  # of the strip's length and depth, to either side of the middle
_TRIED: Final = (0.1, 0.3, 0.5, 0.7, 0.9)  # shares of the free edge at which a grain line is tried in a small facing
_OFF_FREE_EDGE: Final = 2.0  # mm off the free edge at which it is tried there
_GRAIN_ENDS: Final = 0.2  # of what lies inside, which it leaves free at both its ends
_LEANS: Final = 0.005  # the sine of an angle between two directions that count as one
_LEVEL: Final = 1e-3  # a grain line turned less than this from the strip never leaves it


def strip_grain(piece: Piece, faced: Sequence[Curve], depth: float, centre: Vec | None) -> Grain:
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


def grain_within(outline: Sequence[Edge], grain: Grain, free: Sequence[Curve]) -> Grain:
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


def centre_way(edges: Sequence[Edge]) -> Vec | None:
    """The direction of a straight centre line of a strip; None where it has none."""
    found = (edge for edge in edges if edge.place in CENTRES and len(edge.curves) == 1)
    return next(((edge.end - edge.start).unit() for edge in found if isinstance(edge.curves[0], Line)), None)
