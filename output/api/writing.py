"""A draft as drawings, sheets of paper, DXF, JSON or a report; all of them in a folder, as the command writes them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from blocks.paper import Paper
from drafting.checks import Result
from drafting.pattern import Pattern
from drafting.pattern.text import to_json as pattern_json
from drafting.reading.given import list_problems, path_problem
from drafting.reading.read_table import refuse
from output.api.asking import Comparison, check
from output.api.garment_files import garment_files, garment_report, on_paper, pattern_files
from output.api.laying import to_buy
from output.api.making import Draft, DraftedPiece, ReadPattern, accept, accept_draft, accept_drawn
from output.drawings.pictures import changes_picture, pieces_picture
from output.drawings.svg import piece_svg
from output.files.write_folder import write_all
from output.sheets.large_sheet import Sheet, lay_out
from output.sheets.papers import Paper as PaperSize
from output.sheets.papers import paper_named, roll
from output.sheets.sheet_svg import tile_svg
from output.sheets.tiling import tiles

__all__ = ["dxf", "pdf", "report", "sheets", "svg", "to_json", "write"]


def svg(drawn: Draft | ReadPattern | DraftedPiece | Comparison | Pattern) -> str:
    """One piece at true scale, as it is printed; a draft or a comparison as a picture for a screen."""
    if isinstance(drawn, DraftedPiece):
        return piece_svg(drawn.piece, drawn.pattern, dated=drawn.dated, unit=drawn.unit)
    if isinstance(drawn, Comparison):
        return changes_picture(drawn.title, drawn.pieces)
    if isinstance(drawn, Pattern):
        return pieces_picture(drawn)
    accept("svg", drawn, (Draft, ReadPattern), "a draft, one of its pieces, a comparison, or a pattern that was read")
    return pieces_picture(drawn.pattern)


def sheets(drafted: Draft | ReadPattern, *, paper: str = "") -> tuple[str, ...]:
    """A draft, or a pattern that was read, on sheets of paper at true scale, an SVG each, in their order.

    paper: "A4", "Letter", "A4 or Letter", "A3" or "A0"; left out, the one that was ordered
    Raises UnknownName for another.
    """
    ordered = _ordered(drafted)
    size = paper_named(paper or ordered.size)
    return tuple(tile_svg(tile) for tile in tiles(_sheet(drafted, size)))


def pdf(drafted: Draft | ReadPattern, *, paper: str = "") -> bytes:
    """A draft, or a pattern that was read, as one PDF at true scale, a page for each sheet: to be printed at 100 %.

    paper: "A4", "Letter", "A4 or Letter", "A3", "A0", or a roll by its width, "roll 36 in"; left out, the one ordered
    Raises UnknownName for another, NotRead for a width that no roll has.
    """
    from output.sheets.sheet_pdf import sheet_pdf

    ordered = _ordered(drafted)
    ordered = on_paper(replace(ordered, roll=None), paper) if paper else ordered
    size = roll(ordered.roll, drafted.unit) if paper and ordered.roll else paper_named(ordered.size)
    return sheet_pdf(_sheet(drafted, size))


def _ordered(drawn: Draft | ReadPattern) -> Paper:
    """The paper that was ordered; the usual one for a pattern that was read. Raises InputProblems for neither."""
    accept_drawn(drawn)
    return Paper() if isinstance(drawn, ReadPattern) else drawn.garment.paper


def _sheet(drawn: Draft | ReadPattern, size: PaperSize) -> Sheet:
    if isinstance(drawn, ReadPattern):
        return lay_out(drawn.pattern, paper=size, unit=drawn.unit)
    bought = [each.line for each in to_buy(drawn)]
    return lay_out(drawn.pattern, paper=size, dated=drawn.dated, unit=drawn.unit, to_buy=bought)


def dxf(drafted: Draft | ReadPattern) -> bytes:
    """The pattern as a DXF file, in millimetres, in the layers of ASTM D6673."""
    accept_drawn(drafted)
    from output.dxf.dxf_writer import dxf_bytes

    return dxf_bytes(drafted.pattern)


def to_json(drafted: Draft | ReadPattern, checks: Sequence[Result] = ()) -> str:
    """The pattern as pattern.json, with what `check` found where that is given."""
    accept_drawn(drafted)
    refuse([*list_problems("to_json, checks", checks, Result, "what check(...) found")])
    return pattern_json(drafted.pattern, checks)


def report(drafted: Draft) -> str:
    """The report as one HTML document, with what the checks found."""
    accept_draft(drafted)
    return garment_report(drafted, check(drafted).rows)


def write(drafted: Draft | ReadPattern, folder: str | Path, *, paper: str = "") -> tuple[Path, ...]:
    """Every file that the command writes, in a folder: all of them, or none. The paths, in the order written.

    paper: as for `pdf`; left out, the one ordered
    Raises CannotWrite; a folder that holds anything not written by trueseam is left alone.
    A pattern that was read has no report: what that tells of the wearer and the cloth no such file holds.
    """
    accept_drawn(drafted)
    problem = path_problem("write, folder", folder, "the path of a folder")
    refuse([problem] if problem else [])
    if isinstance(drafted, ReadPattern):
        ordered = on_paper(Paper(), paper) if paper else Paper()
        return write_all(Path(folder), dict(pattern_files(drafted.pattern, check(drafted).rows, ordered, drafted.unit)))
    if paper:
        drafted = replace(drafted, garment=replace(drafted.garment, paper=on_paper(drafted.garment.paper, paper)))
    return write_all(Path(folder), dict(garment_files(drafted, check(drafted).rows)))
