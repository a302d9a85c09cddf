"""Fullness in a quarter of a skirt: darts closed into flare, slashes opened at the hem or all the way up.

The part beyond a dart or a slash is turned as a whole, so the side seam keeps its shape; the hem is trued.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.alterations.skirt.skirt_quarter import Quarter, quarter_of, rebuilt
from drafting.alterations.techniques.spreading.slash_and_spread import (
    Slash,
    fanned,
    level_line,
    middles,
    of_length,
    trued,
)
from drafting.dataclass import dataclass
from drafting.geometry import (
    STAY,
    Cubic,
    Curve,
    Move,
    Point,
    Vec,
    cut_run,
    lerp,
    moved_all,
    run_at,
    run_ends,
    run_length,
    shift,
    smooth_through,
    turn,
)
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import MEASURED, SOLVED
from drafting.pattern import Dart, Piece, Role, dart_angle

__all__ = [
    "darts_closed",
    "flared",
    "gained_at_hem",
    "gathered_to",
    "hem_gained",
    "let_out_length",
    "waist_darts",
    "waist_length",
]


def waist_darts(quarter: Quarter) -> tuple[Dart, ...]:
    """The darts in the waist, from the centre outward."""
    found = (quarter.dart_at(edge) for edge in quarter.waist)
    return tuple(dart for dart in found if dart is not None)


def waist_length(quarter: Quarter) -> float:
    """The length of the waist with its darts closed, mm within 1e-6."""
    return sum(run_length(edge.curves, MEASURED) for edge in quarter.sewn)


def hem_gained(quarter: Quarter, piece: Piece) -> float:
    """How much longer the hem is on a piece made of this quarter, mm, as drawn."""
    return run_length(piece.edge(quarter.hem_name).curves, SOLVED) - run_length(quarter.hem, SOLVED)


def gained_at_hem(quarter: Quarter, share: float) -> float:
    """How much longer the hem gets, mm, when this share of every dart in the waist is closed.

    Before it is drawn in one arc a dart of width w and length l on a skirt of length T gives w (T - l) / l (plane
    geometry).
    """
    return hem_gained(quarter, darts_closed(quarter, share)) if waist_darts(quarter) else 0.0


def darts_closed(quarter: Quarter, share: float) -> Piece:
    """The piece with this share of every dart in its waist closed and its hem opened below it; 1 leaves no dart.

    Every edge of the waist keeps its shape: what lies beyond a dart turns about its point.
    """
    moves, waist, cuts = [STAY], dict[str, tuple[Curve, ...] | None](), list[Slash]()
    gone = share >= 1.0
    for edge in quarter.waist:
        is_leg = edge.role is Role.DART_LEG
        waist[edge.name] = None if is_leg and gone else moved_all(quarter.outward(edge), moves[-1])
        dart = quarter.dart_at(edge)
        if dart is not None:
            angle = share * dart_angle(quarter.piece, dart) * (1.0 if quarter.to_right else -1.0)
            moves.append(turn(dart.apex, angle).then(moves[-1]))
            cuts.append(Slash(dart.apex, quarter.below(dart.apex.x)))
    closed = {dart.name for dart in waist_darts(quarter)} if gone else set()
    darts = tuple(dart for dart in quarter.piece.darts if dart.name not in closed)
    return rebuilt(quarter, waist, _hem(quarter, cuts, moves), tuple(moves), cuts, darts)


def flared(quarter: Quarter, cuts: int, wider: float, *, closing: bool) -> Piece:
    """The piece slashed from hem to waist and opened until its hem is `wider` mm longer; its waist keeps its lengths.

    closing: whether the darts in its waist are closed first, which must not open the hem by more
    """
    if closing and waist_darts(quarter):
        closed = darts_closed(quarter, 1.0)
        wider -= hem_gained(quarter, closed)
        return closed if wider < SOLVED else flared(quarter_of(closed), cuts, wider, closing=False)
    # to measure by, while it is sought how far it opens
    unmarked = replace(quarter, piece=replace(quarter.piece, lines=()))
    opened = solve(lambda by: hem_gained(quarter, _slashed(unmarked, cuts, by)) - wider, wider, 0.01 * wider)
    return _slashed(quarter, cuts, opened)


def _slashed(quarter: Quarter, cuts: int, by: float) -> Piece:
    """The piece slashed from hem to waist, the slashes opened by `by` mm in all at their lower ends."""
    plan = _plan(quarter, cuts, fanning=True)
    moves = list(fanned(plan.slashes, top=0.0, bottom=by / cuts, to_right=quarter.to_right))
    waist: dict[str, tuple[Curve, ...] | None] = {}
    here = 0
    for edge in quarter.waist:
        run, beyond = quarter.outward(edge), here + plan.in_edge.get(edge.name, 0)
        if beyond == here:
            waist[edge.name] = moved_all(run, moves[here])
            continue
        leaving, arriving = run_ends(run)
        swept = trued(
            (
                moves[here].point(run[0].start),
                *middles(plan.tops[here:beyond], moves[here : beyond + 1]),
                moves[beyond].point(run[-1].end),
            ),
            moves[here].vec(leaving),
            moves[beyond].vec(arriving),
        )
        swept = of_length(swept, run_length(run, MEASURED))
        on = shift(swept[-1].end - moves[beyond].point(run[-1].end))
        moves[beyond:] = [move.then(on) for move in moves[beyond:]]
        waist[edge.name] = swept
        here = beyond
    cuts_made = plan.slashes
    return rebuilt(quarter, waist, _hem(quarter, cuts_made, moves), tuple(moves), cuts_made, quarter.piece.darts)


def let_out_length(quarter: Quarter) -> float:
    """The length of the waist in one sweep with its darts let out, mm: the least that can be gathered in."""
    return _waist_total(quarter, (STAY,))


def gathered_to(quarter: Quarter, cuts: int, total: float) -> Piece:
    """The piece slashed and spread evenly, its darts let out, so that its waist is `total` mm long before gathering.

    total: more than `let_out_length`
    """
    plan = _plan(quarter, cuts, fanning=False)

    def moves_for(gap: float) -> tuple[Move, ...]:
        return fanned(plan.slashes, top=gap, bottom=gap, to_right=quarter.to_right)

    def surplus(gap: float) -> float:
        return _waist_total(quarter, moves_for(gap)) - total

    guess = (total - let_out_length(quarter)) / cuts
    moves = moves_for(solve(surplus, guess, 0.1))
    runs = _open_waist(quarter, moves)
    waist: dict[str, tuple[Curve, ...] | None] = {edge.name: None for edge in quarter.waist}
    waist |= {edge.name: run for edge, run in zip(quarter.sewn, runs, strict=True)}
    let_out = {dart.name for dart in waist_darts(quarter)}
    darts = tuple(dart for dart in quarter.piece.darts if dart.name not in let_out)
    return rebuilt(quarter, waist, _hem(quarter, plan.slashes, moves), moves, plan.slashes, darts)


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where a quarter is slashed, from the centre outward, and how many slashes begin in each edge of its waist."""

    slashes: tuple[Slash, ...]
    in_edge: dict[str, int]

    @property
    def tops(self) -> tuple[Point, ...]:
        return tuple(slash.top for slash in self.slashes)


