"""A zip in the left side seam, above and below the waist.

Both pieces are cut for both sides alike, so the seam is divided on all four edges and the zip is marked there; only the
left side is left open (common practice). The zip of a dress goes as far below the waist as that of a skirt; the rest of
it lies above the waist.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.refusing import instead
from drafting.alterations.techniques.cutting.divide_edge import divided, end_notch, notched_edge
from drafting.alterations.techniques.cutting.split_edges import with_edge_cut
from drafting.alterations.techniques.sides.side_view import Side, sides_at
from drafting.errors import StepRefused
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import Level, NotchMark, NotchRef, Pattern, Piece, Place, Role, Seam
from drafting.pattern.notches import ZIP_NOTCH

__all__ = ["LEAST_LEFT", "SKIRT_ZIP", "side_zips", "with_side_zip"]

SKIRT_ZIP: Final = 180.0
"""mm. The zip of a skirt: 18 to 20 cm (common practice, from memory)."""

LEAST_LEFT: Final = 20.0
"""mm of seam left at the end of a zip, or none at all (our figure)."""

_A_TRIFLE: Final = 0.01  # mm by which the side seams of front and back may differ in length
_ABOVE_WAIST: Final = 160.0  # mm: what of a dress's side zip lies above the waist, where there is room (our figure)


def side_zips(step: str, pattern: Pattern, length: float | None, below: float | None) -> list[tuple[Side, float]]:
    """The pieces that a zip in the side seam runs over, and how far from the waist it runs on each, mm.

    length: of the whole zip, None for the usual; below: how much of it lies below the waist where there is a skirt,
    None for as much as of a skirt's zip, and whatever does not go in above the waist
    Raises StepRefused where a seam has no room for it, or a dart comes into the seam.
    """
    for piece in pattern.pieces:
        _accept_free_side(step, piece)
    upper, lower = sides_at(step, pattern, Level.BUST, may_miss=True), sides_at(step, pattern, Level.HIP)
    if not upper and not lower:
        raise StepRefused(step, reason="no piece has a side seam that comes to a waist")
    room = min((side.seam_length - LEAST_LEFT for side in upper), default=0.0)
    out = []
    for sides, part in zip((upper, lower), _parts(length, below, room, skirt=bool(lower)), strict=True):
        for side in sides:
            own_room = side.seam_length - LEAST_LEFT
            if part > own_room + _A_TRIFLE:
                where = "above" if side in upper else "below"
                raise StepRefused(
                    step,
                    reason=f"{part / 10:.1f} cm of the zip would lie {where} the waist, where the side seam of "
                    f'"{side.piece.name}" has room for {own_room / 10:.1f} cm',
                    too_much=("below",) if below and side in lower else ("length",),
                )
            if part > SAME_PLACE:
                out.append((side, part))
    opened = [(side.piece.name, side.edge) for side, _ in out]
    if len(set(opened)) < len(opened):  # a romper: one seam from the armhole down to the leg
        said = f'the side seam of "{opened[0][0]}" runs on past the waist in one; a zip lies above it or below'
        raise StepRefused(
            step,
            reason=f"{said}, or at the centre back",
            remedies=instead(step, "at", "centre back"),
            too_much=("length",),
        )
    return out


def _accept_free_side(step: str, piece: Piece) -> None:
    """Raise StepRefused where a dart comes into the side seam, whose bulk would lie in the zip, or a zip is there."""
    edges = piece.edges
    for k, edge in enumerate(edges):
        if edge.role is Role.OPENING and edge.place is Place.SIDE:
            raise StepRefused(step, reason=f'the side seam of "{piece.name}" has a zip in it already')
        beside = edges[k - 1], edges[(k + 1) % len(edges)]
        if edge.role is Role.DART_LEG and any(each.place is Place.SIDE for each in beside):
            reason = f'a dart comes into the side seam of "{piece.name}", and would lie under the zip'
            raise StepRefused(
                step, reason=f"{reason}; move the dart to another edge, or let the zip lie at the centre back"
            )


def _parts(length: float | None, below: float | None, room: float, *, skirt: bool) -> tuple[float, float]:
    """How much of the zip lies above the waist, where there is so much room, and how much below it."""
    if not skirt:
        return (min(room, SKIRT_ZIP) if length is None else length), 0.0
    if room <= 0.0:
        return 0.0, (below or SKIRT_ZIP) if length is None else length
    if length is None:
        return min(room, _ABOVE_WAIST), SKIRT_ZIP if below is None else below
    if below is None:
        above = min(room, max(0.0, length - SKIRT_ZIP))
        return above, length - above
    return max(0.0, length - below), min(below, length)


def with_side_zip(pattern: Pattern, zips: Sequence[tuple[Side, float]]) -> Pattern:
    """The pattern with the side seams parted at the ends of a zip, its part left open, its ends marked."""
    marks: dict[str, NotchRef] = {}
    for side, long in zips:
        pattern, marks[side.piece.name] = _open_side(pattern, side, long)
    seams = tuple(_with_zip_notches(pattern, seam, marks) for seam in pattern.seams)
    return replace(pattern, seams=seams)


def _open_side(pattern: Pattern, side: Side, long: float) -> tuple[Pattern, NotchRef]:
    """The side seam of a piece parted, its part next to the waist left open; and the notch at the end of that."""
    piece = pattern.piece(side.piece.name)
    edge = piece.edge(side.edge)
    corner_first = edge.start == side.corner
    at = long if corner_first else edge.length - long
    opened, sewn = divided(piece, edge, (at,), ("opening", "beyond the opening"), downward=corner_first)
    opened = opened.with_role(Role.OPENING)
    end = end_notch(piece, sewn, f"left side {ZIP_NOTCH}", NotchMark.OPENING_END, at_start=corner_first)
    parts = (opened, sewn) if corner_first else (sewn, opened)
    return with_edge_cut(pattern, piece, parts, end), NotchRef(piece.name, end.name)


def _with_zip_notches(pattern: Pattern, seam: Seam, marks: Mapping[str, NotchRef]) -> Seam:
    """The seam with the ends of the zip marked on both sides as notches that meet."""
    pair = []
    for run in (seam.a, seam.b):
        for ref in run:
            mark = marks.get(ref.piece)
            if mark is not None and notched_edge(pattern, mark) == (ref.piece, ref.edge):
                pair.append(mark)
    if len(pair) != 2:
        return seam
    return replace(seam, notches=(*seam.notches, (pair[0], pair[1])))
