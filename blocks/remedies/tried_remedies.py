"""What a check that fails or warns offers to type, tried before it is offered: what would not mend it is not offered.

A remedy is worded by a check that knows one place and no alteration. Whether the step it names can still be taken (on a
piece that was cut in two, gathered, given a stand), and whether anything else then fails, is found out here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from blocks.remedies.block_at_fault import Ordered
from blocks.step_offers import after_steps
from drafting.alterations import ALTERATIONS, Alteration, order_of_steps
from drafting.checks import FAILED, Check, Checked, OneSided, Result, Verdict, check_pattern
from drafting.dataclass import dataclass
from drafting.errors import Remedy, Setting, TrueseamError
from drafting.parts.part_amounts import with_part_set
from drafting.pattern import Pattern
from drafting.reading.options import UNITS, Value

__all__ = ["TriedRemedies"]

_Place = tuple[str, str]


@dataclass(frozen=True, slots=True)
class TriedRemedies:
    """The steps of a pattern, and by what it is judged.

    stages:  the pattern before the first step and after each
    last:    what the checks found after the last
    ordered: the garment it was drafted from; None where that is not known, and no block can be drafted otherwise
    """

    stages: Sequence[Pattern]
    steps: Sequence[Alteration]
    checks: Sequence[Check]
    last: Checked
    ordered: Ordered | None = None

    def without_useless(self, result: Result) -> Result:
        """The result of a failed check, or of one that warns, with what does not mend taken out of its remedy."""
        useful, remedy = list[Remedy](), result.remedy
        for each in result.remedies:
            found = self._that_mends(each, result)
            if found is None:
                remedy = remedy.replace(each.sentence(), "").replace("  ", " ").strip()
            else:
                useful.append(found)
        for held in result.one_sided:
            ways, others = self._ways_to_follow(held, result)
            remedy = remedy.replace(held.sentence(), held.sentence(ways))
            useful += others
        return replace(result, remedy=remedy, remedies=tuple(useful))

    def _that_mends(self, remedy: Remedy, result: Result) -> Remedy | None:
        """The remedy, of a change with the number of the step that is to be changed; None where it does not mend."""
        if remedy.act != "change":
            return remedy if self._step_mends(remedy, result) else None
        given = {each.option: each.value for each in remedy.settings}
        for k in [k for k, step in enumerate(self.steps) if step.name == remedy.alteration][::-1]:
            if self._mends(lambda k=k: self._with_changed(k, given), result):  # type: ignore[misc]
                return replace(remedy, step=k + 1)
        return None

    def _with_changed(self, k: int, given: Mapping[str, Value]) -> Pattern | None:
        return after_steps(self.stages[k], (replace(self.steps[k], **given), *self.steps[k + 1 :]))

    def _step_mends(self, remedy: Remedy, result: Result) -> bool:
        """Whether what a remedy sets, or the step that it adds, mends."""
        given = {each.option: each.value for each in remedy.settings}
        if remedy.act == "set in part":
            return self._mends(lambda: with_part_set(self.stages[-1], remedy.alteration, given), result)
        if remedy.act in ("set in block", "set in paper"):
            if self.ordered is None:
                return False
            made = self.ordered.with_block_set if remedy.act == "set in block" else self.ordered.with_paper_set
            return self._mends(lambda: made(given), result)
        try:
            step = ALTERATIONS.named(remedy.alteration)(**given)
        except TrueseamError:
            return False
        return self._mends(lambda: self._with_added(step), result)

    def _with_added(self, step: Alteration) -> Pattern | None:
        """The pattern with one more step, taken where it will be: among the others, or after them."""
        steps, k = (*self.steps, step), len(self.steps)
        if self.ordered is None or not self.ordered.by_layer:
            return after_steps(self.stages[-1], (step,))
        order = order_of_steps(steps, ALTERATIONS)
        begun = order.index(k)
        return after_steps(self.stages[begun], [steps[at] for at in order[begun:]])

    def _ways_to_follow(self, held: OneSided, result: Result) -> tuple[list[str], list[Remedy]]:
        """In which ways the other side follows so that it mends, in words and as data."""
        name = held.alter
        found = [k for k, step in enumerate(self.steps) if (step.name, getattr(step, "only", "")) == (name, held.piece)]
        ways, remedies = [], list[Remedy]()
        if found:
            k = found[-1]
            free, twin = (replace(self.steps[k], only=only) for only in ("", held.across))  # type: ignore[call-arg]
            if self._mends(lambda: after_steps(self.stages[k], (free, *self.steps[k + 1 :])), result):
                ways.append("leave only out")
                remedies.append(Remedy("change", name, (Setting("only", ""),), step=k + 1))
            if self._mends(lambda: after_steps(self.stages[-1], (twin,)), result):
                ways.append(held.advice_for_other_side())
                remedies.append(Remedy("add", name, _settings(twin)))
        return ways, remedies

    def _mends(self, make: Callable[[], Pattern | None], result: Result) -> bool:
        """Whether a pattern passes where this one failed or was warned of, and fails nowhere that this does not."""
        try:
            pattern = make()
        except TrueseamError:
            return False
        if pattern is None:
            return False
        found = check_pattern(pattern, known=self.last, checks=self.checks).results
        # of a failed check a warning is left, as of the most of a step that passes
        faults = FAILED if result.verdict in FAILED else (*FAILED, Verdict.WARN)
        stands = _places(found, faults)
        if (result.code, result.where) in stands:
            return False
        return _places(found, FAILED) <= _places(self.last.results, FAILED)


def _places(results: Iterable[Result], verdicts: tuple[Verdict, ...]) -> set[_Place]:
    """Where the checks found one of these."""
    return {(each.code, each.where) for each in results if each.verdict in verdicts}


def _settings(step: Alteration) -> tuple[Setting, ...]:
    """All that a step sets, as data."""
    given = ((option, getattr(step, option.name)) for option in step.options)
    return tuple(
        Setting(option.name, value, UNITS.get(option.kind, ""))
        for option, value in given
        if value is not None and value != option.default
    )