def _plan(quarter: Quarter, cuts: int, *, fanning: bool) -> _Plan:
    """Slashes spread evenly along the sewn waist, so that none begins in a dart.

    fanning: whether each lies as far out at the hem, in proportion, as at the waist; otherwise all run straight down
    """
    lengths = [edge.length for edge in quarter.sewn]
    whole = sum(lengths)
    # the middles of equal parts of the sewn waist, and how many of them each edge has
    ends = [sum(lengths[: k + 1]) for k in range(len(lengths))]
    owner = [next(k for k, end in enumerate(ends) if (i + 0.5) * whole / cuts <= end + SOLVED) for i in range(cuts)]
    counts = [owner.count(k) for k in range(len(lengths))]
    slashes = []
    start, end = quarter.hem[0].start, quarter.hem[-1].end
    for edge, count in zip(quarter.sewn, counts, strict=True):
        run = quarter.outward(edge)
        for i in range(count):
            top = run_at(run, (i + 0.5) * edge.length / count)
            share = (top.x - quarter.centre.x) / (quarter.corner.x - quarter.centre.x)
            slashes.append(Slash(top, quarter.below(start.x + share * (end.x - start.x) if fanning else top.x)))
    return _Plan(tuple(slashes), {edge.name: n for edge, n in zip(quarter.sewn, counts, strict=True)})


def _waist_total(quarter: Quarter, moves: Sequence[Move]) -> float:
    return sum(run_length(run, SOLVED / 16) for run in _open_waist(quarter, moves))


def _open_waist(quarter: Quarter, moves: Sequence[Move]) -> tuple[tuple[Curve, ...], ...]:
    """The waist with its darts let out, as one run for each of its sewn edges, from the centre outward.

    It is trued to one even curve from the centre to the side: what the darts and the slashes leave of bumps is nothing
    once it is gathered (common practice).
    """
    leaving, arriving = run_ends((*quarter.outward(quarter.sewn[0]), *quarter.outward(quarter.sewn[-1])))
    left = _bent_once(quarter.centre, leaving, moves[-1].point(quarter.corner), moves[-1].vec(arriving))
    whole, own = run_length(left), sum(edge.length for edge in quarter.sewn)
    runs = []
    for edge in quarter.sewn[:-1]:
        run, left = cut_run(left, whole * edge.length / own)
        runs.append(run)
    return (*runs, left)


def _bent_once(start: Point, leaving: Vec, end: Point, arriving: Vec) -> tuple[Curve, ...]:
    """A curve that bends one way only: the parabola to which both directions are tangents; where they meet in none,
    what runs smoothly through both ends.
    """
    turned, across = leaving.cross(arriving), end - start
    if turned == 0.0 or not (ahead := across.cross(arriving) / turned) > 0.0 or across.cross(leaving) / turned >= 0.0:
        return smooth_through((start, end), leaving, arriving)
    meet = start + leaving * ahead
    return (Cubic(start, lerp(start, meet, 2.0 / 3.0), lerp(end, meet, 2.0 / 3.0), end),)


def _hem(quarter: Quarter, cuts: Sequence[Slash], moves: Sequence[Move]) -> tuple[Curve, ...]:
    """The hem from the centre outward, trued over the gaps."""
    hem, outer = quarter.hem, moves[-1]
    points = (hem[0].start, *middles([cut.bottom for cut in cuts], moves), outer.point(hem[-1].end))
    leaving, arriving = run_ends(hem)
    return level_line(points, leaving, outer.vec(arriving))
