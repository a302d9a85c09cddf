"""Front and back of trousers for an alteration: the ends of the crotch moved, the waist raised behind, levels redrawn.

The fork is the place at the inside leg where the front and the back of the crotch meet. A step that moves it out also
moves the fork of the back down or up, by the amount with which the inside legs still meet as before. The inside leg
turns a little with its fork, so that it stays hollow, and the crotch with it, so that the corner there stays square.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Final

from drafting.alterations.earlier_steps import in_the_way, refused_after
from drafting.alterations.promises import run_surplus
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import (
    Cubic,
    Curve,
    Line,
    Point,
    Vec,
    distance,
    handles,
    line_hits,
    reverse,
    run_ends,
    run_reversed,
)
from drafting.geometry.solve import solve
from drafting.geometry.tolerance import MEASURED
from drafting.pattern import (
    CENTRES,
    Across,
    BodyPart,
    Edge,
    Level,
    MarkLine,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    edges_at,
    is_front,
    line_at,
    pieces_of,
    with_edges,
    with_pieces,
)

__all__ = [
    "CROTCH_LINES",
    "Halves",
    "crotch_length",
    "end_moved",
    "halves_of",
    "has_knee",
    "kept_beside_fork",
    "levels_redrawn",
    "outward",
    "seam_at",
    "tape_across",
    "with_forks_moved",
]

_TO_KNEE: Final = 300.0
"""mm below the fork from which a hem hangs as far down as the knee and stays; that of shorts goes along (ours)."""

CROTCH_LINES: Final = (Level.CROTCH, Level.THIGH, Level.LENGTHEN_ABOVE_KNEE)
"""The marked levels that end on the inside leg or at the crotch, and follow it."""


@dataclass(frozen=True, slots=True)
class Halves:
    """The front and the back of the trousers of a pattern."""

    front: Piece
    back: Piece

    def __iter__(self) -> Iterator[Piece]:
        yield self.front
        yield self.back


def halves_of(step: str, pattern: Pattern) -> Halves:
    """Both halves. Raises StepRefused where the pattern has no trousers."""
    found = [
        piece
        for piece in pieces_of(pattern, part=BodyPart.TROUSERS)
        if edges_at(piece, Place.CROTCH) and edges_at(piece, Place.INSEAM)
    ]
    fronts, backs = [p for p in found if is_front(p)], [p for p in found if not is_front(p)]
    if len(fronts) != 1 or len(backs) != 1:
        raise StepRefused(step, reason="there are no trousers with one front and one back; leave the step out")
    for piece in (*fronts, *backs):
        if not edges_at(piece, Place.SIDE):
            raise refused_after(step, in_the_way(piece), f'"{piece.name}" has no side seam')
    return Halves(fronts[0], backs[0])


def crotch_edges(piece: Piece) -> tuple[Edge, ...]:
    """The edges of a half from its waist through the crotch."""
    return tuple(edge for edge in piece.edges if edge.place in (*CENTRES, Place.CROTCH))


def crotch_length(pattern: Pattern, piece: str) -> float:
    """How long the crotch of a half is, from the waist to the end of the fork, mm."""
    return sum(edge.length_within(MEASURED) for edge in crotch_edges(pattern.piece(piece)))


def with_forks_moved(step: str, pattern: Pattern, front: float, back: float) -> Pattern:
    """The pattern with the fork of each half longer by so many mm, the back's lower or higher so that the inseams meet.

    Raises StepRefused where the inside legs are sewn to nothing.
    """
    halves = halves_of(step, pattern)
    inseam = seam_at(pattern, halves.back, Place.INSEAM)
    if inseam is None:
        raise StepRefused(step, reason="the inside legs of front and back are not sewn to each other")
    wanted = run_surplus(pattern, inseam)
    led = with_pieces(pattern, _with_fork_moved(halves.front, front, 0.0))

    def dropped(drop: float) -> Pattern:
        return with_pieces(led, _with_fork_moved(halves.back, back, drop))

    drop = solve(lambda lower: run_surplus(dropped(lower), inseam) - wanted, 0.0, 0.5)
    met = dropped(drop)
    return with_pieces(met, *(levels_redrawn(met.piece(piece.name)) for piece in halves))


def seam_at(pattern: Pattern, half: Piece, place: Place) -> Seam | None:
    """The seam at this place that joins one half to the other; None where there is none."""
    for seam in pattern.seams:
        refs = (*seam.a, *seam.b)
        at_place = all(pattern.piece(ref.piece).edge(ref.edge).place is place for ref in refs)
        if at_place and any(ref.piece == half.name for ref in refs):
            return seam
    return None


def outward(piece: Piece) -> Vec:
    """The unit step from the side of a half toward the end of its fork."""
    crotch, side = edges_at(piece, Place.CROTCH)[0], edges_at(piece, Place.SIDE)[0]
    return Vec(-1.0 if fork_of(piece, crotch).x < side.start.x else 1.0, 0.0)


def fork_of(piece: Piece, crotch: Edge) -> Point:
    """The end of the crotch at which the inside leg begins."""
    inseam = edges_at(piece, Place.INSEAM)
    ends = {end for edge in inseam for end in (edge.start, edge.end)}
    return crotch.start if crotch.start in ends else crotch.end


def _with_fork_moved(piece: Piece, out: float, drop: float) -> Piece:
    """The half with its fork moved out from the side and down, mm; crotch and inside leg are redrawn to it."""
    (crotch, *_), inseams = edges_at(piece, Place.CROTCH), edges_at(piece, Place.INSEAM)
    fork = fork_of(piece, crotch)
    step = outward(piece) * out + Vec(0.0, -drop)
    (inseam,) = (edge for edge in inseams if fork in (edge.start, edge.end))
    end = inseam.start if inseam.end == fork else inseam.end
    hems = () if has_knee(piece) else (e for e in edges_at(piece, Place.HEM) if end in (e.start, e.end))
    share = max(0.0, 1.0 - (fork.y - end.y) / _TO_KNEE)
    wider = [(hem, Vec(share * step.x, 0.0)) for hem in hems]
    led = _inseam_led(piece, inseam, fork, step, wider[0][1] if wider else Vec(0.0, 0.0))
    turned = _leaves(inseam, fork).angle_to(_leaves(led, fork + step))
    return with_edges(
        piece,
        end_moved(crotch, at_end=crotch.end == fork, step=step, turned=turned),
        led,
        *(end_moved(hem, at_end=hem.end == end, step=out) for hem, out in wider),
    )


def kept_beside_fork(halves: Halves) -> tuple[Place, ...]:
    """The places whose lengths stay where the forks move."""
    hems = (Place.HEM,) if all(map(has_knee, halves)) else ()
    return (Place.WAIST, Place.SIDE, *hems)


def has_knee(piece: Piece) -> bool:
    """Whether the leg of a half is led through the knee; that of shorts ends above it."""
    return line_at(piece, Level.KNEE) is not None


def _leaves(inseam: Edge, fork: Point) -> Vec:
    """Which way the inside leg leaves the fork."""
    first, last = run_ends(inseam.curves)
    return -last if inseam.end.near(fork) else first


def _inseam_led(piece: Piece, inseam: Edge, fork: Point, step: Vec, hem: Vec) -> Edge:
    """The inside leg with its end at the fork moved by a step, every place above the knee with it.

    A place goes by the share of the step that a thin lath would, held at the knee and led out at the fork: below the
    fork the line is as hollow as before, and it runs into the knee as it did, or into the hem of shorts.
    hem: how the lower end of shorts moves
    """
    at_end = inseam.end == fork
    down = run_reversed(inseam.curves) if at_end else inseam.curves
    knee = line_at(piece, Level.KNEE)
    joints = [curve.end.y for curve in down]
    lowest = joints[-1] if knee is None else min(joints, key=lambda y: abs(y - knee.start.y))
    deep = fork.y - lowest

    def moved(at: Point, handle: Vec) -> tuple[Point, Vec]:
        """A place and the handle of a curve there, moved."""
        left = max(0.0, (at.y - lowest) / deep)
        share, rate = 0.5 * left * left * (3.0 - left), 1.5 * left * (2.0 - left) / deep
        return at + hem + (step - hem) * share, handle + (step - hem) * (rate * handle.y)

    led: list[Curve] = []
    for curve in down:
        if curve.start.y <= lowest:
            led.append(curve)
            continue
        c1, c2 = handles(curve)
        (start, out), (stop, back) = moved(curve.start, c1), moved(curve.end, -c2)
        led.append(Cubic(start, start + out, stop + back, stop))
    return replace(inseam, curves=run_reversed(led) if at_end else tuple(led))


def end_moved(edge: Edge, *, at_end: bool, step: Vec, turned: float = 0.0) -> Edge:
    """An edge with one of its ends moved, the direction there turned, radians; only its last curve changes."""
    run = edge.curves
    if at_end:
        return replace(edge, curves=(*run[:-1], _end_moved(run[-1], step, turned)))
    return replace(edge, curves=(reverse(_end_moved(reverse(run[0]), step, turned)), *run[1:]))


def _end_moved(curve: Curve, step: Vec, turned: float) -> Curve:
    """A curve with its end moved by a step and turned there; its handles grow with its chord."""
    end = curve.end + step
    if isinstance(curve, Line):
        return Line(curve.start, end)
    c1, c2 = handles(curve)
    grown = distance(curve.start, end) / distance(curve.start, curve.end)
    return Cubic(curve.start, curve.start + c1 * grown, end - c2.turned(turned) * grown, end)


def levels_redrawn(piece: Piece, levels: tuple[Level, ...] = CROTCH_LINES) -> Piece:
    """The piece with these levels drawn to where its crotch and the seams of its leg lie now."""
    return replace(
        piece, lines=tuple(_level_redrawn(piece, line) if line.level in levels else line for line in piece.lines)
    )


def _level_redrawn(piece: Piece, line: MarkLine) -> MarkLine:
    """The line led to the outline at both ends again; a curved line as it was."""
    if line.curves:
        return line
    along = line.end - line.start
    places = (Place.CROTCH, Place.INSEAM, Place.SIDE, *CENTRES)
    hits = [
        hit.point
        for edge in piece.edges
        if edge.place in places and edge.role is not Role.DART_LEG
        for curve in edge.curves
        for hit in line_hits(curve, line.start, along)
    ]
    start = min(hits, key=partial(distance, line.start), default=line.start)
    beyond = [point for point in hits if not point.near(start)]
    return line.straight(start, min(beyond, key=partial(distance, line.end))) if beyond else line


def tape_across(pattern: Pattern, level: Level) -> tuple[Across, ...]:
    """The tape round a leg at a level."""
    found = []
    for piece in pattern.pieces:
        found += [Across(piece.name, line.name) for line in piece.lines if line.level is level]
    return tuple(found)
