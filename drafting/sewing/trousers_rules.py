"""How trousers are sewn: each leg a tube, then one leg put into the other and the seam through the crotch in one go."""

from __future__ import annotations

from collections.abc import Iterable

from drafting.pattern import EdgeRef, Piece, PieceKind, Place, Seam, edges_at, is_front
from drafting.sewing.seam_kinds import SeamKind, is_facing, pieces_in
from drafting.sewing.sewing_step import Act, Fastening, SewingStep
from drafting.sewing.stages import Found, Sewing, Stage, centre_seams, left_over

__all__ = ["crotch_goes_through", "fly_sewn", "trousers_sewn"]


def trousers_sewn(sewing: Sewing) -> Found:
    """The inside legs, and the crotch from the waist in front to the waist behind, or from where an opening ends."""
    inseams = sewing.seams(SeamKind.INSEAM)
    if inseams:
        yield Stage.SKIRT_SIDES, sewing.step(Act.JOIN, inseams, place=Place.INSEAM)
    halves = [piece for piece in sewing.pattern.pieces if _has_crotch(sewing, piece)]
    edges = [ref for piece in halves for ref in _through(sewing, piece)]
    if edges:
        names = tuple(dict.fromkeys((*(piece.name for piece in halves), *(ref.piece for ref in edges))))
        yield Stage.CROTCH, SewingStep(Act.JOIN, Place.CROTCH, halves[0].identity.part, names, edges=tuple(edges))


def _through(sewing: Sewing, piece: Piece) -> list[EdgeRef]:
    """The edges of a half along its crotch, and of a band or yoke above it: the front's from the waist down, the back's
    from the fork up.
    """
    edges = sorted(centre_seams(sewing.pattern, piece), key=lambda ref: piece.edge(ref.edge).place is Place.CROTCH)
    above = (sewing.pattern.piece(name) for name in _joined_above(sewing, piece))
    down = [*(ref for band in above for ref in centre_seams(sewing.pattern, band)), *edges]
    return down if is_front(piece) else down[::-1]


def _joined_above(sewing: Sewing, piece: Piece) -> list[str]:
    """The bands and yokes that are sewn to a half while it lies flat."""
    seams = [seam for seam in sewing.seams(SeamKind.PANEL) if piece.name in pieces_in([seam])]
    return [name for name in pieces_in(seams) if name != piece.name]


def _has_crotch(sewing: Sewing, piece: Piece) -> bool:
    """Whether a piece has a crotch that is sewn in one with that of the other half: its inseam is sewn."""
    sewn = {ref.piece for seam in sewing.seams(SeamKind.INSEAM) for ref in (*seam.a, *seam.b)}
    return piece.name in sewn and not is_facing(piece) and bool(edges_at(piece, Place.CROTCH))


def crotch_goes_through(sewing: Sewing, piece: Piece) -> bool:
    """Whether the centre of a piece is sewn in one go with the crotch: of a half, and of what is sewn on above it."""
    return _has_crotch(sewing, piece) or any(
        _has_crotch(sewing, sewing.pattern.piece(name)) for name in _joined_above(sewing, piece)
    )


def fly_sewn(sewing: Sewing, seams: Iterable[Seam], fastening: Fastening) -> SewingStep:
    """The step that sews a fly: its facing and its shield with the zip."""
    flies = [piece for piece in sewing.pattern.pieces if piece.identity.kind is PieceKind.FLY]
    edges = tuple(ref for piece in flies for ref in left_over(sewing.pattern, piece))
    return sewing.step(Act.FLY, seams, place=Place.CENTRE_FRONT, edges=edges, fastening=fastening)
