"""Derived pieces taken off a pattern and drawn to it again.

An alteration is taken on the pattern without them, and then each is drawn to what the pattern is now. So the same comes
out whether a part or an alteration is asked for first.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from drafting.errors import NotAPattern, Remedy
from drafting.parts.drawn import Drawn
from drafting.parts.part_table import DRAW, IN_ONE_WITH
from drafting.parts.undraw import as_asked, edge_as_it_is, with_edges_as, without_derived
from drafting.pattern import (
    Derived,
    EdgeAs,
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
        super().__init__(where, reason=reason, remedies=remedies)
        self.part, self.pattern = part, pattern

    def __reduce__(self) -> tuple[object, ...]:
        return PartRefused, (self.where, self.reason, self.part, self.pattern, self.remedies)


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
    bare_names = {piece.name for piece in pieces}
    derived: list[Derived] = []
    for part in bare.derived:
        earlier = next((each for each in before.derived if as_asked(each) == as_asked(part)), None)
        if earlier and _can_be_kept(part, earlier, bare, bare_before, bare_names):
            drawn = _drawn_before(before, earlier)
        else:
            others = (*derived, *bare.derived[len(derived) + 1 :])
            drawn = _draw_or_wait(bare, others, part, waited=earlier is not None and not _is_drawn(earlier))
        drawn = _with_free_names(drawn, pieces, seams)
        marked = [_with_marks(piece, drawn) for piece in pieces]
        edges_before = tuple(edge_as_it_is(marked, edge) for edge in drawn.edges)
        pieces = [*(with_edges_as(piece, drawn.edges) for piece in marked), *drawn.pieces]
        seams += drawn.seams
        derived.append(_noted(part, drawn, edges_before))
    return replace(bare, pieces=tuple(pieces), seams=tuple(seams), derived=tuple(derived))


def _can_be_kept(part: Derived, earlier: Derived, bare: Pattern, bare_before: Pattern, bare_names: set[str]) -> bool:
    """Whether what was drawn for a part before is what would be drawn now; bare_names: pieces of the garment itself."""
    free = bare_names.isdisjoint(earlier.pieces)
    return _is_drawn(earlier) and free and _drawn_from(bare, part) == _drawn_from(bare_before, part)


def _draw_or_wait(bare: Pattern, others: Sequence[Derived], part: Derived, *, waited: bool) -> Drawn:
    """What is drawn for a part; nothing where it cannot be and has waited for a further step before."""
    try:
        return _draw(bare, others, part)
    except NotAPattern:
        if waited:
            return Drawn((), ())
        raise


def _with_marks(piece: Piece, drawn: Drawn) -> Piece:
    """The piece with the notches and lines that a part marks on it."""
    there = set(piece.notches)  # two parts may mark the same, as the centre of a neck
    notches = [notch for on, notch in drawn.notches if on == piece.name and notch not in there]
    lines = [line for on, line in drawn.lines if on == piece.name]
    if not notches and not lines:
        return piece
    return replace(piece, notches=(*piece.notches, *dict.fromkeys(notches)), lines=(*piece.lines, *lines))


def _noted(part: Derived, drawn: Drawn, edges_before: tuple[EdgeAs, ...]) -> Derived:
    """The part with the names of what was drawn for it, and the edges of the garment as they are without it."""
    return replace(
        part,
        pieces=tuple(piece.name for piece in drawn.pieces),
        seams=tuple(seam.name for seam in drawn.seams),
        notches=tuple(NotchRef(piece, notch.name) for piece, notch in drawn.notches),
        edges=edges_before,
        lines=tuple(LineRef(piece, line.name) for piece, line in drawn.lines),
    )


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
    beside = [each for each in pattern.derived if each.part in IN_ONE_WITH[part.part]]
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
