"""A dart made wider where it ends on a seam, so that the seam is shorter once the dart is sewn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.geometry import Cubic, Point, Vec, fair, moved_all, turn
from drafting.geometry.solve import root_between
from drafting.pattern import Dart, Edge, EdgeRef, Piece, closed

__all__ = ["dart_between", "with_wider_dart"]

_WIDEST: Final = 0.4  # radians that each leg is turned at the most (ours)


def dart_between(piece: Piece, run: Sequence[EdgeRef]) -> Dart | None:
    """The dart between the two edges of a run."""
    legs = {beside.name for ref in run if ref.piece == piece.name for beside in piece.beside(ref.edge)}
    return next((dart for dart in piece.darts if legs.issuperset(dart.legs)), None)


def with_wider_dart(piece: Piece, dart: Dart, shorter: float) -> Piece:
    """The piece with the two edges beside a dart together `shorter` mm shorter, its legs turned apart about its point.

    The legs stay as long as they were, and with the dart closed the edges run on into each other in one even curve.
    """
    legs = [piece.edge(name) for name in dart.legs]
    beside = piece.beside(dart.legs[0])[0], piece.beside(dart.legs[1])[1]
    goal = sum(edge.length for edge in beside) - shorter

    def drawn(angle: float) -> tuple[Edge, ...]:
        turned = [
            replace(leg, curves=moved_all(leg.curves, turn(dart.apex, way * angle)))
            for leg, way in zip(legs, (-1.0, 1.0), strict=True)
        ]
        return (*turned, *_run_on(beside, dart.apex, turned[0].start, turned[1].end))

    found = drawn(root_between(lambda angle: sum(edge.length for edge in drawn(angle)[2:]) - goal, 0.0, _WIDEST))
    named = {edge.name: edge for edge in found}
    edges = closed(piece.name, tuple(named.get(edge.name, edge) for edge in piece.edges))
    apex = next(edge.start for edge in edges if edge.name == dart.legs[1])  # turning rounds it
    darts = tuple(replace(each, apex=apex) if each == dart else each for each in piece.darts)
    return replace(piece, edges=edges, darts=darts)


def _run_on(beside: tuple[Edge, Edge], apex: Point, one: Point, other: Point) -> tuple[Edge, Edge]:
    """The edges before and behind a dart drawn to its new ends, with the same direction there once it is closed."""
    before, behind = beside
    closing = (other - apex).angle_to(one - apex)
    into, on = (one - before.start).unit(), (behind.end - other).unit()
    half = 0.5 * into.angle_to(on.turned(closing))

    def bent(start: Point, along: Vec, end: Point) -> Cubic:
        return fair(start, along.turned(-half), end, along.turned(half))

    return (
        replace(before, curves=(bent(before.start, into, one),)),
        replace(behind, curves=(bent(other, on, behind.end),)),
    )
