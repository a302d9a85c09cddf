"""The shape of a patch pocket: its edges and corners, drawn where it lies on its piece."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Point, Vec, bend, run_reversed
from drafting.geometry.outline import straight_run
from drafting.pattern import (
    BodySide,
    Cut,
    Edge,
    Grain,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    closed,
    free_piece_name,
    seam_allowance,
)

__all__ = ["POINTED", "POINT_SHARE", "ROUNDED", "SQUARE", "PatchPlace", "patch"]

SQUARE, ROUNDED, POINTED = "square", "rounded", "pointed"

POINT_SHARE: Final = 0.15  # of the height: by how much the sides of a pointed one end above its point (ours)
_ROUND: Final = 0.2  # of the width: the radius of its lower corners (ours)
_OVER_ALLOWANCE: Final = 3.0  # mm by which that is larger than the allowance, so that it turns in (ours)
_GRAIN: Final = 0.3  # of its height to either side of its middle


@dataclass(frozen=True, slots=True)
class PatchPlace:
    """Where a pocket lies on a piece: its upper corner to the centre, and the directions to the side and down.

    folded: whether it is half of one that lies across the centre line
    """

    piece: Piece
    corner: Point
    out: Vec
    down: Vec
    wide: float
    high: float
    folded: bool = False

    @property
    def whole_width(self) -> float:
        """How wide the pocket is, mm: twice what is drawn of a folded one."""
        return 2.0 * self.wide if self.folded else self.wide

    def at(self, out: float, down: float) -> Point:
        """A place of the pocket, as shares of its width and height."""
        return self.corner + self.out * (out * self.wide) + self.down * (down * self.high)


def patch(pattern: Pattern, place: PatchPlace, shape: str, *, turned_in: float, one: bool) -> Piece:
    """The pocket, where it lies on its piece, its mouth turned in by so many mm; one: on one half of the body only."""
    at, piece = place.at, place.piece
    runs = _half_below(shape, place) if place.folded else _below(shape, place)
    allowance = seam_allowance(piece)
    edges = [Edge(name, run, Role.SEAM, allowance, Place.POCKET_EDGE) for name, run in runs]
    if place.folded:
        edges.insert(0, Edge("fold", (Line(at(0.0, 0.0), at(0.0, 1.0)),), Role.FOLD))
    edges.append(Edge("mouth", (Line(at(1.0, 0.0), at(0.0, 0.0)),), Role.HEM, turned_in, Place.POCKET_MOUTH))
    if place.out.cross(-place.down) < 0.0:
        edges = [replace(edge, curves=run_reversed(edge.curves)) for edge in reversed(edges)]
    names_in_turn = [edge.name for edge in edges]
    meant = tuple(zip(names_in_turn, (*names_in_turn[1:], names_in_turn[0]), strict=True))
    middle = at(0.5, 0.5)
    reach = place.down * (_GRAIN * place.high)
    halved = piece.cut.fold or piece.cut.mirror
    side = BodySide.LEFT if one and halved else piece.identity.side
    one = one or not halved
    return Piece(
        free_piece_name(pattern, f"{piece.name} patch pocket"),
        closed(piece.name, tuple(edges)),
        Cut(1, fold=place.folded) if one or place.folded else Cut(2, mirror=True),
        Grain(middle + reach, middle - reach),
        points_meant=meant,
        identity=Identity(PieceKind.POCKET, piece.identity.part, of=piece.identity.kind, side=side),
    )


_Runs = list[tuple[str, tuple[Curve, ...]]]


def _below(shape: str, place: PatchPlace) -> _Runs:
    """The edges of a pocket from its upper corner to the centre round to that to the side."""
    at = place.at
    radius = min(
        max(_ROUND * place.wide, seam_allowance(place.piece) + _OVER_ALLOWANCE), 0.5 * place.wide, 0.9 * place.high
    )
    side, turn = radius / place.wide, radius / place.high
    if shape == ROUNDED:
        lower: tuple[Curve, ...] = (
            Line(at(0.0, 0.0), at(0.0, 1.0 - turn)),
            bend(at(0.0, 1.0 - turn), place.down, at(side, 1.0), place.out),
            *straight_run(at(side, 1.0), at(1.0 - side, 1.0)),
            bend(at(1.0 - side, 1.0), place.out, at(1.0, 1.0 - turn), -place.down),
            Line(at(1.0, 1.0 - turn), at(1.0, 0.0)),
        )
        return [("edge", lower)]
    foot = (
        [at(0.0, 1.0), at(1.0, 1.0)]
        if shape == SQUARE
        else [at(0.0, 1.0 - POINT_SHARE), at(0.5, 1.0), at(1.0, 1.0 - POINT_SHARE)]
    )
    places = [at(0.0, 0.0), *foot, at(1.0, 0.0)]
    names = (
        "edge to the centre",
        *(("lower edge",) if shape == SQUARE else ("lower edge to the centre", "lower edge to the side")),
        "edge to the side",
    )
    return [(name, (Line(a, b),)) for name, (a, b) in zip(names, pairwise(places), strict=True)]


def _half_below(shape: str, place: PatchPlace) -> _Runs:
    """The same from the centre line, on which the pocket is folded, to its upper corner to the side."""
    at = place.at
    if shape != ROUNDED:
        side = at(1.0, 1.0 if shape == SQUARE else 1.0 - POINT_SHARE)
        return [("lower edge", (Line(at(0.0, 1.0), side),)), ("edge to the side", (Line(side, at(1.0, 0.0)),))]
    radius = min(max(2.0 * _ROUND * place.wide, seam_allowance(place.piece) + _OVER_ALLOWANCE), 0.9 * place.wide)
    beside, turn = 1.0 - radius / place.wide, 1.0 - radius / place.high
    lower = (
        Line(at(0.0, 1.0), at(beside, 1.0)),
        bend(at(beside, 1.0), place.out, at(1.0, turn), -place.down),
        Line(at(1.0, turn), at(1.0, 0.0)),
    )
    return [("edge", lower)]
