"""The sleeve of a raglan: where the parts cut off the shoulders lie on it, and the seams and the dart it then has.

Below the place where the seam leaves the armhole, the seam of the sleeve is the mirror image of the body's, or a little
flatter on a wide sleeve. Above that place it runs to the neck in one sweep, as long as on the body. Each part is laid
with its shoulder end half a centimetre to one from the crown (common practice), and turned about that end until its
seam is that long (plane geometry; the figures are ours).

Front and back shoulder then stand apart like a V, and are sewn together as a dart that ends on the upper arm. Without
the dart both parts are laid together along the shoulder, which runs straight down the sleeve; the way over the shoulder
is shorter then.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.sleeve.set_in_sleeve import SetIn
from drafting.alterations.styles.bodice_halves import only_edge
from drafting.alterations.styles.sleeve_head import LaidOn
from drafting.alterations.techniques.cutting.split_edges import cut
from drafting.alterations.techniques.redrawing.redraw_run import exact_length, with_length_kept
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, Remedy, Setting, StepRefused
from drafting.geometry import (
    Curve,
    Move,
    Point,
    Vec,
    blend,
    distance,
    fair,
    mirror,
    moved_all,
    run_length,
    run_reversed,
    shift,
    tangent,
    turn,
)
from drafting.geometry.bending import tightest_radius
from drafting.geometry.solve import root_between, solve
from drafting.pattern import Edge, Half, Pattern, Piece, Place, Role, edges_at
from drafting.pattern.cutting import LEAST_ALLOWANCE

__all__ = ["laid_apart", "laid_together", "neck_point_of", "shoulder_legs"]

_OFF_CROWN: Final = (
    (10.0, 12.0),
    (7.0, 5.0),
    (4.0, 10.0),
    (14.0, 5.0),
    (16.0, 15.0),
    (20.0, 5.0),
    (4.0, 0.0),
    (26.0, 8.0),
)
"""mm that the shoulder end of a part may lie beside the crown, and below it: half to a whole centimetre off it (common
practice), and further where the seam would bend too tightly there (ours)."""

_MORE: Final = 1.0
_ROUND: Final = 24.0
"""mm by which its tightest bend is wider than the allowance at the least, and the radius it has if it can (ours)."""

_ROUNDS: Final = 60
_STILL: Final = 1e-7
"""mm: a part is laid again until its seam is as long as on the body, to so little."""

_TURNS: Final = math.radians(24.0)
"""By how much the seam may turn above the cap; where it would more, the part is laid elsewhere (ours)."""

_LEAN: Final = math.radians(14.0)
_LEAST_TURN: Final = 0.5
"""By how much the seam may lean off its way to the neck where it leaves the cap below; where it would more, on a wide
sleeve, the cap turns less there than the armhole, down to such a share (ours)."""

_STRAIGHT: Final = 0.5
"""The share of the shoulder that stays as it is at the neck; further out the dart rounds over the shoulder (ours)."""

_POINT: Final = math.radians(7.0)
"""By how much either leg of the dart leans off the grain at its point (our figure: a dart that ends smoothly)."""


@dataclass(frozen=True, slots=True)
class _Part:
    """A part to be laid: what it is cut off, its neck and its shoulder, and the seam as the body has it.

    out:   the line it was cut off by, out to the neck
    below: what is left of the armhole, up from the underarm
    cap:   the cap of the sleeve on its side, up from the underarm
    """

    piece: Piece
    half: Half
    neck: Edge
    shoulder: Edge
    line: Edge
    out: tuple[Curve, ...]
    below: tuple[Curve, ...]
    cap: tuple[Curve, ...]

    @property
    def tip(self) -> Point:
        """The end of its shoulder at the arm."""
        return self.shoulder.end if self.half is Half.FRONT else self.shoulder.start

    @property
    def neck_point(self) -> Point:
        """The end of its shoulder at the neck."""
        return self.shoulder.start if self.half is Half.FRONT else self.shoulder.end

    @property
    def reach(self) -> float:
        """Mm straight from the underarm to where the line ends on the neck."""
        return distance(self.below[0].start, self.out[-1].end)


def _part(step: str, upper: Piece, body: Piece, sleeve: SetIn) -> _Part:
    shoulder, neck = only_edge(step, upper, Place.SHOULDER), only_edge(step, upper, Place.NECK)
    half = Half.FRONT if body.identity.half is Half.FRONT else Half.BACK
    (line,) = edges_at(upper, Place.RAGLAN)
    out = line.curves if half is Half.FRONT else run_reversed(line.curves)
    cap = sleeve.cap.front if half is Half.FRONT else sleeve.cap.back
    return _Part(upper, half, neck, shoulder, line, out, _armhole_below(body, upper, half), tuple(cap))


def laid_apart(step: str, pattern: Pattern, upper: Piece, body: Piece, sleeve: SetIn) -> LaidOn:
    """A part laid beside the crown, so that its shoulder is one leg of a dart.

    upper, body: what was cut off, and what is left. Raises StepRefused where its seam would bend too tightly.
    """
    part = _part(step, upper, body, sleeve)
    crown, left = part.cap[-1].end, part.half is Half.FRONT
    tip, neck = part.tip, part.out[-1].end
    found: list[_Placed] = []
    for aside, down in _OFF_CROWN:
        goal = crown + Vec(aside if left else -aside, -down)

        def turned(reach: Sequence[float], goal: Point = goal) -> list[Move] | None:
            end = _third_corner(goal, distance(tip, neck), part.cap[0].start, reach[0], left=left)
            return None if end is None else [turn(tip, (neck - tip).angle_to(end - goal)).then(shift(goal - tip))]

        found += _parts_placed((part,), turned)
        if found and found[-1].lies_well:
            break
    return _laid_on(step, pattern, part, found)


def laid_together(step: str, pattern: Pattern, uppers: Sequence[tuple[Piece, Piece]], sleeve: SetIn) -> list[LaidOn]:
    """Both parts laid together along the shoulder, which runs straight down the sleeve.

    uppers: what was cut off and what is left, of the front and of the back
    """
    parts = [_part(step, upper, body, sleeve) for upper, body in uppers]
    upright = []
    for part in parts:
        way = part.tip - part.neck_point
        upright.append(turn(part.neck_point, way.angle_to(Vec(0.0, -1.0))))

    def side_by_side(reach: Sequence[float]) -> list[Move] | None:
        # the neck point comes to where both neck ends are so far from their underarms
        front, back = (
            part.cap[0].start - (move.point(part.out[-1].end) - part.neck_point)
            for part, move in zip(parts, upright, strict=True)
        )
        top = _third_corner(back, reach[1], front, reach[0], left=True)
        return (
            None
            if top is None
            else [move.then(shift(top - part.neck_point)) for part, move in zip(parts, upright, strict=True)]
        )

    placed = _parts_placed(parts, side_by_side)
    if not placed:
        raise StepRefused(step, reason="the shoulders do not reach from the neck to the underarm without a dart")
    return [_laid_on(step, pattern, part, [each]) for part, each in zip(parts, placed, strict=True)]


def neck_point_of(laid: LaidOn) -> Point:
    """Where on the sleeve the end of the shoulder at the neck comes to lie."""
    (shoulder,) = edges_at(laid.piece, Place.SHOULDER)
    return laid.move.point(shoulder.start if laid.half is Half.FRONT else shoulder.end)


def _laid_on(step: str, pattern: Pattern, part: _Part, found: Sequence[_Placed]) -> LaidOn:
    """The part as it lies best."""
    if not found:
        raise StepRefused(step, reason=f"the {part.half} of the shoulder does not reach from the crown to the underarm")
    best = min(found, key=lambda placed: (not placed.lies_well, placed.turns, -placed.gentlest))
    least = part.line.allowance + _MORE
    if best.gentlest < least:
        bends = f"the seam of the sleeve would bend as tightly in {part.half} as a circle of {best.gentlest:.1f} mm"
        narrower = float(math.floor(best.gentlest - _MORE))
        less = Remedy("set in paper", step, (Setting("seam_allowance", narrower, "mm"),), lead="Cut it with less")
        reason = f"{bends} radius, and {least:.1f} mm is the least: let it begin further from the neck point"
        raise StepRefused(step, reason=reason, remedies=[less] if narrower >= LEAST_ALLOWANCE else [])
    (seam,) = (s for s in pattern.seams if (s.b[0].piece, s.b[0].edge) == (part.piece.name, part.line.name))
    names = {
        part.neck.name: f"neck, {part.half}",
        part.shoulder.name: f"shoulder dart leg, {part.half}",
        part.line.name: f"{Place.RAGLAN}, {part.half}",
    }
    line = run_reversed(best.line) if part.half is Half.BACK else best.line
    return LaidOn(part.piece, part.half, best.move, seam, names, line, best.below)


@dataclass(frozen=True, slots=True)
class _Placed:
    """A part laid to the crown: where it is moved, and its seam and the cap below that, from the underarm up."""

    move: Move
    line: tuple[Curve, ...]
    below: tuple[Curve, ...]

    @property
    def gentlest(self) -> float:
        """The radius of the tightest bend of its seam, mm."""
        return min(tightest_radius(self.line), tightest_radius(self.below))

    @property
    def turns(self) -> float:
        """By how much its seam turns in all between the cap and the neck."""
        return abs(tangent(self.line[0], 0.0).angle_to(tangent(self.line[-1], 1.0)))

    @property
    def lies_well(self) -> bool:
        """Whether the seam is as round and as straight as can be wished."""
        return self.gentlest >= _ROUND and self.turns <= _TURNS


def _parts_placed(parts: Sequence[_Part], lay: Callable[[Sequence[float]], Sequence[Move] | None]) -> list[_Placed]:
    """The parts laid so that each seam is as long as on the body; none where that cannot be drawn.

    lay: their moves, when the neck ends are so far from the underarms, mm
    """
    reach, wanted = [part.reach for part in parts], [run_length(part.out) for part in parts]
    try:
        for _ in range(_ROUNDS):
            moves = lay(reach)
            if moves is None:
                return []
            found = [_part_placed(part, move) for part, move in zip(parts, moves, strict=True)]
            short = [goal - run_length(each.line) for goal, each in zip(wanted, found, strict=True)]
            if max(map(abs, short)) <= _STILL:
                kept = (
                    with_length_kept(one.line, exact_length(part.out)) for one, part in zip(found, parts, strict=True)
                )
                return [replace(one, line=line) for one, line in zip(found, kept, strict=True)]
            reach = [far + more for far, more in zip(reach, short, strict=True)]
    except NotAPattern:
        pass
    return []


def _part_placed(part: _Part, move: Move) -> _Placed:
    """The part laid by a move. Its seam leaves the underarm as the cap did, and below is the body's mirrored.

    Above that it runs to the neck in one sweep, and comes to it as the part does, so that the neck runs on.
    """
    under, start = part.below[0].start, part.cap[0].start
    flipped = mirror(under, tangent(part.below[0], 0.0))
    leaves = tangent(part.below[0], 0.0).angle_to(tangent(part.cap[0], 0.0))
    below = moved_all(part.below, flipped.then(turn(under, leaves)).then(shift(start - under)))
    arriving = move.vec(tangent(part.out[-1], 1.0))
    end = move.point(part.out[-1].end)

    hollow = math.copysign(1.0, tangent(below[0], 0.0).angle_to(tangent(below[-1], 1.0)))

    def lean(share: float) -> float:
        run = _turning_less(below, share)
        return hollow * (end - run[-1].end).angle_to(tangent(run[-1], 1.0)) - _LEAN

    if lean(1.0) > 0.0:
        below = _turning_less(below, root_between(lean, _LEAST_TURN, 1.0))
    line = fair(below[-1].end, tangent(below[-1], 1.0), end, arriving)
    return _Placed(move, (line,), below)


def _turning_less(run: tuple[Curve, ...], share: float) -> tuple[Curve, ...]:
    """A run that turns one way, begun as it is and as long, that turns by a share of that in all."""
    if share == 1.0:
        return run
    chord, leaving = run[-1].end - run[0].start, tangent(run[0], 0.0)
    first, whole = leaving.angle_to(chord), leaving.angle_to(tangent(run[-1], 1.0))
    # the chord of an arc is to its length as the sine of half its angle to that half
    longer = math.sin(0.5 * share * whole) / (share * math.sin(0.5 * whole))
    end = run[0].start + leaving.unit().turned(share * first) * (chord.norm() * longer)
    return with_length_kept((fair(run[0].start, leaving, end, leaving.turned(share * whole)),), exact_length(run))


def _armhole_below(body: Piece, upper: Piece, half: Half) -> tuple[Curve, ...]:
    """What is left of the armhole on the body, from the underarm up, where it lies when the part above is folded."""
    (left,), (gone,) = edges_at(body, Place.ARMHOLE), edges_at(upper, Place.ARMHOLE)
    if half is Half.FRONT:
        run, goal, way = run_reversed(left.curves), gone.end, -tangent(gone.curves[-1], 1.0)
    else:
        run, goal, way = left.curves, gone.start, tangent(gone.curves[0], 0.0)
    end = run[-1].end
    return moved_all(run, turn(end, tangent(run[-1], 1.0).angle_to(way)).then(shift(goal - end)))


def _third_corner(one: Point, far: float, other: Point, away: float, *, left: bool) -> Point | None:
    """The place at these distances from two places, to the left of the way between them; None where there is none."""
    apart = distance(one, other)
    if not abs(far - away) < apart < far + away:
        return None
    along = (apart * apart + far * far - away * away) / (2.0 * apart)
    up = math.sqrt(far * far - along * along)
    way = (other - one).unit()
    return one + way * along + (way.left() if left else way.right()) * up


def shoulder_legs(front: LaidOn, back: LaidOn, crown: Point, down: float) -> list[Edge]:
    """The two legs of the dart of the shoulder, equally long, from the neck to where it ends on the upper arm."""
    one, other = (
        next(each.edge(edge.name) for edge in each.piece.edges if edge.place is Place.SHOULDER)
        for each in (front, back)
    )

    kept = cut(one, _STRAIGHT * one.length)[0], cut(other, (1.0 - _STRAIGHT) * other.length)[1]
    assert kept[0] is not None
    assert kept[1] is not None
    first, last = kept[0].edge.curves, kept[1].edge.curves

    def ends(across: float) -> tuple[tuple[Curve, ...], tuple[Curve, ...]]:
        apex = Point(crown.x + across, crown.y - down)
        into = blend(first[-1].end, tangent(first[-1], 1.0), apex, Vec(0.0, -1.0).turned(-_POINT))
        out = blend(apex, Vec(0.0, 1.0).turned(_POINT), last[0].start, tangent(last[0], 0.0))
        return (*first, into), (out, *last)

    def longer(across: float) -> float:
        into, out = ends(across)
        return run_length(into, 1e-7) - run_length(out, 1e-7)

    middle = 0.5 * (one.end.x + other.start.x) - crown.x
    into, out = ends(solve(longer, middle, 2.0))
    return [
        replace(edge, curves=curves, role=Role.DART_LEG, place=None) for edge, curves in ((one, into), (other, out))
    ]
