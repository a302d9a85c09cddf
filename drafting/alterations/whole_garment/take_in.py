"""Take a garment in or let it out, at the waist, the hip, the bust.

How much on each seam: d round the body is d/4 on each of the four edges at the two side seams, d/2 on each edge of a
centre back seam; what a dart takes, the seams need not: dart and side together make up the difference (plane geometry).

The trade's way (common practice, no source): the seam is redrawn from the level that is kept to the one that is
altered, in one curve without a corner, front and back alike; the line that ends there is redrawn square to it. A dart
is made wider or narrower about its point, both legs alike, and the seam line redrawn into its mouth. Where the bust
is altered the armhole grows or shrinks at the underarm, and the sleeve at its underarm seam by as much, running out to
nothing at the elbow, or at the hem of a sleeve that ends above it.

A seam that leans more is longer. So that every seam keeps its length exactly, its corner is moved along it too, by
about half the square of the lean; the seams then still end level with their partners.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.darts.side_darts import side_parts, sides_closed, with_sides_closed
from drafting.alterations.earlier_steps import top_cut_off
from drafting.alterations.one_piece import ONLY, held_to_piece
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import (
    crosses_leg,
    edge_length,
    finished_changes,
    lengths_kept,
    seams_kept,
    total_changes,
)
from drafting.alterations.techniques.cutting.seam_for_fold import seamed_behind
from drafting.alterations.techniques.sides.move_sides import moved_sides, side_moved_out
from drafting.alterations.techniques.sides.side_view import Side, accept_plain_waists, far_edge, side_of, sides_at
from drafting.alterations.techniques.sides.widen_darts import accept_darts_short_of, waist_taken_in
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import Point
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    Edge,
    EdgeRef,
    Level,
    MarkLine,
    Pattern,
    Piece,
    Place,
    Role,
    edges_at,
    line_at,
    lines_at,
    sewn_runs,
    with_pieces,
)

__all__ = ["TakeIn"]

_MOST = 400.0
_PARTS_OF_GIRTH = 4.0


@alteration_class
class TakeIn(Alteration):
    """Take in (above zero) or let out (below zero) by so many mm round the body.

    What darts and centre back do not take at the waist the side seams take, and all of it at the hip and at the bust.
    What lies below the hip line goes with the hip; the armhole and the sleeve go with the bust.
    """

    name = "take in"
    layer = Layer.LENGTHS
    about = (
        "Take in or let out at the waist, the hip or the bust, at the side seams, the waist darts and the centre back."
    )
    leaves = "the girths not named; the lengths of all seams front and back; how well every seam meets"
    carries = "bodice and skirt, front and back alike; at the bust the armhole, the sleeve and its upper arm"

    waist: float = option(
        "length", "how much smaller round the waist; below zero to let out", -_MOST, _MOST, default=0.0, or_less=True
    )
    hip: float = option(
        "length", "how much smaller round the hip and below it", -_MOST, _MOST, default=0.0, or_less=True
    )
    bust: float = option("length", "how much smaller round the bust", -_MOST, _MOST, default=0.0, or_less=True)
    darts: float = option("percent", "which part of it the waist darts take", 0.0, 1.0, default=0.0)
    centre_back: float = option(
        "percent", "which part the centre back takes; a fold there becomes a seam", 0.0, 1.0, default=0.0
    )
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        taken_in = with_sides_closed(self.name, _held_to_its_piece(self, pattern), self._on_all_pieces)
        return held_to_piece(self.name, pattern, taken_in, self.only)

    def _on_all_pieces(self, pattern: Pattern) -> Pattern:
        """The pattern taken in on every piece: at the side seams, then in the darts, then at the centre back."""
        taking = _taking_part(self, pattern)
        before = pattern
        at_sides = self.waist * (1.0 - self.darts - self.centre_back)
        pattern = moved_sides(
            self.name,
            pattern,
            waist=-at_sides / _PARTS_OF_GIRTH,
            hip=-self.hip / _PARTS_OF_GIRTH,
            bust=-self.bust / _PARTS_OF_GIRTH,
            keep_lengths=True,
        )
        if self.bust:
            pattern = _with_sleeve(self, taking.upper, before, pattern)
        if self.waist * self.darts:
            each = self.waist * self.darts / _PARTS_OF_GIRTH
            for side in taking.all:
                accept_darts_short_of(self.name, side.piece, side.mark)
            pieces = [pattern.piece(side.piece.name) for side in taking.all]
            pattern = with_pieces(pattern, *(waist_taken_in(self.name, piece, each) for piece in pieces))
        if self.waist * self.centre_back:
            pattern = seamed_behind(pattern, [side.piece.name for side in taking.backs])  # a fold cannot be shaped
            each = 0.5 * self.waist * self.centre_back
            backs = [side_moved_out(self.name, side, -each) for side in _taking_part(self, pattern).backs]
            pattern = with_pieces(pattern, *backs)
        return pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        taking = _taking_part(self, sides_closed(_held_to_its_piece(self, pattern)))
        for side in taking.all:
            name = side.piece.name
            if self.only not in ("", name):
                continue
            piece = pattern.piece(name)
            parts = side_parts(piece)
            yield total_changes(f'the length of "{side.edge}" on {name}', piece, parts)
            run = tuple(edge.name for edge in _edges_inward(side)[:-1])
            taken = self.waist * (1.0 - self.centre_back) / _PARTS_OF_GIRTH
            if any(back.piece.name == name for back in taking.backs):
                taken += 0.5 * self.waist * self.centre_back
            yield total_changes(f"the waist of {name}", piece, run, -taken)
        for side in taking.backs:
            if self.only in ("", side.piece.name):
                yield from lengths_kept(side.piece, [side.edge])
        if self.only:
            return  # what is sewn to the piece no longer meets it, and round the body it is one piece of several
        yield from seams_kept(pattern)
        changes = {"bust_girth": -self.bust, "waist_girth": -self.waist, "hip_girth": -self.hip}
        for measure in pattern.measures:
            if measure.key == "upper_arm_girth" and self.bust:
                continue  # as much as the armhole makes it: the cap keeps its ease
            change = changes.get(measure.key, 0.0) if measure.round else 0.0
            if crosses_leg(pattern, measure):
                change = -0.5 * self.hip  # the outside leg goes with the hip down to the hem
                if not any(line_at(piece, Level.KNEE) for piece in pattern.pieces):
                    continue  # of shorts, whose hem lies about there: what it comes to follows from both
            yield finished_changes(measure, change)


@dataclass(frozen=True, slots=True)
class _TakingPart:
    """The pieces seen from their side seams, above and below the waist, and from the centre back that takes a part."""

    upper: tuple[Side, ...]
    lower: tuple[Side, ...]
    backs: tuple[Side, ...]

    @property
    def all(self) -> tuple[Side, ...]:
        return (*self.upper, *self.lower)


def _held_to_its_piece(step: TakeIn, pattern: Pattern) -> Pattern:
    """The whole pattern; where the step is held to a piece with a side seam, a pattern of that piece alone."""
    for piece in pattern.pieces:
        if piece.name == step.only and lines_at(piece, Level.BUST, Level.HIP):
            laid = ((each, tuple(part for part in each.tape if part.piece == piece.name)) for each in pattern.measures)
            measures = tuple(replace(each, tape=tape) for each, tape in laid if tape)
            return replace(pattern, pieces=(piece,), seams=(), measures=measures)
    return pattern


def _taking_part(step: TakeIn, pattern: Pattern) -> _TakingPart:
    """What takes part. Raises StepRefused where nothing is asked for, or what is asked for is not there."""
    for piece in pattern.pieces:
        if edges_at(piece, Place.INSEAM) and not edges_at(piece, Place.WAIST, Place.YOKE):
            raise StepRefused(
                step.name,
                reason=f'"{piece.name}" goes on over the waist to the leg in one piece: give its block another ease '
                'instead, ease = { waist = "4 cm", hip = "6 cm" }',
            )
    if max(abs(step.waist), abs(step.hip), abs(step.bust)) < SAME_PLACE:
        raise StepRefused(step.name, reason='nothing is to be taken in; say where and by how much: waist = "2 cm"')
    if step.darts + step.centre_back > 1.0 + SAME_PLACE:
        reason = f"the darts are to take {step.darts:.0%} of it and the centre back {step.centre_back:.0%}"
        raise StepRefused(step.name, reason=f"{reason}: that is more than all of it")
    if (step.darts or step.centre_back) and not step.waist:
        raise StepRefused(
            step.name, reason="darts and centre back take in the waist only; say by how much: waist = ..."
        )
    upper, lower = sides_at(step.name, pattern, Level.BUST), sides_at(step.name, pattern, Level.HIP)
    for amount, sides, line, where in ((step.hip, lower, Level.HIP, "hip"), (step.bust, upper, Level.BUST, "bust")):
        if amount and not sides and not step.only:
            raise StepRefused(step.name, reason=f'no piece has a "{line}"; leave the {where} out')
    if not upper and not lower:
        raise StepRefused(step.name, reason="no piece has a side seam that comes to a waist; leave the waist out")
    if step.waist:
        for side in lower:
            if cut := top_cut_off(pattern, side.piece):
                raise StepRefused(step.name, reason=f"{side.piece.name}: {cut.said}", remedies=cut.remedies)
        accept_plain_waists(step.name, pattern, (*upper, *lower))
    backs = _centre_backs(step, (*upper, *lower)) if step.centre_back else ()
    if step.centre_back and not backs and not step.only:
        raise StepRefused(step.name, reason="no piece has a centre back that comes to a waist; leave centre_back out")
    return _TakingPart(upper, lower, backs)


def _centre_backs(step: TakeIn, sides: Sequence[Side]) -> tuple[Side, ...]:
    """The pieces with a centre back, seen from that."""
    found = []
    for side in sides:
        *_, last, at_centre = _edges_inward(side)
        if at_centre.place is not Place.CENTRE_BACK:
            continue
        mark = next(line for line in side.piece.lines if line.level is side.mark.level)
        found.append(
            side_of(step.name, side.piece, at_centre.name, mark, -side.out, corner_first=at_centre.start == last.end)
        )
    return tuple(found)


def _edges_inward(side: Side) -> tuple[Edge, ...]:
    """The edges of a piece from its waist at the side seam inwards, darts left out, and the edge beyond the waist."""
    edges, names = side.piece.edges, [edge.name for edge in side.piece.edges]
    at = names.index(side.waist_edge)
    onward = 1 if names[at - 1] == side.edge else -1
    run = [edges[at]]
    while edges[(at + onward) % len(edges)].role is Role.DART_LEG:
        at += 3 * onward
        run.append(edges[at % len(edges)])
    return (*run, edges[(at + onward) % len(edges)])


def _with_sleeve(step: TakeIn, upper: Sequence[Side], before: Pattern, pattern: Pattern) -> Pattern:
    """The sleeve led in or out at its underarm by as much as each armhole became shorter or longer there."""
    for side in upper:
        armhole = far_edge(side)
        now, was = (edge_length(each.piece(side.piece.name), armhole) for each in (pattern, before))
        for cap, corner_first in _caps(pattern, side, armhole):
            pattern = with_pieces(
                pattern, _sleeve_with_longer_cap(step, pattern.piece(cap.piece), cap.edge, corner_first, now - was)
            )
    return pattern


def _caps(pattern: Pattern, side: Side, armhole: str) -> Iterator[tuple[EdgeRef, bool]]:
    """The edges that are sewn to an armhole where it ends at the side seam, and whether each begins there."""
    ends_there = side.piece.edge(armhole).end == side.seam[0].start
    for _, run, other in sewn_runs(pattern, side.piece.name, [armhole]):
        for place, at_start in ((0, True), (-1, False)):
            ref = run[place]
            # walked, the run begins or ends at the underarm
            if (ref.piece, ref.edge) == (side.piece.name, armhole) and (ref.backward == ends_there) == at_start:
                met = other[place]
                yield met, met.backward != at_start


def _sleeve_with_longer_cap(step: TakeIn, sleeve: Piece, cap: str, cap_begins: bool, grown: float) -> Piece:
    """The sleeve with its cap longer by `grown` at the underarm, along the underarm seam down to the elbow."""
    edges = sleeve.edges
    at = next(k for k, edge in enumerate(edges) if edge.name == cap)
    seam = edges[at - 1] if cap_begins else edges[(at + 1) % len(edges)]
    mark = _runs_out_at(step, sleeve, seam.start if cap_begins else seam.end)
    along = (mark.end - mark.start).unit()
    cap_end = edges[at].start if cap_begins else edges[at].end
    middle = mark.start + (mark.end - mark.start) * 0.5
    out = along if (cap_end - middle).dot(along) > 0.0 else -along
    side = side_of(step.name, sleeve, seam.name, mark, out, corner_first=not cap_begins)
    return side_moved_out(step.name, side, grown)


def _runs_out_at(step: TakeIn, sleeve: Piece, hem: Point) -> MarkLine:
    """The line across the sleeve down to which its underarm seam is led; hem: where that seam ends."""
    if elbow := line_at(sleeve, Level.ELBOW):
        return elbow
    biceps = line_at(sleeve, Level.BICEPS)
    if biceps is None:
        raise StepRefused(step.name, reason=f'"{sleeve.name}" has no "{Level.ELBOW}" at which to run out')
    return biceps.between(hem, hem + (biceps.end - biceps.start))  # a sleeve above the elbow runs out at its hem
