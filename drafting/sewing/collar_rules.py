"""When a collar is made, and when it is sewn on."""

from __future__ import annotations

from drafting.pattern import Pattern, PieceKind, Place, Seam, edges_at
from drafting.sewing.seam_kinds import SeamKind, is_facing, pieces_in, refs_of
from drafting.sewing.sewing_step import Act
from drafting.sewing.stages import Found, Sewing, Stage
from drafting.sewing.strips import collar_strips

__all__ = ["collars", "covers_its_seam", "ends_under_facing"]


def collars(sewing: Sewing) -> Found:
    """A collar is made first, and caught between the neck and its facing; one that lies flat without a facing has a
    strip over its seam. Where it goes on over a button stand that is faced first.
    """
    making, on = sewing.seams(SeamKind.COLLAR), sewing.seams(SeamKind.COLLAR_ON)
    if making:
        yield Stage.COLLAR, sewing.step(Act.MAKE_COLLAR, making, place=Place.COLLAR_EDGE)
    if on:
        strips = () if covers_its_seam(sewing, on) else collar_strips(sewing.pattern, on)
        stage = Stage.COLLAR_OVER_STAND if _over_stand(sewing, on) else Stage.NECK
        if strips and ends_under_facing(sewing.pattern):
            stage = Stage.EDGES  # just before that
        yield stage, sewing.step(Act.COLLAR, on, place=Place.NECK, strips=strips)


def ends_under_facing(pattern: Pattern) -> bool:
    """Whether a collar ends at the centre front and the facing of a button stand goes on over its ends."""
    pieces = [piece for piece in pattern.pieces if is_facing(piece) and edges_at(piece, Place.STAND_EDGE)]
    collar = any(piece.identity.kind is PieceKind.COLLAR for piece in pattern.pieces)
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in refs_of(seam)}
    tops = ((p, e) for p in pattern.pieces if not is_facing(p) for e in p.edges if e.place is Place.STAND)
    at_neck = ((piece, edge) for piece, edge in tops if any(e.place is Place.NECK for e in piece.beside(edge.name)))
    loose = any((piece.name, edge.name) not in sewn for piece, edge in at_neck)
    return collar and loose and any(edges_at(piece, Place.NECK) for piece in pieces)


def covers_its_seam(sewing: Sewing, on: tuple[Seam, ...]) -> bool:
    """Whether an inner layer of the collar is turned in over the seam, as that of a stand is."""
    kinds = {sewing.pattern.piece(name).identity for name in pieces_in(on)}
    return any(each.kind is PieceKind.COLLAR and each.of is PieceKind.LINING for each in kinds)


def _over_stand(sewing: Sewing, on: tuple[Seam, ...]) -> bool:
    edges = (sewing.pattern.piece(ref.piece).edge(ref.edge) for seam in on for ref in refs_of(seam))
    return any(edge.place is Place.STAND for edge in edges)
