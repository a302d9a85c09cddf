"""The quarters of a skirt that an alteration changes, and why a skirt has none or cannot be changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Final

from drafting.alterations.alteration import Promise
from drafting.alterations.earlier_steps import EarlierStep, in_the_way, not_whole, refused_after
from drafting.alterations.one_piece import taking_part
from drafting.alterations.promises import places_kept, whole_pieces_kept
from drafting.alterations.skirt.skirt_quarter import Quarter, quarters
from drafting.errors import NotAPattern, StepRefused
from drafting.pattern import BodyPart, Pattern, Piece, Place, edge_at, edges_at
from drafting.pattern.pleats import is_pleated

__all__ = ["MOST_CUTS", "accept_unpleated", "all_else_kept", "quarters_taking_part", "refused_with_cause"]

MOST_CUTS: Final = 20
"""The most slashes in a quarter."""


def quarters_taking_part(step: str, pattern: Pattern, only: str, cuts: float) -> tuple[Quarter, ...]:
    """The quarters that are altered, all or the one piece named, each by so many cuts.

    Raises StepRefused for a number of cuts that makes no sense, where there is no quarter, and where one is not whole.
    """
    if cuts != int(cuts):
        raise StepRefused(step, reason=f"cuts: {cuts:g} is no whole number from 1 to {MOST_CUTS}")
    parts = {piece.identity.part for piece in pattern.pieces}
    if BodyPart.TROUSERS in parts and BodyPart.SKIRT not in parts:
        spread = f"there is no skirt, and legs are not spread from their hems{_wider_legs(pattern)}"
        raise StepRefused(step, reason=spread)
    with refused_with_cause(step, pattern):
        found = quarters(pattern)
    if not found:
        raise refused_after(step, *_no_quarter(pattern))
    names = taking_part(step, only, [quarter.piece.name for quarter in found])
    taken = tuple(quarter for quarter in found if quarter.piece.name in names)
    accept_unpleated(step, (quarter.piece for quarter in taken))
    return taken


def accept_unpleated(step: str, pieces: Iterable[Piece]) -> None:
    """Raise StepRefused for a piece with pleats: what lies in their folds cannot be cut or spread."""
    pleated = next((piece for piece in pieces if is_pleated(piece)), None)
    if pleated is not None:
        raise StepRefused(
            step,
            reason=f'"{pleated.name}" lies in pleats, and cannot be cut or made fuller: take the block "skirt" in '
            'its place, and pleat that ("pleat skirt") where it is to have pleats',
        )


def all_else_kept(pattern: Pattern, found: Sequence[Quarter]) -> Iterator[Promise]:
    """The promises that the centre lines of these quarters stay where they are, and so does every other piece."""
    for quarter in found:
        yield from places_kept(quarter.piece, quarter.edges_kept)
    yield from whole_pieces_kept(pattern, [quarter.piece.name for quarter in found])


@contextmanager
def refused_with_cause(step: str, pattern: Pattern) -> Iterator[None]:
    """Refuse the step where no pattern could be made: for what an earlier step has made of the piece, else as it is."""
    try:
        yield
    except NotAPattern as error:
        piece = next((piece for piece in pattern.pieces if piece.name == error.where), None)
        raise refused_after(step, in_the_way(piece) if piece else None, str(error)) from error


def _wider_legs(pattern: Pattern) -> str:
    """What is asked of the block in place of the step, in words; "" for legs of no block."""
    legs = [dict(origin.options) for origin in pattern.origin if origin.block == "trousers"]
    wide = "" if any(each.get("leg") == "wide" for each in legs) else "a wide leg, or "
    return f": leave this step out, and give their block {wide}a wider hem_width" if legs else ""


def _no_quarter(pattern: Pattern) -> tuple[EarlierStep | None, str]:
    """Why no piece of the pattern is a quarter of a skirt: what an earlier step made of it, or in plain words."""
    for piece in pattern.pieces:
        if edge_at(piece, Place.HEM) and edge_at(piece, Place.WAIST) and len(edges_at(piece, Place.SIDE)) != 1:
            none = f'"{piece.name}" has no {Place.SIDE}: draft its block wider, or take the block "skirt" in its place'
            return not_whole(piece, Place.SIDE), none
    return None, "there is no skirt: no piece has a waist, a side seam and a hem"
