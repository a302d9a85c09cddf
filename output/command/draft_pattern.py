"""`trueseam draft` of a pattern.json or a DXF: the pieces that are there, checked and put on paper."""

from __future__ import annotations

from pathlib import Path

from blocks.paper import Paper
from drafting.checks import run_checks
from drafting.reading.read_table import refuse
from output.api.garment_files import on_paper, pattern_files
from output.api.pattern_reader import load_pattern
from output.command.answer import Answer
from output.command.check import pattern_answer
from output.command.draft import paper_problems, print_lines
from output.command.progress import progress
from output.command.streams import print_error
from output.files.write_folder import write_all
from output.report.tables import Passage

__all__ = ["draft_pattern_to_folder"]


def draft_pattern_to_folder(path: Path, *, to: Path | None, paper: str | None, quiet: bool, unit: str | None) -> Answer:
    """Read a pattern, check it and write its sheets, pieces, DXF and pattern.json to a folder, or nothing.

    There is no report: what it tells of the wearer, her ease and the cloth no such file holds.
    Raises TrueseamError for what cannot be used, and CannotWrite for a folder that cannot be written.
    """
    refuse(paper_problems(paper) if paper is not None else [])
    folder, ordered = to if to is not None else Path(path.stem), on_paper(Paper(), paper) if paper else Paper()
    with progress(watched=not quiet) as tell:
        tell("reading", 0.0)
        pattern = load_pattern(path)
        results = run_checks(pattern)
        files = pattern_files(pattern, results, ordered, unit or pattern.wearer.unit, tell=tell)
        written = write_all(folder, dict(files), print_error)
    names = [str(name.relative_to(folder)) for name in written]
    beside = "beside them sheets and pieces (as SVG), pattern.dxf (for a cutter), pattern.json (for other programs)"
    told = Passage("Written", (*print_lines(ordered, folder, names), beside))
    return pattern_answer(pattern, path, unit, results=results, written=(told,))
