"""A dart drawn on into a seam: the piece is cut in two along the dart and a line from its point.

The trade's way (common practice): a style line is drawn from the point of the dart to an edge, or to the point of
another dart of the same bust (shoulder and waist dart together make the seam over the bust), and the legs are drawn
smoothly into it, so that neither piece has a corner where the dart ended. The cloth of the darts is cut away in the
seam. The line is the same on both pieces and the legs of a dart mirror each other, so the two sides are nearly equal:
the side piece may be longer by a millimetre or two, which is eased in over the bust between two notches (common
practice). How the line is drawn: see `princess_seam.py`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from drafting.alterations.alteration import Layer, Promise
from drafting.alterations.darts.move_dart import MoveDart
from drafting.alterations.darts.princess_seam import style_lines, style_notches
from drafting.alterations.option_fields import alteration_class
from drafting.alterations.promises import edge_length, finer_length, lengths_kept
from drafting.alterations.techniques.cutting.clip_marks import clipped, holds
from drafting.alterations.techniques.cutting.cut_piece import CutOffPiece, free_seam_name, with_piece_cut
from drafting.alterations.techniques.cutting.split_edges import EdgePart, made_of, notches_on, short_name
from drafting.alterations.techniques.marks.grain_line import grain_in_middle, with_grain_inside
from drafting.alterations.techniques.pivoting.dart_target import DartPlan, DartTarget, planned
from drafting.alterations.techniques.pivoting.pivot import is_centre
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Curve, Vec, polyline, run_reversed
from drafting.geometry.bending import tightest_radius
from drafting.geometry.meet import outline_crossings
from drafting.pattern import (
    PLAIN,
    Between,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    NotchRef,
    Pattern,
    Piece,
    Place,
    Role,
    Seam,
    SeamEase,
    closed,
    free_name,
    part_name,
)

__all__ = ["DartIntoSeam"]

_EASED: Final = 6.0
"""mm that can be eased in over the bust (common practice: a quarter of an inch)."""


_MORE: Final = 5.0
"""mm by which a bend of the seam is less tight than its allowance, at the least (ours, as for an armhole)."""

_STEP: Final = 5
"""In per cent: the shares of an edge that are tried where a place cannot bear the seam."""


@alteration_class
class DartIntoSeam(DartTarget):
    """Cut a piece in two along a dart and a line from its point to an edge, or to another dart."""

    name = "dart into seam"
    layer = Layer.SEAMS
    about = "Cut a piece in two along a dart and a line from its point, so that a seam takes the place of the dart."
    leaves = "the sewn length of every seam there was; every other piece"
    carries = "every seam of the piece is told of the two pieces; a new seam joins them"

    @property
    def cuts_apart(self) -> str:
        return self.piece

    def apply(self, pattern: Pattern) -> Pattern:
        plan = planned(self, pattern)
        halves = _halves(self.name, pattern, plan)
        radius, least = _tightest(halves), halves[0].piece.edges[-1].allowance + _MORE
        if radius < least:
            reason = f"the new seam would bend as tightly as a circle of {radius:.1f} mm radius, and {least:.1f} mm is"
            raise StepRefused(self.name, reason=f"{reason} the least; {_elsewhere(self, pattern, plan)}")
        return _with_halves(pattern, plan, halves)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for seam in pattern.seams:
            for side, run in (("first", seam.a), ("second", seam.b)):
                if any(ref.piece == self.piece for ref in run):
                    yield Promise(f"the {side} side of the {seam.name}", partial(_sewn, seam.name, side))
        for piece in pattern.pieces:
            if piece.name != self.piece:
                yield from lengths_kept(piece, (edge.name for edge in piece.edges))


def _halves(step: str, pattern: Pattern, plan: DartPlan) -> tuple[CutOffPiece, CutOffPiece]:
    """The piece from the dart to the target, and the one from the target back to the dart."""
    edges = [part.edge for part in (*plan.first, *plan.second)]
    seam = free_name(f"{plan.dart.name} seam", {edge.name for edge in edges})
    down, up = (line.curves for line in style_lines(plan))
    allowance = plan.second[-1].edge.allowance
    names = _names(pattern, plan)
    sides = (
        (plan.first, Edge(seam, run_reversed(up), Role.SEAM, allowance, Place.PRINCESS)),
        (plan.second, Edge(seam, down, Role.SEAM, allowance, Place.PRINCESS)),
    )
    marked = _marked(pattern, plan, names)
    one, other = (
        CutOffPiece(_half(step, plan, name, parts, edge, name in marked), parts)
        for name, (parts, edge) in zip(names, sides, strict=True)
    )
    return one, other


def _marked(pattern: Pattern, plan: DartPlan, names: Sequence[str]) -> tuple[str, ...]:
    """Which of the two pieces bears the point the seam goes over: the centre; the other where it is needed there."""
    aim = plan.dart.aims_at
    pairs = [
        {tape.one, tape.other}
        for measure in pattern.measures
        for tape in measure.tape
        if isinstance(tape, Between) and tape.piece == plan.piece.name
    ]
    partners = {name for pair in pairs if aim in pair for name in pair - {aim}}
    found = []
    for name, parts in zip(names, (plan.first, plan.second), strict=True):
        within = {part.edge.name for part in parts}
        ends = [end for part in parts for end in (part.edge.start, part.edge.end)]
        measured = any(end.near(plan.piece.point(each)) for each in partners for end in ends)
        aimed = any(dart.aims_at == aim and dart.legs[0] in within for dart in plan.piece.darts)
        if measured or aimed or name == min(names):
            found.append(name)
    return tuple(found)


def _tightest(halves: Sequence[CutOffPiece]) -> float:
    """The radius of the tightest bend of the new seam on either piece, mm."""
    return min(tightest_radius(half.piece.edges[-1].curves) for half in halves)


def _elsewhere(step: DartIntoSeam, pattern: Pattern, plan: DartPlan) -> str:
    """In words: the nearest place on its own edge to which the dart can be moved and then bears the seam, as tried."""
    before, after = plan.second[-1].edge, plan.first[0].edge
    if before.place is None or after.place is not before.place or len(plan.second) < 2:
        return "choose another place"
    start, whole = short_name(plan.second[-2].edge), before.length + after.length
    tried = sorted(range(_STEP, 100, _STEP), key=lambda percent: abs(0.01 * percent * whole - before.length))
    for percent in tried:
        at = 0.01 * percent * whole
        if at < before.length:
            move = MoveDart(step.piece, step.dart, before.name, at=at, measured_from=start)
        else:
            move = MoveDart(step.piece, step.dart, after.name, at=at - before.length, measured_from=step.dart)
        try:
            moved = move.apply(pattern)
            other = planned(step, moved)
            halves = _halves(step.name, moved, other)
        except (StepRefused, NotAPattern):
            continue
        if _tightest(halves) >= halves[0].piece.edges[-1].allowance + _MORE:
            there = f'at {percent} % of the {before.place}, measured from "{start}"'
            return f'with "{step.dart}" {there}, it can be had'
    return "choose another place"


def _names(pattern: Pattern, plan: DartPlan) -> tuple[str, str]:
    """What the two pieces are called."""
    first, second = (any(_is_at_centre(part.edge) for part in parts) for parts in (plan.first, plan.second))
    words = ("one", "two") if first == second else ("centre", "side") if first else ("side", "centre")
    taken = {piece.name for piece in pattern.pieces if piece is not plan.piece}
    one, other = (part_name(plan.piece.name, word, taken) for word in words)
    return one, other


def _is_at_centre(edge: Edge) -> bool:
    """Whether an edge is the centre line, or what was added beyond it: a button stand, a wrap."""
    return is_centre(edge) or edge.place in (Place.STAND_EDGE, Place.WRAP_EDGE)


def _half(step: str, plan: DartPlan, name: str, parts: Sequence[EdgePart], seam: Edge, marked: bool) -> Piece:
    """One of the two pieces, with what is marked on it."""
    old = plan.piece
    edges = closed(name, (*(part.edge for part in parts), seam))
    outline = [curve for edge in edges for curve in edge.curves]
    if outline_crossings(outline):
        raise StepRefused(step, reason=f'the new seam would cross the outline of "{name}"; choose another place')
    names = {edge.name for edge in edges}
    darts = tuple(dart for dart in old.darts if dart.legs[0] in names)
    centre = any(is_centre(edge) for edge in edges)
    grain = old.grain if centre and old.grain else _grain(step, name, outline, old.grain)
    border = polyline(outline, 0.1)
    made = Piece(
        name,
        edges,
        old.cut if centre else Cut(2, mirror=True),
        grain,
        darts,
        (*notches_on(old, made_of(parts)), *style_notches(plan, seam.name, on_second=parts is plan.second)),
        tuple(line for line in (clipped(line, outline) for line in old.lines) if line is not None),
        tuple(mark for mark in old.points if (marked if mark.name == plan.dart.aims_at else holds(border, mark.at))),
        tuple(pair for pair in old.points_meant if set(pair) <= names),
        old.identity,
    )
    return with_grain_inside(made) if centre else made


def _grain(step: str, name: str, outline: Sequence[Curve], old: Grain | None) -> Grain:
    """A grain line as the old one lay, in the middle of a piece."""
    grain = grain_in_middle(outline, old.direction if old else Vec(0.0, 1.0))
    if grain is None:
        raise StepRefused(step, reason=f'"{name}" would be too narrow for a grain line; choose another place')
    return grain


def _with_halves(pattern: Pattern, plan: DartPlan, halves: tuple[CutOffPiece, CutOffPiece]) -> Pattern:
    """The pattern with the two pieces in the place of the one, their seam sewn before any other."""
    first, second = (half.piece for half in halves)
    edge = first.edges[-1].name
    sides = [(EdgeRef(second.name, edge),), (EdgeRef(first.name, edge, backward=True),)]
    made = [notch.name for notch in first.notches if notch.station.edge == edge]
    marks = [(NotchRef(second.name, name), NotchRef(first.name, name)) for name in made]
    longer = edge_length(second, edge) - edge_length(first, edge)
    if longer < 0.0:  # the longer one comes first: it is eased in
        sides, marks = sides[::-1], [pair[::-1] for pair in marks]
    seam = Seam(free_seam_name(pattern, edge), sides[0], sides[1], _ease(abs(longer)), tuple(marks))
    return with_piece_cut(pattern, plan.piece.name, sorted(halves, key=lambda half: half.piece.name), seam)


def _ease(longer: float) -> SeamEase:
    """The ease of the new seam, whose first side is longer than its second by so many mm."""
    wanted = round(longer, 4)
    return SeamEase(wanted, 0.0, max(_EASED, wanted)) if wanted else PLAIN


def _sewn(seam: str, side: str, pattern: Pattern) -> float:
    found = pattern.seam(seam)
    return finer_length(pattern, found.a if side == "first" else found.b)
