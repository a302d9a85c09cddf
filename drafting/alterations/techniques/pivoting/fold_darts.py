"""A stretch of a piece's outline seen with its darts folded closed, as a cutter trues it: fold, redraw, unfold.

A stretch is all edges at one place, one after another: a shoulder with the dart in it, a waist with two darts. It is
walked from the end that stays. Folding a dart turns everything beyond it about the dart's point. A line that is drawn
on the folded stretch and then unfolded has legs of one length, and no corner where the dart is closed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise, takewhile
from typing import Final

from drafting.alterations.earlier_steps import in_the_way, refused_after
from drafting.alterations.promises import drawn_by
from drafting.alterations.techniques.pivoting.pivot import angle_about
from drafting.alterations.techniques.redrawing.redraw_run import (
    bent_at_start,
    cut_near_joint,
    exact_length,
    fitted_between,
)
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import (
    STAY,
    Curve,
    Line,
    Move,
    Point,
    end_tangents,
    lerp,
    moved_all,
    run_hits,
    run_reversed,
    split,
    turn,
)
from drafting.geometry.tolerance import SAME_PLACE, SOLVED
from drafting.pattern import Dart, Edge, Piece, Place, Role, closed
from drafting.pattern.piece_parts import End

__all__ = [
    "Redrawn",
    "Stretch",
    "apex_for",
    "drawn_between",
    "folds",
    "laid_open",
    "rebuilt",
    "regrouped",
    "stretch_of",
    "unfolded",
    "unfolds",
]


Places = Sequence[Place]

_LEAST_PART: Final = 8.0
"""mm of seam line that must be left beside a place that keeps its distance from the other end (our figure)."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Edges of one kind in the order in which they are walked, and the dart between each two (None where they meet).

    backward: whether the walk goes against the outline, which runs anticlockwise
    """

    piece: Piece
    parts: tuple[Edge, ...]
    darts: tuple[Dart | None, ...]
    backward: bool

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the sewn edges, in the order of the walk."""
        return tuple(edge.name for edge in self.parts)

    @property
    def open(self) -> tuple[tuple[Curve, ...], ...]:
        """The curves of each part as they lie on the flat piece, in the direction of the walk."""
        return tuple(self.walked(edge) for edge in self.parts)

    @property
    def folded(self) -> tuple[tuple[Curve, ...], ...]:
        """The curves of each part with every dart folded and the first part where it lies."""
        return tuple(moved_all(run, fold) for run, fold in zip(self.open, folds(self), strict=True))

    @property
    def angles(self) -> tuple[float, ...]:
        """How far each dart turns what lies beyond it, radians anticlockwise; zero where there is none."""
        runs = self.open
        return tuple(
            0.0 if dart is None else angle_about(before[-1].end, after[0].start, dart.apex)
            for dart, (before, after) in zip(self.darts, pairwise(runs), strict=True)
        )

    @property
    def start(self) -> Point:
        """Where the walk begins, on the flat piece."""
        return self.open[0][0].start

    @property
    def end(self) -> Point:
        """Where the walk ends, on the flat piece."""
        return self.open[-1][-1].end

    @property
    def sewn_length(self) -> float:
        """The length of its edges together, mm within 1e-8 each."""
        return sum(edge.length_within(SOLVED / 100) for edge in self.parts)

    def walked(self, edge: Edge) -> tuple[Curve, ...]:
        """The curves of an edge in the direction of the walk."""
        return run_reversed(edge.curves) if self.backward else edge.curves

    def drawn(self, edge: Edge, curves: Sequence[Curve]) -> Edge:
        """The edge with other curves, given in the direction of the walk."""
        return replace(edge, curves=run_reversed(curves) if self.backward else tuple(curves))


@dataclass(frozen=True, slots=True)
class Redrawn:
    """Edges and darts of a piece as they are redrawn."""

    edges: tuple[Edge, ...] = ()
    darts: tuple[Dart, ...] = ()

    def __add__(self, other: Redrawn) -> Redrawn:
        return Redrawn((*self.edges, *other.edges), (*self.darts, *other.darts))


