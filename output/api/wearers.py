"""The same garment for several people: each drafted by itself, on as many processor cores as there are."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor, as_completed
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Final

from blocks.garment import Garment
from drafting.body.person import Person, read_person
from drafting.checks import Verdict, worst
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, Problem, TrueseamError
from drafting.pattern import Finished, finished
from drafting.reading.given import path_problem, type_problem
from drafting.reading.read_table import refuse
from drafting.reading.units import printable, sentence_in, shown
from output.api.asking import check
from output.api.garment_files import Tell, garment_files, last_drafted, on_paper
from output.api.making import Draft, accept, draft, read_garment
from output.files.write_folder import write_all
from output.report.tables import fault_lines

__all__ = ["INDEX", "WearerDraft", "draft_for", "folder_names", "read_for_first"]

INDEX: Final = "index.html"
"""The page of all the people, beside their folders."""

_FEWEST: Final = 3
"""People for whom it is worth starting other processes: each takes as long to start as a draft to make."""


@dataclass(frozen=True, slots=True)
class WearerDraft:
    """What came of a garment for one of several people.

    name:     the person's; her file's where that could not be read
    place:    her file; "" for a person who stands in none
    folder:   where the files are; "" where none were written
    verdict:  of the checks; None where it could not be drafted
    faults:   what the checks found wrong, in sentences
    problems: why it could not be drafted, in sentences; then all else is empty
    finished: the finished measurements beside the body's, mm
    unit:     what she works in
    """

    name: str
    place: str
    folder: str = ""
    verdict: Verdict | None = None
    faults: tuple[str, ...] = ()
    problems: tuple[str, ...] = ()
    finished: tuple[Finished, ...] = ()
    unit: str = "cm"


@dataclass(frozen=True, slots=True)
class _Order:
    """One draft to be made, in any process: a garment or its file, a person or her file, and where to write."""

    garment: Garment | Path
    person: Person | Path
    folder: Path | None
    paper: str | None
    unit: str | None


def draft_for(
    garment: Garment | str | Path,
    people: Sequence[Person | str | Path],
    *,
    to: str | Path | None = None,
    paper: str | None = None,
    unit: str | None = None,
    executor: Executor | None = None,
    tell: Tell | None = None,
) -> tuple[WearerDraft, ...]:
    """The garment drafted and checked for each of these people, in their order; what fails for one stops no other.

    garment:  a garment, whose wearer does not count, or its file
    people:   people, or their files
    to:       a folder; the files for each person are written into one of its own below it, whole or not at all. None
              for nothing written
    paper, unit: the paper and the unit to use in place of the garment's and of each person's
    executor: makes the drafts: any of `concurrent.futures`, or of a cluster, whose machines must then see the same
              files. None for as many processes here as there are processor cores; a script that is not run by
              Linux then calls this below `if __name__ == "__main__":`, as for any `ProcessPoolExecutor`
    tell:     is called after each draft with whose it was, and how much is done from 0 to 1

    Raises InputProblems for a garment file that cannot be used for anybody, and for what is no garment or person.
    """
    orders = _orders(garment, people, to, paper, unit)
    accept("draft_for, executor", executor, (Executor, type(None)), "an executor of concurrent.futures")
    if tell is not None and not callable(tell):
        raise InputProblems([Problem("draft_for, tell", shown(tell), "a function of two values")])
    if isinstance(orders[0].garment, Path):
        read_for_first(orders[0].garment, [each.person for each in orders])
    if executor is None and len(orders) < _FEWEST:
        made = []
        for count, order in enumerate(orders, start=1):
            made.append(_draft_or_problems(order))
            if tell:
                tell(made[-1].name, count / len(orders))
        return tuple(made)
    with _executor(executor, len(orders)) as pool:
        return _drafts_in_order(pool, orders, tell)


def read_for_first(garment: Path, people: Sequence[Person | Path]) -> Garment | None:
    """The garment file read for the first of these people who can be read; None where none can.

    Raises InputProblems for what is wrong with the file.
    """
    for each in people:
        try:
            wearer = each if isinstance(each, Person) else read_person(each)
        except InputProblems:
            continue
        return read_garment(garment, wearer=wearer)
    return None


def folder_names(people: Sequence[Person | Path]) -> tuple[str, ...]:
    """The name of a folder for each person, after her file or her name; no two alike, in capitals or not.

    None is called as the page beside them.
    """
    names: list[str] = []
    for each in people:
        stem = each.stem if isinstance(each, Path) else Path(each.place).stem or each.name
        stem = printable(stem.replace("/", "-").replace("\\", "-"), most=100).strip(". ") or "person"
        name, count = stem, 1
        while name.casefold() in {INDEX, *map(str.casefold, names)}:
            count += 1
            name = f"{stem}-{count}"
        names.append(name)
    return tuple(names)


def _orders(garment: object, people: object, to: object, paper: str | None, unit: str | None) -> tuple[_Order, ...]:
    """What is to be drafted. Raises InputProblems for what is none of what `draft_for` takes."""
    expected = "a list of people or of their files"
    if isinstance(people, str | bytes) or not isinstance(people, Sequence):
        raise InputProblems([*filter(None, [type_problem("draft_for, people", people, tuple, expected)])])
    if not people:
        mend = 'Put in whom it is for: [person(...)] or ["oda.toml"].'
        raise InputProblems([Problem("draft_for, people", "an empty list", "somebody to draft for", mend)])
    whom = [each if isinstance(each, Person) else _path("draft_for, people", each, expected) for each in people]
    what = garment if isinstance(garment, Garment) else _path("draft_for, garment", garment, "a garment or its file")
    root = None if to is None else _path("draft_for, to", to, "the path of a folder")
    folders = [None if root is None else root / name for name in folder_names(whom)]
    problems = [
        type_problem("draft_for, paper", paper, (str, type(None)), 'a paper: "A4"'),
        type_problem("draft_for, unit", unit, (str, type(None)), "cm, in or mm"),
    ]
    refuse([*filter(None, problems)])
    return tuple(_Order(what, each, folder, paper, unit) for each, folder in zip(whom, folders, strict=True))


def _path(where: str, value: object, expected: str) -> Path:
    problem = path_problem(where, value, expected)
    refuse([problem] if problem else [])
    return Path(str(value))


@contextmanager
def _executor(executor: Executor | None, count: int) -> Iterator[Executor]:
    """The executor that was given, or one of our own, which is shut down afterwards."""
    if executor is not None:
        yield executor
        return
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    pool = ProcessPoolExecutor(min(cores, count), initializer=_leave_stopping_to_parent)
    try:
        yield pool
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _leave_stopping_to_parent() -> None:
    """Ctrl-C reaches every process at once: those that draft finish the folder they are at."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _drafts_in_order(pool: Executor, orders: Sequence[_Order], tell: Tell | None) -> tuple[WearerDraft, ...]:
    """The drafts of all orders, in their order. Where it is stopped, those that have not begun are cancelled."""
    futures = [pool.submit(_draft_or_problems, order) for order in orders]
    try:
        if tell:
            names = dict(zip(futures, orders, strict=True))
            for count, done in enumerate(as_completed(futures), start=1):
                tell(_name_of(names[done]), count / len(orders))
        return tuple(_result(future, order) for future, order in zip(futures, orders, strict=True))
    except BaseException:
        for future in futures:
            future.cancel()
        raise


