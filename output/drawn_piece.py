"""One piece as it is drawn: its lines, marks and notes, in the piece's own place."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from drafting.geometry import (
    Curve,
    Line,
    Move,
    Point,
    arc,
    distance,
    polyline,
    run_at,
    run_bounds,
    run_tangent,
)
from drafting.pattern import Cut, Edge, Grain, Piece, Role
from drafting.pattern.cutting import cutting_line, dart_roof, notch_ends
from drafting.reading.units import length_text
from output.drawing import Box, Item, LineKind, Stroke, Text, item_moved, path
from output.lettering import block, block_size, text_width
from output.room import first_clear, grid, inside, least_crowded, obstacles

__all__ = ["DrawnPiece", "Heading", "allowance_note", "cut_note", "piece_lines", "shifted", "with_notes"]

_OUTLINE_FLAT = 0.5
_ON_FOLD = 0.01
_BARB, _BARB_ANGLE = 6.0, math.radians(20)
_RING = 1.2
_CROSS = 3.0

_NAME, _CUT, _NOTE, _SMALL = 6.5, 5.0, 3.5, 3.2  # sizes of writing, mm
_AIR = 2.0  # kept free around writing, mm
_LABEL_SCALES = (1.0, 0.8, 0.65)
_SHORT_SCALES = (0.8, 0.65, 0.5)
_LABEL_GRID = 10.0


@dataclass(frozen=True, slots=True)
class Heading:
    """What is written on every piece and sheet.

    dated: the date the person gave, as she wrote it; "" for none
    unit:  the unit lengths are shown in: "cm", "in" or "mm"
    """

    title: str
    wearer: str = ""
    dated: str = ""
    unit: str = "cm"


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A piece's drawing, its cutting line as a polygon, and the box around its lines."""

    items: tuple[Item, ...]
    outline: tuple[Point, ...]
    box: Box


def piece_lines(piece: Piece) -> DrawnPiece:
    """The lines of a piece: cutting and sewing line, fold, darts, notches, grain, balance lines, points."""
    border = cutting_line(piece)
    strokes = (*_outlines(piece, border), *_marks(piece, border))
    boxes = [run_bounds(stroke.curves) for stroke in strokes]
    left, bottom, right, top = zip(*boxes, strict=True)
    outline = tuple(polyline(border, _OUTLINE_FLAT)[:-1])
    return DrawnPiece(strokes, outline, Box(min(left), min(bottom), max(right), max(top)))


def with_notes(drawn: DrawnPiece, piece: Piece, heading: Heading, *, joins: Sequence[Stroke] = ()) -> DrawnPiece:
    """The lines of a piece with everything that is written on it.

    joins: lines in the piece's place that the notes keep clear of if they can: where sheets of paper will be joined
    """
    names = _names(piece, drawn.items)
    label = _label(piece, heading, (*drawn.items, *names), joins)
    return replace(drawn, items=(*drawn.items, *names, *label))


def shifted(drawn: DrawnPiece, move: Move) -> DrawnPiece:
    """The same drawing elsewhere; the move must be a shift."""
    box = drawn.box
    return DrawnPiece(
        tuple(item_moved(item, move) for item in drawn.items),
        tuple(move.point(p) for p in drawn.outline),
        Box(box.left + move.e, box.bottom + move.f, box.right + move.e, box.top + move.f),
    )


def cut_note(cut: Cut) -> str:
    """How many to cut, in words: "cut 2, one mirrored"."""
    if cut.fold:
        return "cut 1 on the fold" if cut.count == 1 else f"cut {cut.count}, each on the fold"
    if cut.mirror and cut.count > 1:
        other = "one" if cut.count == 2 else f"{cut.count // 2} of them"
        return f"cut {cut.count}, {other} mirrored"
    return f"cut {cut.count}"


def allowance_note(piece: Piece, unit: str) -> str:
    """What the cutting line adds to the sewing line, in words: "seam allowance 1.5 cm, hem 4 cm, drawn in"."""
    parts = []
    for role, word in ((Role.SEAM, "seam allowance"), (Role.OPENING, "opening"), (Role.HEM, "hem")):
        found = sorted({edge.allowance for edge in piece.edges if edge.role is role and edge.allowance > 0.0})
        if found:
            parts.append(f"{word} {' and '.join(length_text(mm, unit) for mm in found)}")
    return f"{', '.join(parts)}, drawn in" if parts else "no allowances drawn: add them when you cut"


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


def _marks(piece: Piece, border: Sequence[Curve]) -> list[Stroke]:
    strokes = []
    notches = tuple(Line(a, b) for notch in piece.notches for a, b in notch_ends(piece, notch, border))
    if notches:
        strokes.append(Stroke(LineKind.NOTCH, notches))
    if piece.grain:
        strokes.append(Stroke(LineKind.GRAIN, _arrow(piece.grain)))
    if piece.lines:
        strokes.append(Stroke(LineKind.BALANCE, tuple(Line(mark.start, mark.end) for mark in piece.lines)))
    points = [curve for mark in piece.points for curve in (*_ring(mark.at), *_cross(mark.at))]
    points += [curve for dart in piece.darts for curve in _ring(dart.apex)]
    if points:
        strokes.append(Stroke(LineKind.POINT, tuple(points)))
    return strokes


