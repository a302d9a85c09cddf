"""A part of a piece turned about the point of a dart, so that the dart closes here and opens there."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from drafting.alterations.techniques.cutting.split_edges import (
    EdgePart,
    Made,
    begun_at,
    joined,
    joined_name,
    made_of,
    part_name,
    renamed_notches,
    renamed_points,
    word_beside,
)
from drafting.alterations.techniques.pivoting.close_dart import closed_smoothly, opened_again
from drafting.alterations.techniques.pivoting.dart_target import DartPlan
from drafting.alterations.techniques.pivoting.pivot import drawn_dart, leg_names, turning_of, with_part_turned
from drafting.errors import StepRefused
from drafting.geometry.meet import outline_crossings
from drafting.pattern import Dart, Edge, Landmark, MarkPoint, Piece, closed, free_name

__all__ = ["with_dart_moved"]


def with_dart_moved(step: str, plan: DartPlan) -> tuple[Piece, Made]:
    """The piece after the turn, and what its edges are made of."""
    plan, reopened = _reopened(plan)
    move = plan.part.move
    first, second = (
        tuple(part.moved(move) for part in parts) if moving else parts
        for parts, moving in ((plan.first, plan.first_moves), (plan.second, not plan.first_moves))
    )
    gone = plan.gone
    closing: tuple[MarkPoint, ...] = ()
    if gone:
        about = plan.turning
        last, head, closing = closed_smoothly(
            second[-1], first[0], plan.dart.name, about.pivot, plan.angle, about.short, plan.piece.points
        )
        first, second = _joined((head, *first[1:]), (*second[:-1], last))
    words = ("", "")
    if plan.cut is not None:
        first, second, words = _renamed(plan, first, second, gone)
    made = made_of((*first, *second))
    aims_at, aim = _aim(plan)
    model = plan.into or Dart(plan.made, ("", ""), plan.dart.apex, aims_at)
    turning = turning_of(plan.piece, plan.into) if plan.into else plan.turning
    before, after = first[-1].edge, second[0].edge
    kept = {part.edge.name for part in (*first, *second)} | set(() if gone else plan.dart.legs)
    legs = plan.into.legs if plan.into else leg_names(plan.made, (before.end, after.start), words, kept)
    one, other, dart = drawn_dart(before, after, replace(model, aims_at=aims_at), turning, legs)
    edges = [part.edge for part in first] + [one, other] + [part.edge for part in second]
    darts = {dart.name: dart}
    if not gone:
        into, out, rest = drawn_dart(second[-1].edge, first[0].edge, replace(plan.dart, aims_at=aims_at), plan.turning)
        edges += [into, out]
        darts[rest.name] = rest
    added = [*closing, *([aim] if aim else [])]
    return _finished(step, plan, edges, darts, made, reopened, added), made


def _reopened(plan: DartPlan) -> tuple[DartPlan, tuple[MarkPoint, ...]]:
    """The plan with the old seam where a dart was closed, and the marks by which that seam was found again."""
    if plan.into is not None:
        return plan, ()
    one, other, marks = opened_again(
        plan.first[-1], plan.second[0], plan.piece.points, plan.turning.pivot, plan.angle, plan.turning.short
    )
    return replace(plan, first=(*plan.first[:-1], one), second=(other, *plan.second[1:])), marks


def _joined(
    first: tuple[EdgePart, ...], second: tuple[EdgePart, ...]
) -> tuple[tuple[EdgePart, ...], tuple[EdgePart, ...]]:
    """The two edges beside the dart that is gone made one again, where they are two parts of one."""
    last, head = second[-1], first[0]
    rest = [part.edge for part in (*first[1:], *second[:-1])]
    name = joined_name(last.edge, head.edge, rest)
    if name is None or last.edge.allowance != head.edge.allowance or len(first) == len(second) == 1:
        return first, second
    one = joined(last, head, name)
    # it goes to the half that has this edge only, so that neither is left without
    return ((one, *first[1:]), second[:-1]) if len(second) > 1 else (first[1:], (one,))


def _renamed(
    plan: DartPlan, first: tuple[EdgePart, ...], second: tuple[EdgePart, ...], gone: bool
) -> tuple[tuple[EdgePart, ...], tuple[EdgePart, ...], tuple[str, str]]:
    """The two parts of the edge that was cut, each called after what lies at its other end; and the words for that."""
    assert plan.cut is not None
    before = first[-2].edge if len(first) > 1 else second[-1].edge if gone else None
    after = second[1].edge if len(second) > 1 else first[0].edge if gone else None
    words = tuple(plan.dart.name if edge is None else word_beside(plan.piece, edge) for edge in (before, after))
    taken = {part.edge.name for part in (*first[:-1], *second[1:])} | set(() if gone else plan.dart.legs)
    one = part_name(plan.cut, words[0], taken)
    other = part_name(plan.cut, words[1], {one, *taken})
    return (*first[:-1], first[-1].named(one)), (second[0].named(other), *second[1:]), (words[0], words[1])


def _aim(plan: DartPlan) -> tuple[str, MarkPoint | None]:
    """What the dart is drawn towards; a mark of where it was turned about, if its fold misses its aim."""
    aim = plan.dart.aims_at
    if not aim or plan.turning.pivot.near(plan.piece.point(aim)):
        return aim, None
    name = free_name(f"point the {plan.dart.name} is turned about", {mark.name for mark in plan.piece.points})
    mark = MarkPoint(name, plan.turning.pivot, Landmark.TURNED_ABOUT)
    return mark.name, mark


def _finished(
    step: str,
    plan: DartPlan,
    edges: Sequence[Edge],
    redrawn: Mapping[str, Dart],
    made: Made,
    dropped: Collection[MarkPoint],
    added: Collection[MarkPoint],
) -> Piece:
    """The piece of these edges, what is marked on it moved with its cloth; some points dropped and some added."""
    piece = plan.piece
    darts = tuple(dart for dart in piece.darts if dart is not plan.dart or dart.name in redrawn)
    aims = {redrawn.get(dart.name, dart).aims_at for dart in darts} | {dart.aims_at for dart in redrawn.values()}
    points = tuple(
        mark
        for mark in piece.points
        if mark not in dropped and (mark.landmark is not Landmark.TURNED_ABOUT or mark.name in aims)
    )
    bare = replace(piece, darts=darts, points=points, notches=(), points_meant=())
    ordered = closed(piece.name, begun_at(piece.edges[0].name, edges, made))
    turned = with_part_turned(bare, plan.part, ordered, redrawn.values(), corners_too=True)
    after = replace(
        turned,
        notches=renamed_notches(piece, made),
        points=(*turned.points, *added),
        points_meant=renamed_points(piece, ordered, made),
    )
    if outline_crossings(after.outline):
        raise StepRefused(
            step, reason=f'"{piece.name}" would lie over itself there; choose another place or a smaller part'
        )
    return after
