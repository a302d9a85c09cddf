"""The place that a dart is moved to: read from the options, with the two parts into which it divides the outline."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from drafting.alterations.alteration import Alteration, find_dart, find_piece
from drafting.alterations.earlier_steps import taken_up, was_there
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.cutting.split_edges import EdgePart, cut, new_dart_name, short_name, whole_edge
from drafting.alterations.techniques.pivoting.pivot import (
    TurnedPart,
    Turning,
    angle_about,
    inside,
    is_centre,
    region,
    turned_part,
    turning_of,
)
from drafting.dataclass import dataclass
from drafting.errors import StepRefused, UnknownName
from drafting.geometry import Point, distance, lerp, run_at, run_hits
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Dart, Edge, Pattern, Piece, Role, dart_mouth

__all__ = ["DartPlan", "DartTarget", "planned"]

_LEAST_ANGLE: Final = math.radians(1.0)
"""The angle that is left of a dart, or made of one, at least: less is not worth sewing (our figure)."""

_LEAST_BESIDE: Final = 5.0
"""mm of seam between a new dart and the end of its edge, at least: less cannot be sewn (our figure)."""


@alteration_class
class DartTarget(Alteration):
    """A step that says of a dart to which edge or into which other dart it goes, and where on that edge."""

    piece: str = option("text", "the piece the dart is on")
    dart: str = option("text", "the dart")
    to: str = option("text", "the edge it goes to, or the dart it goes into")
    at: float | None = option(
        "length", "how far along the edge it goes; left out, share says it", 0.0, 2000.0, default=None
    )
    share: float = option("percent", "how far along, as a share of the edge", 0.0, 1.0, default=0.5)
    measured_from: str = option(
        "text", "the neighbouring edge from which at or share is measured; left out only half way along", default=""
    )


@dataclass(frozen=True, slots=True)
class DartPlan:
    """What is done to the piece.

    first, second: the outline from the old dart to the new, and from the new back to the old
    gone:          whether no dart is left at the old place
    made:          the name of the dart at the new place
    cut:           the edge that was cut there; None where the dart goes into another, or between two edges
    part:          the part that is turned; the other stays
    """

    piece: Piece
    dart: Dart
    turning: Turning
    into: Dart | None
    first: tuple[EdgePart, ...]
    second: tuple[EdgePart, ...]
    first_moves: bool
    angle: float
    gone: bool
    made: str
    cut: Edge | None
    part: TurnedPart


def planned(step: DartTarget, pattern: Pattern, *, part: float = 1.0, beyond: float = 0.0) -> DartPlan:
    """What is done to the piece. Raises StepRefused for what makes no sense on it.

    part:   which part of the dart is moved, above 0 to 1
    beyond: how far past its own point it is turned about, mm, where it is drawn towards no marked point
    """
    piece = find_piece(step.name, pattern, step.piece)
    dart = find_dart(step.name, piece, step.dart, pattern=pattern)
    if beyond and dart.aims_at:
        reason = f'"{dart.name}" is drawn towards the marked point "{dart.aims_at}" and turned about that'
        raise StepRefused(step.name, reason=f"{reason}; leave beyond out")
    turning = turning_of(piece, dart, beyond)
    angle = part * angle_about(*dart_mouth(piece, dart), turning.pivot)
    if angle < _LEAST_ANGLE:
        raise StepRefused(
            step.name, reason=f'that part of "{dart.name}" is {math.degrees(angle):.2f} degrees, too little to sew'
        )
    rest = angle / part - angle
    if part < 1.0 and rest < _LEAST_ANGLE:
        left = f'{math.degrees(rest):.2f} degrees would be left of "{dart.name}", too little to sew'
        raise StepRefused(step.name, reason=f"{left}; move all of it", remedies=instead(step.name, "part", 1.0, "%"))
    at = piece.index(dart.legs[0])
    ring = tuple(whole_edge(edge) for edge in (*piece.edges[at + 2 :], *piece.edges[:at]))
    if any(part.edge.role is Role.DART_LEG for part in (ring[0], ring[-1])):
        reason = f'"{dart.name}" lies right beside another dart, with no seam between them; move the other one'
        legs = (ring[0].edge.name, ring[-1].edge.name)
        others = [other.name for other in piece.darts if other is not dart and set(legs) & set(other.legs)]
        remedies = [each for other in others for each in instead(step.name, "dart", other)]
        raise StepRefused(step.name, reason=reason, remedies=remedies)
    into = next((other for other in piece.darts if other.name == step.to), None)
    if into is not None:
        _accept_merging(step, dart, into)
        k = next(k for k, part in enumerate(ring) if part.edge.name == into.legs[0])
        first, second, cut = ring[:k], ring[k + 2 :], None
    else:
        first, second, cut = _outline_parted(step, pattern, piece, dart, ring, turning.pivot)
    if not first or not second:
        raise StepRefused(step.name, reason=f'"{dart.name}" is there already')
    first_moves = _first_moves(piece, first, second, turning.pivot)
    moving = [part.edge for part in (first if first_moves else second)]
    turned = turned_part(turning.pivot, moving, -angle if first_moves else angle)
    gone = part == 1.0
    made = into.name if into else dart.name if gone else new_dart_name(piece, cut or first[-1].edge)
    return DartPlan(piece, dart, turning, into, first, second, first_moves, angle, gone, made, cut, turned)


def _accept_merging(step: DartTarget, dart: Dart, into: Dart) -> None:
    if step.at is not None or step.share != 0.5 or step.measured_from:
        reason = f'"{into.name}" is a dart, and a dart goes into another where that one is'
        raise StepRefused(step.name, reason=f"{reason}; leave at, share and measured_from out")
    if into is dart:
        raise StepRefused(step.name, reason=f'"{dart.name}" cannot be moved into itself; say an edge or another dart')
    if not dart.aims_at or dart.aims_at != into.aims_at:
        reason = f'"{dart.name}" and "{into.name}" are not drawn towards one point, so the one cannot go into the other'
        raise StepRefused(step.name, reason=f"{reason}; say an edge in its place")


def _outline_parted(
    step: DartTarget, pattern: Pattern, piece: Piece, dart: Dart, ring: Sequence[EdgePart], pivot: Point
) -> tuple[tuple[EdgePart, ...], tuple[EdgePart, ...], Edge | None]:
    """The outline from the dart to where it is to be, and on from there; and the edge that is cut, if one is."""
    edges = {part.edge.name: part.edge for part in ring if part.edge.role is not Role.DART_LEG}
    meant = [edges[step.to]] if step.to in edges else [edge for edge in edges.values() if edge.place == step.to]
    if len(meant) != 1:
        places = [*edges, *(other.name for other in piece.darts if other is not dart)]
        why = taken_up(pattern, piece.name, step.to) if was_there(pattern, piece.name, step.to) else ""
        gone = f'"{piece.name}" has no "{step.to}" any more: {why}, or say another edge' if why else ""
        raise StepRefused(step.name, reason=f"to: {gone or UnknownName('edge or other dart', step.to, places)}")
    edge = meant[0]
    if edge.role in (Role.FOLD, Role.OPENING):
        raise StepRefused(
            step.name, reason=f'"{edge.name}" is no seam, so no dart can be sewn in it; choose another edge'
        )
    at = _place(step, piece, edge)
    _accept_slash(step, piece, dart, pivot, run_at(edge.curves, at))
    k = next(k for k, part in enumerate(ring) if part.edge is edge)
    before, after = cut(edge, at)
    if before is None or after is None:
        k += 0 if before is None else 1
        return tuple(ring[:k]), tuple(ring[k:]), None
    if min(at, edge.length - at) < _LEAST_BESIDE:
        raise StepRefused(
            step.name, reason=f'that leaves less than {_LEAST_BESIDE:.0f} mm of "{edge.name}" beside the dart'
        )
    return (*ring[:k], before), (after, *ring[k + 1 :]), edge


def _place(step: DartTarget, piece: Piece, edge: Edge) -> float:
    """Where on the edge the dart goes, mm from its start."""
    if step.at is not None and step.share != 0.5:
        raise StepRefused(step.name, reason="both at and share say where on the edge; leave one of them out")
    starts, ends = (_beside(piece, each) for each in piece.beside(edge.name))
    at = edge.length * step.share if step.at is None else step.at
    if not 0.0 <= at <= edge.length + SAME_PLACE:
        reason = f'at: "{edge.name}" is {edge.length:.1f} mm long, and {at:.1f} mm are past its end'
        raise StepRefused(step.name, reason=reason, too_much=("at",))
    # by its own name first: a person may call an edge by the word for another
    found = [
        (names.index(step.measured_from), first)
        for names, first in ((starts, True), (ends, False))
        if step.measured_from in names
    ]
    if found:
        return at if min(found)[1] else edge.length - at
    if not step.measured_from and step.at is None and step.share == 0.5:
        return at
    between = f'"{starts[0]}" and "{ends[0]}"'
    read = f'"{step.measured_from}"' if step.measured_from else "nothing"
    raise StepRefused(
        step.name, reason=f'measured_from: read {read}; "{edge.name}" lies between {between}: say one of them'
    )


def _beside(piece: Piece, edge: Edge) -> tuple[str, ...]:
    """What an edge's neighbour may be called: by its name, by its short name, or by the name of its dart."""
    dart = next((dart.name for dart in piece.darts if edge.name in dart.legs), "")
    return (dart,) if dart else (edge.name, str(edge.place or ""), short_name(edge))


