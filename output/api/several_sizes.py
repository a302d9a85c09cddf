"""A garment in several sizes of a chart: each drafted and checked, laid over each other, printed together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from blocks.garment import Garment
from blocks.nest import nest_members
from drafting.checks import FAILED
from drafting.dataclass import dataclass
from drafting.errors import InputProblems, NotAPattern, Problem
from drafting.pattern import Nest, Sized
from output.api.asking import Checks, check
from output.api.garment_files import Tell, paper_to_print
from output.api.making import Draft, draft, draft_from
from output.api.screen_lines import laid_outline
from output.drawings.drawing import LINE_STYLES, SIZE_LINES
from output.report.tables import fault_lines

__all__ = ["MOST_SIZES", "SizeMade", "draft_shown", "in_each_size", "pdf_of_sizes", "size_dash", "size_outlines"]

MOST_SIZES: Final = len(SIZE_LINES)
"""So many sizes are told apart by their lines."""


@dataclass(frozen=True, slots=True)
class SizeMade:
    """A garment in one size of several, drafted and checked. size: what it is called"""

    size: str
    drafted: Draft
    checks: Checks


def draft_shown(garment: Garment, *, after: tuple[Garment, Draft] | None = None) -> Draft:
    """The garment drafted; of a nest its middle size, as it lies among the others. Raises as `draft` does.

    after: an earlier state of the same garment and its draft: what has not changed since is not drafted again
    """
    known = after[1] if after else None
    if garment.sizes is None or not garment.sizes.nest:
        return draft(garment, after=known)
    middle = str(garment.sizes.frame)
    if after is not None and replace(after[0], steps=(), sources=()) == replace(garment, steps=(), sources=()):
        own = after[1].garment
    else:
        own = next(member for size, member, _ in nest_members(garment) if size == middle)
    sources = tuple(f"{source}, size {middle}" for source in garment.sources)
    return draft(replace(own, steps=garment.steps, sources=sources), after=known)


def in_each_size(garment: Garment) -> tuple[SizeMade, ...]:
    """The garment in each size that its nest orders, smallest first; nothing where it orders none.

    Raises TrueseamError for a size that cannot be drafted, and where the sizes have not the same edges.
    """
    made = []
    for size, member, pattern in nest_members(garment):
        drafted = draft(member) if pattern is None else draft_from(member, pattern)
        made.append(SizeMade(size, drafted, check(drafted)))
    if made:
        _nest(garment.title, made)
    return tuple(made)


def size_outlines(made: Sequence[SizeMade], on: Draft) -> Mapping[str, Mapping[str, str]]:
    """For each piece of a draft its outline in each size, as path data, laid on it by the grain line; y down, mm."""
    return {
        piece.name: {each.size: laid_outline(on, piece.name, each.drafted) for each in made}
        for piece in on.pattern.pieces
        if all(any(other.name == piece.name for other in each.drafted.pattern.pieces) for each in made)
    }


def size_dash(place: int) -> tuple[float, ...]:
    """The dashes and gaps, mm, by which a size is told from the others, in print too; none for an unbroken line.

    place: which of the sizes it is, the smallest being 0; past `MOST_SIZES` the lines begin again
    """
    return LINE_STYLES[SIZE_LINES[place % MOST_SIZES]].dash


def pdf_of_sizes(
    made: Sequence[SizeMade], *, for_shop: bool, tell: Tell, chosen: Sequence[str] = (), only: Sequence[str] = ()
) -> bytes:
    """The sizes over each other as a PDF: for the printer at home, or for a copy shop.

    chosen: the sizes that are wanted; all of them where none is named; only: the pieces, the same
    Raises InputProblems for more sizes than lines can be told apart.
    """
    from output.api.laying import to_buy
    from output.lay.shopping_list import lines_by_size
    from output.sheets.large_sheet import lay_out, lay_out_nest
    from output.sheets.sheet_pdf import tiles_pdf
    from output.sheets.tiling import tiles

    some = [each for each in made if not chosen or each.size in chosen]
    first = some[0].drafted
    unit, paper = first.unit, paper_to_print(first.garment.paper, first.unit, for_shop=for_shop)
    failed = [
        f"Size {each.size}: {sentence}"
        for each in some
        for sentence in fault_lines([row for row in each.checks.rows if row.verdict in FAILED], unit)
    ]
    bought = lines_by_size({each.size: to_buy(each.drafted) for each in some})
    tell("laying out the sheets", 0.3)
    lay = partial(lay_out, first.pattern) if len(some) == 1 else partial(lay_out_nest, _nest(first.pattern.title, some))
    sheet = lay(paper=paper, dated=first.dated, unit=unit, warnings=failed, to_buy=bought, only=only)
    tell("drawing the sheets", 0.6)
    return tiles_pdf(sheet, tiles(sheet))


def _nest(title: str, made: Sequence[SizeMade]) -> Nest:
    """The sizes as one nest. Raises InputProblems where they have not the same edges."""
    try:
        return Nest(title, tuple(Sized(each.size, each.drafted.pattern) for each in made))
    except NotAPattern as wrong:
        raise InputProblems(
            [Problem("[sizes] nest", str(wrong), "sizes with the same edges", "Draft them one by one.")]
        ) from wrong
