"""Wrap over: a skirt front cut twice, each half reaching beyond the centre front to lie over or under the other.

At least 3 in beyond the centre on each front, so 6 in of overlap (N. Smith, "Sew the wrap skirt"). Beyond the centre
the waist and the hem are those of the other half, mirrored, so that what lies underneath has the shape of what lies on
top; a dart of the other half that the overlap reaches is folded out of it. With a slant the edge runs straight from
the waist to a place further out, or less far, at the hem, as on a wrap cut from a half circle (plane geometry; how far
is taste).

What the garment measures is what goes once round the body: every width is laid to the centre front. How much the two
fronts lie over each other is measured too, at the waist, at the hip, at the knee and at the hem.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, find_piece
from drafting.alterations.earlier_steps import in_the_way
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, lengths_kept_but, seams_kept
from drafting.alterations.techniques.cutting.centre_line import (
    CentreLine,
    centre_lines,
    laid_to_centre,
    to_new_edge,
    with_beyond,
)
from drafting.alterations.techniques.pivoting.fold_darts import stretch_of
from drafting.alterations.techniques.redrawing.redraw_run import cut_near_joint, with_gaps_closed
from drafting.body.estimate import estimate
from drafting.dataclass import dataclass
from drafting.errors import Lacking, StepRefused
from drafting.geometry import (
    Curve,
    Line,
    Point,
    line_hits,
    mirror,
    moved_all,
    run_ends,
    run_length,
    run_reversed,
)
from drafting.parts.finishes.edge_facing import WRAP_FACING, edge_facing
from drafting.parts.finishes.facing_strip import FACING
from drafting.pattern import (
    Across,
    Along,
    Bent,
    Between,
    BodyPart,
    Cut,
    Edge,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Measure,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Tape,
    WalkedEdge,
    edge_at,
    free_name,
    lines_at,
    require_edge,
    require_piece,
    seam_allowance,
    with_pieces,
)

__all__ = ["Wrap"]

_CENTRE: Final = Place.CENTRE_FRONT
_OVERLAP: Final = 76.2  # mm: 3 in each, Smith
_LEAST: Final = 30.0
_MOST: Final = 400.0
_ROOM: Final = 10.0
_AT_WAIST = "wrap at waist"


@alteration_class
class Wrap(Alteration):
    """Let the front of a skirt wrap over."""

    name = "wrap over"
    layer = Layer.STYLE
    needs = ((BodyPart.SKIRT,),)
    about = "Let a skirt front wrap over: cut twice, each half reaching beyond the centre front, straight or slanting."
    leaves = "the fit at waist and hip; every edge but centre front and hem; how well every seam meets"
    carries = "a facing of the wrap edge; the overlap at waist, hip, knee and hem among the finished measurements"

    overlap: float = option(
        "length", "how far each front passes the centre at the waist", _LEAST, _MOST, default=_OVERLAP, or_less=True
    )
    slant: float = option(
        "length", "how much further it goes at the hem; below zero for less", -_MOST, _MOST, default=0.0, or_less=True
    )
    piece: str = option("text", "the front that is to wrap over; left out, the front of the skirt", default="")
    knee: float | None = option(
        "length",
        "how far the knee lies below the waist, to tell the overlap there; left out, as the measurements give it",
        100.0,
        900.0,
        default=None,
    )
    facing: float = option("length", "how deep the edge is faced; zero to turn it in", 0.0, 150.0, default=FACING)

    def apply(self, pattern: Pattern) -> Pattern:
        line = _centre(self, pattern)
        wrapped, levels = _wrapped(self, pattern, line)
        ends = (levels[0].centre, levels[-1].centre)
        once_round = laid_to_centre(pattern.measures, line, ends, partial(_over_wrap, levels))
        measures = (*once_round, *_overlaps(wrapped, levels))
        altered = replace(with_pieces(pattern, wrapped), measures=measures)
        if not self.facing:
            return altered
        part = edge_facing(WRAP_FACING, [(wrapped, require_edge(wrapped, Place.WRAP_EDGE))], self.facing)
        return replace(altered, derived=(*altered.derived, part))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        line = _centre(self, pattern)
        yield from lengths_kept_but(pattern, {(line.piece.name, edge.name) for edge in (line.lower, *line.edges)})
        yield from finished_kept(pattern)
        yield from seams_kept(pattern)


@dataclass(frozen=True, slots=True)
class _Level:
    """A level at which the overlap is measured: the marks at the centre front and at the wrap edge."""

    at: str
    centre: str
    edge: str
    line: str = ""


def _front(step: Wrap, pattern: Pattern) -> Piece:
    if step.piece:
        return find_piece(step.name, pattern, step.piece)
    try:
        return require_piece(pattern, PieceKind.FRONT, BodyPart.SKIRT)
    except Lacking as error:
        raise StepRefused(step.name, str(error)) from error


def _centre(step: Wrap, pattern: Pattern) -> CentreLine:
    piece = _front(step, pattern)
    line = next((each for each in centre_lines(pattern, _CENTRE) if each.piece.name == piece.name), None)
    if line is None:
        if edge_at(piece, Place.WRAP_EDGE):
            raise StepRefused(step.name, f'"{piece.name}" wraps over already')
        plain = f'"{piece.name}" has no edge at its {_CENTRE} to reach beyond'
        raise StepRefused(step.name, in_the_way(piece) or plain)
    if not line.straight:
        raise StepRefused(step.name, f'the {_CENTRE} of "{piece.name}" is shaped; it has to be straight to wrap over')
    if line.lower.place is Place.YOKE or line.upper.place is Place.YOKE:
        raise StepRefused(
            step.name,
            f'"{piece.name}" was cut across by "skirt yoke" or "shaped band", and only a whole front wraps over; leave '
            "out one of the two steps",
        )
    if line.lower.role is not Role.HEM or line.upper.role is not Role.SEAM:
        raise StepRefused(
            step.name,
            f'"{piece.name}" cannot wrap over: that is for a skirt front, with a seam at its waist and a hem below',
        )
    return line


def _wrapped(step: Wrap, pattern: Pattern, line: CentreLine) -> tuple[Piece, list[_Level]]:
    """The piece with what reaches beyond its centre front, and the levels at which that is measured."""
    waist = _beyond(step, line, line.upper, line.top, step.overlap, "waist")
    hem = _beyond(step, line, line.lower, line.bottom, step.overlap + step.slant, "hem")
    piece = line.piece
    at_waist, wrap_edge = (
        free_name(name, {edge.name for edge in piece.edges}) for name in (_AT_WAIST, str(Place.WRAP_EDGE))
    )
    # out along the waist, down the edge, back along the hem; the outline may run the other way
    edges = [
        Edge(at_waist, waist, line.upper.role, line.upper.allowance, Place.WRAP),
        Edge(wrap_edge, (Line(waist[-1].end, hem[-1].end),), Role.OPENING, seam_allowance(piece), Place.WRAP_EDGE),
    ]
    if line.downward:
        hem = (*run_reversed(hem), *line.lower.curves)
    else:
        edges = [replace(edge, curves=run_reversed(edge.curves)) for edge in reversed(edges)]
        hem = (*line.lower.curves, *hem)
    longer = replace(line.lower, curves=with_gaps_closed(hem))
    old = {edge.name for edge in line.edges}
    wrap = next(edge for edge in edges if edge.place is Place.WRAP_EDGE)
    marks, levels = _marks(step, pattern, line, wrap)
    wrapped = replace(
        piece,
        edges=with_beyond(line, edges, longer),
        cut=Cut(2, mirror=True),
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
            (at_waist, wrap_edge),
            (wrap_edge, longer.name),
            # the waist runs on over the centre as it was drawn; what it is sewn to may end there
            (at_waist, line.upper.name),
        ),
    )
    return wrapped, levels


def _beyond(step: Wrap, line: CentreLine, beside: Edge, corner: Point, reach: float, where: str) -> tuple[Curve, ...]:
    """The waist or hem beyond the centre: the other half's, mirrored and its darts folded out, `reach` mm of it."""
    if reach < _ROOM:
        raise StepRefused(
            step.name,
            f"at the {where} the front would reach {reach / 10:.1f} cm beyond the centre; slant it less",
            too_much=("slant",),
        )
    other_half = _folded(step.name, line.piece, beside, corner)
    room = run_length(other_half)
    if reach > room - _ROOM:
        raise StepRefused(
            step.name,
            f"at the {where} the front would reach {reach / 10:.1f} cm beyond the centre, past the other side seam",
        )
    image = mirror(line.top, line.bottom - line.top)
    return cut_near_joint(moved_all(other_half, image), reach)[0]


