"""The numbers behind the choice of a size: the ease in each size, and where each tape falls."""

from __future__ import annotations

from typing import Final

from drafting.body.terms import measurement_for
from drafting.reading.units import length_text, sentence_in
from drafting.sizing.choose_size import SizeChoice
from drafting.sizing.pattern_chart import BODY_OF
from drafting.sizing.size_level import SLACK, SizeAt
from output.report.tables import Column, Row, Table

__all__ = ["ease_table", "place_name", "tape_table"]

_GIRTH_OF_CHILD: Final = {"bust": "chest"}


def place_name(choice: SizeChoice, place: str) -> str:
    """What a level is called: a child has a chest."""
    return place if choice.person.body == "woman" else _GIRTH_OF_CHILD.get(place, place)


def ease_table(choice: SizeChoice) -> Table | None:
    """The ease in each neighbouring size, level by level; None where the chart tells no finished measure."""
    rows, below = [], []
    for level in choice.levels:
        name = place_name(choice, level.place)
        for each in level.eases:
            remarks = ["nearest to what is wanted"] if each.size == level.by_finished else []
            remarks += ["too little"] if each.ease < level.least - SLACK else []
            remarks += ["by the body"] if level.by_body is not None and each.size == level.by_body.size else []
            cells = (name, each.size, _text(choice, each.finished), _text(choice, each.ease), ", ".join(remarks))
            rows.append(Row(cells))
        if level.eases:
            below.append(
                f"{name[0].upper()}{name[1:]}: your body {_text(choice, level.body)}; ease wanted "
                f"{_text(choice, level.wanted)}, at least {_text(choice, level.least)} ({level.source})."
            )
    if not rows:
        return None
    columns = (Column("at the"), Column("size"), Column("finishes at", True), Column("ease", True), Column(""))
    sources = (sentence_in(choice.person.unit, each) for each in below)
    return Table("Ease in each size", columns, tuple(rows), below=tuple(sources))


def tape_table(choice: SizeChoice) -> Table:
    """Every measurement the chart has a row for, and the size it asks for by itself."""
    rows = [
        Row(
            (
                place_name(choice, measurement_for(tape.key, choice.person.body).name),
                _text(choice, tape.mm),
                tape.at.size,
                _between(tape.at),
            )
        )
        for tape in choice.tapes
    ]
    missing = [
        f"The chart has no {place_name(choice, place)} of the body: measure the garment there, on the tissue."
        for place in choice.kind.close
        if not choice.chart.body_row(BODY_OF[place])
    ]
    columns = (Column("tape"), Column("measured", True), Column("size by the body", True), Column("it lies"))
    return Table("Size by each tape", columns, tuple(rows), below=tuple(missing))


def _between(at: SizeAt) -> str:
    """Where a length lies among the sizes, in words; with numbered sizes also as a number."""
    small, large = at.between
    if round(at.share, 1) in (0.0, 1.0):  # a tape reads no closer
        return f"on {large if at.share > 0.5 else small}"
    if at.share < 0.0:
        return f"below {small}"
    if at.share > 1.0:
        return f"above {large}"
    number = ""
    if small.isdigit() and large.isdigit():
        number = f" ({int(small) + at.share * (int(large) - int(small)):.1f})"
    return f"between {small} and {large}{number}"


def _text(choice: SizeChoice, mm: float) -> str:
    return length_text(mm, choice.person.unit)
