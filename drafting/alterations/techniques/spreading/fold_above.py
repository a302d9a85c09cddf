"""The part of a piece above a line across it, its darts closed, and the line as it lies on either side.

The parts between the darts are laid together, and the innermost part stays; the line is drawn over them in one sweep.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut, cut_part, whole_edge
from drafting.alterations.techniques.pivoting.close_dart import smooth_where_met
from drafting.alterations.techniques.pivoting.pivot import angle_about, inside, region, turning_of
from drafting.alterations.techniques.redrawing.redraw_run import ends_moved, exact_length, with_length_kept
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    STAY,
    Curve,
    Move,
    Point,
    Vec,
    distance,
    lerp,
    moved_all,
    run_at,
    run_hits,
    run_length,
    run_tangent,
    split,
    turn,
)
from drafting.pattern import Dart, Edge, Piece, Place, Role, dart_mouth

__all__ = [
    "AcrossLine",
    "Folded",
    "Spot",
    "fold_above",
    "line_opened",
    "outline_between",
    "place_when_folded",
    "upper_is_onward",
]

_EASED: Final = 6.0
_SHORT: Final = 30.0
_EASED_SHORT: Final = 15.0
"""mm. What is left of a dart is eased in where it is no wider than the first (common practice: 5 or 6), or is shorter
than the second and no wider than the third (ours)."""

_STAYS_BELOW: Final = (Place.SIDE, Place.WAIST, Place.HEM)
_STAYS_ABOVE: Final = (Place.ARMHOLE, Place.SHOULDER, Place.NECK)
"""What the part that is left has, where a piece is cut across from its armhole, and from its side seam."""

_ROUNDS: Final = 80
_STILL: Final = 1e-6
"""mm. A dart closed as far as the line is turned about where it meets the line: sought until it no longer moves."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on the outline of a piece: so many mm from the start of an edge."""

    edge: str
    at: float


@dataclass(frozen=True, slots=True)
class AcrossLine:
    """How a piece is cut across.

    outer:  where on the armhole the line begins, when the outermost part is folded in by a move
    inner:  where it ends, on the centre or the neck
    draw:   the line from its outer place, with the direction of the armhole there (towards the upper part), to its
            inner place, with the direction of the outline there (the same)
    place:  what the new seam is
    upper:  what the upper piece is called
    on:     the place its outer end lies on: what is cut off lies above it on an armhole, below it on a side seam
    """

    outer: Callable[[Move], Spot]
    inner: Spot
    draw: Callable[[Point, Vec, Point, Vec], Sequence[Curve]]
    place: Place
    upper: str
    on: Place = Place.ARMHOLE


@dataclass(frozen=True, slots=True)
class Folded:
    """The upper part with its darts closed.

    sections: what lies between the darts, from the inner end to the outer, each in the order of the outline
    moves:    where each is laid
    darts, pivots: between them, and about what each is turned, where the piece lies
    line:     from the outer end to the inner, as it lies folded
    met:      how far along the line each dart meets it, mm
    goes_on:  whether each goes on below the line as a dart; what little is left of another is eased in
    outer_first: whether the outline of the upper part runs from the outer end to the inner
    """

    sections: tuple[tuple[EdgePart, ...], ...]
    moves: tuple[Move, ...]
    darts: tuple[Dart, ...]
    pivots: tuple[Point, ...]
    line: tuple[Curve, ...]
    met: tuple[float, ...]
    goes_on: tuple[bool, ...]
    outer_first: bool


def upper_is_onward(piece: Piece, outer: Spot, inner: Spot) -> bool:
    """Whether the part that is cut off runs anticlockwise from the outer place to the inner one."""
    on = piece.edge(outer.edge).place
    stays = _STAYS_BELOW if on is Place.ARMHOLE else _STAYS_ABOVE
    k, count = piece.index(outer.edge), len(piece.edges)
    while piece.edges[k].name != inner.edge:
        if piece.edges[k].place in stays and piece.edges[k].name != outer.edge:
            return False
        k = (k + 1) % count
    return True


