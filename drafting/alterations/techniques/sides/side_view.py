"""A piece seen from its side seam: where the seam meets a marked level and the waist, whichever way the piece lies.

centre            side          The seam is found by its place, read from its far end (the underarm of a bodice, the
  |              / far end      hem of a skirt) to the corner at the waist, and cut in two where the level meets it.
  |-------------+  level        So one rule moves the side of a front and a back, of a bodice and a skirt: `level`
  |            (                keeps its place or is moved, `corner` is moved, and what lies between follows.
  |             )
  +------------+  corner at the waist
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from drafting.alterations.earlier_steps import not_whole, put_before, refused_after
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import Curve, Line, Point, Vec, run_hits, run_length, split
from drafting.geometry.tolerance import MEASURED, SAME_PLACE
from drafting.pattern import Along, Edge, Level, MarkLine, Pattern, Piece, Place, Role, WalkedEdge, edges_at, line_at

__all__ = ["ON_SEAM", "Side", "accept_plain_waists", "far_edge", "side_of", "sides_at", "whole_side"]

ON_SEAM: Final = 1e-3
"""mm. A marked line that ends no further from the side seam ends on it; a balance line is drawn there."""

_MOST_REACH: Final = 1.5
"""Times the height from level to corner, beyond which a seam is left alone past its level (our figure)."""

_SHORTEST: Final = 15.0
"""mm of side seam that must lie between the level and the waist: less cannot take a curve."""

_BOTH_HALVES: Final = 2.0
"""How often a tape round the body is laid along an edge of a piece that is cut for one half of it."""


@dataclass(frozen=True, slots=True)
class Side:
    """One piece seen from its side seam, or from another seam that a line across the piece ends on.

    edge:    the name of the seam's edge
    mark:    the marked line at whose level the seam is held
    out, up: unit directions from the centre to the side along the marked level, and square to it up the piece
    toward:  `up` or its opposite: in which direction from the level the waist lies, and `height` how far, mm
    seam:    the side seam as curves from the far end (underarm or hem) to the waist, parted at the level
    level:   where the level meets it
    waist:   the waist line up to where it ends at the side seam, and the name of its edge; of another line that ends
             in the corner, its last curve
    seam_length, waist_length: of these two, mm within 1e-6
    """

    piece: Piece
    edge: str
    mark: MarkLine
    out: Vec
    up: Vec
    toward: Vec
    height: float
    seam: tuple[Curve, ...]
    level: Point
    waist: tuple[Curve, ...]
    waist_edge: str
    seam_length: float
    waist_length: float

    @property
    def corner(self) -> Point:
        """Where waist and side seam meet."""
        return self.waist[-1].end

    @property
    def reach(self) -> float:
        """How far beyond the level the seam bends on, as a share of the height from level to corner.

        Zero where it runs straight from there, which it is then to keep, and where that is much further than the
        corner: a change spreads about as far one way as the other.
        """
        beyond = self.seam[: next(k for k, c in enumerate((*self.seam, None)) if c is None or c.start == self.level)]
        if all(isinstance(curve, Line) for curve in beyond):
            return 0.0
        far = (self.level - self.seam[0].start).dot(self.toward) / self.height
        return far if far <= _MOST_REACH else 0.0

    def along(self, place: Point) -> float:
        """How much of the way from the level to the corner lies behind a place; less than zero beyond the level."""
        return (place - self.level).dot(self.toward) / self.height


def sides_at(step: str, pattern: Pattern, level: Level, *, may_miss: bool = False) -> tuple[Side, ...]:
    """The pieces with a marked line at that level and a side seam, each seen from its side seam.

    may_miss: whether the line may pass the seam by, as above the gusset of a kimono: the whole seam is meant then
    Raises StepRefused for a piece whose side seam or line is not as it should be.
    """
    for piece in pattern.pieces:
        if line_at(piece, Level.BUST) and edges_at(piece, Place.HEM) and not edges_at(piece, Place.WAIST):
            reason = f'"{piece.name}" runs on from the chest to its hem, without a seam at the waist'
            raise StepRefused(step, reason=f"{reason}; draft it with another ease")
    marked = ((piece, line_at(piece, level)) for piece in pattern.pieces)
    return tuple(_side(step, piece, level, mark, may_miss=may_miss) for piece, mark in marked if mark is not None)


def whole_side(step: str, piece: Piece) -> Edge:
    """The side seam of a piece, in one. Raises StepRefused for one that has none, or one with something in it."""
    found = edges_at(piece, Place.SIDE)
    if len(found) != 1:
        none = f'"{piece.name}" has no {Place.SIDE}: give its block another ease instead, at bust, waist or hip'
        raise refused_after(step, not_whole(piece, Place.SIDE), none)
    return found[0]


def accept_plain_waists(step: str, pattern: Pattern, sides: Iterable[Side]) -> None:
    """Raise StepRefused where the waist line of a side is gathered or eased into its seam: how far would be lost.

    The waist of a skirt by itself is sewn to nothing. A tape round the body counts it twice, once for each half of the
    body, and less than that where some of it is taken up in gathers.
    """
    full = {(ref.piece, ref.edge) for seam in pattern.seams if not seam.plain for ref in (*seam.a, *seam.b)}
    for measure in pattern.measures:
        full |= {
            (part.piece, part.edge)
            for part in measure.tape
            if measure.round and isinstance(part, Along) and part.times < _BOTH_HALVES - SAME_PLACE
        }
    for side in sides:
        if (side.piece.name, side.waist_edge) in full:
            full_there = f'the waist of "{side.piece.name}" is gathered or eased'
            if pattern.history:
                raise StepRefused(step, reason=full_there, remedies=(put_before(),))
            raise StepRefused(step, reason=f"{full_there}; draft it flat, or with another ease")


def far_edge(side: Side) -> str:
    """The edge that ends where the side seam has its far end: the armhole, or the hem."""
    far = side.seam[0].start
    return next(e.name for e in side.piece.edges if e.name != side.edge and far in (e.start, e.end))


def side_of(
    step: str, piece: Piece, name: str, mark: MarkLine, out: Vec, *, corner_first: bool, must_meet: str = ""
) -> Side:
    """A piece seen from the edge `name`, out of the piece in the direction `out` along the marked line.

    corner_first: whether the edge begins at the corner that is to be moved, so that what ends there is the edge before
                  it; else it ends there
    must_meet:    what is said where the line misses the edge; "" where the level is then the edge's far end
    Raises StepRefused where a dart lies in that corner, or the level comes too near to it.
    """
    edge = piece.edge(name)
    before, after = piece.beside(edge.name)
    joining = before if corner_first else after
    # from the far end to the corner
    parted, found = _parted(WalkedEdge(edge, corner_first).run, mark)
    if found is None and must_meet:
        raise StepRefused(step, reason=must_meet)
    if joining.role is Role.DART_LEG:
        raise StepRefused(step, reason=f'on "{piece.name}" a dart lies in the corner at the end of the {edge.name}')
    waist = WalkedEdge(joining, not corner_first).run
    if joining.place is not Place.WAIST:
        waist = waist[-1:]
    level = parted[0].start if found is None else found
    if (waist[-1].end - level).norm() < _SHORTEST:
        raise StepRefused(step, reason=f'on "{piece.name}" the {mark.name} meets the {edge.name} too near to its end')
    up = out.left() if out.left().y > 0.0 else out.right()
    toward = up if (waist[-1].end - level).dot(up) > 0.0 else -up
    return Side(
        piece,
        edge.name,
        mark,
        out,
        up,
        toward,
        (waist[-1].end - level).dot(toward),
        parted,
        level,
        waist,
        joining.name,
        edge.length_within(MEASURED),
        run_length(waist, MEASURED),
    )


def _side(step: str, piece: Piece, level: Level, mark: MarkLine, *, may_miss: bool) -> Side:
    # where a dart bends the level, it is the part beyond the dart that comes to the side
    mark = line_at(piece, level, onward=True) or mark
    out = (mark.end - mark.start).unit()
    up = out.left() if out.left().y > 0.0 else out.right()
    edge = whole_side(step, piece)
    waist_first = ((edge.start - edge.end).dot(up) > 0.0) != (level is Level.BUST)
    missed = "" if may_miss else f'on "{piece.name}" the {level} does not meet the side seam above or below the waist'
    return side_of(step, piece, edge.name, mark, out, corner_first=waist_first, must_meet=missed)


def _parted(seam: tuple[Curve, ...], mark: MarkLine) -> tuple[tuple[Curve, ...], Point | None]:
    """The seam with a joint where a line meets it, and that place; None where it does not."""
    along = (mark.end - mark.start).unit()
    ends = [curve.start for curve in seam] + [seam[-1].end]
    for end in ends:
        if abs(along.cross(end - mark.start)) <= ON_SEAM:
            return seam, end
    hits = run_hits(seam, mark.start, along)
    if not hits:
        return seam, None
    k, hit = hits[0]
    before, after = split(seam[k], hit.t)
    return (*seam[:k], before, after, *seam[k + 1 :]), after.start
