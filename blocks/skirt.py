"""The straight skirt, front and back, drawn to the waist it is sewn to.

The construction is that of W. Aldrich, Metric Pattern Cutting for Women's Wear: a back 1.5 cm wider at the hip than the
front, one dart in front and two behind; one more where they would be too wide to be sewn well. The widths of the darts
are solved for, so that the folded waist has exactly its length.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from blocks.handover import Drafted, WaistHalf, WaistSeam
from blocks.shared.dart_edge import DartPlan, Opened, angle_for, closed_end, darted_edge, sewn_length, waist_part_names
from blocks.shared.side_curve import hip_side
from blocks.shared.waist_darts import DARTS, darts_needed, excess_dart_width, spaced, station_from_side
from drafting.body.complete import Body
from drafting.dataclass import dataclass
from drafting.errors import CannotDraft, NotAPattern
from drafting.geometry import Cubic, Line, Point, Vec, end_tangents, length, mirror, run_reversed
from drafting.geometry.solve import solve
from drafting.pattern import (
    Across,
    Along,
    BodyPart,
    Cut,
    Dart,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Station,
    across,
    closed,
    edges_at,
    move_piece,
    require_edge,
    require_line,
)
from drafting.pattern.notches import ZIP_NOTCH

__all__ = ["BACK", "FRONT", "draft_skirt"]

FRONT, BACK = "skirt front", "skirt back"
_BACK_WIDER = 7.5  # mm: each quarter from the mean, Aldrich: back H/4 + 1.5, front H/4 (cm, with 3 of ease)
_SIDE_SHARE = 0.6  # of what a front quarter is taken in, at the side (Aldrich, hip 94, waist 68: 4.25 of 6.25 cm)
_STEEPEST_SIDE = 0.26  # the most the side comes in, as a share of the hip depth
_FRONT_DARTS, _BACK_DARTS = (100.0, 90.0), (140.0, 125.0, 110.0)  # Aldrich: 10 long; 14 and 12.5 (cm, from memory)
_STANDARD = {FRONT: 1, BACK: 2}  # how many of them a half has (Aldrich); more where one would be too wide
_LONGEST = 0.66  # a dart is no longer than this share of the hip depth
_LEAST_DART, _BALANCE = 8.0, 0.42
_SPARE, _TRIES = 2.0, 4  # mm by which a dart is planned narrower than the widest: the waist dips a little there
_ZIP_BELOW_HIP = -15.0  # mm: a zip ends a little below the hip line (from memory, 1-2 cm)


@dataclass(frozen=True, slots=True)
class _Shape:
    """Both halves with how far the side comes in and is raised at the waist, and their darts as solved."""

    front: _Half
    back: _Half
    inset: float
    raised: float
    front_darts: tuple[DartPlan, ...]
    back_darts: tuple[DartPlan, ...]

    def darts_fit(self) -> bool:
        """Whether no dart is wider than one dart should be."""
        sides = [(self.front, self.front_darts), (self.back, self.back_darts)]
        drawn = (darted_edge(*half.ends(self.inset, self.raised), darts) for half, darts in sides if darts)
        return all(excess_dart_width(waist) <= 0.0 for waist in drawn)


@dataclass(frozen=True, slots=True)
class _Half:
    """What one quarter of the skirt is drawn from; x from the centre outward, y down from the waist at the centre."""

    name: str
    hip: float
    hip_depth: float
    waist: WaistHalf
    wanted: str = DARTS[0]
    spare: float = _SPARE

    def side(self, inset: float, raised: float) -> Cubic:
        return hip_side(Point(self.hip, -self.hip_depth), Point(self.hip - inset, raised))

    def ends(self, inset: float, raised: float) -> tuple[Point, Vec, Point, Vec]:
        side = self.side(inset, raised)
        return Point(0.0, 0.0), Vec(1.0, 0.0), side.end, end_tangents(side)[1].right()

    def raised(self, inset: float, darts: tuple[DartPlan, ...]) -> float:
        """How far the side of the waist is raised so that the folded waist line bends evenly."""
        level = 0.0
        for _ in range(2):
            _, _, end, arriving = self.ends(inset, level)
            far, direction = closed_end(end, arriving, darts)
            level += math.tan(_BALANCE * math.atan2(direction.y, direction.x)) * far.x - far.y
        return level

    def darts(self, intake: float) -> tuple[DartPlan, ...]:
        """The darts that take in `intake` mm between them, where the bodice's darts meet them."""
        lengths = self._lengths(intake)
        if not lengths:
            return ()
        each = intake / len(lengths)
        plans = []
        for i, (at, long) in enumerate(zip(self._places(len(lengths)), lengths, strict=True)):
            apex = Point(at + each * (i + 0.5), -long)
            plans.append(DartPlan(self._name(i, len(lengths)), apex, Vec(0.0, 1.0), -angle_for(each, long)))
        return tuple(plans)

    def _name(self, i: int, count: int) -> str:
        if self.name == FRONT:
            return ("waist dart", "outer waist dart")[i]
        return f"waist dart {i + 1}" if count > 1 else "waist dart"

    def _lengths(self, intake: float) -> tuple[float, ...]:
        """How long the darts are that take in so much between them: as many as keep each from being too wide."""
        longest = _LONGEST * self.hip_depth
        each = tuple(min(long, longest) for long in (_FRONT_DARTS if self.name == FRONT else _BACK_DARTS))
        if self.wanted in DARTS[1:]:
            count = min(DARTS.index(self.wanted), len(each))
        else:
            count = darts_needed(intake, each, least=_STANDARD[self.name], spare=self.spare)
        return each[: min(count, max(1, int(intake / _LEAST_DART)))] if intake >= _LEAST_DART else ()

    def _places(self, count: int) -> tuple[float, ...]:
        """Where darts lie along the sewn waist: at the bodice's, the others spaced evenly from there to the side."""
        return spaced(self.waist.darts, count, self.waist.length)


