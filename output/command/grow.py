"""`trueseam grow`: how a child grows, which size and which garment fits until when, and what cloth to leave now."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

from drafting.body.person import Person, read_person
from drafting.errors import InputProblems, Problem, TrueseamError
from drafting.pattern import Pattern
from drafting.reading.units import NotRead, printable
from drafting.reading.values import parse_date
from output.api.child_growth import Growing, growing
from output.command.answer import Answer
from output.command.draft import make_garment, read_order
from output.command.streams import print_error
from output.files.write_folder import write_all
from output.report.growth_page import growth_page
from output.report.growth_words import growth_passages, lasting_table
from output.report.tables import Passage, Said

__all__ = ["tell_growth"]

_PAGE, _CHART = "growth.html", "growth.svg"


def tell_growth(
    path: Path,
    *,
    until: str | None = None,
    garment: Path | None = None,
    to: Path | None = None,
    unit: str | None = None,
) -> Answer:
    """What is to be expected of a child until a day, and of a garment that is made for her.

    until:   the last day, as it was typed; a year after she was measured where none is said
    garment: the file of a garment, drafted for her as she is now
    to:      a folder for a page with the chart, and the chart by itself
    Raises InputProblems with everything that is wrong in the words and the files.
    """
    problems: list[Problem] = []
    day = _until(until, problems)
    grows: Growing | None = None
    try:
        who = read_person(path)
        who = who if unit is None else replace(who, unit=unit)
        grows = growing(who, day, place="the command line, --until")
    except InputProblems as wrong:
        problems += wrong.problems
    made = _drafted(garment, problems) if garment is not None else None
    if problems or grows is None:
        raise InputProblems(problems)
    if made is not None:
        grows = growing(grows.person, day, _for_her(made, grows.person, garment))
    told = tuple(_passages(grows))
    written = _write(grows, told, to) if to is not None else ()
    data = {**grows.data(), **({"folder": str(to), "files": [_PAGE, _CHART]} if to is not None else {})}
    return Answer(0, (*told, *written), data)


def _until(text: str | None, problems: list[Problem]) -> date | None:
    if text is None:
        return None
    try:
        return parse_date(text)
    except NotRead:
        problems.append(Problem("the command line, --until", f'"{printable(text)}"', "a day, such as 2027-08-01"))
        return None


def _drafted(path: Path, problems: list[Problem]) -> Pattern | None:
    try:
        return make_garment(read_order(path, None)).pattern
    except InputProblems as wrong:
        problems += wrong.problems
    except TrueseamError as refused:
        said = " ".join(refused.sentences())
        problems.append(
            Problem(printable(str(path), most=200), "a garment that is refused", "one that is drafted", said)
        )
    return None


def _for_her(pattern: Pattern, who: Person, garment: Path | None) -> Pattern:
    """The pattern, if it is hers. Raises InputProblems for one that was drafted for somebody else."""
    if pattern.wearer.name == who.name:
        return pattern
    where = printable(str(garment), most=200)
    read = f'a garment for "{printable(pattern.wearer.name)}"'
    raise InputProblems([Problem(where, read, f'one for "{printable(who.name)}"', "Name her file as its wearer.")])


def _passages(grows: Growing) -> Iterator[Said]:
    unit = grows.person.unit
    told = growth_passages(grows.found, grows.person.name, unit)
    yield told[0]
    if grows.lasts:
        yield lasting_table(grows.lasts, grows.found.growth.last.day, unit)
    yield from told[1:]


def _write(grows: Growing, told: tuple[Said, ...], to: Path) -> tuple[Said, ...]:
    chart = grows.chart()
    page = growth_page(f"How {grows.person.name or 'the child'} grows", chart, told)
    write_all(to, {_PAGE: page.encode(), _CHART: chart.encode()}, print_error)
    return (Passage("Written", (f"{to / _PAGE}: open it in a browser; the chart by itself is {_CHART}",)),)
