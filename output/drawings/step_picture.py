"""A small drawing of each step of sewing: the pieces in hand, and in a heavy line what is sewn.

Where two edges are sewn together the pieces lie beside each other like the pages of an open book, the edges along each
other with a gap between; notches carry their numbers. Not to scale: shown as wide as a column is.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from drafting.dataclass import dataclass
from drafting.geometry import (
    STAY,
    Curve,
    Move,
    Point,
    Vec,
    arc,
    lerp,
    mirror,
    moved_all,
    polyline,
    run_at,
    run_bounds,
    run_length,
    run_reversed,
    shift,
    tangent,
    turn,
)
from drafting.pattern import EdgeRef, Landmark, NotchRef, Pattern, Piece, PieceKind, Role, Seam, place, points_at
from drafting.pattern.notches import notch_numbers
from drafting.sewing import Act, SewingStep
from output.drawings.drawing import Box, Item, LineKind, Stroke, Text, path
from output.drawings.free_space import first_clear, grid, inside, obstacles
from output.drawings.lettering import text_width

if TYPE_CHECKING:
    from output.drawings.free_space import Places

__all__ = ["StepPicture", "step_pictures"]

_GAP: Final = 0.05
"""Between two edges that are to be sewn together, as a share of the longer of their pieces."""

_TEXT: Final = 0.044
_TICK: Final = 0.02
"""The height of letters, and how long the mark of a notch is, as a share of the size of the picture."""

_BUTTON: Final = 0.012
"""The radius of the mark of a button, as the same share."""

_AROUND: Final = 0.05


@dataclass(frozen=True, slots=True)
class StepPicture:
    """A drawing of a step, and what it shows in words."""

    title: str
    items: tuple[Item, ...]
    page: Box


@dataclass(frozen=True, slots=True)
class _Laid:
    """A piece, which of its edges are sewn, and how it is moved from where it is drawn."""

    piece: Piece
    edges: tuple[str, ...]
    move: Move = STAY

    @property
    def box(self) -> Box:
        return Box(*run_bounds(moved_all(self.piece.outline, self.move)))


_BANDS: Final = (Act.BAND, Act.STRETCH_ON, Act.CUFF)


def step_pictures(pattern: Pattern, step: SewingStep) -> tuple[StepPicture, ...]:
    """The drawings of a step: one for each seam, or one of its pieces; none where there is nothing to see."""
    if step.seams and step.act not in _BANDS:
        seams = [pattern.seam(name) for name in step.seams]
        return tuple(_picture(pattern, _opened(pattern, seam), _joins(seam)) for seam in seams)
    if step.act in _BANDS:
        return (_band(pattern, step),)
    edges: dict[str, list[str]] = {}
    for ref in (*step.edges, *(ref for stay in step.stays for ref in stay.edges)):
        edges.setdefault(ref.piece, []).append(ref.edge)
    for fold in step.darts:
        edges.setdefault(fold.piece, []).extend(pattern.piece(fold.piece).dart(fold.dart).legs)
    if step.act is Act.ZIP:  # the edges of an opening at the side are in a seam as well
        for name in step.pieces:
            opened = (edge for edge in pattern.piece(name).edges if edge.role is Role.OPENING)
            edges[name] = [edge.name for edge in opened if edge.place is step.place]
    if step.act in (Act.FUSE, Act.SLIT, Act.BUTTONS, Act.SNAPS, Act.STRAPS, Act.ATTACH, Act.LAP):
        edges = {name: [] for name in step.pieces}
    laid = list(_side_by_side(_Laid(pattern.piece(name), tuple(found)) for name, found in edges.items()))
    return (_picture(pattern, laid, _shows(step)),) if laid else ()


def _band(pattern: Pattern, step: SewingStep) -> StepPicture:
    """A band above what it is sewn to, a cuff below it, the edges that meet in heavy lines."""
    sewn: dict[str, list[str]] = {}
    for ref in (ref for name in step.seams for run in (pattern.seam(name).a, pattern.seam(name).b) for ref in run):
        sewn.setdefault(ref.piece, []).append(ref.edge)
    above_it = PieceKind.SLEEVE if step.act is Act.CUFF else PieceKind.BAND
    bands = {name for name in sewn if pattern.piece(name).identity.kind is above_it}
    laid = {name: _Laid(pattern.piece(name), tuple(edges)) for name, edges in sewn.items()}
    below = list(_side_by_side(laid[name] for name in sewn if name not in bands))
    top, wide = max(each.box.top for each in below), max(each.box.right for each in below)
    gap = _GAP * max(_size(each.piece) for each in below)
    above = []
    for name in sorted(bands):
        box = laid[name].box
        lift = Vec(0.5 * (wide - box.left - box.right), top + gap - box.bottom)
        above.append(replace(laid[name], move=shift(lift)))
        top += box.height + gap
    named = set(sewn) - bands if step.act is Act.CUFF else bands
    words = f"The marked edge of the {' and '.join(sorted(named))} goes on the {step.place}"
    return _picture(pattern, [*above, *below], words)


def _shows(step: SewingStep) -> str:
    where = f", {step.place}" if step.place else ""
    return f"{str(step.act).capitalize()}{where}: {' and '.join(step.pieces)}"


def _joins(seam: Seam) -> str:
    one, other = (" and ".join(dict.fromkeys(ref.piece for ref in run)) for run in (seam.b, seam.a))
    if one == other:
        return f"The two edges of the {one} that are sewn together"
    return f"The edges of {one} and {other} that are sewn together"


def _side_by_side(laid: Iterable[_Laid]) -> Iterator[_Laid]:
    at = 0.0
    for each in laid:
        box = each.box
        yield replace(each, move=shift(Vec(at - box.left, -box.bottom)))
        at += 1.15 * box.width


def _opened(pattern: Pattern, seam: Seam) -> list[_Laid]:
    """The pieces of a seam as an open book: those of the one run as they are, of the other laid along them."""
    base, other = (seam.b, seam.a) if len(_by_piece(seam.b)) <= len(_by_piece(seam.a)) else (seam.a, seam.b)
    if {ref.piece for ref in base} == {ref.piece for ref in other}:
        name = base[0].piece
        return [_Laid(pattern.piece(name), _names((*base, *other)))]
    laid = list(_in_a_row(pattern, base))
    along = [
        curve
        for each, refs in zip(laid, _by_piece(base), strict=True)
        for curve in moved_all(_run(each.piece, refs), each.move)
    ]
    whole = sum(run_length(_run(pattern.piece(refs[0].piece), refs)) for refs in _by_piece(other))
    # the inside of a piece lies to the left of its edge, unless that is walked backward
    outward = 1.0 if not base[0].backward else -1.0
    gone = 0.0
    for refs in _by_piece(other):
        piece = pattern.piece(refs[0].piece)
        run = _run(piece, refs)
        part = (gone, gone + run_length(run) / whole)
        gone = part[1]
        gap = _GAP * max(_size(piece), *(_size(each.piece) for each in laid))
        laid.append(_Laid(piece, _names(refs), _laid_along(run, refs[0], along, part, outward, gap)))
    return laid


def _laid_along(
    run: Sequence[Curve], first: EdgeRef, along: Sequence[Curve], part: tuple[float, float], outward: float, gap: float
) -> Move:
    """How a piece is moved so that its run lies along a part of another, with its inside on the far side.

    part: from which share of the other run to which
    gap:  how far the two lie apart where they are nearest, mm
    """
    total, own = run_length(along), run_length(run)
    start, end = (run_at(along, total * min(1.0, share)) for share in part)
    flipped = (1.0 if first.backward else -1.0) != outward
    flip = mirror(run[0].start, Vec(0.0, 1.0)) if flipped else STAY
    begin, goal = flip.point(run[0].start), flip.point(run[-1].end)
    move = flip.then(turn(begin, (goal - begin).angle_to(end - start)))
    move = move.then(shift(lerp(start, end, 0.5) - move.point(lerp(run[0].start, run[-1].end, 0.5))))
    out = (end - start).unit().right() * outward
    reach = max(
        (run_at(along, total * (part[0] + share * (part[1] - part[0]))) - move.point(run_at(run, own * share))).dot(out)
        for share in _SHARES
    )
    return move.then(shift(out * (reach + gap)))


_SHARES: Final = tuple(step / 12 for step in range(13))
"""Where along two runs it is looked how far apart they lie."""


def _in_a_row(pattern: Pattern, run: Sequence[EdgeRef]) -> Iterator[_Laid]:
    """The pieces of a run, the first as it is drawn, each other one where the one before it ends."""
    end: tuple[Point, Vec] | None = None
    for refs in _by_piece(run):
        piece = pattern.piece(refs[0].piece)
        curves = _run(piece, refs)
        move = STAY
        if end is not None:
            start = curves[0].start
            move = turn(start, tangent(curves[0], 0.0).angle_to(end[1])).then(shift(end[0] - start))
        end = move.point(curves[-1].end), move.vec(tangent(curves[-1], 1.0))
        yield _Laid(piece, _names(refs), move)


def _by_piece(run: Sequence[EdgeRef]) -> list[list[EdgeRef]]:
    found: dict[str, list[EdgeRef]] = {}
    for ref in run:
        found.setdefault(ref.piece, []).append(ref)
    return list(found.values())


def _names(refs: Iterable[EdgeRef]) -> tuple[str, ...]:
    return tuple(ref.edge for ref in refs)


def _run(piece: Piece, refs: Iterable[EdgeRef]) -> list[Curve]:
    """The edges of a piece one behind the other as they are walked, also over the mouths of darts."""
    return [
        curve
        for ref in refs
        for curve in (run_reversed(piece.edge(ref.edge).curves) if ref.backward else piece.edge(ref.edge).curves)
    ]


def _size(piece: Piece) -> float:
    left, bottom, right, top = run_bounds(piece.outline)
    return max(right - left, top - bottom)


def _picture(pattern: Pattern, laid: Sequence[_Laid], title: str) -> StepPicture:
    """The picture of one step of sewing: the laid pieces, thick the edges that are sewn, and their names."""
    boxes = [each.box for each in laid]
    box = Box(
        min(each.left for each in boxes),
        min(each.bottom for each in boxes),
        max(each.right for each in boxes),
        max(each.top for each in boxes),
    )
    size = max(box.width, box.height)
    items: list[Item] = []
    numbers = notch_numbers(pattern.seams)
    for each in laid:
        items.append(Stroke(LineKind.IN_HAND, moved_all(each.piece.outline, each.move)))
        for edge in each.piece.edges:
            if edge.name in each.edges:
                items.append(Stroke(LineKind.TO_SEW, moved_all(edge.curves, each.move)))
        items += _marks(each, numbers, size)
        for mark in points_at(each.piece, Landmark.BUTTON):
            ring = arc(each.move.point(mark.at), _BUTTON * size, 0.0, 2.0 * math.pi)
            items.append(Stroke(LineKind.IN_HAND, ring))
    names = _names_clear(laid, items, box, size)
    wide = [(each.at, 0.5 * text_width(each.words, each.size), each.angle) for each in names]
    page = Box(
        min(box.left, *(at.x - (0.0 if angle else half) for at, half, angle in wide)),
        min(box.bottom, *(at.y - (half if angle else 0.0) for at, half, angle in wide)),
        max(box.right, *(at.x + (0.0 if angle else half) for at, half, angle in wide)),
        max(box.top, *(at.y + (half if angle else _TEXT * size) for at, half, angle in wide)),
    )
    return StepPicture(title, (*items, *names), page.grown(_AROUND * size))


def _names_clear(laid: Sequence[_Laid], items: Sequence[Item], box: Box, size: float) -> tuple[Text, ...]:
    """The names of the pieces, clear of all lines and of each other: in their piece, upright in one that is narrow, or
    beside it where it has no room.
    """
    seen, out = obstacles(items), list[Text]()
    outlines = [polyline(moved_all(each.piece.outline, each.move), _FLAT) for each in laid]

    def clear(name: str, places: Places, share: float, angle: float) -> Point | None:
        letters = share * _TEXT * size
        room = (text_width(name, letters) + letters, 1.5 * letters)
        return first_clear(seen, places, room, angle=angle) if len(places) else None

    for each, outline in zip(laid, outlines, strict=True):
        name, middle, step = each.piece.name, each.move.point(_roomiest(each.piece)), _STEP * size
        own = grid(each.box, step, near=middle)
        own = own[inside(outline, own)]
        for share, angle in ((1.0, 0.0), (1.0, 90.0), (_SMALLER, 0.0), (_SMALLER, 90.0)):
            if (at := clear(name, own, share, angle)) is not None:
                put = _name(each, at, share * _TEXT * size, angle)
                break
        else:
            around = grid(box.grown(2.0 * _TEXT * size), step, near=middle)
            for other in outlines:
                around = around[~inside(other, around)]
            put = _name(each, clear(name, around, 1.0, 0.0) or middle, _TEXT * size, 0.0)
        out.append(put)
        if len(out) < len(laid):
            seen = obstacles([put], besides=seen)
    return tuple(out)


_STEP: Final = 0.035
"""How far apart the places lie that are tried for a name, as a share of the size of the picture."""

_SMALLER: Final = 0.8
_FLAT: Final = 5.0  # mm, on a picture that shows a piece a tenth of its size


def _marks(laid: _Laid, numbers: Mapping[NotchRef, int], size: float) -> Iterator[Item]:
    for notch in laid.piece.notches:
        number = numbers.get(NotchRef(laid.piece.name, notch.name))
        if notch.station.edge in laid.edges and number is not None:
            point, direction = place(laid.piece, notch.station)
            at, inward = laid.move.point(point), laid.move.vec(direction.left())
            yield Stroke(LineKind.NOTCH, path(at, at + inward * (_TICK * size)))
            middle = at + inward * (_TICK * size * 1.4 + _TEXT * size * 0.6)
            yield Text(str(number), middle + Vec(0.0, -0.36 * _TEXT * size), _TEXT * size, anchor="middle")


def _name(laid: _Laid, middle: Point, letters: float, angle: float) -> Text:
    """The name of a piece about a place."""
    down = Vec(0.0, -0.36 * letters).turned(math.radians(angle))
    return Text(laid.piece.name, middle + down, letters, "middle", angle)


def _roomiest(piece: Piece) -> Point:
    """A place inside a piece that is far from its outline, where its name is read best; up and down counts more."""
    return piece.remembered("roomiest place", lambda: _found_roomiest(piece))


def _found_roomiest(piece: Piece) -> Point:
    import numpy as np

    outline = polyline(piece.outline, 2.0)
    left, bottom, right, top = run_bounds(piece.outline)
    grid = [Point(left + (right - left) * across, bottom + (top - bottom) * up) for up in _GRID for across in _GRID]
    held = [p for p, lies in zip(grid, inside(outline, grid), strict=True) if lies] or grid
    at = np.array([(_ACROSS * p.x, p.y) for p in held])[:, None, :]
    corner = np.array([(_ACROSS * p.x, p.y) for p in outline])
    side = np.roll(corner, -1, axis=0) - corner
    share = ((at - corner) * side).sum(axis=2) / np.maximum((side**2).sum(axis=1), 1e-9)
    nearest = corner + np.clip(share, 0.0, 1.0)[:, :, None] * side
    return held[int(np.hypot(*np.moveaxis(at - nearest, 2, 0)).min(axis=1).argmax())]


_GRID: Final = tuple((step + 0.5) / 9 for step in range(9))
_ACROSS: Final = 0.4
"""Words are wide and low: what lies beside them is that much nearer."""
