"""Reading one block of a DXF: the outline of a piece, its edges, notches, darts, lines and points."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Point, distance, lerp
from drafting.geometry.meet import outline_crossings
from drafting.pattern import Cut, Dart, Edge, Grain, MarkLine, MarkPoint, Notch, Piece, Role, Station
from drafting.pattern.find import free_name
from drafting.pattern.notches import DOUBLE_NOTCH
from drafting.pattern.old_names import piece_by_names
from drafting.pattern.places import (
    BodyPart,
    BodySide,
    Fullness,
    Half,
    Identity,
    Landmark,
    Level,
    NotchMark,
    PieceKind,
    Place,
)
from drafting.pattern.text_values import MOST_CURVES, MOST_EDGES
from output.dxf.block_drawing import BlockReading, place_text
from output.dxf.close_outlines import (
    JOINED,
    Spots,
    Strand,
    nearest,
    outer_loop,
    ring_of,
    sharp_corners,
    split_at,
)
from output.dxf.curves_data import curves_kept
from output.dxf.dxf_layers import Layer, Mark, Word, word_at
from output.dxf.entity_data import MOST_LETTERS, kept_data, texts_by_word
from output.dxf.found_darts import with_found_darts
from output.dxf.smooth_polylines import curves_through

__all__ = ["read_piece"]

_MOST_MARKS: Final = 200
"""Notches, lines and points of one piece, each."""

_SMALLEST: Final = 1.0
"""mm across: an outline smaller than that is no piece of clothing (ours)."""

_CORNER: Final = math.radians(20.0)
"""Where nothing says which places of an outline are its corners, those are where it turns by more (our figure)."""


def read_piece(reading: BlockReading) -> Piece | None:
    """The piece in a block; None, with the problem noted, where its outline is none."""
    edges = _outline(reading)
    if edges is None:
        return None
    ours = any(kept_data(entity) for entity in reading.entities)
    name, cut, identity = _name_and_cut(reading, edges)
    grains = sorted(reading.strands(Layer.GRAIN), key=lambda strand: distance(strand.points[0], strand.points[-1]))
    grain = Grain(grains[-1].points[0], grains[-1].points[-1]) if grains else None
    try:
        darts, notches = _darts(reading, edges), _notches(reading, edges)
        if not ours:
            edges, darts = with_found_darts(edges)
        lines, points = _lines(reading), _points(reading)
        what, corners = identity or Identity(), _corners_meant(reading, edges)
        piece = Piece(name, edges, cut, grain, darts, notches, lines, points, corners, what)
        return piece_by_names(piece) if identity is None else piece
    except NotAPattern as error:
        crossed = outline_crossings([curve for edge in edges for curve in edge.curves], most=1)
        if crossed:
            at = place_text(crossed[0][2].point)
            reading.problem(
                f"an outline that crosses itself at {at}", "one line round the piece that never meets itself"
            )
        else:
            reading.problem(f"an outline that is none ({error.reason})", "one closed line round the piece")
        return None


def _outline(reading: BlockReading) -> tuple[Edge, ...] | None:
    """The edges in their order, anticlockwise; None, and a problem, when the lines close nowhere."""
    folds, boundary = reading.strands(Layer.MIRROR_LINE), reading.strands(Layer.BOUNDARY)
    sewn = reading.strands(Layer.SEW_LINES)
    loop = _closed_line(reading, sewn, boundary, folds)
    if loop is None or _is_a_dot(reading, loop):
        return None
    ours = any(strand.data for strand in loop)
    turns = Spots(at for at, _ in reading.places(Layer.TURN_POINTS))
    bends = [at for at, _ in reading.places(Layer.CURVE_POINTS) if at not in turns]
    if not ours:
        ring = ring_of(loop)
        loop = split_at(ring, turns)
        if len(loop) == 1:
            turns = sharp_corners(ring, _CORNER)
            loop = split_at(ring, turns)
        bends = bends or [at for at in ring.points if at not in turns]
    places = sum(len(strand.points) for strand in loop)
    if len(loop) > MOST_EDGES or places > MOST_CURVES:
        read = f"an outline with {len(loop):,} corners and {places:,} places"
        reading.problem(read, f"up to {MOST_EDGES} corners and {MOST_CURVES:,} places")
        return None
    curved = Spots(bends)
    allowances = _drawn_allowances(loop, boundary) if sewn and not ours else [0.0] * len(loop)
    on_fold = [not strand.data and _lies_on(strand, folds) for strand in loop]
    runs = [curves_kept(strand.data[7:], strand.points) or curves_through(strand.points, curved) for strand in loop]
    edges: list[Edge] = []
    for strand, run, drawn, folded in zip(loop, _met(runs), allowances, on_fold, strict=True):
        name, role, allowance = _edge_data(strand, len(edges) + 1, folded=folded, drawn=drawn)
        data = strand.data
        place, half, drawn_up = word_at(data, 4, Place), word_at(data, 5, Half), word_at(data, 6, Fullness)
        edges.append(Edge(free_name(name, [edge.name for edge in edges]), run, role, allowance, place, half, drawn_up))
    return tuple(edges)


def _is_a_dot(reading: BlockReading, loop: Sequence[Strand]) -> bool:
    """Whether an outline is smaller than anything that is sewn; the problem is noted."""
    xs = [at.x for strand in loop for at in strand.points]
    ys = [at.y for strand in loop for at in strand.points]
    tiny = max(max(xs) - min(xs), max(ys) - min(ys)) < _SMALLEST
    if tiny:
        read = f"an outline less than {_SMALLEST:g} mm across"
        reading.problem(read, "a piece as large as it is sewn", "Look whether the drawing states the right unit.")
    return tiny


def _met(runs: Sequence[tuple[Curve, ...]]) -> list[tuple[Curve, ...]]:
    """The runs of a loop, each ended where the next begins: they were written rounded."""
    return [
        (*run[:-1], replace(run[-1], end=after[0].start))
        for run, after in zip(runs, (*runs[1:], *runs[:1]), strict=True)
    ]


def _closed_line(
    reading: BlockReading, sewn: Sequence[Strand], boundary: Sequence[Strand], folds: Sequence[Strand]
) -> tuple[Strand, ...] | None:
    """The line that is sewn along, else the boundary, else what encloses the most; None, and a problem, for neither.

    Others draw sew lines only where there is an allowance, and none at the fold; ours are the whole outline.
    """
    first = outer_loop(sewn)
    if isinstance(first, tuple) or any(strand.data for strand in sewn):
        found, layer = first, f"layer {Layer.SEW_LINES}"
    else:
        others = [] if sewn or boundary else reading.strands(None)
        found, layer = None, f"layer {Layer.BOUNDARY}" if boundary or sewn else "any layer"
        for lines in ([*sewn, *folds] if sewn else [], boundary, [*boundary, *folds], others):
            loop = outer_loop(lines)
            if isinstance(loop, tuple):
                return loop
            found = found or loop
    if isinstance(found, tuple):
        return found
    read = f"lines on {layer} that stop at {place_text(found)}" if found else f"no line on {layer}"
    reading.problem(read, "one closed line round the piece", "Close the outline.")
    return None


def _drawn_allowances(loop: Sequence[Strand], boundary: Sequence[Strand]) -> list[float]:
    """How far the boundary lies from the middle of each edge, mm to a hundredth; 0 where it is the edge itself."""
    pairs = [strand.points[len(strand.points) // 2 - 1 : len(strand.points) // 2 + 1] for strand in loop]
    off = _off([lerp(pair[0], pair[-1], 0.5) for pair in pairs], boundary) if boundary else [0.0] * len(loop)
    return [round(mm, 2) for mm in off]


def _lies_on(strand: Strand, folds: Sequence[Strand]) -> bool:
    return any(max(_off(strand.points, [fold])) < JOINED for fold in folds)


def _off(places: Sequence[Point], lines: Sequence[Strand]) -> list[float]:
    """How far each place is from the nearest of the lines, mm."""
    import shapely

    drawn = shapely.MultiLineString([[(at.x, at.y) for at in line.points] for line in lines])
    return [float(mm) for mm in shapely.distance(shapely.points([(at.x, at.y) for at in places]), drawn)]


def _edge_data(strand: Strand, number: int, *, folded: bool, drawn: float) -> tuple[str, Role, float]:
    """The name, role and allowance of an edge: as kept on it, else as far as the drawing shows them.

    folded: whether it lies on a line of the fold; drawn: how far from it the boundary is drawn, mm
    """
    match strand.data:
        case (Mark.EDGE.value, str(name), str(role), int(allowance) | float(allowance), *_):
            known = Role(role) if role in list(Role) else Role.SEAM
            return name or f"edge {number}", known, max(0.0, float(allowance))
    return (f"edge {number}", Role.FOLD, 0.0) if folded else (f"edge {number}", Role.SEAM, drawn)


def _name_and_cut(reading: BlockReading, edges: Sequence[Edge]) -> tuple[str, Cut, Identity | None]:
    """The name, how it is cut and what it is; None for that where a file of ours is from before it was written."""
    for entity in reading.entities:
        match data := kept_data(entity):
            case (Mark.PIECE.value, str(name), int(count), int(fold), int(mirror), *more):
                kind, of = word_at(data, 5, PieceKind), word_at(data, 7, PieceKind)
                identity = Identity(kind, word_at(data, 6, BodyPart), of, word_at(data, 8, BodySide)) if more else None
                lining, interfacing = (
                    number if isinstance(number, int) and number > 0 else 0 for number in (*more[4:6], 0, 0)[:2]
                )
                cut = Cut(max(0 if lining else 1, count), bool(fold), bool(mirror), lining, interfacing)
                return (name or reading.name)[:MOST_LETTERS], cut, identity
    words = texts_by_word(reading.entities)
    number = words.get(Word.QUANTITY, "").split(",")[0].strip()
    count = int(number) if number.isascii() and number.isdigit() and len(number) < 4 else 1
    folded = any(edge.role is Role.FOLD for edge in edges)
    return words.get(Word.PIECE) or reading.name[:MOST_LETTERS] or "piece", Cut(max(1, count), folded), Identity()


def _corners_meant(reading: BlockReading, edges: Sequence[Edge]) -> tuple[tuple[str, str], ...]:
    """The neighbouring edges between which our file says that a corner is meant."""
    names = [edge.name for edge in edges]
    beside = {frozenset(pair) for pair in zip(names, (*names[1:], *names[:1]), strict=True)}
    kept = next(
        (data[11:] for entity in reading.entities if (data := kept_data(entity))[:1] == (Mark.PIECE.value,)), ()
    )
    pairs = zip(map(str, kept[::2]), map(str, kept[1::2]), strict=False)
    return tuple(pair for pair in pairs if frozenset(pair) in beside)


def _darts(reading: BlockReading, edges: Sequence[Edge]) -> tuple[Dart, ...]:
    ends = {edge.name: edge for edge in edges}
    darts = []
    for _, data in reading.places(Layer.INTERNAL_LINES):
        match data:
            case (Mark.DART.value, str(name), str(one), str(other), str(aims_at), *_) if one in ends and other in ends:
                darts.append(Dart(name, (one, other), ends[one].end, aims_at))
    return tuple(darts)


def _notches(reading: BlockReading, edges: Sequence[Edge]) -> tuple[Notch, ...]:
    """A notch where its mark comes nearest to the outline; marks of one name are one notch, half way between them."""
    marks: list[tuple[Point, tuple[object, ...]]] = [
        (_nearer_end(strand, edges), strand.data)
        for strand in reading.up_to(_MOST_MARKS, "notches", reading.strands(Layer.NOTCHES))
    ]
    notches: dict[str, list[tuple[Station, str, NotchMark | None]]] = {}
    for at, data in reading.up_to(_MOST_MARKS, "notches", marks or reading.places(Layer.NOTCHES)):
        name, on, style = f"notch {len(notches) + 1}", "", "single"
        match data:
            case (Mark.NOTCH.value, str(written), str(edge), str(kind), *_):
                name, on, style = written or name, edge, kind
        stations = notches.setdefault(name, [])
        beside = [edge for edge in edges if edge.name == on] or edges
        stations.append((_station(at, beside), style, word_at(data, 4, NotchMark)))
    lengths = {edge.name: edge.length for edge in edges}
    return tuple(
        Notch(
            name,
            _between([station for station, *_ in found], lengths),
            "double" if found[0][1] == "double" else "single",
            found[0][2],
        )
        for name, found in notches.items()
    )


def _between(marks: Sequence[Station], lengths: Mapping[str, float]) -> Station:
    """Where a notch stands of which these are the marks: half way between, but for a double one at the end of an edge,
    of which a mark was kept on it.
    """
    edge, at = marks[0].edge, sorted(mark.at for mark in marks)
    middle = sum(at) / len(at)
    if len(at) == 2 and at[1] - at[0] < DOUBLE_NOTCH:
        if at[0] <= JOINED:
            middle = max(0.0, at[1] - 0.5 * DOUBLE_NOTCH)
        elif at[1] >= lengths[edge] - JOINED:
            middle = min(lengths[edge], at[0] + 0.5 * DOUBLE_NOTCH)
    return Station(edge, middle)


def _nearer_end(strand: Strand, edges: Sequence[Edge]) -> Point:
    return min((strand.points[0], strand.points[-1]), key=lambda end: nearest(end, edges)[0])


def _station(at: Point, edges: Sequence[Edge]) -> Station:
    _, edge, along = nearest(at, edges)
    return Station(edge, along)


def _lines(reading: BlockReading) -> tuple[MarkLine, ...]:
    lines: list[MarkLine] = []
    for strand in reading.up_to(_MOST_MARKS, "internal lines", reading.strands(Layer.INTERNAL_LINES)):
        if strand.data and strand.data[0] == Mark.GATHERS:
            continue  # it follows from the seams, which a drawing does not hold
        # lines of others with more places than two may be anything; a pocket is no balance line
        if len(strand.points) == 2 or _name(strand.data, Mark.LINE, ""):
            name = free_name(_name(strand.data, Mark.LINE, f"line {len(lines) + 1}"), [line.name for line in lines])
            run = curves_through(strand.points, Spots(strand.points[1:-1])) if len(strand.points) > 2 else ()
            level, onward = word_at(strand.data, 2, Level), strand.data[3:4] == (1,)
            lines.append(MarkLine(name, strand.points[0], strand.points[-1], run, level, onward))
    return tuple(lines)


def _points(reading: BlockReading) -> tuple[MarkPoint, ...]:
    points: list[MarkPoint] = []
    for layer, called in ((Layer.INTERNAL_LINES, "point"), (Layer.DRILL_POINTS, "drill point")):
        for at, data in reading.up_to(_MOST_MARKS, f"{called}s", reading.places(layer)):
            # a dart is read as one, and ours drills it and the points that are marked already
            if not data or data[0] not in (Mark.DART, Mark.DRILL):
                otherwise = f"{called} {len(points) + 1}"
                name = free_name(_name(data, Mark.POINT, otherwise), [point.name for point in points])
                points.append(MarkPoint(name, at, word_at(data, 2, Landmark)))
    return tuple(points)


def _name(data: tuple[object, ...], mark: Mark, otherwise: str) -> str:
    match data:
        case (str(kind), str(name), *_) if kind == mark and name:
            return name
    return otherwise
