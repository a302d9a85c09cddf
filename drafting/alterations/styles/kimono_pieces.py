"""The pieces of a kimono: its front, back and gusset, made from the front, the back and the sleeve of a garment."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.sleeve.set_in_sleeve import SetIn
from drafting.alterations.styles.bodice_halves import only_edge, sewn_half
from drafting.alterations.styles.kimono_half import Arm, Body, Drawn
from drafting.alterations.techniques.cutting.clip_marks import holds
from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut, made_of, notches_on, whole_edge
from drafting.alterations.techniques.marks.grain_line import with_grain_inside
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import (
    STAY,
    Curve,
    Line,
    Move,
    Point,
    Vec,
    distance,
    mirror,
    moved_all,
    polyline,
    run_hits,
    run_length,
    run_reversed,
    split,
    tangent,
)
from drafting.geometry.meet import outline_crossings
from drafting.pattern import (
    PLAIN,
    Along,
    Between,
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Grain,
    Half,
    Identity,
    Landmark,
    Level,
    Measure,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    Station,
    closed,
    free_name,
    line_at,
)

__all__ = ["BodyHalf", "HalfMade", "gusset_piece", "half_of_body", "joined_up", "measures_reach", "with_sleeve"]

_NOTCH: Final = 150.0
"""mm from the wrist that the seams of the sleeve are notched, those of a short one half way (ours)."""

_SLIT: Final = 6.0
"""mm of allowance beside a slit, where it is more elsewhere: it runs out to nothing at its point (common practice)."""


@dataclass(frozen=True, slots=True)
class BodyHalf:
    """A front or a back, as it is and as it is drawn, with its side to the right; flipped: whether it is mirrored;
    room: how long its side is down to the waist, mm.
    """

    piece: Piece
    half: Half
    flipped: bool
    armhole: Edge
    side: Edge
    hem: Edge
    body: Body
    arm: Arm
    room: float


def half_of_body(step: str, pattern: Pattern, half: Half, sleeve: SetIn) -> BodyHalf:
    """A front or a back with its half of the sleeve. Raises StepRefused where a dart parts its armhole or its side."""
    piece = sewn_half(step, pattern, half)
    armhole, side = only_edge(step, piece, Place.ARMHOLE), only_edge(step, piece, Place.SIDE)
    before, after = piece.beside(armhole.name)
    if {before.place, after.place} != {Place.SIDE, Place.SHOULDER}:
        raise StepRefused(step, reason=f'the armhole of "{piece.name}" does not run from the side seam to the shoulder')
    flipped = before.place is Place.SHOULDER  # drawn with its side to the left
    shoulder = before if flipped else after
    # a mirrored outline runs the other way: then side and shoulder run as on a piece with its side to the right
    up = run_reversed(side.curves) if flipped else side.curves
    out = shoulder.curves if flipped else run_reversed(shoulder.curves)
    over = _flip(flipped)
    body = Body(over.point(out[-1].end), over.vec(tangent(out[-1], 1.0)), moved_all(run_reversed(up), over))
    room = _down_to_waist(piece, body.side)
    return BodyHalf(piece, half, flipped, armhole, side, _hem_of(step, sleeve), body, _arm(step, sleeve, half), room)


def _down_to_waist(piece: Piece, side: Sequence[Curve]) -> float:
    """How long the side seam is from the armhole down to the waist, mm."""
    waist = line_at(piece, Level.WAIST)
    hits = list(run_hits(side, Point(0.0, waist.start.y), Vec(1.0, 0.0))) if waist else []
    return min((run_length((*side[:k], split(side[k], hit.t)[0])) for k, hit in hits), default=run_length(side))


def _flip(flipped: bool) -> Move:
    """What lays a piece with its side to the right, and back."""
    return mirror(Point(0.0, 0.0), Vec(0.0, 1.0)) if flipped else STAY


def _hem_of(step: str, sleeve: SetIn) -> Edge:
    rest = [edge for edge in sleeve.piece.edges if edge.name not in sleeve.edges.names]
    if len(rest) != 1:
        reason = f'the "{sleeve.piece.name}" ends in {len(rest)} edges; make it without a slit or a dart'
        raise StepRefused(step, reason=reason)
    return rest[0]


def _arm(step: str, sleeve: SetIn, half: Half) -> Arm:
    """Half of the sleeve, from the middle line under its crown."""
    crown = sleeve.cap.crown
    hem = _hem_of(step, sleeve)
    front = half is Half.FRONT
    under = sleeve.cap.front[0].start if front else sleeve.cap.back[0].start
    ends = sorted((hem.start, hem.end), key=lambda at: abs(at.x - under.x))
    foot, peak = (
        next((mark.at for mark in sleeve.piece.points if mark.landmark is landmark), None)
        for landmark in (Landmark.WRIST, Landmark.CROWN)
    )
    middle = foot.x if foot is not None else 0.5 * (hem.start.x + hem.end.x)
    low = foot.y if foot is not None else 0.5 * (hem.start.y + hem.end.y)
    long = distance(peak or crown, Point(middle, low))  # as its length is measured: a cap redrawn may peak beside that
    return Arm(long, crown.y - under.y, abs(under.x - crown.x), abs(ends[0].x - middle))


@dataclass(frozen=True, slots=True)
class HalfMade:
    """A new half, and what its new edges are called."""

    piece: Piece
    half: Half
    slit_at_side: str
    slit_at_sleeve: str
    underarm: str
    over: str


def with_sleeve(half: BodyHalf, new: Drawn) -> HalfMade:
    """The piece with half a sleeve."""
    old, over = half.piece, _flip(half.flipped)
    allowance = half.side.allowance
    taken = {edge.name for edge in old.edges}
    names = [
        free_name(name, taken) for name in ("slit, side", "slit, sleeve", "underarm seam", "wrist", "overarm seam")
    ]
    slit = min(_SLIT, allowance)
    runs: list[tuple[str, Sequence[Curve], Place, float]] = [
        (names[0], (new.slit_at_side,), Place.GUSSET, slit),
        (names[1], (new.slit_at_sleeve,), Place.GUSSET, slit),
        (names[2], (new.underarm,), Place.UNDERARM, allowance),
        (names[3], (new.hem,), Place.WRIST, half.hem.allowance),
        (names[4], new.over, Place.OVERARM, allowance),
    ]
    fresh = [
        Edge(
            name,
            moved_all(tuple(run), over),
            half.hem.role if place is Place.WRIST else Role.SEAM,
            wide,
            place,
            half=half.half,
        )
        for name, run, place, wide in runs
    ]
    if half.flipped:
        fresh = [replace(edge, curves=run_reversed(edge.curves)) for edge in fresh[::-1]]
    parts: list[EdgePart] = []
    edges: list[Edge] = []
    for edge in old.edges:
        if edge.name == half.armhole.name:
            edges += fresh
            continue
        kept: EdgePart | None = whole_edge(edge)
        if edge.name == half.side.name:
            kept = cut(edge, new.at)[1] if half.flipped else cut(edge, edge.length - new.at)[0]
        assert kept is not None
        parts.append(kept)
        edges.append(kept.edge)
    outline_edges = closed(old.name, tuple(edges))
    outline = [curve for edge in outline_edges for curve in edge.curves]
    if outline_crossings(outline):
        raise NotAPattern(old.name, reason="with the sleeve cut in one it would lie over itself; let the arm bend less")
    border = polyline(outline, 0.1)
    marks = tuple(_notch_of(edge, fresh, half.half) for edge in fresh if edge.place in (Place.OVERARM, Place.UNDERARM))
    there = {edge.name for edge in outline_edges}
    pairs = [pair for pair in old.points_meant if set(pair) <= there]
    order = [edge.name for edge in outline_edges]
    for name in names[:2]:
        k = order.index(name)
        pairs += [(order[k - 1], name), (name, order[(k + 1) % len(order)])]
    made = replace(
        old,
        edges=outline_edges,
        notches=(*notches_on(old, made_of(parts)), *marks),
        points=tuple(mark for mark in old.points if holds(border, mark.at)),
        points_meant=tuple(dict.fromkeys(pairs)),
    )
    return HalfMade(with_grain_inside(made), half.half, names[0], names[1], names[2], names[4])


def _notch_of(edge: Edge, fresh: Sequence[Edge], half: Half) -> Notch:
    """The notch of a seam of the sleeve, so far from the wrist."""
    (hem,) = (each for each in fresh if each.place is Place.WRIST)
    at_start = edge.start.near(hem.start) or edge.start.near(hem.end)
    station = Station(edge.name, min(_NOTCH, 0.5 * edge.length), "start" if at_start else "end")
    return Notch(f"{half} {edge.name} notch", station, "double" if half is Half.BACK else "single", NotchMark.BALANCE)


def gusset_piece(pattern: Pattern, side: float, made: Sequence[HalfMade]) -> Piece:
    """The square, its corners to the side seam, the slits and the sleeve; the grain from side to sleeve."""
    far = side / math.sqrt(2.0)
    low, front, up, back = Point(0.0, -far), Point(far, 0.0), Point(0.0, far), Point(-far, 0.0)
    allowance = made[0].piece.edge(made[0].slit_at_side).allowance
    corners = (
        ("front, side", low, front, Half.FRONT),
        ("front, sleeve", front, up, Half.FRONT),
        ("back, sleeve", up, back, Half.BACK),
        ("back, side", back, low, Half.BACK),
    )
    edges = [Edge(name, (Line(a, b),), Role.SEAM, allowance, Place.GUSSET, half=half) for name, a, b, half in corners]
    name = free_name(PieceKind.GUSSET, {piece.name for piece in pattern.pieces})
    meant = tuple((edges[k - 1].name, edges[k].name) for k in range(4))
    grain = Grain(Point(0.0, -0.5 * far), Point(0.0, 0.5 * far))
    return Piece(
        name,
        tuple(edges),
        Cut(2, mirror=True),
        grain,
        points_meant=meant,
        identity=Identity(PieceKind.GUSSET, BodyPart.BODICE),
    )


def joined_up(pattern: Pattern, sleeve: SetIn, made: Sequence[HalfMade], gusset: Piece) -> Pattern:
    """The pattern with the two halves and the gusset, and their seams, in the place of bodice and sleeve."""
    gone = sleeve.piece.name
    by_name = {each.piece.name: each.piece for each in made}
    front = made[0]
    pieces = [by_name.get(piece.name, piece) for piece in pattern.pieces if piece.name != gone]

    def there(ref: NotchRef) -> bool:
        return ref.piece not in by_name or any(n.name == ref.notch for n in by_name[ref.piece].notches)

    seams = [
        replace(seam, notches=tuple(pair for pair in seam.notches if all(map(there, pair))))
        for seam in pattern.seams
        if not any(ref.piece == gone for ref in (*seam.a, *seam.b))
    ]
    taken = {seam.name for seam in seams}
    seams = [_run_on(seam, made) for seam in seams]
    a, b = (_ref_from(each.piece, each.underarm, Place.GUSSET) for each in made)
    new = [Seam(free_name("underarm seam", taken), (a,), (b,), PLAIN, (_pair(made, "underarm"),))]
    for each in made:
        for slit, word in ((each.slit_at_side, "side"), (each.slit_at_sleeve, "sleeve")):
            edge = f"{each.half}, {word}"
            a = _ref_from(each.piece, slit, Place.SIDE if word == "side" else Place.UNDERARM)
            # both from the end at the side or the sleeve to the point of the slit
            b = EdgeRef(gusset.name, edge, gusset.edge(edge).start.x != 0.0)
            new.append(Seam(free_name(f"{each.half} gusset, {word}", taken), (a,), (b,), PLAIN))
    measures = tuple(
        laid for measure in pattern.measures if (laid := _measure_off_sleeve(measure, sleeve, front)) is not None
    )
    return replace(pattern, pieces=(*pieces, gusset), seams=(*seams, *new), measures=measures)


def _pair(made: Sequence[HalfMade], which: str) -> tuple[NotchRef, NotchRef]:
    """The notches of the two new edges that are sewn to each other."""
    front, back = (NotchRef(each.piece.name, f"{each.half} {getattr(each, which)} notch") for each in made)
    return front, back


def _run_on(seam: Seam, made: Sequence[HalfMade]) -> Seam:
    """The shoulder seam run on down the arm; any other as it is."""
    ends = {each.piece.name: each for each in made}
    runs: list[tuple[EdgeRef, ...]] = []
    for run in (seam.a, seam.b):
        half = ends.get(run[0].piece)
        if half is None or any(half.piece.edge(ref.edge).place is not Place.SHOULDER for ref in run):
            return seam
        over = _ref_from(half.piece, half.over, Place.SHOULDER)
        beside = {edge.name for edge in half.piece.beside(half.over)}
        if run[-1].edge in beside:
            runs.append((*run, over))
        else:
            runs.append((replace(over, backward=not over.backward), *run))
    pair = _pair(made, "over")
    if seam.a[0].piece != made[0].piece.name:
        pair = pair[::-1]
    return replace(seam, a=runs[0], b=runs[1], notches=(*seam.notches, pair))


def _ref_from(piece: Piece, name: str, place: Place) -> EdgeRef:
    """The edge walked from its end beside that place."""
    before, _ = piece.beside(name)
    return EdgeRef(piece.name, name, before.place is not place)


def measures_reach(measure: Measure, sleeve: SetIn) -> bool:
    """Whether it is measured from the crown of the sleeve down to its wrist."""
    (stretch,) = measure.tape if len(measure.tape) == 1 else (None,)
    if not isinstance(stretch, Between) or stretch.piece != sleeve.piece.name:
        return False
    marks = {mark.name: mark.landmark for mark in sleeve.piece.points}
    return {marks.get(stretch.one), marks.get(stretch.other)} == {Landmark.CROWN, Landmark.WRIST}


def _measure_off_sleeve(measure: Measure, sleeve: SetIn, front: HalfMade) -> Measure | None:
    """A measurement with its tape off the sleeve: its length is measured along the arm; the others are gone with it."""
    if measures_reach(measure, sleeve):
        return replace(measure, tape=(Along(front.piece.name, front.over),))
    return None if any(part.piece == sleeve.piece.name for part in measure.tape) else measure
