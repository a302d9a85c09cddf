"""`trueseam check`: a garment file, a pattern.json or a DXF of pieces, walked and checked; nothing is written."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Final

from drafting.checks import run_checks, worst
from drafting.errors import InputProblems, Problem
from drafting.pattern import Pattern
from drafting.reading.files import load_bytes, load_text, load_toml
from drafting.reading.units import printable
from output.command.answer import Answer
from output.command.brief import Summary, summaries
from output.command.draft import make_garment, pattern_data, pattern_sections, pattern_summaries, status_of
from output.report.edge_table import edge_table
from output.report.tables import Passage, Said, check_tables, counted, fault_lines, finished_table, steps_passage

__all__ = ["check_file"]

_LARGEST: Final = 50_000_000
"""Bytes of a pattern.json or a DXF: a wardrobe of patterns is a tenth of this."""


def check_file(path: Path, *, unit: str | None, explain: bool = False) -> Answer:
    """Check what a file holds, told by the ending of its name. Raises TrueseamError for what cannot be used.

    unit:    what lengths are shown in; None for the wearer's own, or centimetres
    explain: whether to tell what neighbouring steps of a garment file would give in the other order
    """
    match path.suffix.casefold():
        case ".toml":
            return _garment(path, unit, explain=explain)
        case ".json":
            return _pattern(_from_json(path), path, unit)
        case ".dxf":
            return _pattern(_from_dxf(path), path, unit)
    place = printable(str(path), most=200)
    expected = "a garment file (.toml), a pattern (.json) or a drawing of pieces (.dxf)"
    raise InputProblems([Problem(place, f'the ending "{printable(path.suffix)}"', expected)])


def _garment(path: Path, unit: str | None, *, explain: bool) -> Answer:
    from blocks.garment_file import read_garment
    from output.sheets.papers import PAPERS

    garment = read_garment(path, papers=tuple(PAPERS))
    if unit is not None:
        garment = replace(garment, wearer=replace(garment.wearer, unit=unit))
    if garment.sizes is not None and garment.sizes.nest:
        from output.command.nest import check_sizes

        return check_sizes(garment, path, explain=explain)
    whole = make_garment(garment)
    told, short = pattern_sections(whole, explain=explain), pattern_summaries(whole, explain=explain)
    return Answer(status_of(whole.results), told, partial(pattern_data, whole), short)


def _pattern(pattern: Pattern, path: Path, unit: str | None) -> Answer:
    from drafting.pattern.text import to_json

    results = run_checks(pattern)
    shown = unit or "cm"
    place = printable(str(path), most=200)
    about = ", ".join(piece.name for piece in pattern.pieces)
    title = f"{pattern.title or place}: {about}"
    said: list[Said] = [Passage(title, (counted(results), *fault_lines(results, shown)), worst(results))]
    if pattern.history:
        said.append(steps_passage(pattern, shown))
    if pattern.measures:
        said.append(finished_table(pattern, [shown]))
    unnamed: tuple[Said, ...] = ()
    if path.suffix.casefold() == ".dxf" and not pattern.seams:
        beside = printable(str(path.with_suffix(".toml")), most=200)
        hint = f"No seam is known: name places and seams in {beside}. `--all` lists the edges, README shows how."
        unnamed = (Passage("Not walked", (hint,)),)
        said += [*unnamed, edge_table(pattern, shown)]
    said.extend(check_tables(results, shown))

    def data() -> dict[str, object]:
        document = json.loads(to_json(pattern, results))
        kept = ("title", "wearer", "finished", "history", "checks")
        return {**{key: document[key] for key in kept}, "verdict": worst(results).value}

    short = summaries(Summary(pattern, results, shown, about=about, written=unnamed))
    return Answer(status_of(results), tuple(said), data, short)


def _from_json(path: Path) -> Pattern:
    from drafting.pattern.text import from_json

    text = load_text(path, kind="a pattern.json", largest=_LARGEST)
    return from_json(text, place=printable(str(path), most=200))


def _from_dxf(path: Path) -> Pattern:
    """The pieces of a DXF file; with the file of names beside it its seams too, after the steps that file asks for."""
    from blocks.garment import alter
    from drafting.alterations import ALTERATIONS, order_of_steps
    from output.dxf.names_beside import names_of_a_drawing, read_named_dxf

    raw = load_bytes(path, kind="a DXF file", largest=_LARGEST)
    beside = path.with_suffix(".toml")
    names = load_toml(beside) if beside.exists() else {}
    names = names if names_of_a_drawing(names) else {}
    place, where = (printable(str(each), most=200) for each in (path, beside))
    named = read_named_dxf(raw, names, place=place, beside=where)
    order = order_of_steps(named.steps, ALTERATIONS)
    steps, sources = [named.steps[at] for at in order], [named.sources[at] for at in order]
    return alter(named.pattern, steps, sources=sources)