def stretch_of(step: str, piece: Piece, place: Place, *, start: Places = (), end: Places = ()) -> Stretch:
    """The sewn edges of a piece at a place, walked from an edge at one of the places `start`, or to one at `end`.

    Raises StepRefused where there are none, where they do not lie together, or where no such edge is next to them.
    """
    edges = piece.edges
    sewn = [k for k, edge in enumerate(edges) if edge.role is not Role.DART_LEG]
    own = [edges[k].place is place for k in sewn]
    firsts = [i for i, mine in enumerate(own) if mine and not own[i - 1]]
    if len(firsts) != 1:
        have = f"has its {place} in {len(firsts)} places" if any(own) else f"has no {place}"
        raise refused_after(step, in_the_way(piece, place), f'"{piece.name}" {have}')
    ring = (*sewn[firsts[0] :], *sewn[: firsts[0]])
    order = tuple(takewhile(lambda k: edges[k].place is place, ring))
    parts = tuple(edges[k] for k in order)
    darts = tuple(_dart_between(piece, one, other) for one, other in pairwise(order))
    before, after = piece.beside(parts[0].name, last=parts[-1].name)
    first, last_edge = (before, after) if start else (after, before)
    if first.place in (start or end):
        return Stretch(piece, parts, darts, backward=False)
    if last_edge.place in (start or end):
        return Stretch(piece, parts[::-1], darts[::-1], backward=True)
    apart = f'on "{piece.name}" the {place} does not lie next to the {" or the ".join(start or end)}'
    raise refused_after(step, in_the_way(piece), apart)


def folds(stretch: Stretch, *, angles: Sequence[float] | None = None) -> tuple[Move, ...]:
    """For each part the move that folds every dart before it, closing each by its own angle or by the one given."""
    moves = [STAY]
    for dart, angle in zip(stretch.darts, angles or stretch.angles, strict=True):
        moves.append(moves[-1] if dart is None else turn(dart.apex, -angle).then(moves[-1]))
    return tuple(moves)


def unfolds(
    stretch: Stretch, *, angles: Sequence[float] | None = None, apexes: Sequence[Point | None] | None = None
) -> tuple[Move, ...]:
    """For each part the move that opens every dart before it, by other angles or about other points where given."""
    moves = [STAY]
    for apex, angle in zip(apexes or _apexes(stretch), angles or stretch.angles, strict=True):
        moves.append(moves[-1] if apex is None else moves[-1].then(turn(apex, angle)))
    return tuple(moves)


def unfolded(
    stretch: Stretch,
    parts: Sequence[Sequence[Curve]],
    *,
    angles: Sequence[float] | None = None,
    apexes: Sequence[Point | None] | None = None,
) -> Redrawn:
    """The stretch as it lies open when its parts are redrawn on the folded stretch, with the legs of its darts."""
    points = apexes or _apexes(stretch)
    moves = unfolds(stretch, angles=angles, apexes=points)
    return laid_open(stretch, [moved_all(run, move) for run, move in zip(parts, moves, strict=True)], points)


def laid_open(stretch: Stretch, parts: Sequence[Sequence[Curve]], apexes: Sequence[Point | None]) -> Redrawn:
    """The stretch with its parts redrawn as they lie open, and the legs of its darts in their shape.

    A leg is bent where the folded line has a corner that it makes good; where that corner has become another, or gone,
    the legs are bent by as much more or less.
    """
    edges = [stretch.drawn(edge, run) for edge, run in zip(stretch.parts, parts, strict=True)]
    legs: list[Edge] = []
    darts: list[Dart] = []
    for dart, apex, was, now in zip(stretch.darts, apexes, pairwise(stretch.parts), pairwise(edges), strict=True):
        if dart is not None and apex is not None:
            (old_before, old_after), (before, after) = (was[::-1], now[::-1]) if stretch.backward else (was, now)
            first, second = (stretch.piece.edge(leg) for leg in dart.legs)
            more = _corner(before, after, apex) - _corner(old_before, old_after, dart.apex)
            into = bent_at_start(fitted_between(first.curves, before.end, apex), -0.5 * more)
            out = run_reversed(
                bent_at_start(run_reversed(fitted_between(second.curves, apex, after.start)), 0.5 * more)
            )
            legs += [replace(first, curves=into), replace(second, curves=out)]
            darts.append(replace(dart, apex=apex))
    return Redrawn((*edges, *legs), tuple(darts))


def _corner(before: Edge, after: Edge, apex: Point) -> float:
    """How far the line turns where two edges meet when the dart between them is folded, radians anticlockwise."""
    arriving, leaving = end_tangents(before.curves[-1])[1], end_tangents(after.curves[0])[0]
    return arriving.angle_to(leaving.turned(-angle_about(before.end, after.start, apex)))


