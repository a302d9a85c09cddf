"""`draft` and `check` for a garment ordered in several sizes: one set of sheets for all, the rest for each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from blocks.garment import Garment
from blocks.nest import nest_members
from drafting.checks import FAILED, Verdict, worst
from drafting.errors import InputProblems, NotAPattern, Problem
from drafting.pattern import Nest, Sized, finished
from drafting.pattern.text import to_json
from drafting.reading.units import length_text, printable
from output.api.garment_files import Tell, garment_report, print_files
from output.api.laying import to_buy
from output.command.answer import Answer
from output.command.draft import (
    MadeGarment,
    draft_to_folder,
    make_garment,
    pattern_data,
    print_lines,
    read_order,
    status_of,
    step_order_passages,
)
from output.command.progress import progress
from output.command.streams import print_error
from output.files.write_folder import write_all
from output.lay.shopping_list import lines_by_size
from output.report.tables import Column, Passage, Row, Said, Table, counted, fault_lines, finished_table

if TYPE_CHECKING:
    from output.sheets.large_sheet import Sheet
    from output.sheets.papers import Paper as PaperSize

__all__ = ["check_sizes", "draft_sizes_to_folder"]


def draft_sizes_to_folder(
    path: Path,
    *,
    to: Path | None,
    paper: str | None,
    quiet: bool,
    sizes: str | None = None,
    unit: str | None = None,
    explain: bool = False,
) -> Answer:
    """Draft a garment file as `draft.drafted` does; in every size at once, where it orders a nest.

    sizes: those of the nest that are printed, as they are typed: "88,96"; None for all
    Raises TrueseamError for what cannot be drafted or has not the same edges in every size, and CannotWrite.
    """
    garment = read_order(path, paper, unit)
    printed = _printed_sizes(garment, sizes)
    if garment.sizes is None or not garment.sizes.nest:
        return draft_to_folder(path, to=to, paper=paper, quiet=quiet, unit=unit, explain=explain)
    with progress(watched=not quiet) as tell:
        tell("drafting", 0.05)
        folder = to if to is not None else Path(path.stem)
        return _drafted_nest(garment, path, folder, printed, tell, explain=explain)


def _printed_sizes(garment: Garment, sizes: str | None) -> tuple[str, ...]:
    """The sizes to print, in the order of the nest; none for a garment in one size. Raises InputProblems."""
    nest = [str(size) for size in garment.sizes.nest] if garment.sizes is not None else []
    if sizes is None:
        return tuple(nest)
    asked = [size.strip() for size in sizes.split(",") if size.strip()]
    if not nest:
        expected, mend = "a garment that orders a nest", "Leave --sizes out, or put nest = [88, 92, 96] under [sizes]."
    elif not asked or not set(asked) <= set(nest):
        expected, mend = f"sizes of this nest: {', '.join(nest)}", f"One or more, such as {nest[0]},{nest[-1]}."
    else:
        return tuple(size for size in nest if size in asked)
    raise InputProblems([Problem("the command line, --sizes", f'"{printable(sizes)}"', expected, mend)])


def check_sizes(garment: Garment, path: Path, *, explain: bool = False) -> Answer:
    """Every size of a nest checked. Raises TrueseamError for what cannot be drafted or has not the same edges."""
    nest, whole = _made(garment, path)
    told, short = tuple(_passages(nest, whole, garment, explain=explain)), _briefly(nest, whole, garment)
    return Answer(_status(whole), told, partial(_data, whole, garment), short)


def _drafted_nest(
    garment: Garment, path: Path, folder: Path, sizes: Sequence[str], tell: Tell, *, explain: bool
) -> Answer:
    """The answer to a draft in several sizes, whose files are then written."""
    nest, whole = _made(garment, path)
    files = dict(_files(nest, whole, garment, sizes, tell, explain=explain))
    written = [str(name.relative_to(folder)) for name in write_all(folder, files, print_error)]
    where = _written(garment, folder, written)
    said = (*_passages(nest, whole, garment, explain=explain), where)
    short = tuple((*way, where) for way in _briefly(nest, whole, garment))

    def data() -> dict[str, object]:
        return {**_data(whole, garment), "folder": str(folder), "files": written}

    return Answer(_status(whole), said, data, short)


def _made(garment: Garment, path: Path) -> tuple[Nest, list[tuple[str, MadeGarment]]]:
    whole = [(size, make_garment(member, drafted=pattern)) for size, member, pattern in nest_members(garment)]
    try:
        return Nest(garment.title, tuple(Sized(size, each.pattern) for size, each in whole)), whole
    except NotAPattern as error:
        where = f"{printable(str(path), most=200)}, [sizes] nest"
        raise InputProblems(
            [Problem(where, str(error), "sizes with the same edges", "Draft them one by one.")]
        ) from error


def _status(whole: Sequence[tuple[str, MadeGarment]]) -> int:
    return max(status_of(each.results) for _, each in whole)


def _data(whole: Sequence[tuple[str, MadeGarment]], garment: Garment) -> dict[str, object]:
    return {"title": garment.title, "sizes": {size: pattern_data(each) for size, each in whole}}


def _files(
    nest: Nest,
    whole: Sequence[tuple[str, MadeGarment]],
    garment: Garment,
    sizes: Sequence[str],
    tell: Tell,
    *,
    explain: bool,
) -> Iterator[tuple[str, bytes]]:
    """Every file by name: what is printed of these sizes and the DXF of all, together; DXF, pattern.json and report of
    each in its folder.
    """
    from output.dxf.dxf_writer import dxf_bytes, nest_dxf_bytes
    from output.sheets.large_sheet import lay_out, lay_out_nest

    unit, dated = garment.wearer.unit, whole[0][1].draft.dated
    warnings = _faults(whole, FAILED, unit)
    chosen = [each for each in nest.sizes if each.size in sizes]
    bought = lines_by_size({size: to_buy(each.draft) for size, each in whole if size in sizes})

    def lay_out_on(paper: PaperSize) -> Sheet:
        if len(chosen) == 1:
            return lay_out(chosen[0].pattern, paper=paper, dated=dated, unit=unit, warnings=warnings, to_buy=bought)
        some = Nest(nest.title, tuple(chosen))
        return lay_out_nest(some, paper=paper, dated=dated, unit=unit, warnings=warnings, to_buy=bought)

    files, printed_on = print_files(lay_out_on, garment.paper, unit, tell=tell)
    yield from files.items()
    yield "pattern.dxf", nest_dxf_bytes(nest)
    for count, (size, each) in enumerate(whole):
        tell("writing each size", 0.7 + 0.3 * count / len(whole))
        yield f"size-{size}/pattern.dxf", dxf_bytes(each.pattern)
        yield f"size-{size}/pattern.json", to_json(each.pattern, each.results).encode()
        order = step_order_passages(each, explain=explain)
        report = garment_report(
            each.draft, each.results, order=order, paper=f"Sizes {', '.join(sizes)} together: {printed_on}"
        )
        yield f"size-{size}/report.html", report.encode()


def _faults(whole: Sequence[tuple[str, MadeGarment]], verdicts: Sequence[Verdict], unit: str) -> list[str]:
    """What is wrong in any size, each sentence begun with the size."""
    return [
        f"Size {size}: {sentence}"
        for size, each in whole
        for sentence in fault_lines([result for result in each.results if result.verdict in verdicts], unit)
    ]


def _briefly(nest: Nest, whole: Sequence[tuple[str, MadeGarment]], garment: Garment) -> tuple[tuple[Said, ...], ...]:
    """The verdict for each size and how large each comes out, in fewer and fewer lines."""
    title, unit = _title(nest, whole), garment.wearer.unit
    by_size = [(size, counted(each.results), fault_lines(each.results, unit)) for size, each in whole]
    gravest = max(whole, key=lambda each: status_of(each[1].results))[1]
    ways: list[tuple[Said, ...]] = []
    for many in (6, 2, 1, 0):
        told = [
            " ".join((f"Size {size}: {how}", *faults[:many], *(["--all tells more."] if faults[many:] else [])))
            for size, how, faults in by_size
        ]
        verdict = Passage(title, tuple(told), worst(gravest.results))
        ways.append((verdict, _finished_by_size(whole, unit)))
    return (*ways, (verdict,))


def _finished_by_size(whole: Sequence[tuple[str, MadeGarment]], unit: str) -> Table:
    """The finished measurements, a column to each size."""
    found = [
        {each.name: length_text(each.finished, unit) for each in finished(each_size.pattern)} for _, each_size in whole
    ]
    names = dict.fromkeys(name for each in found for name in each)
    rows = tuple(Row((name, *(each.get(name, "") for each in found))) for name in names)
    columns = (Column(""), *(Column(f"size {size}", True) for size, _ in whole))
    return Table("Finished measurements", columns, rows)


def _title(nest: Nest, whole: Sequence[tuple[str, MadeGarment]]) -> str:
    about = [
        f"sizes {', '.join(size for size, _ in whole)}",
        whole[0][1].draft.dated,
        f"{len(nest.piece_names)} pieces",
    ]
    return ", ".join(part for part in (nest.title, *about) if part)


def _passages(
    nest: Nest, whole: Sequence[tuple[str, MadeGarment]], garment: Garment, *, explain: bool
) -> Iterator[Said]:
    yield Passage(_title(nest, whole), ())
    for size, each in whole:
        faults = fault_lines(each.results, garment.wearer.unit)
        yield Passage(f"Size {size}", (counted(each.results), *faults), worst(each.results))
        yield finished_table(each.pattern, [garment.wearer.unit])
        if explain:
            yield from step_order_passages(each, explain=True)


def _written(garment: Garment, folder: Path, names: Sequence[str]) -> Passage:
    return Passage(
        "Written",
        (
            *print_lines(garment.paper, folder, names),
            f"{folder / 'pattern.dxf'}: all sizes for a cutter, each on a layer of its own",
            f"{folder}/size-...: the report, the pattern and the DXF of each size",
        ),
    )
