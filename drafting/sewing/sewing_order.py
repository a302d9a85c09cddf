"""The order of sewing: every seam, dart, hem and opening of a pattern in the one step in which it is sewn.

Worked out by what seams, edges and pieces are, never by what they are called. The order is that of common practice
(the "unit method" of sewing books): prepare; then the bodice as far as it goes while it lies flat (darts, panels,
shoulders, neck), then its sides; the skirt alike; waist; openings; sleeves; hems last. Three rules decide it:

1. What ends in a seam is sewn before that seam runs over it: darts before the edge they open at, shoulders before the
   neck, sides before the waist and the hem.
2. Tube is sewn to tube and flat edge to flat edge: a sleeve whose cap is eased goes in when its underarm seam and the
   side seam are closed; one with hardly any ease is sewn in flat, and then the side and the sleeve in one go.
3. What would be in the way comes last: hems, buttons, and the band after the zip that it closes.

`tests/outside/sew_it.py` sews the steps on paper and holds them to these.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import IntEnum, auto
from typing import Final

from drafting.pattern import (
    MIDDLE_SEAMS,
    BodyPart,
    EdgeRef,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    Seam,
    edges_at,
    walk,
)
from drafting.pattern.cutting import pressed
from drafting.pattern.gathered import Held, held_in
from drafting.pattern.notches import notch_numbers
from drafting.pattern.pockets import is_patch
from drafting.pattern.unfinished import unfinished_edges
from drafting.sewing.flared_skirt import is_flared
from drafting.sewing.openings import openings
from drafting.sewing.seam_kinds import SeamKind, faced_place, is_facing, kind_of, part_of, pieces_in
from drafting.sewing.sewing_step import Act, DartFold, SewingStep
from drafting.sewing.stays import edge_stays, seam_stays
from drafting.sewing.strips import binding_strips, collar_strips, shoulder_strips
from drafting.sewing.tucks import tuck_steps

__all__ = ["FLAT_SLEEVE", "sewing_order"]

FLAT_SLEEVE: Final = 15.0
"""mm of ease in a whole cap up to which a sleeve is sewn in flat, as in a shirt (ours, after common practice)."""


class _Stage(IntEnum):
    """When a step comes."""

    PREPARE = auto()
    COLLAR = auto()
    BODICE_DARTS = auto()
    BODICE_PANELS = auto()
    SHOULDERS = auto()
    NECK = auto()
    FLAT_SLEEVES = auto()
    BODICE_SIDES = auto()
    SKIRT_DARTS = auto()
    SKIRT_PANELS = auto()
    SKIRT_SIDES = auto()
    WAIST = auto()
    EDGES = auto()
    ZIP = auto()
    BAND = auto()
    SLEEVE_DARTS = auto()
    SLEEVES = auto()
    ARMHOLES = auto()
    TUCKS = auto()
    HEMS = auto()
    BUTTONS = auto()


_DARTS: Final = {BodyPart.SKIRT: _Stage.SKIRT_DARTS, BodyPart.SLEEVE: _Stage.SLEEVE_DARTS}
_PANELS: Final = {BodyPart.SKIRT: _Stage.SKIRT_PANELS, BodyPart.SLEEVE: _Stage.SLEEVE_DARTS}
_SIDES: Final = {BodyPart.SKIRT: _Stage.SKIRT_SIDES}


@dataclass(frozen=True, slots=True)
class _Sewing:
    """A pattern and what every rule asks of it, found once."""

    pattern: Pattern
    knit: bool
    kinds: dict[str, SeamKind]
    numbers: dict[str, tuple[int, ...]]
    held: tuple[Held, ...]

    def seams(self, *kinds: SeamKind) -> tuple[Seam, ...]:
        return tuple(seam for seam in self.pattern.seams if self.kinds[seam.name] in kinds)

    def step(self, act: Act, seams: Iterable[Seam], *, place: Place | None = None, **more: object) -> SewingStep:
        """A step that sews these seams, with their notches, their fullness and their stays."""
        sewn = tuple(seams)
        names = tuple(seam.name for seam in sewn)
        parts = {part_of(self.pattern, seam) for seam in sewn}
        step: dict[str, object] = {
            "place": place,
            "part": parts.pop() if len(parts) == 1 else None,
            "pieces": pieces_in(sewn),
            "seams": names,
            "held": tuple(held for held in self.held if held.seam in names and held.longer),
            "notches": tuple(sorted({number for name in names for number in self.numbers[name]})),
            "stays": seam_stays(self.pattern, sewn, knit=self.knit),
        }
        return SewingStep(act, **(step | more))  # type: ignore[arg-type]


_Found = Iterator[tuple[_Stage, SewingStep]]


def sewing_order(pattern: Pattern, *, knit: bool = False) -> tuple[SewingStep, ...]:
    """Every step of sewing a pattern, in order; none for pieces that no seam joins.

    knit: whether it is cut from a knit, whose shoulders are taped
    """
    if not pattern.seams:
        return ()
    numbers = notch_numbers(pattern.seams)
    sewing = _Sewing(
        pattern,
        knit,
        {seam.name: kind_of(pattern, seam) for seam in pattern.seams},
        {seam.name: tuple(numbers[one] for one, _ in seam.notches) for seam in pattern.seams},
        tuple(held_in(pattern)),
    )
    found = [each for rule in _RULES for each in rule(sewing)]
    return tuple(step for _, step in sorted(found, key=lambda each: each[0]))


def _prepare(sewing: _Sewing) -> _Found:
    fused = tuple(piece.name for piece in sewing.pattern.pieces if piece.cut.interfacing)
    if fused:
        yield _Stage.PREPARE, SewingStep(Act.FUSE, pieces=fused)
    stays = edge_stays(sewing.pattern)
    if stays:
        pieces = tuple(dict.fromkeys(ref.piece for stay in stays for ref in stay.edges))
        yield _Stage.PREPARE, SewingStep(Act.STAY, pieces=pieces, stays=stays)


def _darts(sewing: _Sewing) -> _Found:
    for piece in sewing.pattern.pieces:
        if piece.darts:
            folds = tuple(DartFold(piece.name, dart.name, pressed(piece, dart)) for dart in piece.darts)
            stage = _DARTS.get(_part(piece), _Stage.BODICE_DARTS)
            yield stage, SewingStep(Act.DARTS, part=piece.identity.part, pieces=(piece.name,), darts=folds)


def _panels(sewing: _Sewing) -> _Found:
    """Panels, and the centre seam of a piece that is cut twice."""
    for seam in sewing.seams(SeamKind.PANEL):
        part = part_of(sewing.pattern, seam) or BodyPart.BODICE
        yield _PANELS.get(part, _Stage.BODICE_PANELS), sewing.step(Act.JOIN, [seam], place=Place.PRINCESS)
    for piece in sewing.pattern.pieces:
        for edge in () if is_facing(piece) else _centre_seams(sewing.pattern, piece):
            place = piece.edge(edge.edge).place
            step = SewingStep(Act.JOIN, place, piece.identity.part, (piece.name,), edges=(edge,))
            early = _PANELS.get(_part(piece), _Stage.BODICE_PANELS)
            yield _Stage.ZIP if _opens_above(sewing.pattern, piece, place) else early, step


def _opens_above(pattern: Pattern, piece: Piece, place: Place | None) -> bool:
    """Whether an opening ends where this centre seam begins: the other part of the body is open there all the way, so
    the seam is closed after the waist, which is flat till then.
    """
    shells = [each for each in pattern.pieces if not is_facing(each)]
    roles = {each.name: {edge.role for edge in each.edges if edge.place is place} for each in shells}
    open_all_the_way = any(Role.OPENING in found and Role.SEAM not in found for found in roles.values())
    return open_all_the_way and Role.OPENING not in roles[piece.name]


def _pockets(sewing: _Sewing) -> _Found:
    """Pockets: bags are sewn to the mouth in a seam before that is closed, patches go on while all lies flat."""
    seams = sewing.seams(SeamKind.POCKET)
    if seams:
        part = part_of(sewing.pattern, seams[0]) or BodyPart.BODICE
        yield _PANELS.get(part, _Stage.BODICE_PANELS), sewing.step(Act.JOIN, seams, place=Place.POCKET_MOUTH)
    for piece in filter(is_patch, sewing.pattern.pieces):
        edges = tuple(EdgeRef(piece.name, edge.name) for edge in piece.edges)
        depth = max(edge.allowance for edge in piece.edges if edge.role is Role.HEM)
        step = SewingStep(Act.PATCH, Place.POCKET_EDGE, piece.identity.part, (piece.name,), edges=edges, depth=depth)
        yield _PANELS.get(_part(piece), _Stage.BODICE_PANELS), step


def _centre_seams(pattern: Pattern, piece: Piece) -> Iterator[EdgeRef]:
    """The edges along which the left one of a piece is sewn to its right one: no seam of the pattern names them."""
    if piece.cut.mirror:
        for ref in _left_over(pattern, piece):
            edge = piece.edge(ref.edge)
            if edge.place in MIDDLE_SEAMS and edge.role is Role.SEAM:
                yield ref


def _shoulders(sewing: _Sewing) -> _Found:
    seams = sewing.seams(SeamKind.SHOULDER)
    if seams:
        yield _Stage.SHOULDERS, sewing.step(Act.JOIN, seams, place=Place.SHOULDER)


def _collars(sewing: _Sewing) -> _Found:
    """A collar is made, and caught between the neck and its facing; where there is none a strip covers the seam."""
    making, on = sewing.seams(SeamKind.COLLAR), sewing.seams(SeamKind.COLLAR_ON)
    if making:
        yield _Stage.COLLAR, sewing.step(Act.MAKE_COLLAR, making, place=Place.COLLAR_EDGE)
    if on:
        strips = collar_strips(sewing.pattern, on)
        yield _Stage.NECK, sewing.step(Act.COLLAR, on, place=Place.NECK, strips=strips)


def _facings(sewing: _Sewing) -> _Found:
    """Facings: those of one place, or that go round a corner together, are joined, and then sewn on in one pass."""
    pattern = sewing.pattern
    zips = {opening.place for opening in openings(pattern) if not opening.fastening.buttons}
    for places, seams in _faced_in_one(sewing):
        place = Place.NECK if Place.NECK in places else places[0]
        stage = _Stage.EDGES if Place.STAND_EDGE in places else _FACED.get(place, _Stage.EDGES)
        names = tuple(name for name in pieces_in(seams) if is_facing(pattern.piece(name)))
        joined = [seam for seam in sewing.seams(SeamKind.FACINGS) if not set(names).isdisjoint(pieces_in([seam]))]
        loose = [ref for name in names for ref in _left_over(pattern, pattern.piece(name))]
        first = [ref for ref in loose if pattern.piece(ref.piece).edge(ref.edge).place is Place.FACING_EDGE]
        first += [ref for name in names for ref in _centre_seams(pattern, pattern.piece(name))]
        yield stage, sewing.step(Act.JOIN_FACINGS, joined, place=place, edges=tuple(first), pieces=names)
        at_zip = _facing_ends(pattern, zips)
        ends = [ref for ref in loose if ref not in first and ref not in at_zip]
        if Place.STAND_EDGE in places:
            ends += [ref for piece in pattern.pieces if not is_facing(piece) for ref in _stand_ends(pattern, piece)]
        yield stage, sewing.step(Act.FACE, seams, place=place, edges=tuple(ends))


def _faced_in_one(sewing: _Sewing) -> list[tuple[tuple[Place | None, ...], tuple[Seam, ...]]]:
    """The seams that sew facings on, those together that are sewn in one pass, with the places they finish."""
    groups: list[tuple[tuple[Place | None, ...], tuple[Seam, ...]]] = []
    for seam in sewing.seams(SeamKind.FACE):
        places: tuple[Place | None, ...] = (faced_place(sewing.pattern, seam),)
        seams: tuple[Seam, ...] = (seam,)
        facings = {name for name in pieces_in(seams) if is_facing(sewing.pattern.piece(name))}
        for group in list(groups):
            if places[0] in group[0] or facings & set(pieces_in(group[1])):
                groups.remove(group)
                places, seams = tuple(dict.fromkeys((*group[0], *places))), (*group[1], *seams)
        groups.append((places, seams))
    return groups


def _facing_ends(pattern: Pattern, places: Collection[Place]) -> list[EdgeRef]:
    """The ends of facings at these openings, which are sewn to the tape of the zip."""
    facings = (piece for piece in pattern.pieces if is_facing(piece))
    return [
        EdgeRef(piece.name, edge.name)
        for piece in facings
        for edge in piece.edges
        if edge.role is Role.OPENING and edge.place in places
    ]


_FACED: Final[Mapping[Place | None, _Stage]] = {
    Place.NECK: _Stage.NECK,
    Place.HEM: _Stage.HEMS,
    Place.WRIST: _Stage.HEMS,
}


def _stand_ends(pattern: Pattern, piece: Piece) -> Iterator[EdgeRef]:
    """The ends of a button stand that are closed as its facing is sewn on."""
    return (ref for ref in _left_over(pattern, piece) if piece.edge(ref.edge).place is Place.STAND)


def _left_over(pattern: Pattern, piece: Piece) -> Iterator[EdgeRef]:
    """The edges of a piece that no seam names, but for folds, darts and what is turned up."""
    sewn = _sewn_edges(pattern)
    for edge in piece.edges:
        if (piece.name, edge.name) not in sewn and edge.role not in (Role.FOLD, Role.DART_LEG, Role.HEM):
            yield EdgeRef(piece.name, edge.name)


def _sewn_edges(pattern: Pattern) -> set[tuple[str, str]]:
    return {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}


def _sleeves(sewing: _Sewing) -> _Found:
    armholes, underarms = sewing.seams(SeamKind.ARMHOLE), sewing.seams(SeamKind.UNDERARM)
    if armholes:
        flat = _sewn_flat(sewing, armholes)
        stage = _Stage.FLAT_SLEEVES if flat else _Stage.SLEEVES
        if not flat and underarms:
            yield _Stage.SLEEVES, sewing.step(Act.JOIN, underarms, place=Place.UNDERARM)
        yield stage, sewing.step(Act.SET_IN, armholes, place=Place.ARMHOLE, in_the_round=not flat)
    elif underarms:
        yield _Stage.SLEEVES, sewing.step(Act.JOIN, underarms, place=Place.UNDERARM)


def _sewn_flat(sewing: _Sewing, armholes: Iterable[Seam]) -> bool:
    ease = sum(max(0.0, (walked := walk(sewing.pattern, seam)).a - walked.b) for seam in armholes)
    return ease <= FLAT_SLEEVE


def _sides(sewing: _Sewing) -> _Found:
    """Side seams; with a sleeve that is already sewn in flat, its underarm seam in one with them."""
    armholes = sewing.seams(SeamKind.ARMHOLE)
    flat = bool(armholes) and _sewn_flat(sewing, armholes)
    underarms = sewing.seams(SeamKind.UNDERARM) if flat else ()
    by_part: dict[BodyPart, list[Seam]] = {}
    for seam in sewing.seams(SeamKind.SIDE):
        by_part.setdefault(part_of(sewing.pattern, seam) or BodyPart.BODICE, []).append(seam)
    if underarms:
        by_part.setdefault(BodyPart.BODICE, [])
    for part, seams in by_part.items():
        with_sleeve = underarms if part is BodyPart.BODICE else ()
        yield (
            _SIDES.get(part, _Stage.BODICE_SIDES),
            sewing.step(Act.JOIN, (*with_sleeve, *seams), place=Place.SIDE, part=part),
        )


def _waist(sewing: _Sewing) -> _Found:
    seams = sewing.seams(SeamKind.WAIST)
    if seams:
        yield _Stage.WAIST, sewing.step(Act.JOIN, seams, place=Place.WAIST)


def _band(sewing: _Sewing) -> _Found:
    seams = sewing.seams(SeamKind.BAND)
    if not seams:
        return
    bands = [piece for piece in sewing.pattern.pieces if piece.identity.kind is PieceKind.BAND]
    edges = tuple(ref for band in bands for ref in _left_over(sewing.pattern, band))
    yield _Stage.BAND, sewing.step(Act.BAND, seams, place=Place.WAIST, edges=edges)


def _openings(sewing: _Sewing) -> _Found:
    for opening in openings(sewing.pattern):
        act = Act.BUTTONS if opening.fastening.buttons else Act.ZIP
        last = _Stage.BUTTONS if act is Act.BUTTONS else _Stage.ZIP
        stage = _Stage.SHOULDERS if opening.place is Place.SHOULDER else last
        pieces = tuple(dict.fromkeys(ref.piece for ref in (*opening.edges, *opening.marked)))
        edges = (
            opening.edges if act is Act.BUTTONS else (*opening.edges, *_facing_ends(sewing.pattern, {opening.place}))
        )
        strips = shoulder_strips(sewing.pattern, opening.edges) if opening.place is Place.SHOULDER else ()
        step = SewingStep(act, opening.place, opening.part, pieces, edges=edges, fastening=opening.fastening)
        yield stage, replace(step, strips=strips)


def _lap(sewing: _Sewing) -> _Found:
    wrapped = [p for p in sewing.pattern.pieces if not is_facing(p) and edges_at(p, Place.WRAP_EDGE)]
    if wrapped:
        bands = [piece for piece in sewing.pattern.pieces if piece.identity.kind is PieceKind.BAND]
        names = tuple(piece.name for piece in (*wrapped, *bands))
        yield _Stage.BUTTONS, SewingStep(Act.LAP, Place.WRAP, wrapped[0].identity.part, names)


def _bare(sewing: _Sewing) -> _Found:
    """Edges that nothing of the pattern finishes."""
    stages = {Place.NECK: _Stage.NECK, Place.WAIST: _Stage.BAND, Place.ARMHOLE: _Stage.ARMHOLES}
    found: dict[Place, list[EdgeRef]] = {}
    for piece, edge, line in unfinished_edges(sewing.pattern):
        found.setdefault(line, []).append(EdgeRef(piece.name, edge.name))
    for line, refs in found.items():
        pieces = tuple(dict.fromkeys(ref.piece for ref in refs))
        parts = {sewing.pattern.piece(name).identity.part for name in pieces}
        part = parts.pop() if len(parts) == 1 else None
        faced = line is Place.NECK and any(edges_at(sewing.pattern.piece(name), Place.STAND_EDGE) for name in pieces)
        stage = _Stage.EDGES if faced else stages[line]  # bound over the upper end of the stand and its facing
        strips = binding_strips(sewing.pattern, line, refs)
        yield stage, SewingStep(Act.BIND, line, part, pieces, edges=tuple(refs), strips=strips)


def _hems(sewing: _Sewing) -> _Found:
    by_place: dict[Place | None, list[tuple[Piece, EdgeRef, float]]] = {}
    for piece in sewing.pattern.pieces:
        for edge in () if is_patch(piece) else piece.edges:
            if edge.role is Role.HEM:
                by_place.setdefault(edge.place, []).append((piece, EdgeRef(piece.name, edge.name), edge.allowance))
    if is_flared(sewing.pattern):
        yield _Stage.HEMS, SewingStep(Act.HANG, Place.HEM, BodyPart.SKIRT)
    for place, found in by_place.items():
        pieces = tuple(dict.fromkeys(piece.name for piece, _, _ in found))
        parts = {piece.identity.part for piece, _, _ in found}
        part = parts.pop() if len(parts) == 1 else None
        edges = tuple(ref for _, ref, _ in found)
        depth = max(depth for *_, depth in found)
        yield _Stage.HEMS, SewingStep(Act.HEM, place, part, pieces, edges=edges, depth=depth)


def _part(piece: Piece) -> BodyPart:
    return piece.identity.part or BodyPart.BODICE


_RULES: Final[tuple[Callable[[_Sewing], _Found], ...]] = (
    _prepare,
    _darts,
    _panels,
    _pockets,
    _shoulders,
    _collars,
    _facings,
    _bare,
    _sleeves,
    _sides,
    _waist,
    _openings,
    _lap,
    _band,
    lambda sewing: ((_Stage.TUCKS, step) for step in tuck_steps(sewing.pattern)),
    _hems,
)
"""What each finds does not hang on the others; within a stage their steps stand in this order."""
