r"""A front hip pocket with a slanted mouth, from the waist to the side seam.

E     M   S  waist      The corner of the front between the waist and the side is cut away along the mouth. A hip
+-----+...+             piece of the same cloth gives it back and goes on inward under the front as one half of the
|      \  :             bag; the other half, of lining, is sewn to the mouth and turned in. Both are sewn to each
|   mouth\: side        other round their edge, and caught at waist and side, where nothing is changed.
|  bag    + N
 \       /              A woman's begins 3 in along the waist and ends 6 1/4 in down the side; the bag goes 2 in
   `---'                further along the waist and hangs 4 in deeper (a sewing page on trouser pockets). The mouth
                        lies across the grain, so it is taped.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Final

from drafting.alterations.alteration import Alteration, Layer, Promise
from drafting.alterations.earlier_steps import not_whole, refused_after
from drafting.alterations.finishes.pocket_sizes import (
    BESIDE_HAND,
    HAND_WIDE,
    ROUNDED_AWAY,
    accept_no_zip,
    bag_hangs,
    by_height,
)
from drafting.alterations.option_fields import alteration_class, option
from drafting.alterations.promises import finished_kept, whole_pieces_kept
from drafting.alterations.refusing import instead
from drafting.alterations.techniques.cutting.clip_marks import clipped
from drafting.alterations.techniques.cutting.cut_piece import CutOffPiece, free_seam_name, with_piece_cut
from drafting.alterations.techniques.cutting.split_edges import (
    EdgePart,
    begun_at,
    cut_at,
    made_of,
    notches_on,
    renamed_points,
    whole_edge,
)
from drafting.alterations.techniques.marks.grain_line import grain_in_middle
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import Curve, Line, Point, Vec, bend, cut_run, distance, run_ends, run_reversed
from drafting.pattern import (
    BodyPart,
    Cut,
    Edge,
    EdgeRef,
    Identity,
    Level,
    MarkLine,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    closed,
    edges_at,
    free_name,
    free_piece_name,
    line_at,
    notches_marking,
    seam_allowance,
)
from drafting.pattern.pleats import is_pleated
from drafting.pattern.pockets import ABOVE_HEM, above_hem

__all__ = ["SlantedPocket"]

_ALONG: Final = 0.0468  # of the height: 3 in for a woman of 163 cm
_DOWN: Final = 0.0975  # of the height: 6 1/4 in
_INTO: Final = 0.0312  # of the height: 2 in
_HANGS: Final = 0.0624  # of the height: 4 in
_LEFT: Final = 8.0  # mm that the bag ends short of the next dart or of the centre (ours)
_LEAST_INTO: Final = 36.0  # mm that it goes on along the waist where its size is left out (ours)
_ABOVE_HIP: Final = 10.0  # mm that the mouth ends above the hip line at the least (ours)
_ROUND: Final = 0.4  # of its width: how the bag is rounded (ours)
_LEAST_ALONG, _LEAST_HANGS = 25.0, 20.0  # mm


@dataclass(frozen=True, slots=True)
class _Corner:
    """The corner of a front that is cut away, mm: how far it goes along the waist and down the side, the bag further.

    downward: whether the outline runs along the waist to the side and down it
    """

    piece: Piece
    top: Edge
    side: Edge
    downward: bool
    along: float
    down: float
    into: float

    def from_side(self) -> tuple[Curve, ...]:
        """The waist from the side on, toward the centre."""
        return run_reversed(self.top.curves) if self.downward else self.top.curves

    def from_waist(self) -> tuple[Curve, ...]:
        """The side from the waist down."""
        return self.side.curves if self.downward else run_reversed(self.side.curves)


@alteration_class
class SlantedPocket(Alteration):
    """Put a pocket with a slanted mouth into both sides of the front, from the waist to the side seam.

    Every size that is left out goes by the wearer's height.
    """

    name = "slanted pocket"
    layer = Layer.OPENINGS
    about = "Put a front hip pocket into both sides: a slanted mouth from the waist to the side seam, a bag behind it."
    leaves = "waist, side seam and all finished widths and lengths; every other piece"
    carries = "the front, whose corner is cut away; a hip piece that gives it back, and the bag"

    along: float | None = option(
        "length",
        "how far from the side the mouth begins along the waist; left out, 7.5 cm for a height of 163 cm",
        _LEAST_ALONG,
        200.0,
        default=None,
        or_less=True,
    )
    down: float | None = option(
        "length",
        "how far down the side the mouth ends; left out, 16 cm for a height of 163 cm",
        60.0,
        300.0,
        default=None,
        or_less=True,
    )
    hangs: float | None = bag_hangs(250.0)

    def apply(self, pattern: Pattern) -> Pattern:
        for front in _fronts(self, pattern):
            pattern = _with_pocket(self, pattern, _corner(self, pattern, front))
        return pattern

    def promises(self, pattern: Pattern) -> Iterator[Promise]:
        yield from whole_pieces_kept(pattern, {front.name for front in _fronts(self, pattern)})
        yield from finished_kept(pattern)


def _fronts(step: SlantedPocket, pattern: Pattern) -> list[Piece]:
    """The fronts that go down from a waist, a band or a yoke at their side. Raises StepRefused where there is none."""
    parts = (BodyPart.SKIRT, BodyPart.TROUSERS)
    fronts = [p for p in pattern.pieces if p.identity.kind is PieceKind.FRONT and p.identity.part in parts]
    found = [front for front in fronts if edges_at(front, Place.HEM, Place.TIER) and _beside_side(front) is not None]
    if not found:
        accept_no_zip(step.name, pattern, fronts)
        opened = next((reason for front in fronts if (reason := not_whole(front, Place.SIDE))), None)
        plain = "there is neither a skirt nor trousers whose front goes on below a waist"
        raise refused_after(step.name, opened, plain)
    return found


def _beside_side(front: Piece) -> tuple[Edge, Edge, bool] | None:
    """The upper edge that comes to the side, the side, and whether the outline runs from the one to the other."""
    for top in edges_at(front, Place.WAIST, Place.YOKE):
        before, after = front.beside(top.name)
        for side, downward in ((after, True), (before, False)):
            if side.place is Place.SIDE and side.role is Role.SEAM:
                return top, side, downward
    return None


def _corner(step: SlantedPocket, pattern: Pattern, front: Piece) -> _Corner:
    """What is cut away. Raises StepRefused where there is no room for it, or the hand does not get in."""
    found = _beside_side(front)
    assert found is not None  # by how the fronts were chosen
    top, side, downward = found
    if notches_marking(front, NotchMark.POCKET):
        raise StepRefused(
            step.name, reason=f'"{front.name}" has a pocket in its side seam already; leave one of the two out'
        )
    if is_pleated(front):
        raise StepRefused(step.name, reason=f'"{front.name}" is pleated; take a pocket in the side seam instead')
    most = top.length - _LEFT - _LEAST_INTO
    along = min(by_height(pattern, _ALONG), most) if step.along is None else step.along
    if along > most or most < _LEAST_ALONG:
        what = "a dart" if front.darts else "the centre"
        raise StepRefused(
            step.name,
            reason=f'"{front.name}" has {top.length:.0f} mm of waist from the side to {what}; the mouth can begin at '
            "most "
            f"{max(most, 0.0):.0f} mm from the side",
            too_much=("along",),
        )
    lowest = min(side.length - ABOVE_HEM, _down_to_hip(front, side) - _ABOVE_HIP)
    down = min(by_height(pattern, _DOWN), lowest) if step.down is None else step.down
    if down > lowest:
        reason = f'the mouth can end at most {lowest:.0f} mm down the side of "{front.name}", above the hip line'
        raise StepRefused(step.name, reason=reason, too_much=("down",))
    corner = _Corner(
        front, top, side, downward, along, down, min(by_height(pattern, _INTO), top.length - along - _LEFT)
    )
    hand = by_height(pattern, HAND_WIDE) + BESIDE_HAND
    if (mouth := distance(*_ends(corner))) < hand - ROUNDED_AWAY:
        reason = f"a mouth of {mouth:.0f} mm takes no hand, which wants {hand:.0f} mm"
        raise StepRefused(
            step.name, reason=reason, remedies=instead(step.name, "down", hand, "mm") if hand <= lowest else []
        )
    return corner


def _down_to_hip(front: Piece, side: Edge) -> float:
    """How far down its side the hip line lies, mm; the whole side where none is marked."""
    line = line_at(front, Level.HIP)
    if line is None:
        return side.length
    top = max(side.start, side.end, key=lambda end: end.y)
    # where the side runs aslant, as on a part of a circle, the end of the line that lies on it is the nearer
    return min(top.y - 0.5 * (line.start.y + line.end.y), distance(top, line.start), distance(top, line.end))


def _ends(corner: _Corner) -> tuple[Point, Point]:
    """Where the mouth begins at the waist and ends at the side."""
    _, beyond = cut_run(corner.from_side(), corner.along)
    _, below = cut_run(corner.from_waist(), corner.down)
    return beyond[0].start, below[0].start


def _with_pocket(step: SlantedPocket, pattern: Pattern, corner: _Corner) -> Pattern:
    """The pattern with one front parted into the front without its corner and the hip piece, and the bag.

    All edges are made as they run where the outline runs down the side, and turned round where it runs up.
    """
    piece = corner.piece
    allowance = seam_allowance(piece)
    top_left, top_cut = _edge_parted(corner.top, corner.along, from_end=corner.downward)
    side_left, side_cut = _edge_parted(corner.side, corner.down, from_end=not corner.downward)
    start, end = _ends(corner)
    beyond = cut_run(corner.from_side(), corner.along)[1]
    inner, rest = cut_run(beyond, corner.into)

    def edge(name: str, curves: tuple[Curve, ...], place: Place) -> EdgePart:
        run = curves if corner.downward else run_reversed(curves)
        return EdgePart(Edge(name, run, Role.SEAM, allowance, place), ())

    mouth = edge(free_name(_MOUTH, {each.name for each in piece.edges}), (Line(start, end),), Place.POCKET_MOUTH)
    upper = edge("upper edge of the bag", run_reversed(inner), Place.POCKET_TOP)
    round_ = edge("round", _round(step, pattern, corner, end, rest[0].start), Place.POCKET_EDGE)

    def in_turn(*parts: EdgePart) -> tuple[EdgePart, ...]:
        return parts if corner.downward else parts[::-1]

    front = _front(corner, in_turn(top_left, mouth, side_left))
    hip = _hip_piece(pattern, corner, in_turn(upper, top_cut, side_cut, round_), (start, end))
    bag = _bag(pattern, corner, in_turn(upper, mouth, round_), hip.piece.name)
    back = not corner.downward
    on_mouth = EdgeRef(bag.name, mouth.edge.name, back), EdgeRef(piece.name, mouth.edge.name, back)
    round_bag, round_hip = (
        (EdgeRef(name, round_.edge.name, back), EdgeRef(name, upper.edge.name, back))
        for name in (bag.name, hip.piece.name)
    )
    mouth_seam = Seam(free_seam_name(pattern, f"{bag.name} to {piece.name}"), on_mouth[:1], on_mouth[1:])
    bag_seam = Seam(free_seam_name(pattern, f"{bag.name} to {hip.piece.name}"), round_bag, round_hip)
    pattern = with_piece_cut(pattern, piece.name, (front, hip))
    return replace(pattern, pieces=(*pattern.pieces, bag), seams=(mouth_seam, bag_seam, *pattern.seams))


_MOUTH: Final = "pocket mouth"


def _edge_parted(edge: Edge, at: float, *, from_end: bool) -> tuple[EdgePart, EdgePart]:
    """An edge divided so many mm from the corner that is cut away: the part of the front, that of the hip piece."""
    one, other = cut_at(edge, edge.length - at if from_end else at)
    return (one, other) if from_end else (other, one)


def _front(corner: _Corner, made: tuple[EdgePart, ...]) -> CutOffPiece:
    """The front without its corner."""
    piece, count = corner.piece, len(corner.piece.edges)
    first = piece.index(corner.top.name if corner.downward else corner.side.name)
    parts = (*made, *(whole_edge(piece.edges[(first + 2 + k) % count]) for k in range(count - 2)))
    by_name = made_of(part for part in parts if part.of)
    edges = begun_at(piece.edges[0].name, [part.edge for part in parts], by_name)
    outline = [curve for edge in edges for curve in edge.curves]
    lines = tuple(each for line in piece.lines if (each := clipped(line, outline)) is not None)
    front = replace(
        piece,
        edges=closed(piece.name, edges),
        notches=notches_on(piece, by_name),
        lines=lines,
        points_meant=(*renamed_points(piece, edges, by_name), *_corners(made)),
    )
    return CutOffPiece(front, parts)


def _hip_piece(
    pattern: Pattern, corner: _Corner, parts: tuple[EdgePart, ...], mouth: tuple[Point, Point]
) -> CutOffPiece:
    """The piece that gives the corner back, and goes on inward as one half of the bag; the mouth is marked on it."""
    name = free_piece_name(pattern, f"{corner.piece.name} hip piece")
    line = MarkLine("pocket mouth", *mouth, level=Level.POCKET)
    made = _piece_behind(corner, name, parts, Cut(2, mirror=True), PieceKind.PANEL)
    found = notches_on(corner.piece, made_of(part for part in parts if part.of))
    return CutOffPiece(replace(made, notches=found, lines=(line,)), parts)


def _bag(pattern: Pattern, corner: _Corner, parts: tuple[EdgePart, ...], other: str) -> Piece:
    """The half of the bag that is sewn to the mouth, of lining."""
    name = free_piece_name(pattern, f"{corner.piece.name} pocket bag", [other])
    return _piece_behind(corner, name, parts, Cut(0, mirror=True, lining=2), PieceKind.POCKET)


def _piece_behind(corner: _Corner, name: str, parts: tuple[EdgePart, ...], cut_as: Cut, kind: PieceKind) -> Piece:
    """A piece that lies behind the pocket's mouth, with these edges: the pouch or the facing, by its kind."""
    piece = corner.piece
    edges = closed(name, tuple(part.edge for part in parts))
    up = piece.grain_direction
    return Piece(
        name,
        edges,
        cut_as,
        grain_in_middle([curve for edge in edges for curve in edge.curves], up),
        points_meant=tuple(
            pair for pair in (*_corners(parts), (parts[-1].edge.name, parts[0].edge.name)) if not _runs_on(corner, pair)
        ),
        identity=Identity(kind, piece.identity.part, of=piece.identity.kind, side=piece.identity.side),
    )


