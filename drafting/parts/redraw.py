"""Derived pieces taken off a pattern and drawn to it again.

An alteration is taken on the pattern without them, and then each is drawn to what the pattern is now. So the same comes
out whether a part or an alteration is asked for first.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern, Remedy
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.facing_in_one import HEM_FACING, LINING, NECK_FACING, STAND_FACING
from drafting.parts.part_table import DRAW
from drafting.parts.undraw import as_asked, edge_as_it_is, with_edges_as, without_derived
from drafting.pattern import (
    Derived,
    LineRef,
    Measure,
    NotchRef,
    Pattern,
    Piece,
    Seam,
    free_name,
    pieces_drawn_to,
)

__all__ = ["PartRefused", "drawn_again", "require_drawn"]


class PartRefused(NotAPattern):
    """A part that cannot be drawn.

    where, reason: the part, and what stands in the way
    part, pattern: the part as it is asked for, and the pattern that asks for it
    remedies: what may let it be drawn; not tried yet
    """

    def __init__(
        self, where: str, reason: str, part: Derived, pattern: Pattern, remedies: Iterable[Remedy] = ()
    ) -> None:
        super().__init__(where, reason, remedies)
        self.args = where, reason, part, pattern, self.remedies
        self.part, self.pattern = part, pattern


_IN_ONE: Final = (
    {NECK_FACING, STAND_FACING},
    {HEM_FACING, STAND_FACING},
    {NECK_FACING, HEM_FACING},
    {NECK_FACING, LINING},
    {"front band", "hem band"},
)
"""Parts of which each is drawn to what the other is."""


def drawn_again(bare: Pattern, before: Pattern) -> Pattern:
    """The pattern with every part drawn to it as it is now.

    bare:   a pattern without what was drawn (`without_derived`), altered since
    before: the pattern it comes from; what is drawn to pieces and seams that are still the same is taken from there
    A part of which nothing was drawn there may wait for a further step (`require_drawn`).
    Raises NotAPattern where another cannot be drawn, with what stands in the way.
    """
    if not bare.derived:
        return bare
    bare_before = without_derived(before)
    pieces, seams = list(bare.pieces), list(bare.seams)
    taken = {piece.name for piece in pieces}
    derived: list[Derived] = []
    for part in bare.derived:
        drawn_before = next((each for each in before.derived if as_asked(each) == as_asked(part)), None)
        if (
            drawn_before is not None
            and _is_drawn(drawn_before)
            and not taken.intersection(drawn_before.pieces)
            and _drawn_from(bare, part) == _drawn_from(bare_before, part)
        ):
            drawn = _drawn_before(before, drawn_before)
        else:
            others = (*derived, *bare.derived[len(derived) + 1 :])
            try:
                drawn = _draw(bare, others, part)
            except NotAPattern:
                if drawn_before is None or _is_drawn(drawn_before):
                    raise
                drawn = Drawn((), ())
        drawn = _with_free_names(drawn, pieces, seams)
        for name, notch in drawn.notches:
            at = next(k for k, piece in enumerate(pieces) if piece.name == name)
            if notch not in pieces[at].notches:  # two parts may mark the same, as the centre of a neck
                pieces[at] = replace(pieces[at], notches=(*pieces[at].notches, notch))
        for name, line in drawn.lines:
            at = next(k for k, piece in enumerate(pieces) if piece.name == name)
            pieces[at] = replace(pieces[at], lines=(*pieces[at].lines, line))
        without = tuple(edge_as_it_is(pieces, edge) for edge in drawn.edges)
        pieces = [with_edges_as(piece, drawn.edges) for piece in pieces]
        pieces += drawn.pieces
        seams += drawn.seams
        derived.append(
            replace(
                part,
                pieces=tuple(piece.name for piece in drawn.pieces),
                seams=tuple(seam.name for seam in drawn.seams),
                notches=tuple(NotchRef(piece, notch.name) for piece, notch in drawn.notches),
                edges=without,
                lines=tuple(LineRef(piece, line.name) for piece, line in drawn.lines),
            )
        )
    return replace(bare, pieces=tuple(pieces), seams=tuple(seams), derived=tuple(derived))


def require_drawn(pattern: Pattern) -> None:
    """Raise NotAPattern for a part that still waits for a step, with what stands in the way."""
    if all(map(_is_drawn, pattern.derived)):
        return
    bare = without_derived(pattern)
    for place, part in enumerate(pattern.derived):
        if not _is_drawn(part):
            others = (*pattern.derived[:place], *pattern.derived[place + 1 :])
            _draw(bare, others, part)


def _draw(bare: Pattern, others: Sequence[Derived], part: Derived) -> Drawn:
    """What is drawn for a part beside the others. Raises PartRefused."""
    try:
        return DRAW[part.part](replace(bare, derived=tuple(others)), part)
    except NotAPattern as error:
        reason = error.reason if error.where in (part.part, part.name) else f'on "{error.where}" {error.reason}'
        helps = (replace(each, alteration=each.alteration or part.name) for each in error.remedies)
        raise PartRefused(part.name, reason, part, bare, helps) from error


def _is_drawn(part: Derived) -> bool:
    """Whether anything was drawn for it: a casing that is turned from an edge has no piece of its own."""
    return bool(part.pieces or part.edges)


def _drawn_before(pattern: Pattern, part: Derived) -> Drawn:
    """What the pattern has of a part."""
    pieces = tuple(pattern.piece(name) for name in part.pieces)
    seams = tuple(pattern.seam(name) for name in part.seams)
    notches = tuple((at.piece, pattern.piece(at.piece).notch(at.notch)) for at in part.notches)
    lines = tuple((at.piece, pattern.piece(at.piece).line(at.line)) for at in part.lines)
    return Drawn(pieces, seams, notches, tuple(edge_as_it_is(pattern.pieces, edge) for edge in part.edges), lines)


def _with_free_names(drawn: Drawn, pieces: Sequence[Piece], seams: Sequence[Seam]) -> Drawn:
    """What was drawn, its seams and its notches on pieces of the garment under names that no other there has."""
    mine = set(drawn.notches)
    there = {piece.name: {notch.name for notch in piece.notches if (piece.name, notch) not in mine} for piece in pieces}
    named = {NotchRef(on, notch.name): NotchRef(on, free_name(notch.name, there[on])) for on, notch in drawn.notches}
    joined: list[Seam] = []
    for seam in drawn.seams:
        name = free_name(seam.name, [each.name for each in (*seams, *joined)])
        pairs = tuple((named.get(one, one), named.get(other, other)) for one, other in seam.notches)
        joined.append(replace(seam, name=name, notches=pairs))
    marked = {piece.name: {line.name for line in piece.lines} for piece in pieces}
    lines = tuple((on, replace(line, name=free_name(line.name, marked[on]))) for on, line in drawn.lines)
    notches = ((on, replace(notch, name=named[NotchRef(on, notch.name)].notch)) for on, notch in drawn.notches)
    return replace(drawn, seams=tuple(joined), notches=tuple(notches), lines=lines)


def _drawn_from(pattern: Pattern, part: Derived) -> list[object]:
    """All that the drawing of a part hangs on: what it is drawn to, and a part it is drawn in one with."""
    beside = [each for each in pattern.derived if {each.part, part.part} in _IN_ONE]
    return [_sources(pattern, part), *((as_asked(each), _sources(pattern, each)) for each in beside)]


def _sources(pattern: Pattern, part: Derived) -> tuple[tuple[Piece, ...], tuple[Seam, ...], tuple[Measure, ...]]:
    """The pieces a part is drawn to, with all panels of them, the seams of those, and where the tape lies on them."""
    drawn_to = {piece.name: piece for source in part.to for piece in pieces_drawn_to(pattern, source)}
    kinds = {piece.identity for piece in drawn_to.values()}
    near = tuple(each for each in pattern.pieces if each.name in drawn_to or each.identity in kinds)
    names = {piece.name for piece in near}
    seams = tuple(seam for seam in pattern.seams if any(ref.piece in names for ref in (*seam.a, *seam.b)))
    measures = tuple(each for each in pattern.measures if any(tape.piece in names for tape in each.tape))
    return near, seams, measures
