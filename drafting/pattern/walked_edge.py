"""An edge walked from one of its ends: towards the waist, from the underarm, up to the crown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drafting.dataclass import dataclass
from drafting.geometry import Curve, run_reversed
from drafting.pattern.locate import from_start
from drafting.pattern.piece_parts import Edge, Notch, Station

__all__ = ["WalkedEdge"]


@dataclass(frozen=True, slots=True)
class WalkedEdge:
    """An edge and the direction in which it is walked.

    backward: whether against the outline, which runs anticlockwise
    """

    edge: Edge
    backward: bool

    @property
    def name(self) -> str:
        """The name of the edge."""
        return self.edge.name

    @property
    def run(self) -> tuple[Curve, ...]:
        """Its curves in the direction of the walk."""
        return run_reversed(self.edge.curves) if self.backward else self.edge.curves

    def redrawn(self, run: Sequence[Curve]) -> Edge:
        """The edge with other curves, given in the direction of the walk."""
        return replace(self.edge, curves=run_reversed(run) if self.backward else tuple(run))

    def along(self, station: Station) -> float:
        """How far along the walk a station of the edge lies, mm."""
        at = from_start(self.edge, station)
        return self.edge.length - at if self.backward else at

    def counted_from_first(self, notch: Notch) -> bool:
        """Whether a notch of the edge is counted from where the walk begins."""
        return (notch.station.end == "start") != self.backward

    def notch_at(self, notch: Notch, along: float, length: float) -> Notch:
        """A notch of the edge so many mm along the walk, on the edge redrawn to that length, mm."""
        return notch.moved_to(along if self.counted_from_first(notch) else length - along)
