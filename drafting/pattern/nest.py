"""The same pattern in several sizes, edge for edge: what sizes are blended in, graded by and printed from."""

from __future__ import annotations

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern, UnknownName
from drafting.geometry import Vec, shift
from drafting.pattern.pattern import Pattern
from drafting.pattern.piece import Piece, move_piece

__all__ = ["Nest", "Sized", "laid_together"]


@dataclass(frozen=True, slots=True)
class Sized:
    """One pattern of a nest and what its size is called."""

    size: str
    pattern: Pattern


@dataclass(frozen=True, slots=True)
class Nest:
    """One pattern in several sizes, smallest first.

    Every size has the same pieces, and every piece the same edges in the same roles and the same darts in them; so what
    is done to an edge of one size can be done to it in every other. Raises NotAPattern that names what differs, for
    fewer than two sizes and for two of one name.
    """

    title: str
    sizes: tuple[Sized, ...]

    def __post_init__(self) -> None:
        if len(self.sizes) < 2:
            raise NotAPattern(self.title, reason="a nest has two sizes or more")
        if len({each.size for each in self.sizes}) != len(self.sizes):
            raise NotAPattern(self.title, reason="two sizes have one name")
        first = self.sizes[0]
        for other in self.sizes[1:]:
            names = [[piece.name for piece in each.pattern.pieces] for each in (first, other)]
            if names[0] != names[1]:
                raise NotAPattern(self.title, reason=_differs("the pieces", first, other, *names))
            for one, two in zip(first.pattern.pieces, other.pattern.pieces, strict=True):
                _hold_alike(self.title, first, other, one, two)

    @property
    def piece_names(self) -> tuple[str, ...]:
        """The names of its pieces, in the order of the pattern."""
        return tuple(piece.name for piece in self.sizes[0].pattern.pieces)

    def pattern(self, size: str) -> Pattern:
        """The pattern in that size; UnknownName if it is not in the nest."""
        for each in self.sizes:
            if each.size == size:
                return each.pattern
        raise UnknownName("size", size, [each.size for each in self.sizes])

    def piece(self, name: str) -> tuple[Piece, ...]:
        """One piece in every size, smallest first; UnknownName if there is none of that name."""
        return tuple(each.pattern.piece(name) for each in self.sizes)


def laid_together(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """One piece in several sizes laid on the first: the grain lines in one line, what was drawn level still level.

    A nest is laid so for grading and printing (common practice: on the grain line, from one balance line).
    """
    first = pieces[0].grain
    if first is None:
        return pieces
    return tuple(
        move_piece(piece, shift(Vec(first.start.x - piece.grain.start.x, 0.0))) if piece.grain else piece
        for piece in pieces
    )


def _hold_alike(title: str, first: Sized, other: Sized, one: Piece, two: Piece) -> None:
    edges = [[f"{edge.name} ({edge.role})" for edge in piece.edges] for piece in (one, two)]
    if edges[0] != edges[1]:
        raise NotAPattern(title, reason=_differs(f'the edges of "{one.name}"', first, other, *edges))
    darts = [[f"{dart.name} ({', '.join(dart.legs)})" for dart in piece.darts] for piece in (one, two)]
    if darts[0] != darts[1]:
        raise NotAPattern(title, reason=_differs(f'the darts of "{one.name}"', first, other, *darts))


def _differs(what: str, first: Sized, other: Sized, has: list[str], there: list[str]) -> str:
    gone, new = [name for name in has if name not in there], [name for name in there if name not in has]
    parts = []
    if gone:
        parts.append(f"size {first.size} has {', '.join(gone)}")
    if new:
        parts.append(f"size {other.size} has {', '.join(new)}")
    return f"{what} differ: {'; '.join(parts) or 'they stand in another order'}"
