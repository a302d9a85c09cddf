"""The leg below the hip: how wide it is at knee and hem, and the lines of the outside and the inside leg.

Half widths are counted from the crease, the line down the middle of the leg; the back is 1 cm wider at each side than
the front (the book's hem and knee). Inseam and outseam of front and back are given equal slants below the knee, so that
they are equally long there.
"""

from __future__ import annotations

from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Point, Vec, fair

__all__ = ["BACK_WIDER", "CUT_OFF_KNEE", "Leg", "Node", "inner_line", "leaving_fork", "outer_line", "round_at"]

BACK_WIDER: Final = 10.0
"""mm by which the back is wider than the front on either side of the crease, at knee and hem: 5 more than half the
leg, the front 5 less."""

_LEAVES: Final = 1.0 / 3.0  # of what the inside leg turns from its chord to the knee, at the fork (ours)
_HOLLOW_AT: Final = 0.25  # where it is made more hollow, as a share of the way from the fork to the knee (ours)

CUT_OFF_KNEE: Final = 40.0
"""mm below the knee from which the leg is led through the knee; what ends above runs straight to its hem (ours)."""


@dataclass(frozen=True, slots=True)
class Leg:
    """The leg as it is drawn, mm: levels below the waist, and how wide it is round there.

    knee:         level of the knee; None for a leg that ends above it or hardly below
    hem, round_hem: level of the hem, and the leg there
    """

    knee: float | None
    round_knee: float
    hem: float
    round_hem: float

    @property
    def ends_in(self) -> tuple[float, float]:
        """The level that inseam and outseam are led to from the fork and the hip, and how wide the leg is there."""
        return (self.hem, self.round_hem) if self.knee is None else (self.knee, self.round_knee)


@dataclass(frozen=True, slots=True)
class Node:
    """Where the lines of one half come to at the knee (or at the hem of a short leg) and at the hem.

    outer, inner: at the knee or the hem of a short leg; hem_outer, hem_inner: at the hem
    """

    outer: Point
    inner: Point
    hem_outer: Point
    hem_inner: Point

    @property
    def down(self) -> tuple[Vec, Vec]:
        """Which way outer and inner line go on from there, unit directions downward."""
        if self.outer == self.hem_outer:
            return Vec(0.0, -1.0), Vec(0.0, -1.0)
        return (self.hem_outer - self.outer).unit(), (self.hem_inner - self.inner).unit()


def round_at(level: float, knee: float, round_knee: float, floor: float, round_floor: float) -> float:
    """How wide a leg is round between knee and floor: evenly narrower or wider downward."""
    return round_knee + (round_floor - round_knee) * (level - knee) / (floor - knee)


def outer_line(hip: Point, node: Node) -> tuple[Curve, ...]:
    """The outside leg from the hip, upright there, down to the hem."""
    line = fair(hip, Vec(0.0, -1.0), node.outer, node.down[0])
    return (line,) if node.outer == node.hem_outer else (line, Line(node.outer, node.hem_outer))


def inner_line(fork: Point, leaving: Vec, node: Node) -> tuple[Curve, ...]:
    """The inside leg from the end of the fork down to the hem: one hollow curve to the knee."""
    line = fair(fork, leaving, node.inner, node.down[1], steady=True)
    return (line,) if node.inner == node.hem_inner else (line, Line(node.inner, node.hem_inner))


def leaving_fork(fork: Point, node: Node, hollow: float) -> Vec:
    """Which way the inside leg leaves the fork: nearly along its chord, so that the line is faintly hollow to the knee.

    hollow: by how much more hollow it is to be a quarter of the way down, mm
    """
    chord = node.inner - fork
    bends = max(0.0, _LEAVES * -chord.angle_to(node.down[1]))
    return chord.turned(bends + hollow / (chord.norm() * _HOLLOW_AT * (1.0 - _HOLLOW_AT) ** 2)).unit()
