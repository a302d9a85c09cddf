"""How ties, loops and tabs are cut, and the marks where they are set on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, distance, run_place
from drafting.pattern import (
    BodyPart,
    Cut,
    Edge,
    Grain,
    Identity,
    Level,
    MarkLine,
    MarkPoint,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    line_at,
)

__all__ = ["SEAM", "folded_strip", "mark_on_edge", "pieces_with", "pointed_tab", "waist_on_side"]

SEAM: Final = 10.0  # mm sewn in round a small piece that is turned (common practice: 6 to 10)
_GRAIN: Final = 0.3  # of the length, to either side of the middle
_STEPS: Final = 200  # places along a side seam that are tried for the waist
_INSIDE: Final = 4.0  # mm from the edge at which a mark on the garment lies
_NOT_SHELL: Final = (PieceKind.FACING, PieceKind.LINING, PieceKind.POCKET)


def folded_strip(
    name: str, size: tuple[float, float], slant: float, cut: int, identity: Identity, *, bias: bool = False
) -> Piece:
    """A strip that is folded lengthwise, sewn and turned; size: how long and how wide it is then, mm.

    slant: how much shorter its end is at the fold than at its edge, mm; cut: how many of them
    """
    long, wide = size
    deep = 2.0 * wide
    ends = [("free end", Point(long, 0.0)), ("free end folded", Point(long - slant, wide))] if slant else []
    corners = [("long edge", Point(0.0, 0.0)), *(ends or [("free end", Point(long, 0.0))])]
    corners += [("other long edge", Point(long, deep)), ("sewn end", Point(0.0, deep))]
    half = 0.4 * wide if bias else _GRAIN * long
    up = half if bias else 0.0
    grain = Grain(Point(0.5 * long - half, 0.5 * wide - up), Point(0.5 * long + half, 0.5 * wide + up))
    fold = MarkLine("fold line", Point(0.0, wide), Point(long - slant, wide), level=Level.FOLD)
    return _turned_piece(name, corners, Cut(cut), grain, identity, lines=(fold,))


def pointed_tab(name: str, long: float, wide: float, count: int, points: Sequence[MarkPoint]) -> Piece:
    """A tab of two layers with a point at its free end; count: how many tabs."""
    corners = [
        ("lower edge", Point(0.0, 0.0)),
        ("point below", Point(long - 0.5 * wide, 0.0)),
        ("point above", Point(long, 0.5 * wide)),
        ("upper edge", Point(long - 0.5 * wide, wide)),
        ("sewn end", Point(0.0, wide)),
    ]
    grain = Grain(Point((0.5 - _GRAIN) * long, 0.25 * wide), Point((0.5 + _GRAIN) * long, 0.25 * wide))
    identity = Identity(PieceKind.TAB, BodyPart.SLEEVE)
    return _turned_piece(name, corners, Cut(2 * count, interfacing=count), grain, identity, points=points)


def _turned_piece(
    name: str,
    corners: Sequence[tuple[str, Point]],
    cut: Cut,
    grain: Grain,
    identity: Identity,
    *,
    lines: Sequence[MarkLine] = (),
    points: Sequence[MarkPoint] = (),
) -> Piece:
    """A piece of straight edges that is sewn round and turned; corners: with the edge that begins at each."""
    edges = [
        Edge(called, (Line(a, b),), Role.SEAM, SEAM, Place.BAND_EDGE if a.y == b.y else Place.BAND_END)
        for (called, a), (_, b) in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]
    meant = tuple((one.name, other.name) for one, other in pairwise((*edges, edges[0])))
    return Piece(
        name, tuple(edges), cut, grain, lines=tuple(lines), points=tuple(points), points_meant=meant, identity=identity
    )


def pieces_with(pattern: Pattern, part: BodyPart, place: Place, *kinds: PieceKind) -> list[Piece]:
    """The pieces of the shell of one part of the garment that have an edge at a place; of these kinds, else of all."""
    return [
        piece
        for piece in pattern.pieces
        if piece.identity.part is part
        and edges_at(piece, place)
        and piece.identity.kind not in _NOT_SHELL
        and (not kinds or piece.identity.kind in kinds)
    ]


def mark_on_edge(name: str, edge: Edge, middle: float, long: float) -> MarkLine:
    """A line just inside an edge, so long, its middle so far from the start of the edge, mm: something is set on there.

    Raises NotAPattern where the edge is too short for it.
    """
    whole = edge.length
    first = min(max(middle - 0.5 * long, 0.0), whole - long)
    if first < 0.0:
        raise NotAPattern(name, reason=f'"{edge.name}" is {whole:.0f} mm long, too short for it')
    start, end = (
        place + along.left() * _INSIDE for place, along in (run_place(edge.curves, at) for at in (first, first + long))
    )
    return MarkLine(name, start, end)


def waist_on_side(piece: Piece, side: Edge) -> float:
    """How far along a side seam the waist is, mm from its start; its middle where the piece says nothing of a waist."""
    before, after = piece.beside(side.name)
    if Place.WAIST in (before.place, after.place):
        return 0.0 if before.place is Place.WAIST else side.length
    line = line_at(piece, Level.WAIST)
    if line is None:
        return 0.5 * side.length
    steps = [side.length * k / _STEPS for k in range(_STEPS + 1)]
    return min(
        steps, key=lambda at: min(distance(run_place(side.curves, at)[0], end) for end in (line.start, line.end))
    )
