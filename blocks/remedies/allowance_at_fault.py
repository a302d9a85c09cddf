"""What the allowances brought that the checks do not let pass, and the widest allowance that passes.

Whatever is said has been tried: the garment was drafted with that allowance, its steps were taken, and it was checked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from typing import Final

from blocks.garment import Garment, Prepared, draft
from blocks.step_offers import after_steps
from drafting.checks import FAILED, Check, Checked, Result, check_pattern
from drafting.dataclass import dataclass
from drafting.errors import Remedy, Setting, TrueseamError
from drafting.pattern import Pattern
from drafting.pattern.cutting import LEAST_ALLOWANCE
from drafting.reading.options import Option
from drafting.reading.possible_amounts import most_below

__all__ = ["AllowanceTrials"]

_LEAST_HEM: Final = 10.0
"""mm. The narrowest hem that is offered: one turned twice by 5 mm (common practice, the figure ours)."""

_Place = tuple[str, str]


@dataclass(frozen=True, slots=True)
class AllowanceTrials:
    """A garment with failed checks, drafted with other allowances; each of them is tried once.

    last: what the checks found on it as it was ordered; step: the allowances tried are multiples of this, mm
    """

    garment: Garment
    prepared: Prepared
    last: Checked
    checks: Sequence[Check]
    step: float
    tried: dict[tuple[str, float], frozenset[_Place] | None] = field(default_factory=dict)

    def with_allowance_at_fault(self, result: Result) -> Result:
        """A failed result, its remedy with the widest allowance that passes; as it is where none is at fault."""
        for name, asked, least in (
            ("seam_allowance", self.garment.paper.seam_allowance, LEAST_ALLOWANCE),
            ("hem", self.garment.hem, _LEAST_HEM),
        ):
            if asked <= least or not self._passes(result, name, least):
                continue
            option = Option(name, "length", "what is left beyond the sewing line", least, asked)
            mm = most_below(lambda each, name=name: self._passes(result, name, each), option, asked, self.step)  # type: ignore[misc]
            if mm is None:
                continue
            remedy = Remedy("set in paper", name, (Setting(name, mm, "mm"),), lead="With less beyond it this passes")
            said = f"{result.remedy} {remedy.sentence()}".lstrip()
            return replace(result, remedy=said, remedies=(*result.remedies, remedy))
        return result

    def _passes(self, result: Result, name: str, mm: float) -> bool:
        """Whether it fails there no more, and nowhere that it does not fail already."""
        now = self._failed_with(name, mm)
        before = frozenset((each.code, each.where) for each in self.last.results if each.verdict in FAILED)
        return now is not None and (result.code, result.where) not in now and now <= before

    def _failed_with(self, name: str, mm: float) -> frozenset[_Place] | None:
        """Where it fails with that allowance; None where it cannot be drafted so."""
        if (name, mm) not in self.tried:
            pattern = self._drafted_with(name, mm)
            if pattern is None:
                self.tried[name, mm] = None
            else:
                results = check_pattern(pattern, known=self.last, checks=self.checks).results
                failed = frozenset((each.code, each.where) for each in results if each.verdict in FAILED)
                self.tried[name, mm] = failed
        return self.tried[name, mm]

    def _drafted_with(self, name: str, mm: float) -> Pattern | None:
        """The garment with that allowance and all its steps; None where it cannot be drafted so."""
        paper = replace(self.garment.paper, **{name: mm})  # type: ignore[arg-type]
        garment = replace(self.garment, paper=paper)
        try:
            return after_steps(draft(garment, self.prepared), garment.steps)
        except TrueseamError:
            return None
