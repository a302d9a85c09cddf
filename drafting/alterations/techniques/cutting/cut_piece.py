"""A piece cut in two, or two pieces made one, with all that refers to them kept right: seams, tapes, notches.

Whoever cuts a piece says which stretches of the old edges each new edge is made of. From that, seams and measurements
run over the same cloth as before, on whichever piece it lies now.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.techniques.cutting.split_edges import EdgePart
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Point, distance, run_hits
from drafting.pattern import (
    Across,
    Along,
    Bent,
    Between,
    Curved,
    EdgeRef,
    Landmark,
    MarkPoint,
    Measure,
    NotchRef,
    Pattern,
    Piece,
    Seam,
    Tape,
    free_name,
    relaid,
)

__all__ = ["CutOffPiece", "crossing_name", "free_seam_name", "with_piece_cut"]

_CROSSING: Final = "where the tape crosses the seam"


@dataclass(frozen=True, slots=True)
class CutOffPiece:
    """One of the pieces that a piece became, and of which stretches of the old edges its edges are made."""

    piece: Piece
    parts: tuple[EdgePart, ...]


_Homes = Mapping[str, Sequence[tuple[str, str]]]
"""Where an old edge is now: piece and edge, in the order in which the old outline ran."""


def with_piece_cut(pattern: Pattern, old: str, halves: Sequence[CutOffPiece], *new: Seam) -> Pattern:
    """The pattern with these pieces in the place of one; new: the seams that join them, sewn before any other.

    Raises NotAPattern where a measurement cannot be laid over them.
    """
    halves = _with_crossings(pattern, old, halves)
    homes = _homes(halves)
    by_notch = {notch.name: half.piece.name for half in halves for notch in half.piece.notches}

    def run(refs: tuple[EdgeRef, ...]) -> tuple[EdgeRef, ...]:
        out: list[EdgeRef] = []
        for ref in refs:
            found = homes[ref.edge] if ref.piece == old else [(ref.piece, ref.edge)]
            out += [EdgeRef(*home, ref.backward) for home in (reversed(found) if ref.backward else found)]
        return tuple(dict.fromkeys(out))  # two edges that were joined are walked once

    def mark(ref: NotchRef) -> NotchRef:
        return NotchRef(by_notch[ref.notch], ref.notch) if ref.piece == old else ref

    def pairs(seam: Seam) -> tuple[tuple[NotchRef, NotchRef], ...]:
        kept = (pair for pair in seam.notches if all(ref.piece != old or ref.notch in by_notch for ref in pair))
        return tuple((mark(a), mark(b)) for a, b in kept)

    seams = tuple(replace(seam, a=run(seam.a), b=run(seam.b), notches=pairs(seam)) for seam in pattern.seams)
    pieces: list[Piece] = []
    for piece in pattern.pieces:
        pieces += [half.piece for half in halves] if piece.name == old else [piece]
    lay = partial(_laid_over, halves=[half.piece for half in halves], homes=homes)
    measures = relaid(pattern.measures, old, lay)
    return replace(pattern, pieces=tuple(pieces), seams=(*new, *seams), measures=measures)


def _homes(halves: Sequence[CutOffPiece]) -> _Homes:
    found: dict[str, list[tuple[float, str, str]]] = {}
    for half in halves:
        for part in half.parts:
            for fragment in part.of:
                found.setdefault(fragment.edge, []).append((fragment.low, half.piece.name, part.edge.name))
    return {
        edge: list(dict.fromkeys((piece, name) for _, piece, name in sorted(places))) for edge, places in found.items()
    }


def _with_crossings(pattern: Pattern, old: str, halves: Sequence[CutOffPiece]) -> list[CutOffPiece]:
    """The pieces with a mark where a tape from a point of one to a point of the other crosses the seam between them."""
    halves = list(halves)
    for measure in pattern.measures:
        for part in measure.tape:
            if isinstance(part, Between) and part.piece == old:
                homes = [_half_with_point(halves, name) for name in (part.one, part.other)]
                if homes[0] is None or homes[1] is None:
                    raise NotAPattern(
                        old, reason=f'"{part.one}" and "{part.other}", between which it is measured, are parted'
                    )
                if homes[0] != homes[1]:
                    at = _crossing(halves[homes[0]], halves[homes[1]], part)
                    for k in homes:
                        assert k is not None
                        piece = halves[k].piece
                        mark = MarkPoint(crossing_name(part), at, Landmark.TAPE_CROSSES)
                        if all(each.name != mark.name for each in piece.points):
                            piece = replace(piece, points=(*piece.points, mark))
                        halves[k] = replace(halves[k], piece=piece)
    return halves


def crossing_name(part: Between) -> str:
    """What the place is called at which the tape between two points crosses a seam."""
    return f"{_CROSSING}, {part.one} to {part.other}"


def _half_with_point(halves: Sequence[CutOffPiece], point: str) -> int | None:
    return next((k for k, half in enumerate(halves) if any(mark.name == point for mark in half.piece.points)), None)


def _crossing(one: CutOffPiece, other: CutOffPiece, part: Between) -> Point:
    start, end = one.piece.point(part.one), other.piece.point(part.other)
    whole = distance(start, end)
    hits = [hit for _, hit in run_hits(one.piece.outline, start, end - start) if 1e-6 < hit.along < whole]
    # where the neck was drawn wider, the tape may begin off the piece and run over the other alone
    return max(hits, key=lambda hit: hit.along).point if hits else start


def _laid_over(measure: Measure, part: Tape, halves: Sequence[Piece], homes: _Homes) -> Iterator[Tape]:
    """A stretch of tape on the old piece, laid over those that it became."""
    if isinstance(part, Along):
        yield from (replace(part, piece=piece, edge=edge) for piece, edge in homes[part.edge])
    elif isinstance(part, Across | Curved):
        there = [half.name for half in halves if _has_line(half, part.line)]
        # what a tape counts more or less is told once, wherever the line came to lie
        once = (there or [half.name for half in halves])[:1]
        yield from (replace(part, piece=name) for name in (there if isinstance(part, Across) else once))
    elif isinstance(part, Between):
        both = {part.one, part.other}
        together = [half.name for half in halves if both <= {mark.name for mark in half.points}]
        if together:
            yield replace(part, piece=together[0])
            return
        for half in halves:
            for end in both & {mark.name for mark in half.points}:
                yield Between(half.name, end, crossing_name(part), part.times)
    else:
        yield from _over_the_bend(measure, part, halves)


def _over_the_bend(measure: Measure, part: Bent, halves: Sequence[Piece]) -> Iterator[Tape]:
    """The tape over a line that a moved dart bends: as it was where it lies on one piece, else straight over each.

    Raises NotAPattern where a piece has the bend and only a part of what lies beyond it.
    """
    found = [(half.name, [line for line in (part.line, part.onward) if _has_line(half, line)]) for half in halves]
    crossed = [(name, lines) for name, lines in found if lines]
    for name, lines in crossed:
        if len(lines) < 2:
            yield Across(name, lines[0], part.times)
        elif len(crossed) == 1:
            yield replace(part, piece=name)
        else:
            raise NotAPattern(
                name,
                reason=f"the new seam would cross the line at which the {measure.name} is measured, beside the dart "
                "that bends it; move that dart to another place",
            )


def _has_line(piece: Piece, line: str) -> bool:
    return any(mark.name == line for mark in piece.lines)


def free_seam_name(pattern: Pattern, name: str) -> str:
    """The name, or with a number where a seam of the pattern has it."""
    return free_name(name, {seam.name for seam in pattern.seams})
