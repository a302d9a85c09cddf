"""Fitting the back: a rounded back, a broad or narrow one.

Each lets a wedge or a strip of cloth into the back, or folds one out. The seams round the back keep their length; what
is too long then goes into a dart or is eased in. Front, sleeve and skirt still meet the back, so they do not change.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.bodice.upper_bodice import (
    CENTRE,
    Hinge,
    Turned,
    UpperBodice,
    armhole_redrawn,
    centre_edge,
    centre_lengthened,
    hinge_of,
    neck_turned,
    upper_bodice_of,
    with_points_at,
    with_shoulder_ease,
)
from drafting.alterations.bodice.upper_promises import sewn_kept, top_kept
from drafting.alterations.earlier_steps import put_before
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import edge_length, length_changes
from drafting.alterations.refusing import instead, not_to_be_had
from drafting.alterations.techniques.marks.gather_marks import marks_met
from drafting.alterations.techniques.pivoting.fold_darts import (
    Redrawn,
    Stretch,
    apex_for,
    drawn_between,
    laid_open,
    rebuilt,
    stretch_of,
)
from drafting.alterations.techniques.redrawing.redraw_run import ends_moved, move_between
from drafting.alterations.techniques.sides.widen_darts import waist_taken_in
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import STAY, Move, Point, Vec, end_tangents, lerp, moved_all, shift, turn
from drafting.pattern import BodyPart, Half, Pattern, Piece, Place, with_pieces

__all__ = ["BackWidth", "RoundedBack"]

_INTO: Final = ("dart", "ease")
_TAKES_UP: Final = "what takes up the longer shoulder"
_ROUNDS: Final = 4  # neck and shoulder answer to each other by less than a twentieth: so often, and nothing is left
_LEAST_MOUTH: Final = 4.0  # mm of a dart: a narrower one is not worth sewing, and is eased in or left out (ours)
_BLADE: Final = (0.35, 0.65)  # shares of the way from armhole to centre: the blade lies between (common practice: half)
_MOST_LEAN: Final = math.radians(45.0)  # off square to the shoulder: more, and the dart points past the blade (ours)


@alteration_class
class RoundedBack(Alteration):
    """Let a wedge into the back at the shoulder blades: `amount` mm at the centre, zero at the armhole.

    The back is cut across from the centre to the armhole, where it hinges (its notch); the centre back gains length and
    stays straight on the grain; the neck keeps its shape, and what the wedge adds to the shoulder goes into the
    shoulder dart or is eased in. Below zero for a very erect back. From memory of the trade's practice, without a
    source; how much a wedge opens is plane geometry.

    For a dart that grows the back is cut from the shoulder to the blade as well: what lies between there and the centre
    is raised straight, and the wedge tapers from the blade to the armhole. So the dart goes on pointing at the blade;
    with the whole wedge from the centre it would lean towards the centre by forty degrees and more.
    """

    name = "rounded back"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Let a wedge into the back at the shoulder blades, hinged at the armhole: for a rounded back."
    leaves = "armhole, neck and side seam; the front; the sewn shoulder, unless it is eased"
    carries = "the shoulder dart, or the ease of the shoulder seam"

    amount: float = option(
        "length", "how much longer the centre back becomes; below zero for an erect back", -15.0, 30.0, or_less=True
    )
    into: str = option("choice", _TAKES_UP, choices=_INTO, default="dart")

    def apply(self, pattern: Pattern) -> Pattern:
        top = _back(self, pattern)
        centre = centre_edge(self.name, top.neck)
        up = end_tangents(centre.run[-1])[1]
        hinge = hinge_of(top)
        angle = _wedge(hinge.at - self._raised_to(top, hinge, up), up, self.amount)
        raised = shift(up * self.amount)

        def outer(slide: float) -> Move:
            swung = turn(hinge.at, angle)
            return swung.then(shift((swung.point(top.armhole.start) - hinge.at).unit() * slide))

        new_centre, nape = centre_lengthened(top.piece, centre, self.amount)
        redrawn = _spread(self, top, hinge, _Spread(raised, outer, STAY, angle))
        piece = rebuilt(top.piece, redrawn + Redrawn((new_centre,)))
        return _with_back_sewn(self, pattern, top, with_points_at(piece, [(top.neck.start, nape)]))

    def _raised_to(self, top: UpperBodice, hinge: Hinge, up: Vec) -> Point:
        """As far as where the back is raised straight: to the blade for a dart that grows, else only at the centre."""
        to_blade = self.amount > 0.0 and self.into == "dart" and any(top.shoulder.darts)
        return _blade(top, hinge, up) if to_blade else top.neck.start

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        top = _back(self, pattern)
        centre = centre_edge(self.name, top.neck).name
        yield length_changes(top.piece, centre, self.amount)
        yield from top_kept(pattern, top, shoulder=0.0 if self.into == "dart" else None, aside=[centre])


@alteration_class
class BackWidth(Alteration):
    """Make the back broader (narrower, below zero) by `amount` mm across the whole back.

    The half back is split parallel to the centre and spread by half of it, from the shoulder to the waist: so it is
    wider by the same at the back width line and at the bust. The armhole and the side seam move as they are; the waist
    darts take the strip in again, so that the waist keeps its length; the shoulder dart takes it, or it is eased in.
    From memory of the trade's practice, without a source.
    """

    name = "back width"
    layer = Layer.FIT
    needs = ((BodyPart.BODICE,),)
    about = "Make the back broader or narrower, from shoulder to waist."
    leaves = "armhole, neck, side seam and centre back; the sewn length of the waist; the front"
    carries = "the shoulder dart, or the ease of the shoulder seam; the waist dart"

    amount: float = option(
        "length", "how much broader across the whole back; below zero for narrower", -30.0, 40.0, or_less=True
    )
    into: str = option("choice", _TAKES_UP, choices=_INTO, default="dart")

    def apply(self, pattern: Pattern) -> Pattern:
        top = _back(self, pattern)
        waist = stretch_of(self.name, top.piece, Place.WAIST, start=CENTRE)
        up = end_tangents(centre_edge(self.name, top.neck).run[-1])[1]
        out = up.right() if up.right().dot(top.slope) > 0.0 else up.left()
        by = out * (0.5 * self.amount)

        def outer(slide: float) -> Move:
            return shift(by + end_tangents(top.armhole.open[0][0])[0] * slide)

        redrawn = _spread(self, top, hinge_of(top), _Spread(STAY, outer, shift(by), 0.0))
        piece = _with_back_widened(self, top, waist, redrawn, by)
        longer = sum(edge_length(piece, name) for name in waist.names) - waist.sewn_length
        return _with_back_sewn(self, pattern, top, waist_taken_in(self.name, piece, longer))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        top = _back(self, pattern)
        waist = stretch_of(self.name, top.piece, Place.WAIST, start=CENTRE)
        yield sewn_kept(f"the waist of {top.piece.name} as it is sewn", waist)
        yield from top_kept(pattern, top, waist, shoulder=0.0 if self.into == "dart" else None)


@dataclass(frozen=True, slots=True)
class _Spread:
    """How the two parts of a half back come apart.

    inner: the move of neck and centre; outer: of the shoulder end, by how far (mm) it slides along the armhole
    below: of the armhole from the hinge downward
    angle: how far the outer part turns against the inner one, radians
    """

    inner: Move
    outer: Callable[[float], Move]
    below: Move
    angle: float


def _back(step: RoundedBack | BackWidth, pattern: Pattern) -> UpperBodice:
    if abs(step.amount) < 0.1:
        raise StepRefused(step.name, reason=f"{step.amount:g} mm changes nothing; say by how much")
    return upper_bodice_of(step.name, pattern, Half.BACK)


def _with_back_sewn(step: RoundedBack | BackWidth, pattern: Pattern, top: UpperBodice, back: Piece) -> Pattern:
    """The pattern with the altered back, its longer shoulder eased in where no dart takes it up."""
    pattern = marks_met(with_pieces(pattern, back))
    return with_shoulder_ease(step.name, pattern, top) if step.into == "ease" else pattern


def _blade(top: UpperBodice, hinge: Hinge, up: Vec) -> Point:
    """Where the shoulder dart points to level with the hinge: on the shoulder blade, in the middle part of the back."""
    shoulder, from_centre = top.shoulder, hinge.at - top.neck.start
    across = from_centre - up * from_centre.dot(up)
    at, dart = next((k, dart) for k, dart in enumerate(shoulder.darts) if dart is not None)
    mouth = lerp(shoulder.open[at][-1].end, shoulder.open[at + 1][0].start, 0.5)
    axis = dart.apex - mouth
    drop = axis.dot(up)
    share = 0.5
    if abs(drop) > 0.0:
        level = mouth + axis * ((hinge.at - mouth).dot(up) / drop)
        share = (hinge.at - level).dot(across) / across.dot(across)
    return hinge.at - across * min(_BLADE[1], max(_BLADE[0], share))


def _wedge(across: Vec, up: Vec, amount: float) -> float:
    """The angle of a wedge that opens by `amount` mm at the end of `across`, radians anticlockwise (plane geometry)."""
    across = across - up * across.dot(up)
    return math.copysign(2.0 * math.asin(0.5 * abs(amount) / across.norm()), amount * up.cross(across))


def _spread(step: RoundedBack | BackWidth, top: UpperBodice, hinge: Hinge, spread: _Spread) -> Redrawn:
    """Neck, shoulder and armhole of a back that comes apart."""
    with not_to_be_had(step.name, step.amount):
        return _into_dart(step, top, hinge, spread) if step.into == "dart" else _into_ease(top, hinge, spread)


def _into_dart(step: RoundedBack | BackWidth, top: UpperBodice, hinge: Hinge, spread: _Spread) -> Redrawn:
    """The outer part moved as it is; the shoulder dart takes up the gap between it and the inner part.

    The dart opens by the angle between the parts, and its point lies where a turn by its angle takes one end of its
    mouth to the other: so its legs are equal and the folded shoulder is as straight as it was.
    """
    shoulder = top.shoulder
    at = next((k for k, dart in enumerate(shoulder.darts) if dart is not None), None)
    if at is None:
        reason = f'"{top.piece.name}" has no shoulder dart to take up the shoulder'
        raise StepRefused(step.name, reason=reason, remedies=instead(step.name, "into", "ease"))
    slide, armhole = armhole_redrawn(top, hinge, spread.outer, below=spread.below)
    outer = spread.outer(slide)
    moves = [spread.inner if k <= at else outer for k in range(len(shoulder.parts))]
    parts = [moved_all(run, move) for run, move in zip(shoulder.open, moves, strict=True)]
    one, other = parts[at][-1].end, parts[at + 1][0].start
    angle = shoulder.angles[at] + spread.angle
    _accept_dart(step, end_tangents(parts[at][-1])[1], (one, other), angle)
    # darts further out go with the part they lie in
    apexes = [None if dart is None else outer.point(dart.apex) for dart in shoulder.darts]
    apexes[at] = apex_for(one, other, angle)
    neck = [top.neck.drawn(part, moved_all(top.neck.walked(part), spread.inner)) for part in top.neck.parts]
    neck_darts = [replace(dart, apex=spread.inner.point(dart.apex)) for dart in top.neck.darts if dart is not None]
    return laid_open(shoulder, parts, apexes) + armhole + Redrawn(tuple(neck), tuple(neck_darts))


def _accept_dart(step: RoundedBack | BackWidth, along: Vec, mouth: tuple[Point, Point], angle: float) -> None:
    """Raise StepRefused for a shoulder dart too narrow to sew, or one that would point past the shoulder blade."""
    across = mouth[1] - mouth[0]
    if across.dot(along) < _LEAST_MOUTH or abs(angle) < math.radians(2.0):
        wide = f"the shoulder dart would be {max(0.0, across.dot(along)):.0f} mm wide"
        raise StepRefused(step.name, reason=f"{wide}, and {_LEAST_MOUTH:.0f} mm is the least that can be sewn")
    # the axis of a dart lies square to its mouth
    lean = abs(along.angle_to(across) - 0.5 * angle)
    if lean > _MOST_LEAN:
        reason = f"the shoulder dart would lean {math.degrees(lean):.0f} degrees from square to the shoulder"
        most = f"{reason}, and {math.degrees(_MOST_LEAN):.0f} is the most"
        raise StepRefused(step.name, reason=most, remedies=instead(step.name, "into", "ease"))


def _into_ease(top: UpperBodice, hinge: Hinge, spread: _Spread) -> Redrawn:
    """The shoulder redrawn from the inner part to the outer, with its old dart; neck and armhole are redrawn to it.

    Neck and armhole are turned at the shoulder by as much as the shoulder, so that their corners stay true; they keep
    their lengths.
    """

    def angle_and_neck(slide: float) -> tuple[float, Turned]:
        tip, angle, neck = spread.outer(slide).point(top.tip), 0.0, neck_turned(top, 0.0, neck=spread.inner)
        for _ in range(_ROUNDS):
            angle = top.slope.angle_to(tip - neck.high)
            neck = neck_turned(top, angle, neck=spread.inner)
        return angle, neck

    def at_tip(slide: float) -> Move:
        return move_between(top.armhole.start, spread.outer(slide).point(top.armhole.start), angle_and_neck(slide)[0])

    slide, armhole = armhole_redrawn(top, hinge, at_tip, below=spread.below)
    outer, (_, neck) = spread.outer(slide), angle_and_neck(slide)
    shoulder = drawn_between(top.shoulder, neck.high, outer.point(top.tip), darts=outer)
    return shoulder + armhole + neck.redrawn


def _with_back_widened(step: BackWidth, top: UpperBodice, waist: Stretch, redrawn: Redrawn, by: Vec) -> Piece:
    """The back with all beyond the split moved: armhole, side, the waist from its first dart on, the marks."""
    piece, first = top.piece, waist.parts[0]
    if not any(waist.darts):
        reason = f'"{piece.name}" has no dart at its waist to take in the {by.norm():.0f} mm again'
        raise StepRefused(step.name, reason=reason, remedies=(put_before(),))
    move, split = shift(by), waist.open[0][-1].end
    upper = {dart.name for each in (top.shoulder, top.neck) for dart in each.darts if dart}
    stay = {first.name, *(edge.name for edge in redrawn.edges)}
    stay |= {edge.name for edge in piece.edges if edge.place in CENTRE}
    stay |= {leg for dart in piece.darts if dart.name in upper for leg in dart.legs}
    edges = [replace(edge, curves=moved_all(edge.curves, move)) for edge in piece.edges if edge.name not in stay]
    edges.append(waist.drawn(first, ends_moved(waist.walked(first), STAY, move)))
    darts = [replace(dart, apex=move.point(dart.apex)) for dart in piece.darts if dart.name not in upper]
    out = by * (1.0 if step.amount > 0.0 else -1.0)

    def moved(place: Point) -> Point:
        return move.point(place) if (place - split).dot(out) > 0.0 else place

    return replace(
        rebuilt(piece, redrawn + Redrawn(tuple(edges), tuple(darts))),
        lines=tuple(line.between(moved(line.start), moved(line.end)) for line in piece.lines),
        points=tuple(mark.placed(moved(mark.at)) for mark in piece.points),
    )
