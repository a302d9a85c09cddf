"""Moving a dart: to another seam, to another place on its own, into another dart, or a part of it.

The trade's way (common practice; the longer dart that is wider at the edge is in Erwin, Practical Dress Design,
1954): the piece is cut from the bust point to where the dart is to be, and the part between is turned about the bust
point until the dart is closed, or as far closed as asked for. The angle of the dart at the bust point is then what it
was, and at the radius r it takes up 2 r sin(angle / 2) (plane geometry). Its point is pulled back as far as it was
before. How it is drawn, and why everything else keeps its length to the last digit: see `pivot`.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import ClassVar, Final

from drafting.alterations.base import Alteration, Promise, find_piece
from drafting.alterations.bent import Swing, bent_levels
from drafting.alterations.closing import closed_smoothly, opened_again
from drafting.alterations.parted import (
    Made,
    Part,
    begun_at,
    called,
    cut,
    joined,
    joined_name,
    made_of,
    new_dart_name,
    part_name,
    renamed_notches,
    renamed_points,
    sewn_lengths,
    together,
    whole,
    with_parted,
)
from drafting.alterations.pivot import (
    Turning,
    angle_about,
    dart_angles,
    drawn_dart,
    inside,
    is_centre,
    leg_names,
    region,
    relaid_lines,
    swung_marks,
    turning_of,
)
from drafting.alterations.table import Entry
from drafting.errors import StepRefused, UnknownName
from drafting.geometry import Move, Point, distance, lerp, run_at, run_hits, turn
from drafting.geometry.meet import outline_crossings
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Dart, Edge, MarkPoint, Pattern, Piece, Role, closed, dart_mouth
from drafting.reading.options import Option

__all__ = ["MOVE_DART", "MoveDart"]

_LEAST_ANGLE: Final = math.radians(1.0)
"""The angle that is left of a dart, or made of one, at least: less is not worth sewing (our figure)."""


@dataclass(frozen=True, slots=True)
class MoveDart(Alteration):
    """Move a dart of a piece, or a part of it, to another place on the outline or into another dart.

    to:            an edge, or another dart that is drawn towards the same point
    at, share:     where on the edge: `at` mm, or that share of its length, from the end beside the edge `measured_from`
    part:          how much of the dart's angle is moved, above 0 to 1
    beyond:        for a dart that is drawn towards no marked point: how far past its own point it is turned about, mm
    """

    name: ClassVar[str] = "move a dart"

    piece: str
    dart: str
    to: str
    at: float | None = None
    share: float = 0.5
    measured_from: str = ""
    part: float = 1.0
    beyond: float = 0.0

    def apply(self, pattern: Pattern) -> Pattern:
        plan = _planned(self, pattern)
        after, made = _swung(self, plan)
        altered = with_parted(pattern, plan.piece, after, made)
        mouths = [plan.first[-1].edge.end, plan.second[0].edge.start]
        far, near = mouths if plan.first_moves else reversed(mouths)
        return bent_levels(altered, plan.piece, Swing(plan.turning.pivot, near, far, plan.moves, plan.move))

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        plan = _planned(self, pattern)
        piece, made = _swung(self, plan)
        darts = {self.dart, *(dart.name for dart in piece.darts if dart.name in (self.to, plan.made))}
        what = f"the angle of the darts on {piece.name} at the point they are turned about, radians"
        yield Promise(what, partial(dart_angles, piece.name, tuple(sorted(darts)), plan.turning.pivot))
        for names in together(made):
            what = f"the length of {' and '.join(f'{name!r}' for name in sorted(names))} on {piece.name}"
            yield Promise(what.replace("'", '"'), partial(sewn_lengths, piece.name, frozenset(names)))


MOVE_DART: Final = Entry(
    MoveDart,
    "Move a dart, or a part of it, to another place or into another dart.",
    "the angle of the dart at the point it is turned about; the length of every edge, darts folded",
    "the seams that the dart leaves and enters, whose edges are joined and parted",
    (
        Option("piece", "text", "the piece the dart is on"),
        Option("dart", "text", "the dart to move"),
        Option("to", "text", "the edge it goes to, or the dart it goes into"),
        Option("at", "length", "how far along the edge it goes", 0.0, 2000.0, default=None),
        Option("share", "percent", "how far along, as a share of the edge", 0.0, 1.0, default=0.5),
        Option("measured_from", "text", "the neighbouring edge from which that is measured", default=""),
        Option("part", "percent", "how much of the dart is moved", 0.01, 1.0, default=1.0),
        Option(
            "beyond",
            "length",
            "for a dart that is drawn towards no marked point: how far past its own point it is turned about",
            0.0,
            100.0,
            default=0.0,
        ),
    ),
)


@dataclass(frozen=True, slots=True)
class _Plan:
    """What is done to the piece.

    first, second: the outline from the old dart to the new, and from the new back to the old
    made:          the name of the dart at the new place
    cut:           the edge that was cut there; None where the dart goes into another, or between two edges
    moving:        the part that is turned, as a polygon
    """

    piece: Piece
    dart: Dart
    turning: Turning
    into: Dart | None
    first: tuple[Part, ...]
    second: tuple[Part, ...]
    first_moves: bool
    angle: float
    made: str
    cut: Edge | None
    moving: tuple[Point, ...]

    @property
    def move(self) -> Move:
        """The turn of the part that moves; the other stays."""
        return turn(self.turning.pivot, -self.angle if self.first_moves else self.angle)

    def moves(self, place: Point) -> bool:
        """Whether a place of the piece lies on the part that moves."""
        return inside(self.moving, place)


def _planned(step: MoveDart, pattern: Pattern) -> _Plan:
    piece = find_piece(step.name, pattern, step.piece)
    try:
        dart = piece.dart(step.dart)
    except UnknownName as error:
        raise StepRefused(step.name, str(error)) from error
    if not 0.0 < step.part <= 1.0:
        raise StepRefused(step.name, f"part: {step.part:g} is not more than 0 and at most 1 (the whole dart)")
    turning = turning_of(piece, dart, step.beyond)
    angle = step.part * angle_about(*dart_mouth(piece, dart), turning.pivot)
    if angle < _LEAST_ANGLE:
        raise StepRefused(
            step.name, f'that part of "{dart.name}" is {math.degrees(angle):.2f} degrees, too little to sew'
        )
    at = next(k for k, edge in enumerate(piece.edges) if edge.name == dart.legs[0])
    ring = tuple(whole(edge) for edge in (*piece.edges[at + 2 :], *piece.edges[:at]))
    if any(part.edge.role is Role.DART_LEG for part in (ring[0], ring[-1])):
        raise StepRefused(step.name, f'"{dart.name}" shares its mouth with another dart; move that one first')
    into = next((other for other in piece.darts if other.name == step.to), None)
    if into is not None:
        _accept_merging(step, dart, into)
        k = next(k for k, part in enumerate(ring) if part.edge.name == into.legs[0])
        first, second, cut = ring[:k], ring[k + 2 :], None
    else:
        first, second, cut = _parted(step, piece, dart, ring, turning.pivot)
    if not first or not second:
        raise StepRefused(step.name, f'"{dart.name}" is there already')
    first_moves = _first_moves(piece, first, second, turning.pivot)
    moving = region(turning.pivot, [part.edge for part in (first if first_moves else second)])
    made = into.name if into else dart.name if step.part == 1.0 else new_dart_name(piece, first[-1].edge, cut)
    return _Plan(piece, dart, turning, into, first, second, first_moves, angle, made, cut, moving)


def _accept_merging(step: MoveDart, dart: Dart, into: Dart) -> None:
    if into is dart:
        raise StepRefused(step.name, f'"{dart.name}" cannot be moved into itself; say an edge or another dart')
    if not dart.aims_at or dart.aims_at != into.aims_at:
        reason = f'"{dart.name}" and "{into.name}" are not drawn towards one point, so the one cannot go into the other'
        raise StepRefused(step.name, f"{reason}; move it to an edge")


def _parted(
    step: MoveDart, piece: Piece, dart: Dart, ring: Sequence[Part], pivot: Point
) -> tuple[tuple[Part, ...], tuple[Part, ...], Edge | None]:
    """The outline from the dart to where it is to be, and on from there; and the edge that is cut, if one is."""
    edges = {part.edge.name: part.edge for part in ring if part.edge.role is not Role.DART_LEG}
    if step.to not in edges:
        places = [*edges, *(other.name for other in piece.darts if other is not dart)]
        raise StepRefused(step.name, f"to: {UnknownName('edge or other dart', step.to, places)}")
    edge = edges[step.to]
    if edge.role in (Role.FOLD, Role.OPENING):
        raise StepRefused(step.name, f'"{edge.name}" is no seam, so no dart can be sewn in it; choose another edge')
    at = _place(step, piece, edge)
    _accept_slash(step, piece, dart, pivot, run_at(edge.curves, at))
    k = next(k for k, part in enumerate(ring) if part.edge is edge)
    before, after = cut(edge, at)
    if before is None or after is None:
        k += 0 if before is None else 1
        return tuple(ring[:k]), tuple(ring[k:]), None
    return (*ring[:k], before), (after, *ring[k + 1 :]), edge


def _place(step: MoveDart, piece: Piece, edge: Edge) -> float:
    """Where on the edge the dart goes, mm from its start."""
    k = next(k for k, each in enumerate(piece.edges) if each is edge)
    starts, ends = (called(piece, piece.edges[j % len(piece.edges)]) for j in (k - 1, k + 1))
    at = edge.length * step.share if step.at is None else step.at
    if not 0.0 <= at <= edge.length + SAME_PLACE:
        raise StepRefused(
            step.name, f'at: "{edge.name}" is {edge.length:.1f} mm long, and {at:.1f} mm are past its end'
        )
    if step.measured_from in starts:
        return at
    if step.measured_from in ends:
        return edge.length - at
    if not step.measured_from and step.at is None and step.share == 0.5:
        return at
    between = f'"{starts[0]}" and "{ends[0]}"'
    read = f'"{step.measured_from}"' if step.measured_from else "nothing"
    raise StepRefused(step.name, f'measured_from: read {read}; "{edge.name}" lies between {between}: say one of them')


def _accept_slash(step: MoveDart, piece: Piece, dart: Dart, pivot: Point, place: Point) -> None:
    reach = distance(pivot, place)
    if reach <= 1.0:
        raise StepRefused(step.name, "the place is the very point the dart is turned about; choose one further off")
    for edge in piece.edges:
        if edge.name not in dart.legs:
            for _, hit in run_hits(edge.curves, pivot, place - pivot):
                if 1e-3 < hit.along < reach - 1e-3:
                    reason = f'the line from the point of "{dart.name}" to that place crosses "{edge.name}"'
                    raise StepRefused(step.name, f"{reason}; choose another place")


def _first_moves(piece: Piece, first: Sequence[Part], second: Sequence[Part], pivot: Point) -> bool:
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


def _swung(step: MoveDart, plan: _Plan) -> tuple[Piece, Made]:
    """The piece after the turn, and what its edges are made of."""
    plan, reopened = _reopened(plan)
    move = plan.move
    first, second = (
        tuple(part.moved(move) for part in parts) if moving else parts
        for parts, moving in ((plan.first, plan.first_moves), (plan.second, not plan.first_moves))
    )
    gone, closing = step.part == 1.0, None
    if gone:
        last, head, closing = closed_smoothly(second[-1], first[0], plan.dart.name)
        first, second = _joined(plan, (head, *first[1:]), (*second[:-1], last))
    if plan.cut is not None:
        first, second = _renamed(plan, first, second, gone)
    made = made_of((*first, *second))
    aims_at, aim = _aim(plan)
    model = plan.into or Dart(plan.made, ("", ""), plan.dart.apex, aims_at)
    turning = turning_of(plan.piece, plan.into) if plan.into else plan.turning
    before, after = first[-1].edge, second[0].edge
    legs = plan.into.legs if plan.into else leg_names(plan.made, before, after)
    one, other, dart = drawn_dart(before, after, replace(model, aims_at=aims_at), turning, legs)
    edges = [part.edge for part in first] + [one, other] + [part.edge for part in second]
    darts = {dart.name: dart}
    if not gone:
        into, out, rest = drawn_dart(second[-1].edge, first[0].edge, replace(plan.dart, aims_at=aims_at), plan.turning)
        edges += [into, out]
        darts[rest.name] = rest
    added = [mark for mark in (aim, closing) if mark is not None]
    return _finished(step, plan, edges, darts, made, [reopened] if reopened else [], added), made


def _reopened(plan: _Plan) -> tuple[_Plan, MarkPoint | None]:
    """The plan with the seam as it was before a dart was closed there, and the mark that told it; None for no mark."""
    if plan.into is not None:
        return plan, None
    one, other, mark = opened_again(
        plan.first[-1], plan.second[0], plan.piece.points, plan.turning.pivot, plan.angle, plan.turning.short
    )
    return replace(plan, first=(*plan.first[:-1], one), second=(other, *plan.second[1:])), mark


def _joined(
    plan: _Plan, first: tuple[Part, ...], second: tuple[Part, ...]
) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """The two edges beside the dart that is gone made one again, where they are two parts of one."""
    last, head = second[-1], first[0]
    alike = last.edge.role is head.edge.role and last.edge.allowance == head.edge.allowance
    others = {edge.name for edge in plan.piece.edges} - {last.edge.name, head.edge.name}
    name = joined_name(last.edge.name, head.edge.name, others, [dart.name for dart in plan.piece.darts])
    if name is None or not alike or len(first) == len(second) == 1:
        return first, second
    one = joined(last, head, name)
    # it goes to the half that has this edge only, so that neither is left without
    return ((one, *first[1:]), second[:-1]) if len(second) > 1 else (first[1:], (one,))


def _renamed(
    plan: _Plan, first: tuple[Part, ...], second: tuple[Part, ...], gone: bool
) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """The two parts of the edge that was cut, each called after what lies at its other end."""
    assert plan.cut is not None
    one, other = first[-1], second[0]
    base = next((part.edge.name for part in (one, other) if part.edge.name != plan.cut.name), plan.cut.name)
    before = first[-2].edge if len(first) > 1 else second[-1].edge
    after = second[1].edge if len(second) > 1 else first[0].edge
    old = "" if gone else plan.dart.name
    darts = [
        old if alone else next((dart.name for dart in plan.piece.darts if beside.name in dart.legs), "")
        for beside, alone in ((before, len(first) == 1), (after, len(second) == 1))
    ]
    taken = {part.edge.name for part in (*first[:-1], *second[1:])}
    names = [part_name(base, before, darts[0], taken)]
    names.append(part_name(base, after, darts[1], {*taken, *names}))
    return (
        (*first[:-1], one.named(names[0])),
        (other.named(names[1]), *second[1:]),
    )


def _aim(plan: _Plan) -> tuple[str, MarkPoint | None]:
    """What the dart is drawn towards; a mark of where it was turned about, if its fold misses its aim."""
    aim = plan.dart.aims_at
    if not aim or plan.turning.pivot.near(plan.piece.point(aim)):
        return aim, None
    mark = MarkPoint(f"point the {plan.dart.name} is turned about", plan.turning.pivot)
    return mark.name, mark


def _finished(
    step: MoveDart,
    plan: _Plan,
    edges: Sequence[Edge],
    redrawn: Mapping[str, Dart],
    made: Made,
    dropped: Collection[MarkPoint],
    added: Collection[MarkPoint],
) -> Piece:
    """The piece of these edges, what is marked on it moved with its cloth; some points dropped and some added."""
    piece = plan.piece
    moved_legs = {part.edge.name for part in (plan.first if plan.first_moves else plan.second)}
    darts = []
    for dart in piece.darts:
        if dart.name in redrawn:
            darts.append(redrawn[dart.name])
        elif dart.name != plan.dart.name:
            there = dart.legs[0] in moved_legs
            darts.append(replace(dart, apex=plan.move.point(dart.apex)) if there else dart)
    darts += [dart for name, dart in redrawn.items() if name not in {old.name for old in darts}]
    new = {mark.name for mark in (*dropped, *added)}
    kept = replace(piece, points=tuple(mark for mark in piece.points if mark.name not in new))
    grain, lines, points = swung_marks(kept, plan.moves, plan.move)
    ordered = closed(piece.name, begun_at(piece.edges[0].name, edges, made))
    outline = [curve for edge in ordered for curve in edge.curves]
    after = Piece(
        piece.name,
        ordered,
        piece.cut,
        grain,
        tuple(darts),
        renamed_notches(piece, made),
        relaid_lines(lines, piece.outline, outline, plan.moves),
        (*points, *added),
        renamed_points(piece, ordered, made),
    )
    if outline_crossings(after.outline):
        raise StepRefused(
            step.name, f'"{piece.name}" would lie over itself there; choose another place or a smaller part'
        )
    return after
