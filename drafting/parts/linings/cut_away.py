r"""A piece without a strip along one of its edges: the part inside a facing, or above a shorter hem.

outline of the piece, the strip       what is left: the free edge of the strip
along its neck beside it              is its own edge there
____/~~~~\_____                        _          _
|   (strip )    |                      | \________/ |
|               |                      |            |
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.errors import NotAPattern
from drafting.geometry import Point, cut_run, distance, lerp, run_reversed
from drafting.parts.finishes.strip_seams import ALL_OF_IT, LEAST_REST, Strip
from drafting.pattern import Edge, EdgeRef, Grain, Notch, Piece, Place, Role, Station, closed

__all__ = ["cut_away", "grain_off_hem"]

_OF_SHORT_GRAIN: Final = 1.0 / 3.0


def cut_away(
    piece: Piece, strip: Strip, name: str, role: Role, place: Place, allowance: float, *, over_darts: bool = False
) -> Piece:
    """The piece without the strip; what the free edge of that is on it: its name, role and place, its allowance in mm.

    over_darts: whether the strip may end at the leg of a dart, which is then as much shorter
    Raises NotAPattern where the strip goes over a dart or on to another piece, so that it does not lie on this one.
    """
    _accept_on_piece(piece, strip, over_darts=over_darts)
    free = _free_edge(strip)
    after = {each.name for each in strip.piece.edges[: strip.piece.index(free.name)]}
    kept: list[Edge] = []
    gone: dict[str, tuple[float, float]] = {}
    placed = Edge(name, run_reversed(free.curves), role, allowance, place)
    for each in piece.edges:
        traced = strip.edge_for(EdgeRef(piece.name, each.name))
        if traced is None:
            kept.append(each)
            continue
        long = strip.piece.edge(traced).length
        if any(ref.edge == each.name for ref in strip.faced):
            if placed not in kept:
                kept.append(placed)
        elif each.length - long > ALL_OF_IT:
            _accept_rest(piece, each, each.length - long, after=traced in after)
            first, last = cut_run(each.curves, long if traced in after else each.length - long)
            kept.append(replace(each, curves=last if traced in after else first))
            gone[each.name] = (long, 0.0) if traced in after else (0.0, long)
        else:
            gone[each.name] = (each.length, each.length)
    names = {each.name for each in kept}
    order = [each.name for each in kept]
    at = order.index(placed.name)
    beside = ((order[at - 1], placed.name), (placed.name, order[(at + 1) % len(order)]))
    return replace(
        piece,
        edges=closed(piece.name, tuple(kept)),
        notches=tuple(_notches(piece, names, gone)),
        points_meant=(*(pair for pair in piece.points_meant if set(pair) <= names), *beside),
    )


def _accept_rest(piece: Piece, edge: Edge, rest: float, *, after: bool) -> None:
    """Raise NotAPattern where so little is left of an edge between the strip and a dart that neither can be sewn."""
    before, behind = piece.beside(edge.name)
    if rest < LEAST_REST and (behind if after else before).role is Role.DART_LEG:
        raise NotAPattern(
            piece.name,
            reason=f"{rest:.0f} mm would be left of its lining between the facing and a dart: give the "
            "facing less depth, or move the dart",
        )


def _free_edge(strip: Strip) -> Edge:
    return next(edge for edge in strip.piece.edges if edge.place is Place.FACING_EDGE)


def _accept_on_piece(piece: Piece, strip: Strip, *, over_darts: bool) -> None:
    """Raise NotAPattern where the strip does not lie along one unbroken run of the piece's edges."""
    on = [ref for ref, _ in strip.edges if ref.piece == piece.name]
    if len(on) < len(strip.edges):
        raise NotAPattern(
            piece.name, reason="a facing that goes on over a seam in its pieces cannot be left out of a lining"
        )
    places = sorted(piece.index(ref.edge) for ref in on)
    n = len(piece.edges)
    begin = next((k for i, k in enumerate(places) if (k - 1) % n not in places), places[0])
    run = [(begin + k) % n for k in range(len(places))]
    if sorted(run) != places or any(piece.edges[k].role is Role.DART_LEG and not over_darts for k in run):
        raise NotAPattern(
            piece.name,
            reason="a dart comes into its facing, which then cannot be left out of a lining: give the part of the "
            "facing a smaller depth, or move the dart",
        )


def _notches(piece: Piece, names: Sequence[str] | set[str], gone: dict[str, tuple[float, float]]) -> list[Notch]:
    """The notches that lie on what is kept, counted from the ends that their edges have now."""
    out: list[Notch] = []
    for notch in piece.notches:
        station = notch.station
        if station.edge not in names:
            continue
        before, behind = gone.get(station.edge, (0.0, 0.0))
        long = piece.edge(station.edge).length
        off = before if station.end == "start" else behind
        other = behind if station.end == "start" else before
        if off <= station.at <= long - other:
            out.append(replace(notch, station=Station(station.edge, station.at - off, station.end)))
    return out


def grain_off_hem(grain: Grain | None, hem: Point, by: float) -> Grain | None:
    """The grain line, shorter by so many mm at its end nearer to the hem, or by a third where it is short."""
    if grain is None:
        return None
    share = min(by / distance(grain.start, grain.end), _OF_SHORT_GRAIN)
    if distance(grain.start, hem) < distance(grain.end, hem):
        return Grain(lerp(grain.start, grain.end, share), grain.end)
    return Grain(grain.start, lerp(grain.end, grain.start, share))
