"""The cutting line of a piece. Computed when it is drawn, never stored."""

from __future__ import annotations

import math
from functools import partial
from typing import Final

from drafting.geometry import Curve, Line, Point, Vec, distance, lerp, tangent
from drafting.geometry.allowance import Margin, cutting_outline, offset_runs
from drafting.geometry.dart_mouth import Mouth, mouth_folds, mouth_roof
from drafting.pattern.locate import dart_mouth
from drafting.pattern.piece import Piece
from drafting.pattern.piece_parts import Dart, Edge, Role
from drafting.pattern.places import CENTRES, Half, PieceKind, Place
from drafting.pattern.seam_ends import ALONE, Sewn

__all__ = [
    "LEAST_ALLOWANCE",
    "cutting_line",
    "dart_roof",
    "is_cut_out",
    "is_slit",
    "is_upright",
    "mouth_lies",
    "pressed",
]

LEAST_ALLOWANCE: Final = 6.0
"""mm. The narrowest seam allowance that is offered: a quarter of an inch (common practice)."""

_SIDE_BY_SIDE: Final = 1e-3
"""The sine of the angle between the legs of a dart up to which they count as side by side at its mouth."""

_CUT_OUT: Final = 30.0
"""mm of width from which a dart over the shoulder is cut out: its cloth would be a ridge (common practice: an inch)."""

_FAR_OFF: Final = 1e4
"""mm"""

_BEYOND: Final = 10.0
"""How many widths of the mouth bowed legs have to meet beyond it: the cutting line lies before that (ours)."""


def cutting_line(piece: Piece, sewn: Sewn = ALONE) -> tuple[Curve, ...]:
    """The closed line to cut along, anticlockwise: each edge with its own allowance, none on a fold.

    sewn: what it is sewn to, by which its allowances end
    At a hem, and at an opening that is turned in, the allowance beyond the fold mirrors what lies within it; over a
    dart it has the shape that lies on the cloth when the sewn dart is pressed. By common practice an upright dart is
    pressed toward the centre of the piece and a level one down. Raises NotAPattern where the allowances leave nothing
    to cut.
    """
    what = ("cutting line", tuple(sorted(sewn.squares.items())), sewn.joined)
    return piece.remembered(what, lambda: cutting_outline(_margins(piece, sewn)))


def dart_roof(piece: Piece, dart: Dart) -> tuple[Curve, ...]:
    """The sewing line over a dart's mouth, leg to leg: what lies on the seam when the dart is folded.

    Nothing where the dart is cut out.
    """
    return () if is_cut_out(piece, dart) else mouth_roof(*_mouth(piece, dart))


def pressed(piece: Piece, dart: Dart) -> str:
    """Which way a dart is folded over, in words: "toward the centre" if it stands upright, "down" if it lies level.

    One between the front and the back half of a sleeve goes "toward the back", or "open" where it is cut out. The mouth
    of any other is cut for that side alone.
    """
    if is_cut_out(piece, dart):
        return "open"
    if _between_halves(piece, dart) is not None:
        return "toward the back"
    return "toward the centre" if is_upright(piece, dart) else "down"


def is_slit(piece: Piece, edge: Edge) -> bool:
    """Whether an edge is one side of a slit for a gusset or a godet: the cloth is whole there, and cut open between
    both later.
    """
    kinds = (piece.identity.kind, piece.identity.of)
    if edge.place is Place.GODET:
        return PieceKind.PANEL not in kinds
    return edge.place is Place.GUSSET and PieceKind.GUSSET not in kinds


def is_cut_out(piece: Piece, dart: Dart) -> bool:
    """Whether a dart over the shoulder of a sleeve is so wide that it is cut along its legs and sewn as a seam."""
    return _between_halves(piece, dart) is not None and distance(*dart_mouth(piece, dart)) > _CUT_OUT


def mouth_lies(piece: Piece, dart: Dart) -> bool:
    """Whether the cloth over a dart's mouth can be cut so that it lies on the seam when the dart is folded."""
    return is_cut_out(piece, dart) or mouth_folds(*_mouth(piece, dart))


def _mouth(piece: Piece, dart: Dart) -> tuple[tuple[Curve, ...], Mouth, tuple[Curve, ...]]:
    """A dart's mouth and the edges before and after it."""
    edges = piece.edges
    first = piece.index(dart.legs[0])
    mouth = _mouth_of(piece, dart)
    return edges[first - 1].curves, mouth, edges[(first + 2) % len(edges)].curves


def _mouth_of(piece: Piece, dart: Dart) -> Mouth:
    return Mouth(_folds_towards(piece, dart), _pressed_back(piece, dart), _between_halves(piece, dart) is not None)


