"""The sheets of the dress of women of the open 1988 survey, as it is drafted and after every sample alteration.

    python -m tests.sweep_sheets --every 100        the dress of every hundredth, and after each sample, on A4
    python -m tests.sweep_sheets --paper A0         on another paper

Told are how many sheets it takes, and on how many drafts a sheet carries no piece, carries a sliver, the second squares
are missing, sheets lie wider than a table, what one sheet of A0 holds is cut, a title crosses a line, a sheet does not
name its pieces, and strange sheets lie between those of a piece. tests/outside/test_sheets.py holds the examples to the
same.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator

from shapely import LineString, Polygon, box

from blocks.garment import with_allowances
from drafting.alterations import apply_step
from drafting.errors import TrueseamError
from drafting.geometry import polyline
from drafting.pattern import Pattern
from output.drawings.drawing import LineKind, Stroke, Text
from output.drawings.lettering import corners
from output.sheets.large_sheet import Sheet, lay_out
from output.sheets.paper_grid import Grid
from output.sheets.papers import PAPERS
from output.sheets.sheet_order import torn
from output.sheets.tiling import Tile, tiles
from tests.alteration_samples import sample
from tests.bodies import women
from tests.sweep_alterations import cases, dresses

_SLIVER = 0.02
_TABLE = 1200.0


def found_on(pattern: Pattern, paper: str) -> Iterator[str]:
    """What is not as it should be on the sheets of a pattern."""
    sheet = lay_out(pattern, paper=PAPERS[paper])
    printed = tiles(sheet)
    pieces = [Polygon([(p.x, p.y) for p in piece.outline]).buffer(0.0) for piece in sheet.pieces]
    owns = [_own(sheet, tile) for tile in printed]
    shares = [sum(piece.intersection(own).area for piece in pieces) / own.area for own in owns]
    yield from (f"sheet without a piece: {sum(share == 0.0 for share in shares)}" for _ in [0] if 0.0 in shares)
    if any(0.0 < share < _SLIVER for share in shares):
        yield "sliver"
    squares = [sum(_is(item, LineKind.SQUARE) for item in tile.items) for tile in printed]
    if len(printed) > 1 and (squares[-1] != 2 or shares[-1] == 0.0):
        yield "no squares on the last sheet"
    if sheet.columns * sheet.paper.step_width > _TABLE:
        yield "wider than a table"
    if sheet.paper.large and any(
        len(on) > 1
        and piece.box.width <= sheet.paper.area_width - 2.0
        and piece.box.height <= sheet.paper.area_height - 2.0
        for on, piece in zip(sheet.on, sheet.pieces, strict=True)
    ):
        yield "cut, though one sheet holds it"
    if any(_crossed(tile) for tile in printed):
        yield "title crosses a line"
    if not all(set(tile.pieces) <= set(sheet.names) and _named(tile) for tile in printed):
        yield "a piece is not named"
    if torn(sheet.cells, sheet.on):
        yield "sheets between those of a piece"


def _own(sheet: Sheet, tile: Tile) -> Polygon:
    own = Grid(sheet.paper, sheet.height).own((tile.row, tile.column))
    return box(own.left, own.bottom, own.right, own.top)


def _is(item: object, kind: LineKind) -> bool:
    return isinstance(item, Stroke) and item.kind is kind


def _title(tile: Tile) -> list[Text]:
    texts = [item for item in tile.items if isinstance(item, Text)]
    return texts[next(n for n, text in enumerate(texts) if text.words.startswith("row ")) :]


def _crossed(tile: Tile) -> bool:
    rooms = [Polygon([(p.x, p.y) for p in corners(text)]) for text in _title(tile)]
    for item in tile.items:
        if isinstance(item, Stroke):
            for curve in item.curves:
                line = LineString([(p.x, p.y) for p in polyline([curve], 0.2)])
                if any(room.intersects(line) for room in rooms):
                    return True
    return False


def _named(tile: Tile) -> bool:
    said = " ".join(text.words for text in _title(tile))
    return all(name in said for name in tile.pieces)


def patterns(every: int) -> Iterator[tuple[str, Pattern]]:
    """The dress of every so manieth woman, and after each sample alteration that can be had."""
    for who, dress in dresses(women()[::every]):
        yield f"{who}, as drafted", with_allowances(dress, seam=15.0, hem=40.0)
        for case in cases():
            try:
                altered = apply_step(dress, sample(case.name, case.options))
            except TrueseamError:
                continue
            yield f"{who}, {case.name} {case.label}", with_allowances(altered, seam=15.0, hem=40.0)


def main() -> None:
    """Tell what was found, each with how often and where first."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--every", type=int, default=100)
    parser.add_argument("--paper", default="A4", choices=PAPERS)
    asked = parser.parse_args()
    found: Counter[str] = Counter()
    first: dict[str, str] = {}
    for count, (who, pattern) in enumerate(patterns(asked.every), start=1):
        for what in found_on(pattern, asked.paper):
            found[what] += 1
            first.setdefault(what, who)
            print(f"{count}: {who}: {what}", file=sys.stderr, flush=True)
        found["drafts"] = count
    for what, many in sorted(found.items()):
        print(f"{what}: {many}{f' (first: {first[what]})' if what in first else ''}")


if __name__ == "__main__":
    main()
