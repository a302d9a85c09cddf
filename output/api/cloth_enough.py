"""Whether the cloth that she has is enough for the lay, and what would save cloth."""

from __future__ import annotations

from drafting.reading.units import length_text
from output.api.laying import Fold, LaidCloth, fitting, lay
from output.api.making import Draft
from output.lay.how_much import ENDS, before_washing, shop_length, shop_step
from output.lay.lay_values import Lay
from output.lay.savings import Saving, changes_the_bill
from output.report.cloth_tables import savings_table
from output.report.table_html import table_html
from output.report.tables import Passage

__all__ = ["cloth_enough", "savings_html"]

_NEARLY, _CLOSER = 1.08, 2.0
"""A lay longer than the cloth she has by up to this is packed closer, for so many seconds."""


def cloth_enough(
    drafted: Draft, shell: LaidCloth, savings: tuple[Saving, ...], have: float, *, fold: Fold, seconds: float
) -> tuple[LaidCloth, Passage, bool]:
    """The lay to cut by, whether what she has is enough or what makes it so, and whether it is too little as it is.

    have:    mm of cloth, unwashed
    savings: as `lay_and_savings` found them beside the lay
    """
    unit, shrinkage = drafted.unit, drafted.garment.cloth.shrinkage
    title = f"You have {_as_had(have, unit)}"

    def needed(found: Lay) -> float:
        return before_washing(found.length, shrinkage)

    if have < needed(shell.lay) <= _NEARLY * have:
        shell = lay(drafted, width=shell.cloth.width, fold=fold, seconds=max(_CLOSER, seconds))
    missing = needed(shell.lay) - have
    if missing <= 0.0:
        return shell, Passage(title, (f"It is enough, with {length_text(-missing, unit)} to spare.",)), False
    ends = length_text(ENDS, unit)
    short = f"It is {length_text(missing, unit)} too little as the garment stands, with {ends} to straighten the ends."
    alone = [each for each in savings if needed(each.lay) <= have]
    if alone:
        ways = "; or ".join(" and ".join(each.changes) for each in alone)
        return shell, Passage(title, (short, f"It fits with one change: {ways}.")), True
    together = fitting(drafted, shell.cloth, have)
    if together is not None:
        return shell, Passage(title, (short, f"It fits with these together: {'; '.join(together.changes)}.")), True
    return shell, Passage(title, (short, "Nothing that was tried makes it fit, nor all of it together.")), True


def savings_html(drafted: Draft, shell: LaidCloth, savings: tuple[Saving, ...]) -> str:
    """A table, in HTML, of each change by which less cloth has to be bought, what saves most first."""
    shrinkage = drafted.garment.cloth.shrinkage
    worth = changes_the_bill(savings, shell.lay, shrinkage, drafted.unit)
    return "".join(table_html(savings_table(worth, shrinkage, drafted.unit)))


def _as_had(have: float, unit: str) -> str:
    """A length of cloth as she has it: in eighths of a yard where it is such, else in inches; metres."""
    as_sold = unit != "in" or abs(shop_step(have, unit) - have) < 0.1
    return shop_length(have, unit) if as_sold else length_text(have, unit)
