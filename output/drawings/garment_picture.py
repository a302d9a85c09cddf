"""The garment as it would look, flat, from the front and from the back: drawn from its own pieces.

Darts are closed, panels laid together, a gathered waist is drawn up to what it is sewn to, sleeves hang behind the
bodice from the end of the shoulder. The wearer's right is on the left of the front picture, as one sees her.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Point, Vec, distance, lerp, shift, turn
from drafting.parts.linings.whole_fronts import with_whole_fronts
from drafting.pattern import (
    CENTRES,
    Along,
    BodyPart,
    EdgeRef,
    Half,
    Landmark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    half_of,
    pieces_of,
    points_at,
    run_total,
)
from drafting.pattern.pleats import is_pleated
from output.drawings.attached_picture import tied_lines
from output.drawings.band_picture import bands_beyond, buttons_on_band, short_of_centre
from output.drawings.collar_picture import collar_lines
from output.drawings.details_picture import drawn_in_by_elastic, end_folds, puffed, sleeve_end, straps, with_pockets
from output.drawings.drawing import Box, Item, LineKind, Stroke, path
from output.drawings.drawn_up import hung_from, sewn_on, waist_of, with_centre_upright, with_gathers
from output.drawings.flat_shape import FlatShape, bent_onto, centre_line, flat_shape, mapped_shape, without_laps
from output.drawings.free_space import inside
from output.drawings.godet_picture import godet_lines
from output.drawings.hanging_skirt import as_it_hangs
from output.drawings.shoulder_picture import shoulder_over
from output.drawings.skirt_rows import bottom_line, pleats_closed, rows_of, top_line
from output.drawings.worn_legs import as_worn, has_legs

__all__ = ["GarmentView", "garment_views"]

_ARM: Final = math.radians(28.0)
"""How far a sleeve hangs away from the body (ours)."""

_FULL_CAP: Final = 0.12
"""How much longer than its armhole a cap is, as a share, from which on it is gathered and not eased (ours)."""

_CAP_FOLDS: Final = 5
_GATHERED_OUT: Final = 0.6
_CAP_FOLD_DEPTHS: Final = (0.16, 0.1, 0.2, 0.08, 0.13)
"""The folds in half a gathered cap: how many, how far out, and how far down as shares of the sleeve (ours)."""

_GATHERED_END: Final = 0.9
"""The share of its own end to which a sleeve is drawn in, below which that is gathered (ours)."""

_INSIDE: Final = (
    Place.PRINCESS,
    Place.GORE,
    Place.CROTCH,
    Place.YOKE,
    Place.RAGLAN,
    Place.SADDLE,
    Place.GUSSET,
    Place.EMPIRE,
    Place.GODET,
)
"""Seams that lie within the outline of the garment."""

_AROUND: Final = 25.0


@dataclass(frozen=True, slots=True)
class GarmentView:
    """The garment from one side: "front" or "back"."""

    title: str
    side: str
    items: tuple[Item, ...]
    page: Box


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What is drawn of one half of the body: lines, and what hides what lies behind it."""

    lines: tuple[tuple[LineKind, tuple[Point, ...]], ...]
    covers: tuple[tuple[Point, ...], ...]


def garment_views(pattern: Pattern) -> tuple[GarmentView, ...]:
    """The front and the back; fewer where the pattern has no such pieces."""
    pattern = with_whole_fronts(pattern)
    return tuple(view for half in Half if (view := _view(pattern, half)) is not None)


