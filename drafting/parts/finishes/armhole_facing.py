r"""Facings of an armhole without a sleeve, and of neck and armholes in one.

The facing of an armhole is a strip round it, joined at shoulder and side. Where the shoulder is narrow the facings of
neck and armhole would lie over each other; then both are one piece, which reaches from the centre front to the side,
its free edge from below the neck to below the underarm (common practice: where 8 cm of shoulder or less are left).

        neck ____                           ____ shoulder
            |    \__              neck  ___|    \
            |       \                  |        ( armhole      in one
      strip |        ( armhole         |____     \
                                            \_____| side
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import cut_run, end_tangents, fair, run_length
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.facing_strip import draw_strip, strip_of
from drafting.parts.finishes.free_edge import chained
from drafting.parts.finishes.laid_strip import laid_round
from drafting.parts.finishes.neck_facing import centre_marks
from drafting.parts.finishes.strip_seams import Strip, end_length, strip_seams
from drafting.parts.folded_outline import LaidEdge
from drafting.parts.what_helps import other_part
from drafting.pattern import (
    BodyPart,
    Derived,
    DrawnTo,
    EdgeRef,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    free_piece_name,
    pieces_drawn_to,
    with_pieces,
)

__all__ = [
    "ARMHOLE_FACING",
    "ARMHOLE_FACING_TO",
    "COMBINED_FACING",
    "COMBINED_FACING_TO",
    "draw_armhole_facing",
    "draw_combined_facing",
]

ARMHOLE_FACING: Final = "armhole facing"
COMBINED_FACING: Final = "combined facing"

_NECK: Final = (Place.NECK, Place.STAND)
"""What a combined facing faces above: the neck goes on along a button stand."""

_KINDS: Final = (PieceKind.FRONT, PieceKind.BACK)
ARMHOLE_FACING_TO: Final = tuple(DrawnTo(Place.ARMHOLE, Identity(kind, BodyPart.BODICE)) for kind in _KINDS)
COMBINED_FACING_TO: Final = tuple(DrawnTo(Place.NECK, Identity(kind, BodyPart.BODICE)) for kind in _KINDS)


def draw_armhole_facing(pattern: Pattern, derived: Derived) -> Drawn:
    """The front and the back facing; depth: how deep, mm. Raises NotAPattern where a sleeve is sewn in."""
    holes = _sources(pattern, derived, ARMHOLE_FACING)
    depth = derived.length("depth")
    strips = [_strip(pattern, piece, depth, (None, None)) for piece in holes]
    if len(strips) > 1:
        long = {place: _shared(strips, place) for place in (Place.SHOULDER, Place.SIDE)}
        strips = [
            _strip(pattern, piece, depth, tuple(long[place] for place in _places_beside(strip)))  # type: ignore[arg-type]
            for piece, strip in zip(holes, strips, strict=True)
        ]
    return Drawn(tuple(strip.piece for strip in strips), strip_seams(pattern, strips))


def draw_combined_facing(pattern: Pattern, derived: Derived) -> Drawn:
    """The facing of neck and armhole in one, front and back; depth: below both, mm."""
    marks = tuple(centre_marks(pattern, derived))
    for name, notch in marks:  # the facing has the notches of what it faces
        marked = pattern.piece(name)
        pattern = with_pieces(pattern, replace(marked, notches=(*marked.notches, notch)))
    strips = [_in_one(pattern, piece, derived.length("depth")) for piece in _sources(pattern, derived, COMBINED_FACING)]
    necks = [_only(pattern, strip, _NECK) for strip in strips]
    arms = [_only(pattern, strip, (Place.ARMHOLE,)) for strip in strips]
    eases = {f"{seam.name} of the facings": seam.ease for seam in pattern.seams}
    # the whole shoulder lies on them, with what is eased in there
    seams = tuple(replace(seam, ease=eases.get(seam.name, seam.ease)) for seam in strip_seams(pattern, necks))
    seams += strip_seams(pattern, arms)[-len(arms) :]
    return Drawn(tuple(strip.piece for strip in strips), seams, marks)


def _sources(pattern: Pattern, derived: Derived, name: str) -> list[Piece]:
    """The front and the back. Raises NotAPattern where there is none, or the armhole is sewn to a sleeve."""
    found = [piece for source in derived.to if (piece := next(pieces_drawn_to(pattern, source), None))]
    if not found:
        raise NotAPattern(name, reason="there is no bodice with an armhole")
    for piece in pattern.pieces:
        across = piece.identity.kind in (PieceKind.YOKE, PieceKind.SLEEVE)
        if across and any(edge.place in (Place.NECK, Place.ARMHOLE) for edge in piece.edges):
            raise NotAPattern(
                name,
                reason=f'a part of the neck or the armhole lies on "{piece.name}"',
                remedies=(other_part("neck binding"),),
            )
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    for piece in found:
        for edge in piece.edges:
            if edge.place is Place.ARMHOLE and (piece.name, edge.name) in sewn:
                raise NotAPattern(name, reason=f'the armhole of "{piece.name}" is sewn to a sleeve')
    return found


def _strip(pattern: Pattern, piece: Piece, depth: float, ends: tuple[float | None, float | None]) -> Strip:
    name = free_piece_name(pattern, f"{piece.identity.half} {ARMHOLE_FACING}")
    return draw_strip(pattern, piece, {Place.ARMHOLE: depth}, name=name, ends=ends)


def _places_beside(strip: Strip) -> tuple[Place, Place]:
    """The places before and after the armhole on a facing: shoulder and side, or side and shoulder."""
    after = strip.piece.edges[len(strip.faced)].place
    return (Place.SHOULDER, Place.SIDE) if after is Place.SIDE else (Place.SIDE, Place.SHOULDER)


def _shared(strips: Sequence[Strip], place: Place) -> float:
    return sum(end_length(strip, place) for strip in strips) / len(strips)


def _in_one(pattern: Pattern, piece: Piece, depth: float) -> Strip:
    """The facing of neck and armhole in one: down to a line from centre to side, `depth` mm below each."""
    name = free_piece_name(pattern, f"{piece.identity.half} {COMBINED_FACING}")
    neck, onward, back = laid_round(pattern, piece, dict.fromkeys(_NECK, depth))
    to_side = onward[0].edge.place is Place.SHOULDER
    after = _to_side(name, onward, depth) if to_side else _first_stretch(onward, depth)
    before = _first_stretch(back, depth) if to_side else _to_side(name, back, depth)
    start, end = after[-1].edge, before[-1].edge
    # square to the centre and to the side, so that the halves and the seam make one line
    leaving, arriving = end_tangents(start.curves[-1])[1].left(), -end_tangents(end.curves[-1])[1].right()
    free = fair(start.end, leaving, end.end, arriving)
    arms = [
        replace(each, ref=EdgeRef(each.ref.piece, each.ref.edge))
        for each in (*after, *reversed(before))
        if each.edge.place is Place.ARMHOLE
    ]
    run = chained([curve for each in neck for curve in each.edge.curves])
    return strip_of(pattern, piece, name, (neck, after, before), (free,), (run, depth), also=arms)


def _to_side(name: str, walk: Sequence[LaidEdge], depth: float) -> list[LaidEdge]:
    """From the neck over the shoulder and round the armhole, and so far down the side."""
    top = list(takewhile(lambda each: each.edge.place is not Place.SIDE, walk))
    if not any(each.edge.place is Place.ARMHOLE for each in top) or len(top) == len(walk):
        raise NotAPattern(name, reason="no armhole lies between its neck and its side seam")
    return [*top, *_first_stretch(walk[len(top) :], depth)]


def _first_stretch(walk: Sequence[LaidEdge], depth: float) -> list[LaidEdge]:
    """The edges from the beginning of a walk for so many mm, of those at its first place."""
    out: list[LaidEdge] = []
    for each in walk:
        if each.edge.place is not walk[0].edge.place or depth <= 0.0:
            break
        long = run_length(each.edge.curves)
        curves = each.edge.curves if long <= depth else cut_run(each.edge.curves, depth)[0]
        out.append(replace(each, edge=replace(each.edge, curves=curves)))
        depth -= long
    return out


def _only(pattern: Pattern, strip: Strip, places: Sequence[Place]) -> Strip:
    """The facing as that of some places, for its seams."""
    faced = tuple(ref for ref in strip.faced if pattern.piece(ref.piece).edge(ref.edge).place in places)
    return replace(strip, faced=faced)
