"""Whether a hand goes through the end of a sleeve that is hemmed, as a foot has to go through that of a leg.

A cuff and a casing with elastic have checks of their own. A facing or a binding makes an edge no wider.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.pattern import Pattern, Piece, PieceKind, Place, Role, edges_at, pieces_of
from drafting.pattern.casings import HAND

__all__ = ["look_at_sleeve_ends"]

_ROUGHLY: Final = 10.0  # mm by which a hand that was told from the wrist may well be smaller: a twentieth of it (ours)


def look_at_sleeve_ends(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every hemmed end of a sleeve: how much larger round than the hand it is, pulled as far as a knit goes, mm."""
    wrist = next((length.mm for length in pattern.wearer.lengths if length.key == "wrist_girth"), None)
    ends = [piece for piece in pieces_of(pattern, PieceKind.SLEEVE) if _hems(piece) and not _opens(piece)]
    if wrist is None or not ends:
        yield look(_none)
        return
    for piece in ends:
        yield look(_end, wrist, pattern.stretch, piece)


def _hems(piece: Piece) -> list[float]:
    return [edge.length for edge in edges_at(piece, Place.WRIST) if edge.role is Role.HEM]


def _opens(piece: Piece) -> bool:
    return any(edge.role is Role.OPENING for edge in edges_at(piece, Place.UNDERARM))


def _none(check: Check) -> Iterator[Result]:
    yield check.result("no sleeve ends in a hem", Verdict.PASS)


def _end(check: Check, wrist: float, stretch: float, piece: Piece) -> Iterator[Result]:
    """Measured is how much wider the end of a sleeve is than the hand that goes through it, mm."""
    round_it = sum(_hems(piece)) * (1.0 + stretch)
    room = round_it - HAND * wrist
    more = math.ceil(-room / (1.0 + stretch))
    yield check.result(
        f"{piece.name}, over the hand",
        Verdict.PASS if room >= -_ROUGHLY else Verdict.FAIL if round_it < wrist else Verdict.WARN,
        measured=room,
        wanted=0.0,
        allowed=(-_ROUGHLY, None),
        remedy=f"Its hem is {round_it:.0f} mm round{' when it is pulled' if stretch else ''}, and a hand of about "
        f"{HAND * wrist:.0f} mm has to go through.",
        remedies=(Remedy("add", "full sleeve", (Setting("hem", float(more), "mm"),), lead="To make it so wide"),),
    )