def drawn_between(stretch: Stretch, start: Point, end: Point, *, darts: Move = STAY, held: End = "start") -> Redrawn:
    """The stretch between two other places on the folded stretch, in its shape: straight where it was straight.

    Its darts keep angle and direction. Where two parts meet without a dart, they meet as far from the end that is held
    as they did; where that would leave too little, each is shorter by its share.

    darts: a rigid move of the darts themselves
    Raises NotAPattern where a dart would not open into the line.
    """
    run = fitted_between([curve for part in stretch.folded for curve in part], start, end)
    along = (end - start).unit()
    if all(abs((place - start).cross(along)) <= SAME_PLACE for curve in run for place in drawn_by(curve)):
        run = (Line(start, end),)
    whole = exact_length(run)
    joints = [0.0, *_joints(stretch, run, darts, held), whole]
    for (one, other), edge in zip(pairwise(joints), stretch.parts, strict=True):
        if other <= one:
            raise NotAPattern(stretch.piece.name, reason=f"its {edge.name} would be cut away up to the dart in it")
    parts = []
    for one, other in pairwise(joints[:-1]):
        part, run = cut_near_joint(run, other - one)
        parts.append(part)
    apexes = [None if apex is None else darts.point(apex) for apex in _apexes(stretch)]
    return unfolded(stretch, [*parts, run], apexes=apexes)


def _joints(stretch: Stretch, run: Sequence[Curve], darts: Move, held: End) -> list[float]:
    """How far along a run, redrawn on the folded stretch, each two of its parts meet, mm."""
    moves, old, whole = folds(stretch), stretch.folded, exact_length(run)
    lengths = [exact_length(part) for part in old]
    grown = whole / sum(lengths)
    found: list[float] = []
    for i, dart in enumerate(stretch.darts):
        if dart is None:
            before, after = sum(lengths[: i + 1]), sum(lengths[i + 1 :])
            kept, left = (before, whole - before) if held == "start" else (whole - after, whole - after)
            found.append(kept if left >= _LEAST_PART else before * grown)
            continue
        apex, mouth = moves[i].point(dart.apex), old[i][-1].end
        hits = run_hits(run, darts.point(apex), darts.vec(mouth - apex))
        ahead = [(k, hit) for k, hit in hits if hit.along > 0.0]
        if not ahead:
            raise NotAPattern(
                stretch.piece.name, reason=f"its {stretch.names[i]} would be cut away up to the dart in it"
            )
        k, hit = min(ahead, key=lambda each: each[1].along)
        found.append(exact_length((*run[:k], split(run[k], hit.t)[0])))
    return found


def regrouped(stretch: Stretch, run: Sequence[Curve]) -> tuple[tuple[Curve, ...], ...]:
    """A run that has as many curves as the stretch, shared out to its parts again."""
    parts, gone = [], 0
    for edge in stretch.parts:
        parts.append(tuple(run[gone : gone + len(edge.curves)]))
        gone += len(edge.curves)
    return tuple(parts)


def apex_for(one: Point, other: Point, angle: float) -> Point:
    """The point about which a turn by `angle` radians (not zero) takes one place to another: a dart of equal legs."""
    return lerp(one, other, 0.5) + (other - one).left() * (0.5 / math.tan(0.5 * angle))


def rebuilt(piece: Piece, redrawn: Redrawn) -> Piece:
    """The piece with edges and darts of the same names replaced, the gaps of rounding closed. Raises NotAPattern."""
    edges = {edge.name: edge for edge in redrawn.edges}
    darts = {dart.name: dart for dart in redrawn.darts}
    return replace(
        piece,
        edges=closed(piece.name, tuple(edges.get(edge.name, edge) for edge in piece.edges)),
        darts=tuple(darts.get(dart.name, dart) for dart in piece.darts),
    )


def _apexes(stretch: Stretch) -> tuple[Point | None, ...]:
    return tuple(None if dart is None else dart.apex for dart in stretch.darts)


def _dart_between(piece: Piece, one: int, other: int) -> Dart | None:
    n = len(piece.edges)
    legs = tuple(piece.edges[k % n].name for k in range(one + 1, one + 1 + (other - one - 1) % n))
    return next((dart for dart in piece.darts if dart.legs == legs), None)
