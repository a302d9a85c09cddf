"""Ties at a waist or a neck opening, and a sash that is loose.

For a child no tie is drawn at a neck. At the waist its free end is no longer than the rules let it be, as they were
read (EN 14682 in its text of 2007, as it is summed up: 140 mm beyond what holds it; a tied sash 360 mm, from memory);
the current text where the child lives decides, and the report says so.
"""

from __future__ import annotations

from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.attached.small_pieces import folded_strip, mark_on_edge, pieces_with, waist_on_side
from drafting.parts.drawn import Drawn
from drafting.parts.what_helps import opened_at, other_part, set_here
from drafting.pattern import (
    BodyPart,
    Derived,
    Edge,
    Identity,
    MarkLine,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    free_piece_name,
)

__all__ = ["AT_NECK", "AT_WAIST", "CHILDS_SASH", "CHILDS_TIE", "SASH", "TIES", "draw_sash", "draw_ties"]

TIES, SASH = "ties", "sash"
AT_WAIST, AT_NECK = "waist", "neck"

CHILDS_TIE: Final = 140.0
CHILDS_SASH: Final = 360.0
"""mm: the longest free end of a child's tie and sash."""

_LONG: Final = {AT_WAIST: 900.0, AT_NECK: 350.0}  # mm (ours: a bow behind, a bow at the nape)
_ENDS, _CHILDS_ENDS = 500.0, 300.0  # mm of a sash beyond its knot (ours)
_KNOT: Final = 100.0  # mm that a knot takes (ours)
_SLANT: Final = 0.6  # of its width, by which the end of a tie is cut aslant (ours)
_OFF: Final = 15.0  # mm from a waist or a neck to the tie, so that it lies clear of that seam (ours)
_ASK: Final = "the current rules where the child lives decide"


def draw_ties(pattern: Pattern, derived: Derived) -> Drawn:
    """A pair of ties, and where they are caught in. Raises NotAPattern where there is no place, or no child's rule
    lets them be.
    """
    at, width = str(dict(derived.options)["at"]), derived.length("width")
    if at == AT_NECK and pattern.wearer.child:
        reason = "no cord or tie goes at a child's neck, it can strangle: close it with a button and its loop"
        raise NotAPattern(TIES, reason=reason, remedies=(other_part("button loops"),))
    long = derived.length_or("length", CHILDS_TIE if pattern.wearer.child else _LONG[at])
    if pattern.wearer.child and long > CHILDS_TIE:
        raise NotAPattern(
            TIES,
            reason=f"the free end of a child's tie is {CHILDS_TIE:.0f} mm long at the most (EN 14682, as its text of "
            f"2007 is summed up; {_ASK})",
            remedies=(set_here("length", CHILDS_TIE, "mm"),),
        )
    marks = _at_neck(pattern, width) if at == AT_NECK else _at_waist(pattern, width)
    name = free_piece_name(pattern, "tie")
    part = pattern.piece(marks[0][0]).identity.part
    tie = folded_strip(name, (long, width), _SLANT * width, 2, Identity(PieceKind.TIE, part))
    return Drawn((tie,), (), lines=tuple(marks))


def draw_sash(pattern: Pattern, derived: Derived) -> Drawn:
    """A sash, once round the waist and tied. Raises NotAPattern where the waist is not known, or a child's is longer
    than the rules let it be.
    """
    waist = next((each.mm for each in pattern.wearer.lengths if each.key == "waist_girth"), 0.0)
    if not waist:
        raise NotAPattern(SASH, reason="nobody measured the waist")
    ends = derived.length_or("ends", _CHILDS_ENDS if pattern.wearer.child else _ENDS)
    if pattern.wearer.child and ends > CHILDS_SASH:
        raise NotAPattern(
            SASH,
            reason=f"the free ends of a child's sash are {CHILDS_SASH:.0f} mm long at the most (from memory; {_ASK})",
            remedies=(set_here("ends", CHILDS_SASH, "mm"),),
        )
    width = derived.length("width")
    size = (waist + _KNOT + 2.0 * ends, width)
    return Drawn((folded_strip(free_piece_name(pattern, SASH), size, 0.0, 1, Identity(PieceKind.TIE)),), ())


def _at_waist(pattern: Pattern, width: float) -> list[tuple[str, MarkLine]]:
    """The marks beside the back's side seams, at the waist."""
    for part in (BodyPart.BODICE, BodyPart.SKIRT, BodyPart.TROUSERS):
        for piece in pieces_with(pattern, part, Place.SIDE, PieceKind.BACK):
            (side, *_) = edges_at(piece, Place.SIDE)
            at = waist_on_side(piece, side)
            off = _OFF + 0.5 * width
            middle = off if at == 0.0 else min(at, side.length - off)
            return [(piece.name, mark_on_edge("the tie is caught in here", side, middle, width))]
    raise NotAPattern(TIES, reason="no back has a side seam to catch them in")


def _at_neck(pattern: Pattern, width: float) -> list[tuple[str, MarkLine]]:
    """The marks beside the opening at the neck."""
    for piece in pieces_with(pattern, BodyPart.BODICE, Place.NECK):
        for edge in piece.edges:
            if edge.role is Role.OPENING and (found := _neck_end(piece, edge)) is not None:
                middle = abs(found - _OFF - 0.5 * width)
                return [(piece.name, mark_on_edge("the tie is caught in here", edge, middle, width))]
    raise NotAPattern(TIES, reason="nothing opens at the neck", remedies=(opened_at("centre back"),))


def _neck_end(piece: Piece, edge: Edge) -> float | None:
    """How far along an opening its end at the neck is, mm; None where it has none."""
    before, after = piece.beside(edge.name)
    if before.place is Place.NECK:
        return 0.0
    return edge.length if after.place is Place.NECK else None
