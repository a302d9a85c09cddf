"""What is offered in place of a step, or of a part, that is refused: whatever is offered was tried.

A step may have been asked for too much. The most of it that can be drawn is found by the step itself
(`drafting/alterations/alteration.py`); here it is tried with the steps after it, and judged by the checks. Where that
makes a check fail, the most with which none does is offered first, and the most that can be drawn with the word that a
check fails then. What was failing without the step is no fault of the offer.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, apply_step, make_step, try_step
from drafting.checks import FAILED, Check, Checked, Result, Verdict, check_pattern, worst
from drafting.dataclass import dataclass
from drafting.errors import BrokenPromise, CannotDraft, Remedy, Setting, StepRefused, TrueseamError, offered
from drafting.parts.part_amounts import ways_to_draw
from drafting.parts.redraw import PartRefused, require_drawn
from drafting.parts.undraw import undrawn
from drafting.pattern import Pattern, Step
from drafting.reading.options import Value
from drafting.reading.possible_amounts import Amounts, most_that, settings_of, smaller_amounts, step_of

__all__ = ["Redrafted", "after_steps", "numbered", "offers_in_place", "part_refused", "taken"]

_FAR: Final = 10_000.0  # mm; a piece that reaches further is longer than any cloth a garment is cut from (our figure)

_Place = tuple[str, str]
Redrafted = Callable[[Mapping[str, Value]], Pattern]
"""The garment as its blocks give it with options of them set. Raises as `blocks/garment.py` does for what is not."""


def numbered(remedy: Remedy, step: int) -> Remedy:
    """The remedy with the number of the step it changes; one that adds a step, or sets what is no step, has none."""
    return replace(remedy, step=step) if remedy.act in ("change", "instead", "leave out", "put before") else remedy


def offers_in_place(
    refused: BrokenPromise | StepRefused,
    pattern: Pattern,
    steps: Sequence[Alteration],
    unit: str,
    checks: Sequence[Check] = (),
    before: Sequence[tuple[Pattern, Alteration]] = (),
    redrafted: Redrafted | None = None,
) -> tuple[str, list[Remedy]]:
    """Why the first of these steps cannot be taken, and what can be had of it with those after it.

    pattern: as it is before them
    unit:    what she works in, to whose round numbers the amounts are
    checks:  by what the offers are judged; they are not where there are none
    before:  the steps taken before these, each with the pattern that it was taken on
    redrafted: the garment with options of its blocks set; None where it cannot be drafted again, and they are untried
    """
    step, rounded_to, blocks = steps[0], step_of(unit), None
    if isinstance(refused, StepRefused):
        blocks = _Blocks(redrafted, tuple(step for _, step in before)) if redrafted else None
        had = [each for each in refused.remedies if _is_of_use(pattern, steps, each, blocks)]
        here = [_going_on(pattern, steps, each, rounded_to) for each in had if each.act != "put before"]
        moved = [_put_before(each, steps, before) for each in had if each.act == "put before"]
        offers = [*(each for each in moved if each), *here]
    elif most := _most(pattern, steps, step.or_less, rounded_to):
        offers = [Remedy("change", step.name, settings_of(most))]
    else:
        fault = "That is a fault of the program, not yours: leave the step out, or ask for another amount"
        return f"{refused.reason}. {fault}", []
    return refused.reason, _judged(pattern, steps, offers, rounded_to, checks, blocks) if checks else offers


def _going_on(pattern: Pattern, steps: Sequence[Alteration], remedy: Remedy, rounded_to: float) -> Remedy:
    """The remedy for the first of these steps, with less where the steps after it, or a part, cannot be had on it."""
    changed = {each.option: each.value for each in remedy.settings}
    if remedy.act != "change" or _goes(pattern, steps, changed):
        return remedy
    most = _most(pattern, (replace(steps[0], **changed), *steps[1:]), _lengths(remedy), rounded_to)
    return replace(remedy, settings=settings_of(most)) if most else remedy


def _put_before(
    remedy: Remedy, steps: Sequence[Alteration], before: Sequence[tuple[Pattern, Alteration]]
) -> Remedy | None:
    """The remedy with the nearest earlier step before which the first of these steps can be taken, and its number.

    One with which those after it can be taken as well comes first; they may ask for another order themselves. None
    where it can be put before none.
    """
    for rest in (steps[1:], ()):
        for k in reversed(range(len(before))):
            pattern, step = before[k]
            if remedy.alteration in ("", step.name):
                others = (each for _, each in before[k:])
                if after_steps(pattern, (steps[0], *others, *rest)) is not None:
                    return replace(remedy, alteration=step.name, settings=(Setting("step", float(k + 1)),))
    return None


def _lengths(remedy: Remedy) -> list[str]:
    """The options to which a remedy gives a length."""
    return [each.option for each in remedy.settings if each.unit == "mm"]


def _most(pattern: Pattern, steps: Sequence[Alteration], lengths: Sequence[str], rounded_to: float) -> Amounts:
    """The most below what the first of these steps asks for with which all of them can be taken; {} where none can."""
    return most_that(partial(_goes, pattern, steps), smaller_amounts(steps[0], lengths, rounded_to))


def _is_of_use(pattern: Pattern, steps: Sequence[Alteration], remedy: Remedy, blocks: _Blocks | None) -> bool:
    """Whether the first of these steps can be taken after the one that a remedy adds, with what it sets in a block, or
    the remedy's in its place.
    """
    if remedy.act == "set in block" and blocks is not None:
        return blocks.after(remedy, steps[:1]) is not None
    if remedy.act not in ("add", "instead"):
        return True
    try:
        after = taken(pattern, _step(remedy), last=remedy.act == "instead", offers=False)
        if remedy.act == "add":
            require_drawn(taken(after, steps[0], last=True, offers=False))
    except TrueseamError:
        return False
    return True


def _goes(pattern: Pattern, steps: Sequence[Alteration], changed: Mapping[str, Value]) -> bool:
    """Whether all of these steps can be taken with this changed in the first."""
    return after_steps(pattern, (replace(steps[0], **changed), *steps[1:])) is not None


def after_steps(pattern: Pattern, steps: Sequence[Alteration]) -> Pattern | None:
    """The pattern after all of these steps, with its parts; None where one of them is refused."""
    try:
        for count, step in enumerate(steps, 1):
            pattern = taken(pattern, step, last=count == len(steps), offers=False)
        require_drawn(pattern)
    except TrueseamError:
        return None
    return pattern


def _judged(
    pattern: Pattern,
    steps: Sequence[Alteration],
    offers: Sequence[Remedy],
    rounded_to: float,
    checks: Sequence[Check],
    blocks: _Blocks | None,
) -> list[Remedy]:
    """The offers for the first of these steps with the verdict of the checks, "" for one that is no step.

    Before one that makes a check fail stands the most of it that makes none fail, where there is one.
    """
    judge = _Judge(check_pattern(after_steps(pattern, steps[1:]) or pattern, checks=checks), checks)

    def verdict(remedy: Remedy) -> Verdict | None:
        if remedy.act == "set in block":
            after = blocks.after(remedy, steps) if blocks else None
        else:
            with_it = _steps_with(steps, remedy)
            after = None if with_it is None else after_steps(pattern, with_it)
        return None if after is None else judge.verdict(after)

    told = []
    for each in offers:
        found = verdict(each)
        if found is Verdict.FAIL and each.act == "change":

            def passes(amounts: Amounts, offer: Remedy = each) -> bool:
                return verdict(_with_amounts(offer, amounts)) in (Verdict.PASS, Verdict.WARN)

            asked = replace(steps[0], **{setting.option: setting.value for setting in each.settings})
            if most := most_that(passes, smaller_amounts(asked, _lengths(each), rounded_to)):
                less = _with_amounts(each, most)
                told.append(replace(less, verdict=verdict(less) or ""))
        told.append(replace(each, verdict=found or ""))
    return told


def _with_amounts(remedy: Remedy, amounts: Amounts) -> Remedy:
    """The remedy with these amounts of the lengths it sets."""
    settings = (replace(each, value=amounts.get(each.option, each.value)) for each in remedy.settings)
    return replace(remedy, settings=tuple(settings))


def _steps_with(steps: Sequence[Alteration], remedy: Remedy) -> tuple[Alteration, ...] | None:
    """The steps with the remedy for the first of them; None for one that is no step."""
    if remedy.act == "change":
        return (replace(steps[0], **{each.option: each.value for each in remedy.settings}), *steps[1:])
    if remedy.act == "add":
        return (_step(remedy), *steps)
    return (_step(remedy), *steps[1:]) if remedy.act == "instead" else None


@dataclass(frozen=True, slots=True)
class _Blocks:
    """How the garment is drafted with options of its blocks set, and the steps taken before the one refused."""

    redrafted: Redrafted
    before: tuple[Alteration, ...]

    def after(self, remedy: Remedy, steps: Sequence[Alteration]) -> Pattern | None:
        """The pattern with what a remedy sets in the blocks, after all steps; None where that cannot be had."""
        try:
            drafted = self.redrafted({each.option: each.value for each in remedy.settings})
        except TrueseamError:
            return None
        return after_steps(drafted, (*self.before, *steps))


@dataclass(frozen=True, slots=True)
class _Judge:
    """What the checks find without a step, by which a pattern with it is judged."""

    without: Checked
    checks: Sequence[Check]

    def verdict(self, pattern: Pattern) -> Verdict:
        """Whether a check fails on it, or warns, that did not: FAIL, WARN or PASS."""
        now = _worst_by_place(check_pattern(pattern, known=self.without, checks=self.checks))
        was = _worst_by_place(self.without)

        def stood(place: _Place, verdicts: tuple[Verdict, ...]) -> bool:
            """Whether it was so already, be it under a name that is gone: a step may part a piece in two."""
            if place in was:
                return was[place] in verdicts
            gone = ((code, verdict) for (code, where), verdict in was.items() if (code, where) not in now)
            return any(code == place[0] and verdict in verdicts for code, verdict in gone)

        if any(each in FAILED and not stood(place, FAILED) for place, each in now.items()):
            return Verdict.FAIL
        warned = (*FAILED, Verdict.WARN)
        if any(each is Verdict.WARN and not stood(place, warned) for place, each in now.items()):
            return Verdict.WARN
        return Verdict.PASS


def _worst_by_place(checked: Checked) -> dict[_Place, Verdict]:
    """The worst of what was found at each place."""
    found: dict[_Place, list[Result]] = {}
    for each in checked.results:
        found.setdefault((each.code, each.where), []).append(each)
    return {place: worst(results) for place, results in found.items()}


def part_refused(
    refused: PartRefused, unit: str, redrafted: Callable[[Mapping[str, Value]], bool | None] | None = None
) -> CannotDraft:
    """The refusal of a part that cannot be drawn, with what lets it be, in round numbers of the unit.

    What is said to help was tried. Where nothing that could be tried helps by itself, what it asks for is told: that
    done, it may ask for more, as buttons on the bodice of a jumpsuit do.
    redrafted: whether the garment can be drafted with an option of its blocks set, or None where no block has that;
               None where it cannot be tried
    """

    def tried(remedy: Remedy) -> bool | None:
        """Whether it helps; None for an option that no block has."""
        if remedy.act == "add":
            return _drawnafter_steps(refused.pattern, remedy)
        given = {each.option: each.value for each in remedy.settings}
        if remedy.act == "set in part":
            return True
        return redrafted(given) if redrafted is not None else False

    ways = [each for each in ways_to_draw(refused, step_of(unit)) if tried(each) is not None]
    remedies = [each for each in ways if tried(each)]
    had = offered(remedies)
    if ways and not remedies:
        remedies, had = list(ways), f"; it asks for: {'; or '.join(each.typed() for each in dict.fromkeys(ways))}"
    said = f'The "{refused.where}" cannot be drawn: {refused.reason}{had}.'
    return CannotDraft((), said, part=refused.where, remedies=remedies)


def _drawnafter_steps(pattern: Pattern, remedy: Remedy) -> bool:
    """Whether every part can be drawn after one more step."""
    try:
        require_drawn(try_step(undrawn(pattern), _step(remedy)))
    except TrueseamError:
        return False
    return True


def _step(remedy: Remedy) -> Alteration:
    return make_step(Step(remedy.alteration, tuple((each.option, each.value) for each in remedy.settings)), ALTERATIONS)


def taken(pattern: Pattern, step: Alteration, *, last: bool, offers: bool = True) -> Pattern:
    """The pattern after a step. A part that cannot be drawn to it waits for a further one, where there is one: the
    back is closed before the front opens for the collar.

    offers: as in `apply_to`
    Raises StepRefused, BrokenPromise, or NotAPattern.
    """
    take = partial(apply_step, as_written=True) if offers else try_step
    try:
        altered = take(pattern, step)
    except StepRefused:
        if last or not pattern.derived:
            raise
        altered = take(undrawn(pattern), step)
    _accept_reach(step.name, altered)
    return altered


def _accept_reach(step: str, pattern: Pattern) -> None:
    """Raise StepRefused where a piece has become longer than any cloth."""
    for piece in pattern.pieces:
        places = [(edge.start.x, edge.start.y) for edge in piece.edges]
        reach = max(max(each) - min(each) for each in zip(*places, strict=True))
        if reach > _FAR:
            said = f'"{piece.name}" would be {reach / 1000.0:.1f} m long, and {_FAR / 1000.0:.0f} m is the most'
            raise StepRefused(step, reason=f"{said}; ask for less")
