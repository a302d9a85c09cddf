"""A pattern that was drafted before, by us or by others, read from its file: the pieces of a pattern.json or a DXF."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Final

from drafting.errors import InputProblems, Problem
from drafting.pattern import Pattern
from drafting.reading.files import load_bytes, load_text, load_toml
from drafting.reading.given import path_problem
from drafting.reading.read_table import refuse
from drafting.reading.units import printable

__all__ = ["PATTERN_ENDINGS", "load_pattern"]

PATTERN_ENDINGS: Final = (".json", ".dxf")

_LARGEST: Final = 50_000_000
"""Bytes of a pattern.json or a DXF: a wardrobe of patterns is a tenth of this."""


def load_pattern(path: str | Path) -> Pattern:
    """The pattern in a pattern.json or a DXF file, told by the ending of its name; a drawing is called as its file.

    What the file of names beside a DXF says is taken with it: places, seams, and the steps that it asks for.
    Raises InputProblems for what cannot be read, StepRefused for a step that makes no sense.
    """
    problem = path_problem("the pattern", path, 'the path of a pattern: read_pattern("shirt.dxf")')
    refuse([problem] if problem else [])
    path = Path(path)
    match path.suffix.casefold():
        case ".json":
            return _from_json(path)
        case ".dxf":
            pattern = _from_dxf(path)
            return pattern if pattern.title else replace(pattern, title=printable(path.stem, most=200))
    expected = "a pattern (.json) or a drawing of pieces (.dxf)"
    read = f'the ending "{printable(path.suffix)}"'
    raise InputProblems([Problem(printable(str(path), most=200), read, expected)])


def _from_json(path: Path) -> Pattern:
    from drafting.pattern.text import from_json

    text = load_text(path, kind="a pattern.json", largest=_LARGEST)
    return from_json(text, place=printable(str(path), most=200))


def _from_dxf(path: Path) -> Pattern:
    """The pieces of a DXF file; with the file of names beside it its seams too, after the steps that file asks for."""
    from blocks.take_steps import alter
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
