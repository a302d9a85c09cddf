"""Finding room for writing and squares on a drawing, clear of its lines."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from drafting.geometry import Point, lerp, polyline
from output.drawings.drawing import Box, Item, LineKind, Stroke, runs
from output.drawings.lettering import corners

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Segments = NDArray[np.float64]
    Places = Sequence[Point] | NDArray[np.float64]
    """Points, or a row (x, y) for each."""

__all__ = ["crowding", "first_clear", "grid", "inside", "least_crowded", "obstacles", "rows", "together", "within_box"]

_FLAT_ENOUGH = 0.3
"""How far the straight segments looked at may stray from a curve, mm: less than the air kept around writing."""

_FIRST_FEW, _AT_A_TIME = 8, 200
"""Places looked at together: few at first, since one of them is clear more often than not."""

_SQUARE_HATCH, _TEXT_HATCH = 5.0, 2.0


def obstacles(items: Iterable[Item], *, besides: Segments | None = None) -> Segments:
    """The lines and the writing of a drawing as straight segments, one row (x0, y0, x1, y1) each.

    A test square and the room of a text count as taken up whole. `besides` are segments that are there already.
    """
    import numpy as np

    ends: list[tuple[float, float, float, float]] = []
    for item in items:
        if isinstance(item, Stroke):
            for run in runs(item.curves):
                ends.extend((a.x, a.y, b.x, b.y) for a, b in pairwise(polyline(run, _FLAT_ENOUGH)))
                if item.kind is LineKind.SQUARE:
                    ends.extend(_hatch([curve.start for curve in run], _SQUARE_HATCH))
        else:
            ends.extend(_hatch(corners(item), _TEXT_HATCH))
    found = np.array(ends, dtype=float).reshape(-1, 4)
    return found if besides is None else together(besides, found)


def together(one: Segments, other: Segments) -> Segments:
    """The segments of both."""
    import numpy as np

    return np.concatenate((one, other))


def rows(places: Places) -> NDArray[np.float64]:
    """A row (x, y) for each place."""
    import numpy as np

    if isinstance(places, np.ndarray):
        return places
    return np.array([(p.x, p.y) for p in places], dtype=float).reshape(-1, 2)


def within_box(segments: Segments, box: Box) -> Segments:
    """The segments that may reach into a box."""
    import numpy as np

    low, high = np.minimum(segments[:, :2], segments[:, 2:]), np.maximum(segments[:, :2], segments[:, 2:])
    reach = (high >= (box.left, box.bottom)) & (low <= (box.right, box.top))
    found: Segments = segments[reach.all(axis=1)]
    return found


def first_clear(
    segments: Segments, centres: Places, size: tuple[float, float], *, angle: float | Sequence[float] = 0.0
) -> Point | None:
    """The first centre about which a rectangle (width, height in mm; turned by `angle` degrees) meets no segment.

    angle: one for all, or one for each centre
    None when there is no such centre.
    """
    centres = rows(centres)
    start, many = 0, _FIRST_FEW
    while start < len(centres):
        some = slice(start, start + many)
        turned = angle if isinstance(angle, float) else angle[some]
        clear = (crowding(segments, centres[some], size, angle=turned) == 0).nonzero()[0]
        if len(clear):
            return Point(*centres[start + int(clear[0])].tolist())
        start, many = start + many, _AT_A_TIME
    return None


def least_crowded(segments: Segments, centres: Places, size: tuple[float, float], *, angle: float = 0.0) -> Point:
    """The centre about which the rectangle meets the fewest segments; the first of those."""
    import numpy as np

    centres = rows(centres)
    return Point(*centres[int(np.argmin(crowding(segments, centres, size, angle=angle)))].tolist())


def crowding(
    segments: Segments, centres: Places, size: tuple[float, float], *, angle: float | Sequence[float] = 0.0
) -> NDArray[np.int64]:
    """How many segments the rectangle (width, height in mm; turned by `angle` degrees) about each centre meets.

    By the separating axes of a rectangle and a segment: the rectangle's two, and the segment's normal.
    angle: one for all, or one for each centre
    """
    import numpy as np

    at = rows(centres)
    half_x, half_y = 0.5 * size[0], 0.5 * size[1]
    # segments that none of the rectangles can reach, however it is turned, are dropped first
    reach = math.hypot(half_x, half_y)
    (left, bottom), (right, top) = at.min(axis=0) - reach, at.max(axis=0) + reach
    segments = within_box(segments, Box(left, bottom, right, top))
    if not len(segments):
        return np.zeros(len(centres), dtype=np.int64)
    # a row for each centre, a column for each segment; turned by -angle the rectangles stand upright
    turn = np.radians(np.reshape(angle, (-1, 1)))
    c, s = np.cos(turn), np.sin(turn)
    x, y = c * at[:, 0:1] + s * at[:, 1:2], c * at[:, 1:2] - s * at[:, 0:1]
    ax, ay = c * segments[:, 0] + s * segments[:, 1], c * segments[:, 1] - s * segments[:, 0]
    bx, by = c * segments[:, 2] + s * segments[:, 3], c * segments[:, 3] - s * segments[:, 2]
    near = (x + half_x >= np.minimum(ax, bx)) & (x - half_x <= np.maximum(ax, bx))
    near &= (y + half_y >= np.minimum(ay, by)) & (y - half_y <= np.maximum(ay, by))
    # the last axis is asked of those pairs alone that the other two leave
    centre, segment = near.nonzero()
    ax, ay, bx, by = (np.broadcast_to(each, near.shape)[centre, segment] for each in (ax, ay, bx, by))
    way_x, way_y = bx - ax, by - ay
    off = way_x * (y[centre, 0] - ay) - way_y * (x[centre, 0] - ax)
    met = np.abs(off) <= np.abs(way_x) * half_y + np.abs(way_y) * half_x
    return np.bincount(centre[met], minlength=len(centres))


def grid(box: Box, step: float, *, near: Point) -> NDArray[np.float64]:
    """A row (x, y) for each place in a box, about `step` mm apart, both borders included, the nearest to `near` first.

    None for a box that is turned inside out.
    """
    import numpy as np

    if box.width < 0.0 or box.height < 0.0:
        return rows([])
    across, up = math.ceil(box.width / step) + 1, math.ceil(box.height / step) + 1
    x = np.repeat(np.linspace(box.left, box.right, across), up)
    y = np.tile(np.linspace(box.top, box.bottom, up), across)
    # rounded, so that places equally far come in an order that rounding of a shift cannot change
    far = np.hypot(x - near.x, y - near.y).round(6)
    ranked = np.lexsort((x, -y, far))
    return np.stack((x[ranked], y[ranked]), axis=1)


def inside(polygon: Places, centres: Places) -> NDArray[np.bool_]:
    """For each place whether it lies in a closed polygon (even-odd rule)."""
    import numpy as np

    at, corner = rows(centres), rows(polygon)
    following = np.concatenate((corner[1:], corner[:1]))
    y = at[:, 1:2]
    straddles = (corner[:, 1] > y) != (following[:, 1] > y)
    rise = following[:, 1] - corner[:, 1]
    share = (y - corner[:, 1]) / np.where(rise == 0.0, 1.0, rise)
    crossing = corner[:, 0] + share * (following[:, 0] - corner[:, 0])
    hits = straddles & (at[:, 0:1] < crossing)
    odd: NDArray[np.bool_] = hits.sum(axis=1) % 2 == 1
    return odd


def _hatch(corner: Sequence[Point], spacing: float) -> list[tuple[float, float, float, float]]:
    """The four sides of a rectangle and lines across it, so that nothing fits inside unnoticed."""
    a, b, c, d = corner
    n = math.ceil((d - a).norm() / spacing)
    across = [(lerp(a, d, i / n), lerp(b, c, i / n)) for i in range(n + 1)]
    return [(p.x, p.y, q.x, q.y) for p, q in (*across, (a, d), (b, c))]
