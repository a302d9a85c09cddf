"""How much paper an arrangement takes: which sheets each piece lies on, and how much of it lies on each.

Places are in mm from the left and mm down from the top of the large sheet; a sheet of paper is (row, column), from 0.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from drafting.dataclass import dataclass
from drafting.geometry import Point
from output.drawings.drawing import Box
from output.drawings.free_space import inside
from output.sheets.papers import Paper

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["BORDER", "EDGE", "SLIVER", "Cells", "Ground", "Shape", "Under", "can_be_whole", "ground"]

BORDER: Final = 1.0
"""How far what is drawn keeps from the outer border of the sheets, mm."""

EDGE: Final = 7.0
"""How far what begins at a join of sheets keeps from it, mm: clear of the strip that two home sheets share."""

SLIVER: Final = 0.025
"""Of a sheet's own part: less of a piece is not worth a sheet of paper. The bar is 2 %; more allows for counting."""

Cells = dict[tuple[int, int], float]
"""The share of each sheet of paper that something covers."""

_RIM = 10.0
_GRAIN = 9.0
_MANY: Final = 1000  # more than any number of columns


@dataclass(frozen=True, slots=True)
class Shape:
    """Something to be laid: the polygon of its outline and the box around all of its drawing, y up."""

    outline: tuple[Point, ...]
    box: Box


@dataclass(frozen=True, slots=True)
class Ground:
    """A shape as it is looked up again and again: places along its outline (rim) and within it (area).

    Places are mm from the left and mm down from the top of the shape's box.
    """

    width: float
    height: float
    rim: NDArray[np.float64]
    area: NDArray[np.float64]


def ground(shape: Shape) -> Ground:
    """The places of a shape: along its outline no more than 10 mm apart, within it 9 mm apart each way."""
    import numpy as np

    box = shape.box
    rim: list[tuple[float, float]] = []
    for a, b in zip(shape.outline, (*shape.outline[1:], shape.outline[0]), strict=True):
        n = max(1, math.ceil(math.hypot(b.x - a.x, b.y - a.y) / _RIM))
        rim.extend((a.x + (b.x - a.x) * i / n - box.left, box.top - a.y - (b.y - a.y) * i / n) for i in range(n))
    across, down = np.arange(box.left + 0.5 * _GRAIN, box.right, _GRAIN), np.arange(0.5 * _GRAIN, box.height, _GRAIN)
    places = np.stack(np.meshgrid(across, box.top - down), axis=-1).reshape(-1, 2)
    kept = places[inside(shape.outline, places)]
    area = np.stack((kept[:, 0] - box.left, box.top - kept[:, 1]), axis=1)
    return Ground(box.width, box.height, np.array(rim).reshape(-1, 2), area)


def can_be_whole(width: float, height: float, paper: Paper) -> bool:
    """Whether a box can lie on one sheet of that paper; on large paper the strips that neighbours share serve too."""
    if paper.large:
        return width <= paper.area_width - 2.0 * BORDER and height <= paper.area_height - 2.0 * BORDER
    return width <= paper.step_width - 2.0 * EDGE and height <= paper.step_height - 2.0 * EDGE


class Under:
    """The sheets of paper under each of some shapes, wherever it lies; what was counted once is remembered."""

    def __init__(self, shapes: Sequence[Ground], paper: Paper) -> None:
        self._shapes, self._paper = shapes, paper
        self._known: dict[tuple[int, float, float], Cells] = {}

    def cells(self, shape: int, x: float, y: float) -> Cells:
        """The sheets that a shape needs with its corner at (x, y), and how much of each it covers.

        What a single sheet of large paper shows whole, the strips that it shares included, needs no other.
        """
        # only where a shape lies on its sheet matters: the same on any other
        row, down = divmod(y, self._paper.step_height)
        column, across = divmod(x, self._paper.step_width)
        place = (shape, round(across, 4), round(down, 4))
        if place not in self._known:
            self._known[place] = _counted(self._shapes[shape], across, down, self._paper)
        return {(r + int(row), c + int(column)): share for (r, c), share in self._known[place].items()}


def _counted(shape: Ground, x: float, y: float, paper: Paper) -> Cells:
    """Which sheets a piece reaches when it lies there, each with the share of the sheet that it covers."""
    import numpy as np

    step = np.array((paper.step_width, paper.step_height))
    covers = _GRAIN * _GRAIN / (paper.step_width * paper.step_height)
    centre = (y + 0.5 * shape.height) // paper.step_height, (x + 0.5 * shape.width) // paper.step_width
    if paper.large and _shown(shape, x, y, paper, centre):
        return {(int(centre[0]), int(centre[1])): len(shape.area) * covers}
    corner = np.array((x, y))
    reached = _numbered((shape.rim + corner) / step)
    counts = np.bincount(_numbered((shape.area + corner) / step))
    shares = dict.fromkeys(reached.tolist(), 0.0) | {
        number: int(counts[number]) * covers for number in counts.nonzero()[0].tolist()
    }
    return {divmod(number, _MANY): share for number, share in shares.items()}


def _shown(shape: Ground, x: float, y: float, paper: Paper, cell: Sequence[float]) -> bool:
    left, top = cell[1] * paper.step_width - 0.5 * paper.overlap_x, cell[0] * paper.step_height - 0.5 * paper.overlap_y
    across = left + BORDER <= x and x + shape.width <= left + paper.area_width - BORDER
    return across and top + BORDER <= y and y + shape.height <= top + paper.area_height - BORDER


def _numbered(steps: NDArray[np.float64]) -> NDArray[np.int64]:
    """Columns and rows, counted in steps from zero on, as one number for each sheet."""
    column, row = steps.astype(int).T
    found: NDArray[np.int64] = row * _MANY + column
    return found
