"""Every file of a garment, as the command writes them and a program may."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final

from blocks.paper import ROLL_WIDTHS, Paper
from drafting.checks import FAILED, Result
from drafting.errors import TrueseamError
from drafting.pattern import Pattern
from drafting.pattern.text import from_json, to_json
from drafting.reading.units import NotRead, length_unit, parse_length, shown
from drafting.reading.values import between_lengths, outside
from output.api.making import Draft
from output.report.tables import Passage, fault_lines
from output.sheets.papers import PAPERS, paper_named, roll, sheet_count_words
from output.sheets.papers import Paper as PaperSize

if TYPE_CHECKING:
    from output.sheets.large_sheet import Sheet

__all__ = [
    "COPY_SHOP_PDF",
    "HOME_PDF",
    "Tell",
    "file_names",
    "garment_files",
    "garment_report",
    "last_drafted",
    "on_paper",
    "paper_to_print",
    "pattern_files",
    "pdf_to_print",
    "print_files",
]

HOME_PDF: Final = "print-at-home.pdf"
COPY_SHOP_PDF: Final = "copy-shop.pdf"

_COPY_SHOP: Final = "A0"

Tell = Callable[[str, float], None]
"""Called with what is being done now, and how much of the whole is done, from zero to one."""


def _no_progress(_what: str, _share: float) -> None:
    """Nobody is watching."""


def garment_files(
    drafted: Draft,
    results: Sequence[Result],
    *,
    order: Sequence[Passage] = (),
    before: Pattern | None = None,
    tell: Tell = _no_progress,
) -> Iterator[tuple[str, bytes]]:
    """Every file of a garment by name: sheets, pieces, DXF, pattern.json, report.

    results: what the checks found
    order:   what is said of the order of the steps, for the report
    before:  what was last drafted in the same folder, for the report to tell what changed
    tell:    is called with what is being done, and how far it has come from 0 to 1
    """
    from output.api.laying import to_buy

    pattern, unit, dated = drafted.pattern, drafted.unit, drafted.dated
    bought = [each.line for each in to_buy(drafted)]
    files, printed_on = _pattern_files(pattern, results, drafted.garment.paper, unit, dated, bought, tell)
    yield from files.items()
    tell("writing the report", 0.95)
    report = garment_report(drafted, results, order=order, paper=printed_on, files=(*files,), before=before)
    yield "report.html", report.encode()


def last_drafted(folder: Path) -> Pattern | None:
    """The pattern that was last drafted to a folder; None where there is none that can be read."""
    try:
        return from_json((folder / "pattern.json").read_text(encoding="utf-8"))
    except (OSError, ValueError, TrueseamError):
        return None


def pattern_files(
    pattern: Pattern, results: Sequence[Result], paper: Paper, unit: str, *, tell: Tell = _no_progress
) -> Iterator[tuple[str, bytes]]:
    """Every file of a pattern that was read, by name: as of a garment, without its report."""
    yield from _pattern_files(pattern, results, paper, unit, "", (), tell)[0].items()


def _pattern_files(
    pattern: Pattern,
    results: Sequence[Result],
    paper: Paper,
    unit: str,
    dated: str,
    bought: Sequence[str],
    tell: Tell,
) -> tuple[dict[str, bytes], str]:
    """The files of a pattern by name, and what it is printed on, in words."""
    from output.drawings.svg import piece_svg
    from output.dxf.dxf_writer import dxf_bytes
    from output.sheets.large_sheet import lay_out

    failed = [result for result in results if result.verdict in FAILED]
    lay = partial(lay_out, pattern, dated=dated, unit=unit, warnings=fault_lines(failed, unit), to_buy=bought)
    files, printed_on = print_files(lambda size: lay(paper=size), paper, unit, tell=tell)
    tell("drawing the pieces", 0.7)
    names = [f"pieces/{name}.svg" for name in file_names(piece.name for piece in pattern.pieces)]
    for name, piece in zip(names, pattern.pieces, strict=True):
        files[name] = piece_svg(piece, pattern, dated=dated, unit=unit).encode()
    tell("writing the DXF", 0.8)
    files["pattern.dxf"] = dxf_bytes(pattern)
    files["pattern.json"] = to_json(pattern, results).encode()
    return files, printed_on


def on_paper(paper: Paper, words: str) -> Paper:
    """The same order on another paper: "A4", "Letter", ...; "roll 36 in" changes the roll of the copy shop.

    Raises UnknownName for another name, NotRead for a width that cannot be read or that no roll has.
    """
    name, _, width = str(words).strip().partition(" ")
    if name.casefold() != "roll":
        return replace(paper, size=paper_named(words).name, by_unit=False)
    mm = parse_length(width, unit=None)
    if outside(mm, *ROLL_WIDTHS):
        raise NotRead(shown(width), between_lengths(*ROLL_WIDTHS, length_unit(width) or "mm"))
    return replace(paper, roll=mm)


def print_files(
    lay_out_on: Callable[[PaperSize], Sheet], paper: Paper, unit: str, *, tell: Tell = _no_progress
) -> tuple[dict[str, bytes], str]:
    """The files to be printed, by name, and what they are printed on, in words.

    lay_out_on: gives the large sheet for a size of paper
    One PDF for the printer at home, with the same sheets as SVG, and one for a copy shop. Where large paper was
    ordered, there is none for the printer at home.
    """
    from output.sheets.sheet_pdf import tiles_pdf
    from output.sheets.sheet_svg import tile_svg
    from output.sheets.tiling import piece_list_words, tiles

    size = PAPERS[paper.size]
    large = _shop_paper(paper, unit)
    tell("laying out the sheets", 0.3)
    sheet = lay_out_on(large if size.large else size)
    printed = tiles(sheet)
    files = {}
    for tile in printed:
        tell("drawing the sheets", 0.4 + 0.2 * tile.number / tile.count)
        files[f"sheets/{tile.number:0{max(2, len(str(tile.count)))}}.svg"] = tile_svg(tile).encode()
    words = f"{sheet.paper.name}, {sheet_count_words(len(printed))}. {piece_list_words(printed)}."
    if size.large:
        return {COPY_SHOP_PDF: tiles_pdf(sheet, printed), **files}, words
    tell("laying out for the copy shop", 0.6)
    whole = lay_out_on(large)
    at_the_shop = tiles(whole)
    words += f" For a copy shop: {whole.paper.name}, {sheet_count_words(len(at_the_shop))}."
    return {HOME_PDF: tiles_pdf(sheet, printed), COPY_SHOP_PDF: tiles_pdf(whole, at_the_shop), **files}, words


def pdf_to_print(
    drafted: Draft, results: Sequence[Result], *, for_shop: bool, only: Sequence[str] = (), tell: Tell = _no_progress
) -> bytes:
    """One of the PDFs of `garment_files`: for the printer at home, or for a copy shop.

    only: the names of the pieces that are wanted; all of them where none is named
    """
    from output.api.laying import to_buy
    from output.sheets.large_sheet import lay_out
    from output.sheets.sheet_pdf import tiles_pdf
    from output.sheets.tiling import tiles

    unit = drafted.unit
    size = paper_to_print(drafted.garment.paper, unit, for_shop=for_shop)
    failed = [result for result in results if result.verdict in FAILED]
    tell("laying out the sheets", 0.1)
    sheet = lay_out(
        drafted.pattern,
        paper=size,
        dated=drafted.dated,
        unit=unit,
        warnings=fault_lines(failed, unit),
        to_buy=[each.line for each in to_buy(drafted)],
        only=only,
    )
    tell("drawing the sheets", 0.5)
    return tiles_pdf(sheet, tiles(sheet))


def paper_to_print(paper: Paper, unit: str, *, for_shop: bool) -> PaperSize:
    """The size of the sheets: those of the printer at home, or what a copy shop prints on."""
    return _shop_paper(paper, unit) if for_shop else PAPERS[paper.size]


def _shop_paper(paper: Paper, unit: str) -> PaperSize:
    """What a copy shop prints on: a roll where its width is said, else the large paper that was ordered, or A0."""
    size = PAPERS[paper.size]
    return roll(paper.roll, unit) if paper.roll else size if size.large else PAPERS[_COPY_SHOP]


def garment_report(
    drafted: Draft,
    results: Sequence[Result],
    *,
    order: Sequence[Passage] = (),
    paper: str = "",
    files: Sequence[str] = (),
    before: Pattern | None = None,
) -> str:
    """The report as one HTML document.

    paper:  what the sheets are printed on, in words
    files:  the names of what lies beside it; before: what was last drafted there
    """
    from output.api.laying import cloths_of, to_buy
    from output.report.cloth_words import cloth_passages
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
        bought=to_buy(drafted),
        cloths=cloths_of(drafted),
        shrinkage=drafted.garment.cloth.shrinkage,
        knit=drafted.garment.cloth.knit,
        cloth=cloth_passages(drafted.garment.cloth, drafted.pattern, drafted.unit),
        files=files,
        before=before,
        grows=_growth(drafted),
    )


def _growth(drafted: Draft) -> Iterator[str]:
    """What is told of the growth of a child that the garment is to fit; nothing for any other."""
    if drafted.garment.grow_until is not None:
        from output.api.child_growth import garment_growth_html

        yield from garment_growth_html(drafted.garment.wearer, drafted.garment.grow_until, drafted.pattern)


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
