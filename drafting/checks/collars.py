"""Collars and cuffs: is the under layer smaller, does a stand go round the neck, does a fall hide its seam, does a
cuff close over the wrist and let the hand through.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.geometry import distance, tangent
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern import (
    CENTRES,
    Edge,
    Level,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Seam,
    Wearer,
    edges_at,
    lines_at,
    notches_marking,
    pieces_of,
    run_total,
)
from drafting.pattern.casings import HAND

__all__ = ["look_at_collars"]

_NECK_ABOVE: Final = 0.92
"""How large round the neck is above its base, where the upper edge of a collar lies, as a share of that (ours)."""

_HIDES: Final = 5.0
"""mm by which a fall is to be wider than its stand at the least; 10 to 15 are usual (common practice)."""

_WRIST: Final = 10.0  # mm by which a cuff is to be larger than the wrist, so that it moves (ours)

_ROUNDING: Final = 0.05  # mm


def look_at_collars(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every collar and every cuff there is; measured are mm, by the parts of the check.

    Layers: how much longer the upper one is than the under one round its free edges. A stand: its upper edge from
    centre to centre all round, against the neck. A fall: how much wider it is than the stand. A cuff: what it closes
    at against the wrist, and what it opens to, with its slit, against the hand.
    """
    collars = pieces_of(pattern, PieceKind.COLLAR)
    names = {piece.name for piece in collars}
    for seam in pattern.seams:
        if all(ref.piece in names for ref in (*seam.a, *seam.b)) and _free(pattern, seam):
            yield look(_layers, seam, pattern.piece(seam.a[0].piece), pattern.piece(seam.b[0].piece))
    body = {length.key: length.mm for length in pattern.wearer.lengths}
    for piece in collars:
        if edges_at(piece, Place.NECK) and _height(piece) > 0.0 and "neck_base_girth" in body:
            yield look(_stand, piece, body["neck_base_girth"])
    falls = [piece for piece in collars if piece.identity.of is None and not edges_at(piece, Place.NECK)]
    stands = [piece for piece in collars if piece.identity.of is PieceKind.BAND]
    if falls and stands:
        yield look(_fall, falls[0], stands[0])
    slits = [line for piece in pattern.pieces for line in lines_at(piece, Level.SLIT)]
    long = max(((line.end - line.start).norm() for line in slits), default=0.0)
    for piece in pieces_of(pattern, PieceKind.CUFF):
        if "wrist_girth" in body:
            yield look(_cuff, piece, body["wrist_girth"], long)
    if not collars and not slits:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("there are no collars or cuffs", Verdict.PASS)


def _free(pattern: Pattern, seam: Seam) -> bool:
    places = {pattern.piece(ref.piece).edge(ref.edge).place for ref in (*seam.a, *seam.b)}
    return places <= {Place.COLLAR_EDGE, Place.COLLAR_END}


def _layers(check: Check, seam: Seam, one: Piece, other: Piece) -> Iterator[Result]:
    both = Pattern(seam.name, Wearer(""), (one, other))
    more = run_total(both, seam.a) - run_total(both, seam.b)
    yield check.result(
        f"{one.name} over {other.name}",
        Verdict.PASS if more >= -_ROUNDING else Verdict.WARN,
        measured=more,
        allowed=(0.0, None),
        remedy=f'The "{other.name}" is {-more:.1f} mm longer than the "{one.name}" over it, so that its edge turns up: '
        "make it smaller by the turn of the cloth.",
    )


def _height(piece: Piece) -> float:
    """How high a collar stands at its centre, mm, below zero where it lies flat."""
    seam = edges_at(piece, Place.NECK)
    centre = [y for edge in piece.edges if edge.place in CENTRES for y in (edge.start.y, edge.end.y)]
    return max(centre) - min(centre) if centre and max(centre) > seam[0].start.y else -1.0


def _stand(check: Check, piece: Piece, neck: float) -> Iterator[Result]:
    """Measured is how long the upper edge of a stand is once it is closed round the neck, mm."""
    seam = edges_at(piece, Place.NECK)
    ends = {notch.station.edge for notch in notches_marking(piece, NotchMark.CENTRE)}
    to_centre = next((k + 1 for k, edge in enumerate(seam) if edge.name in ends), len(seam))
    base = sum(edge.length for edge in seam[:to_centre])
    first, last = tangent(seam[0].curves[0], 0.0), tangent(seam[to_centre - 1].curves[-1], 1.0)
    top = 2.0 * (base - _height(piece) * first.angle_to(last))
    yield check.result(
        f"{piece.name}, its upper edge round the neck",
        Verdict.PASS if top >= _NECK_ABOVE * neck else Verdict.WARN,
        measured=top,
        wanted=_NECK_ABOVE * neck,
        allowed=(_NECK_ABOVE * neck, None),
        remedy=f"Closed it is {top:.1f} mm round above, and the neck there about {_NECK_ABOVE * neck:.0f} mm: let its "
        "end rise less, or cut the neck lower or wider.",
    )


def _fall(check: Check, fall: Piece, stand: Piece) -> Iterator[Result]:
    wide, high = _height_of(fall), _height_of(stand)
    yield check.result(
        f"{fall.name} over {stand.name}",
        Verdict.PASS if wide - high >= _HIDES else Verdict.WARN,
        measured=wide - high,
        allowed=(_HIDES, None),
        remedy=f"It is only {wide - high:.1f} mm wider than the stand, so that the neck seam shows: make it wider, "
        f'fall = "{math.ceil(high + _HIDES)} mm".',
    )


def _height_of(piece: Piece) -> float:
    return max((edge.length for edge in piece.edges if _on_centre(edge)), default=0.0)


def _on_centre(edge: Edge) -> bool:
    """Whether an edge is the centre of a collar, or an end that lies at the centre, as where it opens behind."""
    return edge.place in CENTRES or max(abs(edge.start.x), abs(edge.end.x)) <= SAME_PLACE


def _cuff(check: Check, piece: Piece, wrist: float, slit: float) -> Iterator[Result]:
    """Measured is how far round a cuff is, mm: closed over the wrist, then open for the hand."""
    holes = [mark.at for mark in piece.points]
    seam = [edge for edge in piece.edges if edge.place in (Place.WRIST, Place.BAND_EDGE)]
    whole = max((edge.length for edge in seam), default=0.0)
    closed = distance(holes[0], holes[1]) if len(holes) > 1 else whole
    for what, measured, wanted in (
        ("closed over the wrist", closed, wrist + _WRIST),
        ("open for the hand", whole + 2.0 * slit, HAND * wrist),
    ):
        short = wanted - measured
        yield check.result(
            f"{piece.name}, {what}",
            Verdict.PASS if short <= 0.0 else Verdict.FAIL if measured < wrist else Verdict.WARN,
            measured=measured,
            wanted=wanted,
            allowed=(wanted, None),
            remedy=f"It is {short:.1f} mm too small {what}: give it more ease, or the slit {0.5 * short:.1f} mm more.",
        )