def _runs_on(corner: _Corner, pair: tuple[str, str]) -> bool:
    """Whether two neighbouring edges of a hip piece meet at the side of the waist, where the waist is to run on.

    Not where the front says that its waist comes to a corner there, as that of a pointed waist.
    """
    at_side = {corner.top.name, corner.side.name}
    return set(pair) == at_side and not any(set(meant) == at_side for meant in corner.piece.points_meant)


def _corners(parts: tuple[EdgePart, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((one.edge.name, other.edge.name) for one, other in pairwise(parts))


def _round(step: SlantedPocket, pattern: Pattern, corner: _Corner, end: Point, inner: Point) -> tuple[Curve, ...]:
    """The lower edge of the bag, from the end of the mouth at the side round to where it ends at the waist.

    Raises StepRefused for a bag that comes too near to the hem, or is too short to be rounded.
    """
    piece = corner.piece
    down = Vec(0.0, -1.0) if piece.grain is None else (piece.grain.start - piece.grain.end).unit()
    inward = down.left() if down.left().dot(inner - end) > 0.0 else down.right()
    left = above_hem((Line(inner, end),), piece)
    hangs = by_height(pattern, _HANGS) if step.hangs is None else step.hangs
    if left is not None:
        most = left - ABOVE_HEM
        hangs = min(hangs, most) if step.hangs is None else hangs
        if hangs > most or hangs < _LEAST_HANGS:
            raise StepRefused(
                step.name,
                reason=f"the bag would end {left - max(hangs, _LEAST_HANGS):.0f} mm above the hem of "
                f'"{piece.name}": {ABOVE_HEM:.0f} mm is the least',
                too_much=("hangs", "down"),
            )
    wide = (inner - end).dot(inward)
    reach = _ROUND * wide
    low = (end - inner).dot(down) + hangs
    if low <= reach or wide <= 0.0:
        raise StepRefused(step.name, reason="its bag is too short to be rounded", too_much=("along",))
    at_side = run_ends(cut_run(corner.from_waist(), corner.down)[0])[1]
    knee, turn = inner + down * (low - reach), inner + down * low - inward * reach
    from_waist = (Line(inner, knee), bend(knee, down, turn, -inward), bend(turn, -inward, end, -at_side))
    return run_reversed(from_waist)
