"""Whether there is a cloth wide enough for every piece: what is wider than any has to get a seam before it is cut."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.errors import Remedy, Setting
from drafting.pattern import CENTRES, Pattern, Piece, PieceKind, Role
from drafting.pattern.cloth_room import SELVEDGES, across_cloth, widest_room

__all__ = ["look_at_cloth"]


def look_at_cloth(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every piece cut of shell or lining: how wide it lies across its grain, mm. A band too long is cut in strips."""
    for piece in pattern.pieces:
        if (piece.cut.count or piece.cut.lining) and piece.identity.kind not in (PieceKind.BAND, PieceKind.BINDING):
            yield look(_piece, piece, pattern.cloth_width)


def _piece(check: Check, piece: Piece, cloth_width: float) -> Iterator[Result]:
    """Measured is how wide a piece lies across the cloth, mm, against the widest cloth there is."""
    room = widest_room(cloth_width)
    wide = across_cloth(piece, room)
    remedies, lead = [], "Sew a seam down it where it is least seen, or take less fullness."
    centre = next((edge.place for edge in piece.edges if edge.role is Role.FOLD and edge.place in CENTRES), None)
    if piece.cut.fold and centre is not None:
        values = (Setting("at", str(centre)), Setting("fasten", "closed"), Setting("only", piece.name))
        remedies = [Remedy("add", "opening", values, lead="To have a seam at its centre")]
        lead = "Take less fullness, or cut it in two."
    yield check.result(
        f"{piece.name}, across the cloth",
        Verdict.PASS if wide <= room else Verdict.FAIL,
        measured=wide,
        wanted=0.0,
        allowed=(None, room),
        remedy=f"It is {wide:.0f} mm wide, and the widest cloth that can be had {room + SELVEDGES:.0f} mm. {lead}",
        remedies=remedies,
    )