def _view(pattern: Pattern, half: Half) -> GarmentView | None:
    """The picture of the garment from the front or from behind; None where it has no piece there."""
    bodice = _joined(pattern, _of_half(pattern, BodyPart.BODICE, half))
    skirt, folds = _below_waist(pattern, bodice, half)
    shapes = [*bodice, *skirt]
    if not shapes:
        return None
    right = _drawn(shapes, joined_at_waist=bool(bodice and skirt))
    shoulder = shoulder_over(pattern, bodice, half)
    sleeve = _sleeve(pattern, bodice, half, shoulder.tip if shoulder else None)
    band = [
        *_band(pattern, skirt),
        *((LineKind.TO_SEW, line) for line in bands_beyond(pattern, shapes)),
        *godet_lines(pattern, skirt),
        *((LineKind.IN_HAND, _ring(at)) for at in buttons_on_band(pattern, shapes)),
        *((LineKind.TO_SEW, strap) for strap in straps(pattern, shapes)),
    ]
    if shoulder:
        right = replace(right, covers=(*right.covers, shoulder.cover))
        band += [(LineKind.TO_SEW, line) for line in shoulder.lines]
    band += [(LineKind.TO_SEW, line) for line in tied_lines(pattern, waist_of(skirt or bodice), half)]
    lines = [*right.lines, *band, *((LineKind.IN_HAND, fold) for fold in folds)]
    collar = collar_lines(pattern, bodice, half)
    lines = list(_visible(lines, collar)) if collar else lines
    for k, layer in enumerate(collar):
        lines += _visible([(LineKind.TO_SEW, layer)], collar[k + 1 :])
    # the wearer's right lies over her left where the two reach past the centre
    left = [(kind, tuple(_mirrored(line))) for kind, line in lines]
    lines += [(LineKind.IN_HAND, line) for shape in shapes for line in shape.stitched]
    shown = [*lines, *_visible(left, [cover for cover in right.covers if _past_the_centre(cover)])]
    if sleeve:
        both = [*right.covers, *(tuple(_mirrored(cover)) for cover in right.covers)]
        arm = [(LineKind.TO_SEW, sleeve.outline), (LineKind.TO_SEW, sleeve.band)]
        arm += [*((LineKind.IN_HAND, fold) for fold in sleeve.folds)]
        shown += _visible([*arm, *((kind, tuple(_mirrored(line))) for kind, line in arm)], both)
    items = tuple(Stroke(kind, path(*line)) for kind, line in shown if len(line) > 1)
    every = [p for _, line in shown for p in line]
    page = Box(min(p.x for p in every), min(p.y for p in every), max(p.x for p in every), max(p.y for p in every))
    return GarmentView(f"{pattern.title}, {half}", str(half), items, page.grown(_AROUND))


def _below_waist(
    pattern: Pattern, bodice: Sequence[FlatShape], half: Half
) -> tuple[list[FlatShape], list[tuple[Point, ...]]]:
    """What hangs from the waist, row below row, each laid onto the one above; and the folds of its gathers."""
    pieces = _of_half(pattern, BodyPart.SKIRT, half) or _of_half(pattern, BodyPart.TROUSERS, half)
    shapes: list[FlatShape] = []
    folds: list[tuple[Point, ...]] = []
    above: Sequence[Point] = ()
    for row in rows_of(pattern, pieces):
        laid, hanging = _joined(pattern, row), list[tuple[Point, ...]]()
        if not any(has_legs(piece) for piece in row):
            laid, hanging = as_it_hangs(laid)
        if not shapes:
            above = waist_of(bodice) if bodice else _drawn_up(pattern, laid)
        drop = Vec(0.0, above[0].y - top_line(laid)[0].y) if above and top_line(laid) else Vec(0.0, 0.0)
        laid, its_folds = sewn_on(above, laid)
        its_folds += [tuple(p + drop for p in fold) for fold in hanging]
        shapes, folds, above = [*shapes, *laid], [*folds, *its_folds], bottom_line(laid)
    return shapes, folds


def _of_half(pattern: Pattern, part: BodyPart, half: Half) -> tuple[Piece, ...]:
    kind = PieceKind.FRONT if half is Half.FRONT else PieceKind.BACK
    return (*pieces_of(pattern, PieceKind.YOKE, part, of=kind), *pieces_of(pattern, kind, part))


