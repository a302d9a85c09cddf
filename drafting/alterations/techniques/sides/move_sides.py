"""Moving the side seams of a garment in or out at the waist and the hip, front and back alike.

The trade's way (common practice): the seam is redrawn from one mark to the next, from the bust line to the waist and
from the hip line to the waist, as one curve without a corner; the same is done to the back, so that the two stay
equal; the waist line is redrawn square to the new seam; notches keep their distance from the end they are counted
from. How much: d round the body, shared by two side seams of a front and a back each, is d/4 a piece (plane geometry).

How the seam is redrawn stands in `side_shift.py`. Front and back are moved by the same rule; what is left of a
difference (their waist lines are not equally long) is solved for: every waist line grows by exactly what was asked for,
and every side seam by exactly as much as its partner.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.techniques.redrawing.redraw_run import (
    bent_at_ends,
    exact_length,
    fitted_between,
    with_length_kept,
)
from drafting.alterations.techniques.sides.side_shift import shifted_side
from drafting.alterations.techniques.sides.side_view import ON_SEAM, Side, sides_at
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    at_length,
    distance,
    handles,
    length,
    line_hits,
    point_at,
    run_hits,
    run_length,
    shift,
    split,
    tangent,
)
from drafting.geometry.solve import Rates
from drafting.geometry.tolerance import MEASURED, SAME_PLACE, SOLVED
from drafting.pattern import (
    Edge,
    Level,
    MarkLine,
    Notch,
    NotchRef,
    Pattern,
    Piece,
    WalkedEdge,
    from_start,
    with_edges,
    with_pieces,
)

__all__ = ["curve_to_new_end", "moved_sides", "side_moved_out"]

_STEEPEST: Final = math.radians(50.0)
"""How far from upright a side seam may end at the waist: steeper, its cloth lies on the cross (our figure)."""

_LEAST_WAIST: Final = 15.0
"""mm of waist that must be left between the side seam and the dart next to it: less cannot be sewn (our figure)."""

_MOST_RAISED: Final = 0.12
"""How far the side end of the waist may rise or sink, as a share of the height from level to waist (our figure):
beyond it the waist line bends more at the side instead, and the garment keeps its level."""

_PARALLEL: Final = 1e-3
"""The sine below which waist line and side seam run in one direction, and no corner lies between them."""

_CLEAR_OF_DART: Final = 5.0
"""mm that a notch of the waist keeps from the dart next to it."""


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A side as it is redrawn: its seam and the waist line that ends there."""

    side: Side
    seam: tuple[Curve, ...]
    waist: tuple[Curve, ...]

    @property
    def grown(self) -> tuple[float, float]:
        """By how much the waist line and the side seam are longer than they were, mm."""
        seam = run_length(self.seam, MEASURED) - self.side.seam_length
        return run_length(self.waist, MEASURED) - self.side.waist_length, seam


def moved_sides(
    step: str, pattern: Pattern, *, waist: float, hip: float, bust: float = 0.0, keep_lengths: bool = False
) -> Pattern:
    """The pattern with every side seam moved out (in, below zero) by `waist` mm at the waist and `hip` mm at the hip.

    Every piece's waist line is then longer by exactly `waist`. What lies above the bust line goes with the bust, what
    lies below the hip line with the hip. keep_lengths: every side seam keeps its length, else they all grow alike.
    Raises StepRefused where the seam would be too steep or too little of the waist would be left.
    """
    upper, lower = sides_at(step, pattern, Level.BUST), sides_at(step, pattern, Level.HIP)
    if not upper and not lower:
        reason = f'no piece has a "{Level.BUST}" or a "{Level.HIP}" from which its side seam could be told'
        raise StepRefused(step, reason=reason)
    seam = 0.0 if keep_lengths else None
    drawn = [*_redrawn(step, upper, waist, bust, seam), *_redrawn(step, lower, waist, hip, seam)]
    pieces = [_piece(each, hip if each.side in lower else bust) for each in drawn]
    moved = with_pieces(pattern, *pieces)
    return _with_waist_notches(moved, drawn)


