"""What is sewn onto the garment, for its picture: pockets, straps, the end of a sleeve drawn into a cuff or elastic."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Point, Vec, polyline
from drafting.pattern import EdgeRef, Landmark, Pattern, Piece, PieceKind, Place, edges_at, pieces_of, run_total
from drafting.pattern.casings import casings
from drafting.pattern.pockets import is_patch, pockets, sewn_behind
from output.drawings.attached_picture import loop_outlines
from output.drawings.flat_shape import FlatShape, centre_line, closed_darts

__all__ = ["SleeveEnd", "drawn_in_by_elastic", "end_folds", "puffed", "sleeve_end", "straps", "with_pockets"]

_BESIDE: Final = 6.0
"""mm from a side seam to the line that shows its pocket (ours)."""

_PUFFS: Final = 90.0
"""mm above a cuff or an elastic over which a sleeve is drawn in to it (ours)."""

_FOLDS: Final = 5
_FOLD_LONG: Final = 0.5
"""Folds above the end of a sleeve that is drawn in, and how far up they reach, as a share of that (ours)."""


def with_pockets(pattern: Pattern, shape: FlatShape) -> FlatShape:
    """The shape with its belt loops, and the pockets that lie on its piece: the outline of a patch, a line beside the
    mouth of another.
    """
    piece, place = shape.piece, closed_darts(shape.piece)
    lines = [tuple(map(place, line)) for line in loop_outlines(pattern, piece)]
    for pocket in pockets(pattern):
        if is_patch(pocket) and _lies_on(pocket, piece):
            lines += [tuple(map(place, polyline(edge.curves, 0.3))) for edge in pocket.edges]
        elif sewn_behind(pattern, pocket) == piece:
            for mouth in edges_at(pocket, Place.POCKET_MOUTH):
                inward = Vec(_BESIDE if mouth.start.x < centre_line(piece) else -_BESIDE, 0.0)
                lines.append(tuple(place(p) + inward for p in polyline(mouth.curves, 0.3)))
    return replace(shape, darts=(*shape.darts, *lines)) if lines else shape


def _lies_on(pocket: Piece, piece: Piece) -> bool:
    """Whether a patch is drawn where the marks of this piece are."""
    mine = (pocket.identity.of, pocket.identity.part) == (piece.identity.kind, piece.identity.part)
    marks = [mark.at for mark in piece.points if mark.landmark is Landmark.POCKET]
    return mine and any(at.near(edge.start, 1.0) for at in marks for edge in pocket.edges)


def straps(pattern: Pattern, shapes: Sequence[FlatShape]) -> Iterator[tuple[Point, ...]]:
    """The straps of a bib as they lie on the body: half of each before it, half behind, where they cross."""
    for strap in pieces_of(pattern, PieceKind.STRAP):
        xs, ys = zip(*((edge.start.x, edge.start.y) for edge in strap.edges), strict=True)
        long, wide = sorted((max(xs) - min(xs), max(ys) - min(ys)), reverse=True)
        for shape in shapes:
            marks = {mark.name for mark in shape.piece.points if mark.landmark is Landmark.STRAP}
            for name, at in shape.points:
                if name in marks:
                    top = at + Vec((0.0 if shape.piece.identity.kind is PieceKind.FRONT else -2.0 * at.x), 0.45 * long)
                    across = (top - at).unit().left() * (0.25 * wide)
                    yield (at - across, top - across, top + across, at + across)


@dataclass(frozen=True, slots=True)
class SleeveEnd:
    """How the end of a sleeve is finished: how wide it is as a share of what it is cut, how deep the band below it.

    gathered: whether what is drawn in lies in folds, and is not taken up by a knit
    """

    share: float
    band: float
    gathered: bool = True


def sleeve_end(pattern: Pattern, sleeve: Piece) -> SleeveEnd:
    """The end of a sleeve: in a cuff, on a band of knit, on elastic, or as it is cut."""
    wrist = sum(edge.length for edge in edges_at(sleeve, Place.WRIST))
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            cuff = pattern.piece(other[0].piece)
            if cuff.identity.kind in (PieceKind.CUFF, PieceKind.BAND) and _ends(sleeve, run):
                high = min(edge.length for edge in edges_at(cuff, Place.BAND_END))
                share = min(1.0, run_total(pattern, other) / run_total(pattern, run))
                return SleeveEnd(share, 0.5 * high, gathered=cuff.identity.kind is PieceKind.CUFF)
    share = next((c.elastic / c.edge for c in casings(pattern) if c.place is Place.WRIST), 1.0) if wrist else 1.0
    return SleeveEnd(min(1.0, share), 0.0)


def _ends(sleeve: Piece, run: Sequence[EdgeRef]) -> bool:
    return all(ref.piece == sleeve.name and sleeve.edge(ref.edge).place is Place.WRIST for ref in run)


def drawn_in_by_elastic(pattern: Pattern, place: Place) -> float:
    """How wide an edge is where elastic draws it in, as a share of what it is cut; 1 where there is none."""
    return min([1.0, *(casing.elastic / casing.edge for casing in casings(pattern) if casing.place is place)])


def puffed(p: Point, middle: float, end: float, share: float) -> Point:
    """A place of a sleeve that hangs straight, drawn in toward the middle of its end; further up less and less."""
    near = max(0.0, 1.0 - max(0.0, p.y - end) / _PUFFS)
    return Point(middle + (p.x - middle) * (1.0 - (1.0 - share) * near * near), p.y)


def end_folds(left: float, right: float, end: float) -> Iterator[tuple[Point, ...]]:
    """The folds above the end of a sleeve that is drawn in."""
    for k in range(_FOLDS):
        x = left + (right - left) * (k + 0.5) / _FOLDS
        yield Point(x, end), Point(x, end + _PUFFS * _FOLD_LONG * (1.0 if k % 2 else 0.6))
