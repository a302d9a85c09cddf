"""Reading one block of a DXF: the outline of a piece, its edges, notches, darts, lines and points."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING, Final

from drafting.errors import NotAPattern, Problem
from drafting.geometry import Point, distance
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
from output.dxf.close_outlines import JOINED, Spots, Strand, nearest, outer_loop, split_at
from output.dxf.curves_data import curves_kept
from output.dxf.dxf_layers import APP, Layer, Mark, Word, word_at
from output.dxf.smooth_polylines import curves_through

if TYPE_CHECKING:
    from ezdxf.entities.dxfentity import DXFEntity
    from ezdxf.layouts.blocklayout import BlockLayout

__all__ = ["BlockReading", "layer_of", "printable_text", "read_piece", "texts_by_word"]

_FLAT: Final = 0.01
"""How near the polyline of an arc or a spline in another's file comes to it, mm."""

_FAR: Final = 100_000.0
"""No coordinate of a garment is larger, mm."""


@dataclass(frozen=True, slots=True)
class BlockReading:
    """One block being read."""

    block: BlockLayout
    scale: float
    place: str
    problems: list[Problem]

    def on(self, layer: Layer) -> list[DXFEntity]:
        """The entities of the block on a layer."""
        return [entity for entity in self.block if layer_of(entity) == layer.value]

    def strands(self, layer: Layer) -> list[Strand]:
        """The lines on a layer: arcs and splines flattened, places that repeat dropped."""
        found = (Strand(self._along(entity), _data(entity)) for entity in self.on(layer))
        return [strand for strand in found if len(strand.points) > 1]

    def places(self, layer: Layer) -> list[tuple[Point, tuple[object, ...]]]:
        """The points on a layer, with what is kept on them."""
        dots = [entity for entity in self.on(layer) if entity.dxftype() == "POINT"]
        found = [(self._scaled(entity.dxf.get("location", (0.0, 0.0))), _data(entity)) for entity in dots]
        return [(at, data) for at, data in found if self._near(at)]

    def _along(self, entity: DXFEntity) -> tuple[Point, ...]:
        from ezdxf import path

        try:
            drawn = path.make_path(entity)
        except (TypeError, ValueError, ArithmeticError):
            return ()  # a text, say: no line
        if not all(self._near(self._scaled(corner)) for corner in drawn.control_vertices()):
            return ()
        points = (self._scaled(vertex) for vertex in drawn.flattening(_FLAT / self.scale))
        return tuple(point for point, _ in groupby(points))

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
    name, cut, identity = _name_and_cut(reading)
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
    sewn = reading.strands(Layer.SEW_LINES)
    layer, loop = Layer.SEW_LINES, outer_loop(sewn)
    if not isinstance(loop, tuple) and not any(strand.data for strand in sewn):
        # others draw sew lines only where there is an allowance; ours are the whole outline
        layer, loop = Layer.BOUNDARY, outer_loop(reading.strands(Layer.BOUNDARY))
    if not isinstance(loop, tuple):
        read = f"lines on layer {layer} that stop at {_at(loop)}" if loop else f"no line on layer {layer}"
        reading.problem(read, "one closed line round the piece", "Close the outline.")
        return None
    turns = Spots(at for at, _ in reading.places(Layer.TURN_POINTS))
    bends = Spots(at for at, _ in reading.places(Layer.CURVE_POINTS) if at not in turns)
    if len(loop) == 1 and not loop[0].data:
        loop = split_at(loop[0], turns)
    folds = reading.strands(Layer.MIRROR_LINE)
    edges: list[Edge] = []
    for strand in loop:
        name, role, allowance = _edge_data(strand, folds, len(edges) + 1)
        data = strand.data
        run = curves_kept(data[7:], strand.points) or curves_through(strand.points, bends)
        place, half, drawn_up = word_at(data, 4, Place), word_at(data, 5, Half), word_at(data, 6, Fullness)
        edges.append(Edge(free_name(name, [edge.name for edge in edges]), run, role, allowance, place, half, drawn_up))
    return tuple(edges)


def _edge_data(strand: Strand, folds: Sequence[Strand], number: int) -> tuple[str, Role, float]:
    """The name, role and allowance of an edge: as kept on it, else as far as the drawing shows them."""
    match strand.data:
        case (Mark.EDGE.value, str(name), str(role), int(allowance) | float(allowance), *_):
            known = Role(role) if role in list(Role) else Role.SEAM
            return name or f"edge {number}", known, max(0.0, float(allowance))
    ends = {strand.points[0], strand.points[-1]}
    lies_on_fold = any(
        all(any(end.near(other, JOINED) for other in (fold.points[0], fold.points[-1])) for end in ends)
        for fold in folds
    )
    return f"edge {number}", Role.FOLD if lies_on_fold else Role.SEAM, 0.0


def _name_and_cut(reading: BlockReading) -> tuple[str, Cut, Identity | None]:
    """The name, how it is cut and what it is; None for that where a file of ours is from before it was written."""
    for entity in reading.block:
        match data := _data(entity):
            case (Mark.PIECE.value, str(name), int(count), int(fold), int(mirror), *more):
                kind, of = word_at(data, 5, PieceKind), word_at(data, 7, PieceKind)
                identity = Identity(kind, word_at(data, 6, BodyPart), of, word_at(data, 8, BodySide)) if more else None
                lining, interfacing = (
                    number if isinstance(number, int) and number > 0 else 0 for number in (*more[4:6], 0, 0)[:2]
                )
                cut = Cut(max(1, count), bool(fold), bool(mirror), lining, interfacing)
                return name or reading.block.name, cut, identity
    words = texts_by_word(reading.block)
    number = words.get(Word.QUANTITY, "").split(",")[0].strip()
    count = int(number) if number.isascii() and number.isdigit() and len(number) < 4 else 1
    folded = bool(reading.on(Layer.MIRROR_LINE))
    return words.get(Word.PIECE) or reading.block.name, Cut(max(1, count), folded), Identity()


def _corners_meant(reading: BlockReading, edges: Sequence[Edge]) -> tuple[tuple[str, str], ...]:
    """The neighbouring edges between which our file says that a corner is meant."""
    names = [edge.name for edge in edges]
    beside = {frozenset(pair) for pair in zip(names, (*names[1:], *names[:1]), strict=True)}
    kept = next((data[11:] for entity in reading.block if (data := _data(entity))[:1] == (Mark.PIECE.value,)), ())
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
    for at, data in reading.places(Layer.INTERNAL_LINES):
        if not data or data[0] != Mark.DART:
            name = free_name(_name(data, Mark.POINT, f"point {len(points) + 1}"), [point.name for point in points])
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
    found: dict[str, str] = {}
    for entity in entities:
        if entity.dxftype() == "TEXT":
            word, colon, rest = _plain(entity.dxf.get("text", "")).partition(":")
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
