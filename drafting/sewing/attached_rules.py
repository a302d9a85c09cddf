"""When ties, loops and tabs are made and set on: before the seam that catches them, or last of all."""

from __future__ import annotations

from typing import Final

from drafting.pattern import Landmark, Piece, PieceKind, Place, points_at
from drafting.sewing.sewing_step import Act, Fastening, SewingStep
from drafting.sewing.stages import Found, Sewing, Stage, left_over
from drafting.sewing.stays import times_cut

__all__ = ["attached"]

_KINDS: Final = (PieceKind.TIE, PieceKind.LOOP, PieceKind.TAB)
_TAB_BUTTON: Final = 12.0  # mm across the button of a sleeve tab (common practice)


def attached(sewing: Sewing) -> Found:
    """A step for each of them."""
    for part in sewing.pattern.derived:
        pieces = [sewing.pattern.piece(name) for name in part.pieces]
        if not pieces or pieces[0].identity.kind not in _KINDS:
            continue
        on = tuple(dict.fromkeys(ref.piece for ref in part.lines))
        edges = tuple(ref for piece in pieces for ref in left_over(sewing.pattern, piece))
        fastening = _fastening(pieces[0], part.options)
        bodies = {sewing.pattern.piece(name).identity.part for name in on}
        first = pieces[0].identity.kind is PieceKind.TAB or (bool(on) and not _at_waist(pieces[0]))
        yield (
            Stage.PREPARE if first else Stage.BUTTONS,
            SewingStep(
                Act.ATTACH,
                _place(pieces[0]),
                bodies.pop() if len(bodies) == 1 else None,
                (*part.pieces, *on),
                edges=edges,
                fastening=fastening,
            ),
        )


def _at_waist(piece: Piece) -> bool:
    """Whether it is a loop for a belt, which is sewn over the finished waist; one for a button is cut on the bias."""
    along = piece.grain.end - piece.grain.start if piece.grain else None
    return piece.identity.kind is PieceKind.LOOP and along is not None and along.y == 0.0


def _place(piece: Piece) -> Place | None:
    if piece.identity.kind is PieceKind.TAB:
        return None
    return Place.NECK if piece.identity.kind is PieceKind.LOOP and not _at_waist(piece) else Place.WAIST


def _fastening(piece: Piece, options: tuple[tuple[str, object], ...]) -> Fastening | None:
    """The buttons that it takes; None for none."""
    given = dict(options)
    holes = points_at(piece, Landmark.BUTTON)
    if holes:
        return Fastening(0.0, True, times_cut(piece) // 2 * len(holes), _TAB_BUTTON)
    button, count = given.get("button"), given.get("count")
    if isinstance(button, float | int) and isinstance(count, float | int):
        return Fastening(0.0, True, round(count), float(button))
    return None
