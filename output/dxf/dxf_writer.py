"""A pattern as DXF, for a cutter or a drawing program: a block to each piece, in the layers of ASTM D6673.

The names of edges, notches, darts and marks ride on their entities as extended data, which a reader that does not know
them leaves alone; the edges' names stand as texts too. So do the seams and derived pieces on the blocks that are
inserted, from which our own reader has them back. Nothing of the wearer's body is kept: the file goes to a cutter.

A nest is one file: a block to each piece in each size, called after both ("SLEEVE-92"), the sizes of a piece laid one
over the other on the grain line. Each is inserted on a layer of its size ("SIZE-92"), our own plain scheme, so that a
size is shown or hidden as a whole; within a block the layers are those of the standard.

Curves become polylines that stray from them by at most 0.05 mm, the places chosen so that all chords stray alike
(`few_chords.py`). What is sewn loses at most 0.05 mm of its length: an edge that turns by more than three radians in
all is drawn the finer.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import (
    Curve,
    Line,
    Point,
    Vec,
    end_tangents,
    length,
    lerp,
    run_at,
    run_bounds,
    run_tangent,
)
from drafting.pattern import Dart, Edge, Landmark, Nest, Notch, Pattern, Piece, Role, laid_together
from drafting.pattern.cutting import cutting_line
from drafting.pattern.gathered import Held, thread_lines
from drafting.pattern.notches import notch_ends
from drafting.pattern.seam_ends import Sewn, sewn
from drafting.pattern.text import seams_json
from output.drawings.drawing import runs
from output.dxf.curves_data import chords, curves_data, joined, rounded, sewn_stray
from output.dxf.dxf_file import Entities, dxf_file
from output.dxf.dxf_layers import CHORD, CUT_CHORD, METRIC, SIZE_LAYER, Layer, Mark, Word
from output.dxf.entity_data import spaces_kept

__all__ = ["block_names", "dxf_bytes", "nest_dxf_bytes"]

_TURN: Final = 0.02
"""A join where the direction changes by more is a turn point, radians: about a degree, the least that shows."""

_APART: Final = 50.0
"""Air between two pieces in the drawing, mm."""

_BELOW: Final = 40.0
"""mm below the pieces in which the title and the unit stand."""

_SHORT_OF_POINT: Final = 13.0
"""mm by which a dart is drilled short of its point: half an inch (common practice, from memory)."""

_DRILLED: Final = (Landmark.BUTTON, Landmark.POCKET)
"""Points where something is sewn on, which a cutter marks with a hole."""

_NAME_SIZE, _EDGE_SIZE = 6.0, 3.0

_KEPT_LINE: Final = 240
"""Letters to a line of what is kept: a reader may refuse more than 255."""

_LONGEST_BLOCK_NAME: Final = 31


def dxf_bytes(pattern: Pattern) -> bytes:
    """The pattern as a DXF file in millimetres. No clock and no random ids: one pattern gives one file.

    Raises NotAPattern where the allowances of a piece leave no line to cut along.
    """
    names = block_names(piece.name for piece in pattern.pieces)
    size, of_seams = pattern.wearer.name, sewn(pattern)
    placed = [_Placed(p, name, size, of_seams[p.name]) for p, name in zip(pattern.pieces, names, strict=True)]
    return _file(pattern.title, [[each] for each in placed], spaces_kept(seams_json(pattern)))


def nest_dxf_bytes(nest: Nest) -> bytes:
    """The pattern in all its sizes as one DXF file in millimetres, the sizes of a piece laid together.

    Raises NotAPattern where the allowances of a piece leave no line to cut along.
    """
    sizes = [each.size for each in nest.sizes]
    endings = block_names(sizes, longest=_LONGEST_BLOCK_NAME // 2)
    room = _LONGEST_BLOCK_NAME - 1 - max(map(len, endings))
    of_seams = [sewn(each.pattern) for each in nest.sizes]
    return _file(
        nest.title,
        [
            [
                _Placed(piece, f"{stem}-{ending}", size, each[name], f"{SIZE_LAYER}{ending}")
                for piece, ending, size, each in zip(
                    laid_together(nest.piece(name)), endings, sizes, of_seams, strict=True
                )
            ]
            for name, stem in zip(nest.piece_names, block_names(nest.piece_names, longest=room), strict=True)
        ],
    )


@dataclass(frozen=True, slots=True)
class _Placed:
    """A piece, the name of its block, its size in words, what it is sewn to; the layer the block is inserted on."""

    piece: Piece
    block: str
    size: str
    sewn: Sewn
    layer: str = "0"


def block_names(pieces: Iterable[str], *, longest: int = _LONGEST_BLOCK_NAME) -> tuple[str, ...]:
    """A block name for each piece, no two alike: A to Z, 0 to 9, - and _ only, at most so many of them."""
    taken: list[str] = []
    for piece in pieces:
        plain = unicodedata.normalize("NFKD", piece).upper()
        letters = (
            c if c in "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_" else "_" for c in plain if not unicodedata.combining(c)
        )
        stem = "".join(letters)[:longest] or "PIECE"
        name, count = stem, 1
        while name in taken:
            count += 1
            ending = f"-{count}"
            name = stem[: longest - len(ending)] + ending
        taken.append(name)
    return tuple(taken)


def _file(title: str, together: Sequence[Sequence[_Placed]], seams: str = "") -> bytes:
    """The file of a title and its pieces; those of one group lie one over the other.

    seams: what is kept of them for our own reader, without spaces
    """
    drawing = Entities()
    blocks: dict[str, Entities] = {}
    right = highest = 0.0
    for group in together:
        borders = [cutting_line(placed.piece, placed.sewn) for placed in group]
        left, bottom, far_right, top = run_bounds([curve for border in borders for curve in border])
        for placed, border in zip(group, borders, strict=True):
            kept = _kept(seams, len(blocks), len(together))
            blocks[placed.block] = Entities()
            _Block(blocks[placed.block]).draw(placed.piece, border, placed.size, placed.sewn)
            drawing.insert(placed.block, Point(right - left, -bottom), placed.layer, kept)
        right += far_right - left + _APART
        highest = max(highest, top - bottom)
    for i, words in enumerate((f"{Word.STYLE}: {title}", f"{Word.UNITS}: {METRIC}")):
        drawing.text(words, Point(0.0, -3.0 * _NAME_SIZE - 2.0 * _NAME_SIZE * i), _NAME_SIZE, Layer.TEXT)
    sizes = [placed.layer for placed in together[0] if placed.layer != "0"] if together else []
    extents = Point(0.0, -_BELOW), Point(max(0.0, right - _APART), highest)
    return dxf_file(blocks, drawing, sizes, extents=extents)


def _kept(seams: str, number: int, pieces: int) -> tuple[int | str, ...]:
    """The share of the seams that the block of that number keeps: an entity may keep 16 kB, all may need more."""
    share = math.ceil(len(seams) / pieces)
    part = seams[number * share : (number + 1) * share]
    lines = [part[at : at + _KEPT_LINE] for at in range(0, len(part), _KEPT_LINE)]
    return (Mark.SEAMS, number, *lines) if lines else ()


@dataclass(frozen=True, slots=True)
class _Block:
    """The block of one piece, and how each kind of thing is drawn in it."""

    entities: Entities
    pointed: set[tuple[Layer, float, float]] = field(default_factory=set)

    def draw(self, piece: Piece, border: Sequence[Curve], size: str, sewn: Sewn) -> None:
        """Everything of the piece, in its own coordinates."""
        self._boundary(border)
        for edge in piece.edges:
            self._edge(edge)
        for notch in piece.notches:
            self._notch(piece, notch, border, sewn.numbers)
        for edge in piece.edges:
            if edge.role is Role.FOLD:
                self.entities.line(edge.start, edge.end, Layer.MIRROR_LINE)
        if piece.grain:
            self.entities.line(piece.grain.start, piece.grain.end, Layer.GRAIN)
        for line in piece.lines:
            self._run(line.drawn, Layer.INTERNAL_LINES, (Mark.LINE, line.name, line.level or "", int(line.onward)))
        for mark in piece.points:
            self.entities.point(mark.at, Layer.INTERNAL_LINES, (Mark.POINT, mark.name, mark.landmark or ""))
            if mark.landmark in _DRILLED:
                self.entities.point(mark.at, Layer.DRILL_POINTS, (Mark.DRILL, mark.name))
        for dart in piece.darts:
            data = (Mark.DART, dart.name, *dart.legs, dart.aims_at)
            self.entities.point(dart.apex, Layer.INTERNAL_LINES, data)
            self.entities.point(_drilled(piece, dart), Layer.DRILL_POINTS, (Mark.DRILL, dart.name))
        for held in sewn.held:
            if held.kind == "gathered":
                self._gathers(held)
        self._label(piece, size)

    def _gathers(self, held: Held) -> None:
        """A line along what is gathered, or onto which another piece is, kept with its two ends."""
        word = "gather" if held.longer else "gathered onto this"
        for run in runs(thread_lines(held)):
            data = (Mark.GATHERS, held.seam, held.begin, held.end, round(held.to, 3))
            self._run(run, Layer.INTERNAL_LINES, data)
        middle = 0.5 * held.length
        inward = run_tangent(held.curves, middle).left()
        between = f"from {held.begin or 'the end'} to {held.end or 'the end'}"
        at = run_at(held.curves, middle) + inward * 4.0 * _EDGE_SIZE
        self.entities.text(f"{Word.NOTE}: {word} {between}", at, _EDGE_SIZE, Layer.TEXT)

    def _boundary(self, border: Sequence[Curve]) -> None:
        self._drawn(border, CUT_CHORD, Layer.BOUNDARY)

    def _edge(self, edge: Edge) -> None:
        run = rounded(edge.curves)
        types = (edge.place or "", edge.half or "", edge.drawn_up or "")
        data = (Mark.EDGE, edge.name, edge.role.value, edge.allowance, *types, *curves_data(run))
        self._drawn(run, sewn_stray(run), Layer.SEW_LINES, data)
        middle = 0.5 * edge.length
        inward = run_tangent(edge.curves, middle).left() if edge.length > 0.0 else Vec(0.0, 0.0)
        self.entities.text(edge.name, run_at(edge.curves, middle) + inward * _EDGE_SIZE, _EDGE_SIZE, Layer.TEXT)

    def _notch(self, piece: Piece, notch: Notch, border: Sequence[Curve], numbers: Mapping[str, int]) -> None:
        """A point on the boundary, for the cutter, a line from there to the sew line that it marks, and its number."""
        data = (Mark.NOTCH, notch.name, notch.station.edge, str(notch.style), notch.marks or "")
        bare = piece.edge(notch.station.edge).allowance == 0.0
        marks = notch_ends(piece, notch, border)
        for foot, far in marks:
            self.entities.line(foot, far, Layer.NOTCHES, data)
            cut = foot if bare else far
            self.entities.point(cut, Layer.NOTCHES, reach=(far if bare else foot) - cut)
        if notch.name in numbers:
            foot, far = marks[0]
            beside = (far - foot).unit() * (_EDGE_SIZE if bare else -_EDGE_SIZE)
            self.entities.text(str(numbers[notch.name]), foot + beside, _EDGE_SIZE, Layer.TEXT)

    def _drawn(self, run: Sequence[Curve], stray: float, layer: Layer, data: Sequence[float | str] = ()) -> None:
        """A line, and a point on each of its places: turn points where it has a corner or an end, else curve points."""
        seen = [curve for curve in run if length(curve) > 0.0]
        drawn = chords(seen, stray)
        places = joined(drawn)
        closed = layer is Layer.BOUNDARY
        self.entities.polyline(places[:-1] if closed else places, layer, data, closed=closed)
        for i, (curve, along) in enumerate(zip(seen, drawn, strict=True)):
            turns = _turns(seen[i - 1], curve) if i or closed else True
            self._point(along[0], Layer.TURN_POINTS if turns else Layer.CURVE_POINTS)
            for place in along[1:-1]:
                self._point(place, Layer.CURVE_POINTS)
        if places and not closed:
            self._point(places[-1], Layer.TURN_POINTS)

    def _point(self, at: Point, layer: Layer) -> None:
        """A turn or curve point, unless another line of the piece has drawn it."""
        spot = (layer, round(at.x, 3), round(at.y, 3))
        if spot not in self.pointed:
            self.pointed.add(spot)
            self.entities.point(at, layer)

    def _label(self, piece: Piece, size: str) -> None:
        """Write on a piece its name, its size and how it is cut, with what reads it back kept beside it."""
        cut = piece.cut
        words = [f"{Word.PIECE}: {piece.name}", f"{Word.SIZE}: {size}", f"{Word.QUANTITY}: {cut.count or cut.lining}"]
        words += [f"{Word.UNITS}: {METRIC}"]
        if cut.fold:
            words.append(f"{Word.NOTE}: on the fold")
        if cut.mirror:
            words.append(f"{Word.NOTE}: half of them mirrored")
        left, bottom, right, top = run_bounds(piece.outline)
        at = Point(0.5 * (left + right), 0.5 * (bottom + top))
        what = piece.identity
        identity = (what.kind or "", what.part or "", what.of or "", what.side or "")
        corners = [name for pair in piece.points_meant for name in pair]
        data: tuple[int | str, ...] = (Mark.PIECE, piece.name, cut.count, int(cut.fold), int(cut.mirror))
        data = (*data, *identity, cut.lining, cut.interfacing, *corners)
        self.entities.text(words[0], at, _NAME_SIZE, Layer.TEXT, data)
        for i, line in enumerate(words[1:], start=1):
            self.entities.text(line, at + Vec(0.0, -2.0 * _NAME_SIZE * i), _NAME_SIZE, Layer.TEXT)

    def _run(self, run: Sequence[Curve], layer: Layer, data: Sequence[float | str]) -> None:
        if len(run) == 1 and isinstance(run[0], Line):
            self.entities.line(run[0].start, run[0].end, layer, data)
        else:
            self.entities.polyline(joined(chords(run, CHORD)), layer, data)


def _drilled(piece: Piece, dart: Dart) -> Point:
    """Where the cloth is drilled for a dart: in its middle, short of its point, where the sewn dart hides the hole."""
    into, out = (piece.edge(leg) for leg in dart.legs)
    back = lerp(into.start, out.end, 0.5) - dart.apex
    return dart.apex + back.unit() * min(_SHORT_OF_POINT, 0.5 * back.norm())


def _turns(before: Curve, after: Curve) -> bool:
    arriving, leaving = end_tangents(before)[1], end_tangents(after)[0]
    return abs(arriving.cross(leaving)) > _TURN or arriving.dot(leaving) < 0.0
