"""The values of a lay: how the cloth lies on the table, what is cut from it, and where each piece lies.

On the table x runs along the grain (the length she buys) and y across it. Folded lengthwise, the fold is y = 0 and the
selvedges lie together on the far side; folded double, both selvedges lie in the middle and y = 0 is one of two folds;
else y = 0 is one selvedge. Millimetres.
"""

from __future__ import annotations

from typing import Final, Literal, get_args

from drafting.dataclass import dataclass
from drafting.geometry import Move, Point
from drafting.pattern.remembering import Remembering

__all__ = ["FOLDS", "LAP", "SEWN_JOIN", "Fold", "Lay", "LayPiece", "Placement", "Spread", "Stretch", "Strip"]

Fold = Literal["lengthwise", "single", "across", "double"]

LAP: Final = 10.0
"""mm by which strips of interfacing lie over each other where they are joined (ours)."""

SEWN_JOIN: Final = 20.0
"""mm that strips of any other cloth are longer where they are joined: 1 cm of allowance on each (common practice)."""

FOLDS: Final[tuple[Fold, ...]] = get_args(Fold)


_ON_MIDDLE: Final = 1e-3  # mm


@dataclass(frozen=True, slots=True)
class Strip:
    """What a piece must lie within across the cloth: up from y = 0, or mirrored, down from the fold at `edge`."""

    edge: float = 0.0
    mirrored: bool = False

    def y(self, up: float) -> float:
        """Where on the table is what lies so far up in the strip, and the other way round, mm."""
        return self.edge - up if self.mirrored else up


@dataclass(frozen=True, slots=True)
class Spread:
    """How the cloth lies on the table, mm.

    fold:     "lengthwise" with the selvedges together, "single" opened out, "across" with the cut ends together,
              "double" with both selvedges in the middle
    one_way:  whether all tops point one way, for nap or a print with an up and a down
    selvedge: kept free along each selvedge
    gap:      left between two pieces for the blade
    repeat:   the length of a pattern in the cloth that is to meet at the notches; 0 for none
    repeat_across: its width, on the middle of which the middle of every piece is to lie; 0 for none. Middles of the
              pattern lie at y = 0 and every so far from there: at the fold, or within a repeat of the selvedge
    """

    width: float
    fold: Fold = "lengthwise"
    one_way: bool = False
    selvedge: float = 10.0
    gap: float = 4.0
    repeat: float = 0.0
    repeat_across: float = 0.0

    def bottom(self, *, on_fold: bool = False) -> float:
        """From where on a piece may lie in a strip, mm: what is not cut on the fold keeps the gap from it."""
        if self.on_fold:
            return 0.0 if on_fold else self.gap
        return self.selvedge

    @property
    def top(self) -> float:
        """Up to where pieces may lie in a strip, mm."""
        # where a middle of the pattern lies nobody knows: the fold is moved to one, or the lay begins at one
        lost = self.repeat_across * (0.5 if self.on_fold else 1.0)
        return self.depth / len(self.strips) - self.selvedge - lost

    def on_middle(self, up: float) -> bool:
        """Whether what lies so far up in a strip lies on a middle of the pattern."""
        return abs(up - round(up / self.repeat_across) * self.repeat_across) <= _ON_MIDDLE

    @property
    def on_fold(self) -> bool:
        """Whether there is a fold along the cloth."""
        return self.fold in ("lengthwise", "double")

    @property
    def depth(self) -> float:
        """How far the cloth reaches across the table, mm."""
        return self.width * (0.5 if self.on_fold else 1.0)

    @property
    def strips(self) -> tuple[Strip, ...]:
        """What pieces may lie within: all of the cloth, or what is on either side of selvedges in the middle."""
        return (Strip(), Strip(self.depth, mirrored=True)) if self.fold == "double" else (Strip(),)

    @property
    def start(self) -> float:
        """From where on pieces may lie along the cloth, mm: folded across, they keep the gap from the fold."""
        return self.gap if self.fold == "across" else 0.0

    @property
    def layers(self) -> int:
        """How many layers of cloth the blade goes through."""
        return 1 if self.fold == "single" else 2

    @property
    def turns(self) -> tuple[bool, ...]:
        """Whether a piece may lie with its top to the right (False), to the left (True)."""
        return (False,) if self.one_way or self.repeat else (False, True)


