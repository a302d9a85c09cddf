"""A skirt or trousers cut in two at a line below the waist: a band or a yoke without darts, and what hangs from it.

The line is one and the same on both, so the lower edge of the upper piece is as long as the upper edges of what is left
with the rests of the darts closed (common practice: the upper part is traced with the darts closed).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.skirt.skirt_top import Border, LineBelow, Top, borders, top_and_line
from drafting.alterations.techniques.cutting.clip_marks import clipped, holds
from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut, made_of, notches_on, whole_edge
from drafting.alterations.techniques.marks.grain_line import grain_in_middle, with_grain_inside
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Vec,
    moved_all,
    polyline,
    run_bounds,
    run_hits,
    run_length,
    run_reversed,
)
from drafting.geometry.outline import starting_at
from drafting.parts.finishes.free_edge import chained
from drafting.pattern import (
    CENTRES,
    Along,
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    Station,
    Tape,
    closed,
    edges_at,
    free_name,
    free_piece_name,
    relaid,
)

__all__ = ["Cutting", "left_below", "top_cut_off"]

_MIDDLE: Final = 0.5  # of the seam: where it is notched if no dart and no panel ends in it
_BESIDE: Final = 20.0  # mm beside the centre line that the grain line of a band runs
_CLEAR: Final = 0.2  # of its length that it leaves free at both ends

Where = Mapping[tuple[str, str], tuple[tuple[str, str], ...]]
"""By piece and edge as they were: the pieces and edges that have a part of it now, in the direction of the outline."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """What is cut off, as a word and as it is cut: "band" or "yoke".

    cut: how the upper piece is cut, from how the piece at the centre was
    """

    word: str
    depth: float
    cut: Callable[[Cut], Cut]


def top_cut_off(pattern: Pattern, top: Top, cutting: Cutting) -> Pattern:
    """The pattern with what lies above the line below this waist as a piece of its own. Its darts reach the line.

    Raises NotAPattern where the pieces are too small for it.
    """
    what = pattern.piece(top.centre).identity
    name = free_piece_name(pattern, f"{what.part} {what.kind} {cutting.word}")
    top, line = top_and_line(name, pattern, top.half, what.part or BodyPart.SKIRT, cutting.depth)
    upper, where = _upper(pattern, top, line, name, cutting)
    lowers = {}
    for old in top.pieces:
        lowers[old], more = left_below(pattern, pattern.piece(old), top, line, Place.YOKE)
        for key, parts in more.items():
            where[key] = _in_order(line, key, where.get(key, ()), parts)
    joint, marks = _joint(top, line, upper, lowers, borders(pattern, top))
    upper, lowers = _notched(upper, lowers, marks)
    return _joined(pattern, upper, lowers, where, joint)


def _kept_above(line: LineBelow) -> Iterator[tuple[EdgeRef, float, bool]]:
    """The edges beside the waist that the line cuts or that lie above it: how much of them, and whether they follow."""
    for kept, follows in ((line.after, True), (line.before, False)):
        for each in kept:
            yield each.ref, run_length(each.edge.curves), follows


def _part_above(edge: Edge, long: float, *, follows: bool) -> tuple[EdgePart | None, EdgePart | None]:
    """What of an edge lies above the line, and what below it."""
    if long >= edge.length - 1e-6:
        return whole_edge(edge), None
    one, other = cut(edge, long if follows else edge.length - long)
    return (one, other) if follows else (other, one)


def _upper(
    pattern: Pattern, top: Top, line: LineBelow, name: str, cutting: Cutting
) -> tuple[Piece, dict[tuple[str, str], tuple[tuple[str, str], ...]]]:
    """The upper piece, and which edges it has of which."""
    edges: list[Edge] = []
    where: dict[tuple[str, str], tuple[tuple[str, str], ...]] = {}
    notches: list[Notch] = []

    def add(ref: EdgeRef, part: EdgePart, curves: Sequence[Curve]) -> None:
        called = free_name(part.edge.name, [_LOWER, *(edge.name for edge in edges)])
        edges.append(replace(part.edge, name=called, curves=tuple(curves)))
        where[ref.piece, ref.edge] = ((name, called),)
        taken = [notch.name for notch in notches]
        for notch in notches_on(pattern.piece(ref.piece), made_of([part.named(called)])):
            notches.append(replace(notch, name=free_name(notch.name, taken)))

    for each in top.run:
        add(each.ref, whole_edge(pattern.piece(each.ref.piece).edge(each.ref.edge)), each.edge.curves)
    above = list(_kept_above(line))
    laid = {(each.ref.piece, each.ref.edge): each for each in (*line.after, *line.before)}
    for follows in (True, False):
        mine = [entry for entry in above if entry[2] is follows]
        for ref, long, _ in mine if follows else reversed(mine):
            part, _ = _part_above(pattern.piece(ref.piece).edge(ref.edge), long, follows=follows)
            assert part is not None
            curves = laid[ref.piece, ref.edge].edge.curves
            add(ref, part, curves if follows else run_reversed(curves))
        if follows:
            lower = run_reversed(chained([curve for run in line.parts for curve in run]))
            first = pattern.piece(top.run[0].ref.piece).edge(top.run[0].ref.edge)
            edges.append(Edge(_LOWER, lower, Role.SEAM, first.allowance, Place.YOKE))
    outline = _closed(edges)
    centre, at = pattern.piece(top.centre), [edge.name for edge in outline].index(_LOWER)
    at_lower = ((outline[at - 1].name, _LOWER), (_LOWER, outline[(at + 1) % len(outline)].name))
    others = (pattern.piece(other) for other in top.pieces if other != top.centre)
    points = (
        *_points_meant(centre, where, at_lower),
        *(pair for other in others for pair in _points_meant(other, where, ())),
    )
    return (
        Piece(
            name,
            closed(name, outline),
            cutting.cut(centre.cut),
            _grain(centre, outline),
            notches=tuple(notches),
            points_meant=points,
            identity=centre.identity,
        ),
        where,
    )


_LOWER: Final = "lower edge"


def _points_meant(piece: Piece, where: Where, lower: Sequence[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """The corners of a piece that are meant, by what its edges are called on the upper piece.

    lower: the corners of the lower edge that are meant where the waist is meant to come to a point above them
    """
    named = {edge: parts[0][1] for (on, edge), parts in where.items() if on == piece.name and parts}
    for one, other in piece.points_meant:
        if one in named and other in named:
            meant = (named[one], named[other])
            yield meant
            yield from (pair for pair in lower if not set(pair).isdisjoint(meant))


def _along_centre(edges: Sequence[Edge], along: Vec) -> Vec:
    """The direction of the longest straight of a centre line among these edges, upward; `along` where it has none."""
    lines = [curve for e in edges if e.place in CENTRES for curve in e.curves if isinstance(curve, Line)]
    longest = max((line.end - line.start for line in lines), key=Vec.norm, default=along)
    return (longest if longest.y > 0.0 else -longest).unit()


def _grain(centre: Piece, edges: Sequence[Edge]) -> Grain | None:
    """A grain line beside the centre line of a piece with these edges; None where there is no room for it.

    A band of a skirt, whose centre seam may lean, has it along that seam; one of trousers as it ran there.
    """
    if centre.grain is None:
        return None
    outline = [curve for edge in edges for curve in edge.curves]
    along = centre.grain.direction
    if centre.identity.part is not BodyPart.TROUSERS:
        along = _along_centre(edges, along)
    line = [edge for edge in edges_at(centre, *CENTRES) if edge.role is not Role.HEM]
    if not line:
        return grain_in_middle(outline, along)
    left, _, right, _ = run_bounds(outline)
    top = max((edge.start if edge.start.y > edge.end.y else edge.end for edge in line), key=lambda at: at.y)
    start = top + Vec(math.copysign(_BESIDE, (right - top.x) - (top.x - left)), 0.0)
    hits = sorted(hit.along for _, hit in run_hits(outline, start, along))
    inside = [(a, b) for a, b in zip(hits[::2], hits[1::2], strict=False)]
    if not inside:
        return None
    a, b = max(inside, key=lambda each: each[1] - each[0])
    return Grain(start + along * (a + _CLEAR * (b - a)), start + along * (b - _CLEAR * (b - a)))


def _closed(edges: Sequence[Edge]) -> tuple[Edge, ...]:
    """The edges with the gaps of rounding between them closed."""
    out: list[Edge] = []
    for k, edge in enumerate(edges):
        run = list(edge.curves)
        for at in range(1, len(run)):
            run[at] = starting_at(run[at], run[at - 1].end)
        goal = edges[(k + 1) % len(edges)].curves[0].start
        if not run[-1].end.near(goal, 1e-3):
            raise NotAPattern(edge.name, reason=f"it ends at {run[-1].end}, the next begins at {goal}")
        run[-1] = replace(run[-1], end=goal)
        out.append(replace(edge, curves=tuple(run)))
    return tuple(out)


def left_below(
    pattern: Pattern, piece: Piece, top: Top, line: LineBelow, place: Place
) -> tuple[Piece, dict[tuple[str, str], tuple[tuple[str, str], ...]]]:
    """What is left of a piece below the line, its upper edges at this place, and which edges it has of which."""
    cut_edges = {(ref.edge, follows): long for ref, long, follows in _kept_above(line) if ref.piece == piece.name}
    tops = {
        each.ref.edge: moved_all(run, each.move.undone())
        for each, run in zip(top.run, line.parts, strict=True)
        if each.ref.piece == piece.name
    }
    found = borders(pattern, top)
    gone: dict[str, tuple[float, bool]] = {name: (long, follows) for (name, follows), long in cut_edges.items()}
    for k, (between, down) in enumerate(zip(found, line.downs, strict=True)):
        if between.dart is not None:
            if between.piece.name == piece.name:
                for name, follows in ((between.dart.legs[0], True), (between.dart.legs[1], False)):
                    gone[name] = (down, follows)
            continue
        if not between.edge:
            continue
        if between.piece.name == piece.name:
            gone[between.edge] = (down, True)
        other = top.run[k + 1].ref
        if other.piece == piece.name:
            gone[piece.beside(other.edge)[0].name] = (down, False)
    parts: list[EdgePart] = []
    where: dict[tuple[str, str], tuple[tuple[str, str], ...]] = {}
    for edge in piece.edges:
        if edge.name in tops:
            parts.append(EdgePart(replace(edge, curves=tops[edge.name], place=place), ()))
            continue
        long, follows = gone.get(edge.name, (0.0, True))
        below = whole_edge(edge) if edge.name not in gone else _part_above(edge, long, follows=follows)[1]
        if below is not None:
            parts.append(below)
            where[piece.name, edge.name] = ((piece.name, edge.name),)
        elif edge.role is not Role.DART_LEG:
            where[piece.name, edge.name] = ()
    edges = _closed([part.edge for part in parts])
    names = {edge.name for edge in edges}
    begins = {edge.name: edge.start for edge in edges}
    outline = closed(piece.name, edges)
    curves = [curve for edge in outline for curve in edge.curves]
    border = polyline(curves, 0.1)
    made = replace(
        piece,
        edges=outline,
        darts=tuple(
            replace(d, apex=begins[d.legs[1]]) for d in piece.darts if d.legs[0] in names and d.legs[1] in names
        ),
        notches=notches_on(piece, made_of([part for part in parts if part.of])),
        lines=tuple(each for mark in piece.lines if (each := clipped(mark, curves)) is not None),
        points=tuple(mark for mark in piece.points if holds(border, mark.at)),
        points_meant=tuple(pair for pair in piece.points_meant if set(pair) <= names),
    )
    # little may be left: of a yoke that a band is cut from, or of the first tier
    low = None if edges_at(made, Place.HEM, Place.LEG_OPENING) else _grain(made, outline)
    return replace(made, grain=low) if low else with_grain_inside(made), where


def _in_order(
    line: LineBelow, key: tuple[str, str], above: Sequence[tuple[str, str]], below: Sequence[tuple[str, str]]
) -> tuple[tuple[str, str], ...]:
    """The parts of an edge in the direction of the outline: what follows the waist begins with what lies above."""
    follows = any((each.ref.piece, each.ref.edge) == key for each in line.after)
    return (*above, *below) if follows else (*below, *above)


def _joint(
    top: Top, line: LineBelow, upper: Piece, lowers: Mapping[str, Piece], found: Sequence[Border]
) -> tuple[Seam, list[tuple[str, Notch, Notch]]]:
    """The seam of what hangs and what it hangs from, and its notches: where a dart or a panel ends, else one midway."""
    run = tuple(EdgeRef(each.ref.piece, each.ref.edge) for each in top.run)
    lengths = [run_length(part) for part in line.parts]
    marks: list[tuple[str, Notch, Notch]] = []
    style = "single" if top.half == "front" else "double"
    gone = 0.0
    for each, long, border in zip(top.run, lengths, found, strict=False):
        gone += long
        if border.dart is None or not any(border.dart.name == d.name for d in lowers[each.ref.piece].darts):
            continue
        marks.append(_pair(upper, each.ref, gone, long, style, len(marks)))
    if not marks:
        k = max(range(len(lengths)), key=lengths.__getitem__)
        at = sum(lengths[:k]) + _MIDDLE * lengths[k]
        marks.append(_pair(upper, top.run[k].ref, at, _MIDDLE * lengths[k], style, 0))
    pairs = tuple((NotchRef(piece, low.name), NotchRef(upper.name, high.name)) for piece, low, high in marks)
    name = f"{upper.name} to {top.half}"
    return Seam(name, run, (EdgeRef(upper.name, _LOWER, backward=True),), notches=pairs), marks


def _pair(upper: Piece, ref: EdgeRef, along: float, on_edge: float, style: str, count: int) -> tuple[str, Notch, Notch]:
    name = f"{upper.name} notch" if count == 0 else f"{upper.name} notch {count + 1}"
    low = Notch(name, Station(ref.edge, on_edge), style, NotchMark.BALANCE)  # type: ignore[arg-type]
    return ref.piece, low, replace(low, station=Station(_LOWER, along, "end"))


def _notched(
    upper: Piece, lowers: Mapping[str, Piece], marks: Sequence[tuple[str, Notch, Notch]]
) -> tuple[Piece, dict[str, Piece]]:
    out = {
        name: replace(piece, notches=(*piece.notches, *(low for on, low, _ in marks if on == name)))
        for name, piece in lowers.items()
    }
    return replace(upper, notches=(*upper.notches, *(high for _, _, high in marks))), out


def _joined(pattern: Pattern, upper: Piece, lowers: Mapping[str, Piece], where: Where, joint: Seam) -> Pattern:
    """The pattern with the pieces in the place of those that were cut."""
    pieces: list[Piece] = []
    for piece in pattern.pieces:
        if piece.name in lowers:
            if not any(each is upper for each in pieces):
                pieces.append(upper)
            pieces.append(lowers[piece.name])
        else:
            pieces.append(piece)
    there = {piece.name: {notch.name for notch in piece.notches} for piece in (upper, *lowers.values())}

    def run(refs: Sequence[EdgeRef]) -> tuple[EdgeRef, ...]:
        out: list[EdgeRef] = []
        for ref in refs:
            parts = where.get((ref.piece, ref.edge), ((ref.piece, ref.edge),))
            out += [EdgeRef(on, edge, ref.backward) for on, edge in (reversed(parts) if ref.backward else parts)]
        return tuple(out)

    def mark(ref: NotchRef) -> NotchRef | None:
        if ref.piece not in lowers or ref.notch in there[ref.piece]:
            return ref
        return NotchRef(upper.name, ref.notch) if ref.notch in there[upper.name] else None

    seams = []
    for seam in pattern.seams:
        a, b = run(seam.a), run(seam.b)
        if a and b:
            pairs = ((mark(one), mark(other)) for one, other in seam.notches)
            seams.append(replace(seam, a=a, b=b, notches=tuple((x, y) for x, y in pairs if x and y)))
    measures = pattern.measures
    for name in lowers:
        measures = relaid(measures, name, partial(_lay_over, where=where))
    return replace(pattern, pieces=tuple(pieces), seams=(joint, *seams), measures=measures)


def _lay_over(_measure: Measure, part: Tape, where: Where) -> Iterator[Tape]:
    if isinstance(part, Along):
        parts = where.get((part.piece, part.edge), ((part.piece, part.edge),))
        yield from (replace(part, piece=on, edge=edge) for on, edge in parts)
    else:
        yield part
