"""The facing of a fly, and the line along which it is stitched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, Literal

from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, bend, cut_run, mirror, run_ends, run_length, run_reversed
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import starting_at, stretch
from drafting.pattern import (
    BodySide,
    Cut,
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
    Station,
    closed,
    edges_at,
    free_piece_name,
    move_piece,
    seam_allowance,
)

__all__ = [
    "BELOW_OPENING",
    "BEYOND_STITCHING",
    "CENTRE",
    "END",
    "FLY",
    "GRAIN_SHARE",
    "Opened",
    "all_corners",
    "downward",
    "fly_facing",
    "stitched_on_pieces",
]

FLY: Final = "fly"
BEYOND_STITCHING: Final = 10.0  # mm that facing and shield are wider than the line of stitching (common practice)
BELOW_OPENING: Final = 12.0  # mm that both reach below the end of the opening (common practice: 1 to 1.5 cm)
_ROUND: Final = 1.3  # how much of the line, as a share of its distance, turns in to the centre (ours)
GRAIN_SHARE: Final = 0.3  # of its length to either side of its middle
CENTRE: Final = "centre front edge"
END: Final = "end of the opening"


Opened = tuple[Piece, Edge, EdgeRef]
"""A stretch of the opening: its piece, its edge, and which way that is walked."""


def downward(opened: Sequence[Opened]) -> tuple[Curve, ...]:
    """The line of the opening from the waist down."""
    runs = [run_reversed(edge.curves) if ref.backward else edge.curves for _, edge, ref in opened]
    out: list[Curve] = []
    for curve in (curve for run in runs for curve in run):
        out.append(starting_at(curve, out[-1].end) if out else curve)
    return tuple(out)


def fly_facing(pattern: Pattern, faced: Sequence[Opened], stitched: float) -> tuple[Piece, MarkLine]:
    """The facing, right side up beside the right front, and the line along which it is stitched to that."""
    top, _, _ = faced[0]
    down = downward(faced)
    waist = _waist_from_centre(top, down[0].start)
    line = _curved_to(down, waist, stitched, 0.0)
    outer = _curved_to(down, waist, stitched + BEYOND_STITCHING, BELOW_OPENING)
    end = down[-1].end
    low = outer[-1].end
    along = cut_run(waist, stitched + BEYOND_STITCHING)[0]
    allowance = seam_allowance(top)
    # anticlockwise as the front lies, with its centre at the right: up the centre, inward along the waist, down, round
    edges: tuple[Edge, ...] = (
        Edge("end", (Line(low, end),), Role.SEAM, allowance, Place.FACING_EDGE),
        Edge(CENTRE, run_reversed(down), Role.SEAM, allowance, Place.CENTRE_FRONT),
        Edge("upper edge", along, Role.SEAM, allowance, Place.BAND_END),
        Edge("free edge", outer, Role.SEAM, 0.0, Place.FACING_EDGE),
    )
    lower: Literal["start", "end"] = "start"
    if (along[0].end - along[0].start).cross(down[0].end - down[0].start) < 0.0:  # the centre lies at the left
        lower = "end"
        names = ("end", "free edge", "upper edge", CENTRE)
        by_name = {edge.name: edge for edge in edges}
        edges = tuple(_turned(by_name[name]) for name in names)
    name = free_piece_name(pattern, f"{FLY} facing")
    middle, way = _at_middle(down), (down[0].start - down[-1].end).unit()
    inward = (along[-1].end - along[0].start).unit()
    at = middle + inward * (0.5 * stitched)
    reach = GRAIN_SHARE * run_length(down)
    piece = Piece(
        name,
        closed(name, edges),
        Cut(1, interfacing=1),
        Grain(at - way * reach, at + way * reach),
        notches=(Notch(END, Station(CENTRE, 0.0, lower), marks=NotchMark.OPENING_END),),
        points_meant=all_corners(edges),
        identity=Identity(PieceKind.FLY, top.identity.part, of=PieceKind.FRONT, side=BodySide.RIGHT),
    )
    # what lies behind the right front is cut as its mirror image
    piece = move_piece(piece, mirror(down[0].start, down[0].start - down[-1].end))
    mark = MarkLine("fly stitching line", line[0].start, line[-1].end, line, Level.STITCHING)
    return piece, mark


def stitched_on_pieces(faced: Sequence[Opened], line: MarkLine) -> Iterator[tuple[str, MarkLine]]:
    """The line on the front, or where a yoke is cut off that, on both."""
    run = line.drawn
    for piece, _, _ in faced[:-1]:
        seam = [curve for edge in edges_at(piece, Place.YOKE) for curve in edge.curves]
        # of a yoke below a band, the line leaves it at the lower of its two seams
        low = max((i + meeting.at_a for i, _, meeting in run_meetings(run, seam)), default=0.0)
        above = stretch(run, 0.0, low) if low else ()
        if not above:
            raise NotAPattern(piece.name, reason="the line of stitching beside the fly does not come to its lower edge")
        above, run = cut_run(run, run_length(above))
        yield piece.name, line.through(above, above[0].start, above[-1].end)
    yield faced[-1][0].name, line.through(run, run[0].start, run[-1].end)


def _at_middle(run: Sequence[Curve]) -> Point:
    """The place halfway along a run."""
    return cut_run(run, 0.5 * run_length(run))[1][0].start


def _turned(edge: Edge) -> Edge:
    return Edge(edge.name, run_reversed(edge.curves), edge.role, edge.allowance, edge.place)


def all_corners(edges: Sequence[Edge]) -> tuple[tuple[str, str], ...]:
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
    raise NotAPattern(FLY, reason=f'the opening of "{piece.name}" does not come to its waist')


def _curved_to(down: Sequence[Curve], waist: Sequence[Curve], wide: float, below: float) -> tuple[Curve, ...]:
    """A line that runs down so far from the centre, and turns in to it `below` mm past the end of the opening."""
    if run_length(waist) <= wide + 1.0:
        raise NotAPattern(FLY, reason=f"a dart lies within {wide:.0f} mm of the centre front: stitch it nearer to that")
    start = cut_run(waist, wide)[1][0].start
    leaving, arriving = run_ends(down)
    low = down[-1].end + arriving * below
    turn = start + leaving * max(0.3 * wide, (low - start).dot(leaving) - _ROUND * wide)
    inward = leaving.left() if leaving.left().dot(start - down[0].start) < 0.0 else leaving.right()
    return (Line(start, turn), bend(turn, leaving, low, (leaving * 0.35 + inward).unit()))