def outline_between(piece: Piece, start: Spot, end: Spot) -> tuple[EdgePart, ...]:
    """The outline from one place to another, anticlockwise."""
    k, last = piece.index(start.edge), piece.index(end.edge)
    found: list[EdgePart | None] = [cut(piece.edges[k], start.at)[1]]
    while k != last:
        k = (k + 1) % len(piece.edges)
        found.append(whole_edge(piece.edges[k]) if k != last else cut(piece.edges[k], end.at)[0])
    return tuple(part for part in found if part is not None)


def fold_above(piece: Piece, across: AcrossLine, outer: Spot, *, outer_first: bool) -> Folded:
    """The upper part folded, and the line drawn over it; outer: a place to begin from."""
    pivots: dict[str, Point] = {}
    at = outer
    for _ in range(_ROUNDS):
        ends = (at, across.inner) if outer_first else (across.inner, at)
        sections, darts = _sections(piece, outline_between(piece, *ends), outer_first=outer_first)
        about = [pivots.get(dart.name) or turning_of(piece, dart).pivot for dart in darts]
        moves = _moves(piece, darts, about, outer_first=outer_first)
        next_at = across.outer(moves[-1])
        line = _drawn(piece, across, next_at, moves[-1], outer_first=outer_first)
        met, goes_on, still = [], [], True
        for dart, move, pivot in zip(darts, moves, about, strict=False):
            angle = angle_about(*dart_mouth(piece, dart), pivot)
            mouth, point = (move.point(each) for each in (_inner_mouth(piece, dart, outer_first=outer_first), pivot))
            on_line, crossing = _where_dart_meets(piece, line, mouth, point)
            further = distance(mouth, point) - distance(mouth, crossing) - turning_of(piece, dart).short
            below = dart.name not in pivots and further > 0.0
            goes_on.append(
                below and not _is_eased_in(2.0 * distance(crossing, point) * abs(math.sin(0.5 * angle)), further)
            )
            if not below:
                # turned about a place on its own fold, so that its legs come to lie on each other
                fold = (move.point(each) for each in (lerp(*dart_mouth(piece, dart), 0.5), dart.apex))
                on_line, crossing = _where_dart_meets(piece, line, *fold)
                new = _back(move).point(crossing)
                still = still and dart.name in pivots and distance(new, pivot) <= _STILL
                pivots[dart.name] = new
            met.append(on_line)
        still = still and next_at.edge == at.edge and abs(next_at.at - at.at) <= _STILL
        if still:
            return Folded(sections, moves, darts, tuple(about), line, tuple(met), tuple(goes_on), outer_first)
        at = next_at
    raise NotAPattern(piece.name, reason="no line across it finds the darts above it")


def _sections(
    piece: Piece, parts: Sequence[EdgePart], *, outer_first: bool
) -> tuple[tuple[tuple[EdgePart, ...], ...], tuple[Dart, ...]]:
    """What lies between the darts of the upper part, from the inner end on, and the darts."""
    sections: list[list[EdgePart]] = [[]]
    darts: list[Dart] = []
    for part in parts:
        if part.edge.role is not Role.DART_LEG:
            sections[-1].append(part)
            continue
        dart = next(each for each in piece.darts if part.edge.name in each.legs)
        if dart not in darts:
            darts.append(dart)
            sections.append([])
    if not all(sections):
        raise NotAPattern(piece.name, reason="a dart would be cut through where the line begins or ends")
    step = -1 if outer_first else 1
    return tuple(tuple(each) for each in sections[::step]), tuple(darts[::step])


def _inner_mouth(piece: Piece, dart: Dart, *, outer_first: bool) -> Point:
    return dart_mouth(piece, dart)[1 if outer_first else 0]


def _moves(piece: Piece, darts: Sequence[Dart], pivots: Sequence[Point], *, outer_first: bool) -> tuple[Move, ...]:
    """Where each section is laid when the darts are closed, the innermost staying."""
    moves = [STAY]
    for dart, pivot in zip(darts, pivots, strict=True):
        inner = _inner_mouth(piece, dart, outer_first=outer_first)
        outer = next(end for end in dart_mouth(piece, dart) if end is not inner)
        moves.append(turn(pivot, (outer - pivot).angle_to(inner - pivot)).then(moves[-1]))
    return tuple(moves)


