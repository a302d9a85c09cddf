"""Button stands: cloth beyond the centre line of a front or a back, so that both halves are buttoned centre on centre.

A stand is as wide as a button, from the centre to the finished edge (R. Carr, Couture: The Art of Fine Sewing). The
edge is finished with a facing of the same grain and shape (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.earlier_steps import put_before
from drafting.alterations.finishes.button_places import button_places
from drafting.alterations.techniques.cutting.centre_line import (
    Beyond,
    CentreLine,
    hangs_from,
    laid_to_centre,
    to_new_edge,
    with_beyond,
    with_seam_beyond,
)
from drafting.alterations.techniques.marks.gather_marks import notches_evenly, station_along
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Line, Point, Vec, end_tangents, line_hits, run_hits
from drafting.geometry.tolerance import SAME_PLACE
from drafting.parts.finishes.edge_facing import edge_facing
from drafting.parts.finishes.facing_in_one import STAND_FACING
from drafting.parts.finishes.facing_strip import FACING
from drafting.pattern import (
    Across,
    Along,
    Bent,
    Edge,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Role,
    Tape,
    free_name,
    points_at,
    ref_edge,
    seam_allowance,
    walk,
    with_pieces,
)
from drafting.pattern.unfinished import has_inner_layer
from drafting.pattern.walk import GATHERS_NOTCH, Walked, ends_gathers

__all__ = ["gathers_beyond_stands", "is_stand", "with_stands"]

_STAND: Final = "stand"
_LEAST_SLANT: Final = 0.3  # how much of its length a line at the end of the stand has to go outward
_SQUARE_WAIST: Final = 0.97  # the cosine of 14 degrees: further from square it is a point (ours)


@dataclass(frozen=True, slots=True)
class _StandPiece:
    """A piece with its stand, and what its edges are called.

    at_upper, at_lower: the edges across the stand, None where the hem was made longer instead
    """

    line: CentreLine
    piece: Piece
    edge: str
    at_upper: str | None
    at_lower: str | None


def with_stands(
    step: str, pattern: Pattern, at: str, lines: Sequence[CentreLine], button: float, count: int | None = None
) -> Pattern:
    """The pattern with a stand as wide as a button beyond a straight centre line, to be faced, and the buttons marked.

    Its finished measurements are laid to the centre line, not to the edge. Raises NotAPattern where neither end of a
    stand can be measured, StepRefused where a neck runs into the centre too steeply for a stand.
    """
    stood = [_with_stand(step, line, at, button) for line in lines]
    stood = _with_buttons(pattern, stood, button, count)
    by_name = {each.piece.name: each for each in stood}
    measures = pattern.measures
    for each in stood:
        measures = laid_to_centre(measures, each.line, _centre_ends(each.piece), partial(_over_stand, each))
    pieces = tuple(by_name[p.name].piece if p.name in by_name else p for p in pattern.pieces)
    beyond = {name: Beyond(each.line, each.at_upper, each.at_lower) for name, each in by_name.items()}
    seams = tuple(with_seam_beyond(seam, beyond) for seam in pattern.seams)
    altered = replace(pattern, pieces=pieces, seams=seams, measures=measures)
    altered = gathers_beyond_stands(altered)
    made = ((altered.piece(each.piece.name), each.edge) for each in stood)
    # the inner layer of a band goes on to the edge by itself, and the facing below ends in the seam of the band
    faced = ((piece, piece.edge(edge)) for piece, edge in made if not has_inner_layer(piece))
    part = edge_facing(STAND_FACING, faced, _facing_depth(button))
    return replace(altered, derived=(*altered.derived, part))


def is_stand(edge: Edge) -> bool:
    """Whether an edge lies across a button stand."""
    return edge.place is Place.STAND


def gathers_beyond_stands(pattern: Pattern) -> Pattern:
    """The pattern with every seam that is gathered beside a button stand gathered only beyond the facing of the stand,
    and one that is gathered beside what wraps over only from the centre on.

    The stand and the width of its facing stay plain, as buttonholes and a flat facing want it (common practice), and
    what wraps over so that it lies flat; a notch on both pieces tells where the gathers begin.
    """
    for seam in pattern.seams:
        walked = walk(pattern, seam)
        for k in (0, -1):
            one, other = seam.a[k], seam.b[k]
            deep = min(_plain(ref_edge(pattern.pieces, ref)) for ref in (one, other))
            if walked.gathered and deep:
                places = (deep, deep) if k == 0 else (walked.a - deep, walked.b - deep)
                pattern = _gathered_beyond(pattern, seam.name, walked, places, deep)
    return pattern


def _plain(edge: Edge) -> float:
    """How far a seam stays plain at an edge beyond the centre, mm; 0 for any other edge."""
    if is_stand(edge):
        return _facing_depth(edge.length)
    return edge.length if edge.place is Place.WRAP else 0.0


def _gathered_beyond(pattern: Pattern, name: str, walked: Walked, places: tuple[float, float], deep: float) -> Pattern:
    """The pattern with the notch there on both pieces, and the others of the seam where the gathers now bring them."""
    seam = pattern.seam(name)
    stretches = [(start, walked.a - end) for start, end in walked.up_a.stretches]
    stretches += [(start, walked.b - end) for start, end in walked.up_b.stretches]
    if 2.0 * deep > min(walked.sewn) or any(min(each) < deep for each in stretches):
        return pattern
    paired = {mark for pair in seam.notches for mark in pair}
    had = {mark.piece: mark.notch for mark in paired if ends_gathers(pattern, mark)}
    marks = []
    for run, at in zip((seam.a, seam.b), places, strict=True):
        where, station = station_along(pattern, run, at)
        piece = pattern.piece(where)
        mark = had.get(where) or _gathers_name(piece)
        kept = tuple(notch for notch in piece.notches if notch.name != mark)
        pattern = with_pieces(
            pattern, replace(piece, notches=(*kept, Notch(mark, station, marks=NotchMark.GATHERS_END)))
        )
        marks.append(NotchRef(where, mark))
    pair = (marks[0], marks[1])
    marked = replace(seam, notches=(*(each for each in seam.notches if each != pair), pair))
    seams = tuple(marked if each.name == name else each for each in pattern.seams)
    return notches_evenly(replace(pattern, seams=seams), marked)


def _gathers_name(piece: Piece) -> str:
    """What the notch where gathers begin is called: "front gathers notch"."""
    named = GATHERS_NOTCH if piece.identity.half is None else f"{piece.identity.half} {GATHERS_NOTCH}"
    return free_name(named, {notch.name for notch in piece.notches})


def _facing_depth(wide: float) -> float:
    """How deep the facing of a stand of that width is, mm, from the finished edge."""
    return max(FACING, 2.0 * wide + 10.0)


def _with_stand(step: str, line: CentreLine, at: str, wide: float) -> _StandPiece:
    """The piece with a stand of that width beyond one centre line, mm, and the edges that the stand has.

    at: what the centre line is called, "centre front" or "centre back"
    """
    piece = line.piece
    run = (line.bottom - line.top).unit()
    out = run.right() if line.downward else run.left()
    top, upper = _carried_on(step, line, line.upper, line.top, out, wide)
    bottom, lower = _carried_on(step, line, line.lower, line.bottom, out, wide, upper.name)
    called = free_name(f"{at.removeprefix('centre ')} edge", {each.name for each in piece.edges})
    side = Line(top, bottom) if line.downward else Line(bottom, top)
    edge = Edge(called, (side,), Role.OPENING, seam_allowance(piece), Place.STAND_EDGE)
    new = [each for each in (upper, edge, lower) if each is edge or is_stand(each)]
    longer = [each for each in (upper, lower) if not is_stand(each)]
    if not line.downward:
        new.reverse()
    old = {each.name for each in line.edges}
    points = {mark.name for mark in piece.points}
    level = Level.CENTRE_FRONT if line.edges[0].place is Place.CENTRE_FRONT else Level.CENTRE_BACK
    made = replace(
        piece,
        edges=with_beyond(line, new, *longer),
        cut=piece.cut.as_pair(),
        notches=tuple(notch for notch in piece.notches if notch.station.edge not in old),
        lines=(
            *(to_new_edge(mark, line, edge) for mark in piece.lines),
            MarkLine(free_name(at, {mark.name for mark in piece.lines}), line.bottom, line.top, level=level),
        ),
        points=(
            *piece.points,
            MarkPoint(free_name(f"{at}, upper end", points), line.top, Landmark.CENTRE_TOP),
            MarkPoint(free_name(f"{at}, lower end", points), line.bottom, Landmark.CENTRE_BOTTOM),
        ),
        points_meant=_points(piece, line, upper, edge),
    )
    names = [each.name if is_stand(each) else None for each in (upper, lower)]
    return _StandPiece(line, made, edge.name, *names)


def _points(piece: Piece, line: CentreLine, upper: Edge, edge: Edge) -> tuple[tuple[str, str], ...]:
    """The corners that are meant: a V at the centre is none any more, but its stand ends in a slant."""
    old = {each.name for each in line.edges}
    kept = tuple(pair for pair in piece.points_meant if not old & set(pair))
    slanted = ((edge.name, upper.name) for pair in piece.points_meant if old & set(pair) and line.upper.name in pair)
    return (*kept, *slanted)


def _carried_on(
    step: str, line: CentreLine, beside: Edge, corner: Point, out: Vec, wide: float, taken: str = ""
) -> tuple[Point, Edge]:
    """Where the edge beside the centre line comes to the edge of the stand, carried straight on; and that stretch.

    A hem is made longer; any other edge keeps its length, and the stretch is an edge of its own, not named `taken`.
    """
    begins = beside.start == corner
    ahead = -end_tangents(beside.curves[0])[0] if begins else end_tangents(beside.curves[-1])[1]
    if beside.place is Place.CROTCH:
        reason = f'"{line.piece.name}" ends at its crotch, and no button stand can go down there'
        raise StepRefused(
            step, reason=f'{reason}: with "only" name the piece that is to be buttoned, as only = "bodice front"'
        )
    if ahead.dot(out) < _LEAST_SLANT:
        raise StepRefused(
            step,
            reason=f'"{beside.name}" of "{line.piece.name}" comes to the centre line too steeply for a stand; lower '
            "it less",
            remedies=(put_before(otherwise=True),),
        )
    if beside.place is Place.WAIST and ahead.dot(out) < _SQUARE_WAIST:
        reason = f'the waist of "{line.piece.name}" comes to a point at the centre, and buttons lie on a level one'
        raise StepRefused(step, reason=f'{reason}; leave out "pointed waist", or let a zip lie there')
    end = corner + ahead * (wide / ahead.dot(out))
    stretch = Line(end, corner) if begins else Line(corner, end)
    if beside.role is Role.HEM:
        curves = (stretch, *beside.curves) if begins else (*beside.curves, stretch)
        return end, replace(beside, curves=curves)
    name = free_name(f"{_STAND} at {beside.place or beside.name}", {taken, *(e.name for e in line.piece.edges)})
    return end, replace(beside, name=name, curves=(stretch,), place=Place.STAND)


def _over_stand(each: _StandPiece, part: Across | Bent) -> Tape:
    """What of a width lies over the stand, counted negative."""
    edge = each.piece.edge(_square(each))
    down = (each.line.bottom - each.line.top).unit()
    square = abs((edge.end - edge.start).unit().cross(down))  # 1 where that edge is, less at a pointed waist
    short = _end_of_stand(each, part.line)
    if short is not None:  # beside a low neck the stand begins below the line, or cuts it off with its slant
        return Along(part.piece, edge.name, -part.times * short / edge.length)
    return Along(part.piece, edge.name, -part.times * _longer_across_stand(each, part.line) * square)


def _end_of_stand(each: _StandPiece, line: str) -> float | None:
    """How far beyond the centre a marked line meets an end of the stand, mm; None where it goes on to its edge."""
    outward = (each.line.bottom - each.line.top).unit().right()
    ends = each.piece.edge(each.edge)
    if outward.dot(ends.start - each.line.top) < 0.0:
        outward = -outward
    mark = each.line.piece.line(line)
    at = min((mark.start, mark.end), key=lambda place: abs(outward.dot(place - each.line.top)))
    if line_hits(ends.curves[0], at, outward):
        return None
    across = [each.piece.edge(name).curves for name in (each.at_upper, each.at_lower) if name is not None]
    beyond = [hit.along for run in across for _, hit in run_hits(run, at, outward) if hit.along > 0.0]
    return min(beyond, default=0.0)


def _centre_ends(piece: Piece) -> tuple[str, str]:
    """The marked points at the upper and lower end of the centre line that a stand lies beyond."""
    one, other = (points_at(piece, mark)[-1] for mark in (Landmark.CENTRE_TOP, Landmark.CENTRE_BOTTOM))
    return one.name, other.name


def _longer_across_stand(each: _StandPiece, line: str) -> float:
    """How much longer a marked line is across the stand than the stand is wide."""
    down, run = (each.line.bottom - each.line.top).unit(), each.piece.line(line).drawn
    ends = ((run[0].start, end_tangents(run[0])[0]), (run[-1].end, end_tangents(run[-1])[1]))
    outer = each.piece.edge(each.edge).start
    _, along = min(ends, key=lambda end: abs(down.cross(end[0] - outer)))
    return 1.0 / abs(along.cross(down))


def _square(each: _StandPiece) -> str:
    """The edge across the stand that is as long as the stand is wide."""
    names = [name for name in (each.at_upper, each.at_lower) if name is not None]
    if not names:
        raise NotAPattern(each.piece.name, reason="neither end of its stand can be measured")
    return min(names, key=lambda name: each.piece.edge(name).length)


def _with_buttons(
    pattern: Pattern, stood: Sequence[_StandPiece], button: float, wanted: int | None
) -> list[_StandPiece]:
    """The pieces with the buttons marked on the centre line, from above to below.

    Pieces that are sewn to each other have one row of buttons over the seam between them, `wanted` of them in each.
    """
    rows: list[list[_StandPiece]] = []
    for each in stood:
        if rows and hangs_from(pattern, each.line, rows[-1][-1].line):
            rows[-1].append(each)
        else:
            rows.append([each])
    out: list[_StandPiece] = []
    count = 0
    for row in rows:
        places, begins = button_places([each.line for each in row], button, wanted), 0.0
        whole = sum(each.line.length for each in row)
        for each in row:
            line = each.line
            ends = whole if each is row[-1] else begins + line.length + SAME_PLACE
            here = [at for at in places if at <= ends]
            places = places[len(here) :]
            down = (line.bottom - line.top).unit()
            taken = {mark.name for mark in each.piece.points}
            marks = [
                MarkPoint(free_name(f"button {count + i + 1}", taken), line.top + down * (at - begins), Landmark.BUTTON)
                for i, at in enumerate(here)
            ]
            count += len(here)
            begins += line.length
            out.append(replace(each, piece=replace(each.piece, points=(*each.piece.points, *marks))))
    return out
