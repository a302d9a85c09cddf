"""A skirt or trousers cut in two at a line below the waist: a band or a yoke without darts, and what hangs from it.

The line is one and the same on both, so the lower edge of the upper piece is as long as the upper edges of what is left
with the rests of the darts closed (common practice: the upper part is traced with the darts closed). An outline runs
anticlockwise, so every edge that the line meets runs down from the waist or up to it:

           <----- waist -----
          |   .   ^ |   .    ^        dart legs and the seams of panels run down and up between them
     runs |    .  | |  .     | runs
     down |  - - -v-^- - - - | up     the line below the waist
          v                  |

How it goes: the waist is laid out with its darts closed, and the line drawn (`skirt_top.py`). The upper piece is the
waist, what lies above the line of the edges at both of its ends, and the line itself. What is left of each old piece is
its outline with the waist in the place of the line. A table says of every old edge which edges are made of it now: by
it seams and tapes are told of the new pieces.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import accumulate
from typing import Final

from drafting.alterations.skirt.met_edges import EdgeName, met_at_end, met_at_ends, met_between
from drafting.alterations.skirt.skirt_top import LineBelow, Top, borders, top_and_line
from drafting.alterations.techniques.cutting.clip_marks import clipped, holds
from drafting.alterations.techniques.cutting.split_edges import EdgePart, made_of, notches_on, whole_edge
from drafting.alterations.techniques.marks.grain_line import grain_in_middle, with_grain_inside
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
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
from drafting.parts.folded_outline import LaidEdge
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
from drafting.pattern.piece_parts import NotchStyle

__all__ = ["Cutting", "left_below", "top_cut_off"]

_MIDDLE: Final = 0.5  # of the seam: where it is notched if no dart and no panel ends in it
_BESIDE: Final = 20.0  # mm beside the centre line that the grain line of a band runs
_CLEAR: Final = 0.2  # of its length that it leaves free at both ends

_LOWER: Final = "lower edge"

MadeOf = Mapping[EdgeName, tuple[EdgeName, ...]]
"""By old edge: the new edges that are made of it, in the direction of the outline."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """How the top is cut off: the word for the new piece, "band" or "yoke", and its depth, mm.

    cut: how the upper piece is cut, from how the piece at the centre was
    """

    word: str
    depth: float
    cut: Callable[[Cut], Cut]


@dataclass(frozen=True, slots=True)
class _UpperEdge:
    """An edge of the upper piece where it lies, and the old edge of which it is a part."""

    old: EdgeRef
    part: EdgePart


@dataclass(frozen=True, slots=True)
class _NotchPair:
    """A notch where the upper piece meets what is left of an old one. piece: the name of the old one"""

    piece: str
    lower: Notch
    upper: Notch


def top_cut_off(pattern: Pattern, top: Top, cutting: Cutting) -> Pattern:
    """The pattern with what lies above the line below this waist as a piece of its own. Its darts reach the line.

    Raises NotAPattern where the pieces are too small for it.
    """
    what = pattern.piece(top.centre).identity
    name = free_piece_name(pattern, f"{what.part} {what.kind} {cutting.word}")
    top, line = top_and_line(name, pattern, top.half, what.part or BodyPart.SKIRT, cutting.depth)
    upper, above = _upper(pattern, top, line, name, cutting)
    met = {(each.ref.piece, each.ref.edge): each for each in met_at_ends(line)}
    lowers: dict[str, Piece] = {}
    made_of_old = dict(above)
    for old in top.pieces:
        lowers[old], below = left_below(pattern, pattern.piece(old), top, line, Place.YOKE)
        for key, parts in below.items():
            made_of_old[key] = met[key].in_order(above.get(key, ()), parts) if key in met else parts
    pairs = _notch_pairs(pattern, top, line, upper, lowers)
    upper, lowers = _notched(upper, lowers, pairs)
    return _joined(pattern, upper, lowers, made_of_old, _joint(top, upper, pairs))


def _laid_above(pattern: Pattern, top: Top, line: LineBelow) -> tuple[list[_UpperEdge], list[_UpperEdge]]:
    """The edges of the upper piece where they lie: the waist and what runs down from it; then what runs up to it."""

    def old(ref: EdgeRef) -> Edge:
        return pattern.piece(ref.piece).edge(ref.edge)

    def above(each: LaidEdge, *, runs_down: bool) -> _UpperEdge:
        part = met_at_end(each, runs_down=runs_down).part_above(old(each.ref))
        # it is laid walked away from the waist; the outline may come up to it
        return _UpperEdge(each.ref, part.redrawn(each.edge.curves if runs_down else run_reversed(each.edge.curves)))

    waist = [_UpperEdge(each.ref, whole_edge(old(each.ref)).redrawn(each.edge.curves)) for each in top.run]
    down = [above(each, runs_down=True) for each in line.after]
    up = [above(each, runs_down=False) for each in reversed(line.before)]
    return [*waist, *down], up


def _named_apart(laid: Sequence[_UpperEdge]) -> list[_UpperEdge]:
    """The same edges, each under a name that no other edge of the piece has."""
    found: list[_UpperEdge] = []
    for each in laid:
        name = free_name(each.part.edge.name, [_LOWER, *(other.part.edge.name for other in found)])
        found.append(_UpperEdge(each.old, each.part.named(name)))
    return found


def _notches_above(pattern: Pattern, laid: Sequence[_UpperEdge]) -> tuple[Notch, ...]:
    """The notches that the old pieces had in these edges."""
    found: list[Notch] = []
    for each in laid:
        taken = [notch.name for notch in found]
        for notch in notches_on(pattern.piece(each.old.piece), made_of([each.part])):
            found.append(replace(notch, name=free_name(notch.name, taken)))
    return tuple(found)


def _upper(
    pattern: Pattern, top: Top, line: LineBelow, name: str, cutting: Cutting
) -> tuple[Piece, dict[EdgeName, tuple[EdgeName, ...]]]:
    """The upper piece, and by old edge which of its edges is made of it."""
    down, up = _laid_above(pattern, top, line)
    laid, at = _named_apart([*down, *up]), len(down)
    made_of_old: dict[EdgeName, tuple[EdgeName, ...]] = {
        (each.old.piece, each.old.edge): ((name, each.part.edge.name),) for each in laid
    }
    edges = [each.part.edge for each in laid]
    curves = run_reversed(chained([curve for run in line.parts for curve in run]))
    edges.insert(at, Edge(_LOWER, curves, Role.SEAM, edges[0].allowance, Place.YOKE))
    outline = _closed(edges)
    corners = ((outline[at - 1].name, _LOWER), (_LOWER, outline[(at + 1) % len(outline)].name))
    centre = pattern.piece(top.centre)
    others = [pattern.piece(other) for other in top.pieces if other != top.centre]
    points = [*_points_meant(centre, made_of_old, corners)]
    points += [pair for other in others for pair in _points_meant(other, made_of_old, ())]
    piece = Piece(
        name,
        closed(name, outline),
        cutting.cut(centre.cut),
        _grain(centre, outline),
        notches=_notches_above(pattern, laid),
        points_meant=tuple(points),
        identity=centre.identity,
    )
    return piece, made_of_old


def _points_meant(piece: Piece, made_of_old: MadeOf, lower: Sequence[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """The corners of a piece that are meant, by what its edges are called on the upper piece.

    lower: the corners of the lower edge that are meant where the waist is meant to come to a point above them
    """
    named = {edge: parts[0][1] for (on, edge), parts in made_of_old.items() if on == piece.name and parts}
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
) -> tuple[Piece, dict[EdgeName, tuple[EdgeName, ...]]]:
    """The part of a piece below the line, its upper edges at this place; and by old edge the edges made of it.

    An old edge that lies above the line has none; the legs of darts are left out of that table.
    """
    met = {
        each.ref.edge: each
        for each in (*met_at_ends(line), *met_between(pattern, top, line))
        if each.ref.piece == piece.name
    }
    tops = {
        each.ref.edge: moved_all(run, each.move.undone())
        for each, run in zip(top.run, line.parts, strict=True)
        if each.ref.piece == piece.name
    }
    parts: list[EdgePart] = []
    made_of_old: dict[EdgeName, tuple[EdgeName, ...]] = {}
    for edge in piece.edges:
        if edge.name in tops:
            parts.append(EdgePart(replace(edge, curves=tops[edge.name], place=place), ()))
            continue
        below = met[edge.name].part_below(edge) if edge.name in met else whole_edge(edge)
        key = piece.name, edge.name
        if below is not None:
            parts.append(below)
            made_of_old[key] = (key,)
        elif edge.role is not Role.DART_LEG:
            made_of_old[key] = ()
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
    return replace(made, grain=low) if low else with_grain_inside(made), made_of_old


def _notch_pairs(
    pattern: Pattern, top: Top, line: LineBelow, upper: Piece, lowers: Mapping[str, Piece]
) -> tuple[_NotchPair, ...]:
    """The notches of the new seam: one where each dart that is left ends in it, else one in its longest edge."""
    lengths = [run_length(part) for part in line.parts]
    begins = [0.0, *accumulate(lengths)]
    style: NotchStyle = "single" if top.half == "front" else "double"
    found: list[_NotchPair] = []

    def add(number: int, along: float) -> None:
        """A pair in one of the edges, so far along it, mm."""
        ref = top.run[number].ref
        name = f"{upper.name} notch" if not found else f"{upper.name} notch {len(found) + 1}"
        low = Notch(name, Station(ref.edge, along), style, NotchMark.BALANCE)
        high = replace(low, station=Station(_LOWER, begins[number] + along, "end"))
        found.append(_NotchPair(ref.piece, low, high))

    for number, border in enumerate(borders(pattern, top)):
        left = lowers[top.run[number].ref.piece].darts
        if border.dart is not None and any(dart.name == border.dart.name for dart in left):
            add(number, lengths[number])
    if not found:
        longest = max(range(len(lengths)), key=lengths.__getitem__)
        add(longest, _MIDDLE * lengths[longest])
    return tuple(found)


def _joint(top: Top, upper: Piece, pairs: Sequence[_NotchPair]) -> Seam:
    """The seam between what is left and the upper piece."""
    run = tuple(EdgeRef(each.ref.piece, each.ref.edge) for each in top.run)
    met = tuple((NotchRef(each.piece, each.lower.name), NotchRef(upper.name, each.upper.name)) for each in pairs)
    return Seam(f"{upper.name} to {top.half}", run, (EdgeRef(upper.name, _LOWER, backward=True),), notches=met)


def _notched(upper: Piece, lowers: Mapping[str, Piece], pairs: Sequence[_NotchPair]) -> tuple[Piece, dict[str, Piece]]:
    """The pieces with these notches in them."""
    low = {
        name: replace(piece, notches=(*piece.notches, *(each.lower for each in pairs if each.piece == name)))
        for name, piece in lowers.items()
    }
    return replace(upper, notches=(*upper.notches, *(each.upper for each in pairs))), low


def _joined(pattern: Pattern, upper: Piece, lowers: Mapping[str, Piece], made_of_old: MadeOf, joint: Seam) -> Pattern:
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
            parts = made_of_old.get((ref.piece, ref.edge), ((ref.piece, ref.edge),))
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
        measures = relaid(measures, name, partial(_lay_over, made_of_old=made_of_old))
    return replace(pattern, pieces=tuple(pieces), seams=(joint, *seams), measures=measures)


def _lay_over(_measure: Measure, part: Tape, made_of_old: MadeOf) -> Iterator[Tape]:
    """A part of a tape, laid along the new edges where it lay along an old one."""
    if isinstance(part, Along):
        parts = made_of_old.get((part.piece, part.edge), ((part.piece, part.edge),))
        yield from (replace(part, piece=on, edge=edge) for on, edge in parts)
    else:
        yield part
