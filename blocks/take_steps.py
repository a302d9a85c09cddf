"""The steps of a garment taken one after another on its pattern, and where one that is refused is written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from blocks.step_offers import Redrafted, after_steps, numbered, offers_in_place, part_refused, taken
from drafting.alterations import Alteration
from drafting.checks import Check
from drafting.errors import BrokenPromise, StepRefused, TrueseamError, UnknownName
from drafting.parts.redraw import PartRefused, require_drawn
from drafting.pattern import Pattern
from drafting.reading.options import Value

__all__ = ["alter", "stages"]


def stages(
    pattern: Pattern,
    steps: Sequence[Alteration],
    *,
    sources: Sequence[str] = (),
    unit: str = "cm",
    checks: Sequence[Check] = (),
    before: Sequence[tuple[Pattern, Alteration]] = (),
    redrafted: Redrafted | None = None,
) -> Iterator[Pattern]:
    """The pattern as it is, and after each of the steps, with every promise kept.

    sources: where each step is written, so that a refusal names its place
    unit:    what she works in, to whose round numbers the amounts are that can be had
    before:  the steps taken before these, each with the pattern that it was taken on
    redrafted: as in `offers_in_place`
    checks:  by what is judged whatever can be had in place of a step that is refused; not judged where there are none
    Raises StepRefused, with the place, for a step that makes no sense or would break a promise; CannotDraft for a part
    that waited for a step and cannot be drawn after the last.
    """
    yield pattern
    made = list(before)
    for count, step in enumerate(steps):
        number = len(made) + 1
        place = sources[count] if count < len(sources) else f"step {number}"
        where = f"{place}, {step.name}"
        try:
            altered = taken(pattern, step, last=count == len(steps) - 1)
        except (BrokenPromise, StepRefused) as refused:
            reason, remedies = offers_in_place(refused, pattern, steps[count:], unit, checks, made, redrafted)
            remedies = [numbered(each, number) for each in remedies]
            raise StepRefused(where, reason=reason, remedies=remedies, step=number) from refused
        except TrueseamError as refused:
            raise StepRefused(where, reason=" ".join(refused.sentences()), step=number) from refused
        made.append((pattern, step))
        pattern = altered
        yield pattern
    try:
        require_drawn(pattern)
    except PartRefused as refused:
        raise part_refused(refused, unit, partial(_drawn_with, redrafted, made) if redrafted else None) from refused


def _drawn_with(
    redrafted: Redrafted, made: Sequence[tuple[Pattern, Alteration]], options: Mapping[str, Value]
) -> bool | None:
    """Whether all parts are drawn after the steps where options of the blocks are set; None where no block has them."""
    try:
        return after_steps(redrafted(options), [step for _, step in made]) is not None
    except UnknownName:
        return None
    except TrueseamError:
        return False


def alter(pattern: Pattern, steps: Sequence[Alteration], *, sources: Sequence[str] = ()) -> Pattern:
    """The pattern after the steps. Raises as `stages` does."""
    *_, altered = stages(pattern, steps, sources=sources)
    return altered
