"""What is asked about people: how a child grows, one garment for several people, which size of a bought pattern.

What works these out is imported when it is first asked for, so that it keeps no garment waiting.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any, Final, Protocol

from output.api import Cloth, Draft, TrueseamError, read_garment, read_person
from output.api.beginning import file_named
from output.api.body import worth_measuring
from output.api.order_options import CLOTH, FIT
from output.api.showing import BODY_KINDS, FILE_UNITS, BodyKind
from output.api.wording import NotRead, length_text, parse_percent, sentence_in
from output.page.edits import CannotEdit
from output.page.folder import Folder, NotInFolder
from output.page.request import as_json, text_of
from output.page.texts import read_text, tables_of
from output.page.views.data import Data
from output.page.views.head import state_of_verdict

if TYPE_CHECKING:
    from output.api.wearers import WearerDraft

__all__ = ["people_answers"]

Given = Mapping[str, Any]

_MOST_PEOPLE: Final = 12
_MOST_ROWS: Final = 40
"""People side by side, rows of a chart (our figures)."""


class Drafts(Protocol):
    """Where drafts come from."""

    def drafted(self, name: str) -> Draft:
        """The garment of a file as it stands."""


def people_answers(folder: Folder, drafts: Drafts) -> Mapping[str, Callable[[Given], bytes]]:
    """By address: what answers each with JSON.

    growth {file, until}: chart (SVG), said (passages and tables), until, page (to print, HTML)
    sheet {person, body, unit, garment, every}: a sheet to measure by, `page` as HTML and what it is saved as, `name`
    over {file}: the lengths that were measured on more than one day
    worth {file}: key, said: the guessed length that would change the garment most if it were measured; "" for none
    wearers {file, people}: the garment for each of these people, side by side
    size {person, chart, kind, cloth, stretch, fit}: which size of a bought pattern to take; problems where that cannot
         be told, page to print it; chart: its tables, or the name of one that is built in
    chart {file}: what stands in a chart that is kept; words: the kinds of garments, the cloths and how close they are
    charts {unit}: the charts that are built in, each to look at and to choose a size from (`chart_to_choose`)
    The answers raise CannotEdit and TrueseamError.
    """
    answers: dict[str, Callable[[Given], object]] = {
        "growth": lambda given: _growth(drafts.drafted(text_of(given, "file")), text_of(given, "until")),
        "over": lambda given: {"rows": _over(drafts.drafted(text_of(given, "file")))},
        "sheet": lambda given: _sheet(folder, given),
        "worth": lambda given: _worth(drafts.drafted(text_of(given, "file"))),
        "wearers": lambda given: _wearers(folder, drafts.drafted(text_of(given, "file")), given.get("people")),
        "size": lambda given: _size(folder, given),
        "chart": lambda given: {"chart": _chart(folder, text_of(given, "file"))},
        "words": lambda _given: _words(),
        "charts": lambda given: _charts(text_of(given, "unit")),
    }
    return {name: _as_json(answer) for name, answer in answers.items()}


def _as_json(answer: Callable[[Given], object]) -> Callable[[Given], bytes]:
    return lambda given: as_json(answer(given)).encode()


def _growth(drafted: Draft, until: str) -> Data:
    from output.api.child_growth import growing, growing_page, growing_passages

    grows = growing(drafted.garment.wearer, _day(until) or drafted.garment.grow_until, drafted.pattern)
    said = growing_passages(grows)
    page = growing_page(grows)
    return {"chart": grows.chart(), "said": said, "until": grows.found.until.isoformat(), "page": page}


def _day(told: str) -> date | None:
    try:
        return date.fromisoformat(told) if told else None
    except ValueError:
        raise CannotEdit("That day cannot be read: write it as year, month, day, such as 2027-08-01.") from None


def _sheet(folder: Folder, given: Given) -> Data:
    from output.api.sheets_to_measure import anybody, sheet_to_measure

    unit = next((each for each in FILE_UNITS if each == given.get("unit")), None)
    body: BodyKind = next((each for each in BODY_KINDS if each == given.get("body")), "woman")
    who = read_person(folder.file(given["person"])) if given.get("person") else None
    wearer = who or anybody(body)
    garments = [read_garment(folder.file(given["garment"]), wearer=wearer)] if given.get("garment") else []
    page, _ = sheet_to_measure(who, body, unit=unit, garments=garments, every=given.get("every") is True)
    return {
        "page": page,
        "name": f"measuring-{file_named(who.name or 'her') if who else body}".replace(".toml", "") + ".html",
    }


def _over(drafted: Draft) -> list[Data]:
    """Each length: name, days (day, text), and how much it grows in a year, "" where that cannot be told yet."""
    from output.api.measured_before import over_time

    unit = drafted.unit
    return [
        {
            "name": each.name,
            "days": [{"day": day.isoformat(), "text": length_text(mm, unit)} for day, mm in each.days],
            "per_year": "" if each.per_year is None else length_text(each.per_year, unit),
        }
        for each in over_time(drafted.garment.wearer)
    ]


def _worth(drafted: Draft) -> Data:
    first = next(iter(worth_measuring(drafted)), None)
    if first is None or not first.moved_mm:
        return {"key": "", "said": ""}
    off, moved = (length_text(mm, drafted.unit) for mm in (first.sd_mm, first.moved_mm))
    said = f"Worth measuring next: if it is {off} more, the {first.where} changes by {moved}, the most of all guesses."
    return {"key": first.key, "said": said}


def _wearers(folder: Folder, drafted: Draft, people: object) -> Data:
    """What each of them gets of the garment, side by side.

    people: name, file, state and verdict in words, sentences; rows: name, and a cell for each of them
    """
    if not isinstance(people, list) or not 0 < len(people) <= _MOST_PEOPLE:
        raise CannotEdit(f"Choose somebody, and no more than {_MOST_PEOPLE} people at once.")
    paths = [folder.file(each) for each in people]
    from output.api.wearers import draft_for

    garment = replace(drafted.garment, sizes=None)
    with ThreadPoolExecutor(1) as one_by_one:
        made = draft_for(garment, paths, executor=one_by_one)
    found = [{each.name: each for each in one.finished} for one in made]
    names = dict.fromkeys(name for each in found for name in each)
    rows = [
        {
            "name": name,
            "cells": [
                None if name not in each else length_text(each[name].finished, one.unit)
                for each, one in zip(found, made, strict=True)
            ],
        }
        for name in names
    ]
    return {"people": [_person(folder, file, one) for file, one in zip(people, made, strict=True)], "rows": rows}


def _person(folder: Folder, file: str, one: WearerDraft) -> Data:
    verdict = one.verdict
    return {
        "file": file,
        "name": one.name,
        "state": "failed" if verdict is None else state_of_verdict(verdict),
        "sentences": [sentence_in(one.unit, _here(folder, each)) for each in (*one.problems, *one.faults)],
    }


def _here(folder: Folder, sentence: str) -> str:
    """The sentence with files named as the folder names them."""
    return sentence.replace(f"{folder.path}/", "")


def _chart(folder: Folder, name: str) -> Data:
    try:
        tables = tables_of(read_text(folder.file(name)))
    except (NotInFolder, OSError, ValueError):
        tables = None
    if tables is None:
        raise CannotEdit("That chart cannot be read as it stands.")
    plain: Data = json.loads(json.dumps(tables, default=str))
    return plain


def _charts(asked: str) -> Data:
    from output.api.size_lines import CHARTS, chart_to_choose

    unit = next((each for each in FILE_UNITS if each == asked), "cm")
    return {"charts": [chart_to_choose(name, unit) for name in CHARTS]}


def _words() -> Data:
    from output.api.sizing import CHARTS, garment_kinds

    return {"kinds": garment_kinds(), "cloths": CLOTH[0].choices, "fits": FIT.choices, "built_in": CHARTS}


def _cloth_used(given: Given) -> Cloth | None:
    """The cloth that was chosen, stretching as far as was typed; None where nothing is said of it."""
    kind, stretch = text_of(given, "cloth"), text_of(given, "stretch").strip()
    if not kind and not stretch:
        return None
    try:
        return Cloth(kind=kind or "knit", stretch=parse_percent(stretch)) if stretch else Cloth(kind=kind)
    except NotRead:
        raise CannotEdit("How far the knit stretches is written as a share, such as 40 %.") from None


def _size(folder: Folder, given: Given) -> Data:
    """What `size_data` tells, and `problems`: where in the chart, and what is wrong there."""
    from output.api.sizing import CHARTS, size_choice, size_data, size_page

    chart = given.get("chart")
    if chart not in CHARTS:
        rows = [each for each in chart.values() if isinstance(each, Mapping)] if isinstance(chart, Mapping) else []
        if not isinstance(chart, Mapping) or not rows or sum(map(len, rows)) > _MOST_ROWS:
            raise CannotEdit("A chart is needed: sizes, and rows of numbers under them.")
    try:
        who = read_person(folder.file(given.get("person")))
        used = _cloth_used(given)
        fit: Any = text_of(given, "fit") or None
        choice = size_choice(chart, who, kind=text_of(given, "kind"), cloth=used, fit=fit)
    except NotInFolder:
        raise CannotEdit("Say whom it is for: somebody whose lengths are written down here.") from None
    except TrueseamError as refused:
        return {"problems": [_here(folder, each) for each in dict.fromkeys(refused.sentences())]}
    return size_data(choice) | {"problems": [], "page": size_page(choice)}
