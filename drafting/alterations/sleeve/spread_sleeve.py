r"""A set-in sleeve slashed from cap to lower end and fanned out, its cap and its lower end trued.

The strip below the crown stays, and each half is fanned from there outward:

    back   \  \  |  /  /   front        the cuts lie between the notches of the cap, the part that is gathered;
            \  \ | /  /                what lies below them goes with the outermost strip, as the underarm
             \_ \|/ _/                 seam does

The fullness at the cap is shared out so that the gathers are equally close in front of the shoulder and behind; the
share is solved for. An edge at which the strips still hang together keeps its length exactly.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.sleeve.set_in_sleeve import SetIn, biceps_line, cap_on, levelled, sleeve_edges
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.alterations.techniques.spreading.slash_and_spread import (
    Slash,
    fanned,
    fanned_line,
    level_line,
    middles,
    of_length,
    trued,
)
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    Curve,
    Line,
    Move,
    Point,
    Vec,
    cut_run,
    run_at,
    run_ends,
    run_hits,
    run_length,
    run_reversed,
    run_tangent,
    shift,
    split,
    turn,
)
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import LENGTH, MEASURED
from drafting.pattern import (
    Edge,
    Half,
    Level,
    MarkLine,
    Notch,
    Pattern,
    Piece,
    Seam,
    from_start,
    move_piece,
    notch_distance,
    run_total,
    with_edges,
)

__all__ = ["Spread", "lower_end", "spread_sleeve"]

_BELOW_NOTCH: Final = 0.3  # of a side of the cap, where no notch says how far up it stays smooth


@dataclass(frozen=True, slots=True)
class Spread:
    """How much wider a sleeve is to be at cap and lower end, how much higher its crown, mm; over how many cuts."""

    cap: float
    hem: float
    crown: float
    cuts: int

    @property
    def cap_stays(self) -> bool:
        """Whether the sleeve hangs together at its cap, which is left as it is."""
        return self.cap == 0.0 and self.crown == 0.0


@dataclass(frozen=True, slots=True)
class _Half:
    """One half of the sleeve as it becomes: its cap from underarm to crown, its hem from under the crown outward.

    slashes, moves: the cuts from the crown outward, and where each strip goes; the last holds all beyond
    """

    cap: tuple[Curve, ...]
    hem: tuple[Curve, ...]
    slashes: tuple[Slash, ...]
    moves: tuple[Move, ...]


def lower_end(piece: Piece) -> Edge:
    """The one edge between the two underarm seams. Raises NotAPattern for more than one."""
    sides = sleeve_edges(piece).names
    others = [edge for edge in piece.edges if edge.name not in sides]
    if len(others) != 1:
        raise NotAPattern(piece.name, reason="its lower end is made of more than one edge")
    return others[0]


def spread_sleeve(pattern: Pattern, sleeve: SetIn, asked: Spread) -> Piece:
    """The sleeve spread, gathered as closely in front of the shoulder as behind, its grain as square as it was.

    Raises NotAPattern for too much.
    """
    front, back = sleeve.edges.cap_front.name, sleeve.edges.cap_back.name
    smooth = {front: _stays_smooth(pattern, sleeve.front), back: _stays_smooth(pattern, sleeve.back)}
    into = {front: _above_notch(pattern, sleeve.front), back: _above_notch(pattern, sleeve.back)}

    unmarked = replace(sleeve.piece, lines=())  # to measure by, while it is sought how the fullness is shared

    def spread(in_front: float, piece: Piece = sleeve.piece) -> Piece:
        return levelled(piece, partial(_fuller, asked=asked, smooth=smooth, in_front=in_front))

    def uneven(in_front: float) -> float:
        """How much too long the front is above its notch, mm, for both halves to be gathered equally closely."""
        piece = spread(in_front, unmarked)
        above = {edge: exact_length(piece.edge(edge).curves) - smooth[edge] for edge in smooth}
        return above[front] - above[back] * into[front] / into[back]

    if asked.cap == 0.0:
        return _grain_square(sleeve.piece, spread(0.5))
    found = solve(uneven, into[front] / (into[front] + into[back]), 0.02)
    # a little fullness may all be needed on the side that has less ease as it is
    return _grain_square(sleeve.piece, spread(min(1.0, max(0.0, found))))


def _grain_square(before: Piece, after: Piece) -> Piece:
    """The sleeve turned to lie with its underarms as level as they were, on the grain it had.

    Where one side is spread more than the other its underarm comes to lie lower; a cutter rules the grain square to the
    line between them again (common practice).
    """
    levels = [edges.cap_front.start - edges.cap_back.end for edges in map(sleeve_edges, (before, after))]
    turned = move_piece(after, turn(sleeve_edges(after).cap_front.end, levels[1].angle_to(levels[0])))
    return replace(turned, grain=before.grain)


def _above_notch(pattern: Pattern, seam: Seam) -> float:
    """How much of the armhole the gathered part of a side of the cap goes into, mm: from its notch to the shoulder."""
    met = [at for _, mark in seam.notches if (at := notch_distance(pattern, seam.b, mark)) is not None]
    whole = run_total(pattern, seam.b)
    return whole - min(met, default=_BELOW_NOTCH * whole)


def _stays_smooth(pattern: Pattern, seam: Seam) -> float:
    """How much of a side of the cap is not gathered, mm from the underarm: as far as its first notch."""
    met = [at for mark, _ in seam.notches if (at := notch_distance(pattern, seam.a, mark)) is not None]
    return min(met, default=_BELOW_NOTCH * run_total(pattern, seam.a))


def _fuller(piece: Piece, asked: Spread, smooth: Mapping[str, float], in_front: float) -> Piece:
    """The sleeve spread; `smooth` mm of each side of its cap, from the underarm, are not gathered.

    in_front: the share of the fullness at the cap that the front gets
    """
    cap, hem, edges = cap_on(piece), lower_end(piece), sleeve_edges(piece)
    to_back, to_front = _parted_below(piece, hem, cap.crown)
    cuts, in_back = asked.cuts, 1.0 - in_front
    smooth_back, smooth_front = smooth[edges.cap_back.name], smooth[edges.cap_front.name]
    back = _half(asked, cap.back, smooth_back, to_back, cuts=(cuts + 1) // 2, wider=in_back * asked.cap, right=False)
    front = _half(asked, cap.front, smooth_front, to_front, cuts=cuts // 2, wider=in_front * asked.cap, right=True)
    altered = with_edges(
        piece,
        replace(hem, curves=(*run_reversed(back.hem), *front.hem)),
        replace(edges.cap_front, curves=front.cap),
        replace(edges.cap_back, curves=run_reversed(back.cap)),
        edges.under_back.moved(back.moves[-1]),
        edges.under_front.moved(front.moves[-1]),
    )

    def line(mark: MarkLine) -> MarkLine:
        level = mark.level is Level.BICEPS
        return biceps_line(altered, mark) if level else _fanned_from(mark, cap.crown.x, back, front)

    up = Vec(0.0, asked.crown)
    return replace(
        altered,
        notches=tuple(_notch_kept(piece, altered, notch, smooth) for notch in piece.notches),
        lines=tuple(line(mark) for mark in piece.lines),
        points=tuple(mark.placed(mark.at + up) if mark.at.near(cap.crown) else mark for mark in piece.points),
    )


def _half(
    whole: Spread, cap: Sequence[Curve], smooth: float, hem: tuple[Curve, ...], *, cuts: int, wider: float, right: bool
) -> _Half:
    """One half spread over so many cuts, by `wider` mm at its cap; `smooth` mm of that, from the underarm, stay."""
    below, above = cut_run(cap, smooth)
    long, crown, under = run_length(above), cap[-1].end, cap[0].start
    shares = [1.0 - (k + 0.5) / cuts for k in range(cuts)]  # of the way from the notch to the crown, the crown's first
    tops = [run_at(above, share * long) for share in shares]
    bottoms = [_on_hem(hem, (top.x - crown.x) / (under.x - crown.x)) for top in tops]
    slashes = [Slash(top, bottom) for top, bottom in zip(tops, bottoms, strict=True)]
    moves = fanned(slashes, top=wider / cuts, bottom=0.5 * whole.hem / cuts, to_right=right)

    def new_cap(outer: Move) -> tuple[Curve, ...]:
        """The cap from the crown to the underarm, trued; below its notch only as far as it has to be."""
        raised = [Vec(0.0, whole.crown * share * (2.0 - share)) for share in shares]  # round over the crown
        gaps = [gap + up for gap, up in zip(middles(tops, moves), raised, strict=True)]
        kept = [outer.point(run_at(below, share * smooth)) for share in (2.0 / 3.0, 1.0 / 3.0)]
        leaving, arriving = run_tangent(above, long), outer.vec(run_ends(below)[0])
        points = (crown + Vec(0.0, whole.crown), *gaps, *kept, outer.point(under))
        return trued(points, -leaving, -arriving)

    def new_hem(outer: Move) -> tuple[Curve, ...]:
        leaving, arriving = run_ends(hem)
        points = (hem[0].start, *middles(bottoms, moves), outer.point(hem[-1].end))
        return level_line(points, leaving, outer.vec(arriving))

    outer = moves[-1]
    if whole.cap_stays:
        new = of_length(new_cap(outer), run_length(cap, MEASURED))
        outer = outer.then(shift(new[-1].end - outer.point(under)))
        lower = new_hem(outer)
    elif whole.hem == 0.0:
        lower = of_length(new_hem(outer), run_length(hem, MEASURED)) if whole.cap else hem
        outer = outer.then(shift(lower[-1].end - outer.point(hem[-1].end)))
        new = new_cap(outer)
    else:
        new, lower = new_cap(outer), new_hem(outer)
    return _Half(run_reversed(new), lower, tuple(slashes), (*moves[:-1], outer))


def _fanned_from(mark: MarkLine, middle: float, back: _Half, front: _Half) -> MarkLine:
    """A level line of the sleeve, both its halves fanned from below the crown outward: there it stays where it is."""
    run = mark.drawn
    hits = run_hits(run, Point(middle, mark.start.y), Vec(0.0, 1.0))
    if not hits:
        half = back if mark.start.x < middle else front
        return fanned_line(mark, half.slashes, half.moves, to_right=half is front)
    (k, hit), out = hits[0], list[Curve]()
    one, other = split(run[k], hit.t)
    halves = (back, front) if mark.start.x < mark.end.x else (front, back)
    for half, part in zip(halves, ((*run[:k], one), (other, *run[k + 1 :])), strict=True):
        piece = mark.through(part, part[0].start, part[-1].end)
        out += fanned_line(piece, half.slashes, half.moves, to_right=half is front).drawn
    if all(isinstance(curve, Line) for curve in out):
        return mark.straight(out[0].start, out[-1].end)
    return mark.through(out, out[0].start, out[-1].end)


def _parted_below(piece: Piece, hem: Edge, crown: Point) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The hem from below the crown to its back end, and to its front end."""
    hits = run_hits(hem.curves, crown, Vec(0.0, 1.0))
    if not hits:
        raise NotAPattern(piece.name, reason="its crown does not lie over its lower end")
    k, hit = hits[0]
    one, other = split(hem.curves[k], hit.t)
    return run_reversed((*hem.curves[:k], one)), (other, *hem.curves[k + 1 :])


def _on_hem(hem: Sequence[Curve], share: float) -> Point:
    """The place on half a hem that lies so far along it, measured straight across."""
    start, end = hem[0].start, hem[-1].end
    x = start.x + share * (end.x - start.x)
    hits = run_hits(hem, Point(x, start.y), Vec(0.0, 1.0))
    return hits[0][1].point if hits else end


def _notch_kept(piece: Piece, altered: Piece, notch: Notch, smooth: Mapping[str, float]) -> Notch:
    """A notch of the cap as far from the underarm as it was where that part stays smooth, else from the crown."""
    station = notch.station
    if station.edge not in smooth:
        return notch
    edge, new = piece.edge(station.edge), altered.edge(station.edge)
    at, underarm = from_start(edge, station), "start" if edge.half is Half.FRONT else "end"
    from_under = at if underarm == "start" else edge.length - at
    counted_from_what_is_kept = (station.end == underarm) == (from_under <= smooth[station.edge] + LENGTH)
    if counted_from_what_is_kept:
        return notch
    return replace(notch, station=replace(station, at=station.at + new.length - edge.length))
