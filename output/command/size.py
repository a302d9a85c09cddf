"""`trueseam size`: which size of a chart, for this cloth and this kind of garment, where to blend and by how much."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Final, TypeVar

from drafting.body.charts import CHARTS
from drafting.body.person import read_person
from drafting.errors import InputProblems, Problem, UnknownName, meant
from drafting.fit.cloth import MOST_STRETCH, Cloth
from drafting.fit.cloth_table import cloth_meant, cloth_table
from drafting.fit.ease import FITS, Fit
from drafting.reading.files import load_toml
from drafting.reading.units import NotRead, parse_percent, percent, printable
from drafting.sizing.choose_size import choose_size
from drafting.sizing.garment_kinds import GARMENT_KINDS, GarmentKind, garment_kind
from drafting.sizing.pattern_chart import PatternChart, built_in_chart
from drafting.sizing.read_chart import read_chart
from output.api.sizing import size_data
from output.command.answer import Answer
from output.files.write_folder import write_all
from output.report.size_page import size_html
from output.report.size_words import size_passages
from output.report.tables import Passage

__all__ = ["choose_from_chart"]

_LINE: Final = "the command line, size"

_Read = TypeVar("_Read")


def choose_from_chart(
    chart: str,
    person: Path,
    *,
    kind: str | None,
    cloth: str | None,
    stretch: str | None,
    fit: str | None,
    to: Path | None,
    unit: str | None,
) -> Answer:
    """The size to take of a chart (a file, or the name of one that is built in), told and, with `to`, as a page.

    Raises InputProblems with everything that is wrong in the words, the chart and the person's file.
    """
    problems: list[Problem] = []
    wanted = _fit(fit, problems)
    told_cloth = _cloth(cloth, stretch, problems)
    told_kind = _kind(kind, problems)
    built_in = chart.casefold() if chart.casefold() in CHARTS else ""
    read = None if built_in else _tried(lambda: _read(chart), problems)
    who = _tried(lambda: read_person(person), problems)
    if problems or who is None:
        raise InputProblems(problems)
    used = told_cloth or (_of_chart(read) if read is not None else Cloth())
    whole = built_in_chart(built_in, used, wanted or "regular") if built_in else read
    if whole is None:
        raise InputProblems(problems)
    chosen = told_kind or garment_kind(whole.garment or "dress")
    who = replace(who, unit=unit or who.unit)
    choice = choose_size(whole, who, chosen, used, fit=wanted)
    said = list(size_passages(choice))
    data: dict[str, object] = dict(size_data(choice))
    if to is not None:
        files: Mapping[str, bytes] = {"size.html": size_html(choice).encode()}
        written = write_all(to, files)
        said.append(Passage("Written", (f"{written[0]}: one page to print.",)))
        data["files"] = [str(path) for path in written]
    return Answer(0, tuple(said), data)


def _tried(read: Callable[[], _Read], problems: list[Problem]) -> _Read | None:
    """What is read; None, with its problems noted, for what cannot be."""
    try:
        return read()
    except InputProblems as wrong:
        problems.extend(wrong.problems)
        return None


def _read(path: str) -> PatternChart:
    """The chart in a file: as it was typed from a packet, or of a garment file that is drafted here in sizes."""
    tables = load_toml(path)
    if "block" in tables or "like" in tables:
        from output.api.garment_chart import garment_chart  # drafts: not for a chart that is read
        from output.api.making import read_garment

        return garment_chart(read_garment(path))
    return read_chart(tables, place=path)


def _of_chart(chart: PatternChart) -> Cloth:
    """The cloth a pattern is drawn for."""
    row = cloth_meant(chart.cloth)
    return Cloth(kind=row.word) if row is not None else Cloth()


def _fit(told: str | None, problems: list[Problem]) -> Fit | None:
    """The fit that was named; None where none was."""
    found = next((fit for fit in FITS if told is not None and told.casefold() == fit), None)
    if told is not None and found is None:
        problems.append(Problem(f"{_LINE} --fit", f'"{printable(told)}"', ", ".join(FITS), meant(told, FITS)))
    return found


def _cloth(told: str | None, stretch: str | None, problems: list[Problem]) -> Cloth | None:
    """The cloth that was named; None where none was."""
    share = None
    if stretch is not None:
        try:
            read = parse_percent(stretch if "%" in stretch else f"{stretch} %")
            if not 0.0 <= read <= MOST_STRETCH:
                raise NotRead(f'"{printable(stretch)}"', f"a share from 0 to {percent(MOST_STRETCH)}")
            share = read
        except NotRead as wrong:
            problems.append(Problem(f"{_LINE} --stretch", wrong.read, wrong.expected, wrong.mend))
    if told is None:
        return None if share is None else Cloth(kind="knit", stretch=share)
    row = cloth_meant(told)
    if row is None:
        names = [each.word for each in cloth_table()]
        expected = "a cloth that `trueseam list cloths` shows"
        problems.append(Problem(f"{_LINE} --cloth", f'"{printable(told)}"', expected, meant(told, names)))
        return None
    try:
        return Cloth(kind=row.word) if share is None else Cloth(kind=row.word, stretch=share)
    except InputProblems as wrong:
        problems.extend(wrong.problems)
        return None


def _kind(told: str | None, problems: list[Problem]) -> GarmentKind | None:
    """The kind of garment that was named; None where none was."""
    try:
        return None if told is None else garment_kind(told)
    except UnknownName:
        expected, mend = ", ".join(GARMENT_KINDS), meant(str(told), GARMENT_KINDS)
        problems.append(Problem(f"{_LINE} --for", f'"{printable(str(told))}"', expected, mend))
        return None
