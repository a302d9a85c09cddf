"""The fullness of a skirt: do pleats lie flat, are tiers gathered as much as can be sewn, do gores flare alike."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.geometry import run_ends
from drafting.pattern import Edge, Grain, Pattern, Piece, Place
from drafting.pattern.pleats import Pleat, is_pleated, pleats_of
from drafting.pattern.seam import EdgeRef
from drafting.pattern.walk import run_total

__all__ = ["look_at_fullness"]

_LAP: Final = 0.5  # mm by which what lies beneath a pleat may lap over: the width of a fold (ours)
_RATIOS: Final = (1.15, 3.0)
"""Times as wide as the one above that a tier is at the least and at the most: less is hardly seen, more cannot be drawn
in (a sewing teacher on ruffles: 1.5 to 3; the lower figure ours)."""

_TIER_RATIOS: Final = (1.2, 2.5)  # the least and the most that is asked of the block where it is to be within

_FLARE: Final = 5.0
"""mm by which two edges of a gore seam may lean apart along their lower end (common practice)."""

_ALONG: Final = 400.0  # mm of seam over which that is told: from hip to hem of a skirt to the knee (ours)


def look_at_fullness(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every pleated piece, every seam of two tiers and every seam of two gores.

    Pleats: what lies beneath each, from either side, against what is seen of it at the hem, mm: where it is more, three
    layers become five. Tiers: how many times as wide as the one above each is. Gores: how far one edge of a seam leans
    further from the grain than the other, mm on 400: they would hang apart.
    """
    found = False
    for piece in pattern.pieces:
        if is_pleated(piece):
            found = True
            yield look(_pleats, piece)
    for seam in pattern.seams:
        edges = [pattern.piece(ref.piece).edge(ref.edge) for ref in (*seam.a, *seam.b)]
        found = found or {edge.place for edge in edges} in ({Place.TIER}, {Place.GORE})
        if all(edge.place is Place.TIER for edge in edges):
            yield look(_tiers, seam.name, run_total(pattern, seam.a), run_total(pattern, seam.b))
        elif all(edge.place is Place.GORE for edge in edges):
            one, other = (_lower(pattern, run) for run in (seam.a, seam.b))
            yield look(_gores, seam.name, *one, *other)
    if not found:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("there are no pleats, tiers or gores", Verdict.PASS)


def _pleats(check: Check, piece: Piece) -> Iterator[Result]:
    """Measured is the cloth that lies beneath between two folds, mm; allowed is the cloth that is seen there."""
    found = sorted(pleats_of(piece), key=lambda pleat: min(pleat.fold.end.x, pleat.place.end.x))
    for one, other in pairwise(found):
        seen = min(other.fold.end.x, other.place.end.x) - max(one.fold.end.x, one.place.end.x)
        if seen < _LAP:
            continue  # the two folds of one box or inverted pleat
        beneath = sum(pleat.depth for pleat, right in ((one, True), (other, False)) if _fold_beside(pleat, right))
        over = beneath - seen
        yield check.result(
            f"{piece.name}: {one.fold.name} to {other.fold.name}",
            Verdict.FAIL if over > _LAP else Verdict.PASS,
            measured=beneath,
            wanted=None,
            allowed=(0.0, seen),
            remedy=(
                f"{beneath:.1f} mm of cloth lie beneath {seen:.1f} mm that are seen, and lap over each other: make the "
                f"folds {over:.1f} mm less deep in all, or the pleats wider."
            ),
        )


def _fold_beside(pleat: Pleat, right: bool) -> bool:
    """Whether the fold of a pleat is its right line, or its left one."""
    return (pleat.fold.end.x > pleat.place.end.x) is right


def _tiers(check: Check, seam: str, below: float, above: float) -> Iterator[Result]:
    """How many times as wide as what it is gathered to a tier is; a ratio of the block is offered that is usual."""
    ratio, (least, most) = below / above, _RATIOS
    much = "hardly gathered" if ratio < least else "more than can be drawn in evenly"
    take = Setting("ratio", _TIER_RATIOS[0] if ratio < least else _TIER_RATIOS[1])
    yield check.result(
        seam,
        Verdict.PASS if least <= ratio <= most else Verdict.WARN,
        measured=ratio,
        wanted=None,
        allowed=_RATIOS,
        unit="times",
        remedy=f"The tier is {ratio:.2f} times as wide as the one above it, {much}: {least:g} to {most:g} is usual.",
        remedies=(Remedy("set in block", "tiered skirt", (take,), lead="So it is gathered"),),
    )


def _lower(pattern: Pattern, run: tuple[EdgeRef, ...]) -> tuple[str, Edge, Grain | None]:
    """The edge of a run that comes down lowest, its piece and the grain of that."""
    found = [(pattern.piece(ref.piece), pattern.piece(ref.piece).edge(ref.edge)) for ref in run]
    piece, edge = min(found, key=lambda each: min(each[1].start.y, each[1].end.y))
    return piece.name, edge, piece.grain


def _gores(
    check: Check,
    seam: str,
    one: str,
    first: Edge,
    grain: Grain | None,
    other: str,
    second: Edge,
    its_grain: Grain | None,
) -> Iterator[Result]:
    """Measured is by how much the two edges of a seam lean differently from their grain, mm over a fixed length."""
    if grain is None or its_grain is None:
        return
    leans = [_lean(edge, along) for edge, along in ((first, grain), (second, its_grain))]
    apart = _ALONG * abs(math.tan(leans[0]) - math.tan(leans[1]))
    yield check.result(
        f"{seam}: {one} and {other}",
        Verdict.PASS if apart <= _FLARE else Verdict.WARN,
        measured=apart,
        wanted=0.0,
        allowed=_FLARE,
        remedy=(
            f"One edge leans {apart:.1f} mm further from the grain than the other on {_ALONG:.0f} mm of seam, and "
            "would drop further: flare both alike."
        ),
    )


def _lean(edge: Edge, grain: Grain) -> float:
    """How far an edge leans from the grain at its lower end, radians."""
    leaving, arriving = run_ends(edge.curves)
    down = arriving if edge.end.y < edge.start.y else -leaving
    along = grain.end - grain.start
    return abs(along.angle_to(down if along.dot(down) > 0.0 else -down))
