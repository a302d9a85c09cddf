"""A lay searched for as long as there is time: pieces slid in first, then packed closer by the solver in rounds."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from typing import Final

from drafting.pattern import Pattern
from output.lay.find_lay import QUICK, find_lay
from output.lay.lay_pieces import Material
from output.lay.lay_values import Lay, LayPiece, Spread, Stretch
from output.lay.slide_pieces import slide_in
from output.lay.solve_stretch import pack_closer

__all__ = ["search_lay"]

_ROUNDS: Final = 6
_LEAST_ROUND: Final = 2.0  # seconds: the solver needs one or two to come to anything


def search_lay(
    pattern: Pattern,
    cloth: Spread,
    material: Material = "shell",
    *,
    seconds: float,
    unit: str = "cm",
    tell: Callable[[float], None] = lambda _share: None,
) -> Lay:
    """The shortest lay found in so many seconds, or until Ctrl-C: the best so far is the answer then.

    tell: is called with the share of the time that is over
    Every round begins from another lay. Raises InputProblems for pieces that are too wide for the cloth.
    """
    began = time.monotonic()
    best = find_lay(pattern, cloth, material, tries=QUICK, unit=unit)
    stretches = list(best.stretches)
    each_round = max(_LEAST_ROUND, seconds / _ROUNDS)
    number = 0
    try:
        while stretches and (left := seconds - (time.monotonic() - began)) > 0.5:
            number += 1
            share = min(left, each_round) / len(stretches)
            for place, stretch in enumerate(stretches):
                start = stretch if number == 1 else slide_in(_pieces(stretch), stretch.cloth, seed=number)
                passed = time.monotonic() - began

                def told(part: float, passed: float = passed, share: float = share) -> None:
                    tell(min(1.0, (passed + part * share) / seconds))

                packed = pack_closer(start, seconds=share, seed=number, tell=told)
                if packed.length < stretch.length:
                    stretches[place] = packed
    except KeyboardInterrupt:
        pass  # she has waited long enough: what was found so far is a whole lay
    return Lay(tuple(stretches))


def _pieces(stretch: Stretch) -> Sequence[LayPiece]:
    return tuple({id(each.piece): each.piece for each in stretch.placements}.values())
