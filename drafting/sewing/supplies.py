"""What has to be bought beside cloth: fastenings, tape, thread, as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from enum import StrEnum
from typing import Final

from drafting.dataclass import dataclass
from drafting.geometry import distance, lerp, run_bounds
from drafting.pattern import Pattern, PieceKind, Place, dart_mouth, edges_at, walk
from drafting.pattern.casings import casings
from drafting.pattern.cutting import cutting_line
from drafting.pattern.neck_band import neck_band
from drafting.pattern.unfinished import has_inner_layer
from drafting.sewing.sewing_step import Act, SewingStep, StayKind
from drafting.sewing.stays import times_cut
from drafting.sewing.strips import BINDING_ENDS

__all__ = ["ELASTIC_JOIN", "Supply", "SupplyKind", "supplies"]

_THREAD: Final = 11.0
"""m of thread to a metre of seam: about 3 for the seam itself, and 4 to neaten each of its two edges with a zigzag
(from memory; a garment that is lined needs less)."""

_TAPE_ENDS: Final = 20.0
"""mm of tape beyond each length that is cut: to hold it by and trim it (ours)."""

ELASTIC_JOIN: Final = 20.0
"""mm of elastic beyond what lies round the body, whose ends lap (common practice: 1.5 to 2 cm)."""

_HOOK_BELOW: Final = 40.0
"""mm: a band as high as this is closed by one hook or button, a higher one by two (ours)."""


_CUFF_BUTTON: Final = 12.0
_TWO_BUTTONS: Final = 80.0
"""mm: across the button of a cuff, and how deep one is that has two (common practice)."""


class SupplyKind(StrEnum):
    """What is bought."""

    ZIP = "zip"
    SEPARATING_ZIP = "separating zip"
    BUTTONS = "buttons"
    SNAPS = "snaps"
    HOOK = "hook and eye"
    TIE = "button, snap or tie"
    TAPE = "stay tape"
    ELASTIC = "clear elastic"
    CASED_ELASTIC = "elastic"
    BINDING = "bias binding"
    STRIPS = "strips of the cloth"
    STRIP_INTERFACING = "interfacing for strips"
    NEEDLES = "needles for knits"
    THREAD = "thread"


@dataclass(frozen=True, slots=True)
class Supply:
    """One thing to buy.

    places: where on the garment it goes; empty where that is everywhere
    pieces: the names of the pieces that are cut of it
    count:  how many
    length: how long it is as it is used, each of them where they are counted, mm; 0.0 where that says nothing
    spare:  what joins and ends take beyond that, mm
    size:   a diameter, or the width of a strip, mm; 0.0 where that says nothing
    stretch: how far a knit has to stretch that is bought beside the cloth; 0.0 where that says nothing
    """

    kind: SupplyKind
    places: tuple[Place, ...] = ()
    pieces: tuple[str, ...] = ()
    count: int = 1
    length: float = 0.0
    spare: float = 0.0
    size: float = 0.0
    stretch: float = 0.0


def supplies(pattern: Pattern, steps: Sequence[SewingStep]) -> tuple[Supply, ...]:
    """What the steps of sewing a pattern use up, in the order of a shopping list."""
    return (
        *_fastenings(pattern, steps),
        *_cuff_buttons(pattern),
        *_along_edges(pattern, steps),
        *_thread(pattern, steps),
    )


def _fastenings(pattern: Pattern, steps: Sequence[SewingStep]) -> Iterator[Supply]:
    """Zips, buttons, snaps and hooks to buy, as the steps of sewing use them, lengths in mm."""
    for step in steps:
        if step.act in _WITH_BUTTONS:
            yield from _buttons_of_small_pieces(step)
            continue
        if step.act is Act.LAP:
            yield Supply(SupplyKind.TIE, (Place.WAIST,), count=2)
        if step.fastening is None or step.place is None:
            continue
        if step.act is Act.SNAPS:
            yield Supply(SupplyKind.SNAPS, (step.place,), count=step.fastening.snaps, size=step.fastening.size)
        elif step.act is Act.BUTTONS:
            yield Supply(SupplyKind.BUTTONS, (step.place,), count=step.fastening.buttons, size=step.fastening.size)
        else:
            kind = SupplyKind.SEPARATING_ZIP if step.fastening.separating else SupplyKind.ZIP
            yield Supply(kind, (step.place,), length=step.fastening.length)
        if step.fastening.hooks:
            yield Supply(SupplyKind.HOOK, (Place.NECK,), count=step.fastening.hooks)
        if step.act in (Act.ZIP, Act.FLY) and any(_closed_at_waist(pattern, name) for name in step.pieces):
            yield Supply(SupplyKind.HOOK, (Place.WAIST,))
    laps = any(step.act is Act.LAP for step in steps)
    for piece in pattern.pieces:
        if edges_at(piece, Place.WAIST) and piece.identity.kind is PieceKind.BAND and not laps:
            high = min((edge.length for edge in piece.edges if edge.place is Place.BAND_END), default=0.0)
            yield Supply(SupplyKind.HOOK, (Place.WAIST,), (piece.name,), count=1 if high <= 2 * _HOOK_BELOW else 2)


_WITH_BUTTONS: Final = (Act.STRAPS, Act.ATTACH)


def _buttons_of_small_pieces(step: SewingStep) -> Iterator[Supply]:
    """The buttons of straps, tabs and loops."""
    if step.fastening is not None:
        places = (Place.BIB,) if step.act is Act.STRAPS else (step.place,) if step.place else ()
        pieces = () if places else step.pieces[:1]
        yield Supply(SupplyKind.BUTTONS, places, pieces, step.fastening.buttons, size=step.fastening.size)


def _closed_at_waist(pattern: Pattern, name: str) -> bool:
    """Whether a shaped band ends at the waist, above the zip, with no bodice over it."""
    piece = pattern.piece(name)
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in (*seam.a, *seam.b)}
    return has_inner_layer(piece) and any((name, edge.name) not in sewn for edge in edges_at(piece, Place.WAIST))


def _cuff_buttons(pattern: Pattern) -> Iterator[Supply]:
    """The buttons of cuffs: one each, two where it is deep; as large as the overlap less 1 cm (common practice)."""
    for piece in pattern.pieces:
        if piece.identity.kind is PieceKind.CUFF:
            deep = 0.5 * min(edge.length for edge in piece.edges if edge.place is Place.BAND_END)
            size = min(_CUFF_BUTTON, 0.5 * deep)
            count = piece.cut.count * (2 if deep > _TWO_BUTTONS else 1)
            yield Supply(SupplyKind.BUTTONS, (Place.WRIST,), (piece.name,), count=count, size=size)


def _along_edges(pattern: Pattern, steps: Sequence[SewingStep]) -> Iterator[Supply]:
    """Tape, elastic, strips and binding to buy, with their lengths along the edges, mm."""
    for stay_kind, kind in ((StayKind.TAPE, SupplyKind.TAPE), (StayKind.ELASTIC, SupplyKind.ELASTIC)):
        taped = [stay for step in steps for stay in step.stays if stay.kind is stay_kind]
        if not taped:
            continue
        places = tuple(dict.fromkeys(stay.place for stay in taped))
        used = sum(stay.times * stay.cut for stay in taped)
        yield Supply(kind, places, length=used, spare=_TAPE_ENDS * sum(stay.times for stay in taped))
    for casing in casings(pattern):
        spare = ELASTIC_JOIN * casing.count
        yield Supply(SupplyKind.CASED_ELASTIC, (casing.place,), (), casing.count, casing.elastic, spare, casing.width)
    yield from _other_knit(pattern, steps)
    for step in steps:
        places = (step.place,) if step.place else ()
        for strip in step.strips:
            cut = Supply(SupplyKind.STRIPS, places, count=strip.count, length=strip.length, size=strip.width)
            yield replace(cut, stretch=strip.stretch)
            if strip.interfaced:
                yield replace(cut, kind=SupplyKind.STRIP_INTERFACING)
        if step.act in (Act.BIND, Act.LAP_SHOULDERS) and not step.strips and not step.seams:
            yield Supply(SupplyKind.BINDING, places, length=_length(pattern, step), spare=BINDING_ENDS)


def _other_knit(pattern: Pattern, steps: Sequence[SewingStep]) -> Iterator[Supply]:
    """The knit for a neck band that has to stretch further than the cloth: as large as the band is cut."""
    band = neck_band(pattern)
    if band is None or band.stretch <= pattern.stretch:
        return
    for step in steps:
        if step.act is Act.STRETCH_ON and step.place is Place.NECK:
            left, low, right, high = run_bounds(cutting_line(pattern.piece(step.pieces[0])))
            sides = sorted((right - left, high - low))
            yield Supply(
                SupplyKind.STRIPS, (Place.NECK,), step.pieces[:1], 1, sides[1], size=sides[0], stretch=band.stretch
            )


def _length(pattern: Pattern, step: SewingStep) -> float:
    """How long the edges are that a step deals with by themselves, in the whole garment, mm."""
    return sum(
        times_cut(pattern.piece(ref.piece)) * pattern.piece(ref.piece).edge(ref.edge).length for ref in step.edges
    )


def _thread(pattern: Pattern, steps: Sequence[SewingStep]) -> Iterator[Supply]:
    sewn = sum(_length(pattern, step) for step in steps if step.act not in (Act.ZIP, Act.BUTTONS, Act.SNAPS))
    for name in (name for step in steps for name in step.seams):
        seam = pattern.seam(name)
        sewn += max(walk(pattern, seam).sewn) * max(times_cut(pattern.piece(ref.piece)) for ref in seam.a)
    for piece in pattern.pieces:
        for dart in piece.darts:
            sewn += times_cut(piece) * distance(lerp(*dart_mouth(piece, dart), 0.5), dart.apex)
    if pattern.stretch:
        yield Supply(SupplyKind.NEEDLES)
    yield Supply(SupplyKind.THREAD, length=_THREAD * sewn)
