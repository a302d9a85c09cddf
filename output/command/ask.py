"""`trueseam measure --ask`: one measurement after another, told how, drawn, judged and written as it is typed."""

from __future__ import annotations

import datetime
import shutil
import sys
from collections.abc import Set
from contextlib import suppress
from pathlib import Path
from textwrap import wrap
from typing import Final, Literal

from drafting.body.complete import complete
from drafting.body.person import person
from drafting.body.terms import BASICS, BodyKind, measurement_for
from drafting.errors import InputProblems, Problem, TrueseamError
from drafting.reading.units import NotRead, printable
from drafting.reading.values import parse_date
from output.api.beginning import length_as_written, one_line
from output.api.making import read_garment
from output.api.measuring import looks_wrong, measuring_order
from output.api.sheets_to_measure import example_body
from output.command.answer import Answer
from output.command.measuring_file import MeasuringFile, open_to_measure
from output.command.new import ask_choice, at_a_terminal, body_meant, name_of, unit_meant
from output.figure.figure_text import figure_text
from output.figure.silhouette import Silhouette, silhouette
from output.files.write_folder import write_new
from output.report.tables import Passage

__all__ = ["ask_measurements"]

Move = Literal["on", "back", "again", "stop"]

_STOP: Final = ("stop", "quit", "exit", "end")
_BACK: Final = ("back", "b")
_SKIP: Final = ("skip", "s", "-")
_KEEP: Final = ("keep", "k", "y", "yes", "")
_WORDS: Final = (
    "Type the length, with a fraction or another unit as you like: 92.5, 36 1/2, 30 in. "
    "back: one back. skip, or Enter: leave it as it is. stop (or Ctrl-C): go on another time. "
    "Each length is in the file as soon as you have typed it. "
    "`trueseam measure --sheet FILE.html` has larger drawings, to print."
)


class _Stopped(Exception):
    """She wants to go on another time. by_key: with Ctrl-C"""

    def __init__(self, *, by_key: bool = False) -> None:
        self.by_key = by_key
        super().__init__()


def ask_measurements(
    path: Path, *, garment: Path | None, every: bool, quiet: bool, today: datetime.date | None = None
) -> Answer:
    """Ask for one measurement after another, and write each into the person's file.

    garment: the file of a garment, to be asked for what that is drawn from alone; every: ask for all there are
    quiet:   whether nobody is to be asked; today: the day, where it is not today's

    Raises InputProblems where there is nobody to ask, and for a file that cannot be read.
    """
    if quiet or not at_a_terminal():
        mend = f"Run it in a terminal, or write {path} with a text editor; `trueseam measure --sheet FILE.html` prints."
        expected = "somebody at a terminal, without --json"
        raise InputProblems([Problem("the command line, measure --ask", "nobody to ask", expected, mend)])
    day = today or datetime.date.today()
    wrote: set[str] = set()
    begun = not path.exists()
    try:
        if begun:
            _begin(path)
        file = open_to_measure(path, day)
        keys = _keys(file, garment, every=every)
        _tell(f"{file.name}: {len(keys)} measurements. {_WORDS}")
        if file.old_day is not None:
            old = file.old_day.isoformat()
            _tell(f"What is replaced stays in the file, below {old}. What you leave as it is counts for today.")
        _all(file, keys, wrote)
    except (_Stopped, KeyboardInterrupt) as stopped:
        by_key = isinstance(stopped, KeyboardInterrupt) or stopped.by_key
        return _stopped(path, _kept(path, day, wrote, begun=begun), by_key=by_key)
    then = f"trueseam measure {path}"
    told = (f"{path}: {len(wrote)} measurements taken.", f"Then: {then}")
    return Answer(0, (Passage("Measured", told),), {"file": str(path), "taken": len(wrote), "then": then})


def _kept(path: Path, day: datetime.date, wrote: Set[str], *, begun: bool) -> str:
    """Whether what she typed is in the file. wrote: the keys of the lengths put into it; begun: whether it is new"""
    if not path.exists() or not (wrote or begun):
        return "Nothing was written." if path.exists() else "Nothing was written yet."
    with suppress(InputProblems):
        if wrote <= open_to_measure(path, day).taken.keys():
            return f"What you typed is in {path}."
    return f"Something else changed {path} since: look whether what you typed is still in it."


def _stopped(path: Path, kept: str, *, by_key: bool) -> Answer:
    then = f"trueseam measure {path} --ask"
    return Answer(130 if by_key else 0, (Passage("Stopped", (kept, f"To go on: {then}")),), {"then": then})


def _begin(path: Path) -> None:
    """A new file of a person, with what has to be known first."""
    _tell(f"{path} is not there yet: it is begun now.")
    name = one_line(_asked("Whose measurements are they? (a name) ")) or name_of(path)
    unit = ask_choice(_asked, "What do you measure in: cm, inches or mm?", unit_meant, "cm")
    body: BodyKind = ask_choice(_asked, "Whose body is it: a woman's, a girl's or a boy's?", body_meant, "woman")
    lines = [f'name = "{name}"', f'body = "{body}"', f'unit = "{unit}"']
    if body != "woman" and (born := _born()):
        lines.append(f"born = {born.isoformat()}")
    write_new(path, "\n".join([*lines, "", "[measurements]", ""]).encode())


