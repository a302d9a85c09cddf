"""What a style line asks of the front and the back of a bodice: the pieces, their neck points, places at a level."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import partial
from typing import Final

from drafting.alterations.alteration import Promise
from drafting.alterations.earlier_steps import cut_above
from drafting.alterations.promises import finished_kept, run_surplus, seam_kept
from drafting.alterations.techniques.spreading.cut_across import Spot
from drafting.errors import Remedy, Setting, StepRefused
from drafting.geometry import Move, Point, Vec, run_hits, run_length, split
from drafting.pattern import (
    CENTRES,
    Along,
    Between,
    BodyPart,
    Edge,
    Half,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    edges_at,
    pieces_of,
    seam_places,
)

__all__ = [
    "bodice_half",
    "centre_spot",
    "lengths_along_kept",
    "lower_half",
    "meets_as_sewn",
    "neck_point",
    "only_edge",
    "seams_that_stay",
    "sewn_half",
    "spot_at_level",
    "spot_from_shoulder",
]

_LEFT: Final = 15.0
"""mm that have to be left of a neck or an armhole beyond a place on it (our figure)."""

_AT_CENTRE: Final = (*CENTRES, Place.STAND_EDGE, Place.WRAP_EDGE)


def bodice_half(step: str, pattern: Pattern, half: Half) -> Piece:
    """The front or the back of the bodice, whole from neck to armhole. Raises StepRefused where there is none."""
    found = _of_bodice(pattern, half, Place.ARMHOLE)
    whole = [piece for piece in found if edges_at(piece, Place.NECK) and edges_at(piece, Place.SHOULDER)]
    cut = f"is cut in two above already{cut_above(pattern)}"
    return _the_one(step, half, whole, "neck to armhole", cut if found else "is not there")


def lower_half(step: str, pattern: Pattern, half: Half) -> Piece:
    """The front or the back of the bodice with its side seam, below a yoke or a raglan line where there is one. Raises
    StepRefused where there is none, or where a panel is cut off it.
    """
    found = _of_bodice(pattern, half, Place.SIDE)
    return _the_one(step, half, found, "the centre to the side", "is cut into panels" if found else "is not there")


def _of_bodice(pattern: Pattern, half: Half, place: Place) -> list[Piece]:
    """The pieces of this half of the bodice that have an edge at a place."""
    kind = PieceKind.FRONT if half is Half.FRONT else PieceKind.BACK
    return [piece for piece in pieces_of(pattern, kind, BodyPart.BODICE) if edges_at(piece, place)]


def _the_one(step: str, half: Half, found: Sequence[Piece], whole: str, otherwise: str) -> Piece:
    if len(found) != 1:
        raise StepRefused(
            step, reason=f"it asks for one {half} of a bodice, whole from {whole}: the {half} {otherwise}"
        )
    return found[0]


_BACK_SLIT: Final = Remedy("set in block", "", (Setting("opening", "back slit"),), lead="Open the back")


def sewn_half(step: str, pattern: Pattern, half: Half) -> Piece:
    """The same, its shoulder sewn to the other half as well. Raises StepRefused where that is open or lapped."""
    piece = bodice_half(step, pattern, half)
    beside = {each.place for edge in edges_at(piece, Place.ARMHOLE) for each in piece.beside(edge.name)}
    if Place.SHOULDER not in beside or any(edge.role is Role.OPENING for edge in edges_at(piece, Place.SHOULDER)):
        reason = f'the shoulder of "{piece.name}" is open, and the sleeve is to be cut or dropped with it'
        raise StepRefused(step, reason=f"{reason}: take another opening in the block", remedies=(_BACK_SLIT,))
    return piece


def only_edge(step: str, piece: Piece, place: Place) -> Edge:
    """The edge of a piece at a place, in one. Raises StepRefused where there is none, or something lies in it."""
    found = edges_at(piece, place)
    if not found:
        raise StepRefused(step, reason=f'"{piece.name}" has no {place}')
    if len(found) > 1:
        raise StepRefused(step, reason=_parted_by(piece, place, found))
    return found[0]


def _parted_by(piece: Piece, place: Place, parts: Sequence[Edge]) -> str:
    """What lies in the edge at a place, which a style takes up, and what to do."""
    where = f'the {place} of "{piece.name}"'
    if any(edge.role is Role.OPENING for edge in parts):
        return f"{where} is open, with a zip or a slit in it: let the garment open at its centre back"
    if any(edge.drawn_up for edge in parts):
        return f"a dart is gathered or eased into {where}, which is drawn anew here: leave that dart sewn"
    return f"a dart lies in {where}, which is drawn anew here: let it go to another edge"


def neck_point(step: str, piece: Piece) -> Point:
    """Where the neck and the shoulder of a piece meet. Raises StepRefused where they do not."""
    for before, edge in zip((piece.edges[-1], *piece.edges), piece.edges, strict=False):
        if {before.place, edge.place} == {Place.NECK, Place.SHOULDER}:
            return edge.start
    raise StepRefused(step, reason=f'the neck and the shoulder of "{piece.name}" do not meet in a corner')


def centre_spot(step: str, piece: Piece, level: float, *, too_much: Sequence[str] = ()) -> Spot:
    """Where a level lies on the centre of a piece, or on the edge of what was added beyond it.

    too_much: the options of the step that say how low it lies
    Raises StepRefused where the centre does not reach there.
    """
    found = [
        (abs(hit.point.x), edge, k, hit)
        for edge in piece.edges
        if edge.place in _AT_CENTRE
        for k, hit in run_hits(edge.curves, Point(0.0, level), Vec(1.0, 0.0))
    ]
    if not found:
        said = f'the centre of "{piece.name}" does not reach to that level: {_deep_enough(step, piece)}'
        raise StepRefused(step, reason=said, too_much=too_much)
    # on the edge of a button stand or a wrap where there is one, else on the centre line itself
    beyond = [each for each in found if each[1].place not in CENTRES] or found
    _, edge, k, hit = max(beyond, key=lambda each: each[0])
    return Spot(edge.name, run_length((*edge.curves[:k], split(edge.curves[k], hit.t)[0])))


def _deep_enough(step: str, piece: Piece) -> str:
    """In words, from what depth below the neck point a piece has a centre line."""
    ends = [at.y for edge in piece.edges if edge.place in _AT_CENTRE for at in (edge.start, edge.end)]
    try:
        top = neck_point(step, piece).y
    except StepRefused:
        return "choose another depth"
    if not ends:
        return "choose another piece"
    least, most = math.ceil(top - max(ends)) + 1, math.floor(top - min(ends)) - 1
    return f"its neck and its lower end leave it from {least} mm to {most} mm below the neck point"


def spot_at_level(step: str, piece: Piece, place: Place, level: float, move: Move) -> Spot:
    """Where an edge of a piece comes to a level when it is laid by a move. Raises StepRefused where it does not."""
    for edge in edges_at(piece, place):
        laid = edge.moved(move).curves
        for k, hit in run_hits(laid, Point(0.0, level), Vec(1.0, 0.0)):
            return Spot(edge.name, run_length((*laid[:k], split(laid[k], hit.t)[0])))
    said = f'the {place} of "{piece.name}" does not come to that level; choose another depth'
    raise StepRefused(step, reason=said, too_much=("depth",))


def spot_from_shoulder(step: str, piece: Piece, place: Place, along: float) -> Spot:
    """The place so many mm along the neck or the armhole from the shoulder. Raises StepRefused where there is none."""
    for edge in edges_at(piece, place):
        before, after = piece.beside(edge.name)
        if Place.SHOULDER in (before.place, after.place):
            if along > edge.length - _LEFT:
                reason = f'the {place} of "{piece.name}" is {edge.length:.1f} mm long'
                raise StepRefused(step, reason=f"{reason}: {along:.1f} mm from the shoulder is too far along it")
            return Spot(edge.name, along if before.place is Place.SHOULDER else edge.length - along)
    raise StepRefused(step, reason=f'the {place} and the shoulder of "{piece.name}" do not meet in a corner')


def lengths_along_kept(pattern: Pattern) -> Iterator[Promise]:
    """The promises of what cutting leaves alone: the lengths along edges and between points, and how seams meet."""
    yield from finished_kept(pattern, lambda each: all(isinstance(part, Along | Between) for part in each.tape))
    yield from map(seam_kept, pattern.seams)


def seams_that_stay(pattern: Pattern) -> tuple[Seam, ...]:
    """The seams that stay when a shoulder is cut in one with the sleeve: not those of armhole and shoulder."""
    gone = (Place.ARMHOLE, Place.CAP, Place.SHOULDER)
    return tuple(seam for seam in pattern.seams if frozenset().union(*seam_places(pattern, seam)).isdisjoint(gone))


def meets_as_sewn(what: str, place: Place) -> Promise:
    """The promise that the seams of a place that a step makes meet: by how much their runs differ, mm."""
    return Promise(what, partial(_apart, place))


def _apart(place: Place, pattern: Pattern) -> float:
    edges = {(piece.name, edge.name) for piece in pattern.pieces for edge in edges_at(piece, place)}
    found = [seam for seam in pattern.seams if any((ref.piece, ref.edge) in edges for ref in (*seam.a, *seam.b))]
    # declared ease is written to a ten-thousandth of a millimetre
    return round(sum(abs(run_surplus(pattern, seam) - seam.ease.wanted) for seam in found), 3)
