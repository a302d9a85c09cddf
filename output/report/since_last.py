"""What changed since the last draft in the same folder: every finished measurement, seam and piece that moved."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.pattern import Pattern
from drafting.pattern.compare import moved
from output.report.before_after import moved_table, redrawn
from output.report.tables import Passage, Table

__all__ = ["since_last", "since_last_briefly"]

_TITLE: Final = "Since the last draft here"
_MOST: Final = 3


def since_last(before: Pattern | None, after: Pattern, unit: str) -> Table | None:
    """All that moved, as a table; None where nothing did, or the last draft there was of another garment."""
    if before is None or before.title != after.title:
        return None
    changes, pieces = moved(before, after), _moved_pieces(before, after)
    if not changes and not pieces:
        return None
    names = f"Pieces that changed: {', '.join(pieces)}." if pieces else "No piece changed its shape."
    return replace(moved_table(changes, unit), title=_TITLE, above=names)


def since_last_briefly(table: Table | None) -> tuple[Passage, ...]:
    """What moved since the last draft, in a sentence or two for a terminal; nothing where nothing did."""
    if table is None:
        return ()
    told = [f"{row.cells[0].partition(chr(10))[0]} {row.cells[1]} to {row.cells[2]}" for row in table.rows[:_MOST]]
    more = len(table.rows) - len(told)
    rest = f", and {more} more in the report" if more > 0 else ""
    sentences = (f"{'; '.join(told)}{rest}.",) if told else ()
    return (Passage(_TITLE, (*sentences, table.above)),)


def _moved_pieces(before: Pattern, after: Pattern) -> list[str]:
    """The names of pieces that are not as they were, with what became of those that came or went."""
    found = []
    for was, now in redrawn(before, after):
        if now is None:
            found.append(f"{was.name if was else ''} (gone)")
        else:
            found.append(now.name if was else f"{now.name} (new)")
    return found
