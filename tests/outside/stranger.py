"""A stranger: reads pattern.json with nothing of ours, flattens the curves itself, and lays a tape on them.

Only json, numpy and shapely; it shares no code with the engine or with the writers. Lengths are millimetres.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

_STEPS = 2000
"""Chords to a cubic. A curve that turns by half a circle then measures short by its length times 1e-7 or less."""

Array = Any
Table = dict[str, Any]


@dataclass(frozen=True)
class Draft:
    """One pattern.json."""

    table: Table

    def piece(self, name: str) -> Table:
        return _called(self.table["pieces"], "name", name)

    def points(self, piece: str, edge: str) -> Array:
        """The flattened edge, anticlockwise, one row to a point."""
        return _flat_run(_called(self.piece(piece)["outline"], "edge", edge)["curves"])

    def edge(self, piece: str, *edges: str) -> float:
        """The length of an edge, or of several together: what a tape along them reads, darts between them folded."""
        return sum(_length(self.points(piece, edge)) for edge in edges)

    def seam(self, name: str) -> tuple[float, float]:
        """The lengths of the two runs of a seam."""
        found = _called(self.table["seams"], "name", name)
        one, other = (sum(self.edge(ref["piece"], ref["edge"]) for ref in found[run]) for run in "ab")
        return one, other

    def outline(self, piece: str) -> Any:
        """The whole sewing line as a shapely polygon."""
        edges = [self.points(piece, edge["edge"]) for edge in self.piece(piece)["outline"]]
        return shapely.Polygon(np.vstack([points[:-1] for points in edges]))

    def width(self, piece: str, line: str) -> float:
        """The cloth at a marked line from outline to outline, open darts left out."""
        mark = _called(self.piece(piece)["lines"], "name", line)
        return self.width_through(piece, mark["from"], mark["to"])

    def width_through(self, piece: str, one: Any, other: Any) -> float:
        """The cloth along the endless line through two places."""
        start, step = np.array(one), np.array(other) - np.array(one)
        step *= 1e5 / np.hypot(*step)
        return float(shapely.LineString([start - step, start + step]).intersection(self.outline(piece)).length)

    def level(self, piece: str, y: float) -> float:
        """The cloth at a height on the paper."""
        return self.width_through(piece, (0.0, y), (1.0, y))

    def point(self, piece: str, name: str) -> Array:
        """A marked point."""
        return np.array(self.piece(piece)["points"][name])

    def line_y(self, piece: str, name: str) -> float:
        """The height of a marked line, which must be level."""
        mark = _called(self.piece(piece)["lines"], "name", name)
        assert abs(mark["from"][1] - mark["to"][1]) < 1e-6, (piece, name)
        return float(mark["from"][1])

    def apart(self, piece: str, one: str, other: str) -> float:
        """The straight distance between two marked points."""
        return float(np.hypot(*(self.point(piece, one) - self.point(piece, other))))

    def end(self, piece: str, edge: str, which: str) -> Array:
        """The start or end corner of an edge."""
        return self.points(piece, edge)[0 if which == "start" else -1]

    def direction(self, piece: str, edge: str, which: str) -> float:
        """The direction of travel at the start or end of an edge, degrees from the x axis."""
        points = self.points(piece, edge)
        step = points[1] - points[0] if which == "start" else points[-1] - points[-2]
        return float(np.degrees(np.arctan2(step[1], step[0])))

    def notch(self, piece: str, name: str) -> float:
        """How far along its edge a notch lies, from the edge's start."""
        mark = _called(self.piece(piece)["notches"], "name", name)
        return float(mark["at"]) if mark["from"] == "start" else self.edge(piece, mark["edge"]) - float(mark["at"])

    def notch_along(self, seam: str, run: str, piece: str, name: str) -> float:
        """How far along a run of a seam a notch lies, from the run's start."""
        mark = _called(self.piece(piece)["notches"], "name", name)
        gone = 0.0
        for ref in _called(self.table["seams"], "name", seam)[run]:
            whole = self.edge(ref["piece"], ref["edge"])
            if ref["piece"] == piece and ref["edge"] == mark["edge"]:
                at = self.notch(piece, name)
                return gone + (whole - at if ref.get("backward") else at)
            gone += whole
        raise AssertionError(f"the notch {name} of {piece} is not on run {run} of {seam}")


def read(text: str) -> Draft:
    """The pattern in a pattern.json."""
    return Draft(json.loads(text))


def _called(rows: list[Table], key: str, name: str) -> Table:
    found = [row for row in rows if row[key] == name]
    assert len(found) == 1, f"{len(found)} called {name!r}; there are {[row[key] for row in rows]}"
    return found[0]


def _flat(curve: list[list[float]]) -> Array:
    if len(curve) == 2:
        return np.array(curve)
    t = np.linspace(0.0, 1.0, _STEPS + 1)[:, None]
    a, b, c, d = (np.array(point) for point in curve)
    return (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d


def _flat_run(curves: list[list[list[float]]]) -> Array:
    parts = [_flat(curve) for curve in curves]
    return np.vstack([parts[0], *(part[1:] for part in parts[1:])])


def _length(points: Array) -> float:
    return float(np.hypot(*np.diff(points, axis=0).T).sum())
