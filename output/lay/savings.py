"""What makes a garment take less cloth: each change tried on the pattern and the cloth, and laid again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from typing import Final

from drafting.errors import InputProblems, NotAPattern
from drafting.pattern import Cut, Edge, Pattern, Piece, PieceKind, Role, pieces_of, with_pieces
from drafting.reading.units import length_text
from output.lay.find_lay import QUICK, find_lay
from output.lay.lay_values import Lay, Spread

__all__ = ["Change", "Saving", "changes_to_try", "least_changes_to_fit", "savings"]

_SEAM: Final = 15.0  # mm, where the pattern shows no allowance to go by
_HEM: Final = 20.0  # mm: turned twice by 1 cm, common practice for a narrow hem
_NARROW: Final = 10.0  # mm: common practice where a seam is neatened by machine
_WORTH: Final = 10.0  # mm: less than this is not told


@dataclass(frozen=True, slots=True)
class Change:
    """One thing to do otherwise: in words, and the pattern and the cloth as they then are.

    pieces: the pieces that it changes, or leaves to another cloth (`without`)
    """

    words: str
    pieces: tuple[Piece, ...] = ()
    without: tuple[str, ...] = ()
    fold: str = ""

    def pattern(self, pattern: Pattern) -> Pattern:
        """The pattern after the change, as far as the lay goes: what is left out is cut no more."""
        changed = with_pieces(pattern, *self.pieces)
        uncut = (
            replace(piece, cut=replace(piece.cut, count=0)) for piece in changed.pieces if piece.name in self.without
        )
        return with_pieces(changed, *uncut)

    def cloth(self, cloth: Spread) -> Spread:
        """The cloth after the change."""
        return replace(cloth, fold=self.fold) if self.fold else cloth  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Saving:
    """What was tried, the lay it gives, and how much shorter that is than before, mm."""

    changes: tuple[str, ...]
    lay: Lay
    saved: float


def changes_to_try(pattern: Pattern, cloth: Spread, unit: str) -> tuple[Change, ...]:
    """Everything that may save cloth on this pattern and can be done with it as it lies there."""
    return tuple(_changes(pattern, cloth, unit))


def savings(
    pattern: Pattern,
    cloth: Spread,
    *,
    unit: str,
    others: Sequence[tuple[str, Pattern]] = (),
    tries: int = QUICK,
) -> tuple[Saving, ...]:
    """Each change that saves cloth, tried by itself, what saves most first.

    others: more to try: in words, and the pattern as it would be drafted
    Raises InputProblems where the pieces are too wide for the cloth as it is.
    """
    before = find_lay(pattern, cloth, tries=tries, unit=unit)
    tried = [
        (change.words, change.pattern(pattern), change.cloth(cloth)) for change in changes_to_try(pattern, cloth, unit)
    ]
    tried += [(words, other, cloth) for words, other in others]
    found = []
    for words, other, lies in tried:
        try:
            lay = find_lay(other, lies, tries=tries)
        except (InputProblems, NotAPattern):
            continue
        found.append(Saving((words,), lay, before.length - lay.length))
    worth = [each for each in found if each.saved >= _WORTH]
    return tuple(sorted(worth, key=lambda each: -each.saved))


def least_changes_to_fit(
    pattern: Pattern, cloth: Spread, most: float, *, unit: str, tries: int = QUICK
) -> Saving | None:
    """Changes that bring the lay to at most `most` mm, each time the one that then saves most; None where none do."""
    before = find_lay(pattern, cloth, tries=tries, unit=unit).length
    left = list(changes_to_try(pattern, cloth, unit))
    taken: list[Change] = []
    length = before
    while left:
        laid = [(change, lay) for change in left if (lay := _with(pattern, cloth, [*taken, change], tries)) is not None]
        if not laid:
            return None
        change, lay = min(laid, key=lambda each: each[1].length)
        if lay.length > length - _WORTH:
            return None
        taken.append(change)
        left = [each for each in left if each is not change and _together(each, change)]
        length = lay.length
        if length <= most:
            return Saving(tuple(each.words for each in taken), lay, before - length)
    return None


def _with(pattern: Pattern, cloth: Spread, changes: Sequence[Change], tries: int) -> Lay | None:
    other = reduce(lambda made, change: change.pattern(made), changes, pattern)
    lies = reduce(lambda made, change: change.cloth(made), changes, cloth)
    try:
        return find_lay(other, lies, tries=tries)
    except (InputProblems, NotAPattern):
        return None


def _together(one: Change, other: Change) -> bool:
    """Whether both can be done: not two folds, and no piece changed twice."""
    names = {piece.name for piece in one.pieces}
    return not (one.fold and other.fold) and names.isdisjoint(piece.name for piece in other.pieces)


def _changes(pattern: Pattern, cloth: Spread, unit: str) -> Iterator[Change]:
    if cloth.fold != "single":
        yield Change(
            "open the cloth out and cut every piece singly, pairs once face up and once face down", fold="single"
        )
    if cloth.fold != "across" and not cloth.one_way and not cloth.repeat:
        yield Change("fold the cloth across, cut ends together", fold="across")
    for piece in pattern.pieces:
        if piece.cut.fold and any(edge.role is Role.FOLD for edge in piece.edges):
            seamed = _with_seam(piece)
            allowance = length_text(_usual_allowance(piece), unit)
            yield Change(
                f"cut the {piece.name} as a pair, with a seam in place of the fold ({allowance} allowed)", (seamed,)
            )
    facings = tuple(piece.name for piece in pieces_of(pattern, PieceKind.FACING))
    if facings:
        yield Change("cut the facings from another cloth", without=facings)
    shorter = _narrowed(pattern, Role.HEM, _HEM)
    if shorter:
        yield Change(f"hems of {length_text(_HEM, unit)}", shorter)
    narrower = _narrowed(pattern, Role.SEAM, _NARROW)
    if narrower:
        yield Change(f"seam allowances of {length_text(_NARROW, unit)}", narrower)


def _with_seam(piece: Piece) -> Piece:
    """Half a piece made one of a pair: its fold becomes a seam."""
    allowance = _usual_allowance(piece)
    edges = tuple(
        replace(edge, role=Role.SEAM, allowance=allowance) if edge.role is Role.FOLD else edge for edge in piece.edges
    )
    return replace(
        piece, edges=edges, cut=Cut(2 * piece.cut.count, False, True, 2 * piece.cut.lining, 2 * piece.cut.interfacing)
    )


def _usual_allowance(piece: Piece) -> float:
    """The allowance most of its seams have, mm."""
    seams = [edge.allowance for edge in piece.edges if edge.role is Role.SEAM and edge.allowance > 0.0]
    return max(seams, key=seams.count) if seams else _SEAM


def _narrowed(pattern: Pattern, role: Role, most: float) -> tuple[Piece, ...]:
    """The pieces with no allowance of that kind of edge above `most` mm; those that have none such are left out."""

    def narrow(edge: Edge) -> Edge:
        return edge.with_allowance(most) if edge.role is role and edge.allowance > most else edge

    pairs = ((piece, replace(piece, edges=tuple(narrow(edge) for edge in piece.edges))) for piece in pattern.pieces)
    return tuple(new for old, new in pairs if new.edges != old.edges)
