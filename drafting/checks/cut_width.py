"""Is there as much cloth beyond every edge as its allowance says: the cutting line against the sewing line."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from itertools import accumulate, pairwise
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.checks.outlines import outline_meets_itself
from drafting.dataclass import dataclass
from drafting.geometry import Curve, Point, distance, flatten, point_at, tangent
from drafting.pattern import Edge, Pattern, Piece, Role
from drafting.pattern.cutting import cutting_line, is_slit
from drafting.pattern.seam_ends import Sewn, sewn

__all__ = ["look_at_cut_width"]

_SHARES: Final = (0.15, 0.5, 0.85)
"""Where along an edge it is looked, as shares of its length (ours)."""

_OFF: Final = 1.0
"""mm by which the cutting line may lie further off than the allowance, as it does in a tight hollow (ours)."""

_FLAT: Final = 0.1
"""mm between the cutting line and the chords it is measured to; a tenth of what it may be off."""


_SHARP: Final = 0.5
"""The cosine of the angle by which the cutting line turns at a sharp corner: 60 degrees (ours)."""

_FAR: Final = 1.5
"""In allowances: how far off a sharp corner may lie from an edge that it lies beyond the middle of (ours)."""


def look_at_cut_width(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every edge with an allowance; measured is the widest that the cloth beyond it is at three places, mm.

    It fails where the cutting line runs inside the sewing line. It warns where that lies further off than the
    allowance. In a hollow, where two allowances are cut as one, it lies nearer: that is as it has to be. It warns too
    where the cutting line runs out to a point.
    """
    drawn = sewn(pattern)
    for piece in pattern.pieces:
        yield look(_wide, piece, drawn[piece.name])


