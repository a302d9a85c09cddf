"""Reading one block of a DXF: the outline of a piece, its edges, notches, darts, lines and points."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, islice
from typing import TYPE_CHECKING, Final

from drafting.errors import NotAPattern, Problem
from drafting.geometry import Line, Point, distance, lerp, run_bounds
from drafting.pattern import Cut, Dart, Edge, Grain, MarkLine, MarkPoint, Notch, Piece, Role, Station
from drafting.pattern.find import free_name
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
from output.drawings.drawing import Box
from output.dxf.close_outlines import (
    JOINED,
    Spots,
    Strand,
    closed_loops,
    nearest,
    outer_loop,
    ring_of,
    sharp_corners,
    split_at,
    without_copies,
)
from output.dxf.curves_data import curves_kept
from output.dxf.dxf_layers import APP, Layer, Mark, Word, word_at
from output.dxf.smooth_polylines import curves_through

if TYPE_CHECKING:
    from ezdxf.entities.dxfentity import DXFEntity

__all__ = ["BlockReading", "layer_of", "printable_text", "read_piece", "texts_by_word"]

_FLAT: Final = 0.01
"""How near the polyline of an arc or a spline in another's file comes to it, mm."""

_MOST_PIECES: Final = 100
_MOST_PLACES: Final = 20_000
"""Of one line: a hem of three metres has a place for each 0.15 mm then."""

_CORNER: Final = math.radians(20.0)
"""Where nothing says which places of an outline are its corners, those are where it turns by more (our figure)."""

_FAR: Final = 100_000.0
"""No coordinate of a garment is larger, mm."""


@dataclass(frozen=True, slots=True)
class BlockReading:
    """One piece being read.

    entities: what is drawn of it: those of its block, or of its place in the drawing itself
    name:     that of its block, "" where it has none
    scale:    millimetres to the unit of the file
    """

    entities: Sequence[DXFEntity]
    name: str
    scale: float
    place: str
    problems: list[Problem]

    def on(self, layer: Layer) -> list[DXFEntity]:
        """The entities of the block on a layer."""
        return [entity for entity in self.entities if layer_of(entity) == layer.value]

    def strands(self, layer: Layer | None) -> list[Strand]:
        """The lines on a layer, or on all: arcs and splines flattened, places that repeat dropped."""
        entities = self.entities if layer is None else self.on(layer)
        found = (Strand(self._along(entity), _data(entity)) for entity in entities)
        return without_copies(strand for strand in found if len(strand.points) > 1)

    def places(self, layer: Layer) -> list[tuple[Point, tuple[object, ...]]]:
        """The points on a layer, with what is kept on them."""
        dots = [entity for entity in self.on(layer) if entity.dxftype() == "POINT"]
        found = [(self._scaled(entity.dxf.get("location", (0.0, 0.0))), _data(entity)) for entity in dots]
        return [(at, data) for at, data in found if self._near(at)]

    def parted(self) -> list[BlockReading]:
        """Each closed line that lies in no other, with all that is drawn within it, as a piece of its own."""
        outlines = self.strands(Layer.BOUNDARY) or self.strands(Layer.SEW_LINES) or self.strands(None)
        boxes = [Box(*run_bounds(Strand(loop).lines())).grown(JOINED) for loop in closed_loops(outlines)]
        outer: list[Box] = []
        for box in sorted(boxes, key=lambda box: -box.width * box.height):
            low, high = Point(box.left, box.bottom), Point(box.right, box.top)
            if not any(other.holds(low) and other.holds(high) for other in outer):
                outer.append(box)
            if len(outer) > _MOST_PIECES:
                self.problem(f"more than {_MOST_PIECES} closed lines side by side", "the pieces of one pattern")
                return []
        within: dict[Box, list[DXFEntity]] = {box: [] for box in outer}
        for entity in self.entities:
            at = self._begins(entity)
            for box in [each for each in outer if at is not None and each.holds(at)][:1]:
                within[box].append(entity)
        return [replace(self, entities=entities) for entities in within.values()]

    def _begins(self, entity: DXFEntity) -> Point | None:
        """A place of what is drawn; None where it has none that is known."""
        for key in ("location", "insert"):
            if entity.is_supported_dxf_attrib(key) and entity.dxf.hasattr(key):
                return self._scaled(entity.dxf.get(key))
        return next(iter(self._along(entity)), None)

    def _along(self, entity: DXFEntity) -> tuple[Point, ...]:
        from ezdxf import path

        try:
            drawn = path.make_path(entity)
        except (TypeError, ValueError, ArithmeticError):
            return ()  # a text, say: no line
        if not all(self._near(self._scaled(corner)) for corner in drawn.control_vertices()):
            return ()
        drawn_as = list(islice(drawn.flattening(_FLAT / self.scale), _MOST_PLACES + 1))
        if len(drawn_as) > _MOST_PLACES:
            self.problem(f"a line of more than {_MOST_PLACES:,} places", "the outline of a piece of clothing")
            return ()
        return tuple(point for point, _ in groupby(map(self._scaled, drawn_as)))

    def _scaled(self, place: Sequence[float]) -> Point:
        return Point(place[0] * self.scale, place[1] * self.scale)

    def _near(self, at: Point) -> bool:
        if abs(at.x) <= _FAR and abs(at.y) <= _FAR:
            return True
        self.problem(f"a place at {_at(at)}", f"numbers up to {_FAR:g} mm")
        return False

    def problem(self, read: str, expected: str, mend: str = "") -> None:
        self.problems.append(Problem(self.place, read, expected, mend))


