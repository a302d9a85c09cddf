"""Does it go together: what the checks found, what mends it, and what the finished garment will measure."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from output.api.asking import measurements
from output.api.sewing_it import child_cautions
from output.api.steps import Remedy
from output.api.wording import difference_text, fault_words, length_text, sentence_in
from output.page.views.data import Data
from output.page.views.head import state_of, verdict_of
from output.page.views.offers import offers_of, steps_in_file
from output.page.views.shown import Shown

__all__ = ["together"]

_MOVED = 0.05
"""mm from which a length has changed: what is shown to a tenth of a millimetre shows it."""


def together(shown: Shown) -> Data:
    """How it goes together.

    state, verdict: "calm", "warning" or "failed", and the same as a sentence
    faults:   what failed, then what is warned of: verdict ("fail" or "warn"), check, where, sentence, offers; of: the
              block or the part that it comes from, step: the place of the step; "" and None where that is not known
    finished: what it will measure: name, finished, body, ease; before: what it was before the last change, "" where
              that did not change it; by: how much more or less that is
    child:    what to beware of where a child wears it, as texts; [] for the grown
    gone:     the lengths there were before the last change and are no more
    """
    steps = steps_in_file(shown.garment, shown.tables)
    faults = sorted(shown.checks.faults, key=lambda each: each.verdict == "warn")
    rows = measurements(shown.draft)
    before = {each.name: each.finished for each in measurements(shown.before)} if shown.before else {}
    return {
        "state": state_of(shown),
        "verdict": verdict_of(shown),
        "faults": [
            {
                "verdict": "warn" if each.verdict == "warn" else "fail",
                "check": each.check,
                "where": sentence_in(shown.unit, each.where),
                "sentence": fault_words(each, shown.unit),
                "offers": offers_of(each.remedies, steps),
                "of": _set_in(shown, each.remedies) or _made_of(shown, each.where),
                "step": next((steps.taken[one.step - 1] for one in each.remedies if one.step), None),
            }
            for each in faults
        ],
        "finished": [_row(each, before.get(each.name), shown.unit) for each in rows],
        "child": [sentence_in(shown.unit, each) for each in child_cautions(shown.draft)],
        "gone": [name for name in before if name not in {each.name for each in rows}],
    }


def _set_in(shown: Shown, remedies: Iterable[Remedy]) -> str:
    """The block or the part of which an option is at fault, as what mends it says; "" for none."""
    names = {order.block.name for order in shown.garment.blocks}
    names |= {part.called or part.part for part in shown.draft.pattern.derived}
    set_in = (each.alteration for each in remedies if each.act in ("set in block", "set in part"))
    return next((name for name in set_in if name in names), "")


def _made_of(shown: Shown, where: str) -> str:
    """The part, else the block, whose piece or seam a check looked at; "" for none."""
    by_name = {name: order.block.name for order in shown.garment.blocks for name in order.block.pieces}
    for part in shown.draft.pattern.derived:
        called = part.called or part.part
        by_name |= dict.fromkeys((called, *part.pieces, *part.seams), called)
    named = (name for name in by_name if where.startswith(name) and not where[len(name) : len(name) + 1].isalnum())
    return by_name.get(max(named, key=len, default=""), "")


def _row(each: Any, before: float | None, unit: str) -> Data:
    did_move = before is not None and abs(before - each.finished) >= _MOVED
    return {
        "name": each.name,
        "finished": length_text(each.finished, unit),
        "body": "" if each.body is None else length_text(each.body, unit),
        "ease": "" if each.body is None else difference_text(each.finished, each.body, unit),
        "before": length_text(before, unit) if did_move and before is not None else "",
        "by": difference_text(each.finished, before, unit) if did_move and before is not None else "",
    }
