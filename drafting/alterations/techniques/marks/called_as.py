"""A piece whose parts are called as those of another piece: what is the same on both has the same name afterwards."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import replace

from drafting.pattern import Piece, free_name, half_of

__all__ = ["called_as"]


def called_as(piece: Piece, like: Piece) -> Piece:
    """The piece under the name of another, each of its edges, notches, lines and points named as the like one there.

    What has no like keeps its own name, with a number where another part has that now.
    """
    edge = _names(_edges(piece), _edges(like))
    notch = _names(_notches(piece), _notches(like))
    line, point = _names(_lines(piece), _lines(like)), _names(_points(piece), _points(like))
    return replace(
        piece,
        name=like.name,
        edges=tuple(replace(each, name=edge[each.name]) for each in piece.edges),
        darts=tuple(
            replace(each, legs=(edge[each.legs[0]], edge[each.legs[1]]), aims_at=point.get(each.aims_at, each.aims_at))
            for each in piece.darts
        ),
        notches=tuple(
            replace(each, name=notch[each.name], station=replace(each.station, edge=edge[each.station.edge]))
            for each in piece.notches
        ),
        lines=tuple(replace(each, name=line[each.name]) for each in piece.lines),
        points=tuple(replace(each, name=point[each.name]) for each in piece.points),
        points_meant=tuple((edge[one], edge[other]) for one, other in piece.points_meant),
    )


_Known = Iterator[tuple[str, Hashable]]
"""The name of each part, and what it is; None where that is not known."""


def _edges(piece: Piece) -> _Known:
    for edge in piece.edges:
        yield edge.name, None if edge.place is None else (edge.place, half_of(piece, edge))


def _notches(piece: Piece) -> _Known:
    where = dict(_edges(piece))
    for notch in piece.notches:
        yield notch.name, None if notch.marks is None else (notch.marks, where[notch.station.edge])


def _lines(piece: Piece) -> _Known:
    for line in piece.lines:
        yield line.name, None if line.level is None else (line.level, line.onward)


def _points(piece: Piece) -> _Known:
    for mark in piece.points:
        yield mark.name, mark.landmark


def _names(own: Iterable[tuple[str, Hashable]], others: Iterable[tuple[str, Hashable]]) -> dict[str, str]:
    """The new name of each part: that of the first other which is the same and has not been taken."""
    left, named, plain = list(others), dict[str, str](), list[str]()
    for name, what in own:
        like = None if what is None else next((each for each in left if each[1] == what), None)
        if like is None:
            plain.append(name)
        else:
            left.remove(like)
            named[name] = like[0]
    for name in plain:
        named[name] = free_name(name, set(named.values()))
    return named
