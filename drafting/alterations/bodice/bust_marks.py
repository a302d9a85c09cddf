"""The marks and the centre line of a front after it was slashed: each moves with the cloth it lies on."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace
from typing import Final

from drafting.alterations.bodice.bust_zones import Front, Zone
from drafting.alterations.techniques.cutting.split_edges import Made, begun_at, renamed_notches, renamed_points
from drafting.alterations.techniques.marks.levels_over_darts import (
    Swing,
    bent_line,
    fold_place,
    onward_of,
    straightened,
)
from drafting.alterations.techniques.pivoting.pivot import inside, lines_to_outline
from drafting.geometry import Line, Move, Point, Vec, lerp, turn
from drafting.pattern import Dart, Edge, Grain, Landmark, MarkLine, Notch, Piece, closed, from_start, points_at

__all__ = ["lengthened", "marked"]

_RUNS_ON: Final = 1e-9
"""The sine of the angle under which a line, folded, runs on in another: the rounding of two turns."""


def lengthened(front: Front, edge: Edge, raised: Vec) -> Edge:
    """An edge of the centre line, what of it lies above the cut raised."""
    return replace(edge, curves=(Line(_raised(front, edge.start, raised), _raised(front, edge.end, raised)),))


def _raised(front: Front, place: Point, raised: Vec) -> Point:
    return place + raised if _is_above(front, place) else place


def _is_above(front: Front, place: Point) -> bool:
    """Whether a place on the centre part lies above the cut across it."""
    return (place - front.bust.pivot).dot(front.up) > front.level


def marked(
    front: Front,
    edges: list[Edge],
    redrawn: list[Dart],
    made: Made,
    moves: Mapping[Zone, Move],
    drop: float,
    measured: Collection[str],
) -> Piece:
    """The piece of these edges, what is marked on it moved with its cloth."""
    piece = front.piece
    regions = {zone: front.zone_region(zone) for zone in moves if zone in ("sliver", "under", "lower")}

    def zone_of(place: Point) -> Zone:
        for zone, polygon in regions.items():
            if polygon and inside(polygon, place):
                return zone
        return "upper" if _is_above(front, place) else "waist"

    by_leg = {part.edge.name: zone for part, zone in zip(front.ring, front.zones, strict=True)}
    by_name = {dart.name: dart for dart in redrawn}
    darts = [by_name.pop(dart.name, None) or _carried(dart, by_leg, moves) for dart in piece.darts]
    aims = {mark.name for mark in points_at(piece, Landmark.BUST_POINT)}
    aims |= {dart.aims_at for dart in (front.bust_dart, front.waist_dart) if dart}
    points = tuple(
        mark.placed((moves["bust point"] if mark.name in aims else moves[zone_of(mark.at)]).point(mark.at))
        for mark in piece.points
    )
    ordered = closed(piece.name, begun_at(piece.edges[0].name, edges, made))
    outline = [curve for edge in ordered for curve in edge.curves]
    return replace(
        piece,
        edges=ordered,
        grain=_grain(front, moves),
        darts=(*(dart for dart in darts if dart is not None), *by_name.values()),
        notches=tuple(_notch(front, notch, drop) for notch in renamed_notches(piece, made)),
        lines=lines_to_outline(_lines(front, measured, zone_of, moves), piece.outline, outline, lambda _: False),
        points=points,
        points_meant=renamed_points(piece, ordered, made),
    )


def _carried(dart: Dart, by_leg: Mapping[str, Zone], moves: Mapping[Zone, Move]) -> Dart | None:
    """A dart that went along with its zone; None for one that is gone."""
    zone = by_leg.get(dart.legs[0])
    return None if zone is None else replace(dart, apex=moves[zone].point(dart.apex))


def _lines(
    front: Front, measured: Collection[str], zone_of: Callable[[Point], Zone], moves: Mapping[Zone, Move]
) -> list[MarkLine]:
    """Every level keeps its height; a measured one that runs across the bust dart is bent there."""
    names = {line.name for line in front.piece.lines}
    mouth = front.bust_mouth
    swing = Swing(front.bust.pivot, *mouth, lambda place: zone_of(place) == "under", moves["under"])
    pivot = moves["bust point"].point(front.bust.pivot)
    lower, upper = moves["lower"].point(mouth[0]), moves["under"].point(mouth[1])

    def up_to_fold(near: MarkLine, far: MarkLine) -> tuple[MarkLine, MarkLine]:
        """Both parts of a bent line up to the fold of the dart as it is now, if it is this dart that bends it."""
        fold = turn(pivot, (upper - pivot).angle_to(lower - pivot))
        along = (near.end - near.start).unit()
        if abs(along.cross(fold.vec(far.end - far.start).unit())) > _RUNS_ON:
            return near, far
        one = fold_place(near.start, near.end, pivot, lower) or near.end
        other = fold_place(far.end, far.start, pivot, upper) or far.start
        return near.straight(near.start, one), far.straight(other, far.end)

    lines: list[MarkLine] = []
    for line in front.piece.lines:
        if line.onward:
            continue
        onward = onward_of(line, front.piece.lines)
        if onward is not None:
            its = zone_of(onward.end)
            far = onward.straight(moves[its].point(onward.start), moves[its].point(onward.end))
            near = line.straight(line.start, moves["lower"].point(line.end))
            if its == "under":
                near, far = up_to_fold(near, far)
            straight = straightened(near, far)
            lines += [near, far] if straight is None else [straight]
            continue
        crossing = bent_line(line, None, swing, names) if line.name in measured and swing.moves(line.end) else None
        if crossing is not None and crossing[1] is not None:
            near = line.straight(crossing[0].start, moves["lower"].point(crossing[0].end))
            lines += up_to_fold(near, crossing[1])
            continue
        ends = [moves["lower"].point(end) if zone_of(end) == "lower" else end for end in (line.start, line.end)]
        lines.append(line.straight(ends[0], ends[1]))
    return lines


def _grain(front: Front, moves: Mapping[Zone, Move]) -> Grain | None:
    """The grain line, made longer with the centre part."""
    grain = front.piece.grain
    if grain is None:
        return None
    ends = [moves["upper" if _is_above(front, end) else "waist"].point(end) for end in (grain.start, grain.end)]
    return Grain(ends[0], ends[1])


def _notch(front: Front, notch: Notch, drop: float) -> Notch:
    """A notch of the centre line stays on its part of it."""
    edge = next((edge for edge in front.centre if edge.name == notch.station.edge), None)
    if edge is None:
        return notch
    at = lerp(edge.start, edge.end, from_start(edge, notch.station) / edge.length)
    counted_from = edge.start if notch.station.end == "start" else edge.end
    if _is_above(front, at) == _is_above(front, counted_from):
        return notch
    return notch.moved_to(notch.station.at + drop)
