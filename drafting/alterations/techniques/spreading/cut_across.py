r"""A piece cut in two by a line from its armhole to its centre or its neck, the darts above the line closed.

The trade's way (common practice): the darts that open above the line are folded shut, and the line is drawn in one
sweep. The upper part is cut out folded, so that it has no darts. A dart that points well below the line goes on below
it, narrower by what the upper part took up: at the distance q from the place it is turned about, the angle a opens by
2 q sin(a / 2) (plane geometry). A dart whose point lies near the line or above it is gone, and the lower edge is drawn
smooth where it was.

        ____/\____                 ________
       |          |               |________|      the upper part, its dart closed
       |          |       ->       ___  ___
       |          |               |   \/   |      the lower part, the rest of the dart in its seam
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate
from typing import Final

from drafting.alterations.techniques.cutting.clip_marks import clipped, holds
from drafting.alterations.techniques.cutting.cut_piece import CutOffPiece, free_seam_name, with_piece_cut
from drafting.alterations.techniques.cutting.split_edges import EdgePart, joined, joined_name, made_of, notches_on
from drafting.alterations.techniques.marks.grain_line import grain_in_middle
from drafting.alterations.techniques.pivoting.close_dart import smooth_where_met
from drafting.alterations.techniques.pivoting.pivot import Turning, drawn_dart, is_centre, leg_names, turning_of
from drafting.alterations.techniques.redrawing.redraw_run import exact_length, with_length_kept
from drafting.alterations.techniques.spreading.fold_above import (
    AcrossLine,
    Folded,
    Spot,
    fold_above,
    line_opened,
    outline_between,
    place_when_folded,
    upper_is_onward,
)
from drafting.errors import NotAPattern
from drafting.geometry import (
    STAY,
    Curve,
    Point,
    Vec,
    encloses,
    fair,
    polyline,
    run_hits,
    run_length,
    run_reversed,
    tangent,
)
from drafting.geometry.meet import outline_crossings
from drafting.pattern import (
    PLAIN,
    BodyPart,
    Cut,
    Dart,
    Edge,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    closed,
    free_name,
    free_piece_name,
    require_edge,
)
from drafting.pattern.locate import has_sleeve
from drafting.pattern.piece_parts import End, NotchStyle

__all__ = ["AcrossLine", "Spot", "cut_across"]

_EASED: Final = 6.0
"""mm that can be eased into the new seam, where a dart left less (common practice: a quarter of an inch)."""

_LEAST_GRAIN: Final = 35.0
"""mm of height in which a grain line still finds room (ours)."""

_NOTCH: Final = 45.0
_NOTCH_SHARE: Final = 0.4
"""mm from the armhole at which the new seam is notched, at most so much of what lies there (common practice; ours)."""


_LENGTHENED: Final = (
    Level.LENGTHEN,
    Level.LENGTHEN_ABOVE_ELBOW,
    Level.LENGTHEN_ABOVE_KNEE,
    Level.LENGTHEN_ABOVE_CROTCH,
)
_SLANTED: Final = math.radians(1.0)  # from which a line to lengthen at is no longer square to the grain (ours)
_LEAST_LEVEL: Final = 30.0  # mm of height over which centre and outer edge lie beside each other for one (ours)


def cut_across(pattern: Pattern, name: str, across: AcrossLine) -> Pattern:
    """The pattern with the piece of that name cut across: the lower piece keeps its name, the upper one is new.

    A dart that goes on below the line stays a dart of the new seam. Raises NotAPattern where it cannot be drawn.
    """
    piece = pattern.piece(name)
    if across.on is Place.SIDE:  # its place is known, and darts may part the seam
        outer = across.outer(STAY)
    else:
        edge = require_edge(piece, across.on)
        outer = Spot(edge.name, 0.5 * edge.length)
    outer_first = upper_is_onward(piece, outer, across.inner)
    folded = fold_above(piece, across, outer, outer_first=outer_first)
    allowance = max((edge.allowance for edge in piece.edges if edge.role is Role.SEAM), default=0.0)
    seam = free_name(str(across.place), {edge.name for edge in piece.edges})
    upper = _upper(pattern, piece, across, folded, Edge(seam, folded.line, Role.SEAM, allowance, across.place))
    lower = _lower(piece, across, folded, Edge(seam, folded.line, Role.SEAM, allowance, across.place))
    new = _seam(pattern, across, lower.piece, upper.piece, outer_first=outer_first)
    return with_piece_cut(pattern, name, [upper, lower], new)


def _upper(pattern: Pattern, piece: Piece, across: AcrossLine, folded: Folded, line: Edge) -> CutOffPiece:
    """The upper piece: its sections laid together, the line as its lower edge."""
    laid = [[part.moved(move) for part in section] for section, move in zip(folded.sections, folded.moves, strict=True)]
    outer_first = folded.outer_first
    parts = _rejoined(laid[::-1] if outer_first else laid)
    run = run_reversed(folded.line) if outer_first else folded.line
    edges = closed(across.upper, (*(part.edge for part in parts), replace(line, curves=run)))
    outline = [curve for edge in edges for curve in edge.curves]
    names = {edge.name for edge in edges}
    centre = any(is_centre(edge) for edge in edges)
    flat = [curve for section in folded.sections for part in section for curve in part.edge.curves]
    lines = [_line_moved(mark, folded, edges, across.on) for mark in piece.lines if _touches(mark, flat)]
    place = place_when_folded(folded)
    notches = (*notches_on(piece, made_of(parts)), _notch(piece, across, folded, line.name, at_end=outer_first))
    return CutOffPiece(
        Piece(
            free_piece_name(pattern, across.upper),
            edges,
            piece.cut if centre else Cut(2, mirror=True),
            _grain(outline, piece.grain),
            notches=notches,
            lines=tuple(mark for mark in lines if mark is not None),
            points=tuple(
                mark.placed(place(mark.at)) for mark in piece.points if mark.printed and _on(folded, outline, mark.at)
            ),
            points_meant=tuple(pair for pair in piece.points_meant if set(pair) <= names),
            identity=Identity(PieceKind.YOKE, BodyPart.BODICE, of=piece.identity.kind),
        ),
        parts,
    )


def _lower(piece: Piece, across: AcrossLine, folded: Folded, line: Edge) -> CutOffPiece:
    """The lower piece: what is left of the outline, its upper edge the line with the darts that go on opened."""
    outer_first = folded.outer_first
    first, last = folded.sections[-1 if outer_first else 0][0], folded.sections[0 if outer_first else -1][-1]
    ends = (Spot(last.edge.name, last.of[-1].high), Spot(first.edge.name, first.of[0].low))
    rest = outline_between(piece, *ends)
    runs = line_opened(folded)  # from the outer end to the inner, in groups between the darts that go on
    darts = [dart for dart, goes in zip(folded.darts, folded.goes_on, strict=True) if goes][::-1]
    pivots = [pivot for pivot, goes in zip(folded.pivots, folded.goes_on, strict=True) if goes][::-1]
    if not outer_first:
        runs, darts, pivots = [run_reversed(run) for run in runs[::-1]], darts[::-1], pivots[::-1]
    taken = {part.edge.name for part in rest}
    words = [f"at {across.on}", *("between the darts" for _ in runs[1:-1]), "at centre"]
    beside = ("side", "centre")
    if not outer_first:
        words, beside = words[::-1], beside[::-1]
    new = [replace(line, curves=tuple(run)) for run in runs]
    if len(runs) > 1:
        for k, word in enumerate(words):
            new[k] = replace(new[k], name=free_name(f"{line.name} {word}", taken | {each.name for each in new}))
    edges: list[Edge] = [part.edge for part in rest]
    left: list[Dart] = []
    for k, edge in enumerate(new):
        edges.append(edge)
        if k < len(darts):
            dart, about = darts[k], turning_of(piece, darts[k])
            names = leg_names(dart.name, (edge.end, new[k + 1].start), beside, {each.name for each in edges})
            one, other, drawn = drawn_dart(edge, new[k + 1], dart, Turning(pivots[k], about.short), names)
            edges += [one, other]
            left.append(drawn)
    edges = list(closed(piece.name, tuple(edges)))
    outline = [curve for edge in edges for curve in edge.curves]
    if outline_crossings(outline):
        raise NotAPattern(piece.name, reason="the new seam would cross its outline")
    names_left = {edge.name for edge in edges}
    border = polyline(outline, 0.1)
    kept = tuple(dart for dart in piece.darts if dart.name not in {each.name for each in folded.darts})
    aims = {dart.aims_at for dart in (*kept, *left)}
    # with a sleeve in one, the lines end where the body does, within the slit for its gusset
    whole = [mark for mark in piece.lines if has_sleeve(piece) and holds(border, mark.start)]
    lines = (mark if mark in whole else clipped(mark, outline) for mark in piece.lines)
    edge = new[0] if outer_first else new[-1]
    return CutOffPiece(
        Piece(
            piece.name,
            tuple(edges),
            piece.cut,
            _grain(outline, piece.grain),
            (*kept, *left),
            (*notches_on(piece, made_of(rest)), _notch(piece, across, folded, edge.name, at_end=not outer_first)),
            tuple(mark for mark in lines if mark is not None),
            tuple(mark for mark in piece.points if mark.name in aims or holds(border, mark.at)),
            tuple(pair for pair in piece.points_meant if set(pair) <= names_left),
            piece.identity,
        ),
        rest,
    )


def _rejoined(sections: Sequence[Sequence[EdgePart]]) -> tuple[EdgePart, ...]:
    """The parts of the sections with those that a closed dart left as two of one edge made one, smooth where it was.

    What a section has in several stays so: the mouth of a pocket is sewn to its bag, not to what lies beside it.
    """
    parts = [part for section in sections for part in section]
    firsts = list(accumulate(len(section) for section in sections))
    out = [parts[0]]
    for k, part in enumerate(parts[1:], 1):
        if k not in firsts:
            out.append(part)
            continue
        last = out[-1]
        rest = [each.edge for each in (*parts[k + 1 :], *out[:-1])]
        name = joined_name(last.edge, part.edge, rest) if last.edge.place is part.edge.place else None
        if name is None or last.edge.allowance != part.edge.allowance:
            out.append(part)
        else:
            swept = _in_one_sweep(last.edge.curves, part.edge.curves)
            out[-1] = joined(last, part, name).redrawn(swept)
    return tuple(out)


def _in_one_sweep(one: Sequence[Curve], other: Sequence[Curve]) -> tuple[Curve, ...]:
    """Two runs that meet at a small corner as one curve of their length, or else smooth where they meet."""
    start, end = tangent(one[0], 0.0), tangent(other[-1], 1.0)
    try:
        swept = (fair(one[0].start, start, other[-1].end, end),)
        return with_length_kept(swept, exact_length(one) + exact_length(other))
    except NotAPattern:
        return smooth_where_met(one, other)


def _on(folded: Folded, outline: Sequence[Curve], at: Point) -> bool:
    return holds(polyline(outline, 0.1), place_when_folded(folded)(at))


def _touches(mark: MarkLine, run: Sequence[Curve]) -> bool:
    """Whether a marked line ends on the upper part, or lies on it."""
    return any(hit for _, hit in run_hits(run, mark.start, mark.end - mark.start) if hit.along >= -1.0)


def _line_moved(mark: MarkLine, folded: Folded, edges: Sequence[Edge], outer: Place) -> MarkLine | None:
    place = place_when_folded(folded)
    moved = mark.straight(place(mark.start), place(mark.end)) if not mark.curves else mark
    outline = [curve for edge in edges for curve in edge.curves]
    if mark.level in _LENGTHENED and abs((moved.end - moved.start).angle_to(mark.end - mark.start)) > _SLANTED:
        return _level_across(moved, edges, outer)
    border = polyline(outline, 0.1)
    if not (holds(border, moved.start) and holds(border, moved.end)):
        return clipped(moved, outline) if holds(border, moved.start) or holds(border, moved.end) else None
    return moved


def _level_across(mark: MarkLine, edges: Sequence[Edge], outer: Place) -> MarkLine | None:
    """A line to lengthen at that a closed dart left slanted, square to the grain again; None where it finds no room.

    It has to come from the centre to the outer edge without crossing what lies above or below.
    """
    sides = [edge for edge in edges if edge.place is outer]
    upright = [edge for edge in edges if abs(edge.end.x - edge.start.x) < abs(edge.end.y - edge.start.y)]
    runs = [run for run in (sides, [edge for edge in upright if edge not in sides]) if run]
    heights = [[at.y for edge in run for at in (edge.start, edge.end)] for run in runs]
    low, high = max(map(min, heights)), min(map(max, heights))
    level = Point(mark.start.x, 0.5 * (low + high))
    hits = [hit.point for edge in edges for _, hit in run_hits(edge.curves, level, Vec(1.0, 0.0))]
    if len(runs) < 2 or high - low < _LEAST_LEVEL or len(hits) != 2:
        return None
    start, end = sorted(hits, key=lambda at: abs(at.x - mark.start.x))
    return mark.straight(start, end)


def _grain(outline: Sequence[Curve], old: Grain | None) -> Grain | None:
    """The grain line where it was, or in the middle of a piece that it does not lie on; None where there is no room."""
    border = polyline(outline, 0.1)
    if old is not None and encloses(border, old.start) and encloses(border, old.end):
        return old
    along = old.direction if old is not None else Vec(0.0, 1.0)
    return grain_in_middle(outline, along, least=_LEAST_GRAIN)


def _notch(piece: Piece, across: AcrossLine, folded: Folded, edge: str, *, at_end: bool) -> Notch:
    """The notch of the new seam, so far from its outer end on both pieces."""
    long = min(folded.met, default=run_length(folded.line))
    at = min(_NOTCH, _NOTCH_SHARE * long)
    style: NotchStyle = "double" if piece.identity.kind is PieceKind.BACK else "single"
    end: End = "end" if at_end else "start"
    return Notch(f"{_seam_name(piece, across)} notch", Station(edge, at, end), style, NotchMark.BALANCE)


def _seam_name(piece: Piece, across: AcrossLine) -> str:
    """What the new seam is called: "back yoke seam"."""
    return f"{piece.identity.kind} {across.place}"


def _seam(pattern: Pattern, across: AcrossLine, lower: Piece, upper: Piece, *, outer_first: bool) -> Seam:
    """The new seam, walked from the outer end; the lower piece first, which is eased in where it is longer."""
    own = [edge.name for edge in lower.edges if edge.place is across.place][:: 1 if outer_first else -1]
    (line,) = (edge.name for edge in upper.edges if edge.place is across.place)
    a = tuple(EdgeRef(lower.name, edge, not outer_first) for edge in own)
    b = (EdgeRef(upper.name, line, outer_first),)
    word = _seam_name(lower, across)
    mark = f"{word} notch"
    marks = ((NotchRef(lower.name, mark), NotchRef(upper.name, mark)),)
    longer = round(sum(lower.edge(edge).length for edge in own) - upper.edge(line).length, 4)
    ease = SeamEase(longer, min(0.0, longer), max(_EASED, longer)) if longer else PLAIN
    return Seam(free_seam_name(pattern, word), a, b, ease, marks)
