"""A flared skirt: its waist darts closed, or slashes opened at the hem.

The trade's way. Flare from a dart: close it about its point, and the hem opens below it, by w (T - l) / l for a dart of
width w and length l on a skirt of length T (plane geometry: 2 by 12 cm on 60 cm gives 8 cm). More flare: slash from hem
to waist at several places and spread the hem, never all at the side (a teaching page on slash and open: 6 in over 3
slashes are 2 in at each).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.one_piece import ONLY
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept
from drafting.alterations.refusing import instead
from drafting.alterations.skirt.quarters_to_change import (
    MOST_CUTS,
    all_else_kept,
    quarters_taking_part,
    refused_with_cause,
)
from drafting.alterations.skirt.skirt_fullness import darts_closed, flared, gained_at_hem, waist_darts
from drafting.alterations.skirt.skirt_quarter import Quarter
from drafting.alterations.techniques.cutting.seam_for_fold import seamed_where_too_wide
from drafting.errors import StepRefused
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import BodyPart, Pattern, Piece, pieces_of, with_pieces

__all__ = ["FlareSkirt"]

_DARTS, _SLASHES = "darts", "slashes"
_MOST_FLARE = 6000.0


@alteration_class
class FlareSkirt(Alteration):
    """Flare a skirt, by closing its waist darts or by slashes that hang together at the waist."""

    name = "flare skirt"
    layer = Layer.FULLNESS
    needs = ((BodyPart.SKIRT,),)
    about = "Flare a skirt by closing its waist darts, or by slashing it from the hem and spreading it there."
    leaves = "the waist seam, edge by edge; the side seams; the centre line; all but the skirt"
    carries = "the hem and its allowance, which follow the flare"

    hem: float | None = option(
        "length",
        "how much wider all round the hem; left out, what closing the darts gives",
        1.0,
        _MOST_FLARE,
        default=None,
        or_less=True,
    )
    how: str = option(
        "choice",
        "what is opened; slashed wider than the darts give, it has none",
        choices=(_DARTS, _SLASHES),
        default=_DARTS,
    )
    cuts: float = option("number", "how many slashes in each quarter", 1, MOST_CUTS, default=3.0)
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        if pieces_of(pattern, part=BodyPart.TROUSERS):
            raise StepRefused(
                self.name,
                reason="trousers flared at the side alone would turn about the leg: give their block a wider leg, or "
                "a wider hem (hem_width), instead",
            )
        found = quarters_taking_part(self.name, pattern, self.only, self.cuts)
        with refused_with_cause(self.name, pattern):
            altered = with_pieces(pattern, *map(_flare(self, found), found))
            return seamed_where_too_wide(altered, [quarter.piece.name for quarter in found])

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:  # noqa: ARG002
        found = quarters_taking_part(self.name, before, self.only, self.cuts)
        return {"hem": 2.0 * sum(gained_at_hem(quarter, 1.0) for quarter in found)}

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        found = quarters_taking_part(self.name, pattern, self.only, self.cuts)
        for quarter in found:
            yield from lengths_kept(quarter.piece, (quarter.side.name, *(edge.name for edge in quarter.sewn)))
        if self.hem is not None:
            yield Promise("the hem all round", partial(_hems, found), self.hem)
        yield from all_else_kept(pattern, found)


def _flare(step: FlareSkirt, found: tuple[Quarter, ...]) -> Callable[[Quarter], Piece]:
    """How each quarter is flared."""
    if step.how == _SLASHES:
        if step.hem is None:
            raise StepRefused(step.name, reason='say by how much: hem = "30 cm"')
        by = step.hem / (2 * len(found))  # every piece is cut twice or on the fold
        # a skirt so wide that its darts can be closed into it has none (common practice)
        closing = all(gained_at_hem(quarter, 1.0) <= by for quarter in found)
        return lambda quarter: flared(quarter, int(step.cuts), by, closing=closing)
    share = _share_closed(step, found)
    return lambda quarter: darts_closed(quarter, share)


def _share_closed(step: FlareSkirt, found: tuple[Quarter, ...]) -> float:
    """The share of each dart that is closed for this flare, 0 to 1; StepRefused where all of them do not give it."""

    def given(share: float) -> float:
        return 2.0 * sum(gained_at_hem(quarter, share) for quarter in found)

    most = given(1.0)
    if not any(waist_darts(quarter) for quarter in found):
        raise StepRefused(
            step.name,
            reason="there is no dart in its waist to close: slash it",
            remedies=instead(step.name, "how", _SLASHES),
        )
    if step.hem is None or abs(step.hem - most) <= SAME_PLACE:
        return 1.0
    if step.hem > most:
        reason = f"closing all of its darts opens the hem by {most / 10:.1f} cm; leave hem out for that"
        raise StepRefused(step.name, reason=reason, remedies=instead(step.name, "how", _SLASHES))
    wanted = step.hem
    return solve(lambda share: given(share) - wanted, wanted / most, 0.01)


def _hems(found: tuple[Quarter, ...], pattern: Pattern) -> float:
    """The length of the hems all round, mm."""
    return 2.0 * sum(pattern.piece(q.piece.name).edge(q.hem_name).length_within(MEASURED) for q in found)
