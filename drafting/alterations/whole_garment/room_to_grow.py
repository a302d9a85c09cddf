"""Cloth left in a garment to be let down or let out later: a deeper hem, a wider seam at the waist, a tuck.

Today the garment fits as before: the tuck is sewn, the hem turned up, the seam sewn at its old place. The line to let
it down to later is marked on the piece. A tuck takes up the cloth between two lines that are sewn together (school
books of needlework; how much cloth is left at which place: `drafting/growth/to_leave.py`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, find_piece
from drafting.alterations.finishes.hem import Hem
from drafting.alterations.one_piece import ONLY, taking_part
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, lengths_kept, seams_kept
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.spreading.level_cut import CutLine
from drafting.alterations.whole_garment.lengthen import Lengthen, cuts_of
from drafting.errors import StepRefused
from drafting.geometry import Curve, Point, run_hits
from drafting.geometry.offset import parallel_run
from drafting.geometry.tolerance import SOLVED
from drafting.pattern import (
    Curved,
    Edge,
    Level,
    MarkLine,
    Measure,
    Pattern,
    Piece,
    Place,
    Role,
    edges_at,
    finished_length,
    free_name,
    line_at,
    pieces_of,
    with_edges,
    with_pieces,
)
from drafting.pattern.unfinished import is_facing

__all__ = ["AT_HEM", "AT_WAIST", "TUCK", "RoomToGrow"]

AT_HEM: Final = "hem"
AT_WAIST: Final = "waist"
TUCK: Final = "tuck"

_MOST: Final = 150.0
"""mm. More than this is another garment (ours)."""


@alteration_class
class RoomToGrow(Alteration):
    """Leave cloth in a hem, at the waist seam or in a tuck, to be let down when the child has grown."""

    name = "room to grow"
    layer = Layer.HEMS
    about = "Leave cloth to be let down later: in the hem, at the waist seam, or in a tuck that is let out again."
    leaves = "what the garment measures now; how well every seam meets"
    carries = "every hem, waist or tuck that runs on from it over a seam"

    piece: str = option("text", "a piece with the hem, the waist or the tuck; the other pieces follow")
    by: float = option("length", "by how much it can be let down later", 3.0, _MOST, or_less=True)
    at: str = option("choice", "where the cloth is left", choices=(AT_HEM, AT_WAIST, TUCK), default=AT_HEM)
    line: str = option("text", "the marked line at which a tuck is sewn; left out, where it is lengthened", default="")
    until: str = option("text", "until when it is to last, written on the piece", default="")
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        if self.at == TUCK:
            return _tucked(self, pattern)
        if self.at == AT_WAIST:
            found = _waists(self, pattern)
            wider = [_wider(self, pattern.piece(name), edges) for name, edges in found.items()]
            return with_pieces(pattern, *wider)
        deeper = _taken(self, _hem(self), pattern)
        changed = [piece for piece in deeper.pieces if piece is not pattern.piece(piece.name)]
        return with_pieces(deeper, *(_marked(self, piece, _hems(piece)) for piece in changed))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        if self.at == AT_HEM:
            yield from _hem(self).promises(pattern)
            return
        if self.at == AT_WAIST:
            for name in _waists(self, pattern):
                piece = pattern.piece(name)
                yield from lengths_kept(piece, (edge.name for edge in piece.edges))
        else:
            yield from _longer(self, pattern).promises(pattern)
        yield from finished_kept(pattern)
        if self.at == AT_WAIST and not self.only:  # of a tuck, the lengthening promises what it keeps
            yield from seams_kept(pattern)


def _taken(step: RoomToGrow, by: Alteration, pattern: Pattern) -> Pattern:
    """The pattern after the alteration that makes the room. Raises StepRefused in the name of this one."""
    try:
        return by.apply(pattern)
    except StepRefused as refused:
        raise StepRefused(step.name, reason=refused.reason, too_much=("by",) if refused.too_much else ()) from refused


def _hem(step: RoomToGrow) -> Hem:
    return Hem(step.piece, grow=step.by, only=step.only)


def _hems(piece: Piece) -> list[Edge]:
    return [edge for edge in piece.edges if edge.role is Role.HEM]


def _waists(step: RoomToGrow, pattern: Pattern) -> dict[str, list[Edge]]:
    """The waist seams of the pieces of one part of the body, by piece. Raises StepRefused where there is none."""
    first = find_piece(step.name, pattern, step.piece)
    found = {}
    for piece in pieces_of(pattern, part=first.identity.part):
        edges = [edge for edge in edges_at(piece, Place.WAIST) if edge.role is Role.SEAM and not is_facing(piece)]
        if edges:
            found[piece.name] = edges
    if first.name not in found:
        raise StepRefused(
            step.name, reason=f'"{first.name}" has no waist seam; leave the cloth in the hem or in a tuck'
        )
    taken = taking_part(step.name, step.only, tuple(found))
    for name in taken:
        piece = pattern.piece(name)
        ended = [dart.name for dart in piece.darts if _opens_at(piece, dart.legs, found[name])]
        if ended:
            reason = f'the "{ended[0]}" of "{name}" ends at the waist, which would no longer fit where it is let down'
            raise StepRefused(
                step.name, reason=f"{reason}; leave the cloth in a tuck", remedies=instead(step.name, "at", "tuck")
            )
    return {name: found[name] for name in taken}


def _opens_at(piece: Piece, legs: tuple[str, str], edges: Sequence[Edge]) -> bool:
    before, after = piece.beside(legs[0], last=legs[1])
    return before in edges or after in edges


def _wider(step: RoomToGrow, piece: Piece, edges: Sequence[Edge]) -> Piece:
    return _marked(step, with_edges(piece, *(edge.with_allowance(edge.allowance + step.by) for edge in edges)), edges)


def _marked(step: RoomToGrow, piece: Piece, edges: Sequence[Edge]) -> Piece:
    """The piece with a line outside these edges, where they come to lie when they are let down."""
    lines: list[MarkLine] = []
    for edge in edges:
        run = parallel_run(edge.curves, step.by)
        number = f" ({len(lines) + 1})" if len(edges) > 1 else ""
        name = f"let down to here{f', to last until {step.until}' if step.until else ''}{number}"
        lines.append(_along(name, run))
    taken = {line.name for line in piece.lines}
    named = (replace(line, name=free_name(line.name, taken)) for line in lines)
    return replace(piece, lines=(*piece.lines, *named))


def _along(name: str, run: tuple[Curve, ...]) -> MarkLine:
    start, end = run[0].start, run[-1].end
    return MarkLine(name, start, end, level=Level.LET_DOWN).through(run, start, end)


def _longer(step: RoomToGrow, pattern: Pattern) -> Lengthen:
    """The lengthening that gives the cloth of a tuck."""
    piece = find_piece(step.name, pattern, step.piece)
    level = line_at(piece, Level.LENGTHEN_ABOVE_ELBOW) or line_at(piece, Level.LENGTHEN)
    line = step.line or (level.name if level is not None else "")
    if not line:
        raise StepRefused(step.name, reason=f'"{piece.name}" has no line to lengthen it at; name one: line = "..."')
    return Lengthen(step.piece, step.by, line, step.only)


def _tucked(step: RoomToGrow, pattern: Pattern) -> Pattern:
    longer = _longer(step, pattern)
    cuts = cuts_of(longer, pattern)
    cut = _taken(step, longer, pattern)
    pieces = [_tuck_marked(cut.piece(name), at, step.by) for name, at in cuts.items()]
    marked = with_pieces(cut, *pieces)
    return replace(
        marked, measures=tuple(_taken_up(pattern, marked, measure, tuple(cuts)) for measure in marked.measures)
    )


def _taken_up(before: Pattern, after: Pattern, measure: Measure, pieces: Sequence[str]) -> Measure:
    """The measurement with what the tuck takes up left out of it. pieces: those with the tuck."""
    more = finished_length(after, measure) - finished_length(before, measure)
    if abs(more) <= SOLVED:
        return measure
    piece = next((part.piece for part in measure.tape if part.piece in pieces), pieces[0])
    line = next(line.name for line in after.piece(piece).lines if line.level is Level.TUCK)
    return replace(measure, tape=(*measure.tape, Curved(piece, line, -more)))


def _tuck_marked(piece: Piece, cut: CutLine, by: float) -> Piece:
    """The piece with the two lines of a tuck that takes up what it was lengthened by."""
    lines: list[MarkLine] = []
    for name, down in (("tuck: sew this line", 0.0), ("tuck: onto this line", by)):
        at = cut.through + cut.down * down
        lines.append(_across(piece, free_name(name, {line.name for line in piece.lines}), at, cut))
    first, second = lines
    kept = tuple(line for line in piece.lines if line is not _lengthened_at(piece, cut))
    return replace(piece, lines=(*kept, first, replace(second, onward=True)))


def _lengthened_at(piece: Piece, cut: CutLine) -> MarkLine | None:
    """The line to lengthen at that the tuck takes the place of; None where it is sewn at another line."""
    levels = (Level.LENGTHEN, Level.LENGTHEN_ABOVE_ELBOW)
    name = cut.line.name if cut.line is not None else ""
    return next((line for line in piece.lines if line.name == name and line.level in levels), None)


def _across(piece: Piece, name: str, at: Point, cut: CutLine) -> MarkLine:
    """A line across the piece through a point, over its darts, from the nearest edge on each side."""
    across = cut.down.left()
    outer = (edge for edge in piece.edges if edge.role is not Role.DART_LEG)
    hits = [hit.along for edge in outer for _, hit in run_hits(edge.curves, at, across)]
    left = max((along for along in hits if along <= 0.0), default=0.0)
    right = min((along for along in hits if along >= 0.0), default=0.0)
    return MarkLine(name, at + across * left, at + across * right, level=Level.TUCK)
