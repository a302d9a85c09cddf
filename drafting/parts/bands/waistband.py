"""A straight waistband: a strip of twice its height, folded along its upper edge, as long as the waist as it is sewn.

It begins where the skirt opens, with an underlap there, and goes once round; the lengthwise grain runs along it (common
practice). An underlap of 3 cm takes a button or a hook (common practice, 2.5 to 4 cm, from memory). Where the skirt
laps over itself, at a button stand or a wrap, the band reaches as far as that does and has no underlap of its own.

    upper edge, turned to the inside
    +---------+--------------+--------------+--------------+--------------+
    |- - - - - - - - - - - - - - - fold  - - - - - - - - - - - - - - - - -|
    +---------+--------------+--------------+--------------+--------------+
     underlap   to the waist of the skirt, quarter by quarter
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Line, Point
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.fly import FLY, shield_width
from drafting.parts.folded_outline import LaidEdge, laid_from
from drafting.pattern import (
    PLAIN,
    Along,
    BodyPart,
    BodySide,
    Cut,
    Derived,
    DrawnTo,
    Edge,
    EdgeRef,
    Grain,
    Half,
    Identity,
    Level,
    MarkLine,
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
    free_piece_name,
    pieces_drawn_to,
)
from drafting.pattern.pleats import pleats_on

__all__ = ["WAISTBAND", "WAISTBAND_TO", "draw_waistband"]

WAISTBAND: Final = "waistband"

WAISTBAND_TO: Final = tuple(
    DrawnTo(Place.WAIST, Identity(kind, BodyPart.SKIRT)) for kind in (PieceKind.FRONT, PieceKind.BACK)
)
"""What a waistband is drawn to."""

_ROUND_WAIST: Final = (Place.WAIST, Place.STAND, Place.WRAP)
_LAPS: Final = (Place.STAND, Place.WRAP)
_UNDERLAP: Final = 30.0  # mm
_AT_CENTRE: Final = frozenset((Place.CENTRE_FRONT, Place.CENTRE_BACK, Place.STAND_EDGE, Place.WRAP_EDGE))
_GATHERS_GIVE: Final = 0.02  # share of what is gathered in by which it may be off (our figure)
_SEWN_PLAIN: Final = 1e-6  # mm


@dataclass(frozen=True, slots=True)
class _Quarter:
    """The waist of one half of a front or a back, from the centre to the side.

    at_centre, at_side: the edges beside it
    sewn:  how long it is when what is gathered in it is drawn up, mm
    whole: how long it is as it lies flat, mm
    lap:   how much of that lies beyond the centre, mm; 0 where nothing laps over
    """

    half: Half
    run: tuple[EdgeRef, ...]
    at_centre: Edge
    at_side: Edge
    sewn: float
    whole: float
    lap: float

    @property
    def centre_mark(self) -> NotchMark:
        """What a notch at its centre marks: where gathers lie beyond a button stand, that they begin there."""
        gathered = self.lap and self.whole - self.sewn > _SEWN_PLAIN
        return NotchMark.GATHERS_END if gathered else NotchMark.CENTRE

    @property
    def to_centre(self) -> tuple[EdgeRef, ...]:
        """The same from the side to the centre."""
        return tuple(replace(ref, backward=not ref.backward) for ref in reversed(self.run))


@dataclass(frozen=True, slots=True)
class _Stretch:
    """What of the lower edge of a band is sewn to one quarter, and what its end meets."""

    side: BodySide
    quarter: _Quarter
    from_centre: bool

    @property
    def name(self) -> str:
        """What it is called on the band: "left front"."""
        return f"{self.side} {self.quarter.half}"


def draw_waistband(pattern: Pattern, derived: Derived) -> Drawn:
    """The band; height: when it is finished, underlap: past the opening, mm.

    Raises NotAPattern where the waist is sewn to something already, or a front or a back is not there.
    """
    found = [_quarter(pattern, source) for source in derived.to]
    stretches = _round(*found)
    height = derived.length("height")
    laps = any(each.lap for each in found)
    underlap = 0.0 if laps else derived.length_or("underlap", _usual_underlap(pattern))
    allowance = max(pattern.piece(ref.piece).edge(ref.edge).allowance for each in found for ref in each.run)
    piece = _band(free_piece_name(pattern, WAISTBAND), stretches, height, underlap, allowance)
    marks = tuple(_centre_marks(pattern, found))
    seams = []
    for stretch in stretches:
        quarter = stretch.quarter
        run = quarter.run if stretch.from_centre else quarter.to_centre
        pairs = tuple(
            (NotchRef(name, notch.name), NotchRef(piece.name, mark.name))
            for name, notch in marks
            if any(ref.piece == name for ref in run)
            for mark in piece.notches
            if mark.marks is quarter.centre_mark and mark.station.edge == stretch.name
        )
        more = quarter.whole - quarter.sewn
        pleated = any(pleats_on(pattern.piece(ref.piece), ref.edge) for ref in run)
        give = 0.0 if pleated else _GATHERS_GIVE * more
        ease = PLAIN if more <= _SEWN_PLAIN else SeamEase(more, more - give, more + give)
        seams.append(Seam(f"waistband to {stretch.name}", run, (EdgeRef(piece.name, stretch.name),), ease, pairs))
    return Drawn((piece,), tuple(seams), marks)


def _usual_underlap(pattern: Pattern) -> float:
    """How far the band reaches past the opening, mm: over a fly as far as its shield, on which it lies."""
    fly = next((part for part in pattern.derived if part.part == FLY), None)
    return _UNDERLAP if fly is None else shield_width(fly)


def _quarter(pattern: Pattern, source: DrawnTo) -> _Quarter:
    pieces = list(pieces_drawn_to(pattern, source))
    if not pieces:
        raise NotAPattern(WAISTBAND, f"there is no skirt {source.identity.kind} with a waist")
    run, at_centre, at_side = _from_centre(pattern, pieces)
    sewn_to = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    taken = [ref for ref in run if (ref.piece, ref.edge) in sewn_to]
    if taken:
        raise NotAPattern(WAISTBAND, f'the waist of "{taken[0].piece}" is sewn to the bodice')
    times = {(part.piece, part.edge): part.times / 2.0 for part in _tape(pattern)}
    lengths = [pattern.piece(ref.piece).edge(ref.edge).length_within(_SEWN_PLAIN) for ref in run]
    sewn = sum(mm * times.get((ref.piece, ref.edge), 1.0) for ref, mm in zip(run, lengths, strict=True))
    places = [pattern.piece(ref.piece).edge(ref.edge).place for ref in run]
    lap = sum(mm for place, mm in zip(places, lengths, strict=True) if place in _LAPS)
    half = pieces[0].identity.half or Half.FRONT
    return _Quarter(half, run, at_centre, at_side, sewn, sum(lengths), lap)


def _from_centre(pattern: Pattern, pieces: Sequence[Piece]) -> tuple[tuple[EdgeRef, ...], Edge, Edge]:
    """The waist of a front or a back from its centre to its side, and the edges at both ends."""
    for onward in (True, False):
        run, centre = _along_waist(pattern, pieces[0], next(_waist_edges(pieces[0])), onward=onward)
        if centre.edge.place in _AT_CENTRE:
            first = run[-1].ref
            back, side = _along_waist(pattern, pattern.piece(first.piece), first.edge, onward=not onward)
            return tuple(each.ref for each in back), centre.edge, side.edge
    raise NotAPattern(WAISTBAND, f'the waist of "{pieces[0].name}" comes to no centre line')


def _waist_edges(piece: Piece) -> Iterator[str]:
    return (edge.name for edge in piece.edges if edge.place is Place.WAIST)


def _along_waist(pattern: Pattern, piece: Piece, edge: str, *, onward: bool) -> tuple[list[LaidEdge], LaidEdge]:
    """The edges of the waist from this one on, and what follows them."""
    walk = list(laid_from(pattern, piece, edge, onward=onward))
    run = list(takewhile(lambda each: each.edge.place in _ROUND_WAIST, walk))
    return run, walk[len(run) % len(walk)]


def _tape(pattern: Pattern) -> Iterator[Along]:
    """Where the tape lies for the finished waist: what is gathered in counts for less than its length."""
    for measure in pattern.measures:
        if measure.key == "waist_girth":
            yield from (part for part in measure.tape if isinstance(part, Along) and part.times > 0.0)


def _round(front: _Quarter, back: _Quarter) -> tuple[_Stretch, ...]:
    """The quarters in the order of the band, seen from outside with the skirt below, from the opening on.

    At the centre back the right back comes first, at the left side the left back, at the centre front the left front:
    the underlap lies at that end, so that right laps over left in front, and front over back at the side.
    """
    once = (
        _Stretch(BodySide.RIGHT, back, from_centre=True),
        _Stretch(BodySide.RIGHT, front, from_centre=False),
        _Stretch(BodySide.LEFT, front, from_centre=True),
        _Stretch(BodySide.LEFT, back, from_centre=False),
    )
    opens = (
        (0, back.at_centre),
        (2, front.at_centre),
        (3, back.at_side),
    )
    first = next((k for k, edge in opens if edge.role is Role.OPENING), 0)
    return (*once[first:], *once[:first])


def _band(name: str, stretches: Sequence[_Stretch], height: float, underlap: float, allowance: float) -> Piece:
    """The band, its lower left corner at the origin."""
    names = [stretch.name for stretch in stretches]
    longs = [stretch.quarter.sewn for stretch in stretches]
    places = [Place.WAIST] * len(stretches)
    if underlap:
        names, longs, places = ["underlap", *names], [underlap, *longs], [Place.BAND_EDGE, *places]
    xs = [0.0]
    for long in longs:
        xs.append(xs[-1] + long)
    whole, deep = xs[-1], 2.0 * height
    lower = [
        Edge(name, (Line(Point(a, 0.0), Point(b, 0.0)),), Role.SEAM, allowance, place)
        for name, place, (a, b) in zip(names, places, pairwise(xs), strict=True)
    ]
    end, upper, start = (
        Edge(name, (Line(a, b),), Role.SEAM, allowance, place=at)
        for name, a, b, at in (
            ("end", Point(whole, 0.0), Point(whole, deep), Place.BAND_END),
            ("upper edge", Point(whole, deep), Point(0.0, deep), Place.BAND_EDGE),
            ("beginning", Point(0.0, deep), Point(0.0, 0.0), Place.BAND_END),
        )
    )
    notches = [_joint_notch(each) for each in stretches[:-1] if each.from_centre or not each.quarter.lap]
    notches += [_lap_notch(each) for each in stretches if each.quarter.lap]
    if underlap:
        opens = f"centre {stretches[0].quarter.half}" if stretches[0].from_centre else f"{stretches[0].side} side"
        begins = f"{opens}: underlap beyond"
        notches.insert(0, Notch(begins, Station("underlap", 0.0, "end"), marks=NotchMark.OPENING_END))
    middle = 0.5 * whole
    grain = Grain(Point(middle - 0.2 * whole, 0.5 * height), Point(middle + 0.2 * whole, 0.5 * height))
    fold = MarkLine("fold line", Point(0.0, height), Point(whole, height), level=Level.FOLD)
    return Piece(
        name,
        (*lower, end, upper, start),
        Cut(1, interfacing=1),
        grain,
        notches=tuple(notches),
        lines=(fold,),
        identity=Identity(PieceKind.BAND, BodyPart.SKIRT),
    )


def _joint_notch(one: _Stretch) -> Notch:
    """The notch at the end of a quarter, at a side seam or at a centre."""
    station = Station(one.name, 0.0, "end")
    if one.from_centre:
        return Notch(f"{one.side} side seam", station, marks=NotchMark.SIDE)
    return Notch(f"centre {one.quarter.half}", station, marks=NotchMark.CENTRE)


def _lap_notch(one: _Stretch) -> Notch:
    """The notch at the centre of a quarter that reaches beyond it, so that both centres come on each other."""
    station = Station(one.name, one.quarter.lap, "start" if one.from_centre else "end")
    return Notch(f"{one.side} centre {one.quarter.half}", station, marks=one.quarter.centre_mark)


def _centre_marks(pattern: Pattern, quarters: Sequence[_Quarter]) -> Iterator[tuple[str, Notch]]:
    """A notch on the waist of each piece on the fold or that laps over, for that of the band: a seam needs none."""
    for quarter in quarters:
        if quarter.at_centre.role is Role.FOLD or quarter.lap:
            beyond = (ref for ref in quarter.run if pattern.piece(ref.piece).edge(ref.edge).place not in _LAPS)
            ref = next(beyond, quarter.run[0])
            name = f"centre {quarter.half} at the waistband"
            yield (
                ref.piece,
                Notch(name, Station(ref.edge, 0.0, "end" if ref.backward else "start"), marks=quarter.centre_mark),
            )
