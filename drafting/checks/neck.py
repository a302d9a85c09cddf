"""The neck: does its line go round the neck of the wearer, and over her head where nothing opens it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.checks.gaping import gape
from drafting.checks.giving import share_stretched
from drafting.errors import Remedy, Setting
from drafting.pattern import Along, Edge, Pattern, Piece, PieceKind, Place, Role, Seam, edges_at
from drafting.pattern.neck_band import LEAST_SHARE, NeckBand, neck_band
from drafting.pattern.stretch_used import USED_OVER_HEAD, USED_PUTTING_ON
from drafting.reading.units import percent

__all__ = ["HEAD", "look_at_neck"]

_BEHIND: Final = (PieceKind.COLLAR, PieceKind.FACING, PieceKind.LINING)

_CENTRES: Final = (str(Place.CENTRE_BACK), str(Place.CENTRE_FRONT))

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
        guessed = next((each.sd or 0.0 for each in pattern.wearer.lengths if each.key == "head_girth"), 0.0)
        known = body.get("neck_base_girth", 0.0), body.get("head_girth", 0.0), guessed
        used = USED_PUTTING_ON if pattern.wearer.child else USED_OVER_HEAD
        yield look(_room, *known, pattern.seams, (pattern.stretch, used), neck_band(pattern), *pattern.pieces)


def _room(
    check: Check,
    neck: float,
    head: float,
    guessed: float,
    seams: tuple[Seam, ...],
    gives_of: tuple[float, float],
    band: NeckBand | None,
    *pieces: Piece,
) -> Iterator[Result]:
    """The neckline against the neck, a band of knit as it lies, and what opens against the head.

    gives_of: how far the cloth stretches, and the share of that and of the band's that the head may take
    """
    stretch, used = gives_of
    lines = [(piece.name, edge) for piece in pieces for edge in _lines(piece)]
    edge_long = sum(2.0 * edge.length for _, edge in lines)
    long = edge_long if band is None else band.rest
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
        gives = share_stretched(pieces, seams, tape, stretch, used)
        if band is not None:
            yield _lies_flat(check, band)
            # the band as far as its own knit gives, or the edge it is sewn to, whichever ends first
            reach = min(long * (1.0 + used * band.stretch), edge_long * (1.0 + gives))
            gives = reach / long - 1.0
        yield _over_the_head(check, long, gives, gapes, head, guessed)


def _lies_flat(check: Check, band: NeckBand) -> Result:
    """A straight strip that is drawn in further than that stands up round the neck; measured is its share, percent."""
    least = math.ceil(band.edge - band.rest) / (1.0 - LEAST_SHARE)
    return check.result(
        "knit band",
        Verdict.PASS if band.share >= LEAST_SHARE else Verdict.WARN,
        measured=100.0 * band.share,
        wanted=100.0 * LEAST_SHARE,
        allowed=(100.0 * LEAST_SHARE, None),
        unit="percent",
        remedy=(
            f"A straight band {band.width:.1f} mm wide does not lie flat on a neck of less than {least:.0f} mm: make "
            "it narrower, or the neck wider."
        ),
    )


def _over_the_head(check: Check, neckline: float, gives: float, gapes: float, head: float, guessed: float) -> Result:
    """The neckline, as far as a knit gives, and what an opening beside it gapes, against the head.

    A small head where it is not known; one that was only estimated may be larger by a standard deviation, `guessed`:
    where it would then not pass, that is warned of.
    """
    wanted = (head + guessed) if head else HEAD
    known = "the head is" if head and not guessed else "a small head (yours is not measured) is"
    if guessed:
        known = "the head may be (it was only estimated; measure it)"
    room = neckline * (1.0 + gives) + gapes
    stretched = f" stretched by {percent(gives)}" if gives else ""
    opening = f"The opening at the neck parts by {gapes:.1f} mm" if gapes else "No opening reaches the neck"
    mend = f"make it at least {0.5 * (wanted - room):.1f} mm longer" if gapes else "open it"
    open_there = [Remedy("add", "opening", (Setting("at", at),), lead=f"To open it at the {at}") for at in _CENTRES]
    return check.result(
        f"over the head{stretched}",
        Verdict.PASS if room >= wanted else Verdict.FAIL if head and room < head else Verdict.WARN,
        measured=room,
        wanted=wanted,
        allowed=(wanted, None),
        remedy=(
            f"{opening}, and the neckline{stretched} is {wanted - room:.1f} mm shorter than {known} round: "
            f"{mend}, or cut the neck lower or wider."
        ),
        remedies=() if gapes else open_there,
    )


def _lines(piece: Piece) -> list[Edge]:
    """The neckline on one half of a piece that is cut on the fold or twice."""
    if piece.identity.kind in _BEHIND:
        return []
    return [edge for edge in edges_at(piece, Place.NECK) if edge.role in (Role.SEAM, Role.HEM)]
