"""A whole lay: which pieces lie on the folded cloth and which on cloth opened out, and each stretch packed."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import InputProblems, NotAPattern, Problem
from drafting.pattern import Pattern
from drafting.reading.units import length_text
from output.lay.lay_pieces import Material, pieces_to_lay
from output.lay.lay_values import Lay, LayPiece, Spread
from output.lay.slide_pieces import slide_in
from output.lay.verify_lay import faults_in_lay

__all__ = ["QUICK", "find_lay"]

QUICK: Final = 120
"""Orders that are tried where an answer is wanted at once: a tenth of a second for a dress."""


def find_lay(
    pattern: Pattern,
    cloth: Spread,
    material: Material = "shell",
    *,
    tries: int = QUICK,
    unit: str = "cm",
) -> Lay:
    """The lay of everything that is cut from a material: the shortest found in so many tries.

    What is too wide for folded cloth is cut from cloth opened out, and so is what is cut through one layer, where that
    takes less cloth. Raises InputProblems for pieces that are too wide for the cloth even then, lengths in `unit`, and
    NotAPattern where the lay does not stand the test of an independent library: an outline that crosses itself.
    """
    opened = replace(cloth, fold="single")
    whole = pieces_to_lay(pattern, opened, material)
    folded = whole if cloth == opened else pieces_to_lay(pattern, cloth, material)
    too_wide = {piece.name for piece in folded if _too_wide(piece, cloth)}
    hopeless = {piece.name: piece for piece in whole if piece.name in too_wide and _too_wide(piece, opened)}
    if hopeless:
        raise InputProblems(_too_wide_problem(piece, opened, unit) for piece in hopeless.values())
    single = {piece.name for piece in folded if piece.layers < cloth.layers}
    ways = {frozenset(too_wide), frozenset(too_wide | single)} if cloth.layers > 1 else {frozenset[str]()}
    lays = [_lay(folded, whole, cloth, names, tries) for names in sorted(ways, key=len)]
    best = min(lays, key=lambda lay: lay.length)
    if faults := faults_in_lay(best):
        raise NotAPattern("the lay", "; ".join(faults))
    return best


def _lay(
    folded: Sequence[LayPiece],
    whole: Sequence[LayPiece],
    cloth: Spread,
    opened: Collection[str],
    tries: int,
) -> Lay:
    """The lay with these pieces on cloth opened out, and the others as the cloth lies."""
    stretches = []
    for names_in, pieces, lies in (
        (False, folded, cloth),
        (True, whole, replace(cloth, fold="single")),
    ):
        own = [piece for piece in pieces if (piece.name in opened) is names_in]
        if own:
            stretches.append(slide_in(own, lies, tries=tries))
    return Lay(tuple(stretches))


def _too_wide(piece: LayPiece, cloth: Spread) -> bool:
    return piece.across > cloth.top - cloth.bottom(on_fold=piece.on_fold)


def _too_wide_problem(piece: LayPiece, cloth: Spread, unit: str) -> Problem:
    needed = length_text(piece.across + cloth.width - cloth.top + cloth.bottom(), unit)
    return Problem(
        f"the {piece.name} on cloth {length_text(cloth.width, unit)} wide",
        f"{length_text(piece.across, unit)} across the grain",
        f"at most {length_text(cloth.top - cloth.bottom(), unit)} between the selvedges",
        f"Take cloth at least {needed} wide, or divide the piece by a seam.",
    )
