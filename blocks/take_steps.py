"""The steps of a garment taken one after another on its pattern, and where one that is refused is written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, apply_step, make_step
from drafting.errors import BrokenPromise, CannotDraft, Remedy, StepRefused, TrueseamError, offered
from drafting.parts.part_amounts import ways_to_draw
from drafting.parts.redraw import PartRefused, require_drawn
from drafting.parts.undraw import undrawn
from drafting.pattern import Pattern, Step
from drafting.reading.options import Value
from drafting.reading.possible_amounts import Amounts, most_that, settings_of, smaller_amounts, step_of

__all__ = ["alter", "part_refused", "stages"]

_FAR: Final = 10_000.0  # mm; a piece that reaches further is longer than any cloth a garment is cut from (our figure)


def stages(
    pattern: Pattern, steps: Sequence[Alteration], *, sources: Sequence[str] = (), unit: str = "cm"
) -> Iterator[Pattern]:
    """The pattern as it is, and after each of the steps, with every promise kept.

    sources: where each step is written, so that a refusal names its place
    unit:    what she works in, to whose round numbers the amounts are that can be had
    Raises StepRefused, with the place, for a step that makes no sense or would break a promise; CannotDraft for a part
    that waited for a step and cannot be drawn after the last.
    """
    yield pattern
    for count, step in enumerate(steps):
        place = sources[count] if count < len(sources) else f"step {count + 1}"
        where = f"{place}, {step.name}"
        try:
            pattern = _taken(pattern, step, last=count == len(steps) - 1)
        except (BrokenPromise, StepRefused) as refused:
            reason, remedies = _told(refused, pattern, steps[count:], step_of(unit))
            raise StepRefused(
                where, reason=reason, remedies=[_numbered(each, count + 1) for each in remedies], step=count + 1
            ) from refused
        except TrueseamError as refused:
            raise StepRefused(where, reason=" ".join(refused.sentences()), step=count + 1) from refused
        _accept_reach(where, pattern)
        yield pattern
    try:
        require_drawn(pattern)
    except PartRefused as refused:
        raise part_refused(refused, unit) from refused


def _numbered(remedy: Remedy, step: int) -> Remedy:
    """The remedy with the number of the step it changes; one that adds a step, or sets what is no step, has none."""
    return replace(remedy, step=step) if remedy.act in ("change", "instead", "leave out") else remedy


def _told(
    refused: BrokenPromise | StepRefused, pattern: Pattern, steps: Sequence[Alteration], rounded_to: float
) -> tuple[str, list[Remedy]]:
    """Why the first of these steps cannot be taken, and what can be had of it with those after it."""
    step = steps[0]
    if isinstance(refused, StepRefused):
        had = [each for each in refused.remedies if _is_of_use(pattern, steps, each)]
        return refused.reason, [_going_on(pattern, steps, each, rounded_to) for each in had]
    if most := _most(pattern, steps, step.or_less, rounded_to):
        return refused.reason, [Remedy("change", step.name, settings_of(most))]
    return (
        f"{refused.reason}. That is a fault of the program, not yours: leave the step out, or ask for another amount",
        [],
    )


def _going_on(pattern: Pattern, steps: Sequence[Alteration], remedy: Remedy, rounded_to: float) -> Remedy:
    """The remedy for the first of these steps, with less of it where those after it cannot be taken on so much."""
    changed = {each.option: each.value for each in remedy.settings}
    if len(steps) == 1 or remedy.act != "change" or _goes(pattern, steps, changed):
        return remedy
    lengths = [each.option for each in remedy.settings if each.unit == "mm"]
    most = _most(pattern, (replace(steps[0], **changed), *steps[1:]), lengths, rounded_to)
    return replace(remedy, settings=settings_of(most)) if most else remedy


def _most(pattern: Pattern, steps: Sequence[Alteration], lengths: Sequence[str], rounded_to: float) -> Amounts:
    """The most below what the first of these steps asks for with which all of them can be taken; {} where none can."""
    return most_that(partial(_goes, pattern, steps), smaller_amounts(steps[0], lengths, rounded_to))


def _is_of_use(pattern: Pattern, steps: Sequence[Alteration], remedy: Remedy) -> bool:
    """Whether the first of these steps can be taken after the one that a remedy adds, or the remedy's in its place."""
    if remedy.act not in ("add", "instead"):
        return True
    try:
        after = _taken(pattern, _step(remedy), last=remedy.act == "instead")
        if remedy.act == "add":
            require_drawn(_taken(after, steps[0], last=True))
    except TrueseamError:
        return False
    return True


