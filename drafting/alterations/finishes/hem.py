"""Hems: made deeper, for a child to grow into or for the fall of the cloth; levelled; turned up or faced.

The finished length stays: only the cloth that is turned up changes, or the facing in its place. The cloth turned up
has the shape of the cloth it lies on, so below the fold line the cutting line is the mirror image of the sides above it
(common practice; the cutting line of every hem is drawn so). On a curved hem the cloth turned up cannot lie quite
smooth: at the depth t its raw edge is longer or shorter than the hem by t times the angle through which the hem bends
(plane geometry). Only a little of that can be eased in: the check "turned in" warns of more than 1.5 % and says which
depth lies flat, and more than _MOST_EASED is refused. A faced hem has no such limit.

How deep (the American Sewing Guild, "How deep is that hem?"; 4-H, "It's Fun to Sew a Cotton School Dress"): a straight
or slightly flared skirt 2 to 3 in, a sheer one up to 4 in, a flared one 1 1/2 in at most, a circle 1/4 in or rolled.
For one year's growth of a child about 4 cm are added to a skirt's own hem (the Ensign, "Growing clothes", allows 1 1/2
in for a size).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, find_piece
from drafting.alterations.earlier_steps import in_the_way, refused_after
from drafting.alterations.finishes.level_hem import beside, levelled, lowered_edges
from drafting.alterations.one_piece import ONLY
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, lengths_kept, seams_kept, seams_no_worse
from drafting.alterations.refusing import instead
from drafting.errors import StepRefused
from drafting.geometry import Curve, Vec, corner_turn, end_tangents
from drafting.parts.finishes.edge_facing import HEM_FACING, edge_facing
from drafting.parts.finishes.facing_strip import FACING
from drafting.pattern import (
    Pattern,
    Piece,
    Place,
    Role,
    edge_at,
    edges_at,
    seam_allowance,
    sewn_runs,
    with_edges,
    with_pieces,
)

__all__ = ["Hem", "turned_through"]

_DEEPEST: Final = 300.0
_MOST_EASED: Final = 0.06
"""How much longer or shorter than the hem its raw edge may be, as a share of the hem: more cannot be eased flat (our
figure; it gives a half circle on a knee-length skirt about the 1 1/2 in that the 4-H book gives)."""

_SQUARE: Final = math.radians(1.5)
"""How far off square a corner of a hem may be and still make one line with its like over the seam, within 3 degrees."""

TURN_UP, FACED = "turn up", "facing"


@alteration_class
class Hem(Alteration):
    """Make the hem of a piece, and of every piece whose hem runs on from it, deeper, level or faced."""

    name = "hem"
    layer = Layer.HEMS
    about = "Make a hem deeper, for growing or for the fall of the cloth; level it; turn it up or face it."
    leaves = "the finished lengths and widths; how well every seam meets"
    carries = "every hem that runs on from it over a seam; what is turned up, or the facing, has the shape of the piece"

    piece: str = option("text", "a piece with the hem; the other pieces follow")
    depth: float | None = option(
        "length", "how deep the hem or its facing is; left out, as it is, a facing 6 cm", 3.0, _DEEPEST, default=None
    )
    grow: float = option("length", "how much is added to it for growing", 0.0, _DEEPEST, default=0.0, or_less=True)
    level: bool = option("flag", "make it as far below the hip line at the side as at the centre", default=False)
    finish: str = option("choice", "how it is finished", choices=(TURN_UP, FACED), default=TURN_UP)
    only: str = option("text", ONLY, default="", seldom=True)

    def comes_before(self, step: Alteration) -> bool:
        # a hem is levelled from the centre line, which a wrap and a button stand move, and down whole side seams
        return self.level and step.name in ("wrap over", "opening", "godet")

    def apply(self, pattern: Pattern) -> Pattern:
        hems = _hems(self, pattern)
        if self.level and any(pattern.piece(name).edge(hem).place is Place.LEG_OPENING for name, hem in hems.items()):
            raise StepRefused(self.name, reason="a leg opening follows the leg, and is not made level; leave level out")
        if self.level:
            pattern = with_pieces(pattern, *levelled(self.name, pattern, hems))
        if self.finish == FACED:
            return _faced(self, pattern, hems)
        if self.depth is None and not self.grow:
            return pattern
        return with_pieces(pattern, *(_deepened(self, pattern.piece(name), hem) for name, hem in hems.items()))

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:  # noqa: ARG002
        if self.finish == FACED:
            return {"depth": FACING}
        name, hem = next(iter(_hems(self, before).items()))
        return {"depth": before.piece(name).edge(hem).allowance}

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        hems = _hems(self, pattern)
        for name, hem in hems.items():
            piece = pattern.piece(name)
            moves = {hem, *lowered_edges(pattern, piece, hems)} if self.level else set[str]()
            yield from lengths_kept(piece, (edge.name for edge in piece.edges if edge.name not in moves))
        yield from finished_kept(pattern)
        # levelled, side seams that differed by a hair end level
        yield from seams_no_worse(pattern) if self.level else seams_kept(pattern)


def _hems(step: Hem, pattern: Pattern) -> dict[str, str]:
    """The hem of the piece, and of every piece whose hem runs on from it: the edges by piece."""
    if step.depth is None and not step.grow and not step.level and step.finish == TURN_UP:
        raise StepRefused(
            step.name, reason='nothing is to be done; say how deep: depth = "6 cm", or grow, level or finish'
        )
    first = find_piece(step.name, pattern, step.piece)
    found = {first.name: _hem_of(step, first)}
    todo = [first.name]
    while todo:
        name = todo.pop()
        for other in _runs_on(pattern, name, found[name]):
            if other not in found and (hem := _hem_name(pattern.piece(other))):
                found[other] = hem
                todo.append(other)
    for name in found if step.level else ():
        if edge_at(pattern.piece(name), Place.WRAP_EDGE):
            raise refused_after(step.name, in_the_way(pattern.piece(name)), f'"{name}" wraps over')
    if not step.only:
        return found
    if step.only not in found:
        raise StepRefused(step.name, reason=f'"{step.only}" has no hem that runs on from that of "{step.piece}"')
    if step.level or step.finish == FACED:
        raise StepRefused(step.name, reason="levelled or faced, a hem no longer meets the next one; leave only out")
    return {step.only: found[step.only]}


def _hem_of(step: Hem, piece: Piece) -> str:
    hem = _hem_name(piece)
    if hem is None:
        raise StepRefused(step.name, reason=f'"{piece.name}" has no hem; a hem that was faced is a seam from then on')
    return hem


def _hem_name(piece: Piece) -> str | None:
    return next((edge.name for edge in piece.edges if edge.role is Role.HEM), None)


def _runs_on(pattern: Pattern, name: str, hem: str) -> Iterator[str]:
    """The pieces sewn to an edge beside the hem, where that edge meets the hem."""
    sides = {edge.name for edge in beside(pattern.piece(name), hem)}
    for _, run, other in sewn_runs(pattern, name, sides):
        for place in (0, -1):
            if run[place].piece == name and run[place].edge in sides:
                yield other[place].piece


def _deepened(step: Hem, piece: Piece, name: str) -> Piece:
    """The piece with this hem, on both sides of a slit in it, turned up as deep as asked.

    Raises StepRefused where it would not lie flat.
    """
    for part in _beyond_slit(piece, name):
        piece = _part_deepened(step, piece, part)
    return _part_deepened(step, piece, name)


def _beyond_slit(piece: Piece, hem: str) -> list[str]:
    """The other parts of a hem that slits part: those at its place that are turned up."""
    place = piece.edge(hem).place if edges_at(piece, Place.GODET) else None
    parts = edges_at(piece, place) if place else ()
    return [edge.name for edge in parts if edge.role is Role.HEM and edge.name != hem]


def _part_deepened(step: Hem, piece: Piece, name: str) -> Piece:
    """The piece with that hem as deep as asked for. Raises StepRefused where it would not lie flat turned up."""
    hem = piece.edge(name)
    depth = (hem.allowance if step.depth is None else step.depth) + step.grow
    bends = turned_through(hem.curves)
    off = depth * abs(bends) / hem.length
    if off > _MOST_EASED:
        raise StepRefused(
            step.name,
            reason=f'turned up by {depth / 10:.1f} cm, the "{name}" of "{piece.name}" would be {off:.0%} too '
            f"{'full' if bends > 0.0 else 'tight'} at its raw edge to lie flat",
            remedies=instead(step.name, "finish", FACED),
            too_much=("depth",) if step.depth else ("grow",),
        )
    return with_edges(piece, hem.with_allowance(depth))


def turned_through(curves: Sequence[Curve]) -> float:
    """Through what angle a run turns from end to end, radians; above zero where it bulges out of the piece."""
    total = 0.0
    last: Vec | None = None
    for curve in curves:
        start, end = end_tangents(curve)
        for one, other in ((last, start), (start, end)):
            if one is not None:
                total += one.angle_to(other)
        last = end
    return total


def _corners_meant(piece: Piece, hem: str) -> Piece:
    """The piece with the corners beside its hem meant as they are, where it was folded straight between slanted sides.

    What is sewn to a facing is no longer folded; the corner of its taper stays.
    """
    before, after = beside(piece, hem)
    own = piece.edge(hem)
    slanted = [
        (one.name, other.name)
        for one, other in ((before, own), (own, after))
        if other.role is not Role.FOLD
        and one.role is not Role.FOLD
        and abs(corner_turn(one.curves, other.curves) - 0.5 * math.pi) > _SQUARE
    ]
    known = {frozenset(pair) for pair in piece.points_meant}
    new = tuple(pair for pair in slanted if frozenset(pair) not in known)
    return replace(piece, points_meant=(*piece.points_meant, *new)) if new else piece


def _faced(step: Hem, pattern: Pattern, hems: dict[str, str]) -> Pattern:
    """The pattern with its hems sewn to a facing, which is drawn to them."""
    depth = (FACING if step.depth is None else step.depth) + step.grow
    kinds = [pattern.piece(name).identity for name in hems]
    for part in pattern.derived:
        if any(each.place is Place.HEM and not each.piece and each.identity in kinds for each in part.to):
            raise StepRefused(
                step.name, reason=f'the hem is finished by the "{part.name}" already: leave out one of the two'
            )
    for name, hem in hems.items():
        if _beyond_slit(pattern.piece(name), hem):
            reason = f'the hem of "{name}" is parted by a slit with a godet in it, and no facing is drawn to both parts'
            raise StepRefused(step.name, reason=f"{reason}: set the godets into the side seam, or turn the hem up")
    pieces = []
    for name, hem in hems.items():
        piece = _corners_meant(pattern.piece(name), hem)
        pieces.append(with_edges(piece, replace(piece.edge(hem), role=Role.SEAM, allowance=seam_allowance(piece))))
    part = edge_facing(HEM_FACING, ((piece, piece.edge(hems[piece.name])) for piece in pieces), depth)
    return replace(with_pieces(pattern, *pieces), derived=(*pattern.derived, part))
