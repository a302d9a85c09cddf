"""One piece as it is drawn: its lines, marks and notes, in the piece's own place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING, Final

from drafting.dataclass import dataclass
from drafting.geometry import (
    Curve,
    Line,
    Move,
    Point,
    Vec,
    polyline,
    run_bounds,
    run_length,
    run_place,
)
from drafting.pattern import Edge, Level, Piece, Role
from drafting.pattern.cutting import cutting_line, dart_roof
from drafting.pattern.gathered import thread_lines
from drafting.pattern.notches import notch_ends
from drafting.pattern.seam_ends import ALONE, Sewn
from output.drawings.drawing import TEXT_LAYER, Box, Item, LineKind, Stroke, Text, item_moved, on_layer, path
from output.drawings.free_space import (
    crowding,
    first_clear,
    grid,
    inside,
    least_crowded,
    obstacles,
    rows,
    together,
    which_clear,
)
from output.drawings.lettering import block, block_size, corners, readable, text_width, wrapped
from output.drawings.notch_numbers import notch_numbers
from output.drawings.piece_marks import CROSS, drawn_lines, grain_arrow, mark_curves, printed_points
from output.drawings.piece_notes import Along, PieceWords, cut_note, point_name

if TYPE_CHECKING:
    from output.drawings.free_space import Obstacles, Places

__all__ = [
    "DrawnPiece",
    "Heading",
    "piece_lines",
    "piece_strokes",
    "shifted",
    "with_notes",
]

_OUTLINE_FLAT = 0.5
_ON_FOLD = 0.01

_NAME, _CUT, _LARGE, _NOTE, _SMALL = 6.5, 5.0, 4.5, 3.5, 3.2  # sizes of writing, mm
_AIR = 2.0  # kept free around writing, mm
_LABEL_SCALES = (1.0, 0.8, 0.65)
_SHORT_SCALES = (0.8, 0.65, 0.5)
_SMALL_SCALES = (0.65, 0.5, 0.4, 0.33)
_SHARES = (math.inf, 0.9, 0.6, 0.4)  # of the width of a very small piece, for a line of its label
_LABEL_GRID = 14.0
_PLACES_ACROSS = 15
_OFFS = (1.0, 3.0, 6.0, 10.0, 16.0)  # between a line and the words along it, mm, the nearest that is clear


@dataclass(frozen=True, slots=True)
class Heading:
    """What is written on every piece and sheet.

    dated: the date the person gave, as she wrote it; "" for none
    unit:  the unit lengths are shown in: "cm", "in" or "mm"
    cautions: what to beware of where it is for a child, a sentence each, for the first sheet
    """

    title: str
    wearer: str = ""
    dated: str = ""
    unit: str = "cm"
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece's drawing, its cutting line as a polygon, and the box around its lines."""

    items: tuple[Item, ...]
    outline: tuple[Point, ...]
    box: Box


def piece_lines(piece: Piece, sewn: Sewn = ALONE) -> DrawnPiece:
    """The lines of a piece: cutting and sewing line, fold, darts, notches with numbers, grain, balance lines, points.

    sewn: what it is sewn to, by which its allowances end and its notches are numbered
    """
    return piece.remembered(("drawn lines", sewn.key), lambda: _piece_lines(piece, sewn))


def _piece_lines(piece: Piece, sewn: Sewn) -> DrawnPiece:
    (strokes, box), border = piece_strokes(piece, sewn), cutting_line(piece, sewn)
    outline = tuple(polyline(border, _OUTLINE_FLAT)[:-1])
    return DrawnPiece((*strokes, *notch_numbers(piece, sewn, border, strokes)), outline, box)


def piece_strokes(piece: Piece, sewn: Sewn = ALONE) -> tuple[tuple[Stroke, ...], Box]:
    """The lines of a piece without any writing, and the box around them."""
    return piece.remembered(("strokes", sewn.key), lambda: _piece_strokes(piece, sewn))


def _piece_strokes(piece: Piece, sewn: Sewn) -> tuple[tuple[Stroke, ...], Box]:
    border = cutting_line(piece, sewn)
    strokes = (*_outlines(piece, border), *_marks(piece, border), *_threads(sewn))
    left, bottom, right, top = zip(*(run_bounds(stroke.curves) for stroke in strokes), strict=True)
    return strokes, Box(min(left), min(bottom), max(right), max(top))