def _goes(pattern: Pattern, steps: Sequence[Alteration], changed: Mapping[str, Value]) -> bool:
    """Whether all of these steps can be taken with this changed in the first."""
    try:
        for count, step in enumerate((replace(steps[0], **changed), *steps[1:]), 1):
            pattern = _taken(pattern, step, last=count == len(steps))
        require_drawn(pattern)
    except TrueseamError:
        return False
    return True


def part_refused(
    refused: PartRefused, unit: str, redrafted: Callable[[Mapping[str, Value]], bool] | None = None
) -> CannotDraft:
    """The refusal of a part that cannot be drawn, with what lets it be, in round numbers of the unit.

    What is said to help was tried. Where nothing that could be tried helps by itself, what it asks for is told: that
    done, it may ask for more, as buttons on the bodice of a jumpsuit do.
    redrafted: whether the garment can be drafted with an option of its blocks set; None where that cannot be tried
    """

    def helps(remedy: Remedy) -> bool:
        if remedy.act == "add":
            return _drawn_after(refused.pattern, remedy)
        given = {each.option: each.value for each in remedy.settings}
        return remedy.act == "set in part" or (redrafted is not None and redrafted(given))

    ways = ways_to_draw(refused, step_of(unit))
    remedies = [each for each in ways if helps(each)]
    had = offered(remedies)
    if ways and not remedies:
        remedies, had = list(ways), f"; it asks for: {'; or '.join(each.typed() for each in dict.fromkeys(ways))}"
    said = f'The "{refused.where}" cannot be drawn: {refused.reason}{had}.'
    return CannotDraft((), said, part=refused.where, remedies=remedies)


def _drawn_after(pattern: Pattern, remedy: Remedy) -> bool:
    """Whether every part can be drawn after one more step."""
    try:
        require_drawn(apply_step(undrawn(pattern), _step(remedy), as_written=True))
    except TrueseamError:
        return False
    return True


def _step(remedy: Remedy) -> Alteration:
    return make_step(Step(remedy.alteration, tuple((each.option, each.value) for each in remedy.settings)), ALTERATIONS)


def _taken(pattern: Pattern, step: Alteration, *, last: bool) -> Pattern:
    """The pattern after a step. A part that cannot be drawn to it waits for a further one, where there is one: the
    back is closed before the front opens for the collar.
    """
    try:
        return apply_step(pattern, step, as_written=True)
    except StepRefused:
        if last or not pattern.derived:
            raise
        return apply_step(undrawn(pattern), step, as_written=True)


def alter(pattern: Pattern, steps: Sequence[Alteration], *, sources: Sequence[str] = ()) -> Pattern:
    """The pattern after the steps. Raises as `stages` does."""
    *_, altered = stages(pattern, steps, sources=sources)
    return altered


def _accept_reach(where: str, pattern: Pattern) -> None:
    """Raise StepRefused where a piece has become longer than any cloth."""
    for piece in pattern.pieces:
        places = [(edge.start.x, edge.start.y) for edge in piece.edges]
        reach = max(max(each) - min(each) for each in zip(*places, strict=True))
        if reach > _FAR:
            said = f'"{piece.name}" would be {reach / 1000.0:.1f} m long, and {_FAR / 1000.0:.0f} m is the most'
            raise StepRefused(where, reason=f"{said}; ask for less")
