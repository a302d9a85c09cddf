"""What alterations of the upper bodice promise: which stretches keep their sewn length, and that all else stays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

from drafting.alterations.alteration import Promise
from drafting.alterations.bodice.upper_bodice import UpperBodice
from drafting.alterations.promises import edge_length, lengths_kept
from drafting.alterations.techniques.pivoting.fold_darts import Stretch
from drafting.pattern import Pattern, Role

__all__ = ["others_kept", "sewn_kept", "top_kept"]


def sewn_kept(what: str, *stretches: Stretch, change: float = 0.0) -> Promise:
    """A promise about the sewn length of stretches together: that it stays, or changes by so many mm."""
    return Promise(what, partial(_sewn, tuple((each.piece.name, each.names) for each in stretches)), change)


def top_kept(
    pattern: Pattern,
    top: UpperBodice,
    *redrawn: Stretch,
    armhole: float = 0.0,
    shoulder: float | None = 0.0,
    aside: Iterable[str] = (),
) -> Iterator[Promise]:
    """The promises that armhole and shoulder of a piece change by so many mm, and that nothing else changes.

    shoulder:       None where nothing is promised of it
    redrawn, aside: stretches and edges that may change as well
    """
    name = top.piece.name
    yield sewn_kept(f"the neck of {name}", top.neck)
    yield sewn_kept(f"the armhole of {name}", top.armhole, change=armhole)
    if shoulder is not None:
        yield sewn_kept(f"the shoulder of {name} as it is sewn", top.shoulder, change=shoulder)
    yield from others_kept(pattern, [name], top.neck, top.armhole, top.shoulder, *redrawn, aside=aside)


def others_kept(
    pattern: Pattern, pieces: Iterable[str], *redrawn: Stretch, aside: Iterable[str] = ()
) -> Iterator[Promise]:
    """The promises that every edge of these pieces keeps its length, dart legs and what is redrawn aside."""
    let_go = {(each.piece.name, name) for each in redrawn for name in each.names}
    for name in pieces:
        piece = pattern.piece(name)
        kept = [e.name for e in piece.edges if e.role is not Role.DART_LEG and (name, e.name) not in let_go]
        yield from lengths_kept(piece, [edge for edge in kept if edge not in set(aside)])


def _sewn(stretches: tuple[tuple[str, tuple[str, ...]], ...], pattern: Pattern) -> float:
    return sum(edge_length(pattern.piece(piece), edge) for piece, edges in stretches for edge in edges)
