"""A raglan sleeve from a set-in one: the shoulder of the bodice is cut off and cut in one with the sleeve.

The trade's way (common practice): the line runs from the neck, 2.5 to 4 cm below the neck point in front and 2 to 3
behind, to the armhole, bowed up a little and tangent to it; below that place armhole and cap stay as they are. The
parts that are cut off are laid to the cap with that place on the place of the cap which lies as far from the underarm;
the front and the back shoulder then stand apart like a V, and are sewn together as a dart that ends on the upper arm.
What the cap was longer than the armhole above goes into that dart.

The place is the notch of the armhole. Each part is laid with its shoulder end half a centimetre to one off the crown,
and turned about that until the underarm of the sleeve lies as far from its new neck end as on the body: so the seam of
the sleeve is the mirror image of that of the body, but for its very beginning, which keeps the direction of the cap.
Both are equally long and equally smooth, which is why it is sewn easily (plane geometry; the figures are ours).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.sleeve.set_in_sleeve import SLEEVE, SetIn, find_set_in
from drafting.alterations.styles.bodice_halves import (
    bodice_half,
    lengths_along_kept,
    meets_as_sewn,
    seams_that_stay,
    spot_from_shoulder,
)
from drafting.alterations.styles.sleeve_head import LaidOn, corner_notched, with_head
from drafting.alterations.styles.yoke import LeftOver, darts_left
from drafting.alterations.techniques.cutting.split_edges import cut
from drafting.alterations.techniques.redrawing.redraw_run import bent_at_start, exact_length, with_length_kept
from drafting.alterations.techniques.spreading.cut_across import AcrossLine, Spot, cut_across
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    Cubic,
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
from drafting.geometry.bending import tightest
from drafting.geometry.solve import solve
from drafting.pattern import (
    BodyPart,
    Dart,
    Edge,
    Half,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    from_start,
)

__all__ = ["Raglan"]

_OFF_CROWN: Final = (
    (7.0, 5.0),
    (4.0, 10.0),
    (14.0, 5.0),
    (10.0, 12.0),
    (4.0, 0.0),
    (20.0, 5.0),
    (16.0, 15.0),
    (26.0, 8.0),
)
"""mm that the shoulder end of a part may lie beside the crown, and below it: half to a whole centimetre off it (common
practice), and further where the seam would bend too tightly there (ours)."""

_MORE: Final = 1.0
_ROUND: Final = 24.0
"""mm by which its tightest bend is wider than the allowance at the least, and the radius it has if it can (ours)."""

_STRAIGHT: Final = 0.5
"""The share of the shoulder that stays as it is at the neck; further out the dart rounds over the shoulder (ours)."""

_POINT: Final = math.radians(7.0)
"""By how much either leg of the dart leans off the grain at its point (our figure: a dart that ends smoothly)."""


@alteration_class
class Raglan(Alteration):
    """Cut the shoulder of the bodice in one with its sleeve, which then reaches to the neck."""

    name = "raglan"
    layer = Layer.SEAMS
    needs = (
        (BodyPart.BODICE,),
        (BodyPart.SLEEVE,),
    )
    about = "Make a raglan sleeve of a set-in one: the shoulder is cut in one with the sleeve, up to the neck."
    leaves = "the neck; the armhole and the cap below; the side and underarm seams; the width of the sleeve"
    carries = "the two raglan seams in the place of the armhole seams; the shoulder seam becomes a dart of the sleeve"

    front: float = option("length", "how far below the neck point it begins in front", 10.0, 80.0, default=30.0)
    back: float = option("length", "how far below the neck point it begins behind", 10.0, 60.0, default=25.0)
    dart: float = option("length", "how far down the arm the dart of the shoulder ends", 30.0, 120.0, default=65.0)
    left_over: LeftOver = option(
        "choice", "what becomes of a dart that goes on below", choices=("dart", "gathers", "ease"), default="dart"
    )

    def apply(self, pattern: Pattern) -> Pattern:
        sleeve = find_set_in(self.name, pattern, SLEEVE)
        pitches = {half: _pitch(self.name, pattern, half) for half in Half}
        parts = []
        for half, pitch in pitches.items():
            before = {piece.name for piece in pattern.pieces}
            pattern = cut_across(pattern, pitch.piece.name, self._line(pitch, half))
            upper = next(piece for piece in pattern.pieces if piece.name not in before)
            parts.append((upper, half))
        laid = [_laid(self.name, pattern, upper, half, pitches[half], sleeve) for upper, half in parts]
        front, back = (next(each for each in laid if each.half is half) for half in (Half.FRONT, Half.BACK))
        legs = _legs(front, back, sleeve.cap.crown, self.dart)
        dart = Dart("shoulder dart", (legs[0].name, legs[1].name), legs[0].end)
        kept = {half: pitch.low for half, pitch in pitches.items()}
        pattern = with_head(pattern, sleeve, (front, back), kept, Place.RAGLAN, between=legs, dart=dart, in_one=True)
        for half, pitch in pitches.items():
            pattern = corner_notched(pattern, half, Place.RAGLAN)
            pattern = darts_left(pattern, pitch.piece.name, Place.RAGLAN, self.left_over)
        return pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        find_set_in(self.name, pattern, SLEEVE)
        tapes = tuple(m for m in pattern.measures if m.name != "shoulder")
        yield from lengths_along_kept(replace(pattern, seams=seams_that_stay(pattern), measures=tapes))
        yield meets_as_sewn("how much the two sides of the raglan seams differ", Place.RAGLAN)

    def _line(self, pitch: _Pitch, half: Half) -> AcrossLine:
        spot = Spot(pitch.armhole.name, pitch.at)
        kind = pitch.piece.identity.kind
        return AcrossLine(
            lambda _: spot,
            spot_from_shoulder(self.name, pitch.piece, Place.NECK, self.front if half is Half.FRONT else self.back),
            raglan_line,
            Place.RAGLAN,
            f"{pitch.piece.name} shoulder",
            Identity(PieceKind.YOKE, BodyPart.BODICE, of=kind),
            "double" if half is Half.BACK else "single",
        )


@dataclass(frozen=True, slots=True)
class _Pitch:
    """The place on an armhole, and on the cap, where the line comes to it.

    at:  mm from the start of the armhole's edge
    low: mm from the underarm, on armhole and cap alike
    """

    piece: Piece
    armhole: Edge
    at: float
    low: float


def _pitch(step: str, pattern: Pattern, half: Half) -> _Pitch:
    piece = bodice_half(step, pattern, half)
    armholes = edges_at(piece, Place.ARMHOLE)
    if len(armholes) != 1:
        raise StepRefused(step, f'the armhole of "{piece.name}" is parted by a dart: move that dart first')
    (armhole,) = armholes
    upward = piece.beside(armhole.name)[0].place is Place.SIDE
    marks = [from_start(armhole, n.station) for n in piece.notches if n.station.edge == armhole.name]
    notch = min((at if upward else armhole.length - at for at in marks), default=0.4 * armhole.length)

    at = notch if upward else armhole.length - notch
    return _Pitch(piece, armhole, at, notch)


def raglan_line(outer: Point, armhole: Vec, inner: Point, _neck: Vec) -> tuple[Curve, ...]:
    """A line that runs on out of the armhole, bowed up a little, and straight to the neck."""
    long = distance(outer, inner)
    lean = armhole.angle_to(inner - outer)
    return (
        Cubic(
            outer,
            outer + armhole.unit() * (_LEAVES * long),
            inner - (inner - outer).unit().turned(_ARRIVES * lean) * (_COMES * long),
            inner,
        ),
    )


_LEAVES: Final = 0.2
_COMES: Final = 0.4
_ARRIVES: Final = 0.12
"""How long the line runs along the armhole and along its end, as shares of its chord, and by what share of its turn at
the armhole it still turns at the neck: bowed up by half a centimetre to one (common practice; the shares are ours)."""


def _laid(step: str, pattern: Pattern, upper: Piece, half: Half, pitch: _Pitch, sleeve: SetIn) -> LaidOn:
    """A part laid to the crown, and the seam it has there."""
    shoulders, necks = edges_at(upper, Place.SHOULDER), edges_at(upper, Place.NECK)
    if len(shoulders) != 1 or len(necks) != 1:
        raise StepRefused(step, f'the shoulder or the neck of "{pitch.piece.name}" is in parts: move their darts first')
    (line,) = edges_at(upper, Place.RAGLAN)
    (seam,) = (each for each in pattern.seams if (each.b[0].piece, each.b[0].edge) == (upper.name, line.name))
    below = _armhole_below(pattern.piece(pitch.piece.name), upper, half)
    cap = sleeve.cap.front if half is Half.FRONT else sleeve.cap.back
    out = line.curves if half is Half.FRONT else run_reversed(line.curves)
    tip = shoulders[0].end if half is Half.FRONT else shoulders[0].start
    found: list[_Placed] = []
    for aside, down in _OFF_CROWN:
        goal = cap[-1].end + Vec(aside if half is Half.FRONT else -aside, -down)
        placed = _placed((out, below), tip, goal, cap, left=half is Half.FRONT)
        found += [placed] if placed is not None else []
        if placed is not None and placed.gentlest >= _ROUND:
            break
    if not found:
        raise StepRefused(step, f"the {half} of the shoulder does not reach from the crown to the underarm")
    best = max(found, key=lambda placed: min(placed.gentlest, _ROUND))
    least = line.allowance + _MORE
    if best.gentlest < least:
        bends = f"the seam of the sleeve would bend as tightly in {half} as a circle of {best.gentlest:.1f} mm radius"
        raise StepRefused(
            step, f"{bends}, and {least:.1f} mm is the least: the chest is too wide there for its armhole"
        )
    move, drawn, lower = best.move, best.line, best.below
    names = {
        necks[0].name: f"neck, {half}",
        shoulders[0].name: f"shoulder dart leg, {half}",
        line.name: f"{Place.RAGLAN}, {half}",
    }
    back = half is Half.BACK
    return LaidOn(upper, half, move, seam, names, run_reversed(drawn) if back else drawn, lower)


@dataclass(frozen=True, slots=True)
class _Placed:
    """A part laid to the crown: where it is moved, and its seam and the cap below that, from the underarm up."""

    move: Move
    line: tuple[Curve, ...]
    below: tuple[Curve, ...]

    @property
    def gentlest(self) -> float:
        """The radius of the tightest bend of its seam, mm."""
        return min(_tightest_radius(self.line), _tightest_radius(self.below))


def _placed(
    seam: tuple[Sequence[Curve], Sequence[Curve]], tip: Point, goal: Point, cap: Sequence[Curve], *, left: bool
) -> _Placed | None:
    """A part laid with its shoulder end there, its seam the mirror image of the body's; None where it cannot be.

    seam: the line it was cut off by, out to the neck, and what is left of the armhole below that, up from the underarm
    """
    out, below = seam
    under, neck, start = below[0].start, out[-1].end, cap[0].start
    end = _third_corner(goal, distance(tip, neck), start, distance(under, neck), left=left)
    if end is None:
        return None
    move = turn(tip, (neck - tip).angle_to(end - goal)).then(shift(goal - tip))
    flipped = mirror(under, neck - under).then(turn(under, (neck - under).angle_to(end - start)))
    on_sleeve = flipped.then(shift(start - under))
    # it comes to the neck as the part does, so that the neck runs on, and leaves the underarm as the cap did
    arriving = move.vec(tangent(out[-1], 1.0))
    try:
        line = run_reversed(_begun_along(run_reversed(moved_all(out, on_sleeve)), -arriving))
        return _Placed(move, line, _begun_along(moved_all(below, on_sleeve), tangent(cap[0], 0.0)))
    except NotAPattern:
        return None


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
    """The place so far from one place and so far from another, to the left of the way between them; None for none."""
    apart = distance(one, other)
    if not abs(far - away) < apart < far + away:
        return None
    along = (apart * apart + far * far - away * away) / (2.0 * apart)
    up = math.sqrt(far * far - along * along)
    way = (other - one).unit()
    return one + way * along + (way.left() if left else way.right()) * up


def _begun_along(run: Sequence[Curve], way: Vec) -> tuple[Curve, ...]:
    """The run begun in another direction, as long as it is."""
    begun = bent_at_start(run, tangent(run[0], 0.0).angle_to(way))
    faired = (fair(run[0].start, way, run[-1].end, tangent(run[-1], 1.0)),)
    gentler = max((begun, faired), key=_tightest_radius)
    return with_length_kept(gentler, exact_length(run))


def _tightest_radius(run: Sequence[Curve]) -> float:
    """The radius of the tightest bend of a run, mm."""
    return min((each.radius for each in tightest(run)), default=math.inf)


def _legs(front: LaidOn, back: LaidOn, crown: Point, down: float) -> list[Edge]:
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
