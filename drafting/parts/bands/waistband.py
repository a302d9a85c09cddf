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
from itertools import takewhile
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.bands.waistband_piece import SEWN_PLAIN, BandStretch, WaistQuarter, band_piece
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.fly import shield_width
from drafting.parts.finishes.fly_facing import FLY
from drafting.parts.folded_outline import LaidEdge, laid_from
from drafting.pattern import (
    PLAIN,
    Along,
    BodyPart,
    BodySide,
    Derived,
    DrawnTo,
    Edge,
    EdgeRef,
    Half,
    Identity,
    Notch,
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


def draw_waistband(pattern: Pattern, derived: Derived) -> Drawn:
    """The band; height: when it is finished, underlap: past the opening, mm.

    Raises NotAPattern where the waist is sewn to something already, or a front or a back is not there.
    """
    found = [_quarter(pattern, source) for source in derived.to]
    stretches = _round(*found)
    height = derived.length("height")
    laps = any(each.lap for each in found)
    underlap = 0.0 if laps or not _opens(*found) else derived.length_or("underlap", _usual_underlap(pattern))
    allowance = max(pattern.piece(ref.piece).edge(ref.edge).allowance for each in found for ref in each.run)
    part = pattern.piece(found[0].run[0].piece).identity.part
    piece = band_piece(free_piece_name(pattern, WAISTBAND), stretches, height, underlap, allowance, part)
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
        ease = PLAIN if more <= SEWN_PLAIN else SeamEase(more, more - give, more + give)
        seams.append(Seam(f"waistband to {stretch.name}", run, (EdgeRef(piece.name, stretch.name),), ease, pairs))
    return Drawn((piece,), tuple(seams), marks)


def _usual_underlap(pattern: Pattern) -> float:
    """How far the band reaches past the opening, mm: over a fly as far as its shield, on which it lies."""
    fly = next((part for part in pattern.derived if part.part == FLY), None)
    return _UNDERLAP if fly is None else shield_width(fly)


def _quarter(pattern: Pattern, source: DrawnTo) -> WaistQuarter:
    """The waist of one half of a skirt from centre to side, with its lengths, mm; NotAPattern for a sewn one."""
    pieces = list(pieces_drawn_to(pattern, source))
    if not pieces:
        raise NotAPattern(WAISTBAND, reason=f"there is no skirt {source.identity.kind} with a waist")
    run, at_centre, at_side = _from_centre(pattern, pieces)
    sewn_to = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    taken = [ref for ref in run if (ref.piece, ref.edge) in sewn_to]
    if taken:
        raise NotAPattern(WAISTBAND, reason=f'the waist of "{taken[0].piece}" is sewn to the bodice')
    times = {(part.piece, part.edge): part.times / 2.0 for part in _tape(pattern)}
    lengths = [pattern.piece(ref.piece).edge(ref.edge).length_within(SEWN_PLAIN) for ref in run]
    sewn = sum(mm * times.get((ref.piece, ref.edge), 1.0) for ref, mm in zip(run, lengths, strict=True))
    places = [pattern.piece(ref.piece).edge(ref.edge).place for ref in run]
    lap = sum(mm for place, mm in zip(places, lengths, strict=True) if place in _LAPS)
    half = pieces[0].identity.half or Half.FRONT
    return WaistQuarter(half, run, at_centre, at_side, sewn, sum(lengths), lap)


def _from_centre(pattern: Pattern, pieces: Sequence[Piece]) -> tuple[tuple[EdgeRef, ...], Edge, Edge]:
    """The waist of a front or a back from its centre to its side, and the edges at both ends."""
    for onward in (True, False):
        run, centre = _along_waist(pattern, pieces[0], next(_waist_edges(pieces[0])), onward=onward)
        if centre.edge.place in _AT_CENTRE:
            first = run[-1].ref
            back, side = _along_waist(pattern, pattern.piece(first.piece), first.edge, onward=not onward)
            return tuple(each.ref for each in back), centre.edge, side.edge
    raise NotAPattern(WAISTBAND, reason=f'the waist of "{pieces[0].name}" comes to no centre line')


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


def _round(front: WaistQuarter, back: WaistQuarter) -> tuple[BandStretch, ...]:
    """The quarters in the order of the band, seen from outside with the skirt below, from the opening on.

    At the centre back the right back comes first, at the left side the left back, at the centre front the left front:
    the underlap lies at that end, so that right laps over left in front, and front over back at the side.
    """
    once = (
        BandStretch(BodySide.RIGHT, back, from_centre=True),
        BandStretch(BodySide.RIGHT, front, from_centre=False),
        BandStretch(BodySide.LEFT, front, from_centre=True),
        BandStretch(BodySide.LEFT, back, from_centre=False),
    )
    first = next(iter(_opens(front, back)), 0)
    return (*once[first:], *once[:first])


def _opens(front: WaistQuarter, back: WaistQuarter) -> tuple[int, ...]:
    """Before which quarters of the band the waist opens, as `_round` counts them; () where it opens nowhere."""
    ends = ((0, back.at_centre), (2, front.at_centre), (3, back.at_side))
    return tuple(k for k, edge in ends if edge.role is Role.OPENING)


def _centre_marks(pattern: Pattern, quarters: Sequence[WaistQuarter]) -> Iterator[tuple[str, Notch]]:
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
