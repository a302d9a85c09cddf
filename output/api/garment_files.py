"""Every file of a garment, as the command writes them and a program may."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from drafting.checks import Result, Verdict
from drafting.pattern.text import to_json
from output.api.making import Draft
from output.report.tables import Passage, fault_lines
from output.sheets.papers import PAPERS, sheet_count_words

__all__ = ["Tell", "file_names", "garment_files", "garment_report"]

Tell = Callable[[str, float], None]
"""Called with what is being done now, and how much of the whole is done, from zero to one."""


def _untold(_what: str, _share: float) -> None:
    """Nobody is watching."""


def garment_files(
    drafted: Draft, results: Sequence[Result], *, order: Sequence[Passage] = (), tell: Tell = _untold
) -> Iterator[tuple[str, bytes]]:
    """Every file of a garment by name: sheets, pieces, DXF, pattern.json, report.

    results: what the checks found
    order:   what is said of the order of the steps, for the report
    tell:    is called with what is being done, and how far it has come from 0 to 1
    """
    from output.drawings.svg import piece_svg
    from output.dxf.dxf_writer import dxf_bytes
    from output.sheets.large_sheet import lay_out
    from output.sheets.sheet_pdf import tiles_pdf
    from output.sheets.sheet_svg import tile_svg
    from output.sheets.tiling import piece_list_words, tiles

    pattern, unit, dated = drafted.pattern, drafted.unit, drafted.dated
    paper = PAPERS[drafted.garment.paper.size]
    failed = [result for result in results if result.verdict in (Verdict.FAIL, Verdict.ERROR)]
    tell("laying out the sheets", 0.3)
    sheet = lay_out(pattern, paper=paper, dated=dated, unit=unit, warnings=fault_lines(failed, unit))
    printed = tiles(sheet)
    yield "print-at-home.pdf", tiles_pdf(sheet, printed)
    for tile in printed:
        tell("drawing the sheets", 0.4 + 0.3 * tile.number / tile.count)
        digits = max(2, len(str(tile.count)))
        yield f"sheets/{tile.number:0{digits}}.svg", tile_svg(tile).encode()
    tell("drawing the pieces", 0.7)
    for name, piece in zip(file_names(piece.name for piece in pattern.pieces), pattern.pieces, strict=True):
        yield f"pieces/{name}.svg", piece_svg(piece, pattern, dated=dated, unit=unit).encode()
    tell("writing the DXF", 0.8)
    yield "pattern.dxf", dxf_bytes(pattern)
    tell("writing the report", 0.95)
    yield "pattern.json", to_json(pattern, results).encode()
    printed_on = f"{paper.name}, {sheet_count_words(len(printed))}. {piece_list_words(printed)}."
    yield "report.html", garment_report(drafted, results, order=order, paper=printed_on).encode()


def garment_report(drafted: Draft, results: Sequence[Result], *, order: Sequence[Passage] = (), paper: str = "") -> str:
    """The report as one HTML document; `paper` is what the sheets are printed on, in words."""
    from output.report.report_page import report_html

    return report_html(
        drafted.pattern,
        results,
        ease=drafted.ease,
        doubts=drafted.doubts,
        drawn_out=drafted.drawn_out,
        stages=drafted.stages,
        order=order,
        dated=drafted.dated,
        unit=drafted.unit,
        paper=paper,
    )


def file_names(pieces: Iterable[str]) -> tuple[str, ...]:
    """A file name for each piece, no two alike: its name in small letters, with - for whatever is not one."""
    taken: list[str] = []
    for piece in pieces:
        plain = "".join(c if c.isascii() and c.isalnum() else "-" for c in piece.lower())
        stem = "-".join(part for part in plain.split("-") if part)[:60] or "piece"
        name, count = stem, 1
        while name in taken:
            count += 1
            name = f"{stem}-{count}"
        taken.append(name)
    return tuple(taken)
