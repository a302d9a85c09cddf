"""Curves as the path data of SVG: "M0 0C1 2 3 4 5 6", in millimetres."""

from __future__ import annotations

from collections.abc import Iterable

from drafting.geometry import Curve, Move
from output.drawings.drawing import Moved, number_text, trace, upside_down

__all__ = ["ON_SCREEN", "path_data"]

ON_SCREEN = upside_down(0.0)
"""The move to a screen, where y runs down: what lies at (x, y) is drawn at (x, -y)."""


class _Pen:
    def __init__(self) -> None:
        self.data: list[str] = []

    def move(self, x: float, y: float) -> None:
        self.data.append(f"M{number_text(x)} {number_text(y)}")

    def line(self, x: float, y: float) -> None:
        self.data.append(f"L{number_text(x)} {number_text(y)}")

    def cubic(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self.data.append("C" + " ".join(map(number_text, (x1, y1, x2, y2, x, y))))

    def close(self) -> None:
        self.data.append("Z")


def path_data(curves: Iterable[Curve], move: Move = ON_SCREEN) -> str:
    """The curves after a move, to a thousandth of a mm; the pen is lifted where one does not go on from the last."""
    pen = _Pen()
    trace(curves, Moved(pen, move))
    return "".join(pen.data)
