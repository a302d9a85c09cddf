"""When pockets are sewn."""

from __future__ import annotations

from drafting.pattern import BodyPart, EdgeRef, Place, Role
from drafting.pattern.pockets import is_patch
from drafting.sewing.seam_kinds import SeamKind, part_of
from drafting.sewing.sewing_step import Act, SewingStep
from drafting.sewing.stages import PANELS, Found, Sewing, Stage, part_covered

__all__ = ["pockets_sewn"]


def pockets_sewn(sewing: Sewing) -> Found:
    """Pockets: bags are sewn to the mouth in a seam before that is closed, patches go on while all lies flat."""
    seams = sewing.seams(SeamKind.POCKET)
    if seams:
        part = part_of(sewing.pattern, seams[0]) or BodyPart.BODICE
        yield PANELS.get(part, Stage.BODICE_PANELS), sewing.step(Act.JOIN, seams, place=Place.POCKET_MOUTH)
    for piece in filter(is_patch, sewing.pattern.pieces):
        edges = tuple(EdgeRef(piece.name, edge.name) for edge in piece.edges)
        depth = max(edge.allowance for edge in piece.edges if edge.role is Role.HEM)
        step = SewingStep(Act.PATCH, Place.POCKET_EDGE, piece.identity.part, (piece.name,), edges=edges, depth=depth)
        yield PANELS.get(part_covered(piece), Stage.BODICE_PANELS), step