def _margins(piece: Piece, sewn: Sewn) -> list[Margin | Mouth]:
    """The allowances of a piece in outline order, and the mouth of each dart that is folded and not cut out."""
    into = {dart.legs[0]: dart for dart in piece.darts}
    out = {dart.legs[1] for dart in piece.darts}
    margins: list[Margin | Mouth] = []
    for edge in piece.edges:
        if edge.name in into and is_cut_out(piece, into[edge.name]):
            wide = max(each.allowance for each in piece.edges if each.role is Role.SEAM)
            for name in into[edge.name].legs:
                run = piece.edge(name).curves
                margins.append(Margin(run, wide, offset=offset_runs(run, wide)))
        elif edge.name in into:
            dart = into[edge.name]
            margins.append(_mouth_of(piece, dart))
        elif edge.name not in out and not is_slit(piece, edge):
            allowance = 0.0 if edge.role is Role.FOLD else edge.allowance
            turned = edge.role is Role.HEM or (_turned_in(edge) and edge.name not in sewn.joined)
            squares = sewn.squares.get(edge.name, (None, None))
            offset = edge.remembered(("offset", allowance), partial(offset_runs, edge.curves, allowance))
            margins.append(Margin(edge.curves, allowance, turned, edge.role is Role.FOLD, squares, offset))
    return margins


def _turned_in(edge: Edge) -> bool:
    """Whether an edge is an opening whose own allowance is turned in; onto an open shoulder a strip is sewn."""
    return edge.role is Role.OPENING and edge.place is not Place.SHOULDER


def _folds_towards(piece: Piece, dart: Dart) -> Point:
    """Where the legs of a dart would meet if they ran on straight from its mouth, where the fold is: its point, mostly.

    A leg may bend on its way to the point. Legs that come to the mouth side by side meet far off, square to it; bowed
    ones may meet beyond it.
    """
    into, out = piece.edge(dart.legs[0]).curves[0], piece.edge(dart.legs[1]).curves[-1]
    if isinstance(into, Line) and isinstance(out, Line):
        return dart.apex
    one, other = tangent(into, 0.0), -tangent(out, 1.0)
    width = into.start - out.end
    turning = one.cross(other)
    reach = other.cross(width) / turning if abs(turning) > _SIDE_BY_SIDE else 0.0
    if reach > 0.0 or reach < -_BEYOND * width.norm():
        return into.start + one * reach
    square = width.left().unit()
    return lerp(into.start, out.end, 0.5) + square * math.copysign(_FAR_OFF, square.dot(one))


def _pressed_back(piece: Piece, dart: Dart) -> bool:
    """Whether a dart is pressed over the edge before it: toward the centre if it stands upright, down if it lies level.

    Upright is along the grain, or up the paper where there is none. The centre is the edge on the fold, else one
    at a centre line, else the grain line.
    """
    one, other = dart_mouth(piece, dart)
    halves = _between_halves(piece, dart)
    if halves is not None:
        return halves[0] is Half.BACK
    if not is_upright(piece, dart):
        return (other - one).dot(_up(piece)) > 0.0
    centre = _centre(piece)
    if centre is None:
        return True
    return distance(one, centre) <= distance(other, centre)


def _between_halves(piece: Piece, dart: Dart) -> tuple[Half, Half] | None:
    """The halves of the body before and after a dart that lies between front and back; None for any other."""
    first, count = piece.index(dart.legs[0]), len(piece.edges)
    one, other = piece.edges[first - 1].half, piece.edges[(first + 2) % count].half
    return (one, other) if one and other and one is not other else None


def is_upright(piece: Piece, dart: Dart) -> bool:
    """Whether a dart runs up and down rather than across."""
    up, axis = _up(piece), lerp(*dart_mouth(piece, dart), 0.5) - dart.apex
    return abs(axis.dot(up)) >= abs(axis.cross(up))


def _up(piece: Piece) -> Vec:
    if piece.grain is None:
        return Vec(0.0, 1.0)
    grain = piece.grain.end - piece.grain.start
    if grain.norm() == 0.0:
        return Vec(0.0, 1.0)
    return grain.unit() if grain.y >= 0.0 else -grain.unit()


def _centre(piece: Piece) -> Point | None:
    fold = next((edge for edge in piece.edges if edge.role is Role.FOLD), None)
    named = next((edge for edge in piece.edges if edge.place in CENTRES), None)
    edge = fold or named
    if edge is not None:
        return lerp(edge.start, edge.end, 0.5)
    return None if piece.grain is None else lerp(piece.grain.start, piece.grain.end, 0.5)
