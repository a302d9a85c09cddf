"""A smock: a square yoke front and back, and below it a loose piece gathered into it, that hangs to its hem.

The trade's way (common practice): the yoke ends at the middle of the armhole, 10 to 14 cm deep for a grown woman and 6
to 9 for a child; its seam is straight and level. The piece that hangs from it is one and a half times to twice as wide,
and no gathers lie within 2.5 cm of the armhole. The darts are let out: those of the shoulder are closed in the yoke,
and the cloth that they took up below the seam goes into the gathers. The width is added at the centre, so that side
seam and armhole stay; below the underarm the side runs straight to the hem, which is square to it and to the centre.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.darts.darts_to_waist import with_darts_to_waist
from drafting.alterations.finishes.opening import Opening
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, seams_kept
from drafting.alterations.refusing import instead
from drafting.alterations.styles.bodice_halves import bodice_half, neck_point, only_edge
from drafting.alterations.styles.smock_piece import FLAT, Wide, armhole_turned, hanging_piece
from drafting.alterations.styles.yoke import straight_line, with_yoke
from drafting.alterations.techniques.redrawing.redraw_run import exact_length, with_length_kept
from drafting.errors import Remedy, Setting, StepRefused
from drafting.geometry import Curve, Point, Vec, blend, distance, fair, length, run_at, run_reversed, tangent
from drafting.geometry.solve import solve
from drafting.pattern import (
    CENTRES,
    Across,
    Along,
    Bent,
    Between,
    BodyPart,
    Curved,
    Edge,
    EdgeRef,
    Half,
    Level,
    Measure,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Tape,
    edges_at,
    line_at,
    pieces_of,
    relaid,
    require_edge,
    seam_places,
    with_pieces,
)

__all__ = ["Smock"]

_GIVES: Final = 0.1
"""The share of the gathers by which they may come out otherwise (ours, as for a dart that is gathered)."""

_DEPTH: Final = 120.0
_CHILDS: Final = (60.0, 90.0)
"""mm a yoke is deep where nothing is said: a woman's, and a child's at the least and the most (common practice)."""

_INSTEAD: Final = (
    "a smock is put on over the head or opens behind with a slit or a zip. Leave that opening out, or, for buttons, "
    "take a gathered yoke in the place of the smock"
)
_YOKE: Final = Remedy("instead", "yoke", (Setting("on", "both"), Setting("left_over", "gathers")))

_DRESS: Final = 550.0
"""mm below the waist: about the knee (ours)."""


@alteration_class
class Smock(Alteration):
    """Make a smock of a bodice: square yokes, and a gathered piece that hangs from each in the place of any skirt."""

    name = "smock"
    layer = Layer.SEAMS
    needs = ((BodyPart.BODICE,),)
    about = "Make a smock of a bodice: a square yoke, and a piece gathered into it that hangs straight to its hem."
    leaves = "the yokes: neck, shoulder and armhole; the sleeve; the side seam meets"
    carries = "front and back alike; the darts are let out into the gathers, and a skirt is left away"

    depth: float | None = option(
        "length",
        "how far below the neck point the yoke ends; left out 12 cm, on a child at the middle of the armhole",
        40.0,
        200.0,
        default=None,
    )
    fullness: float = option(
        "number", "how many times as wide as the yoke the gathered piece is", 1.2, 2.5, default=1.75
    )
    length: float = option("length", "how far below the waist the hem is", -150.0, 900.0, default=200.0)
    flare: float = option("length", "how much wider each side is at the hem", 0.0, 200.0, default=30.0)

    def apply(self, pattern: Pattern) -> Pattern:
        pattern = with_darts_to_waist(
            self.name, _without_skirt(self, pattern), "the smock lets it out into its gathers"
        )
        long, pattern = 0.0, _open_for_head(pattern)
        depth = self.depth or _depth(bodice_half(self.name, pattern, Half.BACK), child=pattern.wearer.child is not None)
        for half in (Half.BACK, Half.FRONT):
            piece = bodice_half(self.name, pattern, half)
            open_front = any(edge.role is Role.OPENING for edge in edges_at(piece, Place.CENTRE_FRONT))
            if open_front or edges_at(piece, Place.STAND_EDGE, Place.WRAP_EDGE):
                reason = f'"{piece.name}" {"is open in front" if open_front else "has a button stand or a lap"}'
                raise StepRefused(self.name, reason=f"{reason}; {_INSTEAD}", remedies=(_YOKE,))
            if edges_at(piece, Place.CROTCH, Place.INSEAM, Place.LEG_OPENING):
                reason = f'"{piece.name}" goes on through the legs, and a smock hangs open'
                raise StepRefused(self.name, reason=f"{reason}: make it of a bodice")
            if edges_at(piece, Place.EMPIRE):
                reason = f'"{piece.name}" ends at an empire seam, and a smock hangs from yoke to hem: leave one out'
                raise StepRefused(self.name, reason=reason)
            only_edge(self.name, piece, Place.SIDE)
            waist = _waist_level(piece)
            pattern = with_yoke(self.name, pattern, piece, depth, 0.0, straight_line)
            pattern = _hanging(self, pattern, pattern.piece(piece.name), waist, long)
            long = exact_length(require_edge(pattern.piece(piece.name), Place.SIDE).curves)
        return replace(pattern, measures=(*pattern.measures, *_own_measures(pattern)))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        for half in Half:
            bodice_half(self.name, pattern, half)
        kept = {Place.SHOULDER, Place.ARMHOLE, Place.CAP}
        yield from seams_kept(pattern, lambda seam: bool(frozenset().union(*seam_places(pattern, seam)) & kept))
        yield from finished_kept(pattern, lambda measure: measure.key in ("neck_base_girth", "shoulder_length"))


def _depth(back: Piece, *, child: bool) -> float:
    """How deep the yoke is where nothing is said."""
    if not child:
        return _DEPTH
    armhole = require_edge(back, Place.ARMHOLE)
    middle = run_at(armhole.curves, 0.5 * armhole.length).y
    return min(_CHILDS[1], max(_CHILDS[0], neck_point("smock", back).y - middle))


def _open_for_head(pattern: Pattern) -> Pattern:
    """The pattern of a child with its back open only as far down as the head asks for.

    A bodice is open down to its waist where that is too small to be put on over the chest; a smock is wide there.
    Whoever asked for that opening in a step of her own keeps it.
    """
    head = next((each for each in pattern.wearer.lengths if each.key == "head_girth"), None)
    centre = [edge for back in pieces_of(pattern, PieceKind.BACK) for edge in edges_at(back, Place.CENTRE_BACK)]
    asked = any(step.alter == Opening.name for step in pattern.history)
    if head is None or pattern.wearer.child is None or asked or any(e.role is not Role.OPENING for e in centre):
        return pattern
    necks = (edge for piece in pieces_of(pattern, part=BodyPart.BODICE) for edge in edges_at(piece, Place.NECK))
    needs = 0.5 * (head.mm + (head.sd or 0.0)) - sum(edge.length for edge in necks) + _HEAD_EASE
    slit = max(_LEAST_SLIT, 5.0 * math.ceil(needs / 5.0))
    if slit + _LEAST_SLIT > sum(edge.length for edge in centre):
        return pattern
    return Opening(at="centre back", length=slit).apply(pattern)


def _own_measures(pattern: Pattern) -> Iterator[Measure]:
    """What a smock is chosen by: how long it is from the neck at the centre back, and how wide at the hem."""
    backs = [p for p in pieces_of(pattern, part=BodyPart.BODICE) if edges_at(p, Place.CENTRE_BACK)]
    centre = tuple(Along(p.name, edge.name) for p in backs for edge in edges_at(p, Place.CENTRE_BACK))
    yield Measure("neck to hem", centre)
    hems = [(p, edge) for p in pieces_of(pattern, part=BodyPart.BODICE) for edge in edges_at(p, Place.HEM)]
    yield Measure("hem", tuple(Along(p.name, edge.name, 2.0) for p, edge in hems))


def _without_skirt(step: Smock, pattern: Pattern) -> Pattern:
    """The pattern without the skirt of a dress, which the hanging pieces take the place of; that is said."""
    if pieces_of(pattern, part=BodyPart.TROUSERS):
        raise StepRefused("smock", reason="a smock hangs from its yokes and is sewn to nothing: leave the trousers out")
    skirt = {piece.name for piece in pieces_of(pattern, part=BodyPart.SKIRT)}
    if not skirt:
        return pattern
    said = (
        f"The skirt is left away: a smock hangs from its yokes to a hem of its own, {step.length:.0f} mm below the "
        f'waist. For a dress say in the step how far: length = "{_DRESS:.0f} mm".'
    )
    seams = tuple(s for s in pattern.seams if skirt.isdisjoint(ref.piece for ref in (*s.a, *s.b)))
    tapes = (replace(m, tape=tuple(part for part in m.tape if part.piece not in skirt)) for m in pattern.measures)
    pieces = tuple(piece for piece in pattern.pieces if piece.name not in skirt)
    origin = tuple(
        replace(each, gave_way=(said, *each.gave_way)) if place == 0 else each
        for place, each in enumerate(pattern.origin)
    )
    measures = tuple(each for each in tapes if each.tape)
    return replace(pattern, pieces=pieces, seams=seams, measures=measures, origin=origin)


def _waist_level(piece: Piece) -> float:
    """How high the lower end of the centre lies."""
    return min(min(edge.start.y, edge.end.y) for edge in edges_at(piece, *CENTRES))


_HEAD_EASE: Final = 10.0
_LEAST_SLIT: Final = 80.0
"""mm by which the neck is to pass the head, and that a slit for it is long at the least (ours)."""

_LEAN: Final = 0.6
"""The share of what it bends at the centre by which the gathered edge bends at the armhole: more than half, as less
would make it waver (ours)."""

_LEAST_SIDE: Final = 20.0  # mm of side below the arm, beside its flare: shorter, it bends too tightly (ours)


def _hanging(step: Smock, pattern: Pattern, lower: Piece, waist: float, long: float) -> Pattern:
    """The pattern with its lower piece made wide, its darts let out, and its side straight down to the hem.

    waist: how high the waist lies; long: how long its side is to be, mm; 0 for what it comes to
    """
    yoke, side = edges_at(lower, Place.YOKE), require_edge(lower, Place.SIDE)
    own = {edge.name for edge in yoke}
    (seam,) = (s for s in pattern.seams if any(r.piece == lower.name and r.edge in own for r in s.a))
    upper = pattern.piece(seam.b[0].piece).edge(seam.b[0].edge)
    onward = lower.identity.half is Half.BACK  # whether the outline runs from the armhole to the centre
    run = (
        [curve for edge in yoke for curve in edge.curves]
        if onward
        else run_reversed([curve for edge in yoke for curve in edge.curves])
    )
    under, foot = (side.end, side.start) if onward else (side.start, side.end)
    beyond = Vec(-1.0 if run[0].start.x > run[-1].end.x else 1.0, 0.0)
    _accept_length(step, lower, under.y - foot.y)

    def top(wide: float) -> Curve:
        end = run[-1].end + beyond * wide
        straight = end - run[0].start
        return fair(run[0].start, straight.turned(-_LEAN * straight.angle_to(beyond)), end, beyond)

    wanted = step.fullness * upper.length
    wide = solve(lambda by: length(top(by)) - wanted, wanted - upper.length, 5.0)
    old = side.curves if not onward else run_reversed(side.curves)

    def down_to(deeper: float) -> Curve:
        end = Point(under.x - beyond.x * step.flare, foot.y - step.length - deeper)
        return fair(under, tangent(old[0], 0.0), end, (end - under) + Vec(0.0, -1.0) * distance(under, end))

    seam_line = down_to(solve(lambda by: length(down_to(by)) - long, 0.0, 1.0) if long else 0.0)
    if long:
        (seam_line,) = with_length_kept((seam_line,), long)
    down = seam_line.end
    along = tangent(seam_line, 1.0)
    square = along.left() if along.left().dot(beyond) < 0.0 else along.right()
    # an arc of a circle, square to the side and to the centre
    line = top(wide)
    across = line.end.x - down.x
    bottom = Point(line.end.x, down.y - abs(across * math.tan(0.5 * square.angle_to(-beyond))))
    turned = tangent(run[0], 0.0).angle_to(tangent(line, 0.0))
    arm = armhole_turned(require_edge(lower, Place.ARMHOLE), turned, onward=onward)
    outline = Wide(line, blend(bottom, -beyond, down, square), run_reversed((seam_line,))[0], arm)
    made = hanging_piece(lower, outline, seam, waist, onward=onward)
    pattern = _yoke_notched(pattern, seam)
    seams = tuple(_seam_gathered(each, seam, made, upper) for each in pattern.seams)
    measures = _measures_laid(pattern, lower, made)
    return replace(with_pieces(replace(pattern, seams=(), measures=()), made), seams=seams, measures=measures)


def _accept_length(step: Smock, lower: Piece, side: float) -> None:
    """Refuse a smock of which too little is left below the arm; side: from there to the waist, mm."""
    shortest = 5.0 * math.ceil((_LEAST_SIDE + step.flare - side) / 5.0)
    if step.length < shortest:
        reason = f'"{lower.name}" would end too near the arm: {shortest:.0f} mm is the least length'
        raise StepRefused(step.name, reason=reason, remedies=instead(step.name, "length", shortest, "mm"))


def _measures_laid(before: Pattern, lower: Piece, wide: Piece) -> tuple[Measure, ...]:
    """The measurements with what lay round the waist and along the centre laid on the hanging piece."""
    waist = {edge.name for edge in edges_at(lower, Place.WAIST)}
    centre = {edge.name for edge in lower.edges if edge.place in CENTRES}
    at_waist = line_at(wide, Level.WAIST)

    def lay(_: Measure, part: Tape) -> Sequence[Tape]:
        if isinstance(part, Along) and part.edge in waist:
            return [Across(part.piece, at_waist.name, part.times)] if at_waist else []
        if isinstance(part, Along) and part.edge in centre:
            return [Between(part.piece, "centre at the yoke", "centre at the waist", part.times)]
        if isinstance(part, Across | Curved | Bent):
            there = any(mark.name == part.line for mark in wide.lines)
            return [Across(part.piece, part.line, part.times)] if there and not isinstance(part, Curved) else []
        return [part]

    return tuple(each for each in relaid(before.measures, lower.name, lay) if each.tape)


def _yoke_notched(pattern: Pattern, seam: Seam) -> Pattern:
    """The pattern with the notch of the yoke where the gathers begin."""
    ((_, mark),) = seam.notches
    yoke = pattern.piece(mark.piece)
    notches = (
        replace(each.moved_to(FLAT), marks=NotchMark.GATHERS_END) if each.name == mark.notch else each
        for each in yoke.notches
    )
    return with_pieces(pattern, replace(yoke, notches=tuple(notches)))


def _seam_gathered(each: Seam, seam: Seam, made: Piece, upper: Edge) -> Seam:
    """A seam with what it asks for now: that to the yoke is gathered between its notch and the centre."""
    if each.name == seam.name:
        line = require_edge(made, Place.YOKE)
        more = round(line.length - upper.length, 4)
        ease = SeamEase(more, (1.0 - _GIVES) * more, (1.0 + _GIVES) * more)
        return replace(each, a=(EdgeRef(made.name, line.name, seam.a[0].backward),), ease=ease)
    there = {notch.name for notch in made.notches}
    pairs = tuple(p for p in each.notches if all(ref.piece != made.name or ref.notch in there for ref in p))
    return replace(each, notches=pairs)
