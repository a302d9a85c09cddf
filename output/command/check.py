"""`trueseam check`: a garment file, a pattern.json or a DXF of pieces, walked and checked; nothing is written."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from drafting.checks import Result, run_checks, worst
from drafting.errors import InputProblems, Problem
from drafting.pattern import Pattern
from drafting.reading.units import printable
from output.api.pattern_reader import PATTERN_ENDINGS, load_pattern
from output.api.pattern_summary import pattern_told
from output.command.answer import Answer
from output.command.brief import Summary, summaries
from output.command.draft import make_garment, pattern_data, pattern_sections, pattern_summaries, status_of
from output.report.tables import Passage, Said

__all__ = ["check_file", "pattern_answer"]


def check_file(path: Path, *, unit: str | None, explain: bool = False) -> Answer:
    """Check what a file holds, told by the ending of its name. Raises TrueseamError for what cannot be used.

    unit:    what lengths are shown in; None for what she works in, or centimetres
    explain: whether to tell what neighbouring steps of a garment file would give in the other order
    """
    match path.suffix.casefold():
        case ".toml":
            return _garment(path, unit, explain=explain)
        case ending if ending in PATTERN_ENDINGS:
            pattern = load_pattern(path)
            return pattern_answer(pattern, path, unit, results=run_checks(pattern))
    place = printable(str(path), most=200)
    expected = "a garment file (.toml), a pattern (.json) or a drawing of pieces (.dxf)"
    raise InputProblems([Problem(place, f'the ending "{printable(path.suffix)}"', expected)])


def _garment(path: Path, unit: str | None, *, explain: bool) -> Answer:
    from blocks.from_file.garment_file import read_garment

    garment = read_garment(path)
    if unit is not None:
        garment = replace(garment, wearer=replace(garment.wearer, unit=unit))
    if garment.sizes is not None and garment.sizes.nest:
        from output.command.nest import check_sizes

        return check_sizes(garment, path, explain=explain)
    whole = make_garment(garment)
    told, short = pattern_sections(whole, explain=explain), pattern_summaries(whole, explain=explain)
    return Answer(status_of(whole.results), told, partial(pattern_data, whole), short)


def pattern_answer(
    pattern: Pattern, path: Path, unit: str | None, *, results: Sequence[Result], written: tuple[Said, ...] = ()
) -> Answer:
    """What is told of a pattern that was read: what its checks found, its steps and sizes; written: what else."""
    from drafting.pattern.text import to_json

    shown = unit or pattern.wearer.unit
    place = printable(str(path), most=200)
    about = ", ".join(piece.name for piece in pattern.pieces)
    beside = printable(str(path.with_suffix(".toml")), most=200) if path.suffix.casefold() == ".dxf" else ""
    said = [*pattern_told(pattern, results, shown, file=place, beside=beside)]
    unnamed = [each for each in said if isinstance(each, Passage) and each.title == "Not walked"]

    def data() -> dict[str, object]:
        document = json.loads(to_json(pattern, results))
        kept = ("title", "wearer", "finished", "history", "checks")
        return {**{key: document[key] for key in kept}, "verdict": worst(results).value}

    said.extend(written)
    short = summaries(Summary(pattern, results, shown, about=about, written=(*unnamed, *written)))
    return Answer(status_of(results), tuple(said), data, short)