def _folded(step: str, piece: Piece, beside: Edge, corner: Point) -> tuple[Curve, ...]:
    """The waist or the hem from the centre to the side as one run, each dart in it folded shut."""
    if beside.place is not Place.WAIST:
        return WalkedEdge(beside, beside.start != corner).run
    waist = stretch_of(step, piece, Place.WAIST, start=(_CENTRE,))
    return with_gaps_closed([curve for part in waist.folded for curve in part])


def _marks(step: Wrap, pattern: Pattern, line: CentreLine, wrap: Edge) -> tuple[list[MarkPoint], list[_Level]]:
    """The ends of the overlap at each level, straight across to the wrap edge; at waist and hem its corners."""
    at_top, at_bottom = (wrap.start, wrap.end) if line.downward else (wrap.end, wrap.start)
    down = (line.bottom - line.top).unit()
    places = [("waist", line.top, at_top, "")]
    for name, depth, mark in (*_hips(line), *_knees(step, pattern)):
        centre = line.top + down * depth
        across = down.left()
        if mark:
            across = run_ends(line.piece.line(mark).drawn)[0]
        hits = line_hits(wrap.curves[0], centre, across)
        if hits and depth < line.length:
            places.append((name, centre, hits[0].point, mark))
    places.append(("hem", line.bottom, at_bottom, ""))
    taken = {mark.name for mark in line.piece.points}
    marks: list[MarkPoint] = []
    levels = []
    for name, centre, edge, mark in places:
        level = _Level(
            name,
            free_name(f"{_CENTRE} at {name}", taken),
            free_name(f"{Place.WRAP_EDGE} at {name}", taken),
            mark,
        )
        marks += [
            MarkPoint(level.centre, centre, Landmark.CENTRE),
            MarkPoint(level.edge, edge, Landmark.EDGE),
        ]
        levels.append(level)
    return marks, levels


