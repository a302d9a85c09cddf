"""What is made of a garment's files: its tables, order, draft and checks; of a new state only what is new."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from output.api import Draft, Garment, TrueseamError, check
from output.api.asking import Checks
from output.api.nearest_value import can_be_drafted, nearest_tried, with_value
from output.api.several_sizes import draft_shown
from output.api.showing import CannotDraft, InputProblems, Problem, Setting, load_toml, read_tables
from output.page.edits import Tables, edited, read_edits
from output.page.files import Files
from output.page.folder import Folder
from output.page.refusals import problems_of
from output.page.views.data import Data

__all__ = ["Made", "NotMade", "garment_of", "make"]


@dataclass(frozen=True, slots=True)
class Made:
    """All that was made of two files.

    tables, person: what stands in them, with the edits that were tried
    checks:         what was found on the draft; where it is not checked yet, on an earlier one
    """

    tables: Tables
    person: Tables
    garment: Garment
    draft: Draft
    checks: Checks
    is_checked: bool = True


class NotMade(Exception):
    """Nothing can be made of two files. problems: why, as the page shows it

    without_step: the tables of the garment without the step that was refused; None where it was not a step
    """

    def __init__(self, problems: tuple[Data, ...], without_step: Tables | None = None) -> None:
        self.problems = problems
        self.without_step = without_step
        super().__init__(problems, without_step)


def garment_of(folder: Folder, name: str) -> Garment:
    """The garment that a file of the folder orders, as it stands. Raises TrueseamError."""
    return _ordered(folder, Files(name, "", {}), None, None)


def make(
    folder: Folder,
    files: Files,
    tables: Tables | None,
    person: Tables | None,
    after: Made | None,
    *,
    unchecked: bool = False,
) -> Made:
    """What comes of the tables of both files.

    tables, person: what stands in them; None for a file that cannot be read, which is then said

    after: what was made of an earlier state of the same garment; what has not changed since is taken from it
    unchecked: whether to leave the checks for later, where there are those of an earlier state
    Raises NotMade.
    """
    garment = None
    try:
        garment = _ordered(folder, files, tables, person)
        if after is None:
            drafted = draft_shown(garment)
            return Made(tables or {}, person or {}, garment, drafted, check(drafted))
        is_same = after.garment == garment
        drafted = after.draft if is_same else draft_shown(garment, after=(after.garment, after.draft))
        is_checked = is_same and after.is_checked
        checks = after.checks if is_checked or unchecked else check(drafted, after=after.checks)
        return Made(tables or {}, person or {}, garment, drafted, checks, is_checked or not unchecked)
    except TrueseamError as refused:
        if isinstance(refused, InputProblems):
            refused = _with_nearest(folder, files, refused, tables or {}, person)
        problems = problems_of(refused, files.person, garment, tables or {}, person or {})
        if isinstance(refused, CannotDraft):
            problems = tuple(_with_what_helps(folder, files, each, tables or {}, person or {}) for each in problems)
        raise NotMade(problems, _without(tables or {}, problems)) from refused


def _with_nearest(
    folder: Folder, files: Files, wrong: InputProblems, tables: Tables, person: Tables | None
) -> InputProblems:
    """What is wrong, with the nearest that can be had for a number in the garment's file that is beyond its range."""
    if not wrong.problems[0].where.startswith(f"{files.garment}, "):
        return wrong

    def drafts(problem: Problem, setting: Setting) -> bool:
        return can_be_drafted(lambda: _ordered(folder, files, with_value(tables, problem, setting), person))

    return nearest_tried(wrong, drafts, str(tables.get("unit") or (person or {}).get("unit") or "cm"))


def _with_what_helps(folder: Folder, files: Files, problem: Data, tables: Tables, person: Tables) -> Data:
    """The problem with those of its offers after which the garment can be drafted."""

    def helps(offer: Data) -> bool:
        edits = read_edits(offer["edits"])
        new = [edited(was, [each for each in edits if each.where == where]) for where, was in _both(tables, person)]
        try:
            draft_shown(_ordered(folder, files, *new))
        except TrueseamError:
            return False
        return True

    return problem | {"offers": [offer for offer in problem["offers"] if helps(offer)]}


def _both(tables: Tables, person: Tables) -> tuple[tuple[str, Tables], ...]:
    return ("garment", tables), ("person", person)


def _ordered(folder: Folder, files: Files, tables: Tables | None, person: Tables | None) -> Garment:
    """The garment that the tables order. Sentences name files as the folder does."""
    given = {files.garment: tables} | ({files.person: person} if files.person else {})

    def load(path: Path) -> Tables:
        """The tables of a file, from the page or from the folder; InputProblems for one that lies elsewhere."""
        name = Path(os.path.normpath(path)).as_posix()
        if (stands := given.get(name)) is not None:
            return stands
        if not folder.holds(folder.path / path):
            expected, mend = "a file in this folder", "Open the folder that holds both, or copy this file into it."
            raise InputProblems([Problem(str(path), "a file that lies elsewhere", expected, mend)])
        try:
            return load_toml(folder.path / path)
        except InputProblems as wrong:
            begins = f"{folder.path}/"
            raise InputProblems(
                [replace(each, where=each.where.removeprefix(begins)) for each in wrong.problems]
            ) from None

    return read_tables(Path(files.garment), load)


def _without(tables: Tables, problems: Sequence[Data]) -> Tables | None:
    """The tables with the step switched off that was refused; None where it was not a step."""
    at = problems[0]["at"] if len(problems) == 1 else None
    if not at or at[0] != "step" or len(at) != len(("step", 0)):
        return None
    steps = [step | {"in_use": False} if place == at[1] else step for place, step in enumerate(tables["step"])]
    return tables | {"step": steps}
