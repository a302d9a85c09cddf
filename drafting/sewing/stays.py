"""What is kept from stretching, and how long the tape for it is cut.

A neck is curved and lies partly across the grain: a row of stitches in the allowance keeps it as it was cut. An edge
that runs straight across the grain, as that of a V neck or a slanting wrap, is taped, the tape cut 5 mm shorter than
the edge, so that it lies close. A waist seam is taped to its own length, and in a knit the shoulders are too, which
carry the weight (all common practice; "as long as the pattern's seam" for the shoulder is that of several teachers).
The waist of a knit has to give when it is put on: it gets clear elastic, as long as the seam, and its neck no stitches.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from drafting.geometry import distance
from drafting.pattern import BodyPart, Edge, EdgeRef, Pattern, Piece, PieceKind, Place, Role, Seam, edges_at, walk
from drafting.pattern.neck_band import neck_band
from drafting.pattern.unfinished import has_inner_layer
from drafting.sewing.seam_kinds import SeamKind, is_facing, is_inside, kind_of
from drafting.sewing.sewing_step import Stay, StayKind

__all__ = ["edge_stays", "seam_stays", "times_cut"]

_SHORTER: Final = 5.0
"""mm by which the tape for a straight edge across the grain is cut shorter (common practice: 5 to 10)."""

_STRAIGHT: Final = 0.985
"""How long the chord of an edge is at least, as a share of the edge, where it counts as straight (ours)."""

_OFF_GRAIN: Final = math.radians(12.0)
"""From the grain and from the line across it: so far off, a straight edge stretches (ours)."""


def edge_stays(pattern: Pattern) -> tuple[Stay, ...]:
    """What is stayed on the cut pieces before anything is sewn: necks, and slanting wraps."""
    stays = [stay for piece in pattern.pieces if not is_inside(piece) for stay in _on_piece(piece)]
    stays += _round_waists(pattern)
    # a neck of a knit has to give over the head, as has one that a band is stretched to; a faced one is held
    gives = neck_band(pattern) is not None or (pattern.stretch > 0.0 and not any(map(is_facing, pattern.pieces)))
    return tuple(stay for stay in stays if stay.place is not Place.NECK or not gives)


def _on_piece(piece: Piece) -> Iterator[Stay]:
    if piece.identity.kind in (PieceKind.POCKET, PieceKind.COLLAR):  # a collar is held by what is fused to it
        return
    for place in (Place.NECK, Place.WRAP_EDGE, Place.POCKET_MOUTH):
        edges = edges_at(piece, place)
        slanting = bool(edges) and all(_slants(piece, edge) for edge in edges)
        if not edges or (place is not Place.NECK and not slanting):
            continue
        length = sum(edge.length for edge in edges)
        kind = StayKind.TAPE if slanting else StayKind.STITCHES
        refs = tuple(EdgeRef(piece.name, edge.name) for edge in edges)
        yield Stay(kind, place, refs, length, length - _SHORTER if slanting else 0.0, times_cut(piece))


def _round_waists(pattern: Pattern) -> Iterator[Stay]:
    """The waists of a skirt that hangs from no bodice and runs round in a curve, as that of a circle does: part of it
    lies across the grain, and stretches until it is finished. In a knit that opens nowhere it has to: it is pulled on.
    """
    if pattern.stretch > 0.0 and not any(edge.role is Role.OPENING for piece in pattern.pieces for edge in piece.edges):
        return
    joined = {ref for seam in pattern.seams if kind_of(pattern, seam) is SeamKind.WAIST for ref in (*seam.a, *seam.b)}
    taken = {(ref.piece, ref.edge) for ref in joined}
    for piece in pattern.pieces:
        edges = edges_at(piece, Place.WAIST)
        curved = all(distance(edge.start, edge.end) < _STRAIGHT * edge.length for edge in edges)
        free = not any((piece.name, edge.name) in taken for edge in edges)
        if piece.identity.part is BodyPart.SKIRT and not is_inside(piece) and edges and curved and free:
            refs = tuple(EdgeRef(piece.name, edge.name) for edge in edges)
            long = sum(edge.length for edge in edges)
            yield Stay(StayKind.STITCHES, Place.WAIST, refs, long, long, times_cut(piece))


def seam_stays(pattern: Pattern, seams: Sequence[Seam], *, knit: bool) -> tuple[Stay, ...]:
    """What is stayed as these seams are sewn: a waist to which a skirt is sewn, and in a knit the shoulders."""
    found = []
    for kind, place in ((SeamKind.WAIST, Place.WAIST), (SeamKind.SHOULDER, Place.SHOULDER)):
        stayed = [seam for seam in seams if kind_of(pattern, seam) is kind] if knit or place is Place.WAIST else []
        lengths = [(_times(pattern, seam), min(walk(pattern, seam).sewn)) for seam in stayed]
        refs = tuple(ref for seam in stayed for ref in seam.b)
        if stayed and place is Place.WAIST:  # one tape round the whole waist
            length = sum(times * length for times, length in lengths)
            tape = StayKind.ELASTIC if pattern.stretch else StayKind.TAPE
            found.append(Stay(tape, place, refs, length, length, 1))
        elif stayed:
            found += [Stay(StayKind.TAPE, place, refs, length, length, times) for times, length in lengths]
    return tuple(found)


def _times(pattern: Pattern, seam: Seam) -> int:
    """How often a seam is sewn: once to the left and once to the right, mostly."""
    return max(times_cut(pattern.piece(ref.piece)) for ref in seam.b)


def times_cut(piece: Piece) -> int:
    """How often an edge of a piece is in the garment: a piece on the fold has each edge that is drawn twice, a band
    with an inner layer has it once for both.
    """
    count = piece.cut.count // 2 if has_inner_layer(piece) else piece.cut.count
    return 2 * count if piece.cut.fold else count


def _slants(piece: Piece, edge: Edge) -> bool:
    """Whether an edge runs straight, and neither with the grain nor square to it."""
    chord = edge.end - edge.start
    if edge.role is Role.FOLD or piece.grain is None or distance(edge.start, edge.end) < _STRAIGHT * edge.length:
        return False
    off = abs(chord.angle_to(piece.grain.end - piece.grain.start)) % (math.pi / 2)
    return _OFF_GRAIN < off < math.pi / 2 - _OFF_GRAIN
