"""Bands of knit and elastic: does a band stretch to its edge, and elastic lie easily and let through what passes."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.pattern import Pattern, Piece, Place, Seam
from drafting.pattern.casings import ELASTIC_GIVES, ROOM, Casing, casings
from drafting.pattern.gathered import is_stretched_on
from drafting.pattern.neck_band import NECK_BAND, band_of_block
from drafting.pattern.stretch_used import USED_PUTTING_ON
from drafting.reading.units import percent

__all__ = ["look_at_stretched"]

_LEAST: Final = 0.85
"""The share of the body that elastic may be cut to at the least; a waist of 68 cm is cut 5 to 10 cm less, a neck a
tenth (common practice; the limit is ours)."""

_ROUNDING: Final = 0.01  # mm


def look_at_stretched(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every band of knit: by how much it is stretched where it is sewn, percent. Every elastic: how long it is beside
    the body, and how far it and its cloth open beside what has to pass, mm.
    """
    found = False
    block = band_of_block(pattern)
    own = {
        part: part.length_or("stretch", block.stretch if block and part.part == NECK_BAND else 0.0)
        for part in pattern.derived
        if "stretch" in dict(part.options)
    }
    for seam in pattern.seams:
        if is_stretched_on(pattern, seam):
            found = True
            band = next((part for part in own if seam.b[0].piece in part.pieces), None)
            stretch = max(pattern.stretch, own[band] if band else 0.0)
            if stretch <= 0.0:  # read from a drawing, which says nothing of the cloth: it cannot be judged
                continue
            pieces = [pattern.piece(name) for name in dict.fromkeys(ref.piece for ref in (*seam.a, *seam.b))]
            yield look(_band_reaches, seam, stretch, band.name if band else "", *pieces)
    for casing in casings(pattern):
        found = True
        yield look(_elastic, casing)
    if not found:
        yield look(_none)


def _none(check: Check) -> Iterator[Result]:
    yield check.result("there are no bands of knit and no elastic", Verdict.PASS)


def _band_reaches(check: Check, seam: Seam, stretch: float, band: str, *pieces: Piece) -> Iterator[Result]:
    """Measured is by how much a band has to stretch to reach along its edge, percent."""
    lengths = [
        sum(next(p for p in pieces if p.name == ref.piece).edge(ref.edge).length for ref in run)
        for run in (seam.a, seam.b)
    ]
    needs, most = lengths[0] / lengths[1] - 1.0, USED_PUTTING_ON * stretch
    yield check.result(
        f"{seam.name}: stretched by {percent(needs)}",
        Verdict.PASS if needs <= most + 1e-9 else Verdict.FAIL,
        measured=100.0 * needs,
        wanted=0.0,
        allowed=(None, 100.0 * most),
        unit="percent",
        remedy=f"Its knit stretches by {percent(stretch)}, and half of that is used.",
        remedies=tuple(
            Remedy("set in part", band, (Setting(option, hundredths / 100.0, "%"),), lead=lead)
            for option, hundredths, lead in (
                ("share", math.ceil(100.0 / (1.0 + most) - 1e-9), "To cut it longer"),
                ("stretch", math.ceil(100.0 * needs / USED_PUTTING_ON - 1e-9), "Of a knit that stretches further"),
            )
            if band
        ),
    )


def _elastic(check: Check, casing: Casing) -> Iterator[Result]:
    """Measured is a length of elastic, mm: against the body, against what passes through, against its casing."""
    body = casing.body
    if body.girth:
        least = _LEAST * body.girth
        yield check.result(
            f"{casing.name}, round the body",
            Verdict.PASS if casing.elastic >= least else Verdict.FAIL,
            measured=casing.elastic,
            wanted=body.girth,
            allowed=(least, None),
            remedy=f"It would press: the body is {body.girth:.1f} mm round there; cut it at least {least:.0f} mm long.",
        )
    if body.through:
        opens, cloth = casing.elastic * (1.0 + ELASTIC_GIVES), casing.opens
        room, by_elastic = min(opens, cloth), opens < cloth
        wanted = body.through if by_elastic else body.through + ROOM
        wider = Setting("hem", float(math.ceil((wanted - room) / (1.0 + casing.gives))), "mm")
        remedies = (
            (Remedy("add", "full sleeve", (wider,), lead="To make it so wide"),)
            if casing.place is Place.WRIST and not by_elastic
            else ()
        )
        short = "the elastic, pulled as far as it lasts," if by_elastic else "the cloth of the casing"
        yield check.result(
            f"{casing.name}, over the {body.passes}",
            Verdict.PASS if room >= wanted - _ROUNDING else Verdict.FAIL,
            measured=room,
            wanted=wanted,
            allowed=(wanted, None),
            remedy=(
                f"The {body.passes} may be {body.through:.1f} mm round, and {short} opens to {room:.1f} mm: "
                + (
                    "cut the elastic longer."
                    if by_elastic
                    else f"make the edge at least {wanted:.1f} mm round, so that it slides over."
                )
                + "".join(f" {each.sentence()}" for each in remedies)
            ),
            remedies=remedies,
        )
    if casing.elastic > casing.edge:
        yield check.result(
            f"{casing.name}, in its casing",
            Verdict.FAIL,
            measured=casing.elastic,
            wanted=casing.edge,
            allowed=(None, casing.edge),
            remedy=f"It is longer than its casing, {casing.edge:.1f} mm: nothing is drawn in. Make the edge wider.",
        )
