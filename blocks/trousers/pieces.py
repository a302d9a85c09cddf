"""The pieces of trousers from their shape: outline, opening, darts, grain, levels, notches; and the seams they make."""

from __future__ import annotations

from typing import Final

from blocks.handover import WaistSeam
from blocks.shared.dart_edge import waist_part_names
from blocks.shared.waist_darts import station_from_side
from blocks.trousers.leg import Leg
from blocks.trousers.shape import HalfShape, Shape
from blocks.trousers.waist import Half
from drafting.dataclass import dataclass
from drafting.geometry import Curve, Line, Point, Vec, cut_run, mirror, run_hits, run_length, run_reversed
from drafting.pattern import (
    BodyPart,
    Cut,
    Dart,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    closed,
    edges_at,
    move_piece,
)
from drafting.pattern.notches import ZIP_NOTCH
from drafting.pattern.piece_parts import NotchStyle

__all__ = ["BACK", "FRONT", "MOST_SHORT", "Opens", "piece", "seams"]

FRONT, BACK = "trousers front", "trousers back"

MOST_SHORT: Final = 10.0
"""mm by which the back's inseam may be shorter and still be stretched to the front's (common practice: a woollen)."""

_DEEPEN_AT: Final = 0.9  # where the depth is lengthened, as a share of the way to the hip: below the darts (ours)
_BESIDE: Final = 12.0  # mm from the crease to the grain line


@dataclass(frozen=True, slots=True)
class Opens:
    """Where trousers open, "back", "side", "fly" or "none", and how far down from the waist, mm."""

    where: str
    long: float


def piece(waist: Half, half: HalfShape, shape: Shape, leg: Leg, opens: Opens) -> Piece:
    """One half; the front is mirrored, so that its centre lies at the right."""
    name, where = (FRONT, "front") if waist.front else (BACK, "back")
    side = (*run_reversed(half.outer), waist.side())
    waist_edges, darts = _waist(waist)
    sides, side_end = _side(side, opens)
    centre, centre_end = _centre(half, where, opens, front=waist.front)
    edges = (
        Edge("hem", (Line(half.node.hem_inner, half.node.hem_outer),), Role.HEM, place=Place.HEM),
        *sides,
        *waist_edges,
        *centre,
        Edge("inseam", half.inner, place=Place.INSEAM),
    )
    double: NotchStyle = "single" if waist.front else "double"
    below_hip = run_length(
        shape.front.outer
    )  # on both: front and back differ by a hair below the hip, and make it up above
    at_knee = run_length((half.outer[-1],)) if leg.knee is not None else 0.0
    notches = [*side_end, *centre_end]
    notches.append(Notch(f"{where} hip notch", _up(sides, below_hip), marks=NotchMark.HIP))
    if at_knee:
        notches.append(Notch(f"{where} knee notch", _up(sides, at_knee), marks=NotchMark.KNEE))
        inner_knee = run_length((half.inner[-1],))
        notches.append(Notch(f"{where} inseam notch", Station("inseam", inner_knee, "end"), marks=NotchMark.KNEE))
    crotch = next(edge for edge in centre if edge.place is Place.CROTCH)
    notches.append(Notch(f"{where} crotch notch", Station(crotch.name, 0.5 * crotch.length), double, NotchMark.CENTRE))
    at_side = waist.waist.length - waist.waist.notch
    notches.append(
        Notch(f"{where} trousers waist notch", station_from_side(waist_edges, at_side), double, NotchMark.WAIST)
    )
    made = Piece(
        name,
        closed(name, edges),
        Cut(2, mirror=True),
        _grain(half, shape, leg),
        darts,
        tuple(notches),
        _levels(waist, half, shape, leg),
        _depth(waist, shape) if waist.front else (),
        identity=Identity(PieceKind.FRONT if waist.front else PieceKind.BACK, BodyPart.TROUSERS),
    )
    return move_piece(made, mirror(Point(0.0, 0.0), Vec(0.0, 1.0))) if waist.front else made


