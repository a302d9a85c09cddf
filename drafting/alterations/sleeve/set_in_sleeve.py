"""A sleeve as it is set into its armhole: found on a pattern, given another cap, its notches put where they meet.

When the cap changes, the sleeve below it follows as a cutter lets it: the middle of the biceps line and the whole
lower end stay where they are, the two underarm seams run from the new underarm ends into what they were at the lower
end, and what is marked at a level (elbow, balance lines) keeps its distance from the crown. The change fades with the
square of the height, so that a straight seam becomes an even curve that meets the lower end without a corner.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from drafting.alterations.alteration import Promise, find_piece
from drafting.alterations.promises import lengths_kept, straight_kept
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    lerp,
    moved_all,
    run_bounds,
    run_hits,
    run_length,
    run_reversed,
    shift,
    split,
    tangent,
    turn,
)
from drafting.geometry.cap import Cap
from drafting.geometry.outline import starting_at
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Grain,
    MarkLine,
    MarkPoint,
    Notch,
    Pattern,
    Piece,
    Seam,
    SeamEase,
    move_piece,
    notch_distance,
    place,
    run_total,
    with_edges,
    with_pieces,
)

__all__ = [
    "BICEPS_LINE",
    "CAP_BACK",
    "CAP_FRONT",
    "SLEEVE",
    "UNDER_BACK",
    "UNDER_FRONT",
    "SetIn",
    "below_kept",
    "biceps_line",
    "biceps_width",
    "cap_on",
    "declared",
    "find_set_in",
    "gathered",
    "levelled",
    "set_in",
    "with_cap",
    "with_ease",
]

SLEEVE: Final = "sleeve"
CAP_FRONT, CAP_BACK = "cap front", "cap back"
UNDER_FRONT, UNDER_BACK = "underarm seam, front", "underarm seam, back"
_GIVE: Final = 0.1  # of what is gathered in: the thread is drawn up to what the other side is (our figure)
BICEPS_LINE: Final = "biceps line"

_CLEAR: Final = 1.0  # mm by which a biceps line stays clear of a cap that dips below its ends


@dataclass(frozen=True, slots=True)
class SetIn:
    """A sleeve, its cap, and the two seams it is set in by; lengths of cap and armhole, mm.

    front, back: the seams, the cap as their first run
    """

    piece: Piece
    cap: Cap
    front: Seam
    back: Seam
    front_hole: float
    back_hole: float

    @property
    def front_cap(self) -> float:
        """The length of the cap in front, mm."""
        return self.piece.edge(CAP_FRONT).length

    @property
    def back_cap(self) -> float:
        """The length of the cap behind, mm."""
        return self.piece.edge(CAP_BACK).length


def find_set_in(step: str, pattern: Pattern, name: str) -> SetIn:
    """The sleeve of that name as it is set in. Raises StepRefused where it has no cap or goes into no armhole."""
    piece = find_piece(step, pattern, name)
    try:
        cap = cap_on(piece)
    except NotAPattern as error:
        raise StepRefused(step, str(error)) from error
    seams = {seam.a[0].edge: seam for seam in pattern.seams if len(seam.a) == 1 and seam.a[0].piece == name}
    if CAP_FRONT not in seams or CAP_BACK not in seams:
        raise StepRefused(step, f'"{name}" is sewn into no armhole')
    front, back = seams[CAP_FRONT], seams[CAP_BACK]
    return SetIn(piece, cap, front, back, run_total(pattern, front.b), run_total(pattern, back.b))


def cap_on(piece: Piece) -> Cap:
    """The cap of a sleeve piece, its two underarm ends laid level. Raises NotAPattern where it has none."""
    missing = {CAP_FRONT, CAP_BACK, UNDER_FRONT, UNDER_BACK} - {edge.name for edge in piece.edges}
    if missing:
        edges = ", ".join(f'"{name}"' for name in sorted(missing))
        raise NotAPattern(piece.name, f"it is no set-in sleeve in one piece: it has no edge {edges}")
    back, front = run_reversed(piece.edge(CAP_BACK).curves), piece.edge(CAP_FRONT).curves
    across = front[0].start - back[0].start
    if across.y == 0.0:
        return Cap(back, front)
    level = turn(back[0].start, -across.angle())
    cap = Cap(moved_all(back, level), moved_all(front, level))
    return Cap(cap.back, (starting_at(cap.front[0], Point(cap.front[0].start.x, cap.origin.y)), *cap.front[1:]))


def biceps_width(piece: str, pattern: Pattern) -> float:
    """The width of a sleeve at its biceps line, mm: what a promise is measured by. Raises as `cap_on` does."""
    return cap_on(pattern.piece(piece)).width


def with_cap(piece: Piece, redraw: Callable[[Cap, float], Cap]) -> Piece:
    """The sleeve with another cap, the rest of it following.

    redraw: makes the new cap of one that is given, leaving the underarm steeper than that by so many radians
    Cap notches keep their stations. Raises NotAPattern where the sleeve has no room for such a cap.
    """
    return levelled(piece, partial(_recut, redraw=redraw))


def levelled(piece: Piece, change: Callable[[Piece], Piece]) -> Piece:
    """The sleeve changed while it lies with its two underarm ends level, and turned back."""
    about, tilt = piece.edge(CAP_BACK).end, (piece.edge(CAP_FRONT).start - piece.edge(CAP_BACK).end).angle()
    if tilt == 0.0:
        return change(piece)
    return move_piece(change(move_piece(piece, turn(about, -tilt))), turn(about, tilt))


def biceps_line(piece: Piece) -> MarkLine:
    """The biceps line of a sleeve: from underarm to underarm, or just below a cap that dips lower than these."""
    cap = cap_on(piece)
    start, end = piece.edge(CAP_BACK).end, piece.edge(CAP_FRONT).start
    lowest = run_bounds((*cap.back, *cap.front))[1]
    if lowest > cap.origin.y - SAME_PLACE:
        return MarkLine(BICEPS_LINE, start, end)
    across = (end - start).unit()
    through = start + across.left() * (lowest - _CLEAR - cap.origin.y)
    ends = []
    for run in (piece.edge(UNDER_BACK).curves, piece.edge(UNDER_FRONT).curves):
        hits = run_hits(run, through, across)
        if not hits:
            raise NotAPattern(piece.name, "its cap would dip below its underarm seams")
        ends.append(hits[0][1].point)
    return MarkLine(BICEPS_LINE, ends[0], ends[1])


def declared(ease: SeamEase, more: float) -> SeamEase | None:
    """The ease of a seam of which one side is now so much longer, mm; None where that will not sew.

    What was gathered is gathered more or less; what was eased in has to stay within its range.
    """
    if ease.low - SAME_PLACE <= more <= ease.high + SAME_PLACE:
        return replace(ease, wanted=min(max(more, ease.low), ease.high))
    return gathered(more) if min(ease.low, more) > 0.0 else None


def below_kept(pattern: Pattern, sleeve: Piece) -> Iterator[Promise]:
    """What a new cap leaves alone: every edge but the cap and the underarm seams, and the straight lengths."""
    redrawn = (CAP_FRONT, CAP_BACK, UNDER_BACK, UNDER_FRONT)
    yield from lengths_kept(sleeve, (edge.name for edge in sleeve.edges if edge.name not in redrawn))
    yield from straight_kept(pattern, sleeve.name)


def set_in(pattern: Pattern, sleeve: Piece) -> Pattern:
    """The pattern with this sleeve in place of the one of its name, its cap notches where those of the armhole are.

    The first notch from the underarm is met from there, any other from the crown. Raises StepRefused never.
    """
    pattern = with_pieces(pattern, sleeve)
    for seam in pattern.seams:
        if seam.a[0].piece == sleeve.name and seam.a[0].edge in (CAP_FRONT, CAP_BACK):
            pattern = _notched(pattern, seam)
    return pattern


def with_ease(pattern: Pattern, seam: str, ease: SeamEase) -> Pattern:
    """The pattern with another ease declared for one of its seams."""
    return replace(
        pattern, seams=tuple(replace(each, ease=ease) if each.name == seam else each for each in pattern.seams)
    )


def gathered(more: float) -> SeamEase:
    """The ease of a seam whose first side is gathered into the second, being so much longer, mm.

    Gathers are drawn up to fit, so a tenth more or less will sew (our figure).
    """
    return SeamEase(more, (1.0 - _GIVE) * more, (1.0 + _GIVE) * more)


def _recut(piece: Piece, redraw: Callable[[Cap, float], Cap]) -> Piece:
    """`with_cap` on a sleeve whose biceps line is level."""
    was = cap_on(piece)
    middle = 0.5 * (was.origin.x + was.front[0].start.x)
    seam = piece.edge(UNDER_BACK).curves
    cap, turned, leaning = was, 0.0, 0.0
    # the more the underarm seam leans in, the steeper the cap leaves it; how much it leans is known the second time
    for _ in range(2):
        cap = _hung(piece, redraw(cap, leaning - turned), middle)
        turned = leaning
        leaning = _lean(_faded(seam, cap.origin - was.origin)) - _lean(seam)
    return _below(piece, was, cap)


def _notched(pattern: Pattern, seam: Seam) -> Pattern:
    (ref,) = seam.a
    piece = pattern.piece(ref.piece)
    edge = piece.edge(ref.edge)
    spare = edge.length - run_total(pattern, seam.b)
    partners = [(notch_distance(pattern, seam.b, other), mark.notch) for mark, other in seam.notches]
    moved = {}
    for count, (met, name) in enumerate(sorted((at, name) for at, name in partners if at is not None)):
        along = met if count == 0 else met + spare
        notch = piece.notch(name)
        from_start = edge.length - along if ref.backward else along
        at = from_start if notch.station.end == "start" else edge.length - from_start
        moved[name] = replace(notch, station=replace(notch.station, edge=edge.name, at=at))
    notches = tuple(moved.get(notch.name, notch) for notch in piece.notches)
    return with_pieces(pattern, replace(piece, notches=notches))


def _hung(piece: Piece, cap: Cap, middle: float) -> Cap:
    """The cap shifted so that its biceps line has its middle there, and its crown hangs as high over the lower end."""
    was = piece.edge(CAP_FRONT).end
    x = middle - 0.5 * cap.width + cap.back_width
    crown = Point(x, was.y + _lower_end(piece, x) - _lower_end(piece, was.x))
    by = shift(crown - cap.crown)
    return Cap(moved_all(cap.back, by), moved_all(cap.front, by))


def _lower_end(piece: Piece, x: float) -> float:
    """The level of the lower end of a sleeve at this distance across."""
    sides = {CAP_FRONT, CAP_BACK, UNDER_FRONT, UNDER_BACK}
    end = [curve for edge in piece.edges if edge.name not in sides for curve in edge.curves]
    hits = run_hits(end, Point(x, 0.0), Vec(0.0, 1.0))
    if not hits:
        raise NotAPattern(piece.name, "its crown does not lie over its lower end")
    return hits[0][1].point.y


def _below(piece: Piece, was: Cap, cap: Cap) -> Piece:
    """The piece with this cap, in its place, and the underarm seams and marks that go with it."""
    down, across = cap.crown.y - was.crown.y, cap.crown.x - was.crown.x
    back = _faded(piece.edge(UNDER_BACK).curves, cap.origin - was.origin)
    front = run_reversed(_faded(run_reversed(piece.edge(UNDER_FRONT).curves), cap.front[0].start - was.front[0].start))
    edges = {edge.name: edge for edge in piece.edges}
    altered = with_edges(
        piece,
        replace(edges[CAP_FRONT], curves=cap.front),
        replace(edges[CAP_BACK], curves=run_reversed(cap.back)),
        replace(edges[UNDER_BACK], curves=back),
        replace(edges[UNDER_FRONT], curves=front),
    )
    sides = (back, front)

    def line(mark: MarkLine) -> MarkLine:
        if mark.name == BICEPS_LINE:
            return biceps_line(altered)
        ends = [_at_level(mark.name, run, end.y + down) for run, end in zip(sides, _ends(mark), strict=True)]
        return MarkLine(mark.name, ends[0][0], ends[1][0])

    def notch(mark: Notch) -> Notch:
        if mark.station.edge not in (UNDER_BACK, UNDER_FRONT):
            return mark
        run = sides[mark.station.edge == UNDER_FRONT]
        _, at = _at_level(mark.name, run, place(piece, mark.station)[0].y + down)
        at = at if mark.station.end == "start" else run_length(run) - at
        return replace(mark, station=replace(mark.station, at=at))

    def point(mark: MarkPoint) -> MarkPoint:
        return MarkPoint(mark.name, cap.crown if mark.name == "crown" else mark.at + Vec(across, down))

    grain = piece.grain and Grain(piece.grain.start + Vec(across, 0.0), piece.grain.end + Vec(across, 0.0))
    return replace(
        altered,
        grain=grain,
        notches=tuple(notch(mark) for mark in piece.notches),
        lines=tuple(line(mark) for mark in piece.lines),
        points=tuple(point(mark) for mark in piece.points),
    )


def _ends(mark: MarkLine) -> tuple[Point, Point]:
    """The ends of a marked line, the back one first."""
    return (mark.start, mark.end) if mark.start.x < mark.end.x else (mark.end, mark.start)


def _at_level(mark: str, run: Sequence[Curve], level: float) -> tuple[Point, float]:
    """Where a run reaches a level, and how far along it, mm."""
    if abs(run[0].start.y - level) <= SAME_PLACE:
        return run[0].start, 0.0
    hits = run_hits(run, Point(0.0, level), Vec(1.0, 0.0))
    if not hits:
        raise NotAPattern("sleeve", f"its cap would come down past the {mark}")
    k, hit = hits[0]
    return hit.point, run_length((*run[:k], split(run[k], hit.t)[0]))


def _lean(seam: Sequence[Curve]) -> float:
    """How far an underarm seam leans in at its upper end, radians; the seam of the back, going down."""
    down = tangent(seam[0], 0.0)
    return math.atan2(down.x, -down.y)


def _faded(run: Sequence[Curve], by: Vec) -> tuple[Curve, ...]:
    """A run with its start shifted, its end and its direction there kept; between them the square of the height."""
    end, whole = run[-1].end, run[0].start.y - run[-1].end.y
    if by == Vec(0.0, 0.0):
        return tuple(run)

    def share(p: Point) -> float:
        return (p.y - end.y) / whole

    out: list[Curve] = []
    for curve in run:
        start = out[-1].end if out else curve.start + by * share(curve.start) ** 2
        stop = end if curve is run[-1] else curve.end + by * share(curve.end) ** 2
        handles = (curve.c1, curve.c2) if isinstance(curve, Cubic) else _thirds(curve)
        leaving, arriving = handles[0] - curve.start, curve.end - handles[1]
        leaving = leaving + by * (2.0 * share(curve.start) * leaving.y / whole)
        arriving = arriving + by * (2.0 * share(curve.end) * arriving.y / whole)
        out.append(Cubic(start, start + leaving, stop - arriving, stop))
    return tuple(out)


def _thirds(line: Line) -> tuple[Point, Point]:
    return lerp(line.start, line.end, 1.0 / 3.0), lerp(line.start, line.end, 2.0 / 3.0)
