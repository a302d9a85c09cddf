"""Lengthen or shorten a piece at a line, and the pieces that are sewn to it there.

A sleeve that is shortened may be cut off instead (`hem`), as a cutter makes a three-quarter or a short sleeve: it ends
as wide as it is there. For everything else the trade's way is (common practice): cut square to the grain, move the
lower part along the grain, keep the grain one straight line, redraw the side from seam end to seam end. The piece that
is sewn to it needs the same amount. Darts that cross the line take up as much as before. Notches below the line move,
those above do not. How the sides are redrawn: see `stretch.py`.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import partial
from types import MappingProxyType
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, find_piece
from drafting.alterations.one_piece import ONLY, taking_part
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import lengths_kept, seam_kept
from drafting.alterations.refusing import instead
from drafting.alterations.sleeve.cut_off_sleeve import sleeve_cut_off, sleeve_promises
from drafting.alterations.techniques.marks.true_corners import corners_lost
from drafting.alterations.techniques.spreading.level_cut import (
    CutLine,
    crossed,
    crosses,
    crossing_place,
    kept_lines,
    notch_moves,
    notch_place,
)
from drafting.alterations.techniques.spreading.meet_at_hem import followed_sides, sides_to_follow
from drafting.alterations.techniques.spreading.stretch import stretched
from drafting.errors import NotAPattern, StepRefused, UnknownName
from drafting.geometry import Point, Vec, distance, lerp, run_hits, run_place
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    EdgeRef,
    Level,
    MarkLine,
    Pattern,
    Piece,
    Role,
    dart_width,
    line_at,
    lines_at,
    ref_curves,
    run_total,
    sewn_runs,
    with_pieces,
)

__all__ = ["AS_TAPERED", "AS_WIDE", "LENGTHEN_LINE", "Lengthen", "cuts_of"]

LENGTHEN_LINE: Final = "lengthen or shorten line"
"""The words by which an option means the piece's own line for this, whatever it is called."""

AS_WIDE: Final = "as wide"
AS_TAPERED: Final = "as tapered"

_SHORTEST, _LONGEST = -600.0, 1200.0


@alteration_class
class Lengthen(Alteration):
    """Lengthen (`by` above zero) or shorten a piece, mm along the grain, at one of its marked lines.

    The partner pieces follow, so that their seams still meet: every piece sewn to an edge that the line crosses is cut
    at its own line of the same name, if that crosses the seam, else level with the place that is met there.
    """

    name = "lengthen"
    layer = Layer.LENGTHS
    about = "Lengthen or shorten a piece at a line, square to the grain."
    leaves = "widths at every other line; dart intakes; every edge the line does not cross; notches on their own part"
    carries = "every piece sewn to an edge that the line crosses"

    piece: str = option("text", "the piece to lengthen")
    by: float = option("length", "how much longer; below zero to shorten", _SHORTEST, _LONGEST, or_less=True)
    line: str = option("text", "the marked line at which it is cut", default=LENGTHEN_LINE)
    only: str = option("text", ONLY, default="", seldom=True)
    hem: str = option(
        "choice",
        "hem of a shortened sleeve: as before, or as its taper ends",
        choices=(AS_WIDE, AS_TAPERED),
        default=AS_WIDE,
    )

    def apply(self, pattern: Pattern) -> Pattern:
        if self.hem == AS_TAPERED:
            piece = self._sleeve(pattern)
            return sleeve_cut_off(self.name, pattern, piece, _down(piece), -self.by)
        cuts = cuts_of(self, pattern)
        altered = self._stretched(pattern, cuts, straight=True)
        # straight edges that were turned a little, and a little again, no longer meet in true corners
        if corners_lost(pattern, altered):
            altered = self._stretched(pattern, cuts, straight=False)
        return followed_sides(pattern, altered, cuts)

    def _sleeve(self, pattern: Pattern) -> Piece:
        return find_piece(self.name, pattern, self.piece)

    def _stretched(self, pattern: Pattern, cuts: Mapping[str, CutLine], *, straight: bool) -> Pattern:
        altered = []
        for name, cut in cuts.items():
            try:
                altered.append(stretched(pattern.piece(name), cut, self.by, straight=straight))
            except NotAPattern as error:
                held = () if name == self.piece else instead(self.name, "only", self.piece)
                raise StepRefused(
                    self.name, reason=_refusal(self, name, error), remedies=(*error.remedies, *held)
                ) from error
        return with_pieces(pattern, *altered)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        if self.hem == AS_TAPERED:
            piece = self._sleeve(pattern)
            yield from sleeve_promises(self.name, pattern, piece, _down(piece), -self.by)
            return
        cuts = cuts_of(self, pattern)
        sides = list(sides_to_follow(pattern, cuts))
        trued = {(end.piece, name) for _, *ends in sides for end in ends for name in (end.hem, end.edge)}
        for name, cut in cuts.items():
            yield from _promises(pattern.piece(name), cut, self.by, {edge for piece, edge in trued if piece == name})
        for seam, *_ in sides:
            yield seam_kept(seam)


