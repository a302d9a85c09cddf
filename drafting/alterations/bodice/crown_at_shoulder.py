"""The crown of a sleeve, where its cap is divided into front and back and meets the shoulder seam."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.alterations.bodice.upper_bodice import UpperBodice, with_points_at
from drafting.alterations.techniques.pivoting.fold_darts import Redrawn, rebuilt
from drafting.alterations.techniques.redrawing.redraw_run import cut_near_joint, ends_moved, exact_length
from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import STAY, Curve, Point, Vec, run_reversed, shift
from drafting.geometry.solve import Rates
from drafting.geometry.tolerance import SOLVED
from drafting.pattern import EdgeRef, Notch, Pattern, Piece, WalkedEdge, sewn_runs

__all__ = ["Caps", "cap_halves_at", "crown_raised", "split_moved"]

_AT_CROWN: Final = 1e-3
"""mm. A notch this near the crown is the crown's own."""

_LEAST_HALF: Final = 20.0
"""mm that are left of a half of the cap, at least (our figure)."""


@dataclass(frozen=True, slots=True)
class Caps:
    """The two halves of a sleeve's cap, each walked from the underarm to the crown.

    one, other: the half sewn to the first armhole asked for, and that sewn to the second
    """

    piece: Piece
    one: WalkedEdge
    other: WalkedEdge

    @property
    def names(self) -> frozenset[str]:
        """The names of both edges."""
        return frozenset((self.one.name, self.other.name))

    @property
    def crown(self) -> Point:
        """Where both halves meet."""
        return self.one.run[-1].end

    def redrawn(self, one: Sequence[Curve], other: Sequence[Curve]) -> Piece:
        """The piece with both halves redrawn, its crown mark where they then meet."""
        piece = rebuilt(self.piece, Redrawn((self.one.redrawn(one), self.other.redrawn(other))))
        return with_points_at(piece, [(self.crown, one[-1].end)])


def cap_halves_at(pattern: Pattern, one: UpperBodice, other: UpperBodice) -> Caps | None:
    """The halves of the cap that are sewn to these two armholes; None where no sleeve in one piece is set in."""
    first, second = _cap_of(pattern, one), _cap_of(pattern, other)
    if first is None or second is None or first.piece != second.piece or first.edge == second.edge:
        return None
    piece = pattern.piece(first.piece)
    edges = piece.edge(first.edge), piece.edge(second.edge)
    halves = (WalkedEdge(edge, edge.start == beside.end) for edge, beside in (edges, edges[::-1]))
    return Caps(piece, *halves)


def split_moved(caps: Caps, by: float) -> Piece:
    """The sleeve with its cap divided `by` mm further into the first half, its crown notch and its crown mark there.

    The cap as a whole keeps its shape. Raises NotAPattern where that half is not so long.
    """
    one, other = caps.one.run, caps.other.run
    left = exact_length(one) - by
    if left < _LEAST_HALF:
        raise NotAPattern(caps.piece.name, reason=f'its "{caps.one.name}" is only {left + by:.0f} mm long')
    kept, given = cut_near_joint(one, left)
    piece = caps.redrawn(kept, (*other, *run_reversed(given)))

    def at_its_place(notch: Notch) -> Notch:
        half = next((half for half in (caps.one, caps.other) if half.name == notch.station.edge), None)
        if half is None or half.counted_from_first(notch) or notch.station.at <= _AT_CROWN:
            return notch
        at = notch.station.at + (by if half is caps.other else -by)
        if at < 0.0:
            raise NotAPattern(piece.name, reason=f'the notch "{notch.name}" lies where the crown is to be')
        return notch.moved_to(at)

    return replace(piece, notches=tuple(map(at_its_place, piece.notches)))


def crown_raised(caps: Caps, by: float) -> Piece:
    """The sleeve with its crown moved so that both halves of the cap are longer by exactly `by` mm, underarm as it is.

    Raises NotAPattern where no such cap can be drawn.
    """
    halves = caps.one.run, caps.other.run
    wanted = [exact_length(run) + by for run in halves]
    # a small step of the crown changes each half by about its part along the way there
    rates = Rates(*((caps.crown - run[0].start).unit() for run in halves))
    moved, off = Vec(0.0, 0.0), [by, by]
    for _ in range(30):
        step = rates.step(*off)
        if step is None:
            break
        moved, before = moved + step, off
        runs = [ends_moved(run, STAY, shift(moved)) for run in halves]
        off = [goal - exact_length(run) for goal, run in zip(wanted, runs, strict=True)]
        if max(map(abs, off)) <= SOLVED / 50:
            return caps.redrawn(*runs)
        rates = rates.learnt(step, *(was - now for was, now in zip(before, off, strict=True)))
    raise NotAPattern(
        caps.piece.name, reason=f"no cap {by:.1f} mm longer in front and behind stands on this biceps line"
    )


def _cap_of(pattern: Pattern, top: UpperBodice) -> EdgeRef | None:
    sewn = sewn_runs(pattern, top.piece.name, [top.armhole.parts[0].name])
    return next((other[0] for _, _, other in sewn if len(other) == 1), None)