def with_notes(
    drawn: DrawnPiece,
    piece: Piece,
    heading: Heading,
    words: PieceWords,
    *,
    joins: Sequence[Stroke] = (),
    there: Sequence[Item] = (),
) -> DrawnPiece:
    """The lines of a piece with everything that is written on it.

    words: what is written beside the names of what is marked
    joins: lines in the piece's place that the notes keep clear of if they can: where sheets of paper will be joined
    there: what else stands in the piece's place and is not to be written over
    """
    what = ("notes", drawn, heading, words, tuple(joins), tuple(there))
    return piece.remembered(what, lambda: _with_notes(drawn, piece, heading, words, joins, there))


def _with_notes(
    drawn: DrawnPiece,
    piece: Piece,
    heading: Heading,
    words: PieceWords,
    joins: Sequence[Stroke],
    there: Sequence[Item],
) -> DrawnPiece:
    taken, avoided = obstacles((*drawn.items, *there)), obstacles(joins)
    names = _names(piece, words, taken, avoided, drawn.outline)
    label = _label(drawn, piece, heading, words, obstacles(names, besides=taken), avoided)
    return replace(drawn, items=(*drawn.items, *on_layer((*names, *label), TEXT_LAYER)))


def shifted(drawn: DrawnPiece, move: Move) -> DrawnPiece:
    """The same drawing elsewhere; the move must be a shift."""
    box = drawn.box
    return DrawnPiece(
        tuple(item_moved(item, move) for item in drawn.items),
        tuple(move.point(p) for p in drawn.outline),
        Box(box.left + move.e, box.bottom + move.f, box.right + move.e, box.top + move.f),
    )


def _outlines(piece: Piece, border: Sequence[Curve]) -> list[Stroke]:
    folds = [edge for edge in piece.edges if edge.role is Role.FOLD]
    on_fold = [any(_lies_on(curve, edge) for edge in folds) for curve in border]
    sewn = [edge for edge in piece.edges if edge.allowance > 0.0 and edge.role not in (Role.FOLD, Role.DART_LEG)]
    strokes = (
        (LineKind.CUTTING, (curve for curve, fold in zip(border, on_fold, strict=True) if not fold)),
        (LineKind.FOLD, (curve for curve, fold in zip(border, on_fold, strict=True) if fold)),
        (LineKind.SEWING, (curve for edge in sewn for curve in edge.curves)),
        (LineKind.SEWING, (curve for dart in piece.darts for curve in dart_roof(piece, dart))),
        (LineKind.DART, (curve for edge in piece.edges if edge.role is Role.DART_LEG for curve in edge.curves)),
    )
    return [Stroke(kind, run) for kind, curves in strokes if (run := tuple(curves))]


def _lies_on(curve: Curve, edge: Edge) -> bool:
    """Whether a stretch of the cutting line is the fold, or the fold run on through the allowances at its ends."""
    if curve in edge.curves:
        return True
    if not isinstance(curve, Line) or any(not isinstance(part, Line) for part in edge.curves):
        return False
    along = (edge.end - edge.start).unit()
    return all(abs(along.cross(p - edge.start)) <= _ON_FOLD for p in (curve.start, curve.end))


def _threads(sewn: Sewn) -> list[Stroke]:
    """Two rows of stitches along what is gathered: on the longer piece alone, for the other is sewn as it is."""
    run = tuple(curve for held in sewn.held if held.longer and held.kind == "gathered" for curve in thread_lines(held))
    return [Stroke(LineKind.GATHER, run)] if run else []


def _marks(piece: Piece, border: Sequence[Curve]) -> list[Stroke]:
    strokes = []
    notches = tuple(Line(a, b) for notch in piece.notches for a, b in notch_ends(piece, notch, border))
    if notches:
        strokes.append(Stroke(LineKind.NOTCH, notches))
    if piece.grain:
        strokes.append(Stroke(LineKind.GRAIN, grain_arrow(piece.grain)))
    if lines := drawn_lines(piece):
        strokes.append(Stroke(LineKind.BALANCE, tuple(curve for mark in lines for curve in mark.drawn)))
    points = tuple(curve for _, curves in mark_curves(piece) for curve in curves)
    if points:
        strokes.append(Stroke(LineKind.POINT, points))
    return strokes


