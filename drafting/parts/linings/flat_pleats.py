"""Pleated pieces without their pleats: a lining that was folded too would lie three layers thick twice over.

It is as wide as the pleats show at the hip, straight down; what is too wide at its upper edge is eased into the lining
of a yoke, or laid in small tucks at the waist (common practice).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from drafting.geometry import Curve, Line, Point, run_bounds
from drafting.pattern import (
    CENTRES,
    Grain,
    MarkLine,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    Role,
    Seam,
    SeamEase,
    closed,
    place,
    with_pieces,
)
from drafting.pattern.pleats import PLEAT_LEVELS, is_pleated, pleats_of
from drafting.pattern.walk import GATHERED, run_total

__all__ = ["with_flat_pleats"]

_GIVE: Final = 0.1  # of what is eased in (ours)
_LEAST: Final = 0.5  # mm that is eased in (ours)
_OF_PLEATS: Final = (NotchMark.PLEAT_FOLD, NotchMark.PLEAT_PLACE)


def with_flat_pleats(pattern: Pattern) -> Pattern:
    """The pattern with every pleated piece flat, as wide as it shows at the hip; itself where nothing is pleated."""
    pleated = [piece for piece in pattern.pieces if is_pleated(piece)]
    if not pleated:
        return pattern
    bare = replace(pattern, seams=(), measures=())
    bare = with_pieces(bare, *map(_flat, pleated))
    names = {piece.name for piece in pleated}
    return replace(bare, seams=tuple(_sewn(bare, seam, names) for seam in pattern.seams))


def _flat(piece: Piece) -> Piece:
    """A piece with what its pleats fold away taken out, from its centre outward."""
    pleats = pleats_of(piece)

    def moved(at: Point) -> Point:
        return Point(_without(at.x, [(pleat.fold.end.x, pleat.place.end.x) for pleat in pleats]), at.y)

    def sewn(at: Point) -> Point:
        return Point(_without(at.x, [(pleat.fold.start.x, pleat.place.start.x) for pleat in pleats]), at.y)

    edges = tuple(replace(edge, curves=_moved(edge.curves, moved)) for edge in piece.edges)
    cut = piece.cut
    for seam in [edge for edge in edges if cut.mirror and edge.place in CENTRES]:
        if seam.role is Role.SEAM and not any(e.place is seam.place and e is not seam for e in edges):
            # the seam is there only to hide in a pleat
            edges = tuple(replace(e, role=Role.FOLD) if e is seam else e for e in edges)
            cut = cut.on_fold()
    flat = replace(
        piece,
        cut=cut,
        edges=closed(piece.name, edges),
        notches=(),
        lines=tuple(_line(line, moved) for line in piece.lines if line.level not in PLEAT_LEVELS),
        points=tuple(mark.placed(moved(mark.at)) for mark in piece.points),
    )
    if piece.grain is not None:
        left, _, right, _ = run_bounds(flat.outline)
        start, end = (Point(left + 0.25 * (right - left), at.y) for at in (piece.grain.start, piece.grain.end))
        flat = replace(flat, grain=Grain(start, end))
    kept = (notch for notch in piece.notches if notch.marks not in _OF_PLEATS)
    return replace(flat, notches=tuple(_notch(piece, flat, notch, sewn) for notch in kept))


def _moved(run: Sequence[Curve], moved: Callable[[Point], Point]) -> tuple[Curve, ...]:
    return tuple(Line(moved(curve.start), moved(curve.end)) for curve in run)


def _line(mark: MarkLine, moved: Callable[[Point], Point]) -> MarkLine:
    return replace(mark, start=moved(mark.start), end=moved(mark.end), curves=())


def _without(x: float, folded: Sequence[tuple[float, float]]) -> float:
    """A place across, mm, with what is folded away before it left out."""
    return x - sum(max(0.0, min(x, max(ends)) - min(ends)) for ends in folded)


def _notch(piece: Piece, flat: Piece, notch: Notch, sewn: Callable[[Point], Point]) -> Notch:
    """A notch at the same share of its edge as when the pleats are folded."""
    was, edge = piece.edge(notch.station.edge), flat.edge(notch.station.edge)
    at, start, end = sewn(place(piece, notch.station)[0]), sewn(was.start), sewn(was.end)
    first = start if notch.station.end == "start" else end
    return replace(notch, station=replace(notch.station, at=(at - first).norm() / (end - start).norm() * edge.length))


def _sewn(pattern: Pattern, seam: Seam, flat: set[str]) -> Seam:
    """A seam with as much eased in as its flat side is too long, and the notches that are left."""
    there = {(piece.name, notch.name) for piece in pattern.pieces for notch in piece.notches}

    def left(mark: NotchRef) -> bool:
        return (mark.piece, mark.notch) in there

    seam = replace(seam, notches=tuple(pair for pair in seam.notches if all(map(left, pair))))
    if not any(ref.piece in flat for ref in (*seam.a, *seam.b)):
        return seam
    long = run_total(pattern, seam.b)
    more = run_total(pattern, seam.a) - long
    if _LEAST < abs(more) <= GATHERED * long:  # centre and side say enough where so little is eased in
        seam = replace(seam, notches=())
    ends = sorted((more * (1.0 - _GIVE), more * (1.0 + _GIVE)))
    return replace(seam, ease=SeamEase(more, ends[0], ends[1]) if abs(more) > _LEAST else SeamEase())
