r"""The outline of a piece as a cutter sees it when she traces a facing: darts folded shut, panels laid together.

The walk begins at an edge and goes round the piece either way. Behind a dart everything is turned about its point until
the legs meet; at a seam that joins two panels of one front, back or sleeve it goes over to the next panel, laid on so
that the seam closes there. At a slanted pocket it goes over to the hip piece, which lies in its place.

        neck      dart              neck      dart closed
      ______  /\  ______    ->     ______|______
                                         (what lies beyond is turned with it)
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import (
    STAY,
    Move,
    end_tangents,
    moved_all,
    run_reversed,
    shift,
    turn,
)
from drafting.pattern import BodyPart, Edge, EdgeRef, Pattern, Piece, Place, Role
from drafting.pattern.pockets import edge_past_pocket

__all__ = ["BETWEEN_PANELS", "LaidEdge", "laid_from"]

BETWEEN_PANELS: Final = frozenset((Place.PRINCESS, Place.GORE, Place.YOKE, Place.EMPIRE))
"""The seams that join panels of one piece, which a facing runs over."""


@dataclass(frozen=True, slots=True)
class LaidEdge:
    """An edge of a piece where it lies on the walk, its curves in the direction of the walk.

    move: what lays it there from where it lies on its piece
    """

    ref: EdgeRef
    edge: Edge
    move: Move = STAY


def laid_from(
    pattern: Pattern,
    piece: Piece,
    edge: str,
    *,
    onward: bool,
    over: frozenset[Place] = BETWEEN_PANELS,
    lapped: float = 0.0,
) -> Iterator[LaidEdge]:
    """The edges from this one on, once round at most; anticlockwise, or clockwise where not `onward`.

    over:   the seams at which the walk goes over to the next piece
    lapped: by how much that piece is then turned onto the one before, radians; panels never are
    """
    at = piece.index(edge)
    step = 1 if onward else -1
    move = STAY
    seen: set[tuple[str, str]] = set()
    came_over: tuple[Piece, str] | None = None
    while (piece.name, piece.edges[at].name) not in seen:
        here = piece.edges[at]
        seen.add((piece.name, here.name))
        run = here.curves if onward else run_reversed(here.curves)
        yield LaidEdge(EdgeRef(piece.name, here.name, not onward), replace(here, curves=moved_all(run, move)), move)
        n = len(piece.edges)
        at = (at + step) % n
        at, move = _past_darts(piece, at, step, move)
        while (
            crossed := _next_panel(pattern, piece, piece.edges[at], over, onward=onward)
        ) is not None and crossed != came_over:
            other, name = crossed
            came_over = (piece, piece.edges[at].name)
            into = other.index(name)
            seam = piece.edges[at]
            laid = _laid_on(seam, other.edges[into], onward=onward)
            if lapped and seam.place not in BETWEEN_PANELS:
                laid = laid.then(turn(seam.start if onward else seam.end, lapped if onward else -lapped))
            move = laid.then(move)
            piece, at = other, (into + step) % len(other.edges)
            at, move = _past_darts(piece, at, step, move)
        if (behind := edge_past_pocket(pattern, piece, piece.edges[at], onward=onward)) is not None:
            piece, at = behind  # it lies there as it is sewn


def _past_darts(piece: Piece, at: int, step: int, move: Move) -> tuple[int, Move]:
    """The next edge of the walk that is no leg of a dart, and the move with those darts closed."""
    while piece.edges[at].role is Role.DART_LEG:
        move = _closing(piece, at, step).then(move)
        at = (at + 2 * step) % len(piece.edges)
    return at, move


def _closing(piece: Piece, leg: int, step: int) -> Move:
    """The turn that brings what lies beyond a dart back over its mouth; `leg` is the first of its legs on the walk."""
    first, second = piece.edges[leg], piece.edges[(leg + step) % len(piece.edges)]
    apex = first.end if step > 0 else first.start
    near, far = (first.start, second.end) if step > 0 else (first.end, second.start)
    return turn(apex, (far - apex).angle_to(near - apex))


def _next_panel(
    pattern: Pattern, piece: Piece, edge: Edge, over: frozenset[Place], *, onward: bool
) -> tuple[Piece, str] | None:
    """The piece that is sewn to this edge, and the edge of it that is at this corner; None where none is."""
    hangs = edge.place is Place.YOKE and piece.identity.part is not BodyPart.BODICE
    if hangs or edge.place not in over:
        return None  # a skirt hangs from its band or yoke, and is faced apart from it
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            for end in (0, -1):
                # one edge may be sewn to several: which of them is met is told by the end of the seam one stands at
                at_start = onward != run[end].backward
                if (run[end].piece, run[end].edge) == (piece.name, edge.name) and at_start == (end == 0):
                    return pattern.piece(other[end].piece), other[end].edge
    return None


def _laid_on(edge: Edge, other: Edge, *, onward: bool) -> Move:
    """The move that lays the seam of the next panel on this one, where both come to the corner the walk stands at."""
    if onward:
        corner, along = edge.start, end_tangents(edge.curves[0])[0]
        meets, comes = other.end, -end_tangents(other.curves[-1])[1]
    else:
        corner, along = edge.end, -end_tangents(edge.curves[-1])[1]
        meets, comes = other.start, end_tangents(other.curves[0])[0]
    return shift(corner - meets).then(turn(corner, comes.angle_to(along)))
