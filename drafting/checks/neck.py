"""The neck: does its line go round the neck of the wearer, and over her head where nothing opens it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.pattern import Pattern, Piece, PieceKind, Place, Role, edges_at

__all__ = ["look_at_neck"]

_BEHIND: Final = (PieceKind.FACING, PieceKind.LINING)

_TIGHT: Final = 5.0
_CHOKES: Final = 25.0
"""mm by which the line may be shorter than the neck is round: what a dart of gape takes out lies a little below it;
more than a finger's width is too tight to be borne (our figures)."""

_HEAD: Final = 540.0
"""mm round a small grown head (common practice, from memory; where the head is measured it counts)."""


def look_at_neck(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The neckline of the whole garment against the neck, and against the head where no opening reaches it.

    measured is the neckline, wanted what it has to go round, mm. Without any opening the garment goes over
    the head as a whole, which `room-to-get-in` looks at; with one that ends below the neck the head has to pass there.
    """
    pieces = tuple(piece for piece in pattern.pieces if _lines(piece))
    if pieces:
        body = {length.key: length.mm for length in pattern.wearer.lengths}
        opened = any(edge.role is Role.OPENING for piece in pattern.pieces for edge in piece.edges)
        yield look(_room, body.get("neck_base_girth", 0.0), body.get("head_girth", 0.0), opened, *pieces)


def _room(check: Check, neck: float, head: float, opened: bool, *pieces: Piece) -> Iterator[Result]:
    long = sum(2.0 * length for piece in pieces for length in _lines(piece))
    short = neck - long
    yield check.result(
        "round the neck",
        Verdict.FAIL if short > _CHOKES else Verdict.WARN if short > _TIGHT else Verdict.PASS,
        measured=long,
        wanted=neck,
        allowed=(neck - _TIGHT, None),
        remedy=f"The neckline is {short:.1f} mm shorter than the neck is round: cut it lower or wider.",
    )
    if opened and not any(_opens(piece) for piece in pieces):
        wanted = head or _HEAD
        known = "the head is" if head else "a small head (yours is not measured) is"
        yield check.result(
            "over the head",
            Verdict.PASS if long >= wanted else Verdict.FAIL if head else Verdict.WARN,
            measured=long,
            wanted=wanted,
            allowed=(wanted, None),
            remedy=(
                f"No opening reaches the neck, and the neckline is {wanted - long:.1f} mm shorter than {known} round: "
                "open it at a centre line, or cut the neck lower or wider."
            ),
        )


def _lines(piece: Piece) -> list[float]:
    """The lengths of the neckline on one half of a piece that is cut on the fold or twice, mm."""
    if piece.identity.kind in _BEHIND:
        return []
    return [edge.length for edge in edges_at(piece, Place.NECK) if edge.role is Role.SEAM]


def _opens(piece: Piece) -> bool:
    """Whether an opening comes up to the neck of a piece, or to the button stand beside it."""
    edges = piece.edges

    def leads_to_neck(k: int, step: int) -> bool:
        place = edges[(k + step) % len(edges)].place
        return place is Place.NECK or (place is Place.STAND and leads_to_neck(k + step, step))

    return any(
        edge.role is Role.OPENING and (leads_to_neck(k, 1) or leads_to_neck(k, -1)) for k, edge in enumerate(edges)
    )
