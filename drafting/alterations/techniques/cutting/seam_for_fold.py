"""A seam at a centre line in the place of a fold: where it is shaped, or the piece too wide for the cloth."""

from __future__ import annotations

from collections.abc import Collection

from drafting.alterations.techniques.cutting.centre_line import CentreLine, centre_lines, centre_part, with_centre
from drafting.pattern import CENTRES, Pattern, Piece, Place, Role
from drafting.pattern.cloth_room import across_cloth, cloth_room

__all__ = ["goes_on_cloth", "seam_for_fold", "seamed_behind", "seamed_where_too_wide"]


def goes_on_cloth(pattern: Pattern, piece: Piece) -> bool:
    """Whether a piece, opened out, lies between the selvedges of the cloth."""
    room = cloth_room(pattern)
    return across_cloth(piece, room) <= room


def seam_for_fold(pattern: Pattern, line: CentreLine) -> Pattern:
    """The pattern with a seam, and an allowance, at this centre line: the piece is cut as a pair."""
    part = centre_part(line)
    part = part.named(line.edges[0].name) if len(line.edges) == 1 else part
    return with_centre(pattern, line, [part], line.piece.cut.as_pair())


def seamed_behind(pattern: Pattern, names: Collection[str]) -> Pattern:
    """The pattern with a seam at the centre back of each of these pieces that is on the fold there."""
    for name in names:
        lines = (line for line in centre_lines(pattern, Place.CENTRE_BACK) if line.piece.name == name)
        folded = (line for line in lines if all(edge.role is Role.FOLD for edge in line.edges))
        pattern = next((seam_for_fold(pattern, line) for line in folded), pattern)
    return pattern


def seamed_where_too_wide(pattern: Pattern, names: Collection[str]) -> Pattern:
    """The pattern with a seam at the centre of each of these pieces that is on the fold and too wide for the cloth."""
    for name in names:
        piece = pattern.piece(name)
        if piece.cut.fold and not goes_on_cloth(pattern, piece):
            lines = (line for at in CENTRES for line in centre_lines(pattern, at) if line.piece.name == name)
            pattern = next((seam_for_fold(pattern, line) for line in lines), pattern)
    return pattern
