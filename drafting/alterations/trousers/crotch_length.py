"""A crotch seam too short or too long though its depth is right: changed at both forks, and behind at the waist.

The textbooks agree on where to change the length: in front at the fork, behind half at the fork and half in the height
of the centre back (common practice). "Seat" changes the back alone: a full seat needs more height at the waist, to sit.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, lengths_kept_at, seams_kept
from drafting.alterations.refusing import accept_change
from drafting.alterations.trousers.halves import crotch_length, halves_of, has_knee, kept_beside_fork, with_forks_moved
from drafting.alterations.trousers.raise_behind import raised_behind
from drafting.geometry.solve import solve
from drafting.pattern import CENTRES, Across, Along, BodyPart, Level, Measure, Pattern, Piece, Place

__all__ = ["CrotchLength", "Seat"]

_MOST: Final = 40.0  # mm longer or shorter: more is another depth (common practice: never more than 3 cm in one place)
_HALF: Final = 0.5  # of what the back becomes longer, at its waist
_SEAT_AT_WAIST: Final = 2.0 / 3.0  # the same for a full or flat seat (ours)


@alteration_class
class CrotchLength(Alteration):
    """Make the seam through the crotch longer, or shorter below zero, in front and behind; its depth stays."""

    name = "crotch length"
    layer = Layer.FIT
    needs = ((BodyPart.TROUSERS,),)
    about = "Make the seam through the crotch longer or shorter, its depth left as it is."
    leaves = "the depth of the crotch; waist and knee, and the hem below it; how well every seam meets"
    carries = "the back's fork, so that the inside legs still meet; the thigh, which becomes wider or closer"

    front: float = option("length", "how much longer in front", -15.0, 25.0, default=0.0, or_less=True)
    back: float = option("length", "how much longer behind", -_MOST, _MOST, default=0.0, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        accept_change(self.name, 'where and by how much: back = "1 cm"', self.front, self.back)
        return _lengthened(self.name, pattern, self.front, self.back, _HALF)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        return _promised(self.name, pattern, self.front, self.back)


@alteration_class
class Seat(Alteration):
    """Make the back longer over a full seat, or shorter over a flat one: two thirds of it at the waist."""

    name = "seat"
    layer = Layer.FIT
    needs = ((BodyPart.TROUSERS,),)
    about = "Make room over a full seat, or take it out over a flat one (below zero)."
    leaves = "the front; the depth of the crotch; waist and knee, and the hem below it; how well every seam meets"
    carries = "the back's fork, so that the inside legs still meet"

    by: float = option("length", "how much longer the back is over the seat", -_MOST, _MOST, or_less=True)

    def apply(self, pattern: Pattern) -> Pattern:
        accept_change(self.name, 'by how much: by = "1 cm"', self.by)
        return _lengthened(self.name, pattern, 0.0, self.by, _SEAT_AT_WAIST)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        return _promised(self.name, pattern, 0.0, self.by)


def _lengthened(step: str, pattern: Pattern, front: float, back: float, at_waist: float) -> Pattern:
    """The crotch longer by these amounts; at_waist: the share of the back's that is raised at the waist."""
    halves = halves_of(step, pattern)
    raised = raised_behind(pattern, halves.back, back * at_waist) if back else pattern
    before = {piece.name: crotch_length(pattern, piece.name) for piece in halves}

    def off(piece: Piece, forward: float, behind: float, by: float) -> float:
        return crotch_length(with_forks_moved(step, raised, forward, behind), piece.name) - before[piece.name] - by

    forward = solve(lambda out: off(halves.front, out, 0.0, front), front, 1.0) if front else 0.0
    behind = solve(lambda out: off(halves.back, forward, out, back), back * (1.0 - at_waist), 1.0)
    return with_forks_moved(step, raised, forward, behind)


def _promised(step: str, pattern: Pattern, front: float, back: float) -> Iterator[Promise]:
    halves = halves_of(step, pattern)
    for piece, by in ((halves.front, front), (halves.back, back)):
        yield Promise(f"the crotch of {piece.name}", partial(crotch_length, piece=piece.name), by)
    yield from lengths_kept_at(halves, *kept_beside_fork(halves))
    yield from seams_kept(pattern)
    yield from finished_kept(pattern, lambda measure: not _follows(pattern, measure))


def _follows(pattern: Pattern, measure: Measure) -> bool:
    """Whether a measurement lies along what changes: crotch, inside leg, thigh, the hem of shorts."""
    for part in measure.tape:
        piece = pattern.piece(part.piece)
        if isinstance(part, Across):
            if piece.line(part.line).level in (Level.THIGH, Level.HIP):
                return True
        elif isinstance(part, Along):
            place = piece.edge(part.edge).place
            if place in (*CENTRES, Place.CROTCH, Place.INSEAM) or (place is Place.HEM and not has_knee(piece)):
                return True
    return False