def side_moved_out(step: str, side: Side, longer: float) -> Piece:
    """The piece with one seam led out at its corner so that the line that ends there is longer by exactly `longer` mm.

    The seam keeps its length, and all of it that lies beyond the level. Raises StepRefused as `moved_sides` does.
    """
    corner = side.out * longer
    drawn = _solved(step, _drawn(side, 0.0, corner), 0.0, corner, (longer, 0.0))
    _accept(step, drawn)
    return _piece(drawn, 0.0)


def _redrawn(step: str, sides: Sequence[Side], waist: float, beyond: float, seam: float | None = None) -> list[_Drawn]:
    """The sides of one level redrawn, their waist lines longer by `waist`, their side seams all by the same `seam`.

    None for as much as comes of itself, on the average.
    """
    if not sides or (waist == 0.0 and beyond == 0.0):
        return []
    for side in sides:
        left = side.waist_length + waist
        if left < _LEAST_WAIST:
            raise StepRefused(
                step,
                reason=f'"{side.piece.name}" would have to be taken in by {-waist:.0f} mm at its side seam, which '
                "would come "
                "to the dart",
            )
    natural = [_evenly_bent_corner(side, waist, beyond) for side in sides]
    raised = sum(corner.dot(side.up) for side, corner in zip(sides, natural, strict=True)) / len(sides)
    starts = [side.out * corner.dot(side.out) + side.up * raised for side, corner in zip(sides, natural, strict=True)]
    first = [_drawn(side, beyond, corner) for side, corner in zip(sides, starts, strict=True)]
    for each in first:
        _accept(step, each)
    if seam is None:
        seam = sum(each.grown[1] for each in first) / len(first)
    return [_solved(step, each, beyond, corner, (waist, seam)) for each, corner in zip(first, starts, strict=True)]


def _evenly_bent_corner(side: Side, waist: float, beyond: float) -> Vec:
    """Where the corner goes so that the waist line, square to the side seam as before, bends as evenly as it did."""
    corner = side.out * waist
    chord = side.corner - side.waist[0].start
    longer = chord.norm() + waist
    for _ in range(3):
        turned = _turned(side, beyond, corner)
        corner = chord.turned(0.5 * turned).unit() * longer - chord
        most = _MOST_RAISED * side.height
        corner = side.out * corner.dot(side.out) + side.up * min(most, max(-most, corner.dot(side.up)))
    return corner


def _turned(side: Side, beyond: float, corner: Vec) -> float:
    """How far the side seam turns at the waist when the corner is moved, radians anticlockwise."""
    was = tangent(side.seam[-1], 1.0)
    now = shifted_side(side, beyond, corner).vec(1.0, was)
    return was.angle_to(now)


def _drawn(side: Side, beyond: float, corner: Vec) -> _Drawn:
    shifted = shifted_side(side, beyond, corner)
    seam = tuple(shifted.curve(curve) for curve in side.seam)
    return _Drawn(side, seam, _run_to_new_end(side.waist, seam[-1].end, _turned(side, beyond, corner)))


def _solved(step: str, drawn: _Drawn, beyond: float, corner: Vec, wanted: tuple[float, float]) -> _Drawn:
    """The side with its corner where the waist line and the side seam have grown by what is wanted, within 1e-7 mm.

    drawn, corner: a first try at it, and how far its corner is moved

    A small step of the corner changes the length of either by about its part along the way that curve takes.
    """
    side, grown = drawn.side, drawn.grown
    level = side.level + side.out * beyond
    corner_now = drawn.seam[-1].end
    rates = Rates((corner_now - drawn.waist[0].start).unit(), (corner_now - level).unit())
    for _ in range(16):
        off = [want - has for want, has in zip(wanted, grown, strict=True)]
        if max(map(abs, off)) <= SOLVED / 10:
            return drawn
        step_on = rates.step(*off, least=_PARALLEL)
        if step_on is None:
            break
        corner = corner + step_on
        drawn, before = _drawn(side, beyond, corner), grown
        grown = drawn.grown
        rates = rates.learnt(step_on, *(now - was for was, now in zip(before, grown, strict=True)))
    raise StepRefused(
        step,
        reason=f'the {side.edge} of "{side.piece.name}" would be moved so far that it could not end where its '
        "partner does; "
        "move it by less, or take it in at the darts",
    )


