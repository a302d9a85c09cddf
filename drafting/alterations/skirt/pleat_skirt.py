"""A skirt in pleats, below its waist or its yoke: it looks as wide as before, and the cloth folded away is added.

Each quarter is redrawn, straight along the grain, so that every fold lies on a thread; its darts go into the pleats.
How pleats are laid: see `pleat_plan.py`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import Final, TypeGuard

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.one_piece import ONLY
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finer_length, finished_changes
from drafting.alterations.skirt.pleat_plan import (
    KNIFE,
    PLEATS,
    PleatPlan,
    deepest,
    folds_for,
    pleat_lines,
    pleat_notches,
    pleat_plan,
    width_of,
)
from drafting.alterations.skirt.quarters_to_change import all_else_kept, quarters_taking_part, refused_with_cause
from drafting.alterations.skirt.skirt_fullness import waist_length
from drafting.alterations.skirt.skirt_quarter import Quarter
from drafting.alterations.techniques.cutting.seam_for_fold import seamed_where_too_wide
from drafting.alterations.techniques.marks.grain_line import with_grain_inside
from drafting.alterations.techniques.marks.seam_ease import with_ease
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, StepRefused
from drafting.geometry import Line, Move, Point, Vec, mirror, shift
from drafting.pattern import (
    Across,
    Along,
    BodyPart,
    Edge,
    EdgeRef,
    Half,
    Level,
    MarkLine,
    Measure,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    Place,
    Seam,
    SeamEase,
    Station,
    Tape,
    closed,
    edge_at,
    from_start,
    line_at,
    relaid,
    with_pieces,
)
from drafting.pattern.piece_parts import End

__all__ = ["PleatSkirt"]

_LEVEL: Final = 35.0  # mm that an upper edge rises to the side, and counts as level (ours: a waist does by 1 or 2 cm)
_UPRIGHT: Final = 1e-3  # mm by which a centre line may lean
_ROUNDING: Final = 1e-6
_SEEN: Final = 4.0  # mm between two folds at the least that a notch is set into (ours)


@dataclass(frozen=True, slots=True)
class _Folded:
    """A quarter in pleats: the pleats, how long its top is once they are folded, and how far it is to hip and hem.

    wider: by how much more than it was it is wide at the hip: below an edge that is longer, as that of a deep yoke
    yoked: whether it hangs from a yoke, the notches of which are moved with its own; those of a bodice stay
    """

    quarter: Quarter
    plan: PleatPlan
    sewn: float
    depth: float
    long: float
    wider: float
    yoked: bool


@alteration_class
class PleatSkirt(Alteration):
    """Lay a skirt in pleats, from its waist or its yoke to the hem."""

    name = "pleat skirt"
    layer = Layer.STYLE  # before a wrap: what wraps over is pleated like the rest, and nothing is pleated after it
    needs = ((BodyPart.SKIRT,),)
    about = "Lay a skirt in pleats below its waist or its yoke; its darts go into them."
    leaves = (
        "what it measures once it is folded, but for a hip narrower than the edge it hangs from; the centre lines; "
        "all but the skirt"
    )
    carries = (
        "the cloth folded away declared for its upper seam, its notches, and the side seams, which become straight"
    )

    pleats: str = option("choice", "how they are folded", choices=PLEATS, default=KNIFE)
    wide: float = option("length", "about how much of each is seen at the hip", 15.0, 250.0, default=50.0)
    depth: float | None = option(
        "length",
        "how deep each fold lies; left out, as deep as it can without lapping over the next",
        5.0,
        250.0,
        default=None,
        or_less=True,
    )
    only: str = option("text", ONLY, default="", seldom=True)

    def apply(self, pattern: Pattern) -> Pattern:
        found = _folded(self, pattern)
        for name, folded in found.items():
            pattern = _with_pleats(pattern, name, folded)
        return seamed_where_too_wide(pattern, found)

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        found = _folded(self, pattern)
        for measure in pattern.measures:
            at_hip = (part for part in measure.tape if _is_hip(part, found))
            yield finished_changes(measure, sum(part.times * found[part.piece].wider for part in at_hip))
        yield from all_else_kept(pattern, [folded.quarter for folded in found.values()])


def _is_hip(part: Tape, found: Mapping[str, _Folded]) -> TypeGuard[Across]:
    """Whether a part of a tape lies along the hip line of one of these."""
    if not isinstance(part, Across) or part.piece not in found:
        return False
    return found[part.piece].quarter.piece.line(part.line).level is Level.HIP


def _folded(step: PleatSkirt, pattern: Pattern) -> Mapping[str, _Folded]:
    for piece in pattern.pieces:
        if edge_at(piece, Place.POCKET_MOUTH) and edge_at(piece, Place.HEM):
            reason = (
                f'"{piece.name}" has a slanted pocket, which does not go with pleats; take a pocket in the side seam'
            )
            raise StepRefused(step.name, reason=f"{reason} instead")
    quarters = quarters_taking_part(step.name, pattern, step.only, 1.0)
    out = {}
    with refused_with_cause(step.name, pattern):
        for quarter in quarters:
            out[quarter.piece.name] = _plan(step, pattern, quarter)
    return out


def _plan(step: PleatSkirt, pattern: Pattern, quarter: Quarter) -> _Folded:
    """Where the folds of a quarter of a skirt lie and how deep they are, mm; StepRefused for too deep ones."""
    piece = quarter.piece
    half = piece.identity.half or Half.FRONT
    top, low = quarter.centre, quarter.hem[0].start
    if abs(top.x - low.x) > _UPRIGHT:
        raise NotAPattern(
            piece.name, reason="its centre line is not straight, so that no pleat would lie along the grain"
        )
    line = line_at(piece, Level.HIP)
    if line is not None and line.curves:
        raise NotAPattern(
            piece.name, reason="its hip line is curved, as that of a circle is, so that no pleat lies in it"
        )
    at_side = max(quarter.side.start.y, quarter.side.end.y)
    if at_side - top.y > _LEVEL:
        raise NotAPattern(
            piece.name, reason="its upper edge comes to a point at the centre, and pleats hang from a level one"
        )
    seam = _seam_of(pattern, quarter)
    sewn = waist_length(quarter) if seam is None else finer_length(pattern, seam.b)
    depth = top.y - max(line.start.y, line.end.y) if line else 0.0
    at_hip = abs(line.end.x - line.start.x) if line else sewn
    hip = max(at_hip, sewn)
    count = folds_for(step.pleats, half, hip, step.wide)
    most = deepest(step.pleats, width_of(step.pleats, half, hip, count))
    if step.depth is not None and step.depth > most + _ROUNDING:
        beneath = f"folds {step.depth:.0f} mm deep would lap over each other beneath pleats so wide"
        reason = f"{beneath}: {most:.1f} mm is the most"
        raise StepRefused(step.name, reason=reason)
    plan = pleat_plan(step.pleats, half, count, step.depth or most, hip=hip, waist=sewn)
    yoked = seam is not None and all(pattern.piece(ref.piece).identity.part is BodyPart.SKIRT for ref in seam.b)
    return _Folded(quarter, plan, sewn, depth, top.y - low.y, hip - at_hip, yoked)


def _seam_of(pattern: Pattern, quarter: Quarter) -> Seam | None:
    """The seam that its top is sewn in, with nothing else; None where it is in none."""
    runs = {seam: {(ref.piece, ref.edge) for ref in seam.a} for seam in pattern.seams}
    seam = next((seam for seam, run in runs.items() if run & quarter.sewn_at), None)
    if seam is not None and runs[seam] != quarter.sewn_at:
        raise NotAPattern(quarter.piece.name, reason="something else lies in the seam of its upper edge as well")
    return seam


def _with_pleats(pattern: Pattern, name: str, folded: _Folded) -> Pattern:
    """The pattern with one piece pleated, its measurements laid over it, and its waist seam eased by the folds."""
    quarter = folded.quarter
    seam = _seam_of(pattern, quarter)
    piece = _pleated_piece(folded)
    names = [edge.name for edge in quarter.sewn]
    kept = names[0]
    seams = [
        replace(each, a=tuple(ref for ref in each.a if ref.edge == kept)) if each is seam else each
        for each in pattern.seams
    ]
    tapes = relaid(pattern.measures, name, partial(_tape, folded=folded, kept=kept, others=names[1:]))
    bare = with_pieces(replace(pattern, seams=(), measures=tapes), piece)
    pattern = replace(bare, seams=tuple(seams))
    if seam is None:
        return pattern
    more = finer_length(pattern, (EdgeRef(name, kept),)) - folded.sewn
    return _with_partners_moved(with_ease(pattern, seam.name, SeamEase(more, more, more)), seam.name, folded)


def _with_partners_moved(pattern: Pattern, name: str, folded: _Folded) -> Pattern:
    """The pattern with what the notches of the pleated edge meet moved along with them."""
    seam, quarter = pattern.seam(name), folded.quarter
    ref, *more = seam.b
    if more or not folded.yoked:
        return pattern
    piece = pattern.piece(ref.piece)
    on_top = {edge.name for edge in quarter.sewn}
    mine = seam.a[0]
    from_centre = mine.backward is quarter.to_right
    stations = {}
    for one, other in seam.notches:
        was = quarter.piece.notch(one.notch).station
        if other.piece != piece.name or was.edge not in on_top:
            continue
        at = _sewn_from_centre(folded, was)
        by = (_between_pleats(folded, at)[0] - at) * (1.0 if from_centre is not ref.backward else -1.0)
        station = piece.notch(other.notch).station
        stations[other.notch] = replace(station, at=station.at + (by if station.end == "start" else -by))
    notches = tuple(replace(n, station=stations.get(n.name, n.station)) for n in piece.notches)
    return with_pieces(pattern, replace(piece, notches=notches))


def _tape(_measure: Measure, part: Tape, folded: _Folded, kept: str, others: list[str]) -> Iterator[Tape]:
    if isinstance(part, Along) and part.edge in others:
        return
    if isinstance(part, Along) and part.edge == kept:
        yield replace(part, times=part.times * folded.plan.at_waist)
    elif _is_hip(part, {folded.quarter.piece.name: folded}):
        yield replace(part, times=part.times * folded.plan.shown)
    else:
        yield part


def _pleated_piece(folded: _Folded) -> Piece:
    """The quarter redrawn: its centre edges where they are, all else straight."""
    quarter, piece = folded.quarter, folded.quarter.piece
    way = 1.0 if quarter.to_right else -1.0
    top, low = quarter.centre, quarter.hem[0].start
    far, corner = top + Vec(way * folded.plan.wide, 0.0), low + Vec(way * folded.plan.wide, 0.0)
    kept = quarter.sewn[0].name
    legs = {leg for dart in piece.darts for leg in dart.legs}
    lines = {
        quarter.hem_name: (low, corner),
        quarter.side.name: (corner, far),
        kept: (far, top),
    }
    edges = []
    for edge in piece.edges:
        if edge.name in lines:
            start, end = lines[edge.name]
            edges.append(replace(edge, curves=(Line(start, end) if quarter.to_right else Line(end, start),)))
        elif edge.name not in legs and edge.name not in {each.name for each in quarter.sewn}:
            edges.append(edge)
    marks = pleat_lines(folded.plan, 0.0, folded.plan.wide, hip=folded.depth, long=folded.long)
    move = shift(Vec(top.x, top.y)) if quarter.to_right else _mirrored(top)
    pleats = tuple(mark.moved(move) for mark in marks)
    level = tuple(_level(mark, top.x, far.x) for mark in piece.lines)
    there = {edge.name for edge in edges}
    meant = (pair for pair in piece.points_meant if there.issuperset(pair))
    kept_notches = [_notch(folded, notch) for notch in piece.notches]
    made = replace(
        piece,
        edges=closed(piece.name, tuple(edges)),
        darts=(),
        notches=(*kept_notches, *_pleats_notched(folded, marks, kept_notches)),
        lines=(*level, *pleats),
        points_meant=(*meant, *_corner(tuple(edges), quarter.side.name, kept)),
    )
    return with_grain_inside(made)


def _pleats_notched(folded: _Folded, lines: Iterable[MarkLine], others: Iterable[Notch]) -> Iterator[Notch]:
    """A notch at both cut edges for each fold and each place of a pleat; others: those that stand there already."""
    quarter, wide = folded.quarter, folded.plan.wide
    top = quarter.sewn[0].name
    ends: tuple[End, End] = ("end", "start") if quarter.to_right else ("start", "end")
    stations = [notch.station for notch in others if notch.station.edge == top]
    taken = [each.at if each.end == ends[0] else wide - each.at for each in stations]
    for marks, edge, end in zip(pleat_notches(lines, wide, taken), (top, quarter.hem_name), ends, strict=True):
        for name, at, mark in marks:
            yield Notch(name, Station(edge, at, end), marks=mark)


def _corner(edges: Sequence[Edge], side: str, top: str) -> Iterator[tuple[str, str]]:
    """The corner of the side and the top: pleats hang straight from a yoke whose side still slants there."""
    for one, other in pairwise((*edges, edges[0])):
        if {one.name, other.name} == {side, top} and Place.YOKE in (one.place, other.place):
            yield one.name, other.name


def _mirrored(top: Point) -> Move:
    """From a drawing to the right of a centre line to one to the left of it."""
    return mirror(Point(0.0, 0.0), Vec(0.0, 1.0)).then(shift(Vec(top.x, top.y)))


def _level(mark: MarkLine, one: float, other: float) -> MarkLine:
    y = max(mark.start.y, mark.end.y)
    same_way = (mark.end.x - mark.start.x) * (other - one) > 0.0
    first, last = (one, other) if same_way else (other, one)
    return mark.straight(Point(first, y), Point(last, y))


def _notch(folded: _Folded, notch: Notch) -> Notch:
    """A notch where it belongs on the new outline."""
    quarter = folded.quarter
    kept = quarter.sewn[0].name
    top_first = "end" if quarter.to_right else "start"  # of the side seam, which end is at the top
    if notch.station.edge == quarter.side.name and notch.marks is NotchMark.HIP:
        return replace(notch, station=Station(quarter.side.name, folded.depth, top_first))  # type: ignore[arg-type]
    if notch.station.edge not in {edge.name for edge in quarter.sewn}:
        return notch
    _, flat = _between_pleats(folded, _sewn_from_centre(folded, notch.station))
    return replace(notch, station=Station(kept, flat, "end" if quarter.to_right else "start"))


def _between_pleats(folded: _Folded, sewn: float) -> tuple[float, float]:
    """How far from the centre a notch is set, mm: once it is sewn, and on the cloth.

    Below a yoke it is in the middle of the part of the nearest pleat that shows, so that no mark of a pleat is near.
    """
    lines = sorted(each.waist for each in folded.plan.marks)
    if not folded.yoked:
        flat = sewn
        for start, end in zip(lines[::2], lines[1::2], strict=True):
            flat += end - start if flat > start else 0.0
        return sewn, flat
    starts, ends = (*lines[::2], folded.plan.wide), (0.0, *lines[1::2])
    best, gone = (math.inf, 0.0, 0.0), 0.0
    for k, (begins, stops) in enumerate(zip(ends, starts, strict=True)):
        if k:
            gone += begins - starts[k - 1]
        middle = 0.5 * (begins + stops)
        if stops - begins > _SEEN:
            best = min(best, (abs(middle - gone - sewn), middle - gone, middle))
    return best[1], best[2]


def _sewn_from_centre(folded: _Folded, station: Station) -> float:
    """How far from the centre a place of the waist lies once it is sewn, mm."""
    quarter, gone = folded.quarter, 0.0
    for edge in quarter.sewn:
        if station.edge == edge.name:
            at = from_start(edge, station)
            gone += edge.length - at if quarter.to_right else at
            break
        gone += edge.length
    return gone * folded.sewn / waist_length(quarter)
