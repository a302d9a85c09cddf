"""Room for a full thigh, at the inside leg: both forks move out, the front's by two parts in five, the back's by three.

Below, the inside leg runs back to the old knee; shorts become wider at their hem as well, which lies round the thigh.
More than half of a full thigh lies inside (common practice); for the part outside, the hip is let out with "take in".
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept_at, seams_kept
from drafting.alterations.refusing import accept_change
from drafting.alterations.trousers.halves import halves_of, kept_beside_fork, tape_across, with_forks_moved
from drafting.errors import StepRefused
from drafting.geometry.solve import solve
from drafting.pattern import BodyPart, Level, Pattern, across

__all__ = ["FullThigh"]

_MOST: Final = 60.0
_FRONT: Final = 0.4  # of it in front (the forks of the book: 1 to 1.5)


@alteration_class
class FullThigh(Alteration):
    """Widen the leg round the thigh, or make it closer below zero; it runs out to the knee."""

    name = "full thigh"
    layer = Layer.FIT
    needs = ((BodyPart.TROUSERS,),)
    about = "Make room round a full thigh, or take it out round a slim one."
    leaves = "outside leg, waist and knee, and the hem below it; how well every seam meets"
    carries = "both forks, and with them the length of the crotch; the back's fork, so that the inside legs still meet"

    by: float = option("length", "how much wider round the thigh", -_MOST, _MOST, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        accept_change(self.name, 'by how much: by = "2 cm"', self.by)
        _accept_thigh(self.name, pattern)
        goal = _thigh(pattern) + self.by

        def led(out: float) -> Pattern:
            return with_forks_moved(self.name, pattern, _FRONT * out, (1.0 - _FRONT) * out)

        return led(solve(lambda out: _thigh(led(out)) - goal, self.by, 1.0))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        _accept_thigh(self.name, pattern)
        yield Promise("the girth at the thigh line", _thigh, self.by)
        halves = halves_of(self.name, pattern)
        yield from lengths_kept_at(halves, *kept_beside_fork(halves))
        yield from seams_kept(pattern)


def _accept_thigh(step: str, pattern: Pattern) -> None:
    halves_of(step, pattern)
    if len(tape_across(pattern, Level.THIGH)) != 2:
        raise StepRefused(step, reason="no thigh line is marked on front and back")


def _thigh(pattern: Pattern) -> float:
    """Round the thigh, mm."""
    return sum(across(pattern.piece(part.piece), part.line) for part in tape_across(pattern, Level.THIGH))
