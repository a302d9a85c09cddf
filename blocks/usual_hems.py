"""How deep a hem is where nobody said: 4 cm, on small children less, and no deeper than lies flat on a curve."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from blocks.handover import Drafted
from drafting.alterations import Alteration
from drafting.alterations.finishes.hem import turned_through
from drafting.body.person import Person
from drafting.checks.allowances import lies_flat
from drafting.pattern import BodyPart, Pattern, Piece, Place, Role
from drafting.reading.units import MM_PER_INCH

__all__ = ["flat_hems", "narrow_hem", "usual_hem"]

_HEM: Final = 40.0
_LEAST_HEM: Final = 10.0
_SMALL_HEMS: Final = ((920.0, 20.0), (1340.0, 30.0))
"""mm: how deep a hem is, how shallow at the least, how deep on a child that is no taller; the heights are ours."""

_IN_INCHES: Final = {20.0: 0.75 * MM_PER_INCH, 30.0: 1.25 * MM_PER_INCH, 40.0: 1.5 * MM_PER_INCH}
"""mm: the same for who works in inches, drawn as they are told (common practice)."""


def usual_hem(who: Person) -> float:
    """How much is turned up for a hem where nothing is said, mm: 4 cm or 1 1/2 in, on small children less."""
    height = dict(who.measurements).get("stature", 0.0) if who.body != "woman" else 0.0
    deep = next((deep for below, deep in _SMALL_HEMS if 0.0 < height < below), _HEM)
    return _IN_INCHES[deep] if who.unit == "in" else deep


def flat_hems(pattern: Pattern) -> Pattern:
    """The pattern with its hems turned up no deeper than lies flat on their curve.

    In steps of 5 mm, not below 10; all that runs round the garment at one place alike.
    """
    deep: dict[Place | None, float] = {}
    for edge in (edge for piece in pattern.pieces for edge in piece.edges if edge.role is Role.HEM):
        lies = 5.0 * (min(edge.allowance, lies_flat(edge.length, turned_through(edge.curves))) // 5.0)
        deep[edge.place] = min(deep.get(edge.place, edge.allowance), max(min(_LEAST_HEM, edge.allowance), lies))

    def turned_up(piece: Piece) -> Piece:
        edges = (e.with_allowance(deep[e.place]) if e.role is Role.HEM else e for e in piece.edges)
        return replace(piece, edges=tuple(edges))

    return replace(pattern, pieces=tuple(map(turned_up, pattern.pieces)))


def narrow_hem(
    name: str, drafted: Drafted, *, hem: float, asked: float | None, steps: Sequence[Alteration]
) -> Iterator[str]:
    """What to say of the hem of a block that is narrower than it would be, mm, since it is curved.

    hem:   how deep it is to be; asked: the same where it was asked for, which a block leaves as it is
    steps: of which one may leave the hem of a skirt narrower, as a godet does
    """
    flat = hem if asked is not None or drafted.hem is None else min(hem, drafted.hem)
    if any(piece.identity.part is BodyPart.SKIRT for piece in drafted.pieces):
        flat = min([flat, *(step.deepest_hem for step in steps)])
    if flat < hem:
        yield (
            f"The hem of the {name} is turned up by {flat:.0f} mm, not by {hem:.0f} mm: deeper it would not lie on "
            "its curve. Bind or face it where you want it heavier."
        )
