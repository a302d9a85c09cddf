"""A step that cannot be taken, as its card shows it: why, and what can be had in its place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from output.api import Garment, StepRefused
from output.api.showing import offered
from output.api.steps import written_step
from output.api.wording import sentence_in
from output.page.views.data import Data
from output.page.views.offers import offers_of, steps_in_file, without_what_buttons_do

__all__ = ["refused_step"]

_END: Final = 1e6


def refused_step(refused: StepRefused, garment: Garment, tables: Mapping[str, Any]) -> Data:
    """The problem: in, at, sentences, offers.

    cannot: what no slider can have any more, by the key of the field: [from, to], mm
    garment: as it was ordered with that step; tables: its file
    """
    steps = steps_in_file(garment, tables)
    place = steps.taken[refused.step - 1] if refused.step else None
    offers = offers_of(refused.remedies, steps)
    # what no button does is told
    told = offered([each for each in refused.remedies if not offers_of([each], steps)])
    sentence = sentence_in(garment.wearer.unit, f"{refused.reason}{told}", at_most=True)
    reason = without_what_buttons_do(sentence, offers)
    return {
        "in": "garment",
        "at": None if place is None else ["step", place],
        "sentences": [f"{reason[:1].upper()}{reason[1:].rstrip('.')}."],
        "offers": offers,
        "cannot": {} if place is None else _cannot(refused, steps.tables[place], steps.bare),
    }


def _cannot(refused: StepRefused, table: Mapping[str, Any], bare: str | None) -> dict[str, list[float]]:
    """Beyond the most that can be had, where one length alone is too much."""
    written = written_step(table, unit=bare)
    options = {each.option.name: each for each in written.options}
    lengths = [remedy.settings[0] for remedy in refused.remedies if len(remedy.settings) == 1]
    found = {}
    for each in lengths:
        option = options.get(each.option)
        if option is None or each.unit != "mm" or not isinstance(option.value, float):
            continue
        most = -float(each.value) if written.turns(each.option) else float(each.value)
        found[option.key] = [most, _END] if option.value > most else [-_END, most]
    return found