def read_piece(reading: BlockReading) -> Piece | None:
    """The piece in a block; None, with the problem noted, where its outline is none."""
    edges = _outline(reading)
    if edges is None:
        return None
    name, cut, identity = _name_and_cut(reading, edges)
    grains = sorted(reading.strands(Layer.GRAIN), key=lambda strand: distance(strand.points[0], strand.points[-1]))
    grain = Grain(grains[-1].points[0], grains[-1].points[-1]) if grains else None
    try:
        darts, notches = _darts(reading, edges), _notches(reading, edges)
        lines, points = _lines(reading), _points(reading)
        what, corners = identity or Identity(), _corners_meant(reading, edges)
        piece = Piece(name, edges, cut, grain, darts, notches, lines, points, corners, what)
        return piece_by_names(piece) if identity is None else piece
    except NotAPattern as error:
        reading.problem(f"an outline that is none ({error.reason})", "one closed line round the piece")
        return None


def _outline(reading: BlockReading) -> tuple[Edge, ...] | None:
    """The edges in their order, anticlockwise; None, and a problem, when the lines close nowhere."""
    folds, boundary = reading.strands(Layer.MIRROR_LINE), reading.strands(Layer.BOUNDARY)
    loop = _closed_line(reading, boundary, folds)
    if loop is None:
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
    curved = Spots(bends)
    edges: list[Edge] = []
    for strand in loop:
        name, role, allowance = _edge_data(strand, folds, len(edges) + 1)
        data = strand.data
        run = curves_kept(data[7:], strand.points) or curves_through(strand.points, curved)
        place, half, drawn_up = word_at(data, 4, Place), word_at(data, 5, Half), word_at(data, 6, Fullness)
        if not ours and role is not Role.FOLD:
            allowance = _drawn_allowance(strand, boundary)
        edges.append(Edge(free_name(name, [edge.name for edge in edges]), run, role, allowance, place, half, drawn_up))
    return tuple(edges)


def _closed_line(
    reading: BlockReading, boundary: Sequence[Strand], folds: Sequence[Strand]
) -> tuple[Strand, ...] | None:
    """The line that is sewn along, else the boundary, else what encloses the most; None, and a problem, for neither.

    Others draw sew lines only where there is an allowance, and none at the fold; ours are the whole outline.
    """
    sewn = reading.strands(Layer.SEW_LINES)
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
    read = f"lines on {layer} that stop at {_at(found)}" if found else f"no line on {layer}"
    reading.problem(read, "one closed line round the piece", "Close the outline.")
    return None


