"""What makes a garment take less cloth: each change tried on the pattern and the cloth, and laid again."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial, reduce
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import InputProblems, NotAPattern
from drafting.pattern import Cut, Edge, Pattern, Piece, PieceKind, Role, pieces_of, with_pieces
from drafting.reading.units import length_text
from output.lay.find_lay import find_lay
from output.lay.how_much import length_to_buy
from output.lay.lay_values import Fold, Lay, Spread
from output.lay.lay_widths import known_lay
from output.lay.search_lay import never, pack_lay

__all__ = [
    "CUT_SINGLY",
    "Change",
    "Saving",
    "Tried",
    "best_savings",
    "changes_the_bill",
    "changes_to_try",
    "least_changes_to_fit",
    "try_changes",
]

CUT_SINGLY: Final = (
    "cut singly, on the cloth opened out: trace what lies on a fold whole first, and of each pair lay one face down"
)

_SEAM: Final = 15.0  # mm, where the pattern shows no allowance to go by
_HEM: Final = 20.0  # mm: turned twice by 1 cm, common practice for a narrow hem
_NARROW: Final = 10.0  # mm: common practice where a seam is neatened by machine
_WORTH: Final = 10.0  # mm: less than this is not told
_PACKING: Final = 1.0  # seconds at the least, for the solver to come to anything
_NEARLY: Final = 1.08  # a lay longer than wanted by up to this is packed closer before it is given up


def _as_it_is(pattern: Pattern) -> Pattern:
    return pattern


@dataclass(frozen=True, slots=True)
class Change:
    """One thing to do otherwise: in words, what it makes of the pattern as far as the lay goes, and how the cloth lies.

    fold: None where the cloth lies as before
    """

    words: str
    alter: Callable[[Pattern], Pattern] = _as_it_is
    fold: Fold | None = None

    def cloth(self, cloth: Spread) -> Spread:
        """The cloth after the change."""
        return replace(cloth, fold=self.fold) if self.fold else cloth


@dataclass(frozen=True, slots=True)
class Tried:
    """A change and the lays it gives: found at once, and packed by the solver, None where there was no time for it."""

    words: str
    quick: Lay
    packed: Lay | None = None


@dataclass(frozen=True, slots=True)
class Saving:
    """Changes, the lay they give, and how much shorter that is than before, mm."""

    changes: tuple[str, ...]
    lay: Lay
    saved: float


def changes_to_try(pattern: Pattern, cloth: Spread, unit: str) -> tuple[Change, ...]:
    """Everything that may save cloth on this pattern and can be done with it, what mostly saves most first."""
    return tuple(_changes(pattern, cloth, unit))


def try_changes(
    pattern: Pattern,
    cloth: Spread,
    *,
    unit: str,
    others: Sequence[tuple[str, Pattern]] = (),
    seconds: float = 0.0,
    stopped: Callable[[], bool] = never,
) -> tuple[Tried, ...]:
    """Each change laid by itself; what cannot be laid is left out.

    others:  more to try: in words, and the pattern as it would be drafted
    seconds: for the solver, shared among them; the first has a second of its own at the least
    """
    began = time.monotonic()
    ways = [
        (change.words, change.alter(pattern), change.cloth(cloth)) for change in changes_to_try(pattern, cloth, unit)
    ]
    ways += [(words, other, cloth) for words, other in others]
    laid = ((words, _laid(pattern, other, lies, unit)) for words, other, lies in ways if not stopped())
    tried = [Tried(words, lay) for words, lay in laid if lay is not None]
    share = max(_PACKING, seconds / max(1, len(tried)))
    for place, each in enumerate(tried):
        late = time.monotonic() - began + 0.5 * share > seconds
        if stopped() or not seconds or (late and place > 0):
            break
        tried[place] = replace(each, packed=pack_lay(each.quick, seconds=share, stopped=stopped))
    return tuple(tried)


def best_savings(best: Lay, tried: Sequence[Tried]) -> tuple[Saving, ...]:
    """What is shorter than the lay that is shown, what saves most first: one told length to count from.

    Whether less has to be bought is not asked here: `changes_the_bill` says that.
    """
    lays = ((each.words, each.packed or each.quick) for each in tried)
    found = [Saving((words,), lay, best.length - lay.length) for words, lay in lays]
    worth = [each for each in found if each.saved >= _WORTH]
    return tuple(sorted(worth, key=lambda each: -each.saved))


def changes_the_bill(savings: Sequence[Saving], best: Lay, shrinkage: float, unit: str) -> tuple[Saving, ...]:
    """The savings by which a shop cuts less cloth than for the lay that is shown."""
    bought = length_to_buy(best.length, shrinkage, unit)
    return tuple(each for each in savings if length_to_buy(each.lay.length, shrinkage, unit) < bought)


def least_changes_to_fit(pattern: Pattern, cloth: Spread, most: float, *, unit: str) -> Saving | None:
    """Changes that bring the lay to at most `most` mm, each time the one that then saves most; None where none do."""
    before = known_lay(pattern, cloth, "shell", unit).length
    left = list(changes_to_try(pattern, cloth, unit))
    taken: list[Change] = []
    length = before
    while left:
        laid = [(change, lay) for change in left if (lay := _with([*taken, change], pattern, cloth, unit)) is not None]
        change, lay = min(laid, key=lambda each: each[1].length, default=(None, None))
        if change is None or lay is None or lay.length >= length:
            return None
        taken.append(change)
        left = [each for each in left if each is not change and not (each.fold and change.fold)]
        length = lay.length
        if most < length <= _NEARLY * most:
            lay = pack_lay(lay, seconds=_PACKING)
        if lay.length <= most:
            return Saving(tuple(each.words for each in taken), lay, before - lay.length)
    return None


def _with(changes: Sequence[Change], pattern: Pattern, cloth: Spread, unit: str) -> Lay | None:
    altered = reduce(lambda made, change: change.alter(made), changes, pattern)
    return _laid(pattern, altered, reduce(lambda made, change: change.cloth(made), changes, cloth), unit)


def _laid(before: Pattern, pattern: Pattern, cloth: Spread, unit: str) -> Lay | None:
    """The lay of a change; where only the cloth lies otherwise, the one that is told of such cloth elsewhere too."""
    try:
        return known_lay(pattern, cloth, "shell", unit) if pattern is before else find_lay(pattern, cloth)
    except (InputProblems, NotAPattern):
        return None


def _changes(pattern: Pattern, cloth: Spread, unit: str) -> Iterator[Change]:
    """What may save cloth: other ways to fold it, a seam for a fold, narrower hems and allowances."""
    if cloth.fold != "single":
        yield Change(CUT_SINGLY, fold="single")
    if cloth.fold != "double":
        yield Change("fold both selvedges to the middle", fold="double")
    if cloth.fold != "across" and not cloth.one_way and not cloth.repeat:
        yield Change("fold the cloth across, cut end on cut end", fold="across")
    facings = tuple(piece.name for piece in pieces_of(pattern, PieceKind.FACING) if piece.cut.count)
    if facings:
        yield Change("cut the facings from another cloth", partial(_without, names=facings))
    for piece in pattern.pieces:
        if piece.cut.fold and piece.cut.count and any(edge.role is Role.FOLD for edge in piece.edges):
            words = (
                f"a seam in place of the fold of the {piece.name}, {length_text(_usual_allowance(piece), unit)} allowed"
            )
            yield Change(words, partial(_with_seam, name=piece.name))
    for role, most, words in ((Role.HEM, _HEM, "hems of"), (Role.SEAM, _NARROW, "seam allowances of")):
        narrower = partial(_narrowed, role=role, most=most)
        if narrower(pattern) != pattern:
            yield Change(f"{words} {length_text(most, unit)}", narrower)


def _without(pattern: Pattern, names: Sequence[str]) -> Pattern:
    """The pattern with these pieces cut from something else."""
    pieces = (pattern.piece(name) for name in names)
    return with_pieces(pattern, *(replace(piece, cut=replace(piece.cut, count=0)) for piece in pieces))


def _with_seam(pattern: Pattern, name: str) -> Pattern:
    """Half a piece made one of a pair: its fold becomes a seam."""
    piece = pattern.piece(name)
    allowance = _usual_allowance(piece)
    edges = tuple(
        replace(edge, role=Role.SEAM, allowance=allowance) if edge.role is Role.FOLD else edge for edge in piece.edges
    )
    was = piece.cut
    cut = Cut(2 * was.count, False, True, 2 * was.lining, 2 * was.interfacing)
    return with_pieces(pattern, replace(piece, edges=edges, cut=cut))


def _usual_allowance(piece: Piece) -> float:
    """The allowance most of its seams have, mm."""
    seams = [edge.allowance for edge in piece.edges if edge.role is Role.SEAM and edge.allowance > 0.0]
    return max(seams, key=seams.count) if seams else _SEAM


def _narrowed(pattern: Pattern, role: Role, most: float) -> Pattern:
    """The pattern with no allowance of that kind of edge above `most` mm."""

    def narrowed(edge: Edge) -> Edge:
        return edge.with_allowance(most) if edge.role is role and edge.allowance > most else edge

    pieces = (replace(piece, edges=tuple(narrowed(edge) for edge in piece.edges)) for piece in pattern.pieces)
    return with_pieces(pattern, *pieces)
