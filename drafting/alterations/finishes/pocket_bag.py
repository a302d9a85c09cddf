"""The bag of a pocket in a seam: drawn behind the mouth that it is sewn to."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.finishes.pocket_sizes import by_height
from drafting.dataclass import dataclass
from drafting.errors import StepRefused
from drafting.geometry import Curve, Line, Point, Vec, bend, cut_run, end_tangents, mirror, run_reversed, shift, turn
from drafting.pattern import (
    Cut,
    Edge,
    Grain,
    Identity,
    Pattern,
    Piece,
    PieceKind,
    Place,
    Role,
    free_piece_name,
    move_piece,
    seam_allowance,
)
from drafting.pattern.pockets import ABOVE_HEM, above_hem

__all__ = ["LEAST_UNDER_MOUTH", "Mouth", "bag_like", "draw_bag"]

_WIDE: Final = 0.086  # of the height: 14 cm for a woman, about what a hand needs to turn (ours)
_HANGS: Final = 0.062  # of the height: 10 cm, 4 in, for a woman
_MOST_LEAN: Final = math.radians(30.0)  # of a side seam from the grain, as in a gored skirt (ours)
_LEAST_BELOW: Final = 20.0  # mm that a bag hangs below its mouth at least (ours)
_CLEAR_OF_HEM: Final = 2.0  # mm that a bag whose depth is left out ends higher still, its foot being aslant (ours)

LEAST_UNDER_MOUTH: Final = _LEAST_BELOW + ABOVE_HEM + 8.0
"""mm from the end of a mouth down its seam to the hem, so that a bag has its place there on a seam aslant (ours)."""
_GRAIN: Final = 0.3  # of the length of the bag to either side of its middle
_TOP_ROUND, _FOOT_ROUND, _SLANT = 0.4, 0.4, 0.15  # shares of the width: how the bag is rounded (ours)


@dataclass(frozen=True, slots=True)
class Mouth:
    """The side seam of one piece: its edge, and where the mouth begins and ends on it, mm from its start.

    downward: whether the outline runs down it, from the waist to the hem
    """

    piece: Piece
    edge: Edge
    low: float
    high: float
    downward: bool

    @property
    def down(self) -> tuple[Curve, ...]:
        """The mouth from its upper end."""
        _, beyond = cut_run(self.edge.curves, self.low)
        mouth, _ = cut_run(beyond, self.high - self.low)
        return mouth if self.downward else run_reversed(mouth)

    @property
    def up(self) -> Vec:
        """The direction in which the bag hangs, upward: that of the grain, or of a mouth that leans far from it."""
        chord = (self.down[0].start - self.down[-1].end).unit()
        grain = self.piece.grain
        along = chord if grain is None else grain.direction
        along = along if along.dot(chord) > 0.0 else -along
        return along if abs(along.angle_to(chord)) <= _MOST_LEAN else chord


def draw_bag(name: str, pattern: Pattern, half: Mouth, *, width: float | None, hangs: float | None) -> Piece:
    """The half of the bag that is sewn to the mouth of a piece, where it lies behind it.

    name: what the step is called; width, hangs: mm, None for what goes by the height of the wearer
    Raises StepRefused for a bag so wide and so short that it cannot be rounded.
    """
    piece = half.piece
    wide = by_height(pattern, _WIDE) if width is None else width
    below = _below_mouth(name, pattern, half, hangs)
    round_, middle, low = _round(name, half, wide, below)
    mouth = half.down if half.downward else run_reversed(half.down)
    allowance, reach = seam_allowance(piece), half.up * (_GRAIN * low)
    return Piece(
        free_piece_name(pattern, f"{piece.name} pocket"),
        (
            Edge("mouth", mouth, Role.SEAM, allowance, Place.POCKET_MOUTH),
            Edge("round", round_, Role.SEAM, allowance, Place.POCKET_EDGE),
        ),
        Cut(2, mirror=True),
        Grain(middle - reach, middle + reach),
        points_meant=(("mouth", "round"), ("round", "mouth")),  # no line runs on from a bag
        identity=Identity(PieceKind.POCKET, piece.identity.part, of=piece.identity.kind, side=piece.identity.side),
    )


def _below_mouth(name: str, pattern: Pattern, half: Mouth, hangs: float | None) -> float:
    """How far the bag hangs below its mouth, mm. Raises StepRefused where the hem is too near for that."""
    below = by_height(pattern, _HANGS) if hangs is None else hangs
    left = above_hem(half.down, half.piece)
    if hangs is None and left is not None:
        below = min(below, left - ABOVE_HEM - _CLEAR_OF_HEM)
    if below < _LEAST_BELOW:
        ends = 0.0 if left is None else max(left, 0.0)
        raise StepRefused(
            name,
            reason=f'"{half.piece.name}" ends {ends:.0f} mm below the mouth, and a bag that hangs '
            f"{_LEAST_BELOW:.0f} mm below it has to end {ABOVE_HEM:.0f} mm above the hem: let the mouth begin "
            "higher, or make the piece longer",
            too_much=("below_waist", "mouth"),
        )
    return below


def _round(name: str, half: Mouth, wide: float, below: float) -> tuple[tuple[Curve, ...], Point, float]:
    """The edge of the bag from one end of the mouth to the other, in the direction of its outline; its middle, and
    how far it reaches down from the upper end of the mouth, mm.
    """
    down = half.down
    top, foot, along = down[0].start, down[-1].end, -half.up
    # the outline runs anticlockwise, so that the piece lies to the left of its edges
    inward = along.left() if half.downward else along.right()
    low = (foot - top).dot(along) + below
    begin = 0.5 * (foot - top).dot(inward)

    def at(share: float, deep: float) -> Point:
        return top + inward * (begin + share * wide) + along * deep

    square = end_tangents(down[0])[0].left() if half.downward else end_tangents(down[0])[0].right()
    falls = (begin + wide) * square.dot(along) / square.dot(inward)
    shoulder, knee = at(1.0, falls + _TOP_ROUND * wide), at(1.0, low - _FOOT_ROUND * wide)
    if (knee - shoulder).dot(along) <= 0.0:
        reason = f"a bag {wide:.0f} mm wide and {low:.0f} mm long cannot be rounded"
        raise StepRefused(name, reason=reason, too_much=("width",))
    turn = at(1.0 - _FOOT_ROUND, low)
    lowest = foot + inward * (_SLANT * wide) + along * below
    round_: tuple[Curve, ...] = (
        bend(top, square, shoulder, along),
        Line(shoulder, knee),
        bend(knee, along, turn, -inward),
        bend(turn, -inward, foot, foot - lowest),
    )
    return run_reversed(round_) if half.downward else round_, at(0.5, 0.5 * low), low


def bag_like(pattern: Pattern, bag: Piece, first: Mouth, half: Mouth, taken: Sequence[str]) -> Piece:
    """The other half of a bag: the same shape, or its mirror image, where it lies behind its own piece."""
    top, own = first.down[0].start, half.down[0].start
    move = turn(top, first.up.angle_to(half.up))
    if first.downward is not half.downward:
        move = move.then(mirror(top, half.up))
    made = move_piece(bag, move.then(shift(own - top)))
    what = half.piece.identity
    identity = Identity(PieceKind.POCKET, what.part, of=what.kind, side=what.side)
    return replace(made, name=free_piece_name(pattern, f"{half.piece.name} pocket", taken), identity=identity)
