"""A hollow back: a wedge taken out at the waist, deepest at the centre."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import ClassVar, Final

from drafting.alterations.base import Alteration, Promise
from drafting.alterations.darted import (
    Redrawn,
    Stretch,
    folds,
    rebuilt,
    regrouped,
    stretch_of,
    unfolded,
    unfolds,
)
from drafting.alterations.drawn_up import marks_met
from drafting.alterations.kept import edge_length
from drafting.alterations.redraw import exact_length, led, with_length_kept
from drafting.alterations.table import Entry
from drafting.alterations.upper import (
    centre_edge,
    centre_lengthened,
    others_kept,
    sewn_kept,
)
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    STAY,
    Curve,
    Move,
    shift,
)
from drafting.geometry.solve import solve
from drafting.pattern import Pattern, with_pieces
from drafting.reading.options import Option

__all__ = ["SWAY_BACK", "SwayBack"]


@dataclass(frozen=True, slots=True)
class SwayBack(Alteration):
    """Take a wedge out of the back: `depth` mm at the centre, tapering to nought at the side seam.

    Out of the bodice where there is one (its centre back is that much shorter), else out of the top of the skirt. The
    centre line stays straight and the waist square to it; the waist keeps its length, its darts giving what the wedge
    took. Several fitting texts show the wedge, a quarter of an inch to an inch deep; that the side seam stays and the
    centre is straightened is the trade's rule (a fitting site's overview of the sway back, and an analysis of it in a
    sewing journal).
    """

    name: ClassVar[str] = "sway back"

    depth: float

    def apply(self, pattern: Pattern) -> Pattern:
        waist = _swayed(self, pattern)
        centre, corner = centre_lengthened(waist, centre_edge(self.name, waist), -self.depth)
        try:
            redrawn = _waist_led(waist, shift(corner - waist.start))
        except NotAPattern as error:
            reason = f"{self.depth:.0f} mm cannot be taken out of {error.where}: {error.reason}"
            raise StepRefused(self.name, reason) from error
        return marks_met(with_pieces(pattern, rebuilt(waist.piece, redrawn + Redrawn((centre,)))))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        waist = _swayed(self, pattern)
        name = waist.piece.name
        centre = centre_edge(self.name, waist).name
        yield Promise(f'the length of "{centre}" on {name}', partial(_edge, name, centre), -self.depth)
        yield sewn_kept(f"the waist of {name} as it is sewn", waist)
        yield from others_kept(pattern, [name], waist, aside=[centre])


SWAY_BACK: Final = Entry(
    SwayBack,
    "Take a wedge out of the back at the waist, deepest at the centre: for a hollow back.",
    "the side seam; the sewn length of the waist; everything above",
    "nothing: the waist still meets the skirt",
    (Option("depth", "length", "how much shorter the centre back becomes", 1.0, 30.0),),
)


def _swayed(step: SwayBack, pattern: Pattern) -> Stretch:
    """The waist of the bodice back, or of the skirt back where there is no bodice."""
    if not math.isfinite(step.depth) or step.depth < 0.1:
        raise StepRefused(step.name, f"a wedge of {step.depth:g} mm takes nothing out; say how deep")
    backs = [piece for piece in pattern.pieces if "back" in piece.name.split()]
    having = [piece for piece in backs if any(edge.name.startswith("waist") for edge in piece.edges)]
    if not having:
        raise StepRefused(step.name, "no back of this garment has a waist line")
    bodice = [piece for piece in having if any(edge.name.startswith("neck") for edge in piece.edges)]
    return stretch_of(step.name, (bodice or having)[0], "waist", start="centre")


def _waist_led(waist: Stretch, at_centre: Move) -> Redrawn:
    """The waist with its end at the centre moved and the other kept; its darts are opened so that it stays as long."""
    run = [curve for part in waist.folded for curve in part]
    wanted = waist.sewn_length
    if not any(waist.darts):
        return unfolded(waist, regrouped(waist, with_length_kept(led(run, at_centre, STAY), wanted)))
    last = unfolds(waist)[-1]

    def angles(factor: float) -> tuple[float, ...]:
        return tuple(angle * factor for angle in waist.angles)

    def drawn(factor: float) -> tuple[Curve, ...]:
        return led(run, at_centre, last.then(folds(waist, angles=angles(factor))[-1]))

    factor = solve(lambda factor: exact_length(drawn(factor)) - wanted, 1.0, -0.05)
    if not 0.2 <= factor <= 3.0:
        raise NotAPattern(waist.piece.name, "no dart at its waist could make good for it")
    return unfolded(waist, regrouped(waist, drawn(factor)), angles=angles(factor))


def _edge(piece: str, edge: str, pattern: Pattern) -> float:
    return edge_length(pattern.piece(piece), edge)
