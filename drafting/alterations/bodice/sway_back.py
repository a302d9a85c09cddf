"""A hollow back: a wedge taken out at the waist, deepest at the centre."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.bodice.upper_bodice import CENTRE, centre_edge, centre_lengthened
from drafting.alterations.bodice.upper_promises import others_kept, sewn_kept
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import length_changes
from drafting.alterations.refusing import instead, refusing
from drafting.alterations.techniques.marks.gather_marks import marks_met
from drafting.alterations.techniques.pivoting.fold_darts import (
    Redrawn,
    Stretch,
    folds,
    rebuilt,
    regrouped,
    stretch_of,
    unfolded,
    unfolds,
)
from drafting.alterations.techniques.redrawing.redraw_run import (
    cut_near_joint,
    ends_moved,
    exact_length,
    level_along,
    move_between,
    with_length_kept,
)
from drafting.alterations.techniques.sides.side_view import ON_SEAM
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import STAY, Curve, Move, distance, end_tangents, run_hits, turn
from drafting.geometry.solve import solve
from drafting.pattern import (
    BodyPart,
    Cut,
    Level,
    MarkLine,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    WalkedEdge,
    edges_at,
    pieces_of,
    seam_allowance,
    with_edges,
    with_pieces,
)

__all__ = ["SwayBack"]

_STRAIGHT, _SEAM = "straight", "seam"


@alteration_class
class SwayBack(Alteration):
    """Take a wedge out of the back: `depth` mm at the centre, tapering to zero at the side seam.

    Out of the bodice where there is one (its centre back is that much shorter), else out of the top of the skirt. The
    waist keeps its length and comes square to the centre line. Several fitting texts show the wedge, a quarter of an
    inch to an inch deep; that the side seam stays and the centre is straightened is the trade's rule (a fitting site's
    overview of the sway back, and an analysis of it in a sewing journal).

    centre_back: "straight": the centre line stays straight, and the waist darts give what that takes from the waist;
                 "seam": the wedge is left to turn the centre of the waist about the side seam, and the centre line
                 with it, which is hollowed from the bust line down (from the hip line up): a fold becomes a seam
                 (how far it turns is plane geometry; that a shaped centre back needs a seam is common practice)
    """

    name = "sway back"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Take a wedge out of the back at the waist, deepest at the centre: for a hollow back."
    leaves = "the side seam; the sewn length of the waist; everything above"
    carries = "nothing: the waist still meets the skirt"

    depth: float = option("length", "how much shorter the centre back becomes", 1.0, 30.0, or_less=True)
    centre_back: str = option("choice", "what becomes of its line", choices=(_STRAIGHT, _SEAM), default=_STRAIGHT)

    def apply(self, pattern: Pattern) -> Pattern:
        waist = _waist_of_back(self, pattern)
        draw = _with_waist_shaped if self.centre_back == _SEAM else _with_centre_shortened
        said = f"{self.depth:.0f} mm cannot be taken out of"
        with refusing(self.name, lambda error: f"{said} {error.where}: {error.reason}"):
            return marks_met(with_pieces(pattern, draw(self, waist)))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        waist = _waist_of_back(self, pattern)
        name = waist.piece.name
        centre = centre_edge(self.name, waist).name
        yield length_changes(waist.piece, centre, -self.depth)
        yield sewn_kept(f"the waist of {name} as it is sewn", waist)
        yield from others_kept(pattern, [name], waist, aside=[centre])


def _waist_of_back(step: SwayBack, pattern: Pattern) -> Stretch:
    """The waist of the bodice back, or of the skirt back where there is no bodice."""
    backs = [piece for piece in pieces_of(pattern, PieceKind.BACK) if edges_at(piece, Place.WAIST)]
    if not backs:
        raise StepRefused(step.name, reason="no back of this garment has a waist line")
    back = next((piece for piece in backs if edges_at(piece, Place.NECK)), backs[0])
    return stretch_of(step.name, back, Place.WAIST, start=CENTRE)


def _with_centre_shortened(step: SwayBack, waist: Stretch) -> Piece:
    """The piece with its centre line shorter, straight as far as it was, and its waist led square to it."""
    was = centre_edge(step.name, waist)
    centre, corner = centre_lengthened(waist.piece, was, -step.depth)
    # one that is shaped already comes to its new end in another direction
    arriving, now = (end_tangents(each.run[-1])[1] for each in (was, WalkedEdge(centre, was.backward)))
    turned = arriving.angle_to(now)
    try:
        redrawn = _waist_redrawn(waist, move_between(waist.start, corner, turned))
    except NotAPattern as error:
        if any(waist.darts):
            raise
        said = "a waist without darts has nothing to give what a straight centre takes: give it a seam there"
        raise NotAPattern(
            f'"{waist.piece.name}"', reason=said, remedies=instead("sway back", "centre_back", "seam")
        ) from error
    return rebuilt(waist.piece, redrawn + Redrawn((centre,)))


def _waist_redrawn(waist: Stretch, at_centre: Move) -> Redrawn:
    """The waist with its end at the centre moved and the other kept; its darts are opened so that it stays as long."""
    run = [curve for part in waist.folded for curve in part]
    wanted = waist.sewn_length
    if not any(waist.darts):
        return unfolded(waist, regrouped(waist, with_length_kept(ends_moved(run, at_centre, STAY), wanted)))
    last = unfolds(waist)[-1]

    def angles_at(factor: float) -> tuple[float, ...]:
        return tuple(angle * factor for angle in waist.angles)

    def waist_at(factor: float) -> tuple[Curve, ...]:
        return ends_moved(run, at_centre, last.then(folds(waist, angles=angles_at(factor))[-1]))

    factor = solve(lambda factor: exact_length(waist_at(factor)) - wanted, 1.0, -0.05)
    if not 0.2 <= factor <= 3.0:
        raise NotAPattern(waist.piece.name, reason="no dart at its waist could make good for it")
    return unfolded(waist, regrouped(waist, waist_at(factor)), angles=angles_at(factor))


def _with_waist_shaped(step: SwayBack, waist: Stretch) -> Piece:
    """The piece with its waist led to a turn about the side seam, and a seam at the centre back that turns with it."""
    centre = centre_edge(step.name, waist)
    run = centre.run
    wanted = exact_length(run) - step.depth
    # from the bust line or the hip line down, where the garment is measured; from half way where neither comes to it
    levels = (level_along(run, waist.piece, level) for level in (Level.BUST, Level.HIP))
    hollowed_from = next((at for at in levels if at is not None), 0.5 * exact_length(run))
    kept, hollowed = cut_near_joint(run, hollowed_from)
    side, corner = waist.folded[-1][-1].end, waist.start
    inward = -end_tangents(run[-1])[1]
    sign = math.copysign(1.0, (corner - side).left().dot(inward))

    def centre_at(angle: float) -> tuple[Curve, ...]:
        return (*kept, *ends_moved(hollowed, STAY, turn(side, sign * angle)))

    guess = step.depth / distance(corner, side)
    angle = solve(lambda angle: exact_length(centre_at(angle)) - wanted, guess, 0.02 * guess)
    new = centre_at(angle)
    redrawn = _waist_redrawn(waist, turn(side, sign * angle)) + Redrawn((centre.redrawn(new),))
    piece = rebuilt(waist.piece, redrawn)
    return _cut_twice(replace(piece, lines=tuple(_line_to_centre(mark, hollowed, new) for mark in piece.lines)))


def _line_to_centre(mark: MarkLine, was: Sequence[Curve], now: Sequence[Curve]) -> MarkLine:
    """A marked line that comes to the part of the centre line that is hollowed, drawn to where that lies now."""
    along = mark.end - mark.start
    for _, hit in run_hits(was, mark.start, along):
        for end in (mark.start, mark.end):
            if hit.point.near(end, ON_SEAM):
                places = [found.point for _, found in run_hits(now, mark.start, along)]
                place = min(places, key=partial(distance, end), default=end)
                ends = (place, mark.end) if end is mark.start else (mark.start, place)
                return mark.between(*ends)
    return mark


def _cut_twice(piece: Piece) -> Piece:
    """The piece with a seam where it was cut on the fold at its centre back."""
    folded = [edge for edge in piece.edges if edge.role is Role.FOLD]
    seams = (replace(edge, role=Role.SEAM, allowance=seam_allowance(piece)) for edge in folded)
    return replace(with_edges(piece, *seams), cut=Cut(2, mirror=True)) if folded else piece