def curve_to_new_end(curve: Curve, end: Point, turned: float) -> Curve:
    """The curve led to another end, where its direction is turned by this angle; at its start it stays as it was."""
    c1, c2 = handles(curve)
    grown = distance(curve.start, end) / distance(curve.start, curve.end)
    led = Cubic(curve.start, curve.start + c1 * grown, end - c2.turned(turned) * grown, end)
    if not isinstance(curve, Line):
        return led
    straight = all(abs((p - led.start).cross(end - led.start)) <= SAME_PLACE * grown for p in (led.c1, led.c2))
    return Line(led.start, end) if straight else led


def _run_to_new_end(run: tuple[Curve, ...], end: Point, turned: float) -> tuple[Curve, ...]:
    """As `curve_to_new_end`, for a run: it is scaled as a whole, and the turn at its end is spread over all of it."""
    if len(run) == 1:
        return (curve_to_new_end(run[0], end, turned),)
    start = run[0].start
    rolled = (run[-1].end - start).angle_to(end - start)
    return bent_at_ends(fitted_between(run, start, end), -rolled, turned - rolled)


def _accept(step: str, drawn: _Drawn) -> None:
    arriving = tangent(drawn.seam[-1], 1.0)
    lean = abs(arriving.angle_to(drawn.side.toward))
    if lean > _STEEPEST:
        raise StepRefused(
            step,
            reason=f'the {drawn.side.edge} of "{drawn.side.piece.name}" would come to its corner '
            f"{math.ceil(math.degrees(lean))} degrees from upright, and {math.degrees(_STEEPEST):.0f} is the most; "
            "move it by less, or take it in at the darts",
        )


def _piece(drawn: _Drawn, beyond: float) -> Piece:
    """The piece with its new side seam, waist line and hem, and what is marked on them."""
    side, piece = drawn.side, drawn.side.piece
    seam, waist = (_walked_to(piece.edge(name), side.corner) for name in (side.edge, side.waist_edge))
    changed = [seam.redrawn(drawn.seam), waist.redrawn((*waist.run[: -len(drawn.waist)], *drawn.waist))]
    far = side.seam[0].start
    for edge in piece.edges if beyond != 0.0 else ():
        if edge not in (seam.edge, waist.edge) and far in (edge.start, edge.end):
            other = _walked_to(edge, far)
            *first, last = _parted_at_marks(piece, other.run)
            changed.append(other.redrawn((*first, curve_to_new_end(last, drawn.seam[0].start, 0.0))))
    return replace(
        with_edges(piece, *changed),
        notches=tuple(_restationed(seam, drawn, notch) for notch in piece.notches),
        lines=tuple(_relined(drawn, beyond, mark) for mark in piece.lines),
    )


def _walked_to(edge: Edge, place: Point) -> WalkedEdge:
    """An edge walked to one of its ends."""
    return WalkedEdge(edge, edge.end != place)