def _names(piece: Piece, words: PieceWords, taken: Obstacles, joins: Obstacles, border: Sequence[Point]) -> list[Text]:
    """The names of grain, lines and points, and the words along edges and darts, each clear of what is there."""
    along: list[tuple[Along, float]] = []
    if piece.grain:
        along.append((Along("grain", (Line(piece.grain.start, piece.grain.end),)), _NOTE))
    along += [(Along(mark.name, mark.drawn), _SMALL) for mark in drawn_lines(piece)]
    along += [(each, _LARGE if each.large else _SMALL) for each in words.along]
    outline = rows(polyline(piece.outline, _OUTLINE_FLAT))
    texts: list[Text] = []
    let_down = {mark.drawn for mark in piece.lines if mark.level is Level.LET_DOWN}  # they lie beyond the sewing line
    for each, size in along:
        stands = piece.remembered(("stands", each.curves), lambda curves=each.curves: _stands(curves))  # type: ignore[misc]
        room = (obstacles(texts, besides=taken), joins, rows(border) if each.curves in let_down else outline)
        text = _beside_line(each.words, stands, size, *room)
        if each.short and not inside(outline, corners(text)).all():
            text = _beside_line(each.short, stands, size, *room)
        texts.append(text)
    spots = (*((point_name(piece, mark), mark.at) for mark in printed_points(piece)), *words.spots)
    for said, at in spots:
        others = [other for _, other in spots if other != at]
        texts.append(_beside_point(said, at, outline, obstacles(texts, besides=taken), others))
    return texts


def _stands(curves: Sequence[Curve]) -> list[tuple[Point, Vec]]:
    """Places along a line with its direction there, those near its middle first."""
    whole = run_length(curves)
    return [run_place(curves, whole * share / 100) for share in sorted(range(5, 96, 5), key=_from_the_middle)]


def _beside_line(
    words: str,
    stands: Sequence[tuple[Point, Vec]],
    size: float,
    taken: Obstacles,
    joins: Obstacles,
    outline: Places,
) -> Text:
    """Words along a line at a clear place near its middle, on its left and off the joins if there is room."""
    import numpy as np

    angles = [readable(math.degrees(way.angle())) for _, way in stands]
    at, left = rows([at for at, _ in stands]), np.array([(-way.y, way.x) for _, way in stands])
    everything = together(taken, joins)
    tries = [(size, everything), (size, taken), *((size * scale, taken) for scale in _LABEL_SCALES[1:])]
    for high, segments in tries:
        room = (text_width(words, high), high)
        offs = (side * (0.5 * high + off) for off in _OFFS for side in (1.0, -1.0))
        centres = np.concatenate([at + left * off for off in offs])
        turned = np.tile(angles, 2 * len(_OFFS))
        within = inside(outline, centres)
        centres, turned = centres[within], turned[within]
        first = which_clear(segments, centres, room, angle=turned)
        if first is not None:
            return block([(words, high, False)], Point(*centres[first].tolist()), angle=float(turned[first]))[0]
    beside = [
        block([(words, high, False)], at + way.left() * (side * (0.5 * high + _OFFS[0])), angle=angle)[0]
        for high in (size * scale for scale in _SMALL_SCALES)
        for side in (1.0, -1.0)
        for (at, way), angle in zip(stands, angles, strict=True)
    ]
    return _first_within(beside, outline)


def _from_the_middle(share: int) -> tuple[int, int]:
    return abs(share - 50), share


_NEAR_POINT: Final = tuple(
    (x, y)
    for far in (1.25, 1.6, 1.85, 2.0, 2.5, 3.0)
    for x in (0.0, 0.35, -0.35, 0.7, -0.7, 1.0, -1.0)
    for y in (-far, far)
)
"""Places above and below a point and aslant from it, the nearest first: where a corner leaves no room beside it."""


def _beside_point(words: str, at: Point, outline: Places, taken: Obstacles, others: Sequence[Point]) -> Text:
    """A name beside a point, inside the piece and nearer to it than to any of the others, if there is room."""
    around = [(1, 0), (-1, 0), (0, -1), (0, 1), (1, -1), (-1, -1), (1, 1), (-1, 1)]
    steps = [*around, *_NEAR_POINT, *((x * far, y * far) for far in (1.5, 2.0) for x, y in around)]
    near = [(x, y) for x, y in steps if abs(x) <= 1.0 and abs(y) <= 2.0]
    tries = [*((near, scale, scale) for scale in _LABEL_SCALES), *((steps, 1.0, scale) for scale in _LABEL_SCALES)]
    up = 0.5 * _SMALL + CROSS + 1.0
    # what stands before the comma says enough where the whole would stand by another mark
    for said, nearest in ((words, True), (words.partition(",")[0], True), (words, False)):
        width = text_width(said, _SMALL)
        right = 0.5 * width + CROSS + 1.0
        for wanted, off, scale in tries:
            places = [Point(at.x + x * right * off, at.y + y * up * off) for x, y in wanted]
            room = (width * scale, _SMALL * scale)
            within = [
                place
                for place, kept in zip(places, inside(outline, places), strict=True)
                if kept and (not nearest or _is_nearest(place, room, at, others))
            ]
            centre = first_clear(taken, within, room) if within else None
            if centre:
                return block([(said, _SMALL * scale, False)], centre)[0]
    beside = [
        block([(words, _SMALL * scale, False)], Point(at.x + x * right * scale, at.y + y * up * scale))[0]
        for scale in _SMALL_SCALES
        for x, y in around
    ]
    return _first_within(beside, outline)


