"""Finding room for writing and squares on a drawing, clear of its lines."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from drafting.dataclass import dataclass
from drafting.geometry import Point, lerp, polyline
from output.drawings.drawing import Box, Item, LineKind, Stroke, runs
from output.drawings.lettering import corners

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from shapely import STRtree

    Places = Sequence[Point] | NDArray[np.float64]
    """Points, or a row (x, y) for each."""
    Angle = float | Sequence[float] | NDArray[np.float64]

__all__ = [
    "Obstacles",
    "crowding",
    "first_clear",
    "grid",
    "inside",
    "least_crowded",
    "obstacles",
    "rows",
    "taken_up",
    "together",
    "which_clear",
]

_FLAT_ENOUGH = 0.3
"""How far the straight segments looked at may stray from a curve, mm: less than the air kept around writing."""

_FIRST_FEW, _AT_A_TIME = 8, 200
"""Places looked at together: few at first, since one of them is clear more often than not."""

_SQUARE_HATCH, _TEXT_HATCH = 5.0, 2.0


@dataclass(frozen=True, slots=True)
class Obstacles:
    """Lines and writing that are to be kept clear of, as straight segments or taken up whole, found by their place."""

    trees: tuple[STRtree, ...]

    def __len__(self) -> int:
        """How many there are."""
        return sum(len(tree) for tree in self.trees)

    @property
    def box(self) -> Box:
        """The box around all of them; there must be some."""
        import numpy as np
        import shapely

        return Box(*shapely.total_bounds(np.concatenate([tree.geometries for tree in self.trees])).tolist())


def obstacles(items: Iterable[Item], *, besides: Obstacles | None = None) -> Obstacles:
    """The lines and the writing of a drawing, as what is to be kept clear of.

    A test square and the room of a text count as taken up whole. `besides` are obstacles that are there already.
    """
    import numpy as np
    import shapely

    ends: list[tuple[float, float, float, float]] = []
    for item in items:
        if isinstance(item, Stroke):
            for run in runs(item.curves):
                ends.extend((a.x, a.y, b.x, b.y) for a, b in pairwise(polyline(run, _FLAT_ENOUGH)))
                if item.kind is LineKind.SQUARE:
                    ends.extend(_hatch([curve.start for curve in run], _SQUARE_HATCH))
        else:
            ends.extend(_hatch(corners(item), _TEXT_HATCH))
    if besides and not ends:
        return besides
    tree = shapely.STRtree(shapely.linestrings(np.array(ends, dtype=float).reshape(-1, 2, 2)))
    return Obstacles((*(besides.trees if besides else ()), tree))


def taken_up(outlines: Iterable[Places]) -> Obstacles:
    """Polygons as obstacles, each with all that lies in it."""
    import shapely

    return Obstacles((shapely.STRtree([shapely.Polygon(rows(outline)) for outline in outlines]),))


def together(one: Obstacles, other: Obstacles) -> Obstacles:
    """Both."""
    return Obstacles((*one.trees, *other.trees))


def rows(places: Places) -> NDArray[np.float64]:
    """A row (x, y) for each place."""
    import numpy as np

    if isinstance(places, np.ndarray):
        return places
    return np.array([(p.x, p.y) for p in places], dtype=float).reshape(-1, 2)


def first_clear(segments: Obstacles, centres: Places, size: tuple[float, float], *, angle: Angle = 0.0) -> Point | None:
    """The first centre about which a rectangle (width, height in mm; turned by `angle` degrees) meets no segment.

    angle: one for all, or one for each centre
    None when there is no such centre.
    """
    centres = rows(centres)
    place = which_clear(segments, centres, size, angle=angle)
    return None if place is None else Point(*centres[place].tolist())


def which_clear(segments: Obstacles, centres: Places, size: tuple[float, float], *, angle: Angle = 0.0) -> int | None:
    """The same as `first_clear`, as the number of the centre from 0."""
    import numpy as np

    centres = rows(centres)
    start, many = 0, _FIRST_FEW
    while start < len(centres):
        some = slice(start, start + many)
        turned = angle if isinstance(angle, float) else angle[some]
        rectangles = _rectangles(centres[some], size, turned)
        met = np.zeros(len(rectangles), dtype=bool)
        for tree in segments.trees:
            left = (~met).nonzero()[0]
            met[left[tree.query(rectangles[left], predicate="intersects")[0]]] = True
        clear = (~met).nonzero()[0]
        if len(clear):
            return start + int(clear[0])
        start, many = start + many, _AT_A_TIME
    return None


def least_crowded(segments: Obstacles, centres: Places, size: tuple[float, float], *, angle: float = 0.0) -> Point:
    """The centre about which the rectangle meets the fewest segments; the first of those."""
    import numpy as np

    centres = rows(centres)
    return Point(*centres[int(np.argmin(crowding(segments, centres, size, angle=angle)))].tolist())


def crowding(
    segments: Obstacles, centres: Places, size: tuple[float, float], *, angle: Angle = 0.0
) -> NDArray[np.int64]:
    """How many segments the rectangle (width, height in mm; turned by `angle` degrees) about each centre meets.

    angle: one for all, or one for each centre
    """
    import numpy as np

    at = rows(centres)
    rectangles = _rectangles(at, size, angle)
    met = [tree.query(rectangles, predicate="intersects")[0] for tree in segments.trees]
    return np.bincount(np.concatenate(met), minlength=len(at))


def _rectangles(at: NDArray[np.float64], size: tuple[float, float], angle: Angle) -> NDArray[np.object_]:
    """The rectangle about each centre."""
    import numpy as np
    import shapely

    half = 0.5 * np.array(size)
    if isinstance(angle, float) and angle % 90.0 == 0.0:
        low, high = (at + side * (half if angle % 180.0 == 0.0 else half[::-1]) for side in (-1.0, 1.0))
        upright: NDArray[np.object_] = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
        return upright
    turn = np.radians(np.reshape(angle, (-1, 1)))
    x, y = half[0] * np.array((-1.0, 1.0, 1.0, -1.0)), half[1] * np.array((-1.0, -1.0, 1.0, 1.0))
    c, s = np.cos(turn), np.sin(turn)
    turned: NDArray[np.object_] = shapely.polygons(at[:, None] + np.stack((c * x - s * y, s * x + c * y), axis=-1))
    return turned


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

    every, corner = rows(centres), rows(polygon)
    held: NDArray[np.bool_] = ((every >= corner.min(axis=0)) & (every <= corner.max(axis=0))).all(axis=1)
    # only those within the box around the polygon are asked of its sides
    at = every[held]
    following = np.concatenate((corner[1:], corner[:1]))
    y = at[:, 1:2]
    straddles = (corner[:, 1] > y) != (following[:, 1] > y)
    rise = following[:, 1] - corner[:, 1]
    share = (y - corner[:, 1]) / np.where(rise == 0.0, 1.0, rise)
    crossing = corner[:, 0] + share * (following[:, 0] - corner[:, 0])
    held[held] = (straddles & (at[:, 0:1] < crossing)).sum(axis=1) % 2 == 1
    return held


def _hatch(corner: Sequence[Point], spacing: float) -> list[tuple[float, float, float, float]]:
    """The four sides of a rectangle and lines across it, so that nothing fits inside unnoticed."""
    a, b, c, d = corner
    n = math.ceil((d - a).norm() / spacing)
    across = [(lerp(a, d, i / n), lerp(b, c, i / n)) for i in range(n + 1)]
    return [(p.x, p.y, q.x, q.y) for p, q in (*across, (a, d), (b, c))]
