"""A lay searched for as long as there is time: pieces slid in first, then packed closer by the solver in rounds."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from typing import Final

from drafting.pattern import Pattern
from output.lay.find_lay import QUICK
from output.lay.lay_pieces import Material
from output.lay.lay_values import Lay, LayPiece, Spread, Stretch
from output.lay.lay_widths import known_lay
from output.lay.slide_pieces import slide_in
from output.lay.solve_stretch import pack_closer

__all__ = ["never", "pack_lay", "search_lay"]

_ROUNDS: Final = 6
_LEAST_ROUND: Final = 2.0  # seconds: the solver needs one or two to come to anything
_TOO_SHORT: Final = 0.5  # seconds: not worth starting the solver for


def never() -> bool:
    """That nobody stops it."""
    return False


def _no_progress(_share: float) -> None:
    """Nobody is watching."""


def search_lay(
    pattern: Pattern,
    cloth: Spread,
    material: Material = "shell",
    *,
    seconds: float,
    unit: str = "cm",
    tell: Callable[[float], None] = _no_progress,
    stopped: Callable[[], bool] = never,
) -> Lay:
    """The shortest lay found in so many seconds, or until it is stopped: the best so far is the answer then.

    tell:    is called with the share of the time that is over
    stopped: is asked often whether to make do with what there is; Ctrl-C does the same
    Every round begins from another lay. Raises InputProblems for pieces that are too wide for the cloth.
    """
    began = time.monotonic()
    best = known_lay(pattern, cloth, material, unit)
    each_round = max(_LEAST_ROUND, seconds / _ROUNDS)
    number = 0
    try:
        while best.stretches and not stopped() and (left := seconds - (time.monotonic() - began)) > _TOO_SHORT:
            number += 1
            passed = time.monotonic() - began

            def told(part: float, passed: float = passed, left: float = left) -> None:
                tell(min(1.0, (passed + part * min(left, each_round)) / seconds))

            start = best if number == 1 else _laid_otherwise(best, number)
            packed = pack_lay(start, seconds=min(left, each_round), seed=number, tell=told, stopped=stopped)
            best = _shorter(best, packed)
    except KeyboardInterrupt:
        pass  # she has waited long enough: what was found so far is a whole lay
    return best


def pack_lay(
    lay: Lay,
    *,
    seconds: float,
    seed: int = 1,
    tell: Callable[[float], None] = _no_progress,
    stopped: Callable[[], bool] = never,
) -> Lay:
    """The lay with each of its stretches packed closer by the solver, the time shared by their pieces."""
    count = sum(len(stretch.placements) for stretch in lay.stretches)
    packed = []
    for stretch in lay.stretches:
        share = len(stretch.placements) / count
        packed.append(pack_closer(stretch, seconds=seconds * share, seed=seed, tell=tell, stopped=stopped))
    return Lay(tuple(packed))


def _laid_otherwise(lay: Lay, seed: int) -> Lay:
    """The same pieces slid in in other orders."""
    return Lay(tuple(slide_in(_pieces(each), each.cloth, tries=QUICK, seed=seed) for each in lay.stretches))


def _shorter(one: Lay, other: Lay) -> Lay:
    """Of each stretch the shorter one."""
    pairs = zip(one.stretches, other.stretches, strict=True)
    return Lay(tuple(min(pair, key=lambda each: each.length) for pair in pairs))


def _pieces(stretch: Stretch) -> Sequence[LayPiece]:
    return tuple({id(each.piece): each.piece for each in stretch.placements}.values())