def _born() -> datetime.date | None:
    while told := _asked("Born on which day, such as 2019-05-04? (Enter to leave it out) "):
        try:
            return parse_date(told)
        except NotRead as wrong:
            _tell(f"{wrong.read} is no day. {wrong.expected}")
    return None


def _keys(file: MeasuringFile, garment: Path | None, *, every: bool) -> tuple[str, ...]:
    if garment is None:
        return measuring_order(file.body, every=every)
    return measuring_order(file.body, [read_garment(garment, wearer=file.person)], every=every)


def _all(file: MeasuringFile, keys: tuple[str, ...], wrote: set[str]) -> None:
    """Ask for all of them, beginning with the first that is missing. wrote: gets the key of each that is written"""
    first = next((place for place, key in enumerate(keys) if key not in file.taken), 0)
    place = 0 if file.old_day is not None else first
    while place < len(keys):
        file, move = _one(file, keys[place], place, len(keys), wrote)
        place = max(0, place - 1) if move == "back" else place + (move == "on")


def _one(file: MeasuringFile, key: str, place: int, count: int, wrote: set[str]) -> tuple[MeasuringFile, Move]:
    """Ask for one measurement until there is an answer to it; the file after that, and where to go on."""
    about = measurement_for(key, file.body)
    there = file.written(key)
    _draw(file, key, [
        f"{place + 1} of {count}: {about.name}", "", about.how, about.again, "",
        *([f"In the file: {there}"] if there is not None else []),
    ])  # fmt: skip
    unit = "inches" if file.unit == "in" else file.unit
    keeps = "Enter keeps it" if there is not None else "Enter skips it"
    while True:
        told = _asked(f"{about.name}, in {unit}? ({keeps}) ")
        word = told.casefold()
        if word in _STOP:
            raise _Stopped
        if word in _BACK:
            return file, "back"
        if not told or word in _SKIP:
            return file, "on"
        literal, wrong = length_as_written(told, key, file.unit, file.body)
        if wrong:
            _tell(wrong)
            continue
        file, move = _judged(file, key, literal, wrote)
        if move != "again":
            return file, move


def _judged(file: MeasuringFile, key: str, literal: str, wrote: set[str]) -> tuple[MeasuringFile, Move]:
    """Write a length into the file, and say what looks wrong about it: "again" where she takes it again."""
    before = file.before.get(key, ())
    if file.old_day is not None and key in file.taken and key not in file.changed:
        before = (*before, (file.old_day, file.taken[key]))
    try:
        file = file.write(key, literal)
    except TrueseamError as refused:
        _tell(f"! {' '.join(refused.sentences())} Type it again once that is mended, or stop.")
        return file, "again"
    wrote.add(key)
    wrong = looks_wrong(key, file.taken, file.body, file.unit, before, file.today)
    if not wrong:
        return file, "on"
    for sentence in wrong:
        _tell(f"! {sentence}")
    while True:
        word = _asked("Take it again, or keep it? (Enter keeps it) ").casefold()
        if word in _STOP:
            raise _Stopped
        if word in _KEEP:
            return file, "on"
        if word in ("again", "a", "n", "no", *_BACK):
            return file, "again"
        literal, unread = length_as_written(word, key, file.unit, file.body)
        if not unread:
            return _judged(file, key, literal, wrote)
        _tell(unread)


def _asked(question: str) -> str:
    """What is typed. Raises _Stopped at the end of input and for Ctrl-C."""
    try:
        return input(question).strip()
    except EOFError:
        print()
        raise _Stopped from None
    except KeyboardInterrupt:
        print()
        raise _Stopped(by_key=True) from None


def _tell(sentence: str) -> None:
    print("\n".join(wrap(printable(sentence, most=2000), max(40, shutil.get_terminal_size().columns - 1))))


def _draw(file: MeasuringFile, key: str, beside: list[str]) -> None:
    """Print the drawing of a measurement, and beside it how it is taken."""
    braille = "utf" in (sys.stdout.encoding or "").casefold()
    drawing = figure_text(key, _body(file), braille=braille)
    wide = max(map(len, drawing)) + 3
    room = max(24, shutil.get_terminal_size().columns - wide - 1)
    words = ["", *(line for sentence in beside for line in (wrap(sentence, room, break_on_hyphens=False) or [""]))]
    rows = max(len(drawing), len(words))
    drawn, told = [*drawing, *[""] * (rows - len(drawing))], [*words, *[""] * (rows - len(words))]
    print()
    print("\n".join(f"{left:<{wide}}{right}".rstrip() for left, right in zip(drawn, told, strict=True)))


def _body(file: MeasuringFile) -> Silhouette:
    """Her own body once the four basics are there; one of middle size before."""
    if set(BASICS) <= file.taken.keys():
        try:
            own = complete(person(file.taken, body=file.body))
            return silhouette({each.key: each.mm for each in own.known()}, file.body)
        except TrueseamError:
            pass
    return silhouette(example_body(file.body), file.body)