def _arrow(grain: Grain) -> tuple[Curve, ...]:
    curves: list[Curve] = [Line(grain.start, grain.end)]
    for tip, tail in ((grain.start, grain.end), (grain.end, grain.start)):
        back = (tail - tip).unit() * _BARB
        curves.extend(path(tip + back.turned(_BARB_ANGLE), tip, tip + back.turned(-_BARB_ANGLE)))
    return tuple(curves)


def _ring(at: Point) -> tuple[Curve, ...]:
    return arc(at, _RING, 0.0, 2.0 * math.pi)


def _cross(at: Point) -> tuple[Curve, ...]:
    return (
        Line(Point(at.x - _CROSS, at.y), Point(at.x + _CROSS, at.y)),
        Line(Point(at.x, at.y - _CROSS), Point(at.x, at.y + _CROSS)),
    )


def _names(piece: Piece, drawn: Iterable[Item]) -> list[Text]:
    """The names of folds, grain, lines and points, each where it is clear of what is drawn already."""
    items = list(drawn)
    texts: list[Text] = []
    fold_words = "place on fold of cloth" if piece.cut.fold else "fold"
    along: list[tuple[str, tuple[Curve, ...], float]] = [
        (fold_words, edge.curves, 4.5) for edge in piece.edges if edge.role is Role.FOLD
    ]
    if piece.grain:
        along.append(("grain", (Line(piece.grain.start, piece.grain.end),), _NOTE))
    along += [(mark.name, (Line(mark.start, mark.end),), _SMALL) for mark in piece.lines]
    for words, run, size in along:
        texts.append(_beside_line(words, run, size, [*items, *texts]))
    for mark in piece.points:
        texts.append(_beside_point(mark.name, mark.at, [*items, *texts]))
    return texts


def _beside_line(words: str, run: Sequence[Curve], size: float, items: Iterable[Item]) -> Text:
    """A name along a line, on its left if there is room, at the clear place nearest its middle."""
    whole = sum(distance(curve.start, curve.end) for curve in run)
    segments = obstacles(items)
    room = (text_width(words, size), size)
    off = 0.5 * size + 1.0
    for side in (1.0, -1.0):
        spots = sorted(range(5, 96, 5), key=lambda share: (abs(share - 50), share))
        for share in spots:
            at, way = run_at(run, whole * share / 100), run_tangent(run, whole * share / 100)
            centre = at + way.left() * (side * off)
            angle = _readable(math.degrees(way.angle()))
            if first_clear(segments, [centre], room, angle=angle):
                return block([(words, size, False)], centre, angle=angle)[0]
    at, way = run_at(run, 0.5 * whole), run_tangent(run, 0.5 * whole)
    return block([(words, size, False)], at + way.left() * off, angle=_readable(math.degrees(way.angle())))[0]


def _beside_point(words: str, at: Point, items: Iterable[Item]) -> Text:
    width, high = text_width(words, _SMALL), _SMALL
    right, up = 0.5 * width + _CROSS + 1.0, 0.5 * high + _CROSS + 1.0
    around = [
        (right, 0.0),
        (-right, 0.0),
        (0.0, -up),
        (0.0, up),
        (right, -up),
        (-right, -up),
        (right, up),
        (-right, up),
    ]
    centres = [Point(at.x + x * far, at.y + y * far) for far in (1.0, 1.5, 2.0) for x, y in around]
    centre = first_clear(obstacles(items), centres, (width, high)) or centres[0]
    return block([(words, _SMALL, False)], centre)[0]


def _label(piece: Piece, heading: Heading, items: Iterable[Item], joins: Sequence[Stroke]) -> tuple[Text, ...]:
    """The name of the piece and the notes, inside it and clear of its lines; smaller or turned where that is needed."""
    outline = polyline(piece.outline, _OUTLINE_FLAT)
    around = Box(*run_bounds(piece.outline))
    places = grid(around, _LABEL_GRID, near=around.centre)
    places = [p for p, within in zip(places, inside(outline, places), strict=True) if within] or [around.centre]
    lines = _label_lines(piece, heading)
    drawn = list(items)
    segments = obstacles(drawn)
    tries = [(lines, 1.0, obstacles([*drawn, *joins]))] if joins else []
    tries += [(lines, scale, segments) for scale in _LABEL_SCALES]
    # a piece too small for all of it keeps its name and how many to cut
    tries += [(lines[:2], scale, segments) for scale in _SHORT_SCALES]
    for wanted, scale, taken in tries:
        sized = [(words, size * scale, bold) for words, size, bold in wanted]
        width, height = block_size(sized)
        room = (width + 2.0 * _AIR, height + 2.0 * _AIR)
        for angle in (0.0, 90.0):
            centre = first_clear(taken, places, room, angle=angle)
            if centre:
                return block(sized, centre, angle=angle)
    return block(sized, least_crowded(segments, places, room))


def _label_lines(piece: Piece, heading: Heading) -> list[tuple[str, float, bool]]:
    whose = " for ".join(part for part in (heading.title, heading.wearer) if part)
    lines = [(piece.name, _NAME, True), (cut_note(piece.cut), _CUT, False), (whose, _NOTE, False)]
    if heading.dated:
        lines.append((heading.dated, _NOTE, False))
    lines += [(part, _NOTE, False) for part in allowance_note(piece, heading.unit).split(", ")]
    return lines


def _readable(angle: float) -> float:
    """The direction of writing along a line of that direction, degrees, never upside down."""
    angle = (angle + 180.0) % 360.0 - 180.0
    if angle > 90.0 + 1e-6:
        return angle - 180.0
    return angle + 180.0 if angle <= -90.0 + 1e-6 else angle
