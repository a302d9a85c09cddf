"""Darts of a side seam moved to the waist, where a style needs the whole side seam: for a gusset, or for fullness.

The trade's way (common practice): where a style line needs the whole seam, the dart is moved first. A bust dart fits
as well in the waist as in the side, turned about the same point. It is moved as by `move a dart`, and she is told.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from drafting.alterations.darts.move_dart import MoveDart
from drafting.alterations.darts.side_darts import darts_in_side
from drafting.alterations.techniques.pivoting.pivot import turning_of
from drafting.errors import StepRefused
from drafting.geometry import Point, Vec, run_hits, run_length, split
from drafting.pattern import Dart, Pattern, Piece, Place, edges_at

__all__ = ["with_darts_to_waist"]


def with_darts_to_waist(step: str, pattern: Pattern, why: str) -> Pattern:
    """The pattern with every dart of a side seam in the waist, what was moved said among what gave way.

    why: what the style does with the seam, in words: "its gusset takes up the side seam"
    Raises StepRefused where a dart can be laid nowhere there.
    """
    said: list[str] = []
    for name in [piece.name for piece in pattern.pieces]:
        while found := next(darts_in_side(pattern.piece(name)), None):
            dart = found[0]
            pattern = _moved(step, pattern, pattern.piece(name), dart, why)
            said.append(f'"{dart.name}" of "{name}" goes to the waist: {why}.')
    first, *others = pattern.origin or (None,)
    return replace(pattern, origin=(replace(first, gave_way=(*said, *first.gave_way)), *others)) if first else pattern


def _moved(step: str, pattern: Pattern, piece: Piece, dart: Dart, why: str) -> Pattern:
    reason = "it has no waist there"
    for move in _moves(piece, dart):
        try:
            return move.apply(pattern)
        except StepRefused as refused:
            reason = refused.reason
    said = f'"{dart.name}" lies in the {Place.SIDE} of "{piece.name}", {why}, and it cannot go to the waist'
    raise StepRefused(step, reason=f"{said}: {reason}; let it go to another edge, or leave it where it was")


def _moves(piece: Piece, dart: Dart) -> Iterator[MoveDart]:
    """The ways into the waist: into a dart there that aims at the same point, else straight below what it turns about,
    else in the middle.
    """
    waists = edges_at(piece, Place.WAIST) or edges_at(piece, Place.HEM)
    beside = {leg for edge in waists for leg in (each.name for each in piece.beside(edge.name))}
    for other in piece.darts:
        if other is not dart and dart.aims_at and other.aims_at == dart.aims_at and beside & set(other.legs):
            yield MoveDart(piece.name, dart.name, other.name)
    pivot = turning_of(piece, dart).pivot
    for edge in waists:
        for k, hit in run_hits(edge.curves, Point(pivot.x, pivot.y), Vec(0.0, -1.0)):
            at = run_length((*edge.curves[:k], split(edge.curves[k], hit.t)[0]))
            yield MoveDart(piece.name, dart.name, edge.name, at=at, measured_from=piece.beside(edge.name)[0].name)
    for edge in waists:
        yield MoveDart(piece.name, dart.name, edge.name)
