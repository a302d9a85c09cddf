"""What each step of a pattern did: the pieces before under the pieces after, and the lengths that moved, as tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Final

from drafting.alterations import ALTERATIONS, AlterationTable
from drafting.alterations.swapped_steps import Swapped
from drafting.dataclass import dataclass
from drafting.pattern import Pattern, Piece, Step
from drafting.pattern.compare import SHOWS, Kind, Moved, moved, strayed
from drafting.reading.units import MM_PER_INCH, cm, inches, length_text
from output.report.tables import Column, Passage, Row, Table, step_sentence

__all__ = ["BeforeAfter", "before_after", "moved_table", "moved_words", "order_passage", "redrawn", "steps_data"]

_KINDS: Final[dict[Kind, str]] = {
    "finished": "finished measurement",
    "seam": "seam",
    "ease": "eased or gathered in",
    "dart": "dart, at its mouth",
    "edge": "edge",
}
_MOST_SHOWN: Final = 3
_NOTHING_MOVED: Final = (
    "No seam, no dart and no finished measurement changed. What is added for seams and hems stands beneath each piece "
    "above."
)

_PARTS: Final = 16  # of an inch, as fine as lengths are shown here


@dataclass(frozen=True, slots=True)
class BeforeAfter:
    """One step: what was done in words, each piece that it redrew as it was and as it is, and what moved.

    pieces: pairs of one name; None where the piece was not there before, or is not there after
    """

    title: str
    pieces: tuple[tuple[Piece | None, Piece | None], ...]
    table: Table


def before_after(stages: Sequence[Pattern], unit: str) -> tuple[BeforeAfter, ...]:
    """Each step with what it changed.

    stages: the pattern as it was drafted, and after each of its steps
    unit:   what lengths are shown in; what they moved by is the difference of what is shown
    """
    steps_shown = []
    for count, (before, after) in enumerate(pairwise(stages), start=1):
        step = after.history[-1]
        title = f"{count}. {step_sentence(step, unit)}"
        steps_shown.append(
            BeforeAfter(
                title, tuple(redrawn(before, after)), moved_table(moved(before, after), unit, below=_left_alone(step))
            )
        )
    return tuple(steps_shown)


def order_passage(swaps: Iterable[Swapped], history: Sequence[Step], unit: str) -> Passage:
    """Which neighbouring steps would give another pattern the other way round, a sentence to every two of them."""
    sentences = tuple(_swap_sentence(swap, history, unit) for swap in swaps)
    alone = "There are no two steps that could change places."
    return Passage("The steps in another order", sentences or (alone,))


def steps_data(stages: Sequence[Pattern]) -> list[dict[str, object]]:
    """Each step with what it moved, mm, as data for a program."""
    return [
        {
            "alter": after.history[-1].alter,
            "redrawn": [piece.name for pair in redrawn(before, after) if (piece := pair[1] or pair[0])],
            "moved": [_data(each) for each in moved(before, after)],
        }
        for before, after in pairwise(stages)
    ]


def _data(each: Moved) -> dict[str, object]:
    before, after = (None if mm is None else round(mm, 4) for mm in (each.before, each.after))
    return {"kind": each.kind, "name": each.name, "where": each.where, "before": before, "after": after}


def redrawn(before: Pattern, after: Pattern) -> Iterator[tuple[Piece | None, Piece | None]]:
    """Each piece that is not as it was, before and after; None where it was not there, or is there no longer."""
    was, now = ({piece.name: piece for piece in pattern.pieces} for pattern in (before, after))
    for name in dict.fromkeys((*now, *was)):
        one, other = was.get(name), now.get(name)
        if one is None or other is None or strayed(one, other) >= SHOWS:
            yield one, other


def moved_table(changes: Sequence[Moved], unit: str, *, below: Iterable[str] = ()) -> Table:
    """Every length that moved, before and after; `below` is said under it."""
    columns = (Column(""), Column("before", True), Column("after", True), Column("moved", True))
    rows = tuple(
        Row((_label(each), _length(each.before, unit), _length(each.after, unit), _by(each, unit))) for each in changes
    )
    above = "" if rows else _NOTHING_MOVED
    return Table("What moved", columns, rows, above=above, below=tuple(below))


def moved_words(each: Moved, unit: str) -> str:
    """What a length was and is: "sleeve length 58.00 cm to 61.00 cm"."""
    return f"{each.name} {_length(each.before, unit)} to {_length(each.after, unit)}"


def _left_alone(step: Step, table: AlterationTable = ALTERATIONS) -> Iterator[str]:
    if step.alter in table.names:
        yield f"Left alone, and measured to be so: {table.named(step.alter).leaves}."


def _label(each: Moved) -> str:
    return f"{each.name}\n{_KINDS[each.kind]}" + (f", {each.where}" if each.where else "")


def _length(mm: float | None, unit: str) -> str:
    if mm is None:
        return "none"
    if unit == "in":
        return inches(mm, parts=_PARTS)
    return cm(mm, places=2) if unit == "cm" else length_text(mm, unit)


def _by(each: Moved, unit: str) -> str:
    if each.before is None or each.after is None:
        return "new" if each.before is None else "gone"
    if unit == "in":
        before, after = (round(mm * _PARTS / MM_PER_INCH) for mm in (each.before, each.after))
        by = inches((after - before) * MM_PER_INCH / _PARTS, parts=_PARTS)
        return f"under 1/{_PARTS} in" if after == before else by if after < before else f"+{by}"
    return f"{round(each.after, 1) - round(each.before, 1):+.1f} mm"


def _swap_sentence(swap: Swapped, history: Sequence[Step], unit: str) -> str:
    """In words: what two neighbouring steps would give the other way round."""
    one, other = history[swap.first - 1 : swap.first + 1]
    which = f"Steps {swap.first} and {swap.first + 1} ({one.alter}, {other.alter})"
    if swap.refused:
        return f"{which} cannot be taken the other way round. {swap.refused}"
    if not swap.matters:
        return f"{which} give the same pattern in either order."
    if not swap.moved:
        return (
            f"{which} give another pattern the other way round: every length is the same, but "
            f"{', '.join(swap.redrawn)} would be drawn otherwise."
        )
    largest = sorted(swap.moved, key=lambda each: -abs(each.by))
    differences = "; ".join(_difference(each, unit) for each in largest[:_MOST_SHOWN])
    more = len(largest) - _MOST_SHOWN
    rest = f"; and {more} more" if more > 0 else ""
    return f"{which} give another pattern the other way round: {differences}{rest}."


def _difference(each: Moved, unit: str) -> str:
    what = f"{each.name} ({_KINDS[each.kind]}{', ' + each.where if each.where else ''})"
    if each.before is None or each.after is None:
        return f"{what} would {'not be there' if each.after is None else 'be there as well'}"
    return f"{what} would be {_length(each.after, unit)} instead of {_length(each.before, unit)}"
