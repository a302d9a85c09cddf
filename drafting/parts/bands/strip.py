"""A straight strip of knit drawn to an edge of the garment, stretch by stretch: its piece, seams, notches."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Final

from drafting.geometry import Line, Point
from drafting.parts.bands.band_edge import Stretch, StripBand
from drafting.parts.bands.band_notches import band_notches
from drafting.parts.drawn import Drawn
from drafting.pattern import (
    Cut,
    Edge,
    EdgeAs,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    Notch,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
)

__all__ = ["drawn_strip"]

_INSIDE: Final = 0.9  # of the width of a band, what is sewn in of a narrow one (ours)
_SEWS: Final = 0.02  # of an edge by which a band may be longer or shorter than said (ours)


def drawn_strip(
    pattern: Pattern,
    band: StripBand,
    marks: Sequence[tuple[str, Notch]],
    *,
    edges: Sequence[EdgeRef] = (),
    from_front: bool = False,
) -> Drawn:
    """The band with its seams; edges: the hems that it is sewn to."""
    pieces = {ref.piece: pattern.piece(ref.piece) for each in band.stretches for ref in each.refs}
    allowance = max(_seam_allowance(piece) for piece in pieces.values())
    if allowance > band.width:  # those of both its edges would lap over each other inside it
        allowance = _INSIDE * band.width
    notches, pairs = band_notches(pattern, band, marks, from_front=from_front)
    piece = _piece(band, allowance, notches)
    seams = tuple(
        Seam(
            f"{band.name} to {each.name}",
            each.refs,
            (EdgeRef(band.name, each.name),),
            _stretched(each),
            tuple((mark, NotchRef(band.name, name)) for mark, name in pairs.get(each.name, ())),
        )
        for each in band.stretches
        if each.refs
    )
    hems = {(ref.piece, ref.edge) for ref in edges}
    sewn = [
        _sewn_so_wide(pattern, ref, allowance, hemmed=(ref.piece, ref.edge) in hems)
        for each in band.stretches
        for ref in each.refs
    ]
    return Drawn((piece,), seams, tuple(marks), tuple(dict.fromkeys(each for each in sewn if each is not None)))


def _sewn_so_wide(pattern: Pattern, ref: EdgeRef, allowance: float, *, hemmed: bool) -> EdgeAs | None:
    """What an edge is with the band on it: a hem is sewn as a seam, any edge no wider than its band; None as it was."""
    piece = pattern.piece(ref.piece)
    edge = piece.edge(ref.edge)
    wide = min(allowance, _seam_allowance(piece) if hemmed else edge.allowance)
    if not hemmed and wide == edge.allowance:
        return None
    return EdgeAs(ref.piece, ref.edge, Role.SEAM if hemmed else edge.role, wide)


def _seam_allowance(piece: Piece) -> float:
    return max((edge.allowance for edge in piece.edges if edge.role is Role.SEAM), default=0.0)


def _stretched(part: Stretch) -> SeamEase:
    more, sews = part.length - part.rest, _SEWS * part.length
    return SeamEase(more, more - sews, more + sews)


def _piece(band: StripBand, allowance: float, notches: Sequence[Notch]) -> Piece:
    """The strip, its lower left corner at the origin; folded, its upper half lies behind the lower."""
    xs = list(accumulate((each.rest for each in band.stretches), initial=0.0))
    whole, deep, in_ = xs[-1], 2.0 * band.width, band.slant
    lower = [
        Edge(each.name, (Line(Point(a, 0.0), Point(b, 0.0)),), Role.SEAM, allowance, Place.BAND_EDGE)
        for each, (a, b) in zip(band.stretches, pairwise(xs), strict=True)
    ]
    end = (Point(whole, 0.0), Point(whole - in_, band.width), Point(whole, deep))
    start = (Point(0.0, deep), Point(in_, band.width), Point(0.0, 0.0))
    rest = [
        Edge(name, tuple(Line(a, b) for a, b in pairwise(points)), Role.SEAM, allowance, place)
        for name, points, place in (
            ("end", end if in_ else (end[0], end[2]), Place.BAND_END),
            ("upper edge", (end[2], start[0]), Place.BAND_EDGE),
            ("beginning", start if in_ else (start[0], start[2]), Place.BAND_END),
        )
    ]
    middle = 0.5 * band.width
    return Piece(
        band.name,
        (*lower, *rest),
        Cut(band.count),
        Grain(Point(0.5 * whole, 0.25 * middle), Point(0.5 * whole, deep - 0.25 * middle)),
        notches=tuple(notches),
        points=band.points,
        lines=(MarkLine("fold line", Point(in_, band.width), Point(whole - in_, band.width), level=Level.FOLD),),
        identity=Identity(PieceKind.BAND, band.part),
    )
