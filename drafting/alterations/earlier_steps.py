"""In words: which earlier step changed a piece so that a later step can no longer be taken.

Such a step can nearly always be had by writing the steps in another order. So each sentence names the alteration before
which the refused step is to be put. The sentence is "" where the cause is not known.
"""

from __future__ import annotations

from typing import Final

from drafting.pattern import BodyPart, Edge, NotchMark, Pattern, Piece, Place, Role, edge_at, edges_at

__all__ = [
    "ZIP_OR_POCKET",
    "cut_in_two",
    "has_zip",
    "in_the_way",
    "left_unsewn",
    "not_whole",
    "top_cut_off",
    "zip_of_block",
]

_CUTS_IN_TWO: Final = "dart into seam"
_CUT_TOPS_OFF: Final = ("shaped band", "skirt yoke")


ZIP_OR_POCKET: Final = (
    "a zip and a pocket do not go into one side seam: let the zip lie at the centre back, or take a patch pocket"
)


def not_whole(piece: Piece, place: Place) -> str:
    """Why a piece has no whole edge at a place: what lies in it, or what became of the piece."""
    parts = edges_at(piece, place)
    if not parts:
        return in_the_way(piece)
    if any(edge.role is Role.OPENING for edge in parts):
        legs = piece.identity.part is BodyPart.TROUSERS and not edge_at(piece, Place.BIB)
        # the zip of trousers comes with their block, unless a step has opened them
        block = ', or draft the block with fastening = "back"' if legs else ""
        return f'the {place} of "{piece.name}" has a zip in it; put this step before "opening"{block}'
    if any(notch.marks is NotchMark.POCKET for notch in piece.notches):
        return f'the {place} of "{piece.name}" has a pocket in it; {ZIP_OR_POCKET}'
    gathers = _gathers(piece, place)
    return gathers or f'the {place} of "{piece.name}" has a dart in it; put this step before "move a dart"'


def has_zip(piece: Piece) -> bool:
    """Whether the side seam of a piece has a zip in it."""
    return any(side.role is Role.OPENING for side in edges_at(piece, Place.SIDE, Place.OUTSEAM))


def zip_of_block(pattern: Pattern, piece: Piece) -> bool:
    """Whether the zip in the side seam of a piece came with its block, and not by a step."""
    return has_zip(piece) and not any(step.alter == "opening" for step in pattern.history)


def in_the_way(piece: Piece, place: Place | str | None = None) -> str:
    """Why a piece has no plain centre line, or why its edges at a place do not lie together."""
    if edge_at(piece, Place.STAND):
        return f'"{piece.name}" has a button stand; put this step before "opening"'
    if edge_at(piece, Place.WRAP_EDGE):
        return f'"{piece.name}" wraps over; put this step before "wrap over"'
    if edge_at(piece, Place.POCKET_MOUTH):
        return f'"{piece.name}" has a slanted pocket; put this step before "slanted pocket"'
    if gathers := _gathers(piece, Place(place)) if place else "":
        return gathers
    if edge_at(piece, Place.PRINCESS):
        return f'"{piece.name}" is a half of a piece that was cut in two; put this step before "{_CUTS_IN_TWO}"'
    return ""


def cut_in_two(pattern: Pattern, name: str, step: str = "") -> str:
    """What a piece of that name was cut into; step: what the refused alteration is called."""
    if not any(step.alter == _CUTS_IN_TWO and dict(step.options).get("piece") == name for step in pattern.history):
        return ""
    parts = [f'"{piece.name}"' for piece in pattern.pieces if edge_at(piece, Place.PRINCESS)]
    there = f'"{name}" was cut in two, and there is now {" and ".join(parts)}; name one of them'
    return (
        f"{there}, or leave this step out"
        if step == _CUTS_IN_TWO
        else f'{there}, or put this step before "{_CUTS_IN_TWO}"'
    )


def top_cut_off(pattern: Pattern, piece: Piece) -> str:
    """Why the waist of a piece is no longer its own: what was cut off above it."""
    cut = [step.alter for step in pattern.history if step.alter in _CUT_TOPS_OFF]
    if not cut or not edge_at(piece, Place.YOKE) or edge_at(piece, Place.WAIST):
        return ""
    return f'its top was cut off; put this step before "{cut[0]}"'


def left_unsewn(edge: Edge) -> bool:
    """Whether an edge lies over the mouth of a dart left unsewn."""
    return edge.drawn_up is not None


def _gathers(piece: Piece, place: Place) -> str:
    """The gathers or the ease of a dart between the edges at a place."""
    found = [edge.name for edge in edges_at(piece, place) if left_unsewn(edge)]
    if not found:
        return ""
    return f'"{found[0]}" lie in the {place} of "{piece.name}"; put this step before "dart into gathers"'
