"""When pockets are sewn."""

from __future__ import annotations

from drafting.pattern import BodyPart, EdgeRef, Place, Role, seam_places
from drafting.pattern.pockets import is_patch, marked_for_pockets
from drafting.sewing.seam_kinds import SeamKind, part_of
from drafting.sewing.sewing_step import Act, SewingStep
from drafting.sewing.stages import DARTS, PANELS, Found, Sewing, Stage, part_covered

__all__ = ["pockets_sewn"]


def pockets_sewn(sewing: Sewing) -> Found:
    """Pockets: bags are sewn to the mouth in a seam before that is closed, patches go on while all lies flat;
    slanted ones come first, as the waist and the side run over them.
    """
    seams = sewing.seams(SeamKind.POCKET)
    if seams:
        part = part_of(sewing.pattern, seams[0]) or BodyPart.BODICE
        yield PANELS.get(part, Stage.BODICE_PANELS), sewing.step(Act.JOIN, seams, place=Place.POCKET_MOUTH)
    slanted = sewing.seams(SeamKind.SLANTED_POCKET)
    mouths = [seam for seam in slanted if Place.POCKET_MOUTH in seam_places(sewing.pattern, seam)[0]]
    for joined in (mouths, [seam for seam in slanted if seam not in mouths]) if slanted else ():
        part = part_of(sewing.pattern, slanted[0]) or BodyPart.BODICE
        yield DARTS.get(part, Stage.BODICE_DARTS), sewing.step(Act.JOIN, joined, place=Place.POCKET_TOP)
    for piece in filter(is_patch, sewing.pattern.pieces):
        edges = tuple(EdgeRef(piece.name, edge.name) for edge in piece.edges)
        depth = max(edge.allowance for edge in piece.edges if edge.role is Role.HEM)
        step = SewingStep(Act.PATCH, Place.POCKET_EDGE, piece.identity.part, (piece.name,), edges=edges, depth=depth)
        # one across a centre line waits for the seam there, which trousers have last
        across = piece.cut.fold and not any(on.cut.fold for on in marked_for_pockets(sewing.pattern, piece))
        yield Stage.EDGES if across else PANELS.get(part_covered(piece), Stage.BODICE_PANELS), step
