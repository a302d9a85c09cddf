r"""The fly of trousers: a facing behind the right front, and a shield that covers the zip behind the left.

waist                    The facing is traced from the front along its centre, wider than the line of stitching by a
+------+  facing         finger, and ends a little below the opening; it is cut once, interfaced. The shield is cut once
|    : |                 and folded lengthwise; it hangs a little lower too. Right laps over left (common practice for
|    : |  : line of      women; all widths are common practice).
|   .' /    stitching
|_.' .'                  Over a shaped band, whose inner layer finishes it, the facing begins below the band, and the
+--'                     shield goes up to the waist.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, Literal

from drafting.errors import NotAPattern, Remedy, Setting
from drafting.geometry import (
    Curve,
    Line,
    Point,
    bend,
    cut_run,
    mirror,
    run_ends,
    run_length,
    run_reversed,
)
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import starting_at, stretch
from drafting.parts.drawn import Drawn
from drafting.parts.part import Part
from drafting.pattern import (
    BodyPart,
    BodySide,
    Cut,
    Derived,
    DrawnTo,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Site,
    Station,
    closed,
    edges_at,
    free_piece_name,
    move_piece,
    pieces_drawn_to,
    seam_allowance,
)
from drafting.pattern.unfinished import has_inner_layer
from drafting.reading.options import Option

__all__ = ["FLY", "FLY_PART", "shield_width"]

FLY: Final = "fly"

_BEYOND_STITCHING: Final = 10.0  # mm that facing and shield are wider than the line of stitching (common practice)
_BELOW: Final = 12.0  # mm that both reach below the end of the opening (common practice: 1 to 1.5 cm)
_ROUND: Final = 1.3  # how much of the line, as a share of its distance, turns in to the centre (ours)
_GRAIN: Final = 0.3  # of its length to either side of its middle


def shield_width(fly: Derived) -> float:
    """How wide the shield of a fly is when it is folded, mm: as wide as its facing."""
    return fly.length("stitching") + _BEYOND_STITCHING


def _draw(pattern: Pattern, derived: Derived) -> Drawn:
    """Facing, shield, and the line of stitching on the front. Raises NotAPattern where no opening is in front."""
    opened = _opening(pattern, derived)
    faced = [each for each in opened if not has_inner_layer(each[0])]
    if not faced:
        raise NotAPattern(FLY, 'the trousers do not open at the centre front: write fastening = "fly"')
    facing, line = _facing(pattern, faced, derived.length("stitching"))
    lines = tuple(_on_pieces(faced, line))
    shield = _shield(pattern, opened, shield_width(derived))
    down = tuple(ref for _, _, ref in opened)
    up = tuple(EdgeRef(ref.piece, ref.edge, not ref.backward) for ref in reversed(down))
    seams = (
        Seam(f"{facing.name} to front", tuple(ref for _, _, ref in faced), (EdgeRef(facing.name, _CENTRE, True),)),
        Seam(f"{shield.name} to front", up, (EdgeRef(shield.name, _CENTRE),)),
    )
    return Drawn((facing, shield), seams, (), (), lines)


_Opened = tuple[Piece, Edge, EdgeRef]
_CENTRE: Final = "centre front edge"
_END: Final = "end of the opening"


def _opening(pattern: Pattern, derived: Derived) -> list[_Opened]:
    """The edges of the right front along the opening, from the waist down, each walked so."""
    found = [
        (piece, edge)
        for source in derived.to
        for piece in pieces_drawn_to(pattern, source)
        for edge in edges_at(piece, Place.CENTRE_FRONT)
        if edge.role is Role.OPENING
    ]
    found.sort(key=lambda each: -max(each[1].start.y, each[1].end.y))
    return [(piece, edge, EdgeRef(piece.name, edge.name, edge.end.y > edge.start.y)) for piece, edge in found]


def _downward(opened: Sequence[_Opened]) -> tuple[Curve, ...]:
    runs = [run_reversed(edge.curves) if ref.backward else edge.curves for _, edge, ref in opened]
    out: list[Curve] = []
    for curve in (curve for run in runs for curve in run):
        out.append(starting_at(curve, out[-1].end) if out else curve)
    return tuple(out)


def _facing(pattern: Pattern, faced: Sequence[_Opened], stitched: float) -> tuple[Piece, MarkLine]:
    """The facing, right side up beside the right front, and the line along which it is stitched to that."""
    top, _, _ = faced[0]
    down = _downward(faced)
    waist = _waist_from_centre(top, down[0].start)
    line = _curved_to(down, waist, stitched, 0.0)
    outer = _curved_to(down, waist, stitched + _BEYOND_STITCHING, _BELOW)
    end = down[-1].end
    low = outer[-1].end
    along = cut_run(waist, stitched + _BEYOND_STITCHING)[0]
    allowance = seam_allowance(top)
    # anticlockwise as the front lies, with its centre at the right: up the centre, inward along the waist, down, round
    edges: tuple[Edge, ...] = (
        Edge("end", (Line(low, end),), Role.SEAM, allowance, Place.FACING_EDGE),
        Edge(_CENTRE, run_reversed(down), Role.SEAM, allowance, Place.CENTRE_FRONT),
        Edge("upper edge", along, Role.SEAM, allowance, Place.BAND_END),
        Edge("free edge", outer, Role.SEAM, 0.0, Place.FACING_EDGE),
    )
    lower: Literal["start", "end"] = "start"
    if (along[0].end - along[0].start).cross(down[0].end - down[0].start) < 0.0:  # the centre lies at the left
        lower = "end"
        names = ("end", "free edge", "upper edge", _CENTRE)
        by_name = {edge.name: edge for edge in edges}
        edges = tuple(_turned(by_name[name]) for name in names)
    name = free_piece_name(pattern, f"{FLY} facing")
    middle, way = _at_middle(down), (down[0].start - down[-1].end).unit()
    inward = (along[-1].end - along[0].start).unit()
    at = middle + inward * (0.5 * stitched)
    reach = _GRAIN * run_length(down)
    piece = Piece(
        name,
        closed(name, edges),
        Cut(1, interfacing=1),
        Grain(at - way * reach, at + way * reach),
        notches=(Notch(_END, Station(_CENTRE, 0.0, lower), marks=NotchMark.OPENING_END),),
        points_meant=_all_corners(edges),
        identity=Identity(PieceKind.FLY, top.identity.part, of=PieceKind.FRONT, side=BodySide.RIGHT),
    )
    # what lies behind the right front is cut as its mirror image
    piece = move_piece(piece, mirror(down[0].start, down[0].start - down[-1].end))
    mark = MarkLine("fly stitching line", line[0].start, line[-1].end, line, Level.STITCHING)
    return piece, mark


def _on_pieces(faced: Sequence[_Opened], line: MarkLine) -> Iterator[tuple[str, MarkLine]]:
    """The line on the front, or where a yoke is cut off that, on both."""
    run = line.drawn
    for piece, _, _ in faced[:-1]:
        seam = [curve for edge in edges_at(piece, Place.YOKE) for curve in edge.curves]
        # of a yoke below a band, the line leaves it at the lower of its two seams
        low = max((i + meeting.at_a for i, _, meeting in run_meetings(run, seam)), default=0.0)
        above = stretch(run, 0.0, low) if low else ()
        if not above:
            raise NotAPattern(piece.name, "the line of stitching beside the fly does not come to its lower edge")
        above, run = cut_run(run, run_length(above))
        yield piece.name, line.through(above, above[0].start, above[-1].end)
    yield faced[-1][0].name, line.through(run, run[0].start, run[-1].end)


def _at_middle(run: Sequence[Curve]) -> Point:
    """The place halfway along a run."""
    return cut_run(run, 0.5 * run_length(run))[1][0].start


def _turned(edge: Edge) -> Edge:
    return Edge(edge.name, run_reversed(edge.curves), edge.role, edge.allowance, edge.place)


def _all_corners(edges: Sequence[Edge]) -> tuple[tuple[str, str], ...]:
    """Every corner of a piece is meant: no line runs on from one edge to the next."""
    names = [edge.name for edge in edges]
    return tuple(zip(names, (*names[1:], names[0]), strict=True))


def _waist_from_centre(piece: Piece, at: Point) -> tuple[Curve, ...]:
    """The upper edge of the front from its centre toward the side."""
    for edge in edges_at(piece, Place.WAIST, Place.YOKE):
        if edge.start.near(at):
            return edge.curves
        if edge.end.near(at):
            return run_reversed(edge.curves)
    raise NotAPattern(FLY, f'the opening of "{piece.name}" does not come to its waist')


def _curved_to(down: Sequence[Curve], waist: Sequence[Curve], wide: float, below: float) -> tuple[Curve, ...]:
    """A line that runs down so far from the centre, and turns in to it `below` mm past the end of the opening."""
    if run_length(waist) <= wide + 1.0:
        raise NotAPattern(FLY, f"a dart lies within {wide:.0f} mm of the centre front: stitch it nearer to that")
    start = cut_run(waist, wide)[1][0].start
    leaving, arriving = run_ends(down)
    low = down[-1].end + arriving * below
    turn = start + leaving * max(0.3 * wide, (low - start).dot(leaving) - _ROUND * wide)
    inward = leaving.left() if leaving.left().dot(start - down[0].start) < 0.0 else leaving.right()
    return (Line(start, turn), bend(turn, leaving, low, (leaving * 0.35 + inward).unit()))


def _shield(pattern: Pattern, opened: Sequence[_Opened], wide: float) -> Piece:
    """The shield, opened out: the edge that is sewn to the left front at its right, the fold in its middle."""
    name = free_piece_name(pattern, f"{FLY} shield")
    long, deep = run_length(_downward(opened)), 2.0 * wide
    allowance = seam_allowance(opened[-1][0])

    def edge(called: str, a: Point, b: Point, place: Place) -> Edge:
        return Edge(called, (Line(a, b),), Role.SEAM, allowance, place)

    foot = -(long + _BELOW)
    edges = (
        edge("lower end", Point(-deep, foot), Point(0.0, foot), Place.BAND_END),
        edge("below the opening", Point(0.0, foot), Point(0.0, -long), Place.BAND_EDGE),
        edge(_CENTRE, Point(0.0, -long), Point(0.0, 0.0), Place.CENTRE_FRONT),
        edge("upper edge", Point(0.0, 0.0), Point(-deep, 0.0), Place.BAND_END),
        edge("inner edge", Point(-deep, 0.0), Point(-deep, foot), Place.BAND_EDGE),
    )
    fold = MarkLine("fold line", Point(-wide, 0.0), Point(-wide, foot), level=Level.FOLD)
    at = -0.5 * wide
    return Piece(
        name,
        edges,
        Cut(1),
        Grain(Point(at, foot * (0.5 + _GRAIN)), Point(at, foot * (0.5 - _GRAIN))),
        notches=(Notch(_END, Station(_CENTRE, 0.0, "start"), marks=NotchMark.OPENING_END),),
        lines=(fold,),
        points_meant=_all_corners(edges),
        identity=Identity(PieceKind.FLY, opened[-1][0].identity.part, of=PieceKind.FRONT, side=BodySide.LEFT),
    )


FLY_PART: Final = Part(
    FLY,
    "The fly of trousers that open in front: a facing, a shield behind the zip, and the line it is stitched along.",
    (DrawnTo(Place.CENTRE_FRONT, Identity(PieceKind.FRONT, BodyPart.TROUSERS)),),
    (Site(Place.CENTRE_FRONT, BodyPart.TROUSERS),),
    (Option("stitching", "length", "how far from the centre front it is stitched", 20.0, 50.0, default=35.0),),
    _draw,
    fills=("fly",),
    helped_by=(Remedy("set in block", FLY, (Setting("fastening", FLY),), lead="Close the trousers with a fly"),),
)
"""The fly, as a row of the table of parts."""