def cuts_of(step: Lengthen, pattern: Pattern) -> Mapping[str, CutLine]:
    """Where each piece that takes part is cut: the same whatever the amount."""
    if abs(step.by) < SAME_PLACE:
        raise StepRefused(step.name, reason=f"{step.by:g} mm changes nothing; say by how much")
    kept = pattern.remembered(("cuts", step.piece, step.line, step.only), lambda: _found_cuts(step, pattern))
    return MappingProxyType(kept)  # what a pattern keeps is pickled with it, which a proxy cannot be


def _found_cuts(step: Lengthen, pattern: Pattern) -> dict[str, CutLine]:
    piece = find_piece(step.name, pattern, step.piece)
    if piece.grain is None:
        raise StepRefused(step.name, reason=f'"{piece.name}" has no grain line to be lengthened along')
    mark = _line_meant(step, piece)
    cuts = _with_partners(pattern, piece.name, CutLine(lerp(mark.start, mark.end, 0.5), _down(piece), mark))
    return {name: cuts[name] for name in taking_part(step.name, step.only, tuple(cuts))}


def _line_meant(step: Lengthen, piece: Piece) -> MarkLine:
    """The line of that name; else the one that is what the words say."""
    # shorts end above a knee, and a short sleeve above an elbow
    levels = (Level.LENGTHEN, Level.LENGTHEN_ABOVE_KNEE, Level.LENGTHEN_ABOVE_ELBOW)
    usual = levels if step.line == LENGTHEN_LINE else ()
    own = next((line for level in usual if (line := line_at(piece, level)) is not None), None)
    try:
        return own or piece.line(step.line)
    except UnknownName as error:
        known = next((mark for mark in piece.lines if mark.level == step.line), None)
        if known is None:
            raise StepRefused(step.name, reason=str(error)) from error
        return known


def _down(piece: Piece) -> Vec:
    """The unit direction of the grain towards the lower end of the piece as it is drawn."""
    if piece.grain is None:
        return Vec(0.0, -1.0)
    along = piece.grain.direction
    return along if along.y < 0.0 else -along


def _with_partners(pattern: Pattern, name: str, first: CutLine) -> dict[str, CutLine]:
    """The cut of the first piece and of every piece reached over a seam that a cut goes through."""
    cuts = {name: first}
    todo = deque([name])
    while todo:
        here = todo.popleft()
        gone_through = {edge.name for edge in crossed(pattern.piece(here), cuts[here])}
        for _, run, other in sewn_runs(pattern, here, gone_through):
            for ref in (each for each in run if each.piece == here and each.edge in gone_through):
                met = _partner_and_cut(pattern, run, other, ref, cuts[here])
                if met is not None and met[0] not in cuts:
                    cuts[met[0]] = met[1]
                    todo.append(met[0])
    return cuts


def _partner_and_cut(
    pattern: Pattern, run: Sequence[EdgeRef], other: Sequence[EdgeRef], ref: EdgeRef, cut: CutLine
) -> tuple[str, CutLine] | None:
    """The piece on the other side of a seam and its cut, where the cut of this side comes to the seam."""
    edge = pattern.piece(ref.piece).edge(ref.edge)
    along, downwards = crossing_place(edge, cut)
    along, downwards = (edge.length - along, not downwards) if ref.backward else (along, downwards)
    for before in run:
        if before is ref:
            break
        along += pattern.piece(before.piece).edge(before.edge).length
    # ease is spread along the seam, so the place is met at the same share of both runs
    along *= run_total(pattern, other) / run_total(pattern, run)
    for partner in other:
        piece = pattern.piece(partner.piece)
        whole = piece.edge(partner.edge).length
        if along <= whole or partner is other[-1]:
            curves = ref_curves(pattern.pieces, partner)
            down = _down(piece)
            meeting, onward = run_place(curves, along)
            if (onward.dot(down) > 0.0) != downwards:
                down = -down
            return piece.name, _partner_cut(piece, partner, meeting, down, cut.line)
        along -= whole
    return None


