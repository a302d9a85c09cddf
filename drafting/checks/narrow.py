"""Whether a narrow piece can be sewn: room for its allowances as it is turned or pressed, no spike, a side seam left.

Where allowances are wider together than the piece, they lie over each other as a ridge, and a tube is not turned.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.geometry import run_at, run_hits, run_length
from drafting.pattern import Edge, Pattern, Piece, PieceKind, Place, Role, corner_at, edges_at, is_front
from drafting.pattern.locate import has_sleeve, outline_box

__all__ = ["look_at_narrow_pieces"]

_NARROW: Final = 90.0
"""mm: a piece that is wider than this either way round has room for any allowance (ours; allowances end at 40)."""

_OVER: Final = 0.1  # mm that two allowances may lap over each other: a thread (ours)
_SHORT: Final = 25.0  # mm: an edge that is shorter than this ends a piece, and is no side of it (ours)
_LEAST_SIDE: Final = 50.0
"""mm of side seam below the gusset of a sleeve cut in one: with less the seam allowances of the gusset's corner and of
the waist lie over each other, and the waist is drawn up with the arm (ours)."""

_SPIKE: Final = 40.0
"""degrees of cloth in the corner of a yoke at the armhole: a sharper one frays away in the seam (ours)."""

_SEWN: Final = (Role.SEAM, Role.HEM)


def look_at_narrow_pieces(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every narrow piece: how wide it is where the allowances of two sewn edges have least room, less these, mm.

    And how much side seam is left below a sleeve cut in one with the front, mm, and how sharp a corner a yoke has at
    the armhole, degrees.
    """
    found = False
    for piece in pattern.pieces:
        if pattern.stretch and piece.identity.kind is PieceKind.BAND:
            continue  # a band of knit is folded lengthwise, and both its allowances lie in the garment
        left, low, right, high = outline_box(piece)
        if min(right - left, high - low) <= _NARROW:
            found = True
            yield look(_piece, piece)
        if has_sleeve(piece) and is_front(piece):
            found = True
            yield look(_side, piece)
        if piece.identity.kind is PieceKind.YOKE and edges_at(piece, Place.YOKE) and edges_at(piece, Place.ARMHOLE):
            found = True
            yield look(_spike, piece)
    if not found:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("no piece is narrow", Verdict.PASS)


def _piece(check: Check, piece: Piece) -> Iterator[Result]:
    sides = [edge for edge in piece.edges if edge.role in _SEWN and edge.length >= _SHORT]
    room, wide = min((_room(piece, edge) for edge in sides), default=(_NARROW, _NARROW))
    yield check.result(
        f"{piece.name}, inside",
        Verdict.PASS if room >= -_OVER else Verdict.WARN,
        measured=room,
        wanted=0.0,
        allowed=(0.0, None),
        remedy=f"It is {wide:.1f} mm wide, and the allowances of both sides lap over each other by {-room:.1f} mm: "
        f"trim each to {max(3.0, 0.5 * wide - 1.0):.0f} mm once it is sewn.",
    )


def _side(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is how much of the side seam is left below a kimono's sleeve, mm; little is warned of."""
    long = sum(edge.length for edge in edges_at(piece, Place.SIDE))
    less = Remedy("change", "kimono", (Setting("bend", 0, "deg"),), lead="To have more of it")
    yield check.result(
        f"{piece.name}, side seam below the sleeve",
        Verdict.PASS if long >= _LEAST_SIDE else Verdict.WARN,
        measured=long,
        wanted=None,
        allowed=(_LEAST_SIDE, None),
        remedy=(
            f"Only {long:.0f} mm of side seam are left between the underarm and its end: the gusset's corner and the "
            "waist lie almost on each other there. An arm that bends down less, a narrower sleeve or a longer bodice "
            "leaves more."
        ),
        remedies=(less,),
    )


def _spike(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is how sharp the sharper corner of a yoke and an armhole is, degrees."""
    pairs = zip((piece.edges[-1], *piece.edges), piece.edges, strict=False)
    corners = [
        (180.0 - math.degrees(corner_at(piece, k)), edge.start, edge if edge.place is Place.ARMHOLE else before)
        for k, (before, edge) in enumerate(pairs)
        if {before.place, edge.place} == {Place.YOKE, Place.ARMHOLE}
    ]
    if not corners:
        return
    sharp, at, armhole = min(corners, key=lambda corner: corner[0])
    top = max(edge.start.y for edge in piece.edges)
    up = run_at(armhole.curves, 0.5 * armhole.length).y - at.y
    higher = Remedy("change", "smock", (Setting("depth", math.floor(top - at.y - up), "mm"),), lead="To end it there")
    yield check.result(
        f"{piece.name}, its corner at the armhole",
        Verdict.PASS if sharp >= _SPIKE else Verdict.WARN,
        measured=sharp,
        wanted=None,
        allowed=(_SPIKE, None),
        unit="degrees",
        remedy=(
            f"The yoke runs into the armhole in a point of {sharp:.0f} degrees, where the armhole turns in under the "
            f"arm: end it higher, by about {up:.0f} mm, where the armhole goes up."
        ),
        remedies=(higher,),
    )


def _room(piece: Piece, edge: Edge) -> tuple[float, float]:
    """The way straight in from the middle of an edge to the next one, less both allowances; and that way, mm."""
    half = 0.5 * run_length(edge.curves)
    at, before = run_at(edge.curves, half), run_at(edge.curves, half - 0.5)
    inward = (at - before).left()
    hits = sorted((hit.along, index) for index, hit in run_hits(piece.outline, at, inward.unit()) if hit.along > 0.5)
    if not hits:
        return _NARROW, _NARROW
    wide, index = hits[0]
    other = _edge_of(piece, index)
    taken = other.allowance if other.role in _SEWN and other is not edge else 0.0
    return wide - edge.allowance - taken, wide


def _edge_of(piece: Piece, index: int) -> Edge:
    """The edge that has the curve of this number in the outline."""
    for edge in piece.edges:
        if index < len(edge.curves):
            return edge
        index -= len(edge.curves)
    raise IndexError(index)