def _joined(pattern: Pattern, pieces: Sequence[Piece]) -> list[FlatShape]:
    """Pieces of one half of the body made flat and laid together, the centre of the body at x = 0."""
    # a yoke first: what hangs from it is drawn up to it
    waiting = sorted(pieces, key=lambda piece: (piece.identity.kind is not PieceKind.YOKE, not _has_centre(piece)))
    laid: list[FlatShape] = []
    for piece in waiting:
        shape = without_laps(pleats_closed(with_pockets(pattern, flat_shape(piece))))
        if not laid:
            out = -math.copysign(short_of_centre(pattern, piece), _side_of(shape))
            to = Vec(-centre_line(piece) - out, -max(p.y for p in shape.outline))
            placed = mapped_shape(shape, shift(to).point)
            laid.append(as_worn(placed) if has_legs(piece) else with_centre_upright(placed))
            continue
        met = _seam_between(pattern, piece, laid)
        if met is not None:
            run, there, other = met
            goal = _run(there, other)
            if _has_centre(piece):  # below a yoke: on the centre of the body, at the height of the seam
                at = max(_run(shape, run), key=lambda p: p.y)
                down = max(goal, key=lambda p: p.y).y - at.y
                shape = mapped_shape(shape, shift(Vec(-centre_line(piece), down)).point)
                own = _run(shape, run)
                laid.append(mapped_shape(with_gathers(shape, own, goal), hung_from(own, goal)))
                continue
            laid.append(mapped_shape(shape, bent_onto(_run(shape, run), goal)))
    return laid


def _side_of(shape: FlatShape) -> float:
    """1 where a shape lies to the right of its centre line, -1 to the left."""
    xs = [p.x for p in shape.outline]
    return 1.0 if max(xs) - centre_line(shape.piece) > centre_line(shape.piece) - min(xs) else -1.0


def _has_centre(piece: Piece) -> bool:
    wrapped = (*CENTRES, Place.STAND_EDGE, Place.WRAP_EDGE)
    return any(edge.place in wrapped for edge in piece.edges)


_Run = tuple[EdgeRef, ...]


def _seam_between(pattern: Pattern, piece: Piece, laid: Sequence[FlatShape]) -> tuple[_Run, FlatShape, _Run] | None:
    """The edges along which a piece is sewn to one that is laid already, that one, and its edges; None for no seam."""
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            there = next((shape for shape in laid if all(ref.piece == shape.piece.name for ref in other)), None)
            if there is not None and all(ref.piece == piece.name for ref in run):
                return run, there, other
    return None


def _run(shape: FlatShape, refs: Iterable[EdgeRef]) -> tuple[Point, ...]:
    lines = {edge.name: line for edge, line in shape.edges}
    return tuple(p for ref in refs for p in (lines[ref.edge][::-1] if ref.backward else lines[ref.edge]))


def _drawn_up(pattern: Pattern, skirt: Sequence[FlatShape]) -> tuple[Point, ...]:
    """The waist of a skirt as it is sewn: narrower by what is gathered in, by where the tape lies round it."""
    names = {shape.piece.name for shape in skirt}
    round_waist = [part for measure in pattern.measures if measure.key == "waist_girth" for part in measure.tape]
    laid = [part for part in round_waist if isinstance(part, Along) and part.piece in names and part.times > 0.0]
    whole = sum(pattern.piece(part.piece).edge(part.edge).length for part in laid)
    sewn = sum(0.5 * part.times * pattern.piece(part.piece).edge(part.edge).length for part in laid)
    share = min(sewn / whole if whole else 1.0, drawn_in_by_elastic(pattern, Place.WAIST))
    if any(is_pleated(shape.piece) for shape in skirt):  # drawn with its pleats closed already
        line = top_line(skirt)
        share = min(1.0, sewn / max(1.0, abs(line[-1].x)))
    return tuple(Point(p.x * share, p.y) for p in top_line(skirt))


