"""Room for a step and for a raised arm, which no finished girth tells.

Walking: the legs swing from the hips like two rods. At the floor they are the length of a step apart; at the hem they
are less far apart, in the ratio of the heights below the hips. A line round both legs is twice that distance long, and
once round a leg more (the hull of two circles).

Raising an arm: an armhole above the armpit cuts in. An armhole that lies d below the armpit has to follow the arm. When
the arm is level, two places on arm and side that touched before are d times the root of two apart, and the garment is
pulled up by half of that (plane geometry).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.checks.gaping import gape
from drafting.errors import Remedy, Setting
from drafting.geometry.tolerance import LENGTH
from drafting.pattern import (
    Along,
    BodyPart,
    Edge,
    Level,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Seam,
    Wearer,
    edges_at,
    line_at,
    nape_level,
)
from drafting.pattern.stretch_used import USED_PUTTING_ON

__all__ = ["looks_at_reaching"]

_STEP: Final = 0.41
"""The length of a comfortable step, as a share of the height (common practice, from memory: 0.41 to 0.45)."""

_SHORT_STEP: Final = 0.75
_HOBBLE: Final = 0.5
"""Shares of such a step: below the first it hinders walking, below the other it is a hobble (ours)."""

_LEG: Final = 0.36
"""Round a leg from the knee to the calf, as a share of the hip (ours; the middle of the 1988 survey is 0.37 at the
knee)."""

_MOST_FLARE: Final = 600.0
"""mm. The most that a skirt is flared by at once."""

_STEP_NEEDS: Final = ("stature", "hip_girth", "waist_height", "waist_to_hip")

_CLOSE_ARMHOLE: Final = 12.7
_CLOSE_CHILD: Final = 5.0
"""mm below the armpit at the least, of a woman and of a child: as the ease table has it (common practice: 1/2 in)."""

_DEEP_ARMHOLE: Final = 75.0
"""mm below the armpit: any deeper, a raised arm takes the whole garment up by more than two inches (ours)."""


def looks_at_reaching(pattern: Pattern) -> Iterator[Look]:
    """The hem of everything that ends below the hips, and the armhole at the side, against the wearer."""
    hemmed = tuple(piece for piece in pattern.pieces if _hems(piece))
    known = {length.key for length in pattern.wearer.lengths}
    if hemmed and known.issuperset(_STEP_NEEDS):
        yield look(_step, pattern.wearer, pattern.seams, pattern.stretch, *hemmed)
    for piece in pattern.pieces:
        whole = edges_at(piece, Place.ARMHOLE) and edges_at(piece, Place.SIDE)  # not where a seam parts the back
        if "scye_depth" in known and whole and nape_level(piece) is not None:
            yield look(_arm, pattern.wearer, pattern.stretch, piece)


def _step(check: Check, wearer: Wearer, seams: tuple[Seam, ...], stretch: float, *pieces: Piece) -> Iterator[Result]:
    """Measured is the hem, a slit and what a knit gives counted in, wanted that of three quarters of a step, mm."""
    stature, hip, waist_height, waist_to_hip = (wearer.length(key).mm for key in _STEP_NEEDS)
    drop = max(_below_hip(piece) for piece in pieces)
    if drop <= 0.0 or waist_height <= waist_to_hip:
        return
    hems = [(piece, edge) for piece in pieces for edge in _hems(piece)]
    parts = gape(pieces, seams, (Along(piece.name, edge.name) for piece, edge in hems))
    has = sum(piece.cut.drawn_times * edge.length for piece, edge in hems) * (1.0 + USED_PUTTING_ON * stretch) + parts
    apart = _STEP * stature * min(drop / (waist_height - waist_to_hip), 1.0)
    warns, fails = (2.0 * share * apart + _LEG * hip for share in (_SHORT_STEP, _HOBBLE))
    hobbles = has < fails
    short = max(0.0, (fails if hobbles else warns) - has)
    flare = Remedy("add", "flare skirt", (Setting("hem", float(math.ceil(short)), "mm"),), lead="To flare it")
    yield check.result(
        "round the hem, for a step",
        Verdict.FAIL if hobbles else Verdict.WARN if has < warns else Verdict.PASS,
        measured=has if math.isfinite(has) else None,
        wanted=warns,
        allowed=(fails, None),
        remedy=(
            f"It ends {drop:.1f} mm below the hip and is {short:.1f} mm too narrow there for "
            f"{'half a step' if hobbles else 'three quarters of a step'}: flare it, or leave a slit at the hem."
        ),
        remedies=(flare,) if short <= _MOST_FLARE else (),
    )


def _arm(check: Check, wearer: Wearer, stretch: float, back: Piece) -> Iterator[Result]:
    """Measured is how far the armhole lies below the armpit, mm; the armpit is found from the nape of the body."""
    nape = nape_level(back)
    if nape is None:
        return
    lowest = min(min(edge.start.y, edge.end.y) for edge in edges_at(back, Place.ARMHOLE))
    below = nape - lowest - wearer.length("scye_depth").mm
    close = 0.0 if stretch else _CLOSE_ARMHOLE if wearer.child is None else _CLOSE_CHILD
    cuts_in, tight, deep = below < -10 * LENGTH, below < close - 10 * LENGTH, below > _DEEP_ARMHOLE
    if deep:
        lift = below / math.sqrt(2.0)
        remedy = f"It lies {below:.1f} mm below the armpit: a raised arm takes all of it up by about {lift:.1f} mm."
    elif cuts_in:
        remedy = (
            f"It lies {-below:.1f} mm above the armpit and cuts into it: it is to lie {close:.1f} mm below."
            if close
            else f"It lies {-below:.1f} mm above the armpit and cuts into it."
        )
    else:
        remedy = f"It lies {below:.1f} mm below the armpit, {close:.1f} mm is close: a raised arm may feel it."
    lower = Remedy("add", "armhole", (Setting("lower", float(math.ceil(close - below)), "mm"),), lead="To lower it")
    yield check.result(
        "armhole, for raising an arm",
        Verdict.FAIL if cuts_in else Verdict.WARN if tight or deep else Verdict.PASS,
        measured=below,
        wanted=close,
        allowed=(0.0, _DEEP_ARMHOLE),
        remedy=remedy,
        remedies=(lower,) if tight else (),
    )


def _hems(piece: Piece) -> tuple[Edge, ...]:
    """The hem of a piece of the skirt, or of a bodice that goes on below the waist."""
    if piece.identity.kind in (PieceKind.FACING, PieceKind.LINING):
        return ()
    return tuple(edges_at(piece, Place.HEM)) if piece.identity.part in (BodyPart.SKIRT, BodyPart.BODICE) else ()


def _below_hip(piece: Piece) -> float:
    """How far below the hip line a piece ends at its lowest, mm; less than nothing where it has no such line."""
    hip = line_at(piece, Level.HIP)
    return -math.inf if hip is None else hip.start.y - min(edge.start.y for edge in _hems(piece))
