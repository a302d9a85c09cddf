"""What changed since the last draft in the same folder: every finished measurement, seam and piece that moved."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from drafting.pattern import Pattern
from drafting.pattern.compare import Moved, moved
from output.report.before_after import moved_table, moved_words, redrawn
from output.report.tables import Passage, Table

__all__ = ["since_last", "since_last_briefly"]

_TITLE: Final = "Since the last draft here"
_MOST: Final = 3


def since_last(before: Pattern | None, after: Pattern, unit: str) -> Table | None:
    """All that moved, as a table; None where nothing did, or the last draft there was of another garment."""
    changes, pieces = _changed(before, after)
    if not changes and not pieces:
        return None
    return replace(moved_table(changes, unit), title=_TITLE, above=_pieces_sentence(pieces))


def since_last_briefly(before: Pattern | None, after: Pattern, unit: str) -> tuple[Passage, ...]:
    """What moved since the last draft, in a sentence or two for a terminal; nothing where `since_last` has nothing."""
    changes, pieces = _changed(before, after)
    if not changes and not pieces:
        return ()
    told = "; ".join(moved_words(each, unit) for each in changes[:_MOST])
    more = len(changes) - _MOST
    rest = f", and {more} more in the report" if more > 0 else ""
    return (Passage(_TITLE, (*((f"{told}{rest}.",) if told else ()), _pieces_sentence(pieces))),)


def _changed(before: Pattern | None, after: Pattern) -> tuple[tuple[Moved, ...], list[str]]:
    """The lengths that moved and the pieces that are not as they were; neither for a draft of another garment."""
    if before is None or before.title != after.title:
        return (), []
    return tuple(moved(before, after)), _moved_pieces(before, after)


def _pieces_sentence(pieces: list[str]) -> str:
    return f"Pieces that changed: {', '.join(pieces)}." if pieces else "No piece changed its shape."


def _moved_pieces(before: Pattern, after: Pattern) -> list[str]:
    """The names of pieces that are not as they were, with what became of those that came or went."""
    found = []
    for was, now in redrawn(before, after):
        if now is None:
            found.append(f"{was.name if was else ''} (gone)")
        else:
            found.append(now.name if was else f"{now.name} (new)")
    return found
