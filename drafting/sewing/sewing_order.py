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

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain
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
    pieces_of,
    walk,
)
from drafting.pattern.casings import casings
from drafting.pattern.cutting import pressed
from drafting.pattern.gathered import held_in
from drafting.pattern.notches import notch_numbers
from drafting.pattern.pleats import is_pleated
from drafting.pattern.pockets import is_patch
from drafting.pattern.unfinished import unfinished_edges
from drafting.sewing.attached_rules import attached
from drafting.sewing.binding_rules import bindings
from drafting.sewing.casing_rules import elastic_drawn_in
from drafting.sewing.collar_rules import collars
from drafting.sewing.cuff_rules import cuffs
from drafting.sewing.facing_rules import facing_ends, facings
from drafting.sewing.flared_skirt import is_flared
from drafting.sewing.inner_band_rules import inner_bands
from drafting.sewing.knit_rules import bands_stretched_on
from drafting.sewing.lap_rules import is_lapped, lapped_shoulders
from drafting.sewing.lining_rules import linings
from drafting.sewing.openings import openings
from drafting.sewing.pocket_rules import pockets_sewn
from drafting.sewing.seam_kinds import SeamKind, is_inside, kind_of, part_of, pieces_in
from drafting.sewing.sewing_step import Act, DartFold, SewingStep
from drafting.sewing.stages import DARTS, PANELS, SIDES, Found, Sewing, Stage, centre_seams, left_over, part_covered
from drafting.sewing.stays import edge_stays
from drafting.sewing.strap_rules import straps
from drafting.sewing.strips import binding_strips, opening_strips
from drafting.sewing.style_line_rules import is_in_one, is_raglan, is_saddled, joined_along, raglans
from drafting.sewing.trousers_rules import crotch_goes_through, fly_sewn, trousers_sewn
from drafting.sewing.tucks import tuck_steps

__all__ = ["FLAT_SLEEVE", "sewing_order"]

FLAT_SLEEVE: Final = 15.0
"""mm of ease in a whole cap up to which a sleeve is sewn in flat, as in a shirt (ours, after common practice)."""


def sewing_order(pattern: Pattern, *, knit: bool = False) -> tuple[SewingStep, ...]:
    """Every step of sewing a pattern, in order; none for pieces that no seam joins.

    knit: whether it is cut from a knit, whose shoulders are taped
    """
    if not pattern.seams:
        return ()
    numbers = notch_numbers(pattern.seams)
    sewing = Sewing(
        pattern,
        knit,
        {seam.name: kind_of(pattern, seam) for seam in pattern.seams},
        {seam.name: tuple(numbers[one] for one, _ in seam.notches) for seam in pattern.seams},
        tuple(held_in(pattern)),
    )
    found = [each for rule in _RULES for each in rule(sewing)]
    return tuple(step for _, step in sorted(found, key=lambda each: each[0]))


def _prepare(sewing: Sewing) -> Found:
    fused = tuple(piece.name for piece in sewing.pattern.pieces if piece.cut.interfacing)
    if fused:
        yield Stage.PREPARE, SewingStep(Act.FUSE, pieces=fused)
    stays = edge_stays(sewing.pattern)
    if stays:
        pieces = tuple(dict.fromkeys(ref.piece for stay in stays for ref in stay.edges))
        yield Stage.PREPARE, SewingStep(Act.STAY, pieces=pieces, stays=stays)


def _darts(sewing: Sewing) -> Found:
    for piece in sewing.pattern.pieces:
        if piece.darts:
            folds = tuple(DartFold(piece.name, dart.name, pressed(piece, dart)) for dart in piece.darts)
            stage = Stage.BODICE_DARTS if is_raglan(piece) else DARTS.get(part_covered(piece), Stage.BODICE_DARTS)
            if piece.identity.kind is PieceKind.LINING:
                stage = Stage.LINING
            yield stage, SewingStep(Act.DARTS, part=piece.identity.part, pieces=(piece.name,), darts=folds)


