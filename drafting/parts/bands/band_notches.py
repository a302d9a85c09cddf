"""The notches of a straight band, and those of the edge that it is sewn to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.bands.band_edge import Stretch, StripBand
from drafting.pattern import Notch, NotchMark, NotchRef, Pattern, Station, free_name, from_start

__all__ = ["band_notches", "quarter_marks"]

_NEAR_SEAM: Final = 20.0  # mm from a quarter, within which a seam is the mark for it (ours)


def band_notches(
    pattern: Pattern, band: StripBand, marks: Sequence[tuple[str, Notch]], *, from_front: bool
) -> tuple[list[Notch], dict[str, list[tuple[NotchRef, str]]]]:
    """The notches of a band, and by the name of each of its stretches which meet which on the garment."""
    notches = list(_joints(band))
    pairs: dict[str, list[tuple[NotchRef, str]]] = {}
    for each in band.stretches:
        gone = 0.0
        for ref in each.refs:
            edge = pattern.piece(ref.piece).edge(ref.edge)
            for on, notch in marks:
                if notch.marks is NotchMark.CENTRE or on != ref.piece or notch.station.edge != ref.edge:
                    continue
                at = from_start(edge, notch.station)
                along = gone + (edge.length - at if ref.backward else at)
                if notch.marks is NotchMark.QUARTER and not 0.0 < along < each.length:
                    continue
                called = "quarter" if notch.marks is NotchMark.QUARTER else notch.name
                name = f"{called} in the {each.name}"
                notches.append(Notch(name, Station(each.name, along * each.rest / each.length), marks=notch.marks))
                pairs.setdefault(each.name, []).append((NotchRef(on, notch.name), name))
            gone += edge.length
    if len(band.stretches) > 1:
        middle = band.stretches[len(band.stretches) // 2 - 1]
        where = "centre back" if from_front else "centre front"
        notches.append(Notch(where, Station(middle.name, 0.0, "end"), marks=NotchMark.CENTRE))
        last = middle.refs[-1]
        for on, notch in marks:
            if notch.marks is NotchMark.CENTRE and (on, notch.station.edge) == (last.piece, last.edge):
                pairs.setdefault(middle.name, []).append((NotchRef(on, notch.name), where))
    return notches, pairs


def _joints(band: StripBand) -> Iterator[Notch]:
    """A notch on the band for each seam of the garment that it runs over, the middle left out: that is a centre."""
    named: list[str] = []
    for k, (one, other) in enumerate(pairwise(band.stretches), start=1):
        marks = other.joint if one.turned else one.joint
        if marks is not None and 2 * k != len(band.stretches):
            named.append(free_name(f"{one.side} {marks}", named))
            yield Notch(named[-1], Station(one.name, 0.0, "end"), marks=marks)


def quarter_marks(pattern: Pattern, half: Sequence[Stretch]) -> list[tuple[str, Notch]]:
    """The mark half way along a half of the edge, on the piece it lies on; none where a seam lies close to it, which
    is the mark then.
    """
    left = 0.5 * sum(part.length for part in half)
    if any(abs(left - gone) < _NEAR_SEAM for gone in accumulate(part.length for part in half[:-1])):
        return []
    for ref in (ref for part in half for ref in part.refs):
        long = pattern.piece(ref.piece).edge(ref.edge).length
        if left <= long:
            station = Station(ref.edge, left, "end" if ref.backward else "start")
            return [(ref.piece, Notch("quarter of the edge", station, marks=NotchMark.QUARTER))]
        left -= long
    raise NotAPattern("band", reason="the edge it is sewn to has no length")
