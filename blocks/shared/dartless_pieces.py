"""The two pieces of a bodice without darts, put together from its numbers, neck, armhole and side."""

from __future__ import annotations

from typing import Final, Protocol

from blocks.shared.armhole_curve import armhole_in_front, armhole_through
from blocks.shared.dartless_frame import DartlessFrame, Half
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    bend,
    end_tangents,
    fair,
    length,
    line_hits,
    mirror,
    run_length,
    run_reversed,
    split,
)
from drafting.pattern import (
    BodyPart,
    Cut,
    Edge,
    Grain,
    Identity,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    NotchMark,
    Piece,
    PieceKind,
    Place,
    Role,
    Station,
    closed,
    move_piece,
)
from drafting.pattern.notches import ZIP_NOTCH
from drafting.pattern.piece_parts import NotchStyle

__all__ = ["BACK", "FRONT", "Side", "SideSeam", "bottom_line", "piece_of", "run_at_level"]

FRONT, BACK = "bodice front", "bodice back"
"""What a child's pieces are called."""

_WAIST_NOTCH: Final = 30.0  # mm from the side seam
_GRAIN: Final = 25.0  # mm from the centre line


class SideSeam(Protocol):
    """A side seam, the same in front and behind."""

    def run(self, under: Point) -> tuple[Curve, ...]:
        """The seam from its lower end up to the underarm."""
        ...


@dataclass(frozen=True, slots=True)
class Side:
    """The side seam, the same in front and behind, told from the underarm, where it is upright.

    inset:  how far in from the underarm it ends, mm; less than zero where it ends further out
    raised: the level of its lower end, mm above the waist; below zero where the garment goes on below it
    turned: how far below the underarm it turns outward and runs straight on; None where it bends evenly all the way
    """

    inset: float
    raised: float
    turned: float | None = None

    def run(self, under: Point) -> tuple[Curve, ...]:
        """The seam from its lower end up to the underarm."""
        end = Point(under.x - self.inset, self.raised)
        if self.turned is None:
            third = (under.y - end.y) / 3.0
            half_way = 0.5 * (end.x + under.x)
            return (Cubic(end, Point(half_way, end.y + third), Point(under.x, under.y - third), under),)
        if abs(self.inset) < 1e-9:
            return (Line(end, under),)
        corner = Point(under.x, under.y - self.turned)
        up = (corner - end).unit()
        passed = corner - up * self.turned
        return Line(end, passed), bend(passed, up, under, Vec(0.0, 1.0))


def piece_of(
    frame: DartlessFrame,
    half: Half,
    side: SideSeam,
    centre: tuple[Edge, ...],
    *,
    fold: bool,
    long: bool,
    hip: float | None,
    shoulder: Role = Role.SEAM,
    called: str = "bodice",
    chest: str = "chest line",
) -> Piece:
    """The front or the back, centre line at the left behind and at the right in front.

    centre: its centre line from the neck down, in one or more edges that end at the level of the waist or hem
    long:   whether it goes on below the waist and ends in a hem
    hip:    the level of the hip line, where it goes on below that
    shoulder: a seam, or an opening
    called: what it is the front or the back of
    chest:  what its line at the chest is called
    """
    under = Point(half.width, frame.under)
    seam = side.run(under)
    upper, lower = _armhole(half, under)
    neck = _neck(frame, half)
    bottom = bottom_line(seam, centre[-1].end.y)
    lowest = Edge("hem", (bottom,), Role.HEM, place=Place.HEM) if long else Edge("waist", (bottom,), place=Place.WAIST)
    where = "front" if half.front else "back"
    name = f"{called} {where}"
    edges = closed(
        name,
        (
            lowest,
            Edge("side seam", seam, place=Place.SIDE),
            Edge("armhole", run_reversed((upper, lower)), place=Place.ARMHOLE),
            Edge("shoulder", (Line(half.tip, half.side_neck),), shoulder, place=Place.SHOULDER),
            Edge("neck", run_reversed(neck), place=Place.NECK),
            *centre,
        ),
    )
    top = half.centre.y
    piece = Piece(
        name,
        edges,
        Cut(1, fold=True) if fold else Cut(2, mirror=True),
        Grain(Point(_GRAIN, 0.15 * top), Point(_GRAIN, 0.65 * top)),
        (),
        (*_notches(half, edges, run_length((lower,)), where, long=long), *_end_of_slit(centre)),
        _levels(frame, half, seam, hip, chest, long=long),
        _points(half, scooped=bool(frame.neck.scooped)),
        identity=Identity(PieceKind.FRONT if half.front else PieceKind.BACK, BodyPart.BODICE),
    )
    return move_piece(piece, mirror(Point(0.0, 0.0), Vec(0.0, 1.0))) if half.front else piece


