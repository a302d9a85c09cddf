r"""One piece of a skirt front that wraps over: the part beyond its centre, and the levels at which that is measured.

waist           beyond the centre
-------------+ - - - - - - - - -+    Above and below the piece goes on as the other half does, mirrored and its
|                   \    darts folded out of it; so two pieces that are sewn to each other reach
| centre front       \   equally far at the seam between them, and their seam meets.
|                     \
    -------------+ - - - - - - - - - - -+
hem                         wrap edge
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.techniques.cutting.centre_line import CentreLine, to_new_edge, with_beyond
from drafting.alterations.techniques.pivoting.fold_darts import stretch_of
from drafting.alterations.techniques.redrawing.redraw_run import cut_near_joint, with_gaps_closed
from drafting.body.estimate import estimate
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import (
    Curve,
    Line,
    Point,
    line_hits,
    mirror,
    moved_all,
    run_ends,
    run_hits,
    run_length,
    run_reversed,
)
from drafting.geometry.outline import stretch
from drafting.pattern import (
    Across,
    Bent,
    Between,
    Edge,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Pattern,
    Piece,
    Place,
    Role,
    Tape,
    WalkedEdge,
    free_name,
    lines_at,
    seam_allowance,
)

__all__ = ["MarkedLevel", "WrappedPiece", "over_wrap", "wrapped_pieces"]

_CENTRE: Final = Place.CENTRE_FRONT
_ROOM: Final = 10.0  # mm that are left to the other side seam, and beyond the centre, at the least (ours)


@dataclass(frozen=True, slots=True)
class MarkedLevel:
    """A level at which the overlap is measured: the marks at the centre front and at the wrap edge."""

    at: str
    centre: str
    edge: str
    line: str = ""


@dataclass(frozen=True, slots=True)
class WrappedPiece:
    """A piece that reaches beyond its centre front, and the levels at which that is measured, the upper end first.

    at_upper, at_lower: what its edges beyond the centre are called; at_lower None for a hem, which was made longer
    """

    line: CentreLine
    piece: Piece
    wrap_edge: Edge
    at_upper: str
    at_lower: str | None
    levels: tuple[MarkedLevel, ...]


@dataclass(frozen=True, slots=True)
class _Reach:
    """What a piece reaches beyond its centre above and below, from the centre out, and where its centre begins, mm
    below the waist.
    """

    above: tuple[Curve, ...]
    below: tuple[Curve, ...]
    down: float


def wrapped_pieces(
    step: str, pattern: Pattern, row: Sequence[CentreLine], at_waist: float, at_hem: float, knee: float | None
) -> list[WrappedPiece]:
    """The pieces of a front from waist to hem, each reaching so many mm beyond the centre, at the waist and at the hem.

    knee: how far it lies below the waist, mm; None as the measurements give it
    Raises StepRefused where there is no room for that.
    """
    reaches = _reaches(step, row, at_waist, at_hem)
    knees = _knees(knee, pattern)
    return [
        _wrapped(line, reach, knees, first=line is row[0], last=line is row[-1])
        for line, reach in zip(row, reaches, strict=True)
    ]


def over_wrap(levels: Sequence[MarkedLevel], part: Across | Bent) -> Tape | None:
    """What of a width lies beyond the centre front, counted negative, where that is measured."""
    level = next((each for each in levels if each.line == part.line), None)
    return None if level is None else Between(part.piece, level.centre, level.edge, -part.times)


def _reaches(step: str, row: Sequence[CentreLine], at_waist: float, at_hem: float) -> list[_Reach]:
    """What each piece reaches beyond the centre: at a seam between two as far as a straight edge from waist to hem.

    There both go on as the upper one does, its darts closed: laid on each other they are one piece of cloth.
    """
    above = _run_beyond_centre(step, row[0], row[0].upper, row[0].top, at_waist, "waist")
    hem = _run_beyond_centre(step, row[-1], row[-1].lower, row[-1].bottom, at_hem, "hem")
    start, ahead = above[-1].end, hem[-1].end - above[-1].end
    out, down = [], 0.0
    for line in row[:-1]:
        whole = _other_half(step, line, line.lower, line.bottom)
        hits = run_hits(whole, start, ahead)
        reach = run_length(stretch(whole, 0.0, hits[0][0] + hits[0][1].t)) if hits else run_length(whole)
        below = _run_beyond_centre(step, line, line.lower, line.bottom, reach, str(line.lower.place))
        out.append(_Reach(above, below, down))
        above, down = below, down + line.length
    return [*out, _Reach(above, hem, down)]


def _run_beyond_centre(
    step: str, line: CentreLine, beside: Edge, corner: Point, reach: float, where: str
) -> tuple[Curve, ...]:
    """The waist, a seam or the hem beyond the centre, `reach` mm long.

    It is that of the other half, mirrored, with its darts folded out.
    """
    if reach < _ROOM:
        reason = f"at the {where} the front would reach {reach / 10:.1f} cm beyond the centre; slant it less"
        raise StepRefused(step, reason=reason, too_much=("slant",))
    other_half = _other_half(step, line, beside, corner)
    if reach > run_length(other_half) - _ROOM:
        reason = f"at the {where} the front would reach {reach / 10:.1f} cm beyond the centre, past the other side seam"
        raise StepRefused(step, reason=reason)
    return cut_near_joint(other_half, reach)[0]


def _other_half(step: str, line: CentreLine, beside: Edge, corner: Point) -> tuple[Curve, ...]:
    """The waist, a seam or the hem of the other half from the centre out, each dart in it folded shut."""
    return moved_all(_folded(step, line.piece, beside, corner), mirror(line.top, line.bottom - line.top))


def _folded(step: str, piece: Piece, beside: Edge, corner: Point) -> tuple[Curve, ...]:
    """A line of a piece from the centre to the side as one run, each dart in it folded shut."""
    if beside.place is not Place.WAIST:
        return WalkedEdge(beside, beside.start != corner).run
    waist = stretch_of(step, piece, Place.WAIST, start=(_CENTRE,))
    return with_gaps_closed([curve for part in waist.folded for curve in part])


def _wrapped(line: CentreLine, reach: _Reach, knees: Sequence[float], *, first: bool, last: bool) -> WrappedPiece:
    """The piece with what reaches beyond its centre front."""
    piece, taken = line.piece, {edge.name for edge in line.piece.edges}
    at_upper = free_name(f"wrap at {line.upper.place}", taken)
    at_lower = None if last else free_name(f"wrap at {line.lower.place}", {*taken, at_upper})
    wrap_edge = free_name(str(Place.WRAP_EDGE), taken)
    above, below = reach.above, reach.below
    # out along the upper edge, down the wrap edge, back along the lower; the outline may run the other way
    edges = [
        Edge(at_upper, above, line.upper.role, line.upper.allowance, Place.WRAP),
        Edge(wrap_edge, (Line(above[-1].end, below[-1].end),), Role.OPENING, seam_allowance(piece), Place.WRAP_EDGE),
    ]
    longer = line.lower
    if at_lower is not None:
        edges.append(Edge(at_lower, run_reversed(below), line.lower.role, line.lower.allowance, Place.WRAP))
    else:
        hem = (*run_reversed(below), *line.lower.curves) if line.downward else (*line.lower.curves, *below)
        longer = replace(line.lower, curves=with_gaps_closed(hem))
    if not line.downward:
        edges = [replace(edge, curves=run_reversed(edge.curves)) for edge in reversed(edges)]
    old = {edge.name for edge in line.edges}
    wrap = next(edge for edge in edges if edge.place is Place.WRAP_EDGE)
    marks, levels = _marks(line, wrap, reach.down, knees, first=first, last=last)
    # the waist runs on over the centre as it was drawn; what it is sewn to may end there
    over_centre = [(at_upper, line.upper.name)] if first else []
    wrapped = replace(
        piece,
        edges=with_beyond(line, edges, longer),
        cut=piece.cut.as_pair(),
        notches=tuple(notch for notch in piece.notches if notch.station.edge not in old),
        lines=(
            *(to_new_edge(mark, line, wrap) for mark in piece.lines),
            MarkLine(
                free_name(_CENTRE, {mark.name for mark in piece.lines}), line.bottom, line.top, level=Level.CENTRE_FRONT
            ),
        ),
        points=(*piece.points, *marks),
        points_meant=(
            *(pair for pair in piece.points_meant if not old & set(pair)),
            (at_upper, wrap_edge),
            (wrap_edge, at_lower or longer.name),
            *over_centre,
        ),
    )
    return WrappedPiece(line, wrapped, wrap, at_upper, at_lower, tuple(levels))


def _marks(
    line: CentreLine, wrap: Edge, above: float, knees: Sequence[float], *, first: bool, last: bool
) -> tuple[list[MarkPoint], list[MarkedLevel]]:
    """The ends of the overlap at each level, straight across to the wrap edge; at its upper and lower end the corners.

    above: how far below the waist the centre line begins, mm; knees: how far the knee lies below it
    """
    at_top, at_bottom = (wrap.start, wrap.end) if line.downward else (wrap.end, wrap.start)
    down = (line.bottom - line.top).unit()
    places = [("waist" if first else str(line.upper.place), line.top, at_top, "")]
    for name, depth, mark in (*_hips(line), *(("knee", knee - above, "") for knee in knees)):
        centre = line.top + down * depth
        across = down.left()
        if mark:
            across = run_ends(line.piece.line(mark).drawn)[0]
        hits = line_hits(wrap.curves[0], centre, across)
        if hits and (first or depth > 0.0) and depth < line.length:
            places.append((name, centre, hits[0].point, mark))
    places.append(("hem" if last else str(line.lower.place), line.bottom, at_bottom, ""))
    taken = {mark.name for mark in line.piece.points}
    marks: list[MarkPoint] = []
    levels = []
    for name, centre, edge, mark in places:
        level = MarkedLevel(
            name,
            free_name(f"{_CENTRE} at {name}", {*taken, *(each.name for each in marks)}),
            free_name(f"{Place.WRAP_EDGE} at {name}", {*taken, *(each.name for each in marks)}),
            mark,
        )
        marks += [
            MarkPoint(level.centre, centre, Landmark.CENTRE),
            MarkPoint(level.edge, edge, Landmark.EDGE),
        ]
        levels.append(level)
    return marks, levels


def _hips(line: CentreLine) -> Iterator[tuple[str, float, str]]:
    down = (line.bottom - line.top).unit()
    for mark in lines_at(line.piece, Level.HIP):
        yield "hip", (mark.start - line.top).dot(down), mark.name


def _knees(asked: float | None, pattern: Pattern) -> list[float]:
    """The knee below the waist: as asked, as measured, else as the wearer's height and girths give it for a woman."""
    if asked is not None:
        return [asked]
    known = {length.key: length.mm for length in pattern.wearer.lengths}
    heights = []
    for key in ("waist_height", "knee_height"):
        try:
            found = estimate(key, known, "woman") if key not in known else None
        except KeyError:
            return []
        if key not in known and found is None:
            return []
        heights.append(known[key] if found is None else found.mm)
    return [heights[0] - heights[1]]
