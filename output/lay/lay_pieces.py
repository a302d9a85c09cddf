"""What is laid on the cloth for the pieces of a pattern: cutting lines turned to the grain, on the fold or whole."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from typing import Final, Literal

from drafting.dataclass import dataclass
from drafting.geometry import Move, Point, Vec, mirror, polyline, shift
from drafting.pattern import CENTRES, Cut, Edge, Landmark, Pattern, Piece, PieceKind, Role, place, points_at
from drafting.pattern.cutting import cutting_line
from drafting.pattern.seam_ends import Sewn, sewn
from output.lay.lay_values import LAP, SEWN_JOIN, LayPiece, Spread

__all__ = ["MATERIALS", "Material", "cut_from", "pieces_to_lay"]

Material = Literal["shell", "lining", "interfacing"]

MATERIALS: Final[tuple[Material, ...]] = ("shell", "lining", "interfacing")

_FLAT: Final = 0.2  # mm between a polygon and its cutting line; the gap for the blade is far wider
_ON_FOLD: Final = 0.01
_STRIPS: Final = (PieceKind.BAND, PieceKind.BINDING)
_LEVEL: Final = 1e-3  # the sine of the angle between a fold and the grain up to which they run together


@dataclass(frozen=True, slots=True)
class _Shape:
    """A piece turned so that its grain runs along x; the move from the pattern to there."""

    piece: Piece
    move: Move
    outline: tuple[Point, ...]


def cut_from(piece: Piece, material: Material) -> Cut:
    """How a piece is cut from one material: as from the shell, but for the number."""
    count = {"shell": piece.cut.count, "lining": piece.cut.lining, "interfacing": piece.cut.interfacing}[material]
    return replace(piece.cut, count=count)


def pieces_to_lay(
    pattern: Pattern, cloth: Spread, material: Material = "shell", *, strips: int = 1
) -> tuple[LayPiece, ...]:
    """Everything that is cut from a material, as it is laid on the cloth; () where nothing is cut from it.

    strips: in how many, lapped at their ends, each band is cut; one that is longer than the cloth is wide is sewn
            together of as few as it takes

    On folded cloth a pair is laid once. A piece that is cut once, and one whose fold runs across the grain, is cut
    through the upper layer; as that lies wrong side up, a piece that is cut once lies face down on it.
    """
    how = (cloth.on_fold, cloth.layers, material)
    whole = pattern.remembered(
        ("pieces to lay", how), lambda: tuple(_pieces_cut(pattern, cloth, material, sewn(pattern)))
    )
    bands = {piece.name for piece in pattern.pieces if piece.identity.kind in _STRIPS}
    cut = (_in_strips(each, cloth, strips) if each.name in bands and not each.on_fold else (each,) for each in whole)
    return tuple(chain.from_iterable(cut))


def _in_strips(band: LayPiece, cloth: Spread, count: int) -> Iterator[LayPiece]:
    """A band in so many parts of one length, each lapping the next; across the grain in as many as it takes."""
    from shapely import Polygon, box

    room = cloth.width - 2.0 * cloth.selvedge
    too_long = band.across > room > SEWN_JOIN
    if count == 1 and not too_long:
        yield band
        return
    count = math.ceil(band.across / (room - SEWN_JOIN)) if too_long else count
    join = SEWN_JOIN if too_long else LAP
    before, after = (0.5 * join, 0.5 * join) if too_long else (0.0, join)  # a seam lies in the middle of its join
    whole = Polygon([(p.x, p.y) for p in band.outline])
    left, low, right, high = whole.bounds
    start, end = (low, high) if too_long else (left, right)
    step = (end - start) / count
    for number in range(count):
        first = max(start, start + number * step - before)
        last = min(end, start + (number + 1) * step + after)
        within = (left, first, right, last) if too_long else (first, low, last, high)
        part = whole.intersection(box(*within))
        outline = tuple(Point(x, y) for x, y in part.exterior.coords[:-1])
        words = f"{band.name}, strip {number + 1} of {count}"
        cut = replace(band, name=words, whole=band.name, outline=outline)
        yield replace(cut, grain=None, notches=(), strips=count, join=join)


def _pieces_cut(pattern: Pattern, cloth: Spread, material: Material, seams: Mapping[str, Sewn]) -> Iterator[LayPiece]:
    """The pieces that are cut from this material, along the grain: folded, opened or as a pair, as the cloth allows."""
    marks = _notches_that_meet(pattern)
    for piece in pattern.pieces:
        cut = cut_from(piece, material)
        if not cut.count:
            continue
        shape = _along_grain(piece, seams[piece.name])
        fold = next((edge for edge in piece.edges if edge.role is Role.FOLD), None) if cut.fold else None
        if fold is not None and cloth.on_fold and _runs_with_grain(fold, shape.move):
            shape = _upon_fold(shape, fold)
            laid = LayPiece(piece.name, shape.outline, cut.count, on_fold=True, flips=(False,))
        elif fold is not None:
            shape = replace(shape, outline=_opened(shape, fold))
            laid = LayPiece(piece.name, shape.outline, cut.count, flips=(False,), layers=1)
        elif cut.mirror and cut.count % 2 == 0 and cloth.layers == 2:
            laid = LayPiece(piece.name, shape.outline, cut.count // 2)
        else:
            # the upper layer of cloth folded right sides together shows its wrong side
            face_down = cloth.layers == 2
            laid = LayPiece(piece.name, shape.outline, cut.count, flips=(face_down,), layers=1)
        move = shape.move
        grain = (move.point(piece.grain.start), move.point(piece.grain.end)) if piece.grain else None
        notches = tuple((key, move.point(at).x) for key, at in marks.get(piece.name, ()))
        laid = replace(laid, grain=grain, notches=notches, middle=_middle(piece, shape, on_fold=laid.on_fold))
        if cut.mirror and laid.layers == 1 and fold is None and cut.count % 2 == 0:
            half = replace(laid, times=cut.count // 2, flips=(False,))
            yield half
            yield replace(half, flips=(True,))
        else:
            yield laid


def _middle(piece: Piece, shape: _Shape, *, on_fold: bool) -> float | None:
    """Across the grain, where the middle of a piece lies: its centre line, else its grain; None at the fold of the
    cloth, and for facings and bands, which show no more than a strip of the pattern.
    """
    if on_fold or _finishes(piece):
        return None
    centre = next((e for e in piece.edges if e.role is Role.FOLD or e.place in CENTRES), None)
    if centre is not None and _runs_with_grain(centre, shape.move):
        return shape.move.point(centre.start).y
    if marked := points_at(piece, Landmark.CENTRE_TOP):
        return shape.move.point(marked[0].at).y
    return shape.move.point(piece.grain.start).y if piece.grain else None


def _finishes(piece: Piece) -> bool:
    """Whether a piece only finishes an edge."""
    return piece.identity.kind in (PieceKind.FACING, *_STRIPS)


def _notches_that_meet(pattern: Pattern) -> dict[str, list[tuple[str, Point]]]:
    """For each piece the notches that meet one of another piece, in the order of sewing, each pair under one key."""
    found: dict[str, list[tuple[str, Point]]] = {}
    for seam in pattern.seams:
        for number, pair in enumerate(seam.notches):
            for ref in pair:
                piece = pattern.piece(ref.piece)
                at = place(piece, piece.notch(ref.notch).station)[0]
                found.setdefault(ref.piece, []).append((f"{seam.name} {number}", at))
    return found


def _along_grain(piece: Piece, seams: Sewn) -> _Shape:
    up = piece.grain.end - piece.grain.start if piece.grain else Vec(0.0, 1.0)
    up = up.unit() if up.norm() > 0.0 else Vec(0.0, 1.0)
    if up.y < -_LEVEL or (abs(up.y) <= _LEVEL and up.x < 0.0):
        up = -up
    move = Move(up.x, up.y, -up.y, up.x, 0.0, 0.0)
    points = polyline(cutting_line(piece, seams), _FLAT)
    return _Shape(piece, move, _without_last(tuple(move.point(p) for p in points)))


def _without_last(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return points[:-1] if points[0].near(points[-1]) else points


def _runs_with_grain(fold: Edge, move: Move) -> bool:
    along = move.vec(fold.end - fold.start).unit()
    return abs(along.y) <= _LEVEL


def _upon_fold(shape: _Shape, fold: Edge) -> _Shape:
    """The shape with its fold at y = 0 and all of it above, turned face down where that needs it."""
    level = shape.move.point(fold.start).y
    below = sum(p.y for p in shape.outline) < level * len(shape.outline)
    over = Move(1.0, 0.0, 0.0, -1.0, 0.0, level) if below else shift(Vec(0.0, -level))
    moved = (over.point(p) for p in shape.outline)
    outline = _distinct([Point(p.x, 0.0) if abs(p.y) <= _ON_FOLD else p for p in moved])
    return _Shape(shape.piece, shape.move.then(over), outline)


def _distinct(outline: Sequence[Point]) -> tuple[Point, ...]:
    """An outline without corners that lie where the one before does, so that no hair of rounding is a spike."""
    return tuple(at for at, before in zip(outline, (outline[-1], *outline), strict=False) if not at.near(before))


def _opened(shape: _Shape, fold: Edge) -> tuple[Point, ...]:
    """The outline of half a piece and of its mirror image at the fold."""
    start, end = shape.move.point(fold.start), shape.move.point(fold.end)
    along = (end - start).unit()
    at_fold = [abs(along.cross(p - start)) <= _ON_FOLD for p in shape.outline]
    first = next(i for i, on in enumerate(at_fold) if on and not at_fold[i - 1])
    turned: Sequence[Point] = (*shape.outline[first:], *shape.outline[:first])
    count = sum(at_fold)
    on, off = turned[:count], turned[count:]
    image = mirror(start, along)
    return (on[-1], *off, on[0], *(image.point(p) for p in reversed(off)))