def _pleats(sewing: Sewing) -> Found:
    """Pleats are folded, pressed and held along the waist while the cloth lies flat; those below a yoke when the seams
    they go over and the hem are sewn; then the yoke in one go, and last the seam that opens in it.
    """
    below = tuple(_pleated_below_yokes(sewing))
    pleated = [piece for piece in sewing.pattern.pieces if is_pleated(piece) and not is_inside(piece)]
    for part in dict.fromkeys(map(part_covered, pleated)):
        names = tuple(piece.name for piece in pleated if part_covered(piece) is part)
        stage = _AFTER_PANELS.get(part, Stage.BODICE_SIDES)
        hems = [(name, edge) for name in names if name in below for edge in sewing.pattern.piece(name).edges]
        turned = [(name, edge) for name, edge in hems if edge.role is Role.HEM]
        depth = max((edge.allowance for _, edge in turned), default=0.0)
        refs = tuple(EdgeRef(name, edge.name) for name, edge in turned)
        yield stage, SewingStep(Act.PLEATS, part=part, pieces=names, edges=refs, depth=depth)
        held = [seam for seam in _yokes_on_pleats(sewing) if part_of(sewing.pattern, seam) is part]
        if held:
            yield stage, sewing.step(Act.JOIN, held, place=Place.YOKE)
        for _, step in _centres(sewing, [piece for piece in pleated if piece.name in names]):
            if _waits_for_yoke(sewing, below, step):
                yield stage, step


def _yokes_on_pleats(sewing: Sewing) -> list[Seam]:
    """The seams of yokes that hold the pleats of a skirt."""
    pattern = sewing.pattern
    yokes = [seam for seam in sewing.seams(SeamKind.PANEL) if joined_along(sewing, seam) is Place.YOKE]
    return [seam for seam in yokes if any(is_pleated(pattern.piece(name)) for name in pieces_in([seam]))]


def _pleated_below_yokes(sewing: Sewing) -> Iterator[str]:
    """The pieces whose pleats a yoke holds: they are sewn to each other and folded before it is sewn on."""
    yield from (name for name in pieces_in(_yokes_on_pleats(sewing)) if is_pleated(sewing.pattern.piece(name)))


def _waits_for_yoke(sewing: Sewing, below: Sequence[str], step: SewingStep) -> bool:
    """Whether a centre seam of a pleated piece is the one that opens above: it is sewn when the yoke is on."""
    (name,) = step.pieces
    edges = sewing.pattern.piece(name).edges if name in below else ()
    return any(edge.role is Role.OPENING and edge.place is step.place for edge in edges)


def _panels(sewing: Sewing) -> Found:
    """Panels, and the centre seam of a piece that is cut twice: of a tier before it is gathered onto the one above."""
    tiers = [piece for piece in sewing.pattern.pieces if edges_at(piece, Place.TIER)]
    yield from _centres(sewing, tiers)
    held, below = _yokes_on_pleats(sewing), tuple(_pleated_below_yokes(sewing))
    yield from _joined(sewing, [seam for seam in sewing.seams(SeamKind.PANEL) if seam not in held])
    for stage, step in _centres(sewing, [piece for piece in sewing.pattern.pieces if piece not in tiers]):
        if not _waits_for_yoke(sewing, below, step):
            yield stage, step


_SET_IN: Final = {Place.GUSSET: Stage.BODICE_PANELS, Place.GODET: Stage.GODETS}


def _joined(sewing: Sewing, seams: Iterable[Seam]) -> Found:
    """Each by itself; the four sides of the gussets in one step, and all godets, when the seams above them are sewn."""
    panels = tuple(seams)
    set_in = {place: [seam for seam in panels if joined_along(sewing, seam) is place] for place in _SET_IN}
    for place, found in set_in.items():
        if found:
            yield _SET_IN[place], sewing.step(Act.JOIN, found, place=place)
    for seam in (each for each in panels if each not in chain(*set_in.values())):
        part = part_of(sewing.pattern, seam) or BodyPart.BODICE
        yield PANELS.get(part, Stage.BODICE_PANELS), sewing.step(Act.JOIN, [seam], place=joined_along(sewing, seam))


def _centres(sewing: Sewing, pieces: Sequence[Piece]) -> Found:
    for piece in pieces:
        through = is_inside(piece) or crotch_goes_through(sewing, piece)
        edges = () if through else tuple(centre_seams(sewing.pattern, piece))
        if edges:  # what goes on through the crotch is sewn in one go
            place = min((piece.edge(ref.edge).place for ref in edges), key=MIDDLE_SEAMS.index)
            step = SewingStep(Act.JOIN, place, piece.identity.part, (piece.name,), edges=edges)
            early = PANELS.get(part_covered(piece), Stage.BODICE_PANELS)
            late = _opens_above(sewing.pattern, piece, place) and not edges_at(piece, Place.TIER)
            yield Stage.ZIP if late else early, step


def _opens_above(pattern: Pattern, piece: Piece, place: Place | None) -> bool:
    """Whether an opening ends where this centre seam begins: the other part of the body is open there all the way, so
    the seam is closed after the waist, which is flat till then.
    """
    shells = [each for each in pattern.pieces if not is_inside(each)]
    roles = {each.name: {edge.role for edge in each.edges if edge.place is place} for each in shells}
    open_all_the_way = any(Role.OPENING in found and Role.SEAM not in found for found in roles.values())
    return open_all_the_way and Role.OPENING not in roles[piece.name]


