"""One piece in all sizes of a nest, one drawn over the other, the sizes told apart in black and white.

Our own scheme, which explains itself: the line of the first size is unbroken, and in every further one so many dots
stand between the dashes as sizes lie before it. So a line is known by counting dots, wherever one looks and on any
printer. Beside each line its size is written now and then.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from drafting.errors import InputProblems, Problem
from drafting.geometry import Curve, Point, run_at, run_bounds, run_length, run_tangent
from drafting.pattern import Nest, Piece, laid_together
from drafting.pattern.seam_ends import Sewn
from output.drawings.drawing import SIZE_LINES, Box, Item, LineKind, Stroke, Text, runs
from output.drawings.free_space import first_clear, obstacles, together
from output.drawings.lettering import block, readable, text_width
from output.drawings.piece_drawing import DrawnPiece, piece_lines

if TYPE_CHECKING:
    from output.drawings.free_space import Obstacles

__all__ = ["nested_lines", "nested_pieces", "note_piece"]

_SIZE = 3.0  # of the writing beside a line, mm
_EVERY = 160.0  # how far apart the writing beside one line stands, mm
_TRIES = 24
_OFF = 0.8  # between writing and line, mm


def nested_pieces(nest: Nest) -> tuple[tuple[Piece, ...], ...]:
    """Every piece of a nest in all its sizes, laid together on the grain line.

    Raises InputProblems for more sizes than lines can be told apart.
    """
    if len(nest.sizes) > len(SIZE_LINES):
        raise InputProblems(
            [
                Problem(
                    f"{nest.title}, [sizes] nest",
                    f"{len(nest.sizes)} sizes",
                    f"{len(SIZE_LINES)} sizes or fewer, as more lines cannot be told apart",
                    "Print some of them, such as --sizes 88,92, and then the others.",
                )
            ]
        )
    return tuple(laid_together(nest.piece(name)) for name in nest.piece_names)


def note_piece(pieces: Sequence[Piece]) -> Piece:
    """The piece whose notes are written in the nest: the smallest, without its balance lines."""
    return replace(pieces[0], lines=())


def nested_lines(pieces: Sequence[Piece], sizes: Sequence[str], of_seams: Sequence[Sewn]) -> DrawnPiece:
    """The cutting lines and dart legs of every size, each in its own kind of line, and its size written beside it.

    What belongs to one size alone is on the layer of that size ("size 92").
    of_seams: what it is sewn to in each size, by which its allowances end
    Fold, grain line and the numbers of notches are drawn once. Sewing lines are left out: they lie in from the cutting
    lines by the allowances.
    """
    drawn = [piece_lines(piece, sewn) for piece, sewn in zip(pieces, of_seams, strict=True)]
    items: list[Item] = []
    for kind, size, lines in zip(SIZE_LINES, sizes, drawn, strict=False):
        for stroke in _strokes(lines):
            if stroke.kind in (LineKind.CUTTING, LineKind.DART):
                items.append(Stroke(kind, stroke.curves, _layer(size)))
            elif stroke.kind in (LineKind.NOTCH, LineKind.POINT):
                items.append(replace(stroke, layer=_layer(size)))
    items += [stroke for stroke in _strokes(drawn[0]) if stroke.kind is LineKind.GRAIN]
    items += [item for item in drawn[0].items if isinstance(item, Text)]  # the numbers of its notches
    folds = [stroke for lines in drawn for stroke in _strokes(lines) if stroke.kind is LineKind.FOLD]
    if folds:
        items.append(max(folds, key=lambda stroke: run_length(stroke.curves)))
    boxes = [run_bounds(item.curves) for item in items if isinstance(item, Stroke)]
    left, bottom, right, top = zip(*boxes, strict=True)
    labels = _labels(drawn, sizes, items)
    return DrawnPiece((*items, *labels), drawn[-1].outline, Box(min(left), min(bottom), max(right), max(top)))


def _layer(size: str) -> str:
    return f"size {size}"


def _strokes(drawn: DrawnPiece) -> Iterator[Stroke]:
    return (item for item in drawn.items if isinstance(item, Stroke))


def _labels(drawn: Sequence[DrawnPiece], sizes: Sequence[str], items: Sequence[Item]) -> list[Text]:
    """The sizes written beside their cutting lines, those of neighbours at different places along."""
    taken = obstacles(items)
    texts: list[Text] = []
    for place, (lines, size) in enumerate(zip(drawn, sizes, strict=True)):
        shift = _EVERY * place / len(sizes)
        for stroke in _strokes(lines):
            if stroke.kind is LineKind.CUTTING:
                for run in runs(stroke.curves):
                    whole = run_length(run)
                    for n in range(max(1, int(whole / _EVERY))):
                        spot = _spot(run, (shift + n * _EVERY) % whole, size, together(taken, obstacles(texts)))
                        if spot is not None:
                            texts.append(replace(spot, layer=_layer(size)))
    return texts


def _spot(run: Sequence[Curve], start: float, size: str, taken: Obstacles) -> Text | None:
    """The size beside the line at the first clear place from `start` on; None where there is none before the next."""
    whole = run_length(run)
    room = (text_width(size, _SIZE), _SIZE)
    for n in range(_TRIES):
        along = (start + n * _EVERY / _TRIES) % whole
        at, way = run_at(run, along), run_tangent(run, along)
        angle = readable(math.degrees(way.angle()))
        for side in (1.0, -1.0):
            centre: Point = at + way.left() * (side * (0.5 * _SIZE + _OFF))
            if first_clear(taken, [centre], room, angle=angle):
                return block([(size, _SIZE, False)], centre, angle=angle)[0]
    return None
