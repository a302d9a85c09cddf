"""The crown of a sleeve, where its cap is divided into front and back and meets the shoulder seam."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from drafting.alterations.bodice.upper_bodice import Top, with_points_at
from drafting.alterations.techniques.pivoting.fold_darts import Redrawn, rebuilt
from drafting.alterations.techniques.redrawing.redraw_run import exact_length, led, parted
from drafting.errors import NotAPattern
from drafting.geometry import STAY, Curve, Vec, run_reversed, shift
from drafting.geometry.solve import Rates
from drafting.geometry.tolerance import SOLVED
from drafting.pattern import EdgeRef, Notch, Pattern, Piece

__all__ = ["Caps", "caps_over", "crown_raised", "split_moved"]

_AT_CROWN: Final = 1e-3
"""mm. A notch this near the crown is the crown's own."""


@dataclass(frozen=True, slots=True)
class Caps:
    """The two halves of a sleeve's cap, by the names of their edges; each walked from the underarm to the crown.

    one, other: the half sewn to the first armhole asked for, and that sewn to the second
    """

    piece: Piece
    one: str
    other: str

    def walked(self, name: str) -> tuple[Curve, ...]:
        """The curves of a half from the underarm to the crown."""
        curves = self.piece.edge(name).curves
        return run_reversed(curves) if self._backward(name) else curves

    def _backward(self, name: str) -> bool:
        other = self.piece.edge(self.other if name == self.one else self.one)
        return self.piece.edge(name).start == other.end

    def with_halves(self, halves: dict[str, tuple[Curve, ...]]) -> Piece:
        """The piece with these halves redrawn, given from the underarm to the crown."""
        edges = [
            replace(self.piece.edge(name), curves=run_reversed(run) if self._backward(name) else run)
            for name, run in halves.items()
        ]
        return rebuilt(self.piece, Redrawn(tuple(edges)))

    def crown_end(self, name: str) -> str:
        """Which end of the edge, in outline order, lies at the crown."""
        return "start" if self._backward(name) else "end"


def caps_over(pattern: Pattern, one: Top, other: Top) -> Caps | None:
    """The halves of the cap that are sewn to these two armholes; None where no sleeve in one piece is set in."""
    first, second = _cap_of(pattern, one), _cap_of(pattern, other)
    if first is None or second is None or first.piece != second.piece or first.edge == second.edge:
        return None
    return Caps(pattern.piece(first.piece), first.edge, second.edge)


def split_moved(caps: Caps, by: float) -> Piece:
    """The sleeve with its cap divided `by` mm further into the first half, its crown notch and its crown mark there.

    The cap as a whole keeps its shape. Raises NotAPattern where that half is not so long.
    """
    one, other = caps.walked(caps.one), caps.walked(caps.other)
    left = exact_length(one) - by
    if left < 20.0:
        raise NotAPattern(caps.piece.name, f'its "{caps.one}" is only {left + by:.0f} mm long')
    kept, given = parted(one, left)
    piece = caps.with_halves({caps.one: kept, caps.other: (*other, *run_reversed(given))})

    def counted(notch: Notch) -> Notch:
        name, at = notch.station.edge, notch.station.at
        if name not in (caps.one, caps.other) or notch.station.end != caps.crown_end(name) or at <= _AT_CROWN:
            return notch
        at += by if name == caps.other else -by
        if at < 0.0:
            raise NotAPattern(piece.name, f'the notch "{notch.name}" lies where the crown is to be')
        return notch.moved_to(at)

    piece = replace(piece, notches=tuple(counted(notch) for notch in piece.notches))
    return with_points_at(piece, [(one[-1].end, kept[-1].end)])


def crown_raised(caps: Caps, by: float) -> Piece:
    """The sleeve with its crown moved so that both halves of the cap are longer by exactly `by` mm, underarm as it is.

    Raises NotAPattern where no such cap is to be had.
    """
    halves = {name: caps.walked(name) for name in (caps.one, caps.other)}
    wanted = {name: exact_length(run) + by for name, run in halves.items()}
    crown = halves[caps.one][-1].end
    # a small step of the crown changes each half by about its part along the way there
    rates = Rates(*((crown - run[0].start).unit() for run in halves.values()))
    moved, off = Vec(0.0, 0.0), [by, by]
    for _ in range(30):
        step = rates.step(*off)
        if step is None:
            break
        moved, before = moved + step, off
        drawn = {name: led(run, STAY, shift(moved)) for name, run in halves.items()}
        off = [wanted[name] - exact_length(run) for name, run in drawn.items()]
        if max(map(abs, off)) <= SOLVED / 50:
            return with_points_at(caps.with_halves(drawn), [(crown, crown + moved)])
        rates = rates.learnt(step, *(was - now for was, now in zip(before, off, strict=True)))
    raise NotAPattern(caps.piece.name, f"no cap {by:.1f} mm longer in front and behind stands on this biceps line")


def _cap_of(pattern: Pattern, top: Top) -> EdgeRef | None:
    ref = (top.piece.name, top.armhole.parts[0].name)
    for seam in pattern.seams:
        for run, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if any((each.piece, each.edge) == ref for each in run) and len(other) == 1:
                return other[0]
    return None
