"""A number beyond the range of its option: the nearest that can be had, tried by drafting with it.

The range of an option is what any body may need; of this garment less may be had. So the end of the range is tried, and
where it is too much, the most below it that can be drafted is found, as for a step that is refused.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import replace
from typing import Any, Final

from blocks import garment as garments
from blocks.garment import Garment
from blocks.step_offers import after_steps
from drafting.errors import InputProblems, Problem, Setting, TrueseamError
from drafting.reading.possible_amounts import most_that, step_of
from drafting.reading.units import sentence_in

__all__ = ["can_be_drafted", "nearest_tried", "with_value"]

_IN_GARMENT: Final = ("step", "block", "part")


def nearest_tried(
    wrong: InputProblems, drafts: Callable[[Problem, Setting], bool], unit: str, *, typed: bool = True
) -> InputProblems:
    """The problems; one by itself, of a number beyond its range, with the nearest that can be had, which was tried.

    drafts: whether the garment can be drafted with this in place of what the problem is of
    unit:   what she works in, to whose round numbers an amount is found, and in which it is told
    typed:  whether it is told as it is typed in a file; as a program gives it, in mm, where it is not
    """
    problem, *others = dict.fromkeys(wrong.problems)
    end = problem.nearest
    if others or end is None or (problem.at and problem.at[0] not in _IN_GARMENT):
        return wrong
    for each in _in_round_numbers(end, step_of(unit)):
        if drafts(problem, each):
            return InputProblems([replace(problem, nearest=each)])
    most = _most_within(end, lambda setting: drafts(problem, setting), unit)
    if most is None:
        return InputProblems([replace(problem, nearest=None)])
    had = sentence_in(unit, most.typed(), at_most=True) if typed else f"{most.option}={most.value:g}"
    mend = f"{problem.mend} The most that can be had here: {had}.".lstrip()
    return InputProblems([replace(problem, nearest=most, mend=mend)])


def _in_round_numbers(end: Setting, step: float) -> tuple[Setting, ...]:
    """The end of a range; of a length the multiples of a step about it, one of which lies within the range."""
    if end.unit != "mm" or isinstance(end.value, str):
        return (end,)
    return tuple(replace(end, value=way(end.value / step) * step) for way in (math.floor, math.ceil))


def _most_within(end: Setting, drafts: Callable[[Setting], bool], unit: str) -> Setting | None:
    """The length nearest to the end of a range, towards zero, that can be had; None for no length, or none."""
    if end.unit != "mm" or isinstance(end.value, str):
        return None
    step = step_of(unit) if end.value > 0.0 else -step_of(unit)
    amounts = [{end.option: count * step} for count in range(1, int(abs(end.value / step)) + 1)]
    most = most_that(lambda each: drafts(replace(end, value=each[end.option])), amounts)
    return replace(end, value=most[end.option]) if most else None


def can_be_drafted(ordered: Callable[[], Garment]) -> bool:
    """Whether a garment can be read and drafted with all its steps. No nest can be, whose sizes are drafted apart."""
    try:
        garment = garments.in_order(ordered())
        return after_steps(garments.draft(garment, garments.prepare(garment)), garment.steps) is not None
    except TrueseamError:
        return False


def with_value(tables: Mapping[str, Any], problem: Problem, setting: Setting) -> dict[str, Any]:
    """The tables of a file with a value at the place of a problem; those given stay as they are."""
    new = deepcopy(dict(tables))
    inner: Any = new
    for key in problem.at[:-1]:
        inner = inner[key]
    inner[problem.at[-1]] = setting.written()
    return new