def draft_skirt(
    body: Body,
    ease: Mapping[str, float],
    least: Mapping[str, float],
    waist: WaistSeam | None,
    *,
    long: float,
    front_darts: str = DARTS[0],
    back_darts: str = DARTS[0],
    zip_opening: bool = True,
) -> Drafted:
    """The straight skirt.

    ease, least: mm by place ("waist", "hip")
    waist:       the waist it is sewn to, or None for a skirt of its own with the ease at the waist
    long:        from the waist to the hem at the centre, mm; more than the hip depth
    front_darts, back_darts: how many waist darts each half has, one of DARTS. As needed: one in front and two behind,
                 and one more where they would be wider than one dart should be (`widest_waist_dart`)
    Raises CannotDraft, naming the measurements at odds.
    """
    depth = body.mm("waist_to_hip")
    if long < depth + 60.0:
        raise CannotDraft(
            ("waist_to_hip",),
            f"A skirt {long:.0f} mm long ends above or at the hip line, {depth:.0f} mm below the waist: make it "
            f"{math.ceil(depth + 60.0)} mm or longer.",
        )
    alone = waist is None
    if waist is None:
        quarter = 0.25 * (body.mm("waist_girth") + ease["waist"])
        waist = WaistSeam(WaistHalf(quarter, (), 0.5 * quarter, ()), WaistHalf(quarter, (), 0.5 * quarter, ()))
    hip = 0.25 * (body.mm("hip_girth") + ease["hip"])
    front = _Half(FRONT, hip - _BACK_WIDER, depth, waist.front, front_darts)
    back = _Half(BACK, hip + _BACK_WIDER, depth, waist.back, back_darts)
    try:
        shape = _divided(front, back)
        pieces = (
            _piece(shape.front, shape, shape.front_darts, long, zip_opening=False),
            _piece(shape.back, shape, shape.back_darts, long, zip_opening=zip_opening),
        )
    except NotAPattern as none:
        raise CannotDraft(
            ("waist_girth", "hip_girth", "waist_to_hip"),
            f"From waist to hip ({depth:.0f} mm) the skirt cannot be taken in from {4 * hip:.0f} mm to "
            f"{2 * (waist.front.length + waist.back.length):.0f} mm.",
        ) from none
    return Drafted(
        pieces=pieces,
        seams=_seams(pieces, None if alone else waist),
        measures=_measures(body, ease, least, pieces),
        options=(("length", long), ("front_darts", front_darts), ("back_darts", back_darts)),
        given=_given(body, pieces),
        because={"hip": "because the waist is the larger, and the skirt hangs straight down from it"},
    )


def _divided(front: _Half, back: _Half) -> _Shape:
    """Both halves with their darts; with one more where they came out wider than planned, as the waist dips there."""
    for _ in range(_TRIES):
        shape = _taken_in(front, back)
        if shape.darts_fit():
            break
        front, back = (replace(half, spare=half.spare + 1.0) for half in (front, back))
    return shape


def _taken_in(front: _Half, back: _Half) -> _Shape:
    """Share what is to be taken in between the side seam and the darts."""
    over_front, over_back = front.hip - front.waist.length, back.hip - back.waist.length
    inset = min(_SIDE_SHARE * over_front, _STEEPEST_SIDE * front.hip_depth, over_back)
    if over_front - inset < _LEAST_DART <= 0.8 * over_front:
        inset = over_front - _LEAST_DART
    front_darts, back_darts = front.darts(over_front - inset), back.darts(over_back - inset)
    if not front_darts or not back_darts:
        return _without_darts(front, back)
    raised = min(25.0, max(0.0, 0.5 * (front.raised(inset, front_darts) + back.raised(inset, back_darts))))
    return _Shape(
        front, back, inset, raised, _fitted(front, inset, raised, front_darts), _fitted(back, inset, raised, back_darts)
    )


