"""A gathered skirt: slashed all the way from waist to hem, spread evenly, and gathered into its waist.

The trade's way: slash all the way, spread evenly, leave the darts unsewn, true the waist. The waist becomes 1.5 to 3
times as long as the seam it is sewn to, 2 times usually (a sewing teacher on ruffles).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.earlier_steps import in_the_way, refused_after
from drafting.alterations.finishes.button_stand import gathers_beyond_stands
from drafting.alterations.one_piece import ONLY
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finer_length, lengths_kept, run_surplus, surplus_becomes
from drafting.alterations.refusing import instead
from drafting.alterations.skirt.quarters_to_change import (
    MOST_CUTS,
    all_else_kept,
    quarters_taking_part,
    refused_with_cause,
)
from drafting.alterations.skirt.skirt_fullness import gathered_to, let_out_length, waist_length
from drafting.alterations.skirt.skirt_quarter import Quarter
from drafting.alterations.techniques.cutting.seam_for_fold import seamed_where_too_wide
from drafting.alterations.techniques.marks.gather_marks import notches_evenly, without_stretches
from drafting.alterations.techniques.marks.seam_ease import gathered_ease, with_ease
from drafting.errors import StepRefused
from drafting.pattern import Along, BodyPart, Measure, Pattern, Place, Seam, Tape, edge_at, relaid, walk, with_pieces

__all__ = ["GatherSkirt"]

_LEAST_RATIO, _MOST_RATIO = 1.1, 4.0
_LEAST_MORE = 0.005  # of a ratio: less than that more would be spread by less than a pencil line at each slash


@alteration_class
class GatherSkirt(Alteration):
    """Gather a skirt into its waist: darts let out, every quarter slashed and spread evenly from waist to hem."""

    name = "gather skirt"
    layer = Layer.FULLNESS
    needs = ((BodyPart.SKIRT,),)
    about = "Gather a skirt into its waist: its darts let out, every quarter spread evenly from waist to hem."
    leaves = "the side seams; the centre line; all but the skirt"
    carries = "the gathers declared for the waist seam, and its notches"

    ratio: float = option("number", "how many times the waist it is sewn to", _LEAST_RATIO, _MOST_RATIO, default=2.0)
    cuts: float = option("number", "how many slashes in each quarter", 1, MOST_CUTS, default=4.0)
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        found = quarters_taking_part(self.name, pattern, self.only, self.cuts)
        at_waist = [_at_waist(pattern, quarter) for quarter in found]
        totals = [self.ratio * joined for _, joined, _ in at_waist]
        with refused_with_cause(self.name, pattern):
            _accept_ratio(self, pattern, found)
            pieces = (gathered_to(each, int(self.cuts), total) for each, total in zip(found, totals, strict=True))
            altered = with_pieces(pattern, *pieces)
        for quarter, (seam, _, sewn), total in zip(found, at_waist, totals, strict=True):
            drawn_in = partial(_gathered_in, quarter=quarter, share=total / sewn)
            altered = replace(altered, measures=relaid(altered.measures, quarter.piece.name, drawn_in))
            if seam is not None:
                altered = without_stretches(altered, seam)
                altered = with_ease(altered, seam.name, gathered_ease(run_surplus(altered, seam)))
                altered = notches_evenly(altered, altered.seam(seam.name))
        return seamed_where_too_wide(gathers_beyond_stands(altered), [quarter.piece.name for quarter in found])

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        found = quarters_taking_part(self.name, pattern, self.only, self.cuts)
        for quarter in found:
            yield from lengths_kept(quarter.piece, (quarter.side.name,))
            seam, joined, _ = _at_waist(pattern, quarter)
            if seam is not None:
                yield surplus_becomes(pattern, seam, self.ratio * joined - _joined_length(pattern, seam))
        yield from all_else_kept(pattern, found)


def _accept_ratio(step: GatherSkirt, pattern: Pattern, found: tuple[Quarter, ...]) -> None:
    """Raise StepRefused where the waist is as long as that already, or where something beside the skirt lies in it."""
    least = max(let_out_length(quarter) / _at_waist(pattern, quarter)[1] for quarter in found)
    if step.ratio < least + _LEAST_MORE:
        reason = f"with its darts let out its waist is {least:.2f} times as long already; gather more"
        enough = math.ceil(100.0 * (least + _LEAST_MORE)) / 100.0
        raise StepRefused(step.name, reason=reason, remedies=instead(step.name, "ratio", enough))
    for quarter in found:
        own = quarter.sewn_at
        seam = next((s for s in pattern.seams if any((r.piece, r.edge) in own for r in (*s.a, *s.b))), None)
        if seam is not None and _waist_seam(pattern, quarter) is None:
            other = min((ref.edge for ref in seam.a if (ref.piece, ref.edge) not in own), default=seam.name)
            plain = f'"{other}" lies in the {seam.name} as well, and gathers cannot cross that'
            panel = in_the_way(quarter.piece) if edge_at(quarter.piece, Place.PRINCESS) else None
            raise refused_after(step.name, panel, f"{plain}; gather the other half of the skirt: only = ...")


def _waist_seam(pattern: Pattern, quarter: Quarter) -> Seam | None:
    """The seam that joins the waist of this quarter to what is above it, the skirt's side first.

    A button stand, or what wraps over, may lie in it as well, as long as what it meets.
    """
    own = quarter.sewn_at
    for seam in pattern.seams:
        beside = [ref for ref in seam.a if (ref.piece, ref.edge) not in own]
        stands = all(ref.piece == quarter.piece.name and _is_beyond(pattern, ref.piece, ref.edge) for ref in beside)
        if len(beside) + len(own) == len(seam.a) and stands:
            return seam
    return None


def _joined_length(pattern: Pattern, seam: Seam) -> float:
    """How long that is which the waist of a quarter is sewn to, what lies beyond the centre left out, mm."""
    return finer_length(pattern, [ref for ref in seam.b if not _is_beyond(pattern, ref.piece, ref.edge)])


def _is_beyond(pattern: Pattern, piece: str, edge: str) -> bool:
    """Whether an edge lies beyond the centre, across a button stand or where the front wraps over."""
    return pattern.piece(piece).edge(edge).place in (Place.STAND, Place.WRAP)


def _at_waist(pattern: Pattern, quarter: Quarter) -> tuple[Seam | None, float, float]:
    """The waist seam, the length the skirt is sewn to, and the skirt's waist, mm; what is drawn up already is left out.

    Where it is sewn to nothing, both are its own.
    """
    seam, own = _waist_seam(pattern, quarter), waist_length(quarter)
    if seam is None:
        return None, own, own
    walked = walk(pattern, seam)
    return seam, _joined_length(pattern, seam) - walked.up_b.total, own - walked.up_a.total


def _gathered_in(measure: Measure, part: Tape, quarter: Quarter, share: float) -> list[Tape]:
    """A stretch of tape along the waist as it is once the gathers are drawn in, which take up the added length.

    Laid along all of the waist, that too which a dart left to be gathered.
    """
    names = [edge.name for edge in quarter.sewn]
    if not isinstance(part, Along) or part.edge not in names:
        return [part]
    laid = {each.edge for each in measure.tape if isinstance(each, Along) and each.piece == part.piece}
    times, first = part.times / share, next(name for name in names if name in laid) == part.edge
    added: list[Tape] = [Along(part.piece, name, times) for name in names if first and name not in laid]
    return [*added, replace(part, times=times)]