def _partner_cut(piece: Piece, partner: EdgeRef, meeting: Point, down: Vec, like: MarkLine | None) -> CutLine:
    """The cut at the partner's line of that kind, where it crosses the seam; else level with the meeting place."""
    mark = None if like is None else _line_like(piece, like, meeting, down)
    if mark is not None:
        own = CutLine(lerp(mark.start, mark.end, 0.5), down, mark)
        if crosses(piece.edge(partner.edge), own):
            return own
    return CutLine(meeting, down, mark)


def _line_like(piece: Piece, line: MarkLine, meeting: Point, down: Vec) -> MarkLine | None:
    """The line of a piece at the level of this line of another piece; of the same name where no level is known.

    Of several, such as those above the waist and below the hip, the one next to the place that is met on the seam.
    """
    if line.level is None:
        return next((mark for mark in piece.lines if mark.name == line.name), None)
    alike = [mark for mark in lines_at(piece, line.level) if mark.onward is line.onward]
    return min(alike, key=lambda mark: abs((lerp(mark.start, mark.end, 0.5) - meeting).dot(down)), default=None)


def _promises(piece: Piece, cut: CutLine, by: float, trued: Collection[str]) -> Iterator[Promise]:
    """What is left alone on a piece; trued: the hems whose ends follow the seams they come to, with these."""
    name = piece.name
    for dart in piece.darts:
        yield Promise(f'the intake of "{dart.name}" on {name}', partial(_intake, name, dart.name))
    for line in kept_lines(piece, cut):
        # where a hem comes to lie when it is let down, no cloth is
        if line.level is not Level.LET_DOWN and not math.isnan(_span(piece, line.name)):
            yield Promise(f"the width of {name} at the {line.name}", partial(_width, name, line.name))
    yield from lengths_kept(
        piece, (e.name for e in piece.edges if e.name not in trued and not crosses(e, cut) and cut.below(e.start))
    )
    for notch in piece.notches:
        on = piece.edge(notch.station.edge)
        if on.name in trued and on.role is Role.HEM:
            what = f'how far "{notch.name}" lies from the end of the {on.name} of {name}'
            yield Promise(what, partial(_distance_along, name, notch.name))
            continue
        at = notch_place(piece, notch.name)
        goal = at + cut.down * by if notch_moves(piece, notch, cut) else at
        what = f'how far "{notch.name}" on {name} lies from where it belongs'
        yield Promise(what, partial(_distance_from_goal, name, notch.name, goal), change=-distance(at, goal))


def _intake(piece: str, dart: str, pattern: Pattern) -> float:
    return dart_width(pattern.piece(piece), pattern.piece(piece).dart(dart))


def _distance_along(piece: str, notch: str, pattern: Pattern) -> float:
    """How far it lies from the end of its edge that it is measured from, mm."""
    return pattern.piece(piece).notch(notch).station.at


def _distance_from_goal(piece: str, notch: str, goal: Point, pattern: Pattern) -> float:
    return distance(notch_place(pattern.piece(piece), notch), goal)


def _width(piece: str, line: str, pattern: Pattern) -> float:
    return _span(pattern.piece(piece), line)


def _span(piece: Piece, line: str) -> float:
    """How wide a piece is along a line, from its outermost edges, mm; not a number where the line meets fewer than two.

    Darts are left out of account: one that is lengthened is narrower at a line across it.
    """
    return piece.remembered(("span", line), lambda: _spanned(piece, piece.line(line)))


def _spanned(piece: Piece, mark: MarkLine) -> float:
    across = (mark.end - mark.start).unit()
    places = []
    for edge in piece.edges:
        if edge.role is not Role.DART_LEG:
            places += [hit.along for _, hit in run_hits(edge.curves, mark.start, across)]
            # a corner on the line may come out as no hit at all
            if abs(across.cross(edge.start - mark.start)) <= SAME_PLACE:
                places.append(across.dot(edge.start - mark.start))
    return max(places) - min(places) if len(places) > 1 else math.nan


def _refusal(step: Lengthen, name: str, error: NotAPattern) -> str:
    if name == step.piece:
        return str(error)
    hold = "That piece can be left as it is"
    return f'it has to be carried to "{name}", which is sewn to it there, and {error}. {hold}'