def _waist(waist: Half) -> tuple[tuple[Edge, ...], tuple[Dart, ...]]:
    """The waist edges anticlockwise, from the side to the centre, and the darts in them."""
    top, names = waist.opened(), waist_part_names(len(waist.darts))
    edges: list[Edge] = []
    found: list[Dart] = []
    for i in range(len(top.parts) - 1, -1, -1):
        edges.append(Edge(names[i], run_reversed((top.parts[i],)), place=Place.WAIST))
        if i > 0:
            leg_in, leg_out = top.legs[i - 1]
            name = waist.darts[i - 1].name
            legs = (f"{name} leg, side", f"{name} leg, centre")
            edges.append(Edge(legs[0], run_reversed((leg_out,)), Role.DART_LEG))
            edges.append(Edge(legs[1], run_reversed((leg_in,)), Role.DART_LEG))
            found.append(Dart(name, legs, leg_in.end))
    return tuple(edges), tuple(reversed(found))


def _centre(half: HalfShape, where: str, opens: Opens, *, front: bool) -> tuple[tuple[Edge, ...], tuple[Notch, ...]]:
    """The edges from the waist down the centre and along the crotch to the fork; open where the zip lies here."""
    name, place = f"centre {where}", Place.CENTRE_FRONT if front else Place.CENTRE_BACK
    line, curve = Line(half.centre.waist, half.centre.turn), half.centre.curve
    crotch = f"{where} crotch"
    if opens.where != ("fly" if front else "back"):
        return (Edge(name, (line,), place=place), Edge(crotch, (curve,), place=Place.CROTCH)), ()
    parts = cut_run((line, curve), opens.long)
    below = parts[1]
    edges = [Edge(f"{name} opening", parts[0], Role.OPENING, place=place)]
    if len(below) > 1:
        edges.append(Edge(name, below[:1], place=place))
    edges.append(Edge(crotch, below[-1:], place=Place.CROTCH))
    end = Notch(ZIP_NOTCH, Station(edges[0].name, 0.0, "end"), marks=NotchMark.OPENING_END)
    return tuple(edges), (end,)


def _side(run: tuple[Curve, ...], opens: Opens) -> tuple[tuple[Edge, ...], tuple[Notch, ...]]:
    """The side seam from the hem up; parted where a zip ends, of which the right side is sewn all the way."""
    if opens.where != "side":
        return (Edge("side seam", run, place=Place.SIDE),), ()
    below, above = cut_run(run, run_length(run) - opens.long)
    end = Notch(f"left side {ZIP_NOTCH}", Station("side seam", 0.0, "end"), marks=NotchMark.OPENING_END)
    return (
        Edge("side seam", below, place=Place.SIDE),
        Edge("side seam opening", above, Role.OPENING, place=Place.SIDE),
    ), (end,)


def _up(sides: tuple[Edge, ...], at: float) -> Station:
    """The place so far up the side seam from the hem."""
    for edge in sides[:-1]:
        if at <= edge.length:
            return Station(edge.name, at)
        at -= edge.length
    return Station(sides[-1].name, at)


def _grain(half: HalfShape, shape: Shape, leg: Leg) -> Grain:
    """Parallel to the crease, on the thigh."""
    top, bottom = -shape.rise.depth, -(leg.hem if leg.knee is None else leg.knee)
    x = half.crease + _BESIDE
    return Grain(Point(x, top + 0.85 * (bottom - top)), Point(x, top + 0.15 * (bottom - top)))


