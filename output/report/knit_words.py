"""How a band of knit is sewn to a neck, a wrist or a hem, and elastic drawn into a casing, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Final

from drafting.pattern import EdgeRef, NotchRef, Piece, PieceKind, Place, Role, Seam, edges_at, walk
from drafting.pattern.casings import TURNED_IN, casings
from drafting.pattern.gathered import meeting_places
from drafting.pattern.neck_band import neck_band
from drafting.pattern.notches import notch_numbers
from drafting.reading.units import percent
from drafting.sewing import ELASTIC_JOIN
from output.report.step_text import StepText, StepWords, capital

__all__ = ["band_buttons_words", "casing_words", "stretch_on_words"]

_SAME_SHARE = 0.005  # of the band, by which stretches may differ and be told in one line
_ALIKE = 0.5  # mm by which two stretches may differ and be told as one


_QUARTERS: Final = (
    "Mark the quarters: on the band and on the edge the notches show them. They are the centre front, the centre back "
    "and half way between, not the shoulder seams."
)
_AT_WRIST: Final = "The seam of the band goes on the underarm seam, its notch on the notch of the sleeve."


def stretch_on_words(text: StepText) -> StepWords:
    """A band of knit: its ends joined, its quarters on those of the edge, stretched by so much in between."""
    band = text.step.pieces[0]
    piece = text.pattern.piece(band)
    slanting = any(len(edge.curves) > 1 for edge in edges_at(piece, Place.BAND_END))
    opens = _opens(text)
    if opens:
        joined = _RAW_ENDS if _goes_under_another(text) else _TURNED_ENDS
        marks = "The notches on the band and on the edge show how far each stretch of it reaches."
    elif slanting:
        joined = "Sew its ends together along their slanting lines, as far as the fold, so that it makes a point."
        marks = _QUARTERS
    else:
        joined = "Sew its ends together to a ring and press the seam open."
        marks = _QUARTERS if text.step.place is not Place.WRIST else _AT_WRIST
    it = "each of them" if piece.cut.count > 1 else "it"
    return StepWords(
        f"Sew the {band} on",
        (
            joined,
            f"Fold {it} lengthwise, wrong side in, and press.",
            marks,
            f"Lay the band on the {text.place}, right sides together, the raw edges level, mark on mark, and sew "
            f"{text.allowance()} with a stitch that gives and a needle for knits, the band uppermost. Stretch the "
            "band, and only the band, to the edge below it.",
            *_stretched(text),
            *_over_another(text, piece),
            "Press the band away from the garment and the edges into the garment; a line of stitches beside the seam, "
            "or with a twin needle, holds them down.",
            *_beyond(text),
        ),
    )


_TURNED_ENDS: Final = "Fold each end right side in, sew across it on its line, trim the corner and turn: it ends there."
_RAW_ENDS: Final = "Leave its two ends raw and flat: the front band is sewn over them later and takes them in."


def _goes_under_another(text: StepText) -> bool:
    """Whether another band is sewn to the front over the ends of this one."""
    fronts = (seam for seam in text.pattern.seams if any(_is_front_edge(text, ref) for ref in seam.a))
    bands = {ref.piece for seam in fronts for ref in seam.b if text.kind(ref.piece) is PieceKind.BAND}
    return text.step.place is Place.HEM and bool(bands.difference(text.step.pieces))


def _is_front_edge(text: StepText, ref: EdgeRef) -> bool:
    return text.pattern.piece(ref.piece).edge(ref.edge).place is Place.CENTRE_FRONT


def _over_another(text: StepText, band: Piece) -> Iterator[str]:
    """What of a band goes on beyond the garment, over the end of another."""
    sewn = {ref.edge for name in text.step.seams for ref in text.pattern.seam(name).b}
    over = [edge for edge in band.edges if edge.start.y == edge.end.y == 0.0 and edge.name not in sewn]
    if over:
        yield f"Its ends, {text.long(over[0].length)} each, go on over the ends of the hem band: sew both layers in."


def _opens(text: StepText) -> bool:
    """Whether the garment opens where the band is sewn on, so that its two ends stay apart."""
    refs = [ref for name in text.step.seams for ref in text.pattern.seam(name).a]
    pieces = [(text.pattern.piece(ref.piece), ref.edge) for ref in refs]
    edges = (each for piece, edge in pieces for each in (piece.edge(edge), *piece.beside(edge)))
    return any(edge.role is Role.OPENING for edge in edges)


def _stretched(text: StepText) -> Iterator[str]:
    """By how much it is stretched, from mark to mark."""
    told: dict[str, None] = {}
    shares: list[float] = []
    lengths = 0.0
    numbers = notch_numbers(text.pattern.seams)
    for name in text.step.seams:
        seam = text.pattern.seam(name)
        for one, other in pairwise(meeting_places(walk(text.pattern, seam))):
            edge, band = other.a - one.a, other.b - one.b
            if edge <= 1.0 or band <= 1.0:
                continue
            whole = not one.mark_a and not other.mark_a
            ends = (_mark(seam, mark, numbers) for mark in (one.mark_a, other.mark_a))
            where = "" if whole else f", from {' to '.join(ends)}"
            how = (
                f"{text.long(band)} of band to {text.long(edge)} of edge, by {percent(edge / band - 1.0)}"
                if edge - band > _ALIKE
                else f"{text.long(band)} of band to as much edge, without stretching it"
            )
            shares.append(edge / band - 1.0)
            lengths += band
            told.setdefault(f"{capital(_side_left_out(name))}{where}: {how}.")
    if text.step.place is Place.NECK and not _opens(text) and max(shares) - min(shares) <= _SAME_SHARE:
        edge = lengths * (1.0 + shares[0])
        yield (
            f"From quarter to quarter {text.long(lengths / 4.0)} of band go to {text.long(edge / 4.0)} of edge, "
            f"stretched by {percent(shares[0])}, all round alike."
        )
        return
    yield from told


def _mark(seam: Seam, mark: str, numbers: Mapping[NotchRef, int]) -> str:
    return next((f"notch {numbers[one]}" for one, _ in seam.notches if one.notch == mark), "the end")


def _side_left_out(name: str) -> str:
    return name.rpartition(" to ")[2]


def _beyond(text: StepText) -> Iterator[str]:
    band = neck_band(text.pattern) if text.step.place is Place.NECK else None
    if band is not None and band.stretch > text.pattern.stretch:
        yield f"Cut it from a knit that stretches by {percent(band.stretch)} or more: rib."


_ENDS: Final = {Place.WRIST: "end of the sleeves", Place.LEG_OPENING: "legs"}


def casing_words(text: StepText) -> StepWords:
    """A casing turned in, and its elastic: how long it is cut, and how it is tried on."""
    casing = next(each for each in casings(text.pattern) if each.place is text.step.place)
    once = casing.count == 1
    opens = casing.place is Place.LEG_OPENING and any(
        edge.role is Role.OPENING
        for ref in casing.edges
        for edge in edges_at(text.pattern.piece(ref.piece), Place.INSEAM)
    )
    frill = (
        (
            f"Sew a second row {text.long(casing.heading)} from the fold: what stands beyond it is the frill, and the "
            "elastic runs between the two rows.",
        )
        if casing.heading
        else ()
    )
    return StepWords(
        f"Elastic at the {casing.body.where or _ENDS.get(casing.place, text.place)}",
        (
            *_turned_in(text),
            f"Sew {_along(text)}, from inseam to inseam: its ends stay open."
            if opens
            else f"Sew {_along(text)}, all round but for a gap of two fingers at a seam.",
            *frill,
            f"Cut {'one piece' if once else f'{casing.count} pieces'} of elastic {text.long(casing.width)} wide, "
            f"{'' if once else 'each '}{text.long(casing.elastic + ELASTIC_JOIN)} long, {text.long(ELASTIC_JOIN)} of "
            f"that for {'its ends' if opens else 'the join'}.",
            *(_DRAWN_FLAT if opens else _DRAWN_ROUND),
        ),
    )


def _turned_in(text: StepText) -> Iterator[str]:
    """How the cloth of a casing is turned in: twice, and once in a knit, which does not fray and is thick."""
    depth = text.step.depth
    if text.pattern.stretch:
        yield f"Turn in {text.long(depth)} on the line marked “casing” and press: once, as a knit does not fray."
        return
    yield (
        f"Turn {text.long(TURNED_IN)} of the raw edge to the wrong side and press; then turn in "
        f"{text.long(depth - TURNED_IN)} on the line marked “casing” and press."
    )


def _along(text: StepText) -> str:
    """Where a casing is sewn down."""
    if text.pattern.stretch:
        return f"{text.long(text.step.depth - TURNED_IN)} from the fold, with a stitch that gives"
    return "close to the inner fold"


_DRAWN_ROUND: Final = (
    "Draw it through with a safety pin, without twisting it. Pin its ends together and try it on: two fingers "
    "pass beneath it, and after ten minutes there is no red line.",
    "Lap the ends, sew them together with a small square of stitches, close the gap, and spread the fullness "
    "evenly. A few stitches across the elastic at a seam keep it from rolling.",
)
_DRAWN_FLAT: Final = (
    "Draw it through with a safety pin from the front inseam to the back one, without twisting it, and sew each end "
    "down across the casing, in the allowance of the inseam: the strips for the snaps are sewn over it.",
    "Close the inseam with pins and try it on: two fingers pass beneath it, and after ten minutes there is no red "
    "line.",
)
"""Common practice; a leg that opens at its inseam has no ring of elastic."""


def band_buttons_words(text: StepText) -> StepWords:
    """Buttons and buttonholes on the band of a cardigan."""
    fastening = text.step.fastening
    count, size = (fastening.buttons, fastening.size) if fastening else (0, 0.0)
    return StepWords(
        "Buttons and buttonholes",
        (
            f"Sew {count} buttonholes in the right half of the band, at the marks, for {text.long(size)} buttons: "
            "across the band, the way its knit stretches least, over a scrap of interfacing. Try one on a scrap first.",
            "Lay the right band on the left, edge on edge, mark through the holes and sew the buttons on.",
        ),
    )
