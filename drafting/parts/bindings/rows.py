"""The bias strips, as rows of the table of parts."""

from __future__ import annotations

from typing import Final

from drafting.parts.bindings.binding import draw_binding
from drafting.parts.collars.neck_line import COLLAR_TO
from drafting.parts.finishes.armhole_facing import ARMHOLE_FACING_TO
from drafting.parts.part import Part
from drafting.pattern import BodyPart, DrawnTo, Identity, PieceKind, Place, Site
from drafting.pattern.bias import BOUND, STYLES
from drafting.reading.options import Option

__all__ = ["BINDINGS"]

_OPTIONS: Final = (
    Option(
        "style",
        "choice",
        "folded over the edge in four; double, of two layers, for thin cloth; facing, turned wholly to the inside",
        default=BOUND,
        choices=STYLES,
    ),
    Option("width", "length", "how wide it is when it is finished", 5.0, 40.0, default=8.0),
    Option(
        "wrap",
        "length",
        "what the folds of the strip take up; left out, by how thick the cloth is",
        0.0,
        30.0,
        default=None,
    ),
)
_HEMMED: Final = (BodyPart.SKIRT, BodyPart.BODICE)
_HALVES: Final = (PieceKind.FRONT, PieceKind.BACK)


def _to(place: Place, *parts: BodyPart) -> tuple[DrawnTo, ...]:
    return tuple(DrawnTo(place, Identity(kind, part)) for part in parts for kind in _HALVES)


BINDINGS: Final = (
    Part(
        "neck binding",
        "A bias strip that binds the neck, or faces it, over every piece that it runs along.",
        COLLAR_TO,
        (Site(Place.NECK, BodyPart.BODICE),),
        _OPTIONS,
        draw_binding("neck binding", Place.NECK, BodyPart.BODICE),
        fills=("collar", "inside of the neck"),
    ),
    Part(
        "armhole binding",
        "Bias strips that bind the armholes of a garment without sleeves, or face them.",
        ARMHOLE_FACING_TO,
        (Site(Place.ARMHOLE, BodyPart.BODICE),),
        _OPTIONS,
        draw_binding("armhole binding", Place.ARMHOLE, BodyPart.BODICE),
        unless=(Site(Place.WRIST, BodyPart.SLEEVE),),
        fills=("inside of the armhole",),
    ),
    Part(
        "bib binding",
        "A bias strip that binds the bib of dungarees, or faces it, from the front round to the back.",
        _to(Place.BIB, BodyPart.TROUSERS),
        (Site(Place.BIB, BodyPart.TROUSERS),),
        _OPTIONS,
        draw_binding("bib binding", Place.BIB, BodyPart.TROUSERS),
        fills=("bib",),
    ),
    Part(
        "hem binding",
        "A bias strip that binds the hem of a skirt or of a top, or faces it; the hem ends at its line, not turned up.",
        _to(Place.HEM, *_HEMMED),
        tuple(Site(Place.HEM, part) for part in _HEMMED),
        _OPTIONS,
        draw_binding("hem binding", Place.HEM, *_HEMMED),
        fills=("hem",),
    ),
)
"""The bias strips."""
