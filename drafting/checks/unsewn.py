"""Is every edge that is to be sewn sewn to something: named by a seam, or finished in a way of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator
from dataclasses import replace
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.pattern import BodyPart, EdgeRef, Identity, Pattern, Piece, PieceKind, Role
from drafting.pattern.unfinished import JOINED_WHERE_BOTH, is_facing, needs_no_seam, parts_covered

__all__ = ["look_at_unsewn_edges"]

_LAYERS: Final = (PieceKind.COLLAR, PieceKind.LINING, PieceKind.FLY)
"""What is caught between other layers: a neck is sewn to a collar, to its under collar and to a facing in one pass.
The facing of a fly is sewn to the right front only, its shield to the left."""


def look_at_unsewn_edges(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every piece; measured is how many of its edges are to be sewn and stand in no seam.

    An edge that is marked as a seam is to be sewn, unless it is finished without another piece: a neck, the free edge
    of a facing, a waist or an armhole where the garment has nothing that goes on there. One that two seams name fails,
    and so does a fold that the piece is not cut on, or a piece to be cut on a fold that has none. Of pieces without any
    seam, as a DXF holds them, nothing is known.
    """
    if not pattern.origin and not pattern.seams:
        return  # pieces alone, as a DXF holds them: nobody said what is sewn to what
    parts = parts_covered(pattern)
    named = _times_sewn(pattern)
    sewn = {(piece, edge) for piece, edge, _ in named}
    faced = frozenset(part for part in parts for piece in pattern.pieces if _faces_joined_line(piece, part))
    for piece in pattern.pieces:
        mine = frozenset(edge for name, edge in sewn if name == piece.name)
        if is_facing(piece):
            mine |= _edges_caught(pattern, piece)
        yield look(_unsewn_edges, piece, mine, faced if is_facing(piece) else parts)
        yield look(
            _contradictions,
            piece,
            tuple(edge for (name, edge, _), times in named.items() if name == piece.name and times > 1),
        )


def _times_sewn(pattern: Pattern) -> Counter[tuple[str, str, Identity | None]]:
    """How often each edge is sewn, to each layer that is caught between others and to everything else.

    A piece of which the left and the right are cut alike is sewn to one that is cut once, as a waistband, with both:
    the seams of its left and of its right are one.
    """
    whole = {piece.name for piece in pattern.pieces if piece.cut.count == 1 and not piece.cut.fold}
    halves = {piece.name for piece in pattern.pieces} - whole
    identity = {piece.name: piece.identity for piece in pattern.pieces}
    named: Counter[tuple[str, str, Identity | None]] = Counter()
    met: set[tuple[EdgeRef, ...]] = set()
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if all(ref.piece in halves for ref in run) and all(ref.piece in whole for ref in other):
                if tuple(replace(ref, backward=not ref.backward) for ref in reversed(run)) in met:
                    continue
                met.add(run)
            layer = identity[other[0].piece]
            named.update((ref.piece, ref.edge, layer if layer.kind in _LAYERS else None) for ref in run)
    return named


def _unsewn_edges(check: Check, piece: Piece, sewn: Collection[str], parts: frozenset[BodyPart]) -> Iterator[Result]:
    to_sew = [edge for edge in piece.edges if edge.role is Role.SEAM and not needs_no_seam(edge, piece, parts)]
    bare = [edge.name for edge in to_sew if edge.name not in sewn]
    names = " and ".join(f'"{name}"' for name in bare)
    yield check.result(
        piece.name,
        Verdict.FAIL if bare else Verdict.PASS,
        measured=float(len(bare)),
        wanted=0.0,
        allowed=0.0,
        unit="places",
        remedy=f"No seam says what {names} {'is' if len(bare) == 1 else 'are'} sewn to: draft the garment again.",
    )


def _contradictions(check: Check, piece: Piece, twice: tuple[str, ...]) -> Iterator[Result]:
    """What is said twice over, or in one place only; nothing where all is well."""
    for edge in twice:
        remedy = "Two seams say what it is sewn to: it can be sewn once only; leave one of them out."
        yield check.result(f"{piece.name} {edge}", Verdict.FAIL, remedy=remedy)
    folds = [edge.name for edge in piece.edges if edge.role is Role.FOLD]
    if bool(folds) is not piece.cut.fold:
        remedy = (
            f"Its {folds[0]} is a fold, and the piece is not said to be cut on one."
            if folds
            else "It is said to be cut on the fold of the cloth, and no edge of it is a fold."
        )
        yield check.result(f"{piece.name}: fold", Verdict.FAIL, remedy=remedy)


def _faces_joined_line(piece: Piece, part: BodyPart) -> bool:
    """Whether a piece is a facing on this part of the body that reaches a line where another part is sewn on."""
    if not is_facing(piece) or piece.identity.part is not part:
        return False
    return any(edge.place in JOINED_WHERE_BOTH for edge in piece.edges if edge.role is Role.SEAM)


def _edges_caught(pattern: Pattern, facing: Piece) -> frozenset[str]:
    """The edges of a facing that are caught in a seam of the piece behind which it lies: where that piece is faced at
    two edges that meet, the one facing ends in the seam of the other.
    """
    facings = {piece.name for piece in pattern.pieces if is_facing(piece)}
    behind, held = set[str](), set[tuple[str, str]]()
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any(ref.piece == facing.name for ref in run):
                behind |= {ref.piece for ref in other} - facings
            if all(ref.piece in facings and ref.piece != facing.name for ref in run):
                held |= {(ref.piece, ref.edge) for ref in other}
    return frozenset(edge for piece, edge in held if piece in behind)