def _is_nearest(centre: Point, room: tuple[float, float], at: Point, others: Sequence[Point]) -> bool:
    """Whether words about a centre, so wide and high, lie nearer to a point than to any of the others."""

    def off(point: Point) -> float:
        return math.hypot(
            max(0.0, abs(point.x - centre.x) - 0.5 * room[0]), max(0.0, abs(point.y - centre.y) - 0.5 * room[1])
        )

    return all(off(at) < off(other) for other in others)


def _first_within(texts: Sequence[Text], outline: Places) -> Text:
    """The first that lies on the piece, over its lines where that cannot be helped; the last where none does."""
    return next((text for text in texts if inside(outline, corners(text)).all()), texts[-1])


def _label(
    drawn: DrawnPiece, piece: Piece, heading: Heading, words: PieceWords, taken: Obstacles, joins: Obstacles
) -> tuple[Text, ...]:
    """The name of the piece and the notes, inside it and clear of its lines; smaller or turned where that is needed."""
    outline = polyline(piece.outline, _OUTLINE_FLAT)
    around = Box(*run_bounds(piece.outline))
    places = grid(around, _LABEL_GRID, near=around.centre)
    within = inside(outline, places)
    places = places[within] if within.any() else rows([around.centre])
    lines = _label_lines(piece, heading, words)
    off_joins = together(taken, joins)
    tries = [(lines, scale, off_joins) for scale in _LABEL_SCALES[:2]]
    tries += [(lines, scale, taken) for scale in _LABEL_SCALES]
    # a piece too small for all of it keeps whose it is, in one line, or only its name and how many to cut
    least = lines[: 1 + len(cut_note(piece))]
    owned = ", ".join(words for words, _, _ in lines[len(least) : len(least) + 2])
    tries += [([*least, (owned, _NOTE, False)], scale, taken) for scale in _SHORT_SCALES]
    tries += [(least, scale, taken) for scale in _SHORT_SCALES]
    for wanted, scale, segments in tries:
        sized = [(words, size * scale, bold) for words, size, bold in wanted]
        width, height = block_size(sized)
        room = (width + 2.0 * _AIR, height + 2.0 * _AIR)
        for angle in (0.0, 90.0):
            centre = first_clear(segments, places, room, angle=angle)
            if centre:
                return block(sized, centre, angle=angle)
    return _label_of_small(least, drawn, taken)


def _label_of_small(lines: Sequence[tuple[str, float, bool]], drawn: DrawnPiece, taken: Obstacles) -> tuple[Text, ...]:
    """The lines on a very small piece: broken and small enough to keep clear of its own lines, or else across them.

    Its cutting line is crossed only where the smallest writing has no room within it.
    """
    outline, around = drawn.outline, drawn.box
    edge = obstacles([Stroke(LineKind.CUTTING, path(*outline, outline[0]))])
    places = grid(around, min(_LABEL_GRID, around.width / _PLACES_ACROSS), near=around.centre)
    places = places[inside(outline, places)]
    for avoided, scale, share in product((taken, edge), _SMALL_SCALES, _SHARES):
        sized = [
            (line, size * scale, bold)
            for words, size, bold in lines
            for line in wrapped(words, size * scale, share * around.width)
        ]
        room = block_size(sized)
        for angle in (0.0, 90.0):
            clear = places[crowding(avoided, places, room, angle=angle) == 0]
            if len(clear):
                return block(sized, least_crowded(taken, clear, room, angle=angle), angle=angle)
    return block(sized, around.centre)


def _label_lines(piece: Piece, heading: Heading, words: PieceWords) -> list[tuple[str, float, bool]]:
    whose = " for ".join(part for part in (heading.title, heading.wearer) if part)
    small = [part for part in (words.number, whose, heading.dated, *words.notes) if part]
    return [
        (piece.name, _NAME, True),
        *((line, _CUT, False) for line in cut_note(piece)),
        *((part, _NOTE, False) for part in small),
    ]
