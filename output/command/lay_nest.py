"""`trueseam lay` of a garment that orders a nest: each size laid by itself, what to buy of each in one table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

from blocks.garment import Garment
from blocks.nest import nest_members
from drafting.errors import Problem
from drafting.reading.read_table import refuse
from output.api.laying import LaidCloth, lay, materials_of
from output.command.answer import Answer
from output.command.draft import make_garment
from output.command.lay import Wishes, garment_to_lay, laid
from output.command.progress import progress
from output.command.streams import print_error
from output.files.write_folder import write_all
from output.lay.how_much import shop_length
from output.lay.lay_drawing import lay_svg
from output.lay.lay_words import width_text
from output.report.tables import Column, Passage, Row, Table

__all__ = ["laid_in_each_size"]


def laid_in_each_size(path: Path, wishes: Wishes, *, to: Path | None, unit: str | None, quiet: bool) -> Answer:
    """Lay a garment as `laid` does; one that orders a nest in every size. Raises TrueseamError."""
    garment = garment_to_lay(path, wishes, unit)
    if garment.sizes is None or not garment.sizes.nest:
        return laid(path, wishes, to=to, unit=unit, quiet=quiet)
    if wishes.have is not None:
        where, expected = "the command line, lay --have", "a garment in one size"
        refuse([Problem(where, "a nest", expected, "Lay the size you will sew: bust = 92 under [sizes], no nest.")])
    folder = to if to is not None else Path(f"{path.stem}-lay")
    found = _every_size(garment, wishes, quiet=quiet)
    drawings = {f"size-{size}/{each.material}.svg": _drawing(size, each) for size, cloths in found for each in cloths}
    write_all(folder, drawings, print_error)
    where_drawn = Passage("Written", (f"{folder}/size-...: the drawings to follow while you cut",))
    return Answer(0, (_table(garment, found), where_drawn), lambda: _data(found, folder))


_Found = Sequence[tuple[str, Sequence[LaidCloth]]]
"""Each size with every material laid."""


def _every_size(garment: Garment, wishes: Wishes, *, quiet: bool) -> _Found:
    found = []
    with progress(watched=not quiet) as tell:
        members = nest_members(garment)
        for count, (size, member, pattern) in enumerate(members):
            tell(f"laying size {size}", count / len(members))
            drafted = make_garment(member, drafted=pattern).draft
            cloths = [
                lay(drafted, material, fold=wishes.fold, seconds=wishes.seconds) for material in materials_of(drafted)
            ]
            found.append((size, cloths))
    return found


def _drawing(size: str, each: LaidCloth) -> bytes:
    return lay_svg(each.lay, f"{each.title}, size {size}: {each.material}", each.unit).encode()


def _table(garment: Garment, found: _Found) -> Table:
    """How much of each material to buy, a column to each size."""
    _, first = found[0]
    columns = (Column("cloth"), *(Column(f"size {size}", True) for size, _ in found))
    rows = tuple(
        Row(
            (
                f"{each.material}, {width_text(each.cloth.width, each.unit)} wide",
                *(shop_length(cloths[place].to_buy, each.unit) for _, cloths in found),
            )
        )
        for place, each in enumerate(first)
    )
    return Table(f"{garment.title}: how much to buy, by size", columns, rows)


def _data(found: _Found, folder: Path) -> dict[str, object]:
    """The cloth that each size takes as data for --json, lengths in mm."""
    return {
        "folder": str(folder),
        "sizes": {
            size: [
                {
                    "material": each.material,
                    "cloth": asdict(each.cloth),
                    "length": round(each.length, 3),
                    "to_buy": each.to_buy,
                    "used": round(each.used, 4),
                }
                for each in cloths
            ]
            for size, cloths in found
        },
    }
