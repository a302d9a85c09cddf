"""Finishing steps: openings, hems, gathers, a wrap. They are kept as what was asked for, and drawn last.

A zip is drawn into a side seam, a stand beyond a centre line. Whoever then takes that seam in would find it in pieces.
So a pattern keeps beside it what it was before its finishing steps (`Pattern.unfinished`):

    drafted --take in--> unfinished --opening--> --hem--> the pattern

A further step is put where it belongs (`order_of_steps`). One that belongs before a finishing step is taken on the
unfinished pattern, and the finishing steps are taken again after it. So the pattern is the same whichever was asked
for first, and its history tells the steps in the order in which they were taken.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.alterations.alteration import Alteration, accept_piece, apply_to, bare_step, parts_drawn, with_remedies
from drafting.alterations.alteration_table import AlterationTable, make_step
from drafting.alterations.step_order import order_of_steps
from drafting.errors import NotAPattern, StepRefused
from drafting.parts.undraw import undrawn
from drafting.pattern import Pattern

__all__ = ["apply_as_written", "apply_in_order"]


def apply_in_order(pattern: Pattern, alteration: Alteration, table: AlterationTable) -> Pattern:
    """The pattern with one more step, taken before the finishing steps that it belongs before.

    Raises as `apply_to` does, and StepRefused where a finishing step cannot be taken again after it.
    """
    steps = (*_finishing_steps(pattern, table), alteration)
    if pattern.unfinished is None or _belongs_last(steps, table):
        return apply_as_written(pattern, alteration, table)
    accept_piece(alteration, pattern)
    unfinished, order = pattern.unfinished, order_of_steps(steps, table)

    def taken(step: Alteration) -> Pattern:
        every = (*steps[:-1], step)
        bare, before = _steps_taken(unfinished, [every[place] for place in order], step, table)
        return replace(parts_drawn(step, bare, pattern), unfinished=before)

    return with_remedies(alteration, taken, pattern.history)


def apply_as_written(
    pattern: Pattern, alteration: Alteration, table: AlterationTable, *, offers: bool = True
) -> Pattern:
    """The pattern with one more step, taken on what the pattern is now. Raises as `apply_to` does.

    What it was before its finishing steps is forgotten where the step would belong before one of them.
    """
    altered = apply_to(pattern, alteration, offers=offers)
    finishing = _finishing_steps(pattern, table)
    if finishing:
        fits = _belongs_last((*finishing, alteration), table)
        return replace(altered, unfinished=pattern.unfinished) if fits else altered
    begins = table.is_finishing(alteration.name) and not any(table.is_finishing(step.alter) for step in pattern.history)
    return replace(altered, unfinished=undrawn(replace(pattern, unfinished=None))) if begins else altered


def _finishing_steps(pattern: Pattern, table: AlterationTable) -> tuple[Alteration, ...]:
    """The steps taken since the unfinished pattern, in that order; none where that is not known."""
    if pattern.unfinished is None:
        return ()
    return tuple(make_step(step, table) for step in pattern.history[len(pattern.unfinished.history) :])


def _belongs_last(steps: Sequence[Alteration], table: AlterationTable) -> bool:
    return all(step.name in table.names for step in steps) and order_of_steps(steps, table)[-1] == len(steps) - 1


def _steps_taken(
    unfinished: Pattern, steps: Sequence[Alteration], new: Alteration, table: AlterationTable
) -> tuple[Pattern, Pattern]:
    """The pattern after the steps, no part drawn, and the unfinished pattern, which has a step that is not finishing.

    new: the one of them that was not taken before
    """
    bare = unfinished
    for step in steps:
        try:
            bare = bare_step(bare, step)
        except (NotAPattern, StepRefused) as refused:
            if step is new:
                raise
            reason = refused.reason if isinstance(refused, StepRefused) else str(refused)
            again = f'"{step.name}", which was asked for before, cannot be taken after it: {reason}'
            raise StepRefused(new.name, reason=again) from refused
        if step is new and not table.is_finishing(step.name):
            unfinished = bare
    return bare, unfinished