def _back(move: Move) -> Move:
    """The move that undoes a rigid one."""
    a, b, c, d = move.a, move.c, move.b, move.d
    return Move(a, b, c, d, -(a * move.e + b * move.f), -(c * move.e + d * move.f))


def _drawn(piece: Piece, across: AcrossLine, at: Spot, move: Move, *, outer_first: bool) -> tuple[Curve, ...]:
    ends = []
    for spot, onward in ((at, outer_first), (across.inner, not outer_first)):
        edge = piece.edge(spot.edge)
        way = run_tangent(edge.curves, min(max(spot.at, 0.0), edge.length))
        ends.append((run_at(edge.curves, spot.at), way if onward else -way))
    (outer, up), (inner, inner_up) = ends
    return tuple(across.draw(move.point(outer), move.vec(up), inner, inner_up))


def _where_dart_meets(piece: Piece, line: Sequence[Curve], mouth: Point, point: Point) -> tuple[float, Point]:
    """How far along the line a dart, closed, meets it, and where."""
    hits = [(k, hit) for k, hit in run_hits(line, mouth, point - mouth) if hit.along > 0.0]
    if not hits:
        raise NotAPattern(piece.name, reason="the line across it misses a dart above it")
    k, hit = min(hits, key=lambda each: each[1].along)
    return run_length((*line[:k], split(line[k], hit.t)[0])), hit.point


def line_opened(folded: Folded) -> list[tuple[Curve, ...]]:
    """The line as the lower piece has it, in groups between the darts that go on, from the outer end to the inner."""
    cuts = [0.0, *folded.met[::-1], run_length(folded.line)]
    whole = EdgePart(Edge("line", folded.line), ())
    pieces: list[EdgePart] = []
    rest: EdgePart | None = whole
    gone = 0.0
    for at in cuts[1:-1]:
        assert rest is not None
        one, rest = cut_part(rest, at - gone, near=0.0)
        assert one is not None
        pieces.append(one)
        gone = at
    assert rest is not None
    pieces.append(rest)
    groups: list[tuple[Curve, ...]] = []
    begun = 0  # which part the last group begins with
    for k, part in enumerate(pieces):
        n = len(folded.moves) - 1 - k
        run = moved_all(part.edge.curves, _back(folded.moves[n]))
        if k and not folded.goes_on[n]:
            as_folded = [curve for each in pieces[begun : k + 1] for curve in each.edge.curves]
            moves = (folded.moves[n + k - begun], folded.moves[n])
            groups.append(_swept(groups.pop(), run, as_folded, moves))
        else:
            groups.append(run)
            begun = k
    return groups


def _swept(
    before: Sequence[Curve], run: Sequence[Curve], folded: Sequence[Curve], moves: tuple[Move, Move]
) -> tuple[Curve, ...]:
    """Two parts of the line, on either side of a dart that is gone or nearly gone, as one sweep.

    folded: both as they lie when the dart is closed; moves: what laid the outermost and the innermost of it there
    """
    led_on = ends_moved(tuple(folded), _back(moves[0]), _back(moves[1]))
    if not before[-1].end.near(run[0].start):
        return led_on
    try:
        return smooth_where_met(before, run)
    except NotAPattern:
        return with_length_kept(led_on, exact_length(before) + exact_length(run))


def _is_eased_in(opening: float, long: float) -> bool:
    """Whether so little is left of a dart, mm wide and mm long, that it is eased in."""
    return opening <= _EASED or (opening <= _EASED_SHORT and long <= _SHORT)


def place_when_folded(folded: Folded) -> Callable[[Point], Point]:
    """Where a place of the upper part comes to lie when its darts are closed."""

    def place(at: Point) -> Point:
        for k in range(len(folded.darts), 0, -1):
            polygon = region(folded.pivots[k - 1], [part.edge for part in folded.sections[k]])
            if inside(polygon, at) or any(at.near(part.edge.start, 1e-3) for part in folded.sections[k]):
                return folded.moves[k].point(at)
        return at

    return place
