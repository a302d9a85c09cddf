"""Is every edge that is to be sewn sewn to something: named by a seam, or finished in a way of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from itertools import chain
from typing import Final

from drafting.checks.base import Check, Look, Result, Verdict, look
from drafting.pattern import Edge, Pattern, Piece, Role

__all__ = ["left_bare", "look_at_sewn"]

_NECK: Final = "neck"
"""The line that is bound or faced, and never sewn to a piece."""

_JOINED_WHERE_BOTH: Final[Mapping[str, frozenset[str]]] = {
    "waist": frozenset(("bodice", "skirt")),
    "armhole": frozenset(("bodice", "sleeve")),
}
"""The lines that are sewn where the garment has both blocks, and finished where it has one."""

_FREE: Final = ("free edge", "wrap at waist")
"""The inner edge of a facing, and what a wrapped half reaches beyond the waist it is sewn to."""

_WRAPPED: Final[Mapping[str, str]] = {"wrap at waist": "waist"}
"""The line of what reaches beyond it."""

_BEYOND: Final = "stand at "
"""Before the name of the line that a button stand carries on: where only one piece has a stand it is turned in."""

_FACING: Final = " facing"
"""How the name of a piece ends that lies behind another and is held with it; it is sewn where two of them meet."""

_CENTRE: Final = "centre "
"""How an edge begins along which a piece that is cut twice, once mirrored, is sewn to its own other half."""


def look_at_sewn(_check: Check, pattern: Pattern) -> Iterator[Look]:
    """Every piece; measured is how many of its edges are to be sewn and stand in no seam.

    An edge that is marked as a seam is to be sewn, unless it is finished without another piece: a neck, the free edge
    of a facing, a waist or an armhole where the garment has nothing that goes on there. One that two seams name fails,
    and so does a fold that the piece is not cut on, or a piece to be cut on a fold that has none. Of pieces without any
    seam, as a DXF holds them, nothing is known.
    """
    if not pattern.origin and not pattern.seams:
        return  # pieces alone, as a DXF holds them: nobody said what is sewn to what
    blocks = _blocks(pattern)
    named = Counter((ref.piece, ref.edge) for seam in pattern.seams for ref in chain(seam.a, seam.b))
    sewn = set(named)
    faced = frozenset(block for block in blocks for piece in pattern.pieces if _faces(piece, block))
    for piece in pattern.pieces:
        mine = frozenset(edge for name, edge in sewn if name == piece.name)
        if piece.name.endswith(_FACING):
            mine |= _held_in(pattern, piece)
        yield look(_sewn, piece, mine, faced if piece.name.endswith(_FACING) else blocks)
        yield look(
            _once, piece, tuple(edge for (name, edge), times in named.items() if name == piece.name and times > 1)
        )


def left_bare(pattern: Pattern) -> Iterator[tuple[Piece, Edge, str]]:
    """The edges that nothing of the pattern finishes though nothing is missing, each with its line in a word: "neck",
    "waist" or "armhole". They are left to be bound or faced.
    """
    blocks = _blocks(pattern)
    sewn = {(ref.piece, ref.edge) for seam in pattern.seams for ref in chain(seam.a, seam.b)}
    for piece in pattern.pieces:
        for edge in piece.edges:
            line = _WRAPPED.get(edge.name) or _line(edge)
            bare = edge.role is Role.SEAM and (piece.name, edge.name) not in sewn and not piece.name.endswith(_FACING)
            if bare and line in (_NECK, *_JOINED_WHERE_BOTH) and _finished(edge, piece, blocks):
                yield piece, edge, line


def _blocks(pattern: Pattern) -> frozenset[str]:
    """The blocks of the garment that could be sewn to another."""
    names = frozenset(chain.from_iterable(_JOINED_WHERE_BOTH.values()))
    return frozenset(block for block in names if any(piece.name.startswith(block) for piece in pattern.pieces))


def _sewn(check: Check, piece: Piece, sewn: Collection[str], blocks: frozenset[str]) -> Iterator[Result]:
    to_sew = [edge for edge in piece.edges if edge.role is Role.SEAM and not _finished(edge, piece, blocks)]
    bare = [edge.name for edge in to_sew if edge.name not in sewn]
    names = " and ".join(f'"{name}"' for name in bare)
    yield check.result(
        piece.name,
        Verdict.FAIL if bare else Verdict.PASS,
        measured=float(len(bare)),
        wanted=0.0,
        allowed=0.0,
        unit="places",
        remedy=f"No seam says what {names} {'is' if len(bare) == 1 else 'are'} sewn to: draft the garment anew.",
    )


def _once(check: Check, piece: Piece, twice: tuple[str, ...]) -> Iterator[Result]:
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


def _faces(piece: Piece, block: str) -> bool:
    """Whether a piece is a facing of this block that reaches a line where another block is sewn on."""
    if not (piece.name.startswith(block) and piece.name.endswith(_FACING)):
        return False
    return any(_line(edge) in _JOINED_WHERE_BOTH for edge in piece.edges if edge.role is Role.SEAM)


def _held_in(pattern: Pattern, facing: Piece) -> frozenset[str]:
    """The edges of a facing that are caught in a seam of the piece behind which it lies: where that piece is faced at
    two edges that meet, the one facing ends in the seam of the other.
    """
    behind, held = set[str](), set[tuple[str, str]]()
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any(ref.piece == facing.name for ref in run):
                behind |= {ref.piece for ref in other if not ref.piece.endswith(_FACING)}
            if all(ref.piece.endswith(_FACING) and ref.piece != facing.name for ref in run):
                held |= {(ref.piece, ref.edge) for ref in other}
    return frozenset(edge for piece, edge in held if piece in behind)


def _line(edge: Edge) -> str:
    """The line an edge is a part of: darts divide it into "waist at centre", "waist between darts"."""
    return edge.name.partition(" at ")[0].partition(" between ")[0]


def _finished(edge: Edge, piece: Piece, blocks: frozenset[str]) -> bool:
    """Whether an edge is finished without another piece."""
    if edge.name in _FREE or edge.name.startswith(_BEYOND) or (edge.name.startswith(_CENTRE) and piece.cut.mirror):
        return True
    line = _line(edge)
    return line == _NECK or not _JOINED_WHERE_BOTH.get(line, frozenset()) <= blocks