def _without_darts(front: _Half, back: _Half) -> _Shape:
    """A waist nearly as wide as the hip: the side seams alone take it in.

    The hip is shared out again between front and back so that both side seams come in by as much. A waist that is wider
    than the hip hangs straight down: the hip then is as wide as the waist (common practice).
    """
    both = front.hip + back.hip
    inset = 0.5 * (both - front.waist.length - back.waist.length)
    if inset <= 0.0:
        front, back = (replace(half, hip=half.waist.length) for half in (front, back))
        return _Shape(front, back, 0.0, 0.0, (), ())
    raised = min(25.0, max(0.0, 0.5 * (front.raised(inset, ()) + back.raised(inset, ()))))

    def hip_for(half: _Half, inset: float) -> float:
        def surplus(hip: float) -> float:
            return sewn_length(*replace(half, hip=hip).ends(inset, raised), ()) - half.waist.length

        return solve(surplus, half.waist.length + inset, 2.0)

    inset = solve(lambda inset: hip_for(front, inset) + hip_for(back, inset) - both, inset, 1.0)
    front_hip = hip_for(front, inset)
    return _Shape(replace(front, hip=front_hip), replace(back, hip=both - front_hip), inset, raised, (), ())


def _fitted(half: _Half, inset: float, raised: float, darts: tuple[DartPlan, ...]) -> tuple[DartPlan, ...]:
    """The darts opened by one factor so that the folded waist is as long as it is to be, each at its place along it."""
    ends = half.ends(inset, raised)

    def opened(factor: float) -> tuple[DartPlan, ...]:
        return tuple(dart.opened(factor) for dart in darts)

    def solved(step: float) -> tuple[DartPlan, ...]:
        return opened(solve(lambda factor: sewn_length(*ends, opened(factor)) - half.waist.length, 1.0, step))

    darts = _placed(half, darts, darted_edge(*ends, darts))
    darts = solved(0.05)
    darts = _placed(half, darts, darted_edge(*ends, darts))
    return solved(0.001)


def _placed(half: _Half, darts: tuple[DartPlan, ...], opened: Opened) -> tuple[DartPlan, ...]:
    """The darts shifted sideways so that each meets the sewn waist where it is to lie."""
    gone, shifted = 0.0, []
    for dart, part, at in zip(darts, opened.parts, half._places(len(darts)), strict=False):
        gone += length(part)
        shifted.append(replace(dart, apex=dart.apex + Vec(at - gone, 0.0)))
    return tuple(shifted)


def _piece(half: _Half, shape: _Shape, darts: tuple[DartPlan, ...], long: float, *, zip_opening: bool) -> Piece:
    """A quarter of the skirt, its centre line at the left; the front is mirrored so that it lies at the right."""
    side = half.side(shape.inset, shape.raised)
    top = darted_edge(*half.ends(shape.inset, shape.raised), darts)
    hem_side = Point(half.hip, -long)
    centre, at = ("centre front", Place.CENTRE_FRONT) if half.name == FRONT else ("centre back", Place.CENTRE_BACK)
    waist_edges, pattern_darts = _waist(top, darts)
    zip_end = Point(0.0, -half.hip_depth + _ZIP_BELOW_HIP)
    if zip_opening:
        zip_notches: tuple[Notch, ...] = (
            Notch(ZIP_NOTCH, Station(f"{centre} opening", 0.0, "end"), marks=NotchMark.OPENING_END),
        )
        centre_edges: tuple[Edge, ...] = (
            Edge(f"{centre} opening", (Line(Point(0.0, 0.0), zip_end),), Role.OPENING, place=at),
            Edge(f"{centre} seam", (Line(zip_end, Point(0.0, -long)),), place=at),
        )
    else:
        zip_notches = ()
        centre_edges = (Edge(centre, (Line(Point(0.0, 0.0), Point(0.0, -long)),), Role.FOLD, place=at),)
    edges = (
        Edge("hem", (Line(Point(0.0, -long), hem_side),), Role.HEM, place=Place.HEM),
        Edge("side seam", (Line(hem_side, side.start), side), place=Place.SIDE),
        *waist_edges,
        *centre_edges,
    )
    where, kind = ("front", PieceKind.FRONT) if half.name == FRONT else ("back", PieceKind.BACK)
    middle = -0.5 * (half.hip_depth + long)
    at_side = half.waist.length - half.waist.notch
    piece = Piece(
        half.name,
        closed(half.name, edges),
        Cut(2, mirror=True) if zip_opening else Cut(1, fold=True),
        Grain(Point(30.0, -0.85 * long), Point(30.0, -0.5 * long)),
        pattern_darts,
        (
            *zip_notches,
            Notch(f"{where} hip notch", Station("side seam", length(side), "end"), marks=NotchMark.HIP),
            Notch(
                f"{where} skirt waist notch",
                station_from_side(waist_edges, at_side),
                "single" if where == "front" else "double",
                NotchMark.WAIST,
            ),
        ),
        (
            MarkLine("hip line", Point(0.0, -half.hip_depth), Point(half.hip, -half.hip_depth), level=Level.HIP),
            MarkLine("lengthen or shorten line", Point(0.0, middle), Point(half.hip, middle), level=Level.LENGTHEN),
        ),
        identity=Identity(kind, BodyPart.SKIRT),
    )
    return piece if half.name == BACK else move_piece(piece, mirror(Point(0.0, 0.0), Vec(0.0, 1.0)))


