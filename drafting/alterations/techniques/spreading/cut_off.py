"""A piece cut off straight across the grain above its hem: what is left keeps its taper, and its hem is the cut."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from drafting.alterations.techniques.cutting.clip_marks import clipped
from drafting.alterations.techniques.marks.grain_line import grain_in_middle
from drafting.alterations.techniques.redrawing.redraw_run import exact_length
from drafting.alterations.techniques.spreading.level_cut import CutLine, crosses
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Curve, Line, Point, end_tangents, fair, lerp, line_hits, run_length, run_reversed, split
from drafting.geometry.solve import root_between
from drafting.geometry.tolerance import MEASURED, SAME_PLACE, SOLVED
from drafting.pattern import Edge, Grain, Landmark, Level, MarkLine, Notch, NotchRef, Piece, closed, from_start, line_at

__all__ = ["CutOff", "cut_off"]

_LEAST_LEFT = 30.0
"""mm from the widest level of a sleeve to where it may be cut off (ours: less is a cap and a hem)."""

_MOST_ASLANT = math.radians(6.5)
"""How far a seam may lean where it comes to the hem, as at the wrist of the block."""

_LEAST_ABOVE = 12.0
"""mm above the hem that a line to lengthen at lies at the least (ours)."""

_LEAST_ROOM = 50.0
"""mm from the elbow to the hem for a line to lengthen or shorten at between them (ours)."""


@dataclass(frozen=True, slots=True)
class CutOff:
    """The piece that is left, and what is no longer on it, by name."""

    piece: Piece
    notches: frozenset[NotchRef]
    lines: frozenset[str]
    points: frozenset[str]


def cut_off(piece: Piece, hem: Edge, cut: CutLine) -> CutOff:
    """The piece without what lies below a cut through both edges beside its hem.

    The hem keeps its name and its allowance. Marks at the hem go up with it, those below the cut are gone, and the line
    to lengthen at lies halfway between the elbow and the new hem. Raises NotAPattern where the cut does not go through
    just these two edges once each, or lies too near the widest level.
    """
    count, at = len(piece.edges), piece.edges.index(hem)
    before, after = piece.edges[at - 1], piece.edges[(at + 1) % count]
    if {edge.name for edge in piece.edges if crosses(edge, cut)} != {before.name, after.name}:
        raise NotAPattern(piece.name, reason="the cut would not go from one seam to the other")
    widest = line_at(piece, Level.BICEPS)
    if widest is not None and cut.depth(widest.start) > -_LEAST_LEFT:
        raise NotAPattern(piece.name, reason=f"it would end less than {_LEAST_LEFT:.0f} mm below its widest level")
    upper = _straighter(_upper(before, cut), cut)
    other = _straighter(run_reversed(_upper(after, cut)), cut)
    if abs(exact_length(before.curves) - exact_length(after.curves)) <= SOLVED:  # sewn to one another
        upper, other = _no_longer(upper, other), _no_longer(other, upper)
    lower = run_reversed(other)
    redrawn = min(cut.depth(upper[-1].start), cut.depth(lower[0].end))
    kept = {
        before.name: replace(before, curves=upper),
        hem.name: replace(hem, curves=(Line(upper[-1].end, lower[0].start),)),
        after.name: replace(after, curves=lower),
    }
    edges = closed(piece.name, tuple(kept.get(edge.name, edge) for edge in piece.edges))
    outline = tuple(curve for edge in edges for curve in edge.curves)
    notches = tuple(_notches(piece, {edge.name: edge for edge in edges}, (after.name, hem.name)))
    lines = tuple(_lines(piece, outline, cut, redrawn))
    up = -cut.depth(hem.curves[0].start)
    points = tuple(
        mark.placed(mark.at + cut.down * up) if mark.landmark is Landmark.WRIST else mark
        for mark in piece.points
        if mark.landmark is Landmark.WRIST or not cut.below(mark.at)
    )
    left = replace(
        piece, edges=edges, notches=notches, lines=lines, points=points, grain=_grain(piece.grain, outline, cut)
    )
    return CutOff(
        left,
        frozenset(NotchRef(piece.name, n.name) for n in piece.notches)
        - {NotchRef(piece.name, n.name) for n in notches},
        frozenset(line.name for line in piece.lines) - {line.name for line in lines},
        frozenset(mark.name for mark in piece.points) - {mark.name for mark in points},
    )


def _upper(edge: Edge, cut: CutLine) -> tuple[Curve, ...]:
    """What of an edge lies above the cut, in its own direction."""
    out: list[Curve] = []
    for curve in edge.curves:
        if cut.below(curve.start) == cut.below(curve.end):
            out += [] if cut.below(curve.end) else [curve]
            continue
        hits = line_hits(curve, cut.through, cut.down.left())
        if len(hits) != 1:
            raise NotAPattern(edge.name, reason="the cut would go through it more than once")
        first, second = split(curve, hits[0].t)
        out.append(second if cut.below(curve.start) else first)
    return tuple(out)


def _no_longer(down: tuple[Curve, ...], beside: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """A seam down to the hem without what it is longer at its end than the one it is sewn to, where both were alike.

    One that was taken in is shaped otherwise than the other, and a level cut leaves it a tenth of a millimetre longer.
    """
    *rest, last = down
    wanted = exact_length(beside) - exact_length(rest)
    if exact_length([last]) <= wanted + MEASURED or wanted <= 0.0:
        return down
    t = root_between(lambda t: exact_length([split(last, t)[0]]) - wanted, 0.01, 1.0)
    return (*rest, split(last, t)[0])


def _straighter(down: tuple[Curve, ...], cut: CutLine) -> tuple[Curve, ...]:
    """A seam down to the hem that comes to it no more aslant than _MOST_ASLANT, its last stretch redrawn for that.

    The hem is folded straight and has to lie on what it is turned up on, as at the wrist of the block.
    """
    last = down[-1]
    leaving, arriving = end_tangents(last)
    aslant = cut.down.angle_to(arriving)
    if abs(aslant) <= _MOST_ASLANT:
        return down
    arriving = cut.down.turned(math.copysign(_MOST_ASLANT, aslant))
    return (*down[:-1], fair(last.start, leaving, last.end, arriving))


def _notches(piece: Piece, edges: dict[str, Edge], begun_later: tuple[str, str]) -> Iterator[Notch]:
    """The notches that are left, each as far as it was from the end of its edge that stays."""
    after, hem = begun_later
    for notch in piece.notches:
        name = notch.station.edge
        was, now = piece.edge(name), edges[name]
        if now is was:
            yield notch
            continue
        if name == hem:
            continue
        lost = was.length - now.length
        along = from_start(was, notch.station) - (lost if name == after else 0.0)
        if 0.0 <= along <= now.length:
            yield notch.moved_to(now.length - along if notch.station.end == "end" else along)


def _lines(piece: Piece, outline: tuple[Curve, ...], cut: CutLine, redrawn: float) -> Iterator[MarkLine]:
    """The marked lines above the cut; the one to lengthen at halfway from the elbow down to it, and that above the
    elbow, where it is cut away, halfway from the widest level.

    redrawn: from which depth on its seams are redrawn
    """
    elbow, widest = line_at(piece, Level.ELBOW), line_at(piece, Level.BICEPS)
    for line in piece.lines:
        if line.level is Level.LENGTHEN_ABOVE_ELBOW and widest is not None and cut.depth(line.start) > -_LEAST_ABOVE:
            yield _across(line, outline, cut.through + cut.down * (0.5 * cut.depth(widest.start)), cut)
            continue
        if line.level is Level.LENGTHEN and elbow is not None:
            room = -cut.depth(elbow.start)
            if room >= _LEAST_ROOM:
                middle = cut.through - cut.down * (0.5 * room)
                yield _across(line, outline, middle, cut)
        elif not cut.below(line.start) and not cut.below(line.end):
            moves = not line.curves and cut.depth(line.start) > redrawn + SAME_PLACE
            yield _across(line, outline, lerp(line.start, line.end, 0.5), cut) if moves else line


def _across(line: MarkLine, outline: tuple[Curve, ...], through: Point, cut: CutLine) -> MarkLine:
    wide = cut.down.left() * run_length(outline)
    long = line.straight(through - wide, through + wide)
    return clipped(long, outline) or long


def _grain(grain: Grain | None, outline: tuple[Curve, ...], cut: CutLine) -> Grain | None:
    """The grain line, its lower end drawn up where it was cut off."""
    if grain is None or not (cut.below(grain.start) or cut.below(grain.end)):
        return grain
    upper, lower = sorted((grain.start, grain.end), key=cut.depth)
    room = -cut.depth(upper)
    if room < _LEAST_ROOM:
        return grain_in_middle(outline, grain.direction) or grain
    short = lerp(upper, lower, 0.8 * room / (cut.depth(lower) + room))
    return Grain(upper, short) if grain.start is upper else Grain(short, upper)