def _hips(line: CentreLine) -> list[tuple[str, float, str]]:
    down = (line.bottom - line.top).unit()
    hips = lines_at(line.piece, Level.HIP)
    return [("hip", (mark.start - line.top).dot(down), mark.name) for mark in hips]


def _knees(step: Wrap, pattern: Pattern) -> list[tuple[str, float, str]]:
    """The knee below the waist: as asked, as measured, else as the wearer's height and girths give it for a woman."""
    if step.knee is not None:
        return [("knee", step.knee, "")]
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
    return [("knee", heights[0] - heights[1], "")]


def _over_wrap(levels: Sequence[_Level], part: Across | Bent) -> Tape | None:
    """What of a width lies beyond the centre front, counted negative, where that is measured."""
    level = next((each for each in levels if each.line == part.line), None)
    return None if level is None else Between(part.piece, level.centre, level.edge, -part.times)


def _overlaps(wrapped: Piece, levels: Sequence[_Level]) -> Iterator[Measure]:
    """How far the two fronts lie over each other: twice what each reaches beyond the centre."""
    waist = require_edge(wrapped, Place.WRAP)
    yield Measure(f"overlap at the {levels[0].at}", (Along(wrapped.name, waist.name, 2.0),))
    for level in levels[1:]:
        yield Measure(f"overlap at the {level.at}", (Between(wrapped.name, level.centre, level.edge, 2.0),))
