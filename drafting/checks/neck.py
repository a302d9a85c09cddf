"""The neck: does its line go round the neck of the wearer, and over her head where nothing opens it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.checks.gaping import gape
from drafting.checks.giving import given_way
from drafting.pattern import Along, Edge, Pattern, Piece, PieceKind, Place, Role, Seam, edges_at
from drafting.reading.units import percent

__all__ = ["HEAD", "look_at_neck"]

_BEHIND: Final = (PieceKind.FACING, PieceKind.LINING)

_TIGHT: Final = 5.0
_CHOKES: Final = 25.0
"""mm by which the line may be shorter than the neck is round: what a dart of gape takes out lies a little below it;
more than a finger's width is too tight to be borne (our figures)."""

HEAD: Final = 540.0
"""mm round a small grown head (common practice, from memory; where the head is measured it counts)."""


def look_at_neck(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """The neckline of the whole garment against the neck, and against the head, as far as an opening lets it gape.

    measured is the neckline, wanted what it has to go round, mm. Whether the rest gets over the head, or the whole is
    stepped into, is for `room-to-get-in`; what is open from the neck all the way down need not pass the head.
    """
    pieces = tuple(piece for piece in pattern.pieces if _lines(piece))
    if pieces:
        body = {length.key: length.mm for length in pattern.wearer.lengths}
        known = body.get("neck_base_girth", 0.0), body.get("head_girth", 0.0)
        yield look(_room, *known, pattern.seams, pattern.stretch, *pattern.pieces)


def _room(
    check: Check, neck: float, head: float, seams: tuple[Seam, ...], stretch: float, *pieces: Piece
) -> Iterator[Result]:
    lines = [(piece.name, edge) for piece in pieces for edge in _lines(piece)]
    long = sum(2.0 * edge.length for _, edge in lines)
    short = neck - long
    yield check.result(
        "round the neck",
        Verdict.FAIL if short > _CHOKES else Verdict.WARN if short > _TIGHT else Verdict.PASS,
        measured=long,
        wanted=neck,
        allowed=(neck - _TIGHT, None),
        remedy=f"The neckline is {short:.1f} mm shorter than the neck is round: cut it lower or wider.",
    )
    tape = [Along(name, edge.name) for name, edge in lines]
    gapes = gape(pieces, seams, tape)
    if math.isfinite(gapes):
        yield _over_the_head(check, long, given_way(pieces, seams, tape, stretch), gapes, head)


def _over_the_head(check: Check, neckline: float, gives: float, gapes: float, head: float) -> Result:
    """The neckline, as far as a knit gives, and what an opening beside it gapes, against the head.

    A small head where it is not known.
    """
    wanted = head or HEAD
    known = "the head is" if head else "a small head (yours is not measured) is"
    room = neckline * (1.0 + gives) + gapes
    stretched = f" stretched by {percent(gives)}" if gives else ""
    opening = f"The opening at the neck parts by {gapes:.1f} mm" if gapes else "No opening reaches the neck"
    mend = f"make it at least {0.5 * (wanted - room):.1f} mm longer" if gapes else "open it at a centre line"
    return check.result(
        f"over the head{stretched}",
        Verdict.PASS if room >= wanted else Verdict.FAIL if head else Verdict.WARN,
        measured=room,
        wanted=wanted,
        allowed=(wanted, None),
        remedy=(
            f"{opening}, and the neckline{stretched} is {wanted - room:.1f} mm shorter than {known} round: "
            f"{mend}, or cut the neck lower or wider."
        ),
    )


def _lines(piece: Piece) -> list[Edge]:
    """The neckline on one half of a piece that is cut on the fold or twice."""
    if piece.identity.kind in _BEHIND:
        return []
    return [edge for edge in edges_at(piece, Place.NECK) if edge.role is Role.SEAM]
