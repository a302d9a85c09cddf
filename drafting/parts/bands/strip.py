"""A straight strip of knit drawn to an edge of the garment, stretch by stretch: its piece, seams, notches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, end_tangents
from drafting.parts.drawn import Drawn
from drafting.parts.folded_outline import LaidEdge
from drafting.pattern import (
    BodyPart,
    Cut,
    Edge,
    EdgeAs,
    EdgeRef,
    Grain,
    Identity,
    Level,
    MarkLine,
    MarkPoint,
    Notch,
    NotchMark,
    NotchRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    SeamEase,
    Station,
    free_name,
    from_start,
)

__all__ = ["Stretch", "StripBand", "drawn_strip", "edges_long", "on_side", "quarter_marks", "turning"]

_INSIDE: Final = 0.9  # of the width of a band, what is sewn in of a narrow one (ours)
_NEAR_SEAM: Final = 20.0  # mm from a quarter, within which a seam is the mark for it (ours)
_SEWS: Final = 0.02  # of an edge by which a band may be longer or shorter than said (ours)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the edge of the garment: how long it is, and how long what of the band is sewn to it, mm.

    name: "front neck"
    refs: () for one that goes on beyond the garment, over the end of another band
    joint: what seam of the garment the band meets where this one ends, before it is turned round; None for none
    """

    name: str
    refs: tuple[EdgeRef, ...]
    length: float
    rest: float
    joint: NotchMark | None = None
    turned: bool = False
    side: str = ""

    def turned_round(self) -> Stretch:
        refs = tuple(replace(ref, backward=not ref.backward) for ref in reversed(self.refs))
        return replace(self, refs=refs, turned=not self.turned)


@dataclass(frozen=True, slots=True)
class StripBand:
    """What a band is drawn from, mm: its stretches from one end to the other, its width, how far its ends slant."""

    name: str
    stretches: tuple[Stretch, ...]
    width: float
    part: BodyPart
    count: int = 1
    slant: float = 0.0
    points: tuple[MarkPoint, ...] = ()


def on_side(side: str, part: Stretch) -> Stretch:
    """The stretch of one side of the body, under a name that says so."""
    return replace(part, name=f"{side} {part.name}", side=side)


def edges_long(pattern: Pattern, refs: Sequence[EdgeRef]) -> float:
    """How long these edges are together, mm."""
    return sum(pattern.piece(ref.piece).edge(ref.edge).length for ref in refs)


def turning(edges: Sequence[LaidEdge]) -> float:
    """By how much a stretch turns in all, radians."""
    curves = [curve for each in edges for curve in each.edge.curves]
    ends = [end_tangents(curve) for curve in curves]
    within = sum(abs(first.angle_to(last)) for first, last in ends)
    return within + sum(abs(one[1].angle_to(other[0])) for one, other in pairwise(ends))


def drawn_strip(
    pattern: Pattern,
    band: StripBand,
    marks: Sequence[tuple[str, Notch]],
    *,
    edges: Sequence[EdgeRef] = (),
    from_front: bool = False,
) -> Drawn:
    """The band with its seams; edges: the hems that it is sewn to."""
    pieces = {ref.piece: pattern.piece(ref.piece) for each in band.stretches for ref in each.refs}
    allowance = max(_seam_allowance(piece) for piece in pieces.values())
    if allowance > band.width:  # those of both its edges would lap over each other inside it
        allowance = _INSIDE * band.width
    notches, pairs = _band_notches(pattern, band, marks, from_front=from_front)
    piece = _piece(band, allowance, notches)
    seams = tuple(
        Seam(
            f"{band.name} to {each.name}",
            each.refs,
            (EdgeRef(band.name, each.name),),
            _stretched(each),
            tuple((mark, NotchRef(band.name, name)) for mark, name in pairs.get(each.name, ())),
        )
        for each in band.stretches
        if each.refs
    )
    hems = {(ref.piece, ref.edge) for ref in edges}
    sewn = [
        _sewn_so_wide(pattern, ref, allowance, hemmed=(ref.piece, ref.edge) in hems)
        for each in band.stretches
        for ref in each.refs
    ]
    return Drawn((piece,), seams, tuple(marks), tuple(dict.fromkeys(each for each in sewn if each is not None)))


def _sewn_so_wide(pattern: Pattern, ref: EdgeRef, allowance: float, *, hemmed: bool) -> EdgeAs | None:
    """What an edge is with the band on it: a hem is sewn as a seam, any edge no wider than its band; None as it was."""
    piece = pattern.piece(ref.piece)
    edge = piece.edge(ref.edge)
    wide = min(allowance, _seam_allowance(piece) if hemmed else edge.allowance)
    if not hemmed and wide == edge.allowance:
        return None
    return EdgeAs(ref.piece, ref.edge, Role.SEAM if hemmed else edge.role, wide)


def _seam_allowance(piece: Piece) -> float:
    return max((edge.allowance for edge in piece.edges if edge.role is Role.SEAM), default=0.0)


def _stretched(part: Stretch) -> SeamEase:
    more, sews = part.length - part.rest, _SEWS * part.length
    return SeamEase(more, more - sews, more + sews)


def _band_notches(
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


def _piece(band: StripBand, allowance: float, notches: Sequence[Notch]) -> Piece:
    """The strip, its lower left corner at the origin; folded, its upper half lies behind the lower."""
    xs = list(accumulate((each.rest for each in band.stretches), initial=0.0))
    whole, deep, in_ = xs[-1], 2.0 * band.width, band.slant
    lower = [
        Edge(each.name, (Line(Point(a, 0.0), Point(b, 0.0)),), Role.SEAM, allowance, Place.BAND_EDGE)
        for each, (a, b) in zip(band.stretches, pairwise(xs), strict=True)
    ]
    end = (Point(whole, 0.0), Point(whole - in_, band.width), Point(whole, deep))
    start = (Point(0.0, deep), Point(in_, band.width), Point(0.0, 0.0))
    rest = [
        Edge(name, tuple(Line(a, b) for a, b in pairwise(points)), Role.SEAM, allowance, place)
        for name, points, place in (
            ("end", end if in_ else (end[0], end[2]), Place.BAND_END),
            ("upper edge", (end[2], start[0]), Place.BAND_EDGE),
            ("beginning", start if in_ else (start[0], start[2]), Place.BAND_END),
        )
    ]
    middle = 0.5 * band.width
    return Piece(
        band.name,
        (*lower, *rest),
        Cut(band.count),
        Grain(Point(0.5 * whole, 0.25 * middle), Point(0.5 * whole, deep - 0.25 * middle)),
        notches=tuple(notches),
        points=band.points,
        lines=(MarkLine("fold line", Point(in_, band.width), Point(whole - in_, band.width), level=Level.FOLD),),
        identity=Identity(PieceKind.BAND, band.part),
    )


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
    raise NotAPattern("band", "the edge it is sewn to has no length")