def _drawn_allowance(strand: Strand, boundary: Sequence[Strand]) -> float:
    """How far the boundary lies from the middle of an edge, mm to a hundredth; 0 where it is the edge itself."""
    middle = strand.points[len(strand.points) // 2 - 1 : len(strand.points) // 2 + 1]
    at = lerp(middle[0], middle[-1], 0.5)
    off = min((_off(at, line) for border in boundary for line in border.lines()), default=0.0)
    return round(off, 2)


def _off(at: Point, line: Line) -> float:
    """How far a place is from a straight line between two places, mm."""
    step = line.end - line.start
    share = (at - line.start).dot(step) / step.dot(step)
    return distance(at, lerp(line.start, line.end, min(1.0, max(0.0, share))))


def _edge_data(strand: Strand, folds: Sequence[Strand], number: int) -> tuple[str, Role, float]:
    """The name, role and allowance of an edge: as kept on it, else as far as the drawing shows them."""
    match strand.data:
        case (Mark.EDGE.value, str(name), str(role), int(allowance) | float(allowance), *_):
            known = Role(role) if role in list(Role) else Role.SEAM
            return name or f"edge {number}", known, max(0.0, float(allowance))
    lies_on_fold = any(
        all(min(_off(at, line) for line in fold.lines()) < JOINED for at in strand.points) for fold in folds
    )
    return f"edge {number}", Role.FOLD if lies_on_fold else Role.SEAM, 0.0


def _name_and_cut(reading: BlockReading, edges: Sequence[Edge]) -> tuple[str, Cut, Identity | None]:
    """The name, how it is cut and what it is; None for that where a file of ours is from before it was written."""
    for entity in reading.entities:
        match data := _data(entity):
            case (Mark.PIECE.value, str(name), int(count), int(fold), int(mirror), *more):
                kind, of = word_at(data, 5, PieceKind), word_at(data, 7, PieceKind)
                identity = Identity(kind, word_at(data, 6, BodyPart), of, word_at(data, 8, BodySide)) if more else None
                lining, interfacing = (
                    number if isinstance(number, int) and number > 0 else 0 for number in (*more[4:6], 0, 0)[:2]
                )
                cut = Cut(max(1, count), bool(fold), bool(mirror), lining, interfacing)
                return name or reading.name, cut, identity
    words = texts_by_word(reading.entities)
    number = words.get(Word.QUANTITY, "").split(",")[0].strip()
    count = int(number) if number.isascii() and number.isdigit() and len(number) < 4 else 1
    folded = any(edge.role is Role.FOLD for edge in edges)
    return words.get(Word.PIECE) or reading.name or "piece", Cut(max(1, count), folded), Identity()


def _corners_meant(reading: BlockReading, edges: Sequence[Edge]) -> tuple[tuple[str, str], ...]:
    """The neighbouring edges between which our file says that a corner is meant."""
    names = [edge.name for edge in edges]
    beside = {frozenset(pair) for pair in zip(names, (*names[1:], *names[:1]), strict=True)}
    kept = next((data[11:] for entity in reading.entities if (data := _data(entity))[:1] == (Mark.PIECE.value,)), ())
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
        (_nearer_end(strand, edges), strand.data) for strand in reading.strands(Layer.NOTCHES)
    ]
    notches: dict[str, list[tuple[Station, str, NotchMark | None]]] = {}
    for at, data in marks or reading.places(Layer.NOTCHES):
        name, on, style = f"notch {len(notches) + 1}", "", "single"
        match data:
            case (Mark.NOTCH.value, str(written), str(edge), str(kind), *_):
                name, on, style = written or name, edge, kind
        stations = notches.setdefault(name, [])
        beside = [edge for edge in edges if edge.name == on] or edges
        stations.append((_station(at, beside), style, word_at(data, 4, NotchMark)))
    return tuple(
        Notch(
            name,
            Station(found[0][0].edge, sum(station.at for station, *_ in found) / len(found)),
            "double" if found[0][1] == "double" else "single",
            found[0][2],
        )
        for name, found in notches.items()
    )


def _nearer_end(strand: Strand, edges: Sequence[Edge]) -> Point:
    return min((strand.points[0], strand.points[-1]), key=lambda end: nearest(end, edges)[0])


def _station(at: Point, edges: Sequence[Edge]) -> Station:
    _, edge, along = nearest(at, edges)
    return Station(edge, along)


def _lines(reading: BlockReading) -> tuple[MarkLine, ...]:
    lines: list[MarkLine] = []
    for strand in reading.strands(Layer.INTERNAL_LINES):
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
        for at, data in reading.places(layer):
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


def layer_of(entity: DXFEntity) -> str:
    """The layer an entity is on; "" for what the library does not know, which it keeps as it is."""
    return str(entity.dxf.get("layer", "0")) if entity.is_supported_dxf_attrib("layer") else ""


def _data(entity: DXFEntity) -> tuple[object, ...]:
    """What we kept on an entity when we wrote it; nothing on another's."""
    if not entity.has_xdata(APP):
        return ()
    return tuple(_plain(tag.value) if isinstance(tag.value, str) else tag.value for tag in entity.get_xdata(APP))


def texts_by_word(entities: Iterable[DXFEntity]) -> dict[str, str]:
    """What the texts say, by the word before the colon; the first of each."""
    from ezdxf.entities.mtext import MText

    found: dict[str, str] = {}
    for entity in entities:
        if entity.dxftype() in ("TEXT", "MTEXT"):
            text = str(entity.plain_text() if isinstance(entity, MText) else entity.dxf.get("text", ""))
            word, colon, rest = _plain(text).partition(":")
            if colon:
                found.setdefault(word.strip().upper(), rest.strip())
    return found


def _plain(text: str) -> str:
    """A text with the letters that the file's own alphabet lacks, which stand in it as numbers."""
    from ezdxf.lldxf.encoding import decode_dxf_unicode

    return printable_text(decode_dxf_unicode(text))


def _at(point: Point) -> str:
    return f"({point.x:.1f}, {point.y:.1f})"


def printable_text(text: str) -> str:
    """The text with a ? for each letter that cannot be shown."""
    return "".join(c if c.isprintable() else "?" for c in text)
