"""What `trueseam measure` tells beside the verdict: lengths over time, and what is worth measuring for one garment."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Final

from blocks.garment import Garment
from drafting.body.person import Person
from drafting.body.terms import measurement
from drafting.reading.units import length_text
from output.api.body import Worth, worth_measuring
from output.api.making import draft, read_garment
from output.api.measured_before import LengthOverTime, over_time
from output.report.tables import Column, Passage, Row, Said, Table

__all__ = ["over_time_data", "over_time_tables", "worth_data", "worth_for_garment", "worth_passages"]

_FIRST: Final = 3
"""So many lengths are worth going back to the tape for in one go (ours)."""

_DAYS: Final = 4
"""Days side by side on one screen."""


def over_time_tables(person: Person, *, most: int | None = _DAYS) -> tuple[Table, ...]:
    """What was measured on more than one day, a column to each day; none where nothing was.

    most: the latest days that are shown; None for all
    """
    found = over_time(person)
    if not found:
        return ()
    days = sorted({day for each in found for day, _ in each.days})
    shown = days if most is None else days[-most:]
    grows = person.body != "woman"
    rows = []
    for each in found:
        by_day = dict(each.days)
        lengths = (length_text(by_day[day], person.unit) if day in by_day else "" for day in shown)
        rows.append(Row((each.name, *lengths, *([_per_year(each, person.unit)] if grows else []))))
    columns = [Column(""), *(Column(day.isoformat(), True) for day in shown)]
    columns += [Column("a year", True)] if grows else []
    below = f"{len(days) - len(shown)} earlier days: --all shows them." if len(shown) < len(days) else ""
    title = "Growth: what was measured when" if grows else "What was measured when"
    return (Table(title, tuple(columns), tuple(rows), below=(below,) if below else ()),)


def _per_year(each: LengthOverTime, unit: str) -> str:
    if each.per_year is None:
        return ""
    return f"{'+' if each.per_year > 0 else ''}{length_text(each.per_year, unit)}"


def over_time_data(person: Person) -> list[dict[str, object]]:
    """What was measured on more than one day, for a program, mm."""
    return [
        {
            "measurement": each.key,
            "days": [{"measured": day.isoformat(), "mm": round(mm, 2)} for day, mm in each.days],
            "per_year": None if each.per_year is None else round(each.per_year, 1),
        }
        for each in over_time(person)
    ]


def worth_for_garment(path: Path, person: Person) -> tuple[Garment, tuple[Worth, ...]]:
    """A garment file read for this person, and what is worth measuring for it, the most first.

    Raises TrueseamError for what cannot be read or drafted.
    """
    garment = read_garment(path, wearer=person)
    return garment, worth_measuring(draft(garment))


def worth_passages(garment: Garment, found: Sequence[Worth], unit: str) -> tuple[Said, ...]:
    """The two or three lengths that would change the garment most, in sentences; then what does not matter for it."""
    first = [each for each in found if each.moved_mm > 0.0][:_FIRST]
    rest = [each for each in found if each not in first]
    title = f"Worth measuring for {garment.title}"
    if not first:
        return (Passage(title, ("Nothing: no length that was estimated changes it.",)),)
    told = [_sentence(count, each, unit) for count, each in enumerate(first, start=1)]
    some = [f"{measurement(each.key).name} {_moved(each, unit)}" for each in rest if each.moved_mm > 0.0]
    none = [measurement(each.key).name for each in rest if not each.moved_mm]
    told += [f"Then: {', '.join(some)}."] if some else []
    told += [f"Estimated as well, but it does not change this garment: {', '.join(none)}."] if none else []
    return (Passage(title, tuple(told)),)


def _sentence(count: int, each: Worth, unit: str) -> str:
    about = measurement(each.key)
    return (
        f"{count}. {about.name}: estimated at {length_text(each.mm, unit)}, give or take "
        f"{length_text(each.sd_mm, unit)}. That much changes the {each.where} by {_moved(each, unit)}. "
        f"{about.how} {about.again} ({about.word} in the file)"
    )


def _moved(each: Worth, unit: str) -> str:
    return length_text(each.moved_mm, unit) if unit == "in" else f"{each.moved_mm:.0f} mm"


def worth_data(garment: Garment, found: Sequence[Worth]) -> Mapping[str, object]:
    """Every guessed length that is worth measuring, for a program."""
    return {"garment": garment.title, "worth_measuring": [_rounded(each) for each in found]}


def _rounded(each: Worth) -> dict[str, object]:
    return {name: round(value, 2) if isinstance(value, float) else value for name, value in asdict(each).items()}
