"""When a lining is sewn: its pieces to each other, then all of it into the garment, and its hem."""

from __future__ import annotations

from drafting.pattern import EdgeRef, PieceKind, Role, pieces_of
from drafting.sewing.seam_kinds import SeamKind
from drafting.sewing.sewing_step import Act, SewingStep
from drafting.sewing.stages import Found, Sewing, Stage, centre_seams, left_over

__all__ = ["linings"]


def linings(sewing: Sewing) -> Found:
    """A lining made, sewn in and hemmed. Edges that no seam names are sewn to the tape of a zip or caught in a seam of
    the garment.
    """
    pattern = sewing.pattern
    pieces = pieces_of(pattern, PieceKind.LINING)
    if not pieces:
        return
    names = tuple(piece.name for piece in pieces)
    centres = tuple(ref for piece in pieces for ref in centre_seams(pattern, piece))
    made = sewing.step(Act.MAKE_LINING, sewing.seams(SeamKind.LINING), edges=centres, pieces=names)
    yield Stage.LINING, made
    loose = tuple(ref for piece in pieces for ref in left_over(pattern, piece) if ref not in centres)
    yield Stage.LINING, sewing.step(Act.LINE, sewing.seams(SeamKind.LINED), edges=loose, pieces=names)
    hems = [(piece, edge) for piece in pieces for edge in piece.edges if edge.role is Role.HEM]
    if hems:
        edges = tuple(EdgeRef(piece.name, edge.name) for piece, edge in hems)
        depth = max(edge.allowance for _, edge in hems)
        yield (
            Stage.HEMS,
            SewingStep(Act.HEM, pieces=tuple(dict.fromkeys(p.name for p, _ in hems)), edges=edges, depth=depth),
        )
