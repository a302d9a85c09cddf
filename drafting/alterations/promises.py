"""What alterations promise of edges, seams and measurements, said once."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator
from functools import partial

from drafting.alterations.alteration import Promise
from drafting.geometry import Curve, Line, Point, distance
from drafting.geometry.tolerance import MEASURED
from drafting.pattern import (
    Across,
    Along,
    Between,
    BodyPart,
    EdgeRef,
    Level,
    Measure,
    Pattern,
    Piece,
    Place,
    Seam,
    finished_length,
)

__all__ = [
    "crosses_leg",
    "drawn_by",
    "edge_length",
    "finer_length",
    "finished_changes",
    "finished_kept",
    "finished_within",
    "length_changes",
    "lengths_kept",
    "lengths_kept_at",
    "lengths_kept_but",
    "places_kept",
    "places_kept_but",
    "run_surplus",
    "seam_kept",
    "seams_kept",
    "seams_no_worse",
    "straight_kept",
    "surplus_becomes",
    "total_changes",
    "whole_pieces_kept",
]


def edge_length(piece: Piece, edge: str) -> float:
    """The length of an edge, mm within a quarter of 1e-6: fine enough for a promise to be measured with."""
    return piece.edge(edge).length_within(MEASURED)


def finer_length(pattern: Pattern, run: Iterable[EdgeRef]) -> float:
    """The length of a run of edges, mm, each measured as `edge_length` does."""
    return sum(edge_length(pattern.piece(ref.piece), ref.edge) for ref in run)


def run_surplus(pattern: Pattern, seam: Seam) -> float:
    """How much longer the first run of a seam is than the second, mm, measured as `edge_length` does."""
    return finer_length(pattern, seam.a) - finer_length(pattern, seam.b)


def lengths_kept(piece: Piece, edges: Iterable[str]) -> Iterator[Promise]:
    """The promises that these edges of a piece stay as long as they are."""
    for name in edges:
        yield length_changes(piece, name, 0.0)


def lengths_kept_at(pieces: Iterable[Piece], *places: Place) -> Iterator[Promise]:
    """The promises that the edges at these places of each of the pieces stay as long as they are."""
    for piece in pieces:
        yield from lengths_kept(piece, (edge.name for edge in piece.edges if edge.place in places))


def lengths_kept_but(pattern: Pattern, altered: Collection[tuple[str, str]]) -> Iterator[Promise]:
    """The promises that every edge keeps its length, except these: the names of piece and edge."""
    for piece in pattern.pieces:
        yield from lengths_kept(piece, _others(piece, altered))


def places_kept_but(pattern: Pattern, altered: Collection[tuple[str, str]]) -> Iterator[Promise]:
    """The promises that every edge stays where it is, but for these: the piece and the name of each."""
    for piece in pattern.pieces:
        yield from places_kept(piece, _others(piece, altered))


def _others(piece: Piece, altered: Collection[tuple[str, str]]) -> Iterator[str]:
    return (edge.name for edge in piece.edges if (piece.name, edge.name) not in altered)


def total_changes(what: str, piece: Piece, edges: Collection[str], by: float = 0.0) -> Promise:
    """The promise about the edges of these names that a piece has, now and then, together: longer by so much, mm."""
    return Promise(what, partial(_total, piece.name, frozenset(edges)), by)


def length_changes(piece: Piece, edge: str, by: float) -> Promise:
    """The promise that an edge of a piece becomes longer by so much, mm; shorter, below zero."""
    return Promise(f'the length of "{edge}" on {piece.name}', partial(_length, piece.name, edge), by)


def places_kept(piece: Piece, edges: Iterable[str]) -> Iterator[Promise]:
    """The promises that these edges of a piece stay where they are: as far as any point that draws one may stray."""
    for name in edges:
        what = f'"{name}" on {piece.name}'
        yield Promise(what, partial(_strayed, piece.name, name, piece.edge(name).curves))


def whole_pieces_kept(pattern: Pattern, altered: Collection[str]) -> Iterator[Promise]:
    """The promises that every edge of the pieces that are not altered stays where it is."""
    for piece in pattern.pieces:
        if piece.name not in altered:
            yield from places_kept(piece, (edge.name for edge in piece.edges))


def straight_kept(pattern: Pattern, piece: str) -> Iterator[Promise]:
    """The promises of the finished lengths that are measured straight from mark to mark of one piece."""
    for measure in pattern.measures:
        if all(isinstance(part, Between) and part.piece == piece for part in measure.tape):
            yield Promise(f"the finished {measure.name}", partial(finished_length, measure=measure))


def finished_changes(measure: Measure, by: float = 0.0) -> Promise:
    """The promise that a finished measurement becomes larger by so much, mm, though its tape is laid again."""
    return Promise(f"the finished {measure.name}", partial(_finished, measure.name), by)


def finished_within(pattern: Pattern, measure: Measure, give: float) -> Promise:
    """The promise that a finished measurement stays as it is on this pattern, or changes by at most so many mm."""
    what = f"the finished {measure.name}, to {give:g} mm"
    return Promise(what, partial(_finished_beyond, measure.name, finished_length(pattern, measure), give))


def finished_kept(pattern: Pattern, of: Callable[[Measure], bool] | None = None) -> Iterator[Promise]:
    """The promises that every finished measurement stays as it is, though its tape is laid again.

    of: whether it is promised of a measurement; left out, of each
    """
    return map(finished_changes, filter(of, pattern.measures) if of else pattern.measures)


def crosses_leg(pattern: Pattern, measure: Measure) -> bool:
    """Whether a measurement goes round one leg: what is led out at the side of the hip adds to it once, not twice."""
    if measure.round or any(pattern.piece(part.piece).identity.part is not BodyPart.TROUSERS for part in measure.tape):
        return False
    below = (Level.THIGH, Level.KNEE)
    return bool(measure.tape) and all(
        pattern.piece(part.piece).line(part.line).level in below
        if isinstance(part, Across)
        else isinstance(part, Along) and pattern.piece(part.piece).edge(part.edge).place is Place.HEM
        for part in measure.tape
    )


def seams_kept(pattern: Pattern, of: Callable[[Seam], bool] | None = None) -> Iterator[Promise]:
    """The promises that every seam keeps the difference in length between its two sides.

    of: whether it is promised of a seam; left out, of each
    """
    return map(seam_kept, filter(of, pattern.seams) if of else pattern.seams)


def seam_kept(seam: Seam) -> Promise:
    """The promise that a seam meets as well as it does."""
    return Promise(f'how well "{seam.name}" meets', partial(_surplus, seam.name))


def seams_no_worse(pattern: Pattern) -> Iterator[Promise]:
    """The promises that no seam meets worse than it does: its two runs differ by no more than they did."""
    for seam in pattern.seams:
        off = abs(run_surplus(pattern, seam) - seam.ease.wanted)
        yield Promise(f'how much worse "{seam.name}" meets', partial(_worse, seam.name, off))


def surplus_becomes(pattern: Pattern, seam: Seam, wanted: float) -> Promise:
    """The promise that the first run of a seam comes out longer than the second by so much, mm."""
    what = f'how much longer the first side of "{seam.name}" is'
    return Promise(what, partial(_surplus, seam.name), wanted - run_surplus(pattern, seam))


def _total(piece: str, edges: frozenset[str], pattern: Pattern) -> float:
    there = pattern.piece(piece)
    return sum(edge_length(there, edge.name) for edge in there.edges if edge.name in edges)


def _length(piece: str, edge: str, pattern: Pattern) -> float:
    return edge_length(pattern.piece(piece), edge)


def _finished(name: str, pattern: Pattern) -> float:
    return next(finished_length(pattern, measure) for measure in pattern.measures if measure.name == name)


def _finished_beyond(name: str, was: float, give: float, pattern: Pattern) -> float:
    return max(0.0, abs(_finished(name, pattern) - was) - give)


def _surplus(seam: str, pattern: Pattern) -> float:
    return run_surplus(pattern, pattern.seam(seam))


def _worse(seam: str, off: float, pattern: Pattern) -> float:
    found = pattern.seam(seam)
    return max(0.0, abs(run_surplus(pattern, found) - found.ease.wanted) - off)


def _strayed(piece: str, edge: str, was: tuple[Curve, ...], pattern: Pattern) -> float:
    now = pattern.piece(piece).edge(edge).curves
    if now is was or now == was:
        return 0.0
    before, after = ([point for curve in run for point in drawn_by(curve)] for run in (was, now))
    if len(before) != len(after):
        return math.inf
    return max(distance(a, b) for a, b in zip(before, after, strict=True))


def drawn_by(curve: Curve) -> tuple[Point, ...]:
    """The points that a curve is drawn by: its ends, and the handles of one that is no line."""
    return (curve.start, curve.end) if isinstance(curve, Line) else (curve.start, curve.c1, curve.c2, curve.end)
