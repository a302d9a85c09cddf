"""What to buy, how much cloth, where each piece lies on it, and what would save some, as tables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from drafting.pattern import Pattern
from drafting.reading.units import length_text, percent
from output.lay.how_much import length_to_buy, shop_length
from output.lay.lay_drawing import lay_svg
from output.lay.lay_pieces import Material, pieces_to_lay
from output.lay.lay_values import Fold, Lay, Spread
from output.lay.lay_widths import width_table
from output.lay.lay_words import lies_words, placed_words, width_text
from output.lay.savings import Saving
from output.lay.shopping_list import ToBuy
from output.report.picture_html import named_picture
from output.report.table_html import list_html, table_html
from output.report.tables import Column, Row, Table

__all__ = ["buy_table", "cloth_html", "places_table", "savings_table", "widths_table"]


_FOLDS: Final[Mapping[Fold, str]] = {
    "lengthwise": "folded lengthwise",
    "double": "both selvedges to the middle",
    "single": "opened out, cut singly",
}


def buy_table(bought: Sequence[ToBuy]) -> Table:
    """What is to be bought."""
    rows = tuple(
        Row((each.what, "\n".join(part for part in (each.how_much, each.note) if part), each.what_for))
        for each in bought
    )
    return Table("What to buy", (Column("what"), Column("how much"), Column("for")), rows)


def places_table(lay: Lay, unit: str) -> Table:
    """Where every piece lies, in the order in which it is met along the cloth."""
    columns = (Column("piece"), Column("from the left end", True), Column("across"), Column("how"))
    rows = tuple(Row((each.piece, each.along, each.across, each.how)) for each in placed_words(lay, unit))
    return Table("Where each piece lies", columns, rows, above="To its nearest corner, the cutting line counted.")


def widths_table(lays: Mapping[float, Mapping[Fold, Lay | None]], shrinkage: float, unit: str) -> Table:
    """How much to buy of each usual width, by how it is folded."""
    folds = [fold for fold in _FOLDS if any(fold in ways for ways in lays.values())]
    columns = (Column("width"), *(Column(_FOLDS[fold], True) for fold in folds))
    rows = tuple(
        Row((width_text(width, unit), *(_bought(ways.get(fold), shrinkage, unit) for fold in folds)))
        for width, ways in lays.items()
    )
    return Table("How much to buy, by width", columns, rows)


def _bought(lay: Lay | None, shrinkage: float, unit: str) -> str:
    return "too narrow" if lay is None else shop_length(length_to_buy(lay.length, shrinkage, unit), unit)


def savings_table(savings: Sequence[Saving], shrinkage: float, unit: str) -> Table:
    """What was tried to save cloth, what saves most first."""
    columns = (Column("what to do otherwise"), Column("saves", True), Column("to buy", True))
    rows = tuple(
        Row((" and ".join(each.changes), length_text(each.saved, unit), _bought(each.lay, shrinkage, unit)))
        for each in savings
    )
    above = "Each tried by itself, on the same cloth." if rows else "Nothing that was tried takes less cloth."
    return Table("What would save cloth", columns, rows, above=above)


def cloth_html(pattern: Pattern, cloths: Mapping[Material, Spread], shrinkage: float, unit: str) -> Iterator[str]:
    """The section of the report: for each material how it lies, drawn, and how much to buy by width.

    shrinkage: of the shell
    The same pattern gives the same lay, here as from `trueseam lay`: it is found in a fixed number of tries.
    """
    yield "<h2>How much cloth</h2>"
    for material, cloth in cloths.items():
        if not pieces_to_lay(pattern, cloth, material):
            continue
        lost = shrinkage if material == "shell" else 0.0
        lays = width_table(pattern, cloth, material, unit)
        yield f"<h3>{material.capitalize()}</h3>"
        if (lay := lays[cloth.width][cloth.fold]) is None:
            yield f'<p class="soft">Too narrow at {width_text(cloth.width, unit)}.</p>'
        else:
            words = (*lies_words(lay, unit), f"{percent(lay.used)} of it ends up in pieces.")
            yield list_html((*words, "“trueseam lay --time 60” looks for a shorter one for a minute."))
            title = f"The pieces on the {material}"
            picture = named_picture(lay_svg(lay, title, unit), title)
            yield f'<div class="wide" role="group" tabindex="0" aria-label="{title}">'
            yield f'<figure class="lay">{picture}</figure></div>'
            yield from table_html(places_table(lay, unit), level=4)
        yield from table_html(widths_table(lays, lost, unit), level=4)