def _wide(check: Check, piece: Piece, drawn: Sewn) -> Iterator[Result]:
    """Measured is how far the cutting line lies from each edge at the widest, mm."""
    if outline_meets_itself(piece):  # there is no line to cut along: another check says so
        return
    line = cutting_line(piece, drawn)
    border = _chords(line)
    squares = {(end.edge, end.beside): end for end in _square_ends(piece, drawn)}
    for before, edge, after in zip(_turned(piece.edges, -1), piece.edges, _turned(piece.edges, 1), strict=True):
        if edge.allowance > 0.0 and edge.role not in (Role.FOLD, Role.DART_LEG) and not is_slit(piece, edge):
            places = tuple(_places(piece, squares, before, edge, after))
            middle = _at_places(edge)[len(_SHARES) // 2]  # of an edge so short that nothing of its width can be judged
            if not all(_within(border, place) for place in places or (middle,)):
                yield check.result(
                    f"{piece.name}: {edge.name}, inside of the cutting line",
                    Verdict.FAIL,
                    remedy="The cutting line runs inside the sewing line there, and no cloth is left to sew: make the "
                    "allowances of this piece narrower.",
                )
                continue
            if not places:
                continue
            wide = max(_way_to(border, place, likely=edge.allowance + _OFF) for place in places)
            over = wide - edge.allowance
            yield check.result(
                f"{piece.name}: {edge.name}",
                Verdict.WARN if over > _OFF else Verdict.PASS,
                measured=wide,
                wanted=edge.allowance,
                allowed=(None, edge.allowance + _OFF),
                remedy=f"The cutting line lies {wide:.1f} mm off the sewing line there, and the allowance is "
                f"{edge.allowance:.1f} mm: trim it to that after cutting.",
            )
    yield from _spikes(check, piece, line, [end.tip for end in squares.values()])


def _spikes(check: Check, piece: Piece, line: Sequence[Curve], square: Sequence[Point]) -> Iterator[Result]:
    """Every sharp corner of the cutting line that lies beyond an edge and far off it: no allowance reaches there.

    The peak over a dart, which is cut as it lies when the dart is closed, is one that has to be; so is one of `square`,
    the outer corners of allowances that end square.
    """
    legs = [edge for edge in piece.edges if edge.role is Role.DART_LEG]
    mouths = [place for leg in legs for place in (leg.start, leg.end)]
    around = zip(_turned(piece.edges, -1), piece.edges, _turned(piece.edges, 1), strict=True)
    reaches = [
        (edge, _FAR * max(before.allowance, edge.allowance, after.allowance))
        for before, edge, after in around
        if edge.role is not Role.DART_LEG
    ]
    least = min((reach for _, reach in reaches if reach > 0.0), default=math.inf)
    for one, following in zip((line[-1], *line), line, strict=False):
        if tangent(one, 1.0).dot(tangent(following, 0.0)) > _SHARP:
            continue
        corner = following.start
        within = min(distance(corner, end) for edge, _ in reaches for end in (edge.start, edge.end))
        if within <= least:
            continue
        off, edge, reach = _nearest(reaches, corner, within + _FLAT)
        if any(distance(corner, place) < 2.0 * off for place in mouths) or any(corner.near(tip) for tip in square):
            continue
        if reach > 0.0 and off > reach and min(distance(corner, end) for end in (edge.start, edge.end)) > off + _OFF:
            yield check.result(
                f"{piece.name}: point beyond the {edge.name}",
                Verdict.WARN,
                measured=off,
                wanted=edge.allowance,
                allowed=(None, reach),
                remedy=f"The cutting line runs out to a point {off:.1f} mm off the sewing line of the {edge.name}: cut "
                f"it off there, {edge.allowance:.1f} mm from that line.",
            )


def _nearest(reaches: Sequence[tuple[Edge, float]], place: Point, within: float) -> tuple[float, Edge, float]:
    """How far a place lies from the edge nearest to it, which is less than `within`, mm; that edge, and its reach."""
    found = within, *reaches[0]
    for edge, reach in reaches:
        way = _way_within(edge.remembered("chords", partial(_chords, edge.curves)), place, found[0])
        if way < found[0]:
            found = way, edge, reach
    return found


def _turned(edges: tuple[Edge, ...], by: int) -> tuple[Edge, ...]:
    return (*edges[by:], *edges[:by])


@dataclass(frozen=True, slots=True)
class _SquareEnd:
    """Where the allowance of an edge ends square, on the cutting line of the edge beside it, run on so far.

    tip:  its outer corner
    over: how far it lies over the edge beside it, mm; less than zero where it leads away from that
    """

    edge: str
    beside: str
    tip: Point
    over: float


def _square_ends(piece: Piece, drawn: Sewn) -> Iterator[_SquareEnd]:
    """Every square end of an allowance that lies as far off as that of the edge beside it: as long as its partner's."""
    for name, (first, last) in drawn.squares.items():
        edge = piece.edge(name)
        before, after = piece.beside(name)
        into, out = tangent(edge.curves[0], 0.0), tangent(edge.curves[-1], 1.0)
        for past, at, ahead, beside, way in (
            (first, edge.start, -into, before, -tangent(before.curves[-1], 1.0)),
            (last, edge.end, out, after, tangent(after.curves[0], 0.0)),
        ):
            if past is not None and abs(past * abs(ahead.cross(way)) - beside.allowance) < _FLAT:
                outward = ahead.left() if at is edge.start else ahead.right()
                tip = at + ahead * past + outward * edge.allowance
                yield _SquareEnd(name, beside.name, tip, past * ahead.dot(way))


def _places(
    piece: Piece, squares: Mapping[tuple[str, str], _SquareEnd], before: Edge, edge: Edge, after: Edge
) -> Iterator[Point]:
    """Where it is looked on an edge.

    Not at the mouth of a dart or a slit, where the cloth has the shape of its fold or belongs to both sides; not under
    the square end of the allowance beside it.
    """

    def passed_over(beside: Edge) -> float:
        if beside.role is Role.DART_LEG or is_slit(piece, beside):
            return 2.0 * edge.allowance
        end = squares.get((beside.name, edge.name))
        return end.over if end else 0.0

    first, last = passed_over(before), edge.length - passed_over(after)
    return (
        place for share, place in zip(_SHARES, _at_places(edge), strict=True) if first <= share * edge.length <= last
    )


def _at_places(edge: Edge) -> tuple[Point, ...]:
    return edge.remembered("places at shares", partial(_at_shares, edge))


def _at_shares(edge: Edge) -> tuple[Point, ...]:
    """The places on an edge at those shares of its length, as its chords measure it: they need not be exact."""
    chords = edge.remembered("chords", partial(_chords, edge.curves))
    steps = [(k, i, distance(*pair)) for k, each in enumerate(chords) for i, pair in enumerate(pairwise(each.places))]
    reached = list(accumulate(step for *_, step in steps))
    found = []
    for share in _SHARES:
        which = bisect_left(reached, share * reached[-1], hi=len(steps) - 1)
        k, i, step = steps[which]
        part = 1.0 - (reached[which] - share * reached[-1]) / step if step > 0.0 else 0.0
        found.append(point_at(edge.curves[k], (i + part) / (len(chords[k].places) - 1)))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Chords:
    """A curve as straight lines from place to place, and the box they lie in, mm."""

    places: tuple[Point, ...]
    left: float
    bottom: float
    right: float
    top: float


def _chords(run: Sequence[Curve]) -> tuple[_Chords, ...]:
    """The chords of each curve of a run."""
    found = []
    for curve in run:
        places = tuple(flatten(curve, _FLAT))
        xs, ys = [place.x for place in places], [place.y for place in places]
        found.append(_Chords(places, min(xs), min(ys), max(xs), max(ys)))
    return tuple(found)


def _within(lines: Sequence[_Chords], place: Point) -> bool:
    """Whether a place lies inside a closed line of chords: a ray to the right crosses it an odd number of times."""
    x, y = place.x, place.y
    inside = False
    for line in lines:
        if line.bottom <= y <= line.top and line.right >= x:
            for one, other in pairwise(line.places):
                if (one.y > y) != (other.y > y) and x < one.x + (y - one.y) * (other.x - one.x) / (other.y - one.y):
                    inside = not inside
    return inside


def _way_to(lines: Sequence[_Chords], place: Point, *, likely: float) -> float:
    """The shortest way from a place to lines of chords, mm; quickly found where it is shorter than what is likely."""
    way = _way_within(lines, place, likely)
    return way if way < likely else _way_within(lines, place, math.inf)


def _way_within(lines: Sequence[_Chords], place: Point, within: float) -> float:
    """The shortest way from a place to lines of chords, mm; `within` where that is shorter.

    It is asked hundreds of times for a dress. So a line whose box is further off than what was found is passed over,
    and the rest is reckoned in plain numbers, squared until the end.
    """
    x, y = place.x, place.y
    shortest = within * within
    for line in lines:
        aside = line.left - x if x < line.left else x - line.right if x > line.right else 0.0
        if aside * aside >= shortest:
            continue
        above = line.bottom - y if y < line.bottom else y - line.top if y > line.top else 0.0
        if aside * aside + above * above < shortest:
            shortest = min(shortest, _square_to(line.places, x, y))
    return math.sqrt(shortest)


def _square_to(places: Sequence[Point], x: float, y: float) -> float:
    """The square of the shortest way from (x, y) to the chords between places, mm squared."""
    shortest = math.inf
    ax, ay = places[0].x - x, places[0].y - y
    for corner in places[1:]:
        bx, by = corner.x - x, corner.y - y
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        along = -(ax * dx + ay * dy)  # how far along the chord its nearest place lies, times the chord's length
        if along <= 0.0:
            way = ax * ax + ay * ay
        elif along >= square:
            way = bx * bx + by * by
        else:
            way = (ax * by - ay * bx) ** 2 / square
        shortest = min(shortest, way)
        ax, ay = bx, by
    return shortest
