"""A full sleeve: bishop or bell at the hem, leg-of-mutton at the cap, puff at both.

The trade's way: slash the sleeve from cap to hem, evenly, and spread it: at the hem only, hanging together at the cap;
at the cap only, hanging together at the hem; at both, side by side (L. McConnell's chapter on sleeves; even splits over
several lines, a teaching page on slash and open). The cuts lie between the cap notches, where a cap is gathered; what
lies below them stays. For a puff the crown is raised by 2 to 4 cm over the spread, or the width collapses (from
memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept, run_surplus, whole_pieces_kept
from drafting.alterations.sleeve.set_in_sleeve import SLEEVE, SetIn, find_set_in, set_in
from drafting.alterations.sleeve.spread_sleeve import Spread, lower_end, spread_sleeve
from drafting.alterations.techniques.marks.seam_ease import gathered_ease, with_ease
from drafting.errors import StepRefused
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import BodyPart, Pattern

__all__ = ["FullSleeve"]

_MOST = 1500.0
_FEWEST_CUTS, _MOST_CUTS = 2, 40
_RAISED_SHARE, _MOST_RAISED = 1.0 / 3.0, 40.0  # the crown over a puff: 2 to 4 cm at 6 to 12 cm of fullness and more


@alteration_class
class FullSleeve(Alteration):
    """Slash a set-in sleeve from cap to hem and spread it.

    The hem is spread half in front and half behind, the cap so that it is gathered as closely in front of the shoulder
    as behind.
    """

    name = "full sleeve"
    layer = Layer.FULLNESS
    needs = ((BodyPart.SLEEVE,),)
    about = "Put fullness into a set-in sleeve: at the hem, at the cap, or at both for a puff."
    leaves = "the edge at which it hangs together, cap or hem; the underarm seams; all but the sleeve"
    carries = "the gathers declared for the armhole; the notches of the cap"

    cap: float = option("length", "how much wider at the cap", 0.0, _MOST, default=0.0, or_less=True)
    hem: float = option("length", "how much wider at the hem", 0.0, _MOST, default=0.0, or_less=True)
    cuts: float = option("number", "over how many slashes", _FEWEST_CUTS, _MOST_CUTS, default=8.0)
    crown: float | None = option(
        "length",
        "how much higher the crown; left out, a third of the cap's fullness, 4 cm at most",
        0.0,
        150.0,
        default=None,
    )
    piece: str = option("text", "the sleeve", default=SLEEVE)

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve = _sleeve(self, pattern)
        altered = set_in(pattern, spread_sleeve(pattern, sleeve, _spread(self)))
        if _spread(self).cap_stays:
            return altered
        for seam in (sleeve.front, sleeve.back):
            more = run_surplus(altered, seam)
            eased = more <= seam.ease.high
            altered = with_ease(altered, seam.name, replace(seam.ease, wanted=more) if eased else gathered_ease(more))
        return altered

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:  # noqa: ARG002
        return {"crown": min(_MOST_RAISED, _RAISED_SHARE * self.cap)}

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        sleeve = _sleeve(self, pattern)
        edges, kept = sleeve.edges, [sleeve.edges.under_back, sleeve.edges.under_front]
        if _spread(self).cap_stays:
            kept += [edges.cap_front, edges.cap_back]
        if not self.hem:
            kept.append(lower_end(sleeve.piece))
        yield from lengths_kept(sleeve.piece, (edge.name for edge in kept))
        yield from whole_pieces_kept(pattern, [sleeve.piece.name])


def _sleeve(step: FullSleeve, pattern: Pattern) -> SetIn:
    if step.cuts != int(step.cuts):
        raise StepRefused(
            step.name, reason=f"cuts: {step.cuts:g} is no whole number from {_FEWEST_CUTS} to {_MOST_CUTS}"
        )
    if max(step.cap, step.hem, step.crown or 0.0) < SAME_PLACE:
        raise StepRefused(step.name, reason='say where it is to be fuller: hem = "20 cm", cap = "8 cm", or both')
    sleeve = find_set_in(step.name, pattern, step.piece)
    lower_end(sleeve.piece)  # raises NotAPattern where there is none
    return sleeve


def _spread(step: FullSleeve) -> Spread:
    crown = min(_MOST_RAISED, _RAISED_SHARE * step.cap) if step.crown is None else step.crown
    return Spread(step.cap, step.hem, crown, int(step.cuts))
