"""The facing of a neck, front and back, drawn to the neck as it is now.

5 to 7 cm deep, its free edge parallel to the neck, on the grain of its piece, joined at the shoulders and open where
the garment is (common practice). Where a dart or a panel seam comes within its depth it is traced with that closed. The
parallels of the two necks reach the shoulder a little apart; both are led to the place between, so that the shoulder
seams of the facing are of one length. Where a front or a back has a button stand, the facing goes on along that.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.parts.drawn import Drawn
from drafting.parts.finishes.edge_facing import FACING_NAME, strips_along_stands
from drafting.parts.finishes.facing_in_one import LINING, NECK_FACING, STAND_FACING, stand_facing_beside, stand_facings
from drafting.parts.finishes.facing_strip import FACING, draw_strip
from drafting.parts.finishes.laid_strip import laid_round
from drafting.parts.finishes.neck_over_sleeve import laid_to_shoulder, shoulder_seam, sleeve_at_neck
from drafting.parts.finishes.strip_seams import ALL_OF_IT, LEAST_REST, Strip, end_length, strip_seams
from drafting.pattern import (
    Derived,
    DrawnTo,
    Edge,
    Half,
    Notch,
    NotchMark,
    Pattern,
    Piece,
    Place,
    Role,
    Station,
    free_name,
    free_piece_name,
    pieces_drawn_to,
    seam_allowance,
    with_pieces,
)

__all__ = ["centre_marks", "draw_neck_facing", "neck_strips"]

_NARROWER: Final = 1.0  # mm by which a facing whose depth was left out is tried narrower beside a dart
_LEAST_LEFT_OUT: Final = 50.0  # mm: a facing is 5 to 7 cm deep (common practice)


def draw_neck_facing(pattern: Pattern, derived: Derived) -> Drawn:
    """The front and back neck facing; depth: how deep, mm. Raises NotAPattern where no neck is, or one is too small."""
    pattern, marks, strips = neck_strips(pattern, derived, lined=any(p.part == LINING for p in pattern.derived))
    if any(edge.role is Role.DART_LEG for strip in strips for edge in strip.piece.edges):
        raise NotAPattern(NECK_FACING, reason="it would reach over the yoke to a dart below: make it less deep")
    mine = {strip.piece.name for strip in strips}
    seams = strip_seams(pattern, [*strips, *strips_along_stands(pattern)])
    own = tuple(seam for seam in seams if any(ref.piece in mine for ref in (*seam.a, *seam.b)))
    own = (*shoulder_seam(pattern, strips), *own)
    return Drawn(tuple(strip.piece for strip in strips), own, marks)


def neck_strips(
    pattern: Pattern, derived: Derived, *, lined: bool
) -> tuple[Pattern, tuple[tuple[str, Notch], ...], list[Strip]]:
    """The pattern as the facing is drawn to it, the notches that it puts on that, and the facings of front and back.

    lined: whether a lining is sewn to them; a facing whose depth was left out then leaves that room beside a dart
    """
    # what was drawn for these parts last is redrawn, under the same names
    asked = [Derived(each.part, each.to, each.options) for each in (derived, *stand_facings(pattern))]
    others = [each for each in pattern.derived if each.part != STAND_FACING]
    pattern = replace(pattern, derived=(*others, *asked))
    marks = tuple(centre_marks(pattern, derived))
    for name, notch in marks:  # the facing has the notches of what it faces
        marked = pattern.piece(name)
        pattern = with_pieces(pattern, replace(marked, notches=(*marked.notches, notch)))
    necks = [(source, piece) for source in derived.to if (piece := next(pieces_drawn_to(pattern, source), None))]
    if not necks:
        raise NotAPattern(NECK_FACING, reason="there is no bodice with a neck")
    depth = derived.length_or("depth", FACING)
    strips = [_strip(pattern, source, piece, depth) for source, piece in necks]
    # one that goes on over a sleeve takes no lining
    if lined and dict(derived.options).get("depth") is None and sleeve_at_neck(pattern) is None:
        while depth > _LEAST_LEFT_OUT and not all(_leaves_room(pattern, strip) for strip in strips):
            depth -= _NARROWER
            strips = [_strip(pattern, source, piece, depth) for source, piece in necks]
    long = [end_length(strip, Place.SHOULDER) for strip in strips]
    if len(strips) == len(derived.to) and all(long):
        shared = sum(long) / len(long)
        strips = [
            _strip(pattern, source, piece, depth, _at_shoulder(strip, shared))
            for (source, piece), strip in zip(necks, strips, strict=True)
        ]
    return pattern, marks, strips


def _leaves_room(pattern: Pattern, strip: Strip) -> bool:
    """Whether enough is left between the facing and a dart beside it for a lining to be sewn there."""
    for ref, name in strip.edges:
        piece = pattern.piece(ref.piece)
        rest = piece.edge(ref.edge).length - strip.piece.edge(name).length
        beside_dart = any(edge.role is Role.DART_LEG for edge in piece.beside(ref.edge))
        if beside_dart and ALL_OF_IT < rest < LEAST_REST:
            return False
    return True


def centre_marks(pattern: Pattern, derived: Derived) -> Iterator[tuple[str, Notch]]:
    """A notch at the centre of each neck that is whole there or goes on along a stand."""
    for piece in (piece for source in derived.to for piece in pieces_drawn_to(pattern, source)):
        taken = {notch.name for notch in piece.notches}
        name = free_name(f"centre {piece.identity.half or Half.FRONT} of the neck", taken)
        for before, edge in zip((piece.edges[-1], *piece.edges), piece.edges, strict=False):
            if _pointed(piece, before, edge):
                continue  # the point itself shows it
            if edge.place is Place.NECK and _at_centre(before):
                yield piece.name, Notch(name, Station(edge.name, 0.0, "start"), marks=NotchMark.CENTRE)
            elif before.place is Place.NECK and _at_centre(edge):
                yield piece.name, Notch(name, Station(before.name, 0.0, "end"), marks=NotchMark.CENTRE)


def _pointed(piece: Piece, one: Edge, other: Edge) -> bool:
    """Whether two edges meet at a point that is meant, as those of a V neck and its fold do."""
    return any({*pair} == {one.name, other.name} for pair in piece.points_meant)


def _at_centre(edge: Edge) -> bool:
    return edge.role is Role.FOLD or edge.place is Place.STAND


def _strip(
    pattern: Pattern,
    source: DrawnTo,
    piece: Piece,
    depth: float,
    ends: tuple[float | None, float | None] = (None, None),
) -> Strip:
    """The facing of the neck of one piece, `depth` mm wide, in one with that of a button stand beside it.

    ends: how wide it is where it begins and ends, mm, where that differs from the depth
    """
    depths = {Place.NECK: depth, Place.STAND: depth}
    name = f"{piece.identity.half or Half.FRONT} {NECK_FACING}"
    free = seam_allowance(piece) if any(each.part == LINING for each in pattern.derived) else 0.0
    stand = stand_facing_beside(pattern, source)
    if stand is not None:
        name, depths[Place.STAND_EDGE] = f"{stand[0]} {FACING_NAME}", stand[1]
    laid = laid_round(pattern, piece, depths)
    if sleeve_at_neck(pattern):
        laid = laid_to_shoulder(pattern, laid, depths, seam_allowance(piece))
    return draw_strip(pattern, piece, depths, name=free_piece_name(pattern, name), ends=ends, free=free, laid=laid)


def _at_shoulder(strip: Strip, long: float) -> tuple[float | None, float | None]:
    """The lengths to ask for at the ends of a strip: this one at its shoulder."""
    after = strip.piece.edges[len(strip.faced)]
    return (None, long) if after.place is Place.SHOULDER else (long, None)