def _parted_at_marks(piece: Piece, run: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """A run with a joint where the last marked line meets its last curve, so that what is measured there stays."""
    *first, last = run
    hits = [hit.t for mark in piece.lines for hit in line_hits(last, mark.start, mark.end - mark.start)]
    clear = [t for t in hits if min(distance(point_at(last, t), end) for end in (last.start, last.end)) > ON_SEAM]
    return (*first, *split(last, max(clear))) if clear else run


def _restationed(seam: WalkedEdge, drawn: _Drawn, notch: Notch) -> Notch:
    """A notch of the side seam at the place that its own place has moved to."""
    if notch.station.edge != seam.name:
        return notch
    was, now = drawn.side.seam, drawn.seam
    at = notch.station.at if seam.counted_from_first(notch) else run_length(was, MEASURED) - notch.station.at
    return seam.notch_at(notch, _carried_place(was, now, at), run_length(now, MEASURED))


def _carried_place(was: Sequence[Curve], now: Sequence[Curve], at: float) -> float:
    """How far along one run lies the place that is `at` mm along another of the same curves."""
    gone = along = 0.0
    for old, new in zip(was, now, strict=True):
        whole = length(old, MEASURED)
        if at <= gone + whole:
            return along + length(split(new, at_length(old, at - gone))[0], MEASURED)
        gone, along = gone + whole, along + length(new, MEASURED)
    return along + at - gone


def _relined(drawn: _Drawn, beyond: float, mark: MarkLine) -> MarkLine:
    """A marked line that ends or begins on the seam, drawn to where the seam lies now; from corner to new corner."""
    if mark.level is Level.CREASE:  # it stays in the middle of the leg
        return mark.moved(shift(drawn.side.out * (0.5 * beyond)))
    corner = drawn.seam[-1].end
    if drawn.side.corner in (mark.start, mark.end):
        return mark.between(*(corner if end == drawn.side.corner else end for end in (mark.start, mark.end)))
    along = (mark.end - mark.start).unit()
    met = [hit.point for _, hit in run_hits(drawn.side.seam, mark.start, along)]
    met += _ends(drawn.side.seam)
    at_start = any(point.near(mark.start, ON_SEAM) for point in met)
    if not at_start and not any(point.near(mark.end, ON_SEAM) for point in met):
        return mark
    hits = [hit.point for _, hit in run_hits(drawn.seam, mark.start, along)]
    hits += [end for end in _ends(drawn.seam) if abs(along.cross(end - mark.start)) <= ON_SEAM]
    if not hits:
        return mark
    expected = (mark.start if at_start else mark.end) + drawn.side.out * beyond
    found = min(hits, key=lambda point: distance(point, expected))
    new = mark.between(found, mark.end) if at_start else mark.between(mark.start, found)
    if not new.curves:
        return new
    # what is bent is let out or taken in by as much as the seam is, not by as much for each mm of its chord
    more = distance(new.start, new.end) - distance(mark.start, mark.end)
    return new.through(with_length_kept(new.curves, exact_length(mark.curves) + more), new.start, new.end)


def _ends(run: Sequence[Curve]) -> Iterator[Point]:
    yield run[0].start
    for curve in run:
        yield curve.end


def _with_waist_notches(pattern: Pattern, drawn: Sequence[_Drawn]) -> Pattern:
    """The notches of the waist as far from the side seam as they were; half way to the dart, where that is too far."""
    waists = {(each.side.piece.name, each.side.waist_edge): each.side for each in drawn}
    far: dict[NotchRef, float] = {}
    room: dict[NotchRef, float] = {}
    for (name, waist), side in waists.items():
        edge = side.piece.edge(waist)
        for notch in side.piece.notches:
            if notch.station.edge == waist:
                at, mark = from_start(edge, notch.station), NotchRef(name, notch.name)
                far[mark] = edge.length - at if edge.end == side.corner else at
                room[mark] = pattern.piece(name).edge(waist).length
    for pair in (pair for seam in pattern.seams for pair in seam.notches):
        if all(mark in far for mark in pair):
            shortest = min(room[mark] for mark in pair)
            if max(far[mark] for mark in pair) > shortest - _CLEAR_OF_DART:
                far.update(dict.fromkeys(pair, 0.5 * shortest))

    def at_its_place(piece: Piece, notch: Notch) -> Notch:
        from_side = far.get(NotchRef(piece.name, notch.name))
        if from_side is None:
            return notch
        side = waists[piece.name, notch.station.edge]
        at_side = "end" if side.piece.edge(side.waist_edge).end == side.corner else "start"
        at = from_side if notch.station.end == at_side else piece.edge(side.waist_edge).length - from_side
        return notch.moved_to(at)

    pieces = [pattern.piece(name) for name in dict.fromkeys(name for name, _ in waists)]
    made = (replace(piece, notches=tuple(at_its_place(piece, notch) for notch in piece.notches)) for piece in pieces)
    return with_pieces(pattern, *made)
