"""`trueseam draft GARMENT --for PEOPLE`: the same garment for each of them, into a folder each, and one table."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Final

from drafting.checks import Verdict
from drafting.errors import CannotDraft, CannotWrite, InputProblems, Problem
from drafting.reading.files import load_toml
from drafting.reading.units import printable
from output.api.wearers import INDEX, WearerDraft, draft_for, folder_names, read_for_first
from output.command.answer import Answer
from output.command.draft import paper_problems
from output.command.progress import progress
from output.files.write_folder import stage
from output.report.tables import Column, Passage, Row, Said, Table
from output.report.wearers_page import OURS, SideBySide, side_by_side_page, side_by_side_table, verdict_word

__all__ = ["draft_for_people"]

_LINE: Final = "the command line, --for"

_ACROSS: Final = 4
"""People who have room side by side on a terminal."""

_PASSED: Final = (Verdict.PASS, Verdict.WARN)


def draft_for_people(
    path: Path, people: Sequence[str], *, to: Path | None, paper: str | None, unit: str | None, quiet: bool
) -> Answer:
    """Draft a garment file for each of these people.

    people: their files, and folders in which theirs lie
    to:     the folder in which each has one; None for one named after the garment file, in the current folder

    The exit status is 0 where all of it passes, 1 where a check failed or somebody's could not be drafted. Raises
    TrueseamError, with nothing written, where the garment cannot be used, or nobody's could be drafted.
    """
    files = _files(people)
    if paper is not None and (problems := paper_problems(paper)):
        raise InputProblems(problems)
    folder = to if to is not None else Path(path.stem)
    _accept_index(folder / INDEX)
    first = read_for_first(path, files)
    with progress(watched=not quiet) as tell:
        made = draft_for(path, files, to=folder, paper=paper, unit=unit, tell=tell)
    if first is None or all(each.verdict is None for each in made):
        raise CannotDraft((), "\n".join(_wrong(made)))
    shown = _shown(made, folder)
    stage(folder / INDEX, side_by_side_page(first.title, shown).encode())()
    written = Passage("Written", (f"{folder / INDEX}: all of them, with a way to the report of each", *_where(made)))
    data = {"garment": first.title, "folder": str(folder), "index": INDEX, "wearers": [_data(each) for each in made]}
    said = (_verdict(first.title, made), *_tables(shown, unit, everything=True), written)
    brief = ((_verdict(first.title, made, most=12), *_tables(shown, unit, everything=False), written),)
    status = 0 if all(each.verdict in _PASSED for each in made) else 1
    return Answer(status, said, data, brief)


def _files(people: Iterable[str]) -> list[Path]:
    """The files of the people; of a folder, those in it that hold measurements, by name. Raises InputProblems."""
    found: list[Path] = []
    problems = []
    for each in people:
        path = Path(each)
        theirs = (
            [path]
            if not path.is_dir()
            else [file for file in sorted(path.glob("*.toml"), key=_in_numbers) if _is_person(file)]
        )
        if not theirs:
            problems.append(Problem(_LINE, f"{printable(each, most=200)}, a folder without people", "files of people"))
        known = {file.resolve() for file in found}
        for file in theirs:
            if file.resolve() in known:
                read = f"{printable(str(file), most=200)} again"
                problems.append(Problem(_LINE, read, "each person once", "Leave one of them out."))
            else:
                found.append(file)
    if problems:
        raise InputProblems(problems)
    return found


def _in_numbers(path: Path) -> list[tuple[int, str]]:
    """What files are put in order by: "p2" before "p10"."""
    return [(int(part), "") if part.isdigit() else (0, part) for part in re.split(r"(\d+)", path.name.casefold())]


def _is_person(path: Path) -> bool:
    """Whether a file is a person's, or one that cannot be read and so might be."""
    try:
        return "measurements" in load_toml(path)
    except InputProblems:
        return True


def _accept_index(index: Path) -> None:
    """Raise CannotWrite where a page of somebody else's has the name of ours."""
    with suppress(FileNotFoundError, NotADirectoryError):
        try:
            ours = OURS in index.read_text(encoding="utf-8")[:1000]
        except (OSError, UnicodeDecodeError) as error:
            if isinstance(error, FileNotFoundError | NotADirectoryError):
                raise
            ours = False
        if not ours:
            raise CannotWrite(str(index), "a file that trueseam did not write has that name: choose another folder")


def _wrong(made: Sequence[WearerDraft]) -> Iterator[str]:
    for each in made:
        for problem in each.problems:
            yield problem if problem.startswith(each.place) else f"{each.place}: {problem}"


def _shown(made: Sequence[WearerDraft], folder: Path) -> list[SideBySide]:
    """The people as the table names them: two of one name by their folders as well."""
    names = [each.name for each in made]
    shown = []
    for each, unique in zip(made, folder_names([Path(each.place) for each in made]), strict=True):
        name = each.name if names.count(each.name) == 1 else f"{each.name} ({unique})"
        below = str(Path(each.folder).relative_to(folder)) if each.folder else ""
        told = each.problems or each.faults
        shown.append(SideBySide(name, below, each.verdict, told, each.finished, each.unit))
    return shown


def _verdict(title: str, made: Sequence[WearerDraft], most: int | None = None) -> Passage:
    drafted = [each for each in made if each.verdict is not None]
    passed = [each for each in drafted if each.verdict in _PASSED]
    told = [f"Drafted for {len(drafted)} of {len(made)} people; all checks pass for {len(passed)}."]
    wrong = [f"{each.name}: {sentence}" for each in made for sentence in each.problems]
    failed = [each for each in drafted if each not in passed]
    wrong += [
        f"{each.name}: {sentence}" for each in failed for sentence in (each.faults if most is None else each.faults[:1])
    ]
    kept = wrong[:most]
    rest = [f"And {len(wrong) - len(kept)} more: --all tells them."] if len(kept) < len(wrong) else []
    verdict = Verdict.FAIL if len(passed) < len(made) else Verdict.PASS
    return Passage(title, (*told, *kept, *rest), verdict)


def _tables(people: Sequence[SideBySide], unit: str | None, *, everything: bool) -> Iterator[Said]:
    """All in one table where there are few; else a few to a table, or their verdicts alone.

    everything: whether all is told, however long
    """
    if len(people) <= _ACROSS or everything:
        for at in range(0, len(people), _ACROSS):
            yield side_by_side_table(people[at : at + _ACROSS], unit)
        return
    counts: dict[str, list[str]] = {}
    for each in people:
        counts.setdefault(verdict_word(each.verdict), []).append(each.name)
    rows = tuple(Row((word, str(len(names)), _some(names))) for word, names in counts.items())
    columns = (Column("checks"), Column("people", True), Column(""))
    below = f"--all shows the finished measurements of each, {INDEX} as well."
    yield Table("How the checks went", columns, rows, below=(below,))


def _some(names: Sequence[str], most: int = 8) -> str:
    return ", ".join(names[:most]) + (f" and {len(names) - most} more" if len(names) > most else "")


def _where(made: Sequence[WearerDraft]) -> tuple[str, ...]:
    folders = [each.folder for each in made if each.folder]
    return (f"a folder for each: {_some(folders)}",)


def _data(each: WearerDraft) -> dict[str, object]:
    return {
        "name": each.name,
        "file": each.place,
        "folder": each.folder,
        "verdict": None if each.verdict is None else each.verdict.value,
        "problems": list(each.problems),
        "faults": list(each.faults),
        "finished": [
            {"name": one.name, "mm": round(one.finished, 2), "body": None if one.body is None else round(one.body, 2)}
            for one in each.finished
        ],
    }