def _result(future: Future[WearerDraft], order: _Order) -> WearerDraft:
    try:
        return future.result()
    except BrokenExecutor:
        told = "The process that drafted it ended before its time, perhaps for want of memory: draft it by itself."
        return _not_drafted(order, [told])


def _draft_or_problems(order: _Order) -> WearerDraft:
    """The draft of one order, or, where it cannot be made, the sentences that say why. Never raises."""
    try:
        return _draft_one(order)
    except TrueseamError as refused:
        unit = _unit(order)
        return _not_drafted(order, [sentence_in(unit, each) if unit else each for each in refused.sentences()])
    except Exception as error:  # one person's fault, even if it is ours, stops nobody else's garment
        return _not_drafted(
            order, [f"This is a fault of trueseam ({type(error).__name__}: {error}): draft it by itself."]
        )


def _unit(order: _Order) -> str | None:
    """The unit in which whoever it is for is told lengths; None where that cannot be read."""
    try:
        return order.unit or (order.person if isinstance(order.person, Person) else read_person(order.person)).unit
    except TrueseamError:
        return None


def _draft_one(order: _Order) -> WearerDraft:
    """The garment drafted for one wearer and checked; its files are written where a folder is asked for."""
    wearer = order.person if isinstance(order.person, Person) else read_person(order.person)
    if isinstance(order.garment, Path):
        garment = read_garment(order.garment, wearer=wearer)
    else:
        garment = replace(order.garment, wearer=wearer)
    if order.unit is not None:
        garment = replace(garment, wearer=replace(garment.wearer, unit=order.unit))
    if order.paper is not None:
        garment = replace(garment, paper=on_paper(garment.paper, order.paper))
    drafted = draft(garment)
    results = check(drafted).rows
    if order.folder is not None:
        before = last_drafted(order.folder)
        write_all(order.folder, dict(garment_files(drafted, results, before=before)))
    return _wearer_draft(order, drafted, worst(results), fault_lines(results, drafted.unit))


def _wearer_draft(order: _Order, drafted: Draft, verdict: Verdict, faults: Sequence[str]) -> WearerDraft:
    wearer = drafted.garment.wearer
    return WearerDraft(
        name=wearer.name or _name_of(order),
        place=wearer.place,
        folder=str(order.folder or ""),
        verdict=verdict,
        faults=tuple(faults),
        finished=finished(drafted.pattern),
        unit=drafted.unit,
    )


def _not_drafted(order: _Order, problems: Sequence[str]) -> WearerDraft:
    place = order.person.place if isinstance(order.person, Person) else printable(str(order.person), most=197)
    return WearerDraft(_name_of(order), place, problems=tuple(problems))


def _name_of(order: _Order) -> str:
    return order.person.name if isinstance(order.person, Person) else printable(order.person.stem, most=100)