def _shoulders(sewing: Sewing) -> Found:
    seams = sewing.seams(SeamKind.SHOULDER)
    if seams:
        yield Stage.SHOULDERS, sewing.step(Act.JOIN, seams, place=Place.SHOULDER)


def _sleeves(sewing: Sewing) -> Found:
    armholes, underarms = sewing.seams(SeamKind.ARMHOLE), sewing.seams(SeamKind.UNDERARM)
    if armholes:
        flat = _sewn_flat(sewing, armholes)
        stage = Stage.FLAT_SLEEVES if flat else Stage.SLEEVES
        if not flat and underarms:
            yield Stage.SLEEVES, sewing.step(Act.JOIN, underarms, place=Place.UNDERARM)
        yield stage, sewing.step(Act.SET_IN, armholes, place=Place.ARMHOLE, in_the_round=not flat)
    elif underarms and not sewing.seams(SeamKind.RAGLAN) and not is_in_one(sewing):
        yield Stage.SLEEVES, sewing.step(Act.JOIN, underarms, place=Place.UNDERARM)


def _sewn_flat(sewing: Sewing, armholes: Iterable[Seam]) -> bool:
    """Whether sleeves go in while the sides are open: those that hang from the shoulder already, or have hardly any
    ease.
    """
    if any(is_saddled(sewing.pattern.piece(name)) for name in pieces_in(armholes)):
        return True
    ease = sum(max(0.0, (walked := walk(sewing.pattern, seam)).a - walked.b) for seam in armholes)
    return ease <= FLAT_SLEEVE


def _sides(sewing: Sewing) -> Found:
    """Side seams; with a sleeve that is already sewn in flat, its underarm seam in one with them."""
    armholes = sewing.seams(SeamKind.ARMHOLE)
    flat = _sewn_flat(sewing, armholes) if armholes else bool(sewing.seams(SeamKind.RAGLAN)) or is_in_one(sewing)
    underarms = sewing.seams(SeamKind.UNDERARM) if flat else ()
    by_part: dict[BodyPart, list[Seam]] = {}
    for seam in sewing.seams(SeamKind.SIDE):
        by_part.setdefault(part_of(sewing.pattern, seam) or BodyPart.BODICE, []).append(seam)
    if underarms:
        by_part.setdefault(BodyPart.BODICE, [])
    below = set(_pleated_below_yokes(sewing))
    for part, seams in by_part.items():
        with_sleeve = underarms if part is BodyPart.BODICE else ()
        step = sewing.step(Act.JOIN, (*with_sleeve, *seams), place=Place.SIDE, part=part)
        yield SIDES.get(part, Stage.BODICE_SIDES), replace(step, apart=not below.isdisjoint(step.pieces))


def _waist(sewing: Sewing) -> Found:
    seams = sewing.seams(SeamKind.WAIST)
    if seams:
        yield Stage.WAIST, sewing.step(Act.JOIN, seams, place=Place.WAIST)


def _band(sewing: Sewing) -> Found:
    seams = sewing.seams(SeamKind.BAND)
    if not seams:
        return
    bands = dict.fromkeys(ref.piece for seam in seams for ref in seam.b)
    edges = tuple(ref for band in bands for ref in left_over(sewing.pattern, sewing.pattern.piece(band)))
    yield Stage.BAND, sewing.step(Act.BAND, seams, place=Place.WAIST, edges=edges)


def _openings(sewing: Sewing) -> Found:
    """The step that closes each opening, a zip, a fly, buttons or snaps, and the stage at which it is sewn."""
    for opening in openings(sewing.pattern):
        act = Act.SNAPS if opening.fastening.snaps else Act.BUTTONS if opening.fastening.buttons else Act.ZIP
        last = Stage.ZIP if act is Act.ZIP else Stage.BUTTONS
        stage = Stage.SHOULDERS if opening.place is Place.SHOULDER else last
        fly = sewing.seams(SeamKind.FLY) if opening.place is Place.CENTRE_FRONT else ()
        if fly:
            yield Stage.ZIP, fly_sewn(sewing, fly, opening.fastening)
            continue
        pieces = tuple(dict.fromkeys(ref.piece for ref in (*opening.edges, *opening.marked)))
        edges = (*opening.edges, *facing_ends(sewing.pattern, {opening.place})) if act is Act.ZIP else opening.edges
        strips = opening_strips(sewing.pattern, opening.place, opening.edges)
        step = SewingStep(act, opening.place, opening.part, pieces, edges=edges, fastening=opening.fastening)
        yield stage, replace(step, strips=strips)


