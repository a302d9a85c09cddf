"""The cutting outline: each edge of a sewing line moved out by its allowance, joined at its corners (`corner.py`).

. . . . . . . . . . +         1. Each edge, split where it has a corner itself, is moved out by its allowance: a side.
      one side      .         2. Where two sides follow each other their corner says where the first stops, where
--------------+     .            the next goes on, and what bridges them (+): a mitre, a square end, a folded hem.
 sewing line  |     . the     3. A side of which its corners leave nothing is dropped, and all corners made again.
              |     . next    4. What is left is joined, and the loops are cut out where allowances overlap.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry.corner import Corner, Side, corner_between
from drafting.geometry.curve import Curve, Line, tangent
from drafting.geometry.dart_mouth import Mouth
from drafting.geometry.meet import outline_crossings
from drafting.geometry.offset import parallel_run
from drafting.geometry.outline import area, run_length, starting_at, stretch
from drafting.geometry.point import distance
from drafting.geometry.tolerance import FLAT

__all__ = ["MITRE_LIMIT", "Margin", "OffsetRun", "cutting_outline", "offset_runs"]

MITRE_LIMIT: Final = 3.0
"""How far a corner of the cutting line may stand off the corner of the sewing line, in allowances: points sharper than
39 degrees are cut off (common practice: a longer point frays and is in the way)."""

_LOOPS: Final = 64  # more overlaps than any garment piece has; a guard against looping for ever


@dataclass(frozen=True, slots=True)
class OffsetRun:
    """A stretch of an edge between its corners, and the line at the distance of the allowance beside it."""

    run: tuple[Curve, ...]
    offset: tuple[Curve, ...]


@dataclass(frozen=True, slots=True)
class Margin:
    """An edge of the sewing line and how far outside it to cut, mm.

    turned:  turned in along this edge, as a hem is
    fold:    laid on a fold of the cloth along this edge, which is straight and has no allowance
    squares: how far past its start and its end its allowance is to end square, mm; None where that is free
    offset:  `offset_runs` of it, where they are known already
    """

    curves: tuple[Curve, ...]
    allowance: float
    turned: bool = False
    fold: bool = False
    squares: tuple[float | None, float | None] = (None, None)
    offset: tuple[OffsetRun, ...] | None = None


def cutting_outline(margins: Sequence[Margin | Mouth], *, limit: float = MITRE_LIMIT) -> tuple[Curve, ...]:
    """The closed cutting line round margins that run anticlockwise and join; anticlockwise itself.

    Exact at straight edges, elsewhere within `OFFSET` (0.02 mm) of the true allowance. Allowances that overlap are
    cut as one. Raises NotAPattern where two darts meet with no edge between them, or nothing encloses anything.
    """
    sides, mouths = _sides(margins)
    corners: list[Corner | None] = []
    while True:
        corners = [corner_between(sides, mouths, k, limit) for k in range(len(sides))]
        lost = _side_lost(sides, corners)
        if lost is None:
            break
        mouths = _mouths_without(mouths, lost, len(sides))
        sides = [side for k, side in enumerate(sides) if k != lost]
    outline: list[Curve] = []
    for k, side in enumerate(sides):
        before, after = corners[k - 1], corners[k]
        go = before.go if before else 0.0
        stop = after.stop if after else float(len(side.run))
        outline.extend(stretch(side.run, go, stop))
        if after:
            outline.extend(after.bridge)
    return _without_loops(_chained(outline))


def _sides(margins: Sequence[Margin | Mouth]) -> tuple[list[Side], dict[int, Mouth]]:
    """Smooth sides in order, and the dart after each side that has one."""
    sides: list[Side] = []
    mouths: dict[int, Mouth] = {}
    for k, margin in enumerate(margins):
        if isinstance(margin, Mouth):
            if isinstance(margins[k - 1], Mouth):
                raise NotAPattern("cutting line", reason="two darts meet with no edge between them")
            mouths[len(sides) - 1] = margin
            continue
        runs = offset_runs(margin.curves, margin.allowance) if margin.offset is None else margin.offset
        for i, each in enumerate(runs):
            squares = margin.squares[0] if i == 0 else None, margin.squares[1] if i == len(runs) - 1 else None
            if each.offset:
                ends = each.run[0].start, each.run[-1].end
                sides.append(Side(each.offset, margin.allowance, *ends, margin.turned, margin.fold, squares))
    if not sides:
        raise NotAPattern("cutting line", reason="the allowances leave nothing of the outline")
    if -1 in mouths:
        mouths[len(sides) - 1] = mouths.pop(-1)
    return sides, mouths


def offset_runs(curves: Sequence[Curve], allowance: float) -> tuple[OffsetRun, ...]:
    """An edge between its corners, each stretch with the line at the distance of its allowance; most of the work."""
    return tuple(OffsetRun(run, parallel_run(run, allowance)) for run in _smooth(curves, allowance))


def _smooth(curves: Sequence[Curve], allowance: float) -> list[tuple[Curve, ...]]:
    """The runs of an edge between its corners; a bend that parts its offset by less than a hairline is none."""
    runs: list[list[Curve]] = []
    for curve in curves:
        if runs:
            arriving, leaving = tangent(runs[-1][-1], 1.0), tangent(curve, 0.0)
            if allowance * (leaving - arriving).norm() <= FLAT and arriving.dot(leaving) > 0.0:
                runs[-1].append(curve)
                continue
        runs.append([curve])
    return [tuple(run) for run in runs]


def _side_lost(sides: Sequence[Side], corners: Sequence[Corner | None]) -> int | None:
    """A side of which its corners leave nothing, or the shorter of two that do not reach each other; else None."""
    if len(sides) < 3:
        return None
    for k, side in enumerate(sides):
        before, after = corners[k - 1], corners[k]
        if before is not None and after is not None and before.go > after.stop:
            return k
        if after is None:
            following = (k + 1) % len(sides)
            return k if run_length(side.run) <= run_length(sides[following].run) else following
    return None


def _mouths_without(mouths: dict[int, Mouth], lost: int, count: int) -> dict[int, Mouth]:
    """The darts after each side once one side is gone: its own dart follows the side before it."""
    kept = {k - (k > lost): mouth for k, mouth in mouths.items() if k != lost}
    if lost in mouths:
        kept.setdefault(lost - 1 if lost else count - 2, mouths[lost])
    return kept


def _chained(curves: Sequence[Curve]) -> tuple[Curve, ...]:
    """The curves made to join exactly: hairline gaps closed, wider ones bridged, straight runs made one line."""
    kept = [curve for curve in curves if not (isinstance(curve, Line) and curve.start.near(curve.end))]
    chained: list[Curve] = []
    at = kept[-1].end
    for curve in kept:
        if curve.start == at:
            following = [curve]
        elif distance(curve.start, at) <= FLAT:
            following = [starting_at(curve, at)]
        else:
            following = [Line(at, curve.start), curve]
        if chained and _one_line(chained[-1], following[0]):
            following[0] = Line(chained.pop().start, following[0].end)
        chained += following
        at = curve.end
    if len(chained) > 1 and _one_line(chained[-1], chained[0]):
        chained = [Line(chained[-1].start, chained[0].end), *chained[1:-1]]
    return tuple(chained)


def _one_line(one: Curve, following: Curve) -> bool:
    """Whether two curves are straight and go on in one direction, to less than a thousandth of a hairline."""
    if not (isinstance(one, Line) and isinstance(following, Line)):
        return False
    u, v = one.end - one.start, following.end - following.start
    return u.dot(v) > 0.0 and abs(u.cross(v)) <= 1e-5 * max(u.norm(), v.norm())


def _without_loops(outline: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """The outline with every part it cuts off by crossing itself left out: of each two loops the larger stays."""
    for _ in range(_LOOPS):
        crossings = outline_crossings(outline)
        if not crossings:
            break
        i, j, meeting = crossings[0]
        one, other = i + meeting.at_a, j + meeting.at_b
        low, high = min(one, other), max(one, other)
        inner = stretch(outline, low, high)
        outer = (*stretch(outline, high, float(len(outline))), *stretch(outline, 0.0, low))
        loops = [_chained(loop) for loop in (inner, outer) if loop]
        outline = max(loops, key=area)
    if area(outline) <= 0.0:
        raise NotAPattern("cutting line", reason="the allowances leave nothing of the outline")
    return outline
