"""The openings of a garment, how long each is, and with what it is closed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import Point
from drafting.pattern import (
    BodyPart,
    Edge,
    EdgeRef,
    Landmark,
    NotchMark,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    edges_at,
    notches_marking,
    points_at,
)
from drafting.sewing.seam_kinds import is_inside
from drafting.sewing.sewing_step import Fastening

__all__ = ["OpeningFound", "openings"]

_WITH_ZIP: Final = (Place.CENTRE_BACK, Place.CENTRE_FRONT, Place.SIDE)

_SNAP: Final = 10.0
"""mm across a snap between a child's legs (common practice)."""

_OF_BAND: Final = 0.5
"""How wide a button on a band is, of the band (ours; common practice: half to two thirds)."""

_SHOULDER_BUTTON: Final = 10.0
"""mm across a button on a child's shoulder (common practice)."""


@dataclass(frozen=True, slots=True)
class OpeningFound:
    """An opening: its edges on each piece that are in no seam, those that bear the buttons, and how it is closed."""

    place: Place
    part: BodyPart | None
    edges: tuple[EdgeRef, ...]
    marked: tuple[EdgeRef, ...]
    fastening: Fastening


def openings(pattern: Pattern) -> Iterator[OpeningFound]:
    """Every opening, those with a zip first."""
    shells = [piece for piece in pattern.pieces if not is_inside(piece)]
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    banded = tuple(_band_buttons(pattern))
    for place in _WITH_ZIP:
        found = [
            (piece, edge)
            for piece in shells
            for edge in piece.edges
            if edge.role is Role.OPENING and edge.place is place
        ]
        if found and (place is not Place.CENTRE_FRONT or not banded):
            refs = tuple(EdgeRef(piece.name, edge.name) for piece, edge in found)
            loose = tuple(ref for ref in refs if (ref.piece, ref.edge) not in sewn)
            length = sum(edge.length for piece, edge in found if place is not Place.SIDE or _is_first(piece, found))
            separating = not any(_ends_in_seam(piece, place) for piece, _ in found)
            hooked = any(_at_neck(*each) for each in found) and not _has_button_loops(pattern)
            fastening = Fastening(length, separating, hooks=int(hooked))
            yield OpeningFound(place, _one_part(piece for piece, _ in found), loose, refs, fastening)
    yield from banded
    yield from _shoulders(shells)
    yield from _buttons(shells, sewn)
    yield from _inseams(shells)


