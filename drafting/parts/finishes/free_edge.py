"""The free edge of a facing: parallel to what is faced, rounded at a corner inside, cut square where it would meet a
centre line in a point, and led to what lies beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    cut_run,
    end_tangents,
    run_length,
    run_reversed,
)
from drafting.geometry.meet import run_meetings
from drafting.geometry.offset import parallel_run
from drafting.geometry.outline import starting_at, stretch
from drafting.parts.folded_outline import LaidEdge
from drafting.pattern import CENTRES

__all__ = ["blunted", "chained", "edge_ended_at", "end_moved", "parallel_extended", "rounded", "until_met"]

_ROUNDED: Final = 25.0
"""mm on both sides of a corner inside a facing that are rounded off (common practice, the figure ours)."""

_ROUND_ARM: Final = 0.552
"""How long the handles of a quarter of a circle are, as a share of its radius."""

_POINTED: Final = 1.15
"""How many times its depth a facing is long at a centre line from where on it is cut off square there (ours)."""

_GIVES: Final = 60.0
"""mm beside its end that give way where the end of a facing with a corner is led elsewhere (ours)."""

_LEADS: Final = 3.0
"""How far the free edge is led on at both ends to meet what lies beside it, in depths."""

_BEYOND: Final = 1.0  # mm past a centre line, to be sure to cross it

_ALIKE: Final = 1e-6  # mm: two ends that differ by less are left as they are


def rounded(name: str, first: Sequence[Curve], second: Sequence[Curve]) -> tuple[Curve, ...]:
    """One line as far as it meets another and then along that, the corner between them rounded off."""
    met = run_meetings(first, second)
    if not met:
        raise NotAPattern(name, reason="its edges are too short for a facing so deep round their corner")
    i, j, meeting = met[-1]
    into, out = stretch(first, 0.0, i + meeting.at_a), stretch(second, j + meeting.at_b, len(second))
    whole = run_length(into)
    reach = min(_ROUNDED, 0.5 * whole, 0.5 * run_length(out))
    into, out = cut_run(into, whole - reach)[0], cut_run(out, reach)[1]
    if not into or not out:
        raise NotAPattern(name, reason="its edges are too short for a facing so deep round their corner")
    start, end = into[-1].end, out[0].start
    arm = _ROUND_ARM * reach
    bend = Cubic(start, start + end_tangents(into[-1])[1] * arm, end - end_tangents(out[0])[0] * arm, end)
    return *into, bend, *out


def blunted(
    name: str, free: tuple[Curve, ...], walk: Sequence[LaidEdge], depth: float, *, last: bool
) -> tuple[Curve, ...]:
    """The free edge, cut square to a centre line that it would meet in a point; `walk` leads from the faced edge."""
    centre = walk[0].edge
    if centre.place not in CENTRES or centre.length <= _POINTED * depth:
        return free
    met = [i + meeting.at_a for i, _, meeting in run_meetings(centre.curves, free)]
    if not met or run_length(stretch(centre.curves, 0.0, met[0])) <= _POINTED * depth:
        return free
    kept = cut_run(centre.curves, depth)[0]
    along = end_tangents(kept[-1])[1]
    within = along.left() if last else along.right()
    at = kept[-1].end
    outer, inner = at - within * _BEYOND, at + within * _LEADS * depth
    across = (Line(inner, outer) if last else Line(outer, inner),)
    return rounded(name, free, across) if last else rounded(name, across, free)


def until_met(
    name: str, edges: Sequence[LaidEdge], free: Sequence[Curve], *, last: bool
) -> tuple[list[LaidEdge], float]:
    """The edges from a corner of the faced one to where the free edge meets them, and where on the free edge that is.

    The meeting nearest to the corner is taken on the first edge that has one.
    """
    kept: list[LaidEdge] = []
    for each in edges:
        meets = run_meetings(each.edge.curves, free)
        if meets:
            i, j, meeting = min(meets, key=lambda found: found[0] + found[2].at_a)
            curves = stretch(each.edge.curves, 0.0, i + meeting.at_a)
            if curves:
                kept.append(replace(each, edge=replace(each.edge, curves=curves)))
            return kept, j + meeting.at_b
        kept.append(each)
    side = "before" if last else "after"
    raise NotAPattern(name, reason=f"its free edge meets nothing {side} the faced one")


def edge_ended_at(
    inner: tuple[Curve, ...],
    kept: list[LaidEdge],
    long: float | None,
    walk: Sequence[LaidEdge],
    *,
    at_start: bool,
    bends: bool,
) -> tuple[tuple[Curve, ...], list[LaidEdge]]:
    """The free edge led to a place so far along the garment's own edges, mm, and the stretch of those up to there.

    bends: whether all of it gives way, or only what lies on this side of its rounded corner
    """
    if long is None or abs(long - sum(each.edge.length for each in kept)) <= _ALIKE:
        return inner, kept
    out: list[LaidEdge] = []
    for each in walk:
        whole = each.edge.length_within(_ALIKE)
        part = (
            each if whole <= long else replace(each, edge=replace(each.edge, curves=cut_run(each.edge.curves, long)[0]))
        )
        out.append(part)
        long -= whole
        if long <= _ALIKE:
            break
    goal = out[-1].edge.end
    whole = run_length(inner)
    within = whole if bends else min(whole, _GIVES)
    if at_start:
        return run_reversed(end_moved(run_reversed(inner), goal, within)), out
    return end_moved(inner, goal, within), out


def end_moved(run: Sequence[Curve], goal: Point, within: float) -> tuple[Curve, ...]:
    """A run whose end is moved to a place; the points that draw it within so many mm of the end move too.

    They move less with the square of their distance from the end, so that the rest keeps its place and direction.
    """
    by = goal - run[-1].end
    gone = 1.0 - run_length(run) / within
    out: list[Curve] = []
    for curve in run:
        share = run_length((curve,)) / within
        shares = [gone + share * k / 3.0 for k in range(4)]
        a, b, c, d = (by * max(0.0, min(1.0, at)) ** 2 for at in shares)
        start = out[-1].end if out else curve.start + a
        if isinstance(curve, Cubic):
            out.append(Cubic(start, curve.c1 + b, curve.c2 + c, curve.end + d))
        else:
            out.append(Line(start, curve.end + d))
        gone += share
    return (*out[:-1], replace(out[-1], end=goal))


def chained(run: Sequence[Curve]) -> tuple[Curve, ...]:
    """A run with the gaps of rounding closed, where the faced edge turns a hair at a joint."""
    out = list(run[:1])
    for curve in run[1:]:
        out.append(starting_at(curve, out[-1].end))
    return tuple(out)


def parallel_extended(name: str, faced: Sequence[Curve], depth: float) -> tuple[Curve, ...]:
    """The parallel of the faced edge, so many mm inside it, led on straight at both ends to cross the edges beside."""
    run = parallel_run(faced, -depth)
    if not run:
        raise NotAPattern(name, reason="its edge is too hollow to be faced so deeply")
    run = chained(run)
    out, on = end_tangents(run[0])[0], end_tangents(run[-1])[1]
    far = _LEADS * depth
    return Line(run[0].start - out * far, run[0].start), *run, Line(run[-1].end, run[-1].end + on * far)
