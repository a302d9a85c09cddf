"""A whole lay: which pieces lie on the folded cloth and which on cloth opened out, and each stretch packed."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.errors import InputProblems, NotAPattern, Problem
from drafting.pattern import Pattern, PieceKind, pieces_of
from drafting.reading.units import length_text
from output.lay.lay_pieces import Material, pieces_to_lay
from output.lay.lay_values import Fold, Lay, LayPiece, Spread
from output.lay.slide_pieces import slide_in
from output.lay.verify_lay import faults_in_lay

__all__ = ["QUICK", "find_lay", "too_wide_for"]

QUICK: Final = 160
"""Orders that are tried, of which some are the same: so the report, the first sheet and `lay` all say one length."""


_STRIPS: Final = (2, 3)
_WORTH_A_JOIN: Final = 100.0
"""mm of interfacing that a further join in a band is to save (ours)."""

_FOLDED_LESS: Final[Mapping[Fold, Fold]] = {"double": "lengthwise", "lengthwise": "single", "across": "single"}
"""How the cloth lies for what is too wide as it lies."""


def find_lay(
    pattern: Pattern,
    cloth: Spread,
    material: Material = "shell",
    *,
    tries: int = QUICK,
    unit: str = "cm",
) -> Lay:
    """The lay of everything that is cut from a material: the shortest found in so many tries.

    What is too wide for folded cloth is cut from cloth folded less or opened out, and so is what is cut through one
    layer, where that takes less cloth. Raises InputProblems for pieces that are too wide for the cloth even then,
    lengths in `unit`, and NotAPattern where the lay does not stand the test of an independent library: an outline that
    crosses itself. A band of interfacing is cut in strips where that takes much less.
    """

    def laid(strips: int) -> Lay:
        return _shortest(partial(pieces_to_lay, pattern, material=material, strips=strips), cloth, tries, unit)

    best = laid(1)
    if material == "interfacing" and pieces_of(pattern, PieceKind.BAND):
        for strips in _STRIPS:
            joined = laid(strips)
            best = joined if joined.length < best.length - _WORTH_A_JOIN else best
    if faults := faults_in_lay(best):
        raise NotAPattern("the lay", reason="; ".join(faults))
    return best


def _shortest(
    pieces_on: Callable[[Spread], Sequence[LayPiece]],
    cloth: Spread,
    tries: int,
    unit: str,
    names: Collection[str] | None = None,
) -> Lay:
    """All pieces, or those named, on the cloth as it lies; what that is too narrow for on cloth folded less."""
    pieces = [piece for piece in pieces_on(cloth) if names is None or piece.name in names]
    too_wide = {piece.name: piece for piece in pieces if too_wide_for(piece, cloth)}
    less = _FOLDED_LESS.get(cloth.fold)
    if less is None and too_wide:
        raise InputProblems(_too_wide_problem(piece, cloth, unit) for piece in too_wide.values())
    single = {piece.name for piece in pieces if piece.layers < cloth.layers}
    lays = []
    for elsewhere in sorted({frozenset(too_wide), frozenset(too_wide.keys() | single)}, key=len):
        rest = (
            _shortest(pieces_on, replace(cloth, fold=less), tries, unit, elsewhere) if less and elsewhere else Lay(())
        )
        own = [piece for piece in pieces if piece.name not in elsewhere]
        lies = (slide_in(own, cloth, tries=tries),) if own else ()
        lays.append(Lay((*lies, *rest.stretches)))
    return min(lays, key=lambda lay: lay.length)


def too_wide_for(piece: LayPiece, cloth: Spread) -> bool:
    """Whether a piece does not go between the selvedges of a cloth as it lies."""
    low, high = cloth.bottom(on_fold=piece.on_fold), cloth.top
    if not cloth.repeat_across or piece.middle is None:
        return piece.across > high - low
    least, most = min(p.y for p in piece.outline), max(p.y for p in piece.outline)
    sides = (piece.middle - least, most - piece.middle)
    over = {flipped != turned for flipped in piece.flips for turned in cloth.turns}
    ways = {sides[::-1] if mirrored != strip.mirrored else sides for mirrored in over for strip in cloth.strips}
    return all(
        math.ceil((low + below) / cloth.repeat_across) * cloth.repeat_across + above > high for below, above in ways
    )


def _too_wide_problem(piece: LayPiece, cloth: Spread, unit: str) -> Problem:
    needed = length_text(piece.across + cloth.width - cloth.top + cloth.bottom(), unit)
    return Problem(
        f"the {piece.name} on cloth {length_text(cloth.width, unit)} wide",
        f"{length_text(piece.across, unit)} across the grain",
        f"at most {length_text(cloth.top - cloth.bottom(), unit)} between the selvedges",
        f"Take cloth at least {needed} wide, or divide the piece by a seam.",
    )