def _band_buttons(pattern: Pattern) -> Iterator[OpeningFound]:
    """A front closed by the buttons on its band: a hole on the right and a button on the left for each."""
    for band in (piece for piece in pattern.pieces if piece.identity.kind is PieceKind.BAND):
        marks = points_at(band, Landmark.BUTTON)
        edges = [
            (pattern.piece(ref.piece), ref.edge)
            for seam in pattern.seams
            if any(ref.piece == band.name for ref in seam.b)
            for ref in seam.a
            if pattern.piece(ref.piece).edge(ref.edge).place is Place.CENTRE_FRONT
        ]
        if marks and edges:
            refs = tuple(dict.fromkeys(EdgeRef(piece.name, edge) for piece, edge in edges))
            long = max(piece.edge(edge).length for piece, edge in edges)
            sewn = [band.edge(ref.edge) for seam in pattern.seams for ref in seam.b if ref.piece == band.name]
            middle = min(_off(mark.at, edge) for mark in marks for edge in sewn)  # the buttons stand in its middle
            size = _OF_BAND * 2.0 * middle
            fastening = Fastening(long, True, len(marks) // 2, size)
            yield OpeningFound(Place.CENTRE_FRONT, band.identity.part, (), refs, fastening)


def _off(at: Point, edge: Edge) -> float:
    """How far a place lies from the straight line through both ends of an edge, mm."""
    return abs((at - edge.start).cross((edge.end - edge.start).unit()))


def _shoulders(shells: list[Piece]) -> Iterator[OpeningFound]:
    """Shoulders that are left open, both alike: two buttons or snaps on each (common practice)."""
    found = [
        (piece, edge)
        for piece in shells
        for edge in piece.edges
        if edge.role is Role.OPENING and edge.place is Place.SHOULDER
    ]
    if found and not edges_at(found[0][0], Place.LAP_END):
        refs = tuple(EdgeRef(piece.name, edge.name) for piece, edge in found)
        long = max(edge.length for _, edge in found)
        fastening = Fastening(2.0 * long, True, 4, _SHOULDER_BUTTON)
        yield OpeningFound(Place.SHOULDER, _one_part(piece for piece, _ in found), refs, refs, fastening)


def _inseams(shells: list[Piece]) -> Iterator[OpeningFound]:
    """The inseams of both legs, open from hem to hem, with the snaps marked along them, that at the crotch once."""
    found = [
        (piece, edge)
        for piece in shells
        for edge in piece.edges
        if edge.role is Role.OPENING and edge.place is Place.INSEAM
    ]
    if found:
        refs = tuple(EdgeRef(piece.name, edge.name) for piece, edge in found)
        marked = max(len(points_at(piece, Landmark.SNAP)) for piece, _ in found)
        long = 2.0 * max(edge.length for _, edge in found)
        fastening = Fastening(long, True, size=_SNAP, snaps=2 * marked - 1)
        yield OpeningFound(Place.INSEAM, _one_part(piece for piece, _ in found), refs, refs, fastening)


def _buttons(shells: list[Piece], sewn: set[tuple[str, str]]) -> Iterator[OpeningFound]:
    """Button stands: as many buttons as are marked, as large as the stand is wide (common practice)."""
    found = [(piece, edge) for piece in shells for edge in piece.edges if edge.place is Place.STAND_EDGE]
    buttons = sum(len(points_at(piece, Landmark.BUTTON)) for piece in shells)
    if found and buttons:
        refs = tuple(EdgeRef(piece.name, edge.name) for piece, edge in found)
        loose = tuple(ref for ref in refs if (ref.piece, ref.edge) not in sewn)
        wide = [edge.length for piece in shells for edge in piece.edges if edge.place is Place.STAND]
        fastening = Fastening(sum(edge.length for _, edge in found), True, buttons, min(wide, default=0.0))
        yield OpeningFound(Place.STAND_EDGE, _one_part(piece for piece, _ in found), loose, refs, fastening)


def _has_button_loops(pattern: Pattern) -> bool:
    """Whether loops and buttons close the neck, in place of a hook. Such loops are cut on the bias, belt loops not."""
    loops = (piece for piece in pattern.pieces if piece.identity.kind is PieceKind.LOOP and piece.grain)
    return any(piece.grain is not None and piece.grain.start.y != piece.grain.end.y for piece in loops)


def _at_neck(piece: Piece, opening: Edge) -> bool:
    """Whether an opening runs out at the neck."""
    necks = (edge for edge in piece.edges if edge.place is Place.NECK)
    return any({opening.start, opening.end} & {neck.start, neck.end} for neck in necks)


def _ends_in_seam(piece: Piece, place: Place) -> bool:
    """Whether an opening at this place runs out into a seam of it: there a zip ends closed."""
    at_place = any(edge.place is place and edge.role is Role.SEAM for edge in piece.edges)
    return at_place or bool(notches_marking(piece, NotchMark.OPENING_END))


def _is_first(piece: Piece, found: Sequence[tuple[Piece, Edge]]) -> bool:
    """Whether a piece is the first of its part of the body: front and back of a side are open over the same length."""
    part = piece.identity.part
    return piece.name == next(other.name for other, _ in found if other.identity.part is part)


def _one_part(pieces: Iterator[Piece]) -> BodyPart | None:
    parts = {piece.identity.part for piece in pieces}
    return parts.pop() if len(parts) == 1 else None
