"""Several sizes of a chart over each other: each piece in every size, how each went, what each will measure."""

from __future__ import annotations

from output.api import TrueseamError
from output.api.asking import measurements
from output.api.several_sizes import SizeMade, in_each_size, size_dash, size_outlines
from output.api.wording import counted, length_text
from output.page.views.data import Data
from output.page.views.head import state_of_verdict
from output.page.views.shown import Shown

__all__ = ["sizes"]


def sizes(shown: Shown) -> Data:
    """The sizes that are drawn over each other; nothing in it for a garment in one.

    drawn:    the size that the table, the cards and the measurements show
    sizes:    each: size, state ("calm", "warning" or "failed"), verdict (a sentence), dash (its line, mm)
    outlines: for each piece its outline in each of the other sizes, path data by size
    finished: what each will measure: name, and by_size in the order of the sizes
    refused:  why they cannot be drawn over each other, in sentences
    """
    try:
        made = in_each_size(shown.garment)
    except TrueseamError as refused:
        return _EMPTY | {"refused": list(refused.sentences())}
    if not made:
        return dict(_EMPTY)
    sizes_ = shown.garment.sizes
    drawn = str(sizes_.frame) if sizes_ else ""
    others = [each for each in made if each.size != drawn]
    return {
        "drawn": drawn,
        "sizes": [
            {
                "size": each.size,
                "state": state_of_verdict(each.checks.verdict),
                "verdict": _verdict(each),
                "dash": list(size_dash(place)),
            }
            for place, each in enumerate(made)
        ],
        "outlines": {name: dict(outlines) for name, outlines in size_outlines(others, shown.draft).items()},
        "finished": _finished(made, shown.unit),
        "refused": [],
    }


_EMPTY: Data = {"drawn": "", "sizes": [], "outlines": {}, "finished": [], "refused": []}


def _verdict(made: SizeMade) -> str:
    return counted(made.checks.rows).split(" Nothing was there")[0]


def _finished(made: tuple[SizeMade, ...], unit: str) -> list[Data]:
    found = [{each.name: length_text(each.finished, unit) for each in measurements(size.drafted)} for size in made]
    names = dict.fromkeys(name for each in found for name in each)
    return [{"name": name, "by_size": [each.get(name, "") for each in found]} for name in names]
