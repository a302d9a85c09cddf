"""A draft at the machine: in which order it is sewn, and what is to be bought for it."""

from __future__ import annotations

from drafting.sewing import SewingStep, sewing_order
from output.api.asking import Rows
from output.api.laying import to_buy as bought_for
from output.api.making import Draft, accept_draft
from output.lay.shopping_list import ToBuy
from output.report.child_words import caution_passage
from output.report.cloth_tables import buy_table
from output.report.sewing_words import step_words
from output.report.tables import Passage, Table

__all__ = ["child_cautions", "sewing", "to_buy"]


def sewing(drafted: Draft) -> Rows[SewingStep]:
    """The order of sewing: every seam, dart, hem and opening in the step in which it is sewn, to be read as sentences.

    A step is got by its number from 0, or by its title, "Shoulder seams".
    """
    accept_draft(drafted)
    pattern, unit = drafted.pattern, drafted.unit
    steps = sewing_order(pattern, knit=drafted.garment.cloth.knit)

    def shown() -> tuple[Table | Passage, ...]:
        words = (step_words(pattern, step, unit) for step in steps)
        return tuple(Passage(f"{count}. {each.title}", each.sentences) for count, each in enumerate(words, start=1))

    return Rows(steps, shown, lambda step: step_words(pattern, step, unit).title)


def to_buy(drafted: Draft) -> Rows[ToBuy]:
    """What is to be bought, the cloth included, lengths in mm. A thing is called by its kind: "zip"."""
    accept_draft(drafted)
    bought = bought_for(drafted)
    return Rows(bought, lambda: (buy_table(bought),), lambda each: each.kind)


def child_cautions(drafted: Draft) -> tuple[str, ...]:
    """What to beware of where a child wears it, a sentence or more each, the rules in force last; () for the grown."""
    return tuple(sentence for passage in caution_passage(drafted.pattern) for sentence in passage.sentences)
