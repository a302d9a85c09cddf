"""What one lay says of another: it lies on wider cloth too, and a lay on folded cloth can be opened out.

So wider cloth is never said to take more than narrower cloth laid the same way, and cutting singly never more than
cutting from cloth folded lengthwise.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from types import MappingProxyType
from typing import Final

from drafting.errors import InputProblems
from drafting.pattern import Pattern
from drafting.reading.units import MM_PER_INCH
from output.lay.find_lay import QUICK, find_lay
from output.lay.lay_pieces import Material, pieces_to_lay
from output.lay.lay_values import Fold, Lay, LayPiece, Placement, Spread, Stretch
from output.lay.verify_lay import faults_in_lay

__all__ = ["known_lay", "opened_out", "usual_width", "usual_widths", "width_table"]

_METRIC: Final = (900.0, 1120.0, 1400.0, 1500.0)
_INCHES: Final = tuple(MM_PER_INCH * width for width in (36, 44, 54, 60))
_SHOWN: Final[tuple[Fold, ...]] = ("lengthwise", "single")
_WITH_DOUBLE: Final[tuple[Fold, ...]] = ("lengthwise", "double", "single")

_NO_LAYS: Final[Mapping[Fold, Lay]] = MappingProxyType({})


def usual_widths(unit: str, material: Material = "shell") -> tuple[float, ...]:
    """The widths cloth is mostly woven in, mm: for inches 36, 44, 54 and 60, else 90, 112, 140 and 150 cm.

    Interfacing lies 90 or 150 cm wide, 36 or 60 in (common practice).
    """
    widths = _INCHES if unit == "in" else _METRIC
    return (widths[0], widths[-1]) if material == "interfacing" else widths


def usual_width(material: Material, unit: str) -> float:
    """The width that is taken where none is told, mm: 140 cm or 54 in; of interfacing 90 cm or 36 in."""
    return usual_widths(unit)[0 if material == "interfacing" else 2]


def width_table(
    pattern: Pattern,
    cloth: Spread,
    material: Material,
    unit: str,
    *,
    tries: int = QUICK,
    known: Mapping[Fold, Lay] = _NO_LAYS,
) -> Mapping[float, Mapping[Fold, Lay | None]]:
    """For each usual width, and the cloth's own, the lay folded lengthwise and single; None where it is too narrow.

    Folded double too, where two pieces lie on a fold and may lie there beside each other.
    known: lays on cloth of its own width, which may be shorter than what is found here
    """
    widths = sorted({*usual_widths(unit, material), cloth.width})
    on_fold = sum(piece.on_fold for piece in pieces_to_lay(pattern, replace(cloth, fold="lengthwise"), material))
    folds = _SHOWN if on_fold < len(("front", "back")) else _WITH_DOUBLE
    if known:
        return _by_width(pattern, cloth, material, widths, folds, tries, known)
    what = ("lays by width", cloth, material, tuple(widths), tries)
    kept = pattern.remembered(what, lambda: _by_width(pattern, cloth, material, widths, folds, tries, known))
    return MappingProxyType({width: MappingProxyType(row) for width, row in kept.items()})


def known_lay(pattern: Pattern, cloth: Spread, material: Material, unit: str) -> Lay:
    """The shortest lay that is found at once, on this cloth or on a usual width that is narrower.

    Raises InputProblems, lengths in `unit`, for pieces that are too wide for the cloth.
    """
    widths = [*(width for width in usual_widths(unit, material) if width < cloth.width), cloth.width]
    folds = _SHOWN if cloth.fold == "single" else (cloth.fold,)
    lay = _by_width(pattern, cloth, material, widths, folds, QUICK, _NO_LAYS)[cloth.width][cloth.fold]
    return lay if lay is not None else find_lay(pattern, cloth, material, unit=unit)


def _by_width(
    pattern: Pattern,
    cloth: Spread,
    material: Material,
    widths: Sequence[float],
    folds: Sequence[Fold],
    tries: int,
    known: Mapping[Fold, Lay],
) -> dict[float, dict[Fold, Lay | None]]:
    """For each width, the narrowest first, and each fold, lengthwise before single, the shortest lay known."""
    table: dict[float, dict[Fold, Lay | None]] = {}
    narrower: Mapping[Fold, Lay | None] = {}
    for width in widths:
        row: dict[Fold, Lay | None] = {}
        for fold in folds:
            found = _lay(pattern, replace(cloth, width=width, fold=fold), material, tries)
            if fold == "double" and found is not None and not _lies(found, fold):
                found = None  # nothing fits on it so folded
            others = [known.get(fold)] if width == cloth.width else []
            if fold != "double" and (lay := narrower.get(fold)) is not None:
                others.append(_widened(lay, width))
            if fold == "single" and (folded := row.get("lengthwise")) is not None:
                others.append(opened_out(pattern, folded, material))
            row[fold] = _shortest(found, [each for each in others if each is not None])
        table[width] = narrower = row
    return table


def _lies(lay: Lay, fold: Fold) -> bool:
    """Whether a part of the cloth is folded like that."""
    return any(each.cloth.fold == fold for each in lay.stretches)


def _shortest(found: Lay | None, others: Sequence[Lay]) -> Lay | None:
    """The lay that was found, or a shorter one that stands the test too."""
    shorter = (each for each in others if found is None or each.length < found.length)
    return next((each for each in sorted(shorter, key=lambda lay: lay.length) if not faults_in_lay(each)), found)


def _lay(pattern: Pattern, cloth: Spread, material: Material, tries: int) -> Lay | None:
    def found() -> Lay | None:
        try:
            return find_lay(pattern, cloth, material, tries=tries)
        except InputProblems:
            return None

    return pattern.remembered(("lay", cloth, material, tries), found)


def _widened(lay: Lay, width: float) -> Lay:
    return Lay(tuple(replace(each, cloth=replace(each.cloth, width=width)) for each in lay.stretches))


def opened_out(pattern: Pattern, lay: Lay, material: Material) -> Lay:
    """The same lay on cloth opened out: what was cut through both layers lies on both sides of where the fold was.

    lay: folded lengthwise, or in a part; a part folded across is left as it is
    """
    stretches = tuple(_opened(pattern, each, material) for each in lay.stretches)
    # a repeat is kept within a part only
    return (
        Lay(stretches)
        if any(each.cloth.repeat or each.cloth.repeat_across for each in stretches)
        else _as_one(Lay(stretches))
    )


def _opened(pattern: Pattern, stretch: Stretch, material: Material) -> Stretch:
    if stretch.cloth.fold != "lengthwise":
        return stretch
    cloth = replace(stretch.cloth, fold="single")
    single = pieces_to_lay(pattern, cloth, material)
    middle = 0.5 * cloth.width
    lies = (_on_both_sides(each, single, middle) for each in stretch.placements)
    return Stretch(cloth, tuple(chain.from_iterable(lies)))


def _on_both_sides(placed: Placement, single: Sequence[LayPiece], middle: float) -> Iterator[Placement]:
    """What is cut at a place on folded cloth, on cloth opened out with the fold at y = middle."""
    own = {piece.flips: piece for piece in single if piece.name == placed.piece.name}
    if placed.piece.on_fold:
        (whole,) = own.values()
        low, high = (limit(p.y for p in whole.outline) for limit in (min, max))
        axis = 0.5 * (low + high)
        yield Placement(whole, placed.x, middle + (axis if placed.turned else -axis), placed.turned)
        return
    if placed.piece.layers == 1 and placed.flipped:  # face down on the upper layer: face up beyond the fold
        whole = own.get((False,), replace(placed.piece, flips=(False,)))
        yield replace(placed, piece=whole, y=middle - placed.y, flipped=False)
        return
    upper, lower = placed.flipped, not placed.flipped
    yield replace(placed, piece=own.get((upper,), placed.piece), y=middle + placed.y)
    if placed.piece.layers == 2:
        yield replace(placed, piece=own[(lower,)], y=middle - placed.y, flipped=lower)


def _as_one(lay: Lay) -> Lay:
    """A lay of parts that all lie singly, as one part."""
    if len(lay.stretches) < 2 or any(each.cloth.fold != "single" for each in lay.stretches):
        return lay
    cloth, start = lay.stretches[0].cloth, 0.0
    placements: list[Placement] = []
    for each in lay.stretches:
        placements += [replace(placed, x=placed.x + start) for placed in each.placements]
        start += each.length + cloth.gap
    return Lay((Stretch(cloth, tuple(placements)),))
