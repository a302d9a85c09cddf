r"""A patch pocket: a piece of its own, sewn onto the outside of another, and marks on that where its corners come.

+---mouth---+     It lies straight on the grain of its piece. A woman's is 12 to 14 cm wide and 14 to 16 high, a
|           |     child's 8 to 10 by 9 to 11, its mouth turned in by 2 to 3 cm (common practice); both of a pair
|           |     lie at one level, by the hand: no higher or lower than it comes to with the elbow bent, no
 \         /      larger than it can clear (common practice).
  `-------'
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from functools import partial
from itertools import product
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise, find_piece
from drafting.alterations.finishes.patch_shape import POINT_SHARE, POINTED, ROUNDED, SQUARE, PatchPlace, patch
from drafting.alterations.finishes.pocket_sizes import BESIDE_HAND, HAND_WIDE, ROUNDED_AWAY, by_height
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, seams_kept, whole_pieces_kept
from drafting.alterations.refusing import instead
from drafting.errors import StepRefused
from drafting.geometry import Point, Vec, encloses, polyline, run_bounds, run_hits
from drafting.geometry.meet import run_meetings
from drafting.geometry.outline import straight_run
from drafting.pattern import (
    CENTRES,
    Landmark,
    Level,
    MarkLine,
    MarkPoint,
    Origin,
    Pattern,
    Piece,
    Place,
    Role,
    edges_at,
    free_name,
    line_at,
    with_pieces,
)
from drafting.pattern.pockets import ABOVE_HEM

__all__ = ["PatchPocket"]


_WIDE, _HIGH = 0.08, 0.092  # of the height: 13 by 15 cm for a woman (common practice)
_BREAST: Final = (0.064, 0.074)  # the same of one on the left only: 10.5 by 12 cm for a woman (common practice)
_ABOVE_BUST: Final = 40.0  # mm from the bust line up to the mouth of a breast pocket: 3 to 5 cm (common practice)
_LOW: Final = 20.0  # mm above the bust line at the least, for it not to be told (ours)
_BELOW: Final = 0.043  # of the height: 7 cm below the waist for a woman (common practice)
_TURNED_IN: Final = 25.0  # mm
_SMALLER: Final = (1.0, 0.9, 0.8, 0.7)  # of the usual size: what is tried where nobody said how large (ours)
_BELOW_BIB: Final = 0.02  # of the height: 3 cm below the edge of a bib for a woman, 2 for a small child (ours)
_STEP: Final = 15.0  # mm between places that are tried (ours)
_CLEAR: Final = (
    10.0  # mm from every seam and dart, for its allowance to lie beside the pocket: where it is ours to choose
)
_LOWER: Final = (
    60.0  # mm lower than usual from which a pocket lies nearer to a seam instead: the hand must reach it (ours)
)
_OFF_DART: Final = 15.0  # mm below the point of a dart (ours)
_CORNERS: Final = (
    "upper corner to the centre",
    "upper corner to the side",
    "lower corner to the side",
    "lower corner to the centre",
)


@alteration_class
class PatchPocket(Alteration):
    """Sew a pocket onto a piece: a pair, where the piece is there for both halves of the body.

    Every size that is left out goes by the wearer's height.
    """

    name = "patch pocket"
    layer = Layer.OPENINGS
    about = "Sew a pocket onto the outside of a piece, on both halves of the body or on one."
    leaves = "every edge of every piece; the finished widths and lengths"
    carries = "marks on the piece where the corners of the pocket come"

    piece: str = option("text", "the piece it is sewn onto")
    width: float | None = option(
        "length",
        "how wide it is; left out, 13 cm for a height of 163 cm, 10.5 cm on the breast, less where none has room",
        40.0,
        400.0,
        default=None,
    )
    height: float | None = option(
        "length",
        "how high it is; left out, 15 cm for a height of 163 cm, 12 cm on the breast, less where none has room",
        40.0,
        500.0,
        default=None,
    )
    below: float | None = option(
        "length",
        "how far its mouth lies below the upper edge of the piece; left out, 7 cm, or so far below a waist that is "
        "marked, and below the darts; on the breast 4 cm above the bust line",
        0.0,
        1000.0,
        default=None,
    )
    from_centre: float | None = option(
        "length",
        "how far it begins from the centre line; left out, so that it lies midway to the side",
        0.0,
        600.0,
        default=None,
    )
    angle: float = option(
        "angle",
        "how far it is turned, its side to the centre upward; for the back of trousers, so that it follows the waist",
        -45.0,
        45.0,
        default=0.0,
    )
    shape: str = option("choice", "how its lower edge is shaped", choices=(ROUNDED, SQUARE, POINTED), default=ROUNDED)
    turned_in: float = option("length", "how deep its mouth is turned in", 10.0, 80.0, default=_TURNED_IN)
    left_only: bool = option("flag", "only on the left, as on the breast of a shirt", default=False)

    def apply(self, pattern: Pattern) -> Pattern:
        place = _pocket_place(self, pattern)
        pocket = patch(pattern, place, self.shape, turned_in=self.turned_in, one=self.left_only)
        names = [mark.name for mark in place.piece.points]
        corners = (place.at(0.0, 0.0), place.at(1.0, 0.0), place.at(1.0, 1.0), place.at(0.0, 1.0))
        if self.shape == POINTED:
            corners = (*corners[:2], place.at(1.0, 1.0 - POINT_SHARE), place.at(0.0, 1.0 - POINT_SHARE))
        marks: list[MarkPoint] = []
        for word, at in zip(_CORNERS, corners, strict=True):
            marks.append(
                MarkPoint(free_name(f"pocket, {word}", [*names, *(mark.name for mark in marks)]), at, Landmark.POCKET)
            )
        pattern = with_pieces(pattern, replace(place.piece, points=(*place.piece.points, *marks)))
        return replace(pattern, pieces=(*pattern.pieces, pocket), origin=_origin_told(self, pattern, place))

    def came_to(self, before: Pattern, after: Pattern) -> Mapping[str, float]:  # noqa: ARG002
        place = _pocket_place(self, before)
        return {"width": place.whole_width, "height": place.high}

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        yield from whole_pieces_kept(pattern, ())
        yield from seams_kept(pattern)
        yield from finished_kept(pattern)


def _origin_told(step: PatchPocket, pattern: Pattern, place: PatchPlace) -> tuple[Origin, ...]:
    """What the pattern was drafted from, with a sentence where a dart keeps a breast pocket low on the breast, and one
    where a pocket of the usual size finds no room.
    """
    name, said = place.piece.name, list[str]()
    line = line_at(place.piece, Level.BUST) if step.left_only and step.below is None else None
    if line is not None and place.piece.darts and place.corner.y < line.start.y + _LOW:
        said.append(
            f"A dart of the {name} is in the way of its pocket, which lies low on the breast: the mouth of one "
            f"lies {_ABOVE_BUST:.0f} mm above the bust line. Say where it is to lie: below, from_centre."
        )
    wide, high = _size(step, pattern, 1.0)
    if place.high < high or (not place.folded and place.wide < wide):  # a bib is as wide as it is
        said.append(
            f"The pocket on the {name} is {place.whole_width:.0f} mm wide and {place.high:.0f} mm high: one "
            f"{wide:.0f} mm by {high:.0f} mm, as is usual, finds no room there. "
            "Say how large it is to be: width, height."
        )
    if not said or not pattern.origin:
        return pattern.origin
    first, *others = pattern.origin
    return (replace(first, gave_way=(*first.gave_way, *said)), *others)


def _pocket_place(step: PatchPocket, pattern: Pattern) -> PatchPlace:
    """Where the pocket lies: where nobody said where, smaller than is usual if only that finds room.

    Raises StepRefused for no room.
    """
    placed = step.below is not None or step.from_centre is not None
    sized = step.width is not None and step.height is not None
    nearer: PatchPlace | None = None  # the largest that finds room, however near to a seam
    for share in () if placed else (1.0,) if sized else _SMALLER:
        place = _place_with_room(step, pattern, share, 0.0)
        clear = place and _place_with_room(step, pattern, share, _CLEAR)
        if place and clear and (clear.corner - place.corner).dot(place.down) <= _LOWER:
            return clear
        nearer = nearer or place
    return nearer or _place_of_share(step, pattern, 1.0, 0.0)


def _place_with_room(step: PatchPocket, pattern: Pattern, share: float, clear: float) -> PatchPlace | None:
    """Where a pocket so large lies, so far from every seam; None for no room, or on the breast too low for it."""
    try:
        place = _place_of_share(step, pattern, share, clear)
    except StepRefused:
        return None
    return place if share == 1.0 or not step.left_only or _on_breast(place) else None


def _on_breast(place: PatchPlace) -> bool:
    """Whether its mouth lies above the bust line: further down, a smaller one is no breast pocket any more."""
    line = line_at(place.piece, Level.BUST)
    return line is None or place.corner.y >= line.start.y


def _size(step: PatchPocket, pattern: Pattern, share: float) -> tuple[float, float]:
    """How wide and how high the pocket is, mm. What is not asked for is this share of the usual; a hand fits in."""
    width, height = _BREAST if step.left_only else (_WIDE, _HIGH)
    least = 0.0 if step.left_only else by_height(pattern, HAND_WIDE) + BESIDE_HAND
    wide = max(share * by_height(pattern, width), least) if step.width is None else step.width
    return wide, share * by_height(pattern, height) if step.height is None else step.height


def _place_of_share(step: PatchPocket, pattern: Pattern, share: float, clear: float) -> PatchPlace:
    """Where a pocket of this share of its usual size lies, so far from every seam, mm.

    Raises StepRefused where it does not lie on the piece or takes no hand.
    """
    piece = find_piece(step.name, pattern, step.piece)
    wide, high = _size(step, pattern, share)
    hand = by_height(pattern, HAND_WIDE)
    if not step.left_only and wide < hand + BESIDE_HAND - ROUNDED_AWAY:
        raise StepRefused(
            step.name,
            reason=f"a pocket {wide:.0f} mm wide takes no hand of {hand:.0f} mm; for something smaller write "
            "left_only = true",
            remedies=instead(step.name, "width", hand + BESIDE_HAND, "mm"),
        )
    up = piece.grain_direction
    centre = _centre_of(step, piece)
    middle = _midway(piece, centre, up)
    out = up.right() if up.right().dot(middle - centre) > 0.0 else up.left()
    if _in_the_middle(step, piece):
        return _on_bib(step, piece, centre, out, -up, wide, high, pattern)
    side = 2.0 * (middle - centre).dot(out)
    laid = partial(_pocket_laid, step, piece, centre, out, -up, wide, high, clear)
    begins = 0.5 * (side - wide) if step.from_centre is None else step.from_centre
    below = by_height(pattern, _BELOW)
    if (line := _counted_from(step, piece)) is not None:
        level = line.start.y + (_ABOVE_BUST if step.left_only else -below)
        below = max(below, _top(piece, centre + out * (begins + 0.5 * wide), up, level) - level)
    try:
        return laid(begins, below if step.below is None else step.below)
    except StepRefused:
        for place in _places_about(step, begins, side - wide, below, piece):
            with suppress(StepRefused):
                return laid(*place)
        raise


def _counted_from(step: PatchPocket, piece: Piece) -> MarkLine | None:
    """The line that a mouth lies above on the breast, and below by the hand; None for the upper edge of the piece."""
    return line_at(piece, Level.BUST if step.left_only else Level.WAIST)


def _top(piece: Piece, on: Point, up: Vec, other: float) -> float:
    """How high the upper edge of a piece lies above a place, mm on the drawing; other where it has none there."""
    return max(((on + up * hit.along).y for _, hit in run_hits(piece.outline, on, up)), default=other)


def _places_about(
    step: PatchPocket, begins: float, most: float, below: float, piece: Piece
) -> Iterator[tuple[float, float]]:
    """Other places for a pocket, where it is not said where it lies, the nearest first: from the centre, below, mm."""
    _, bottom, _, top = run_bounds(piece.outline)
    across = [begins] if step.from_centre is not None else [_STEP * k for k in range(1, int(most / _STEP))]
    down = [step.below] if step.below is not None else [below + _STEP * k for k in range(int((top - bottom) / _STEP))]
    found = [(one, other) for one in across for other in down]
    return iter(sorted(found, key=lambda place: (place[1] - below) + abs(place[0] - begins)))


def _pocket_laid(
    step: PatchPocket,
    piece: Piece,
    centre: Point,
    out: Vec,
    down: Vec,
    wide: float,
    high: float,
    clear: float,
    begins: float,
    below: float,
) -> PatchPlace:
    """The pocket laid so far from the centre and below the upper edge, mm; StepRefused where it cannot lie there."""
    on = centre + out * (begins + 0.5 * wide)
    tops = [hit.along for _, hit in run_hits(piece.outline, on, -down)]
    if not tops:
        said = f'it would lie beside "{piece.name}"; let it begin nearer to the centre'
        raise StepRefused(step.name, reason=said, too_much=("from_centre",))
    top = on - down * max(tops)
    under = _under_darts(piece, top, -down, wide) if step.below is None else 0.0
    turned = math.radians(step.angle) * (1.0 if out.cross(down) > 0.0 else -1.0)
    across, along = out.turned(turned), down.turned(turned)
    place = PatchPlace(piece, top - across * (0.5 * wide) + down * max(below, under), across, along, wide, high)
    _accept_on_piece(step, place, clear)
    return place


def _in_the_middle(step: PatchPocket, piece: Piece) -> bool:
    """Whether one pocket lies across the centre line: on a bib, unless it is said how far off that it begins."""
    on_bib = bool(edges_at(piece, Place.BIB))
    return on_bib and not step.from_centre and not step.left_only and not step.angle


def _on_bib(
    step: PatchPocket, piece: Piece, centre: Point, out: Vec, down: Vec, wide: float, high: float, pattern: Pattern
) -> PatchPlace:
    """Half of the pocket, from the centre line out, below the upper edge of the bib. Raises StepRefused for no room."""
    line = edges_at(piece, *CENTRES)
    upper = max((at for edge in line for at in (edge.start, edge.end)), key=lambda at: -(at - centre).dot(down))
    most = max((edge.end - upper).dot(out) for edge in edges_at(piece, Place.BIB)) if line else wide
    if step.width is None:
        wide = min(wide, 2.0 * (most - _STEP))
    below = by_height(pattern, _BELOW_BIB) if step.below is None else step.below
    place = PatchPlace(piece, upper + down * below, out, down, 0.5 * wide, high, folded=True)
    _accept_on_piece(step, place, 0.0)
    return place


def _under_darts(piece: Piece, top: Point, up: Vec, wide: float) -> float:
    """How far below a place on the upper edge every dart has ended that comes down to a pocket so wide below it, mm."""
    deepest = 0.0
    for dart in piece.darts:
        mouth = piece.edge(dart.legs[0]).start
        beside = abs((dart.apex - top).cross(up)) > 0.5 * wide + _OFF_DART
        if not beside and (mouth - dart.apex).dot(up) > 0.0:
            deepest = max(deepest, (top - dart.apex).dot(up) + _OFF_DART)
    return deepest


def _centre_of(step: PatchPocket, piece: Piece) -> Point:
    """The upper end of the centre line of a piece. Raises StepRefused where it has none."""
    ends = [end for edge in edges_at(piece, *CENTRES) for end in (edge.start, edge.end)]
    if ends:
        return max(ends, key=lambda end: (end - ends[0]).dot(piece.grain_direction))
    for level in (Level.CENTRE_FRONT, Level.CENTRE_BACK):
        line = line_at(piece, level)
        if line is not None:
            return line.start
    raise StepRefused(step.name, reason=f'"{piece.name}" has no centre line to lay it from; take a front or a back')


def _midway(piece: Piece, centre: Point, up: Vec) -> Point:
    """A place halfway between the centre line and where the piece is widest."""
    across = up.right()
    far = max((edge.start for edge in piece.edges), key=lambda at: abs((at - centre).dot(across)))
    return centre + across * (0.5 * (far - centre).dot(across))


def _accept_on_piece(step: PatchPocket, place: PatchPlace, clear: float) -> None:
    """Raise StepRefused for one so near to an edge or a dart at its sides, mm, or too near to the hem."""
    piece = place.piece
    beside = clear / place.wide
    corners = [place.at(out, down) for out, down in product((-beside, 1.0 + beside), (0.0, 1.0))]
    corners[2:] = reversed(corners[2:])
    outline = straight_run(*corners, *(() if place.folded else corners[:1]))
    if not encloses(polyline(piece.outline), place.at(0.5, 0.5)):
        met = [hit.along for _, hit in run_hits(piece.outline, place.at(0.5, 0.5), place.down)]
        if met and max(met) < 0.0:
            raise StepRefused(
                step.name, reason=f'it would lie below the hem of "{piece.name}"', too_much=("below", "height")
            )
        said = f'it would lie beside "{piece.name}"; let it begin nearer to its middle'
        raise StepRefused(step.name, reason=said, too_much=("from_centre",))
    centre = CENTRES if place.folded else ()
    for edge in piece.edges:
        if edge.place not in centre and run_meetings(outline, edge.curves):
            dart = edge.role is Role.DART_LEG
            what = "a dart" if dart else f'the "{edge.name}"'
            raise StepRefused(
                step.name,
                reason=f'it would run over {what} of "{piece.name}"; let it begin elsewhere (from_centre, below), or '
                f"make it smaller (width, height){', or move the dart to another edge' if dart else ''}",
                too_much=("width", "height"),
            )
    hems = [edge for edge in piece.edges if edge.role is Role.HEM]
    low = [place.at(share, 1.0) for share in (0.0, 0.5, 1.0)]
    left = [hit.along for edge in hems for at in low for _, hit in run_hits(edge.curves, at, place.down)]
    least = min((along for along in left if along > 0.0), default=None)
    if least is not None and least < ABOVE_HEM:
        reason = f'it would end {least:.0f} mm above the hem of "{piece.name}": {ABOVE_HEM:.0f} mm is the least'
        raise StepRefused(step.name, reason=reason, too_much=("below", "height"))
