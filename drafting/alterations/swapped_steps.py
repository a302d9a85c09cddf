"""Whether the order of steps matters: neighbouring steps taken the other way round, and both patterns compared."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.alterations.alteration import Alteration, apply_to
from drafting.dataclass import dataclass
from drafting.errors import BrokenPromise, TrueseamError
from drafting.pattern import Pattern
from drafting.pattern.compare import SHOWS, Moved, moved, strayed

__all__ = ["Swapped", "swapped"]


@dataclass(frozen=True, slots=True)
class Swapped:
    """Two neighbouring steps taken the other way round.

    first:   which step the first of the two is, from 1
    refused: why they cannot be taken so; "" where they can
    moved:   the lengths that come out differently: `before` as asked for, `after` the other way round
    redrawn: the pieces whose lines lie elsewhere, by a twentieth of a millimetre or more
    """

    first: int
    refused: str = ""
    moved: tuple[Moved, ...] = ()
    redrawn: tuple[str, ...] = ()

    @property
    def matters(self) -> bool:
        """Whether the two orders give different patterns."""
        return bool(self.refused or self.moved or self.redrawn)


def swapped(stages: Sequence[Pattern], steps: Sequence[Alteration]) -> Iterator[Swapped]:
    """Every two neighbouring steps the other way round.

    stages: the pattern before the first step and after each, so one more than there are steps
    """
    for k in range(len(steps) - 1):
        try:
            other = apply_to(apply_to(stages[k], steps[k + 1]), steps[k])
        except BrokenPromise as broken:
            yield Swapped(k + 1, f'Then "{broken.alteration}" would change {broken.promise}, which it leaves alone.')
            continue
        except TrueseamError as refused:
            yield Swapped(k + 1, " ".join(refused.sentences()))
            continue
        asked = stages[k + 2]
        yield Swapped(k + 1, moved=moved(asked, other), redrawn=_redrawn(asked, other))


def _redrawn(one: Pattern, other: Pattern) -> tuple[str, ...]:
    there = {piece.name: piece for piece in other.pieces}
    names = [piece.name for piece in one.pieces]
    gone = [name for name in names if name not in there or strayed(one.piece(name), there[name]) >= SHOWS]
    return (*gone, *(name for name in there if name not in names))