@dataclass(frozen=True, slots=True)
class LayPiece(Remembering):
    """A piece as it is laid: its cutting line as a polygon, its grain along x and its top to the right.

    times:   how often it is laid
    on_fold: whether it is half a piece, to lie with its edge at y = 0 on the fold and all of it above
    flips:   whether it may lie face up (False), face down (True)
    layers:  how many layers of cloth it is cut through
    grain:   the ends of its grain line
    notches: for the matching of a repeat: what is to meet, and where it lies along x
    strips:  in how many strips the whole piece is cut
    join:    how much longer two of them are where they are joined: LAP, SEWN_JOIN
    middle:  the y of what lies on a middle of the pattern in the cloth; None where nothing has to
    whole:   of a strip the name of what the strips make; else ""
    """

    name: str
    outline: tuple[Point, ...]
    times: int = 1
    on_fold: bool = False
    flips: tuple[bool, ...] = (False, True)
    layers: int = 2
    grain: tuple[Point, Point] | None = None
    notches: tuple[tuple[str, float], ...] = ()
    strips: int = 1
    join: float = 0.0
    middle: float | None = None
    whole: str = ""

    @property
    def across(self) -> float:
        """How wide it is across the grain, mm."""
        return max(p.y for p in self.outline) - min(p.y for p in self.outline)

    @property
    def area(self) -> float:
        """The area of its outline, mm2."""
        ends = zip(self.outline, (*self.outline[1:], self.outline[0]), strict=True)
        return 0.5 * abs(sum(a.x * b.y - a.y * b.x for a, b in ends))


@dataclass(frozen=True, slots=True)
class Placement:
    """A piece at its place: flipped over (y to -y) first, then turned by 180 degrees, then shifted by x and y, mm."""

    piece: LayPiece
    x: float
    y: float
    turned: bool = False
    flipped: bool = False

    @property
    def move(self) -> Move:
        """From the piece's own place to the cloth."""
        along = -1.0 if self.turned else 1.0
        over = -along if self.flipped else along
        return Move(along, 0.0, 0.0, over, self.x, self.y)

    @property
    def outline(self) -> tuple[Point, ...]:
        """The polygon on the cloth."""
        move = self.move
        return tuple(move.point(p) for p in self.piece.outline)

    @property
    def right(self) -> float:
        """How far along the cloth it reaches, mm."""
        left, right = self.piece.remembered("reach", lambda: _reach(self.piece.outline))
        return self.x + (-left if self.turned else right)


def _reach(outline: tuple[Point, ...]) -> tuple[float, float]:
    """How far an outline reaches along the grain, mm."""
    return min(p.x for p in outline), max(p.x for p in outline)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of cloth that lies one way, and the pieces on it."""

    cloth: Spread
    placements: tuple[Placement, ...]

    @property
    def length(self) -> float:
        """How long it is on the table, mm."""
        return max((each.right for each in self.placements), default=0.0)

    @property
    def bought(self) -> float:
        """How much cloth it takes, mm: folded across, twice what lies on the table."""
        return self.length * (2.0 if self.cloth.fold == "across" else 1.0)


@dataclass(frozen=True, slots=True)
class Lay:
    """Where every piece lies: one stretch of cloth after the other, each folded in its own way."""

    stretches: tuple[Stretch, ...]

    @property
    def length(self) -> float:
        """How much cloth it takes, mm, all its pieces apart by the gap."""
        gaps = max(0, len(self.stretches) - 1) * self.stretches[0].cloth.gap if self.stretches else 0.0
        return sum(each.bought for each in self.stretches) + gaps

    @property
    def used(self) -> float:
        """The share of the cloth that ends up in pieces, from 0 to 1."""
        cut = sum(p.piece.area * p.piece.layers for each in self.stretches for p in each.placements)
        whole = self.length * self.stretches[0].cloth.width if self.stretches else 0.0
        return cut / whole if whole else 0.0