def _drawn(shapes: Sequence[FlatShape], *, joined_at_waist: bool) -> _Drawn:
    within = (*_INSIDE, *CENTRES, *((Place.WAIST, Place.STAND) if joined_at_waist else ()))
    lines: list[tuple[LineKind, tuple[Point, ...]]] = []
    for shape in shapes:
        for edge, line in shape.edges:
            if edge.role is not Role.FOLD:
                lines.append((LineKind.IN_HAND if edge.place in within else LineKind.TO_SEW, line))
        lines += [(LineKind.IN_HAND, line) for line in shape.darts]
        buttons = {mark.name for mark in points_at(shape.piece, Landmark.BUTTON)}
        lines += [(LineKind.IN_HAND, _ring(at)) for name, at in shape.points if name in buttons]
    return _Drawn(tuple(lines), tuple(shape.outline for shape in shapes))


def _past_the_centre(cover: Sequence[Point]) -> bool:
    """Whether a shape reaches over to the other half of the body, as a wrap and a button stand do."""
    return min(p.x for p in cover) < -1.0 and max(p.x for p in cover) > 1.0


def _ring(at: Point) -> tuple[Point, ...]:
    return tuple(at + Vec(math.cos(k * math.pi / 8), math.sin(k * math.pi / 8)) * 8.0 for k in range(17))


@dataclass(frozen=True, slots=True)
class _Arm:
    """Half a sleeve as it hangs: its outline, the folds of what is gathered at its cap and its lower end, its cuff."""

    outline: tuple[Point, ...]
    folds: tuple[tuple[Point, ...], ...]
    band: tuple[Point, ...] = ()


def _sleeve(pattern: Pattern, bodice: Sequence[FlatShape], half: Half, tip: Point | None) -> _Arm | None:
    """Half a sleeve folded along its middle, hung from the end of the shoulder; None where there is none.

    tip: that end, where the shoulder is cut in one with the sleeve
    """
    found = pieces_of(pattern, PieceKind.SLEEVE)
    armhole = [p for shape in bodice for p in shape.line(Place.ARMHOLE)]
    if not found or not armhole:
        return None
    piece = found[0]
    shape = flat_shape(piece)
    lines = {edge.name: line for edge, line in shape.edges}
    mine = [edge for edge in piece.edges if half_of(piece, edge) is half and edge.name in lines]
    caps = [lines[edge.name] for edge in mine if edge.place is Place.CAP]
    unders = [lines[edge.name] for edge in mine if edge.place is Place.UNDERARM]
    wrist = [p for edge in edges_at(piece, Place.WRIST, Place.HEM) for p in lines[edge.name]]
    if not caps or not unders or not wrist:
        return None
    cap = [p for line in caps for p in line]
    if tip is not None:  # its crown lies within it
        ends = {mark.name for mark in points_at(piece, Landmark.SHOULDER_END)}
        cap.append(max((p for name, p in shape.points if name in ends), key=lambda p: p.y, default=cap[0]))
    crown = max(cap, key=lambda p: p.y)
    under = [p for line in unders for p in line]
    foot, top = min(under, key=lambda p: p.y), max(under, key=lambda p: p.y)
    middle = lerp(min(wrist, key=lambda p: p.x), max(wrist, key=lambda p: p.x), 0.5)
    near = [p for p in wrist if (p.x - middle.x) * (foot.x - middle.x) > 0.0]
    down = under if distance(under[0], foot) < distance(under[-1], foot) else under[::-1]
    over = sorted(cap, key=lambda p: abs(p.x - top.x)) if tip is not None else cap
    over = over if distance(over[0], top) < distance(over[-1], top) else over[::-1]
    wrist_line = sorted(near, key=lambda p: abs(p.x - middle.x))
    finish, low, centre = sleeve_end(pattern, piece), max(middle.y, foot.y), 0.5 * (middle.x + foot.x)
    fold, wrist_line, down = (
        [puffed(p, centre, low, finish.share) for p in line] for line in (_dense((crown, middle)), wrist_line, down)
    )
    middle = fold[-1]
    outline = [*fold, *wrist_line, *down, *over]
    # the underarm lies toward the body, the fold away from it
    end = tip or max(armhole, key=lambda p: p.y)
    outward = -1.0 if end.x < 0.0 else 1.0
    flip = -1.0 if (top.x - crown.x) * outward > 0.0 else 1.0
    hang = turn(end, _ARM * outward)

    def hung(line: Iterable[Point]) -> tuple[Point, ...]:
        return tuple(hang.point(end + Vec(flip * (p.x - crown.x), p.y - crown.y)) for p in line)

    fullness = _cap_fullness(pattern, piece, half)
    folds = [*(_cap_folds(over[::-1], crown.y - foot.y) if fullness >= _FULL_CAP else ())]
    band: tuple[Point, ...] = ()
    if finish.band:
        level = max(p.y for p in wrist_line) - finish.band
        band = (middle, Point(middle.x, level), Point(wrist_line[-1].x, level), wrist_line[-1])
    if finish.share < _GATHERED_END and finish.gathered:
        folds += end_folds(middle.x, wrist_line[-1].x, low)
    return _Arm(hung(outline), tuple(hung(fold) for fold in folds), hung(band))