def _levels(waist: Half, half: HalfShape, shape: Shape, leg: Leg) -> tuple[MarkLine, ...]:
    """The lines marked across one half: hip, crotch, thigh, knee, crease, and where to lengthen it."""
    rise = shape.rise

    def line(name: str, level: float, kind: Level) -> MarkLine:
        y = -level
        inner = half.centre.at_level(y) if level <= rise.depth else half.inner_at(y)
        outer = _side_at(waist, y) if level <= rise.hip_depth else half.outer_at(y)
        return MarkLine(name, Point(inner, y), Point(outer, y), level=kind)

    lowest = leg.hem if leg.knee is None else leg.knee
    found = [
        line("lengthen or shorten above the crotch", _DEEPEN_AT * rise.hip_depth, Level.LENGTHEN_ABOVE_CROTCH),
        line("hip line", rise.hip_depth, Level.HIP),
        line("crotch line", rise.depth, Level.CROTCH),
        line("thigh line", -shape.thigh_level, Level.THIGH),
        line("lengthen or shorten above the knee", 0.5 * (rise.depth + lowest), Level.LENGTHEN_ABOVE_KNEE),
    ]
    if leg.knee is not None:
        found.append(line("knee line", leg.knee, Level.KNEE))
        found.append(line("lengthen or shorten line", 0.5 * (leg.knee + leg.hem), Level.LENGTHEN))
    top = Point(half.crease, -rise.hip_depth)
    found.append(MarkLine("crease line", top, Point(half.crease, -leg.hem), level=Level.CREASE))
    return tuple(found)


def _side_at(waist: Half, y: float) -> float:
    """How far out the side lies at a level above the hip."""
    hits = run_hits((waist.side(),), Point(0.0, y), Vec(1.0, 0.0))
    return max((hit.point.x for _, hit in hits), default=waist.hip.x)


def _depth(waist: Half, shape: Shape) -> tuple[MarkPoint, ...]:
    """The two points between which the depth of the crotch is measured: the waist in front, level with the fork."""
    at = waist.centre
    return (
        MarkPoint("front waist", at, Landmark.CENTRE_TOP),
        MarkPoint("crotch level", Point(at.x, -shape.rise.depth), Landmark.CROTCH),
    )


def _run(piece: Piece, place: Place, *, backward: bool) -> tuple[EdgeRef, ...]:
    names = [edge.name for edge in edges_at(piece, place)]
    return tuple(EdgeRef(piece.name, name, backward) for name in (reversed(names) if backward else names))


def seams(pieces: tuple[Piece, Piece], short: float, waist: WaistSeam | None) -> tuple[Seam, ...]:
    """The outside leg, the inside leg, and the waist where a bodice is sewn on.

    short: by how much the back's inseam is shorter than the front's, and stretched to it, mm
    """
    front, back = pieces

    def met(notch: str) -> tuple[NotchRef, NotchRef]:
        return NotchRef(BACK, f"back {notch}"), NotchRef(FRONT, f"front {notch}")

    knees = any(notch.marks is NotchMark.KNEE for notch in front.notches)
    beside = [met("hip notch")]
    zips = [notch.name for notch in front.notches if notch.marks is NotchMark.OPENING_END]
    if knees:
        beside.append(met("knee notch"))
    if zips and edges_at(front, Place.SIDE)[0].role is not edges_at(front, Place.SIDE)[-1].role:
        beside.append((NotchRef(BACK, zips[0]), NotchRef(FRONT, zips[0])))
    found = [
        Seam(
            "trousers side seam",
            _run(back, Place.SIDE, backward=True),
            _run(front, Place.SIDE, backward=False),
            notches=tuple(beside),
        ),
        Seam(
            "inseam",
            _run(front, Place.INSEAM, backward=False),
            _run(back, Place.INSEAM, backward=True),
            SeamEase(short, 0.0, max(short, MOST_SHORT)),
            notches=((NotchRef(FRONT, "front inseam notch"), NotchRef(BACK, "back inseam notch")),) if knees else (),
        ),
    ]
    for piece, half, where in () if waist is None else ((front, waist.front, "front"), (back, waist.back, "back")):
        found.append(
            Seam(
                f"{where} waist",
                _run(piece, Place.WAIST, backward=where == "back"),
                half.run,
                notches=(
                    (
                        NotchRef(piece.name, f"{where} trousers waist notch"),
                        NotchRef(half.run[0].piece, f"{where} waist notch"),
                    ),
                ),
            )
        )
    return tuple(found)
