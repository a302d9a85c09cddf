"""A dart drawn on into a seam: the piece is cut in two along the dart and a line from its point.

The trade's way (common practice): a style line is drawn from the point of the dart to an edge, or to the point of
another dart of the same bust (shoulder and waist dart together make the seam over the bust), and the legs are drawn
smoothly into it, so that neither piece has a corner where the dart ended. What the darts took up is cut away in the
seam. The line is the same on both pieces and the legs of a dart mirror each other, so the two sides are equal; a notch
on both marks where the dart ended.

Over the bust the two darts seldom lie in one line. There the seam runs straight on from point to point, and the legs
are rounded into that: drawn along one dart and then the other, the piece at the centre would have a wave. The piece at
the side has the rounder edge and is longer by a millimetre or two, which is eased in over the bust (common practice).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import ClassVar, Final

from drafting.alterations.base import Alteration, Promise
from drafting.alterations.kept import edge_length, finer_length
from drafting.alterations.redrawing.clipped import clipped, holds
from drafting.alterations.redrawing.dart_plan import PLACE_OPTIONS, DartPlan, planned
from drafting.alterations.redrawing.grain_line import grain_in_middle
from drafting.alterations.redrawing.parted import Part, free_name, made_of, notches_on
from drafting.alterations.redrawing.pivot import is_centre
from drafting.alterations.table import Entry
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    Cubic,
    Curve,
    Point,
    Vec,
    bend,
    blend,
    corner_turn,
    distance,
    length,
    polyline,
    reverse,
    run_reversed,
    tangent,
)
from drafting.geometry.meet import outline_crossings
from drafting.pattern import (
    PLAIN,
    Across,
    Along,
    Between,
    Curved,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Measure,
    Notch,
    NotchRef,
    Pattern,
    Piece,
    Role,
    Seam,
    SeamEase,
    Station,
    Tape,
    closed,
)
from drafting.reading.options import Option

__all__ = ["DART_INTO_SEAM", "DartIntoSeam"]

_ROUNDED: Final = 30.0
"""mm: how far from the point of the dart a leg begins to be rounded into the seam; further up it takes up what it did
(our figure)."""


_STRAIGHTENED: Final = math.radians(20.0)
"""How far the seam may leave the line of a dart at its point to run on to the other dart (our figure)."""

_TURNED_BY: Final = 0.25
"""The share of its way down to a hem by which a seam has turned towards its place there (our figure)."""

_EASED: Final = 6.0
"""mm that can be eased in over the bust (common practice: a quarter of an inch)."""


@dataclass(frozen=True, slots=True)
class DartIntoSeam(Alteration):
    """Cut a piece in two along a dart and a line from its point to an edge, or to another dart.

    to:            an edge, or another dart that is drawn towards the same point
    at, share:     where on the edge: `at` mm, or that share of its length, from the end beside the edge `measured_from`
    """

    name: ClassVar[str] = "dart into seam"
    part: ClassVar[float] = 1.0  # the plan is that of moving the dart, all of it and about its point
    beyond: ClassVar[float] = 0.0

    piece: str
    dart: str
    to: str
    at: float | None = None
    share: float = 0.5
    measured_from: str = ""

    def apply(self, pattern: Pattern) -> Pattern:
        plan = planned(self, pattern)
        return _with_halves(pattern, plan, _halves(self.name, pattern, plan))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for seam in pattern.seams:
            for side, run in (("first", seam.a), ("second", seam.b)):
                if any(ref.piece == self.piece for ref in run):
                    yield Promise(f"the {side} side of the {seam.name}", partial(_sewn, seam.name, side))


DART_INTO_SEAM: Final = Entry(
    DartIntoSeam,
    "Cut a piece in two along a dart and a line from its point, so that a seam takes the place of the dart.",
    "the sewn length of every seam there was",
    "every seam of the piece is told of the two pieces; a new seam joins them",
    (
        Option("piece", "text", "the piece the dart is on"),
        Option("dart", "text", "the dart that becomes a seam"),
        Option("to", "text", "the edge the seam runs to, or the dart it runs into"),
        *PLACE_OPTIONS,
    ),
    also=("princess seam", "panel seam", "style line"),
)


@dataclass(frozen=True, slots=True)
class _Half:
    """One of the two pieces: what of the old outline it has, and its side of the new seam."""

    piece: Piece
    parts: tuple[Part, ...]


def _halves(step: str, pattern: Pattern, plan: DartPlan) -> tuple[_Half, _Half]:
    """The piece from the dart to the target, and the one from the target back to the dart."""
    edges = [part.edge for part in (*plan.first, *plan.second)]
    seam = free_name(f"{plan.dart.name} seam", {edge.name for edge in edges})
    down, up = _style_lines(plan)
    allowance = plan.second[-1].edge.allowance
    names = _names(pattern, plan)
    sides = (
        (plan.first, Edge(seam, run_reversed(up), Role.SEAM, allowance)),
        (plan.second, Edge(seam, down, Role.SEAM, allowance)),
    )
    one, other = (
        _Half(_half(step, plan, name, parts, edge), parts) for name, (parts, edge) in zip(names, sides, strict=True)
    )
    return one, other


def _style_lines(plan: DartPlan) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
    """The new seam from the mouth of the dart to its end, as the second piece has it and as the first has it."""
    last, head = plan.second[-1].edge, plan.first[0].edge
    point, inward = plan.dart.apex, _axis(last.end, head.start)
    end, beyond = plan.first[-1].edge, plan.second[0].edge
    if plan.into is None:
        middle = _falling(point, inward, end.end) if end.role is Role.HEM else _square(point, inward, end)
        legs = _smooth_legs(last, head, point, inward, inward)
        return (legs[0], middle), (legs[1], middle)
    other = _axis(end.end, beyond.start)
    on = (plan.into.apex - point).unit()
    through, back = _turned_towards(inward, on), _turned_towards(other, -on)
    middle = blend(point, through, plan.into.apex, -back)
    legs = _smooth_legs(last, head, point, inward, through)
    ends = _smooth_legs(end, beyond, plan.into.apex, other, back)
    return (legs[0], middle, reverse(ends[1])), (legs[1], middle, reverse(ends[0]))


def _square(point: Point, inward: Vec, edge: Edge) -> Cubic:
    """From the point of a dart in one sweep to the end of an edge, square to that."""
    return blend(point, inward, edge.end, tangent(edge.curves[-1], 1.0).right())


def _falling(point: Point, inward: Vec, end: Point) -> Cubic:
    """From the point of a dart to a place on a hem, turned towards it above and straight on down: without a wave."""
    turns_at = point + inward * (_TURNED_BY * distance(point, end))
    return bend(point, inward, end, end - turns_at)


def _turned_towards(axis: Vec, on: Vec) -> Vec:
    """The direction in which a seam leaves the point of a dart to run on to another: towards it, within bounds."""
    off = axis.angle_to(on)
    return axis.turned(max(-_STRAIGHTENED, min(_STRAIGHTENED, off)))


def _axis(one: Point, other: Point) -> Vec:
    """The direction of a dart from its mouth to its point; the outline runs anticlockwise."""
    return (other - one).unit().left()


def _smooth_legs(before: Edge, after: Edge, point: Point, inward: Vec, through: Vec) -> tuple[Cubic, Cubic]:
    """The legs from the mouth to the point, the one beside `before` first.

    They leave as the folded seam asks, and are rounded near the point into the line that goes through it.
    """
    folds = corner_turn(before.curves, after.curves)
    third = distance(before.end, point) / 3.0
    rounded = through * min(_ROUNDED, third)
    one, other = (
        Cubic(place, place + inward.turned(turned) * third, point - rounded, point)
        for place, turned in ((before.end, -0.5 * folds), (after.start, 0.5 * folds))
    )
    return one, other


def _names(pattern: Pattern, plan: DartPlan) -> tuple[str, str]:
    """What the two pieces are called."""
    first, second = (any(is_centre(part.edge) for part in parts) for parts in (plan.first, plan.second))
    words = ("one", "two") if first == second else ("centre", "side") if first else ("side", "centre")
    taken = {piece.name for piece in pattern.pieces if piece is not plan.piece}
    one, other = (free_name(f"{plan.piece.name}, {word}", taken) for word in words)
    return one, other


def _half(step: str, plan: DartPlan, name: str, parts: Sequence[Part], seam: Edge) -> Piece:
    """One of the two pieces, with what is marked on it."""
    old = plan.piece
    edges = closed(name, (*(part.edge for part in parts), seam))
    outline = [curve for edge in edges for curve in edge.curves]
    if outline_crossings(outline):
        raise StepRefused(step, f'the new seam would cross the outline of "{name}"; choose another place')
    names = {edge.name for edge in edges}
    darts = tuple(dart for dart in old.darts if dart.legs[0] in names)
    centre = any(is_centre(edge) for edge in edges)
    grain = old.grain if centre and old.grain else _grain(step, name, outline, old.grain)
    met = Notch(f"{seam.name} notch", Station(seam.name, _leg_length(plan), "start" if parts is plan.second else "end"))
    border = polyline(outline, 0.1)
    return Piece(
        name,
        edges,
        old.cut if centre else Cut(2, mirror=True),
        grain,
        darts,
        (*notches_on(old, made_of(parts)), met),
        tuple(line for line in (clipped(line, outline) for line in old.lines) if line is not None),
        tuple(mark for mark in old.points if mark.name == plan.dart.aims_at or holds(border, mark.at)),
        tuple(pair for pair in old.points_meant if set(pair) <= names),
    )


def _leg_length(plan: DartPlan) -> float:
    """How far along the new seam the dart ended, mm: on both pieces alike, so that they meet there."""
    return min(length(line[0]) for line in _style_lines(plan))


def _grain(step: str, name: str, outline: Sequence[Curve], old: Grain | None) -> Grain:
    """A grain line as the old one lay, in the middle of a piece."""
    grain = grain_in_middle(outline, (old.end - old.start).unit() if old else Vec(0.0, 1.0))
    if grain is None:
        raise StepRefused(step, f'"{name}" would be too narrow for a grain line; choose another place')
    return grain


def _with_halves(pattern: Pattern, plan: DartPlan, halves: tuple[_Half, _Half]) -> Pattern:
    """The pattern with the two pieces in the place of the one, their seam sewn before any other."""
    old = plan.piece.name
    where: dict[str, list[str]] = {}
    for half in halves:
        for part in half.parts:
            where.setdefault(part.edge.name, []).append(half.piece.name)
    by_notch = {notch.name: half.piece.name for half in halves for notch in half.piece.notches}
    first, second = (half.piece for half in halves)
    edge = first.edges[-1].name
    sides = [(EdgeRef(second.name, edge),), (EdgeRef(first.name, edge, backward=True),)]
    marks = [NotchRef(second.name, f"{edge} notch"), NotchRef(first.name, f"{edge} notch")]
    longer = edge_length(second, edge) - edge_length(first, edge)
    if longer < 0.0:  # the longer one comes first: it is eased in
        sides, marks = sides[::-1], marks[::-1]
    name = free_name(edge, {seam.name for seam in pattern.seams})
    new = Seam(name, sides[0], sides[1], _ease(abs(longer)), ((marks[0], marks[1]),))

    def run(refs: tuple[EdgeRef, ...]) -> tuple[EdgeRef, ...]:
        out: list[EdgeRef] = []
        for ref in refs:
            names = where[ref.edge] if ref.piece == old else [ref.piece]
            out += [EdgeRef(name, ref.edge, ref.backward) for name in (reversed(names) if ref.backward else names)]
        return tuple(out)

    def mark(ref: NotchRef) -> NotchRef:
        return NotchRef(by_notch[ref.notch], ref.notch) if ref.piece == old else ref

    seams = tuple(
        replace(seam, a=run(seam.a), b=run(seam.b), notches=tuple((mark(a), mark(b)) for a, b in seam.notches))
        for seam in pattern.seams
    )
    pieces: list[Piece] = []
    for piece in pattern.pieces:
        pieces += sorted((first, second), key=lambda half: half.name) if piece.name == old else [piece]
    measures = tuple(_measure(measure, old, (first, second), where) for measure in pattern.measures)
    return replace(pattern, pieces=tuple(pieces), seams=(new, *seams), measures=measures)


def _ease(longer: float) -> SeamEase:
    """What is eased in where the first side of the new seam is longer than the second by so much, mm."""
    wanted = round(longer, 4)
    return SeamEase(wanted, 0.0, max(_EASED, wanted)) if wanted else PLAIN


def _measure(measure: Measure, old: str, halves: tuple[Piece, Piece], where: dict[str, list[str]]) -> Measure:
    tape: list[Tape] = []
    for part in measure.tape:
        if part.piece != old:
            tape.append(part)
        elif isinstance(part, Along):
            tape += [replace(part, piece=name) for name in where[part.edge]]
        elif isinstance(part, Across):
            tape += [replace(part, piece=half.name) for half in halves if _has_line(half, part.line)]
        elif isinstance(part, Curved):
            tape.append(replace(part, piece=next(half.name for half in halves if _has_line(half, part.line))))
        elif isinstance(part, Between):
            names = {part.one, part.other}
            there = [half.name for half in halves if names <= {mark.name for mark in half.points}]
            if not there:
                raise NotAPattern(old, f'"{part.one}" and "{part.other}" would lie on two pieces')
            tape.append(replace(part, piece=there[0]))
        else:
            raise NotAPattern(
                old,
                f"the {measure.name} is measured over the line that a moved dart bends; put this step before "
                '"move a dart"',
            )
    return replace(measure, tape=tuple(tape))


def _has_line(piece: Piece, line: str) -> bool:
    return any(mark.name == line for mark in piece.lines)


def _sewn(seam: str, side: str, pattern: Pattern) -> float:
    found = pattern.seam(seam)
    return finer_length(pattern, found.a if side == "first" else found.b)
