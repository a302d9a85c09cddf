"""The lower edge of a sleeve that goes into a cuff, and what is marked on it: the slit, the pleats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from drafting.dataclass import dataclass
from drafting.errors import NotAPattern
from drafting.geometry import Line, Point, run_place
from drafting.parts.what_helps import set_here
from drafting.pattern import EdgeRef, Level, MarkLine, Notch, NotchMark, Piece, Place, Station, edges_at

__all__ = [
    "CUFF",
    "GATHERED",
    "PLEATED",
    "WristEdge",
    "pleat_arrows",
    "pleats_at",
    "slit_line",
    "wrist_edge",
    "wrist_notches",
]

CUFF: Final = "cuff"
GATHERED, PLEATED = "gathers", "pleats"
_SLIT_AT: Final = 0.25  # of the lower edge, from the underarm seam at the back (common practice)
_ARROW: Final = 14.0  # mm above the edge at which the arrow of a pleat lies, clear of the names along it
_ROUNDING: Final = 1e-6  # mm
_PLEATS_FROM: Final = 25.0  # mm from the slit to the first pleat, and
_DEEPEST: Final = 60.0  # mm that a pleat takes up at the most (ours)
_BETWEEN: Final = 10.0  # from one to the next (ours)


@dataclass(frozen=True, slots=True)
class WristEdge:
    """The lower edge of a sleeve from its back underarm to its front one: its edges, how long it is, where the slit is.

    long, slit: mm
    """

    piece: Piece
    refs: tuple[EdgeRef, ...]
    long: float
    slit: float

    def station(self, at: float) -> Station:
        """The place so far from the back underarm seam."""
        for ref in self.refs:
            long = self.piece.edge(ref.edge).length
            if at <= long or ref is self.refs[-1]:
                return Station(ref.edge, at, "end" if ref.backward else "start")
            at -= long
        raise NotAPattern(CUFF, reason="the sleeve has no lower edge")

    def inside(self, at: float, deep: float) -> Point:
        """The point so far from the back underarm seam, and so deep inside the sleeve, mm."""
        gone = 0.0
        at = self.long - at if self.refs[0].backward else at
        for edge in edges_at(self.piece, Place.WRIST):
            if at - gone <= edge.length + _ROUNDING:
                foot, along = run_place(edge.curves, min(at - gone, edge.length))
                return foot + along.left() * deep
            gone += edge.length
        raise NotAPattern(CUFF, reason="the sleeve has no lower edge")


def wrist_edge(sleeve: Piece) -> WristEdge:
    """The lower edge of a sleeve."""
    edges = edges_at(sleeve, Place.WRIST)
    before = sleeve.beside(edges[0].name)[0]
    from_back = before.half is None or str(before.half) == "back"
    refs = [EdgeRef(sleeve.name, edge.name, backward=not from_back) for edge in edges]
    long = sum(edge.length for edge in edges)
    return WristEdge(sleeve, tuple(refs if from_back else reversed(refs)), long, _SLIT_AT * long)


def pleats_at(wrist: WristEdge, more: float, count: int) -> tuple[tuple[float, float], ...]:
    """Where each pleat begins and ends along the lower edge, mm: beside the slit toward the front."""
    deep = more / count
    at = wrist.slit + _PLEATS_FROM
    if deep > _DEEPEST or at + count * (deep + _BETWEEN) > wrist.long:
        said = f"{more:.0f} mm are too much for {count} pleats"
        raise NotAPattern(CUFF, reason=f"{said}: take more of them, or gathers", remedies=(set_here("into", GATHERED),))
    return tuple((at + k * (deep + _BETWEEN), at + k * (deep + _BETWEEN) + deep) for k in range(count))


def wrist_notches(wrist: WristEdge, folds: Sequence[tuple[float, float]]) -> list[tuple[Notch, str]]:
    """The notches of the sleeve, each with the name of that of the cuff which it meets."""
    marks = [(Notch("slit", wrist.station(wrist.slit), marks=NotchMark.BALANCE), "slit")]
    for k, (one, other) in enumerate(folds, start=1):
        # the fold is brought to the place beside it, toward the slit, so that the pleat faces it
        marks.append((Notch(f"pleat {k} place", wrist.station(one), marks=NotchMark.PLEAT_PLACE), f"pleat {k}"))
        marks.append((Notch(f"pleat {k} fold", wrist.station(other), marks=NotchMark.PLEAT_FOLD), f"pleat {k}"))
    return marks


def slit_line(wrist: WristEdge, long: float) -> MarkLine:
    """The slit, square to the lower edge."""
    return MarkLine("slit", wrist.inside(wrist.slit, 0.0), wrist.inside(wrist.slit, long), level=Level.SLIT)


def pleat_arrows(wrist: WristEdge, folds: Sequence[tuple[float, float]]) -> Iterator[MarkLine]:
    """An arrow above each pleat, from its fold to where that is brought, toward the slit."""
    for k, (one, other) in enumerate(folds, start=1):
        tail, tip = wrist.inside(other, _ARROW), wrist.inside(one, _ARROW)
        back = min(_ARROW, 0.4 * (other - one))
        above, below = (wrist.inside(one + back, _ARROW + side * 0.5 * back) for side in (1.0, -1.0))
        head = (Line(tail, tip), Line(tip, above), Line(above, tip), Line(tip, below))
        yield MarkLine(f"pleat {k}, folded toward the slit", tail, below, head)