def _waist(top: Opened, darts: tuple[DartPlan, ...]) -> tuple[tuple[Edge, ...], tuple[Dart, ...]]:
    """The waist edges anticlockwise, from the side to the centre, and the darts in them."""
    names = waist_part_names(len(darts))
    edges: list[Edge] = []
    found: list[Dart] = []
    for i in range(len(top.parts) - 1, -1, -1):
        edges.append(Edge(names[i], run_reversed((top.parts[i],)), place=Place.WAIST))
        if i > 0:
            leg_in, leg_out = top.legs[i - 1]
            name = darts[i - 1].name
            legs = (f"{name} leg, side", f"{name} leg, centre")
            edges.append(Edge(legs[0], run_reversed((leg_out,)), Role.DART_LEG))
            edges.append(Edge(legs[1], run_reversed((leg_in,)), Role.DART_LEG))
            found.append(Dart(name, legs, leg_in.end))
    return tuple(edges), tuple(reversed(found))


def _waist_run(piece: Piece) -> tuple[EdgeRef, ...]:
    """The waist edges of a skirt piece from the centre to the side."""
    names = [edge.name for edge in edges_at(piece, Place.WAIST)]
    if piece.name == FRONT:
        return tuple(EdgeRef(piece.name, name) for name in names)
    return tuple(EdgeRef(piece.name, name, backward=True) for name in reversed(names))


def _seams(pieces: tuple[Piece, Piece], waist: WaistSeam | None) -> tuple[Seam, ...]:
    """The side seam, and the waist seams to a bodice where the skirt is sewn to one."""
    front, back = pieces
    sides = (EdgeRef(BACK, "side seam", backward=True),), (EdgeRef(FRONT, "side seam"),)
    hips = ((NotchRef(BACK, "back hip notch"), NotchRef(FRONT, "front hip notch")),)
    seams = [Seam("skirt side seam", *sides, notches=hips)]
    if waist is not None:
        for piece, half, where in ((front, waist.front, "front"), (back, waist.back, "back")):
            bodice = half.run[0].piece
            seams.append(
                Seam(
                    f"{where} waist",
                    _waist_run(piece),
                    half.run,
                    notches=(
                        (NotchRef(piece.name, f"{where} skirt waist notch"), NotchRef(bodice, f"{where} waist notch")),
                    ),
                )
            )
    return tuple(seams)


def _given(body: Body, pieces: tuple[Piece, Piece]) -> dict[str, float]:
    """The ease that the pieces have."""
    waist = 2.0 * sum(piece.edge(ref.edge).length for piece in pieces for ref in _waist_run(piece))
    hip = 2.0 * sum(across(piece, require_line(piece, Level.HIP).name) for piece in pieces)
    return {"waist": waist - body.mm("waist_girth"), "hip": hip - body.mm("hip_girth")}


def _measures(
    body: Body, ease: Mapping[str, float], least: Mapping[str, float], pieces: tuple[Piece, Piece]
) -> tuple[Measure, ...]:
    """The finished measurements of a skirt, with the body's size, the ease and the least ease of each, mm."""
    waist = tuple(Along(piece.name, edge.name, 2.0) for piece in pieces for edge in edges_at(piece, Place.WAIST))
    centre = require_edge(pieces[0], Place.CENTRE_FRONT).name
    return (
        Measure("waist", waist, "waist_girth", body.mm("waist_girth"), ease["waist"], least.get("waist"), round=True),
        Measure(
            "hip",
            (Across(FRONT, "hip line", 2.0), Across(BACK, "hip line", 2.0)),
            "hip_girth",
            body.mm("hip_girth"),
            ease["hip"],
            least.get("hip"),
            round=True,
        ),
        Measure("skirt length", (Along(FRONT, centre),)),
    )
