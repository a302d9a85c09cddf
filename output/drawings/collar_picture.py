"""A collar in the picture of a garment: laid along the neck as it is worn, flat, standing, or turned down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Point, Vec, distance, polyline
from drafting.parts.collars.neck_line import neck_line
from drafting.pattern import Half, Level, Pattern, Piece, PieceKind, Place, edges_at, line_at, pieces_of
from output.drawings.flat_shape import FlatShape, at_share

__all__ = ["collar_lines"]

_FINE: Final = 1.0  # mm: nearer to the centre than this is on it
_DENSE: Final = 0.02  # mm by which a curve may lie beside the lines it is drawn with, so that these are short
_ROUND: Final = 2.4  # radians that half a neck turns by: 140 degrees, shoulders of 20 and 20 (common practice)
_BARELY: Final = 0.03  # share of the half neck beyond the shoulder that is drawn with this half
_SEEN_STANDING: Final = 0.85  # of its height, how high a stand is seen that leans to the neck (ours)


def collar_lines(pattern: Pattern, bodice: Sequence[FlatShape], half: Half) -> tuple[tuple[Point, ...], ...]:
    """The outlines of the layers of a collar that are seen on one half of the body, the undermost first."""
    worn = [piece for piece in pieces_of(pattern, PieceKind.COLLAR) if piece.identity.of in (None, PieceKind.BAND)]
    neck = sorted((p for shape in bodice for p in shape.line(Place.NECK)), key=lambda p: abs(p.x))
    if not worn or len(neck) < 2:
        return ()
    try:
        parts = neck_line(pattern, "collar").to_centre
    except NotAPattern:
        return ()
    behind = parts[-1].length / sum(part.length for part in parts)
    stand = next((_height(piece) for piece in worn if piece.identity.of is PieceKind.BAND), 0.0)
    lines = []
    for piece in sorted(worn, key=lambda each: each.identity.of is None):  # a stand lies below its fall
        how = _how(piece, stand)
        places = list(_along_neck(piece, how))
        points = [p for at in places if (p := _worn(neck, half, behind, *at, how)) is not None]
        lines.append((*points, points[0]))
    return tuple(lines)


def _height(piece: Piece) -> float:
    return min(edge.length for edge in edges_at(piece, Place.CENTRE_BACK, Place.CENTRE_FRONT, Place.COLLAR_END))


def _how(piece: Piece, stand: float) -> tuple[float, float, bool]:
    """How high above the neck a collar turns, how much of it lies below that fold, and whether it stands, mm."""
    roll = line_at(piece, Level.ROLL)
    if roll is not None:
        return roll.start.y, roll.start.y, False
    if edges_at(piece, Place.COLLAR_SEAM) and edges_at(piece, Place.NECK):
        return 0.0, 0.0, True  # the stand of a shirt collar
    if edges_at(piece, Place.COLLAR_SEAM):
        return stand, 0.0, False
    centre = [max(edge.start.y, edge.end.y) for edge in piece.edges if max(abs(edge.start.x), abs(edge.end.x)) < _FINE]
    return 0.0, 0.0, max(centre, default=0.0) > _FINE


def _along_neck(piece: Piece, how: tuple[float, float, bool]) -> Iterator[tuple[float, float, float]]:
    """Each place of its outline: the share of the neck from the front, how far off that, and beyond its end."""
    seam = edges_at(piece, Place.NECK) or edges_at(piece, Place.COLLAR_SEAM)
    base = [p for edge in seam for p in polyline(edge.curves, _DENSE)]
    from_back = abs(base[0].x) < abs(base[-1].x)
    if not from_back:
        base = base[::-1]
    lengths = [0.0]
    for one, other in pairwise(base):
        lengths.append(lengths[-1] + distance(one, other))
    roll = line_at(piece, Level.ROLL) is not None or not edges_at(piece, Place.NECK)
    turned = abs((base[1] - base[0]).angle_to(base[-1] - base[-2]))
    for edge in piece.edges:
        for place in polyline(edge.curves, _DENSE):
            k = min(range(len(base)), key=lambda at: distance(base[at], place))
            along = (base[k] - base[k - 1]) if k else (base[1] - base[0])
            off, beyond = distance(base[k], place), 0.0
            if k == len(base) - 1 and along.norm() > 0.0:
                beyond = max(0.0, (place - base[k]).dot(along.unit()))
                off = max(0.0, off * off - beyond * beyond) ** 0.5
            share = lengths[k] / lengths[-1]
            if roll:
                # turned down it lies on what is larger round than itself, and does not reach as far round it
                down = max(0.0, off - how[1])
                long = share * (lengths[-1] + off * turned) + beyond
                share, beyond = long / (lengths[-1] + down * _ROUND), 0.0
            yield 1.0 - share, off, beyond


def _worn(
    neck: Sequence[Point],
    half: Half,
    behind: float,
    share: float,
    off: float,
    beyond: float,
    how: tuple[float, float, bool],
) -> Point | None:
    """Where a place of a collar is seen, None where it lies on the other half; behind: the share of the neck that
    lies behind the shoulder.
    """
    lift, under, stands = how
    at = share / (1.0 - behind) if half is Half.FRONT else (1.0 - share) / behind
    if at > 1.0 + _BARELY:
        return None
    at = min(1.0, max(0.0, at))
    here = at_share(neck, at)
    along = (at_share(neck, min(1.0, at + 0.02)) - at_share(neck, max(0.0, at - 0.02))).unit()
    side = 1.0 if neck[-1].x > 0.0 else -1.0
    out = along.right() if side > 0.0 else along.left()
    if stands:
        return here + Vec(0.0, off * _SEEN_STANDING)
    down = max(0.0, off - under)
    top = here + Vec(0.0, lift * _SEEN_STANDING)
    ended = -along * beyond if half is Half.FRONT else Vec(0.0, 0.0)
    return top + out * down + ended
