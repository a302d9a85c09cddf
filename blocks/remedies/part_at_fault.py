"""What a part brought that the checks do not let pass: which part it was, and the amount of it that passes.

Whatever is said has been tried: the part was drawn with that amount, and the whole was checked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.checks import FAILED, Check, Checked, Result, Verdict, check_pattern
from drafting.errors import NotAPattern
from drafting.parts.part_amounts import part_remedies
from drafting.parts.redraw import drawn_again
from drafting.parts.undraw import undrawn
from drafting.pattern import Pattern

__all__ = ["with_part_at_fault"]


def with_part_at_fault(
    result: Result, pattern: Pattern, last: Checked, checks: Sequence[Check], rounded_to: float
) -> Result:
    """A failed result, its remedy with the part it came with and the amounts of that which pass; as it is for none.

    last: what the checks found on the pattern; rounded_to: the amounts are multiples of this, mm
    """
    failed = {(each.code, each.where) for each in last.results if each.verdict is Verdict.FAIL}

    def passes(tried: Pattern) -> bool:
        now = {
            (each.code, each.where)
            for each in check_pattern(tried, known=last, checks=checks).results
            if each.verdict in FAILED
        }
        return (result.code, result.where) not in now and now <= failed

    bare = undrawn(pattern)
    for at, part in enumerate(bare.derived):
        without = replace(bare, derived=(*bare.derived[:at], *bare.derived[at + 1 :]))
        try:
            mended = passes(drawn_again(without, replace(bare, derived=())))
        except NotAPattern:
            continue
        if mended:
            remedies = part_remedies(pattern, part, passes, rounded_to=rounded_to)
            had = f"; this passes: {'; or '.join(each.typed() for each in remedies)}" if remedies else ""
            return replace(result, remedy=f'{result.remedy} It came with the "{part.name}"{had}.', remedies=remedies)
    return result
