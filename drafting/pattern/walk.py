"""Walking a seam: laying one run of edges along the other from their common start, as a cutter does with two pieces."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry.tolerance import SAME_PLACE
from drafting.pattern.locate import from_start
from drafting.pattern.pattern import Pattern
from drafting.pattern.places import NotchMark, Place
from drafting.pattern.pleats import pleats_on
from drafting.pattern.seam import EdgeRef, NotchRef, Seam

__all__ = [
    "GATHERED",
    "GATHERS_NOTCH",
    "NOTCH",
    "DrawnUp",
    "Walked",
    "WalkedNotch",
    "ends_gathers",
    "notch_distance",
    "run_total",
    "walk",
]

GATHERED: Final = 0.1
"""A seam of which one run is to be longer than the other by more than this share is gathered, not eased in (our figure:
the trade eases up to 8 % of an armhole into it)."""


GATHERS_NOTCH: Final = "gathers notch"
"""How the notches are called, as far from the end on both runs, beyond which a seam is gathered: so far it is flat."""

NOTCH: Final = 1.0
"""mm by which a pair of notches may miss each other: the width of the snip (common practice)."""

_AS_LONG: Final = 0.01
"""mm by which two edges may differ that are laid flat on each other at the end of a gathered seam."""


@dataclass(frozen=True, slots=True)
class WalkedNotch:
    """How far along each run a pair of notches lies, mm from the common start; None for one off its seam."""

    a: NotchRef
    b: NotchRef
    along_a: float | None
    along_b: float | None


@dataclass(frozen=True, slots=True)
class DrawnUp:
    """Stretches of a run, mm from its start, between notches that all meet one mark: what they take up to sew there."""

    stretches: tuple[tuple[float, float], ...] = ()

    @property
    def total(self) -> float:
        """How much shorter the run is when all of them are drawn up, mm."""
        return self.before(math.inf)

    def before(self, along: float) -> float:
        """How much is drawn up before a place on the run, mm."""
        return sum(max(0.0, min(along, end) - start) for start, end in self.stretches)

    def opened(self, sewn: float) -> float:
        """How far along the run, as it lies flat, a place is that is so far along it when all is drawn up, mm."""
        along = sewn
        for start, end in sorted(self.stretches):
            along += end - start if along > start + SAME_PLACE else 0.0
        return along


@dataclass(frozen=True, slots=True)
class Walked:
    """The lengths of both runs of a seam, mm, and where its notch pairs lie.

    up_a, up_b: what of each run is drawn up to a single mark of the other, as the gathers of a dart are
    gathered:   whether the first run is to be gathered as a whole, so that it is drawn up evenly into the second
    flat:       how much of both runs at their start and end is laid flat all the same, as a button stand is, mm
    """

    a: float
    b: float
    notches: tuple[WalkedNotch, ...]
    up_a: DrawnUp = DrawnUp()
    up_b: DrawnUp = DrawnUp()
    gathered: bool = False
    flat: tuple[float, float] = (0.0, 0.0)

    @property
    def sewn(self) -> tuple[float, float]:
        """The lengths of both runs when that is drawn up, mm: what is left between them is eased or gathered in."""
        return self.a - self.up_a.total, self.b - self.up_b.total

    def met(self, along: float, *, from_a: bool) -> float:
        """How far along the second run lies what a place of the first is sewn to, mm; from the second, the reverse.

        What is eased in counts for nothing: where it is taken up is for the notches to say.
        """
        one, other = (self.up_a, self.up_b) if from_a else (self.up_b, self.up_a)
        sewn = along - one.before(along)
        return other.opened(self.evenly(sewn, from_a=from_a) if self.gathered else sewn)

    def evenly(self, sewn: float, *, from_a: bool) -> float:
        """How far along the second run a place lies that is `sewn` mm along the first, drawn up evenly; or the reverse.

        What is laid flat at the ends is as long on both.
        """
        (own, other), (first, last) = (self.sewn if from_a else self.sewn[::-1]), self.flat
        if sewn <= first:
            return sewn
        if sewn >= own - last:
            return other - (own - sewn)
        return first + (sewn - first) * (other - first - last) / (own - first - last)


def walk(pattern: Pattern, seam: Seam) -> Walked:
    """Walk both runs of a seam. Raises UnknownName where an edge or notch is not there."""
    pairs = tuple(
        WalkedNotch(one, other, notch_distance(pattern, seam.a, one), notch_distance(pattern, seam.b, other))
        for one, other in seam.notches
    )
    up_a = _drawn_up(((pair.b, pair.along_a) for pair in pairs), _pleated(pattern, seam.a))
    up_b = _drawn_up(((pair.a, pair.along_b) for pair in pairs), _pleated(pattern, seam.b))
    a, b = run_total(pattern, seam.a), run_total(pattern, seam.b)
    gathered = seam.ease.low - up_a.total + up_b.total > GATHERED * (b - up_b.total)
    flat = _flat(pattern, seam, pairs, (a, b)) if gathered else (0.0, 0.0)
    return Walked(a, b, pairs, up_a, up_b, gathered, flat)


def _flat(
    pattern: Pattern, seam: Seam, notches: Sequence[WalkedNotch], whole: tuple[float, float]
) -> tuple[float, float]:
    """How much of a gathered seam is laid flat at its start and at its end, mm: edges as long as what they meet, and
    what lies before the notch where the gathers begin.
    """
    ends = []
    for pairs in (zip(seam.a[:-1], seam.b[:-1], strict=False), zip(seam.a[:0:-1], seam.b[:0:-1], strict=False)):
        long = 0.0
        for one, other in pairs:
            edges = [pattern.piece(ref.piece).edge(ref.edge) for ref in (one, other)]
            if edges[0].place is Place.TIER or abs(edges[0].length - edges[1].length) > _AS_LONG:
                break  # a tier is gathered all along, however it is pieced
            long += edges[0].length
        ends.append(long)
    start, end = ends
    for pair in notches:
        if pair.along_a is not None and pair.along_b is not None and ends_gathers(pattern, pair.a):
            left_a, left_b = whole[0] - pair.along_a, whole[1] - pair.along_b
            if abs(pair.along_a - pair.along_b) <= _AS_LONG:
                start = max(start, pair.along_a)
            elif abs(left_a - left_b) <= _AS_LONG:
                end = max(end, left_a)
    return start, end


def ends_gathers(pattern: Pattern, mark: NotchRef) -> bool:
    """Whether a notch is that beyond which a seam is gathered."""
    return pattern.piece(mark.piece).notch(mark.notch).marks is NotchMark.GATHERS_END


def run_total(pattern: Pattern, run: Sequence[EdgeRef]) -> float:
    """The length of a run of edges, mm."""
    return sum(pattern.piece(ref.piece).edge(ref.edge).length for ref in run)


def notch_distance(pattern: Pattern, run: Sequence[EdgeRef], mark: NotchRef) -> float | None:
    """How far along a run a notch lies, mm from the run's start; None when it lies on none of its edges."""
    gone = 0.0
    for ref in run:
        piece = pattern.piece(ref.piece)
        edge = piece.edge(ref.edge)
        if ref.piece == mark.piece:
            station = piece.notch(mark.notch).station
            if station.edge == ref.edge:
                at = from_start(edge, station)
                return gone + (edge.length - at if ref.backward else at)
        gone += edge.length
    return None


def _drawn_up(met: Iterable[tuple[NotchRef, float | None]], folded: tuple[tuple[float, float], ...] = ()) -> DrawnUp:
    """The stretches between places that all meet one mark, `met` tells mark and place; and those folded in pleats."""
    places: dict[NotchRef, list[float]] = {}
    for mark, along in met:
        if along is not None:
            places.setdefault(mark, []).append(along)
    return DrawnUp((*((min(each), max(each)) for each in places.values() if len(each) > 1), *folded))


def _pleated(pattern: Pattern, run: Sequence[EdgeRef]) -> tuple[tuple[float, float], ...]:
    """The stretches of a run that are folded away in pleats, mm from its start."""
    out: list[tuple[float, float]] = []
    gone = 0.0
    for ref in run:
        piece = pattern.piece(ref.piece)
        whole = piece.edge(ref.edge).length
        for pleat in pleats_on(piece, ref.edge):
            ends = (whole - pleat.end, whole - pleat.start) if ref.backward else (pleat.start, pleat.end)
            out.append((gone + ends[0], gone + ends[1]))
        gone += whole
    return tuple(out)