def bottom_line(seam: tuple[Curve, ...], level: float) -> Cubic:
    """The waist or the hem from the centre line, `level` mm above the waist, square to it and to the side seam."""
    start, level_out, end = Point(0.0, level), Vec(1.0, 0.0), seam[0].start
    arriving = end_tangents(seam[0])[0].right()
    try:
        return bend(start, level_out, end, arriving, tight=0.6)
    except NotAPattern:  # the belly dips below the side
        return fair(start, level_out, end, arriving)


def _armhole(half: Half, under: Point) -> tuple[Curve, Curve]:
    if half.front:
        return armhole_in_front(half.tip, half.leaving, under, half.pass_by.x)
    return armhole_through(half.tip, half.leaving, half.pass_by, under)


def _neck(frame: DartlessFrame, half: Half) -> tuple[Curve, ...]:
    if half.front:
        return (frame.neck.front(half.centre, frame.slope),)
    return (frame.neck.back(half.centre, frame.slope),)


def _levels(
    frame: DartlessFrame, half: Half, seam: tuple[Curve, ...], hip: float | None, chest: str, *, long: bool
) -> tuple[MarkLine, ...]:
    """The lines marked across one half: underarm, chest, waist, hip, back width, and where to lengthen it.

    hip: the level of the hip, mm, None where the piece ends above it; chest: what the line at the chest is called
    """

    def line_across(name: str, level: float, word: Level) -> MarkLine:
        return MarkLine(name, Point(0.0, level), Point(run_at_level(seam, level), level), level=word)

    lines = [
        MarkLine("underarm line", Point(0.0, frame.under), Point(half.width, frame.under), level=Level.SCYE),
        line_across(chest, frame.chest, Level.BUST),
        line_across("lengthen or shorten line", 0.5 * frame.chest, Level.LENGTHEN),
    ]
    if long:
        lines.append(line_across("waist line", 0.0, Level.WAIST))
    if hip is not None:
        low = 0.5 * (seam[0].start.y + hip)
        lines.append(line_across("hip line", hip, Level.HIP))
        lines.append(line_across("lengthen or shorten line below the hip", low, Level.LENGTHEN))
    if not half.front:
        middle = Point(0.0, half.pass_by.y)
        lines.append(MarkLine("back width line", middle, half.pass_by, level=Level.BACK_WIDTH))
    return tuple(lines)


def run_at_level(seam: tuple[Curve, ...], level: float) -> float:
    """How far out a side seam lies at a level, mm."""
    for curve in seam:
        hits = line_hits(curve, Point(0.0, level), Vec(1.0, 0.0))
        if hits:
            return hits[0].point.x
    raise NotAPattern("side seam", reason=f"it does not reach the level {level:.0f} mm")


def _points(half: Half, *, scooped: bool) -> tuple[MarkPoint, ...]:
    if scooped:
        return ()  # the foot of the neck lies beyond the edge
    if not half.front:
        return (MarkPoint("nape", half.centre, Landmark.NAPE),)
    return (
        MarkPoint("side neck", half.side_neck, Landmark.SIDE_NECK),
        MarkPoint("neck pit", half.centre, Landmark.NECK_PIT),
    )


def _end_of_slit(centre: tuple[Edge, ...]) -> tuple[Notch, ...]:
    """The mark where a centre line that is open at the neck is sewn from there down."""
    if len(centre) == 1:
        return ()
    return (Notch(ZIP_NOTCH, Station(centre[0].name, 0.0, "end"), marks=NotchMark.OPENING_END),)


def _notches(half: Half, edges: tuple[Edge, ...], lower: float, where: str, *, long: bool) -> tuple[Notch, ...]:
    """The notches of one half: at the armhole, and at the waist, on the side seam where the piece is long."""
    style: NotchStyle = "single" if half.front else "double"
    marks = [Notch(f"{where} armhole notch", Station("armhole", lower), style, NotchMark.BALANCE)]
    lowest = edges[0]
    if not long:
        station = Station("waist", min(_WAIST_NOTCH, 0.5 * lowest.length), "end")
        marks.append(Notch(f"{where} waist notch", station, style, NotchMark.WAIST))
        half_way = Station("side seam", 0.5 * edges[1].length)
        return (*marks, Notch(f"{where} side notch", half_way, marks=NotchMark.SIDE))
    seam, gone = edges[1].curves, 0.0
    for curve in seam:
        hits = line_hits(curve, Point(0.0, 0.0), Vec(1.0, 0.0))
        if hits:
            gone += run_length((split(curve, hits[0].t)[0],))
            break
        gone += length(curve)
    marks.append(Notch(f"{where} waist level notch", Station("side seam", gone), marks=NotchMark.WAIST))
    return tuple(marks)