def _accept_slash(step: DartTarget, piece: Piece, dart: Dart, pivot: Point, place: Point) -> None:
    reach = distance(pivot, place)
    if reach <= 1.0:
        raise StepRefused(
            step.name, reason="the place is the very point the dart is turned about; choose one further off"
        )
    for edge in piece.edges:
        if edge.name not in dart.legs:
            for _, hit in run_hits(edge.curves, pivot, place - pivot):
                if 1e-3 < hit.along < reach - 1e-3:
                    reason = f'the line from the point of "{dart.name}" to that place crosses "{edge.name}"'
                    raise StepRefused(step.name, reason=f"{reason}; choose another place")


def _first_moves(piece: Piece, first: Sequence[EdgePart], second: Sequence[EdgePart], pivot: Point) -> bool:
    """Which part is turned: not the one with the centre line, or else not with the grain, or else not the longer."""
    centre = [any(is_centre(part.edge) for part in parts) for parts in (first, second)]
    if centre[0] != centre[1]:
        return centre[1]
    if piece.grain is not None:
        middle = lerp(piece.grain.start, piece.grain.end, 0.5)
        within = [inside(region(pivot, [part.edge for part in parts]), middle) for parts in (first, second)]
        if within[0] != within[1]:
            return within[1]
    long = [sum(part.edge.length for part in parts) for parts in (first, second)]
    return long[0] < long[1]
