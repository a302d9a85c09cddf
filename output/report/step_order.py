"""The order in which the steps of a garment were taken, and why, where that is not the order they are written in."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Final

from drafting.alterations import ALTERATIONS, Alteration, AlterationTable, waits_for
from output.report.tables import Passage

__all__ = ["order_taken_passage"]

_WHY: Final = (
    "So every step finds the pieces as it needs them: what is drawn at an edge comes after whatever moves the edge. "
    "The order in which they are written counts only between steps of one alteration."
)
_HOW: Final = 'To have them taken as they are written: order = "as written", above the first line in [ ].'


def order_taken_passage(
    steps: Sequence[Alteration], sources: Sequence[str], table: AlterationTable = ALTERATIONS
) -> Passage:
    """The steps by what they are about, each with the place where it is written, and why they stand so.

    steps:   in the order in which they were taken
    sources: where each of them is written, in a few words
    """
    written = [_step_words(step, source) for step, source in zip(steps, sources, strict=True)]
    about = groupby(range(len(steps)), key=lambda place: table.named(steps[place].name).layer)
    sentences = [
        f"{'Then' if number else 'First'} {layer}: {', '.join(written[place] for place in places)}."
        for number, (layer, places) in enumerate(about)
    ]
    for place, step in enumerate(steps):
        for other in waits_for(steps, place):
            if step.comes_after(steps[other]):
                why = f"{written[other]} draws anew the seam that {written[place]} lies in"
            else:
                why = f'"{_piece(step)}" is made by {written[other]}'
            sentences.append(f"{why[0].upper()}{why[1:]}, and {written[place]} waits for it.")
    return Passage("The order of the steps", (*sentences, _WHY, _HOW))


def _step_words(step: Alteration, source: str) -> str:
    """The step as she called it, and where: "[[step]] 1 (crop)" holds the word that turns its number round."""
    place, _, word = source.partition(" (")
    return f"{word.rstrip(')') or step.name} ({place})"


def _piece(step: Alteration) -> str:
    return str(getattr(step, "only", "") or getattr(step, "piece", ""))
