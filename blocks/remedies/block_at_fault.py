"""What an option of a block brought that the checks do not let pass: which option it was, and the amount that passes.

Whatever is said has been tried: the garment was drafted with that amount, its steps were taken, and it was checked.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from blocks.garment import BlockOrder, Garment, Prepared, draft, redrafted_with
from blocks.step_offers import after_steps
from drafting.checks import FAILED, Check, Checked, Result, check_pattern
from drafting.dataclass import dataclass
from drafting.errors import Remedy, Setting, TrueseamError
from drafting.pattern import Pattern
from drafting.reading.options import Option, Required, Value
from drafting.reading.possible_amounts import nearest_that

__all__ = ["Ordered"]


@dataclass(frozen=True, slots=True)
class Ordered:
    """A garment as it was ordered, its steps in the order they are taken, so that it can be drafted otherwise.

    by_layer: whether a step that is added is taken where it belongs among them, not after the last
    """

    garment: Garment
    prepared: Prepared
    by_layer: bool = False

    def with_block_set(self, options: Mapping[str, Value]) -> Pattern | None:
        """The pattern after its steps with these options set in every block that has them; None where one is refused.

        Raises as `draft` does.
        """
        return after_steps(redrafted_with(self.garment, self.prepared, options), self.garment.steps)

    def with_paper_set(self, options: Mapping[str, Value]) -> Pattern | None:
        """The same with these options set on its paper."""
        garment = replace(self.garment, paper=replace(self.garment.paper, **options))  # type: ignore[arg-type]
        return after_steps(draft(garment, self.prepared), garment.steps)

    def with_block_at_fault(self, result: Result, last: Checked, checks: Sequence[Check], step: float) -> Result:
        """A failed result, its remedy with the option of a block it came with and the amount of it that passes.

        It is as it was where no option that was asked for is at fault.

        last: what the checks found on the pattern; step: the amounts are multiples of this, mm
        """
        failed = {(each.code, each.where) for each in last.results if each.verdict in FAILED}

        def passes(option: str, value: Value) -> bool:
            try:
                pattern = self.with_block_set({option: value})
            except TrueseamError:
                return False
            if pattern is None:
                return False
            found = check_pattern(pattern, known=last, checks=checks).results
            now = {(each.code, each.where) for each in found if each.verdict in FAILED}
            return (result.code, result.where) not in now and now <= failed

        for order in self.garment.blocks:
            for option, asked in _asked_for(order):
                if not passes(option.name, option.default):  # type: ignore[arg-type]
                    continue
                mm = nearest_that(lambda each, name=option.name: passes(name, each), option, asked, step)  # type: ignore[misc]
                remedies = _set(order.block.name, option.name, mm)
                had = f"; this passes: {remedies[0].typed()}" if remedies else "; leave it out"
                said = f'{result.remedy} It came with the "{option.name}" of the {order.block.name}{had}.'
                return replace(result, remedy=said, remedies=remedies)
        return result


def _set(block: str, option: str, mm: float | None) -> tuple[Remedy, ...]:
    if mm is None:
        return ()
    return (Remedy("set in block", block, (Setting(option, mm, "mm"),), lead="So it passes"),)


def _asked_for(order: BlockOrder) -> list[tuple[Option, Value]]:
    """The options of a block that were asked for otherwise than they are left out."""
    given = order.options
    return [
        (option, given[option.name])
        for option in order.block.options
        if option.name in given and not isinstance(option.default, Required) and given[option.name] != option.default
    ]