def _lap(sewing: Sewing) -> Found:
    wrapped = [p for p in sewing.pattern.pieces if not is_inside(p) and edges_at(p, Place.WRAP_EDGE)]
    if wrapped:
        bands = [piece for piece in sewing.pattern.pieces if piece.identity.kind is PieceKind.BAND]
        names = tuple(piece.name for piece in (*wrapped, *bands))
        yield Stage.BUTTONS, SewingStep(Act.LAP, Place.WRAP, wrapped[0].identity.part, names)


def _bare(sewing: Sewing) -> Found:
    """Edges that nothing of the pattern finishes."""
    stages = {Place.NECK: Stage.NECK, Place.WAIST: Stage.BAND, Place.ARMHOLE: Stage.ARMHOLES, Place.BIB: Stage.ARMHOLES}
    found: dict[Place, list[EdgeRef]] = {}
    for piece, edge, line in unfinished_edges(sewing.pattern):
        found.setdefault(line, []).append(EdgeRef(piece.name, edge.name))
    for line, refs in found.items():
        if line is Place.NECK and is_lapped(sewing.pattern):
            continue  # it is bound together with the laps
        pieces = tuple(dict.fromkeys(ref.piece for ref in refs))
        parts = {sewing.pattern.piece(name).identity.part for name in pieces}
        part = parts.pop() if len(parts) == 1 else None
        faced = line is Place.NECK and any(edges_at(sewing.pattern.piece(name), Place.STAND_EDGE) for name in pieces)
        stage = Stage.EDGES if faced else stages[line]  # bound over the upper end of the stand and its facing
        if line is Place.WAIST and _lining_ends_at(sewing, line):
            stage = Stage.OVER_LINING  # one binding takes in both
        strips = binding_strips(sewing.pattern, line, refs)
        yield stage, SewingStep(Act.BIND, line, part, pieces, edges=tuple(refs), strips=strips)


def _hung(sewing: Sewing) -> Found:
    """A flared skirt hangs and is cut level before its hem is turned up, faced or bound."""
    if is_flared(sewing.pattern):
        yield Stage.HEMS, SewingStep(Act.HANG, Place.HEM, BodyPart.SKIRT)


def _lining_ends_at(sewing: Sewing, line: Place) -> bool:
    return any(edges_at(piece, line) for piece in pieces_of(sewing.pattern, PieceKind.LINING))


def _hems(sewing: Sewing) -> Found:
    """One step for all hems at one place, except those that are cased or were sewn below a yoke."""
    by_place: dict[Place | None, list[tuple[Piece, EdgeRef, float]]] = {}
    done = {ref for casing in casings(sewing.pattern) for ref in casing.edges}
    for name in _pleated_below_yokes(sewing):  # hemmed before its pleats are folded
        done.update(EdgeRef(name, edge.name) for edge in sewing.pattern.piece(name).edges)
    for piece in sewing.pattern.pieces:
        for edge in () if is_patch(piece) or piece.identity.kind is PieceKind.LINING else piece.edges:
            if edge.role is Role.HEM and EdgeRef(piece.name, edge.name) not in done:
                by_place.setdefault(edge.place, []).append((piece, EdgeRef(piece.name, edge.name), edge.allowance))
    for place, found in by_place.items():
        pieces = tuple(dict.fromkeys(piece.name for piece, _, _ in found))
        parts = {piece.identity.part for piece, _, _ in found}
        part = parts.pop() if len(parts) == 1 else None
        edges = tuple(ref for _, ref, _ in found)
        depth = max(depth for *_, depth in found)
        yield Stage.HEMS, SewingStep(Act.HEM, place, part, pieces, edges=edges, depth=depth)


_AFTER_PANELS: Final = {BodyPart.SKIRT: Stage.SKIRT_SIDES}
"""Where pleats are folded: panels and sides are joined by then, so that one over a seam can be laid."""

_RULES: Final[tuple[Callable[[Sewing], Found], ...]] = (
    _prepare,
    _hung,
    _darts,
    _panels,
    pockets_sewn,
    _shoulders,
    raglans,
    collars,
    facings,
    cuffs,
    bands_stretched_on,
    bindings,
    elastic_drawn_in,
    _bare,
    _sleeves,
    _sides,
    _pleats,
    trousers_sewn,
    _waist,
    _openings,
    lapped_shoulders,
    straps,
    attached,
    _lap,
    _band,
    inner_bands,
    linings,
    lambda sewing: ((Stage.TUCKS, step) for step in tuck_steps(sewing.pattern)),
    _hems,
)
"""What each finds does not hang on the others; within a stage their steps stand in this order."""