def _cap_fullness(pattern: Pattern, piece: Piece, half: Half) -> float:
    """How much longer the cap of a half is than what it is sewn to, as a share of that."""
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            edges = [piece.edge(ref.edge) for ref in run if ref.piece == piece.name]
            if edges and all(e.place is Place.CAP and half_of(piece, e) is half for e in edges):
                return run_total(pattern, run) / run_total(pattern, other) - 1.0
    return 0.0


def _cap_folds(cap: Sequence[Point], long: float) -> Iterator[tuple[Point, ...]]:
    """The folds below a gathered cap, from the crown outward as far as it is gathered, straight down the sleeve."""
    crown, under = cap[0], cap[-1]
    for k in range(_CAP_FOLDS):
        x = crown.x + (under.x - crown.x) * _GATHERED_OUT * (k + 0.5) / _CAP_FOLDS
        y = next((lerp(a, b, (x - a.x) / (b.x - a.x)).y for a, b in pairwise(cap) if _between(x, a.x, b.x)), crown.y)
        yield (Point(x, y), Point(x, y - long * _CAP_FOLD_DEPTHS[k % len(_CAP_FOLD_DEPTHS)]))


def _between(x: float, one: float, other: float) -> bool:
    return one != other and min(one, other) <= x <= max(one, other)


def _band(pattern: Pattern, skirt: Sequence[FlatShape]) -> Iterator[tuple[LineKind, tuple[Point, ...]]]:
    """A waistband as it stands on the waist, half as high as it is cut."""
    for piece in pieces_of(pattern, PieceKind.BAND):
        high = 0.5 * min((edge.length for edge in edges_at(piece, Place.BAND_END)), default=0.0)
        waist = waist_of(skirt)
        if waist and high:
            top = tuple(p + Vec(0.0, high) for p in waist)
            yield LineKind.TO_SEW, (*top, waist[-1])


def _mirrored(line: Iterable[Point]) -> Iterator[Point]:
    return (Point(-p.x, p.y) for p in line)


def _dense(line: Sequence[Point]) -> tuple[Point, ...]:
    """The same line with places no further apart than a lifted pen is seen."""
    dense = list(line[:1])
    for a, b in pairwise(line):
        count = max(1, round(distance(a, b) / 4.0))
        dense += [lerp(a, b, (k + 1) / count) for k in range(count)]
    return tuple(dense)


def _visible(
    lines: Iterable[tuple[LineKind, tuple[Point, ...]]], covers: Sequence[tuple[Point, ...]]
) -> Iterator[tuple[LineKind, tuple[Point, ...]]]:
    """The lines without what lies behind one of the shapes that cover them."""
    for kind, rough in lines:
        if not covers:
            yield kind, rough
            continue
        line = _dense(rough)
        hidden = [any(each) for each in zip(*(inside(cover, line) for cover in covers), strict=True)]
        run: list[Point] = []
        for p, behind in zip(line, hidden, strict=True):
            if behind and run:
                yield kind, tuple(run)
                run = []
            elif not behind:
                run.append(p)
        if run:
            yield kind, tuple(run)
