"""`trueseam measure --sheet`: a sheet to print, for a person's file or for anybody."""

from __future__ import annotations

from pathlib import Path

from drafting.body.person import read_person
from drafting.body.terms import BODY_KINDS, BodyKind
from drafting.errors import InputProblems, Problem, meant
from drafting.reading.units import printable
from output.api.making import read_garment
from output.api.sheets_to_measure import anybody, sheet_to_measure
from output.command.answer import Answer
from output.files.write_folder import write_new
from output.report.tables import Passage

__all__ = ["write_measuring_sheet"]


def write_measuring_sheet(
    sheet: str, *, whose: Path | None, body: str | None, unit: str | None, garment: Path | None, every: bool
) -> Answer:
    """Write a sheet to measure by. Raises InputProblems, and CannotWrite for a file that is there already.

    whose:   the file of a person: her drawing, and what was measured last; None for anybody
    body:    "woman", "girl" or "boy", where it is for anybody; None for a woman
    garment: the file of a garment, for what that is drawn from alone; every: all measurements there are
    """
    path = Path(sheet if Path(sheet).suffix else f"{sheet}.html")
    if path.suffix.casefold() not in (".html", ".htm"):
        read, mend = f'"{printable(sheet)}"', "A browser prints it on A4 or Letter, and makes a PDF of it."
        raise InputProblems([Problem("the command line, --sheet", read, "a file that ends in .html", mend)])
    kind = _kind(body)
    who = None if whose is None else read_person(whose)
    wearer = anybody(kind) if who is None else who
    garments = [read_garment(garment, wearer=wearer)] if garment is not None else []
    text, keys = sheet_to_measure(who, kind, unit=unit, garments=garments, every=every)
    write_new(path, text.encode())
    told = (f"{path}: {len(keys)} measurements, each with its drawing. Open it in a browser and print it.",)
    return Answer(0, (Passage("Written", told),), {"file": str(path), "measurements": list(keys)})


def _kind(body: str | None) -> BodyKind:
    if body is None:
        return "woman"
    for kind in BODY_KINDS:
        if kind == body:
            return kind
    expected, mend = ", ".join(BODY_KINDS), meant(body, BODY_KINDS)
    raise InputProblems([Problem("the command line, --body", f'"{printable(body)}"', expected, mend)])
