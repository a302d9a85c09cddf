"""What is told of a pattern that was read from a file: what its checks found, its steps and sizes, its edges."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.checks import Result, worst
from drafting.pattern import Pattern
from output.report.edge_table import edge_table
from output.report.tables import Passage, Said, check_tables, counted, fault_lines, finished_table, steps_passage

__all__ = ["checks_told", "pattern_told"]


def pattern_told(pattern: Pattern, results: Sequence[Result], unit: str, *, file: str, beside: str) -> tuple[Said, ...]:
    """Passages and tables, the verdict first.

    file:   what a pattern without a title is called by; beside: the file of names that would say what is sewn to what,
            "" where none is read beside it
    """
    about = ", ".join(piece.name for piece in pattern.pieces)
    title = f"{pattern.title or file}: {about}"
    said: list[Said] = [Passage(title, (counted(results), *fault_lines(results, unit)), worst(results))]
    if pattern.history:
        said.append(steps_passage(pattern, unit))
    if pattern.measures:
        said.append(finished_table(pattern, [unit]))
    if beside and not pattern.seams:
        hint = f"No seam is known: name places and seams in {beside}. `--all` lists the edges, README shows how."
        said += [Passage("Not walked", (hint,)), edge_table(pattern, unit)]
    return (*said, *check_tables(results, unit))


def checks_told(results: Sequence[Result], unit: str) -> tuple[Said, ...]:
    """Everything that the checks looked at, a table to each."""
    return check_tables(results, unit)
